package egress

import "example.com/lockrail/doorsched"

var noDelay = []Remedy{{"No delay: panic hardware with an alarm that sounds on use", []Change{
	set[doorsched.Choice](doorsched.Lock, "mechanical"), set(doorsched.Delay, 0.0)}}}

var (
	delayOcc = Fault{Item: "occupancy", Of: doorsched.Occupancy.ID(), Refs: []string{"de-occ"}, Limit: doorsched.TextOf("B F I M R S U, E classrooms under 50, some courtrooms"), Remedies: noDelay}

	delayUnprotected = Fault{Item: "building", Of: doorsched.Sprinkler.ID(), Refs: []string{"de-bldg"}, Limit: doorsched.TextOf("NFPA 13 sprinklers or full detection")}
	delayTime        = Fault{Item: "delay", Of: doorsched.Delay.ID(), Refs: []string{"de-15s", "de-30s"}, Limit: doorsched.NumberOf(15, "s"),
		Remedies: []Remedy{{"A delay of 15 s", []Change{set(doorsched.Delay, 15.0)}}}}
	delayApproved = Fault{Item: "approved delay", Severity: doorsched.Approval, Of: doorsched.Delay.ID(), Refs: []string{"de-30s"}, Limit: doorsched.NumberOf(15, "s")}
	delayRelease  = Fault{Item: "release on fire", Of: doorsched.ReleaseSet.ID(), Refs: []string{"de-fa"}, Limit: doorsched.TextOf("sprinklers or detection"),
		Remedies: []Remedy{{"End the delay at once on sprinklers or detection", []Change{add(doorsched.ReleaseSet, doorsched.BySprinkler|doorsched.BySmoke)}}}}
	delayPower = Fault{Item: "power loss", Of: doorsched.Fail.ID(), Refs: []string{"de-power"}, Limit: doorsched.TextOf("unlocks"), Remedies: sensorPower.Remedies}
	delayRearm = Fault{Item: "rearming", Of: doorsched.Rearm.ID(), Refs: []string{"de-rearm"}, Limit: doorsched.TextOf("manual"),
		Remedies: []Remedy{{"Rearming by hand only", []Change{set[doorsched.Choice](doorsched.Rearm, "manual")}}}}
	delayPath = Fault{Item: "path", Of: doorsched.DelaysInPath.ID(), Refs: []string{"de-one", "de-two-i", "de-two-i1i4"}, Limit: doorsched.TextOf("1, or 2 of 30 s together in some of group I")}
	delaySign = Fault{Item: "sign", Of: doorsched.DelaySign.ID(), Refs: []string{"de-sign"}, Limit: doorsched.TextOf("yes"),
		Remedies: []Remedy{{"A sign at the door that tells how it opens and in how many seconds", []Change{set(doorsched.DelaySign, doorsched.Yes)}}}}
	delayLight = Fault{Item: "light", Of: doorsched.EmergencyLight.ID(), Refs: []string{"de-light"}, Limit: doorsched.TextOf("yes"),
		Remedies: []Remedy{{"Emergency lighting on the egress side", []Change{set(doorsched.EmergencyLight, doorsched.Yes)}}}}
	delayListing = Fault{Item: "listing", Of: doorsched.Listed.ID(), Refs: []string{"de-list"}, Limit: doorsched.TextOf("UL294"), Remedies: sensorListing.Remedies}

	delayLine = doorsched.SiteLine{What: "Push for at most 3 s starts the signal at the door and the release that nothing stops", Limit: "unlocked at the end of the stated delay"}
	signLine  = doorsched.SiteLine{What: "Distance of the delayed egress sign above the hardware", Limit: "at most 12 in (305 mm)", Field: doorsched.DelaySignDistance.ID()}

	publicWaits = Fault{Item: "public", Of: doorsched.Delay.ID(), Refs: []string{"uk-delay-public"}, Limit: doorsched.NumberOf(0, "s"),
		Remedies: []Remedy{{"No delay", []Change{set(doorsched.Delay, 0.0)}}}}
	notAgreed = Fault{Item: "agreement", Of: doorsched.AuthorityAgreed.ID(), Refs: []string{"uk-delay-ra"}, Limit: doorsched.TextOf("risk assessment and agreement"),
		Cite: doorsched.Citation{Document: "Fire authority guidance note on delayed egress", Edition: "2010", Status: doorsched.Verified}}
	alarmWaits = Fault{Item: "fire alarm", Of: doorsched.ReleaseSet.ID(), Refs: []string{"uk-delay-alarm"}, Limit: doorsched.TextOf("ends the delay at once"),
		Cite:     doorsched.Citation{Document: "BS EN 13637", Edition: "2015", Status: doorsched.Memory},
		Remedies: []Remedy{{"End the delay at once on the fire alarm", []Change{add(doorsched.ReleaseSet, doorsched.ByFireAlarm)}}}}
	panicWaits = Fault{Item: "panic device", Of: doorsched.Delay.ID(), Refs: []string{"uk-delay-panic"}, Limit: doorsched.NumberOf(0, "s"), Remedies: publicWaits.Remedies,
		Cite: doorsched.Citation{Document: "prEN 13633", Clause: "scope note", Status: doorsched.Verified}}
	crushPoint = Fault{Item: "crush", Severity: doorsched.Caution, Of: doorsched.Delay.ID(), Refs: []string{"uk-delay-crush"}, Limit: doorsched.NumberOf(0, "s"), Cite: notAgreed.Cite}
)

