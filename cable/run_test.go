package cable_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/lockrail/cable"
)

// W01: a low-voltage wiring course with the NEC Table 8 value of 16 AWG stranded.
func TestW01DropFromTable(t *testing.T) {
	in, printed := example(t, "W01")
	run := cable.Run{
		Conductor:   cable.Conductor{Size: cable.AWG(16)},
		Length:      cable.Feet(in["one_way_ft"].(float64)),
		Temperature: cable.At(75),
	}
	got, err := run.Solve(cable.Volts(in["volts"].(float64)), cable.Amps(in["amps"].(float64)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "drop", float64(got.DropVolts), printed["drop_v"].(float64), 0.05)
	near(t, "percent", got.DropPercent, printed["percent"].(float64), 0.1)
}

// W03: licence-exam notes, the K method with 12.9 ohm circular mil per foot; Table
// 8 itself, 8 AWG stranded, gives the same to the printed digit.
func TestW03DropByK(t *testing.T) {
	in, printed := example(t, "W03")
	k := in["K"].(float64) / in["circular_mil"].(float64)
	for name, c := range map[string]cable.Conductor{
		"K":       {Stated: cable.OhmsPerThousandFeet(1000 * k).PerKilometre(), StatedAt: 75},
		"Table 8": {Size: cable.AWG(8)},
	} {
		run := cable.Run{Conductor: c, Length: cable.Feet(in["one_way_ft"].(float64)), Temperature: cable.At(75)}
		got, err := run.Solve(cable.Volts(in["volts"].(float64)), cable.Amps(in["amps"].(float64)))
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" drop", float64(got.DropVolts), printed["drop_v"].(float64), 0.05)
		near(t, name+" percent", got.DropPercent, printed["percent"].(float64), 0.05)
	}
}

// W04, W05: a UK guide to fire alarms; mV/A/m counts both conductors of the pair.
func TestW04W05MillivoltsPerAmpereMetre(t *testing.T) {
	for _, id := range []string{"W04", "W05"} {
		in, printed := example(t, id)
		run := cable.Run{
			Conductor:   cable.Conductor{Stated: cable.OhmsPerKilometre(in["mv_per_a_m"].(float64) / 2), StatedAt: 20},
			Length:      cable.Metres(in["length_m"].(float64)),
			Temperature: cable.At(20),
		}
		load := cable.Amps(in["devices"].(float64) * in["amps_each"].(float64))
		got, err := run.Solve(24, load)
		if err != nil {
			t.Fatal(err)
		}
		near(t, id, float64(got.DropVolts), printed["drop_v"].(float64), 0.005)
		if ok := float64(got.DropVolts) <= in["limit_v"].(float64); ok != printed["ok"].(bool) {
			t.Errorf("%s: within limit %v, printed %v", id, ok, printed["ok"])
		}
	}
}

// W07: an electrician's mathematics page, 400 ft of one conductor.
func TestW07ResistanceOfALength(t *testing.T) {
	in, printed := example(t, "W07")
	got := cable.OhmsPerThousandFeet(in["ohm_per_kft"].(float64)).PerKilometre().Over(cable.Feet(in["length_ft"].(float64)))
	near(t, "W07", float64(got), printed["ohm"].(float64), 0.0005)
}

// W31, W32: computed from the verified Table 8 value and back again.
func TestW31W32LongestRunRoundTrip(t *testing.T) {
	in, printed := example(t, "W31")
	run := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18)}, Temperature: cable.At(75)}
	source, minimum, load := cable.Volts(in["v_source"].(float64)), cable.Volts(in["v_min"].(float64)), cable.Amps(in["amps"].(float64))
	longest, err := run.Longest(source, minimum, load)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W31", longest.Length.Feet(), printed["max_ft"].(float64), 0.05)

	in, printed = example(t, "W32")
	run.Length = cable.Feet(in["one_way_ft"].(float64))
	got, err := run.Solve(source, load)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W32", float64(got.EndVolts), printed["volts"].(float64), 0.0001)
}

