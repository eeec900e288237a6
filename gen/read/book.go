package read

import (
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.com/lockrail/gen/ooxml"
)

// bookGrid turns a scanned sheet into rows of texts as a person sees them.
func bookGrid(p *ooxml.Package, s *ooxml.Sheet) *grid {
	g := &grid{sheet: s.Info.Name}
	for _, m := range s.Merges {
		g.merges = append(g.merges, span{m.R1, m.C1, m.R2, m.C2})
	}
	hidden := map[int]bool{}
	for _, row := range s.Rows {
		out := gridRow{number: row.Number}
		for _, c := range row.Cells {
			text, fault := shown(p, c)
			if text == "" {
				continue
			}
			out.cells = append(out.cells, gridCell{col: c.Col, text: text, fault: fault})
			if s.ColumnHidden(c.Col) && !hidden[c.Col] {
				hidden[c.Col] = true
				g.hidCol = append(g.hidCol, c.Col)
			}
		}
		if len(out.cells) == 0 {
			continue
		}
		if row.Hidden {
			g.hidden = append(g.hidden, row.Number)
		}
		g.rows = append(g.rows, out)
	}
	return g
}

// fixed is a number format of digits only: 000, 0.00.
var fixed = regexp.MustCompile(`^(0+)(\.(0+))?$`)

// shown is a cell's text as a person sees it, and why it may not be meant so.
func shown(p *ooxml.Package, c ooxml.Cell) (text, fault string) {
	text = strings.TrimSpace(c.Text)
	switch c.Kind {
	case ooxml.CellError:
		return text, "the cell shows the error " + text
	case ooxml.CellInvalid:
		return text, "the cell cannot be read"
	case ooxml.CellDate:
		return text, "the cell is a date; a spreadsheet may have made it one from a number"
	case ooxml.CellNumber:
	default:
		return text, ""
	}
	if p.Styles().IsDate(c.Style) {
		serial, err := strconv.ParseFloat(c.Raw, 64)
		if err != nil {
			return text, ""
		}
		if t, ok := ooxml.SerialTime(serial, p.Date1904()); ok {
			return strings.TrimSuffix(t.Format(time.DateTime), " 00:00:00"), "the cell is a date; a spreadsheet may have made it one from a number"
		}
		return text, ""
	}
	_, code := p.Styles().NumFmt(c.Style)
	m := fixed.FindStringSubmatch(code)
	n, err := strconv.ParseFloat(c.Raw, 64)
	if m == nil || err != nil || n < 0 {
		return text, ""
	}
	out := strconv.FormatFloat(n, 'f', len(m[3]), 64)
	whole, _, _ := strings.Cut(out, ".")
	return strings.Repeat("0", max(0, len(m[1])-len(whole))) + out, ""
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
