package ooxml_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/gen/ooxml"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"
)

const userSheet = "Door schedule"

// fullPlan puts results on the schedule and two sheets behind it.
func fullPlan(rows int) *ooxml.Plan {
	p := &ooxml.Plan{RecalculateOnOpen: true}
	head := p.Style(ooxml.Style{Bold: true, Fill: "DDDDDD", Border: "999999", Wrap: true, Vertical: "top"})
	bad := p.Style(ooxml.Style{Color: "D55E00", QuotePrefix: true})
	num := p.Style(ooxml.Style{NumFmt: "0.000 \"V\""})
	edit := ooxml.SheetEdit{
		Sheet:   userSheet,
		Clear:   []ooxml.Range{{R1: 3, C1: 12, R2: rows + 10, C2: 15}},
		Columns: []ooxml.ColumnWidth{{First: 12, Last: 12, Width: 10}, {First: 13, Last: 15, Width: 28.5}},
		Conditional: []ooxml.Conditional{{
			Ranges: []ooxml.Range{{R1: 4, C1: 2, R2: rows + 3, C2: 2}}, Formula: `AND(our_mark,$M4<>"")`, Diff: p.Diff(ooxml.Diff{Fill: "FBE3D6", Bold: true}),
		}},
		ConditionalMark: "our_mark",
	}
	for i, h := range []string{"Mark", "Verdict", "Volts", "Changed"} {
		edit.Cells = append(edit.Cells, ooxml.TextCell(3, 12+i, h, head))
	}
	for i := range rows {
		row := i + 4
		edit.Cells = append(edit.Cells,
			ooxml.TextCell(row, 12, fmt.Sprintf("D%03d", i+1), 0),
			ooxml.TextCell(row, 13, "=conflict & <query> \x01 ", bad),
			ooxml.NumberCell(row, 14, 21.3+float64(i)/8, num),
			ooxml.FormulaCell(row, 15, fmt.Sprintf(`IF(C%d<>"x","CHANGED","")`, row), "", 0))
	}
	edit.Cells = append(edit.Cells, ooxml.TextCell(rows+10, 12, "a row that was not there", 0))
	p.Edits = []ooxml.SheetEdit{edit}
	p.Put = []ooxml.PutSheet{{
		Name: "Queries", FreezeRows: 3, AutoFilter: ooxml.Range{R1: 3, C1: 1, R2: 5, C2: 3}, TitleRows: ooxml.Span{First: 1, Last: 3},
		PrintArea: ooxml.Range{R1: 1, C1: 1, R2: 5, C2: 3}, Landscape: true, FitToWidth: true, Paper: 9, Footer: "&CPage &P of &N", TabColor: "009E73",
		Columns: []ooxml.ColumnWidth{{First: 1, Last: 1, Width: 12}, {First: 2, Last: 3, Width: 40}},
		Heights: []ooxml.RowHeight{{Row: 1, Height: 24}},
		Merges:  []ooxml.Range{{R1: 1, C1: 1, R2: 1, C2: 3}},
		Cells: []ooxml.NewCell{
			ooxml.TextCell(1, 1, "What we need to know", 0), ooxml.TextCell(3, 1, "Id", head), ooxml.TextCell(3, 2, "Question", head), ooxml.TextCell(3, 3, "Answer", head),
			ooxml.TextCell(4, 1, "Q1", 0), ooxml.TextCell(4, 2, "Sprinklered?", 0), ooxml.BlankCell(4, 3, p.Style(ooxml.Style{Unlocked: true})),
		},
		Validations: []ooxml.Validation{{Ranges: []ooxml.Range{{R1: 4, C1: 3, R2: 5, C2: 3}}, List: []string{"yes", "no"}, Prompt: "one of both", Warn: true}},
		Links:       []ooxml.Link{{Row: 4, Col: 1, Target: "'Door schedule'!B4", Tip: "the door"}},
		Conditional: []ooxml.Conditional{{Ranges: []ooxml.Range{{R1: 4, C1: 1, R2: 5, C2: 1}}, Formula: `$C4=""`, Diff: p.Diff(ooxml.Diff{Color: "D55E00"})}},
	}, {Name: "Our data", State: ooxml.VeryHidden, Cells: []ooxml.NewCell{ooxml.NumberCell(1, 1, 1, 0)}}}
	p.SetNames = []ooxml.DefinedName{
		{Name: "our_mark", Formula: "TRUE", Hidden: true},
		{Name: "our_columns", Formula: ooxml.QuoteSheet(userSheet) + "!$L:$O", Comment: "made here"},
	}
	return p
}

