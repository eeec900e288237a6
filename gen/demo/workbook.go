package demo

import (
	"fmt"
	"strings"

	"example.com/lockrail/doorsched"
	"github.com/xuri/excelize/v2"
)

// Names of the workbook's sheets.
const (
	scheduleSheet = "Door Schedule"
	notesSheet    = "Notes"
	legendSheet   = "Legend"
)

// book builds a workbook; the first error stops everything after it.
type book struct {
	*sheet
	file *excelize.File
	err  error
	look map[string]int // styles by name
}

func (b *book) try(err error) {
	if b.err == nil {
		b.err = err
	}
}

// ref names the cell at column col (from 0) and row (from 1).
func ref(col, row int) string { return doorsched.ColumnName(col+1) + fmt.Sprint(row) }

func abs(col, row int) string {
	return fmt.Sprintf("$%s$%d", doorsched.ColumnName(col+1), row)
}

// put sets one cell, its style and nothing else. Strings stay strings: a door
// number 001 is not 1.
func (b *book) put(sheet, cell, style string, v any) {
	switch x := v.(type) {
	case nil:
	case string:
		b.try(b.file.SetCellStr(sheet, cell, x))
	default:
		b.try(b.file.SetCellValue(sheet, cell, x))
	}
	b.try(b.file.SetCellStyle(sheet, cell, cell, b.look[style]))
}

// formula sets a formula with the number it comes to, as a spreadsheet saves it.
func (b *book) formula(sheet, cell, style, formula string, value float64) {
	b.put(sheet, cell, style, value)
	b.try(b.file.SetCellFormula(sheet, cell, formula))
}

func (s *sheet) workbook() ([]byte, error) {
	b := &book{sheet: s, file: excelize.NewFile(), look: map[string]int{}}
	defer b.file.Close()
	b.try(b.file.SetSheetName("Sheet1", scheduleSheet))
	for _, name := range []string{notesSheet, legendSheet} {
		_, err := b.file.NewSheet(name)
		b.try(err)
	}
	b.properties()
	b.styles()
	b.titles()
	b.headings()
	b.body()
	b.tools()
	b.print()
	b.notes()
	b.legend()
	if b.err != nil {
		return nil, b.err
	}
	buf, err := b.file.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return repack(buf.Bytes())
}

func (b *book) properties() {
	b.try(b.file.SetDocProps(&excelize.DocProperties{
		Title: b.title[0] + ": " + b.title[1], Creator: "Estimating", LastModifiedBy: "Estimating",
		Created: "2026-01-05T09:00:00Z", Modified: "2026-01-05T09:00:00Z",
		Description: "Invented building, for demonstration only.",
	}))
	b.try(b.file.SetAppProps(&excelize.AppProperties{Application: "Spreadsheet"}))
	b.try(b.file.SetDefaultFont("Arial"))
}

func (b *book) styles() {
	line := []excelize.Border{}
	for _, side := range []string{"left", "right", "top", "bottom"} {
		line = append(line, excelize.Border{Type: side, Color: "A6A6A6", Style: 1})
	}
	fill := func(rgb string) excelize.Fill {
		return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{rgb}}
	}
	body := &excelize.Alignment{Vertical: "top", WrapText: true}
	areaFormat := []string{"0.0", "0.00"}[b.at]
	for _, st := range []struct {
		name string
		excelize.Style
	}{
		{"title", excelize.Style{Font: &excelize.Font{Family: "Arial", Bold: true, Size: 14}}},
		{"plain", excelize.Style{Font: &excelize.Font{Family: "Arial", Size: 9}}},
		{"wrapped", excelize.Style{Font: &excelize.Font{Family: "Arial", Size: 9}, Alignment: body}},
		{"head", excelize.Style{Font: &excelize.Font{Family: "Arial", Bold: true, Size: 8}, Fill: fill("D9D9D9"), Border: line, Alignment: &excelize.Alignment{Horizontal: "center", Vertical: "center", WrapText: true}}},
		{"level", excelize.Style{Font: &excelize.Font{Family: "Arial", Bold: true, Size: 9}, Fill: fill("EDEDED"), Border: line}},
		{"body", excelize.Style{Font: &excelize.Font{Family: "Arial", Size: 8}, Border: line, Alignment: body}},
		{"mark", excelize.Style{Font: &excelize.Font{Family: "Arial", Bold: true, Size: 8}, Border: line, Alignment: body, NumFmt: 49}},
		{"number", excelize.Style{Font: &excelize.Font{Family: "Arial", Size: 8}, Border: line, Alignment: &excelize.Alignment{Horizontal: "center", Vertical: "top"}}},
		{"area", excelize.Style{Font: &excelize.Font{Family: "Arial", Size: 8}, Border: line, Alignment: &excelize.Alignment{Horizontal: "right", Vertical: "top"}, CustomNumFmt: &areaFormat}},
		{"total", excelize.Style{Font: &excelize.Font{Family: "Arial", Bold: true, Size: 9}, Border: []excelize.Border{{Type: "top", Color: "000000", Style: 6}}}},
		{"sum", excelize.Style{Font: &excelize.Font{Family: "Arial", Bold: true, Size: 9}, Border: []excelize.Border{{Type: "top", Color: "000000", Style: 6}}, CustomNumFmt: &areaFormat}},
	} {
		id, err := b.file.NewStyle(&st.Style)
		b.try(err)
		b.look[st.name] = id
	}
}

