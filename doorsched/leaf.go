package doorsched

// widestSingle is the width up to which an opening with no leaf count is taken
// for a single leaf: the widest swinging leaf the IBC allowed until 2018
// (1010.1.1, 48 in).
const widestSingle = 48 * Inch

// LeafSizes is what can be said about the leaves of one opening.
type LeafSizes struct {
	Widths  []Length // active leaf first; empty while Unknown
	Needs   []FieldID
	Assumed []Assumption
}

// Leaves works out the leaf widths of a door. A width column may mean a leaf or
// a whole opening; where the schedule does not settle it, Needs says what would.
func (v View) Leaves() LeafSizes {
	var out LeafSizes
	n, counted := Leaves.In(v).Get()
	leaf, hasLeaf := LeafWidth.In(v).Get()
	width, hasWidth := Width.In(v).Get()
	if !hasLeaf && !hasWidth {
		out.Needs = []FieldID{Width.ID()}
		return out
	}
	if !counted {
		switch {
		case hasLeaf && !hasWidth, hasWidth && width <= widestSingle:
			n = 1
			out.Assumed = append(out.Assumed, Assumption{Field: Leaves.ID(), Value: "1",
				Reason: "no leaf count given and the width is at most 48 in (1219.2 mm)", By: "leaves", Doors: []string{v.Mark}})
		default:
			out.Needs = []FieldID{Leaves.ID()}
			return out
		}
	}
	switch {
	case n == 1:
		if !hasLeaf {
			leaf = width
		}
		out.Widths = []Length{leaf}
		return out
	case n != 2:
		out.Needs = []FieldID{Leaves.ID()}
		return out
	}
	if hasLeaf {
		second, ok := InactiveWidth.In(v).Get()
		switch {
		case ok:
		case hasWidth && width > leaf:
			second = width - leaf
		default:
			second = leaf
			out.Assumed = append(out.Assumed, Assumption{Field: InactiveWidth.ID(), Value: leaf.String(),
				Reason: "the inactive leaf is taken equal to the active one", By: "leaves", Doors: []string{v.Mark}})
		}
		out.Widths = []Length{leaf, second}
		return out
	}
	is, known := WidthIs.In(v).Get()
	if !known {
		if width <= widestSingle {
			out.Needs = []FieldID{WidthIs.ID()}
			return out
		}
		is = "opening"
		out.Assumed = append(out.Assumed, Assumption{Field: WidthIs.ID(), Value: "opening",
			Reason: "a pair over 48 in (1219.2 mm) wide: the width is taken for the whole opening, in two equal leaves", By: "leaves", Doors: []string{v.Mark}})
	}
	if is == "opening" {
		width /= 2
	}
	out.Widths = []Length{width, width}
	return out
}
