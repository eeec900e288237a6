package hardware

import (
	"fmt"

	"example.com/lockrail/doorsched"
)

// secure adds bolts, lock or exit device, strike, electric lock, cylinder and
// furniture.
func (b *builder) secure() {
	switch {
	case b.latchType() == "none" || !retracts(b.hardware()):
		b.pushAndPull()
	case b.bar:
		b.exitDevices()
	default:
		if b.leaves == 2 {
			b.inactiveBolts()
		}
		b.lockset()
	}
	b.electricLock()
}

// pushAndPull furnishes leaves that do not latch.
func (b *builder) pushAndPull() {
	b.add(Item{ID: pushPull, Quantity: b.leaves, Unit: AsSet, Leaf: b.allLeaves(), Reason: "the leaf does not latch", QtyRule: "1 plate and 1 pull a leaf"})
}

// inactiveBolts holds the inactive leaf of a pair.
func (b *builder) inactiveBolts() {
	v := b.view
	given := word(v, doorsched.InactiveBolt)
	it := Item{ID: boltManual, Quantity: 1, Unit: AsSet, Leaf: LeafInactive, QtyRule: "1 set an inactive leaf, top and bottom"}
	switch {
	case given == "none":
		b.note("the schedule says no bolts on the inactive leaf: none are in the set")
		return
	case given == "vertical_rod":
		b.add(Item{ID: exdRods, Quantity: 1, Leaf: LeafInactive, Function: "exit only", Reason: "the schedule asks for vertical rods", QtyRule: "1 a leaf"})
		return
	case given == "manual":
		it.Reason = "the schedule asks for it"
	case given != "":
		it.ID, it.Reason = boltAuto, "the schedule asks for it"
		if given == "constant_latching" {
			it.Function = "constant latching top bolt, automatic bottom bolt"
		}
	case b.rated == doorsched.Yes:
		it.ID, it.Reason = boltAuto, "the inactive leaf of a fire-rated pair must latch by itself"
	case b.rated == doorsched.Unknown:
		it.ID, it.Reason, it.Needs = boltAuto, "the fire rating is not known, and a rated inactive leaf must latch by itself", []doorsched.FieldID{doorsched.FireRating.ID()}
	case word(v, doorsched.Egress) == "required":
		it.ID, it.Reason = boltAuto, "people leave through the pair: no bolt that is drawn by hand"
	default:
		it.Reason = "holds the inactive leaf"
	}
	b.add(it)
	b.add(Item{ID: dustProof, Quantity: 1, Leaf: LeafInactive, Reason: "bottom bolt into the floor", QtyRule: "1 a bottom bolt"})
	bolt := doorsched.Choice("manual")
	if it.ID == boltAuto {
		bolt = "automatic"
	}
	fits(v, &b.set.Overlay, doorsched.InactiveBolt, bolt)
	fits(v, &b.set.Overlay, doorsched.InactiveHardware, "none")
}

// lockStandard is the BHMA standard of the latch that the leaf has.
func (b *builder) lockStandard() string {
	switch {
	case b.bar:
		return "A156.3"
	case b.latchType() == "cylindrical":
		return "A156.2"
	}
	return "A156.13"
}

// function returns the function number of the mechanical lock, or the field that
// would settle it. Where a credential lets people in past the latch, the outside
// trim is always rigid and a key stands by (storeroom, night latch).
func (b *builder) function() (LockFunction, []doorsched.FieldID) {
	std := b.lockStandard()
	if oneOf(b.choice.Lock, "electric_strike", "electrified_lock", "electrified_panic") {
		f, _ := lockFunction(std, map[string]string{"A156.13": "F07", "A156.2": "F86", "A156.3": "03"}[std])
		return f, nil
	}
	if oneOf(b.choice.Lock, "electromagnetic", "power_bolt", "delayed_egress", "controlled_egress") || word(b.view, doorsched.Lock) == "none" {
		f, _ := lockFunction(std, map[string]string{"A156.13": "F01", "A156.2": "F75", "A156.3": "14"}[std])
		return f, nil
	}
	if f, ok := functionOf(word(b.view, doorsched.DoorUse), std); ok {
		return f, nil
	}
	return LockFunction{Keyed: -1}, []doorsched.FieldID{doorsched.DoorUse.ID()}
}

