package read

import (
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// grid is one sheet as rows of non-blank cells, the common form of CSV and
// workbook.
type grid struct {
	sheet  string
	rows   []gridRow // ascending; rows without text are left out
	merges []span
	hidden []int // numbers of hidden rows that hold text
	hidCol []int // hidden columns that hold text
}

type gridRow struct {
	number int
	cells  []gridCell // ascending columns; no blanks
}

type gridCell struct {
	col   int
	text  string // trimmed, never empty
	fault string // why the text is not what the author meant: an error value, a date
	date  bool   // the fault is that it is a date
}

// span is a merged range.
type span struct{ r1, c1, r2, c2 int }

func (r gridRow) at(col int) (gridCell, bool) {
	i, ok := slices.BinarySearchFunc(r.cells, col, func(c gridCell, col int) int { return c.col - col })
	if !ok {
		return gridCell{}, false
	}
	return r.cells[i], true
}

func (r gridRow) text(col int) string {
	c, _ := r.at(col)
	return c.text
}

// line returns the texts of a row, for messages.
func (r gridRow) line() string {
	var out []string
	for _, c := range r.cells {
		out = append(out, c.text)
	}
	return clip(strings.Join(out, " | "), 80)
}

func (g *grid) cell(row, col int) doorsched.Cell {
	return doorsched.Cell{Sheet: g.sheet, Row: row, Col: col}
}

func (g *grid) lastCol() int {
	last := 0
	for _, r := range g.rows {
		if n := len(r.cells); n > 0 {
			last = max(last, r.cells[n-1].col)
		}
	}
	return last
}

// drop takes columns out as if they had never been there.
func (g *grid) drop(first, last int) {
	rows := g.rows[:0]
	for _, r := range g.rows {
		r.cells = slices.DeleteFunc(r.cells, func(c gridCell) bool { return c.col >= first && c.col <= last })
		if len(r.cells) > 0 {
			rows = append(rows, r)
		}
	}
	g.rows = rows
	g.hidCol = slices.DeleteFunc(g.hidCol, func(c int) bool { return c >= first && c <= last })
}

// spreadDown gives each row under a vertical merge the text of its first cell.
// In the door rows one level or building is often written so. Cells keep their
// own place, so that the text is found where the merged cell shows it.
func (g *grid) spreadDown(firstRow, exceptCol int) {
	for _, m := range g.merges {
		if m.r2 == m.r1 || m.r1 < firstRow || m.c1 != m.c2 || m.c1 == exceptCol {
			continue
		}
		i, ok := g.find(m.r1)
		if !ok {
			continue
		}
		c, ok := g.rows[i].at(m.c1)
		if !ok {
			continue
		}
		for k := i + 1; k < len(g.rows) && g.rows[k].number <= m.r2; k++ {
			r := &g.rows[k]
			at, found := slices.BinarySearchFunc(r.cells, c.col, func(c gridCell, col int) int { return c.col - col })
			if !found {
				r.cells = slices.Insert(r.cells, at, c)
			}
		}
	}
}

func (g *grid) find(number int) (int, bool) {
	return slices.BinarySearchFunc(g.rows, number, func(r gridRow, n int) int { return r.number - n })
}

// table gives a CSV file's cells row by row, row 1 first.
func (g *grid) table() [][]string {
	var out [][]string
	for _, r := range g.rows {
		for len(out) < r.number {
			out = append(out, nil)
		}
		line := make([]string, r.cells[len(r.cells)-1].col)
		for _, c := range r.cells {
			line[c.col-1] = c.text
		}
		out[r.number-1] = line
	}
	return out
}
