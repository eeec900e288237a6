package egress

import "example.com/lockrail/doorsched"

// overrideReads are the fields that tell whether an emergency release is there.
var overrideReads = []doorsched.FieldID{doorsched.Override.ID(), doorsched.ReleaseSet.ID()}

// localRelease holds where an emergency release unit stands at the door.
func (c Case) localRelease() Cond {
	if doorsched.Override.In(c.View).IsKnown() {
		return Not(c.OneOf(doorsched.Override, "none"))
	}
	in := c.Has(doorsched.ReleaseSet, doorsched.ByEmergencyRelease)
	if in.Answer == doorsched.Unknown {
		return cond(doorsched.Override.ID(), doorsched.Unknown)
	}
	return in
}

var greenUnit = []Remedy{{"A green emergency door release unit, Type A, on the escape side", []Change{set[doorsched.Choice](doorsched.Override, "green")}}}

var (
	noAlarmRelease = Fault{Item: "fire alarm", Of: doorsched.ReleaseSet.ID(), Refs: []string{"uk-adb-elock-alarm"}, Cite: adb("5.11(a)", doorsched.Verified),
		Limit: doorsched.TextOf("unlocks on the fire alarm"), Remedies: []Remedy{{"Release by the fire detection and alarm system", []Change{
			add(doorsched.ReleaseSet, doorsched.ByFireAlarm)}}}}
	staysLocked = Fault{Item: "power loss", Of: doorsched.Fail.ID(), Refs: []string{"uk-adb-elock-power"}, Cite: adb("5.11(b)", doorsched.Verified),
		Limit: doorsched.TextOf("fail-unlocked"), Remedies: []Remedy{{"A fail-unlocked lock", []Change{set[doorsched.Choice](doorsched.Fail, "safe")}}}}
	staysLockedOnError = Fault{Item: "system error", Of: doorsched.ReleaseSet.ID(), Refs: []string{"uk-adb-elock-power"}, Cite: adb("5.11(b)", doorsched.Verified),
		Limit: doorsched.TextOf("unlocks on system error"), Remedies: []Remedy{{"A controller and lock circuit that unlock on system error", []Change{
			add(doorsched.ReleaseSet, doorsched.BySystemError)}}}}
	// What the missing unit also fails to follow depends on what is there instead.
	noLocalRelease = Fault{Item: "emergency release", Of: doorsched.Override.ID(), Refs: []string{"uk-adb-elock-override"}, Cite: adb("5.11(c)", doorsched.Verified),
		Limit: doorsched.TextOf("a unit at the door"), Remedies: greenUnit}
	onlyAlarm = Fault{Item: "alarm is the only release", Of: doorsched.Override.ID(), Refs: []string{"uk-7273-notonly"}, Cite: bs7273("", doorsched.Verified),
		Limit: doorsched.TextOf("a unit at the door besides the alarm"), Remedies: greenUnit}
	exitButtonOnly = Fault{Item: "push to exit in its place", Of: doorsched.Override.ID(), Refs: []string{"uk-7273-ptx"}, Cite: bs7273("", doorsched.Verified),
		Limit: doorsched.TextOf("a unit at the door besides push to exit"), Remedies: greenUnit}
	exitSensorOnly = Fault{Item: "exit sensor in its place", Of: doorsched.Override.ID(), Refs: []string{"uk-7273-pir"}, Cite: bs7273("", doorsched.Practice),
		Limit: doorsched.TextOf("a unit at the door besides the sensor"), Remedies: greenUnit}
	releaseLeftOut = Fault{Item: "release left out by assessment", Severity: doorsched.Caution, Of: doorsched.Override.ID(), Refs: []string{"uk-7273-ra"}, Cite: bs7273("", doorsched.Verified),
		Limit: doorsched.TextOf("a unit at the door, or a risk assessment of this door")}
)

