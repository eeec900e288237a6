package egress

import "example.com/lockrail/doorsched"

// openingKind asks, of a row with no leaf, no hardware and no lock, whether it
// is a swinging door at all: schedules list lift and roller doors among the rest.
var openingKind = &Rule{
	Slug:     "opening-kind",
	Title:    "Is it a swinging door",
	Protects: "A lift or roller door judged as a swinging one gives false comfort and false alarm.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Caution,
	Fields: fields(doorsched.OpeningKind, doorsched.DoorMaterial, doorsched.DoorMat, doorsched.HardwareSet, doorsched.Lock),
	Refs:   []string{"swing-type"},
	Cite: both(ibc("1010.1.2", doorsched.Memory),
		doorsched.Citation{Document: "Door schedules", Status: doorsched.Practice}),
	Judge: func(c Case) Judgement {
		for _, id := range []doorsched.FieldID{doorsched.OpeningKind.ID(), doorsched.DoorMaterial.ID(), doorsched.DoorMat.ID(), doorsched.HardwareSet.ID(), doorsched.Lock.ID()} {
			if _, known := c.View.Get(id); known {
				return notApplicable()
			}
		}
		return needs(doorsched.OpeningKind.ID())
	},
	Say: func(Case, Fault) string { return "" },
}
