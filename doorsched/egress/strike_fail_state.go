package egress

import "example.com/lockrail/doorsched"

var (
	strikeSafe = Fault{Item: "fail safe", Of: doorsched.Fail.ID(), Refs: []string{"fd-strike"}, Limit: doorsched.TextOf("fail secure"),
		Remedies: []Remedy{
			{"A fail secure strike listed for fire doors", []Change{set[doorsched.Choice](doorsched.Fail, "secure")}},
			{"A fail safe electrified lock in place of the strike, which unlocks and stays latched", []Change{set[doorsched.Choice](doorsched.Lock, "electrified_lock")}},
		}}
	strikeUnlatches = Fault{Item: "unlatched", Of: doorsched.Fail.ID(), Refs: []string{"uk-fd-strike-locked"}, Limit: doorsched.TextOf("fail-locked, or evidence for the door unlatched"),
		Remedies: []Remedy{{"A fail-locked strike, with a lever or pad inside", []Change{set[doorsched.Choice](doorsched.Fail, "secure")}}}}
	strikeUnsaid = Fault{Item: "not stated", Of: doorsched.Fail.ID(), Refs: []string{"uk-strike-term"}, Limit: doorsched.TextOf("fail-locked or fail-unlocked")}
)

// strikeFailState is about the device, not the word: a fail safe lock or trim on
// a rated door stays latched and is right; a fail safe strike lets the latch go.
var strikeFailState = &Rule{
	Slug:     "strike-fail-state",
	Title:    "A strike on a fire door keeps the latch",
	Protects: "A strike that opens without power unlatches the fire door just when it must hold.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.Lock, doorsched.Fail, doorsched.LatchFreed, doorsched.EvidenceNoLatch),
	Refs:   []string{"fd-strike", "uk-fd-strike-locked", "uk-strike-term"},
	Cite: both(nfpa80("6.4.4.3.3 (2016 numbers)", doorsched.Memory),
		doorsched.Citation{Document: "Trade practice: the latch is part of the tested doorset", Status: doorsched.Practice}),
	Judge: func(c Case) Judgement {
		strike := c.OneOf(doorsched.Lock, "electric_strike")
		if !c.UK() {
			secure := c.OneOf(doorsched.Fail, "secure")
			if f, ok := doorsched.Fail.In(c.View).Get(); ok && f == "na" {
				secure = cond(doorsched.Fail.ID(), doorsched.Unknown)
			}
			return require(c, All(c.Rated(), strike), check{cond: secure, fault: &strikeSafe})
		}
		opens := All(c.OneOf(doorsched.Fail, "safe"), c.Is(doorsched.LatchFreed), Not(c.Is(doorsched.EvidenceNoLatch)))
		return require(c, strike,
			check{cond: Not(c.OneOf(doorsched.Fail, "na")), fault: &strikeUnsaid},
			check{cond: Not(All(c.Rated(), opens)), fault: &strikeUnlatches})
	},
	Say: func(c Case, f Fault) string {
		switch {
		case f.Item == strikeUnsaid.Item:
			return "The schedule does not say whether this strike is fail-locked or fail-unlocked; it cannot be ordered or judged so."
		case c.UK():
			return "Without power this strike lets the latch of a fire door go, and the door's fire evidence does not show it shut unlatched. That does not follow trade practice: the latch is part of what was tested."
		}
		return "The electric strike on this fire door is fail safe: without power it lets the latch go and the door can swing open in a fire. A strike on a rated frame is fail secure; a fail safe lock would stay latched."
	},
}