var escapeLockRelease = &Rule{
	Slug:     "escape-lock-release",
	Title:    "Three releases of a held escape door",
	Protects: "Alarm, power loss and a unit at the door each free people when the other two fail; one does not stand for another.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, overrideReads, doorsched.Fail, doorsched.StaffLed, doorsched.RiskAssessment, doorsched.ExitSensor),
	Refs: []string{"uk-adb-elock-alarm", "uk-adb-elock-power", "uk-adb-elock-override", "uk-adb-code", "uk-mag-ok", "uk-7273-notonly", "uk-7273-ptx",
		"uk-7273-pir", "uk-7273-ra"},
	Cite: onlyUK(adb("5.11", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.electricallyHeld())
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		alarm := c.Has(doorsched.ReleaseSet, doorsched.ByFireAlarm)
		local := c.localRelease()
		assessed := All(c.Is(doorsched.StaffLed), c.Is(doorsched.RiskAssessment))
		without := All(Not(local), Not(assessed)) // no unit and no assessment for doing without
		return require(c, applies,
			check{cond: alarm, fault: &noAlarmRelease},
			check{cond: c.unlocksWithoutPower(), fault: &staysLocked},
			check{cond: c.Has(doorsched.ReleaseSet, doorsched.BySystemError), fault: &staysLockedOnError},
			check{cond: Not(without), fault: &noLocalRelease},
			check{cond: Not(All(without, alarm)), fault: &onlyAlarm},
			check{cond: Not(All(Not(local), c.Has(doorsched.ReleaseSet, doorsched.ByButton))), fault: &exitButtonOnly},
			check{cond: Not(All(Not(local), c.OneOf(doorsched.ExitSensor, "pir"))), fault: &exitSensorOnly},
			check{cond: Not(All(Not(local), assessed)), fault: &releaseLeftOut},
		)
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case noAlarmRelease.Item:
			return "An electric lock holds this escape door and the fire alarm does not release it. That does not follow Approved Document B, which asks for release by alarm, by power loss and by override, each by itself."
		case staysLocked.Item:
			return "Without power this lock stays locked and holds the escape side. That does not follow Approved Document B: the lock returns to unlocked on loss of power."
		case staysLockedOnError.Item:
			return "This lock does not unlock on system error. That does not follow Approved Document B: the lock returns to unlocked on loss of power or system error."
		case onlyAlarm.Item:
			return "The fire alarm is the only release of this held escape door. That does not follow BS 7273-4: a manual release at the door is needed besides, for the fire nobody has raised yet."
		case exitButtonOnly.Item:
			return "Push to exit stands where the emergency release should. That does not follow BS 7273-4 as read in practice: the button runs through the access controller and serves normal use only."
		case exitSensorOnly.Item:
			return "An exit sensor stands where the emergency release should. Common practice does not accept it: it runs through the access controller."
		case releaseLeftOut.Item:
			return "No emergency release is at the door; staff lead the evacuation and a risk assessment is held. See that it is of this door and names how staff release it, for example from a constantly staffed point."
		}
		return "No emergency release is at this held escape door. That does not follow Approved Document B: people escaping must be able to override the lock themselves."
	},
}