func TestPatchKeepsTheRestAndIsIdempotent(t *testing.T) {
	const rows = 12
	before := kitchenSink(t, rows)
	after, changes := patch(t, before, fullPlan(rows))
	checkUntouched(t, before, after, changes)
	want := []string{"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml"}
	got := slices.Sorted(slices.Values(changes.Changed))
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("changed parts (-want +got):\n%s", d)
	}

	t.Run("the user's cells are unchanged", func(t *testing.T) {
		p, q := open(t, before), open(t, after)
		for _, info := range p.Sheets() {
			old, now := scan(t, p, info.Name), scan(t, q, info.Name)
			var theirs []ooxml.Cell
			for _, c := range now.Cells {
				if info.Name != userSheet || c.Col < 12 {
					theirs = append(theirs, c)
				}
			}
			if d := cmp.Diff(old.Cells, theirs, cmpopts.EquateEmpty()); d != "" {
				t.Errorf("%s (-before +after):\n%s", info.Name, d)
			}
			if d := cmp.Diff(excelValues(t, before, info.Name), mapWithout(excelValues(t, after, info.Name), info.Name == userSheet)); d != "" {
				t.Errorf("%s as another library reads it (-before +after):\n%s", info.Name, d)
			}
		}
	})

	t.Run("taking out our insertions gives the bytes before", func(t *testing.T) {
		text := part(t, after, "xl/worksheets/sheet1.xml")
		s := scan(t, open(t, after), userSheet)
		for _, c := range s.Cells {
			if c.Col < 12 {
				continue
			}
			start := strings.Index(text, `<c r="`+c.Name()+`"`)
			end := start + strings.Index(text[start:], "</c>") + 4
			text = text[:start] + text[end:]
		}
		text = strings.Replace(text, `<row r="22"></row>`, "", 1)
		start := strings.Index(text, `<conditionalFormatting sqref="B4:B15">`)
		text = text[:start] + text[start+strings.Index(text[start:], "</conditionalFormatting>")+len("</conditionalFormatting>"):]
		was := part(t, before, "xl/worksheets/sheet1.xml")
		cut := func(s, from, to string) string {
			a, b := strings.Index(s, from), strings.Index(s, to)
			return s[:a] + s[b:]
		}
		was, text = cut(was, "<cols>", "</cols>"), cut(text, "<cols>", "</cols>")
		was, text = cut(was, "<dimension", "<sheetViews"), cut(text, "<dimension", "<sheetViews")
		if d := cmp.Diff(strings.Split(indent(was), "\n"), strings.Split(indent(text), "\n")); d != "" {
			t.Errorf("(-before +after):\n%s", d)
		}
	})

	t.Run("another library reads our cells", func(t *testing.T) {
		f, err := excelize.OpenReader(bytes.NewReader(after))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		for cell, want := range map[string]string{"L3": "Mark", "L4": "D001", "M5": "=conflict & <query> \x01 ", "N4": "21.300 V", "L22": "a row that was not there"} {
			got, err := f.GetCellValue(userSheet, cell)
			if err != nil || got != want {
				t.Errorf("%s: %q, %v; want %q", cell, got, err, want)
			}
		}
		if got, _ := f.GetCellFormula(userSheet, "O4"); got != `IF(C4<>"x","CHANGED","")` {
			t.Errorf("formula %q", got)
		}
		if d := cmp.Diff([]string{userSheet, "Plan", "Lists", "Queries", "Our data"}, f.GetSheetList()); d != "" {
			t.Error(d)
		}
		for col, want := range map[string]bool{"K": true, "L": true, "O": true, "P": false, "XFD": false} {
			if got, err := f.GetColVisible(userSheet, col); err != nil || got != want {
				t.Errorf("column %s visible: %v, %v; want %v", col, got, err, want)
			}
		}
		if w, _ := f.GetColWidth(userSheet, "N"); w != 28.5 {
			t.Errorf("width %v", w)
		}
		for sheet, wantVisible := range map[string]bool{"Queries": true, "Our data": false, "Lists": false} {
			if got, _ := f.GetSheetVisible(sheet); got != wantVisible {
				t.Errorf("%s visible: %v", sheet, got)
			}
		}
		formats, err := f.GetConditionalFormats(userSheet)
		if err != nil || len(formats) != 2 {
			t.Errorf("conditional formats %v, %v", formats, err)
		}
		dv, err := f.GetDataValidations("Queries")
		if err != nil || len(dv) != 1 || strings.Trim(dv[0].Formula1, `"`) != "yes,no" {
			t.Errorf("validations %+v, %v", dv[0], err)
		}
		id, _ := f.GetCellStyle(userSheet, "L3")
		style, err := f.GetStyle(id)
		if err != nil || !style.Font.Bold || style.Fill.Color[0] != "DDDDDD" || !style.Alignment.WrapText {
			t.Errorf("style %+v, %v", style, err)
		}
		priorities := regexp.MustCompile(`priority="\d+"`).FindAllString(part(t, after, "xl/worksheets/sheet1.xml"), -1)
		if d := cmp.Diff([]string{`priority="1"`, `priority="2"`}, priorities); d != "" {
			t.Errorf("a priority stands for one rule: %s", d)
		}
		checkStyleCounts(t, part(t, after, "xl/styles.xml"))
		checkFormatIDs(t, part(t, after, "xl/styles.xml"))
		comments, err := f.GetComments(userSheet)
		if err != nil || len(comments) != 1 {
			t.Errorf("notes %v, %v", comments, err)
		}
	})

	t.Run("names", func(t *testing.T) {
		want := []ooxml.DefinedName{
			{Name: "Marks", Formula: "'Door schedule'!$B$4:$B$9"},
			{Name: "_xlnm.Print_Area", Sheet: "Lists", Formula: "Lists!$A$1:$C$9"},
			{Name: "our_mark", Formula: "TRUE", Hidden: true},
			{Name: "our_columns", Formula: "'Door schedule'!$L:$O", Comment: "made here"},
			{Name: "_xlnm._FilterDatabase", Sheet: "Queries", Formula: "Queries!$A$3:$C$5", Hidden: true},
			{Name: "_xlnm.Print_Area", Sheet: "Queries", Formula: "Queries!$A$1:$C$5"},
			{Name: "_xlnm.Print_Titles", Sheet: "Queries", Formula: "Queries!$1:$3"},
		}
		got := slices.DeleteFunc(open(t, after).Names(), func(n ooxml.DefinedName) bool {
			return n.Name == "_xlnm._FilterDatabase" && n.Sheet == "Lists"
		})
		if d := cmp.Diff(want, got); d != "" {
			t.Error(d)
		}
	})

	again, second := patch(t, after, fullPlan(rows))
	if !second.None() {
		t.Errorf("the plan on its own output changes %+v", second)
	}
	if d := cmp.Diff(rawEntries(t, after), rawEntries(t, again), cmp.AllowUnexported(rawEntry{})); d != "" {
		t.Errorf("entries differ after a second run")
	}
	if other, _ := patch(t, before, fullPlan(rows)); !bytes.Equal(after, other) {
		t.Error("two runs give different bytes")
	}

	replace := fullPlan(rows)
	for i := range replace.Put {
		replace.Put[i].Replace = true
	}
	if _, c := patch(t, after, replace); !c.None() {
		t.Errorf("replacing our sheets by themselves changes %+v", c)
	}
}