// A 1 m door cord at 16 A, out and back: 24 AWG loses 2.7 V and 28 AWG 6.8 V
// (common practice, computed at 20 °C).
func TestPowerTransferCord(t *testing.T) {
	for gauge, want := range map[int]float64{24: 2.7, 28: 6.8} {
		run := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(gauge), Construction: cable.Solid}, Length: 1, Temperature: cable.At(20)}
		got, err := run.Solve(24, 16)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprint(gauge, " AWG"), float64(got.DropVolts), want, 0.05)
	}
}

func TestSmallest(t *testing.T) {
	// From NEC Table 8 at 75 °C: 100 ft at 1 A loses 1.59 V in 18 AWG, 0.998 V in
	// 16 AWG, 0.628 V in 14 AWG.
	run := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(22)}, Length: cable.Feet(100), Temperature: cable.At(75)}
	tests := []struct {
		minimum cable.Volts
		want    string
	}{
		{24 - 1.6, "18 AWG"}, {24 - 1.58, "16 AWG"}, {24 - 0.999, "16 AWG"}, {24 - 0.99, "14 AWG"},
	}
	for _, test := range tests {
		got, solution, err := run.Smallest(cable.Sizes(cable.AWGFamily), 24, test.minimum, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got.String() != test.want || solution.EndVolts < test.minimum {
			t.Errorf("minimum %v: got %s with %v V, want %s", test.minimum, got, solution.EndVolts, test.want)
		}
	}
	if _, _, err := run.Smallest(cable.Sizes(cable.AWGFamily), 24, 24, 100); !errors.Is(err, cable.ErrNoSize) {
		t.Errorf("no size can hold: %v", err)
	}
}

func TestRunErrors(t *testing.T) {
	good := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18)}, Length: 30}
	nan := math.NaN()
	for name, f := range map[string]func() error{
		"NaN length":      func() error { r := good; r.Length = cable.Metres(nan); _, err := r.Loop(); return err },
		"negative length": func() error { r := good; r.Length = -1; _, err := r.Loop(); return err },
		"infinite length": func() error { r := good; r.Length = cable.Metres(math.Inf(1)); _, err := r.Loop(); return err },
		"negative cores":  func() error { r := good; r.Parallel = -1; _, err := r.Loop(); return err },
		"cold":            func() error { r := good; r.Temperature = cable.At(-273); _, err := r.Loop(); return err },
		"no supply":       func() error { _, err := good.Solve(0, 1); return err },
		"NaN supply":      func() error { _, err := good.Solve(cable.Volts(nan), 1); return err },
		"NaN load":        func() error { _, err := good.Solve(24, cable.Amps(nan)); return err },
		"negative load":   func() error { _, err := good.Solve(24, -1); return err },
		"minimum above":   func() error { _, err := good.Longest(24, 25, 1); return err },
		"minimum zero":    func() error { _, err := good.Longest(24, 0, 1); return err },
		"no conductor":    func() error { _, err := cable.Run{Length: 3}.Loop(); return err },
		"overflowing loop": func() error {
			r := good
			r.Length = math.MaxFloat64
			r.Conductor.Stated = 1e9
			_, err := r.Loop()
			return err
		},
	} {
		var input *cable.InputError
		if err := f(); !errors.As(err, &input) {
			t.Errorf("%s: %v", name, err)
		}
	}
	var drop *cable.DropError
	if _, err := good.Solve(1, 100); !errors.As(err, &drop) || drop.Largest <= 0 {
		t.Errorf("drop above the supply: %v", err)
	}
}

func TestUnlimitedIsNoNumber(t *testing.T) {
	longest, err := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18)}}.Longest(24, 20, 0)
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(longest)
	if err != nil || string(text) != `{"unlimited":true}` {
		t.Errorf("got %s, %v", text, err)
	}
	if text, err := json.Marshal(cable.Longest{}); err != nil || string(text) != `{"longest_m":0}` {
		t.Errorf("a known zero: got %s, %v", text, err)
	}
}

// What was not given comes back as assumptions, and nothing else does.
func TestAssumptions(t *testing.T) {
	open := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18)}, Length: 30}
	loop, err := open.Loop()
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, a := range loop.Assumptions {
		names = append(names, a.What+" "+a.Value)
	}
	if diff := cmp.Diff([]string{"conductor construction stranded", "conductor temperature 40 °C"}, names); diff != "" {
		t.Error(diff)
	}
	open.Conductor.Construction, open.Temperature = cable.Stranded, cable.At(40)
	closed, err := open.Loop()
	if err != nil || closed.Assumptions != nil || closed.Ohms != loop.Ohms {
		t.Errorf("given values still assumed: %v, %v", closed, err)
	}
}

