package egress

import "example.com/lockrail/doorsched"

var panicRemedies = []Remedy{
	{"Panic hardware on the door", []Change{set[doorsched.Choice](doorsched.EgressHardware, "panic")}},
	{"Fire exit hardware on the door", []Change{set[doorsched.Choice](doorsched.EgressHardware, "fire_exit")}},
}

var (
	noPanicAE = Fault{Item: "assembly or education", Of: doorsched.EgressHardware.ID(), Refs: []string{"panic-ae", "panic-main-exc", "panic-mag-2018"},
		Limit: doorsched.TextOf("panic or fire exit hardware"), Remedies: panicRemedies}
	noPanicH = Fault{Item: "high hazard", Of: doorsched.EgressHardware.ID(), Refs: []string{"panic-h"},
		Limit: doorsched.TextOf("panic or fire exit hardware"), Remedies: panicRemedies}
	noPanicElectrical = Fault{Item: "electrical room", Of: doorsched.EgressHardware.ID(), Refs: []string{"panic-el-2021"}, Cite: ibc("1010.2.9.2", doorsched.Memory),
		Limit: doorsched.TextOf("panic or fire exit hardware"), Remedies: panicRemedies}
	noPanicSpecial = Fault{Item: "vault, battery or data room", Of: doorsched.EgressHardware.ID(), Refs: []string{"panic-el-special"}, Cite: ibc("1010.2.9.2", doorsched.Memory),
		Limit: doorsched.TextOf("panic or fire exit hardware"), Remedies: panicRemedies}

	enDevice = []Remedy{{"A panic exit device to BS EN 1125", []Change{set[doorsched.Choice](doorsched.EgressHardware, "panic")}}}

	noPanicPublic = Fault{Item: "public", Of: doorsched.EgressHardware.ID(), Refs: []string{"uk-60-en1125"},
		Limit: doorsched.TextOf("BS EN 1125 panic exit device, or BS EN 13637 system"), Remedies: enDevice}
	noPanicPremises = Fault{Item: "assembly or shop", Of: doorsched.EgressHardware.ID(), Refs: []string{"uk-adb-60panic"}, Cite: adb("5.8", doorsched.Memory),
		Limit: doorsched.TextOf("no fastening, or a BS EN 1125 panic exit device"), Remedies: enDevice}
	noEmergencyDevice = Fault{Item: "trained staff", Of: doorsched.EgressHardware.ID(), Refs: []string{"uk-60-en179"},
		Limit: doorsched.TextOf("BS EN 179 emergency exit device, or better"), Remedies: []Remedy{
			{"An emergency exit device to BS EN 179", []Change{set[doorsched.Choice](doorsched.EgressHardware, "emergency_device")}}}}
)

// panicLoad is the occupant load from which the IBC asks groups A and E for
// panic hardware; unfamiliarAbove is the number of people above which English
// guidance asks for a panic device: exactly 60 falls on the easier side.
const (
	panicLoad       = 50
	unfamiliarAbove = 60
)

