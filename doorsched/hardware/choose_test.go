package hardware_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/doorsched/hardware"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// These tests lean on what a door admits, which no rule changes; which lock
// comes first may change as rules are added.

func locks(c hardware.Choice) []string {
	var out []string
	for _, k := range c.Candidates {
		s := string(k.Lock)
		if k.Fail != "" {
			s += " " + string(k.Fail)
		}
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	slices.Sort(out)
	return out
}

func TestAdmitted(t *testing.T) {
	yes := []string{"access_controlled", "yes", "width", "3-0", "height", "7-0"}
	tests := []struct {
		name   string
		fields []string
		want   []string
	}{
		{"rated", []string{"fire_rating", "90 min"},
			[]string{"electric_strike secure", "electrified_lock safe", "electrified_lock secure", "electrified_panic secure", "electromagnetic safe"}},
		{"rating unknown", nil,
			[]string{"electric_strike secure", "electrified_lock safe", "electrified_lock secure", "electrified_panic secure", "electromagnetic safe"}},
		{"unrated", []string{"fire_rating", "NR"},
			[]string{"electric_strike safe", "electric_strike secure", "electrified_lock safe", "electrified_lock secure", "electrified_panic secure", "electromagnetic safe", "power_bolt safe"}},
		{"unrated, off every way out", []string{"fire_rating", "NR", "egress", "none", "hw", "lever"},
			[]string{"electric_strike safe", "electric_strike secure", "electrified_lock safe", "electrified_lock secure", "electromagnetic safe", "power_bolt safe", "power_bolt secure"}},
		{"vertical rods", []string{"fire_rating", "NR", "latch_type", "vertical_rod"},
			[]string{"electrified_panic secure", "electromagnetic safe"}},
		{"glass", []string{"fire_rating", "NR", "door_mat", "glass"}, []string{"electromagnetic safe", "power_bolt safe"}},
		{"no latch", []string{"fire_rating", "NR", "latch", "no"}, []string{"electromagnetic safe", "power_bolt safe"}},
		{"panic given", []string{"fire_rating", "NR", "hw", "panic"},
			[]string{"electric_strike safe", "electric_strike secure", "electrified_panic secure", "electromagnetic safe"}},
		{"cylindrical", []string{"fire_rating", "45 min", "latch_type", "cylindrical"},
			[]string{"electric_strike secure", "electrified_lock safe", "electrified_lock secure", "electromagnetic safe"}},
		{"fail secure asked", []string{"fire_rating", "NR", "fail", "secure", "hw", "lever"}, []string{"electric_strike secure", "electrified_lock secure"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := hardware.Choose(door(t, "1", append(slices.Clone(yes), tt.fields...)...), doorsched.IBC2021)
			if d := cmp.Diff(tt.want, locks(c)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			for _, k := range c.Candidates {
				if k.Name == "" || k.Reason == "" || k.Verdict == 0 {
					t.Errorf("candidate without name, reason or verdict: %+v", k)
				}
			}
		})
	}
}

// drawDoor draws a door of any make, with access control and no lock given.
func drawDoor(t *rapid.T) (doorsched.View, map[string]string) {
	opts := map[string][]string{
		"access_controlled": {"yes", "no", ""}, "width": {"3-0", "6-0", "926", ""}, "height": {"7-0", "2040", "9-0", ""}, "leaves": {"1", "2", ""},
		"fire_rating": {"NR", "20 min", "90 min", "FD30S", ""}, "latch_type": {"rim", "mortise", "cylindrical", "vertical_rod", "none", ""},
		"hw": {"lever", "panic", "fire_exit", "push_pull", "emergency_device", ""}, "door_mat": {"wood", "steel", "glass", "aluminium", ""},
		"phase": {"new", "existing", ""}, "fail": {"safe", "secure", "na", ""}, "egress": {"required", "none", ""}, "exterior": {"yes", "no", ""},
		"closer": {"none", "self", "spring_hinge", "floor_spring", ""}, "hold_open": {"magnetic", "wedge", "closer", ""}, "operation": {"manual", "low_energy", ""},
		"inactive_bolt": {"manual", "automatic", "none", ""}, "rebated_meeting": {"yes", "no", ""}, "override": {"green", "none", ""},
		"reader_sides": {"0", "1", "2", "9", ""}, "thickness": {`1-3/4"`, "44 mm", "200 mm", ""}, "use": {"office", "stair", "storage", "toilet", ""},
		"lock":              {"", "none", "mechanical", "electric_strike", "electromagnetic", "power_bolt", "electrified_lock", "electrified_panic", "delayed_egress", "controlled_egress"},
		"mechanical_egress": {"yes", "no", ""}, "release": {"sensor", "hardware_switch", ""}, "smoke": {"yes", "no", ""}, "leaf_mass": {"30 kg", "500 kg", ""},
	}
	names := make([]string, 0, len(opts))
	for n := range opts {
		names = append(names, n)
	}
	slices.Sort(names)
	var r doorsched.Record
	said := map[string]string{}
	for _, n := range names {
		said[n] = rapid.SampledFrom(opts[n]).Draw(t, n)
		if err := doorsched.Set(&r, n, said[n], doorsched.Given); err != nil {
			t.Fatal(err)
		}
	}
	return doorsched.NewView("1", &r), said
}

// What holds for every door and both editions.
func TestChoiceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, said := drawDoor(t)
		e := rapid.SampledFrom([]doorsched.Edition{doorsched.IBC2021, doorsched.England2019}).Draw(t, "edition")
		c := hardware.Choose(v, e)
		for _, k := range c.Candidates {
			if said["lock"] != "" && string(k.Lock) != said["lock"] {
				t.Fatalf("the schedule gives %s and %s was tried", said["lock"], k.Lock)
			}
			if said["lock"] == "" && k.Lock == "electric_strike" {
				if k.Fail == "safe" && said["fire_rating"] != "NR" {
					t.Fatalf("fail-safe strike on a frame rated %q", said["fire_rating"])
				}
				if k.Latch == "vertical_rod" {
					t.Fatal("strike with vertical rods")
				}
			}
			if said["lock"] == "" && k.Lock == "electromagnetic" && k.Fail == "secure" {
				t.Fatal("fail-secure magnet")
			}
			if said["lock"] == "" && said["access_controlled"] != "yes" && said["reader_sides"] != "1" && k.Volts != 0 && (said["reader_sides"] == "0" || said["reader_sides"] == "") {
				t.Fatalf("%s on a door not known to be access controlled", k.Name)
			}
			for _, x := range k.Overlay.All() {
				if _, set := x.Data.(doorsched.MeansSet); !set {
					if _, given := v.Get(x.Field); given {
						t.Fatalf("%s overwrites the schedule's %s", k.Name, x.Field)
					}
				}
			}
		}
		if lock := said["lock"]; lock != "" && len(c.Candidates) > 0 && (string(c.Lock) != lock || c.By != hardware.BySchedule) {
			t.Fatalf("lock %s by %s, the schedule gives %s", c.Lock, c.By, lock)
		}
		if lock := said["lock"]; lock != "" && len(c.Candidates) == 0 {
			t.Fatalf("the given %s was not judged", lock)
		}
		s := hardware.Derive(v, e, c)
		uk := e == doorsched.England2019
		for _, it := range s.Items {
			if it.Quantity <= 0 || it.Name == "" || it.Group == "" || it.Reason == "" || it.QtyRule == "" || it.QtyStatus == "" || it.Action == "" {
				t.Fatalf("incomplete item %+v", it)
			}
			for _, r := range it.Roles {
				if !slices.Contains(hardware.Devices(), r.Device) || r.Kind == "" || r.Index < 1 {
					t.Fatalf("role %+v", r)
				}
			}
		}
		if !uk && s.Count("EDR") > 0 {
			t.Fatal("a US set has an emergency door release unit")
		}
		if uk && s.Count("REX-SENSOR") > 0 && said["release"] != "sensor" {
			t.Fatal("a UK set has an exit sensor that nobody asked for")
		}
		rec := hardware.Proposed(c, s)
		egress.JudgeDoor(v.With(&rec), e)
		if len(hardware.Operation(v, e, c, s)) == 0 {
			t.Fatal("no sequence of operation")
		}
		if again := hardware.Derive(v, e, hardware.Choose(v, e)); again.Content() != s.Content() {
			t.Fatal("not deterministic")
		}
	})
}

