package ooxml

import (
	"slices"
	"strconv"
	"strings"
)

const xmlHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// kept lists the elements of a sheet of ours that hold what a person put on it
// and that a replacement leaves there. They follow what we write.
var kept = []string{"drawing", "legacyDrawing", "legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "tableParts"}

// newSheetXML gives the part of an added sheet.
func newSheetXML(s *PutSheet, f formats) (string, error) {
	body, err := sheetBody(s, "", f, false)
	return xmlHead + `<worksheet xmlns="` + nsMain + `" xmlns:r="` + nsDocRels + `">` + body + `</worksheet>`, err
}

// replacedSheetXML gives the part of a replaced sheet: the old root, our
// content, and what a person put on the sheet.
func replacedSheetXML(s *PutSheet, old []byte, lay *layout, f formats) (string, error) {
	var keep strings.Builder
	tables := false
	for _, top := range lay.tops {
		if top.space == nsMain && slices.Contains(kept, top.local) || top.space != nsMain {
			keep.Write(old[top.start:top.end])
			tables = tables || top.local == "tableParts"
		}
	}
	body, err := sheetBody(s, lay.prefix, f, tables)
	return string(old[:lay.root.open]) + body + keep.String() + string(old[lay.root.close:]), err
}

// sheetBody writes the children of <worksheet> in the order of the schema. A
// sheet with tables gets no filter of its own: two on one range damage the file.
func sheetBody(s *PutSheet, p string, f formats, tables bool) (string, error) {
	cells, err := sortCells(s.Name, s.Cells, f)
	if err != nil {
		return "", err
	}
	w := sheetWriter{sheet: s, p: p, f: f}
	w.properties()
	used := Range{}
	for i := range cells {
		used = grow(used, cells[i].Row, cells[i].Col)
	}
	if used.IsZero() {
		used = Range{1, 1, 1, 1}
	}
	w.line(`dimension ref="` + used.String() + `"`)
	w.view()
	w.line(`sheetFormatPr defaultRowHeight="15"`)
	w.columns()
	w.data(cells)
	if !s.AutoFilter.IsZero() && !tables {
		w.check(s.AutoFilter, "the filter")
		w.line(`autoFilter ref="` + s.AutoFilter.String() + `"`)
	}
	w.merges()
	w.conditional()
	w.validations()
	w.links()
	w.page()
	return w.b.String(), w.err
}

// sheetWriter keeps the first error.
type sheetWriter struct {
	sheet *PutSheet
	p     string
	f     formats
	b     strings.Builder
	err   error
}

func (w *sheetWriter) fail(msg string) {
	if w.err == nil {
		w.err = &Error{Kind: BadPlan, Sheet: w.sheet.Name, Msg: msg}
	}
}

func (w *sheetWriter) check(r Range, what string) {
	if !r.valid() {
		w.fail(what + " has a range that is out of bounds or turned around")
	}
}

// line writes an empty element; inside is its name and attributes.
func (w *sheetWriter) line(inside string) { w.b.WriteString("<" + w.p + inside + "/>") }

func (w *sheetWriter) open(inside string) { w.b.WriteString("<" + w.p + inside + ">") }
func (w *sheetWriter) close(name string)  { w.b.WriteString("</" + w.p + name + ">") }

func (w *sheetWriter) properties() {
	s := w.sheet
	if s.TabColor == "" && !s.FitToWidth {
		return
	}
	w.open("sheetPr")
	if s.TabColor != "" {
		if !isColor(s.TabColor) {
			w.fail("a colour is six hexadecimal digits")
		}
		w.line(`tabColor rgb="FF` + s.TabColor + `"`)
	}
	if s.FitToWidth {
		w.line(`pageSetUpPr fitToPage="1"`)
	}
	w.close("sheetPr")
}

func (w *sheetWriter) view() {
	s := w.sheet
	grid := ""
	if s.HideGridlines {
		grid = ` showGridLines="0"`
	}
	rows, cols := max(s.FreezeRows, 0), max(s.FreezeColumns, 0)
	w.open("sheetViews")
	if rows == 0 && cols == 0 {
		w.line("sheetView" + grid + ` workbookViewId="0"`)
		w.close("sheetViews")
		return
	}
	first := CellName(rows+1, cols+1)
	if first == "" {
		w.fail("more rows or columns are frozen than a sheet has")
	}
	split, pane := "", "bottomRight"
	if cols > 0 {
		split += ` xSplit="` + itoa(cols) + `"`
	} else {
		pane = "bottomLeft"
	}
	if rows > 0 {
		split += ` ySplit="` + itoa(rows) + `"`
	} else {
		pane = "topRight"
	}
	w.open("sheetView" + grid + ` workbookViewId="0"`)
	w.line("pane" + split + ` topLeftCell="` + first + `" activePane="` + pane + `" state="frozen"`)
	w.line(`selection pane="` + pane + `" activeCell="` + first + `" sqref="` + first + `"`)
	w.close("sheetView")
	w.close("sheetViews")
}

func (w *sheetWriter) columns() {
	if len(w.sheet.Columns) == 0 {
		return
	}
	w.open("cols")
	last := 0
	for _, c := range w.sheet.Columns {
		if c.First <= last || c.Last < c.First || c.Last > MaxColumn || !validWidth(c.Width) {
			w.fail("column widths are out of order or out of range")
		}
		last = c.Last
		w.line(colInside(c, ""))
	}
	w.close("cols")
}

// validWidth follows the format's bound of 255 characters.
func validWidth(v float64) bool { return v > 0 && v <= 255 }

func colInside(c ColumnWidth, style string) string {
	if style != "" {
		style = ` style="` + style + `"`
	}
	return `col min="` + itoa(c.First) + `" max="` + itoa(c.Last) + `" width="` + numberText(c.Width) + `"` + style + ` customWidth="1"`
}

func (w *sheetWriter) data(cells []NewCell) {
	heights := map[int]float64{}
	var rows []int
	for _, h := range w.sheet.Heights {
		if h.Row < 1 || h.Row > MaxRow || !(h.Height > 0 && h.Height <= 409.5) {
			w.fail("a row height is out of range")
		}
		if _, dup := heights[h.Row]; !dup {
			rows = append(rows, h.Row)
		}
		heights[h.Row] = h.Height
	}
	for i := range cells {
		if i == 0 || cells[i].Row != cells[i-1].Row {
			rows = append(rows, cells[i].Row)
		}
	}
	slices.Sort(rows)
	w.open("sheetData")
	for _, row := range slices.Compact(rows) {
		tag := `row r="` + itoa(row) + `"`
		if h, ok := heights[row]; ok {
			tag += ` ht="` + numberText(h) + `" customHeight="1"`
		}
		w.open(tag)
		for ; len(cells) > 0 && cells[0].Row == row; cells = cells[1:] {
			writeCell(&w.b, w.p, &cells[0], w.f)
		}
		w.close("row")
	}
	w.close("sheetData")
}

func (w *sheetWriter) merges() {
	if len(w.sheet.Merges) == 0 {
		return
	}
	w.open(`mergeCells count="` + itoa(len(w.sheet.Merges)) + `"`)
	for i, m := range w.sheet.Merges {
		w.check(m, "a merge")
		for _, o := range w.sheet.Merges[:i] {
			if m.Overlaps(o) {
				w.fail("two merges overlap")
			}
		}
		w.line(`mergeCell ref="` + m.String() + `"`)
	}
	w.close("mergeCells")
}

func (w *sheetWriter) conditional() {
	for i := range w.sheet.Conditional {
		text, err := conditionalXML(w.sheet.Name, w.p, &w.sheet.Conditional[i], w.f, i+1)
		if err != nil && w.err == nil {
			w.err = err
		}
		w.b.WriteString(text)
	}
}

func (w *sheetWriter) validations() {
	if len(w.sheet.Validations) == 0 {
		return
	}
	w.open(`dataValidations count="` + itoa(len(w.sheet.Validations)) + `"`)
	for _, v := range w.sheet.Validations {
		if err := checkRanges(w.sheet.Name, v.Ranges, "a drop-down list"); err != nil && w.err == nil {
			w.err = err
		}
		source := v.Formula
		if len(v.List) > 0 {
			items := strings.Join(v.List, ",")
			if v.Formula != "" || strings.Count(items, ",") != len(v.List)-1 || strings.Contains(items, `"`) || len(items) > 255 {
				w.fail("the choices of a drop-down list have no commas or quotation marks, and 255 characters together")
			}
			source = `"` + items + `"`
		}
		if source == "" {
			w.fail("a drop-down list needs choices")
		}
		if len(v.PromptTitle) > 32 || len(v.Prompt) > 255 {
			w.fail("a prompt has at most 255 characters and its title 32")
		}
		tag := `dataValidation type="list"`
		if v.Warn {
			tag += ` errorStyle="warning"`
		}
		tag += ` allowBlank="1" showInputMessage="1" showErrorMessage="1"`
		if v.PromptTitle != "" {
			tag += ` promptTitle="` + escapeXML(v.PromptTitle) + `"`
		}
		if v.Prompt != "" {
			tag += ` prompt="` + escapeXML(v.Prompt) + `"`
		}
		w.open(tag + ` sqref="` + joinRanges(v.Ranges) + `"`)
		writeText(&w.b, w.p+"formula1", escapeXML(source), false)
		w.close("dataValidation")
	}
	w.close("dataValidations")
}

func (w *sheetWriter) links() {
	if len(w.sheet.Links) == 0 {
		return
	}
	w.open("hyperlinks")
	for _, k := range w.sheet.Links {
		ref := CellName(k.Row, k.Col)
		if ref == "" || k.Target == "" {
			w.fail("a link needs a cell and a target")
		}
		tip := ""
		if k.Tip != "" {
			tip = ` tooltip="` + escapeXML(k.Tip) + `"`
		}
		w.line(`hyperlink ref="` + ref + `" location="` + escapeXML(k.Target) + `"` + tip)
	}
	w.close("hyperlinks")
}

func (w *sheetWriter) page() {
	s := w.sheet
	w.line(`pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"`)
	setup := "pageSetup"
	if s.Paper > 0 {
		setup += ` paperSize="` + strconv.Itoa(s.Paper) + `"`
	}
	if s.FitToWidth {
		setup += ` fitToHeight="0"`
	}
	if s.Landscape {
		setup += ` orientation="landscape"`
	}
	if setup != "pageSetup" {
		w.line(setup)
	}
	if s.Header == "" && s.Footer == "" {
		return
	}
	if utf16Len(s.Header) > 255 || utf16Len(s.Footer) > 255 {
		w.fail("a header or footer has at most 255 characters")
	}
	w.open("headerFooter")
	if s.Header != "" {
		writeText(&w.b, w.p+"oddHeader", EscapeText(s.Header), false)
	}
	if s.Footer != "" {
		writeText(&w.b, w.p+"oddFooter", EscapeText(s.Footer), false)
	}
	w.close("headerFooter")
}

// localNames gives the names a sheet of ours needs beside it.
func (s *PutSheet) localNames() []DefinedName {
	var names []DefinedName
	add := func(name string, r Range, hidden bool) {
		names = append(names, DefinedName{Name: name, Sheet: s.Name, Formula: QuoteSheet(s.Name) + "!" + AbsRange(r), Hidden: hidden})
	}
	if !s.AutoFilter.IsZero() {
		add(nameFilter, s.AutoFilter, true)
	}
	if !s.PrintArea.IsZero() {
		add(namePrintArea, s.PrintArea, false)
	}
	if t := s.TitleRows; t.First >= 1 && t.Last >= t.First {
		add(namePrintTitles, Range{t.First, 1, t.Last, MaxColumn}, false)
	}
	return names
}

// Names that the format reserves for one sheet.
const (
	nameFilter      = "_xlnm._FilterDatabase"
	namePrintArea   = "_xlnm.Print_Area"
	namePrintTitles = "_xlnm.Print_Titles"
)
