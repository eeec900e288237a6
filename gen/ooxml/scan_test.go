package ooxml_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.com/lockrail/gen/ooxml"
	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

func TestScanAgreesWithAnotherLibrary(t *testing.T) {
	b := kitchenSink(t, 40)
	p := open(t, b)
	for _, info := range p.Sheets() {
		s := scan(t, p, info.Name)
		if d := cmp.Diff(excelValues(t, b, info.Name), rawValues(s)); d != "" {
			t.Errorf("%s (-excelize +ours):\n%s", info.Name, d)
		}
		if len(s.Problems) > 0 {
			t.Errorf("problems %v", s.Problems)
		}
	}
}

// Whatever is written by the other library is read the same by both.
func TestScanAgreesOnAnyValues(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := excelize.NewFile()
		defer f.Close()
		n := rapid.IntRange(0, 30).Draw(rt, "n")
		for range n {
			cell := ooxml.CellName(rapid.IntRange(1, 60).Draw(rt, "row"), rapid.IntRange(1, 80).Draw(rt, "col"))
			var v any
			switch rapid.IntRange(0, 4).Draw(rt, "kind") {
			case 0:
				v = rapid.String().Draw(rt, "text")
			case 1:
				v = rapid.Float64().Draw(rt, "number")
			case 2:
				v = rapid.Int32().Draw(rt, "int")
			case 3:
				v = rapid.Bool().Draw(rt, "bool")
			case 4:
				v = rapid.SampledFrom([]string{"_x0041_", "_x005F_x0041_", " a ", "\ttab", "a\r\nb", "x\x02y", "&lt;", "]]>"}).Draw(rt, "odd")
			}
			if err := f.SetCellValue("Sheet1", cell, v); err != nil {
				rt.Fatal(err)
			}
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			rt.Fatal(err)
		}
		b := out.Bytes()
		if d := cmp.Diff(excelValues(t, b, "Sheet1"), rawValues(scan(t, open(t, b), "Sheet1"))); d != "" {
			rt.Fatalf("(-excelize +ours):\n%s", d)
		}
	})
}

func TestCells(t *testing.T) {
	sst := `<sst ` + xmlns + `><si><t xml:space="preserve"> shared </t></si><si><r><rPr><b/></rPr><t>rich </t></r><r><t>text</t></r><rPh sb="0" eb="1"><t>reading</t></rPh><phoneticPr fontId="1"/></si><si><t>a_x000D_b&amp;c</t></si><si/></sst>`
	rels := `<Relationships xmlns="` + pkgRels + `"><Relationship Id="rId1" Type="` + relTypes + `worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="` + relTypes + `sharedStrings" Target="sharedStrings.xml"/></Relationships>`
	for _, tt := range []struct {
		xml  string
		want ooxml.Cell
	}{
		{`<c r="A1"><v>0.1</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "0.1", Raw: "0.1"}},
		{`<c r="A1"><v>0.10000000000000001</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "0.1", Raw: "0.10000000000000001"}},
		{`<c r="A1"><v>36.299999999999997</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "36.3", Raw: "36.299999999999997"}},
		{`<c r="A1"><v>0.30000000000000004</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "0.3", Raw: "0.30000000000000004"}},
		{`<c r="A1"><v>2.1345E3</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "2134.5", Raw: "2.1345E3"}},
		{`<c r="A1"><v>1E+20</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "100000000000000000000", Raw: "1E+20"}},
		{`<c r="A1"><v>1e-300</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "1E-300", Raw: "1e-300"}},
		{`<c r="A1"><v>-0</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "0", Raw: "-0"}},
		{`<c r="A1"><v>007</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "7", Raw: "007"}},
		{`<c r="A1"><v>1.50</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "1.5", Raw: "1.50"}},
		{`<c r="A1"><v>123456789012345678</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "123456789012346000", Raw: "123456789012345678"}},
		{`<c r="A1" t="n"><v>NaN</v></c>`, ooxml.Cell{Kind: ooxml.CellInvalid, Raw: "NaN"}},
		{`<c r="A1"><v>0x1p3</v></c>`, ooxml.Cell{Kind: ooxml.CellInvalid, Raw: "0x1p3"}},
		{`<c r="A1"><v>D01</v></c>`, ooxml.Cell{Kind: ooxml.CellInvalid, Raw: "D01"}},
		{`<c r="A1" t="s"><v>0</v></c>`, ooxml.Cell{Kind: ooxml.CellShared, Text: " shared ", Raw: "0"}},
		{`<c r="A1" t="s"><v>1</v></c>`, ooxml.Cell{Kind: ooxml.CellShared, Text: "rich text", Raw: "1"}},
		{`<c r="A1" t="s"><v>2</v></c>`, ooxml.Cell{Kind: ooxml.CellShared, Text: "a\rb&c", Raw: "2"}},
		{`<c r="A1" t="s"><v>3</v></c>`, ooxml.Cell{Kind: ooxml.CellShared, Text: "", Raw: "3"}},
		{`<c r="A1" t="s"><v>4</v></c>`, ooxml.Cell{Kind: ooxml.CellInvalid, Raw: "4"}},
		{`<c r="A1" t="s"><v>-1</v></c>`, ooxml.Cell{Kind: ooxml.CellInvalid, Raw: "-1"}},
		{`<c r="A1" t='inlineStr'><is><t>in<![CDATA[<&]]>line</t></is></c>`, ooxml.Cell{Kind: ooxml.CellInline, Text: "in<&line", Raw: "in<&line"}},
		{`<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><t>b</t></r></is></c>`, ooxml.Cell{Kind: ooxml.CellInline, Text: "ab", Raw: "ab"}},
		{`<c r="A1" t="str" s="4"><f>B1&amp;"x"</f><v>y_x0009_z</v></c>`, ooxml.Cell{Kind: ooxml.CellFormulaString, Style: 4, HasFormula: true, Formula: `B1&"x"`, Text: "y\tz", Raw: "y_x0009_z"}},
		{`<c r="A1"><f t="shared" si="0"/><v>5</v></c>`, ooxml.Cell{Kind: ooxml.CellNumber, HasFormula: true, Text: "5", Raw: "5"}},
		{`<c r="A1"><f>B1</f></c>`, ooxml.Cell{HasFormula: true, Formula: "B1"}},
		{`<c r="A1" t="b"><v>1</v></c>`, ooxml.Cell{Kind: ooxml.CellBool, Text: "TRUE", Raw: "1"}},
		{`<c r="A1" t="b"><v>0</v></c>`, ooxml.Cell{Kind: ooxml.CellBool, Text: "FALSE", Raw: "0"}},
		{`<c r="A1" t="e"><v>#N/A</v></c>`, ooxml.Cell{Kind: ooxml.CellError, Text: "#N/A", Raw: "#N/A"}},
		{`<c r="A1" t="d"><v>2024-05-01</v></c>`, ooxml.Cell{Kind: ooxml.CellDate, Text: "2024-05-01", Raw: "2024-05-01"}},
		{`<c r="A1" t="zz"><v>1</v></c>`, ooxml.Cell{Kind: ooxml.CellInvalid, Raw: "1"}},
		{`<c r="A1" s="2"/>`, ooxml.Cell{Style: 2}},
		{`<c r="A1"><v><!-- a comment -->4<!-- and another -->2</v><extLst><ext><v>9</v></ext></extLst></c>`, ooxml.Cell{Kind: ooxml.CellNumber, Text: "42", Raw: "42"}},
	} {
		t.Run(tt.xml, func(t *testing.T) {
			b := zipOf(t, with(with(withSheet(`<row r="1">`+tt.xml+`</row>`), "xl/_rels/workbook.xml.rels", rels), "xl/sharedStrings.xml", sst)...)
			s := scan(t, open(t, b), "Doors")
			tt.want.Row, tt.want.Col = 1, 1
			if d := cmp.Diff([]ooxml.Cell{tt.want}, s.Cells); d != "" {
				t.Error(d)
			}
			if invalid := tt.want.Kind == ooxml.CellInvalid; invalid != (len(s.Problems) == 1) || invalid && (s.Problems[0].Cell != "A1" || s.Problems[0].Kind != ooxml.BadValue) {
				t.Errorf("problems %v", s.Problems)
			}
		})
	}
}

func TestScanOfEverything(t *testing.T) {
	s := scan(t, open(t, kitchenSink(t, 6)), userSheet)
	want := &ooxml.Sheet{
		Columns: []ooxml.Column{{First: 2, Last: 3, Width: 14}, {First: 12, Last: 16384, Hidden: true}},
		Merges:  []ooxml.Range{{R1: 1, C1: 2, R2: 1, C2: 5}},
		Tables:  []ooxml.Table{{Name: "DoorTable", Range: ooxml.Range{R1: 3, C1: 2, R2: 9, C2: 9}, Part: "xl/tables/table1.xml"}},
		Notes:   []ooxml.Ref{{Row: 4, Col: 10}},
		Used:    ooxml.Range{R1: 1, C1: 2, R2: 9, C2: 9}, Occupied: ooxml.Range{R1: 1, C1: 2, R2: 9, C2: 9}, Dimension: ooxml.Range{R1: 1, C1: 2, R2: 9, C2: 9},
	}
	if d := cmp.Diff(want, s, cmpopts.IgnoreUnexported(ooxml.Sheet{}), cmpopts.IgnoreFields(ooxml.Sheet{}, "Info", "Cells", "Rows"), cmpopts.IgnoreFields(ooxml.Column{}, "Width")); d != "" {
		t.Error(d)
	}
	if s.RightEdge() != 10 || !s.RowHidden(5) || s.RowHidden(4) || !s.ColumnHidden(12) || s.ColumnHidden(11) {
		t.Errorf("edge %d, rows %v %v, columns %v %v", s.RightEdge(), s.RowHidden(5), s.RowHidden(4), s.ColumnHidden(12), s.ColumnHidden(11))
	}
	if d := cmp.Diff(ooxml.Edges{Used: 9, Occupied: 9, Tables: 9, Merges: 5, Notes: 10}, s.Edges()); d != "" {
		t.Error(d)
	}
	plan := scan(t, open(t, kitchenSink(t, 6)), "Plan")
	if len(plan.Drawings) != 2 || plan.Drawings[0].C1 != 3 || plan.Drawings[0].C2 <= 3 || plan.Drawings[0].R1 != 3 {
		t.Errorf("drawings %v", plan.Drawings)
	}
	lists := scan(t, open(t, kitchenSink(t, 6)), "Lists")
	if d := cmp.Diff(ooxml.Range{R1: 1, C1: 1, R2: 9, C2: 3}, lists.AutoFilter); d != "" {
		t.Error(d)
	}
}

