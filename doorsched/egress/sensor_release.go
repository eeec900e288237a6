package egress

import "example.com/lockrail/doorsched"

// releaseReads are the fields that tell by which arrangement a lock is released.
var releaseReads = []doorsched.FieldID{doorsched.ReleaseSet.ID(), doorsched.ReleaseMode.ID(), doorsched.ExitSensor.ID()}

// bySensor holds where a sensor on the egress side unlocks the door. The set of
// means decides; where it does not say, the arrangement or the sensor named does.
func (c Case) bySensor() Cond {
	in := c.Has(doorsched.ReleaseSet, doorsched.BySensor)
	if in.Answer != doorsched.Unknown {
		return in
	}
	if doorsched.ReleaseMode.In(c.View).IsKnown() {
		return c.OneOf(doorsched.ReleaseMode, "sensor")
	}
	if doorsched.ExitSensor.In(c.View).IsKnown() {
		return Not(c.OneOf(doorsched.ExitSensor, "none"))
	}
	return in
}

// byHardware holds where a switch in the hardware on the leaf unlocks the door.
func (c Case) byHardware() Cond {
	in := c.Has(doorsched.ReleaseSet, doorsched.ByHardwareSwitch)
	if in.Answer == doorsched.Unknown && doorsched.ReleaseMode.In(c.View).IsKnown() {
		return c.OneOf(doorsched.ReleaseMode, "hardware_switch")
	}
	return in
}

var sensorAndButton = []Remedy{
	{"A sensor on the egress side that unlocks the door for a person approaching, with the push to exit button beside it", []Change{
		add(doorsched.ReleaseSet, doorsched.BySensor|doorsched.ByButton)}},
	{"A switch in the hardware on the leaf that cuts lock power directly", []Change{
		add(doorsched.ReleaseSet, doorsched.ByHardwareSwitch), set(doorsched.HardwareDirect, doorsched.Yes)}},
}

