package gen

import (
	"context"
	"fmt"
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/doorsched/wiring"
	"example.com/lockrail/gen/read"
	"example.com/lockrail/gen/result"
)

// judge does everything after reading.
func judge(ctx context.Context, s *doorsched.Schedule, info doorsched.EditionInfo, problems []read.Problem) (*result.Result, error) {
	e := info.ID
	res := &result.Result{Edition: info, Schedule: s, Doors: make([]result.Door, len(s.Doors)), Cautions: []string{result.Caution}}
	chooser := hardware.NewChooser(e)
	wires := make([]wiring.Door, len(s.Doors))
	for i := range s.Doors {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		d := &res.Doors[i]
		d.View = s.View(i)
		d.Mark, d.Source = s.Doors[i].Mark, s.Doors[i].Source
		d.Given = egress.JudgeDoor(d.View, e)
		d.Choice = chooser.Choose(d.View)
		d.Set = hardware.Derive(d.View, e, d.Choice)
		proposed := hardware.Proposed(d.Choice, d.Set)
		d.Proposed = egress.JudgeDoor(d.View.With(&proposed), e)
		d.Operation = hardware.Operation(d.View, e, d.Choice, d.Set)
		wires[i] = wiring.Door{View: d.View, Choice: d.Choice, Set: d.Set}
	}
	plan := wiring.Wire(wires, e)
	res.Supplies = plan.Supplies
	for i := range res.Doors {
		res.Doors[i].Circuit = plan.Circuits[i]
	}
	number(res)
	addFindings(res, problems)
	res.Queries = questions(s, res)
	res.Assumptions = allAssumed(res)
	return res, nil
}

// number groups the sets and gives every door its set's number. Doors are keyed
// by their place, since a mark may stand twice.
func number(res *result.Result) {
	var sets []hardware.DoorSet
	byKey := map[string]int{}
	for i := range res.Doors {
		d := &res.Doors[i]
		if d.Set.Leaves == 0 {
			continue
		}
		given := doorsched.HardwareSet.In(d.View).Or("")
		key := d.Mark
		if _, twice := byKey[key]; twice {
			key = fmt.Sprintf("%s (row %d)", d.Mark, d.Source.Row)
		}
		byKey[key] = i
		sets = append(sets, hardware.DoorSet{Mark: key, Given: given, Set: d.Set})
	}
	res.Sets = hardware.Group(sets)
	for _, n := range res.Sets {
		for _, key := range n.Doors {
			d := &res.Doors[byKey[key]]
			d.SetNumber, d.SetBy = n.Number, "schedule"
			if n.Proposed {
				d.SetBy = "proposed"
			}
		}
	}
}

// addFindings joins what rules, circuits and the reader say of each door, and
// lets what they say weigh on the verdict.
func addFindings(res *result.Result, problems []read.Problem) {
	byRow := map[doorsched.Cell][]read.Problem{}
	for _, p := range problems {
		row := doorsched.Cell{Sheet: p.Cell.Sheet, Row: p.Cell.Row}
		byRow[row] = append(byRow[row], p)
	}
	for i := range res.Doors {
		d := &res.Doors[i]
		d.Verdict = d.Given.Verdict
		d.Findings = slices.Clone(d.Given.Findings)
		more := slices.Clone(d.Circuit.Findings)
		for _, p := range byRow[doorsched.Cell{Sheet: d.Source.Sheet, Row: d.Source.Row}] {
			more = append(more, unreadable(d.Mark, p))
		}
		if d.Verdict != doorsched.OutOfScope {
			for _, f := range more {
				d.Verdict = min(d.Verdict, f.Severity)
			}
		}
		d.Findings = append(d.Findings, more...)
		slices.SortStableFunc(d.Findings, doorsched.Finding.Compare)
	}
}

// unreadable makes a finding of a cell that could not be read; its field stays Unknown.
func unreadable(mark string, p read.Problem) doorsched.Finding {
	f := doorsched.Finding{
		Rule: "unreadable-cell", Severity: doorsched.Caution, Door: mark, Cells: []doorsched.Cell{p.Cell},
		Value: doorsched.TextOf(p.Value), Message: p.Message, Remedies: []string{"Correct the cell; until then the field is taken as not given."},
	}
	if p.Field != doorsched.NoField {
		f.Fields = []doorsched.FieldID{p.Field}
	}
	return f
}
