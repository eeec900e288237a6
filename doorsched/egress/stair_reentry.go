package egress

import "example.com/lockrail/doorsched"

var reentryLock = Remedy{"A fail safe electrified lock or lever trim, unlocked from the required place", []Change{
	set[doorsched.Choice](doorsched.Lock, "electrified_lock"), set[doorsched.Choice](doorsched.Fail, "safe"),
	set[doorsched.Choice](doorsched.RemoteRelease, "fire_command_center")}}

var (
	reentryStrike = Fault{Item: "strike", Of: doorsched.Lock.ID(), Refs: []string{"stair-failsafe"}, Limit: doorsched.TextOf("unlocks and stays latched"),
		Remedies: []Remedy{reentryLock}}
	reentryMechanical = Fault{Item: "mechanical lock", Of: doorsched.Lock.ID(), Refs: []string{"stair-both", "stair-remote"}, Limit: doorsched.TextOf("openable from both sides, or unlocked together from one place"),
		Remedies: []Remedy{{"No lock on the stair side", []Change{set(doorsched.StairSideLocked, doorsched.No)}}, reentryLock}}
	reentrySecure = Fault{Item: "fail state", Of: doorsched.Fail.ID(), Refs: []string{"stair-failsafe"}, Limit: doorsched.TextOf("fail safe"),
		Remedies: []Remedy{{"A fail safe lock or trim", []Change{set[doorsched.Choice](doorsched.Fail, "safe")}}}}
	reentryNoRemote = Fault{Item: "remote release", Of: doorsched.RemoteRelease.ID(), Refs: []string{"stair-remote"}, Limit: doorsched.TextOf("fire command center or main entrance"),
		Remedies: []Remedy{{"Release of all stair doors together from the fire command center or inside the main entrance", []Change{
			set[doorsched.Choice](doorsched.RemoteRelease, "fire_command_center")}}}}
	reentryHighRise = Fault{Item: "high-rise release", Of: doorsched.RemoteRelease.ID(), Refs: []string{"stair-highrise"}, Cite: ibc("403.5.3", doorsched.Memory), Limit: doorsched.TextOf("fire command center"),
		Remedies: []Remedy{{"Release from the fire command center", []Change{set[doorsched.Choice](doorsched.RemoteRelease, "fire_command_center")}}}}
)

var stairReentry = &Rule{
	Slug:     "stair-reentry",
	Title:    "A way back out of the stair",
	Protects: "People who meet smoke in a stair must get back onto a floor.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.StairSideLocked, doorsched.Fail, doorsched.RemoteRelease, doorsched.HighRise),
	Refs:   []string{"stair-both", "stair-remote", "stair-failsafe", "stair-highrise"},
	Cite:   onlyUS(ibc("1010.2.7", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		applies := All(c.egress(), c.OneOf(doorsched.DoorUse, "stair"), c.Is(doorsched.StairSideLocked))
		if applies.Answer == doorsched.No {
			return notApplicable()
		}
		strike, mechanical := c.OneOf(doorsched.Lock, "electric_strike"), c.OneOf(doorsched.Lock, "mechanical")
		if mechanical.Answer == doorsched.Yes {
			return require(c, applies, check{cond: Not(mechanical), fault: &reentryMechanical})
		}
		remote := Not(c.OneOf(doorsched.RemoteRelease, "none"))
		if remote.Answer == doorsched.Unknown {
			remote = Any(remote, c.Has(doorsched.ReleaseSet, doorsched.ByRemote))
		}
		return require(c, applies,
			check{cond: Not(mechanical), fault: &reentryMechanical},
			check{cond: Not(strike), fault: &reentryStrike},
			check{cond: Any(c.OneOf(doorsched.Fail, "safe"), strike), fault: &reentrySecure}, // a strike is wrong either way
			check{cond: remote, fault: &reentryNoRemote},
			check{cond: Implies(c.Is(doorsched.HighRise), Any(c.OneOf(doorsched.RemoteRelease, "fire_command_center"), Not(remote))), fault: &reentryHighRise},
		)
	},
	Say: func(_ Case, f Fault) string {
		switch f.Item {
		case reentryMechanical.Item:
			return "The stair side is locked by a mechanical lock, which nothing unlocks from a distance. Whoever meets smoke in the stair is shut in it. A building with one exit stair has an exception of its own: ask the authority."
		case reentryStrike.Item:
			return "An electric strike serves for re-entry from the stair. It lets the latch go when it unlocks; on a stair door the lock or the lever trim must unlock and stay latched."
		case reentrySecure.Item:
			return "Without power the stair side stays locked; it must unlock and stay latched, so that people can leave a stair that fills with smoke."
		case reentryHighRise.Item:
			return "In a high-rise the stair side is unlocked from " + f.Value.String() + "; it must be the fire command center."
		}
		return "The stair side is locked and no place is named from which all stair doors are unlocked together."
	},
}
