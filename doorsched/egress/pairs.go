package egress

import "example.com/lockrail/doorsched"

var (
	boltedLeaf = Fault{Item: "manual bolts", Of: doorsched.InactiveBolt.ID(), Refs: []string{"bolt-manual"}, Limit: doorsched.TextOf("automatic or constant latching"),
		Remedies: []Remedy{{"Automatic or constant latching flush bolts on the inactive leaf", []Change{
			set[doorsched.Choice](doorsched.InactiveBolt, "automatic"), set[doorsched.Choice](doorsched.InactiveHardware, "none")}}}}
	falseHandle = Fault{Item: "hardware on the bolted leaf", Of: doorsched.InactiveHardware.ID(), Refs: []string{"pair-autobolt", "bolt-manual"}, Limit: doorsched.TextOf("none"),
		Remedies: []Remedy{{"No lever, knob or bar on the leaf that is bolted", []Change{set[doorsched.Choice](doorsched.InactiveHardware, "none")}}}}
	boltedFire = Fault{Item: "manual bolts on a fire door", Of: doorsched.InactiveBolt.ID(), Refs: []string{"bolt-fire"}, Cite: nfpa80("6.4.4", doorsched.Memory), Limit: doorsched.TextOf("latches by itself"), Remedies: boltedLeaf.Remedies}
)

var inactiveLeafBolts = &Rule{
	Slug:     "inactive-leaf-bolts",
	Title:    "Bolts on the inactive leaf",
	Protects: "People pull at a leaf that looks like a door and is bolted shut.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Leaves, doorsched.InactiveBolt, doorsched.InactiveHardware, doorsched.Occupancy, doorsched.FireRating, doorsched.Sprinkler),
	Refs:   []string{"bolt-manual", "bolt-i2", "bolt-fire", "pair-autobolt"},
	Cite:   onlyUS(ibc("1010.2.5", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), AtLeast(c, doorsched.Leaves, 2), c.OneOf(doorsched.InactiveBolt, "manual", "automatic"))
		manual := c.OneOf(doorsched.InactiveBolt, "manual")
		plant := c.OneOf(doorsched.DoorUse, "storage", "equipment")
		few := All(c.Group("B", "F", "S"), Not(AtLeast(c, doorsched.OccupantLoad, panicLoad)))
		// With NFPA 13 the leaf may be bolted where its width is not needed;
		// whether it is needed is the designer's to say.
		sprinklered := All(c.Group("B", "F", "S"), c.OneOf(doorsched.Sprinkler, "13"))
		patients := All(c.Group("I-2"), c.OneOf(doorsched.DoorUse, "patient_room"))
		bare := c.OneOf(doorsched.InactiveHardware, "none")
		return require(c, applies,
			check{cond: Implies(manual, Any(plant, few, sprinklered, patients)), fault: &boltedLeaf},
			check{cond: Any(bare, All(manual, plant)), fault: &falseHandle},
			check{cond: Not(All(c.Rated(), manual, Not(plant))), fault: &boltedFire},
		)
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case falseHandle.Item:
			return "The bolted leaf carries " + f.Value.String() + " hardware, which tells people it opens. Nothing that looks like a handle may be on it."
		case boltedFire.Item:
			return "The inactive leaf of this rated pair has bolts worked by hand, which do not latch when the leaf closes."
		}
		return "The inactive leaf is held by bolts worked by hand; only storage and equipment rooms, small or sprinklered rooms of groups B, F and S, and patient rooms may have them."
	},
}

var noCoordinator = Fault{Item: "coordinator", Of: doorsched.Coordinator.ID(), Limit: doorsched.TextOf("yes"),
	Remedies: []Remedy{{"A door coordinator to BS EN 1158", []Change{set(doorsched.Coordinator, doorsched.Yes)}}}}

var pairClosingOrder = &Rule{
	Slug:     "pair-closing-order",
	Title:    "A rebated pair closes in order",
	Protects: "If the wrong leaf closes first the pair stands open.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.Leaves, doorsched.Rebated, doorsched.Coordinator),
	Refs:   []string{"uk-1158-need"},
	Cite:   onlyUK(doorsched.Citation{Document: "Code of practice: hardware for fire and escape doors", Clause: "5.3, with BS EN 1158", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		return require(c, All(c.Rated(), AtLeast(c, doorsched.Leaves, 2), c.Is(doorsched.Rebated)), check{cond: c.Is(doorsched.Coordinator), fault: &noCoordinator})
	},
	Say: func(Case, Fault) string {
		return "The leaves of this rebated fire door pair have no coordinator. That does not follow the code of practice: if the wrong leaf closes first the pair stands open."
	},
}
