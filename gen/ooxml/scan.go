package ooxml

import (
	"bytes"
	"context"
	"math"
	"strconv"
)

// layout keeps where things stand in the bytes of a worksheet.
type layout struct {
	prefix string // of the main namespace, with its colon
	rel    string // of the relationships namespace, with its colon
	root   element
	tops   []element // children of the root in order
	data   int       // index of <sheetData> in tops
	rows   []rowSpan
	cells  []span // beside Sheet.Cells; only when asked for
	cols   []element
	rules  []ruleSpan
	bare   bool // cells carry no references
}

type span struct{ start, end uint32 }

// rowSpan is a row's place; its cells are Sheet.Cells[first : first+count].
type rowSpan struct {
	number                  int
	start, open, close, end int
	empty                   bool
	given                   bool // the row carries its number
	bare                    bool // and nothing else
	first, count            int
}

// ruleSpan is one <conditionalFormatting>.
type ruleSpan struct {
	top      int // index in tops
	priority int // the largest of its rules
	formulas []string
}

type scanner struct {
	ctx    context.Context
	info   SheetInfo
	limits Limits
	shared []string
	keep   bool // cells are wanted
	spans  bool // and their places

	l    *lexer
	text string // the part as a string, so that values can share it

	out              Sheet
	protected        bool
	bare, referenced int // cells without and with a reference
	lastRow          int
}

func (s *scanner) fail(kind Kind, cell, value, msg string) error {
	return &Error{Kind: kind, Part: s.info.Part, Sheet: s.info.Name, Cell: cell, Value: value, Msg: msg}
}

// scan walks the part once.
func (s *scanner) scan(b []byte) error {
	err := s.walk(b)
	if e, ok := err.(*Error); ok && e.Sheet == "" {
		e.Sheet = s.info.Name
	}
	return err
}

func (s *scanner) walk(b []byte) error {
	l, err := newLexer(s.info.Part, b)
	if err != nil {
		return err
	}
	if err := l.root(nsMain, "worksheet"); err != nil {
		return err
	}
	s.l, s.out.Info = l, s.info
	if s.keep {
		s.text = string(b)
	}
	lay := &s.out.layout
	if len(l.prefix) > 0 {
		lay.prefix = string(l.prefix) + ":"
	}
	if s.keep {
		// A close guess at the number of cells saves growing a long slice.
		n := bytes.Count(b, []byte("<"+lay.prefix+"c "))
		s.out.Cells = make([]Cell, 0, n)
		if s.spans {
			lay.cells = make([]span, 0, n)
		}
	}
	lay.rel, _ = l.prefixFor(nsDocRels)
	lay.root = element{start: l.start, open: l.end, empty: l.empty}
	lay.data = -1
	for !lay.root.empty {
		ok, err := l.child(1)
		if err != nil {
			return err
		}
		if !ok {
			lay.root.close, lay.root.end = l.start, l.end
			break
		}
		top := element{local: string(l.local), space: l.space, start: l.start, open: l.end, close: l.end, end: l.end, empty: l.empty}
		if l.space == nsMain {
			err = s.readTop(&top)
		} else {
			err = l.skip()
		}
		if err != nil {
			return err
		}
		if !top.empty {
			top.close, top.end = l.start, l.end
		}
		lay.tops = append(lay.tops, top)
	}
	if lay.data < 0 {
		return s.fail(BadStructure, "", "", "the sheet has no <sheetData>")
	}
	if err := l.drain(); err != nil {
		return err
	}
	lay.bare = s.bare > 0
	for i, at := 0, 0; i < len(s.out.Rows); i++ {
		n := lay.rows[i].count
		s.out.Rows[i].Cells = s.out.Cells[at : at+n : at+n]
		at += n
	}
	return nil
}