var (
	noArrangement = Fault{Item: "arrangement", Of: doorsched.ReleaseSet.ID(), Refs: []string{"sr-sensor", "lock-button-only"},
		Limit: doorsched.TextOf("sensor, or switch in the hardware"), Remedies: sensorAndButton}
	noArrangementStair = Fault{Item: "arrangement", Of: doorsched.ReleaseSet.ID(), Refs: []string{"sr-sensor", "lock-button-only", "stair-discharge"},
		Limit: doorsched.TextOf("sensor, or switch in the hardware"), Remedies: sensorAndButton}
	sensorInH = Fault{Item: "occupancy", Of: doorsched.Occupancy.ID(), Refs: []string{"sr-occ"}, Limit: doorsched.TextOf("any group but H"),
		Remedies: []Remedy{{"Latching hardware that opens by hand, with no lock that holds the egress side", []Change{set[doorsched.Choice](doorsched.Lock, "mechanical")}}}}
	sensorPower = Fault{Item: "power loss", Of: doorsched.Fail.ID(), Refs: []string{"sr-sensor-power", "sr-lock-power"}, Limit: doorsched.TextOf("unlocks"),
		Remedies: []Remedy{{"A lock that unlocks without power", []Change{set[doorsched.Choice](doorsched.Fail, "safe")}}}}
	noButton = Fault{Item: "button", Of: doorsched.ReleaseSet.ID(), Refs: []string{"sr-btn-height", "sr-btn-dist", "sr-btn-time", "sr-btn-direct", "sr-btn-sign"},
		Limit: doorsched.TextOf("a button beside the door"), Remedies: []Remedy{{"A push to exit button within 5 ft of the door", []Change{
			add(doorsched.ReleaseSet, doorsched.ByButton)}}}}
	buttonHeight = Fault{Item: "button height", Of: doorsched.ButtonHeight.ID(), Refs: []string{"sr-btn-height"}, Limit: doorsched.TextOf("40 to 48 in (1016 to 1219.2 mm)"),
		Remedies: []Remedy{{"Set the button 44 in (1117.6 mm) above the floor", []Change{set(doorsched.ButtonHeight, 44*doorsched.Inch)}}}}
	buttonHeightLine = doorsched.SiteLine{What: "Height of the push to exit button above the finished floor", Limit: "40 to 48 in (1016 to 1219 mm)", Field: doorsched.ButtonHeight.ID()}
	buttonDistance   = Fault{Item: "button distance", Of: doorsched.ButtonDistance.ID(), Refs: []string{"sr-btn-dist"}, Limit: doorsched.LengthOf(5 * doorsched.Foot),
		Remedies: []Remedy{{"Set the button within 5 ft (1524 mm) of the door", []Change{set(doorsched.ButtonDistance, 5*doorsched.Foot)}}}}
	buttonTime = Fault{Item: "button time", Of: doorsched.ButtonUnlock.ID(), Refs: []string{"sr-btn-time"}, Limit: doorsched.NumberOf(30, "s"),
		Remedies: []Remedy{{"Time the button to keep the door unlocked 30 s", []Change{set(doorsched.ButtonUnlock, 30.0)}}}}
	buttonDirect = Fault{Item: "button wiring", Of: doorsched.ButtonDirect.ID(), Refs: []string{"sr-btn-direct"}, Limit: doorsched.TextOf("cuts lock power directly"),
		Remedies: []Remedy{{"Wire the button to cut lock power itself, independent of other electronics", []Change{set(doorsched.ButtonDirect, doorsched.Yes)}}}}
	buttonSign = Fault{Item: "button sign", Of: doorsched.ButtonSign.ID(), Refs: []string{"sr-btn-sign"}, Limit: doorsched.TextOf("PUSH TO EXIT"),
		Remedies: []Remedy{{"Mark the button PUSH TO EXIT", []Change{set(doorsched.ButtonSign, doorsched.Yes)}}}}
	sensorAlarm = Fault{Item: "fire alarm", Of: doorsched.ReleaseSet.ID(), Refs: []string{"sr-fa", "fa-unlock"}, Limit: doorsched.TextOf("unlocks on the fire alarm"),
		Remedies: []Remedy{{"Release by the fire alarm, kept until the alarm is reset", []Change{add(doorsched.ReleaseSet, doorsched.ByFireAlarm)}}}}
	sensorSprinkler = Fault{Item: "sprinklers or detection", Of: doorsched.ReleaseSet.ID(), Refs: []string{"sr-spk"}, Limit: doorsched.TextOf("unlocks on sprinklers or detection"),
		Remedies: []Remedy{{"Release by the sprinkler or detection system", []Change{add(doorsched.ReleaseSet, doorsched.BySprinkler|doorsched.BySmoke)}}}}
	sensorThroughAlarm = Fault{Item: "sprinklers or detection through the alarm", Severity: doorsched.Caution, Of: doorsched.ReleaseSet.ID(), Refs: []string{"sr-spk"},
		Limit: doorsched.TextOf("unlocks on sprinklers or detection"), Remedies: sensorSprinkler.Remedies}
	sensorListing = Fault{Item: "listing", Of: doorsched.Listed.ID(), Refs: []string{"sr-list"}, Limit: doorsched.TextOf("UL294"),
		Remedies: []Remedy{{"Locking system units listed to UL 294", []Change{set[doorsched.Choice](doorsched.Listed, "UL294")}}}}
)

