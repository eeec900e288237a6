package egress

import "example.com/lockrail/doorsched"

// widthReads are the fields that a clear width is judged on.
var widthReads = fields(leafReads, doorsched.ClearWidth, doorsched.Thickness)

// usualThickness is a leaf's thickness where none is given (common practice), and
// usualStop what a frame's stop takes off besides it.
const (
	usualThickness = doorsched.Inch + 3*doorsched.Inch/4
	usualStop      = doorsched.Inch / 2
)

const belowLeaf = "leaf narrower"

var widthLine = doorsched.SiteLine{What: "Clear width with the leaf open 90 degrees, face of the leaf to stop", Field: doorsched.ClearWidth.ID()}

// wideEnough judges a clear width against a limit. A leaf that is itself narrower
// settles it without a clear width. In the US a leaf whose usual clear width
// passes holds on that estimate, which is shown as an assumption and measured on
// site. wholeOpening counts both leaves of a pair; otherwise one leaf alone must
// pass.
func (c Case) wideEnough(limit doorsched.Length, f *Fault, wholeOpening bool) Judgement {
	fault := *f
	fault.Limit = doorsched.LengthOf(limit)
	if clear, ok := doorsched.ClearWidth.In(c.View).Get(); ok {
		if clear >= limit {
			return held()
		}
		fault.Of = doorsched.ClearWidth.ID()
		return Judgement{State: Broken, Faults: []Fault{c.fill(fault, cond(fault.Of, doorsched.No), Cond{})}}
	}
	s := c.View.Leaves()
	if len(s.Widths) == 0 {
		if !doorsched.Width.In(c.View).IsKnown() && !doorsched.LeafWidth.In(c.View).IsKnown() {
			return needs(doorsched.ClearWidth.ID())
		}
		return needs(s.Needs...)
	}
	leaf := doorsched.Length(0)
	for _, w := range s.Widths {
		if wholeOpening {
			leaf += w
		} else {
			leaf = max(leaf, w)
		}
	}
	if leaf < limit {
		fault.Of, fault.Value = c.leafField(), doorsched.LengthOf(leaf)
		fault.Item += ", " + belowLeaf
		return Judgement{State: Broken, Faults: []Fault{c.fill(fault, cond(fault.Of, doorsched.No), Cond{})}, Assumed: s.Assumed}
	}
	if c.UK() {
		return needs(doorsched.ClearWidth.ID())
	}
	thick, ok := doorsched.Thickness.In(c.View).Get()
	if !ok {
		thick = usualThickness
		s.Assumed = append(s.Assumed, doorsched.Assumption{Field: doorsched.Thickness.ID(), Value: usualThickness.FeetInches() + " (" + usualThickness.String() + ")",
			Reason: "usual thickness of a leaf: common practice", By: "clear width", Doors: []string{c.View.Mark}})
	}
	estimate := leaf - doorsched.Length(len(s.Widths))*(thick+usualStop)
	if !wholeOpening {
		estimate = leaf - thick - usualStop
	}
	if estimate < limit {
		return needs(doorsched.ClearWidth.ID())
	}
	line := widthLine
	line.Limit = "at least " + c.show(doorsched.LengthOf(limit))
	s.Assumed = append(s.Assumed, doorsched.Assumption{Field: doorsched.ClearWidth.ID(), Value: estimate.FeetInches() + " (" + estimate.String() + ")",
		Reason: "estimated: leaf less its thickness and 1/2 in, common practice; measure it", By: "clear width", Doors: []string{c.View.Mark}})
	return Judgement{State: Held, Assumed: s.Assumed, Site: []doorsched.SiteLine{line}}
}

// whereApplies runs then only where the rule applies.
func whereApplies(applies Cond, then func() Judgement) Judgement {
	switch applies.Answer {
	case doorsched.No:
		return notApplicable()
	case doorsched.Unknown:
		return needs(applies.Needs...)
	}
	j := then()
	for i := range j.Faults {
		j.Faults[i].Fields = join(j.Faults[i].Fields, applies.Fields)
	}
	return j
}

// asLeaf is how a message calls a width that was judged.
func asLeaf(f Fault) string {
	if f.Of == doorsched.ClearWidth.ID() {
		return "The clear width is "
	}
	return "The leaf itself is only "
}

const (
	clearUS        = 32 * doorsched.Inch
	clearDetention = 28 * doorsched.Inch
)

var (
	narrowUS      = Fault{Item: "32 in", Refs: []string{"clear-w"}}
	narrowSleep   = Fault{Item: "28 in", Refs: []string{"clear-w-i3"}}
	narrowBed     = Fault{Item: "beds", Refs: []string{"clear-w-bed"}}
	narrow60      = Fault{Item: "up to 60", Refs: []string{"uk-adb-w60"}}
	narrow110     = Fault{Item: "up to 110", Refs: []string{"uk-adb-w110"}}
	narrow220     = Fault{Item: "up to 220", Refs: []string{"uk-adb-w220"}}
	narrowAbove   = Fault{Item: "above 220", Refs: []string{"uk-adb-w5"}, Cite: adb("Table 2.3", doorsched.Verified)}
	widthRowsUK   = []string{"uk-adb-w60", "uk-adb-w110", "uk-adb-w220", "uk-adb-w5", "uk-adb-wmeas", "uk-adb-w-capacity"}
	bedsMove      = 41*doorsched.Inch + doorsched.Inch/2
	perPersonFrom = int64(220)
)

