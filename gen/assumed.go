package gen

import (
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

// allAssumed collects the assumptions of every door and supply.
func allAssumed(res *result.Result) []doorsched.Assumption {
	var all []doorsched.Assumption
	for i := range res.Doors {
		d := &res.Doors[i]
		for _, list := range [][]doorsched.Assumption{d.View.Leaves().Assumed, d.Given.Assumed, d.Set.Assumed, d.Circuit.Assumed} {
			for _, a := range list {
				if len(a.Doors) == 0 {
					a.Doors = []string{d.Mark}
				}
				all = append(all, a)
			}
		}
	}
	for _, s := range res.Supplies {
		all = append(all, s.Assumed...)
	}
	return all
}

// mergeAssumptions joins equal assumptions and sorts them by field; doors stand
// in the schedule's order.
func mergeAssumptions(all []doorsched.Assumption, place map[string]int) []doorsched.Assumption {
	type key struct {
		field                   doorsched.FieldID
		what, value, reason, by string
	}
	at := map[key]int{}
	var out []doorsched.Assumption
	for _, a := range all {
		k := key{a.Field, a.What, a.Value, a.Reason, a.By}
		i, seen := at[k]
		if !seen {
			at[k] = len(out)
			a.Doors = slices.Clone(a.Doors)
			out = append(out, a)
			continue
		}
		out[i].Doors = append(out[i].Doors, a.Doors...)
	}
	for i := range out {
		slices.SortStableFunc(out[i].Doors, func(a, b string) int {
			if d := place[a] - place[b]; d != 0 {
				return d
			}
			return strings.Compare(a, b)
		})
		out[i].Doors = slices.Compact(out[i].Doors)
	}
	slices.SortStableFunc(out, func(a, b doorsched.Assumption) int {
		if d := int(a.Field) - int(b.Field); d != 0 {
			return d
		}
		return strings.Compare(a.What+"\x00"+a.Value+"\x00"+a.Reason+"\x00"+a.By, b.What+"\x00"+b.Value+"\x00"+b.Reason+"\x00"+b.By)
	})
	return out
}
