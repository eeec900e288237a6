package ooxml

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
)

// formats maps the ids of a plan to the workbook's indexes.
type formats struct {
	styles []int // by StyleID-1
	diffs  []int
}

func (f formats) style(id StyleID) (int, bool) {
	if id == 0 {
		return 0, true
	}
	if id < 0 || int(id) > len(f.styles) {
		return 0, false
	}
	return f.styles[id-1], true
}

func (f formats) diff(id DiffID) (int, bool) {
	if id <= 0 || int(id) > len(f.diffs) {
		return 0, false
	}
	return f.diffs[id-1], true
}

// sortCells gives the cells in the order of a sheet and refuses what cannot be written.
func sortCells(sheet string, cells []NewCell, f formats) ([]NewCell, error) {
	out := slices.Clone(cells)
	slices.SortStableFunc(out, func(a, b NewCell) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col))
	})
	for i := range out {
		c := &out[i]
		fail := func(msg string) error {
			return &Error{Kind: BadPlan, Sheet: sheet, Cell: CellName(c.Row, c.Col), Msg: msg}
		}
		if CellName(c.Row, c.Col) == "" {
			return nil, fail("a cell at row " + itoa(c.Row) + ", column " + itoa(c.Col) + " is out of range")
		}
		if i > 0 && out[i-1].Row == c.Row && out[i-1].Col == c.Col {
			return nil, fail("the plan puts two cells in one place")
		}
		if _, ok := f.style(c.Style); !ok {
			return nil, fail("the style is not one of this plan")
		}
		if c.kind == CellNumber && (math.IsNaN(c.number) || math.IsInf(c.number, 0)) {
			return nil, fail("the number is not finite")
		}
		if utf16Len(c.text) > 32767 {
			return nil, fail("a cell holds at most 32,767 characters")
		}
		if c.kind == CellFormulaString && (c.formula == "" || c.formula[0] == '=' || utf16Len(c.formula) > 8192) {
			return nil, fail("a formula has 1 to 8,192 characters and no leading =")
		}
	}
	return out, nil
}

// utf16Len counts characters as the format does.
func utf16Len(s string) int {
	n := 0
	for _, r := range s {
		n++
		if r > 0xFFFF {
			n++
		}
	}
	return n
}

// writeCell writes one <c>; p is the prefix of the main namespace.
func writeCell(b *strings.Builder, p string, c *NewCell, f formats) {
	b.WriteString("<" + p + `c r="`)
	b.WriteString(CellName(c.Row, c.Col))
	b.WriteByte('"')
	if s, _ := f.style(c.Style); s > 0 {
		b.WriteString(` s="`)
		b.WriteString(strconv.Itoa(s))
		b.WriteByte('"')
	}
	switch c.kind {
	case CellInline:
		b.WriteString(` t="inlineStr"><` + p + "is>")
		writeText(b, p+"t", EscapeText(c.text), keepsSpace(c.text))
		b.WriteString("</" + p + "is></" + p + "c>")
	case CellNumber:
		b.WriteString("><" + p + "v>")
		b.WriteString(numberText(c.number))
		b.WriteString("</" + p + "v></" + p + "c>")
	case CellFormulaString:
		b.WriteString(` t="str">`)
		writeText(b, p+"f", escapeXML(c.formula), false)
		writeText(b, p+"v", EscapeText(c.text), keepsSpace(c.text))
		b.WriteString("</" + p + "c>")
	default:
		b.WriteString("/>")
	}
}

func writeText(b *strings.Builder, name, escaped string, keep bool) {
	b.WriteString("<" + name)
	if keep {
		b.WriteString(` xml:space="preserve"`)
	}
	// Only an attribute needs its quotation marks escaped.
	b.WriteString(">" + strings.ReplaceAll(escaped, "&quot;", `"`) + "</" + name + ">")
}

func numberText(v float64) string {
	if a := math.Abs(v); a != 0 && (a < 1e-9 || a >= 1e21) {
		return strconv.FormatFloat(v, 'E', -1, 64)
	}
	if v == 0 {
		return "0" // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func joinRanges(ranges []Range) string {
	names := make([]string, len(ranges))
	for i, r := range ranges {
		names[i] = r.String()
	}
	return strings.Join(names, " ")
}

// conditionalXML writes one <conditionalFormatting>.
func conditionalXML(sheet, p string, c *Conditional, f formats, priority int) (string, error) {
	if err := checkRanges(sheet, c.Ranges, "a conditional format"); err != nil {
		return "", err
	}
	dxf, ok := f.diff(c.Diff)
	if !ok || c.Formula == "" || c.Formula[0] == '=' {
		return "", &Error{Kind: BadPlan, Sheet: sheet, Msg: "a conditional format needs a formula without leading = and a format of this plan"}
	}
	stop := ""
	if c.Stop {
		stop = ` stopIfTrue="1"`
	}
	return "<" + p + `conditionalFormatting sqref="` + joinRanges(c.Ranges) + `"><` + p + `cfRule type="expression" dxfId="` + itoa(dxf) +
		`" priority="` + itoa(priority) + `"` + stop + "><" + p + "formula>" + escapeXML(c.Formula) + "</" + p + "formula></" + p + "cfRule></" + p + "conditionalFormatting>", nil
}

func checkRanges(sheet string, ranges []Range, what string) error {
	if len(ranges) == 0 {
		return &Error{Kind: BadPlan, Sheet: sheet, Msg: what + " needs a range"}
	}
	for _, r := range ranges {
		if !r.valid() {
			return &Error{Kind: BadPlan, Sheet: sheet, Msg: what + " has a range that is out of bounds or turned around"}
		}
	}
	return nil
}