// escapeWidth is the clear width Approved Document B gives for a number of
// people, each step as it stands and 5 mm a person above 220.
func escapeWidth(persons int64) (doorsched.Length, *Fault) {
	switch {
	case persons <= 60:
		return 750 * doorsched.Millimetre, &narrow60
	case persons <= 110:
		return 850 * doorsched.Millimetre, &narrow110
	case persons <= perPersonFrom:
		return 1050 * doorsched.Millimetre, &narrow220
	}
	return doorsched.Length(persons) * 5 * doorsched.Millimetre, &narrowAbove
}

var clearWidth = &Rule{
	Slug:     "clear-width",
	Title:    "Clear width of the way out",
	Protects: "A doorway that is too narrow dams the people behind it and stops a wheelchair.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, widthReads, doorsched.Occupancy, doorsched.Accessible),
	Refs:   append([]string{"clear-w", "clear-w-bed", "clear-w-i3"}, widthRowsUK...),
	Cite:   both(ibc("1010.1.1", doorsched.Verified), adb("Table 2.3", doorsched.Memory)),
	Judge: func(c Case) Judgement {
		if c.UK() {
			return whereApplies(All(c.egress(), AtLeast(c, doorsched.OccupantLoad, 1)), func() Judgement {
				n, _ := doorsched.OccupantLoad.In(c.View).Get()
				limit, f := escapeWidth(n)
				return c.wideEnough(limit, f, true)
			})
		}
		return whereApplies(c.egress(), func() Judgement {
			j := c.wideEnough(clearUS, &narrowUS, false)
			switch {
			case j.State == Held:
				// Beds move through a patient room's door.
				if beds := All(c.OneOf(doorsched.DoorUse, "patient_room"), c.Group("I-2")); beds.Answer == doorsched.Yes {
					return c.wideEnough(bedsMove, &narrowBed, false)
				} else if k := c.wideEnough(bedsMove, &narrowBed, false); beds.Answer == doorsched.Unknown && k.State != Held {
					return needs(beds.Needs...)
				}
			case j.State == Broken:
				if low := c.wideEnough(clearDetention, &narrowSleep, false); low.State != Broken {
					sleeps := All(c.Group("I-3"), c.OneOf(doorsched.DoorUse, "resident_sleeping"), Not(c.Is(doorsched.Accessible)))
					switch sleeps.Answer {
					case doorsched.Yes:
						return low
					case doorsched.Unknown:
						return needs(sleeps.Needs...)
					}
				}
			}
			return j
		})
	},
	Say: func(c Case, f Fault) string {
		s := asLeaf(f) + c.show(f.Value) + "; "
		if c.UK() {
			return s + "for " + c.quantity(doorsched.OccupantLoad.ID()).String() + " people Approved Document B gives " + f.Limit.String() + ". That does not follow it; the people behind are held up."
		}
		return s + "the way out asks for " + c.show(f.Limit) + " clear, by one leaf alone of a pair without mullion."
	},
}

var (
	overloaded   = Fault{Item: "0.2 in a person", Refs: []string{"cap-02"}}
	overloadedSp = Fault{Item: "0.15 in a person", Refs: []string{"cap-015"}}
)

// exitCapacity weighs the people that the door serves; where a room's load is
// shared by several doors, the schedule must give each its share.
var exitCapacity = &Rule{
	Slug:     "exit-capacity",
	Title:    "Width for the number of people",
	Protects: "Each person takes a share of the width; too little of it and the last do not get out in time.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(egressReads, widthReads, doorsched.Occupancy, doorsched.Sprinkler, doorsched.VoiceEvac),
	Refs:   []string{"cap-02", "cap-015"},
	Cite:   onlyUS(ibc("1005.3.2", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		// 32 in, which every way out has, takes 160 people at 0.2 in.
		applies := All(c.egress(), MoreThan(c, doorsched.OccupantLoad, int64(clearUS/(doorsched.Inch/5))))
		return whereApplies(applies, func() Judgement {
			n, _ := doorsched.OccupantLoad.In(c.View).Get()
			full := c.wideEnough(doorsched.Length(n)*doorsched.Inch/5, &overloaded, true)
			if full.State == Held {
				return full
			}
			low := c.wideEnough(doorsched.Length(n)*doorsched.Inch*3/20, &overloadedSp, true)
			if low.State == Broken {
				return low
			}
			reduced := All(c.OneOf(doorsched.Sprinkler, "13", "13R"), c.Is(doorsched.VoiceEvac), Not(c.Group("H", "I-2")))
			switch reduced.Answer {
			case doorsched.Yes:
				return low
			case doorsched.Unknown:
				return needs(join(reduced.Needs, full.Needs)...)
			}
			return full
		})
	},
	Say: func(c Case, f Fault) string {
		return asLeaf(f) + c.show(f.Value) + "; the " + c.quantity(doorsched.OccupantLoad.ID()).String() + " people it serves ask for " + c.show(f.Limit) +
			". Where several doors share them, give each door its share."
	},
}
