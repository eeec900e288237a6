package wiring

import (
	"errors"
	"fmt"
	"strings"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/power"
)

// atLoad is the circuit calculated; a collapse is part of the answer, not an error.
func atLoad(supply power.Supply, segments []power.Segment, load power.Load) (power.Result, error) {
	result, err := power.Circuit{Supply: supply, Segments: segments, Load: load}.AtLoad()
	var collapse *power.CollapseError
	if errors.As(err, &collapse) {
		err = nil
	}
	return result, err
}

// lockVoltage calculates the lock at its worst hour and says what it comes to.
func (b *bench) lockVoltage(l lockLoad, f feed, s standby) {
	c := &b.circuit
	supply, assumed, err := s.supply(l.nominal)
	if err != nil {
		c.Result = fmt.Sprintf("not calculated: %s", err)
		return
	}
	b.assumeAll(assumed)
	result, err := atLoad(supply, f.segments, l.Load)
	if err != nil {
		c.Result = fmt.Sprintf("not calculated: %s", err)
		return
	}
	b.assumeAll(result.Assumptions)
	c.LockVoltsMin = doorsched.Known(result.Window.Min)
	c.LockVoltsMax = doorsched.Known(result.Window.Max)
	c.OnMains = lowest(result.Points, power.MainsLow)
	c.BatteryEnd = lowest(result.Points, power.BatteryEnd)
	c.High = doorsched.Known(result.Points[result.Highest].Load)
	worst := result.Points[result.Lowest]
	c.LockVolts = doorsched.Known(worst.Load)
	c.Governs = governs(worst)
	if !result.Longest.Unlimited && result.Varied == mainSegment {
		c.Longest = doorsched.Known(result.Longest.Length)
	}
	c.Result = b.result(l, f, s, result)
	b.judgeLow(l, f, s, supply, result)
}

// lowest is the least voltage at the lock of one event; Unknown if it does not count.
func lowest(points []power.Point, event power.Event) doorsched.Opt[cable.Volts] {
	var out doorsched.Opt[cable.Volts]
	for _, p := range points {
		if p.Event != event || p.State == power.Lightest {
			continue
		}
		if v, known := out.Get(); !known || p.Load < v {
			out = doorsched.Known(p.Load)
		}
	}
	return out
}

func governs(p power.Point) string { return eventWords[p.Event] + ", " + stateWords[p.State] }

// result is one sentence about the circuit.
func (b *bench) result(l lockLoad, f feed, s standby, r power.Result) string {
	worst := r.Points[r.Lowest]
	parts := []string{fmt.Sprintf("%s: %s, %s needed", holdsOrNot(r), b.atLock(worst), volts(r.Window.Min))}
	parts = append(parts, fmt.Sprintf("%s of %s", b.words.length(f.segments[0].Run.Length), describe(f.segments[0].Run)))
	if s.counts == doorsched.Unknown {
		parts = append(parts, b.policy(s))
		if mains, ok := b.circuit.OnMains.Get(); ok && worst.Event == power.BatteryEnd {
			parts = append(parts, fmt.Sprintf("on mains %s", volts(mains)))
		}
	}
	if r.Over {
		parts = append(parts, fmt.Sprintf("but %s, above %s: ask for the lock's own upper limit", b.atLock(r.Points[r.Highest]), volts(r.Window.Max)))
	}
	basis := l.basis
	if !f.firm {
		basis += ", with length or size assumed"
	}
	return strings.Join(append(parts, basis), "; ")
}

func holdsOrNot(r power.Result) string {
	switch {
	case r.Short:
		return "Does not hold"
	case r.Over:
		return "Holds the lower limit"
	}
	return "Holds"
}

// policy says what of the battery is not known, and that it was counted.
func (b *bench) policy(s standby) string {
	if s.fitted == doorsched.Unknown {
		return "whether the lock works on a battery is not known, so the end of one is counted"
	}
	return "whether the lock is held on battery is not known, so its end is counted"
}

// atLock is a point in words.
func (b *bench) atLock(p power.Point) string {
	if p.Collapse != nil {
		return fmt.Sprintf("no voltage is left at the lock (%s)", governs(p))
	}
	return fmt.Sprintf("%s at the lock (%s)", volts(p.Load), governs(p))
}

// genericWindow is the citation of the generic window.
func genericWindow(w power.Window) doorsched.Citation {
	return doorsched.Citation{Document: "UL 294", Edition: "6th edition", Clause: "36.1", Status: doorsched.Status(w.Source.Status)}
}

// judgeLow raises a finding on given values only: a generic load, an assumed run
// or a generic inrush gives none.
func (b *bench) judgeLow(l lockLoad, f feed, s standby, supply power.Supply, r power.Result) {
	if !f.firm || !l.firmHolding {
		return
	}
	var worst power.Point
	found := false
	for _, p := range r.Points {
		if p.Event == power.BatteryEnd && s.counts == doorsched.Unknown {
			continue // asked for; the result says what the end of a battery would give
		}
		if p.State == power.Lightest || p.State == power.Inrush && !l.firmInrush || found && p.Margin >= worst.Margin {
			continue
		}
		worst, found = p, true
	}
	if !found || worst.Margin >= 0 {
		return
	}
	drawn := worst.Amps
	if worst.Collapse != nil { // nothing arrives: the current asked for
		drawn = l.Holding.AmpsAt(l.nominal)
		if worst.State == power.Inrush && l.Inrush != nil {
			drawn = l.Inrush.AmpsAt(l.nominal)
		}
	}
	message := fmt.Sprintf("%s, below %s (85 %% of %s, a generic window: the lock's own limit decides). %s from %s over %s of %s.",
		capital(b.atLock(worst)), volts(r.Window.Min), volts(l.nominal), amps(drawn), volts(worst.Source), b.words.length(f.segments[0].Run.Length), describe(f.segments[0].Run))
	b.find(doorsched.Finding{
		Rule: "lock-voltage", Fields: b.electricalFields(),
		Value: doorsched.NumberOf(float64(worst.Load), "V"), Limit: doorsched.NumberOf(float64(r.Window.Min), "V"),
		Citation: genericWindow(r.Window), Message: message,
		Remedies: b.remedies(l, f, s, supply, r),
	})
}

// electricalFields are the fields the voltage rests on, as far as they are given.
func (b *bench) electricalFields() []doorsched.FieldID {
	var out []doorsched.FieldID
	for _, id := range []doorsched.FieldID{
		doorsched.LockVolts.ID(), doorsched.LockAmps.ID(), doorsched.LockInrush.ID(), doorsched.CableLength.ID(),
		doorsched.CableSize.ID(), doorsched.CableCores.ID(), doorsched.TransferSize.ID(), doorsched.TransferLength.ID(),
	} {
		if _, ok := b.door.View.Get(id); ok {
			out = append(out, id)
		}
	}
	return out
}
