package power

import (
	"time"

	"example.com/lockrail/cable"
)

// Load is a device on a lock or device circuit.
type Load struct {
	Name  string
	Rated cable.Volts // nominal voltage; zero: not given
	// Holding is the greatest continuous draw: for drop, supply and battery.
	Holding Draw
	// HoldingLow is the least, for over-voltage; nil means as Holding.
	HoldingLow Draw
	// Inrush is the draw at pull-in; nil means as Holding, returned as an
	// assumption. InrushFor is how long it lasts; zero is not known.
	Inrush    Draw
	InrushFor time.Duration
	Window    Window // zero: the generic one
	// Range is the row of the generic table the load was made from; its zero
	// value means the caller's own data.
	Range Range
	// Assumptions made when the load was looked up.
	Assumptions []cable.Assumption
}

// Generic reports whether the currents are ranges of the trade.
func (l Load) Generic() bool { return l.Range != Range{} }

// complete fills in what is not given and says what was taken.
func (l Load) complete(supply cable.Volts) (Load, []cable.Assumption, error) {
	assumed := append([]cable.Assumption(nil), l.Assumptions...)
	if l.Holding == nil {
		return l, nil, &cable.InputError{Field: "load " + l.Name, Why: "has no holding current"}
	}
	if l.HoldingLow == nil {
		l.HoldingLow = l.Holding
	}
	if l.Inrush == nil {
		l.Inrush = l.Holding
		assumed = append(assumed, cable.Assumption{
			What: "inrush of " + l.name(), Value: "as holding", Why: "not given; a plain direct-current coil draws no more when it pulls in",
			Source: cable.Source{Text: "circuit law for coils, not for motors or capacitors", Status: cable.Practice},
		})
	}
	for _, d := range [...]Draw{l.Holding, l.HoldingLow, l.Inrush} {
		if err := d.check(); err != nil {
			return l, nil, err
		}
	}
	if l.Rated == 0 {
		l.Rated = supply
		assumed = append(assumed, cable.Assumption{
			What: "rated voltage of " + l.name(), Value: volts(supply), Why: "not given; that of the supply",
			Source: cable.Source{Text: "usual choice", Status: cable.Practice},
		})
	}
	if err := cable.CheckPositive("rated voltage", float64(l.Rated)); err != nil {
		return l, nil, err
	}
	window, more, err := l.Window.complete(l.Rated)
	l.Window = window
	return l, append(assumed, more...), err
}

func (l Load) name() string {
	if l.Name == "" {
		return "the load"
	}
	return l.Name
}
