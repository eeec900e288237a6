package egress

import "example.com/lockrail/doorsched"

var (
	switchInH = Fault{Item: "occupancy", Of: doorsched.Occupancy.ID(), Refs: []string{"dhr-occ"}, Limit: doorsched.TextOf("any group but H"), Remedies: sensorInH.Remedies}

	switchDirect = Fault{Item: "direct", Of: doorsched.HardwareDirect.ID(), Refs: []string{"dhr-interrupt"}, Limit: doorsched.TextOf("cuts lock power directly"),
		Remedies: []Remedy{{"Wire the switch in the hardware to cut lock power itself", []Change{set(doorsched.HardwareDirect, doorsched.Yes)}}}}
	switchPower = Fault{Item: "power loss", Of: doorsched.Fail.ID(), Refs: []string{"dhr-power"}, Limit: doorsched.TextOf("unlocks"), Remedies: sensorPower.Remedies}
	switchPanic = Fault{Item: "panic hardware", Of: doorsched.EgressHardware.ID(), Refs: []string{"dhr-panic"}, Limit: doorsched.TextOf("panic or fire exit hardware with the switch"),
		Remedies: panicRemedies}
	switchListing = Fault{Item: "listing", Of: doorsched.Listed.ID(), Refs: []string{"dhr-list"}, Limit: doorsched.TextOf("UL294"), Remedies: sensorListing.Remedies}

	switchLine = doorsched.SiteLine{What: "One hand and one motion on the hardware cuts lock power at once; its way of working is obvious in the dark", Limit: "unlocks at once"}
)

var hardwareRelease = &Rule{
	Slug:     "hardware-release",
	Title:    "A lock that the hardware on the leaf lets go",
	Protects: "The hand that works the lever or the bar must cut the lock's power itself, or the door stays shut under it.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, releaseReads, doorsched.Occupancy, doorsched.HardwareDirect, doorsched.Fail, doorsched.Listed),
	Refs:   []string{"dhr-occ", "dhr-obvious", "dhr-onehand", "dhr-interrupt", "dhr-power", "dhr-panic", "dhr-list", "dhr-nofa"},
	Cite:   onlyUS(ibc("1010.2.11", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.electricallyHeld(), c.byHardware())
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		panics := Any(c.Group("H"), c.crowd())
		j := require(c, applies,
			check{cond: Not(c.Group("H")), fault: &switchInH},
			check{cond: c.Is(doorsched.HardwareDirect), fault: &switchDirect},
			check{cond: c.unlocksWithoutPower(), fault: &switchPower},
			check{cond: Implies(panics, c.OneOf(doorsched.EgressHardware, "panic", "fire_exit")), fault: &switchPanic},
			check{cond: c.OneOf(doorsched.Listed, "UL294"), fault: &switchListing},
		)
		if applies.Answer == doorsched.Yes {
			j.Site = append(j.Site, switchLine)
		}
		return j
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case switchInH.Item:
			return "Release by the door hardware stands on a door of group " + f.Value.String() + "; it is allowed in any group but H."
		case switchDirect.Item:
			return "The switch in the hardware does not itself cut lock power. Whoever works the hardware must be free at once, whatever the controller does."
		case switchPower.Item:
			return "Without power this lock stays locked; loss of power to the lock system must unlock the door."
		case switchPanic.Item:
			return "Panic hardware is asked for on this door and its hardware is " + f.Value.String() + "; the panic hardware itself must release the electric lock."
		}
		return "The locking system is listed " + f.Value.String() + "; UL 294 is asked of it in this edition."
	},
}
