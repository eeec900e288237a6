package doorsched

import (
	"cmp"
	"slices"
)

// Queries gathers what doors need into questions for the client: one for a
// field and the place it belongs to. A field of a building is asked once a
// building, of a room once a room, of a door or leaf once with all its doors;
// doors whose building or room has no name are asked about together. What only
// commissioning can settle is not asked. needs[i] belongs to s.Doors[i]. The
// question that unlocks the most doors comes first.
func Queries(s *Schedule, needs [][]FieldID, r Region) []Query {
	type key struct {
		field FieldID
		place string
	}
	var out []Query
	at := map[key]int{}
	for i := range min(len(needs), len(s.Doors)) {
		d := &s.Doors[i]
		asked := map[FieldID]bool{}
		for _, id := range needs[i] {
			info, ok := FieldInfo(id)
			if !ok || asked[id] || info.Stage == StageCommissioning {
				continue
			}
			asked[id] = true
			k := key{id, placeOf(d, info.Scope)}
			n, have := at[k]
			if !have {
				n = len(out)
				at[k] = n
				q := Query{ID: info.Name, Scope: info.Scope, Of: k.place, Field: id}
				if k.place != "" {
					q.ID += " @ " + k.place
				}
				q.Question, q.Choices = info.Question(r)
				out = append(out, q)
			}
			out[n].Doors = append(out[n].Doors, d.Mark)
		}
	}
	slices.SortStableFunc(out, func(a, b Query) int {
		return cmp.Or(cmp.Compare(len(b.Doors), len(a.Doors)), cmp.Compare(a.Field, b.Field), cmp.Compare(a.Of, b.Of))
	})
	return out
}

// placeOf names the place that a field of a scope belongs to for a door.
func placeOf(d *Door, s Scope) string {
	switch s {
	case ScopeBuilding:
		return d.Building
	case ScopeStorey:
		return d.Storey
	case ScopeRoom:
		return d.Room
	}
	return ""
}
