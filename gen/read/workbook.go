package read

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/lockrail/gen/ooxml"
)

// readWorkbook reads the sheet that is asked for, or the visible one whose
// header says most.
func readWorkbook(ctx context.Context, name string, data []byte, opt Options) (*Result, error) {
	p, err := ooxml.Open(ctx, bytes.NewReader(data), int64(len(data)), opt.Limits)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var ours Ours
	if opt.Ours != nil {
		ours = opt.Ours(p)
	}
	sheets, err := sheetsToTry(p, name, opt.Sheet, ours)
	if err != nil {
		return nil, err
	}
	var best, closest candidate
	var others []candidate
	for _, info := range sheets {
		g, err := scanGrid(ctx, p, info.Name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		for _, c := range ours.Columns {
			if strings.EqualFold(c.Sheet, info.Name) {
				g.drop(c.First, c.Last)
			}
		}
		r, err := newReader(name, g, opt)
		if err != nil {
			return nil, err
		}
		b, ok := r.findHeader()
		c := candidate{r, b}
		switch {
		case !ok:
			if closest.reader == nil || b.score > closest.score {
				closest = c
			}
		case best.reader == nil:
			best = c
		case c.beats(best):
			others = append(others, best)
			best = c
		default:
			others = append(others, c)
		}
	}
	if best.reader == nil {
		where := "the sheet"
		if len(sheets) > 1 {
			where = fmt.Sprintf("none of %d sheets", len(sheets))
		}
		if hidden := hiddenSheets(p); opt.Sheet == "" && hidden != "" {
			where += " (hidden ones are read only if named: " + hidden + ")"
		}
		return nil, closest.noHeader(closest.band, where)
	}
	out, err := best.read(ctx, best.band, FormatXLSX)
	if err != nil {
		return nil, err
	}
	out.Package = p
	for _, c := range others {
		row := c.grid.rows[c.last]
		out.Problems = append(out.Problems, Problem{Cell: c.grid.cell(row.number, row.cells[0].col), Value: c.grid.sheet,
			Message: fmt.Sprintf("this sheet reads as a door schedule too (%d fields); only %s was read", len(c.fields), best.grid.sheet)})
	}
	return out, nil
}

// candidate is a sheet with a header that may be the schedule's.
type candidate struct {
	*reader
	band
}

// beats prefers a sheet with rows below its header, then the better header.
func (c candidate) beats(o candidate) bool {
	filled := func(c candidate) bool { return len(c.grid.rows) > c.last+1 }
	if filled(c) != filled(o) {
		return filled(c)
	}
	return c.score > o.score
}

func sheetsToTry(p *ooxml.Package, file, want string, ours Ours) ([]ooxml.SheetInfo, error) {
	if want != "" {
		info, ok := p.SheetByName(want)
		if !ok || info.Type != ooxml.Worksheet {
			var have []string
			for _, s := range p.Sheets() {
				if s.Type == ooxml.Worksheet {
					have = append(have, quote(s.Name))
				}
			}
			return nil, &Error{Kind: ErrOption, File: file, Value: want, Msg: "there is no such worksheet; there are " + strings.Join(have, ", ")}
		}
		return []ooxml.SheetInfo{info}, nil
	}
	var out []ooxml.SheetInfo
	for _, s := range p.Sheets() {
		mine := slices.ContainsFunc(ours.Sheets, func(n string) bool { return strings.EqualFold(n, s.Name) })
		if s.Type == ooxml.Worksheet && s.State == ooxml.Visible && !mine {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		return nil, &Error{Kind: ErrNoHeader, File: file, Msg: "there is no visible worksheet; name a hidden one to read it"}
	}
	return out, nil
}

func hiddenSheets(p *ooxml.Package) string {
	var out []string
	for _, s := range p.Sheets() {
		if s.Type == ooxml.Worksheet && s.State != ooxml.Visible {
			out = append(out, quote(s.Name))
		}
	}
	return strings.Join(out, ", ")
}

// scanGrid turns a sheet into a grid of what its cells show.
func scanGrid(ctx context.Context, p *ooxml.Package, name string) (*grid, error) {
	s, err := p.Scan(ctx, name)
	if err != nil {
		return nil, err
	}
	g := &grid{sheet: s.Info.Name}
	columns := map[int]bool{}
	for _, r := range s.Rows {
		row := gridRow{number: r.Number}
		for _, c := range r.Cells {
			cell := shown(p, c)
			if cell.text == "" {
				continue
			}
			row.cells = append(row.cells, cell)
			columns[c.Col] = true
		}
		if len(row.cells) == 0 {
			continue
		}
		g.rows = append(g.rows, row)
		if r.Hidden {
			g.hidden = append(g.hidden, r.Number)
		}
	}
	for _, m := range s.Merges {
		g.merges = append(g.merges, span{m.R1, m.C1, m.R2, m.C2})
	}
	for col := range columns {
		if s.ColumnHidden(col) {
			g.hidCol = append(g.hidCol, col)
		}
	}
	slices.Sort(g.hidCol)
	return g, nil
}

// shown returns a cell as the sheet shows it: marks such as 101.10 and 007 are
// numbers whose format makes them so.
func shown(p *ooxml.Package, c ooxml.Cell) gridCell {
	cell := gridCell{col: c.Col, text: strings.TrimSpace(c.Text)}
	switch c.Kind {
	case ooxml.CellError:
		cell.fault = "the cell holds an error value"
	case ooxml.CellInvalid:
		cell.fault = "the cell is damaged"
		if cell.text == "" {
			cell.text = strings.TrimSpace(c.Raw)
		}
		if cell.text == "" {
			cell.text = "?"
		}
	case ooxml.CellDate:
		cell.fault, cell.date = dateFault, true
	case ooxml.CellNumber:
		if p.Styles().IsDate(c.Style) {
			cell.fault, cell.date = dateFault, true
			if n, err := strconv.ParseFloat(c.Raw, 64); err == nil {
				if t, ok := ooxml.SerialTime(n, p.Date1904()); ok {
					cell.text = t.Format("2006-01-02")
				}
			}
			return cell
		}
		cell.text = strings.TrimSpace(showNumber(p.Styles(), c))
	}
	return cell
}

const dateFault = "the spreadsheet holds a date here; if something like 3-0 was typed, enter it as text"
