package wiring

import (
	"fmt"
	"strings"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/power"
)

// runs are the door's runs of cable, in the order of its set. lock is the run the
// voltage was calculated on; nil without an electric lock.
func (b *bench) runs(lock *power.Segment, atDoor bool) {
	list := devices(b.door.Set)
	length := cable.Metres(0)
	by := ""
	if needsCable(list, b.words) || b.circuit.Controller == "door" {
		e := b.homeRun()
		length, by = e.value, lengthBy(e.firm)
	}
	closet := b.closetName()
	atController := b.circuit.Controller == "door"
	for _, d := range list {
		usual, ok := b.words.runs[d.Device]
		if !ok || lock == nil && d.Device == hardware.DeviceLock {
			continue
		}
		r := Run{Name: b.deviceName(d), From: closet, To: b.words.devices[d.Device], Length: length, LengthBy: by}
		if atController {
			r.From, r.Length, r.LengthBy = b.words.controller, localLength, lengthBy(false)
		}
		made, _ := cable.FindCable(usual)
		if d.Device == hardware.DeviceLock {
			var exists bool
			made, exists = lockCable(made, lock.Run)
			if !exists {
				r.Note = "no generic cable of this make-up; not counted in the raceway"
			}
			r.Length = lock.Run.Length
			if !atDoor {
				r.From, r.LengthBy = b.feedName(), by
			}
		}
		r.CableID, r.Cable, r.Conductor, r.Cores = made.ID, made.Name, made.Conductor.Size.String(), made.Cores
		r.Note = join(r.Note, b.runNote(d))
		b.circuit.Runs = append(b.circuit.Runs, r)
		if d.Device == hardware.DeviceLock && d.kinds[hardware.Monitor] {
			monitor, _ := cable.FindCable(b.words.runs[hardware.DeviceLatchMonitor])
			m := Run{Name: r.Name + ", monitor", From: closet, To: r.To, Length: length, LengthBy: by,
				CableID: monitor.ID, Cable: monitor.Name, Conductor: monitor.Conductor.Size.String(), Cores: monitor.Cores}
			if atController {
				m.From, m.Length, m.LengthBy = b.words.controller, localLength, lengthBy(false)
			}
			b.circuit.Runs = append(b.circuit.Runs, m)
		}
	}
	if atController {
		data, _ := cable.FindCable("cat6")
		b.circuit.Runs = append(b.circuit.Runs, Run{
			Name: "controller data and power", From: closet, To: b.words.controller, CableID: data.ID, Cable: data.Name,
			Conductor: data.Conductor.Size.String(), Cores: data.Cores, Length: length, LengthBy: by,
		})
	}
	b.raceways()
}

func needsCable(list []device, w words) bool {
	for _, d := range list {
		if _, ok := w.runs[d.Device]; ok {
			return true
		}
	}
	return false
}

func lengthBy(firm bool) string {
	if firm {
		return "given"
	}
	return "assumed"
}

// closetName is where the runs of the door start.
func (b *bench) closetName() string {
	name, _ := doorsched.Closet.In(b.door.View).Get()
	return b.closetNamed(strings.TrimSpace(name))
}

// feedName is where the lock's run starts: the supply by name, else the closet.
func (b *bench) feedName() string {
	if name, ok := doorsched.SupplyName.In(b.door.View).Get(); ok && strings.TrimSpace(name) != "" {
		return b.supply + " " + strings.TrimSpace(name)
	}
	return b.closetName()
}

// deviceName tells alike devices of a door apart.
func (b *bench) deviceName(d device) string {
	name := b.words.devices[d.Device]
	if d.leaf == hardware.LeafInactive || d.leaf == hardware.LeafActive && b.door.Set.Leaves > 1 {
		name += ", " + string(d.leaf) + " leaf"
	}
	if d.index > 1 {
		name += fmt.Sprintf(" %d", d.index)
	}
	return name
}

func (b *bench) runNote(d device) string {
	switch {
	case d.Device == hardware.DeviceOperator:
		return "signals only; its mains feed is by others"
	case d.Device == hardware.DeviceHoldOpen:
		return "released by the fire detection; its feed is not on the lock supply here"
	case d.Device == hardware.DeviceEmergencyRelease && d.kinds[hardware.Release]:
		return "in series with the feed of the lock"
	case d.Device == hardware.DeviceExitButton && d.kinds[hardware.Release]:
		return "its contact also cuts the feed of the lock"
	}
	return ""
}

func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

// lockCable is the generic cable of the conductor with the fewest cores that serve
// both poles. Without one the cable is described by its conductor alone.
func lockCable(usual cable.Cable, r cable.Run) (cable.Cable, bool) {
	cores := 2 * max(r.Parallel, 1)
	if usual.Conductor.Size == r.Conductor.Size && usual.Cores >= cores {
		return usual, true
	}
	var best cable.Cable
	for _, c := range cable.Cables() {
		if c.Conductor.Size == r.Conductor.Size && c.Cores >= cores && (best.ID == "" || c.Cores < best.Cores) {
			best = c
		}
	}
	if best.ID != "" {
		return best, true
	}
	return cable.Cable{Name: fmt.Sprintf("%s, %d cores", r.Conductor.Size, cores), Conductor: r.Conductor, Cores: cores}, false
}

// raceways fills in the smallest tubing for the runs that share a route; the
// fill tables are those of the US.
func (b *bench) raceways() {
	if b.region != doorsched.RegionUS {
		return
	}
	groups := map[bool][]cable.Group{} // from the controller at the door, or not
	for _, r := range b.circuit.Runs {
		if c, ok := cable.FindCable(r.CableID); ok {
			if item, err := c.Item(); err == nil {
				groups[r.From == b.controller] = append(groups[r.From == b.controller], cable.Group{Count: 1, Item: item})
			}
		}
	}
	for i := range b.circuit.Runs {
		r := &b.circuit.Runs[i]
		if r.CableID == "" {
			continue
		}
		fill, err := cable.Pathway{Raceway: cable.EMT, Trade: smallestEMT}.Fill(groups[r.From == b.controller]...)
		if err == nil && fill.SmallestTrade != "" {
			r.Raceway = string(fill.SmallestTrade) + " " + string(cable.EMT)
		}
	}
}

const smallestEMT cable.TradeSize = "1/2"