func TestGivenLockIsKept(t *testing.T) {
	v := door(t, "1", "width", "3-0", "height", "7-0", "fire_rating", "90 min", "access_controlled", "yes", "lock", "electric_strike", "fail", "safe", "latch_type", "vertical_rod")
	c := hardware.Choose(v, doorsched.IBC2021)
	if c.Lock != "electric_strike" || c.Fail != "safe" || c.By != hardware.BySchedule || c.FailBy != hardware.BySchedule {
		t.Errorf("lock %s %s by %s, fail by %s", c.Lock, c.Fail, c.By, c.FailBy)
	}
	best, _ := c.Best()
	for _, want := range []string{"vertical rods", "rated frame"} {
		if !strings.Contains(best.Reason, want) {
			t.Errorf("reason %q does not speak of %s", best.Reason, want)
		}
	}
	if _, ok := c.Overlay.Get(doorsched.Lock.ID()); ok {
		t.Error("the overlay repeats the given lock")
	}
}

// What can be fitted within the fire label or certificate: NFPA 80 4.1.3 lets
// surface hardware be fitted on site and not a cut for a strike; UK evidence is
// the door's own and has to be shown.
func TestWithinLabel(t *testing.T) {
	us, uk := doorsched.IBC2021, doorsched.England2019
	tests := []struct {
		name    string
		edition doorsched.Edition
		fields  []string
		want    doorsched.Answer
	}{
		{"unrated", us, []string{"fire_rating", "NR", "lock", "electric_strike"}, doorsched.Yes},
		{"rating unknown", us, []string{"lock", "electric_strike"}, doorsched.Unknown},
		{"new US opening is ordered prepared", us, []string{"fire_rating", "90 min", "lock", "electric_strike"}, doorsched.Yes},
		{"strike cut on site", us, []string{"fire_rating", "90 min", "lock", "electric_strike", "phase", "existing"}, doorsched.No},
		{"magnet on site", us, []string{"fire_rating", "90 min", "lock", "electromagnetic", "phase", "existing"}, doorsched.Yes},
		{"UK without evidence", uk, []string{"fire_rating", "FD30", "lock", "electric_strike"}, doorsched.Unknown},
		{"UK with evidence", uk, []string{"fire_rating", "FD30", "lock", "electric_strike", "fire_test_evidence", "yes"}, doorsched.Yes},
	}
	for _, tt := range tests {
		best, _ := hardware.Choose(door(t, "1", tt.fields...), tt.edition).Best()
		if best.WithinLabel != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, best.WithinLabel, tt.want)
		}
	}
}

