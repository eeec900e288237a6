package egress

import "example.com/lockrail/doorsched"

var (
	narrowAccess   = Fault{Item: "accessible", Refs: []string{"clear-w"}}
	narrowStraight = Fault{Item: "straight on", Refs: []string{"uk-adm-w-straight"}}
	narrowWide     = Fault{Item: "turning from a route of 1500 mm", Refs: []string{"uk-adm-w-1500"}}
	narrowTight    = Fault{Item: "turning from a route of 1200 mm", Refs: []string{"uk-adm-w-1200"}}
	narrowPublic   = Fault{Item: "public entrance", Refs: []string{"uk-adm-w-ext"}}
)

// admWidth judges a clear width that depends on whether the building is new.
func (c Case) admWidth(inNew, inExisting doorsched.Length, f *Fault) Judgement {
	asNew := c.wideEnough(inNew*doorsched.Millimetre, f, false)
	if asNew.State == Held {
		return asNew
	}
	asExisting := c.wideEnough(inExisting*doorsched.Millimetre, f, false)
	age := c.OneOf(doorsched.BuildingAge, "new")
	var j Judgement
	switch {
	case age.Answer == doorsched.No || asExisting.State == Broken && age.Answer == doorsched.Unknown:
		j = asExisting
	case age.Answer == doorsched.Yes:
		j = asNew
	default:
		return needs(join(age.Needs, asExisting.Needs)...)
	}
	for i := range j.Faults {
		j.Faults[i].Fields = join(j.Faults[i].Fields, age.Fields)
	}
	return j
}

var accessibleWidth = &Rule{
	Slug:     "accessible-width",
	Title:    "Clear width for a wheelchair",
	Protects: "A wheelchair that does not pass the door leaves its user outside, or inside.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(widthReads, doorsched.Accessible, doorsched.Approach, doorsched.RouteWidth, doorsched.BuildingAge),
	Refs:   []string{"clear-w", "uk-adm-w-straight", "uk-adm-w-1500", "uk-adm-w-1200", "uk-adm-meas"},
	Cite: both(doorsched.Citation{Document: "ADA Standards", Edition: "2010", Clause: "404.2.3", Status: doorsched.Verified},
		adm("Table 2", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		return whereApplies(c.Is(doorsched.Accessible), func() Judgement {
			if !c.UK() {
				return c.wideEnough(clearUS, &narrowAccess, false)
			}
			straight := c.OneOf(doorsched.Approach, "straight")
			wide := AtLeast(c, doorsched.RouteWidth, 1500*doorsched.Millimetre)
			switch {
			case straight.Answer == doorsched.Yes:
				return c.admWidth(800, 750, &narrowStraight)
			case straight.Answer == doorsched.Unknown:
				// The widest limit of the table settles it without the approach.
				if j := c.admWidth(825, 825, &narrowTight); j.State == Held {
					return j
				}
				return needs(straight.Needs...)
			case wide.Answer == doorsched.Unknown:
				return needs(wide.Needs...)
			case wide.Answer == doorsched.Yes:
				return c.admWidth(800, 750, &narrowWide)
			}
			return whereApplies(AtLeast(c, doorsched.RouteWidth, 1200*doorsched.Millimetre), func() Judgement {
				return c.admWidth(825, 775, &narrowTight)
			})
		})
	},
	Say: func(c Case, f Fault) string {
		s := asLeaf(f) + c.show(f.Value) + "; "
		if c.UK() {
			return s + "Approved Document M gives " + f.Limit.String() + " for this approach. That does not follow it: a wheelchair does not pass freely."
		}
		return s + "the accessibility standard asks for " + c.show(f.Limit) + " clear by one leaf, so that a wheelchair passes."
	},
}

var publicEntranceWidth = &Rule{
	Slug:     "public-entrance-width",
	Title:    "Clear width of a public entrance",
	Protects: "A public entrance that is too narrow turns people with wheelchairs, frames and prams away.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(widthReads, doorsched.Exterior, doorsched.PublicEntrance, doorsched.BuildingAge),
	Refs:   []string{"uk-adm-w-ext"},
	Cite:   onlyUK(adm("Table 2", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		return whereApplies(All(c.Is(doorsched.Exterior), c.Is(doorsched.PublicEntrance)), func() Judgement {
			return c.admWidth(1000, 775, &narrowPublic)
		})
	},
	Say: func(_ Case, f Fault) string {
		return asLeaf(f) + f.Value.String() + "; Approved Document M gives " + f.Limit.String() + " for an external door the public uses. That does not follow it."
	},
}
