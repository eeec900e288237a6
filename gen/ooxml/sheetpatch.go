package ooxml

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// sheetOrder is the order of the children of <worksheet> (ECMA-376 part 1, 18.3.1.99).
var sheetOrder = []string{
	"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection", "protectedRanges",
	"scenarios", "autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells", "phoneticPr", "conditionalFormatting",
	"dataValidations", "hyperlinks", "printOptions", "pageMargins", "pageSetup", "headerFooter", "rowBreaks", "colBreaks",
	"customProperties", "cellWatches", "ignoredErrors", "smartTags", "drawing", "legacyDrawing", "legacyDrawingHF", "drawingHF",
	"picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst",
}

// sheetPatch turns one SheetEdit into splices.
type sheetPatch struct {
	b     []byte
	sheet *Sheet
	lay   *layout
	edit  *SheetEdit
	cells []NewCell // sorted
	f     formats

	out          []splice
	goneFormulas []Ref // formula cells that are none any more
	cleared      int
}

func (p *sheetPatch) run() error {
	if err := p.check(); err != nil {
		return err
	}
	if err := p.rows(); err != nil {
		return err
	}
	p.dimension()
	if err := p.columns(); err != nil {
		return err
	}
	return p.conditional()
}

func (p *sheetPatch) fail(kind Kind, cell, msg string) error {
	return &Error{Kind: kind, Part: p.sheet.Info.Part, Sheet: p.sheet.Info.Name, Cell: cell, Msg: msg}
}

func (p *sheetPatch) check() error {
	for _, r := range p.edit.Clear {
		if !r.valid() {
			return p.fail(BadPlan, "", "a range to clear is out of bounds or turned around")
		}
	}
	if p.lay.bare && (len(p.edit.Clear) > 0 || len(p.cells) > 0) {
		return p.fail(MissingReference, "", "save the workbook in a spreadsheet program before it is written to")
	}
	return nil
}

func (p *sheetPatch) inClear(row, col int) bool {
	for _, r := range p.edit.Clear {
		if r.Contains(row, col) {
			return true
		}
	}
	return false
}

// rows walks the rows of the file and of the plan together.
func (p *sheetPatch) rows() error {
	data := &p.lay.tops[p.lay.data]
	cells := p.cells
	fresh := "" // rows for a <sheetData/>
	for i := range p.lay.rows {
		row := &p.lay.rows[i]
		cells = p.freshRows(cells, row.number, row.start)
		n := 0
		for n < len(cells) && cells[n].Row == row.number {
			n++
		}
		last := i+1 == len(p.lay.rows)
		if err := p.row(row, cells[:n], last || p.lay.rows[i+1].given); err != nil {
			return err
		}
		cells = cells[n:]
	}
	if !data.empty {
		p.freshRows(cells, MaxRow+1, data.close)
		return nil
	}
	for len(cells) > 0 {
		var text string
		text, cells = p.freshRow(cells)
		fresh += text
	}
	if fresh != "" {
		p.out = append(p.out, splice{data.open - 2, data.open, ">" + fresh + "</" + p.lay.prefix + "sheetData>"})
	}
	return nil
}

// freshRows writes the rows of the plan that come before the given one.
func (p *sheetPatch) freshRows(cells []NewCell, before, at int) []NewCell {
	var b strings.Builder
	for len(cells) > 0 && cells[0].Row < before {
		var text string
		text, cells = p.freshRow(cells)
		b.WriteString(text)
	}
	if b.Len() > 0 {
		p.out = append(p.out, splice{at, at, b.String()})
	}
	return cells
}

func (p *sheetPatch) freshRow(cells []NewCell) (string, []NewCell) {
	var b strings.Builder
	row := cells[0].Row
	b.WriteString("<" + p.lay.prefix + `row r="` + strconv.Itoa(row) + `">`)
	n := 0
	for ; n < len(cells) && cells[n].Row == row; n++ {
		writeCell(&b, p.lay.prefix, &cells[n], p.f)
	}
	b.WriteString("</" + p.lay.prefix + "row>")
	return b.String(), cells[n:]
}

