package egress

import "example.com/lockrail/doorsched"

var (
	keyToLeaveUS = Fault{
		Item: "key", Of: doorsched.KeyEgress.ID(), Refs: []string{"egress-scope", "egress-free", "lock-main-key"},
		Limit: doorsched.TextOf("no"),
		Remedies: []Remedy{
			{"Hardware on the egress side that opens by hand, with no key, card or code", []Change{set(doorsched.KeyEgress, doorsched.No)}},
		},
	}
	keyToLeaveUK = Fault{
		Item: "key", Of: doorsched.KeyEgress.ID(), Refs: []string{"uk-adb-simple", "uk-rro-lock"},
		Limit: doorsched.TextOf("no"),
		Remedies: []Remedy{
			{"A fastening worked by hand from the escape side, with no key, card or code", []Change{set(doorsched.KeyEgress, doorsched.No)}},
			{"Use the lock only while the building is empty, with a management procedure for it", []Change{set(doorsched.LockUsedWhenEmpty, doorsched.Yes)}},
		},
	}
	publicDelay = Fault{
		Item: "delay in public use", Of: doorsched.Delay.ID(), Refs: []string{"uk-rro-lock"}, Cite: fireOrder("article 14(2)(f)"),
		Limit:    doorsched.NumberOf(0, "s"),
		Remedies: []Remedy{{"No delay on a door the public uses", []Change{set(doorsched.Delay, 0.0)}}},
	}
	nothingFreesIt = Fault{
		Item: "nothing frees the lock", Of: doorsched.Override.ID(), Refs: []string{"uk-rro-lock"}, Cite: fireOrder("article 14(2)(f)"),
		Limit: doorsched.TextOf("freed by the fire alarm or at the door"),
		Remedies: []Remedy{
			{"An emergency door release unit on the escape side, and release by the fire alarm", []Change{
				set[doorsched.Choice](doorsched.Override, "green"), add(doorsched.ReleaseSet, doorsched.ByFireAlarm)}},
		},
	}
)

var freeEgress = &Rule{
	Slug:     "free-egress",
	Title:    "No key to leave",
	Protects: "People who reach a door that they cannot open at once are trapped behind it.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, heldReads, overrideReads, doorsched.KeyEgress, doorsched.Occupancy, doorsched.MainExterior,
		doorsched.LockUsedWhenEmpty, doorsched.Delay, doorsched.PublicAccess),
	Refs: []string{"egress-free", "egress-scope", "lock-main-key", "uk-adb-simple", "uk-rro-lock"},
	Cite: both(ibc("1010.2", doorsched.Verified), adb("5.7", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		if c.UK() {
			electric := Not(c.OneOf(doorsched.Lock, "none", "mechanical"))
			return require(c, c.egress(),
				check{cond: Any(Not(c.Is(doorsched.KeyEgress)), c.Is(doorsched.LockUsedWhenEmpty)), fault: &keyToLeaveUK},
				check{cond: Not(All(electric, MoreThan(c, doorsched.Delay, 0), c.Is(doorsched.PublicAccess))), fault: &publicDelay},
				check{cond: Not(All(c.electricallyHeld(), Not(c.localRelease()), Not(c.Has(doorsched.ReleaseSet, doorsched.ByFireAlarm)))), fault: &nothingFreesIt},
			)
		}
		lockable := Not(c.OneOf(doorsched.Lock, "none"))
		special := c.OneOf(doorsched.Lock, "delayed_egress", "controlled_egress")
		return require(c, All(c.egress(), lockable, Not(special)),
			check{cond: Any(Not(c.Is(doorsched.KeyEgress)), c.keyLockAllowed()), fault: &keyToLeaveUS})
	},
	Say: func(c Case, f Fault) string {
		switch {
		case f.Item == publicDelay.Item:
			return "A door the public escapes through opens only after " + f.Value.String() + ". The Fire Safety Order asks, as law, that an emergency door is not so fastened that it cannot be opened easily and at once; agree this with the enforcing authority."
		case f.Item == nothingFreesIt.Item:
			return "An electric lock holds this escape door and neither the fire alarm nor an emergency release at the door frees it. The Fire Safety Order asks, as law, that an emergency door can be opened easily and at once."
		case c.UK():
			return "Leaving takes a key, card or code while people are inside. That does not follow Approved Document B: an escape door has no lock or one that is easily worked from the escape side without a key. The Fire Safety Order, article 14(2)(f), is law on the same point."
		}
		return "Leaving takes a key, card or code. An egress door must open from the egress side with no key and no special knowledge, or people are trapped behind it."
	},
}

// keyLockAllowed holds where the IBC lets a key lock the egress side: the main
// exterior door of some groups, and detention, which has a section of its own.
func (c Case) keyLockAllowed() Cond {
	return Any(
		c.Group("I-3"),
		All(Any(c.Is(doorsched.MainExterior), c.OneOf(doorsched.DoorUse, "main_entrance")), Any(
			c.Group("B", "F", "M", "S"),
			c.OneOf(doorsched.DoorUse, "worship"),
			All(c.Group("A"), AtMost(c, doorsched.OccupantLoad, 300)),
		)),
	)
}
