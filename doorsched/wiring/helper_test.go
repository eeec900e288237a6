package wiring_test

import (
	"math"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/doorsched/wiring"
)

// given is a record of fields by name, each in a cell of its own.
func given(t testing.TB, pairs ...string) *doorsched.Record {
	t.Helper()
	var r doorsched.Record
	for i := 0; i+1 < len(pairs); i += 2 {
		if err := doorsched.Set(&r, pairs[i], pairs[i+1], doorsched.Given); err != nil {
			t.Fatal(err)
		}
		info, _, _ := doorsched.LookupField(pairs[i])
		if v, ok := r.Get(info.ID); ok {
			v.Cell = doorsched.Cell{Sheet: "Doors", Row: 7, Col: i/2 + 1}
			r.Put(v)
		}
	}
	return &r
}

func role(k hardware.RoleKind, d hardware.Device) hardware.Role {
	return hardware.Role{Kind: k, Device: d, Index: 1}
}

// doorOf is a single door with a lock and the devices named.
func doorOf(mark string, lock, fail doorsched.Choice, r *doorsched.Record, roles ...hardware.Role) wiring.Door {
	return wiring.Door{
		View:   doorsched.NewView(mark, r),
		Choice: hardware.Choice{Lock: lock, Fail: fail, By: hardware.BySchedule},
		Set: hardware.Set{Region: doorsched.RegionUS, Leaves: 1,
			Items: []hardware.Item{{ID: "EML", Quantity: 1, Roles: append([]hardware.Role{role(hardware.Feed, hardware.DeviceLock)}, roles...)}}},
	}
}

func one(t testing.TB, d wiring.Door) wiring.Circuit {
	t.Helper()
	return wiring.Wire([]wiring.Door{d}, doorsched.IBC2021).Circuits[0]
}

// near compares a value that must be known.
func near[T ~float64](t *testing.T, what string, got doorsched.Opt[T], want, within float64) {
	t.Helper()
	v, ok := got.Get()
	if !ok {
		t.Errorf("%s: not known, want %v", what, want)
		return
	}
	if math.Abs(float64(v)-want) > within {
		t.Errorf("%s: %.5f, want %.5f", what, float64(v), want)
	}
}

func rules(c wiring.Circuit) []string {
	var out []string
	for _, f := range c.Findings {
		out = append(out, f.Rule)
	}
	return out
}

// full is a lock with everything its voltage needs, and no battery.
var full = []string{"lock_volts", "24", "lock_amps", "0.5", "cable_length", "30", "cable_size", "18AWG", "ambient", "75", "battery_hours", "0"}

func with(base []string, more ...string) []string {
	return append(append([]string{}, base...), more...)
}