// titles writes the rows above the headings.
func (b *book) titles() {
	for i, t := range b.title {
		style := "plain"
		if i == 0 {
			style = "title"
		}
		b.put(scheduleSheet, ref(0, i+1), style, t)
	}
}

// headings writes the stacked headings and merges them.
func (b *book) headings() {
	top := b.headRow()
	for row := range b.head {
		for i := range b.columns {
			b.put(scheduleSheet, ref(i, top+row), "head", nil)
		}
	}
	for _, sp := range b.spans() {
		from, to := ref(sp.first, top+sp.row), ref(sp.last, top+sp.row+sp.down)
		b.put(scheduleSheet, from, "head", sp.text)
		if from != to {
			b.try(b.file.MergeCell(scheduleSheet, from, to))
		}
	}
	for i, c := range b.columns {
		name := doorsched.ColumnName(i + 1)
		b.try(b.file.SetColWidth(scheduleSheet, name, name, c.width))
		if c.hidden {
			b.try(b.file.SetColVisible(scheduleSheet, name, false))
		}
	}
	b.try(b.file.SetRowHeight(scheduleSheet, top+b.head-1, 48))
}

func (b *book) body() {
	for n, l := range b.rows {
		row := b.firstRow() + n
		switch l.kind {
		case levelLine:
			for i := range b.columns {
				b.put(scheduleSheet, ref(i, row), "level", nil)
			}
			b.put(scheduleSheet, ref(0, row), "level", l.text)
		case doorLine:
			for i, v := range l.cells {
				b.cell(i, row, v)
			}
			b.try(b.file.SetRowHeight(scheduleSheet, row, 11.5*float64(b.textLines(l.cells))))
		case totalLine:
			b.totals(row, l.text)
		}
	}
}

// textLines is how many lines the longest text of a row wraps to.
func (b *book) textLines(cells []any) int {
	most := 1
	for i, v := range cells {
		if t, ok := v.(string); ok {
			most = max(most, 1+int(float64(len(t))/(1.3*b.columns[i].width)))
		}
	}
	return most
}

func (b *book) cell(i, row int, v any) {
	c, at := b.columns[i], ref(i, row)
	_, number := v.(float64)
	switch {
	case c.special == area:
		b.formula(scheduleSheet, at, "area", b.areaFormula(row), v.(float64))
	case i == 0:
		b.put(scheduleSheet, at, "mark", v)
	case number:
		b.put(scheduleSheet, at, "number", v)
	default:
		b.put(scheduleSheet, at, "body", v)
	}
}

func (b *book) areaFormula(row int) string {
	if b.region == doorsched.RegionUK {
		w, h, n := ref(b.field(doorsched.LeafWidth), row), ref(b.field(doorsched.Height), row), ref(b.field(doorsched.Leaves), row)
		return fmt.Sprintf("%s*%s*%s/1000000", w, h, n)
	}
	w, h := ref(b.special(takeoffWidth), row), ref(b.special(takeoffHeight), row)
	return fmt.Sprintf("%s*%s/144", w, h)
}

func (b *book) totals(row int, text string) {
	for i := range b.columns {
		b.put(scheduleSheet, ref(i, row), "total", nil)
	}
	first, last := b.firstRow(), row-1
	b.put(scheduleSheet, ref(0, row), "total", text)
	room := b.field(doorsched.RoomTo)
	b.formula(scheduleSheet, ref(1, row), "total", fmt.Sprintf("COUNTA(%s:%s)", ref(room, first), ref(room, last)), float64(b.doorCount()))
	a := b.special(area)
	b.formula(scheduleSheet, ref(a, row), "sum", fmt.Sprintf("SUM(%s:%s)", ref(a, first), ref(a, last)), b.totalArea())
}

// tools are what the estimator works with: frozen panes, a filter, a list of
// choices, a format of the estimator's own and a note.
func (b *book) tools() {
	head := b.firstRow() - 1
	b.try(b.file.SetPanes(scheduleSheet, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: head,
		TopLeftCell: ref(1, head+1), ActivePane: "bottomRight"}))
	lastDoor := b.lastRow() - 2
	b.try(b.file.AutoFilter(scheduleSheet, ref(0, head)+":"+ref(len(b.columns)-1, lastDoor), nil))

	status := b.field(doorsched.Phase)
	list := excelize.NewDataValidation(true)
	list.Sqref = ref(status, head+1) + ":" + ref(status, lastDoor)
	b.try(list.SetDropList([]string{"New", "Existing to remain", "By others"}))
	list.SetInput("Status of work", "Pick one; leave blank if not known.")
	b.try(b.file.AddDataValidation(scheduleSheet, list))

	set := b.field(doorsched.HardwareSet)
	missing, err := b.file.NewConditionalStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFF2CC"}}})
	b.try(err)
	b.try(b.file.SetConditionalFormat(scheduleSheet, ref(set, head+1)+":"+ref(set, lastDoor), []excelize.ConditionalFormatOptions{{
		Type: "formula", Criteria: fmt.Sprintf(`AND($%s<>"",$%s="")`, ref(b.field(doorsched.RoomTo), head+1), ref(set, head+1)), Format: &missing,
	}}))

	b.try(b.file.AddComment(scheduleSheet, excelize.Comment{Cell: ref(b.field(doorsched.HardwareSet), b.rowOf("003")), Author: "Estimating",
		Paragraph: []excelize.RichTextRun{{Text: "Client asked for lever furniture here. Ask the architect before pricing."}}, Width: 220, Height: 60}))
}

