package ooxml

import (
	"context"
	"sort"
	"strings"
)

// CellKind says what a cell holds.
type CellKind uint8

// Kinds of cells.
const (
	CellBlank         CellKind = iota // a style alone, or nothing
	CellNumber                        // also dates: see [Styles.IsDate]
	CellShared                        // text from the shared table
	CellInline                        // text in the cell
	CellFormulaString                 // text a formula gave
	CellBool
	CellError
	CellDate    // ISO 8601 text, rare
	CellInvalid // see [Sheet.Problems]
)

var cellKindNames = [...]string{"blank", "number", "shared string", "inline string", "formula string", "boolean", "error", "date", "invalid"}

func (k CellKind) String() string {
	if int(k) < len(cellKindNames) {
		return cellKindNames[k]
	}
	return "unknown"
}

// Cell is one <c> of the file.
type Cell struct {
	Row, Col   int
	Style      int // index of the cell format
	Kind       CellKind
	HasFormula bool
	// Text is the value as a person reads it: text decoded and neither trimmed
	// nor shortened; a number in at most 15 significant digits (0.1, 36.3),
	// whatever its format; TRUE or FALSE; #N/A; an ISO date.
	Text string
	// Raw is the stored value: for shared text the index, for a number every
	// digit in the file, for inline text the text.
	Raw string
	// Formula is the formula's text without "="; a cell that shares another
	// cell's formula has none.
	Formula string
}

// Name gives the reference, such as "B7".
func (c Cell) Name() string { return CellName(c.Row, c.Col) }

// Row is one <row> of the file.
type Row struct {
	Number int
	Hidden bool
	Cells  []Cell // a part of [Sheet.Cells]
}

// Column is one <col> of the file, which may span many columns.
type Column struct {
	First, Last int
	Width       float64 // in characters; 0 if not given
	Hidden      bool
	Style       int
}

// Table is a list object on the sheet.
type Table struct {
	Name  string
	Range Range
	Part  string
}

// Sheet is what [Package.Scan] finds on a worksheet.
type Sheet struct {
	Info       SheetInfo
	Cells      []Cell // row by row, left to right
	Rows       []Row
	Columns    []Column
	Merges     []Range
	Tables     []Table
	AutoFilter Range // of the sheet; a table's own filter lies in its range
	Dimension  Range // what the file claims
	Used       Range // cells with a value or a formula
	Occupied   Range // every cell of the file, blank ones with a style too
	Notes      []Ref
	Drawings   []Range // cells that pictures and charts cover
	// Problems lists values that could not be read, at most 1,000; each such
	// cell has kind [CellInvalid].
	Problems []*Error

	layout layout
}

// Cell finds a cell.
func (s *Sheet) Cell(row, col int) (Cell, bool) {
	r := s.findRow(row)
	if r < 0 {
		return Cell{}, false
	}
	cells := s.Rows[r].Cells
	i := sort.Search(len(cells), func(i int) bool { return cells[i].Col >= col })
	if i < len(cells) && cells[i].Col == col {
		return cells[i], true
	}
	return Cell{}, false
}

func (s *Sheet) findRow(row int) int {
	i := sort.Search(len(s.Rows), func(i int) bool { return s.Rows[i].Number >= row })
	if i < len(s.Rows) && s.Rows[i].Number == row {
		return i
	}
	return -1
}

// RowHidden reports whether the row is hidden, by hand or by a filter.
func (s *Sheet) RowHidden(row int) bool {
	i := s.findRow(row)
	return i >= 0 && s.Rows[i].Hidden
}

// ColumnHidden reports whether the column is hidden.
func (s *Sheet) ColumnHidden(col int) bool {
	for _, c := range s.Columns {
		if col >= c.First && col <= c.Last {
			return c.Hidden
		}
	}
	return false
}

// Edges gives the last column of each kind of thing on a sheet; 0 is none.
type Edges struct {
	Used, Occupied, Tables, AutoFilter, Merges, Notes, Drawings int
}

// Edges tells what reaches how far right.
func (s *Sheet) Edges() Edges {
	e := Edges{Used: s.Used.C2, Occupied: s.Occupied.C2, AutoFilter: s.AutoFilter.C2}
	for _, t := range s.Tables {
		e.Tables = max(e.Tables, t.Range.C2)
	}
	for _, m := range s.Merges {
		e.Merges = max(e.Merges, m.C2)
	}
	for _, n := range s.Notes {
		e.Notes = max(e.Notes, n.Col)
	}
	for _, d := range s.Drawings {
		e.Drawings = max(e.Drawings, d.C2)
	}
	return e
}

// RightEdge gives the last column taken by anything; columns beyond it are
// free. A blank column between a table and what is put there keeps the table
// from growing over it.
func (s *Sheet) RightEdge() int {
	e := s.Edges()
	return max(e.Used, e.Occupied, e.Tables, e.AutoFilter, e.Merges, e.Notes, e.Drawings)
}

