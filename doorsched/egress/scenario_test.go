package egress

import (
	"encoding/csv"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite golden and generated files")

const testdata = "../../testdata/egress"

func readCSV(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join(testdata, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	return out
}

// door makes a view of "key=value; key=value".
func door(t testing.TB, inputs string) doorsched.View {
	t.Helper()
	return doorsched.NewView("101", record(t, inputs))
}

func record(t testing.TB, inputs string) *doorsched.Record {
	t.Helper()
	var r doorsched.Record
	for _, p := range strings.Split(inputs, ";") {
		k, v, ok := strings.Cut(strings.TrimSpace(p), "=")
		if !ok {
			continue
		}
		if err := doorsched.Set(&r, k, v, doorsched.Given); err != nil {
			t.Fatal(err)
		}
	}
	return &r
}

// ukDefaults are the values the UK scenarios were written with: false unless
// stated. They are given to the door; the engine knows nothing of them.
const ukDefaults = `staff_led_evacuation=no; risk_assessment=no; licensed=no; exit_control=no; final_exit=no; escape_stair=no;
	keyed_egress=no; public_access=no; lock_used_only_when_empty=no; mechanical_egress=no; delay_s=0; electric_lock=none`

// sameIn2021 are the scenarios of other editions whose rules read the same in
// 2021, or whose ids that do not are on the list of the uncovered.
var sameIn2021 = []string{"S01", "S02", "S03", "S06", "S07", "S09", "S10", "S14", "S15", "S27"}

// rowStates says of each row of published requirements whether a fault of it
// was found.
func brokenRows(rep Report) map[string]doorsched.Verdict {
	out := map[string]doorsched.Verdict{}
	for _, f := range rep.Findings {
		for _, ref := range f.Refs {
			if old, ok := out[ref]; !ok || f.Severity < old {
				out[ref] = f.Severity
			}
		}
	}
	return out
}

func covered() map[string]bool {
	out := map[string]bool{}
	for _, r := range allRules {
		for _, ref := range r.Refs {
			out[ref] = true
		}
	}
	return out
}

func ids(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == ';' || r == ' ' })
}

func TestScenarios(t *testing.T) {
	rows := covered()
	var uncovered []string
	decided, total := 0, 0
	for _, s := range readCSV(t, "us_scenarios.csv") {
		year := "2021"
		for _, p := range strings.Split(s["inputs"], ";") {
			if y, ok := strings.CutPrefix(strings.TrimSpace(p), "ed="); ok {
				year = y
			}
		}
		if year != "2021" && !slices.Contains(sameIn2021, s["id"]) {
			uncovered = append(uncovered, "us "+s["id"]+" not judged: a rule of edition "+year+" that 2021 does not have")
			continue
		}
		rep := JudgeDoor(door(t, s["inputs"]), doorsched.IBC2021)
		broken := brokenRows(rep)
		for _, id := range ids(s["rules_that_decide"]) {
			ref, not := strings.CutPrefix(id, "!")
			total++
			if !rows[ref] {
				uncovered = append(uncovered, "us "+s["id"]+" "+id)
				continue
			}
			decided++
			severity, is := broken[ref]
			switch {
			case not || s["verdict"] == "pass":
				if is {
					t.Errorf("US %s: %s is broken; the scenario passes (%s)", s["id"], ref, s["why"])
				}
			case s["verdict"] == "review":
				if severity != doorsched.Approval {
					t.Errorf("US %s: %s = %q; want approval", s["id"], ref, severity)
				}
			case severity != doorsched.Conflict:
				t.Errorf("US %s: %s = %q; want a conflict (%s)", s["id"], ref, severity, s["why"])
			}
		}
		if s["verdict"] == "pass" && rep.Verdict == doorsched.Conflict {
			t.Errorf("US %s passes; found %v", s["id"], rep.Findings)
		}
	}

	effect := map[string]string{}
	for _, r := range readCSV(t, "uk_rules.csv") {
		effect[r["id"]] = r["effect"]
	}
	for _, s := range readCSV(t, "uk_scenarios.csv") {
		v := doorsched.NewView("101", record(t, s["inputs"]), record(t, ukDefaults))
		broken := brokenRows(JudgeDoor(v, doorsched.England2019))
		fired := ids(s["rules_fired"])
		for _, ref := range fired {
			total++
			if !rows[ref] {
				uncovered = append(uncovered, "uk "+s["id"]+" "+ref+" ("+effect[ref]+")")
				continue
			}
			decided++
			severity, is := broken[ref]
			if !is {
				t.Errorf("UK %s (%s): %s is not broken", s["id"], s["title"], ref)
			} else if effect[ref] == "fail" && severity != doorsched.Conflict {
				t.Errorf("UK %s: %s = %v; want a conflict", s["id"], ref, severity)
			}
		}
		// The lists are complete: nothing else may be found.
		for ref := range broken {
			if !slices.Contains(fired, ref) {
				t.Errorf("UK %s (%s): %s is broken and the scenario does not name it", s["id"], s["title"], ref)
			}
		}
	}
	slices.Sort(uncovered)
	t.Logf("%d of %d rows named by the scenarios are decided", decided, total)
	golden(t, filepath.Join(testdata, "uncovered.txt"), strings.Join(uncovered, "\n")+"\n")
}

func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s is stale (go test -update writes it):\n%s", path, d)
	}
}

// TestEscapeWidth: Approved Document B volume 2 Table 2.3, testdata/egress/width_cases.csv.
func TestEscapeWidth(t *testing.T) {
	for _, r := range readCSV(t, "width_cases.csv") {
		var rec doorsched.Record
		if err := doorsched.Set(&rec, "persons", r["persons"], doorsched.Given); err != nil {
			t.Fatal(err)
		}
		n, _ := doorsched.OccupantLoad.Of(&rec).Get()
		got, _ := escapeWidth(n)
		if want := r["min_clear_w_mm"] + " mm"; got.String() != want {
			t.Errorf("%s persons: %s, want %s", r["persons"], got, want)
		}
	}
}
