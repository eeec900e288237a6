package egress

import "example.com/lockrail/doorsched"

// Needs lists the fields that a door's rules wait for, the first rule's first.
// What only a measurement on site can settle is left out.
func Needs(r Report) []doorsched.FieldID {
	var out []doorsched.FieldID
	for _, o := range r.Outcomes {
		if !o.OnSite {
			out = append(out, o.Needs...)
		}
	}
	return out
}

// Queries gathers what the reports could not judge into questions for the
// client; see doorsched.Queries. reports[i] belongs to s.Doors[i].
func Queries(s *doorsched.Schedule, reports []Report, e doorsched.Edition) []doorsched.Query {
	needs := make([][]doorsched.FieldID, len(reports))
	for i, r := range reports {
		needs[i] = Needs(r)
	}
	info, _ := e.Info()
	return doorsched.Queries(s, needs, info.Region)
}