// readTop reads a child of the root whose start token is current, to its end.
func (s *scanner) readTop(top *element) error {
	l := s.l
	switch top.local {
	case "sheetData":
		if s.out.layout.data >= 0 {
			return s.fail(BadStructure, "", "", "the sheet has two <sheetData>")
		}
		s.out.layout.data = len(s.out.layout.tops)
		return s.readRows()
	case "cols":
		return s.readColumns()
	case "mergeCells":
		return s.eachKid(func() error {
			if l.is("mergeCell") {
				s.out.Merges = s.appendRange(s.out.Merges, l.str("ref"), "a merged range")
			}
			return nil
		})
	case "conditionalFormatting":
		return s.readRules()
	case "autoFilter":
		if r := s.appendRange(nil, l.str("ref"), "the filter's range"); r != nil {
			s.out.AutoFilter = r[0]
		}
	case "dimension":
		top.attrs = append([]attr(nil), l.attrs...)
		if r := s.appendRange(nil, l.str("ref"), "the sheet's dimension"); r != nil {
			s.out.Dimension = r[0]
		}
	case "sheetProtection":
		s.protected = l.flag("sheet")
	}
	return l.skip()
}

// eachKid calls f at the start token of every child of the current element.
func (s *scanner) eachKid(f func() error) error {
	if s.l.empty {
		return nil
	}
	for depth := s.l.depth(); ; {
		ok, err := s.l.child(depth)
		if err != nil || !ok {
			return err
		}
		if err := f(); err != nil {
			return err
		}
		if s.l.kind == tokenStart {
			if err := s.l.skip(); err != nil {
				return err
			}
		}
	}
}

func (s *scanner) problem(e *Error) {
	if s.keep && len(s.out.Problems) < 1000 {
		s.out.Problems = append(s.out.Problems, e)
	}
}

func (s *scanner) appendRange(to []Range, ref, what string) []Range {
	r, err := ParseRange(ref)
	if err != nil {
		s.problem(&Error{Kind: BadReference, Part: s.info.Part, Sheet: s.info.Name, Value: ref, Msg: what})
		return to
	}
	return append(to, r)
}

func (s *scanner) readColumns() error {
	l, last := s.l, 0
	return s.eachKid(func() error {
		if !l.is("col") {
			return nil
		}
		first, ok1 := l.number("min")
		end, ok2 := l.number("max")
		if !ok1 || !ok2 || first <= last || end < first || end > MaxColumn {
			return s.fail(BadStructure, "", string(l.b[l.start:l.end]), "column widths are out of order or out of range")
		}
		last = end
		c := Column{First: first, Last: end, Hidden: l.flag("hidden")}
		c.Style, _ = l.number("style")
		if w, err := strconv.ParseFloat(l.str("width"), 64); err == nil && w >= 0 && w < 1000 {
			c.Width = w
		}
		s.out.Columns = append(s.out.Columns, c)
		col, err := readElement(l, 0)
		s.out.layout.cols = append(s.out.layout.cols, col)
		return err
	})
}

func (s *scanner) readRules() error {
	rule := ruleSpan{top: len(s.out.layout.tops)}
	l := s.l
	err := s.eachKid(func() error {
		if !l.is("cfRule") {
			return nil
		}
		n, _ := l.number("priority")
		rule.priority = max(rule.priority, n)
		found := ""
		err := s.eachKid(func() error {
			if !l.is("formula") {
				return nil
			}
			text, err := l.innerText()
			found += text
			return err
		})
		rule.formulas = append(rule.formulas, found)
		return err
	})
	s.out.layout.rules = append(s.out.layout.rules, rule)
	return err
}

func (s *scanner) readRows() error {
	l := s.l
	if l.empty {
		return nil
	}
	for n := 0; ; n++ {
		if n%1024 == 0 {
			if err := s.ctx.Err(); err != nil {
				return err
			}
		}
		ok, err := l.child(2)
		if err != nil || !ok {
			return err
		}
		if !l.is("row") {
			if err := l.skip(); err != nil {
				return err
			}
			continue
		}
		if err := s.readRow(); err != nil {
			return err
		}
	}
}

