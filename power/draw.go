package power

import (
	"math"

	"example.com/lockrail/cable"
)

// Draw is how a load takes current: ConstantCurrent, ConstantResistance or
// ConstantPower.
type Draw interface {
	// AmpsAt is the current at a voltage above zero across the load.
	AmpsAt(cable.Volts) cable.Amps

	check() error
	// atLoad is the voltage at the load behind a loop resistance; false if the
	// load cannot be carried at all.
	atLoad(source cable.Volts, loop cable.Ohms) (cable.Volts, bool)
	// mostLoop is the greatest loop resistance, at which minimum is left.
	mostLoop(source, minimum cable.Volts) (loop cable.Ohms, unlimited bool)
	// largest is the greatest draw of the kind that leaves minimum at the load.
	largest(source, minimum cable.Volts, loop cable.Ohms) Draw
}

// ConstantCurrent draws the same current at any voltage: electronics behind a
// linear regulator, or a current read off a data sheet.
type ConstantCurrent struct{ Amps cable.Amps }

// ConstantResistance is a coil: its rated current at its rated voltage.
type ConstantResistance struct {
	Amps  cable.Amps
	Volts cable.Volts
}

// ConstantPower is a load behind a switching converter, which draws more current
// the lower its voltage falls. Efficiency is from above 0 to 1; zero means that
// Watts is already the power taken from the cable.
type ConstantPower struct {
	Watts      cable.Watts
	Efficiency float64
}

func (d ConstantCurrent) AmpsAt(cable.Volts) cable.Amps { return d.Amps }

func (d ConstantCurrent) check() error {
	return cable.CheckNotNegative("load current", float64(d.Amps))
}

func (d ConstantCurrent) atLoad(source cable.Volts, loop cable.Ohms) (cable.Volts, bool) {
	v := source - d.Amps.Through(loop)
	return v, v > 0
}

func (d ConstantCurrent) mostLoop(source, minimum cable.Volts) (cable.Ohms, bool) {
	if d.Amps == 0 {
		return 0, true
	}
	return (source - minimum).Losing(d.Amps), false
}

func (d ConstantCurrent) largest(source, minimum cable.Volts, loop cable.Ohms) Draw {
	return ConstantCurrent{(source - minimum).Across(loop)}
}

func (d ConstantResistance) ohms() cable.Ohms { return d.Volts.Losing(d.Amps) }

func (d ConstantResistance) AmpsAt(v cable.Volts) cable.Amps { return v.Across(d.ohms()) }

func (d ConstantResistance) check() error {
	if err := cable.CheckPositive("rated current", float64(d.Amps)); err != nil {
		return err
	}
	if err := cable.CheckPositive("rated voltage", float64(d.Volts)); err != nil {
		return err
	}
	return cable.CheckPositive("coil resistance", float64(d.ohms()))
}

func (d ConstantResistance) atLoad(source cable.Volts, loop cable.Ohms) (cable.Volts, bool) {
	coil := d.ohms()
	return source.Across(loop + coil).Through(coil), true
}

func (d ConstantResistance) mostLoop(source, minimum cable.Volts) (cable.Ohms, bool) {
	return (source - minimum).Losing(d.AmpsAt(minimum)), false
}

func (d ConstantResistance) largest(source, minimum cable.Volts, loop cable.Ohms) Draw {
	// The coil that leaves minimum, rated as this one is.
	coil := minimum.Losing((source - minimum).Across(loop))
	return ConstantResistance{d.Volts.Across(coil), d.Volts}
}

// taken is the power taken from the cable.
func (d ConstantPower) taken() cable.Watts {
	if d.Efficiency == 0 {
		return d.Watts
	}
	return cable.Watts(float64(d.Watts) / d.Efficiency)
}

func (d ConstantPower) AmpsAt(v cable.Volts) cable.Amps { return d.taken().DrawnAt(v) }

func (d ConstantPower) check() error {
	if err := cable.CheckNotNegative("load power", float64(d.Watts)); err != nil {
		return err
	}
	if err := cable.CheckNotNegative("efficiency", d.Efficiency); err != nil {
		return err
	}
	if d.Efficiency > 1 {
		return &cable.InputError{Field: "efficiency", Why: "must be at most 1"}
	}
	return cable.CheckNotNegative("power taken", float64(d.taken()))
}

// atLoad solves V = source - loop·P/V for the stable, higher voltage.
func (d ConstantPower) atLoad(source cable.Volts, loop cable.Ohms) (cable.Volts, bool) {
	p := float64(d.taken())
	under := float64(float64(source)*float64(source)) - float64(4*float64(loop)*p)
	if under < 0 {
		return 0, false
	}
	return cable.Volts((float64(source) + math.Sqrt(under)) / 2), true
}

// stable is the lowest voltage a converter can be left at: below half the source
// voltage more current brings less power and the voltage collapses.
func stable(source, minimum cable.Volts) cable.Volts { return max(minimum, source/2) }

func (d ConstantPower) mostLoop(source, minimum cable.Volts) (cable.Ohms, bool) {
	if d.taken() == 0 {
		return 0, true
	}
	v := stable(source, minimum)
	return (source - v).Losing(d.AmpsAt(v)), false
}

func (d ConstantPower) largest(source, minimum cable.Volts, loop cable.Ohms) Draw {
	v := stable(source, minimum)
	most := ConstantPower{Watts: v.Carrying((source - v).Across(loop)), Efficiency: d.Efficiency}
	if d.Efficiency != 0 {
		most.Watts = cable.Watts(float64(most.Watts) * d.Efficiency)
	}
	return most
}