// wordsUK words a lock's function for a UK set, which has no function numbers.
func wordsUK(f LockFunction) string {
	switch f.Number {
	case "F01", "F75", "14":
		return "latch, lever free from both sides"
	case "F02", "F76":
		return "bathroom lock with coin release"
	case "":
		return ""
	}
	return "sashlock, lever free from the escape side, key outside"
}

// lockset adds the lever lock of the active leaf with strike, cylinder and, in
// the UK, its furniture.
func (b *builder) lockset() {
	f, needs := b.function()
	it := Item{ID: lckMortise, Quantity: 1, Leaf: LeafActive, Reason: "latches the leaf; opened from inside by " + hardwareWords[b.hardware()], QtyRule: "1 an active leaf", Needs: needs}
	electrified := b.choice.Lock == "electrified_lock"
	switch {
	case electrified:
		it.ID = lckElec
	case b.latchType() == "cylindrical":
		it.ID = lckBored
	}
	fire := ""
	if b.rated == doorsched.Yes {
		fire = ", for fire doors"
	}
	if b.uk() {
		it.Function = wordsUK(f)
		if electrified {
			it.Function = "outside lever " + failWords(b.choice.Fail, b.region) + ", inside lever always free"
			it.Standard = "EN 14846"
		}
		if b.hardware() == "emergency_device" {
			it.Standard = "EN 179; " + kinds[kindIndex(it.ID)].StdUK
		}
		if it.Function == "" {
			it.Function = "by the use of the room; no key from the escape side"
		}
	} else {
		it.Function = "function by the use of the room"
		if f.Number != "" {
			it.Function = f.String()
		}
		if electrified {
			it.Function += ", outside lever " + failWords(b.choice.Fail, b.region)
			it.Standard = "ANSI/BHMA A156.25; " + b.lockStandard()
		}
	}
	it.Function += fire
	if electrified {
		it.Roles = b.lockRoles(LeafActive)
		if b.existing {
			it.Action = ActionReplace
		}
	}
	b.add(it)
	if b.choice.Lock != "electric_strike" {
		b.add(Item{ID: strikeItem, Quantity: 1, Leaf: b.frameLeaf(), Reason: "receives the latch", QtyRule: "1 a latch"})
	}
	b.cylinders(f)
	if b.uk() {
		b.add(Item{ID: leverTrim, Quantity: 1, Unit: Pair, Leaf: LeafActive, Reason: "furniture is listed apart from the lock case", QtyRule: "1 pair a latched leaf"})
	}
}

func (b *builder) cylinders(f LockFunction) {
	switch {
	case f.Keyed == 0:
		return
	case f.Keyed < 0:
		b.note("cylinders follow the lock function, which is not known")
		return
	}
	it := Item{ID: cylinder, Quantity: f.Keyed, Leaf: LeafActive, Reason: "the lock is keyed", QtyRule: "by lock function", Function: "keying by owner"}
	if k, ok := doorsched.KeySet.In(b.view).Get(); ok {
		it.Function = "keyset " + k
	}
	b.add(it)
}

