package ooxml

// Plan says what [Patch] changes. What it does not name stays as it is.
// The zero Plan changes nothing.
type Plan struct {
	Edits             []SheetEdit   // worksheets of the user
	Put               []PutSheet    // sheets of ours: added at the end, or replaced in place
	Remove            []string      // sheets of ours that go; their local names go with them
	SetNames          []DefinedName // the key is Name and Sheet
	DropNames         []DefinedName // only the key counts
	RecalculateOnOpen bool          // ask the spreadsheet program to calculate all formulas when it opens the file

	styles []Style
	diffs  []Diff
}

// StyleID stands for a [Style] of one plan; 0 is the workbook's default cell format.
type StyleID int

// DiffID stands for a [Diff] of one plan; 0 is none.
type DiffID int

// Style is a cell format. Colours are "RRGGBB". A zero field stands for what
// the workbook's default font and format have.
type Style struct {
	Bold, Italic, Underline bool
	Size                    float64 // points
	Font                    string
	Color                   string // of the text
	Fill                    string
	Border                  string // colour of a thin line on all four sides
	NumFmt                  string // format code, such as "0.00" or "@"
	Horizontal              string // left, center, right
	Vertical                string // top, center, bottom
	Indent                  int
	Wrap                    bool
	QuotePrefix             bool // text that begins with "=" stays text when a person edits the cell
	Unlocked                bool // can be edited on a protected sheet
}

// Style gives the id of a cell format; the same format has the same id.
func (p *Plan) Style(s Style) StyleID {
	if s == (Style{}) {
		return 0
	}
	for i := range p.styles {
		if p.styles[i] == s {
			return StyleID(i + 1)
		}
	}
	p.styles = append(p.styles, s)
	return StyleID(len(p.styles))
}

// Diff is what a conditional format changes in a cell's look.
type Diff struct {
	Bold, Italic        bool
	Color, Fill, Border string // "RRGGBB"
}

// Diff gives the id of a differential format; the same format has the same id.
func (p *Plan) Diff(d Diff) DiffID {
	for i := range p.diffs {
		if p.diffs[i] == d {
			return DiffID(i + 1)
		}
	}
	p.diffs = append(p.diffs, d)
	return DiffID(len(p.diffs))
}

// NewCell is a cell to put. Make one with [TextCell], [NumberCell],
// [FormulaCell] or [BlankCell].
type NewCell struct {
	Row, Col int
	Style    StyleID
	kind     CellKind
	text     string
	number   float64
	formula  string
}

// TextCell is a cell with text. The text is stored in the cell, so that "=1+1"
// is text and the shared strings stay untouched. At most 32,767 characters.
func TextCell(row, col int, text string, style StyleID) NewCell {
	kind := CellInline
	if text == "" {
		kind = CellBlank
	}
	return NewCell{Row: row, Col: col, Style: style, kind: kind, text: text}
}

// NumberCell is a cell with a finite number.
func NumberCell(row, col int, v float64, style StyleID) NewCell {
	return NewCell{Row: row, Col: col, Style: style, kind: CellNumber, number: v}
}

// FormulaCell is a cell with a formula that gives text, without "=", and the
// text it gives now.
func FormulaCell(row, col int, formula, cached string, style StyleID) NewCell {
	return NewCell{Row: row, Col: col, Style: style, kind: CellFormulaString, formula: formula, text: cached}
}

// BlankCell is a cell with a style alone.
func BlankCell(row, col int, style StyleID) NewCell {
	return NewCell{Row: row, Col: col, Style: style}
}

// Span is a run of rows or columns, both ends included. The zero Span is none.
type Span struct{ First, Last int }

// ColumnWidth sets the width, in characters, of a run of columns and shows them.
type ColumnWidth struct {
	First, Last int
	Width       float64
}

// RowHeight sets a row's height in points. Without one the spreadsheet program
// fits the row to its wrapped text.
type RowHeight struct {
	Row    int
	Height float64
}

// Conditional is a conditional format ruled by a formula, which is written for
// the top left cell of the first range.
type Conditional struct {
	Ranges  []Range
	Formula string // without "="
	Diff    DiffID
	Stop    bool // rules of lower priority are not tried
}

// SheetEdit is what changes on a worksheet of the user.
//
// A cell to put may meet an existing cell only if that lies in Clear, or is the
// very same cell; anything else is an [Occupied] error, so that a mistake in the
// plan cannot cost the user a cell.
type SheetEdit struct {
	Sheet       string
	Clear       []Range // our old cells; those not put again are taken out
	Cells       []NewCell
	Columns     []ColumnWidth
	DropColumns []Span // columns whose width we set before; applied before Columns
	Conditional []Conditional
	// ConditionalMark recognises our conditional formats: those whose every
	// formula contains it are replaced by Conditional. Without it formats are only added.
	ConditionalMark string
}

// Validation is a drop-down list on cells. List gives the choices (no commas,
// 255 characters together), or Formula a range or name that holds them.
type Validation struct {
	Ranges              []Range
	List                []string
	Formula             string
	PromptTitle, Prompt string
	Warn                bool // other text is allowed after a warning
}

// Link is a link from a cell to a place in the workbook.
type Link struct {
	Row, Col int
	Target   string // such as 'Door schedule'!B7
	Tip      string
}

// PutSheet is a whole worksheet of ours.
//
// With Replace, the sheet named Name is ours and gets this content in place: its
// part, relationship, sheet id, position and visibility stay, and so do notes,
// pictures and tables that were put on it. Without, the sheet is added at the
// end; if there is one of that name with exactly this content it stays, and any
// other is a [NameTaken] error.
type PutSheet struct {
	Name    string
	Replace bool
	State   State // for an added sheet; "" is visible

	Columns []ColumnWidth
	Heights []RowHeight
	Cells   []NewCell
	Merges  []Range

	FreezeRows, FreezeColumns int
	AutoFilter                Range
	TitleRows                 Span // repeated on every printed page
	PrintArea                 Range
	Landscape                 bool
	FitToWidth                bool // one page wide
	HideGridlines             bool
	Paper                     int    // 1 Letter, 9 A4; 0 leaves it to the printer
	Header, Footer            string // with the codes of the format, such as "&CPage &P of &N"
	TabColor                  string

	Validations []Validation
	Conditional []Conditional
	Links       []Link
}
