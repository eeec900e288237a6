package annotate

import (
	"fmt"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/result"
)

// mark stands in the formula of each conditional format of ours, where it is
// always true, and is how they are known again.
const mark = `ISTEXT("lockrail")`

const changed = "CHANGED"

// results plans the columns beside the schedule, and takes out those that an
// earlier run left elsewhere.
func (b *book) results() error {
	at, err := b.placeColumns()
	if err != nil {
		return err
	}
	b.firstColumn = at.first
	edit := ooxml.SheetEdit{
		Sheet: b.schedule.Info.Name, Clear: at.clear, DropColumns: at.dropCols, ConditionalMark: mark,
	}
	columns := layout.Results()
	col := func(key string) int { return at.first + layout.ResultColumn(key) - 1 }
	for i, c := range columns {
		edit.Cells = append(edit.Cells, b.look.text(at.head, at.first+i, c.Title.In(b.region), b.look.heading(false)))
		if at.fresh {
			edit.Columns = append(edit.Columns, ooxml.ColumnWidth{First: at.first + i, Last: at.first + i, Width: c.Width})
		}
	}
	watched := b.watchedColumns()
	edition := ooxml.QuoteSheet(b.titles[layout.Settings]) + "!" + ooxml.AbsCell(editionRow, settingsColumn("value"))
	body := b.look.body()
	body.Wrap = false // a schedule's rows keep their height
	for i := range b.res.Doors {
		d := &b.res.Doors[i]
		row := d.Source.Row
		put := func(key, s string, style ooxml.Style) {
			edit.Cells = append(edit.Cells, b.look.text(row, col(key), s, style))
		}
		judged, expr := b.judgedOn(row, watched, edition)
		put("mark", d.Mark, body)
		put("verdict", d.Verdict.String(), filled(body, d.Verdict))
		edit.Cells = append(edit.Cells, ooxml.FormulaCell(row, col("changed"), sinceJudged(expr, ooxml.CellName(row, col("judged"))), "", b.look.plan.Style(body)))
		put("proposed", d.Proposed.Verdict.String(), filled(body, d.Proposed.Verdict))
		put("set", withOrigin(d.SetNumber, d.SetBy), body)
		put("lock", lockOf(d), body)
		if v, ok := d.Circuit.LockVolts.Get(); ok {
			edit.Cells = append(edit.Cells, b.look.number(row, col("volts"), round(float64(v), 3), "0.0", body))
		} else {
			put("volts", "", body)
		}
		put("said", oneLine(b.said(d)), body)
		put("judged", judged, body)
	}
	edit.Conditional = append(b.markCells(), ooxml.Conditional{
		Ranges:  []ooxml.Range{{R1: at.head + 1, C1: col("changed"), R2: max(at.last, at.head+1), C2: col("changed")}},
		Formula: "AND(" + mark + "," + ooxml.CellName(at.head+1, col("changed")) + `="` + changed + `")`,
		Diff:    b.plan.Diff(ooxml.Diff{Bold: true, Fill: layout.ShadeOf(doorsched.Conflict.Code()).Tint}),
	})
	b.plan.Edits = append(b.plan.Edits, edit)
	area := ooxml.Range{R1: at.head, C1: at.first, R2: max(at.last, at.head), C2: at.first + len(columns) - 1}
	b.plan.SetNames = append(b.plan.SetNames, ooxml.DefinedName{
		Name: layout.ResultName("1"), Formula: ooxml.QuoteSheet(b.schedule.Info.Name) + "!" + ooxml.AbsRange(area), Hidden: true,
	})
	b.clearElsewhere()
	return nil
}

// clearElsewhere takes out columns of ours that do not belong to this schedule.
func (b *book) clearElsewhere() {
	here := &b.plan.Edits[0]
	edits := map[string]*ooxml.SheetEdit{}
	var order []string
	for _, c := range b.own.Columns {
		current := c.Name == layout.ResultName("1")
		if current && c.Sheet == b.schedule.Info.Name {
			continue
		}
		if !current {
			b.plan.DropNames = append(b.plan.DropNames, ooxml.DefinedName{Name: c.Name})
		}
		cells, runs := c.Clear()
		e := edits[c.Sheet]
		switch {
		case c.Sheet == b.schedule.Info.Name:
			e = here
		case e == nil:
			e = &ooxml.SheetEdit{Sheet: c.Sheet, ConditionalMark: mark}
			edits[c.Sheet] = e
			order = append(order, c.Sheet)
		}
		e.Clear = append(e.Clear, cells...)
		e.DropColumns = append(e.DropColumns, runs...)
	}
	for _, s := range order {
		b.plan.Edits = append(b.plan.Edits, *edits[s])
	}
}

// withOrigin says of a number or a lock that it is ours; one of the schedule's
// own needs no word.
func withOrigin(s, by string) string {
	if s != "" && by == "proposed" {
		return s + " (proposed)"
	}
	return s
}

func lockOf(d *result.Door) string {
	if best, ok := d.Choice.Best(); ok && best.Name != "" {
		return withOrigin(best.Name, d.Choice.By)
	}
	return withOrigin(d.Circuit.Lock, d.Choice.By)
}

// said is the line beside a door: its worst finding, how many more there are,
// and what could not be judged.
func (b *book) said(d *result.Door) string {
	var parts []string
	if len(d.Findings) > 0 {
		parts = append(parts, d.Findings[0].Message)
	}
	if n := len(d.Findings) - 1; n > 0 {
		parts = append(parts, fmt.Sprintf("%s more on %s.", count(n, "finding"), b.titles[layout.Findings]))
	}
	var needs []doorsched.FieldID
	open := 0
	for _, n := range d.Given.NotJudged {
		if n.Stage != doorsched.StageCommissioning {
			open++
			needs = append(needs, n.Needs...)
		}
	}
	if open > 0 {
		parts = append(parts, fmt.Sprintf("%s not judged, for want of: %s.", count(open, "rule"), firstWords(b.fieldWords(unique(needs)), 160)))
	}
	return strings.Join(parts, " ")
}
