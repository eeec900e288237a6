package egress

import "example.com/lockrail/doorsched"

var addLatch = []Remedy{{"Latching hardware labeled for the door", []Change{set(doorsched.Latch, doorsched.Yes)}}}

var (
	unlatched = Fault{Item: "latch", Of: doorsched.Latch.ID(), Refs: []string{"fd-latch"}, Limit: doorsched.TextOf("yes"), Remedies: addLatch}
	magnet    = Fault{Item: "magnet alone", Of: doorsched.Latch.ID(), Refs: []string{"fd-maglatch"}, Limit: doorsched.TextOf("yes"), Remedies: addLatch}
	blocked   = Fault{Item: "blocked latch or closer", Of: doorsched.LatchBlocker.ID(), Refs: []string{"fd-devices", "fd-latch"}, Limit: doorsched.TextOf("no"),
		Remedies: []Remedy{{"Take the device off, or have fire detection release it", []Change{set(doorsched.LatchBlocker, doorsched.No)}}}}
	blockedLine = doorsched.SiteLine{What: "No magnet, wedge or holdback keeps latch or closer from working", Limit: "none", Field: doorsched.LatchBlocker.ID()}

	magnetUK = Fault{Item: "magnet alone", Severity: doorsched.Caution, Of: doorsched.Latch.ID(), Refs: []string{"uk-fd-mag-latch"}, Limit: doorsched.TextOf("a latch, or fire evidence without one"), Remedies: addLatch}
	cupboard = Fault{Item: "kept locked", Severity: doorsched.Caution, Of: doorsched.Latch.ID(), Refs: []string{"uk-fd-keeplocked"}, Limit: doorsched.TextOf("a lock that stays locked in fire"), Remedies: addLatch}
)

var fireDoorLatching = &Rule{
	Slug:     "fire-door-latching",
	Title:    "A fire door latches",
	Protects: "Hot gas pushes an unlatched door open.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.Latch, doorsched.Lock, doorsched.LatchBlocker, doorsched.EvidenceNoLatch, doorsched.KeptLocked),
	Refs:   []string{"fd-latch", "fd-maglatch", "fd-devices", "uk-fd-mag-latch", "uk-fd-keeplocked"},
	Cite: both(nfpa80("6.4.4.3 (2016 numbers)", doorsched.Memory),
		doorsched.Citation{Document: "Trade guidance on electric locks of fire doors", Status: doorsched.Practice}),
	Judge: func(c Case) Judgement {
		latch := c.Is(doorsched.Latch)
		byMagnet := c.OneOf(doorsched.Lock, "electromagnetic")
		if c.UK() {
			return require(c, All(c.Rated(), byMagnet),
				check{cond: Any(latch, c.Is(doorsched.EvidenceNoLatch)), fault: &magnetUK},
				check{cond: Any(latch, Not(c.Is(doorsched.KeptLocked))), fault: &cupboard},
			)
		}
		return require(c, c.Rated(),
			check{cond: latch, fault: &unlatched},
			check{cond: Any(latch, Not(byMagnet)), fault: &magnet},
			check{Not(c.Is(doorsched.LatchBlocker)), &blocked, &blockedLine},
		)
	},
	Say: func(c Case, f Fault) string {
		switch {
		case f.Item == cupboard.Item:
			return "A magnet keeps this cupboard or riser door locked and lets go on alarm, when the door should stay shut. Trade practice keeps it shut by a lock that stays locked in fire; opinions differ."
		case c.UK():
			return "Only a magnet holds this fire door shut, and it lets go in fire. Trade practice wants a latch too, unless the door's fire evidence shows it shut without one; opinions differ."
		case f.Item == magnet.Item:
			return "A magnetic lock is all that holds this fire door shut. It may be added to latching hardware, never stand instead of it: it lets go without power."
		case f.Item == blocked.Item:
			return "A device keeps the latch or closer from working and fire detection does not release it. The door will not be latched in a fire."
		}
		return "This fire door does not latch when it closes. A rated door must latch each time, or hot gas pushes it open."
	},
}
