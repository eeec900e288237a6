package read

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"os"
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
)

// Options corrects how a file is read.
type Options struct {
	// Columns maps a field's name to the heading ("Material", "Frame / Material")
	// or the column ("column H") that it is read from; an empty value says that no
	// column holds it.
	Columns map[string]string
	// Sheet to read; empty is the visible sheet that reads best.
	Sheet string
	// Unit of bare lengths; empty is the heading's, else that of the file's other
	// cells, else by size. All but the heading's are returned as assumptions.
	Unit doorsched.Unit
	// Ours tells what an earlier run added, so that it is left out. It is called
	// with nil for CSV.
	Ours func(*ooxml.Package) Ours
}

// Ours are sheets and columns that are not the user's.
type Ours struct {
	Sheets  []string
	Columns []SheetColumns
}

// SheetColumns is a run of columns of one sheet, counted from 1.
type SheetColumns struct {
	Sheet       string
	First, Last int
}

// Format is what a file turned out to be.
type Format string

// Formats.
const (
	FormatCSV  Format = "csv"
	FormatXLSX Format = "xlsx"
)

// Result is a schedule with how it was read.
type Result struct {
	Schedule     *doorsched.Schedule
	Columns      []Column // left to right
	Problems     []Problem
	Placeholders []Placeholder
	Header       HeaderPlace
	Table        Table
	Skipped      []SkippedRow
	Assumed      []doorsched.Assumption
	Format       Format
	Package      *ooxml.Package // nil for CSV
	Rows         [][]string     // the cells of a CSV file, row 1 first; nil for a workbook
}

// HeaderPlace is where the headings stand.
type HeaderPlace struct {
	Sheet             string
	FirstRow, LastRow int
}

// Table is where the doors stand.
type Table struct {
	Sheet                                           string
	FirstDataRow, LastDataRow, LastUsedCol, MarkCol int
}

// Column is one column of the schedule.
type Column struct {
	Col        int
	Heading    string
	Field      doorsched.FieldID   // NoField: not read
	Also       []doorsched.FieldID // set besides Field
	Unit       string
	Confidence Confidence
	Samples    []string
	Note       string
}

// Problem is a cell that could not be read; its field stays Unknown.
type Problem struct {
	Cell           doorsched.Cell
	Door           string
	Field          doorsched.FieldID
	Value, Message string
}

// Placeholder is a cell that says that there is nothing to say yet.
type Placeholder struct {
	Cell  doorsched.Cell
	Door  string
	Field doorsched.FieldID
	Text  string
}

// Reason says why a row is no door.
type Reason string

// Reasons.
const (
	Title          Reason = "title"
	Section        Reason = "section"
	Total          Reason = "total"
	RepeatedHeader Reason = "repeated header"
	NoMark         Reason = "no door mark"
	Blank          Reason = "blank"
)

// SkippedRow is a row that is no door.
type SkippedRow struct {
	Row    int
	Reason Reason
	Text   string
}

// File reads the schedule in a file.
func File(ctx context.Context, path string, opt Options) (*Result, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	return Bytes(ctx, path, data, opt)
}

// Bytes reads a schedule; name is the file as the user gave it. Errors are
// *Error, or of the ooxml package behind the file's name.
func Bytes(ctx context.Context, name string, data []byte, opt Options) (*Result, error) {
	if len(data) > MaxBytes {
		return nil, &Error{Kind: ErrTooLarge, File: name, Msg: fmt.Sprintf("%d bytes; the limit is %d", len(data), MaxBytes)}
	}
	if looksPackaged(data) {
		return readBook(ctx, name, data, opt)
	}
	return readText(ctx, name, data, opt)
}

// looksPackaged tells a workbook, or another file in a binary container, from
// text; ooxml words what is wrong with it.
func looksPackaged(data []byte) bool {
	return len(data) == 0 || bytes.HasPrefix(data, []byte("PK")) || bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0"))
}

