package hardware_test

import (
	"math"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"pgregory.net/rapid"
)

func TestHingesByHeight(t *testing.T) {
	for _, r := range rows(t, "hinge_counts.csv") {
		if got := hardware.HingesByHeight(lengthOf(t, r["height"])); float64(got) != num(t, r["hinges"]) {
			t.Errorf("%s: %d hinges, want %s (%s)", r["height"], got, r["hinges"], r["source"])
		}
	}
}

// A taller leaf never needs fewer hinges, by the rule or in a set of either region.
func TestHingesNeverFall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := doorsched.Length(rapid.Int64Range(1, int64(4*doorsched.Metre)).Draw(t, "height"))
		high := low + doorsched.Length(rapid.Int64Range(0, int64(doorsched.Metre)).Draw(t, "more"))
		if hardware.HingesByHeight(low) > hardware.HingesByHeight(high) {
			t.Fatalf("%s has more hinges than %s", low, high)
		}
		rated := rapid.Bool().Draw(t, "rated")
		for _, e := range []doorsched.Edition{doorsched.IBC2021, doorsched.England2019} {
			count := func(h doorsched.Length) int {
				var r doorsched.Record
				doorsched.Width.Put(&r, 36*doorsched.Inch, doorsched.Given)
				doorsched.Height.Put(&r, h, doorsched.Given)
				if rated {
					doorsched.FireRating.Put(&r, doorsched.Rating{Minutes: 30, System: doorsched.RatedFD}, doorsched.Given)
				}
				v := doorsched.NewView("1", &r)
				return hardware.Derive(v, e, hardware.Choose(v, e)).Count("HNG-BUTT")
			}
			if count(low) > count(high) {
				t.Fatalf("%s: a set for %s has more hinges than one for %s", e, low, high)
			}
		}
	})
}

func TestHingeHeight(t *testing.T) {
	for _, r := range rows(t, "hinge_heights.csv") {
		h, heavy, ok := hardware.HingeHeight(lengthOf(t, r["thickness"]), lengthOf(t, r["width"]))
		if r["height"] == "" {
			if ok {
				t.Errorf("%s x %s: %s, want none", r["thickness"], r["width"], h)
			}
			continue
		}
		if want := lengthOf(t, r["height"]); !ok || h != want || heavy != (r["heavy"] == "yes") {
			t.Errorf("%s x %s: %s heavy %v ok %v, want %s heavy %s (%s)", r["thickness"], r["width"], h, heavy, ok, want, r["heavy"], r["source"])
		}
	}
}

func TestAdjustedMassAndGrade(t *testing.T) {
	duty := func(r map[string]string) hardware.HingeDuty {
		return hardware.HingeDuty{
			MassKg: num(t, r["leaf_mass_kg"]), Width: lengthOf(t, r["leaf_w_mm"]), Height: lengthOf(t, r["leaf_h_mm"]),
			Closer: r["closer"] == "1", BackCheck: r["backcheck"] == "1", HeavyUse: r["heavy_use"] == "1",
		}
	}
	for _, r := range rows(t, "hinge_cases.csv") {
		got := hardware.AdjustedMass(duty(r))
		if math.Abs(got-num(t, r["adjusted_mass_kg"])) > 1e-9 {
			t.Errorf("%s: adjusted mass %v, want %s", r["case"], got, r["adjusted_mass_kg"])
		}
		grade, ok := hardware.HingeGrade(got, r["fire_door"] == "1")
		switch want := r["min_grade_3_hinges"]; {
		case want == "none" && ok, want != "none" && (!ok || float64(grade) != num(t, want)):
			t.Errorf("%s: grade %d %v, want %s", r["case"], grade, ok, want)
		}
	}
	for _, r := range rows(t, "hinge_cases_published.csv") {
		d := duty(r)
		if r["adjusted_mass_kg"] == "" { // a row of the published table of percentages
			d.MassKg = 100
			if got, want := hardware.AdjustedMass(d), 100+num(t, r["side_load_pct"]); math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: %v %%, want %s", r["case"], got-100, r["side_load_pct"])
			}
			continue
		}
		if got := hardware.AdjustedMass(d); math.Abs(got-num(t, r["adjusted_mass_kg"])) > 1e-9 {
			t.Errorf("%s: adjusted mass %v, want %s (%s)", r["case"], got, r["adjusted_mass_kg"], r["source"])
		}
	}
}

func TestHingeGradeTable(t *testing.T) {
	for _, r := range rows(t, "hinge_grades.csv") {
		want, kg := num(t, r["grade"]), num(t, r["kg"])
		if want < 7 {
			continue // not offered
		}
		if g, ok := hardware.HingeGrade(kg, false); !ok || float64(g) != want {
			t.Errorf("%v kg: grade %d, want %v", kg, g, want)
		}
		if g, ok := hardware.HingeGrade(kg+0.01, false); ok && float64(g) <= want {
			t.Errorf("just above %v kg: grade %d", kg, g)
		}
	}
}

