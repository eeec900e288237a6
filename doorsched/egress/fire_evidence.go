package egress

import "example.com/lockrail/doorsched"

var notCovered = Fault{Item: "evidence", Of: doorsched.FireTestEvidence.ID(), Limit: doorsched.TextOf("yes"),
	Remedies: []Remedy{{"Electric items that the door's own fire evidence names", []Change{set(doorsched.FireTestEvidence, doorsched.Yes)}}}}

var electricItemsEvidence = &Rule{
	Slug:     "electric-items-evidence",
	Title:    "Fire evidence covers the electric lock",
	Protects: "A lock cut into a fire door that was never tested with it may be the hole the fire comes through.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.Lock, doorsched.FireTestEvidence),
	Refs:   []string{"uk-fd-electric"},
	Cite:   onlyUK(doorsched.Citation{Document: "Trade guidance on evidence by BS 476-22 or BS EN 1634-1", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		return require(c, All(c.Rated(), Not(c.OneOf(doorsched.Lock, "none", "mechanical"))), check{cond: c.Is(doorsched.FireTestEvidence), fault: &notCovered})
	},
	Say: func(Case, Fault) string {
		return "The fire evidence of this door does not cover its electric lock. That does not follow trade guidance: an electric item is fitted to a fire door only where the door's own evidence names it."
	},
}

var (
	leaky   = Fault{Item: "leakage", Of: doorsched.SmokeTested.ID(), Refs: []string{"fd-smoke"}, Limit: doorsched.TextOf("UL 1784, at most 3.0 cfm per sq ft"), Remedies: smokeTest}
	leakyUK = Fault{Item: "leakage", Of: doorsched.SmokeTested.ID(), Refs: []string{"uk-fd-s"}, Limit: doorsched.TextOf("evidence by BS 476-31.1 or BS EN 1634-3"), Remedies: smokeTest}
)

var smokeTest = []Remedy{{"A door with evidence of its smoke leakage", []Change{set(doorsched.SmokeTested, doorsched.Yes)}}}

var smokeLeakage = &Rule{
	Slug:     "smoke-leakage",
	Title:    "A smoke door is tested for leakage",
	Protects: "Smoke kills before fire does, through the gaps of a door nobody tested.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.Smoke, doorsched.WallType, doorsched.SmokeTested),
	Refs:   []string{"fd-smoke", "uk-fd-s"},
	Cite:   both(ibc("716.2.2.1", doorsched.Verified), adb("Appendix C", doorsched.Verified)),
	Judge: func(c Case) Judgement {
		tested := c.Is(doorsched.SmokeTested)
		if c.UK() {
			return require(c, c.smokeDoor(), check{cond: tested, fault: &leakyUK})
		}
		return require(c, All(c.Rated(), c.OneOf(doorsched.WallType, "corridor", "smoke_barrier")), check{cond: tested, fault: &leaky})
	},
	Say: func(c Case, _ Fault) string {
		if c.UK() {
			return "This smoke door has no evidence of its leakage. That does not follow Approved Document B, which rests the S or Sa on a test."
		}
		return "This rated door in a corridor or smoke barrier wall is not tested for smoke leakage; UL 1784 with at most 3.0 cfm per square foot is asked of it."
	},
}

// wallRatings is Table 716.1(2) of the IBC: the rating of the door by the kind of
// wall and its hours. Seen in a copy of the 2006 table; per edition from memory.
var wallRatings = []struct {
	hours float64
	walls []doorsched.Choice
	min   int
	ref   string
}{
	{4, []doorsched.Choice{"fire_wall", "fire_barrier"}, 180, "fd-rate-4h"},
	{3, []doorsched.Choice{"fire_wall", "fire_barrier"}, 180, "fd-rate-3h"},
	{2, []doorsched.Choice{"fire_wall", "fire_barrier", "shaft", "exit_stair", "exit_passageway"}, 90, "fd-rate-2h"},
	{1.5, []doorsched.Choice{"fire_wall", "fire_barrier"}, 90, "fd-rate-1h5"},
	{1, []doorsched.Choice{"shaft", "exit_stair", "exit_access_stair", "exit_passageway"}, 60, "fd-rate-1h-exit"},
	{1, []doorsched.Choice{"fire_barrier_other"}, 45, "fd-rate-1h"},
	{1, []doorsched.Choice{"corridor"}, 20, "fd-rate-corridor"},
	{0.5, []doorsched.Choice{"corridor"}, 20, "fd-rate-corridor"},
	{1, []doorsched.Choice{"fire_partition_other"}, 45, "fd-rate-part1"},
	{0.5, []doorsched.Choice{"fire_partition_other"}, 20, "fd-rate-part05"},
	{1, []doorsched.Choice{"smoke_barrier"}, 20, "fd-rate-smoke"},
	{3, []doorsched.Choice{"exterior"}, 90, "fd-rate-ext32"},
	{2, []doorsched.Choice{"exterior"}, 90, "fd-rate-ext32"},
	{1, []doorsched.Choice{"exterior"}, 45, "fd-rate-ext1"},
}

// wallFaults has the row's fault ready for each row of wallRatings.
var wallFaults = func() []Fault {
	out := make([]Fault, len(wallRatings))
	for i, r := range wallRatings {
		out[i] = Fault{
			Item: r.ref, Of: doorsched.FireRating.ID(), Refs: []string{r.ref}, Limit: doorsched.NumberOf(float64(r.min), "min"),
			Remedies: []Remedy{{"A door assembly of the rating the wall asks for", []Change{
				set(doorsched.FireRating, doorsched.Rating{Minutes: r.min, System: doorsched.RatedMinutes})}}},
		}
	}
	// In a 3 h wall two 90 min doors may stand in for one of 180 min.
	out[1].Severity = doorsched.Approval
	return out
}()

var wallRating = &Rule{
	Slug:     "wall-rating",
	Title:    "The door's rating fits its wall",
	Protects: "A door that fails before its wall lets the fire through where people think themselves behind it.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.WallType, doorsched.WallHours, doorsched.FireRating),
	Refs: []string{"fd-rate-4h", "fd-rate-3h", "fd-rate-2h", "fd-rate-1h5", "fd-rate-1h-exit", "fd-rate-1h", "fd-rate-corridor", "fd-rate-part1", "fd-rate-part05",
		"fd-rate-smoke", "fd-rate-ext32", "fd-rate-ext1"},
	Cite: onlyUS(ibc("Table 716.1(2)", doorsched.Memory)),
	Judge: func(c Case) Judgement {
		wall, hours := doorsched.WallType.In(c.View), doorsched.WallHours.In(c.View)
		w, ok := wall.Get()
		if !ok {
			return needs(doorsched.WallType.ID())
		}
		if w == "none" {
			return notApplicable()
		}
		h, ok := hours.Get()
		if !ok {
			return needs(doorsched.WallHours.ID())
		}
		r, rated := doorsched.FireRating.In(c.View).Get()
		for i, row := range wallRatings {
			if row.hours != h || !oneOf(w, row.walls) {
				continue
			}
			enough := cond(doorsched.FireRating.ID(), doorsched.Unknown)
			if rated {
				enough = cond(doorsched.FireRating.ID(), doorsched.AnswerOf(r.Minutes >= row.min))
			}
			f := &wallFaults[i]
			if f.Severity == doorsched.Approval && r.Minutes < 90 {
				f = &threeHourFault
			}
			return require(c, All(cond(doorsched.WallType.ID(), doorsched.Yes), cond(doorsched.WallHours.ID(), doorsched.Yes)), check{cond: enough, fault: f})
		}
		return notApplicable()
	},
	Say: func(c Case, f Fault) string {
		s := "The wall is " + c.quantity(doorsched.WallType.ID()).String() + " of " + c.quantity(doorsched.WallHours.ID()).String() + " and asks for a door of " + f.Limit.String() +
			"; this one is rated " + f.Value.String() + "."
		if f.Severity == doorsched.Approval {
			s += " Two doors of 90 min in the one opening may stand in for it: show the authority that there are two."
		}
		return s
	},
}

// threeHourFault is a door in a 3 h wall under the 90 min that two might have.
var threeHourFault = func() Fault {
	f := wallFaults[1]
	f.Severity = 0
	return f
}()

func oneOf(v doorsched.Choice, in []doorsched.Choice) bool {
	for _, x := range in {
		if x == v {
			return true
		}
	}
	return false
}

const leastFireHinge = 11

var (
	hingeNew  = Fault{Item: "grade", Of: doorsched.HingeGrade.ID(), Limit: doorsched.TextOf("11"), Remedies: fireHinge}
	hingeOld  = Fault{Item: "grade, existing", Severity: doorsched.Caution, Of: doorsched.HingeGrade.ID(), Limit: doorsched.TextOf("11"), Remedies: fireHinge}
	hingeLine = doorsched.SiteLine{What: "EN 1935 grade of the fire door's hinges", Limit: "11 or more; 13 is the usual choice", Field: doorsched.HingeGrade.ID()}
	fireHinge = []Remedy{{"Hinges of grade 11 or more; 13 is the usual choice", []Change{set[int64](doorsched.HingeGrade, 13)}}}
)

var hingeGrade = &Rule{
	Slug:     "hinge-grade",
	Title:    "Hinges of a fire door",
	Protects: "A hinge that sags or melts lets the leaf drop out of the frame.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.FireRating, doorsched.HingeGrade, doorsched.BuildingAge),
	Refs:   []string{"uk-1935-fire11"},
	Cite:   onlyUK(doorsched.Citation{Document: "BS EN 1935", Edition: "2002", Clause: "published guidance for fire doors", Status: doorsched.Verified}),
	Judge: func(c Case) Judgement {
		enough := AtLeast(c, doorsched.HingeGrade, leastFireHinge)
		existing := c.OneOf(doorsched.BuildingAge, "existing")
		if enough.Answer == doorsched.Unknown {
			return require(c, c.Rated(), check{enough, &hingeNew, &hingeLine})
		}
		return require(c, c.Rated(),
			check{cond: Any(enough, existing), fault: &hingeNew},
			check{cond: Any(enough, Not(existing)), fault: &hingeOld},
		)
	},
	Say: func(_ Case, f Fault) string {
		s := "The hinges of this fire door are of grade " + f.Value.String() + "; published guidance gives 11 as the least for a new one. "
		if f.Item == hingeOld.Item {
			return s + "For an existing door the sources disagree: Approved Document B itself speaks only of hinges that do not melt below 800 °C."
		}
		return s + "That does not follow it."
	},
}