// row puts and clears the cells of one existing row.
func (p *sheetPatch) row(row *rowSpan, put []NewCell, canGo bool) error {
	if len(put) == 0 && (len(p.edit.Clear) == 0 || row.count == 0) {
		return nil
	}
	if row.empty {
		text, _ := p.freshRow(put)
		inside := strings.Index(text, ">")
		p.out = append(p.out, splice{row.open - 2, row.open, text[inside:]})
		return nil
	}
	mark := len(p.out)
	gone, stay := 0, len(put)
	for i := row.first; i < row.first+row.count; i++ {
		old, where := &p.sheet.Cells[i], p.lay.cells[i]
		start, end := int(where.start), int(where.end)
		for len(put) > 0 && put[0].Col < old.Col {
			p.out = append(p.out, splice{start, start, p.cellText(&put[0])})
			put = put[1:]
		}
		clear := p.inClear(old.Row, old.Col)
		if clear {
			if err := p.checkShared(old, start, end); err != nil {
				return err
			}
		}
		if len(put) > 0 && put[0].Col == old.Col {
			text := p.cellText(&put[0])
			if !clear && text != string(p.b[start:end]) {
				return p.fail(Occupied, old.Name(), "nothing was changed")
			}
			if old.HasFormula && put[0].kind != CellFormulaString {
				p.goneFormulas = append(p.goneFormulas, Ref{old.Row, old.Col})
			}
			p.out = append(p.out, splice{start, end, text})
			put = put[1:]
			continue
		}
		if !clear {
			stay++
			continue
		}
		gone++
		if old.HasFormula {
			p.goneFormulas = append(p.goneFormulas, Ref{old.Row, old.Col})
		}
		p.out = append(p.out, splice{start, end, ""})
	}
	if len(put) > 0 {
		var b strings.Builder
		for i := range put {
			writeCell(&b, p.lay.prefix, &put[i], p.f)
		}
		p.out = append(p.out, splice{row.close, row.close, b.String()})
	}
	p.cleared += gone
	if gone > 0 && stay == 0 {
		p.emptied(row, mark, canGo)
	}
	return nil
}

// emptied tidies a row that has lost its last cell: a row that we made goes,
// and one that was there becomes the empty element it may have been.
func (p *sheetPatch) emptied(row *rowSpan, mark int, canGo bool) {
	inside := strings.Builder{}
	at := row.open
	for _, s := range p.out[mark:] {
		inside.Write(p.b[at:s.at])
		at = s.end
	}
	inside.Write(p.b[at:row.close])
	if strings.TrimSpace(inside.String()) != "" {
		return // a comment or an extension stays where it is
	}
	p.out = p.out[:mark]
	if row.bare && canGo {
		p.out = append(p.out, splice{row.start, row.end, ""})
		return
	}
	p.out = append(p.out, splice{row.open - 1, row.end, "/>"})
}

func (p *sheetPatch) cellText(c *NewCell) string {
	var b strings.Builder
	writeCell(&b, p.lay.prefix, c, p.f)
	return b.String()
}

// checkShared refuses to take out a cell whose formula other cells, outside
// what is cleared, take theirs from.
func (p *sheetPatch) checkShared(c *Cell, start, end int) error {
	if !c.HasFormula {
		return nil
	}
	raw := string(p.b[start:end])
	at := strings.Index(raw, " ref=")
	if at < 0 || at+6 >= len(raw) {
		return nil
	}
	quote := raw[at+5]
	ref, _, ok := strings.Cut(raw[at+6:], string(quote))
	r, err := ParseRange(ref)
	if !ok || err != nil {
		return nil
	}
	for _, clear := range p.edit.Clear {
		if clear.Covers(r) {
			return nil
		}
	}
	return p.fail(Occupied, c.Name(), "its formula also serves "+ref+", which is not all cleared")
}

// dimension widens the sheet's claim over our cells; when cells are only taken
// out it shrinks to what is left.
func (p *sheetPatch) dimension() {
	var dim *element
	for i := range p.lay.tops {
		if t := &p.lay.tops[i]; t.local == "dimension" && t.space == nsMain {
			dim = t
		}
	}
	if dim == nil || p.sheet.Dimension.IsZero() || len(p.cells) == 0 && p.cleared == 0 {
		return
	}
	var want Range
	if len(p.cells) > 0 {
		want = p.sheet.Dimension.Union(p.sheet.Occupied)
		for i := range p.cells {
			want = grow(want, p.cells[i].Row, p.cells[i].Col)
		}
	} else {
		for i := range p.sheet.Cells {
			if c := &p.sheet.Cells[i]; !p.inClear(c.Row, c.Col) {
				want = grow(want, c.Row, c.Col)
			}
		}
		if want.IsZero() {
			want = Range{1, 1, 1, 1}
		}
	}
	if want == p.sheet.Dimension {
		return
	}
	o := outline{b: p.b}
	p.out = append(p.out, o.setAttr(dim, "ref", want.String())...)
}