var panicHardware = &Rule{
	Slug:     "panic-hardware",
	Title:    "Hardware a crowd can open",
	Protects: "A crowd pressed against a door cannot turn a lever; only a bar that gives way to the press lets it out.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Latch, doorsched.Occupancy, doorsched.EquipmentAmps, doorsched.Overcurrent, doorsched.WorkingSpace,
		doorsched.KeyEgress, doorsched.MainExterior, doorsched.PublicUse, doorsched.Premises, doorsched.TrainedUsers, doorsched.Fastened),
	Refs: []string{"panic-ae", "panic-h", "panic-main-exc", "panic-mag-2018", "panic-el-2021", "panic-el-special", "uk-60-en1125", "uk-60-en179", "uk-adb-60panic"},
	Cite: both(ibc("1010.2.9", doorsched.Verified),
		doorsched.Citation{Document: "BS EN 1125, BS EN 179 and BS EN 13637, published guidance on choosing between them", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		if c.UK() {
			return panicHardwareUK(c)
		}
		device := c.OneOf(doorsched.EgressHardware, "panic", "fire_exit")
		electrical := All(c.OneOf(doorsched.DoorUse, "electrical"), AtLeast(c, doorsched.EquipmentAmps, 800),
			c.Is(doorsched.Overcurrent), Not(AtLeast(c, doorsched.WorkingSpace, 25*doorsched.Foot)))
		special := c.OneOf(doorsched.DoorUse, "transformer_vault", "battery_room", "ess_room", "modular_data_center")
		return require(c, All(c.egress(), c.fastened()),
			check{cond: Implies(c.crowd(), Any(device, c.mainExitWithKey())), fault: &noPanicAE},
			check{cond: Implies(c.Group("H"), device), fault: &noPanicH},
			check{cond: Implies(electrical, device), fault: &noPanicElectrical},
			check{cond: Implies(special, device), fault: &noPanicSpecial},
		)
	},
	Say: func(c Case, f Fault) string {
		if c.UK() {
			switch f.Item {
			case noPanicPremises.Item:
				return "More than 60 people of an assembly, shop or commercial building escape through this fastened door, and it has no panic exit device. That does not follow Approved Document B."
			case noEmergencyDevice.Item:
				return "Trained staff escape through this fastened door and its device is " + f.Value.String() + ". That does not follow the guidance on BS EN 179: an emergency exit device is the least it speaks of."
			}
			return "More than 60 people who do not know this fastened door escape through it and its device is " + f.Value.String() + ". That does not follow the guidance on BS EN 1125: a panic exit device opens under the press of a crowd."
		}
		why := "It serves " + c.quantity(doorsched.OccupantLoad.ID()).String() + " people of group " + c.quantity(doorsched.Occupancy.ID()).String() + " (limit 50)"
		switch f.Item {
		case noPanicH.Item:
			why = "It serves high hazard, where any load counts"
		case noPanicElectrical.Item:
			why = "It is the way out of a room with equipment of 800 A or more within 25 ft"
		case noPanicSpecial.Item:
			why = "It is the way out of a transformer, battery, energy storage or data center room"
		}
		return why + ", and its hardware is " + f.Value.String() + ". Only panic or fire exit hardware may latch or lock such a door; an added magnetic lock does not stand in for it."
	},
}

// crowd holds for group A or E with 50 people or more.
func (c Case) crowd() Cond {
	return All(c.Group("A", "E"), AtLeast(c, doorsched.OccupantLoad, panicLoad))
}

// mainExitWithKey is the IBC's exception for the main exit of a small assembly:
// a key lock, and nothing that latches, in place of panic hardware.
func (c Case) mainExitWithKey() Cond {
	return All(c.Group("A"), AtMost(c, doorsched.OccupantLoad, 300), c.OneOf(doorsched.Lock, "mechanical"), Not(c.Is(doorsched.Latch)),
		c.Is(doorsched.KeyEgress), Any(c.Is(doorsched.MainExterior), c.OneOf(doorsched.DoorUse, "main_entrance")))
}

func panicHardwareUK(c Case) Judgement {
	is := func(devices ...doorsched.Choice) Cond { return c.OneOf(doorsched.EgressHardware, devices...) }
	fastened := Any(Not(c.OneOf(doorsched.Lock, "none")), c.Is(doorsched.Fastened))
	many := MoreThan(c, doorsched.OccupantLoad, unfamiliarAbove)
	premises := c.OneOf(doorsched.Premises, "assembly_recreation", "shop_commercial")
	return require(c, All(c.egress(), fastened),
		check{cond: Implies(All(many, c.Is(doorsched.PublicUse)), is("panic", "exit_system")), fault: &noPanicPublic},
		check{cond: Implies(All(many, premises), is("panic")), fault: &noPanicPremises},
		// A lever, push pad or turn is one of the simple fastenings.
		check{cond: Implies(All(Not(many), c.Is(doorsched.TrainedUsers)),
			is("emergency_device", "panic", "exit_system", "simple", "lever", "paddle", "thumbturn")), fault: &noEmergencyDevice},
	)
}

var combinedWithout = Fault{Item: "combined load", Of: doorsched.CombinedALoad.ID(), Limit: doorsched.TextOf("under 50, or panic hardware"), Remedies: panicRemedies}

