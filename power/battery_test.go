package power_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
)

// W19: an exam study guide, 0.25 A for 24 h and 1.5 A for 5 min.
func TestW19(t *testing.T) {
	in, printed := example(t, "W19")
	r, err := power.Battery{
		Phases: []power.Phase{
			{Amps: cable.Amps(in["standby_a"].(float64)), For: time.Duration(in["standby_h"].(float64)) * time.Hour},
			{Amps: cable.Amps(in["alarm_a"].(float64)), For: time.Duration(in["alarm_min"].(float64)) * time.Minute},
		},
		Margin: 1, Ageing: 1, Temperature: cable.At(25),
	}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W19", float64(r.Needed), printed["ah"].(float64), 0.0005)
	if r.Block != 7 || len(r.Assumptions) != 1 {
		t.Errorf("%+v", r)
	}
	near(t, "recharge", float64(r.RechargeAmps), 7.0/48, 1e-12)
}

// Every printed row of the temperature table, its status, and the common blocks.
func TestBatteryTables(t *testing.T) {
	factors := 0
	for _, r := range published(t, "battery.csv") {
		switch {
		case r["topic"] == "temperature factor" && r["unit"] == "1" && strings.Contains(r["item"], " F / "):
			f, _, _ := strings.Cut(r["item"], " F")
			fahrenheit, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			got, source, err := power.TemperatureFactor(cable.Celsius((fahrenheit - 32) / 1.8))
			if err != nil {
				t.Fatal(err)
			}
			near(t, r["item"], got, r.number(t, "value"), 1e-9)
			// Rounding may put a row a hair into its neighbour's span.
			if string(source.Status) != r["status"] && f != "40" && f != "120" {
				t.Errorf("%s: %s, %s", r["item"], source.Status, r["status"])
			}
			factors++
		case r["item"] == "12 V standard capacities":
			for _, text := range strings.Fields(r["value"]) {
				ah, err := strconv.ParseFloat(text, 64)
				if err != nil {
					t.Fatal(err)
				}
				got, err := power.Battery{Phases: []power.Phase{{Amps: cable.Amps(ah), For: time.Hour}}, Margin: 1, Ageing: 1, Temperature: cable.At(25)}.Solve()
				if err != nil || float64(got.Block) != ah {
					t.Errorf("%v Ah: block %v, %v", ah, got.Block, err)
				}
			}
		case r["item"] == "NFPA 72-2022 (10.6.10.1)":
			got, err := power.Battery{Phases: []power.Phase{{Amps: 1, For: time.Hour}}}.Solve()
			if err != nil || len(got.Assumptions) != 4 {
				t.Errorf("%+v, %v", got, err)
			}
			near(t, "margin assumed", float64(got.Needed), r.number(t, "value"), 1e-12)
		}
	}
	if factors != 41 {
		t.Errorf("%d factors checked", factors)
	}
	for _, c := range []cable.Celsius{-5, 60, cable.Celsius(math.NaN()), cable.Celsius(math.Inf(1))} {
		if _, _, err := power.TemperatureFactor(c); err == nil {
			t.Errorf("%v °C has a factor", c)
		}
	}
	for _, end := range []cable.Celsius{-3.9, 51.7} {
		if _, source, err := power.TemperatureFactor(end); err != nil || source.Status != cable.Memory {
			t.Errorf("printed end %v °C: %v, %v", end, source, err)
		}
	}
}

// 5 °C lies a fifth of the way from 40 °F (1.30) to 45 °F (1.25): 41 °F is 1.29.
func TestFactorsMultiply(t *testing.T) {
	r, err := power.Battery{
		Phases: []power.Phase{{Amps: 0.42, For: 24 * time.Hour}, {Amps: 3.8, For: 5 * time.Minute}},
		Margin: 1.2, Ageing: 1.25, Temperature: cable.At(5),
	}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "drawn", float64(r.Drawn), 0.42*24+3.8/12, 1e-9)
	near(t, "needed", float64(r.Needed), (0.42*24+3.8/12)*1.2*1.25*1.29, 1e-9)
	if r.Block != 24 {
		t.Errorf("block %v", r.Block)
	}
	big, err := power.Battery{Phases: []power.Phase{{Amps: 10, For: 24 * time.Hour}}, Margin: 1.25, Recharge: 24 * time.Hour}.Solve()
	if err != nil || big.Block != 0 {
		t.Errorf("%+v, %v", big, err)
	}
	near(t, "recharge without a block", float64(big.RechargeAmps), 300.0/24, 1e-9)
}

