package gen

import (
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/gen/result"
)

// questions asks for what rules, the choice of a lock and the circuits need.
func questions(s *doorsched.Schedule, res *result.Result) []doorsched.Query {
	needs := make([][]doorsched.FieldID, len(res.Doors))
	for i := range res.Doors {
		d := &res.Doors[i]
		if d.Given.Verdict == doorsched.OutOfScope {
			continue
		}
		needs[i] = append(needs[i], egress.Needs(d.Given)...)
		needs[i] = append(needs[i], d.Choice.Needs...)
		needs[i] = append(needs[i], d.Circuit.Needs...)
	}
	return doorsched.Queries(s, needs, res.Edition.Region)
}
