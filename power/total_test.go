package power_test

import (
	"errors"
	"testing"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
)

func coil(holding, inrush cable.Amps) power.Load {
	return power.Load{Name: "lock", Rated: 24, Holding: power.ConstantCurrent{Amps: holding}, Inrush: power.ConstantCurrent{Amps: inrush}, Window: power.GenericWindow(24)}
}

// By hand: four of 0.5 A with 1 A more at reset, two of 0.3 A with 3 A more each
// alone, one of 0.2 A.
func TestTotal(t *testing.T) {
	demands := []power.Demand{
		{Load: coil(0.5, 1.5), Quantity: 3, Event: "alarm reset"},
		{Load: coil(0.5, 1.5), Quantity: 1, Event: "alarm reset"},
		{Load: coil(0.3, 3.3), Quantity: 2},
		{Load: coil(0.2, 0.2), Quantity: 1, Event: "timed unlock"},
	}
	got, err := power.Supply{Nominal: 24}.Total(0.8, demands...)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "holding", float64(got.Holding), 2.8, 1e-12)
	near(t, "peak", float64(got.Peak), 6.8, 1e-12)
	near(t, "smallest", float64(got.Smallest), 6.8, 1e-12)
	if got.Event != "alarm reset" || got.Judged || got.Fits || got.Assumptions != nil {
		t.Errorf("%+v", got)
	}
	for limit, fits := range map[cable.Amps]bool{6.7: false, 6.8: true} {
		got, err := power.Supply{Nominal: 24, CurrentLimit: limit}.Total(0.8, demands...)
		if err != nil || !got.Judged || got.Fits != fits {
			t.Errorf("%v A: %+v, %v", limit, got, err)
		}
	}
	// Without the simultaneous event the continuous loading decides: 2.8 A / 0.75.
	calm, err := power.Supply{Nominal: 24, CurrentLimit: 3.7}.Total(0, power.Demand{Load: coil(0.7, 0.7), Quantity: 4})
	if err != nil || calm.Fits || len(calm.Assumptions) != 1 {
		t.Errorf("%+v, %v", calm, err)
	}
	near(t, "smallest", float64(calm.Smallest), 2.8/0.75, 1e-12)
	near(t, "loading", calm.Loading, 100*2.8/3.7, 1e-12)
	generic, err := power.FindLoad(power.Strike, "", 24)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := (power.Supply{Nominal: 24}).Total(0.8, power.Demand{Load: generic, Quantity: 2}); err != nil || !got.Generic || len(got.Assumptions) == 0 {
		t.Errorf("%+v, %v", got, err)
	}
	for name, f := range map[string]func() (power.Total, error){
		"no supply":  func() (power.Total, error) { return power.Supply{}.Total(0.8) },
		"loading 80": func() (power.Total, error) { return power.Supply{Nominal: 24}.Total(80) },
		"quantity": func() (power.Total, error) {
			return power.Supply{Nominal: 24}.Total(0.8, power.Demand{Load: generic, Quantity: -1})
		},
		"no load": func() (power.Total, error) { return power.Supply{Nominal: 24}.Total(0.8, power.Demand{Quantity: 1}) },
	} {
		var input *cable.InputError
		if got, err := f(); !errors.As(err, &input) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}
