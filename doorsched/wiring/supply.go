package wiring

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/power"
)

// member is what one door asks of its supply.
type member struct {
	mark          string
	key, place    string
	nominal       cable.Volts
	failSafe      bool
	locks         int
	lock          lockLoad
	small         []power.Demand
	controller    bool // a controller in the closet has this door
	notCounted    []string
	standby       standby
	unlockedHours float64
	words
}

// sizes of lock supplies commonly sold (common practice).
var supplySizes = [...]cable.Amps{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20}

const (
	// mostLoading is the upper end of the 75 to 80 % the trade loads a supply to.
	mostLoading = 0.80
	// class2 is the nameplate limit of a class 2 source (NEC Chapter 9 Table
	// 11(B), from memory).
	class2 cable.Watts = 100

	atReset = "alarm reset or return of mains: every fail-safe lock at once"
	atTimed = "timed unlock: every fail-secure lock at once"
)

// member says which supply feeds the door and what it asks of it.
func (b *bench) member(l lockLoad, s standby) *member {
	m := &member{mark: b.door.View.Mark, nominal: l.nominal, lock: l, standby: s, words: b.words, locks: b.locks(),
		failSafe: b.door.Choice.Fail == "safe", small: b.smallLoads(l.nominal)}
	m.key, m.place = b.supplyPlace()
	m.key += ", " + volts(l.nominal)
	list := devices(b.door.Set)
	if b.circuit.Controller != "door" {
		for _, d := range list {
			m.controller = m.controller || d.Device == hardware.DeviceController
		}
	}
	if !l.known {
		m.notCounted = append(m.notCounted, "lock of "+m.mark+" (load not known)")
	}
	for _, d := range list {
		if d.kinds[hardware.Feed] && (d.Device == hardware.DeviceHoldOpen || d.Device == hardware.DeviceOperator) {
			m.notCounted = append(m.notCounted, b.words.devices[d.Device]+" of "+m.mark)
		}
	}
	if hours := b.quantity(doorsched.HoldHours, 24); hours.known {
		m.unlockedHours = hours.value
	}
	b.circuit.Supply = m.key
	return m
}

// supplyPlace names the supply: as given, else the closet it would stand in.
func (b *bench) supplyPlace() (key, place string) {
	closet, _ := doorsched.Closet.In(b.door.View).Get()
	closet = strings.TrimSpace(closet)
	name, _ := doorsched.SupplyName.In(b.door.View).Get()
	place = notPlaced
	if closet != "" {
		place = b.closetNamed(closet)
	}
	if name = strings.TrimSpace(name); name != "" {
		return name, place
	}
	return place, place
}

// supplies groups the doors by supply, in the order of their keys.
func supplies(members []*member) []Supply {
	groups := map[string][]*member{}
	for _, m := range members {
		groups[m.key] = append(groups[m.key], m)
	}
	var out []Supply
	for key, group := range groups {
		out = append(out, supplyOf(key, group))
	}
	slices.SortFunc(out, func(a, b Supply) int { return cmp.Compare(a.Key, b.Key) })
	return out
}

func supplyOf(key string, group []*member) Supply {
	s := Supply{Key: key, Place: group[0].place, Nominal: group[0].nominal}
	var notes, notCounted []string
	for _, m := range group {
		s.Doors = append(s.Doors, m.mark)
		notCounted = append(notCounted, m.notCounted...)
		if m.place != s.Place {
			notes = append(notes, fmt.Sprintf("door %s is served from %s", m.mark, m.place))
		}
	}
	assume := func(field doorsched.FieldID, what, value, reason string) {
		s.Assumed = addAssumed(s.Assumed, doorsched.Assumption{Field: field, What: what, Value: value, Reason: reason, By: byWiring, Doors: s.Doors})
	}
	demands, assumed := demandsOf(group)
	for _, a := range assumed {
		assume(doorsched.NoField, a.What, a.Value, a.Why+"; "+a.Source.String())
	}
	total, err := power.Supply{Nominal: s.Nominal}.Total(mostLoading, demands...)
	if err != nil {
		s.Note = "not calculated: " + err.Error()
		return s
	}
	s.Holding, s.Peak = total.Holding, total.Peak
	if total.Event != "" {
		notes = append(notes, "peak at "+total.Event)
	}
	battery := batteryOf(group, devicesOf(demands, s.Nominal))
	s.BatteryHeld, s.Hours, s.AmpHours, s.BlockAh, s.Recharge = battery.held, battery.hours, float64(battery.Needed), float64(battery.Block), battery.RechargeAmps
	notes = append(notes, battery.notes...)
	for _, a := range battery.Assumptions {
		assume(doorsched.NoField, a.What, a.Value, a.Why+"; "+a.Source.String())
	}
	assume(doorsched.NoField, "continuous loading of the supply", "at most 80 %", "trade, 75 to 80 % of the rating")
	needed := max(total.Smallest, s.Holding+s.Recharge)
	for _, size := range supplySizes {
		if float64(size)*(1+1e-9) >= float64(needed) {
			s.Size = size
			s.Loading = 100 * float64(s.Holding) / float64(size)
			break
		}
	}
	if s.Size == 0 {
		notes = append(notes, fmt.Sprintf("%s are needed, above the largest common size of %s: divide the doors over more supplies", amps(needed), amps(supplySizes[len(supplySizes)-1])))
	}
	if group[0].region == doorsched.RegionUS && s.Nominal.Carrying(s.Size) > class2 {
		notes = append(notes, "above 100 VA the outputs are class 2 only if each is limited apart (NEC Chapter 9 Table 11(B), to be checked)")
	}
	if total.Generic {
		notes = append(notes, basisGeneric)
	}
	if len(notCounted) > 0 {
		notes = append(notes, "not counted: "+strings.Join(notCounted, ", "))
	}
	s.Note = strings.Join(notes, "; ")
	return s
}

