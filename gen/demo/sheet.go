package demo

import (
	"fmt"
	"strings"

	"example.com/lockrail/doorsched"
)

// sheet is the schedule of one region as rows of values, before it becomes a
// workbook or a CSV file.
type sheet struct {
	region  doorsched.Region
	at      int // index of the region's words
	columns []column
	title   []string
	head    int // rows of headings
	rows    []line
}

// line is one row under the headings.
type line struct {
	kind  lineKind
	text  string
	door  Door
	cells []any // by column; nil is empty
}

type lineKind uint8

const (
	levelLine lineKind = iota + 1
	doorLine
	blankLine
	totalLine
)

func newSheet(r doorsched.Region) (*sheet, error) {
	s := &sheet{region: r, at: regionIndex(r), head: 3, title: []string{
		"Marram Point Ferry Terminal",
		"Door and hardware schedule, issue C for pricing",
		"Sizes in feet and inches, width of the opening. Read with drawings A-601 and A-602.",
	}}
	levels := [2]string{"LEVEL 1: QUAY LEVEL", "LEVEL 2: CREW AND OFFICES"}
	if r == doorsched.RegionUK {
		s.head = 2
		s.title = []string{
			"Marram Point Ferry Terminal",
			"Doorset and ironmongery schedule, issue C for tender",
			"Sizes in millimetres, width of the leaf. Read with drawings A-601 and A-602.",
		}
		levels = [2]string{"LEVEL 00: QUAY", "LEVEL 01: CREW AND OFFICES"}
	}
	records := make([]doorsched.Record, len(doors))
	used := map[doorsched.FieldID]bool{}
	for i, d := range doors {
		rec, err := d.Record(r)
		if err != nil {
			return nil, err
		}
		records[i] = rec
		for _, v := range rec.All() {
			used[v.Field] = true
		}
	}
	for _, c := range columns() {
		if c.head[s.at] != "" && (c.special != noSpecial || used[c.field]) {
			s.columns = append(s.columns, c)
		}
	}
	s.rows = append(s.rows, line{kind: levelLine, text: levels[0]})
	for i, d := range doors {
		if d.upper && !doors[i-1].upper {
			s.rows = append(s.rows, line{kind: blankLine}, line{kind: levelLine, text: levels[1]})
		}
		s.rows = append(s.rows, line{kind: doorLine, door: d, cells: s.cells(i, d, &records[i])})
	}
	s.rows = append(s.rows, line{kind: blankLine}, line{kind: totalLine, text: "Total"})
	return s, nil
}

// cells fills one door's row. Formulas are the workbook's affair: here stands
// what they come to.
func (s *sheet) cells(n int, d Door, rec *doorsched.Record) []any {
	out := make([]any, len(s.columns))
	for i, c := range s.columns {
		switch c.special {
		case sketchRef:
			if d.sketch != "" {
				out[i] = d.sketch
			}
		case takeoffWidth:
			if !d.missingSize {
				out[i] = float64(d.size.wIn * d.leaves())
			}
		case takeoffHeight:
			if !d.missingSize {
				out[i] = float64(d.size.hIn)
			}
		case area:
			out[i] = s.area(d)
		case costCode:
			out[i] = fmt.Sprintf("08-%03d", 10*(n+1))
		default:
			if t, ok := d.raw(s.region, c.field); ok {
				out[i] = t
			} else if v, ok := rec.Get(c.field); ok {
				out[i] = words(s.region, c, v)
			}
		}
	}
	return out
}

// area is what the area formula comes to, in square feet or square metres.
func (s *sheet) area(d Door) float64 {
	n := float64(d.leaves())
	switch {
	case d.missingSize:
		return 0
	case s.region == doorsched.RegionUK:
		return n * float64(d.size.wMM*d.size.hMM) / 1e6
	}
	return n * float64(d.size.wIn*d.size.hIn) / 144
}

// headRow is the first row of headings, counted from 1: titles and a blank row
// stand above it.
func (s *sheet) headRow() int { return len(s.title) + 2 }

// firstRow is the first row under the headings.
func (s *sheet) firstRow() int { return s.headRow() + s.head }

func (s *sheet) lastRow() int { return s.firstRow() + len(s.rows) - 1 }

// heading gives the texts of a column from the top heading row down. A column
// without a subgroup has its heading in the second row, merged down.
func (s *sheet) heading(c column) []string {
	out := make([]string, s.head)
	out[0] = c.group[s.at]
	if s.head == 3 && c.sub[s.at] != "" {
		out[1], out[2] = c.sub[s.at], c.head[s.at]
	} else {
		out[1] = c.head[s.at]
	}
	return out
}

// span is a run of columns under one merged heading, or a heading merged down.
type span struct {
	row, first, last int // row within the headings, columns, all from 0
	down             int // rows merged below it
	text             string
}

// spans lists the headings as they are merged.
func (s *sheet) spans() []span {
	var out []span
	for row := range s.head {
		for i := 0; i < len(s.columns); i++ {
			text := s.heading(s.columns[i])[row]
			if text == "" {
				continue
			}
			sp := span{row: row, first: i, last: i, text: text}
			merges := row == 0 || row == 1 && s.head == 3 && s.columns[i].sub[s.at] != ""
			for merges && sp.last+1 < len(s.columns) && s.columns[sp.last+1].group == s.columns[i].group &&
				(row == 0 || s.columns[sp.last+1].sub == s.columns[i].sub) {
				sp.last++
			}
			if row == 1 && s.head == 3 && s.columns[i].sub[s.at] == "" {
				sp.down = 1
			}
			out = append(out, sp)
			i = sp.last
		}
	}
	return out
}

func (s *sheet) indexOf(match func(column) bool) int {
	for i, c := range s.columns {
		if match(c) {
			return i
		}
	}
	return -1
}

func (s *sheet) field(f interface{ ID() doorsched.FieldID }) int {
	return s.indexOf(func(c column) bool { return c.field == f.ID() })
}

func (s *sheet) special(k special) int {
	return s.indexOf(func(c column) bool { return c.special == k })
}

// counts and sums of the totals row
func (s *sheet) doorCount() int { return len(doors) }

func (s *sheet) totalArea() float64 {
	sum := 0.0
	for _, d := range doors {
		sum += s.area(d)
	}
	return sum
}

func (s *sheet) countText(col int, text string) int {
	n := 0
	for _, l := range s.rows {
		if l.kind == doorLine {
			if t, ok := l.cells[col].(string); ok && strings.EqualFold(t, text) {
				n++
			}
		}
	}
	return n
}
