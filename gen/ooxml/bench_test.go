package ooxml_test

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"sync"
	"testing"

	"example.com/lockrail/gen/ooxml"
)

// bigWorkbook is 20,000 rows of 25 columns: text that repeats, text that does
// not, and numbers.
var bigWorkbook = sync.OnceValue(func() []byte {
	var sheet, sst strings.Builder
	sheet.WriteString(`<worksheet ` + xmlns + `><dimension ref="A1:Y20000"/><sheetData>`)
	n := 0
	for row := 1; row <= 20000; row++ {
		fmt.Fprintf(&sheet, `<row r="%d" spans="1:25">`, row)
		for col := 1; col <= 25; col++ {
			name := ooxml.CellName(row, col)
			switch col % 5 {
			case 0:
				fmt.Fprintf(&sheet, `<c r="%s" s="1"><v>%d</v></c>`, name, row*col%2500)
			case 1:
				fmt.Fprintf(&sheet, `<c r="%s" t="s"><v>%d</v></c>`, name, n)
				fmt.Fprintf(&sst, `<si><t>D%05d-%d</t></si>`, row, col)
				n++
			default:
				fmt.Fprintf(&sheet, `<c r="%s" s="2" t="s"><v>%d</v></c>`, name, (row+col)%100)
			}
		}
		sheet.WriteString(`</row>`)
	}
	sheet.WriteString(`</sheetData></worksheet>`)
	entries := handMade(sheet.String())
	entries = with(entries, "xl/_rels/workbook.xml.rels", `<Relationships xmlns="`+pkgRels+`"><Relationship Id="rId1" Type="`+relTypes+`worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="`+relTypes+`sharedStrings" Target="sharedStrings.xml"/></Relationships>`)
	entries = with(entries, "xl/sharedStrings.xml", `<sst `+xmlns+`>`+sst.String()+`</sst>`)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range entries {
		f, err := w.Create(e.name)
		if err == nil {
			_, err = io.WriteString(f, e.text)
		}
		if err != nil {
			panic(err)
		}
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
})

// BenchmarkCopyInflated is the floor for a patch: every entry inflated and deflated again.
func BenchmarkCopyInflated(b *testing.B) {
	file := bigWorkbook()
	b.ReportAllocs()
	for b.Loop() {
		r, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
		if err != nil {
			b.Fatal(err)
		}
		w := zip.NewWriter(io.Discard)
		for _, f := range r.File {
			rc, err := f.Open()
			if err != nil {
				b.Fatal(err)
			}
			out, err := w.Create(f.Name)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := io.Copy(out, rc); err != nil {
				b.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCopyRaw is the floor for a plan that changes nothing.
func BenchmarkCopyRaw(b *testing.B) {
	file := bigWorkbook()
	b.ReportAllocs()
	for b.Loop() {
		r, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
		if err != nil {
			b.Fatal(err)
		}
		w := zip.NewWriter(io.Discard)
		for _, f := range r.File {
			if err := w.Copy(f); err != nil {
				b.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	file := bigWorkbook()
	b.ReportAllocs()
	for b.Loop() {
		open(b, file)
	}
}

func BenchmarkScan(b *testing.B) {
	p := open(b, bigWorkbook())
	b.ReportAllocs()
	for b.Loop() {
		scan(b, p, "Doors")
	}
}

func BenchmarkPatch(b *testing.B) {
	p := open(b, bigWorkbook())
	plan := &ooxml.Plan{}
	style := plan.Style(ooxml.Style{Wrap: true})
	edit := ooxml.SheetEdit{Sheet: "Doors"}
	for row := 1; row <= 20000; row++ {
		for col := 27; col <= 31; col++ {
			edit.Cells = append(edit.Cells, ooxml.TextCell(row, col, "no conflict found", style))
		}
	}
	plan.Edits = []ooxml.SheetEdit{edit}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ooxml.Patch(context.Background(), p, plan, io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
