package egress

import (
	"slices"

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
	Item     string            // which part of the requirement, a word of the rule's own
	Severity doorsched.Verdict // zero: the rule's
	Fields   []doorsched.FieldID
	Value    doorsched.Quantity
	Limit    doorsched.Quantity
	Clause   string // zero: the rule's clause
	Remedies []Remedy
}

// Judgement is a rule's result for one door.
type Judgement struct {
	State   State
	Needs   []doorsched.FieldID // NotJudged
	Faults  []Fault             // Broken
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

// notApplicable, held, needs and broken make judgements.
func notApplicable() Judgement { return Judgement{State: NotApplicable} }
func held() Judgement          { return Judgement{State: Held} }
func needs(ids ...doorsched.FieldID) Judgement {
	return Judgement{State: NotJudged, Needs: ids}
}
func broken(fs ...Fault) Judgement { return Judgement{State: Broken, Faults: fs} }

// when runs then only where the rule applies: a false condition makes it not
// applicable, an unknown one leaves it not judged.
func when(applies Cond, then func() Judgement) Judgement {
	switch applies.Answer {
	case doorsched.No:
		return notApplicable()
	case doorsched.Unknown:
		return needs(applies.Needs...)
	}
	return then()
}

// check is one item of a rule with several: broken if its condition is false.
type check struct {
	cond  Cond
	fault Fault
}

// judgeAll judges every item: any false one breaks the rule, with all its
// faults; otherwise the first unknown one leaves it not judged.
func judgeAll(items ...check) Judgement {
	var faults []Fault
	var missing []doorsched.FieldID
	for _, it := range items {
		switch it.cond.Answer {
		case doorsched.No:
			f := it.fault
			if f.Fields == nil {
				f.Fields = it.cond.Fields
			}
			faults = append(faults, f)
		case doorsched.Unknown:
			if missing == nil {
				missing = it.cond.Needs
			}
		}
	}
	switch {
	case len(faults) > 0:
		return broken(faults...)
	case missing != nil:
		return needs(missing...)
	}
	return held()
}

// RuleByName finds a rule by slug.
func RuleByName(slug string) (*Rule, bool) {
	rules := Rules()
	i := slices.IndexFunc(rules, func(r *Rule) bool { return r.Slug == slug })
	if i < 0 {
		return nil, false
	}
	return rules[i], true
}
