package hardware

import (
	"slices"

	"example.com/lockrail/doorsched"
)

// door is what choosing and deriving both read of a view.
type door struct {
	view   doorsched.View
	edn    doorsched.Edition
	region doorsched.Region

	sizes    doorsched.LeafSizes
	leaves   int // 1 or 2; 1 while Unknown
	rating   doorsched.Rating
	rated    doorsched.Answer
	smoke    doorsched.Answer
	existing bool // hung already: work on it is done on site
	glass    bool // all-glass leaf
}

// look reads a door; ok is false for an edition that cannot be judged.
func look(v doorsched.View, e doorsched.Edition) (door, bool) {
	info, ok := e.Info()
	if !ok {
		return door{}, false
	}
	d := door{view: v, edn: e, region: info.Region, sizes: v.Leaves(), leaves: 1}
	switch n, known := doorsched.Leaves.In(v).Get(); {
	case len(d.sizes.Widths) == 2, known && n == 2:
		d.leaves = 2
	}
	if r, known := doorsched.FireRating.In(v).Get(); known {
		d.rating, d.rated, d.smoke = r, doorsched.AnswerOf(r.Rated()), r.Smoke
	}
	if a, known := doorsched.Smoke.In(v).Get(); known {
		d.smoke = a
	}
	p, _ := doorsched.Phase.In(v).Get()
	d.existing = p == "existing"
	m, _ := doorsched.DoorMat.In(v).Get()
	d.glass = m == "glass"
	return d, true
}

// width returns the width of a leaf, 0 while Unknown.
func (d door) width(l Leaf) doorsched.Length {
	i := 0
	if l == LeafInactive {
		i = 1
	}
	if i < len(d.sizes.Widths) {
		return d.sizes.Widths[i]
	}
	return 0
}

// leafList lists the leaves, active first.
func (d door) leafList() []Leaf {
	if d.leaves == 2 {
		return []Leaf{LeafActive, LeafInactive}
	}
	return []Leaf{LeafActive}
}

// allLeaves is the leaf word for an item on every leaf.
func (d door) allLeaves() Leaf {
	if d.leaves == 2 {
		return LeafBoth
	}
	return LeafActive
}

// frameLeaf is where the part of a lock that meets the active leaf sits: the
// frame of a single door, the edge of the inactive leaf of a pair.
func (d door) frameLeaf() Leaf {
	if d.leaves == 2 {
		return LeafInactive
	}
	return LeafNone
}

// is answers a yes-no field.
func is(v doorsched.View, f doorsched.Field[doorsched.Answer]) doorsched.Answer {
	return f.In(v).Or(doorsched.Unknown)
}

// word returns a choice field's value, empty while Unknown.
func word(v doorsched.View, f doorsched.Field[doorsched.Choice]) doorsched.Choice {
	return f.In(v).Or("")
}

// oneOf reports whether a is one of the words.
func oneOf(a doorsched.Choice, words ...doorsched.Choice) bool { return slices.Contains(words, a) }

// fits stores a proposed value where the schedule gives none.
func fits[T any](v doorsched.View, over *doorsched.Record, f doorsched.Field[T], value T) {
	if !f.In(v).IsKnown() {
		f.Put(over, value, doorsched.Derived)
	}
}

// fitsMeans adds means about which the schedule says nothing.
func fitsMeans(v doorsched.View, over *doorsched.Record, f doorsched.Field[doorsched.MeansSet], means doorsched.Means) {
	given, _ := f.In(v).Get()
	var add doorsched.MeansSet
	for m := doorsched.Means(1); m != 0 && m <= means; m <<= 1 {
		if means&m != 0 && given.Has(m) == doorsched.Unknown {
			add = add.Merge(doorsched.OneMeans(m, true))
		}
	}
	if add != (doorsched.MeansSet{}) {
		f.Put(over, add, doorsched.Derived)
	}
}

// accessAnswer says whether a credential opens the door: the schedule's own
// answer, else Yes where it gives an electric lock or a reader.
func accessAnswer(v doorsched.View) doorsched.Answer {
	if a, ok := doorsched.AccessControlled.In(v).Get(); ok {
		return a
	}
	if n, ok := doorsched.ReaderSides.In(v).Get(); ok && n > 0 {
		return doorsched.Yes
	}
	if r := word(v, doorsched.Reader); r != "" && r != "none" {
		return doorsched.Yes
	}
	if isElectric(word(v, doorsched.Lock)) {
		return doorsched.Yes
	}
	return doorsched.Unknown
}

// failWords is the fail state in a region's words.
func failWords(f doorsched.Choice, r doorsched.Region) string {
	uk := r == doorsched.RegionUK
	switch {
	case f == "safe" && uk:
		return "fail unlocked"
	case f == "safe":
		return "fail safe"
	case f == "secure" && uk:
		return "fail locked"
	case f == "secure":
		return "fail secure"
	}
	return ""
}
