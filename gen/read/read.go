package read

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
)

// Format is the kind of file a schedule was read from.
type Format string

// Formats. A workbook with macros (.xlsm) is FormatXLSX too.
const (
	FormatCSV  Format = "csv"
	FormatXLSX Format = "xlsx"
)

// Options says what the caller knows better than the file. The zero Options
// knows nothing.
type Options struct {
	// Columns corrects what columns are taken for: the name of a field (or an
	// alias) to its heading, as Column.Heading gives it or without its groups, or
	// to "column H". An empty heading says that the field is in no column.
	Columns map[string]string
	// Sheet names the sheet to read. Without it the visible sheet is read whose
	// header says most.
	Sheet string
	// Unit is the unit of lengths that give none.
	Unit doorsched.Unit
	// Ours tells what earlier output of ours stands in the file, which is then
	// read as if it were not there. It is called once, with nil for a CSV file.
	Ours func(*ooxml.Package) Ours
	// Limits bounds what is accepted of a workbook.
	Limits ooxml.Limits
}

// Ours lists the sheets and columns that an earlier run added to a file.
type Ours struct {
	Sheets  []string
	Columns []SheetColumns
}

// SheetColumns is a range of columns, counted from 1. Sheet is empty for CSV.
type SheetColumns struct {
	Sheet       string
	First, Last int
}

// HeaderPlace is where the header stands.
type HeaderPlace struct {
	Sheet             string
	FirstRow, LastRow int
}

// Table is where the doors stand. FirstDataRow and LastDataRow are those of the
// first and the last door, 0 if there is none.
type Table struct {
	Sheet                     string
	FirstDataRow, LastDataRow int
	LastUsedCol, MarkCol      int
}

// Result is a schedule as read, with all that was not.
type Result struct {
	Schedule     *doorsched.Schedule
	Columns      []Column      // every column that holds anything, left to right
	Problems     []Problem     // by row and column
	Placeholders []Placeholder // by row and column
	Header       HeaderPlace
	Table        Table
	Skipped      []SkippedRow // by row
	Assumed      []doorsched.Assumption
	Format       Format
	Package      *ooxml.Package // nil for CSV
	Rows         [][]string     // a CSV file's cells, row 1 first; nil for a workbook
}

// File reads the schedule in a file. See Bytes.
func File(ctx context.Context, path string, opt Options) (*Result, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.IsDir() {
		return nil, &Error{Kind: ErrNotTable, File: path, Msg: "it is a folder"}
	}
	if info.Size() > MaxBytes {
		return nil, tooLarge(path, info.Size())
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	return Bytes(ctx, path, data, opt)
}

func tooLarge(name string, n int64) error {
	return &Error{Kind: ErrTooLarge, File: name, Msg: fmt.Sprintf("it has %d MiB; at most %d MiB are read", n>>20, MaxBytes>>20)}
}

// Bytes reads the schedule in data; name is the file's name as the user gave it,
// for messages and Schedule.File. Workbook and CSV are told apart by content.
//
// It returns an *Error, an *ooxml.Error with the file's name before it, or the
// error of ctx. Cells that cannot be read are no error: see Result.Problems.
func Bytes(ctx context.Context, name string, data []byte, opt Options) (*Result, error) {
	if int64(len(data)) > MaxBytes {
		return nil, tooLarge(name, int64(len(data)))
	}
	if isWorkbook(name, data) {
		return readWorkbook(ctx, name, data, opt)
	}
	text, err := decode(data)
	if err != nil {
		return nil, &Error{Kind: ErrNotTable, File: name, Msg: err.Error()}
	}
	g, err := parseCSV(ctx, text)
	switch {
	case errors.Is(err, errTooMany):
		return nil, &Error{Kind: ErrTooLarge, File: name, Msg: err.Error()}
	case err != nil:
		return nil, err
	}
	if opt.Sheet != "" {
		return nil, &Error{Kind: ErrOption, File: name, Value: opt.Sheet, Msg: "a CSV file has no sheets"}
	}
	rows := g.table()
	if opt.Ours != nil {
		for _, c := range opt.Ours(nil).Columns {
			if c.Sheet == "" {
				g.drop(c.First, c.Last)
			}
		}
	}
	r, err := newReader(name, g, opt)
	if err != nil {
		return nil, err
	}
	b, ok := r.findHeader()
	if !ok {
		return nil, r.noHeader(b, "the text")
	}
	out, err := r.read(ctx, b, FormatCSV)
	if err != nil {
		return nil, err
	}
	out.Rows = rows
	return out, nil
}

// isWorkbook goes by the first bytes, and by the name where they say nothing:
// a damaged or mislabelled .xlsx deserves the workbook's message.
func isWorkbook(name string, data []byte) bool {
	for _, magic := range []string{"PK\x03\x04", "PK\x05\x06", "\xD0\xCF\x11\xE0"} {
		if bytes.HasPrefix(data, []byte(magic)) {
			return true
		}
	}
	switch strings.ToLower(filepath.Ext(name)) {
	case ".xlsx", ".xlsm", ".xls", ".xlsb", ".xltx", ".xltm":
		return true
	}
	return false
}

func newReader(name string, g *grid, opt Options) (*reader, error) {
	r := &reader{grid: g, opt: opt, file: name,
		user: map[string]doorsched.FieldID{}, cols: map[int]doorsched.FieldID{}, seen: map[string]found{}, lost: map[string]bool{}}
	for _, field := range sortedKeys(opt.Columns) {
		heading := opt.Columns[field]
		info, _, ok := doorsched.LookupField(field)
		if !ok {
			return nil, &Error{Kind: ErrOption, File: name, Value: field, Msg: "there is no such field to give a column to"}
		}
		h := strings.TrimSpace(heading)
		if h == "" {
			continue
		}
		if letters, ok := cutPrefixFold(h, "column "); ok {
			if col, err := ooxml.ParseColumn(strings.ToUpper(strings.TrimSpace(letters))); err == nil {
				r.cols[col] = info.ID
				continue
			}
		}
		r.user[key(h)] = info.ID
	}
	return r, nil
}

func cutPrefixFold(s, prefix string) (string, bool) {
	if len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix) {
		return s[len(prefix):], true
	}
	return s, false
}