func (b *book) rowOf(mark string) int {
	for i, l := range b.rows {
		if l.kind == doorLine && l.door.Mark == mark {
			return b.firstRow() + i
		}
	}
	return 0
}

// print sets the pages up: landscape, wide paper, headings on every page.
func (b *book) print() {
	paper, pages, down, landscape, order := 3, 4, 0, "landscape", "overThenDown"
	if b.region == doorsched.RegionUK {
		paper = 8 // A3; 3 is tabloid
	}
	b.try(b.file.SetPageLayout(scheduleSheet, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &pages, FitToHeight: &down, PageOrder: &order}))
	fit := true
	b.try(b.file.SetSheetProps(scheduleSheet, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.try(b.file.SetHeaderFooter(scheduleSheet, &excelize.HeaderFooterOptions{OddFooter: "&L" + b.title[0] + "&RPage &P of &N"}))
	quoted := "'" + scheduleSheet + "'!"
	b.try(b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: scheduleSheet,
		RefersTo: quoted + abs(0, 1) + ":" + abs(len(b.columns)-1, b.lastRow())}))
	b.try(b.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: scheduleSheet,
		RefersTo: fmt.Sprintf("%s$A:$A,%s$%d:$%d", quoted, quoted, b.headRow(), b.firstRow()-1)}))
	a4 := []int{1, 9}[b.at]
	for _, name := range []string{notesSheet, legendSheet} {
		b.try(b.file.SetPageLayout(name, &excelize.PageLayoutOptions{Size: &a4, Orientation: &landscape}))
	}
}

func (b *book) notes() {
	lines := []string{
		"Notes",
		"1. An invented building, for demonstration only. Doors are wrong in it on purpose.",
		"2. Hardware sets are by the architect; access control is by the integrator.",
		"3. Blank means not yet decided, not \"no\".",
		"4. Doors in salt spray: finish and fixings to suit.",
		"5. Lock currents are holding currents at the lock's nominal voltage.",
	}
	if b.region == doorsched.RegionUK {
		lines[2] = "2. Ironmongery sets are by the architect; access control is by the installer."
	}
	b.try(b.file.SetColWidth(notesSheet, "A", "A", 90))
	for i, t := range lines {
		style := "wrapped"
		if i == 0 {
			style = "title"
		}
		b.put(notesSheet, ref(0, i+1), style, t)
	}
}

func (b *book) legend() {
	rows := [][2]string{
		{"F", "Flush"}, {"FG", "Flush, with glass"}, {"G", "Glazed, narrow stile"}, {"RS", "Roller shutter"},
		{"F1-F4", "Frame types, see drawing A-621"}, {"NR", "No fire rating"},
	}
	if b.region == doorsched.RegionUS {
		rows = append(rows, [2]string{"HM", "Hollow metal"}, [2]string{"SCWD", "Solid core wood"})
	} else {
		rows = append(rows, [2]string{"FD30S", "30 minutes, with restricted smoke leakage"})
	}
	b.try(b.file.SetColWidth(legendSheet, "A", "A", 26))
	b.try(b.file.SetColWidth(legendSheet, "B", "B", 40))
	b.put(legendSheet, "A1", "title", "Legend")
	for i, r := range rows {
		b.put(legendSheet, ref(0, i+3), "body", r[0])
		b.put(legendSheet, ref(1, i+3), "body", r[1])
	}
	quoted := "'" + scheduleSheet + "'!"
	row := len(rows) + 4
	b.put(legendSheet, ref(0, row), "body", "Total area, "+strings.TrimPrefix(b.columns[b.special(area)].head[b.at], "Area "))
	b.formula(legendSheet, ref(1, row), "area", quoted+ref(b.special(area), b.lastRow()), b.totalArea())
	lock := b.field(doorsched.Lock)
	magnet := trade[doorsched.Lock.ID()]["electromagnetic"][b.at]
	b.put(legendSheet, ref(0, row+1), "body", "Doors with a "+strings.ToLower(magnet))
	b.formula(legendSheet, ref(1, row+1), "number",
		fmt.Sprintf(`COUNTIF(%s%s:%s,"%s")`, quoted, abs(lock, b.firstRow()), abs(lock, b.lastRow()), magnet), float64(b.countText(lock, magnet)))
}
