package power

import (
	"fmt"
	"strings"

	"example.com/lockrail/cable"
)

var rangeSource = cable.Source{Text: "generic range of the trade", Status: cable.Practice}

// Source of the range.
func (Range) Source() cable.Source { return rangeSource }

// Ranges lists the generic loads.
func Ranges() []Range { return append([]Range(nil), ranges[:]...) }

// draw is a current of the row, drawn as the device draws it.
func (r Range) draw(a cable.Amps) Draw {
	switch {
	case a == 0 || r.nature == current:
		return ConstantCurrent{a}
	case r.nature == converter:
		return ConstantPower{Watts: r.Nominal.Carrying(a)}
	}
	return ConstantResistance{a, r.Nominal}
}

// load is the row as a load: the high end for drop, supply and battery, the low
// end for over-voltage.
func (r Range) load() Load {
	l := Load{
		Name:       strings.TrimSuffix(string(r.Device)+", "+r.Variant, ", "),
		Rated:      r.Nominal,
		Holding:    r.draw(r.High),
		HoldingLow: r.draw(r.Low),
		InrushFor:  r.InrushFor,
		Range:      r,
	}
	if r.InrushHigh > 0 {
		l.Inrush = r.draw(r.InrushHigh)
	}
	return l
}

// FindLoad is the generic load of a device for a nominal voltage. An empty variant
// takes the one that draws most, at inrush or holding, and says so in the load's
// assumptions. Errors: InputError when the trade table has no such row.
func FindLoad(device Device, variant string, nominal cable.Volts) (Load, error) {
	var best Range
	for _, r := range ranges {
		if r.Device != device || r.Nominal != nominal || variant != "" && r.Variant != variant {
			continue
		}
		if best == (Range{}) || max(r.High, r.InrushHigh) > max(best.High, best.InrushHigh) {
			best = r
		}
	}
	if best == (Range{}) {
		return Load{}, &cable.InputError{Field: "load", Value: fmt.Sprintf("%s, %s at %s", device, variant, volts(nominal)), Why: "no generic range for it"}
	}
	load := best.load()
	if variant == "" && best.Variant != "" {
		load.Assumptions = []cable.Assumption{{
			What: "kind of " + string(device), Value: best.Variant, Why: "not given; the one that draws most", Source: rangeSource,
		}}
	}
	return load, nil
}

// Newtons is a holding force.
type Newtons float64

// holdingForces names the rows of the electromagnetic locks by the force they hold.
var holdingForces = [...]struct {
	force   Newtons
	variant string
}{
	{1300, "300 lbf (1.3 kN)"},
	{2700, "600 lbf (2.7 kN)"},
	{5300, "1200 lbf (5.3 kN)"},
	{6700, "1500 lbf and above (6.7 kN)"},
}

// FindMagneticLock is the generic electromagnetic lock of at least this holding
// force; above the last row, the last row.
func FindMagneticLock(force Newtons, nominal cable.Volts) (Load, error) {
	if err := cable.CheckPositive("holding force", float64(force)); err != nil {
		return Load{}, err
	}
	variant := holdingForces[len(holdingForces)-1].variant
	for _, row := range holdingForces {
		// 600 lbf is 2669 N and is sold as 2.7 kN, so either finds its row; 1500
		// lbf is 6672 N.
		if force <= row.force*1.01 {
			variant = row.variant
			break
		}
	}
	return FindLoad(MagneticLock, variant, nominal)
}