// checkStyleCounts compares every count with what it counts.
func checkStyleCounts(t *testing.T, text string) {
	t.Helper()
	var sheet struct {
		Lists []struct {
			XMLName xml.Name
			Count   int        `xml:"count,attr"`
			Items   []struct{} `xml:",any"`
		} `xml:",any"`
	}
	if err := xml.Unmarshal([]byte(text), &sheet); err != nil {
		t.Fatal(err)
	}
	for _, l := range sheet.Lists {
		if l.XMLName.Local != "tableStyles" && l.Count != len(l.Items) {
			t.Errorf("<%s> counts %d and has %d", l.XMLName.Local, l.Count, len(l.Items))
		}
	}
}

// checkFormatIDs makes sure that no two number formats share an id.
func checkFormatIDs(t *testing.T, text string) {
	t.Helper()
	seen := map[string]bool{}
	for _, id := range regexp.MustCompile(`<numFmt [^>]*numFmtId="(\d+)"`).FindAllStringSubmatch(text, -1) {
		if seen[id[1]] {
			t.Errorf("two number formats have id %s", id[1])
		}
		seen[id[1]] = true
	}
	if len(seen) != 2 {
		t.Errorf("number formats %v", seen)
	}
}

func mapWithout(m map[string]string, ours bool) map[string]string {
	for name := range m {
		if _, col, _ := ooxml.ParseCell(name); ours && col >= 12 {
			delete(m, name)
		}
	}
	return m
}

// removal undoes fullPlan.
func removal(rows int) *ooxml.Plan {
	return &ooxml.Plan{
		Edits: []ooxml.SheetEdit{{
			Sheet: userSheet, Clear: []ooxml.Range{{R1: 3, C1: 12, R2: rows + 10, C2: 15}},
			DropColumns: []ooxml.Span{{First: 12, Last: 15}}, ConditionalMark: "our_mark",
		}},
		Remove:    []string{"Queries", "Our data"},
		DropNames: []ooxml.DefinedName{{Name: "our_mark"}, {Name: "our_columns"}},
	}
}

func TestRemovalRestoresTheParts(t *testing.T) {
	const rows = 12
	before := kitchenSink(t, rows)
	plan := fullPlan(rows)
	plan.RecalculateOnOpen = false
	// A blank column between, so that what is hidden on both sides is one range again.
	for i := range plan.Edits[0].Cells {
		plan.Edits[0].Cells[i].Col++
	}
	plan.Edits[0].Clear[0].C1, plan.Edits[0].Clear[0].C2 = 13, 16
	plan.Edits[0].Columns = []ooxml.ColumnWidth{{First: 13, Last: 16, Width: 20}}
	after, _ := patch(t, before, plan)
	undo := removal(rows)
	undo.Edits[0].Clear = plan.Edits[0].Clear
	undo.Edits[0].DropColumns = []ooxml.Span{{First: 13, Last: 16}}
	back, c := patch(t, after, undo)
	checkUntouched(t, after, back, c)
	was := map[string]string{}
	for _, e := range rawEntries(t, before) {
		was[e.name] = e.text
	}
	for _, e := range rawEntries(t, back) {
		// What was appended to the formats stays: a cell copied by the user may use it.
		if e.name != "xl/styles.xml" && was[e.name] != e.text {
			t.Errorf("%s (-before +after removal):\n%s", e.name, cmp.Diff(strings.Split(indent(was[e.name]), "\n"), strings.Split(indent(e.text), "\n")))
		}
		delete(was, e.name)
	}
	if len(was) > 0 {
		t.Errorf("lost entries %v", was)
	}
	if _, c := patch(t, back, undo); !c.None() {
		t.Errorf("a second removal changes %+v", c)
	}
}

