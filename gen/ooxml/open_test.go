package ooxml_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"example.com/lockrail/gen/ooxml"
	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// ole2 is the start of a compound file with one stream name in its directory.
func ole2(stream string) []byte {
	b := make([]byte, 1536)
	copy(b, "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1")
	for i := range len(stream) {
		b[1024+2*i] = stream[i]
	}
	return b
}

// rawZip writes entries whose names or bytes a careful writer would refuse.
func rawZip(t testing.TB, entries []entry, damage func(*zip.FileHeader, []byte)) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, e := range entries {
		h := &zip.FileHeader{Name: e.name, Method: zip.Store, UncompressedSize64: uint64(len(e.text)), CompressedSize64: uint64(len(e.text))}
		h.CRC32 = crc(e.text)
		text := []byte(e.text)
		if damage != nil {
			damage(h, text)
		}
		f, err := w.CreateRaw(h)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(text); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

const oneRow = `<row r="1"><c r="A1"><v>1</v></c></row>`

func TestHostileFiles(t *testing.T) {
	good := withSheet(oneRow)
	text := zipOf(t, good...)
	sheet := func(s string) []byte { return zipOf(t, handMade(s)...) }
	data := func(s string) []byte { return zipOf(t, withSheet(s)...) }
	ws := `<worksheet ` + xmlns + `>`
	bomb := `<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>`
	for _, tt := range []struct {
		name string
		file []byte
		want ooxml.Kind
		says string // part of the message
	}{
		{"empty", nil, ooxml.Empty, ""},
		{"csv", []byte("Mark,Width\r\nD01,915\r\n"), ooxml.PlainText, "CSV"},
		{"csv in an old encoding", []byte("T\xfcr,Breite\r\n"), ooxml.PlainText, "CSV"},
		{"web page", []byte("<html><table>"), ooxml.PlainText, "web page"},
		{"xml", []byte("\xEF\xBB\xBF<?xml version='1.0'?><Workbook/>"), ooxml.PlainText, "XML"},
		{"pdf", []byte("%PDF-1.7\n\x00"), ooxml.NotWorkbook, "PDF"},
		{"noise", []byte("\x00\x01\x02"), ooxml.NotWorkbook, "first bytes"},
		{"old workbook", ole2("Workbook"), ooxml.LegacyXLS, ".xlsx"},
		{"very old workbook", []byte("\x09\x08\x10\x00\x00\x06\x05\x00"), ooxml.LegacyXLS, ""},
		{"encrypted", ole2("EncryptedPackage"), ooxml.Encrypted, "password"},
		{"another compound file", ole2("WordDocument"), ooxml.NotWorkbook, "OLE"},
		{"empty zip", zipOf(t), ooxml.NotWorkbook, "empty zip"},
		{"zip", zipOf(t, entry{"a.txt", "x"}), ooxml.NotWorkbook, "zip"},
		{"OpenDocument", zipOf(t, entry{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"}, entry{"content.xml", "<x/>"}), ooxml.NotWorkbook, "OpenDocument"},
		{"text document", zipOf(t, with(good, "[Content_Types].xml", typesHead+`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/></Types>`)...), ooxml.NotWorkbook, "another type"},
		{"binary workbook", zipOf(t, with(good, "[Content_Types].xml", typesHead+`<Override PartName="/XL/workbook.xml" ContentType="application/vnd.ms-excel.sheet.binary.macroEnabled.main"/></Types>`)...), ooxml.Binary, ".xlsb"},
		{"truncated", text[:len(text)-30], ooxml.DamagedZip, ""},
		{"cut in half", text[:len(text)/2], ooxml.DamagedZip, ""},
		{"Strict", zipOf(t, with(good, "xl/workbook.xml", `<workbook xmlns="http://purl.oclc.org/ooxml/spreadsheetml/main"><sheets/></workbook>`)...), ooxml.Strict, "save it again"},
		{"Strict sheet", sheet(`<worksheet xmlns="http://purl.oclc.org/ooxml/spreadsheetml/main"><sheetData/></worksheet>`), ooxml.Strict, ""},
		{"two entries of one name", rawZip(t, append(good, entry{"XL/Workbook.xml", "x"}), nil), ooxml.DuplicateEntry, "XL/Workbook.xml"},
		{"a name that climbs", rawZip(t, append(good, entry{"xl/../../x", "x"}), nil), ooxml.EscapingName, ".."},
		{"an absolute name", rawZip(t, append(good, entry{"/etc/x", "x"}), nil), ooxml.EscapingName, "absolute"},
		{"a drive", rawZip(t, append(good, entry{"c:x", "x"}), nil), ooxml.EscapingName, "absolute"},
		{"a backslash", rawZip(t, append(good, entry{`xl\x`, "x"}), nil), ooxml.EscapingName, "backslash"},
		{"wrong checksum", rawZip(t, good, func(h *zip.FileHeader, b []byte) {
			if strings.HasSuffix(h.Name, "sheet1.xml") {
				b[len(b)/2]++
			}
		}), ooxml.Checksum, "sheet1.xml"},
		{"wrong checksum of a part nobody reads", rawZip(t, append(good, entry{"xl/media/a.png", "picture"}), func(h *zip.FileHeader, b []byte) {
			if strings.HasSuffix(h.Name, ".png") {
				b[0]++
			}
		}), ooxml.Checksum, "a.png"},
		{"a size that lies", rawZip(t, good, func(h *zip.FileHeader, b []byte) {
			if strings.HasSuffix(h.Name, "sheet1.xml") {
				h.UncompressedSize64 -= 7
			}
		}), ooxml.Checksum, "sheet1.xml"},
		{"an encrypted entry", rawZip(t, good, func(h *zip.FileHeader, b []byte) { h.Flags |= 1 }), ooxml.Encrypted, ""},
		{"an odd compression", rawZip(t, good, func(h *zip.FileHeader, b []byte) { h.Method = 12 }), ooxml.DamagedZip, "compression"},
		{"no rels", zipOf(t, good[0], good[2], good[4]), ooxml.MissingPart, "_rels/.rels"},
		{"no sheet part", zipOf(t, good[:4]...), ooxml.MissingPart, "sheet1.xml"},
		{"no sheets", zipOf(t, with(good, "xl/workbook.xml", `<workbook `+xmlns+`/>`)...), ooxml.BadStructure, "no sheets"},
		{"two sheets of one name", zipOf(t, with(good, "xl/workbook.xml", `<workbook `+xmlns+`><sheets><sheet name="A"/><sheet name="a"/></sheets></workbook>`)...), ooxml.BadStructure, "one name"},
		{"broken workbook", zipOf(t, with(good, "xl/workbook.xml", `<workbook `+xmlns+`><sheets>`)...), ooxml.MalformedXML, "workbook.xml"},
		{"broken rels of a sheet", zipOf(t, with(good, "xl/worksheets/_rels/sheet1.xml.rels", `<Relationships`)...), ooxml.MalformedXML, "sheet1.xml.rels"},
		{"broken content types", zipOf(t, with(good, "[Content_Types].xml", typesHead)...), ooxml.MalformedXML, ""},
		{"truncated sheet", sheet(ws + `<sheetData><row r="1"><c r="A1"><v>1</v></c>`), ooxml.MalformedXML, "sheet1.xml"},
		{"sheet cut inside a tag", sheet(ws + `<sheetData><row r="1"><c r="A1`), ooxml.MalformedXML, ""},
		{"crossed tags", data(`<row r="1"><c r="A1"></row></c>`), ooxml.MalformedXML, "closes"},
		{"an undeclared prefix", data(`<q:row r="1"/>`), ooxml.MalformedXML, "prefix"},
		{"an attribute twice", data(`<row r="1" r="2"/>`), ooxml.MalformedXML, "twice"},
		{"an unknown entity", data(`<row r="1"><c r="A1"><v>&a;</v></c></row>`), ooxml.MalformedXML, "entity"},
		{"a control character", data("<row r=\"1\"><c r=\"A1\"><v>\x01</v></c></row>"), ooxml.MalformedXML, "character"},
		{"not UTF-8", data("<row r=\"1\"><c r=\"A1\"><v>\xff</v></c></row>"), ooxml.MalformedXML, "UTF-8"},
		{"UTF-16", sheet("\xff\xfe<\x00"), ooxml.MalformedXML, "UTF-8"},
		{"text after the root", sheet(ws + `<sheetData/></worksheet>x`), ooxml.MalformedXML, "outside"},
		{"an instruction that ends at once", sheet("<?>"), ooxml.MalformedXML, "instruction"},
		{"XML 1.1", sheet(`<?xml version="1.1"?>` + ws + `<sheetData/></worksheet>`), ooxml.MalformedXML, "1.0"},
		{"deep nesting", sheet(ws + strings.Repeat("<a>", 5000)), ooxml.MalformedXML, "deep"},
		{"entity bomb", sheet(bomb + ws + `<sheetData><row r="1"><c r="A1"><v>&b;</v></c></row></sheetData></worksheet>`), ooxml.DTD, ""},
		{"external entity", zipOf(t, with(good, "xl/workbook.xml", `<!DOCTYPE x SYSTEM "file:///etc/passwd"><workbook/>`)...), ooxml.DTD, ""},
		{"no sheet data", sheet(ws + `</worksheet>`), ooxml.BadStructure, "sheetData"},
		{"sheet data twice", sheet(ws + `<sheetData/><sheetData/></worksheet>`), ooxml.BadStructure, "two"},
		{"another root", sheet(`<chartsheet ` + xmlns + `/>`), ooxml.BadStructure, ""},
		{"widths out of order", sheet(ws + `<cols><col min="3" max="4"/><col min="4" max="5"/></cols><sheetData/></worksheet>`), ooxml.BadStructure, "widths"},
		{"rows out of order", data(`<row r="2"/><row r="1"/>`), ooxml.RowOrder, "after row 2"},
		{"a row twice", data(`<row r="2"/><row r="2"/>`), ooxml.RowOrder, ""},
		{"a row out of range", data(`<row r="1048577"/>`), ooxml.BadReference, ""},
		{"cells out of order", data(`<row r="1"><c r="B1"/><c r="A1"/></row>`), ooxml.CellOrder, "A1"},
		{"a cell twice", data(`<row r="1"><c r="B1"/><c r="B1"/></row>`), ooxml.CellOrder, "B1"},
		{"a cell in the wrong row", data(`<row r="1"><c r="B2"/></row>`), ooxml.BadReference, "row 1"},
		{"a column out of range", data(`<row r="1"><c r="XFE1"/></row>`), ooxml.BadReference, "XFE1"},
		{"a reference that is none", data(`<row r="1"><c r="1A"/></row>`), ooxml.BadReference, "1A"},
		{"some cells without reference", data(`<row r="1"><c r="A1"/><c/></row>`), ooxml.MissingReference, "row 1"},
		{"broken shared strings", zipOf(t, with(with(good, "xl/_rels/workbook.xml.rels", `<Relationships xmlns="`+pkgRels+`"><Relationship Id="rId1" Type="`+relTypes+`worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="`+relTypes+`sharedStrings" Target="/xl/sst.xml"/></Relationships>`), "xl/sst.xml", "<sst "+xmlns+"><si>")...), ooxml.MalformedXML, "sst.xml"},
		{"broken styles", zipOf(t, with(with(good, "xl/_rels/workbook.xml.rels", `<Relationships xmlns="`+pkgRels+`"><Relationship Id="rId1" Type="`+relTypes+`worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="`+relTypes+`styles" Target="styles.xml"/></Relationships>`), "xl/styles.xml", "<styleSheet "+xmlns+">")...), ooxml.MalformedXML, "styles.xml"},
		{"two relationships of one id", zipOf(t, with(good, "xl/_rels/workbook.xml.rels", `<Relationships xmlns="`+pkgRels+`"><Relationship Id="rId1" Type="`+relTypes+`worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId1" Type="`+relTypes+`styles" Target="s.xml"/></Relationships>`)...), ooxml.BadStructure, "one id"},
		{"two sheets of one part", zipOf(t, with(good, "xl/workbook.xml", `<workbook `+xmlns+` `+xmlnsR+`><sheets><sheet name="A" r:id="rId1"/><sheet name="B" r:id="rId1"/></sheets></workbook>`)...), ooxml.BadStructure, "one part"},
		{"a prefix whose element is closed", data(`<row r="1" xmlns:p="u"/><p:x/>`), ooxml.MalformedXML, "prefix"},
		{"Strict relationships", zipOf(t, with(good, "xl/_rels/workbook.xml.rels", `<Relationships xmlns="`+pkgRels+`"><Relationship Id="rId1" Type="http://purl.oclc.org/ooxml/officeDocument/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`)...), ooxml.Strict, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p, err := ooxml.Open(context.Background(), bytes.NewReader(tt.file), int64(len(tt.file)), ooxml.Limits{})
			if !errors.Is(err, tt.want) {
				t.Fatalf("error %v, want kind %q", err, tt.want)
			}
			if p != nil {
				t.Error("a package came with the error")
			}
			var e *ooxml.Error
			if !errors.As(err, &e) || !strings.Contains(err.Error(), tt.says) {
				t.Errorf("message %q does not say %q", err, tt.says)
			}
		})
	}
}

// Another library's encryption (ECMA-376 agile) is the witness beside the stub.
func TestEncryptedByAnotherLibrary(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	var out bytes.Buffer
	if err := f.Write(&out, excelize.Options{Password: "x"}); err != nil {
		t.Fatal(err)
	}
	if _, err := ooxml.Open(context.Background(), bytes.NewReader(out.Bytes()), int64(out.Len()), ooxml.Limits{}); !errors.Is(err, ooxml.Encrypted) {
		t.Errorf("error %v", err)
	}
}

func TestLimits(t *testing.T) {
	entries := withSheet(oneRow)
	bomb := zipOf(t, with(entries, "xl/media/zeros.bin", strings.Repeat("\x00", 4<<20))...)
	wide := zipOf(t, withSheet(`<row r="1"><c r="XFD1"/></row>`)...)
	for _, tt := range []struct {
		name   string
		file   []byte
		limits ooxml.Limits
	}{
		{"one entry", bomb, ooxml.Limits{EntryBytes: 1 << 20}},
		{"all entries", bomb, ooxml.Limits{TotalBytes: 2 << 20}},
		{"a core part", bomb, ooxml.Limits{EntryBytes: 100}},
		{"entries", bomb, ooxml.Limits{Entries: 5}},
		{"columns", wide, ooxml.Limits{Columns: 16383}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := ooxml.Open(context.Background(), bytes.NewReader(tt.file), int64(len(tt.file)), tt.limits)
			if !errors.Is(err, ooxml.TooLarge) {
				t.Errorf("error %v", err)
			}
		})
	}
	open(t, bomb)
	open(t, wide)
}

// A header that claims a size its bytes do not have must not cost that memory.
func TestClaimedSizeIsNotBelieved(t *testing.T) {
	b := rawZip(t, withSheet(oneRow), func(h *zip.FileHeader, _ []byte) {
		if strings.HasSuffix(h.Name, "sheet1.xml") {
			h.UncompressedSize64 = 400 << 20
		}
	})
	r := testing.Benchmark(func(b2 *testing.B) {
		b2.ReportAllocs()
		for b2.Loop() {
			if _, err := ooxml.Open(context.Background(), bytes.NewReader(b), int64(len(b)), ooxml.Limits{}); !errors.Is(err, ooxml.Checksum) {
				b2.Fatal(err)
			}
		}
	})
	if r.AllocedBytesPerOp() > 4<<20 {
		t.Errorf("%d bytes allocated", r.AllocedBytesPerOp())
	}
}

func TestWorkbookModel(t *testing.T) {
	p := open(t, kitchenSink(t, 3))
	want := []ooxml.SheetInfo{
		{Name: "Door schedule", State: ooxml.Visible, Type: ooxml.Worksheet, Part: "xl/worksheets/sheet1.xml", RelID: "rId1", SheetID: 1},
		{Name: "Plan", State: ooxml.Visible, Type: ooxml.Worksheet, Part: "xl/worksheets/sheet2.xml", RelID: "rId6", SheetID: 2},
		{Name: "Lists", State: ooxml.Hidden, Type: ooxml.Worksheet, Part: "xl/worksheets/sheet3.xml", RelID: "rId7", SheetID: 3},
	}
	got := p.Sheets()
	for i := range got {
		if i < len(want) {
			want[i].RelID = got[i].RelID // the other library's choice
		}
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	var risks []string
	for _, r := range p.Risks() {
		risks = append(risks, string(r.Kind)+" "+r.Part)
	}
	if d := cmp.Diff([]string{"macros xl/vbaProject.bin", "signed _xmlsignatures/origin.sigs"}, risks); d != "" {
		t.Error(d)
	}
	s := scan(t, p, "DOOR schedule")
	date, _ := s.Cell(4, 6)
	plain, _ := s.Cell(4, 3)
	if !p.Styles().IsDate(date.Style) || p.Styles().IsDate(plain.Style) {
		t.Errorf("styles %d and %d", date.Style, plain.Style)
	}
}

func TestMoreRisks(t *testing.T) {
	entries := handMade(`<worksheet ` + xmlns + `><sheetData><row><c><v>1</v></c></row></sheetData><sheetProtection sheet="1"/></worksheet>`)
	entries = with(entries, "xl/workbook.xml", `<workbook `+xmlns+` `+xmlnsR+`><workbookPr date1904="true"/><workbookProtection lockStructure="1"/><sheets><sheet name="Doors" sheetId="1" r:id="rId1" state="veryHidden"/></sheets></workbook>`)
	p := open(t, zipOf(t, entries...))
	var kinds []ooxml.RiskKind
	for _, r := range p.Risks() {
		kinds = append(kinds, r.Kind)
	}
	if d := cmp.Diff([]ooxml.RiskKind{ooxml.ProtectedWorkbook, ooxml.ProtectedSheet, ooxml.NoReferences}, kinds); d != "" {
		t.Error(d)
	}
	if !p.Date1904() || p.Sheets()[0].State != ooxml.VeryHidden {
		t.Errorf("%v %v", p.Date1904(), p.Sheets())
	}
	wide := open(t, zipOf(t, withSheet(`<row r="1"><c r="AMA1"/></row>`)...))
	if r := wide.Risks(); len(r) != 1 || r[0].Kind != ooxml.WideSheet {
		t.Errorf("risks %v", r)
	}
}

func TestErrorText(t *testing.T) {
	err := &ooxml.Error{Kind: ooxml.BadValue, Part: "xl/a.xml", Sheet: "Doors", Cell: "B7", Value: strings.Repeat("x", 90) + "\n", Msg: "not a number", Err: io.EOF}
	want := `a cell's value cannot be read (sheet "Doors", cell "B7", part "xl/a.xml"): not a number: "` + strings.Repeat("x", 80) + `…": EOF`
	if err.Error() != want {
		t.Errorf("%s", err)
	}
	if !errors.Is(err, ooxml.BadValue) || errors.Is(err, ooxml.DTD) || !errors.Is(err, io.EOF) {
		t.Error("kinds and causes")
	}
	if !errors.Is(fmt.Errorf("wrapped: %w", err), ooxml.BadValue) {
		t.Error("a wrapped error lost its kind")
	}
}

// The size an entry's header names is little-endian at a fixed place; moving the
// directory's offset must end in an error, not in a crash.
func TestDamagedDirectory(t *testing.T) {
	good := zipOf(t, withSheet(oneRow)...)
	for i := 1; i < 22; i++ {
		b := bytes.Clone(good)
		b[len(b)-i] ^= 0xff
		_, _ = ooxml.Open(context.Background(), bytes.NewReader(b), int64(len(b)), ooxml.Limits{})
	}
	b := bytes.Clone(good)
	binary.LittleEndian.PutUint32(b[len(b)-6:], 0xfffffff0)
	if _, err := ooxml.Open(context.Background(), bytes.NewReader(b), int64(len(b)), ooxml.Limits{}); !errors.Is(err, ooxml.DamagedZip) {
		t.Errorf("error %v", err)
	}
}