var (
	notTypeA = Fault{Item: "type", Of: doorsched.OverrideType.ID(), Refs: []string{"uk-adb-typeA"}, Limit: doorsched.TextOf("A"),
		Remedies: []Remedy{{"A Type A unit, released by one action", []Change{set[doorsched.Choice](doorsched.OverrideType, "A")}}}}
	springsBack = Fault{Item: "stays released", Of: doorsched.OverrideLatching.ID(), Refs: []string{"uk-7273-sustained"}, Cite: bs7273("", doorsched.Verified), Limit: doorsched.TextOf("yes"),
		Remedies: []Remedy{{"A unit that stays released until it is reset by hand", []Change{set(doorsched.OverrideLatching, doorsched.Yes)}}}}
	onePole = Fault{Item: "poles", Of: doorsched.OverridePoles.ID(), Refs: []string{"uk-7273-doublepole"}, Cite: bs7273("", doorsched.Verified), Limit: doorsched.TextOf("2"),
		Remedies: []Remedy{{"A double pole unit that breaks both conductors of the lock supply", []Change{set[int64](doorsched.OverridePoles, 2)}}}}
	wrongSide = Fault{Item: "side", Of: doorsched.OverrideSide.ID(), Refs: []string{"uk-adb-override-side"}, Limit: doorsched.TextOf("the escape side"),
		Remedies: []Remedy{{"The unit on the side people escape from", []Change{set[doorsched.Choice](doorsched.OverrideSide, "escape_side")}}}}
	oneSide = Fault{Item: "both sides", Of: doorsched.OverrideSides.ID(), Refs: []string{"uk-adb-override-both"}, Limit: doorsched.TextOf("2"),
		Remedies: []Remedy{{"A unit on each side", []Change{set[int64](doorsched.OverrideSides, 2)}}}}
	notGreen = Fault{Item: "colour", Of: doorsched.OverrideColour.ID(), Refs: []string{"uk-7273-green"}, Cite: bs7273("", doorsched.Verified), Limit: doorsched.TextOf("green"),
		Remedies: []Remedy{{"A green unit marked as an emergency door release", []Change{set[doorsched.Choice](doorsched.OverrideColour, "green")}}}}
	batteryHolds = Fault{Item: "battery", Of: doorsched.OverrideCutsSupply.ID(), Refs: []string{"uk-7273-ups"}, Cite: bs7273("", doorsched.Verified), Limit: doorsched.TextOf("cuts the supply to the lock"),
		Remedies: []Remedy{{"Let the unit and the alarm relay cut the feed from the battery-backed supply to the lock", []Change{set(doorsched.OverrideCutsSupply, doorsched.Yes)}}}}
	unitFar = Fault{Item: "distance", Of: doorsched.OverrideDistance.ID(), Refs: []string{"uk-7273-2m"},
		Cite:  doorsched.Citation{Document: "BS 7273-4", Edition: "2007", Status: doorsched.Verified},
		Limit: doorsched.NumberOf(2000, "mm"), Remedies: []Remedy{{"Move the unit within 2 m of the door", []Change{set(doorsched.OverrideDistance, 2*doorsched.Metre)}}}}
	unitHeight = Fault{Item: "height", Severity: doorsched.Caution, Of: doorsched.OverrideHeight.ID(), Refs: []string{"uk-7273-height"}, Cite: bs7273("", doorsched.Memory),
		Limit: doorsched.TextOf("1200 to 1600 mm"), Remedies: []Remedy{{"Set the unit about 1.4 m above the floor", []Change{set(doorsched.OverrideHeight, 1400*doorsched.Millimetre)}}}}

	unitFarLine    = doorsched.SiteLine{What: "Distance of the emergency door release unit from the door edge", Limit: "at most 2 m", Field: doorsched.OverrideDistance.ID(), Citation: unitFar.Cite}
	unitHeightLine = doorsched.SiteLine{What: "Height of the emergency door release unit above the finished floor", Limit: "about 1.4 m (1.2 to 1.6 m, tolerance from memory)", Field: doorsched.OverrideHeight.ID(), Citation: unitHeight.Cite}
)