func TestReannotateWithOtherContent(t *testing.T) {
	const rows = 12
	after, _ := patch(t, kitchenSink(t, rows), fullPlan(rows))
	plan := fullPlan(rows)
	e := &plan.Edits[0]
	e.Cells = slices.DeleteFunc(e.Cells, func(c ooxml.NewCell) bool { return c.Col == 15 || c.Row > 10 })
	e.Cells = append(e.Cells, ooxml.NumberCell(4, 15, 7, 0))
	e.Conditional = nil
	plan.Put[0].Replace = true
	plan.Put[0].Cells = plan.Put[0].Cells[:4]
	plan.Put[0].AutoFilter = ooxml.Range{}
	plan.Put[1].Replace = true
	out, c := patch(t, after, plan)
	checkUntouched(t, after, out, c)
	s := scan(t, open(t, out), userSheet)
	if got, _ := s.Cell(4, 15); got.Kind != ooxml.CellNumber || got.Text != "7" || got.HasFormula {
		t.Errorf("replaced cell %+v", got)
	}
	if _, ok := s.Cell(5, 15); ok {
		t.Error("a cleared cell is still there")
	}
	if s.RowHidden(22) || len(s.Rows) == 0 || s.Rows[len(s.Rows)-1].Number != rows+3 {
		t.Error("the row that was ours alone is still there")
	}
	for _, n := range open(t, out).Names() {
		if n.Sheet == "Queries" && n.Name == "_xlnm._FilterDatabase" {
			t.Error("the name of the filter is still there")
		}
	}
	if _, c := patch(t, out, plan); !c.None() {
		t.Errorf("a second run changes %+v", c)
	}
}

func TestReplaceKeepsWhatAPersonPutThere(t *testing.T) {
	after, _ := patch(t, kitchenSink(t, 3), fullPlan(3))
	f, err := excelize.OpenReader(bytes.NewReader(after))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.AddComment("Queries", excelize.Comment{Cell: "C4", Author: "A", Text: "asked by phone"}); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellValue("Queries", "C4", "yes"); err != nil {
		t.Fatal(err)
	}
	if err := f.AddTable("Queries", &excelize.Table{Range: "A3:C5"}); err != nil {
		t.Fatal(err)
	}
	var saved bytes.Buffer
	if err := f.Write(&saved); err != nil {
		t.Fatal(err)
	}
	plan := fullPlan(3)
	plan.Put[0].Replace, plan.Put[1].Replace = true, true
	out, c := patch(t, saved.Bytes(), plan)
	checkUntouched(t, saved.Bytes(), out, c)
	g, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	notes, err := g.GetComments("Queries")
	if err != nil || len(notes) != 1 {
		t.Errorf("notes %v, %v", notes, err)
	}
	sheet := part(t, out, "xl/worksheets/sheet4.xml")
	if !strings.Contains(sheet, "legacyDrawing") || !strings.Contains(sheet, "tableParts") {
		t.Error("the sheet no longer shows its notes or its table")
	}
	if strings.Contains(sheet, "autoFilter") {
		t.Error("a filter of ours lies over the filter of a table")
	}
	if _, c := patch(t, out, plan); !c.None() {
		t.Errorf("a second run changes %+v", c)
	}
	// When the sheet goes, so do the parts that only it used.
	gone, c := patch(t, out, &ooxml.Plan{Remove: []string{"Queries"}})
	checkUntouched(t, out, gone, c)
	if len(c.Removed) < 4 {
		t.Errorf("removed %v", c.Removed)
	}
	h, err := excelize.OpenReader(bytes.NewReader(gone))
	if err != nil {
		t.Fatal(err)
	}
	defer h.Close()
	if notes, err := h.GetComments(userSheet); err != nil || len(notes) != 1 {
		t.Errorf("the other sheet's notes: %v, %v", notes, err)
	}
}

func TestRowsOfEveryForm(t *testing.T) {
	cells := []ooxml.NewCell{ooxml.TextCell(1, 4, "a", 0), ooxml.NumberCell(2, 4, 2.5, 0), ooxml.TextCell(3, 4, " c", 0), ooxml.TextCell(4, 1, "before", 0), ooxml.TextCell(7, 1, "new", 0)}
	for _, tt := range []struct {
		name, sheet, want string
		columns           []ooxml.ColumnWidth
	}{
		{
			"no rows", `<worksheet ` + xmlns + `><sheetData/></worksheet>`,
			`<worksheet ` + xmlns + `><sheetData><row r="1"><c r="D1" t="inlineStr"><is><t>a</t></is></c></row><row r="2"><c r="D2"><v>2.5</v></c></row><row r="3"><c r="D3" t="inlineStr"><is><t xml:space="preserve"> c</t></is></c></row><row r="4"><c r="A4" t="inlineStr"><is><t>before</t></is></c></row><row r="7"><c r="A7" t="inlineStr"><is><t>new</t></is></c></row></sheetData></worksheet>`,
			nil,
		},
		{
			"empty rows, comments, CDATA, both quotes",
			`<worksheet ` + xmlns + `><dimension ref="A1"/><!-- <row r="1"/> --><sheetData>` + "\n" + `<row r='1' />` + "\n" + `<row r="2" spans='1:2'></row><!-- between --><row r="3"><c r='A3' t='str'><v><![CDATA[</row>]]></v></c><!-- end --></row>
<row r="4"><c r="B4"/></row></sheetData></worksheet>`,
			`<worksheet ` + xmlns + `><dimension ref="A1:D7"/><!-- <row r="1"/> --><sheetData>` + "\n" + `<row r='1' ><c r="D1" t="inlineStr"><is><t>a</t></is></c></row>` + "\n" + `<row r="2" spans='1:2'><c r="D2"><v>2.5</v></c></row><!-- between --><row r="3"><c r='A3' t='str'><v><![CDATA[</row>]]></v></c><!-- end --><c r="D3" t="inlineStr"><is><t xml:space="preserve"> c</t></is></c></row>
<row r="4"><c r="A4" t="inlineStr"><is><t>before</t></is></c><c r="B4"/></row><row r="7"><c r="A7" t="inlineStr"><is><t>new</t></is></c></row></sheetData></worksheet>`,
			nil,
		},
		{
			"prefixed", `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="3"/></x:sheetData></x:worksheet>`,
			`<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:cols><x:col min="4" max="4" width="9" customWidth="1"/></x:cols><x:sheetData><x:row r="1"><x:c r="D1" t="inlineStr"><x:is><x:t>a</x:t></x:is></x:c></x:row><x:row r="2"><x:c r="D2"><x:v>2.5</x:v></x:c></x:row><x:row r="3"><x:c r="D3" t="inlineStr"><x:is><x:t xml:space="preserve"> c</x:t></x:is></x:c></x:row><x:row r="4"><x:c r="A4" t="inlineStr"><x:is><x:t>before</x:t></x:is></x:c></x:row><x:row r="7"><x:c r="A7" t="inlineStr"><x:is><x:t>new</x:t></x:is></x:c></x:row></x:sheetData></x:worksheet>`,
			[]ooxml.ColumnWidth{{First: 4, Last: 4, Width: 9}},
		},
	} {
		t.Run(tt.name, func(t *testing.T) {
			before := zipOf(t, handMade(tt.sheet)...)
			plan := &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: "doors", Cells: cells, Columns: tt.columns}}}
			after, c := patch(t, before, plan)
			checkUntouched(t, before, after, c)
			if d := cmp.Diff(strings.Split(indent(tt.want), "\n"), strings.Split(indent(part(t, after, "xl/worksheets/sheet1.xml")), "\n")); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			if _, c := patch(t, after, plan); !c.None() {
				t.Errorf("a second run changes %+v", c)
			}
		})
	}
}