// colPiece is a run of columns with one definition.
type colPiece struct {
	first, last int
	raw         string // as it is in the file, for its own first and last
	elem        *element
	ours        *ColumnWidth
	style       string
}

// columns sets, splits, drops and joins the <col> elements.
func (p *sheetPatch) columns() error {
	if len(p.edit.Columns) == 0 && len(p.edit.DropColumns) == 0 {
		return nil
	}
	var pieces []colPiece
	for i := range p.lay.cols {
		c := &p.lay.cols[i]
		s := p.sheet.Columns[i]
		pieces = append(pieces, colPiece{first: s.First, last: s.Last, raw: string(p.b[c.start:c.end]), elem: c, style: c.get("style")})
	}
	for _, d := range p.edit.DropColumns {
		if d.First < 1 || d.Last < d.First || d.Last > MaxColumn {
			return p.fail(BadPlan, "", "columns to drop are out of range")
		}
		pieces = p.dropColumns(pieces, d)
	}
	for i := range p.edit.Columns {
		c := &p.edit.Columns[i]
		if c.First < 1 || c.Last < c.First || c.Last > MaxColumn || !validWidth(c.Width) {
			return p.fail(BadPlan, "", "a column width is out of range")
		}
		pieces = setColumns(pieces, c)
	}
	var b strings.Builder
	for i := range pieces {
		b.WriteString(p.colText(&pieces[i]))
	}
	p.replaceCols(b.String())
	return nil
}

func (p *sheetPatch) replaceCols(text string) {
	for i := range p.lay.tops {
		t := &p.lay.tops[i]
		switch {
		case t.local != "cols" || t.space != nsMain:
			continue
		case text == "":
			p.out = append(p.out, splice{t.start, t.end, ""})
		case t.empty:
			p.out = append(p.out, splice{t.open - 2, t.open, ">" + text + "</" + p.lay.prefix + "cols>"})
		case !p.sameCols(text):
			p.out = append(p.out, splice{t.open, t.close, text})
		}
		return
	}
	if text != "" {
		at := p.lay.tops[p.lay.data].start
		p.out = append(p.out, splice{at, at, "<" + p.lay.prefix + "cols>" + text + "</" + p.lay.prefix + "cols>"})
	}
}

// sameCols reports whether text is what the file has, white space between left out.
func (p *sheetPatch) sameCols(text string) bool {
	var b strings.Builder
	for i := range p.lay.cols {
		b.Write(p.b[p.lay.cols[i].start:p.lay.cols[i].end])
	}
	return b.String() == text
}

// cutColumns takes a run out of the pieces; what stands left and right of it
// inside one piece stays.
func cutColumns(pieces []colPiece, first, last int) (rest, cut []colPiece) {
	for _, c := range pieces {
		if c.last < first || c.first > last {
			rest = append(rest, c)
			continue
		}
		part := func(a, b int) colPiece {
			d := c
			d.first, d.last = a, b
			return d
		}
		if c.first < first {
			rest = append(rest, part(c.first, first-1))
		}
		cut = append(cut, part(max(c.first, first), min(c.last, last)))
		if c.last > last {
			rest = append(rest, part(last+1, c.last))
		}
	}
	return rest, cut
}

func sortPieces(pieces []colPiece) []colPiece {
	slices.SortFunc(pieces, func(a, b colPiece) int { return cmp.Compare(a.first, b.first) })
	return pieces
}

// setColumns gives a run our width and shows it; a column style of the user stays.
func setColumns(pieces []colPiece, c *ColumnWidth) []colPiece {
	rest, cut := cutColumns(pieces, c.First, c.Last)
	at := c.First
	add := func(last int, style string) {
		if last >= at {
			rest = append(rest, colPiece{first: at, last: last, ours: c, style: style})
			at = last + 1
		}
	}
	for _, old := range cut {
		add(old.first-1, "")
		add(old.last, old.style)
	}
	add(c.Last, "")
	return sortPieces(rest)
}