func anyRun() *rapid.Generator[cable.Run] {
	return rapid.Custom(func(t *rapid.T) cable.Run {
		family := rapid.SampledFrom([]cable.Family{cable.AWGFamily, cable.MetricFamily}).Draw(t, "family")
		return cable.Run{
			Conductor:   cable.Conductor{Size: rapid.SampledFrom(cable.Sizes(family)).Draw(t, "size")},
			Length:      cable.Metres(rapid.Float64Range(0.1, 1000).Draw(t, "length")),
			Parallel:    rapid.IntRange(0, 4).Draw(t, "parallel"),
			Temperature: cable.At(cable.Celsius(rapid.Float64Range(-40, 90).Draw(t, "temperature"))),
		}
	})
}

func TestLaws(t *testing.T) {
	t.Run("longest run ends at the minimum", rapid.MakeCheck(func(t *rapid.T) {
		run := anyRun().Draw(t, "run")
		supply := cable.Volts(rapid.Float64Range(5, 60).Draw(t, "supply"))
		minimum := cable.Volts(rapid.Float64Range(0.1, 0.999).Draw(t, "part") * float64(supply))
		load := cable.Amps(rapid.Float64Range(0.001, 20).Draw(t, "load"))
		longest, err := run.Longest(supply, minimum, load)
		if err != nil {
			t.Fatal(err)
		}
		run.Length = longest.Length
		got, err := run.Solve(supply, load)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(got.EndVolts-minimum)) > 1e-9*float64(supply) {
			t.Fatalf("ends at %v, not %v", got.EndVolts, minimum)
		}
	}))
	t.Run("drop rises with length, heat and load", rapid.MakeCheck(func(t *rapid.T) {
		run := anyRun().Draw(t, "run")
		load := cable.Amps(rapid.Float64Range(0.001, 1).Draw(t, "load"))
		before, err := run.Solve(1e6, load)
		if err != nil {
			t.Fatal(err)
		}
		longer, hotter := run, run
		longer.Length *= 1.01
		at, _ := run.Temperature.Given()
		hotter.Temperature = cable.At(at + 1)
		for name, r := range map[string]cable.Run{"longer": longer, "hotter": hotter} {
			if after, err := r.Solve(1e6, load); err != nil || after.DropVolts <= before.DropVolts {
				t.Fatalf("%s: %v then %v, %v", name, before.DropVolts, after.DropVolts, err)
			}
		}
		if after, err := run.Solve(1e6, load*1.01); err != nil || after.DropVolts <= before.DropVolts {
			t.Fatalf("more load: %v then %v, %v", before.DropVolts, after.DropVolts, err)
		}
	}))
	t.Run("smallest size holds and the one before does not", rapid.MakeCheck(func(t *rapid.T) {
		run := anyRun().Draw(t, "run")
		sizes := cable.Sizes(run.Conductor.Size.Family())
		load := cable.Amps(rapid.Float64Range(0.01, 5).Draw(t, "load"))
		minimum := cable.Volts(rapid.Float64Range(12, 23.9).Draw(t, "minimum"))
		found, _, err := run.Smallest(sizes, 24, minimum, load)
		for _, s := range sizes {
			r := run
			r.Conductor.Size = s
			solution, solveErr := r.Solve(24, load)
			holds := solveErr == nil && solution.EndVolts >= minimum
			if s == found {
				if !holds {
					t.Fatalf("%s does not hold", s)
				}
				return
			}
			if holds {
				t.Fatalf("%s holds but %s was found (%v)", s, found, err)
			}
		}
	}))
}

func TestErrorsReadWell(t *testing.T) {
	_, err := cable.ParseLength("30")
	if err == nil || !strings.Contains(err.Error(), `length "30": has no unit`) {
		t.Error(err)
	}
}

func BenchmarkRunSolve(b *testing.B) {
	run := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18), Construction: cable.Stranded}, Length: 30, Temperature: cable.At(40)}
	for b.Loop() {
		if _, err := run.Solve(24, 0.5); err != nil {
			b.Fatal(err)
		}
	}
}