func TestCloserSize(t *testing.T) {
	for _, r := range rows(t, "closer_table.csv") {
		w, kg := lengthOf(t, r["max_leaf_w_mm"]), num(t, r["test_mass_kg"])
		if got, ok := hardware.CloserSize(w, kg, false, 0); !ok || float64(got) != num(t, r["size"]) {
			t.Errorf("%s, %v kg: size %d, want %s (%s)", w, kg, got, r["size"], r["source"])
		}
	}
	// EN 1154 Annex A (trade journal): a light, narrow fire door still gets size 3.
	if got, ok := hardware.CloserSize(700*doorsched.Millimetre, 18, true, 0); !ok || got != 3 {
		t.Errorf("700 mm, 18 kg fire door: size %d, want 3", got)
	}
	for _, r := range rows(t, "closer_cases.csv") {
		got, ok := hardware.CloserSize(lengthOf(t, r["leaf_w_mm"]), num(t, r["leaf_mass_kg"]), r["fire_door"] == "1", int(num(t, r["sizes_up"])))
		switch want := r["expected_size"]; {
		case want == "none" && ok, want != "none" && (!ok || float64(got) != num(t, want)):
			t.Errorf("%s (%s): size %d %v, want %s", r["case"], r["why"], got, ok, want)
		}
	}
}

func TestEstimateMass(t *testing.T) {
	perArea := map[string]string{}
	for _, r := range rows(t, "leaf_mass.csv") {
		perArea[r["leaf"]] = r["areal_mass"] + " " + r["unit"]
	}
	const metre = 1000 * doorsched.Millimetre
	tests := []struct {
		name   string
		region doorsched.Region
		fields []string
		kg     float64
		row    string
	}{
		{"FD30 timber", doorsched.RegionUK, []string{"height", "1000 mm", "door_mat", "wood", "fire_rating", "FD30"}, 24, "44 mm FD30 timber"},
		{"FD60 timber", doorsched.RegionUK, []string{"height", "1000 mm", "door_mat", "wood", "fire_rating", "FD60"}, 31, "54 mm FD60 timber"},
		{"hollow metal, high end", doorsched.RegionUS, []string{"height", "1000 mm", "door_mat", "steel"}, 6.5 * 4.88242763638305, "1-3/4 in hollow metal"},
		{"glass", doorsched.RegionUS, []string{"height", "1000 mm", "door_mat", "glass", "thickness", "12 mm"}, 30, "glass"},
	}
	for _, tt := range tests {
		got, ok := hardware.EstimateMass(door(t, "1", tt.fields...), tt.region, metre)
		if !ok || math.Abs(got.Kg-tt.kg) > 1e-9 || got.Leaf != tt.row || perArea[tt.row] == "" {
			t.Errorf("%s: %+v %v, want %v kg by %q", tt.name, got, ok, tt.kg, tt.row)
		}
	}
	if _, ok := hardware.EstimateMass(door(t, "1", "height", "2040 mm"), doorsched.RegionUK, metre); ok {
		t.Error("a leaf of unknown material was given a mass")
	}
}

// Names, numbers and keyed points are those of the published list.
func TestLockFunctions(t *testing.T) {
	listed := map[string]map[string]string{}
	for _, r := range rows(t, "lock_functions.csv") {
		listed[r["standard"]+" "+r["number"]] = r
	}
	for _, f := range hardware.LockFunctions() {
		r := listed[f.Standard+" "+f.Number]
		if r == nil || r["name"] != f.Name || num(t, r["keyed"]) != float64(f.Keyed) || (r["deadbolt"] == "Y") != f.DeadBolt || r["status"] != string(f.Status) {
			t.Errorf("%+v is not row %v", f, r)
		}
	}
}

// Every standard in the table of kinds stands in the published list's row.
func TestKindsAgreeWithList(t *testing.T) {
	listed := map[string]map[string]string{}
	for _, r := range rows(t, "kinds.csv") {
		listed[r["id"]] = r
	}
	ours := map[string]bool{"CEG": true, "PBOLT": true, "STRIKE": true, "ACT": true, "REX-SENSOR": true, "REX-SWITCH": true, "EXIT-BTN": true, "EDR": true}
	seen := map[string]bool{}
	for _, k := range hardware.Kinds() {
		if seen[k.ID] {
			t.Errorf("%s twice", k.ID)
		}
		seen[k.ID] = true
		if k.US == "" || k.UK == "" || k.Section(doorsched.RegionUS) == "" || k.Section(doorsched.RegionUK) == "" {
			t.Errorf("%s lacks a name or a section", k.ID)
		}
		if ours[k.ID] {
			continue
		}
		r := listed[k.ID]
		if r == nil {
			t.Errorf("%s is not in the published list", k.ID)
			continue
		}
		for _, pair := range [][2]string{{k.StdUS, r["std_us"]}, {k.StdUK, r["std_uk"]}} {
			for _, s := range strings.Split(pair[0], "; ") {
				if !strings.Contains(pair[1], strings.TrimPrefix(s, "ANSI/BHMA ")) {
					t.Errorf("%s: standard %q is not in %q", k.ID, s, pair[1])
				}
			}
		}
	}
}