// demandsOf lists the loads of a group. A fail-secure lock holds nothing but while
// it is unlocked, so it counts at the timed unlock alone.
func demandsOf(group []*member) ([]power.Demand, []cable.Assumption) {
	var out []power.Demand
	var assumed []cable.Assumption
	controllers := 0
	add := func(d power.Demand) {
		assumed = append(assumed, d.Load.Assumptions...)
		d.Load.Assumptions = nil
		out = append(out, d)
	}
	for _, m := range group {
		if m.lock.known {
			load := plain(m.lock.Load)
			event := atReset
			if !m.failSafe {
				event = atTimed
				most := max(load.Holding.AmpsAt(m.nominal), load.Inrush.AmpsAt(m.nominal))
				load.Holding, load.HoldingLow, load.Inrush = power.ConstantCurrent{}, nil, power.ConstantCurrent{Amps: most}
			}
			add(power.Demand{Load: load, Quantity: m.locks, Event: event})
		}
		for _, d := range m.small {
			add(d)
		}
		if m.controller {
			controllers++
		}
	}
	if controllers > 0 {
		if board, err := power.FindLoad(power.Controller, "two-door board, no readers", 12); err == nil {
			add(power.Demand{Load: plain(board), Quantity: (controllers + 1) / 2})
			assumed = append(assumed, cable.Assumption{What: "controllers on the supply", Value: "one board for two doors", Why: "not placed yet", Source: board.Range.Source()})
		}
	}
	for _, d := range out {
		if d.Load.Rated != group[0].nominal {
			assumed = append(assumed, cable.Assumption{What: "current of 12 V devices on another supply", Value: "as at 12 V", Why: "a regulator passes on the current it gives; a converter draws less", Source: d.Load.Range.Source()})
			break
		}
	}
	return out, assumed
}

// devicesOf is the current of everything but the locks.
func devicesOf(demands []power.Demand, nominal cable.Volts) cable.Amps {
	var sum cable.Amps
	for _, d := range demands {
		if d.Event == "" {
			sum += cable.Amps(float64(d.Quantity) * float64(d.Load.Holding.AmpsAt(nominal)))
		}
	}
	return sum
}

// batteryResult is a battery with what is to be said about it.
type batteryResult struct {
	power.BatteryResult
	held  bool
	hours float64
	notes []string
}

// batteryOf is the battery for the longest hours asked of a group: the devices all
// the time, the fail-safe locks where they are held, and fail-secure ones for the
// hours the timetable holds them unlocked.
func batteryOf(group []*member, devices cable.Amps) batteryResult {
	var r batteryResult
	known := false
	for _, m := range group {
		if m.standby.hours.known {
			known = true
			r.hours = max(r.hours, m.standby.hours.value)
		}
	}
	switch {
	case !known:
		info, _ := doorsched.FieldInfo(doorsched.BatteryHours.ID())
		r.notes = []string{"battery not calculated: " + strings.ToLower(info.Words(group[0].region)) + " not given for the project"}
		return r
	case r.hours == 0:
		r.notes = []string{"no battery asked for"}
		return r
	}
	phases := []power.Phase{{Amps: devices, For: hours(r.hours)}}
	unknown := false
	for _, m := range group {
		if !m.lock.known {
			continue
		}
		current := cable.Amps(float64(m.locks) * float64(m.lock.Holding.AmpsAt(m.nominal)))
		switch {
		case !m.failSafe:
			phases = append(phases, power.Phase{Amps: current, For: hours(min(m.unlockedHours, r.hours))})
		case m.standby.held != doorsched.No:
			r.held = true
			unknown = unknown || m.standby.held == doorsched.Unknown
			phases = append(phases, power.Phase{Amps: current, For: hours(r.hours)})
		}
	}
	solved, err := power.Battery{Phases: phases}.Solve()
	if err != nil {
		r.notes = append(r.notes, "battery not calculated: "+err.Error())
		return r
	}
	r.BatteryResult = solved
	if unknown {
		r.notes = append(r.notes, "calculated with the fail-safe locks held on battery; whether they are is not known")
	}
	if solved.Block == 0 {
		r.notes = append(r.notes, "more than one common block: design blocks in parallel or divide the supply")
	} else if group[0].nominal == 24 {
		r.notes = append(r.notes, "two 12 V blocks in series")
	}
	return r
}

func hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }
