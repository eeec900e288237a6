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
	return judgeWith(Rules(), v, e)
}

// Worst returns only the verdict and the not-judged count's first needs, without
// making any text: the fast path for trying candidates.
func Worst(v doorsched.View, e doorsched.Edition) doorsched.Verdict {
	if OutOfScope(v) {
		return doorsched.OutOfScope
	}
	worst := doorsched.NoConflict
	for _, r := range Rules() {
		if !r.On(e) {
			continue
		}
		worst = min(worst, weigh(r, r.Judge(Case{v, e})))
	}
	return worst
}

// weigh is what one judgement does to a door's verdict. A rule that waits for a
// measurement on site does not touch it.
func weigh(r *Rule, j Judgement) doorsched.Verdict {
	switch j.State {
	case Broken:
		worst := doorsched.NoConflict
		for _, f := range j.Faults {
			worst = min(worst, severity(r, f))
		}
		return worst
	case NotJudged:
		if needStage(j.Needs) != doorsched.StageCommissioning {
			return doorsched.QueryOpen
		}
	}
	return doorsched.NoConflict
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
	rep := Report{Verdict: doorsched.NoConflict}
	c := Case{v, e}
	for _, r := range rules {
		if !r.On(e) {
			continue
		}
		j := r.Judge(c)
		rep.Outcomes = append(rep.Outcomes, Outcome{r, j})
		rep.Verdict = min(rep.Verdict, weigh(r, j))
		rep.Site = append(rep.Site, withRule(r, e, j.Site)...)
		rep.Assumed = append(rep.Assumed, j.Assumed...)
		switch j.State {
		case NotJudged:
			rep.NotJudged = append(rep.NotJudged, doorsched.NotJudged{Rule: r.Slug, Needs: j.Needs, Stage: needStage(j.Needs)})
		case Broken:
			for _, f := range j.Faults {
				rep.Findings = append(rep.Findings, finding(r, c, f))
			}
		}
	}
	slices.SortStableFunc(rep.Findings, doorsched.Finding.Compare)
	return rep
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

func finding(r *Rule, c Case, f Fault) doorsched.Finding {
	cite := r.Cite[c.Edition]
	if f.Clause != "" {
		cite.Clause = f.Clause
	}
	out := doorsched.Finding{
		Rule: r.Slug, Refs: r.Refs, Severity: severity(r, f), Door: c.View.Mark,
		Fields: f.Fields, Value: f.Value, Limit: f.Limit, Citation: cite, Message: r.Say(c, f),
	}
	for _, id := range f.Fields {
		if cell := c.View.Cell(id); !cell.IsZero() {
			out.Cells = append(out.Cells, cell)
		}
	}
	for _, m := range f.Remedies {
		if mends(r, c, f, m) {
			out.Remedies = append(out.Remedies, m.Text)
		}
	}
	return out
}

// mends judges the rule again with the remedy's changes: the fault's item must
// be gone and no other fault may have come.
func mends(r *Rule, c Case, f Fault, m Remedy) bool {
	if len(m.Changes) == 0 {
		return true
	}
	var over doorsched.Record
	for _, ch := range m.Changes {
		over.Put(doorsched.Value{Field: ch.Field, Data: ch.Data, Origin: doorsched.Derived})
	}
	again := r.Judge(Case{c.View.With(&over), c.Edition})
	if again.State != Broken {
		return true
	}
	return !slices.ContainsFunc(again.Faults, func(g Fault) bool { return g.Item == f.Item })
}
