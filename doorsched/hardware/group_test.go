package hardware_test

import (
	"fmt"
	"slices"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// rated is a door of one given set number and a rating; a fire rating changes
// closer, seals and hinges, so the set's content.
func rated(tb testing.TB, mark, given, rating string) hardware.DoorSet {
	tb.Helper()
	v := door(tb, mark, "width", "3-0", "height", "7-0", "thickness", `1-3/4"`, "exterior", "no", "use", "office", "fire_rating", rating, "access_controlled", "no", "lock", "mechanical", "hw", "lever")
	return hardware.DoorSet{Mark: mark, Given: given, Set: hardware.Derive(v, doorsched.IBC2021, hardware.Choose(v, doorsched.IBC2021))}
}

// summary writes numbers and doors: "A1 [101 102]".
func summary(sets []hardware.NumberedSet) []string {
	var out []string
	for _, s := range sets {
		mark := ""
		if s.Proposed {
			mark = " proposed"
		}
		out = append(out, fmt.Sprint(s.Number, mark, " ", s.Doors))
	}
	return out
}

// A public door schedule has set A1 on unrated, 20 and 60 minute doors. The fire
// doors share one content (20 and 60 minutes are both labelled); the unrated ones
// need another, so A1 is split and stays with the larger group.
func TestSplitOverRatings(t *testing.T) {
	doors := []hardware.DoorSet{
		rated(t, "101", "A1", "NR"), rated(t, "102", "A1", "20 min"), rated(t, "103", "A1", "60 min"), rated(t, "104", "A1", "60 min"),
		rated(t, "105", "A4", "NR"), rated(t, "106", "A4", "90 min"), rated(t, "107", "", "NR"),
	}
	smoke := door(t, "108", "width", "3-0", "height", "7-0", "thickness", `1-3/4"`, "exterior", "no", "use", "office", "fire_rating", "20 min S", "access_controlled", "no", "lock", "mechanical", "hw", "lever")
	doors = append(doors, hardware.DoorSet{Mark: "108", Given: "A1", Set: hardware.Derive(smoke, doorsched.IBC2021, hardware.Choose(smoke, doorsched.IBC2021))})
	stair := door(t, "109", "width", "3-0", "height", "7-0", "thickness", `1-3/4"`, "exterior", "no", "use", "stair", "fire_rating", "NR", "access_controlled", "no", "lock", "mechanical", "hw", "lever")
	doors = append(doors, hardware.DoorSet{Mark: "109", Set: hardware.Derive(stair, doorsched.IBC2021, hardware.Choose(stair, doorsched.IBC2021))})
	doors = append(doors, hardware.DoorSet{Mark: "110"}) // out of scope: no set
	want := []string{
		"A1 [102 103 104]",        // the largest keeps the number
		"A1.1 proposed [101 107]", // equal size: by first mark; 107 has no number and equal content
		"A1.2 proposed [108]",     // smoke seals
		"A4 [105]",                // one each: the lowest mark keeps it
		"A4.1 proposed [106]",
		"N1 proposed [109]",
	}
	got := hardware.Group(doors)
	if d := cmp.Diff(want, summary(got)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if added := got[1].Added; len(added) != 1 || added[0] != "107" {
		t.Errorf("added %v, want [107]", added)
	}
	if got[1].Given != "A1" || got[5].Given != "" {
		t.Errorf("given %q and %q", got[1].Given, got[5].Given)
	}
}

// A split never takes a number that the schedule has.
func TestSplitAvoidsGivenNumbers(t *testing.T) {
	got := hardware.Group([]hardware.DoorSet{
		rated(t, "1", "A1", "NR"), rated(t, "2", "A1", "NR"), rated(t, "3", "A1", "90 min"), rated(t, "4", "A1.1", "NR"), rated(t, "5", "N1", "NR"),
	})
	want := []string{"A1 [1 2]", "A1.1 [4]", "A1.2 proposed [3]", "N1 [5]"}
	if d := cmp.Diff(want, summary(got)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// Two rows with one mark are still told apart by what they say.
func TestGroupRepeatedMark(t *testing.T) {
	one := hardware.DoorSet{Mark: "1", Set: hardware.Set{Leaves: 1, Notes: []string{"x"}}}
	two := hardware.DoorSet{Mark: "1", Set: hardware.Set{Leaves: 1, Notes: []string{"y"}}}
	if d := cmp.Diff(hardware.Group([]hardware.DoorSet{one, two})[0].Set.Notes, hardware.Group([]hardware.DoorSet{two, one})[0].Set.Notes); d != "" {
		t.Errorf("the order of rows matters:\n%s", d)
	}
}

func drawDoors(t *rapid.T) []hardware.DoorSet {
	n := rapid.IntRange(1, 12).Draw(t, "doors")
	var out []hardware.DoorSet
	for i := range n {
		var s hardware.Set
		s.Leaves = 1
		s.Items = []hardware.Item{{ID: "CLS", Quantity: rapid.IntRange(1, 3).Draw(t, "content"), Reason: rapid.SampledFrom([]string{"a", "b"}).Draw(t, "reason")}}
		s.Notes = []string{rapid.SampledFrom([]string{"x", "y"}).Draw(t, "note")}
		out = append(out, hardware.DoorSet{Mark: fmt.Sprint(i + 1), Given: rapid.SampledFrom([]string{"", "A1", "A2", "A1.1", "N1"}).Draw(t, "given"), Set: s})
	}
	return out
}

func TestGroupLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		doors := drawDoors(t)
		got := hardware.Group(doors)
		shuffled := rapid.Permutation(doors).Draw(t, "order")
		if d := cmp.Diff(got, hardware.Group(shuffled), cmp.AllowUnexported(doorsched.Record{}), cmp.AllowUnexported(doorsched.Value{})); d != "" {
			t.Fatalf("the order of doors matters (-want +got):\n%s", d)
		}
		numbers, placed := map[string]bool{}, map[string]string{}
		for _, s := range got {
			if numbers[s.Number] {
				t.Fatalf("number %s twice", s.Number)
			}
			numbers[s.Number] = true
			for _, m := range s.Doors {
				if placed[m] != "" {
					t.Fatalf("door %s in two sets", m)
				}
				placed[m] = s.Number
			}
		}
		for _, d := range doors {
			if placed[d.Mark] == "" {
				t.Fatalf("door %s in no set", d.Mark)
			}
			if d.Given != "" && !numbers[d.Given] {
				t.Fatalf("given number %s is lost", d.Given)
			}
		}
	})
}

// Through any sequence of issues: no number we propose was ever retired, no two
// sets share one, and a set that does not change keeps its number.
func TestNumberNeverReuses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var ledger []hardware.PriorSet
		for range rapid.IntRange(1, 5).Draw(t, "issues") {
			sets := hardware.Group(drawDoors(t))
			got := hardware.Number(sets, ledger)
			retired, seen := map[string]bool{}, map[string]bool{}
			for _, p := range ledger {
				if p.Retired {
					retired[p.Number] = true
				}
			}
			for _, s := range got {
				if s.Proposed && retired[s.Number] {
					t.Fatalf("retired number %s came back", s.Number)
				}
				if seen[s.Number] {
					t.Fatalf("number %s twice", s.Number)
				}
				seen[s.Number] = true
			}
			next := hardware.Ledger(got, ledger)
			for _, p := range ledger {
				if !slices.ContainsFunc(next, func(q hardware.PriorSet) bool { return q.Number == p.Number }) {
					t.Fatalf("the ledger forgot %s", p.Number)
				}
			}
			if d := cmp.Diff(summary(got), summary(hardware.Number(sets, next))); d != "" {
				t.Fatalf("the same issue again is numbered otherwise:\n%s", d)
			}
			ledger = next
		}
	})
}

