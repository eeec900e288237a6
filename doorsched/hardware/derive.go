package hardware

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
)

// Derive returns the complete hardware set of one door for a lock that Choose
// chose. Fields that are missing leave items whose Needs name them.
func Derive(v doorsched.View, e doorsched.Edition, c Choice) Set {
	d, ok := look(v, e)
	if !ok {
		return Set{Notes: []string{fmt.Sprintf("edition %q cannot be judged: no set is derived", e)}}
	}
	if egress.OutOfScope(v) {
		return Set{Region: d.region, Notes: []string{"out of scope: no set is derived"}}
	}
	b := builder{door: d, choice: c, eff: v.With(&c.Overlay)}
	b.set = Set{Region: d.region, Leaves: d.leaves, Assumed: slices.Clone(d.sizes.Assumed)}
	if len(d.sizes.Widths) == 0 {
		b.set.Needs = append(b.set.Needs, d.sizes.Needs...)
		if !doorsched.Leaves.In(v).IsKnown() {
			b.assume(doorsched.Leaves.ID(), "1", "no leaf count given: the set is that of a single leaf")
		}
	}
	if c.Lock == "electrified_panic" || isBar(b.hardware()) {
		b.bar = true
	}
	b.closing()
	b.hang()
	b.secure()
	b.control()
	b.protect()
	b.electronic()
	b.finish()
	return b.set
}

// Proposed is everything a choice and its set settle, where the schedule does
// not: egress.JudgeDoor(v.With(&rec), e) judges the proposed door.
func Proposed(c Choice, s Set) doorsched.Record {
	out := c.Overlay.Clone()
	for _, v := range s.Overlay.All() {
		out.Put(v)
	}
	return out
}

// builder gathers the items of one set.
type builder struct {
	door
	choice Choice
	eff    doorsched.View // the schedule with the choice on it
	set    Set
	bar    bool          // an exit device is on the leaf
	closes map[Leaf]bool // leaves that close themselves
	powers map[Leaf]bool // leaves moved by an operator
	why    string        // why the leaves close themselves
}

func (b *builder) hardware() doorsched.Choice  { return word(b.eff, doorsched.EgressHardware) }
func (b *builder) latchType() doorsched.Choice { return word(b.eff, doorsched.LatchType) }

func (b *builder) uk() bool { return b.region == doorsched.RegionUK }

// release is the arrangement of the chosen candidate.
func (b *builder) release() string {
	c, _ := b.choice.Best()
	return c.Release
}

// freeExit reports whether the chosen lock leaves a free mechanical way out.
func (b *builder) freeExit() bool { return is(b.eff, doorsched.MechanicalEgress) == doorsched.Yes }

func (b *builder) add(it Item) {
	i := kindIndex(it.ID)
	if i < 0 || it.Quantity <= 0 {
		return
	}
	k := kinds[i]
	it.Group = k.Section(b.region)
	it.Name = cmp.Or(it.Name, k.Name(b.region))
	it.Standard = cmp.Or(it.Standard, k.Standard(b.region))
	it.Unit = cmp.Or(it.Unit, Each)
	it.QtyStatus = cmp.Or(it.QtyStatus, doorsched.Practice)
	it.Action = cmp.Or(it.Action, b.action(it))
	b.set.Items = append(b.set.Items, it)
}

// action is what is to be done about an item: on an existing door what only a
// survey can show to be there is taken as staying, electric items as new.
func (b *builder) action(it Item) Action {
	if !b.existing || len(it.Roles) > 0 {
		return ActionNew
	}
	return ActionExisting
}

func (b *builder) need(ids ...doorsched.FieldID) { b.set.Needs = append(b.set.Needs, ids...) }

func (b *builder) note(s string) { b.set.Notes = append(b.set.Notes, s) }

func (b *builder) assume(f doorsched.FieldID, value, reason string) {
	b.set.Assumed = append(b.set.Assumed, doorsched.Assumption{Field: f, Value: value, Reason: reason, By: "hardware", Doors: []string{b.view.Mark}})
}

// perLeaf makes one role of each kind for the device on each leaf.
func perLeaf(leaves []Leaf, device Device, ks ...RoleKind) []Role {
	var out []Role
	for _, l := range leaves {
		for _, k := range ks {
			out = append(out, Role{k, device, l, 1})
		}
	}
	return out
}

// alike makes the roles of n alike devices on one leaf or beside the door.
func alike(n int, device Device, l Leaf, ks ...RoleKind) []Role {
	var out []Role
	for i := range n {
		for _, k := range ks {
			out = append(out, Role{k, device, l, i + 1})
		}
	}
	return out
}

// among lists the leaves of the door that are in a set of leaves.
func (b *builder) among(in map[Leaf]bool) []Leaf {
	var out []Leaf
	for _, l := range b.leafList() {
		if in[l] {
			out = append(out, l)
		}
	}
	return out
}

// together is the leaf word for a list of leaves.
func together(leaves []Leaf) Leaf {
	switch len(leaves) {
	case 0:
		return LeafNone
	case 1:
		return leaves[0]
	}
	return LeafBoth
}

// finish puts the items in the region's order and gathers what they need.
func (b *builder) finish() {
	order := sectionOrders[b.region]
	slices.SortStableFunc(b.set.Items, func(x, y Item) int {
		return cmp.Or(
			cmp.Compare(slices.Index(order, x.Group), slices.Index(order, y.Group)),
			cmp.Compare(kindIndex(x.ID), kindIndex(y.ID)),
			cmp.Compare(leafRank(x.Leaf), leafRank(y.Leaf)),
		)
	})
	for _, it := range b.set.Items {
		b.set.Needs = append(b.set.Needs, it.Needs...)
	}
	b.set.Needs = append(b.set.Needs, b.choice.Needs...)
	slices.Sort(b.set.Needs)
	b.set.Needs = slices.Compact(b.set.Needs)
	if doorsched.KeySet.In(b.view).IsKnown() {
		b.note("finish is the owner's to say")
	} else {
		b.note("finish and keying are the owner's to say")
	}
	if b.existing {
		b.note("existing door: what stays is to be confirmed by survey")
	}
}

func leafRank(l Leaf) int {
	return slices.Index([]Leaf{LeafBoth, LeafActive, LeafInactive, LeafNone}, l)
}
