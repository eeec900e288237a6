package power

import "example.com/lockrail/cable"

// Backup says whether a supply has a battery.
type Backup uint8

const (
	BackupUnknown Backup = iota // taken as fitted, returned as an assumption
	BackupFitted
	BackupNone
)

// Supply is a direct-current supply. Zero voltages are not given: for 12 V and
// 24 V they are taken as usual and returned as assumptions, for others they must
// be given.
type Supply struct {
	Nominal      cable.Volts
	MainsLow     cable.Volts // lowest output on mains
	BatteryEnd   cable.Volts // at the end of the required hours
	ChargerHigh  cable.Volts // highest output, charging
	CurrentLimit cable.Amps  // zero: not given
	Backup       Backup
}

// Event is one of the voltages a supply can have.
type Event string

const (
	MainsLow    Event = "supply low on mains"
	BatteryEnd  Event = "battery at its end"
	ChargerHigh Event = "charger high"
)

type supplyDefault struct {
	nominal, mainsLow, batteryEnd, chargerHigh, high cable.Volts
}

// Lead-acid, 1.75 V a cell at the end and 2.3 V a cell charging; a supply
// regulated to 5 %.
var supplyDefaults = [...]supplyDefault{
	{12, 11.4, 10.5, 13.8, 12.6},
	{24, 22.8, 21, 27.6, 25.2},
}

// Complete fills in the voltages not given and says which.
func (s Supply) Complete() (Supply, []cable.Assumption, error) {
	for _, given := range [...]struct {
		name  string
		value float64
	}{
		{"lowest voltage on mains", float64(s.MainsLow)}, {"battery end voltage", float64(s.BatteryEnd)},
		{"charger voltage", float64(s.ChargerHigh)}, {"current limit", float64(s.CurrentLimit)},
	} {
		if err := cable.CheckNotNegative(given.name, given.value); err != nil {
			return s, nil, err
		}
	}
	if err := cable.CheckPositive("nominal supply voltage", float64(s.Nominal)); err != nil {
		return s, nil, err
	}
	if s.Backup > BackupNone {
		return s, nil, &cable.InputError{Field: "battery of the supply", Why: "must be unknown, fitted or none"}
	}
	var usual supplyDefault
	for _, d := range supplyDefaults {
		if d.nominal == s.Nominal {
			usual = d
		}
	}
	var assumed []cable.Assumption
	assume := func(what, value, why, source string) {
		assumed = append(assumed, cable.Assumption{What: what, Value: value, Why: why, Source: cable.Source{Text: source, Status: cable.Practice}})
	}
	if s.Backup == BackupUnknown {
		s.Backup = BackupFitted
		assume("battery of the supply", "fitted", "not given; the lower voltage is on the safe side", "usual lock supply")
	}
	fill := func(v *cable.Volts, value cable.Volts, what, why, source string) error {
		if *v != 0 {
			return nil
		}
		if value == 0 {
			return &cable.InputError{Field: what, Value: volts(s.Nominal) + " supply", Why: "must be given: it is usual only for 12 V and 24 V supplies"}
		}
		*v = value
		assume(what, volts(value), why, source)
		return nil
	}
	if err := fill(&s.MainsLow, usual.mainsLow, "lowest supply voltage on mains", "not given; nominal less 5 %", "regulated supply"); err != nil {
		return s, nil, err
	}
	if s.Backup == BackupNone {
		s.BatteryEnd = 0
		if err := fill(&s.ChargerHigh, usual.high, "highest supply voltage", "not given; nominal and 5 %", "regulated supply without battery"); err != nil {
			return s, nil, err
		}
	} else {
		if err := fill(&s.BatteryEnd, usual.batteryEnd, "battery end voltage", "not given; 1.75 V a cell", "end of discharge of lead-acid batteries"); err != nil {
			return s, nil, err
		}
		if err := fill(&s.ChargerHigh, usual.chargerHigh, "charger voltage", "not given; 2.3 V a cell", "float charge of lead-acid batteries"); err != nil {
			return s, nil, err
		}
	}
	if s.ChargerHigh < max(s.MainsLow, s.BatteryEnd) {
		return s, nil, &cable.InputError{Field: "supply voltages", Why: "the highest is below another"}
	}
	return s, assumed, nil
}

// source is a voltage the supply can have.
type source struct {
	event Event
	volts cable.Volts
}

// sources lists the voltages of a completed supply.
func (s Supply) sources() []source {
	list := []source{{MainsLow, s.MainsLow}}
	if s.Backup != BackupNone {
		list = append(list, source{BatteryEnd, s.BatteryEnd})
	}
	return append(list, source{ChargerHigh, s.ChargerHigh})
}
