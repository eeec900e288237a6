package annotate

import (
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
)

// look makes the few cell formats that our cells have. The font is always the
// workbook's own.
type look struct{ plan *ooxml.Plan }

// thinLine is the colour of the lines between our cells.
const thinLine = "BFBFBF"

func (l look) heading(wrap bool) ooxml.Style {
	return ooxml.Style{Bold: true, Color: layout.Ink, Fill: layout.Grey, Border: thinLine, Vertical: "top", Wrap: wrap}
}

func (l look) body() ooxml.Style {
	return ooxml.Style{Border: thinLine, Vertical: "top", Wrap: true}
}

// filled is a body cell with a verdict's tint. The word stands in it: the tint
// alone says nothing.
func filled(s ooxml.Style, v doorsched.Verdict) ooxml.Style {
	if shade := layout.ShadeOf(v.Code()); shade.Tint != "" {
		s.Fill, s.Color = shade.Tint, layout.Ink
	}
	return s
}

// mostText keeps below the 32,767 characters that a cell holds.
const mostText = 16000

// text is a cell with text that stays text: what a person could take for a
// formula is stored as a string and marked so that editing it does not make it one.
func (l look) text(row, col int, s string, style ooxml.Style) ooxml.NewCell {
	if r := []rune(s); len(r) > mostText {
		s = string(r[:mostText]) + "…"
	}
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		style.QuotePrefix = true
	}
	return ooxml.TextCell(row, col, s, l.plan.Style(style))
}

func (l look) number(row, col int, v float64, format string, style ooxml.Style) ooxml.NewCell {
	style.NumFmt, style.Wrap, style.Horizontal, style.Indent = format, false, "right", 1
	return ooxml.NumberCell(row, col, v, l.plan.Style(style))
}
