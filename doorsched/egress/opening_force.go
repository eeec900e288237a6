package egress

import "example.com/lockrail/doorsched"

const newton = 4.4482216152605 // in one pound-force

var (
	heavyInterior = Fault{Item: "interior", Of: doorsched.OpenFullForce.ID(), Refs: []string{"force-open-int"}, Limit: doorsched.NumberOf(5*newton, "N")}
	heavyStart    = Fault{Item: "start", Of: doorsched.OpenStartForce.ID(), Refs: []string{"force-open-other"}, Limit: doorsched.NumberOf(30*newton, "N")}
	heavyFull     = Fault{Item: "open", Of: doorsched.OpenFullForce.ID(), Refs: []string{"force-open-other"}, Limit: doorsched.NumberOf(15*newton, "N")}
	heavy30       = Fault{Item: "0 to 30 degrees", Of: doorsched.OpenStartForce.ID(), Refs: []string{"uk-adm-30n"}, Limit: doorsched.NumberOf(30, "N")}
	heavy60       = Fault{Item: "30 to 60 degrees", Of: doorsched.OpenFullForce.ID(), Refs: []string{"uk-adm-225n"}, Limit: doorsched.NumberOf(22.5, "N")}

	interiorLine = doorsched.SiteLine{What: "Force to open an interior door without a rating (not the force to unlatch)", Limit: "at most 5 lbf (22 N)", Field: doorsched.OpenFullForce.ID()}
	startLine    = doorsched.SiteLine{What: "Force to set the leaf in motion, at the latch side", Limit: "at most 30 lbf (133 N)", Field: doorsched.OpenStartForce.ID()}
	fullLine     = doorsched.SiteLine{What: "Force to swing the leaf fully open, at the latch side", Limit: "at most 15 lbf (67 N)", Field: doorsched.OpenFullForce.ID()}
	line30       = doorsched.SiteLine{What: "Force at the leading edge from closed to 30 degrees", Limit: "at most 30 N", Field: doorsched.OpenStartForce.ID()}
	line60       = doorsched.SiteLine{What: "Force at the leading edge from 30 to 60 degrees", Limit: "at most 22.5 N", Field: doorsched.OpenFullForce.ID()}
)

var openingForce = &Rule{
	Slug:     "opening-force",
	Title:    "Force to open",
	Protects: "A child, a frail person or someone in a wheelchair cannot open a heavy door.",
	Stage:    doorsched.StageCommissioning, Severity: doorsched.Conflict,
	Fields: fields(egressReads, doorsched.FireRating, doorsched.Interior, doorsched.Exterior, doorsched.Operation, doorsched.OpenStartForce, doorsched.OpenFullForce, doorsched.Accessible),
	Refs:   []string{"force-open-int", "force-open-other", "uk-adm-30n", "uk-adm-225n"},
	Cite:   both(ibc("1010.1.3", doorsched.Verified), adm("opening force", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		powered := c.OneOf(doorsched.Operation, "power_operated", "power_assisted", "low_energy")
		start, full := doorsched.OpenStartForce.ID(), doorsched.OpenFullForce.ID()
		if c.UK() {
			return require(c, c.Is(doorsched.Accessible),
				check{Any(AtMost(c, doorsched.OpenStartForce, 30), powered), &heavy30, c.toMeasure(start, &line30)},
				check{Any(AtMost(c, doorsched.OpenFullForce, 22.5), powered), &heavy60, c.toMeasure(full, &line60)})
		}
		light := All(Not(c.Rated()), c.inside(), Not(powered))
		return require(c, c.egress(),
			check{AtMost(c, doorsched.OpenStartForce, 30*newton), &heavyStart, c.toMeasure(start, &startLine)},
			check{AtMost(c, doorsched.OpenFullForce, 15*newton), &heavyFull, c.toMeasure(full, &fullLine)},
			check{Any(AtMost(c, doorsched.OpenFullForce, 5*newton), Not(light)), &heavyInterior, c.toMeasure(full, &interiorLine)})
	},
	Say: func(c Case, f Fault) string {
		s := "It took " + c.show(f.Value) + " to open the door; " + c.show(f.Limit) + " is the limit"
		if c.UK() {
			return s + " Approved Document M gives. That does not follow it."
		}
		return s + " here."
	},
}

// inside holds for a door inside the building.
func (c Case) inside() Cond {
	if !doorsched.Interior.In(c.View).IsKnown() && doorsched.Exterior.In(c.View).IsKnown() {
		return Not(c.Is(doorsched.Exterior))
	}
	return c.Is(doorsched.Interior)
}
