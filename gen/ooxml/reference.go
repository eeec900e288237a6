package ooxml

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
)

// Bounds of a worksheet (ECMA-376 part 1, 18.3.1.73 and the file format's
// practice): rows 1 to 1,048,576, columns A to XFD.
const (
	MaxRow    = 1 << 20
	MaxColumn = 1 << 14
)

// Ref is one cell's place.
type Ref struct{ Row, Col int }

func (r Ref) String() string { return CellName(r.Row, r.Col) }

// Range is a rectangle of cells, both corners included. The zero Range is none.
type Range struct{ R1, C1, R2, C2 int }

// IsZero reports whether r is no range.
func (r Range) IsZero() bool { return r == Range{} }

// Contains reports whether the cell lies in r.
func (r Range) Contains(row, col int) bool {
	return row >= r.R1 && row <= r.R2 && col >= r.C1 && col <= r.C2
}

// Covers reports whether all of o lies in r.
func (r Range) Covers(o Range) bool { return r.Contains(o.R1, o.C1) && r.Contains(o.R2, o.C2) }

// Overlaps reports whether r and o share a cell.
func (r Range) Overlaps(o Range) bool {
	return r.R1 <= o.R2 && o.R1 <= r.R2 && r.C1 <= o.C2 && o.C1 <= r.C2
}

// Union is the smallest range that holds both; a zero Range adds nothing.
func (r Range) Union(o Range) Range {
	switch {
	case r.IsZero():
		return o
	case o.IsZero():
		return r
	}
	return Range{min(r.R1, o.R1), min(r.C1, o.C1), max(r.R2, o.R2), max(r.C2, o.C2)}
}

// String gives "A1:C3", or "A1" for a single cell.
func (r Range) String() string {
	if r.R1 == r.R2 && r.C1 == r.C2 {
		return CellName(r.R1, r.C1)
	}
	return CellName(r.R1, r.C1) + ":" + CellName(r.R2, r.C2)
}

func (r Range) valid() bool {
	return r.R1 >= 1 && r.C1 >= 1 && r.R1 <= r.R2 && r.C1 <= r.C2 && r.R2 <= MaxRow && r.C2 <= MaxColumn
}

// CellName gives a reference such as "B7", or "" if row or col is out of bounds.
func CellName(row, col int) string {
	if row < 1 || row > MaxRow || col < 1 || col > MaxColumn {
		return ""
	}
	var buf [10]byte
	return string(appendCellName(buf[:0], row, col))
}

func appendCellName(b []byte, row, col int) []byte {
	b = appendColumnName(b, col)
	return strconv.AppendInt(b, int64(row), 10)
}

func appendColumnName(b []byte, col int) []byte {
	if col > 26*27 {
		b = append(b, byte('A'+(col-26*27-1)/676))
	}
	if col > 26 {
		b = append(b, byte('A'+(col-27)/26%26))
	}
	return append(b, byte('A'+(col-1)%26))
}

// ColumnName gives the letters of a column: 1 is "A", 16384 is "XFD"; "" if out of bounds.
func ColumnName(col int) string {
	if col < 1 || col > MaxColumn {
		return ""
	}
	return string(appendColumnName(nil, col))
}

// ParseColumn reads column letters in either case.
func ParseColumn(s string) (int, error) {
	col, n := columnPrefix(s)
	if n == 0 || n != len(s) || col > MaxColumn {
		return 0, &Error{Kind: BadReference, Value: s, Msg: "not a column from A to XFD"}
	}
	return col, nil
}

func columnPrefix[T string | []byte](s T) (col, n int) {
	for n < len(s) && n < 4 {
		c := s[n] | 0x20
		if c < 'a' || c > 'z' {
			break
		}
		col = col*26 + int(c-'a') + 1
		n++
	}
	return col, n
}

// parseRef reads "B7" without signs; ok is false for anything else or out of bounds.
func parseRef[T string | []byte](s T) (row, col int, ok bool) {
	col, n := columnPrefix(s)
	if n == 0 || n == len(s) || n > 3 || col > MaxColumn || len(s)-n > 7 {
		return 0, 0, false
	}
	for i := n; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, 0, false
		}
		row = row*10 + int(s[i]-'0')
	}
	if row < 1 || row > MaxRow || s[n] == '0' {
		return 0, 0, false
	}
	return row, col, true
}

// ParseCell reads a reference such as "B7" or "$B$7".
func ParseCell(s string) (row, col int, err error) {
	row, col, ok := parseRef(strings.ReplaceAll(s, "$", ""))
	if !ok {
		return 0, 0, &Error{Kind: BadReference, Value: s, Msg: "not a cell from A1 to XFD1048576"}
	}
	return row, col, nil
}