var sensorRelease = &Rule{
	Slug:     "sensor-release",
	Title:    "A lock that lets go by itself",
	Protects: "People who come to a held door must find it open without learning how: a sensor sees them, a button stands by, and every failure unlocks.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, releaseReads, doorsched.Occupancy, doorsched.Fail, doorsched.ButtonHeight, doorsched.ButtonDistance,
		doorsched.ButtonUnlock, doorsched.ButtonDirect, doorsched.ButtonSign, doorsched.FireAlarm, doorsched.Sprinkler, doorsched.Detection, doorsched.Listed),
	Refs: []string{"sr-occ", "sr-sensor", "sr-sensor-power", "sr-lock-power", "sr-btn-height", "sr-btn-dist", "sr-btn-time", "sr-btn-direct",
		"sr-btn-sign", "sr-fa", "sr-spk", "sr-list", "lock-button-only", "stair-discharge", "fa-unlock"},
	Cite: onlyUS(ibc("1010.2.12", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.electricallyHeld(), Not(c.byHardware()))
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		sensor := c.bySensor()
		if sensor.Answer == doorsched.No {
			f := &noArrangement
			if c.OneOf(doorsched.DoorUse, "stair_discharge").Answer == doorsched.Yes {
				f = &noArrangementStair
			}
			return require(c, applies, check{cond: sensor, fault: f})
		}
		checks := []check{
			{cond: sensor, fault: &noArrangement},
			{cond: Not(c.Group("H")), fault: &sensorInH},
			{cond: c.unlocksWithoutPower(), fault: &sensorPower},
		}
		button := c.Has(doorsched.ReleaseSet, doorsched.ByButton)
		checks = append(checks, check{cond: button, fault: &noButton})
		if button.Answer != doorsched.No {
			checks = append(checks,
				check{Between(c, doorsched.ButtonHeight, 40*doorsched.Inch, 48*doorsched.Inch), &buttonHeight, &buttonHeightLine},
				check{cond: AtMost(c, doorsched.ButtonDistance, 5*doorsched.Foot), fault: &buttonDistance},
				check{cond: AtLeast(c, doorsched.ButtonUnlock, 30), fault: &buttonTime},
				check{cond: c.Is(doorsched.ButtonDirect), fault: &buttonDirect},
				check{cond: c.Is(doorsched.ButtonSign), fault: &buttonSign},
			)
		}
		alarm := c.Has(doorsched.ReleaseSet, doorsched.ByFireAlarm)
		protected := Any(Not(c.OneOf(doorsched.Sprinkler, "none")), Not(c.OneOf(doorsched.Detection, "none")))
		own := c.HasAny(doorsched.ReleaseSet, doorsched.BySprinkler|doorsched.BySmoke)
		checks = append(checks,
			check{cond: Implies(c.Is(doorsched.FireAlarm), alarm), fault: &sensorAlarm},
			// Water flow and detection usually start the alarm that unlocks the
			// door; a schedule that names only the alarm is worth a word, no more.
			check{cond: Implies(protected, Any(own, alarm)), fault: &sensorSprinkler},
			check{cond: Implies(All(protected, alarm), own), fault: &sensorThroughAlarm},
			check{cond: c.OneOf(doorsched.Listed, "UL294"), fault: &sensorListing},
		)
		return require(c, applies, checks...)
	},
	Say: func(c Case, f Fault) string {
		switch f.Item {
		case noArrangement.Item:
			return "An electric lock holds the egress side and is released by " + f.Value.String() + ": neither a sensor nor a switch in the hardware on the leaf. A wall button alone leaves people at a door they do not know how to open."
		case sensorInH.Item:
			return "Sensor release stands on a door of group " + f.Value.String() + "; it is allowed in any group but H, where every second counts."
		case sensorPower.Item:
			return "Without power this lock stays locked; loss of power to the lock or the sensor must unlock the door."
		case noButton.Item:
			return "No push to exit button is listed beside this door; when the sensor fails nothing else lets people out."
		case buttonHeight.Item:
			return "The push to exit button is " + c.show(f.Value) + " above the floor, outside 40 to 48 in; people miss it or cannot reach it."
		case buttonDistance.Item:
			return "The push to exit button is " + c.show(f.Value) + " from the door; within 5 ft people see that it belongs to the door."
		case buttonTime.Item:
			return "The button keeps the door unlocked " + f.Value.String() + "; at least 30 s lets the slow pass too."
		case buttonDirect.Item:
			return "The button does not itself cut lock power. It must work when the other electronics do not."
		case buttonSign.Item:
			return "The button is not marked PUSH TO EXIT; someone who does not know it must find it."
		case sensorAlarm.Item:
			return "The building has a fire alarm system and it does not unlock this door."
		case sensorSprinkler.Item:
			return "The building has sprinklers or fire detection and neither unlocks this door."
		case sensorThroughAlarm.Item:
			return "Sprinklers or detection unlock this door only if they start the fire alarm; see that they do."
		}
		return "The locking system is listed " + f.Value.String() + "; UL 294 is asked of it in this edition."
	},
}
