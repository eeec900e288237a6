package wiring

import (
	"fmt"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/power"
)

const (
	defaultVolts cable.Volts = 24 // usual for access-controlled doors (common practice)

	// Beyond these a field was filled in wrongly or names something else.
	mostVolts = 60   // extra-low voltage of class 2 circuits in dry places
	mostAmps  = 100  // an electric lock never draws it
	mostForce = 50e3 // newtons
)

// lockLoad is the load of one lock, and how far it was given.
type lockLoad struct {
	power.Load
	nominal cable.Volts
	known   bool // there is a load to calculate on
	// firmHolding and firmInrush: the current and the voltage it is for were given.
	firmHolding, firmInrush bool
	basis                   string
}

// lockLoad reads the lock's own data and fills the rest from the generic ranges.
func (b *bench) lockLoad() lockLoad {
	var l lockLoad
	given := b.quantity(doorsched.LockVolts, mostVolts)
	switch {
	case given.known:
		l.nominal = cable.Volts(given.value)
	case b.door.Choice.Volts > 0 && b.door.Choice.Volts <= mostVolts:
		l.nominal = cable.Volts(b.door.Choice.Volts)
		b.assume(doorsched.LockVolts.ID(), "", volts(l.nominal), "not given; the voltage of the lock that was chosen")
	default:
		l.nominal = defaultVolts
		b.assume(doorsched.LockVolts.ID(), "", volts(l.nominal), "not given; usual for access-controlled doors")
	}
	holding := b.quantity(doorsched.LockAmps, mostAmps)
	inrush := b.quantity(doorsched.LockInrush, mostAmps)
	if !holding.known {
		b.need(doorsched.LockAmps.ID())
	}

	generic, err := b.genericLoad(l.nominal, holding.known)
	switch {
	case err == nil:
		l.Load = generic
	case !holding.known:
		b.circuit.Result = fmt.Sprintf("not calculated: %s is not given and there is no generic load of this lock at %s", b.name(doorsched.LockAmps.ID()), volts(l.nominal))
		return l
	}
	l.known = true
	l.Name = b.words.lock(b.door.Choice)
	l.Rated = l.nominal
	l.basis = basisGeneric
	if inrush.known {
		l.Inrush, l.InrushFor = power.ConstantCurrent{Amps: cable.Amps(inrush.value)}, 0
	}
	if holding.known {
		// A current read off a data sheet is held constant as the voltage falls,
		// which is on the safe side for a coil.
		l.Holding, l.HoldingLow = power.ConstantCurrent{Amps: cable.Amps(holding.value)}, nil
		l.Range = power.Range{}
		l.basis = basisGiven
		if l.Inrush != nil && !inrush.known {
			l.basis = basisPart
		}
	} else {
		b.assume(doorsched.LockAmps.ID(), "", b.rangeOf(generic), "not given; "+generic.Range.Source().String()+": the high end for voltage drop, supply and battery, the low end for over-voltage")
	}
	l.firmHolding = holding.firm && given.firm
	l.firmInrush = l.firmHolding && (l.Inrush == nil || inrush.firm)
	b.circuit.Nominal = l.nominal
	b.circuit.Basis = l.basis
	b.circuit.Holding = doorsched.Known(l.Holding.AmpsAt(l.nominal))
	if l.Inrush != nil {
		b.circuit.Inrush = doorsched.Known(l.Inrush.AmpsAt(l.nominal))
	}
	return l
}

func (b *bench) rangeOf(l power.Load) string {
	return fmt.Sprintf("%s to %s", doorsched.FormatNumber(float64(l.Range.Low), 3), amps(l.Range.High))
}

// genericLoad is the row of the generic loads for the lock. With the current
// given the row only serves for an inrush, and what was taken is not said.
func (b *bench) genericLoad(nominal cable.Volts, quiet bool) (power.Load, error) {
	device, variant, why := b.genericRow()
	var load power.Load
	var err error
	if force := b.quantity(doorsched.HoldingForce, mostForce); device == power.MagneticLock && force.known {
		load, err = power.FindMagneticLock(power.Newtons(force.value), nominal)
	} else {
		load, err = power.FindLoad(device, variant, nominal)
	}
	if err != nil || quiet && load.Inrush == nil {
		load.Assumptions = nil
		return load, err
	}
	if why != "" {
		b.assume(doorsched.NoField, "kind of lock for the generic load", load.Name, why)
	}
	b.assumeAll(load.Assumptions)
	load.Assumptions = nil
	return load, nil
}

// genericRow names the generic load of the lock and why that one was taken; an
// empty variant leaves the choice to power.
func (b *bench) genericRow() (device power.Device, variant, why string) {
	latch := b.latch()
	switch b.door.Choice.Lock {
	case "electric_strike":
		if latch == "rim" {
			return power.Strike, "heavy duty or surface rim-exit type", "a strike for a rim latch"
		}
		return power.Strike, "standard duty, continuous-rated coil", "the usual strike; a low-power one has an inrush"
	case "electromagnetic":
		return power.MagneticLock, "", ""
	case "controlled_egress":
		return power.MagneticLock, "", "controlled egress is taken to be done by an electromagnetic lock"
	case "delayed_egress":
		return power.DelayedEgressLock, "", ""
	case "electrified_panic":
		return power.LatchRetraction, "motorised", "the usual kind today; a solenoid draws 10 to 16 A for a moment and needs a supply and cable made for it"
	case "power_bolt":
		return power.Bolt, "", ""
	}
	if latch == "cylindrical" {
		return power.CylindricalLock, "solenoid", "a solenoid holds at the greater current; a motor draws more for a moment"
	}
	return power.MortiseLock, "solenoid", "a solenoid holds at the greater current; a motor draws more for a moment"
}

func (b *bench) latch() doorsched.Choice {
	if latch, ok := doorsched.LatchType.In(b.door.View).Get(); ok {
		return latch
	}
	best, _ := b.door.Choice.Best()
	return best.Latch
}
