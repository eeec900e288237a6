package egress

import "example.com/lockrail/doorsched"

var outward = []Remedy{{"Hang the door to open in the direction people leave", []Change{set[doorsched.Choice](doorsched.Swing, "with")}}}

var (
	againstCrowd = Fault{Item: "load", Of: doorsched.Swing.ID(), Refs: []string{"swing-dir"}, Limit: doorsched.TextOf("with egress from 50 people, or any load in H"), Remedies: outward}
	against60    = Fault{Item: "more than 60", Of: doorsched.Swing.ID(), Refs: []string{"uk-adb-dir60"}, Limit: doorsched.TextOf("with escape above 60 people"), Remedies: outward}
	againstLaw   = Fault{Item: "law", Severity: doorsched.Caution, Of: doorsched.Swing.ID(), Refs: []string{"uk-rro-dir"}, Cite: fireOrder("article 14(2)(d)"),
		Limit: doorsched.TextOf("with escape, where necessary"), Remedies: outward}
	againstRisk = Fault{Item: "high fire risk", Severity: doorsched.Caution, Of: doorsched.Swing.ID(), Refs: []string{"uk-adb-dirrisk"},
		Limit: doorsched.TextOf("with escape, where fire grows rapidly"), Remedies: outward}
)

var swingDirection = &Rule{
	Slug:     "swing-direction",
	Title:    "The door opens the way people go",
	Protects: "A press of people holds shut a door that must be pulled.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Occupancy, doorsched.Swing, doorsched.HighFireRisk),
	Refs:   []string{"swing-dir", "uk-adb-dir60", "uk-rro-dir", "uk-adb-dirrisk"},
	Cite:   both(ibc("1010.1.2.1", doorsched.Verified), adb("5.14", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		with := Not(c.OneOf(doorsched.Swing, "against"))
		if c.UK() {
			many := MoreThan(c, doorsched.OccupantLoad, unfamiliarAbove)
			return require(c, c.egress(),
				check{cond: Implies(many, with), fault: &against60},
				check{cond: with, fault: &againstLaw},
				check{cond: Any(with, Not(c.Is(doorsched.HighFireRisk))), fault: &againstRisk},
			)
		}
		return require(c, All(c.egress(), Any(c.Group("H"), AtLeast(c, doorsched.OccupantLoad, panicLoad))), check{cond: with, fault: &againstCrowd})
	},
	Say: func(c Case, f Fault) string {
		people := c.quantity(doorsched.OccupantLoad.ID()).String() + " people"
		switch f.Item {
		case against60.Item:
			return "The door opens against " + people + " escaping. That does not follow Approved Document B: above 60 it opens in the direction of escape."
		case againstLaw.Item:
			return "The door opens against escape. The Fire Safety Order asks, as law, that emergency doors open in the direction of escape where necessary; guidance draws the line above 60 people. Have the fire risk assessment say which it is."
		case againstRisk.Item:
			return "The door opens against escape from a room where fire grows rapidly. Approved Document B speaks of opening in the direction of escape there at lower numbers."
		}
		return "The door opens against egress and serves " + people + " of group " + c.quantity(doorsched.Occupancy.ID()).String() + ". From 50 people, and at any load in group H, it swings the way they go."
	},
}
