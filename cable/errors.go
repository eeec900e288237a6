package cable

import (
	"errors"
	"fmt"
	"math"
)

var (
	// ErrCopperClad refuses copper-clad aluminium until the caller states its factor.
	ErrCopperClad = errors.New("copper-clad aluminium is refused: category standards do not accept it and its resistance is not that of copper; state CladFactor to calculate all the same")
	// ErrNoSize means that no size of the list holds the voltage.
	ErrNoSize = errors.New("no size in the list holds the voltage")
	// ErrSpecialTable means that another table than Chapter 9 Table 1 governs.
	ErrSpecialTable = errors.New("trade size 3/8 of this raceway is governed by NEC Table 348.22, not by Chapter 9 Table 1: look the count up there")
)

// InputError names an input that cannot be used and says why.
type InputError struct {
	Field string // what was given, in the words of the trade
	Value string // as given
	Why   string
}

func (e *InputError) Error() string {
	if e.Value == "" {
		return e.Field + ": " + e.Why
	}
	return fmt.Sprintf("%s %q: %s", e.Field, e.Value, e.Why)
}

// DropError means that the run would lose the whole supply or more: the load
// cannot draw that current through it.
type DropError struct {
	Supply  Volts
	Drop    Volts // what the current would lose
	Largest Amps  // at this current nothing would be left at the load
}

func (e *DropError) Error() string {
	return fmt.Sprintf("the run would lose %.2f V of %.2f V: it cannot carry the load, nothing is left at %.2f A", float64(e.Drop), float64(e.Supply), float64(e.Largest))
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// CheckPositive refuses what is not a finite number above zero.
func CheckPositive(field string, x float64) error {
	if !finite(x) || x <= 0 {
		return &InputError{Field: field, Value: fmt.Sprint(x), Why: "must be a number above zero"}
	}
	return nil
}

// CheckNotNegative refuses what is not a finite number of zero or more.
func CheckNotNegative(field string, x float64) error {
	if !finite(x) || x < 0 {
		return &InputError{Field: field, Value: fmt.Sprint(x), Why: "must be a number of zero or more"}
	}
	return nil
}
