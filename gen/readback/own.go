// Package readback finds in a workbook what an earlier run of lockrail added,
// and reads what people wrote there since: answers to queries, and settings. It
// is for the pipeline and the writers; a workbook that we never touched gives
// nothing.
package readback

import (
	"context"
	"slices"
	"strings"

	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/read"
	"example.com/lockrail/gen/result"
)

// Own is what is ours in a workbook, and what was written there.
type Own struct {
	Sheets   map[string]string // key of the sheet to its title now
	Columns  []Columns
	Answers  []result.Answer
	Settings []Setting // in the sheet's order
}

// Columns is the range that one defined name of ours covers. A person may have
// put columns between ours; those are theirs.
type Columns struct {
	Name  string // the defined name
	Sheet string
	All   ooxml.Range
	Cols  []int // those that are headed as ours
}

// Setting is one line of Settings.
type Setting struct{ Name, Value, Note string }

// Names of settings: the edition, and SettingColumn followed by a field's name
// for the heading that the field is read from.
const (
	SettingEdition = "edition"
	SettingColumn  = "column "
)

// Setting returns the value of a setting, or nothing.
func (o Own) Setting(name string) string {
	for _, s := range o.Settings {
		if s.Name == name && s.Value != "" {
			return s.Value
		}
	}
	return ""
}

// ColumnMap returns the headings that Settings names for fields.
func (o Own) ColumnMap() map[string]string {
	out := map[string]string{}
	for _, s := range o.Settings {
		if field, ok := strings.CutPrefix(s.Name, SettingColumn); ok && s.Value != "" {
			out[field] = s.Value
		}
	}
	return out
}

// Ours lists what a reader of the schedule leaves out.
func (o Own) Ours() read.Ours {
	var out read.Ours
	for _, s := range layout.Sheets() {
		if title, ok := o.Sheets[s.Key]; ok {
			out.Sheets = append(out.Sheets, title)
		}
	}
	for _, c := range o.Columns {
		_, runs := c.Clear()
		for _, r := range runs {
			out.Columns = append(out.Columns, read.SheetColumns{Sheet: c.Sheet, First: r.First, Last: r.Last})
		}
	}
	return out
}

// Read finds what is ours. A nil package (a CSV file) holds nothing.
func Read(ctx context.Context, p *ooxml.Package) (Own, error) {
	if p == nil {
		return Own{}, nil
	}
	o, err := find(ctx, p)
	if err != nil {
		return o, err
	}
	if o.Answers, err = answers(ctx, p, o); err != nil {
		return o, err
	}
	o.Settings, err = settings(ctx, p, o)
	return o, err
}

// find follows our defined names. One whose sheet or cells are gone is as if
// it had never been.
func find(ctx context.Context, p *ooxml.Package) (Own, error) {
	o := Own{Sheets: map[string]string{}}
	for _, n := range p.Names() {
		if n.Sheet != "" {
			continue // a copy of a sheet carries copies of its names
		}
		key, isSheet := layout.SheetKey(n.Name)
		if !isSheet && !layout.IsResultName(n.Name) {
			continue
		}
		title, at, ok := target(n.Formula)
		info, found := p.SheetByName(title)
		if !ok || !found || info.Type != ooxml.Worksheet {
			continue
		}
		if isSheet {
			o.Sheets[key] = info.Name
			continue
		}
		sheet, err := p.Scan(ctx, info.Name)
		if err != nil {
			return o, err
		}
		c := Columns{Name: n.Name, Sheet: info.Name, All: at}
		for col := at.C1; col <= at.C2; col++ {
			if head, ok := sheet.Cell(at.R1, col); ok && isResultTitle(head.Text) {
				c.Cols = append(c.Cols, col)
			}
		}
		o.Columns = append(o.Columns, c)
	}
	return o, nil
}

// target reads 'Door schedule'!$S$4:$AA$140.
func target(formula string) (sheet string, r ooxml.Range, ok bool) {
	i := strings.LastIndexByte(formula, '!')
	if i < 1 {
		return "", r, false
	}
	sheet = formula[:i]
	if len(sheet) > 1 && sheet[0] == '\'' && sheet[len(sheet)-1] == '\'' {
		sheet = strings.ReplaceAll(sheet[1:len(sheet)-1], "''", "'")
	}
	r, err := ooxml.ParseRange(formula[i+1:])
	return sheet, r, err == nil
}

func isResultTitle(s string) bool {
	return slices.ContainsFunc(layout.Results(), func(c layout.Column) bool { return s == c.Title.US || s == c.Title.UK })
}

// Clear gives the cells of ours, and runs the columns they stand in.
func (c Columns) Clear() (cells []ooxml.Range, runs []ooxml.Span) {
	for _, col := range c.Cols {
		if n := len(runs); n > 0 && runs[n-1].Last == col-1 {
			runs[n-1].Last = col
			continue
		}
		runs = append(runs, ooxml.Span{First: col, Last: col})
	}
	for _, s := range runs {
		cells = append(cells, ooxml.Range{R1: c.All.R1, C1: s.First, R2: c.All.R2, C2: s.Last})
	}
	return cells, runs
}

// Holds reports whether a cell is ours.
func (c Columns) Holds(row, col int) bool {
	return c.All.Contains(row, col) && slices.Contains(c.Cols, col)
}