var delayedEgress = &Rule{
	Slug:     "delayed-egress",
	Title:    "A door that makes people wait",
	Protects: "Each second a door stays shut on people who flee is a risk taken for someone's goods or safety; it has strict terms.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Occupancy, doorsched.Sprinkler, doorsched.Detection, doorsched.MainExterior, doorsched.Delay, doorsched.DelayApproved,
		doorsched.Fail, doorsched.Rearm, doorsched.DelaysInPath, doorsched.DelaySum, doorsched.DelaySign, doorsched.DelaySignDistance,
		doorsched.EmergencyLight, doorsched.Listed, doorsched.PublicAccess, doorsched.RiskAssessment, doorsched.AuthorityAgreed, doorsched.AtFootOfStair),
	Refs: []string{"de-occ", "de-bldg", "de-15s", "de-30s", "de-fa", "de-power", "de-force", "de-rearm", "de-one", "de-two-i", "de-two-i1i4", "de-sign", "de-light",
		"de-list", "uk-delay-public", "uk-delay-ra", "uk-delay-alarm", "uk-delay-panic", "uk-delay-crush"},
	Cite: both(ibc("1010.2.13", doorsched.Verified),
		doorsched.Citation{Document: "Healthcare fire risk guidance on electrical locking devices", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		if c.UK() {
			applies := All(c.egress(), Not(c.OneOf(doorsched.Lock, "none", "mechanical")), MoreThan(c, doorsched.Delay, 0))
			if applies.Answer == doorsched.No {
				return notApplicable()
			}
			return require(c, applies,
				check{cond: Not(c.Is(doorsched.PublicAccess)), fault: &publicWaits},
				check{cond: All(c.Is(doorsched.RiskAssessment), c.Is(doorsched.AuthorityAgreed)), fault: &notAgreed},
				check{cond: c.Has(doorsched.ReleaseSet, doorsched.ByFireAlarm), fault: &alarmWaits},
				check{cond: Not(c.OneOf(doorsched.EgressHardware, "panic")), fault: &panicWaits},
				check{cond: Not(c.Is(doorsched.AtFootOfStair)), fault: &crushPoint},
			)
		}
		applies := All(c.egress(), c.OneOf(doorsched.Lock, "delayed_egress"))
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		use := func(u doorsched.Choice) Cond { return c.OneOf(doorsched.DoorUse, u) }
		thirteen := c.OneOf(doorsched.Sprinkler, "13")
		court := All(c.Group("A-3", "B"), use("courtroom"))
		allowed := Any(c.Group("B", "F", "I", "M", "R", "S", "U"),
			All(c.Group("E"), use("classroom"), Not(AtLeast(c, doorsched.OccupantLoad, panicLoad))),
			All(court, Not(c.Is(doorsched.MainExterior)), thirteen))
		protected := Any(thirteen, All(c.OneOf(doorsched.Detection, "full"), Not(court)))
		short := AtMost(c, doorsched.Delay, 15)
		longApproved := All(AtMost(c, doorsched.Delay, 30), c.Is(doorsched.DelayApproved))
		two := All(AtMost(c, doorsched.DelaysInPath, 2), Any(c.Group("I-2", "I-3"), All(c.Group("I-1", "I-4"), thirteen)), AtMost(c, doorsched.DelaySum, 30))
		j := require(c, applies,
			check{cond: allowed, fault: &delayOcc},
			check{cond: protected, fault: &delayUnprotected},
			check{cond: Any(short, longApproved), fault: &delayTime},
			check{cond: Not(All(Not(short), longApproved)), fault: &delayApproved},
			check{cond: c.HasAny(doorsched.ReleaseSet, doorsched.BySprinkler|doorsched.BySmoke|doorsched.ByFireAlarm), fault: &delayRelease},
			check{cond: c.unlocksWithoutPower(), fault: &delayPower},
			check{cond: c.OneOf(doorsched.Rearm, "manual"), fault: &delayRearm},
			check{cond: Any(AtMost(c, doorsched.DelaysInPath, 1), two), fault: &delayPath},
			check{cond: c.Is(doorsched.DelaySign), fault: &delaySign},
			check{AtMost(c, doorsched.DelaySignDistance, 12*doorsched.Inch), &delaySign, &signLine},
			check{cond: c.Is(doorsched.EmergencyLight), fault: &delayLight},
			check{cond: c.OneOf(doorsched.Listed, "UL294"), fault: &delayListing},
		)
		if applies.Answer == doorsched.Yes {
			j.Site = append(j.Site, delayLine)
		}
		return j
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case delayOcc.Item:
			return "A delayed lock stands on a door of group " + f.Value.String() + ", where no delay is allowed; a crowd that cannot get out crushes itself."
		case delayUnprotected.Item:
			return "The building has neither NFPA 13 sprinklers nor fire detection throughout; a delayed lock is allowed only with one of them."
		case delayTime.Item:
			return "The delay is " + f.Value.String() + "; 15 s is the limit, 30 s where the authority has approved it."
		case delayApproved.Item:
			return "The delay is " + f.Value.String() + " on the authority's approval; keep the approval with the door's papers. Without it the limit is 15 s."
		case delayRelease.Item:
			return "Neither sprinklers nor detection end the delay; in a fire the door must open at once."
		case delayPower.Item:
			return "Without power this lock stays locked; loss of power must end the delay."
		case delayRearm.Item:
			return "The delay rearms by itself; after it was cut off it may be rearmed only by hand."
		case delayPath.Item:
			return "One way out passes " + f.Value.String() + " delayed locks; one is the limit, two of 30 s together in groups I-2 and I-3, and in I-1 and I-4 with NFPA 13 sprinklers."
		case delaySign.Item:
			return "The sign that tells people to push and wait is missing or more than 12 in from the hardware; without it they take the door for locked and turn back."
		case delayLight.Item:
			return "Emergency lighting is missing on the egress side; the sign cannot be read in the dark."
		case delayListing.Item:
			return "The locking system is listed " + f.Value.String() + "; UL 294 is asked of it in this edition."
		case publicWaits.Item:
			return "Members of the public wait " + f.Value.String() + " at this escape door. That does not follow published guidance: a delay is for staff-only areas and a last resort."
		case notAgreed.Item:
			return "The door opens after a delay and a risk assessment with the agreement of building control and the fire authority is not on record. That does not follow fire authority guidance."
		case alarmWaits.Item:
			return "The fire alarm does not end the delay. That does not follow BS EN 13637 as remembered (to be checked): the alarm ends it at once."
		case panicWaits.Item:
			return "A panic device waits " + f.Value.String() + ". That does not follow the standard: a panic exit lets people out at all times, at once."
		}
		return "The delayed door is at the foot of a stair, where people could be crushed against it; fire authority guidance does not normally recommend it."
	},
}

