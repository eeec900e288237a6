package hardware

import (
	"fmt"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// closing settles which leaves close themselves, before anything is hung.
func (b *builder) closing() {
	b.closes, b.powers = map[Leaf]bool{}, map[Leaf]bool{}
	v := b.view
	given := word(v, doorsched.Closer)
	if oneOf(word(v, doorsched.Operation), "power_operated", "power_assisted", "low_energy") {
		b.powers[LeafActive] = true
	}
	var why []string
	both := true // the inactive leaf as well
	switch {
	case given == "none":
		b.note("the schedule says no closer: none is in the set")
		return
	case given != "" && given != "auto":
		why = append(why, "the schedule asks for it")
	case is(v, doorsched.SelfClosing) == doorsched.Yes:
		why = append(why, "the schedule says self-closing")
	}
	if b.rated == doorsched.Yes {
		why = append(why, "fire door")
	}
	if b.smoke == doorsched.Yes {
		why = append(why, "smoke door")
	}
	if len(why) == 0 {
		both = false
	}
	if is(v, doorsched.Exterior) == doorsched.Yes {
		why = append(why, "exterior door")
	}
	if b.choice.AccessControlled == doorsched.Yes || b.choice.Electric() {
		why = append(why, "must close to be secured")
	}
	if len(why) == 0 {
		for _, f := range []doorsched.FieldID{doorsched.FireRating.ID(), doorsched.Smoke.ID(), doorsched.Exterior.ID()} {
			if _, ok := v.Get(f); !ok && !(f == doorsched.Smoke.ID() && b.smoke != doorsched.Unknown) {
				b.need(f)
			}
		}
		if len(b.set.Needs) > 0 {
			b.note("whether the door needs a closer is not known: none is in the set")
		}
		return
	}
	b.why = strings.Join(why, ", ")
	b.closes[LeafActive] = true
	if b.leaves == 2 {
		// A bar on each leaf means that each is opened alone and must shut again.
		b.closes[LeafInactive] = both || b.bar
	}
	fits(v, &b.set.Overlay, doorsched.SelfClosing, doorsched.Yes)
	if !b.powers[LeafActive] {
		fits(v, &b.set.Overlay, doorsched.Closer, "self")
	}
}

// control adds coordinator, closers, operator and hold-open.
func (b *builder) control() {
	b.coordinator()
	b.closers()
	if b.powers[LeafActive] {
		b.operator()
	}
	b.holdOpen()
}

func (b *builder) closers() {
	kind := word(b.view, doorsched.Closer)
	if kind == "spring_hinge" {
		return // hung instead: see hang
	}
	var lines []Item
	for _, l := range b.among(b.closes) {
		if b.powers[l] {
			continue
		}
		it := Item{ID: closerItem, Quantity: 1, Leaf: l, Reason: b.why, QtyRule: "1 a self-closing leaf"}
		if n, ok := map[doorsched.Choice]string{"concealed": "concealed closer", "floor_spring": "floor spring", "delayed_action": "delayed-action closer", "swing_free": "swing-free closer"}[kind]; ok {
			it.Name = n
		}
		if b.uk() {
			it.Function, it.Needs = b.closerEN(l)
		} else {
			it.Function = "grade 1, size set on site within the opening force"
		}
		if b.existing && kind == "" {
			it.Action = ActionNew // the schedule shows none
		}
		lines = append(lines, it)
	}
	for _, it := range merge(lines) {
		b.add(it)
	}
}

// merge joins lines that differ in the leaf alone.
func merge(lines []Item) []Item {
	if len(lines) == 2 && lines[0].ID == lines[1].ID && lines[0].Function == lines[1].Function && lines[0].Size == lines[1].Size && lines[0].QtyRule == lines[1].QtyRule {
		it := lines[0]
		it.Quantity += lines[1].Quantity
		it.Leaf = LeafBoth
		it.Roles = append(slices.Clone(it.Roles), lines[1].Roles...)
		return []Item{it}
	}
	return lines
}

// closerEN gives a closer's size by EN 1154.
func (b *builder) closerEN(l Leaf) (string, []doorsched.FieldID) {
	fire := b.rated == doorsched.Yes
	w := b.width(l)
	kg, needs := b.mass(l)
	if w == 0 || needs != nil {
		f := "power size by leaf width and mass"
		if fire {
			f += ", at least 3 on a fire door"
		}
		if w == 0 {
			needs = append(slices.Clone(b.sizes.Needs), needs...)
		}
		return f, needs
	}
	up := 0
	if oneOf(word(b.view, doorsched.Exposure), "weather", "salt") {
		up = 1
	}
	size, ok := CloserSize(w, kg, fire, up)
	if !ok {
		return "beyond EN 1154 size 7: floor spring or operator to be designed", nil
	}
	fits(b.view, &b.set.Overlay, doorsched.CloserMaxSize, int64(size))
	fits(b.view, &b.set.Overlay, doorsched.CloserSize, int64(size))
	s := fmt.Sprintf("power size %d", size)
	if up > 0 {
		s += ", one up for wind"
	}
	return s, nil
}

// mass is the mass of a leaf in kilograms, given or estimated; needs say what
// would settle it.
func (b *builder) mass(l Leaf) (float64, []doorsched.FieldID) {
	if kg, ok := doorsched.LeafMass.In(b.view).Get(); ok {
		return kg, nil
	}
	if m, ok := EstimateMass(b.view, b.region, b.width(l)); ok {
		if a := m.assumption(b.view.Mark); l == LeafActive && !slices.ContainsFunc(b.set.Assumed, func(x doorsched.Assumption) bool { return x.Field == a.Field }) {
			b.set.Assumed = append(b.set.Assumed, a)
		}
		return m.Kg, nil
	}
	return 0, []doorsched.FieldID{doorsched.LeafMass.ID()}
}

func (b *builder) coordinator() {
	if b.leaves != 2 {
		return
	}
	v := b.view
	if is(v, doorsched.Coordinator) == doorsched.No {
		b.note("the schedule says no coordinator: none is in the set")
		return
	}
	overlap := is(v, doorsched.Rebated)
	auto := b.set.Count(boltAuto) > 0
	it := Item{ID: coordItem, Quantity: 1, QtyRule: "1 a pair whose leaves must close in order"}
	switch {
	case is(v, doorsched.Coordinator) == doorsched.Yes:
		it.Reason = "the schedule asks for it"
	case !b.closes[LeafInactive]:
		return
	case overlap == doorsched.Yes:
		it.Reason = "both leaves close and overlap"
	case auto:
		it.Reason = "both leaves close and the inactive leaf's bolts need it shut first"
	case overlap == doorsched.Unknown:
		b.need(doorsched.Rebated.ID())
		b.note("a coordinator is needed if the meeting edges overlap, which is not said")
		return
	default:
		return
	}
	fits(v, &b.set.Overlay, doorsched.Coordinator, doorsched.Yes)
	b.add(it)
}

func (b *builder) operator() {
	kind := word(b.view, doorsched.Operation)
	it := Item{ID: operator, Quantity: 1, Leaf: LeafActive, Reason: "the schedule says power operated", QtyRule: "1 a powered leaf, in place of its closer",
		Function: "low energy", Roles: alike(1, DeviceOperator, LeafActive, Feed, Control)}
	switch kind {
	case "power_operated":
		it.Function = "full or low energy by duty; unlock first, then open"
		if !b.uk() {
			it.Standard = "ANSI/BHMA A156.10 or A156.19"
		}
	case "power_assisted":
		it.Function = "power assist"
	}
	b.add(it)
	if kind != "power_assisted" {
		b.add(Item{ID: actuator, Quantity: 2, Reason: "one on each side", QtyRule: "2 an opening", Function: "wired to the operator"})
	}
	b.note("the operator needs a mains circuit of its own")
}

func (b *builder) holdOpen() {
	kind := word(b.view, doorsched.HoldOpen)
	switch kind {
	case "":
		if !b.existing {
			fits(b.view, &b.set.Overlay, doorsched.HoldOpen, "none") // the set has none
		}
		return
	case "none":
		return
	case "arm", "wedge":
		b.note("the schedule holds the leaf open by a " + string(kind) + ": nothing that fire detection releases is in the set")
		return
	}
	leaves := b.among(b.closes)
	if len(leaves) == 0 {
		leaves = []Leaf{LeafActive}
	}
	it := Item{ID: holder, Quantity: len(leaves), Leaf: together(leaves), Reason: "the schedule holds the leaf open", QtyRule: "1 a held leaf",
		Function: "released by the fire alarm, detection, loss of power and by hand", Roles: perLeaf(leaves, DeviceHoldOpen, Feed, Release)}
	if kind == "closer" {
		it.Name = "closer-holder"
		it.Reason = "the schedule holds the leaf open by its closer"
	}
	b.add(it)
	fitsMeans(b.view, &b.set.Overlay, doorsched.HoldOpenRelease, doorsched.BySmoke|doorsched.ByFireAlarm|doorsched.ByPowerLoss|doorsched.ByManualSwitch)
}
