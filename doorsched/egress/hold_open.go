package egress

import "example.com/lockrail/doorsched"

var byHand = []doorsched.Choice{"arm", "wedge"}

var (
	wedged = Fault{Item: "no release", Of: doorsched.HoldOpen.ID(), Refs: []string{"fd-hold"}, Limit: doorsched.TextOf("a device that lets go"),
		Remedies: []Remedy{{"A magnetic holder released by smoke detection and by loss of power", []Change{
			set[doorsched.Choice](doorsched.HoldOpen, "magnetic"), add(doorsched.HoldOpenRelease, doorsched.BySmoke|doorsched.ByPowerLoss)}}}}
	noSmokeRelease = Fault{Item: "smoke", Of: doorsched.HoldOpenRelease.ID(), Refs: []string{"fd-hold"}, Limit: doorsched.TextOf("smoke detection"),
		Remedies: []Remedy{{"Release by smoke detection", []Change{add(doorsched.HoldOpenRelease, doorsched.BySmoke)}}}}
	noPowerRelease = Fault{Item: "power loss", Of: doorsched.HoldOpenRelease.ID(), Refs: []string{"fd-hold"}, Limit: doorsched.TextOf("loss of power"),
		Remedies: []Remedy{{"A holder that lets go without power", []Change{add(doorsched.HoldOpenRelease, doorsched.ByPowerLoss)}}}}

	wedgedUK    = Fault{Item: "no release", Of: doorsched.HoldOpen.ID(), Refs: []string{"uk-7273-heldopen"}, Limit: doorsched.TextOf("an automatic release mechanism"), Remedies: wedged.Remedies}
	missingWays = Fault{Item: "ways of release", Of: doorsched.HoldOpenRelease.ID(), Refs: []string{"uk-7273-heldopen"}, Limit: doorsched.TextOf("smoke detection, manual switch, supply failure, fire alarm"),
		Remedies: []Remedy{{"Release by smoke detection, by a manual switch, by failure of the supply and by the fire alarm", []Change{
			add(doorsched.HoldOpenRelease, fourCauses)}}}}
	noHandRelease = Fault{Item: "by hand", Of: doorsched.ManualRelease.ID(), Refs: []string{"uk-1155-manual2"}, Limit: doorsched.TextOf("yes"),
		Cite:     doorsched.Citation{Document: "Published guidance on hold-open devices", Status: doorsched.Verified},
		Remedies: []Remedy{{"A way to release the door by hand beside it", []Change{set(doorsched.ManualRelease, doorsched.Yes)}}}}
	slow = Fault{Item: "release time", Severity: doorsched.Caution, Of: doorsched.ReleaseTime.ID(), Refs: []string{"uk-7273-3s"}, Cite: bs7273("", doorsched.Verified),
		Limit: doorsched.NumberOf(3, "s")}
	slowLine = doorsched.SiteLine{What: "Time from the fire alarm to release of the held door", Limit: "at most 3 s", Field: doorsched.ReleaseTime.ID(), Citation: slow.Cite}
)

// fourCauses is what Approved Document B's automatic release mechanism lets go on.
const fourCauses = doorsched.BySmoke | doorsched.ByManualSwitch | doorsched.ByPowerLoss | doorsched.ByFireAlarm

var holdOpen = &Rule{
	Slug:     "hold-open",
	Title:    "A held fire door lets go",
	Protects: "A fire door held open by something that does not let go is no fire door.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.HoldOpen, doorsched.HoldOpenRelease, doorsched.ManualRelease, doorsched.ReleaseTime),
	Refs:   []string{"fd-hold", "uk-7273-heldopen", "uk-1155-manual2", "uk-7273-3s"},
	Cite: both(ibc("716.2.6.6", doorsched.Verified),
		adb("Appendix A, automatic release mechanism", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.Rated(), Not(c.OneOf(doorsched.HoldOpen, "none")))
		device := Not(c.OneOf(doorsched.HoldOpen, byHand...))
		wedge := &wedgedUK
		if !c.UK() {
			wedge = &wedged
		}
		if device.Answer == doorsched.No {
			return require(c, applies, check{cond: device, fault: wedge})
		}
		if c.UK() {
			return require(c, applies,
				check{cond: device, fault: wedge},
				check{cond: c.causes(), fault: &missingWays},
				check{cond: Any(c.Is(doorsched.ManualRelease), c.Has(doorsched.HoldOpenRelease, doorsched.ByManualSwitch)), fault: &noHandRelease},
				check{AtMost(c, doorsched.ReleaseTime, 3), &slow, &slowLine},
			)
		}
		return require(c, applies,
			check{cond: device, fault: wedge},
			check{cond: c.Has(doorsched.HoldOpenRelease, doorsched.BySmoke), fault: &noSmokeRelease},
			check{cond: Any(c.OneOf(doorsched.HoldOpen, "magnetic"), c.Has(doorsched.HoldOpenRelease, doorsched.ByPowerLoss)), fault: &noPowerRelease},
		)
	},
	Say: func(c Case, f Fault) string {
		switch {
		case c.UK() && f.Item == wedged.Item:
			return "This fire door is held open by hand or by a catch (" + f.Value.String() + "). That does not follow Approved Document B: only an automatic release mechanism may hold it."
		case f.Item == wedged.Item:
			return "What holds this fire door open (" + f.Value.String() + ") lets go in no fire. Only a device that lets go on smoke detection or loss of power may hold it."
		case f.Item == missingWays.Item:
			return "The held door lets go on " + f.Value.String() + ". That does not follow Approved Document B, which asks for each of four: smoke detection, a manual switch, failure of the supply, the fire alarm."
		case f.Item == noHandRelease.Item:
			return "The held door cannot be released by hand. That does not follow the guidance on hold-open devices."
		case f.Item == slow.Item:
			return "The held door let go after " + f.Value.String() + "; BS 7273-4 speaks of 3 s at most."
		case f.Item == noSmokeRelease.Item:
			return "This held fire door lets go on " + f.Value.String() + ", not on smoke detection. A fusible link or an alarm by hand is too late for smoke."
		}
		return "This held fire door does not let go when power is lost."
	},
}

// causes holds where the held leaf lets go on each of the four causes; a manual
// release said elsewhere counts as the manual switch.
func (c Case) causes() Cond {
	byHand := Any(c.Is(doorsched.ManualRelease), c.Has(doorsched.HoldOpenRelease, doorsched.ByManualSwitch))
	return All(c.Has(doorsched.HoldOpenRelease, fourCauses&^doorsched.ByManualSwitch), byHand)
}