var (
	controlOcc = Fault{Item: "occupancy", Of: doorsched.Occupancy.ID(), Refs: []string{"ce-occ"}, Limit: doorsched.TextOf("I-1 or I-2")}

	controlUnprotected = Fault{Item: "building", Of: doorsched.Sprinkler.ID(), Refs: []string{"ce-bldg"}, Limit: doorsched.TextOf("NFPA 13 sprinklers or full detection")}
	controlFire        = Fault{Item: "release on fire", Of: doorsched.ReleaseSet.ID(), Refs: []string{"ce-fa"}, Limit: doorsched.TextOf("sprinklers or detection"), Remedies: delayRelease.Remedies}
	controlPower       = Fault{Item: "power loss", Of: doorsched.Fail.ID(), Refs: []string{"ce-power"}, Limit: doorsched.TextOf("unlocks"), Remedies: sensorPower.Remedies}
	controlRemote      = Fault{Item: "remote switch", Of: doorsched.ReleaseSet.ID(), Refs: []string{"ce-remote"}, Limit: doorsched.TextOf("a switch at an approved place"),
		Remedies: []Remedy{{"A switch at the nurse station that cuts lock power", []Change{add(doorsched.ReleaseSet, doorsched.ByRemote)}}}}
	controlPath    = Fault{Item: "path", Of: doorsched.ControlledInPath.ID(), Refs: []string{"ce-one"}, Limit: doorsched.TextOf("1")}
	controlPlan    = Fault{Item: "plan", Of: doorsched.InEmergencyPlan.ID(), Refs: []string{"ce-plan"}, Limit: doorsched.TextOf("yes")}
	controlKeys    = Fault{Item: "staff", Of: doorsched.StaffKeys.ID(), Refs: []string{"ce-keys"}, Limit: doorsched.TextOf("yes")}
	controlLight   = Fault{Item: "light", Of: doorsched.EmergencyLight.ID(), Refs: []string{"ce-light"}, Limit: doorsched.TextOf("yes"), Remedies: delayLight.Remedies}
	controlListing = Fault{Item: "listing", Of: doorsched.Listed.ID(), Refs: []string{"ce-list"}, Limit: doorsched.TextOf("UL294"), Remedies: sensorListing.Remedies}
)

