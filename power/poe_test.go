package power_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
)

func TestEthernetTypes(t *testing.T) {
	types := power.EthernetTypes()
	checked := 0
	for _, r := range published(t, "poe.csv") {
		for _, typ := range types {
			name := fmt.Sprintf("Type %d", typ.Number)
			var got float64
			switch r["topic"] + "/" + r["item"] {
			case "pse voltage/" + name + " minimum":
				got = float64(typ.MinVolts)
			case "pse voltage/" + name + " maximum":
				got = float64(typ.MaxVolts)
			case "pd voltage/" + name + " minimum":
				if typ.Number == 3 {
					// 39.9 V is remembered, copies print 42.5 V: the higher is used.
					if r["status"] != "memory" || typ.DeviceMinVolts != 42.5 {
						t.Errorf("type 3: %v, %s %s", typ.DeviceMinVolts, r["value"], r["status"])
					}
					checked++
					continue
				}
				got = float64(typ.DeviceMinVolts)
				if string(typ.DeviceMin.Status) != r["status"] {
					t.Errorf("%s: status %s, %s", name, typ.DeviceMin.Status, r["status"])
				}
			case "max current per pairset/" + name:
				got = float64(typ.PairsetAmps)
			case "channel resistance/" + name + " pair loop resistance":
				got = float64(typ.ReferenceOhms)
			case "pse power/" + name:
				got = float64(typ.SourceWatts)
			case "pd power/" + name:
				got = float64(typ.DeviceWatts)
			default:
				continue
			}
			checked++
			near(t, r["topic"]+" "+r["item"], got, r.number(t, "value"), 0)
		}
	}
	if checked != 4*6+2 {
		t.Errorf("%d values checked", checked)
	}
}

// Class powers follow from source power, least voltage and channel within 0.07 W;
// W27, W28, W29 are the same arithmetic for classes 4, 6 and 8.
func TestEthernetClasses(t *testing.T) {
	types := power.EthernetTypes()
	classes := power.EthernetClasses()
	for i, r := range published(t, "poe_classes.csv") {
		c := classes[i]
		typ := types[c.Type-1]
		near(t, "class", float64(c.Number), r.number(t, "class"), 0)
		near(t, "type", float64(c.Type), r.number(t, "standard_type"), 0)
		near(t, "pairs", float64(2*c.Pairsets), r.number(t, "powered_pairs"), 0)
		near(t, "source", float64(c.SourceWatts), r.number(t, "pse_min_power_w"), 0)
		near(t, "device", float64(c.DeviceWatts), r.number(t, "pd_max_power_w"), 0)
		near(t, "volts", float64(typ.MinVolts), r.number(t, "pse_min_voltage_v"), 0)
		loop := typ.ReferenceOhms / cable.Ohms(c.Pairsets)
		near(t, "loop", float64(loop), r.number(t, "effective_resistance_ohm_100m"), 0)
		amps := c.SourceWatts.DrawnAt(typ.MinVolts)
		near(t, "amps", float64(amps), r.number(t, "current_at_pse_a"), 0.0001)
		left := c.SourceWatts - amps.HeatIn(loop)
		near(t, "class arithmetic", float64(left), r.number(t, "pd_max_power_w"), 0.07)

		// Solved the other way, from the device: the same current.
		_, back, err := power.Solve(typ.MinVolts, loop, power.ConstantPower{Watts: left})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "solved from the device", float64(back), float64(amps), 1e-9)

		got, ok := power.ClassFor(c.DeviceWatts)
		want := c.Number
		if want == 0 {
			want = 3
		}
		if !ok || got.Number != want {
			t.Errorf("class for %v W: %d, want %d", c.DeviceWatts, got.Number, want)
		}
	}
	if _, ok := power.ClassFor(71.4); ok {
		t.Error("71.4 W has a class")
	}
	for id := range map[string]bool{"W27": true, "W28": true, "W29": true} {
		in, printed := example(t, id)
		c := classes[int(in["pd_class"].(float64))]
		near(t, id, float64(c.DeviceWatts), printed["pd_w"].(float64), 0.05)
		// Over the full 100 m of the worst channel the type promises its class.
		r, err := power.Ethernet{Type: c.Type, Length: 100, Load: c.DeviceWatts}.Solve()
		if err != nil || !r.Fits || r.LeastType != c.Type && id != "W27" {
			t.Errorf("%s: %+v, %v", id, r, err)
		}
		near(t, id+" loss", float64(r.CableLossWatts), printed["loss_w"].(float64), 0.05)
	}
}

// W24, W25 take one conductor out and one back; a pair carries its current in both
// conductors, so the loop of a pairset is half of what they print.
func TestW24W25TakeTwiceTheResistance(t *testing.T) {
	in, printed := example(t, "W24")
	v, a, err := power.Solve(cable.Volts(in["v_pse"].(float64)), cable.Ohms(in["loop_ohm"].(float64)), power.ConstantCurrent{Amps: cable.Amps(in["amps"].(float64))})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W24 volts", float64(v), printed["v_pd"].(float64), 0.01)
	near(t, "W24 loss", float64(a.HeatIn(cable.Ohms(in["loop_ohm"].(float64)))), printed["loss_w"].(float64), 0.01)
	pair, err := power.Ethernet{
		Type: 2, Length: cable.Metres(in["length_m"].(float64)), Load: 20,
		Conductor: cable.Conductor{Size: cable.AWG(23), Construction: cable.Solid}, Temperature: cable.At(20),
	}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W24 pair", float64(pair.ChannelOhms), in["loop_ohm"].(float64)/2, 0.01)

	in, printed = example(t, "W25")
	run := cable.Run{
		Conductor: cable.Conductor{Stated: cable.OhmsPerThousandFeet(in["ohm_per_kft"].(float64)).PerKilometre(), StatedAt: 20},
		Length:    cable.Feet(in["one_way_ft"].(float64)), Temperature: cable.At(20),
	}
	loop, err := run.Loop()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W25 loop", float64(loop.Ohms), printed["loop_ohm"].(float64), 0.006)
	pair, err = power.Ethernet{Type: 3, Length: run.Length, Load: cable.Watts(in["power_w"].(float64)), Conductor: run.Conductor, Temperature: run.Temperature, Pairs: 4}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "W25 four pairs", float64(pair.ChannelOhms), printed["loop_ohm"].(float64)/4, 0.002)
	near(t, "W25 amps", float64(cable.Watts(30).DrawnAt(54)), printed["amps"].(float64), 0.006)
}