func (s *scanner) readRow() error {
	l := s.l
	number := s.lastRow + 1
	r, given := l.attr("r")
	if given {
		n, ok := parseUint(r)
		if !ok || n < 1 || n > MaxRow {
			return s.fail(BadReference, "", string(r), "not a row from 1 to 1048576")
		}
		number = n
	}
	if number <= s.lastRow || number > MaxRow {
		return s.fail(RowOrder, "", strconv.Itoa(number), "row after row "+strconv.Itoa(s.lastRow))
	}
	s.lastRow = number
	row := rowSpan{number: number, start: l.start, open: l.end, close: l.end, end: l.end, empty: l.empty, first: len(s.out.Cells)}
	row.given, row.bare = given, given && len(l.attrs) == 1
	hidden := l.flag("hidden")
	if !l.empty {
		for lastCol := 0; ; {
			ok, err := l.child(3)
			if err != nil {
				return err
			}
			if !ok {
				row.close, row.end = l.start, l.end
				break
			}
			if !l.is("c") {
				if err := l.skip(); err != nil {
					return err
				}
				continue
			}
			if lastCol, err = s.readCell(number, lastCol); err != nil {
				return err
			}
		}
	}
	if s.keep {
		row.count = len(s.out.Cells) - row.first
		s.out.layout.rows = append(s.out.layout.rows, row)
		s.out.Rows = append(s.out.Rows, Row{Number: number, Hidden: hidden})
	}
	return nil
}

// readCell reads <c>, whose start token is current, and gives its column.
func (s *scanner) readCell(row, lastCol int) (int, error) {
	l := s.l
	start := l.start
	col := lastCol + 1
	if ref, given := l.attr("r"); given {
		r, c, ok := parseRef(ref)
		if !ok {
			return 0, s.fail(BadReference, "", string(ref), "in row "+strconv.Itoa(row))
		}
		if r != row {
			return 0, s.fail(BadReference, string(ref), "", "the cell stands in row "+strconv.Itoa(row))
		}
		if c <= lastCol {
			return 0, s.fail(CellOrder, string(ref), "", "it follows "+CellName(row, lastCol))
		}
		col = c
		s.referenced++
	} else {
		s.bare++
	}
	if s.bare > 0 && s.referenced > 0 {
		return 0, s.fail(MissingReference, "", "", "row "+strconv.Itoa(row)+" mixes them with cells that do; save the workbook again in a spreadsheet program")
	}
	if col > s.limits.Columns {
		return 0, s.fail(TooLarge, CellName(row, min(col, MaxColumn)), "", "the cell stands further right than the limit allows")
	}
	s.out.Occupied = grow(s.out.Occupied, row, col)
	if !s.keep {
		return col, l.skip()
	}
	c := Cell{Row: row, Col: col}
	c.Style, _ = l.number("s")
	kind, _ := l.attr("t")
	if err := s.readValue(&c, kind); err != nil {
		return 0, err
	}
	if c.Kind != CellBlank || c.HasFormula {
		s.out.Used = grow(s.out.Used, row, col)
	}
	s.out.Cells = append(s.out.Cells, c)
	if s.spans {
		s.out.layout.cells = append(s.out.layout.cells, span{uint32(start), uint32(l.end)})
	}
	return col, nil
}

func grow(r Range, row, col int) Range {
	if r.C1 == 0 {
		return Range{row, col, row, col}
	}
	return Range{min(r.R1, row), min(r.C1, col), max(r.R2, row), max(r.C2, col)}
}

// readValue reads the children of <c> and settles the cell's kind and text.
func (s *scanner) readValue(c *Cell, kind []byte) error {
	l := s.l
	var inline string
	var hasV, hasIs bool
	if !l.empty {
		for {
			ok, err := l.child(4)
			if err != nil {
				return err
			}
			if !ok {
				break
			}
			switch {
			case l.is("v"):
				c.Raw, err = s.value()
				hasV = true
			case l.is("f"):
				c.HasFormula = true
				c.Formula, err = s.value()
			case l.is("is"):
				inline, err = readString(l)
				hasIs = true
			default:
				err = l.skip()
			}
			if err != nil {
				return err
			}
		}
	}
	s.settle(c, string(kind), inline, hasV, hasIs)
	return nil
}

