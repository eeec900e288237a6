package hardware

import (
	"fmt"

	"example.com/lockrail/doorsched"
)

// carries reports whether current crosses the hinge side into a leaf.
func (b *builder) carries(l Leaf) bool {
	if l == LeafActive {
		return oneOf(b.choice.Lock, "electrified_lock", "electrified_panic") || b.release() == "hardware_switch"
	}
	// A strike for the active leaf's latch sits in the inactive leaf, unless a
	// mullion stands between them.
	return b.choice.Lock == "electric_strike" && !b.mullioned()
}

// mullioned reports a pair with a rim device on each leaf.
func (b *builder) mullioned() bool {
	return b.leaves == 2 && b.bar && b.latchType() == "rim"
}

// pivoted reports a leaf that turns on pivots.
func (b *builder) pivoted() bool {
	return b.glass || word(b.view, doorsched.Closer) == "floor_spring"
}

// hang adds hinges or pivots and the power transfers.
func (b *builder) hang() {
	var lines []Item
	for _, l := range b.leafList() {
		transferID := b.transferOf(l)
		if b.pivoted() {
			why := "the schedule asks for a floor spring"
			if b.glass {
				why = "an all-glass leaf takes no butt hinges"
			}
			lines = append(lines, Item{ID: hngPivot, Quantity: 1, Unit: AsSet, Leaf: l, Reason: why, QtyRule: "1 set a leaf, top and bottom"})
		} else {
			lines = append(lines, b.hinges(l, transferID == hngPower))
		}
		if transferID != "" {
			b.transfer(l, transferID)
		}
	}
	if word(b.view, doorsched.Closer) == "spring_hinge" {
		b.springs(lines)
	}
	for _, it := range merge(lines) {
		b.add(it)
	}
}

// transferOf picks how current reaches a leaf: in the US an electric hinge where
// its conductors carry the load, a power transfer for the inrush of latch
// retraction or a leaf edge, a door cord on an existing leaf (common practice).
func (b *builder) transferOf(l Leaf) string {
	switch {
	case !b.carries(l):
		return ""
	case b.existing:
		return doorCord
	case b.uk(), b.choice.Lock == "electrified_panic", l == LeafInactive, b.pivoted():
		return transfer
	}
	return hngPower
}

func (b *builder) transfer(l Leaf, id string) {
	it := Item{ID: id, Quantity: 1, Leaf: l, Reason: "the leaf carries electrified hardware", QtyRule: "1 an electrified leaf",
		Function: "conductors as the wiring schedule", Roles: alike(1, DeviceTransfer, l, Feed)}
	if id == hngPower {
		it.QtyRule = "1 an electrified leaf, in place of one hinge, never the top one"
		it.Function = "in place of " + transferPosition(b.hingeCount(l).n)
	}
	b.add(it)
}

// transferPosition is where the electric hinge goes.
func transferPosition(hinges int) string {
	switch {
	case hinges <= 2:
		return "the bottom hinge"
	case hinges == 3:
		return "the centre hinge"
	}
	return "the hinge next above the bottom"
}

type hingeCount struct {
	n      int
	rule   string
	status doorsched.Status
	needs  []doorsched.FieldID
}

func (b *builder) hingeCount(l Leaf) hingeCount {
	if n, ok := doorsched.HingeCount.In(b.view).Get(); ok && n > 0 && n < 20 {
		return hingeCount{n: int(n), rule: "as scheduled", status: doorsched.Practice}
	}
	h, ok := doorsched.Height.In(b.view).Get()
	if !ok {
		return hingeCount{n: 3, rule: "3 until the height is known", status: doorsched.Practice, needs: []doorsched.FieldID{doorsched.Height.ID()}}
	}
	n, rule, status := hingesByPractice(h, b.region, b.closes[l])
	return hingeCount{n: n, rule: rule, status: status}
}

func (b *builder) hinges(l Leaf, oneIsElectric bool) Item {
	c := b.hingeCount(l)
	it := Item{ID: hngButt, Quantity: c.n, Leaf: l, Reason: "swinging leaf", QtyRule: c.rule, QtyStatus: c.status, Needs: c.needs}
	if oneIsElectric {
		it.Quantity--
		it.QtyRule = fmt.Sprintf("%s; 1 of %d is the electric hinge", it.QtyRule, c.n)
	}
	if b.uk() {
		b.hingeEN(l, &it)
	} else {
		b.hingeUS(l, &it)
	}
	if !b.existing && len(c.needs) == 0 {
		fits(b.view, &b.set.Overlay, doorsched.HingeCount, int64(c.n))
	}
	return it
}