// exitDevices adds the bars of one or both leaves.
func (b *builder) exitDevices() {
	f, needs := b.function()
	latch := b.latchType()
	id := map[doorsched.Choice]string{"rim": exdRim, "vertical_rod": exdRods, "mortise": exdMortise}[latch]
	if id == "" {
		id = exdRim
	}
	if b.uk() && b.leaves == 1 && latch == "vertical_rod" {
		id = exdRods
	}
	active := Item{ID: id, Quantity: 1, Leaf: LeafActive, Reason: "opened from inside by " + hardwareWords[b.hardware()], QtyRule: "1 a leaf that latches", Needs: needs}
	if b.choice.Lock == "electrified_panic" {
		active.ID = exdElec
		if b.uk() {
			active.Standard = "EN 1125; EN 13637 where the system controls the exit"
		}
		active.Roles = append(b.lockRoles(LeafActive), Role{Monitor, DeviceLatchMonitor, LeafActive, 1})
		if b.existing {
			active.Action = ActionReplace
		}
	}
	active.Function = b.barFunction(f)
	if active.ID == exdElec && latch == "vertical_rod" {
		active.Function = "vertical rods; " + active.Function
	}
	b.add(active)
	if b.leaves == 2 {
		other := id
		if latch == "mortise" {
			other = exdRods
		}
		exitOnly, _ := lockFunction("A156.3", "01")
		b.add(Item{ID: other, Quantity: 1, Leaf: LeafInactive, Function: b.barFunction(exitOnly), Reason: "each leaf of the pair opens by itself", QtyRule: "1 a leaf that latches"})
		fits(b.view, &b.set.Overlay, doorsched.InactiveHardware, "panic")
		bolt := doorsched.Choice("none")
		if other == exdRods {
			bolt = "vertical_rod"
		}
		fits(b.view, &b.set.Overlay, doorsched.InactiveBolt, bolt)
		if b.mullioned() {
			b.add(Item{ID: mullion, Quantity: 1, Reason: "a rim device on each leaf", QtyRule: "1 a pair with rim devices"})
		}
	}
	b.cylinders(f)
}

func (b *builder) barFunction(f LockFunction) string {
	s := "bar over at least half the leaf"
	if b.rated == doorsched.Yes && !b.uk() {
		s = "fire exit hardware, no dogging; " + s
	}
	switch {
	case b.uk():
		if f.Number == "01" {
			return s + "; no outside access"
		}
		if f.Keyed > 0 {
			return s + "; outside access device with key"
		}
		return s + "; outside access device"
	case f.Number == "":
		return s + "; trim function by the use of the room"
	}
	return s + "; " + f.String()
}

// lockRoles is what a lock asks of the wiring: power, an order, and a release
// where people depend on electricity to leave or a latch must fall in a fire.
func (b *builder) lockRoles(leaves ...Leaf) []Role {
	ks := []RoleKind{Feed, Control}
	if !b.freeExit() || b.choice.Lock == "electrified_panic" && b.rated == doorsched.Yes {
		ks = append(ks, Release)
	}
	return perLeaf(leaves, DeviceLock, ks...)
}

// electricLock adds the electric lock that is not the leaf's own lock.
func (b *builder) electricLock() {
	c := b.choice
	fail := failWords(c.Fail, b.region)
	it := Item{Quantity: 1, Function: fail}
	switch c.Lock {
	case "electric_strike":
		it.ID, it.Leaf = eStrike, b.frameLeaf()
		if b.mullioned() {
			it.Leaf = LeafNone
		}
		it.Reason, it.QtyRule = "lets the latch go for those who may enter; the latch stays mechanical", "1 a controlled latch"
		it.Roles = b.lockRoles(it.Leaf)
		if b.existing {
			it.Action = ActionReplace
		}
		if b.rated == doorsched.Yes {
			it.Function += ", for fire doors"
		}
	case "electromagnetic", "delayed_egress", "controlled_egress":
		it.ID = map[doorsched.Choice]string{"electromagnetic": magnet, "delayed_egress": delayed, "controlled_egress": controlled}[c.Lock]
		it.Quantity, it.Leaf = b.leaves, b.allLeaves()
		it.Reason, it.QtyRule = "holds the leaf shut while powered", "1 a leaf"
		it.Roles = b.lockRoles(b.leafList()...)
	case "power_bolt":
		it.ID, it.Leaf = powerBolt, LeafActive
		it.Reason, it.QtyRule = "bolts the leaf while powered", "1 an active leaf"
		it.Roles = b.lockRoles(LeafActive)
	default:
		return
	}
	if c.Volts > 0 {
		it.Size = fmt.Sprintf("%s V DC", doorsched.FormatNumber(c.Volts, 1))
	}
	b.add(it)
}