var emergencyReleaseUnit = &Rule{
	Slug:     "emergency-release-unit",
	Title:    "The emergency door release unit",
	Protects: "The unit must be found, worked with one action, and stay released while people pass.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, overrideReads, doorsched.OverrideType, doorsched.OverrideLatching, doorsched.OverridePoles, doorsched.OverrideSide,
		doorsched.OverrideSides, doorsched.EscapeBothWays, doorsched.OverrideColour, doorsched.LockPSUBattery, doorsched.OverrideCutsSupply,
		doorsched.OverrideDistance, doorsched.OverrideHeight),
	Refs: []string{"uk-adb-typeA", "uk-adb-override-side", "uk-adb-override-both", "uk-7273-sustained", "uk-7273-doublepole", "uk-7273-green", "uk-7273-ups",
		"uk-7273-2m", "uk-7273-height"},
	Cite: onlyUK(adb("5.12", doorsched.Memory)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.electricallyHeld(), c.localRelease())
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		two := AtLeast(c, doorsched.OverrideSides, 2)
		onBoth := two
		if two.Answer == doorsched.Unknown {
			onBoth = Any(c.OneOf(doorsched.OverrideSide, "both"), two)
		}
		// A unit scheduled as green is green unless its colour is stated.
		green := c.OneOf(doorsched.OverrideColour, "green")
		if green.Answer == doorsched.Unknown && c.OneOf(doorsched.Override, "green").Answer == doorsched.Yes {
			green = cond(doorsched.Override.ID(), doorsched.Yes)
		}
		return require(c, applies,
			check{cond: c.OneOf(doorsched.OverrideType, "A"), fault: &notTypeA},
			check{cond: c.Is(doorsched.OverrideLatching), fault: &springsBack},
			check{cond: AtLeast(c, doorsched.OverridePoles, 2), fault: &onePole},
			check{cond: Any(c.OneOf(doorsched.OverrideSide, "escape_side", "both"), two), fault: &wrongSide},
			check{cond: Implies(c.Is(doorsched.EscapeBothWays), onBoth), fault: &oneSide},
			check{cond: green, fault: &notGreen},
			check{cond: Implies(All(c.OneOf(doorsched.Lock, "electromagnetic"), c.Is(doorsched.LockPSUBattery)), c.Is(doorsched.OverrideCutsSupply)), fault: &batteryHolds},
			check{AtMost(c, doorsched.OverrideDistance, 2*doorsched.Metre), &unitFar, &unitFarLine},
			check{Between(c, doorsched.OverrideHeight, 1200*doorsched.Millimetre, 1600*doorsched.Millimetre), &unitHeight, &unitHeightLine},
		)
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case notTypeA.Item:
			return "The emergency release is of type " + f.Value.String() + ". That does not follow Approved Document B, which speaks of Type A: one action and no second thought."
		case springsBack.Item:
			return "The emergency release does not stay released. That does not follow BS 7273-4: the door would lock again behind the first person."
		case onePole.Item:
			return "The emergency release breaks " + f.Value.String() + " conductor of the lock supply. That does not follow BS 7273-4 as read in practice: with both broken a single wiring fault does not keep the door locked."
		case wrongSide.Item:
			return "The emergency release is not on the side people escape from. That does not follow Approved Document B."
		case oneSide.Item:
			return "People escape through this door either way and " + f.Value.String() + " side has an emergency release. That does not follow Approved Document B: a unit on both sides."
		case notGreen.Item:
			return "The emergency release is " + f.Value.String() + ". That does not follow BS 7273-4: it is green, so that nobody takes it for a fire call point."
		case batteryHolds.Item:
			return "The magnet's supply has a battery and the release does not cut the feed to the lock. That does not follow BS 7273-4 as read in practice: the battery keeps the door locked."
		case unitFar.Item:
			return "The emergency release is " + f.Value.String() + " from the door. That does not follow BS 7273-4: within 2 m people see that it belongs to the door."
		}
		return "The emergency release is " + f.Value.String() + " above the floor; BS 7273-4 speaks of about 1.4 m (the tolerance of 200 mm is to be checked)."
	},
}

var (
	notCritical = Fault{Item: "critical", Of: doorsched.ActuationCategory.ID(), Refs: []string{"uk-7273-catA"}, Limit: doorsched.TextOf("A"),
		Remedies: []Remedy{{"Release of category A, critical actuation", []Change{set[doorsched.Choice](doorsched.ActuationCategory, "A")}}}}
	indirect = Fault{Item: "indirect", Of: doorsched.ActuationCategory.ID(), Refs: []string{"uk-7273-catC-lock"}, Cite: bs7273("Annex B", doorsched.Memory), Limit: doorsched.TextOf("A or B"),
		Remedies: []Remedy{{"Release wired from the alarm system: category A", []Change{set[doorsched.Choice](doorsched.ActuationCategory, "A")}}}}
)