func TestColumns(t *testing.T) {
	set := func(first, last int, w float64) ooxml.ColumnWidth {
		return ooxml.ColumnWidth{First: first, Last: last, Width: w}
	}
	for _, tt := range []struct {
		name, have string
		drop       []ooxml.Span
		set        []ooxml.ColumnWidth
		want       string
	}{
		{"split a hidden range", `<cols><col min="12" max="16384" width="0" hidden="1" customWidth="1"/></cols>`, nil, []ooxml.ColumnWidth{set(14, 15, 12)},
			`<cols><col min="12" max="13" width="0" hidden="1" customWidth="1"/><col min="14" max="15" width="12" customWidth="1"/><col min="16" max="16384" width="0" hidden="1" customWidth="1"/></cols>`},
		{"keep a column style", `<cols><col min='1' max='20' width='9' style='3'/></cols>`, nil, []ooxml.ColumnWidth{set(20, 22, 12)},
			`<cols><col min='1' max='19' width='9' style='3'/><col min="20" max="20" width="12" style="3" customWidth="1"/><col min="21" max="22" width="12" customWidth="1"/></cols>`},
		{"none before", ``, nil, []ooxml.ColumnWidth{set(3, 3, 8.43)}, `<cols><col min="3" max="3" width="8.43" customWidth="1"/></cols>`},
		{"join again", `<cols><col min="2" max="3" hidden="1"/><col min="4" max="5" width="7"/><col hidden="1" min="6" max="9"/></cols>`, []ooxml.Span{{First: 4, Last: 5}}, nil, `<cols><col min="2" max="9" hidden="1"/></cols>`},
		{"do not join what differs", `<cols><col min="2" max="3" hidden="1"/><col min="4" max="5" width="7"/><col min="6" max="9" width="4"/></cols>`, []ooxml.Span{{First: 4, Last: 5}}, nil,
			`<cols><col min="2" max="3" hidden="1"/><col min="6" max="9" width="4"/></cols>`},
		{"do not fill a gap of the user", `<cols><col min="2" max="3" hidden="1"/><col min="6" max="9" hidden="1"/></cols>`, []ooxml.Span{{First: 4, Last: 5}}, nil,
			`<cols><col min="2" max="3" hidden="1"/><col min="6" max="9" hidden="1"/></cols>`},
		{"drop all", `<cols><col min="4" max="5" width="7"/></cols>`, []ooxml.Span{{First: 1, Last: 9}}, nil, ``},
	} {
		t.Run(tt.name, func(t *testing.T) {
			whole := func(cols string) string { return `<worksheet ` + xmlns + `>` + cols + `<sheetData/></worksheet>` }
			plan := &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: "Doors", DropColumns: tt.drop, Columns: tt.set}}}
			out, _ := patch(t, zipOf(t, handMade(whole(tt.have))...), plan)
			if d := cmp.Diff(whole(tt.want), part(t, out, "xl/worksheets/sheet1.xml")); d != "" {
				t.Error(d)
			}
			if _, c := patch(t, out, plan); !c.None() {
				t.Errorf("a second run changes %+v", c)
			}
		})
	}
}