func TestAccessUnknown(t *testing.T) {
	c := hardware.Choose(door(t, "1", "width", "3-0"), doorsched.IBC2021)
	if c.Lock != "mechanical" || c.By != hardware.ByProposal || !slices.Contains(c.Needs, doorsched.AccessControlled.ID()) {
		t.Errorf("%s by %q, needs %v", c.Lock, c.By, c.Needs)
	}
	reader := hardware.Choose(door(t, "1", "width", "3-0", "reader", "card"), doorsched.IBC2021)
	if !reader.Electric() {
		t.Errorf("a reader is given and the lock is %s", reader.Lock)
	}
}

func TestNotChosen(t *testing.T) {
	for name, c := range map[string]hardware.Choice{
		"out of scope":    hardware.Choose(door(t, "1", "opening_kind", "lift"), doorsched.IBC2021),
		"unknown edition": hardware.Choose(door(t, "1"), "moon-1969"),
	} {
		if c.Lock != "" || c.By != "" || len(c.Notes) == 0 {
			t.Errorf("%s: %+v", name, c)
		}
	}
	v := door(t, "1", "opening_kind", "lift")
	s := hardware.Derive(v, doorsched.IBC2021, hardware.Choose(v, doorsched.IBC2021))
	if s.Leaves != 0 || len(s.Items) != 0 || hardware.Operation(v, doorsched.IBC2021, hardware.Choice{}, s) != nil {
		t.Errorf("out of scope: %+v", s)
	}
}

func TestEqualDoorsJudgedOnce(t *testing.T) {
	c := hardware.NewChooser(doorsched.IBC2021)
	common := []string{"width", "3-0", "height", "7-0", "access_controlled", "yes", "release_set", "{button}"}
	first := c.Choose(door(t, "101", append(common, "room_to", "Office", "remarks", "by the window")...))
	second := c.Choose(door(t, "102", append(common, "room_to", "Store")...))
	if c.Judged() != 1 {
		t.Errorf("judged %d doors, want 1", c.Judged())
	}
	if first.Lock != second.Lock {
		t.Error("equal doors got different locks")
	}
	// What is known not to be there is a difference, although the text is the same.
	var off doorsched.Record
	doorsched.ReleaseSet.Put(&off, doorsched.OneMeans(doorsched.BySensor, false), doorsched.Given)
	bare := []string{"width", "3-0", "height", "7-0", "access_controlled", "yes"}
	v := door(t, "103", bare...)
	c.Choose(v)
	c.Choose(v.With(&off))
	if c.Judged() != 3 {
		t.Errorf("judged %d distinct doors, want 3", c.Judged())
	}
}

// Without conflicts a free mechanical way out comes first, then fewer electrical
// conditions, and the order does not depend on how the door was built.
func TestRanking(t *testing.T) {
	v := door(t, "1", "width", "3-0", "height", "7-0", "fire_rating", "NR", "access_controlled", "yes", "hw", "lever")
	c := hardware.Choose(v, doorsched.IBC2021)
	for i := 1; i < len(c.Candidates); i++ {
		a, b := c.Candidates[i-1], c.Candidates[i]
		if a.Conflicts > b.Conflicts {
			t.Fatalf("%s (%d conflicts) before %s (%d)", a.Name, a.Conflicts, b.Name, b.Conflicts)
		}
		if a.Conflicts < b.Conflicts || a.Approvals < b.Approvals {
			continue
		}
		if !a.FreeExit && b.FreeExit || a.FreeExit == b.FreeExit && a.Releases > b.Releases {
			t.Errorf("%s before %s", a.Name, b.Name)
		}
	}
	again := hardware.Choose(v, doorsched.IBC2021)
	for i := range c.Candidates {
		if c.Candidates[i].Name != again.Candidates[i].Name {
			t.Fatal("the order changed")
		}
	}
}