func TestNumberKeepsPrior(t *testing.T) {
	doors := []hardware.DoorSet{rated(t, "1", "", "NR"), rated(t, "2", "", "90 min")}
	first := hardware.Group(doors)
	ledger := hardware.Ledger(first, nil)
	// Door 1 goes away; door 2 keeps N2 although N1 is free of doors; a new set
	// gets N3.
	later := []hardware.DoorSet{doors[1], rated(t, "3", "", "90 min S")}
	got := hardware.Number(hardware.Group(later), ledger)
	if d := cmp.Diff([]string{"N2 proposed [2]", "N3 proposed [3]"}, summary(got)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	// Equal content outweighs doors in common.
	sets := hardware.Group([]hardware.DoorSet{rated(t, "1", "", "90 min"), rated(t, "2", "", "NR")})
	if d := cmp.Diff([]string{"N1 proposed [2]", "N2 proposed [1]"}, summary(hardware.Number(sets, ledger))); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	// A set that changed on the same doors keeps its number.
	changed := hardware.Number(hardware.Group([]hardware.DoorSet{rated(t, "2", "", "NR")}), []hardware.PriorSet{{Number: "N7", Fingerprint: "old", Doors: []string{"2"}}})
	if d := cmp.Diff([]string{"N7 proposed [2]"}, summary(changed)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}
