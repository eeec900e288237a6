package egress

import "example.com/lockrail/doorsched"

// closes holds where something shuts the leaf by itself.
func (c Case) closes() Cond {
	if doorsched.SelfClosing.In(c.View).IsKnown() {
		return c.Is(doorsched.SelfClosing)
	}
	return Not(c.OneOf(doorsched.Closer, "none"))
}

var addCloser = []Remedy{{"A closing device on the leaf", []Change{
	set[doorsched.Choice](doorsched.Closer, "self"), set(doorsched.SelfClosing, doorsched.Yes)}}}

var (
	stands = Fault{Item: "closing", Of: doorsched.Closer.ID(), Refs: []string{"fd-selfclose"}, Limit: doorsched.TextOf("self-closing or automatic-closing"), Remedies: addCloser}

	standsUK = Fault{Item: "closing", Of: doorsched.SelfClosing.ID(), Refs: []string{"uk-fd-closer"}, Limit: doorsched.TextOf("self-closing"), Remedies: addCloser}
	weak     = Fault{Item: "closer size", Of: doorsched.CloserSize.ID(), Refs: []string{"uk-1154-fire3"}, Limit: doorsched.TextOf("3"),
		Cite:     doorsched.Citation{Document: "BS EN 1154", Edition: "1997+A1", Clause: "Annex A", Status: doorsched.Verified},
		Remedies: []Remedy{{"Set the closer at size 3 or more", []Change{set[int64](doorsched.CloserSize, 3)}}}}
	tooSmall = Fault{Item: "closer range", Of: doorsched.CloserMaxSize.ID(), Refs: []string{"uk-1154-fire3"}, Limit: doorsched.TextOf("3"), Cite: weak.Cite,
		Remedies: []Remedy{{"A closer that can be set at size 3 or more", []Change{set[int64](doorsched.CloserMaxSize, 4)}}}}

	weakLine     = doorsched.SiteLine{What: "Power size the closer is set at (EN 1154)", Limit: "3 or more", Field: doorsched.CloserSize.ID(), Citation: weak.Cite}
	tooSmallLine = doorsched.SiteLine{What: "Largest power size of the closer (EN 1154)", Limit: "3 or more", Field: doorsched.CloserMaxSize.ID(), Citation: weak.Cite}
)

// leastFireCloser is the EN 1154 size a closer on a fire door is set at.
const leastFireCloser = 3

var fireDoorClosing = &Rule{
	Slug:     "fire-door-closing",
	Title:    "A fire door shuts itself",
	Protects: "A fire door that stands open stops neither fire nor smoke.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.SelfClosing, doorsched.Closer, doorsched.CloserSize, doorsched.CloserMaxSize,
		doorsched.Cupboard, doorsched.KeptLocked, doorsched.InsideDwelling),
	Refs: []string{"fd-selfclose", "uk-fd-closer", "uk-1154-fire3"},
	Cite: both(nfpa80("6.1.4 (2016 numbers)", doorsched.Memory), adb("Appendix C", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		if !c.UK() {
			return require(c, c.Rated(), check{cond: c.closes(), fault: &stands})
		}
		exempt := Any(All(c.Is(doorsched.Cupboard), c.Is(doorsched.KeptLocked)), c.Is(doorsched.InsideDwelling))
		// A spring hinge or operator has no EN 1154 size.
		sized := c.OneOf(doorsched.Closer, "self", "concealed", "floor_spring", "delayed_action", "swing_free")
		return require(c, c.Rated(),
			check{cond: Any(c.closes(), exempt), fault: &standsUK},
			check{Implies(sized, AtLeast(c, doorsched.CloserMaxSize, leastFireCloser)), &tooSmall, &tooSmallLine},
			check{Implies(sized, AtLeast(c, doorsched.CloserSize, leastFireCloser)), &weak, &weakLine},
		)
	},
	Say: func(c Case, f Fault) string {
		switch {
		case f.Item == weak.Item:
			return "The closer of this fire door is set at size " + f.Value.String() + ". That does not follow BS EN 1154 for fire doors: size 3 or more, or the door may stop short of its latch."
		case f.Item == tooSmall.Item:
			return "The closer of this fire door goes up to size " + f.Value.String() + ". That does not follow BS EN 1154 for fire doors: size 3 or more."
		case c.UK():
			return "Nothing closes this fire door. That does not follow Approved Document B: a fire door closes itself from any angle and against its latch."
		}
		return "Nothing closes this fire door. A rated door must close by itself or on alarm; one that stands open stops neither fire nor smoke."
	},
}
