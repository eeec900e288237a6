package hardware

import "example.com/lockrail/doorsched"

// electronic adds readers, exit devices of the electronics and contacts, and the
// roles of the controller and the supply.
func (b *builder) electronic() {
	v := b.view
	electric := b.choice.Electric()
	access := b.choice.AccessControlled == doorsched.Yes
	if access {
		b.readers()
	}
	if electric {
		b.exits()
	}
	if n := len(b.leafList()); is(v, doorsched.DoorContact) == doorsched.Yes || access && is(v, doorsched.DoorContact) == doorsched.Unknown {
		b.add(Item{ID: contact, Quantity: n, Leaf: b.allLeaves(), Reason: "the opening is monitored", QtyRule: "1 a monitored leaf", Roles: perLeaf(b.leafList(), DeviceContact, Monitor)})
		fits(v, &b.set.Overlay, doorsched.DoorContact, doorsched.Yes)
	}
	if !electric && !access {
		return
	}
	b.set.Roles = append(b.set.Roles, Role{Control, DeviceController, LeafNone, 1}, Role{Feed, DeviceSupply, LeafNone, 1})
}

func (b *builder) readers() {
	v := b.view
	if word(v, doorsched.Reader) == "none" {
		b.note("the schedule says no reader: none is in the set")
		return
	}
	n, ok := doorsched.ReaderSides.In(v).Get()
	if !ok {
		n = 1
		b.assume(doorsched.ReaderSides.ID(), "1", "access controlled with no number of readers: one, on the entry side")
	}
	if n > 2 {
		b.note("more than two reader sides given: two are in the set")
		n = 2
	}
	it := Item{ID: reader, Quantity: int(n), Reason: "a credential is needed to enter", QtyRule: "1 a controlled side", Roles: alike(int(n), DeviceReader, LeafNone, Feed, Data)}
	switch word(v, doorsched.Reader) {
	case "card_and_pin":
		it.Name, it.Function = "reader", "card and PIN"
	case "keypad":
		it.Name = "keypad"
	case "biometric":
		it.Name = "biometric reader"
	}
	b.add(it)
	fits(v, &b.set.Overlay, doorsched.ReaderSides, n)
}

// exits adds what tells the system that someone leaves, or lets them. A US set
// has no emergency door release unit, a UK set no exit sensor unless the
// schedule asks for one.
func (b *builder) exits() {
	v := b.view
	lock := b.choice.Lock
	given, _ := doorsched.ReleaseSet.In(v).Get()
	sensorAsked := word(v, doorsched.ReleaseMode) == "sensor" || given.Has(doorsched.BySensor) == doorsched.Yes ||
		!oneOf(word(v, doorsched.ExitSensor), "", "none")
	sensor := Item{ID: rexSensor, Quantity: 1, QtyRule: "1 a controlled way out", Roles: alike(1, DeviceREX, LeafNone, Feed, Monitor)}
	inHardware := Item{ID: rexSwitch, Quantity: 1, Leaf: LeafActive, QtyRule: "1 a lock or bar", Reason: "leaving by the hardware raises no alarm", Roles: alike(1, DeviceREX, LeafActive, Monitor)}
	button := Item{ID: exitButton, Quantity: 1, QtyRule: "1 a controlled way out"}
	if b.uk() {
		switch {
		case oneOf(lock, "electrified_lock", "electrified_panic"):
			b.add(inHardware)
		case oneOf(lock, "electric_strike", "electromagnetic", "power_bolt"):
			button.Roles = alike(1, DeviceExitButton, LeafNone, Control)
			button.Function = "normal exit only; not an emergency release"
			button.Reason = "normal way out"
			if b.freeExit() {
				button.Function, button.Reason = "tells the system of an exit", "leaving raises no alarm; the hardware always opens the leaf"
			}
			b.add(button)
		}
		if sensorAsked {
			sensor.Reason = "the schedule asks for it"
			b.add(sensor)
		}
		asked := !oneOf(word(v, doorsched.Override), "", "none")
		if !b.freeExit() && word(v, doorsched.Override) != "none" || asked {
			n := int(min(max(b.doorUnits(), 1), 2))
			b.add(Item{ID: doorUnit, Quantity: n, Function: "green, type A, stays released, cuts both poles of the lock supply, about 1.4 m up, within 2 m",
				Reason: "opens the door by one action without the system", QtyRule: "1 an escape side", Roles: alike(n, DeviceEmergencyRelease, LeafNone, Release)})
		}
		return
	}
	if word(v, doorsched.Override) == "green" {
		b.note("the schedule asks for an emergency door release unit, which is not of this region's practice: not in the set")
	}
	switch {
	case b.release() == "sensor":
		sensor.Reason = "unlocks when someone comes near; loss of its power unlocks too"
		sensor.Roles = alike(1, DeviceREX, LeafNone, Feed, Release, Monitor)
		b.add(sensor)
		button.Function = `marked PUSH TO EXIT, 40" to 48" up, within 5'-0", cuts lock power directly for 30 s`
		button.Reason = "unlocks without the electronics"
		button.Roles = alike(1, DeviceExitButton, LeafNone, Release)
		b.add(button)
	case b.release() == "hardware_switch":
		inHardware.Function = "cuts lock power directly"
		inHardware.Reason = "working the hardware unlocks"
		inHardware.Roles = alike(1, DeviceREX, LeafActive, Release, Monitor)
		b.add(inHardware)
	case oneOf(lock, "electrified_lock", "electrified_panic"):
		b.add(inHardware)
	case lock == "electric_strike":
		sensor.Reason = "leaving raises no alarm; the hardware always opens the leaf"
		b.add(sensor)
	}
}
