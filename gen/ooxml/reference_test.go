package ooxml_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/lockrail/gen/ooxml"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

func TestReferencesAgreeWithAnotherLibrary(t *testing.T) {
	for col := 1; col <= ooxml.MaxColumn; col++ {
		want, err := excelize.ColumnNumberToName(col)
		if got := ooxml.ColumnName(col); err != nil || got != want {
			t.Fatalf("column %d: %q, want %q", col, got, want)
		}
		if back, err := ooxml.ParseColumn(strings.ToLower(want)); err != nil || back != col {
			t.Fatalf("%s: %d, %v", want, back, err)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		row, col := rapid.IntRange(1, ooxml.MaxRow).Draw(rt, "row"), rapid.IntRange(1, ooxml.MaxColumn).Draw(rt, "col")
		want, _ := excelize.CoordinatesToCellName(col, row)
		abs, _ := excelize.CoordinatesToCellName(col, row, true)
		if ooxml.CellName(row, col) != want || ooxml.AbsCell(row, col) != abs {
			rt.Fatalf("%q and %q", ooxml.CellName(row, col), ooxml.AbsCell(row, col))
		}
		for _, s := range []string{want, abs, strings.ToLower(want)} {
			if r, c, err := ooxml.ParseCell(s); err != nil || r != row || c != col {
				rt.Fatalf("%s: %d %d %v", s, r, c, err)
			}
		}
	})
}

func TestBadReferences(t *testing.T) {
	for _, s := range []string{"", "A", "1", "A0", "A01", "XFE1", "A1048577", "AAAA1", "A1B", "A-1", "Ä1", "A1:B2", "A99999999999"} {
		if r, c, err := ooxml.ParseCell(s); !errors.Is(err, ooxml.BadReference) {
			t.Errorf("%q: %d %d %v", s, r, c, err)
		}
	}
	for _, s := range []string{"", "A", "A1:", ":A1", "A1:B", "A:1", "0:3", "1:9999999", "A1:B2:C3", "A1 B2"} {
		if r, err := ooxml.ParseRange(s); !errors.Is(err, ooxml.BadReference) {
			t.Errorf("%q: %v %v", s, r, err)
		}
	}
	if ooxml.CellName(0, 1)+ooxml.CellName(1, 0)+ooxml.ColumnName(0)+ooxml.ColumnName(16385)+ooxml.AbsCell(0, 0) != "" {
		t.Error("a place out of bounds has a name")
	}
}

func TestRanges(t *testing.T) {
	for _, tt := range []struct{ in, out, abs string }{
		{"A1", "A1", "$A$1"}, {"$B$2:$C$9", "B2:C9", "$B$2:$C$9"}, {"C9:B2", "B2:C9", "$B$2:$C$9"},
		{"A:C", "A1:C1048576", "$A:$C"}, {"$1:$3", "A1:XFD3", "$1:$3"},
	} {
		r, err := ooxml.ParseRange(tt.in)
		if err != nil || r.String() != tt.out || ooxml.AbsRange(r) != tt.abs {
			t.Errorf("%s: %v %v %v", tt.in, r, ooxml.AbsRange(r), err)
		}
	}
	a, b := ooxml.Range{R1: 1, C1: 1, R2: 2, C2: 2}, ooxml.Range{R1: 2, C1: 2, R2: 5, C2: 3}
	if a.Union(b) != (ooxml.Range{R1: 1, C1: 1, R2: 5, C2: 3}) || a.Union(ooxml.Range{}) != a || (ooxml.Range{}).Union(b) != b {
		t.Error("union")
	}
	if !a.Overlaps(b) || a.Overlaps(ooxml.Range{R1: 3, C1: 1, R2: 3, C2: 1}) || !a.Covers(a) || a.Covers(b) || a.IsZero() {
		t.Error("overlap and cover")
	}
}

func TestQuoteSheet(t *testing.T) {
	for in, want := range map[string]string{
		"Doors": "Doors", "Türen": "Türen", "_a.1": "_a.1", "Door schedule": "'Door schedule'", "It's": "'It''s'", "1st": "'1st'",
		"A1": "'A1'", "XFD10": "'XFD10'", "ABCD1": "ABCD1", "R1C1": "'R1C1'", "RC": "'RC'", "R": "'R'", "Rooms": "Rooms", "TRUE": "'TRUE'", "a-b": "'a-b'", "": "''",
	} {
		if got := ooxml.QuoteSheet(in); got != want {
			t.Errorf("%q: %s, want %s", in, got, want)
		}
	}
}

func TestCheckSheetName(t *testing.T) {
	for _, s := range []string{"Doors", "Türen und Beschläge", strings.Repeat("x", 31), "a'b"} {
		if err := ooxml.CheckSheetName(s); err != nil {
			t.Errorf("%q: %v", s, err)
		}
	}
	for _, s := range []string{"", strings.Repeat("x", 32), strings.Repeat("\U0001F6AA", 16), "a:b", `a\b`, "a/b", "a?b", "a*b", "a[b", "a]b", "'a", "a'", "history", "a\x01", "a\xff"} {
		if err := ooxml.CheckSheetName(s); !errors.Is(err, ooxml.BadPlan) {
			t.Errorf("%q: %v", s, err)
		}
	}
}

// The examples of the escape are those of ECMA-376 part 1, 22.9.2.19 (from memory).
func TestEscapeText(t *testing.T) {
	for in, want := range map[string]string{
		"plain": "plain", "a<b>&\"c\"": "a&lt;b&gt;&amp;&quot;c&quot;", "\x01": "_x0001_", "a\rb": "a_x000D_b", "a\nb\t": "a\nb\t",
		"_x0008_": "_x005F_x0008_", "_x008_": "_x008_", "\xff": "\uFFFD", "\uFFFF": "_xFFFF_",
	} {
		if got := ooxml.EscapeText(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