// dropColumns forgets the run's definition. Where the pieces left and right of
// it are one definition that we had split, they become one again.
func (p *sheetPatch) dropColumns(pieces []colPiece, d Span) []colPiece {
	rest, cut := cutColumns(pieces, d.First, d.Last)
	sortPieces(rest)
	if len(cut) == 0 {
		return rest // nothing was ours: what lies around is the user's
	}
	for i := 1; i < len(rest); i++ {
		left, right := &rest[i-1], &rest[i]
		if left.last == d.First-1 && right.first == d.Last+1 && sameDefinition(left, right) {
			left.last = right.last
			return slices.Delete(rest, i, i+1)
		}
	}
	return rest
}

func sameDefinition(a, b *colPiece) bool {
	if a.elem == nil || b.elem == nil {
		return false
	}
	strip := func(e *element) string {
		d := element{local: e.local}
		for _, x := range e.attrs {
			if name := string(x.local); len(x.prefix) > 0 || name != "min" && name != "max" {
				d.attrs = append(d.attrs, x)
			}
		}
		return canonical(&d)
	}
	return strip(a.elem) == strip(b.elem)
}

func (p *sheetPatch) colText(c *colPiece) string {
	if c.ours != nil {
		return "<" + p.lay.prefix + colInside(ColumnWidth{c.first, c.last, c.ours.Width}, c.style) + "/>"
	}
	var b strings.Builder
	o := outline{b: p.b}
	splices := append(o.setAttr(c.elem, "min", strconv.Itoa(c.first)), o.setAttr(c.elem, "max", strconv.Itoa(c.last))...)
	at := c.elem.start
	for _, s := range sortSplices(splices) {
		b.Write(p.b[at:s.at])
		b.WriteString(s.text)
		at = s.end
	}
	b.Write(p.b[at:c.elem.end])
	return b.String()
}

// conditional adds our conditional formats, or replaces those that carry the mark.
func (p *sheetPatch) conditional() error {
	mark := p.edit.ConditionalMark
	var ours []ruleSpan
	priority := 0
	for _, r := range p.lay.rules {
		if mark != "" && len(r.formulas) > 0 && !slices.ContainsFunc(r.formulas, func(f string) bool { return !strings.Contains(f, mark) }) {
			ours = append(ours, r)
			continue
		}
		priority = max(priority, r.priority)
	}
	var texts []string
	for i := range p.edit.Conditional {
		c := &p.edit.Conditional[i]
		if mark != "" && !strings.Contains(c.Formula, mark) {
			return p.fail(BadPlan, "", "the formula of a conditional format lacks the mark that recognises it")
		}
		text, err := conditionalXML(p.sheet.Info.Name, p.lay.prefix, c, p.f, priority+1)
		if err != nil {
			return err
		}
		if mark == "" {
			known, err := p.hasRule(c)
			if err != nil {
				return err
			}
			if known {
				continue
			}
		}
		priority++
		texts = append(texts, text)
	}
	if len(ours) == len(texts) {
		for i, text := range texts {
			t := p.lay.tops[ours[i].top]
			p.out = append(p.out, splice{t.start, t.end, text})
		}
		return nil
	}
	if len(texts) > 0 {
		at := p.placeTop("conditionalFormatting")
		p.out = append(p.out, splice{at, at, strings.Join(texts, "")})
	}
	for _, r := range ours {
		t := p.lay.tops[r.top]
		p.out = append(p.out, splice{t.start, t.end, ""})
	}
	return nil
}

// hasRule reports whether the very same conditional format is there, whatever its priority.
func (p *sheetPatch) hasRule(c *Conditional) (bool, error) {
	for _, r := range p.lay.rules {
		text, err := conditionalXML(p.sheet.Info.Name, p.lay.prefix, c, p.f, r.priority)
		if err != nil {
			return false, err
		}
		if t := p.lay.tops[r.top]; text == string(p.b[t.start:t.end]) {
			return true, nil
		}
	}
	return false, nil
}

// placeTop gives the offset where a child of the root belongs.
func (p *sheetPatch) placeTop(local string) int {
	o := outline{root: element{space: nsMain, open: p.lay.root.open, kids: p.lay.tops}}
	return o.place(sheetOrder, local)
}