var alarmActuation = &Rule{
	Slug:     "alarm-actuation",
	Title:    "How surely the alarm frees the lock",
	Protects: "A cut cable between alarm and lock must open the final exit, not close it for good.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, doorsched.ActuationCategory, doorsched.FinalExit, doorsched.EscapeStair, doorsched.ExitControl),
	Refs:   []string{"uk-7273-catA", "uk-7273-catC-lock"},
	Cite:   onlyUK(bs7273("clause 4, Table 1", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		critical := Any(c.Is(doorsched.FinalExit), c.Is(doorsched.EscapeStair), c.Is(doorsched.ExitControl))
		return require(c, All(c.egress(), c.electricallyHeld()),
			check{cond: Implies(critical, c.OneOf(doorsched.ActuationCategory, "A")), fault: &notCritical},
			check{cond: Not(c.OneOf(doorsched.ActuationCategory, "C")), fault: &indirect},
		)
	},
	Say: func(_ Case, f Fault) string {
		if f.Item == indirect.Item {
			return "The lock is released by indirect actuation, category C. That does not follow BS 7273-4 as remembered (to be checked): it is meant for hold-open devices, not for a locked escape door."
		}
		return "The alarm releases this lock by category " + f.Value.String() + ". That does not follow BS 7273-4 for final exits, escape stairs and exit control, where category A releases on faults of the signal path too."
	},
}

var magnetAcrossBar = Fault{Item: "magnet across the device", Of: doorsched.Lock.ID(), Limit: doorsched.TextOf("one tested EN 13637 system, or no magnet"),
	Remedies: []Remedy{
		{"Electric latch retraction of the panic device itself, opened by hand at any time", []Change{
			set[doorsched.Choice](doorsched.Lock, "electrified_panic"), set(doorsched.MechanicalEgress, doorsched.Yes)}},
		{"One exit system tested as a whole to BS EN 13637", []Change{set(doorsched.En13637System, doorsched.Yes)}},
	}}

var lockAcrossExitDevice = &Rule{
	Slug:     "lock-across-exit-device",
	Title:    "No magnet across a panic device",
	Protects: "A panic bar must open the door by itself; a magnet beside it keeps the door shut under the bar.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.Lock, doorsched.EgressHardware, doorsched.En13637System),
	Refs:   []string{"uk-7273-panicbar"},
	Cite:   onlyUK(bs7273("", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.OneOf(doorsched.Lock, "electromagnetic"), c.OneOf(doorsched.EgressHardware, "panic", "emergency_device"))
		return require(c, applies, check{cond: c.Is(doorsched.En13637System), fault: &magnetAcrossBar})
	},
	Say: func(Case, Fault) string {
		return "A separate magnet holds a door that has a panic or emergency device. That does not follow BS 7273-4 or the device's own standard: pressing the device must open the door by that alone. Sources allow it only as one system tested to BS EN 13637."
	},
}

var strikeAlone = Fault{Item: "only fastening", Of: doorsched.SoleFastening.ID(), Limit: doorsched.TextOf("a bar, pad or lever that opens it by hand"),
	Remedies: []Remedy{{"A lever, pad or bar that opens the door by hand", []Change{set(doorsched.MechanicalEgress, doorsched.Yes)}}}}

var onlyFastening = &Rule{
	Slug:     "only-fastening",
	Title:    "An electric release is not the only fastening",
	Protects: "A strike or bolt that jams under side pressure leaves people with nothing to work by hand.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, doorsched.SoleFastening),
	Refs:   []string{"uk-mech-strike"},
	Cite:   onlyUK(doorsched.Citation{Document: "Healthcare fire risk guidance on electrical locking devices", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.OneOf(doorsched.Lock, "electric_strike", "power_bolt"))
		return require(c, applies, check{cond: Any(c.Is(doorsched.MechanicalEgress), Not(c.Is(doorsched.SoleFastening))), fault: &strikeAlone})
	},
	Say: func(Case, Fault) string {
		return "An electric strike or bolt is this escape door's only fastening and nothing opens it by hand. That does not follow published healthcare guidance, unless the release is shown to open under side pressure without a spring."
	},
}

var publicHeld = Fault{Item: "public", Of: doorsched.PublicAccess.ID(), Limit: doorsched.TextOf("agreed with the enforcing authority")}

var lockedPublicExit = &Rule{
	Slug:     "locked-public-exit",
	Title:    "Electric locks where the public escapes",
	Protects: "A crowd that does not know the unit on the wall does not look for it.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Approval,
	Fields: fields(egressReads, heldReads, doorsched.PublicAccess, doorsched.Licensed),
	Refs:   []string{"uk-7273-public"},
	Cite:   onlyUK(bs7273("Annex A", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		many := Any(MoreThan(c, doorsched.OccupantLoad, unfamiliarAbove), c.Is(doorsched.Licensed))
		return require(c, All(c.egress(), c.electricallyHeld()), check{cond: Not(All(c.Is(doorsched.PublicAccess), many)), fault: &publicHeld})
	},
	Say: func(Case, Fault) string {
		return "An electric lock holds a door that many members of the public escape through (more than 60, a stand-in for the standard's words), or of licensed premises. Enforcing authorities often refuse that: have their agreement on record."
	},
}
