package hardware

import "slices"

// PriorSet is one line of the ledger of numbers from the issue before.
type PriorSet struct {
	Number      string
	Fingerprint string // Set.Fingerprint of what the number stood for
	Doors       []string
	Retired     bool // no door had it any more
}

// Number gives sets of Group the numbers they had in the issue before: by equal
// content, else by the most doors in common. A set that is new gets a number that
// was never used; a retired number is never given out again. Numbers that the
// schedule gives are not touched.
func Number(sets []NumberedSet, prior []PriorSet) []NumberedSet {
	out := slices.Clone(sets)
	used := map[string]bool{}
	open := map[string]bool{} // prior numbers that a set of ours may take up again
	for _, p := range prior {
		used[p.Number], open[p.Number] = true, true
	}
	for _, s := range out {
		if !s.Proposed {
			used[s.Number] = true
			delete(open, s.Number)
		}
	}
	for _, p := range prior { // a number listed twice and retired once stays retired
		if p.Retired {
			delete(open, p.Number)
		}
	}
	numbered := make([]bool, len(out))
	take := func(i int, fits func(PriorSet) bool) {
		best := -1
		for j, p := range prior {
			if !open[p.Number] || !fits(p) {
				continue
			}
			if best < 0 || better(p, prior[best], out[i].Doors) {
				best = j
			}
		}
		if best >= 0 {
			out[i].Number, numbered[i] = prior[best].Number, true
			delete(open, prior[best].Number)
		}
	}
	for i := range out {
		if out[i].Proposed {
			print := out[i].Set.Fingerprint()
			take(i, func(p PriorSet) bool { return p.Fingerprint == print })
		}
	}
	for i := range out {
		if out[i].Proposed && !numbered[i] {
			take(i, func(p PriorSet) bool { return shared(p.Doors, out[i].Doors) > 0 })
		}
	}
	for i := range out {
		if !out[i].Proposed || numbered[i] {
			continue
		}
		prefix := newPrefix
		if out[i].Given != "" {
			prefix = out[i].Given + "."
		}
		out[i].Number = freeNumber(prefix, used)
	}
	sortSets(out)
	return out
}

// better prefers the prior set with more doors in common, then the lower number.
func better(p, q PriorSet, doors []string) bool {
	if m, n := shared(p.Doors, doors), shared(q.Doors, doors); m != n {
		return m > n
	}
	return compareMarks(p.Number, q.Number) < 0
}

func shared(a, b []string) int {
	n := 0
	for _, x := range a {
		if slices.Contains(b, x) {
			n++
		}
	}
	return n
}

// Ledger returns what to store for the next issue: every number now in use and
// every number ever used.
func Ledger(sets []NumberedSet, prior []PriorSet) []PriorSet {
	var out []PriorSet
	current := map[string]bool{}
	for _, s := range sets {
		current[s.Number] = true
		out = append(out, PriorSet{s.Number, s.Set.Fingerprint(), slices.Clone(s.Doors), false})
	}
	for _, p := range prior {
		if !current[p.Number] {
			current[p.Number] = true
			p.Doors, p.Retired = nil, true
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(x, y PriorSet) int { return compareMarks(x.Number, y.Number) })
	return out
}