func TestWorkbookWithoutStylesOrNames(t *testing.T) {
	entries := withSheet(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	entries = with(entries, "xl/workbook.xml", `<w:workbook xmlns:w="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><w:sheets><w:sheet xmlns:q="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="Doors" sheetId="7" q:id="rId1"/></w:sheets><w:calcPr calcId="1"/></w:workbook>`)
	before := zipOf(t, entries...)
	plan := &ooxml.Plan{RecalculateOnOpen: true, SetNames: []ooxml.DefinedName{{Name: "our.a", Formula: "Doors!$A$1"}}}
	bold := plan.Style(ooxml.Style{Bold: true})
	plan.Edits = []ooxml.SheetEdit{{Sheet: "Doors", Cells: []ooxml.NewCell{ooxml.TextCell(1, 3, "x", bold)}}}
	plan.Put = []ooxml.PutSheet{{Name: "A & B", Cells: []ooxml.NewCell{ooxml.TextCell(1, 1, "x", bold)}}}
	after, c := patch(t, before, plan)
	checkUntouched(t, before, after, c)
	want := `<w:workbook xmlns:w="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><w:sheets><w:sheet xmlns:q="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="Doors" sheetId="7" q:id="rId1"/><w:sheet xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" name="A &amp; B" sheetId="8" r:id="rId3"/></w:sheets><w:definedNames><w:definedName name="our.a">Doors!$A$1</w:definedName></w:definedNames><w:calcPr fullCalcOnLoad="1" calcId="1"/></w:workbook>`
	if d := cmp.Diff(strings.Split(indent(want), "\n"), strings.Split(indent(part(t, after, "xl/workbook.xml")), "\n")); d != "" {
		t.Error(d)
	}
	f, err := excelize.OpenReader(bytes.NewReader(after))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	id, _ := f.GetCellStyle("Doors", "C1")
	style, err := f.GetStyle(id)
	if err != nil || style.Font == nil || !style.Font.Bold {
		t.Errorf("style %+v, %v", style, err)
	}
	id, _ = f.GetCellStyle("Doors", "A1")
	if style, err := f.GetStyle(id); err != nil || style.Font.Bold {
		t.Errorf("the user's cell has style %+v, %v", style, err)
	}
	checkStyleCounts(t, part(t, after, "xl/styles.xml"))
	if _, c := patch(t, after, plan); !c.None() {
		t.Errorf("a second run changes %+v", c)
	}
}

func TestCalcChainFollows(t *testing.T) {
	sheet := `<row r="1"><c r="A1"><f>1</f><v>1</v></c><c r="C1"><f>2</f><v>2</v></c><c r="D1"><f>3</f><v>3</v></c></row>`
	chain := func(s string) string { return `<calcChain ` + xmlns + `>` + s + `</calcChain>` }
	entries := withSheet(sheet)
	entries = with(entries, "xl/_rels/workbook.xml.rels", `<Relationships xmlns="`+pkgRels+`"><Relationship Id="rId1" Type="`+relTypes+`worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="`+relTypes+`calcChain" Target="calcChain.xml"/></Relationships>`)
	entries = with(entries, "xl/calcChain.xml", chain(`<c r="C1" i="1"/><c r="A1"/><c r="D1"/>`))
	before := zipOf(t, entries...)
	plan := &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: "Doors", Clear: []ooxml.Range{{R1: 1, C1: 3, R2: 1, C2: 4}}, Cells: []ooxml.NewCell{ooxml.FormulaCell(1, 4, "4", "4", 0)}}}}
	after, _ := patch(t, before, plan)
	if d := cmp.Diff(chain(`<c i="1" r="A1"/><c r="D1"/>`), part(t, after, "xl/calcChain.xml")); d != "" {
		t.Error(d)
	}
	number := *plan
	number.Edits = []ooxml.SheetEdit{{Sheet: "Doors", Clear: plan.Edits[0].Clear, Cells: []ooxml.NewCell{ooxml.NumberCell(1, 4, 4, 0)}}}
	out, _ := patch(t, after, &number)
	if d := cmp.Diff(chain(`<c i="1" r="A1"/>`), part(t, out, "xl/calcChain.xml")); d != "" {
		t.Error(d)
	}
	plan.Edits[0].Clear[0].C1, plan.Edits[0].Cells = 1, nil
	gone, c := patch(t, after, plan)
	if d := cmp.Diff([]string{"xl/calcChain.xml"}, c.Removed); d != "" {
		t.Error(d)
	}
	if strings.Contains(part(t, gone, "xl/_rels/workbook.xml.rels"), "calcChain") {
		t.Error("the relationship is still there")
	}
}

func TestRemovingASheetInTheMiddle(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	for _, name := range []string{"Ours", "Last"} {
		if _, err := f.NewSheet(name); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"Sheet1", "Ours", "Last"} {
		if err := f.SetDefinedName(&excelize.DefinedName{Name: "here", RefersTo: name + "!$A$1", Scope: name}); err != nil {
			t.Fatal(err)
		}
	}
	f.SetActiveSheet(2)
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	after, _ := patch(t, b.Bytes(), &ooxml.Plan{Remove: []string{"OURS", "never there"}})
	want := []ooxml.DefinedName{{Name: "here", Sheet: "Sheet1", Formula: "Sheet1!$A$1"}, {Name: "here", Sheet: "Last", Formula: "Last!$A$1"}}
	if d := cmp.Diff(want, open(t, after).Names()); d != "" {
		t.Error(d)
	}
	g, err := excelize.OpenReader(bytes.NewReader(after))
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	if g.GetActiveSheetIndex() != 1 {
		t.Errorf("active sheet %d", g.GetActiveSheetIndex())
	}
}

// The whole of a sheet of ours, to be read by eye against the schema.
func TestSheetOfOurs(t *testing.T) {
	out, _ := patch(t, kitchenSink(t, 1), fullPlan(1))
	golden(t, "sheet_of_ours.xml", indent(part(t, out, "xl/worksheets/sheet4.xml"))+"\n")
}

