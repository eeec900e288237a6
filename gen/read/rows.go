package read

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

var (
	storeyWords   = regexp.MustCompile(`(?i)\b(level|floor|storey|story|basement|ground|mezzanine|roof|penthouse)\b`)
	buildingWords = regexp.MustCompile(`(?i)\b(building|block|wing|tower)\b`)
	totalWords    = regexp.MustCompile(`(?i)^(grand )?(total|totals|count|sum|number of doors)\b`)
)

// read turns the rows under a header into doors.
func (r *reader) read(ctx context.Context, b band) (*Result, error) {
	cols, err := r.resolve(b)
	if err != nil {
		return nil, err
	}
	markAt := slices.IndexFunc(cols, func(c column) bool { return c.Field == doorsched.Mark.ID() })
	if markAt < 0 {
		return nil, r.noHeader(b, "the table")
	}
	mark := cols[markAt].Col
	head := r.grid.rows[b.last].number
	res := &Result{
		Schedule: &doorsched.Schedule{File: r.file},
		Header:   HeaderPlace{r.grid.sheet, r.grid.rows[b.first].number, head},
		Table:    Table{Sheet: r.grid.sheet, MarkCol: mark, LastUsedCol: r.grid.lastCol()},
	}
	for _, row := range r.grid.rows[:b.first] {
		res.Skipped = append(res.Skipped, SkippedRow{row.number, Title, row.line()})
	}
	r.grid.spreadDown(head+1, mark)
	w := &writer{reader: r, res: res, cols: cols}
	w.unit()
	storey, building := "", ""
	last := head
	for _, row := range r.grid.rows[b.last+1:] {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		reason := w.reason(row, b)
		if last > head && reason == "" {
			for n := last + 1; n < row.number; n++ {
				if _, found := r.grid.find(n); !found {
					res.Skipped = append(res.Skipped, SkippedRow{n, Blank, ""})
				}
			}
		}
		if reason != "" {
			res.Skipped = append(res.Skipped, SkippedRow{row.number, reason, row.line()})
			if reason == Section {
				if buildingWords.MatchString(row.line()) {
					building = row.cells[0].text
				} else {
					storey = row.cells[0].text
				}
			}
			continue
		}
		w.door(row, storey, building)
		if res.Table.FirstDataRow == 0 {
			res.Table.FirstDataRow = row.number
		}
		res.Table.LastDataRow, last = row.number, row.number
	}
	slices.SortStableFunc(res.Skipped, func(a, b SkippedRow) int { return a.Row - b.Row })
	for i := range cols {
		cols[i].Samples = r.samples(cols[i].Col, b.last)
		res.Columns = append(res.Columns, cols[i].Column)
	}
	w.places()
	w.twice()
	return res, nil
}

// reason says why a row is no door; "" for a door.
func (w *writer) reason(row gridRow, b band) Reason {
	text, ok := row.at(w.res.Table.MarkCol)
	if same := w.repeats(row, b); same {
		return RepeatedHeader
	}
	if len(row.cells) > 0 && totalWords.MatchString(row.cells[0].text) {
		return Total
	}
	if len(row.cells) == 1 && len(w.cols) > 2 {
		only := row.cells[0].text
		if !ok || storeyWords.MatchString(only) || buildingWords.MatchString(only) || strings.Contains(only, " ") {
			return Section
		}
	}
	if !ok || placeholder(text.text) {
		return NoMark
	}
	return ""
}

// repeats reports whether a row repeats a row of the header.
func (w *writer) repeats(row gridRow, b band) bool {
	for _, h := range w.grid.rows[b.first : b.last+1] {
		if len(row.cells) < 2 || len(h.cells) != len(row.cells) {
			continue
		}
		if slices.EqualFunc(h.cells, row.cells, func(a, b gridCell) bool { return a.col == b.col && key(a.text) == key(b.text) }) {
			return true
		}
	}
	return false
}

func (r *reader) samples(col, header int) []string {
	var out []string
	for _, row := range r.grid.rows[header+1:] {
		if t := row.text(col); t != "" && !slices.Contains(out, t) {
			if out = append(out, clip(t, 24)); len(out) == 3 {
				break
			}
		}
	}
	return out
}

// places makes a home for what is asked about rooms, storeys and buildings.
func (w *writer) places() {
	s := w.res.Schedule
	add := func(places *[]doorsched.Place, name string) {
		if name != "" && !slices.ContainsFunc(*places, func(p doorsched.Place) bool { return p.Name == name }) {
			*places = append(*places, doorsched.Place{Name: name})
		}
	}
	for i := range s.Doors {
		add(&s.Buildings, s.Doors[i].Building)
		add(&s.Storeys, s.Doors[i].Storey)
		add(&s.Rooms, s.Doors[i].Room)
	}
}

// twice reports marks that stand on several doors.
func (w *writer) twice() {
	first := map[string]doorsched.Cell{}
	for _, d := range w.res.Schedule.Doors {
		if c, seen := first[d.Mark]; seen {
			w.res.Problems = append(w.res.Problems, Problem{Cell: d.Source, Door: d.Mark, Field: doorsched.Mark.ID(), Value: d.Mark,
				Message: fmt.Sprintf("The mark %s stands on another door too, at %s; both are kept.", d.Mark, c)})
			continue
		}
		first[d.Mark] = d.Source
	}
	slices.SortStableFunc(w.res.Problems, func(a, b Problem) int {
		if d := a.Cell.Row - b.Cell.Row; d != 0 {
			return d
		}
		return a.Cell.Col - b.Cell.Col
	})
}
