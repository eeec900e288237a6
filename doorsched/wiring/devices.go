package wiring

import (
	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/power"
)

// device is one physical device of a set with all its roles.
type device struct {
	hardware.Device
	leaf  hardware.Leaf
	index int
	kinds map[hardware.RoleKind]bool
}

// devices gathers the roles of a set by device, in the set's order.
func devices(s hardware.Set) []device {
	var out []device
next:
	for _, r := range s.AllRoles() {
		for _, d := range out {
			if d.Device == r.Device && d.leaf == r.Leaf && d.index == r.Index {
				d.kinds[r.Kind] = true
				continue next
			}
		}
		out = append(out, device{r.Device, r.Leaf, r.Index, map[hardware.RoleKind]bool{r.Kind: true}})
	}
	return out
}

// fed counts the devices of a kind that need power.
func fed(list []device, kind hardware.Device) int {
	n := 0
	for _, d := range list {
		if d.Device == kind && d.kinds[hardware.Feed] {
			n++
		}
	}
	return n
}

// locks is the number of locks on the door; a set without roles has one.
func (b *bench) locks() int { return max(fed(devices(b.door.Set), hardware.DeviceLock), 1) }

// smallLoads are the devices at the door that are fed besides the lock, on generic
// loads: readers, request-to-exit detectors, lit buttons.
func (b *bench) smallLoads(nominal cable.Volts) []power.Demand {
	list := devices(b.door.Set)
	reader := power.Reader
	switch kind, _ := doorsched.Reader.In(b.door.View).Get(); kind {
	case "card_and_pin", "keypad":
		reader = power.KeypadReader
	case "biometric":
		reader = power.BiometricReader
	}
	var out []power.Demand
	for _, d := range []struct {
		device  hardware.Device
		kind    power.Device
		variant string
	}{
		{hardware.DeviceReader, reader, ""},
		{hardware.DeviceREX, power.ExitDetector, ""},
		{hardware.DeviceExitButton, power.ExitButton, "lit"},
	} {
		n := fed(list, d.device)
		if n == 0 {
			continue
		}
		load, err := power.FindLoad(d.kind, d.variant, nominal)
		if err != nil {
			load, err = power.FindLoad(d.kind, d.variant, 12)
		}
		if err == nil {
			out = append(out, power.Demand{Load: plain(load), Quantity: n})
		}
	}
	return out
}

// plain is a load whose window and inrush are settled, so that adding it up says
// nothing about them.
func plain(l power.Load) power.Load {
	l.Window = power.GenericWindow(l.Rated)
	if l.Inrush == nil {
		l.Inrush = l.Holding
	}
	return l
}
