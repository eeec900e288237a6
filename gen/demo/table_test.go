package demo_test

import (
	"slices"
	"testing"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/demo"
	"example.com/lockrail/power"
)

var regions = []struct {
	region  doorsched.Region
	edition doorsched.Edition
	file    string
}{
	{doorsched.RegionUS, doorsched.IBC2021, demo.USWorkbook},
	{doorsched.RegionUK, doorsched.England2019, demo.UKWorkbook},
}

func record(t *testing.T, d demo.Door, r doorsched.Region) doorsched.Record {
	t.Helper()
	rec, err := d.Record(r)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

func TestTable(t *testing.T) {
	doors := demo.Doors()
	if len(doors) < 28 {
		t.Errorf("%d doors, want at least 28", len(doors))
	}
	var marks []string
	for _, d := range doors {
		if slices.Contains(marks, d.Mark) {
			t.Errorf("mark %s twice", d.Mark)
		}
		marks = append(marks, d.Mark)
		if d.Why == "" || d.WantUS == 0 || d.WantUK == 0 {
			t.Errorf("door %s does not say what it is for", d.Mark)
		}
		for _, r := range regions {
			record(t, d, r.region)
		}
	}
	// The demo shows each of these on each edition.
	for _, r := range regions {
		count := map[doorsched.Verdict]int{}
		for _, d := range doors {
			count[d.Want(r.edition)]++
		}
		for _, v := range []doorsched.Verdict{doorsched.Conflict, doorsched.QueryOpen, doorsched.NoConflict, doorsched.OutOfScope} {
			if count[v] < 2 {
				t.Errorf("%s: %d doors with verdict %q, want at least 2", r.edition, count[v], v.Code())
			}
		}
	}
}

// The one lock that is meant to get too little voltage does, and no other does.
// Supply and window are power's defaults: 24 V nominal, 21 V at the end of the
// battery, 85 % of rated voltage at the lock (UL 294 6th edition clause 36.1).
func TestOneLockIsShortOfVoltage(t *testing.T) {
	for _, r := range regions {
		wired := 0
		for _, d := range demo.Doors() {
			rec := record(t, d, r.region)
			length, ok := doorsched.CableLength.Of(&rec).Get()
			if !ok {
				continue
			}
			wired++
			text, _ := doorsched.CableSize.Of(&rec).Get()
			size, err := cable.ParseSize(text)
			if err != nil {
				t.Fatal(err)
			}
			volts, _ := doorsched.LockVolts.Of(&rec).Get()
			hold, _ := doorsched.LockAmps.Of(&rec).Get()
			inrush, ok := doorsched.LockInrush.Of(&rec).Get()
			if !ok {
				t.Fatalf("%s door %s: cable but no lock current", r.region, d.Mark)
			}
			res, err := power.Circuit{
				Supply:   power.Supply{Nominal: cable.Volts(volts)},
				Segments: []power.Segment{{Run: cable.Run{Conductor: cable.Conductor{Size: size}, Length: cable.Metres(length.Metres())}}},
				Load:     power.Load{Rated: cable.Volts(volts), Holding: power.ConstantCurrent{Amps: cable.Amps(hold)}, Inrush: power.ConstantCurrent{Amps: cable.Amps(inrush)}},
			}.AtLoad()
			if err != nil {
				t.Fatal(err)
			}
			low := res.Points[res.Lowest]
			if res.Short != d.LowVoltage {
				t.Errorf("%s door %s: %.2f V at the lock (%s, %s), short = %v, want %v", r.region, d.Mark, float64(low.Load), low.Event, low.State, res.Short, d.LowVoltage)
			}
			// A margin of a few millivolts would turn the demo with the next digit of a table.
			if m := float64(low.Margin); m > -0.02 && m < 0.02 {
				t.Errorf("%s door %s: margin %.3f V is too thin for a demo", r.region, d.Mark, m)
			}
		}
		if wired < 8 {
			t.Errorf("%s: %d wired doors, want at least 8", r.region, wired)
		}
	}
}