func (b *builder) hingeUS(l Leaf, it *Item) {
	v := b.view
	w := b.width(l)
	h, _ := doorsched.Height.In(v).Get()
	it.Function = "standard weight"
	heavy := b.rated == doorsched.Yes && h > labelledTall || b.closes[l] && w > wideForCloser
	t, ok := doorsched.Thickness.In(v).Get()
	switch {
	case !ok:
		it.Needs = append(it.Needs, doorsched.Thickness.ID())
	case w == 0:
		it.Needs = append(it.Needs, b.sizes.Needs...)
	default:
		height, thick, inTable := HingeHeight(t, w)
		across, inStock := hingeWidth(t)
		heavy = heavy || thick
		if inTable && inStock {
			it.Size = inches(height) + " x " + inches(across)
		} else {
			it.Size = "outside the table of hinge heights: to be designed"
		}
	}
	if heavy {
		it.Function = "heavy weight"
	}
	switch {
	case b.rated == doorsched.Yes:
		it.Function += ", steel, bearing"
	case b.closes[l]:
		it.Function += ", bearing"
	}
	if is(v, doorsched.Exterior) == doorsched.Yes {
		switch word(v, doorsched.Swing) {
		case "with":
			it.Function += ", non-removable pin"
		case "":
			it.Needs = append(it.Needs, doorsched.Swing.ID())
		}
	}
}

// hingeEN gives the EN 1935 grade from the adjusted mass. A closer is taken with
// back-check, the heavier case, because most have it: said as an assumption.
func (b *builder) hingeEN(l Leaf, it *Item) {
	v := b.view
	if g, ok := doorsched.HingeGrade.In(v).Get(); ok {
		it.Function = fmt.Sprintf("grade %d, as scheduled", g)
		return
	}
	fire := b.rated == doorsched.Yes
	kg, needs := b.mass(l)
	h, haveH := doorsched.Height.In(v).Get()
	w := b.width(l)
	if needs != nil || !haveH || w == 0 {
		it.Function = "grade by adjusted leaf mass"
		if fire {
			it.Function += ", at least 11 on a fire door (13 is the usual choice)"
		}
		it.Needs = append(it.Needs, needs...)
		return
	}
	duty := HingeDuty{MassKg: kg, Width: w, Height: h, Closer: b.closes[l], BackCheck: b.closes[l]}
	if duty.BackCheck {
		b.assumeOnce("closer back-check", "yes", "the closer is taken to have back-check, the heavier case for the hinges (EN 1935 adds 75 % of the leaf's mass)")
	}
	grade, ok := HingeGrade(AdjustedMass(duty), fire)
	if !ok {
		it.Function = fmt.Sprintf("adjusted mass %s kg is beyond EN 1935 grade 14 on three hinges: to be designed", doorsched.FormatNumber(AdjustedMass(duty), 0))
		return
	}
	it.Function = fmt.Sprintf("grade %d", grade)
	if !b.existing {
		fits(v, &b.set.Overlay, doorsched.HingeGrade, int64(grade))
	}
}

func (b *builder) assumeOnce(what, value, reason string) {
	for _, a := range b.set.Assumed {
		if a.What == what {
			return
		}
	}
	b.set.Assumed = append(b.set.Assumed, doorsched.Assumption{What: what, Value: value, Reason: reason, By: "hardware", Doors: []string{b.view.Mark}})
}

// leastSprings is the number of spring hinges a labelled leaf needs when they
// close it (verified in a secondary copy of an NFPA 80 article).
const leastSprings = 2

// springs turns two hinges of each leaf into spring hinges.
func (b *builder) springs(lines []Item) {
	for i := range lines {
		if lines[i].ID != hngButt {
			continue
		}
		n := min(leastSprings, lines[i].Quantity)
		lines[i].Quantity -= n
		b.add(Item{ID: hngSpring, Quantity: n, Leaf: lines[i].Leaf, Size: lines[i].Size, Reason: "the schedule closes the leaf by spring hinges",
			QtyRule: "at least 2 a leaf, within the count by height", QtyStatus: doorsched.Verified, Needs: lines[i].Needs})
	}
}

// inches writes a hinge size: 4-1/2".
func inches(l doorsched.Length) string {
	const tick = doorsched.Inch / 64
	whole, rest := l/doorsched.Inch, (l%doorsched.Inch)/tick
	if rest == 0 {
		return fmt.Sprintf("%d\"", whole)
	}
	den := doorsched.Length(64)
	for rest%2 == 0 {
		rest, den = rest/2, den/2
	}
	return fmt.Sprintf("%d-%d/%d\"", whole, rest, den)
}
