package egress

import "example.com/lockrail/doorsched"

var (
	secondMotionUS = Fault{
		Item: "motions", Of: doorsched.Motions.ID(), Refs: []string{"egress-one-motion", "egress-one-exempt"}, Limit: doorsched.TextOf("1"),
		Remedies: []Remedy{{"One lever, paddle or bar that withdraws latch and bolt together", []Change{set[int64](doorsched.Motions, 1)}}},
	}
	secondMechanism = Fault{
		Item: "mechanisms", Of: doorsched.Motions.ID(), Refs: []string{"uk-adb-one"}, Limit: doorsched.TextOf("1"),
		Remedies: []Remedy{{"One handle, pad or bar that withdraws latch and bolt together", []Change{set[int64](doorsched.Motions, 1)}}},
	}
)

var oneMotion = &Rule{
	Slug:     "one-motion",
	Title:    "One motion opens the door",
	Protects: "A second bolt or button costs people the seconds and the calm they do not have.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Motions, doorsched.Occupancy),
	Refs:   []string{"egress-one-motion", "egress-one-exempt", "lock-R-unit", "uk-adb-one"},
	Cite:   both(ibc("1010.2.1", doorsched.Verified), adb("5.7(iv)", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		one := AtMost(c, doorsched.Motions, 1)
		if c.UK() {
			return require(c, c.egress(), check{cond: one, fault: &secondMechanism})
		}
		exempt := Any(
			c.OneOf(doorsched.DoorUse, "detention"),
			All(c.OneOf(doorsched.DoorUse, "unit_entry"), c.Group("R"), AtMost(c, doorsched.OccupantLoad, 10)),
		)
		return require(c, All(c.egress(), Not(c.OneOf(doorsched.Lock, "controlled_egress"))), check{cond: Any(one, exempt), fault: &secondMotionUS})
	},
	Say: func(c Case, f Fault) string {
		if c.UK() {
			return "Leaving takes " + f.Value.String() + " mechanisms. That does not follow Approved Document B, which speaks of not more than one: a second one is found too late in smoke."
		}
		return "Leaving takes " + f.Value.String() + " motions; one motion in one direction must release every latch and lock."
	},
}
