package egress

import "example.com/lockrail/doorsched"

var (
	unwatched = Fault{Item: "door contact", Of: doorsched.DoorContact.ID(), Refs: []string{"uk-60839-status"}, Limit: doorsched.TextOf("yes"),
		Cite:     iec60839("Table 2 row 20"),
		Remedies: []Remedy{{"A door contact wired to the controller", []Change{set(doorsched.DoorContact, doorsched.Yes)}}}}
	oneForAll = Fault{Item: "one open time", Of: doorsched.OpenTimeScope.ID(), Refs: []string{"uk-60839-opentime-sys"}, Limit: doorsched.TextOf("portal"),
		Cite:     iec60839("Table 2 row 21"),
		Remedies: []Remedy{{"A permitted open time set for each door", []Change{set[doorsched.Choice](doorsched.OpenTimeScope, "portal")}}}}
	notPerDoor = Fault{Item: "open time per door", Of: doorsched.OpenTimePerDoor.ID(), Refs: []string{"uk-60839-opentime-door"}, Limit: doorsched.TextOf("yes"),
		Cite:     iec60839("Table 2 row 22"),
		Remedies: []Remedy{{"A controller that sets the open time for each door", []Change{set(doorsched.OpenTimePerDoor, doorsched.Yes)}}}}
)

func iec60839(row string) doorsched.Citation {
	return doorsched.Citation{Document: "BS EN 60839-11-1", Edition: "2013", Clause: row, Status: doorsched.Verified}
}

var accessMonitoring = &Rule{
	Slug:     "access-monitoring",
	Title:    "What the access grade asks of the door",
	Protects: "A door nobody watches stands open unnoticed; the grade the client pays for is not what is fitted.",
	Stage:    doorsched.StageDesign, Severity: doorsched.Conflict,
	Fields: fields(doorsched.AccessControlled, doorsched.AccessGrade, doorsched.DoorContact, doorsched.OpenTimeScope, doorsched.OpenTimePerDoor),
	Refs:   []string{"uk-60839-status", "uk-60839-opentime-sys", "uk-60839-opentime-door"},
	Cite:   onlyUK(iec60839("Table 2")),
	Judge: func(c Case) Judgement {
		high := AtLeast(c, doorsched.AccessGrade, 3)
		return require(c, All(c.Is(doorsched.AccessControlled), AtLeast(c, doorsched.AccessGrade, 2)),
			check{cond: c.Is(doorsched.DoorContact), fault: &unwatched},
			check{cond: Implies(high, Not(c.OneOf(doorsched.OpenTimeScope, "system"))), fault: &oneForAll},
			check{cond: Implies(high, c.Is(doorsched.OpenTimePerDoor)), fault: &notPerDoor},
		)
	},
	Say: func(c Case, f Fault) string {
		grade := "grade " + c.quantity(doorsched.AccessGrade.ID()).String()
		switch f.Item {
		case oneForAll.Item:
			return "One permitted open time serves the whole system. That does not follow BS EN 60839-11-1 at " + grade + ", which does not permit it."
		case notPerDoor.Item:
			return "The permitted open time cannot be set for this door. That does not follow BS EN 60839-11-1 at " + grade + "."
		}
		return "The door's position is not monitored. That does not follow BS EN 60839-11-1 at " + grade + ": from grade 2 the state of the access point is monitored."
	},
}