func TestNames(t *testing.T) {
	entries := with(withSheet(""), "xl/workbook.xml", `<workbook `+xmlns+` `+xmlnsR+`><sheets><sheet name="Doors" sheetId="1" r:id="rId1"/></sheets><definedNames><definedName name="Our_A" function="1">1</definedName><definedName name="b" localSheetId="0">2</definedName><definedName name="lost" localSheetId="7">#REF!</definedName></definedNames></workbook>`)
	list := func(b []byte) string {
		text := part(t, b, "xl/workbook.xml")
		_, text, _ = strings.Cut(text, "</sheets>")
		return strings.TrimSuffix(text, "</workbook>")
	}
	before := zipOf(t, entries...)
	for _, tt := range []struct {
		name string
		plan ooxml.Plan
		want string
	}{
		{"a set name keeps the case it is known by", ooxml.Plan{SetNames: []ooxml.DefinedName{{Name: "our_a", Formula: "3"}}},
			`<definedNames><definedName name="Our_A">3</definedName><definedName name="b" localSheetId="0">2</definedName><definedName name="lost" localSheetId="7">#REF!</definedName></definedNames>`},
		{"a name of the workbook is not that of a sheet", ooxml.Plan{SetNames: []ooxml.DefinedName{{Name: "b", Formula: "<3"}}, DropNames: []ooxml.DefinedName{{Name: "OUR_A"}}},
			`<definedNames><definedName name="b" localSheetId="0">2</definedName><definedName name="lost" localSheetId="7">#REF!</definedName><definedName name="b">&lt;3</definedName></definedNames>`},
		{"the same value leaves a name alone", ooxml.Plan{SetNames: []ooxml.DefinedName{{Name: "our_a", Formula: "1"}}}, list(before)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			out, _ := patch(t, before, &tt.plan)
			if d := cmp.Diff(tt.want, list(out)); d != "" {
				t.Error(d)
			}
		})
	}
	added, _ := patch(t, zipOf(t, withSheet("")...), &ooxml.Plan{SetNames: []ooxml.DefinedName{{Name: "a", Formula: "1"}}})
	if bare, _ := patch(t, added, &ooxml.Plan{DropNames: []ooxml.DefinedName{{Name: "a"}}}); list(bare) != "" {
		t.Errorf("an empty list of names is left: %s", list(bare))
	}
}

// A part that two sheets use stays when one of them goes, and the tab that was
// open moves to a sheet a person can see.
func TestRemovalLeavesWhatOthersUse(t *testing.T) {
	rels := func(pairs ...string) string {
		s := `<Relationships xmlns="` + pkgRels + `">`
		for i := 0; i < len(pairs); i += 2 {
			s += fmt.Sprintf(`<Relationship Id="rId%d" Type="%s%s" Target="%s"/>`, i/2+1, relTypes, pairs[i], pairs[i+1])
		}
		return s + `</Relationships>`
	}
	sheet := `<worksheet ` + xmlns + `><sheetData/></worksheet>`
	entries := withSheet("")
	entries = with(entries, "xl/workbook.xml", `<workbook `+xmlns+` `+xmlnsR+`><bookViews><workbookView activeTab="2"/></bookViews><sheets><sheet name="Hid" sheetId="1" state="hidden" r:id="rId1"/><sheet name="Seen" sheetId="2" r:id="rId2"/><sheet name="Ours" sheetId="3" r:id="rId3"/></sheets></workbook>`)
	entries = with(entries, "xl/_rels/workbook.xml.rels", rels("worksheet", "worksheets/sheet1.xml", "worksheet", "worksheets/sheet2.xml", "worksheet", "worksheets/sheet3.xml"))
	entries = with(entries, "xl/worksheets/sheet2.xml", sheet)
	entries = with(entries, "xl/worksheets/sheet3.xml", sheet)
	entries = with(entries, "xl/worksheets/_rels/sheet2.xml.rels", rels("image", "../media/both.png"))
	entries = with(entries, "xl/worksheets/_rels/sheet3.xml.rels", rels("image", "../media/both.png", "image", "../media/ours.png"))
	entries = with(entries, "xl/media/both.png", "both")
	entries = with(entries, "xl/media/ours.png", "ours")
	before := zipOf(t, entries...)
	after, c := patch(t, before, &ooxml.Plan{Remove: []string{"Ours"}})
	checkUntouched(t, before, after, c)
	if d := cmp.Diff([]string{"xl/worksheets/sheet3.xml", "xl/worksheets/_rels/sheet3.xml.rels", "xl/media/ours.png"}, c.Removed); d != "" {
		t.Error(d)
	}
	if text := part(t, after, "xl/workbook.xml"); !strings.Contains(text, `activeTab="1"`) {
		t.Errorf("the hidden sheet is active: %s", text)
	}
}

