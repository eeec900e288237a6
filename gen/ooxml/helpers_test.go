package ooxml_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"context"
	"flag"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/lockrail/gen/ooxml"
	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// entry is one entry of a hand-made package.
type entry struct{ name, text string }

func zipOf(t testing.TB, entries ...entry) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range entries {
		f, err := w.Create(e.name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(f, e.text); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

const (
	xmlns     = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	xmlnsR    = `xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	relTypes  = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	pkgRels   = "http://schemas.openxmlformats.org/package/2006/relationships"
	mainType  = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	typesHead = `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="xml" ContentType="application/xml"/><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>`
)

// handMade gives the entries of the smallest workbook, with one sheet whose
// part is given in full.
func handMade(sheet string) []entry {
	return []entry{
		{"[Content_Types].xml", typesHead + `<Override PartName="/xl/workbook.xml" ContentType="` + mainType + `sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + mainType + `worksheet+xml"/></Types>`},
		{"_rels/.rels", `<Relationships xmlns="` + pkgRels + `"><Relationship Id="rId1" Type="` + relTypes + `officeDocument" Target="xl/workbook.xml"/></Relationships>`},
		{"xl/workbook.xml", `<workbook ` + xmlns + ` ` + xmlnsR + `><sheets><sheet name="Doors" sheetId="1" r:id="rId1"/></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + pkgRels + `"><Relationship Id="rId1" Type="` + relTypes + `worksheet" Target="worksheets/sheet1.xml"/></Relationships>`},
		{"xl/worksheets/sheet1.xml", sheet},
	}
}

// withSheet is handMade around the given sheet data.
func withSheet(data string) []entry {
	return handMade(`<worksheet ` + xmlns + `><sheetData>` + data + `</sheetData></worksheet>`)
}

// with replaces or adds an entry.
func with(entries []entry, name, text string) []entry {
	out := slices.Clone(entries)
	for i := range out {
		if out[i].name == name {
			out[i].text = text
			return out
		}
	}
	return append(out, entry{name, text})
}

