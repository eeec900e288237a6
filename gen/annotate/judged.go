package annotate

import (
	"sort"
	"strconv"
	"strings"
	"time"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
)

// Bounds of a formula (the format's practice): 8,192 characters, and 255 in one
// literal. Room is kept for the comparison around the rebuilt text.
const (
	mostFormula = 8000
	mostJudged  = 8000
)

// plainDigits is the length up to which every program writes a whole number as
// its digits.
const plainDigits = 5

// notWatched are fields that no verdict turns on: words for people.
var notWatched = map[doorsched.FieldID]bool{
	doorsched.Remarks.ID(): true, doorsched.RoomName.ID(): true,
}

// watched is one column whose cells a verdict was judged on.
type watched struct {
	col   int
	label string
}

func (b *book) watchedColumns() []watched {
	var out []watched
	for _, h := range b.res.Headings {
		if h.Field == doorsched.NoField || notWatched[h.Field] {
			continue
		}
		if i, ok := doorsched.FieldInfo(h.Field); ok {
			out = append(out, watched{h.Col, i.Words(b.res.Edition.Region)})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].col < out[j].col })
	return out
}

// judgedOn gives the text of what a row was judged on, and a formula expression
// that makes the same text from the live cells. Both leave blanks out and run
// spaces together. The door's mark is part of it, so that a schedule that was
// sorted without our columns shows it.
func (b *book) judgedOn(row int, columns []watched, editionCell string) (text, expr string) {
	var t, e strings.Builder
	more := 0
	for _, w := range columns {
		r, c := b.anchor(row, w.col)
		cell, _ := b.schedule.Cell(r, c)
		pt, pe, ok := b.piece(cell, ooxml.CellName(r, c), w.label)
		if !ok {
			continue
		}
		if e.Len()+len(pe) > mostFormula-200 || t.Len()+len(pt) > mostJudged {
			more++
			continue
		}
		t.WriteString(pt)
		e.WriteString(pe + "&")
	}
	if more > 0 {
		s := strconv.Itoa(more) + " more cells not watched; "
		t.WriteString(s)
		e.WriteString(literal(s) + "&")
	}
	t.WriteString("edition " + string(b.res.Edition.ID))
	e.WriteString(literal("edition ") + "&TRIM(" + editionCell + ")")
	return t.String(), e.String()
}

// sinceJudged compares a rebuilt text with the one that was written. What makes
// the comparison fail, such as an error in a judged cell, is a change too.
func sinceJudged(expr, judgedCell string) string {
	return `IFERROR(IF(EXACT(` + expr + `,` + judgedCell + `),"","CHANGED"),"CHANGED")`
}

// anchor gives the cell that shows at a place: of a merged range, its first.
func (b *book) anchor(row, col int) (int, int) {
	for _, m := range b.merges {
		if m.Contains(row, col) {
			return m.R1, m.C1
		}
	}
	return row, col
}

// piece gives one cell's share of the text and of the expression. A value whose
// text depends on the program's language or on how it shows a number is compared
// as a value and, while it is the same, worded as we word it. ok is false for
// what cannot be rebuilt truly.
func (b *book) piece(c ooxml.Cell, ref, label string) (text, expr string, ok bool) {
	live := `IF(TRIM(` + ref + `)="","",` + literal(label+" ") + `&TRIM(` + ref + `)&"; ")`
	same := func(test, value string) (string, string, bool) {
		s := label + " " + value + "; "
		return s, "IF(" + test + "," + literal(s) + "," + live + ")", true
	}
	value := spaced(c.Text)
	switch c.Kind {
	case ooxml.CellInvalid, ooxml.CellDate:
		return "", "", false
	case ooxml.CellBool:
		return same(ref+"="+c.Text, value)
	case ooxml.CellError:
		return same("ISERROR("+ref+")", value)
	case ooxml.CellNumber:
		if b.pkg.Styles().IsDate(c.Style) {
			if serial, err := strconv.ParseFloat(c.Raw, 64); err == nil {
				if t, ok := ooxml.SerialTime(serial, b.pkg.Date1904()); ok {
					return same(ref+"="+c.Text, strings.TrimSuffix(t.Format(time.DateTime), " 00:00:00"))
				}
			}
			return same(ref+"="+c.Text, value)
		}
		if len(c.Text) > plainDigits || strings.ContainsAny(c.Text, ".E") {
			return same(ref+"="+c.Text, value)
		}
	}
	if value == "" {
		return "", live, true
	}
	return label + " " + value + "; ", live, true
}

// spaced does to text what the spreadsheet function TRIM does: spaces, and only
// spaces, go at both ends and run together inside.
func spaced(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }), " ")
}

// literal writes text as a formula does.
func literal(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }
