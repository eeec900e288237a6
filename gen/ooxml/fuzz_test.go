package ooxml_test

import (
	"bytes"
	"context"
	"errors"
	"testing"

	"example.com/lockrail/gen/ooxml"
)

// checkOpened does what a program would with a file that passed the preflight.
func checkOpened(t *testing.T, p *ooxml.Package) {
	for _, info := range p.Sheets() {
		s, err := p.Scan(context.Background(), info.Name)
		if err != nil {
			if info.Type == ooxml.Worksheet && errors.Is(err, ooxml.MalformedXML) && errorPart(err) == info.Part {
				t.Errorf("a sheet that passed the preflight fails: %v", err)
			}
			continue
		}
		plan := &ooxml.Plan{Edits: []ooxml.SheetEdit{{Sheet: info.Name}}, SetNames: []ooxml.DefinedName{{Name: "our.a", Formula: "1"}}}
		if col := s.RightEdge() + 2; col <= ooxml.MaxColumn {
			plan.Edits[0].Cells = []ooxml.NewCell{ooxml.TextCell(1, col, "x", plan.Style(ooxml.Style{Bold: true})), ooxml.NumberCell(9, col, 1, 0)}
			plan.Edits[0].Columns = []ooxml.ColumnWidth{{First: col, Last: col, Width: 9}}
		}
		var out bytes.Buffer
		if _, err := ooxml.Patch(context.Background(), p, plan, &out); err != nil {
			continue
		}
		q, err := ooxml.Open(context.Background(), bytes.NewReader(out.Bytes()), int64(out.Len()), ooxml.Limits{})
		if err != nil {
			t.Fatalf("our output does not open: %v", err)
		}
		again, err := ooxml.Patch(context.Background(), q, plan, &bytes.Buffer{})
		if err != nil || !again.None() {
			t.Fatalf("a second run: %+v, %v", again, err)
		}
	}
}

func errorPart(err error) string {
	var e *ooxml.Error
	if errors.As(err, &e) {
		return e.Part
	}
	return ""
}

var fuzzLimits = ooxml.Limits{Entries: 100, EntryBytes: 1 << 20, TotalBytes: 4 << 20}

func FuzzOpen(f *testing.F) {
	f.Add(zipOf(f, withSheet(oneRow)...))
	f.Add(rawZip(f, withSheet(oneRow), nil))
	f.Add(kitchenSink(f, 2))
	f.Add(ole2("Workbook"))
	f.Fuzz(func(t *testing.T, b []byte) {
		p, err := ooxml.Open(context.Background(), bytes.NewReader(b), int64(len(b)), fuzzLimits)
		if err == nil {
			checkOpened(t, p)
			return
		}
		var e *ooxml.Error
		if !errors.As(err, &e) {
			t.Errorf("an error without a kind: %v", err)
		}
	})
}

// FuzzScan mutates the sheet and the small parts inside a sound archive, which
// gets further than mutating the archive.
func FuzzScan(f *testing.F) {
	main := handMade(`<worksheet ` + xmlns + `><dimension ref="A1"/><cols><col min="2" max="9" hidden="1"/></cols><sheetData><row r="1" spans="1:2"><c r="A1" s="1"><v>1</v></c><c r="B1" t="inlineStr"><is><t>x</t></is></c></row><row r='3'/></sheetData><conditionalFormatting sqref="A1"><cfRule type="expression" priority="1"><formula>1</formula></cfRule></conditionalFormatting></worksheet>`)
	f.Add(main[4].text, main[2].text, main[3].text, `<styleSheet `+xmlns+`><fonts count="1"><font/></fonts></styleSheet>`)
	f.Add(`<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData/></x:worksheet>`, main[2].text, main[3].text, `<styleSheet `+xmlns+`/>`)
	f.Fuzz(func(t *testing.T, sheet, workbook, rels, styles string) {
		entries := with(with(with(with(main, "xl/worksheets/sheet1.xml", sheet), "xl/workbook.xml", workbook), "xl/_rels/workbook.xml.rels", rels), "xl/styles.xml", styles)
		b := zipOf(t, entries...)
		p, err := ooxml.Open(context.Background(), bytes.NewReader(b), int64(len(b)), fuzzLimits)
		if err == nil {
			checkOpened(t, p)
		}
	})
}
