package egress

import "example.com/lockrail/doorsched"

var plainPanic = Fault{Item: "device", Of: doorsched.EgressHardware.ID(), Limit: doorsched.TextOf("fire exit hardware"),
	Remedies: []Remedy{{"Fire exit hardware, which latches in fire and cannot be dogged down", []Change{set[doorsched.Choice](doorsched.EgressHardware, "fire_exit")}}}}

var fireExitHardware = &Rule{
	Slug:     "fire-exit-hardware",
	Title:    "Fire exit hardware on a fire door",
	Protects: "Plain panic hardware can be held unlatched and is not tested in fire; the door opens to it.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.EgressHardware),
	Refs:   []string{"fd-fireexit"},
	Cite:   onlyUS(ibc("1010.2.9.3", doorsched.Memory)),
	Judge: func(c Case) Judgement {
		return require(c, All(c.Rated(), c.OneOf(doorsched.EgressHardware, "panic", "fire_exit")),
			check{cond: c.OneOf(doorsched.EgressHardware, "fire_exit"), fault: &plainPanic})
	},
	Say: func(c Case, _ Fault) string {
		return "This door is rated " + c.quantity(doorsched.FireRating.ID()).String() + " and has plain panic hardware. On a fire door it must be fire exit hardware, listed for both, with no mechanical dogging."
	},
}
