package wiring_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/doorsched/wiring"
)

var update = flag.Bool("update", false, "write the golden files again")

// TestPlanText shows a plan as it reads: one door with everything given, one with
// nothing given.
func TestPlanText(t *testing.T) {
	roles := []hardware.Role{
		role(hardware.Feed, hardware.DeviceReader), role(hardware.Feed, hardware.DeviceREX), role(hardware.Monitor, hardware.DeviceContact),
		role(hardware.Feed, hardware.DeviceController), role(hardware.Feed, hardware.DeviceTransfer),
	}
	doors := []wiring.Door{
		doorOf("101", "electrified_lock", "secure", given(t, "lock_volts", "24", "lock_amps", "0.4", "cable_length", "250 ft", "cable_size", "22 AWG", "battery_hours", "4", "closet", "A"), roles...),
		doorOf("102", "electromagnetic", "safe", given(t, "closet", "A"), roles...),
	}
	plan := wiring.Wire(doors, doorsched.IBC2021)
	var b strings.Builder
	for _, c := range plan.Circuits {
		fmt.Fprintf(&b, "%s %s, on %s\n  %s\n  needs %v\n", c.Door, c.Lock, c.Supply, c.Result, c.Needs)
		for _, f := range c.Findings {
			fmt.Fprintf(&b, "  %s %s: %s [%s]\n", f.Severity, f.Rule, f.Message, f.Citation)
			for _, r := range f.Remedies {
				fmt.Fprintf(&b, "    - %s\n", r)
			}
		}
		for _, a := range c.Assumed {
			what := a.What
			if a.Field != doorsched.NoField {
				what = a.Field.String()
			}
			fmt.Fprintf(&b, "  assumed %s: %s (%s)\n", what, a.Value, a.Reason)
		}
	}
	for _, s := range plan.Supplies {
		fmt.Fprintf(&b, "%s: %.2f A held, %.2f A peak, %g A, %.0f %%; %.2f Ah, %g Ah, recharge %.3f A\n  %s\n",
			s.Key, s.Holding, s.Peak, s.Size, s.Loading, s.AmpHours, s.BlockAh, s.Recharge, s.Note)
	}
	path := filepath.Join("..", "..", "testdata", "wiring", "plan.txt")
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Error(diff)
	}
}
