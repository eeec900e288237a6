package power

import (
	"fmt"
	"strconv"

	"example.com/lockrail/cable"
)

// Ethernet is a device powered over its data cable.
type Ethernet struct {
	Type   int // of the source, 1 to 4
	Length cable.Metres
	Load   cable.Watts // at the device
	// Conductor of the cable; without a size the worst channel of the standard is
	// taken, returned as an assumption.
	Conductor   cable.Conductor
	Temperature cable.Temperature // read with a conductor only
	// Pairs that carry current, 2 or 4. Zero is not given: then two for a device up
	// to class 4, the worse case, and four above.
	Pairs int
}

// Bound is what sets the most a device can take.
type Bound string

const (
	ClassBound   Bound = "class power of the type"
	SourceBound  Bound = "power of the source"
	CurrentBound Bound = "current of the pairs"
	VoltageBound Bound = "least voltage of the device"
)

// EthernetResult is a powered device at the end of its cable.
type EthernetResult struct {
	DeviceVolts    cable.Volts `json:"device_volts,omitempty"` // zero only with a *CollapseError
	DeviceAmps     cable.Amps  `json:"device_amps,omitempty"`
	DeviceWattsMax cable.Watts `json:"device_watts_max"` // over all pairs of the type
	Bound          Bound       `json:"bound"`            // what sets DeviceWattsMax
	CableLossWatts cable.Watts `json:"cable_loss_watts"`
	SourceVolts    cable.Volts `json:"source_volts"` // the least of the type
	ChannelOhms    cable.Ohms  `json:"channel_ohms"` // of the pairs that carry current
	Pairs          int         `json:"pairs"`
	Class          int         `json:"class,omitempty"` // least class of the device; zero above class 8
	Fits           bool        `json:"fits"`
	LeastType      int         `json:"least_type,omitempty"` // zero: no type serves it over this cable
	// BeyondChannel: longer than a data channel may be, whatever the power.
	BeyondChannel bool               `json:"beyond_channel,omitempty"`
	Assumptions   []cable.Assumption `json:"assumptions,omitempty"`
}

// Solve is the exact voltage at the device, a constant power behind the pair loop
// from the least voltage of the type. With a *CollapseError the other fields of
// the result are still good.
func (e Ethernet) Solve() (EthernetResult, error) {
	if e.Type < 1 || e.Type > len(ethernetTypes) {
		return EthernetResult{}, &cable.InputError{Field: "type", Value: strconv.Itoa(e.Type), Why: "must be 1 to 4"}
	}
	if e.Pairs != 0 && e.Pairs != 2 && e.Pairs != 4 {
		return EthernetResult{}, &cable.InputError{Field: "pairs", Value: strconv.Itoa(e.Pairs), Why: "must be 2 or 4"}
	}
	t := ethernetTypes[e.Type-1]
	if e.Pairs == 4 && t.Pairsets < 2 {
		return EthernetResult{}, &cable.InputError{Field: "pairs", Why: fmt.Sprintf("type %d powers two pairs", e.Type)}
	}
	if err := cable.CheckPositive("load power", float64(e.Load)); err != nil {
		return EthernetResult{}, err
	}
	pairset, assumed, err := e.pairset()
	if err != nil {
		return EthernetResult{}, err
	}
	carrying := t.carrying(e.Load, e.Pairs)
	if carrying < t.Pairsets && e.Pairs == 0 {
		assumed = append(assumed, cable.Assumption{
			What: "pairs that carry current", Value: "two", Why: "not given; up to class 4 a source may power two pairs, the worse case", Source: ethernetSource,
		})
	}
	r := EthernetResult{
		SourceVolts: t.MinVolts,
		ChannelOhms: pairset / cable.Ohms(carrying),
		Pairs:       2 * carrying,
		Fits:        t.serves(e.Load, e.Pairs, pairset),
		Assumptions: assumed,
	}
	if channel, ok := cable.EthernetChannel.Limit(); ok {
		r.BeyondChannel = e.Length > channel.Longest
	}
	r.DeviceWattsMax, r.Bound = t.most(t.Pairsets, pairset)
	if class, ok := ClassFor(e.Load); ok {
		r.Class = class.Number
	}
	for _, other := range ethernetTypes {
		if (e.Pairs != 4 || other.Pairsets == 2) && other.serves(e.Load, e.Pairs, pairset) {
			r.LeastType = other.Number
			break
		}
	}
	v, amps, err := Solve(t.MinVolts, r.ChannelOhms, ConstantPower{Watts: e.Load})
	if err != nil {
		return r, err
	}
	r.DeviceVolts, r.DeviceAmps = v, amps
	r.CableLossWatts = amps.HeatIn(r.ChannelOhms)
	return r, nil
}

