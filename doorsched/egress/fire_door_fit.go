package egress

import "example.com/lockrail/doorsched"

// Gaps of NFPA 80: 1/8 in and the tolerance of 1/16 in that steel has.
const (
	eighth       = doorsched.Inch / 8
	sixteenth    = doorsched.Inch / 16
	usualBottom  = 3 * doorsched.Inch / 4
	highBottom   = 3 * doorsched.Inch / 8
	highSill     = 38 * doorsched.Inch
	likeSteelMin = 20 // minutes up to which wood in a steel frame has steel's tolerance
)

var (
	gapSteel  = Fault{Item: "steel", Of: doorsched.Gap.ID(), Refs: []string{"fd-gap-steel"}, Limit: doorsched.TextOf("1/16 to 3/16 in (1.6 to 4.8 mm)")}
	gapWood20 = Fault{Item: "wood to 20 min", Of: doorsched.Gap.ID(), Refs: []string{"fd-gap-wood20"}, Limit: doorsched.TextOf("1/16 to 3/16 in (1.6 to 4.8 mm)")}
	gapWood   = Fault{Item: "wood", Of: doorsched.Gap.ID(), Refs: []string{"fd-gap-wood"}, Limit: doorsched.LengthOf(eighth)}
	bottomGap = Fault{Item: "bottom", Of: doorsched.Undercut.ID(), Refs: []string{"fd-undercut"}, Cite: nfpa80("4.8.4 (older numbers)", doorsched.Memory), Limit: doorsched.LengthOf(usualBottom)}
	sillGap   = Fault{Item: "bottom at a high sill", Of: doorsched.Undercut.ID(), Refs: []string{"fd-undercut-high"}, Cite: bottomGap.Cite, Limit: doorsched.LengthOf(highBottom)}
	smokeGap  = Fault{Item: "threshold gap", Severity: doorsched.Caution, Of: doorsched.Undercut.ID(), Refs: []string{"uk-fd-s-gap"}, Limit: doorsched.NumberOf(3, "mm"),
		Remedies: []Remedy{{"An automatic drop seal", []Change{set(doorsched.DropSeal, doorsched.Yes)}}}}

	gapLine = doorsched.SiteLine{What: "Gap at head, jambs and meeting stiles of the fire door", Field: doorsched.Gap.ID(),
		Limit: "steel: 1/8 in ± 1/16 in (1.6 to 4.8 mm); wood over 20 min: at most 1/8 in (3.2 mm)"}
	bottomLine = doorsched.SiteLine{What: "Gap under the fire door", Limit: "at most 3/4 in (19 mm)", Field: doorsched.Undercut.ID(), Citation: bottomGap.Cite}
	sillLine   = doorsched.SiteLine{What: "Height of the opening's sill above the floor", Limit: "above 38 in (965 mm) the gap under the door is at most 3/8 in (9.5 mm)", Field: doorsched.SillHeight.ID(), Citation: bottomGap.Cite}
	smokeLine  = doorsched.SiteLine{What: "Threshold gap of the smoke door, drop seal down", Limit: "at most 3 mm", Field: doorsched.Undercut.ID()}
)

var edgeGaps = &Rule{
	Slug:     "edge-gaps",
	Title:    "Gaps round a fire door",
	Protects: "Fire and smoke go round the leaf where the gap is wide; the leaf binds where it is tight.",
	Stage:    doorsched.StageCommissioning, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.Gap, doorsched.DoorMat, doorsched.FrameMat, doorsched.Undercut, doorsched.SillHeight, doorsched.Smoke, doorsched.DropSeal),
	Refs:   []string{"fd-gap-steel", "fd-gap-wood20", "fd-gap-wood", "fd-undercut", "fd-undercut-high", "uk-fd-s-gap"},
	Cite: both(nfpa80("6.3.1.7 (2013 numbers)", doorsched.Memory),
		doorsched.Citation{Document: "BS 8214", Edition: "2016", Clause: "9.5.3", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		if c.UK() {
			return require(c, All(c.Rated(), c.smokeDoor()),
				check{Any(AtMost(c, doorsched.Undercut, 3*doorsched.Millimetre), c.Is(doorsched.DropSeal)), &smokeGap, c.toMeasure(doorsched.Undercut.ID(), &smokeLine)})
		}
		return require(c, c.Rated(), c.gapChecks()...)
	},
	Say: func(c Case, f Fault) string {
		switch f.Item {
		case smokeGap.Item:
			return "The gap under this smoke door is " + f.Value.String() + " and it has no drop seal. That does not follow BS 8214, which gives 3 mm."
		case bottomGap.Item, sillGap.Item:
			return "The gap under this fire door is " + c.show(f.Value) + "; the limit is " + c.show(f.Limit) + "."
		case gapWood.Item:
			return "The gap at the edge of this fire door is " + c.show(f.Value) + "; a leaf of this make and rating may have " + c.show(f.Limit) + "."
		}
		return "The gap at the edge of this fire door is " + c.show(f.Value) + ", outside " + f.Limit.String() + "."
	},
}

// gapChecks picks the tolerance from rating, leaf and frame, and only for gaps
// that were measured does it ask what the leaf is made of.
func (c Case) gapChecks() []check {
	gap, measured := doorsched.Gap.In(c.View).Get()
	checks := []check{
		{AtMost(c, doorsched.Undercut, usualBottom), &bottomGap, &bottomLine},
		{Implies(MoreThan(c, doorsched.SillHeight, highSill), AtMost(c, doorsched.Undercut, highBottom)), &sillGap, &sillLine},
	}
	if !measured {
		return append(checks, check{cond(doorsched.Gap.ID(), doorsched.Unknown), &gapSteel, &gapLine})
	}
	inSteel := cond(doorsched.Gap.ID(), doorsched.AnswerOf(gap >= eighth-sixteenth && gap <= eighth+sixteenth))
	inWood := cond(doorsched.Gap.ID(), doorsched.AnswerOf(gap <= eighth))
	steel := c.OneOf(doorsched.DoorMat, "steel")
	short := cond(doorsched.FireRating.ID(), doorsched.Unknown)
	if r, ok := doorsched.FireRating.In(c.View).Get(); ok {
		short = cond(doorsched.FireRating.ID(), doorsched.AnswerOf(r.Minutes <= likeSteelMin))
	}
	wood20 := All(short, c.OneOf(doorsched.DoorMat, "wood", "hpdl"), c.OneOf(doorsched.FrameMat, "hollow_metal"))
	return append(checks,
		check{cond: Implies(steel, inSteel), fault: &gapSteel},
		check{cond: Implies(All(Not(steel), wood20), inSteel), fault: &gapWood20},
		check{cond: Implies(All(Not(steel), Not(wood20)), inWood), fault: &gapWood},
	)
}

// smokeDoor holds for a door that restricts smoke, by its own column or its label.
func (c Case) smokeDoor() Cond {
	if doorsched.Smoke.In(c.View).IsKnown() {
		return c.Is(doorsched.Smoke)
	}
	if r, ok := doorsched.FireRating.In(c.View).Get(); ok && r.Smoke != doorsched.Unknown {
		return cond(doorsched.FireRating.ID(), r.Smoke)
	}
	return cond(doorsched.Smoke.ID(), doorsched.Unknown)
}
