package egress

import (
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// State is what a rule comes to for a door. The zero value is invalid.
type State uint8

// States of a rule.
const (
	NotApplicable State = iota + 1
	Held
	Broken
	NotJudged
)

// String returns the state's words.
func (s State) String() string {
	switch s {
	case NotApplicable:
		return "not applicable"
	case Held:
		return "held"
	case Broken:
		return "broken"
	case NotJudged:
		return "not judged"
	}
	return ""
}

// Change sets one field; a remedy is a list of changes that was judged again.
type Change struct {
	Field doorsched.FieldID
	Data  any
}

// Remedy is one way to mend a fault. Only a remedy whose changes, applied to
// the door, let the rule hold is reported; one with no changes is advice.
type Remedy struct {
	Text    string
	Changes []Change
}

// Fault is one way in which a door breaks a rule.
type Fault struct {
	Item     string             // which part of the requirement, a word of the rule's own
	Severity doorsched.Verdict  // zero: the rule's
	Of       doorsched.FieldID  // the input that is off; its value is filled in
	Refs     []string           // rows of the published requirements this part covers; nil: the rule's
	Cite     doorsched.Citation // zero: the rule's
	Fields   []doorsched.FieldID
	Value    doorsched.Quantity
	Limit    doorsched.Quantity
	Remedies []Remedy
}

// Judgement is a rule's result for one door.
type Judgement struct {
	State State
	// Needs are the first fields without which a rule is not judged. A broken
	// rule has them where what it found is slight and a graver part is open.
	Needs []doorsched.FieldID
	// OnSite marks a rule that is not judged only for want of a measurement or a
	// look at the installed door. It does not touch the verdict.
	OnSite  bool
	Faults  []Fault // Broken
	Assumed []doorsched.Assumption
	Site    []doorsched.SiteLine // what to measure on site
}

// Rule is one requirement.
type Rule struct {
	Slug     string
	Title    string
	Protects string // what goes wrong for a person when it is broken
	Stage    doorsched.Stage
	Severity doorsched.Verdict
	Fields   []doorsched.FieldID
	Refs     []string // rows of the published requirements it covers
	Cite     map[doorsched.Edition]doorsched.Citation
	Judge    func(Case) Judgement
	// Say words one fault. Text is made only when a writer asks.
	Say func(Case, Fault) string
}

// On reports whether the rule is judged on an edition.
func (r *Rule) On(e doorsched.Edition) bool {
	_, ok := r.Cite[e]
	return ok
}

func notApplicable() Judgement { return Judgement{State: NotApplicable} }
func held() Judgement          { return Judgement{State: Held} }
func needs(ids ...doorsched.FieldID) Judgement {
	return Judgement{State: NotJudged, Needs: ids}
}

// check is one part of a rule: broken with fault if its condition is false.
// Where site is set, an unknown condition is a line for the site instead of a
// question.
type check struct {
	cond  Cond
	fault *Fault
	site  *doorsched.SiteLine
}

// require judges a rule: where it applies, every check must hold. A condition
// known to be false settles whether it applies; checks that all hold settle it
// too. Otherwise the first unknown condition of applies says what is needed, and
// after it the unknown checks, all of them, since none waits for another.
func require(c Case, applies Cond, checks ...check) Judgement {
	if applies.Answer == doorsched.No {
		return notApplicable()
	}
	var out Judgement
	var onSite []doorsched.FieldID
	gravest := doorsched.NoConflict
	for _, it := range checks {
		switch it.cond.Answer {
		case doorsched.No:
			if applies.Answer == doorsched.Yes {
				f := c.fill(*it.fault, it.cond, applies)
				gravest = min(gravest, max(f.Severity, doorsched.Conflict))
				out.Faults = append(out.Faults, f)
			} else {
				out.State = NotJudged
			}
		case doorsched.Unknown:
			if it.site != nil {
				out.Site = append(out.Site, *it.site)
				onSite = join(onSite, it.cond.Needs)
			} else {
				out.Needs = join(out.Needs, it.cond.Needs)
			}
		}
	}
	switch {
	case applies.Answer == doorsched.Unknown && (out.State == NotJudged || out.Needs != nil || onSite != nil):
		return needs(applies.Needs...)
	case len(out.Faults) > 0:
		out.State = Broken
		if gravest <= doorsched.QueryOpen {
			out.Needs = nil
		}
	case out.Needs != nil:
		out.State = NotJudged
	case onSite != nil:
		out.State, out.Needs, out.OnSite = NotJudged, onSite, true
	default:
		out.State = Held
	}
	return out
}

// fill adds to a fault what the conditions decided on, its own first.
func (c Case) fill(f Fault, own, applies Cond) Fault {
	if f.Of != doorsched.NoField {
		f.Fields = join(single(f.Of), join(own.Fields, applies.Fields))
		if f.Value.IsZero() {
			f.Value = c.quantity(c.firstGiven(f.Fields))
		}
	} else {
		f.Fields = join(own.Fields, applies.Fields)
	}
	return f
}

// firstGiven is the first of the fields that the door gives.
func (c Case) firstGiven(ids []doorsched.FieldID) doorsched.FieldID {
	for _, id := range ids {
		if _, ok := c.View.Get(id); ok {
			return id
		}
	}
	return ids[0]
}

// quantity is a field's value as a finding shows it.
func (c Case) quantity(id doorsched.FieldID) doorsched.Quantity {
	v, ok := c.View.Get(id)
	if !ok {
		return doorsched.TextOf("not given")
	}
	i, _ := doorsched.FieldInfo(id)
	switch x := v.Data.(type) {
	case doorsched.Length:
		return doorsched.LengthOf(x)
	case float64:
		if i.Unit != "" {
			return doorsched.NumberOf(x, i.Unit)
		}
	case doorsched.MeansSet:
		if x.Yes() == 0 {
			return doorsched.TextOf("nothing named")
		}
		return doorsched.TextOf(plain(strings.ReplaceAll(x.Yes().String(), "+", ", ")))
	case doorsched.Choice:
		if word := failWords[x]; id == doorsched.Fail.ID() && word != [2]string{} {
			if c.UK() {
				return doorsched.TextOf(word[1])
			}
			return doorsched.TextOf(word[0])
		}
		return doorsched.TextOf(plain(string(x)))
	case doorsched.Rating:
		return doorsched.NumberOf(float64(x.Minutes), "min")
	}
	return doorsched.TextOf(i.Format(v.Data))
}

// failWords are the fail states in the trade's words, US and UK.
var failWords = map[doorsched.Choice][2]string{
	"safe": {"fail safe", "fail-unlocked"}, "secure": {"fail secure", "fail-locked"}, "na": {"not stated", "not stated"},
}

// plain writes a machine word as people read it.
func plain(s string) string { return strings.ReplaceAll(s, "_", " ") }

// RuleByName finds a rule by slug.
func RuleByName(slug string) (*Rule, bool) {
	i := slices.IndexFunc(allRules, func(r *Rule) bool { return r.Slug == slug })
	if i < 0 {
		return nil, false
	}
	return allRules[i], true
}
