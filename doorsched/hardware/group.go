package hardware

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// DoorSet is one door with its set and the set number that the schedule gives.
type DoorSet struct {
	Mark  string
	Given string // as written; empty where the schedule gives none
	Set   Set
}

// NumberedSet is one set with the doors that have it.
type NumberedSet struct {
	Number   string
	Given    string // the schedule's number that it is, or was split from
	Proposed bool   // the number is ours: a split, or doors that had none
	Doors    []string
	Added    []string // those of Doors that had no number and joined a given set
	Set      Set
}

// newPrefix begins the numbers of sets that no schedule numbered, apart from the
// architect's own letters so that a later issue cannot collide.
const newPrefix = "N"

// Group joins doors whose sets have equal content. A number given by the
// schedule is kept; one that stands over different needs is split: the largest
// group keeps it, the others are proposed as A1.1, A1.2. Doors without a number
// join an equal set or get the next free N number. The order of doors does not
// matter; sets and doors come back in natural order. Doors without a set (out of
// scope) are left out.
func Group(doors []DoorSet) []NumberedSet {
	sorted := slices.Clone(doors)
	slices.SortStableFunc(sorted, func(x, y DoorSet) int {
		return cmp.Or(compareMarks(x.Mark, y.Mark), compareMarks(x.Given, y.Given), strings.Compare(x.Set.Content(), y.Set.Content()),
			strings.Compare(x.Set.detail(), y.Set.detail()))
	})
	byGiven := map[string][]*bucket{}
	var numbers []string
	for _, d := range sorted {
		if d.Set.Leaves == 0 {
			continue
		}
		if _, seen := byGiven[d.Given]; !seen && d.Given != "" {
			numbers = append(numbers, d.Given)
		}
		byGiven[d.Given] = place(byGiven[d.Given], d)
	}
	used := map[string]bool{}
	for _, n := range numbers {
		used[n] = true
	}
	slices.SortFunc(numbers, compareMarks)
	var out []NumberedSet
	content := map[string]int{} // content -> index in out of the first set that has it
	for _, n := range numbers {
		bs := byGiven[n]
		slices.SortStableFunc(bs, func(x, y *bucket) int { return len(y.doors) - len(x.doors) })
		for i, b := range bs {
			s := NumberedSet{Number: n, Given: n, Doors: b.doors, Set: b.set}
			if i > 0 {
				s.Number, s.Proposed = freeNumber(n+".", used), true
			}
			if _, have := content[b.content]; !have {
				content[b.content] = len(out)
			}
			out = append(out, s)
		}
	}
	for _, b := range byGiven[""] {
		if i, have := content[b.content]; have {
			out[i].Added = append(out[i].Added, b.doors...)
			out[i].Doors = append(out[i].Doors, b.doors...)
			slices.SortFunc(out[i].Doors, compareMarks)
			out[i].Set = joined(out[i].Set, b.set)
			continue
		}
		out = append(out, NumberedSet{Number: freeNumber(newPrefix, used), Proposed: true, Doors: b.doors, Set: b.set})
	}
	sortSets(out)
	return out
}

// bucket gathers the doors of one content under one given number.
type bucket struct {
	content string
	doors   []string
	set     Set
}

func place(bs []*bucket, d DoorSet) []*bucket {
	c := d.Set.Content()
	for _, b := range bs {
		if b.content == c {
			b.doors = append(b.doors, d.Mark)
			b.set = joined(b.set, d.Set)
			return bs
		}
	}
	return append(bs, &bucket{c, []string{d.Mark}, d.Set})
}

// joined is the set of two doors with equal content: the needs, assumptions and
// notes of both.
func joined(s, t Set) Set {
	s.Needs = append(slices.Clone(s.Needs), t.Needs...)
	slices.Sort(s.Needs)
	s.Needs = slices.Compact(s.Needs)
	s.Assumed = slices.Clone(s.Assumed)
	for _, a := range t.Assumed {
		i := slices.IndexFunc(s.Assumed, func(x doorsched.Assumption) bool {
			return x.Field == a.Field && x.What == a.What && x.Value == a.Value && x.Reason == a.Reason
		})
		if i < 0 {
			s.Assumed = append(s.Assumed, a)
			continue
		}
		s.Assumed[i].Doors = append(slices.Clone(s.Assumed[i].Doors), a.Doors...)
	}
	s.Notes = slices.Clone(s.Notes)
	for _, n := range t.Notes {
		if !slices.Contains(s.Notes, n) {
			s.Notes = append(s.Notes, n)
		}
	}
	return s
}

// detail tells apart sets of equal content, so that sorting has no ties but true ones.
func (s Set) detail() string {
	return fmt.Sprint(s.Needs, s.Assumed, s.Notes, s.Items)
}

// freeNumber takes the first free number of a prefix.
func freeNumber(prefix string, used map[string]bool) string {
	for i := 1; ; i++ {
		n := fmt.Sprintf("%s%d", prefix, i)
		if !used[n] {
			used[n] = true
			return n
		}
	}
}

func sortSets(sets []NumberedSet) {
	slices.SortStableFunc(sets, func(x, y NumberedSet) int { return compareMarks(x.Number, y.Number) })
}

// compareMarks orders marks and numbers as people do: A1, A1.1, A2, A10. Equal
// numbers written differently (3 and 03) stay apart.
func compareMarks(x, y string) int {
	a, b := x, y
	for a != "" && b != "" {
		p, q := run(a), run(b)
		var c int
		if isDigit(p[0]) && isDigit(q[0]) {
			m, n := strings.TrimLeft(p, "0"), strings.TrimLeft(q, "0")
			c = cmp.Or(len(m)-len(n), strings.Compare(m, n))
		} else {
			c = strings.Compare(p, q)
		}
		if c != 0 {
			return c
		}
		a, b = a[len(p):], b[len(q):]
	}
	return cmp.Or(len(a)-len(b), strings.Compare(x, y))
}

// run is the leading digits of s, or what stands before its first digit.
func run(s string) string {
	i := 1
	for i < len(s) && isDigit(s[i]) == isDigit(s[0]) {
		i++
	}
	return s[:i]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