func readText(ctx context.Context, name string, data []byte, opt Options) (*Result, error) {
	text, err := decode(data)
	if err != nil {
		return nil, &Error{Kind: ErrNotTable, File: name, Msg: err.Error()}
	}
	g, err := parseCSV(ctx, text)
	if err != nil {
		if ctx.Err() != nil {
			return nil, err
		}
		return nil, &Error{Kind: ErrNotTable, File: name, Msg: err.Error()}
	}
	if opt.Sheet != "" {
		return nil, &Error{Kind: ErrOption, File: name, Value: opt.Sheet, Msg: "a CSV file has no sheets"}
	}
	rows := g.table()
	if opt.Ours != nil {
		for _, c := range opt.Ours(nil).Columns {
			g.drop(c.First, c.Last)
		}
	}
	r, err := newReader(name, g, opt)
	if err != nil {
		return nil, err
	}
	b, ok := r.findHeader()
	if !ok {
		return nil, r.noHeader(b, "the file")
	}
	res, err := r.read(ctx, b)
	if err != nil {
		return nil, err
	}
	res.Format, res.Rows = FormatCSV, rows
	return res, nil
}

func readBook(ctx context.Context, name string, data []byte, opt Options) (*Result, error) {
	p, err := ooxml.Open(ctx, bytes.NewReader(data), int64(len(data)), ooxml.DefaultLimits())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var ours Ours
	if opt.Ours != nil {
		ours = opt.Ours(p)
	}
	type candidate struct {
		r *reader
		b band
	}
	var best *candidate
	var refused error
	named := false
	for _, s := range p.Sheets() {
		if s.Type != ooxml.Worksheet || slices.Contains(ours.Sheets, s.Name) {
			continue
		}
		if opt.Sheet != "" && s.Name != opt.Sheet || opt.Sheet == "" && s.State != ooxml.Visible {
			continue
		}
		named = true
		sheet, err := p.Scan(ctx, s.Name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		g := bookGrid(p, sheet)
		for _, c := range ours.Columns {
			if c.Sheet == s.Name {
				g.drop(c.First, c.Last)
			}
		}
		r, err := newReader(name, g, opt)
		if err != nil {
			return nil, err
		}
		b, ok := r.findHeader()
		if !ok {
			if refused == nil || len(b.fields) > 0 {
				refused = cmp.Or(refused, error(r.noHeader(b, "the sheet")))
			}
			continue
		}
		if best == nil || b.score > best.b.score {
			best = &candidate{r, b}
		}
	}
	switch {
	case !named && opt.Sheet != "":
		return nil, &Error{Kind: ErrOption, File: name, Value: opt.Sheet, Msg: "the workbook has no such sheet"}
	case best == nil && refused != nil:
		return nil, refused
	case best == nil:
		return nil, &Error{Kind: ErrNoHeader, File: name, Msg: "the workbook has no visible sheet with text"}
	}
	res, err := best.r.read(ctx, best.b)
	if err != nil {
		return nil, err
	}
	res.Format, res.Package = FormatXLSX, p
	return res, nil
}

// newReader checks the user's corrections.
func newReader(file string, g *grid, opt Options) (*reader, error) {
	r := &reader{grid: g, opt: opt, file: file, user: map[string]doorsched.FieldID{}, cols: map[int]doorsched.FieldID{}, seen: map[string]found{}, lost: map[string]bool{}}
	for _, field := range slices.Sorted(mapsKeys(opt.Columns)) {
		heading := opt.Columns[field]
		info, _, ok := doorsched.LookupField(field)
		if !ok {
			return nil, &Error{Kind: ErrOption, File: file, Value: field, Msg: "no such field"}
		}
		if heading == "" {
			continue
		}
		if col, ok := columnNumber(heading); ok {
			r.cols[col] = info.ID
			continue
		}
		r.user[key(heading)] = info.ID
	}
	return r, nil
}

func mapsKeys(m map[string]string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// columnNumber reads "column H".
func columnNumber(s string) (int, bool) {
	var letters string
	if n, err := fmt.Sscanf(s, "column %s", &letters); n != 1 || err != nil {
		return 0, false
	}
	col, err := ooxml.ParseColumn(letters)
	return col, err == nil
}

// refusedField reports a field that the user says no column holds.
func (r *reader) refusedField(id doorsched.FieldID) bool {
	h, ok := r.opt.Columns[id.String()]
	return ok && h == ""
}
