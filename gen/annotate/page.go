package annotate

import (
	"math"
	"strings"
	"unicode/utf8"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
)

// page fills one sheet of ours, line by line. Cells are named by the keys of the
// sheet's columns.
type page struct {
	sheet  layout.Sheet
	look   look
	region string
	row    int
	filled map[int]bool // columns of the current line
	lines  map[int]int  // of text, by row
	cells  []ooxml.NewCell
	links  []ooxml.Link
	valid  []ooxml.Validation
	tall   bool // portrait
}

func newPage(s layout.Sheet, l look, region string) *page {
	p := &page{sheet: s, look: l, region: region, row: layout.FirstRow, filled: map[int]bool{}, lines: map[int]int{}}
	p.cells = append(p.cells, l.text(layout.PurposeRow, 1, s.Purpose.In(region), ooxml.Style{Italic: true}))
	for i, c := range s.Columns {
		style := l.heading(true)
		if c.Users {
			style.Fill = layout.Input
		}
		p.add(layout.HeadRow, i+1, c.Title.In(region), style)
	}
	return p
}

func (p *page) text(key, s string) { p.styled(key, s, p.look.body()) }

func (p *page) bold(key, s string) {
	style := p.look.body()
	style.Bold = true
	p.styled(key, s, style)
}

func (p *page) verdict(key string, v doorsched.Verdict) {
	p.styled(key, v.String(), filled(p.look.body(), v))
}

func (p *page) styled(key, s string, style ooxml.Style) {
	col := p.sheet.Column(key)
	if s == "" || col == 0 {
		return
	}
	p.filled[col] = true
	p.add(p.row, col, s, style)
}

// add puts wrapped text and counts the lines it takes. Programs do not agree on
// fitting rows when they open a file, so heights are given: a little generous,
// as fonts differ.
func (p *page) add(row, col int, s string, style ooxml.Style) {
	p.cells = append(p.cells, p.look.text(row, col, s, style))
	width := p.sheet.Columns[col-1].Width
	if style.Bold {
		width *= 0.9
	}
	p.lines[row] = max(p.lines[row], wrapped(s, int(width)))
}

// wrapped counts the lines that text takes at a width in characters.
func wrapped(s string, width int) int {
	lines := 0
	for _, par := range strings.Split(s, "\n") {
		lines++
		room := width
		for _, word := range strings.Fields(par) {
			n := utf8.RuneCountInString(word)
			if n > room && room < width {
				lines++
				room = width
			}
			for n > width {
				lines++
				n -= width
			}
			room -= n + 1
		}
	}
	return lines
}

// number puts a number rounded to places, which are always shown.
func (p *page) number(key string, v float64, places int) {
	col := p.sheet.Column(key)
	if col == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	format, scale := "0", math.Pow10(places)
	if places > 0 {
		format = "0." + strings.Repeat("0", places)
	}
	p.filled[col] = true
	p.cells = append(p.cells, p.look.number(p.row, col, math.Round(v*scale)/scale, format, p.look.body()))
}

// known puts a number where there is one.
func known[T ~float64](p *page, key string, v doorsched.Opt[T], places int) {
	if n, ok := v.Get(); ok {
		p.number(key, float64(n), places)
	}
}

// user puts a cell of the user's, with a tint that shows where to write.
func (p *page) user(key, s string) {
	style := p.look.body()
	style.Fill = layout.Input
	col := p.sheet.Column(key)
	p.filled[col] = true
	p.add(p.row, col, s, style)
}

// link lets the current line's cell lead to a place in the workbook.
func (p *page) link(key, sheet string, c doorsched.Cell) {
	p.links = append(p.links, ooxml.Link{Row: p.row, Col: p.sheet.Column(key), Target: ooxml.QuoteSheet(sheet) + "!" + c.Ref()})
}

// choose offers choices for the current line's cell; other words are allowed.
func (p *page) choose(key string, choices []string) {
	list := strings.Join(choices, ",")
	if len(choices) < 2 || len([]rune(list)) > 255 || strings.ContainsAny(strings.Join(choices, ""), `,"`) {
		return
	}
	at := ooxml.Range{R1: p.row, C1: p.sheet.Column(key), R2: p.row, C2: p.sheet.Column(key)}
	for i := range p.valid {
		if strings.Join(p.valid[i].List, ",") == list {
			p.valid[i].Ranges = append(p.valid[i].Ranges, at)
			return
		}
	}
	p.valid = append(p.valid, ooxml.Validation{Ranges: []ooxml.Range{at}, List: choices, Warn: true})
}

// next ends the line.
func (p *page) next() { p.end(p.look.body()) }

// end makes empty cells of those that were left out, so that the lines between
// cells are whole.
func (p *page) end(blank ooxml.Style) {
	for i, c := range p.sheet.Columns {
		if !p.filled[i+1] {
			style := blank
			if c.Users && style.Fill == "" {
				style.Fill = layout.Input
			}
			p.cells = append(p.cells, ooxml.BlankCell(p.row, i+1, p.look.plan.Style(style)))
		}
	}
	clear(p.filled)
	p.row++
}

// none says that there is nothing to list; without it an empty table reads as
// one that was forgotten.
func (p *page) none(s string) {
	if p.row == layout.FirstRow {
		p.cells = append(p.cells, p.look.text(p.row, 1, s, ooxml.Style{}))
	}
}

// Heights in points: one line of text at 11 points, and the format's bound.
const (
	lineHeight = 15
	tallestRow = 409
)

// Paper sizes of the format (ECMA-376 part 1, 18.3.1.63).
const (
	paperLetter = 1
	paperA4     = 9
)

// footer stands under every printed page of ours: a page can be parted from the
// Summary that carries the full caution.
const footer = "&L&A. The local code, the authority having jurisdiction and licensed practice decide.&RPage &P of &N"

func (p *page) put(title string) ooxml.PutSheet {
	last := max(p.row-1, layout.HeadRow)
	out := ooxml.PutSheet{
		Name: title, Cells: p.cells, Links: p.links, Validations: p.valid,
		FreezeRows: layout.HeadRow, TitleRows: ooxml.Span{First: layout.PurposeRow, Last: layout.HeadRow},
		AutoFilter: ooxml.Range{R1: layout.HeadRow, C1: 1, R2: last, C2: len(p.sheet.Columns)},
		Landscape:  !p.tall, FitToWidth: true, Paper: paperLetter, Footer: footer,
	}
	if p.region == string(doorsched.RegionUK) {
		out.Paper = paperA4
	}
	for row := layout.HeadRow; row <= last; row++ {
		if n := p.lines[row]; n > 1 {
			out.Heights = append(out.Heights, ooxml.RowHeight{Row: row, Height: min(float64(n)*lineHeight, tallestRow)})
		}
	}
	for i, c := range p.sheet.Columns {
		out.Columns = append(out.Columns, ooxml.ColumnWidth{First: i + 1, Last: i + 1, Width: c.Width})
	}
	return out
}