func TestBatteryErrors(t *testing.T) {
	hour := []power.Phase{{Amps: 1, For: time.Hour}}
	for name, b := range map[string]power.Battery{
		"no phases":      {},
		"negative amps":  {Phases: []power.Phase{{Amps: -1, For: time.Hour}}},
		"NaN amps":       {Phases: []power.Phase{{Amps: cable.Amps(math.NaN()), For: time.Hour}}},
		"negative time":  {Phases: []power.Phase{{Amps: 1, For: -time.Hour}}},
		"margin below 1": {Phases: hour, Margin: 0.5},
		"margin percent": {Phases: hour, Margin: 20},
		"NaN ageing":     {Phases: hour, Ageing: math.NaN()},
		"freezing":       {Phases: hour, Temperature: cable.At(-30)},
		"recharge":       {Phases: hour, Recharge: -1},
		"overflow":       {Phases: []power.Phase{{Amps: math.MaxFloat64, For: 100 * time.Hour}}},
	} {
		var input *cable.InputError
		if got, err := b.Solve(); !errors.As(err, &input) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}

func TestParsePhase(t *testing.T) {
	for text, want := range map[string]power.Phase{
		"0.42Ax24h": {Amps: 0.42, For: 24 * time.Hour}, "3.8Ax5min": {Amps: 3.8, For: 5 * time.Minute}, " 1.5 A × 30 s ": {Amps: 1.5, For: 30 * time.Second}, "2ax1hr": {Amps: 2, For: time.Hour},
	} {
		if got, err := power.ParsePhase(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "0.42A", "0.42x24h", "0.42Ax24", "0.42Ax5m", "-1Ax1h", "1Ax-1h", "1Ax1e9h", "1Ax99999h", "NaNAx1h", "1Ax1hx2"} {
		if got, err := power.ParsePhase(text); err == nil {
			t.Errorf("%q: %v, want an error", text, got)
		}
	}
}

func FuzzParsePhase(f *testing.F) {
	for _, s := range []string{"0.42Ax24h", "3.8Ax5min", "420mA×30s"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := power.ParsePhase(s)
		if err != nil {
			return
		}
		r, err := power.Battery{Phases: []power.Phase{p}}.Solve()
		if err != nil || !(r.Needed >= 0) || math.IsInf(float64(r.Needed), 0) {
			t.Errorf("%q: %+v, %v", s, r, err)
		}
	})
}

func TestBatteryLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := power.Battery{
			Phases:      []power.Phase{{Amps: cable.Amps(rapid.Float64Range(0.01, 2).Draw(t, "amps")), For: time.Duration(rapid.Int64Range(1, 100).Draw(t, "hours")) * time.Hour}},
			Margin:      rapid.Float64Range(1, 2).Draw(t, "margin"),
			Temperature: cable.At(cable.Celsius(rapid.Float64Range(-3, 50).Draw(t, "temperature"))),
		}
		before, err := b.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if before.Block != 0 && before.Block < before.Needed*(1-1e-8) {
			t.Fatalf("block too small: %+v", before)
		}
		at, _ := b.Temperature.Given()
		b.Temperature = cable.At(at + 1)
		if warmer, err := b.Solve(); err != nil || warmer.Needed >= before.Needed {
			t.Fatalf("warmer needs more: %+v, %v", warmer, err)
		}
		b.Temperature = cable.At(at)
		b.Phases = append(b.Phases, power.Phase{Amps: 1, For: time.Minute})
		if more, err := b.Solve(); err != nil || more.Needed <= before.Needed {
			t.Fatalf("a further phase needs less: %+v, %v", more, err)
		}
	})
}
