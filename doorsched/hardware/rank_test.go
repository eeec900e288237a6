package hardware

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/lockrail/doorsched"
	"github.com/google/go-cmp/cmp"
)

// Each step of the ranking outweighs all later ones; whatever the order in which
// candidates were built, the result is one.
func TestCompareSteps(t *testing.T) {
	want := []Candidate{
		{Name: "a", FreeExit: true, WithinLabel: doorsched.Yes},
		{Name: "b", FreeExit: true, WithinLabel: doorsched.Yes},
		{Name: "A cost", FreeExit: true, WithinLabel: doorsched.Yes, CostRank: 1},
		{Name: "A site", FreeExit: true, WithinLabel: doorsched.Yes, SiteWork: 1},
		{Name: "A label open", FreeExit: true, WithinLabel: doorsched.Unknown},
		{Name: "A outside label", FreeExit: true, WithinLabel: doorsched.No},
		{Name: "A one release", FreeExit: true, Releases: 1, WithinLabel: doorsched.Yes},
		{Name: "A no free exit", WithinLabel: doorsched.Yes},
		{Name: "A approval", Approvals: 1, FreeExit: true, WithinLabel: doorsched.Yes},
		{Name: "A conflict", Conflicts: 1, FreeExit: true, WithinLabel: doorsched.Yes},
		{Name: "A two conflicts", Conflicts: 2, FreeExit: true, WithinLabel: doorsched.Yes},
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		got := slices.Clone(want)
		r.Shuffle(len(got), func(i, j int) { got[i], got[j] = got[j], got[i] })
		slices.SortStableFunc(got, Candidate.compare)
		name := func(cs []Candidate) (out []string) {
			for _, c := range cs {
				out = append(out, c.Name)
			}
			return out
		}
		if d := cmp.Diff(name(want), name(got)); d != "" {
			t.Fatalf("(-want +got):\n%s", d)
		}
	}
}

func TestCompareMarks(t *testing.T) {
	want := []string{"03", "3", "A1", "A1.1", "A1.2", "A1.10", "A2", "A10", "B1"}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, compareMarks)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// Every function number that practice names stands in the table of functions.
func TestUseFunctionsExist(t *testing.T) {
	for _, u := range useFunctions {
		for std, n := range map[string]string{"A156.13": u.mortise, "A156.2": u.bored, "A156.3": u.trim} {
			if _, ok := lockFunction(std, n); !ok {
				t.Errorf("%s %s for %v is not in the table", std, n, u.uses)
			}
		}
	}
}
