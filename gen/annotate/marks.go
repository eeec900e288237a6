package annotate

import (
	"cmp"
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
)

// markCells outlines the cells of the schedule that findings name, in the colour
// of the worst of them. It is a conditional format, so the cells' own look stays.
func (b *book) markCells() []ooxml.Conditional {
	worst := map[ooxml.Ref]doorsched.Verdict{}
	for _, d := range b.res.Doors {
		for _, f := range d.Findings {
			for _, c := range f.Cells {
				ref := ooxml.Ref{Row: c.Row, Col: c.Col}
				if old, seen := worst[ref]; b.onSchedule(c) && f.Severity <= doorsched.Caution && (!seen || f.Severity < old) {
					worst[ref] = f.Severity
				}
			}
		}
	}
	var out []ooxml.Conditional
	for _, v := range doorsched.Verdicts() {
		var refs []ooxml.Ref
		for ref, w := range worst {
			if w == v {
				refs = append(refs, ref)
			}
		}
		if len(refs) > 0 {
			out = append(out, ooxml.Conditional{
				Ranges: runsDown(refs), Formula: mark,
				Diff: b.plan.Diff(ooxml.Diff{Border: layout.ShadeOf(v.Code()).Line}),
			})
		}
	}
	return out
}

// runsDown joins cells that stand under each other.
func runsDown(refs []ooxml.Ref) []ooxml.Range {
	slices.SortFunc(refs, func(a, b ooxml.Ref) int { return cmp.Or(a.Col-b.Col, a.Row-b.Row) })
	var out []ooxml.Range
	for _, r := range refs {
		if n := len(out); n > 0 && out[n-1].C1 == r.Col && out[n-1].R2 == r.Row-1 {
			out[n-1].R2 = r.Row
			continue
		}
		out = append(out, ooxml.Range{R1: r.Row, C1: r.Col, R2: r.Row, C2: r.Col})
	}
	return out
}
