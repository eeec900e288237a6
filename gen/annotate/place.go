package annotate

import (
	"fmt"

	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/readback"
)

// place is where the result columns go.
type place struct {
	first    int // column
	head     int // row of their headings: the schedule's last header row
	last     int // row of the last door
	fresh    bool
	clear    []ooxml.Range
	dropCols []ooxml.Span
}

// placeColumns keeps the columns where an earlier run put them, as long as the
// user's area has not grown up to them; otherwise they go right of everything,
// after one blank column.
func (b *book) placeColumns() (place, error) {
	at := place{head: b.res.Place.HeadLast, last: b.res.Place.LastRow}
	for i := range b.res.Doors {
		at.last = max(at.last, b.res.Doors[i].Source.Row)
	}
	n := len(layout.Results())
	var old readback.Columns
	for _, c := range b.own.Columns {
		if c.Name == layout.ResultName("1") && c.Sheet == b.schedule.Info.Name {
			old = c
		}
	}
	cells, runs := old.Clear()
	at.clear = cells
	if len(runs) == 1 && runs[0].First == old.All.C1 && runs[0].Last == old.All.C2 && b.free(old, at, n) {
		at.first = old.All.C1
		// A row added at the end may carry the format of the row above; our part of it is ours.
		at.clear = append(at.clear, ooxml.Range{R1: at.head, C1: at.first, R2: at.last, C2: at.first + n - 1})
		return at, nil
	}
	at.fresh, at.dropCols = true, runs
	at.first = b.rightEdge(old) + 2
	if at.first+n-1 > ooxml.MaxColumn {
		return at, fmt.Errorf("sheet %q has no room for %d columns right of column %s", b.schedule.Info.Name, n, ooxml.ColumnName(at.first-2))
	}
	return at, nil
}

// free reports whether the columns that we have, and the blank one before them,
// hold nothing of the user's in the rows of the schedule.
func (b *book) free(old readback.Columns, at place, n int) bool {
	r := ooxml.Range{R1: at.head, C1: max(old.All.C1-1, 1), R2: at.last, C2: old.All.C1 + n - 1}
	for _, c := range b.schedule.Cells {
		if r.Contains(c.Row, c.Col) && !old.Holds(c.Row, c.Col) && (c.Kind != ooxml.CellBlank || c.HasFormula) {
			return false
		}
	}
	for _, t := range b.schedule.Tables {
		if t.Range.Overlaps(r) {
			return false
		}
	}
	for _, m := range b.schedule.Merges {
		if m.Overlaps(r) {
			return false
		}
	}
	return true
}

// rightEdge is the sheet's right edge as it would be without our columns.
func (b *book) rightEdge(old readback.Columns) int {
	if len(old.Cols) == 0 {
		return b.schedule.RightEdge()
	}
	e := b.schedule.Edges()
	edge := max(e.Tables, e.Merges, e.Drawings)
	for _, c := range b.schedule.Cells {
		if !old.Holds(c.Row, c.Col) {
			edge = max(edge, c.Col)
		}
	}
	for _, n := range b.schedule.Notes {
		if !old.Holds(n.Row, n.Col) {
			edge = max(edge, n.Col)
		}
	}
	// A filter that was widened over our columns ends with them, not beyond.
	if e.AutoFilter < old.All.C1 || e.AutoFilter > old.All.C2 {
		edge = max(edge, e.AutoFilter)
	}
	return edge
}