func open(t testing.TB, b []byte) *ooxml.Package {
	t.Helper()
	p, err := ooxml.Open(context.Background(), bytes.NewReader(b), int64(len(b)), ooxml.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func scan(t testing.TB, p *ooxml.Package, sheet string) *ooxml.Sheet {
	t.Helper()
	s, err := p.Scan(context.Background(), sheet)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func part(t testing.TB, b []byte, name string) string {
	t.Helper()
	text, err := open(t, b).ReadPart(context.Background(), name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func patch(t testing.TB, b []byte, plan *ooxml.Plan) ([]byte, ooxml.Changes) {
	t.Helper()
	var out bytes.Buffer
	c, err := ooxml.Patch(context.Background(), open(t, b), plan, &out)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), c
}

// rawEntry is an entry as it lies in the file.
type rawEntry struct {
	name, compressed, text string
	modified               int64
	method                 uint16
}

func rawEntries(t testing.TB, b []byte) []rawEntry {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	var out []rawEntry
	for _, f := range r.File {
		raw, err := f.OpenRaw()
		if err != nil {
			t.Fatal(err)
		}
		compressed, err := io.ReadAll(raw)
		if err != nil {
			t.Fatal(err)
		}
		rc, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(rc)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, rawEntry{f.Name, string(compressed), string(text), f.Modified.Unix(), f.Method})
	}
	return out
}

// checkUntouched makes sure that every entry of before that the changes do not
// name is in after as the same compressed bytes, in the same order.
func checkUntouched(t testing.TB, before, after []byte, c ooxml.Changes) {
	t.Helper()
	old, now := rawEntries(t, before), rawEntries(t, after)
	i := 0
	for _, o := range old {
		if slices.Contains(c.Removed, o.name) {
			continue
		}
		if i >= len(now) || now[i].name != o.name {
			t.Fatalf("entry %q is not where it was", o.name)
		}
		if !slices.Contains(c.Changed, o.name) && now[i] != o {
			t.Errorf("entry %q is not named as changed but differs", o.name)
		}
		if slices.Contains(c.Changed, o.name) && now[i].text == o.text {
			t.Errorf("entry %q is named as changed but does not differ", o.name)
		}
		if now[i].modified != o.modified || now[i].method != o.method {
			t.Errorf("entry %q has another date or method", o.name)
		}
		i++
	}
	var added []string
	for ; i < len(now); i++ {
		added = append(added, now[i].name)
	}
	if !slices.Equal(added, c.Added) {
		t.Errorf("added entries %q, reported %q", added, c.Added)
	}
}

// kitchenSink is a workbook with what schedules in the wild carry. The extra
// entries stand for parts nobody here knows.
func kitchenSink(t testing.TB, rows int) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	check := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	check(f.SetSheetName("Sheet1", "Door schedule"))
	const sheet = "Door schedule"
	bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true, Color: "1F4E78"}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"DDEBF7"}}})
	check(err)
	large, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	check(err)
	custom := `0.0 "m"`
	metres, err := f.NewStyle(&excelize.Style{CustomNumFmt: &custom})
	check(err)
	date, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	check(err)
	head := []any{"Mark", "Width", "Height", "Rating", "Date", "Existing", "Area", "Remark"}
	check(f.SetSheetRow(sheet, "B3", &head))
	check(f.SetCellStyle(sheet, "B3", "I3", bold))
	for i := range rows {
		row := i + 4
		values := []any{fmt.Sprintf("D%03d", i+1), 915 + i%3*100, 2134.5, []string{"FD30S", "90 MIN", "", "a < b & \"c\""}[i%4], 45000 + i, i%2 == 0, nil, " two  words \nline"}
		check(f.SetSheetRow(sheet, fmt.Sprintf("B%d", row), &values))
		check(f.SetCellStyle(sheet, fmt.Sprintf("F%d", row), fmt.Sprintf("F%d", row), date))
		check(f.SetCellFormula(sheet, fmt.Sprintf("H%d", row), fmt.Sprintf("C%d*D%d/1000000", row, row)))
	}
	check(f.SetCellStyle(sheet, "D4", "D4", metres))
	last := rows + 3
	check(f.SetSheetDimension(sheet, fmt.Sprintf("B1:I%d", last)))
	check(f.MergeCell(sheet, "B1", "E1"))
	check(f.SetCellValue(sheet, "B1", "Marram Point ferry terminal"))
	check(f.SetCellRichText(sheet, "G1", []excelize.RichTextRun{{Text: "rich "}, {Text: "text", Font: &excelize.Font{Bold: true}}}))
	check(f.AddTable(sheet, &excelize.Table{Range: fmt.Sprintf("B3:I%d", last), Name: "DoorTable"}))
	check(f.SetConditionalFormat(sheet, fmt.Sprintf("C4:C%d", last), []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Format: &large, Value: "1000"}}))
	dv := excelize.NewDataValidation(true)
	dv.Sqref = fmt.Sprintf("E4:E%d", last)
	check(dv.SetDropList([]string{"FD30S", "90 MIN"}))
	check(f.AddDataValidation(sheet, dv))
	check(f.SetColVisible(sheet, "L:XFD", false))
	check(f.SetColWidth(sheet, "B", "C", 14))
	check(f.SetRowVisible(sheet, 5, false))
	check(f.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 3, TopLeftCell: "A4", ActivePane: "bottomLeft"}))
	check(f.AddComment(sheet, excelize.Comment{Cell: "J4", Author: "A", Text: "check on site"}))
	check(f.SetCellHyperLink(sheet, "B4", "https://example.com/", "External"))
	check(f.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddFooter: "&CPage &P"}))
	_, err = f.NewSheet("Plan")
	check(err)
	_, err = f.NewSheet("Lists")
	check(err)
	check(f.SetCellValue("Lists", "A1", 0.1))
	check(f.SetCellValue("Lists", "A2", 36.3))
	check(f.SetCellValue("Lists", "B7", "=text"))
	check(f.SetSheetVisible("Lists", false))
	check(f.AutoFilter("Lists", "A1:C9", nil))
	check(f.AddChart("Plan", "C3", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "w", Categories: "'Door schedule'!$B$4:$B$6", Values: "'Door schedule'!$C$4:$C$6"}}}))
	var picture bytes.Buffer
	img := image.NewRGBA(image.Rect(0, 0, 8, 8))
	img.Set(3, 3, color.RGBA{200, 10, 10, 255})
	check(png.Encode(&picture, img))
	check(f.AddPictureFromBytes("Plan", "B20", &excelize.Picture{Extension: ".png", File: picture.Bytes(), Format: &excelize.GraphicOptions{}}))
	check(f.SetDefinedName(&excelize.DefinedName{Name: "Marks", RefersTo: "'Door schedule'!$B$4:$B$9"}))
	check(f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: "Lists!$A$1:$C$9", Scope: "Lists"}))
	var out bytes.Buffer
	check(f.Write(&out))
	return addEntries(t, out.Bytes(), entry{"xl/vbaProject.bin", "\x00\x01 not really macros \xff"}, entry{"customXml/item1.xml", "<anything/>"}, entry{"_xmlsignatures/origin.sigs", ""})
}

// addEntries packs a workbook again as another program would: with its own
// compression and dates, so that a copied entry can be told from one written anew.
func addEntries(t testing.TB, b []byte, extra ...entry) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	w.RegisterCompressor(zip.Deflate, func(w io.Writer) (io.WriteCloser, error) { return flate.NewWriter(w, flate.HuffmanOnly) })
	put := func(name, text string) {
		f, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: time.Date(2024, 5, 1, 12, 30, 2, 0, time.UTC)})
		if err == nil {
			_, err = io.WriteString(f, text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, e := range rawEntries(t, b) {
		put(e.name, e.text)
	}
	for _, e := range extra {
		put(e.name, e.text)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// excelValues reads a sheet with the other library: what its cells store.
func excelValues(t testing.TB, b []byte, sheet string) map[string]string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for r, row := range rows {
		for c, v := range row {
			if v != "" {
				out[ooxml.CellName(r+1, c+1)] = v
			}
		}
	}
	return out
}

// rawValues gives our scan in the same terms.
func rawValues(s *ooxml.Sheet) map[string]string {
	out := map[string]string{}
	for _, c := range s.Cells {
		v := c.Raw
		switch c.Kind {
		case ooxml.CellShared, ooxml.CellInline, ooxml.CellFormulaString:
			v = c.Text
		}
		if v != "" {
			out[c.Name()] = v
		}
	}
	return out
}

func indent(s string) string { return strings.ReplaceAll(s, "><", ">\n<") }

func nan() float64 { return math.NaN() }

func crc(s string) uint32 { return crc32.ChecksumIEEE([]byte(s)) }

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("..", "..", "testdata", "ooxml", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); d != "" {
		t.Errorf("%s (-want +got):\n%s", name, d)
	}
}