func (s *scanner) settle(c *Cell, kind, inline string, hasV, hasIs bool) {
	if kind == "inlineStr" {
		if !hasIs {
			inline = unescapeHex(c.Raw)
		}
		if hasIs || hasV {
			c.Kind, c.Text, c.Raw = CellInline, inline, inline
		}
		return
	}
	if kind == "str" {
		if hasV || c.HasFormula {
			c.Kind, c.Text = CellFormulaString, unescapeHex(c.Raw)
		}
		return
	}
	if c.Raw == "" {
		return
	}
	invalid := func(msg string) {
		c.Kind = CellInvalid
		s.problem(&Error{Kind: BadValue, Part: s.info.Part, Sheet: s.info.Name, Cell: c.Name(), Value: c.Raw, Msg: msg})
	}
	switch kind {
	case "", "n":
		text, ok := generalText(c.Raw)
		if !ok {
			invalid("not a number")
			return
		}
		c.Kind, c.Text = CellNumber, text
	case "s":
		i, err := strconv.Atoi(c.Raw)
		if err != nil || i < 0 || i >= len(s.shared) {
			invalid("no such entry in the table of shared strings")
			return
		}
		c.Kind, c.Text = CellShared, s.shared[i]
	case "b":
		switch c.Raw {
		case "1", "true":
			c.Kind, c.Text = CellBool, "TRUE"
		case "0", "false":
			c.Kind, c.Text = CellBool, "FALSE"
		default:
			invalid("not a boolean")
		}
	case "e":
		c.Kind, c.Text = CellError, c.Raw
	case "d":
		c.Kind, c.Text = CellDate, c.Raw
	default:
		invalid("the cell type " + clip(kind) + " is unknown")
	}
}

// value is innerText that shares the part's bytes where it can.
func (s *scanner) value() (string, error) {
	l := s.l
	if l.empty {
		return "", nil
	}
	if err := l.next(); err != nil {
		return "", err
	}
	if l.kind == tokenEnd {
		return "", nil
	}
	text := ""
	switch {
	case l.kind == tokenText && !l.cdata && bytes.IndexByte(l.text, '&') < 0 && bytes.IndexByte(l.text, '\r') < 0:
		text = s.text[l.start:l.end]
	case l.kind == tokenText:
		text = l.decoded()
	case l.kind == tokenStart:
		if err := l.skip(); err != nil {
			return "", err
		}
	}
	for depth := l.depth(); ; {
		if err := l.next(); err != nil {
			return "", err
		}
		switch l.kind {
		case tokenEnd:
			if l.depth() < depth {
				return text, nil
			}
		case tokenText:
			text += l.decoded()
		case tokenStart:
			if err := l.skip(); err != nil {
				return "", err
			}
		}
	}
}

// generalText gives a stored number as a person sees it in a cell without
// number format: at most 15 significant digits, no artefacts of binary
// fractions, no exponent where plain digits serve.
func generalText(raw string) (string, bool) {
	if isPlainNumber(raw) {
		return raw, true
	}
	f, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsNaN(f) || math.IsInf(f, 0) || bytes.ContainsAny([]byte(raw), "xXpP_") {
		return "", false
	}
	// Rounding to 15 digits first makes the shortest form the one a person typed.
	if f, err = strconv.ParseFloat(strconv.FormatFloat(f, 'e', 14, 64), 64); err != nil {
		return "", false
	}
	if f == 0 {
		return "0", true
	}
	if a := math.Abs(f); a >= 1e-9 && a < 1e21 {
		return strconv.FormatFloat(f, 'f', -1, 64), true
	}
	return strconv.FormatFloat(f, 'E', -1, 64), true
}

// isPlainNumber reports digits in the form generalText would give them.
func isPlainNumber(s string) bool {
	if s == "0" {
		return true
	}
	if len(s) > 0 && s[0] == '-' {
		s = s[1:]
	}
	if len(s) == 0 || len(s) > 15 || s[0] < '1' || s[0] > '9' {
		return false
	}
	point := false
	for i := 1; i < len(s); i++ {
		switch c := s[i]; {
		case c == '.' && !point && i+1 < len(s):
			point = true
		case c < '0' || c > '9':
			return false
		}
	}
	return !point || s[len(s)-1] != '0'
}