// ParseRange reads "A1:C3", "$A$1:$C$3", a single cell, whole columns "A:C" or
// whole rows "1:3". Corners in any order are put right.
func ParseRange(s string) (Range, error) {
	bad := &Error{Kind: BadReference, Value: s, Msg: "not a range of cells"}
	a, b, two := strings.Cut(strings.ReplaceAll(s, "$", ""), ":")
	if !two {
		b = a
	}
	if r1, c1, ok := parseRef(a); ok {
		r2, c2, ok := parseRef(b)
		if !ok {
			return Range{}, bad
		}
		return Range{min(r1, r2), min(c1, c2), max(r1, r2), max(c1, c2)}, nil
	}
	if !two {
		return Range{}, bad
	}
	if c1, err := ParseColumn(a); err == nil {
		c2, err := ParseColumn(b)
		if err != nil {
			return Range{}, bad
		}
		return Range{1, min(c1, c2), MaxRow, max(c1, c2)}, nil
	}
	r1, err1 := strconv.Atoi(a)
	r2, err2 := strconv.Atoi(b)
	if err1 != nil || err2 != nil {
		return Range{}, bad
	}
	r := Range{min(r1, r2), 1, max(r1, r2), MaxColumn}
	if !r.valid() {
		return Range{}, bad
	}
	return r, nil
}

// AbsCell gives "$B$7".
func AbsCell(row, col int) string {
	name := CellName(row, col)
	if name == "" {
		return ""
	}
	letters := ColumnName(col)
	return "$" + letters + "$" + name[len(letters):]
}

// AbsRange gives "$A$1:$C$3"; whole rows give "$1:$3" and whole columns "$A:$C".
func AbsRange(r Range) string {
	switch {
	case r.C1 == 1 && r.C2 == MaxColumn:
		return "$" + strconv.Itoa(r.R1) + ":$" + strconv.Itoa(r.R2)
	case r.R1 == 1 && r.R2 == MaxRow:
		return "$" + ColumnName(r.C1) + ":$" + ColumnName(r.C2)
	case r.R1 == r.R2 && r.C1 == r.C2:
		return AbsCell(r.R1, r.C1)
	}
	return AbsCell(r.R1, r.C1) + ":" + AbsCell(r.R2, r.C2)
}

// QuoteSheet gives a sheet's title as a formula names it: Doors bare,
// "Door schedule" between apostrophes, with inner apostrophes doubled. What could
// be read as a reference, a number or an operator is quoted.
func QuoteSheet(name string) string {
	plain := name != ""
	for i, r := range name {
		switch {
		case r == '_' || unicode.IsLetter(r):
		case i > 0 && (r == '.' || r >= '0' && r <= '9'):
		default:
			plain = false
		}
	}
	if plain && !looksLikeReference(name) {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", "''") + "'"
}

// looksLikeReference covers A1 and R1C1 style references, and the logical
// constants, which a formula would read as themselves.
func looksLikeReference(s string) bool {
	u := strings.ToUpper(s)
	if u == "TRUE" || u == "FALSE" {
		return true
	}
	letters := strings.TrimRight(u, "0123456789")
	if letters != u && len(letters) <= 3 && strings.Trim(letters, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == "" {
		return true
	}
	if len(u) > 0 && (u[0] == 'R' || u[0] == 'C') {
		return strings.Trim(u, "RC0123456789") == ""
	}
	return false
}

// CheckSheetName reports why a title cannot name a sheet: 1 to 31 UTF-16 units,
// none of : \ / ? * [ ], no apostrophe at either end, no control characters, not
// "History" (reserved).
func CheckSheetName(name string) error {
	fail := func(msg string) error { return &Error{Kind: BadPlan, Sheet: name, Msg: msg} }
	switch n := len(utf16.Encode([]rune(name))); {
	case n == 0:
		return fail("a sheet needs a name")
	case n > 31:
		return fail("a sheet name has at most 31 characters")
	case strings.ContainsAny(name, `:\/?*[]`):
		return fail(`a sheet name has none of : \ / ? * [ ]`)
	case name[0] == '\'' || name[len(name)-1] == '\'':
		return fail("a sheet name does not begin or end with an apostrophe")
	case strings.EqualFold(name, "History"):
		return fail("the name is reserved")
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f || r == unicode.ReplacementChar }):
		return fail("a sheet name has no control characters")
	}
	return nil
}