func TestEthernetSolve(t *testing.T) {
	for name, test := range map[string]struct {
		in        power.Ethernet
		fits      bool
		least     int
		max       float64
		bound     power.Bound
		volts     float64
		collapses bool
	}{
		// 90 m of the worst channel is 11.25 ohm; 50 V, 18 W.
		"within":       {power.Ethernet{Type: 2, Length: 90, Load: 18}, true, 2, 25.5, power.ClassBound, (50 + math.Sqrt(2500-4*11.25*18)) / 2, false},
		"no cable":     {power.Ethernet{Type: 1, Length: 0, Load: 12.95}, true, 1, 12.95, power.ClassBound, 44, false},
		"type too low": {power.Ethernet{Type: 1, Length: 50, Load: 20}, false, 2, 12.95, power.ClassBound, (44 + math.Sqrt(44*44-4*6.25*20)) / 2, false},
		"above all":    {power.Ethernet{Type: 4, Length: 10, Load: 80}, false, 0, 71.3, power.ClassBound, (52 + math.Sqrt(52*52-4*0.625*80)) / 2, false},
		// 200 m is 25 ohm: the source's 30 W arrive as 50·0.6 - 0.36·25 = 21 W, and
		// 42.5 V would be left at 12.75 W only.
		"too long": {power.Ethernet{Type: 2, Length: 200, Load: 18}, false, 0, 12.75, power.VoltageBound, (50 + math.Sqrt(2500-4*25*18)) / 2, false},
		// Two pairs of a type 3 source carry class 4 at most: 30 W less the loss.
		"two pairs": {power.Ethernet{Type: 3, Length: 10, Load: 40, Pairs: 2}, false, 0, 51, power.ClassBound, (50 + math.Sqrt(2500-4*1.25*40)) / 2, false},
		// A converter on 1000 m.
		"collapse": {power.Ethernet{Type: 2, Length: 1000, Load: 18}, false, 0, 42.5 * 7.5 / 125, power.VoltageBound, 0, true},
	} {
		got, err := test.in.Solve()
		var collapse *power.CollapseError
		if errors.As(err, &collapse) != test.collapses || err != nil && !test.collapses {
			t.Errorf("%s: %v", name, err)
		}
		if got.Fits != test.fits || got.LeastType != test.least || got.Bound != test.bound {
			t.Errorf("%s: %+v", name, got)
		}
		near(t, name+" most", float64(got.DeviceWattsMax), test.max, 1e-9)
		near(t, name+" volts", float64(got.DeviceVolts), test.volts, 1e-9)
		if got.BeyondChannel != (test.in.Length > 100) {
			t.Errorf("%s: beyond the channel %v", name, got.BeyondChannel)
		}
	}
	assumed, err := power.Ethernet{Type: 3, Length: 90, Load: 18, Conductor: cable.Conductor{Size: cable.AWG(24)}}.Solve()
	if err != nil {
		t.Fatal(err)
	}
	var told []string
	for _, a := range assumed.Assumptions {
		told = append(told, a.What+" "+a.Value)
	}
	if got := strings.Join(told, "; "); got != "conductor construction solid; conductor temperature 40 °C; pairs that carry current two" {
		t.Error(got)
	}
	for name, e := range map[string]power.Ethernet{
		"no type": {Length: 1, Load: 1}, "type 5": {Type: 5, Length: 1, Load: 1}, "no load": {Type: 1, Length: 1}, "NaN load": {Type: 1, Load: cable.Watts(math.NaN())},
		"length below": {Type: 1, Length: -1, Load: 1}, "three pairs": {Type: 3, Load: 1, Pairs: 3}, "four pairs of type 2": {Type: 2, Load: 1, Pairs: 4},
		"no such wire": {Type: 1, Load: 1, Conductor: cable.Conductor{Size: cable.AWG(31)}},
	} {
		var input *cable.InputError
		if got, err := e.Solve(); !errors.As(err, &input) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}

func TestEthernetLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := power.Ethernet{
			Type: rapid.IntRange(1, 4).Draw(t, "type"), Length: cable.Metres(rapid.Float64Range(0, 300).Draw(t, "length")),
			Load: cable.Watts(rapid.Float64Range(0.1, 75).Draw(t, "load")),
		}
		near, err := e.Solve()
		var collapse *power.CollapseError
		if err != nil && !errors.As(err, &collapse) {
			t.Fatal(err)
		}
		if near.Fits && err != nil {
			t.Fatalf("fits and collapses: %+v", near)
		}
		if near.Fits && (near.LeastType == 0 || near.LeastType > e.Type) {
			t.Fatalf("fits type %d, least %d", e.Type, near.LeastType)
		}
		e.Length += 1
		far, err := e.Solve()
		if far.DeviceWattsMax > near.DeviceWattsMax || far.Fits && !near.Fits || err == nil && far.DeviceVolts >= near.DeviceVolts {
			t.Fatalf("%+v, a metre further %+v", near, far)
		}
	})
}