// read reads the table whose header is b.
func (r *reader) read(ctx context.Context, b band, format Format) (*Result, error) {
	g := r.grid
	cols, err := r.assign(b)
	if err != nil {
		return nil, err
	}
	out := &Result{Schedule: &doorsched.Schedule{File: r.file}, Format: format,
		Header: HeaderPlace{g.sheet, g.rows[b.first].number, g.rows[b.last].number},
		Table:  Table{Sheet: g.sheet, LastUsedCol: g.lastCol()}}
	rr := &rowReader{reader: r, band: b, out: out, byCol: map[int]*column{}, headKeys: map[int][]string{}, titles: map[string]bool{},
		marks: map[string]doorsched.Cell{}, assumed: map[string]int{}}
	for _, c := range cols {
		rr.byCol[c.Col] = c
		if c.how != unread && c.field == doorsched.Mark.ID() {
			rr.mark = c
		}
	}
	if rr.mark == nil { // the caller said that no column has it, or gave its column away
		return nil, &Error{Kind: ErrNoHeader, File: r.file, Sheet: g.sheet, Msg: "no column is left for the door mark"}
	}
	out.Table.MarkCol = rr.mark.Col
	if err := r.checkCorrections(cols); err != nil {
		return nil, err
	}
	g.spreadDown(g.rows[b.last].number+1, rr.mark.Col)
	body := g.rows[b.last+1:]
	r.chooseText(cols, body)
	r.settleUnits(cols, body)

	for _, c := range cols {
		if c.how != unread {
			rr.cols = append(rr.cols, c)
		}
	}
	slices.SortStableFunc(rr.cols, func(a, b *column) int { return cmp.Compare(a.rank, b.rank) })
	for i := b.first; i <= b.last; i++ {
		for _, c := range g.rows[i].cells {
			rr.headKeys[c.col] = append(rr.headKeys[c.col], key(c.text))
		}
	}
	for _, row := range g.rows[:b.first] {
		rr.titles[row.line()] = true
		rr.skip(row, Title)
	}
	if err := rr.readRows(ctx, body); err != nil {
		return nil, err
	}
	rr.hiddenLines()
	for _, c := range cols {
		out.Columns = append(out.Columns, c.Column)
	}
	slices.SortStableFunc(out.Problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Cell.Row, b.Cell.Row), cmp.Compare(a.Cell.Col, b.Cell.Col))
	})
	slices.SortStableFunc(out.Placeholders, func(a, b Placeholder) int {
		return cmp.Or(cmp.Compare(a.Cell.Row, b.Cell.Row), cmp.Compare(a.Cell.Col, b.Cell.Col))
	})
	if len(out.Schedule.Doors) == 0 {
		h := g.cell(g.rows[b.last].number, rr.mark.Col)
		out.Problems = append(out.Problems, Problem{Cell: h, Field: doorsched.Mark.ID(), Value: rr.mark.own, Message: "there is no door below this header"})
	}
	places(out.Schedule)
	return out, nil
}

// checkCorrections refuses a correction that matches no column: it would change
// nothing and nobody would know.
func (r *reader) checkCorrections(cols []*column) error {
	for _, field := range sortedKeys(r.opt.Columns) {
		info, _, _ := doorsched.LookupField(field)
		heading := strings.TrimSpace(r.opt.Columns[field])
		if heading == "" {
			continue
		}
		if !slices.ContainsFunc(cols, func(c *column) bool { return c.Confidence == ByUser && c.field == info.ID }) {
			var have []string
			for _, c := range cols {
				if c.Heading != "" {
					have = append(have, quote(c.Heading))
				}
			}
			return &Error{Kind: ErrOption, File: r.file, Sheet: r.grid.sheet, Value: heading,
				Msg: fmt.Sprintf("no column with this heading for %s; the headings are %s", info.Name, strings.Join(have, ", "))}
		}
	}
	return nil
}

func sortedKeys(m map[string]string) []string { return slices.Sorted(maps.Keys(m)) }

// hiddenLines reports hidden rows and columns, which are read like the rest but
// which the user may not know of.
func (rr *rowReader) hiddenLines() {
	g := rr.grid
	switch n := len(g.hidden); {
	case n == 1:
		rr.problem(g.hidden[0], rr.mark.Col, "", 0, "", "the row is hidden; it is read like the rest")
	case n > 1:
		rr.problem(g.hidden[0], rr.mark.Col, "", 0, "", fmt.Sprintf("%d rows are hidden, this one first; they are read like the rest", n))
	}
	for _, col := range g.hidCol {
		if c := rr.byCol[col]; c != nil && c.how != unread {
			rr.problem(c.at.Row, col, "", c.Field, c.Heading, "the column is hidden; it is read like the rest")
		}
	}
}
