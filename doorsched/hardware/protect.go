package hardware

import (
	"strings"

	"example.com/lockrail/doorsched"
)

// protect adds plates, stops, seals, threshold and silencers.
func (b *builder) protect() {
	b.plates()
	b.add(Item{ID: doorStop, Quantity: b.leaves, Leaf: b.allLeaves(), Reason: "every swinging leaf", QtyRule: "1 a leaf, wall or floor by the place"})
	sealed := b.seals()
	b.sill()
	b.meeting()
	if sealed == doorsched.No && !b.uk() && word(b.view, doorsched.FrameMat) != "wood" {
		n, rule := 3, "3 a single frame"
		if b.leaves == 2 {
			n, rule = 2, "2 a pair frame at the head; sources disagree"
		}
		b.add(Item{ID: silencer, Quantity: n, Reason: "frame without gasket", QtyRule: rule})
	}
}

func (b *builder) plates() {
	leaves := b.among(b.closes)
	if b.glass || len(leaves) == 0 {
		return
	}
	size := `8" x 2" less leaf width`
	if b.leaves == 2 {
		size = `8" x 1" less leaf width`
	}
	if b.uk() {
		size = "200 mm x leaf width less 50 mm"
		if b.leaves == 2 {
			size = "200 mm x leaf width less 25 mm"
		}
	}
	b.add(Item{ID: kickPlate, Quantity: len(leaves), Leaf: together(leaves), Size: size, Reason: "leaf with a closer, push side", QtyRule: "1 a leaf with a closer"})
}

// seals adds perimeter seals and answers whether the frame has any.
func (b *builder) seals() doorsched.Answer {
	v := b.view
	given := is(v, doorsched.Gasketed)
	if given == doorsched.No {
		b.note("the schedule says no seals: none are in the set")
		return doorsched.No
	}
	var why, what []string
	if b.smoke == doorsched.Yes {
		why, what = append(why, "smoke door"), append(what, "smoke")
	}
	if b.rated == doorsched.Yes {
		why = append(why, "fire door")
		if b.uk() {
			b.note("intumescent strips are part of the tested doorset, not of this set")
		} else {
			what = append(what, "fire edge as listed")
		}
	}
	exterior := is(v, doorsched.Exterior)
	if exterior == doorsched.Yes {
		why, what = append(why, "exterior door"), append(what, "weather")
	}
	if doorsched.Acoustic.In(v).IsKnown() {
		why, what = append(why, "acoustic rating"), append(what, "acoustic")
	}
	if given == doorsched.Yes && len(why) == 0 {
		why = append(why, "the schedule asks for it")
	}
	if len(why) == 0 {
		known := true
		if b.rated == doorsched.Unknown {
			b.need(doorsched.FireRating.ID())
			known = false
		}
		if exterior == doorsched.Unknown && is(v, doorsched.Interior) != doorsched.Yes {
			b.need(doorsched.Exterior.ID())
			known = false
		}
		if !known {
			b.note("whether the frame is sealed is not known: neither seals nor silencers are in the set")
			return doorsched.Unknown
		}
		return doorsched.No
	}
	if b.uk() && len(what) == 0 {
		return doorsched.Unknown // a UK fire door without smoke duty: the strips are the doorset's
	}
	b.add(Item{ID: gasket, Quantity: 1, Unit: AsSet, Function: strings.Join(what, ", "), Size: "head and 2 jambs", Reason: strings.Join(why, ", "), QtyRule: "1 set an opening"})
	fits(v, &b.set.Overlay, doorsched.Gasketed, doorsched.Yes)
	return doorsched.Yes
}

func (b *builder) sill() {
	exterior := is(b.view, doorsched.Exterior) == doorsched.Yes
	if exterior {
		size := `not above 1/2"`
		if b.uk() {
			size = "not above 15 mm"
		}
		b.add(Item{ID: threshold, Quantity: 1, Size: size, Reason: "exterior door", QtyRule: "1 an opening", Function: "accessible; height limit from memory, to be checked"})
	}
	if exterior || b.uk() && b.smoke == doorsched.Yes || is(b.view, doorsched.DropSeal) == doorsched.Yes {
		why := "smoke at the threshold"
		if exterior {
			why = "with the threshold"
		}
		b.add(Item{ID: bottomSeal, Quantity: b.leaves, Leaf: b.allLeaves(), Reason: why, QtyRule: "1 a leaf"})
		if b.uk() {
			fits(b.view, &b.set.Overlay, doorsched.DropSeal, doorsched.Yes)
		}
	}
}

// meeting seals the meeting edges of a pair.
func (b *builder) meeting() {
	if b.leaves != 2 || b.mullioned() {
		return
	}
	var why []string
	if b.rated == doorsched.Yes {
		why = append(why, "fire-rated pair: as its listing or certificate says")
	}
	if b.smoke == doorsched.Yes {
		why = append(why, "smoke door")
	}
	if is(b.view, doorsched.Exterior) == doorsched.Yes {
		why = append(why, "exterior pair")
	}
	if len(why) == 0 {
		return
	}
	it := Item{ID: astragal, Quantity: 1, Reason: strings.Join(why, ", "), QtyRule: "1 a pair"}
	switch is(b.view, doorsched.Rebated) {
	case doorsched.Yes:
		it.Function = "overlapping"
	case doorsched.No:
		it.Function, it.Unit = "split", AsSet
	default:
		it.Needs = []doorsched.FieldID{doorsched.Rebated.ID()}
	}
	b.add(it)
}