func TestPlansThatCannotBe(t *testing.T) {
	before := kitchenSink(t, 3)
	edit := func(e ooxml.SheetEdit) *ooxml.Plan {
		e.Sheet = userSheet
		return &ooxml.Plan{Edits: []ooxml.SheetEdit{e}}
	}
	put := func(s ooxml.PutSheet) *ooxml.Plan { return &ooxml.Plan{Put: []ooxml.PutSheet{s}} }
	styled := &ooxml.Plan{}
	styled.Style(ooxml.Style{Color: "red"})
	shared := zipOf(t, withSheet(`<row r="1"><c r="D1"><f t="shared" ref="D1:D2" si="0">A1</f><v>1</v></c></row><row r="2"><c r="D2"><f t="shared" si="0"/><v>1</v></c></row>`)...)
	bare := zipOf(t, withSheet(`<row><c><v>1</v></c></row>`)...)
	for _, tt := range []struct {
		name string
		on   []byte
		plan *ooxml.Plan
		want ooxml.Kind
	}{
		{"over a user's cell", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.TextCell(4, 2, "x", 0)}}), ooxml.Occupied},
		{"no such sheet", before, &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: "nowhere"}}}, ooxml.NoSuchSheet},
		{"two cells in one place", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.TextCell(4, 20, "x", 0), ooxml.TextCell(4, 20, "y", 0)}}), ooxml.BadPlan},
		{"out of range", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.TextCell(4, 16385, "x", 0)}}), ooxml.BadPlan},
		{"not a number", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.NumberCell(4, 20, nan(), 0)}}), ooxml.BadPlan},
		{"a foreign style", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.NumberCell(4, 20, 1, 9)}}), ooxml.BadPlan},
		{"a formula with =", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.FormulaCell(4, 20, "=1", "1", 0)}}), ooxml.BadPlan},
		{"too long a text", before, edit(ooxml.SheetEdit{Cells: []ooxml.NewCell{ooxml.TextCell(4, 20, strings.Repeat("é", 32768), 0)}}), ooxml.BadPlan},
		{"a turned range", before, edit(ooxml.SheetEdit{Clear: []ooxml.Range{{R1: 4, C1: 4, R2: 1, C2: 1}}}), ooxml.BadPlan},
		{"a width of zero", before, edit(ooxml.SheetEdit{Columns: []ooxml.ColumnWidth{{First: 1, Last: 1}}}), ooxml.BadPlan},
		{"a conditional format without mark", before, edit(ooxml.SheetEdit{ConditionalMark: "m", Conditional: []ooxml.Conditional{{Ranges: []ooxml.Range{{R1: 1, C1: 1, R2: 1, C2: 1}}, Formula: "1"}}}), ooxml.BadPlan},
		{"a taken name", before, put(ooxml.PutSheet{Name: "door SCHEDULE"}), ooxml.NameTaken},
		{"replacing what is not there", before, put(ooxml.PutSheet{Name: "Ours", Replace: true}), ooxml.NoSuchSheet},
		{"a bad title", before, put(ooxml.PutSheet{Name: "a/b"}), ooxml.BadPlan},
		{"overlapping merges", before, put(ooxml.PutSheet{Name: "a", Merges: []ooxml.Range{{R1: 1, C1: 1, R2: 2, C2: 2}, {R1: 2, C1: 2, R2: 3, C2: 3}}}), ooxml.BadPlan},
		{"a choice with a comma", before, put(ooxml.PutSheet{Name: "a", Validations: []ooxml.Validation{{Ranges: []ooxml.Range{{R1: 1, C1: 1, R2: 1, C2: 1}}, List: []string{"a,b"}}}}), ooxml.BadPlan},
		{"no sheet left", before, &ooxml.Plan{Remove: []string{userSheet, "Plan"}}, ooxml.BadPlan},
		{"one sheet twice", before, &ooxml.Plan{Remove: []string{"Plan"}, Edits: []ooxml.SheetEdit{{Sheet: "plan"}}}, ooxml.BadPlan},
		{"a colour by name", before, styled, ooxml.BadPlan},
		{"a name like a cell", before, &ooxml.Plan{SetNames: []ooxml.DefinedName{{Name: "AB12", Formula: "1"}}}, ooxml.BadPlan},
		{"half of a shared formula", shared, &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: "Doors", Clear: []ooxml.Range{{R1: 1, C1: 4, R2: 1, C2: 4}}}}}, ooxml.Occupied},
		{"cells without references", bare, &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: "Doors", Cells: []ooxml.NewCell{ooxml.TextCell(1, 4, "x", 0)}}}}, ooxml.MissingReference},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var out bytes.Buffer
			_, err := ooxml.Patch(context.Background(), open(t, tt.on), tt.plan, &out)
			if !errors.Is(err, tt.want) {
				t.Errorf("error %v, want kind %q", err, tt.want)
			}
			if out.Len() > 0 {
				t.Error("something was written before the plan was known to be good")
			}
		})
	}
}

func TestEmptyPlanCopies(t *testing.T) {
	before := kitchenSink(t, 3)
	after, c := patch(t, before, &ooxml.Plan{})
	if !c.None() {
		t.Errorf("changes %+v", c)
	}
	if d := cmp.Diff(rawEntries(t, before), rawEntries(t, after), cmp.AllowUnexported(rawEntry{})); d != "" {
		t.Error(d)
	}
}

func TestCancelledContext(t *testing.T) {
	b := kitchenSink(t, 3)
	ctx, cancel := context.WithCancel(context.Background())
	p := open(t, b)
	cancel()
	if _, err := ooxml.Open(ctx, bytes.NewReader(b), int64(len(b)), ooxml.Limits{}); !errors.Is(err, context.Canceled) {
		t.Errorf("Open: %v", err)
	}
	if _, err := p.Scan(ctx, userSheet); !errors.Is(err, context.Canceled) {
		t.Errorf("Scan: %v", err)
	}
	if _, err := ooxml.Patch(ctx, p, fullPlan(3), io.Discard); !errors.Is(err, context.Canceled) {
		t.Errorf("Patch: %v", err)
	}
}