var combinedLoad = &Rule{
	Slug:     "combined-load",
	Title:    "Assembly rooms counted together",
	Protects: "Several rooms that empty through one door make a crowd no room makes alone.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Approval,
	Fields: fields(egressReads, doorsched.Latch, doorsched.Occupancy, doorsched.CombinedALoad),
	Refs:   []string{"panic-combined"},
	Cite:   onlyUS(ibc("1010.2.9", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.OneOf(doorsched.DoorUse, "suite_exit"), c.fastened(), Not(c.Group("A", "E", "H")))
		return require(c, applies, check{cond: Any(Not(AtLeast(c, doorsched.CombinedALoad, panicLoad)), c.OneOf(doorsched.EgressHardware, "panic", "fire_exit")), fault: &combinedWithout})
	},
	Say: func(_ Case, f Fault) string {
		return "The assembly rooms behind this suite door hold " + f.Value.String() + " people together. Published commentary counts them together, which asks for panic hardware from 50; not everyone reads it so. Ask the authority."
	},
}

var inwardPanic = Fault{Item: "swing", Of: doorsched.Swing.ID(), Limit: doorsched.TextOf("opens in the direction of escape"),
	Remedies: []Remedy{{"Hang the door to open in the direction of escape", []Change{set[doorsched.Choice](doorsched.Swing, "with")}}}}

var exitDeviceSwing = &Rule{
	Slug:     "exit-device-swing",
	Title:    "Panic device on an outward door",
	Protects: "A panic bar opens nothing when the crowd pushes on a door that must be pulled.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Swing),
	Refs:   []string{"uk-1125-onehand"},
	Cite:   onlyUK(doorsched.Citation{Document: "BS EN 1125", Edition: "2008", Clause: "scope", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		return require(c, All(c.egress(), c.OneOf(doorsched.EgressHardware, "panic")), check{cond: Not(c.OneOf(doorsched.Swing, "against")), fault: &inwardPanic})
	},
	Say: func(Case, Fault) string {
		return "The door has a BS EN 1125 panic device and opens against escape. That does not follow the standard, which covers doors that open in the direction of escape."
	},
}

// widestLeaf is the width of the widest leaf as far as it is known.
func (c Case) widestLeaf() (doorsched.Length, []doorsched.FieldID, []doorsched.Assumption) {
	s := c.View.Leaves()
	w := doorsched.Length(0)
	for _, x := range s.Widths {
		w = max(w, x)
	}
	return w, s.Needs, s.Assumed
}

// leafReads are the fields that the model works leaf widths out from.
var leafReads = []doorsched.FieldID{doorsched.Width.ID(), doorsched.Leaves.ID(), doorsched.WidthIs.ID(), doorsched.LeafWidth.ID(), doorsched.InactiveWidth.ID()}

var shortBar = Fault{Item: "bar length", Of: doorsched.BarWidth.ID()}

var barLine = doorsched.SiteLine{What: "Length of the bar's releasing part against the leaf width", Limit: "at least half the leaf width", Field: doorsched.BarWidth.ID()}

var barLength = &Rule{
	Slug:     "bar-length",
	Title:    "Bar across half the leaf",
	Protects: "A short bar is missed by those who push where it is not.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.BarWidth, leafReads),
	Refs:   []string{"panic-width"},
	Cite:   onlyUS(ibc("1010.2.9.3", doorsched.Memory)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.OneOf(doorsched.EgressHardware, "panic", "fire_exit"))
		bar, known := doorsched.BarWidth.In(c.View).Get()
		leaf, missing, assumed := c.widestLeaf()
		enough := cond(doorsched.BarWidth.ID(), doorsched.Unknown)
		switch {
		case !known:
		case leaf == 0:
			enough.Needs = missing
		default:
			enough = cond(doorsched.BarWidth.ID(), doorsched.AnswerOf(2*bar >= leaf))
			enough.Fields = join(enough.Fields, single(c.leafField()))
		}
		f := shortBar
		f.Limit = doorsched.LengthOf((leaf + 1) / 2)
		ck := check{cond: enough, fault: &f}
		if !known {
			ck.site = &barLine
		}
		j := require(c, applies, ck)
		if j.State == Held || j.State == Broken {
			j.Assumed = assumed
		}
		return j
	},
	Say: func(c Case, f Fault) string {
		return "The bar's releasing part is " + c.show(f.Value) + " long; half the leaf asks for " + c.show(f.Limit) + ". People who push beside it do not open the door."
	},
}

// leafField is the field that a leaf's width was taken from.
func (c Case) leafField() doorsched.FieldID {
	if doorsched.LeafWidth.In(c.View).IsKnown() {
		return doorsched.LeafWidth.ID()
	}
	return doorsched.Width.ID()
}