func TestImplicitReferences(t *testing.T) {
	s := scan(t, open(t, zipOf(t, withSheet(`<row><c><v>1</v></c><c/><c><v>2</v></c></row><row r="5"><c><v>3</v></c></row><row><c t="inlineStr"><is><t>x</t></is></c></row>`)...)), "Doors")
	got := rawValues(s)
	if d := cmp.Diff(map[string]string{"A1": "1", "C1": "2", "A5": "3", "A6": "x"}, got); d != "" {
		t.Error(d)
	}
}

func TestScanUnknownSheet(t *testing.T) {
	p := open(t, zipOf(t, withSheet("")...))
	if _, err := p.Scan(context.Background(), "nowhere"); !errors.Is(err, ooxml.NoSuchSheet) {
		t.Errorf("error %v", err)
	}
	if _, err := p.ReadPart(context.Background(), "nowhere"); !errors.Is(err, ooxml.MissingPart) {
		t.Errorf("error %v", err)
	}
}

// The serials are those of ECMA-376 part 1, 18.17.4.1 (1900 and 1904 bases),
// from memory; the other library is the second witness.
func TestSerialTime(t *testing.T) {
	for _, tt := range []struct {
		serial   float64
		date1904 bool
		want     string
	}{
		{1, false, "1900-01-01 00:00:00"}, {59, false, "1900-02-28 00:00:00"}, {60, false, ""}, {61, false, "1900-03-01 00:00:00"},
		{45292, false, "2024-01-01 00:00:00"}, {45292.75, false, "2024-01-01 18:00:00"}, {0.5, false, "1899-12-31 12:00:00"},
		{0, true, "1904-01-01 00:00:00"}, {43830, true, "2024-01-01 00:00:00"}, {-1, false, ""}, {2958465, false, "9999-12-31 00:00:00"}, {2958466, false, ""}, {nan(), false, ""},
	} {
		got, ok := ooxml.SerialTime(tt.serial, tt.date1904)
		text := ""
		if ok {
			text = got.Format("2006-01-02 15:04:05")
		}
		if text != tt.want {
			t.Errorf("%v: %q, want %q", tt.serial, text, tt.want)
		}
		if other, err := excelize.ExcelDateToTime(tt.serial, tt.date1904); ok && tt.serial > 60 && (err != nil || other.Sub(got).Abs() > time.Second) {
			t.Errorf("%v: %v, the other library says %v", tt.serial, got, other)
		}
	}
}

func TestDateFormats(t *testing.T) {
	codes := map[string]bool{
		"yyyy-mm-dd": true, "d/m/yy": true, "[h]:mm": true, "[$-409]d mmm": true, "[mm]": true, `0.0" days"`: false, "General": false,
		"#,##0.00": false, "[Red]0": false, `\d0`: false, "0;\"d\"": false, "@": false, "0_d": false, "h:mm AM/PM": true, "0.00E+00": false,
	}
	sheet := `<row r="1"><c r="A1"/></row>`
	fmts, xfs, order := "", "", []string{}
	for code := range codes {
		order = append(order, code)
	}
	for i, code := range order {
		fmts += fmt.Sprintf(`<numFmt numFmtId="%d" formatCode="%s"/>`, 164+i, strings.ReplaceAll(code, `"`, "&quot;"))
		xfs += fmt.Sprintf(`<xf numFmtId="%d"/>`, 164+i)
	}
	rels := `<Relationships xmlns="` + pkgRels + `"><Relationship Id="rId1" Type="` + relTypes + `worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="` + relTypes + `styles" Target="styles.xml"/></Relationships>`
	st := open(t, zipOf(t, with(with(withSheet(sheet), "xl/_rels/workbook.xml.rels", rels), "xl/styles.xml", `<styleSheet `+xmlns+`><numFmts>`+fmts+`</numFmts><cellXfs>`+xfs+`<xf numFmtId="14"/><xf numFmtId="9"/></cellXfs></styleSheet>`)...)).Styles()
	for i, code := range order {
		if got := st.IsDate(i); got != codes[code] {
			t.Errorf("%q is a date: %v", code, got)
		}
	}
	if n := st.Count(); !st.IsDate(n-2) || st.IsDate(n-1) || st.IsDate(n) || st.IsDate(-1) {
		t.Error("built-in formats")
	}
}