// Scan reads a worksheet. The title is matched in any case; what is not a
// worksheet is a [NoSuchSheet] error. Cells whose value cannot be read do not
// fail the scan: see [Sheet.Problems].
func (p *Package) Scan(ctx context.Context, sheet string) (*Sheet, error) {
	s, _, err := p.scan(ctx, sheet, false)
	return s, err
}

// scan also gives the part's bytes; with spans, the layout holds the place of every cell.
func (p *Package) scan(ctx context.Context, sheet string, spans bool) (*Sheet, []byte, error) {
	info, ok := p.SheetByName(sheet)
	if !ok || info.Type != Worksheet {
		return nil, nil, &Error{Kind: NoSuchSheet, Sheet: sheet}
	}
	b, err := p.ReadPart(ctx, info.Part)
	if err != nil {
		return nil, nil, err
	}
	s := scanner{ctx: ctx, info: info, limits: p.limits, shared: p.shared, keep: true, spans: spans}
	if err := s.scan(b); err != nil {
		return nil, nil, err
	}
	if err := p.readAttached(ctx, &s.out); err != nil {
		return nil, nil, err
	}
	return &s.out, b, nil
}

// readAttached reads what lies in other parts of the sheet: tables, notes, drawings.
func (p *Package) readAttached(ctx context.Context, s *Sheet) error {
	rels, err := p.relsOf(ctx, s.Info.Part)
	if err != nil {
		return err
	}
	for _, r := range rels {
		name := p.resolve(s.Info.Part, r)
		if r.external || !p.has(name) || r.kind != relTable && r.kind != relComments && r.kind != relDrawing {
			continue
		}
		b, err := p.ReadPart(ctx, name)
		if err != nil {
			return err
		}
		switch r.kind {
		case relTable:
			err = s.readTable(name, b)
		case relComments:
			err = s.readNotes(name, b)
		case relDrawing:
			err = s.readDrawing(name, b)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (p *Package) relsOf(ctx context.Context, part string) ([]relationship, error) {
	name := relsPart(part)
	if !p.has(name) {
		return nil, nil
	}
	b, err := p.ReadPart(ctx, name)
	if err != nil {
		return nil, err
	}
	return readRels(name, b)
}

func (s *Sheet) readTable(part string, b []byte) error {
	l, err := newLexer(part, b)
	if err != nil {
		return err
	}
	if err := l.root(nsMain, "table"); err != nil {
		return err
	}
	t := Table{Name: l.str("displayName"), Part: part}
	if t.Range, err = ParseRange(l.str("ref")); err != nil {
		return &Error{Kind: BadReference, Part: part, Sheet: s.Info.Name, Value: l.str("ref"), Msg: "the range of a table"}
	}
	s.Tables = append(s.Tables, t)
	return l.drain()
}

func (s *Sheet) readNotes(part string, b []byte) error {
	l, err := newLexer(part, b)
	if err != nil {
		return err
	}
	if err := l.root(nsMain, "comments"); err != nil {
		return err
	}
	for {
		if err := l.next(); err != nil || l.kind == tokenEOF {
			return err
		}
		if l.kind == tokenStart && l.is("comment") {
			if row, col, err := ParseCell(l.str("ref")); err == nil {
				s.Notes = append(s.Notes, Ref{row, col})
			}
		}
	}
}

// readDrawing collects the anchors that are tied to cells; an anchor with one
// cell counts as that cell.
func (s *Sheet) readDrawing(part string, b []byte) error {
	l, err := newLexer(part, b)
	if err != nil {
		return err
	}
	var r Range
	corner, depth := "", 0
	for {
		if err := l.next(); err != nil || l.kind == tokenEOF {
			return err
		}
		if l.kind != tokenStart || l.space != nsDrawing {
			continue
		}
		switch local := string(l.local); local {
		case "oneCellAnchor", "twoCellAnchor":
			r = Range{}
		case "from", "to":
			corner, depth = local, l.depth()
		case "col", "row":
			if l.depth() != depth+1 {
				continue
			}
			text, err := l.innerText()
			if err != nil {
				return err
			}
			n, ok := parseUint([]byte(strings.TrimSpace(text)))
			if !ok {
				continue
			}
			switch {
			case corner == "from" && local == "col":
				r.C1, r.C2 = n+1, n+1
			case corner == "from":
				r.R1, r.R2 = n+1, n+1
			case local == "col":
				r.C2 = n + 1
			default:
				// row is the last of a corner's four fields
				r.R2 = n + 1
			}
			if local == "row" && r.valid() {
				if k := len(s.Drawings) - 1; corner == "to" && k >= 0 && s.Drawings[k].R1 == r.R1 && s.Drawings[k].C1 == r.C1 {
					s.Drawings[k] = r
				} else {
					s.Drawings = append(s.Drawings, r)
				}
			}
		}
	}
}