// pairset is the loop resistance of one pairset: two conductors out, two back, so
// that of one conductor over the length. It is half of what a meter shows on one
// conductor out and one back.
func (e Ethernet) pairset() (cable.Ohms, []cable.Assumption, error) {
	if err := cable.CheckNotNegative("length", float64(e.Length)); err != nil {
		return 0, nil, err
	}
	c := e.Conductor
	if !c.Size.Given() && c.Stated == 0 {
		ohms := worstPairset.Over(e.Length)
		return ohms, []cable.Assumption{{
			What: "channel resistance", Value: "0.125 ohm a metre of pair loop", Why: "conductor not given", Source: worstPairsetSource,
		}}, cable.CheckNotNegative("channel resistance", float64(ohms))
	}
	var assumed []cable.Assumption
	if c.Construction == cable.Usual && c.Stated == 0 {
		c.Construction = cable.Solid
		assumed = []cable.Assumption{{
			What: "conductor construction", Value: "solid", Why: "not given", Source: cable.Source{Text: "usual construction of fixed data cable", Status: cable.Practice},
		}}
	}
	loop, err := cable.Run{Conductor: c, Length: e.Length, Parallel: 2, Temperature: e.Temperature}.Loop()
	return loop.Ohms, append(assumed, loop.Assumptions...), err
}

// carrying is how many pairsets carry the current of a load.
func (t EthernetType) carrying(load cable.Watts, pairs int) int {
	switch {
	case pairs != 0:
		return pairs / 2
	case load <= twoPairLimit:
		return 1
	}
	return t.Pairsets
}

// serves reports whether the type powers the load over this cable.
func (t EthernetType) serves(load cable.Watts, pairs int, pairset cable.Ohms) bool {
	most, _ := t.most(t.carrying(load, pairs), pairset)
	return float64(load) <= float64(most)*(1+1e-12)
}

// most is the greatest power at the device over the pairsets that carry current.
// Over a channel no worse than the type is specified for, the standard promises
// the class power; beyond it the arithmetic decides.
func (t EthernetType) most(carrying int, pairset cable.Ohms) (cable.Watts, Bound) {
	most, bound := t.DeviceWatts, ClassBound
	source := t.SourceWatts
	if carrying < t.Pairsets {
		most, source = min(most, twoPairLimit), min(source, 30)
	}
	if pairset <= t.ReferenceOhms {
		return most, bound
	}
	loop := pairset / cable.Ohms(carrying)
	// arriving is the most that is left at the device of currents up to a; past
	// half the voltage a greater current brings less.
	arriving := func(a cable.Amps) cable.Watts {
		a = min(a, (t.MinVolts / 2).Across(loop))
		return t.MinVolts.Carrying(a) - a.HeatIn(loop)
	}
	for _, limit := range [...]struct {
		watts cable.Watts
		bound Bound
	}{
		{arriving(source.DrawnAt(t.MinVolts)), SourceBound},
		{arriving(cable.Amps(carrying) * t.PairsetAmps), CurrentBound},
		{t.DeviceMinVolts.Carrying((t.MinVolts - t.DeviceMinVolts).Across(loop)), VoltageBound},
	} {
		if limit.watts < most {
			most, bound = limit.watts, limit.bound
		}
	}
	return most, bound
}