var controlledEgress = &Rule{
	Slug:     "controlled-egress",
	Title:    "A door staff open for patients",
	Protects: "People kept in for their own good depend on staff, on the alarm and on the lock letting go.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.Occupancy, doorsched.ClinicalExempt, doorsched.Sprinkler, doorsched.Detection,
		doorsched.Fail, doorsched.ControlledInPath, doorsched.InEmergencyPlan, doorsched.StaffKeys, doorsched.EmergencyLight, doorsched.Listed),
	Refs: []string{"ce-occ", "ce-bldg", "ce-fa", "ce-power", "ce-remote", "ce-one", "ce-plan", "ce-keys", "ce-light", "ce-list", "ce-exempt"},
	Cite: onlyUS(ibc("1010.2.14", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.OneOf(doorsched.Lock, "controlled_egress"))
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		exempt := Any(c.Is(doorsched.ClinicalExempt), c.OneOf(doorsched.DoorUse, "psychiatric"))
		return require(c, applies,
			check{cond: c.Group("I-1", "I-2"), fault: &controlOcc},
			check{cond: Any(c.OneOf(doorsched.Sprinkler, "13"), c.OneOf(doorsched.Detection, "full")), fault: &controlUnprotected},
			check{cond: Any(c.HasAny(doorsched.ReleaseSet, doorsched.BySprinkler|doorsched.BySmoke), exempt), fault: &controlFire},
			check{cond: Any(c.unlocksWithoutPower(), exempt), fault: &controlPower},
			check{cond: Any(c.Has(doorsched.ReleaseSet, doorsched.ByRemote), exempt), fault: &controlRemote},
			check{cond: Any(AtMost(c, doorsched.ControlledInPath, 1), exempt), fault: &controlPath},
			check{cond: c.Is(doorsched.InEmergencyPlan), fault: &controlPlan},
			check{cond: c.Is(doorsched.StaffKeys), fault: &controlKeys},
			check{cond: c.Is(doorsched.EmergencyLight), fault: &controlLight},
			check{cond: c.OneOf(doorsched.Listed, "UL294"), fault: &controlListing},
		)
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case controlOcc.Item:
			return "Controlled egress stands on a door of group " + f.Value.String() + "; it is allowed only in I-1 and I-2, where care needs call for it."
		case controlUnprotected.Item:
			return "The building has neither NFPA 13 sprinklers nor fire detection throughout; controlled egress is allowed only with one of them."
		case controlFire.Item:
			return "Neither sprinklers nor detection unlock this door; in a fire it must open at once."
		case controlPower.Item:
			return "Without power this lock stays locked; loss of power must unlock it."
		case controlRemote.Item:
			return "No switch at the fire command center, nurse station or other approved place unlocks this door."
		case controlPath.Item:
			return "One way out passes " + f.Value.String() + " controlled doors; one is the limit."
		case controlPlan.Item:
			return "The procedure for unlocking is not in the emergency plan."
		case controlKeys.Item:
			return "Not all clinical staff carry what unlocks the door."
		case controlLight.Item:
			return "Emergency lighting is missing at the door."
		}
		return "The locking system is listed " + f.Value.String() + "; UL 294 is asked of it in this edition."
	},
}
