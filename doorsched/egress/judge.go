package egress

import (
	"slices"

	"example.com/lockrail/doorsched"
)

// Outcome is one rule's judgement of one door.
type Outcome struct {
	Rule *Rule
	Judgement
}

// Report is everything the rules say about one door.
type Report struct {
	Verdict   doorsched.Verdict
	Outcomes  []Outcome // in the order of Rules
	Findings  []doorsched.Finding
	NotJudged []doorsched.NotJudged
	Site      []doorsched.SiteLine
	Assumed   []doorsched.Assumption
}

// JudgeDoor judges one door on an edition with every rule of that edition.
func JudgeDoor(v doorsched.View, e doorsched.Edition) Report {
	return judgeWith(rulesOf(e), v, e)
}

// Worst returns only the verdict, without making any text: the fast path for
// trying candidates.
func Worst(v doorsched.View, e doorsched.Edition) doorsched.Verdict {
	if OutOfScope(v) {
		return doorsched.OutOfScope
	}
	worst := doorsched.NoConflict
	for _, r := range rulesOf(e) {
		worst = min(worst, weigh(r, r.Judge(Case{v, e})))
	}
	return worst
}

// weigh is what one judgement does to a door's verdict. A rule that waits for a
// measurement on site does not touch it.
func weigh(r *Rule, j Judgement) doorsched.Verdict {
	worst := doorsched.NoConflict
	for _, f := range j.Faults {
		worst = min(worst, severity(r, f))
	}
	if waitsFor(j) != "" && waitsFor(j) != doorsched.StageCommissioning {
		worst = min(worst, doorsched.QueryOpen)
	}
	return worst
}

// waitsFor is the stage at which a judgement's open part can be decided; empty
// where nothing is open.
func waitsFor(j Judgement) doorsched.Stage {
	switch {
	case len(j.Needs) == 0:
		return ""
	case j.OnSite:
		return doorsched.StageCommissioning
	}
	return needStage(j.Needs)
}

func severity(r *Rule, f Fault) doorsched.Verdict {
	if f.Severity != 0 {
		return f.Severity
	}
	return r.Severity
}

// needStage is the latest stage among the fields a rule waits for.
func needStage(ids []doorsched.FieldID) doorsched.Stage {
	latest := doorsched.StageDesign
	for _, id := range ids {
		i, _ := doorsched.FieldInfo(id)
		if i.Stage == doorsched.StageCommissioning || i.Stage == doorsched.StageSurvey && latest == doorsched.StageDesign {
			latest = i.Stage
		}
	}
	return latest
}

// OutOfScope reports whether the opening is known to hold no swinging door of
// ours: a lift, sliding or overhead door, a cased opening, a gate, existing to
// remain, or by others.
func OutOfScope(v doorsched.View) bool {
	if k, ok := doorsched.OpeningKind.In(v).Get(); ok && k != "swinging" {
		return true
	}
	p, ok := doorsched.Phase.In(v).Get()
	return ok && (p == "existing_to_remain" || p == "by_others" || p == "remove")
}

func judgeWith(rules []*Rule, v doorsched.View, e doorsched.Edition) Report {
	if OutOfScope(v) {
		return Report{Verdict: doorsched.OutOfScope}
	}
	rep := Report{Verdict: doorsched.NoConflict, Outcomes: make([]Outcome, 0, len(rules))}
	c := Case{v, e}
	if a, ok := c.assumedEgress(); ok {
		rep.Assumed = append(rep.Assumed, a)
	}
	for _, r := range rules {
		j := r.Judge(c)
		rep.Outcomes = append(rep.Outcomes, Outcome{r, j})
		rep.Verdict = min(rep.Verdict, weigh(r, j))
		rep.Site = append(rep.Site, withRule(r, e, j.Site)...)
		rep.Assumed = addAssumed(rep.Assumed, j.Assumed)
		if stage := waitsFor(j); stage != "" {
			rep.NotJudged = append(rep.NotJudged, doorsched.NotJudged{Rule: r.Slug, Needs: j.Needs, Stage: stage})
		}
	}
	for _, o := range rep.Outcomes {
		for _, f := range o.Faults {
			rep.Findings = append(rep.Findings, finding(o.Rule, c, f, rep.Outcomes))
		}
	}
	slices.SortStableFunc(rep.Findings, doorsched.Finding.Compare)
	return rep
}

// addAssumed leaves out what another rule assumed already.
func addAssumed(have, more []doorsched.Assumption) []doorsched.Assumption {
	for _, a := range more {
		if !slices.ContainsFunc(have, func(b doorsched.Assumption) bool {
			return a.Field == b.Field && a.Value == b.Value && a.Reason == b.Reason
		}) {
			have = append(have, a)
		}
	}
	return have
}

func withRule(r *Rule, e doorsched.Edition, lines []doorsched.SiteLine) []doorsched.SiteLine {
	for i := range lines {
		lines[i].Rule = r.Slug
		if lines[i].Citation == (doorsched.Citation{}) {
			lines[i].Citation = r.Cite[e]
		}
	}
	return lines
}

func finding(r *Rule, c Case, f Fault, all []Outcome) doorsched.Finding {
	cite, refs := r.Cite[c.Edition], r.Refs
	if f.Cite != (doorsched.Citation{}) {
		cite = f.Cite
	}
	if f.Refs != nil {
		refs = f.Refs
	}
	out := doorsched.Finding{
		Rule: r.Slug, Refs: refs, Severity: severity(r, f), Door: c.View.Mark,
		Fields: f.Fields, Value: f.Value, Limit: f.Limit, Citation: cite, Message: r.Say(c, f),
	}
	for _, id := range f.Fields {
		if cell := c.View.Cell(id); !cell.IsZero() {
			out.Cells = append(out.Cells, cell)
		}
	}
	for _, m := range f.Remedies {
		if mends(r, c, f, m, all) {
			out.Remedies = append(out.Remedies, m.Text)
		}
	}
	return out
}

// mends judges the door again, by every rule, with the remedy's changes: the
// fault must be gone and no fault may have come that was not there.
func mends(r *Rule, c Case, f Fault, m Remedy, before []Outcome) bool {
	if len(m.Changes) == 0 {
		return true
	}
	var over doorsched.Record
	for _, ch := range m.Changes {
		over.Put(doorsched.Value{Field: ch.Field, Data: ch.Data, Origin: doorsched.Derived})
	}
	c.View = c.View.With(&over)
	for _, o := range before {
		for _, g := range o.Rule.Judge(c).Faults {
			if o.Rule == r && g.Item == f.Item || !hasItem(o.Faults, g.Item) {
				return false
			}
		}
	}
	return true
}

func hasItem(fs []Fault, item string) bool {
	return slices.ContainsFunc(fs, func(g Fault) bool { return g.Item == item })
}
