package annotate_test

import (
	"archive/zip"
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"maps"
	"slices"
	"testing"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/doorsched/wiring"
	"example.com/lockrail/gen/annotate"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/readback"
	"example.com/lockrail/gen/result"
	"github.com/xuri/excelize/v2"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// The user's workbook: a title over the table, two header rows with a merged
// group, formats, a conditional format, a drop-down list, a note, a second sheet
// whose formulas look at the first, names, and a sheet of the user's own that is
// called as one of ours.
const (
	doorsSheet = "Door schedule"
	headRow    = 4
	firstRow   = 5
	lastCol    = 10
)

var header = []string{"Mark", "Level", "Width", "Height", "Fire rating", "Lock", "Access control", "Hardware set", "Elev. code", "Remarks"}

var fieldNames = []string{"mark", "level", "width", "height", "fire_rating", "lock", "access_controlled", "hardware_set", "", "remarks"}

var doorRows = [][]any{
	{"101", "L1", `3' - 0"`, `7' - 0"`, "90 MIN", "mortise", "yes", "A1", "E-07", "Public way"},
	{"102", "L1", 36, 84, "NR", "", "yes", "A1", "E-07", "=SUM(1,1) is not ours to calculate"},
	{"103", "L1", 36.3, 84, 90, "electric strike", true, "", "E-09", ""},
	{"007", "L1", 30, 84, "20 MIN", "magnet", "no", "B2", "", "  spaces   inside  "},
	{"104", "L1", `PR 3' - 0"`, `8' - 0"`, "", "", "yes", "", "E-07", "Landside entrance pair"},
	{"201", "L2", 42, 84, "", "", "", "B2", "", ""},
	{"202", "L2", "3-0", "7-0", "45 MIN", "panic", "yes", "A1", "", "line one\nline two"},
	{"203", "L2", 0.1, nil, "#N/A?", "", "", "", "", "existing, by others"},
}

func userBook(t testing.TB) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(f.SetSheetName("Sheet1", doorsSheet))
	for _, s := range []string{"Pricing", "Summary"} {
		_, err := f.NewSheet(s)
		must(err)
	}
	style := func(s *excelize.Style) int {
		id, err := f.NewStyle(s)
		must(err)
		return id
	}
	title := style(&excelize.Style{Font: &excelize.Font{Bold: true, Size: 14}})
	head := style(&excelize.Style{Font: &excelize.Font{Bold: true}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"DDEBF7"}}})
	date := style(&excelize.Style{NumFmt: 14})
	must(f.SetCellValue(doorsSheet, "A1", "Marram Point ferry terminal: doors"))
	must(f.MergeCell(doorsSheet, "A1", "J1"))
	must(f.SetCellStyle(doorsSheet, "A1", "J1", title))
	must(f.SetCellValue(doorsSheet, "C3", "Size"))
	must(f.MergeCell(doorsSheet, "C3", "D3"))
	for i, h := range header {
		must(f.SetCellValue(doorsSheet, ooxml.CellName(headRow, i+1), h))
	}
	must(f.SetCellStyle(doorsSheet, "A3", "J4", head))
	for r, row := range doorRows {
		for c, v := range row {
			if v != nil && v != "" {
				must(f.SetCellValue(doorsSheet, ooxml.CellName(firstRow+r, c+1), v))
			}
		}
	}
	must(f.SetCellFormula(doorsSheet, "D6", "C6+48"))
	must(f.SetCellStyle(doorsSheet, "E7", "E7", date)) // a program took 90 for a date
	must(f.MergeCell(doorsSheet, "B10", "B12"))
	must(f.SetColVisible(doorsSheet, "L:XFD", false))
	must(f.SetColWidth(doorsSheet, "C", "E", 12))
	must(f.SetConditionalFormat(doorsSheet, "E5:E12", []excelize.ConditionalFormatOptions{{
		Type: "cell", Criteria: "==", Value: `"NR"`, Format: func() *int {
			id, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "9A0511"}})
			must(err)
			return &id
		}(),
	}}))
	dv := excelize.NewDataValidation(true)
	dv.SetSqref("G5:G12")
	must(dv.SetDropList([]string{"yes", "no"}))
	must(f.AddDataValidation(doorsSheet, dv))
	must(f.AddComment(doorsSheet, excelize.Comment{Cell: "C8", Author: "Surveyor", Text: "measured twice"}))
	must(f.AutoFilter(doorsSheet, "A4:J12", nil))
	must(f.SetDefinedName(&excelize.DefinedName{Name: "Marks", RefersTo: "'Door schedule'!$A$5:$A$12"}))
	must(f.SetCellFormula("Pricing", "A1", "COUNTA(Marks)"))
	must(f.SetCellFormula("Pricing", "A2", "'Door schedule'!C6*2"))
	must(f.SetCellValue("Summary", "A1", "the user's own summary"))
	buf, err := f.WriteToBuffer()
	must(err)
	return buf.Bytes()
}

func open(t testing.TB, data []byte) *ooxml.Package {
	t.Helper()
	p, err := ooxml.Open(context.Background(), bytes.NewReader(data), int64(len(data)), ooxml.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// run is what the pipeline does with a workbook, with a result made by hand.
func run(t testing.TB, data []byte, more ...func(*result.Result)) []byte {
	t.Helper()
	p := open(t, data)
	r := resultOf(t, p)
	for _, f := range more {
		f(r)
	}
	var out bytes.Buffer
	if err := annotate.Workbook(context.Background(), p, r, &out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// resultOf reads the schedule of userBook and says of its doors what a
// run of all rules could say.
func resultOf(t testing.TB, p *ooxml.Package) *result.Result {
	t.Helper()
	sheet, err := p.Scan(context.Background(), doorsSheet)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for row := 1; row <= sheet.Used.R2; row++ {
		var line []string
		for col := 1; col <= lastCol; col++ {
			c, _ := sheet.Cell(row, col)
			line = append(line, c.Text)
		}
		rows = append(rows, line)
	}
	r := fromRows(t, rows, doorsSheet)
	r.Answers = ownOf(t, p).Answers
	for i, a := range r.Answers {
		if a.Text != "" {
			r.Answers[i].Applied = doorsched.Assumed
			if a.By != "" && a.On != "" {
				r.Answers[i].Applied = doorsched.Answered
			}
			r.Queries = deleteQuery(r.Queries, a.Query)
		}
	}
	return r
}

func deleteQuery(qs []doorsched.Query, id string) []doorsched.Query {
	var out []doorsched.Query
	for _, q := range qs {
		if q.ID != id {
			out = append(out, q)
		}
	}
	return out
}

func field(name string) doorsched.FieldID {
	i, _, ok := doorsched.LookupField(name)
	if !ok {
		panic("no field " + name)
	}
	return i.ID
}

func fromRows(t testing.TB, rows [][]string, sheet string) *result.Result {
	t.Helper()
	info, _ := doorsched.IBC2021.Info()
	r := &result.Result{
		File: "marram-point.xlsx", Edition: info, Cautions: []string{result.Caution},
		Place: result.Place{Sheet: sheet, HeadFirst: headRow - 1, HeadLast: headRow, FirstRow: firstRow, LastRow: len(rows), MarkCol: 1, RightEdge: lastCol},
	}
	for i, h := range header {
		id := doorsched.NoField
		if fieldNames[i] != "" {
			id = field(fieldNames[i])
		}
		r.Headings = append(r.Headings, result.Heading{Col: i + 1, Heading: h, Field: id})
	}
	s := &doorsched.Schedule{File: r.File}
	for n := firstRow; n <= len(rows); n++ {
		s.Doors = append(s.Doors, doorsched.Door{Mark: rows[n-1][0], Source: doorsched.Cell{Sheet: sheet, Row: n, Col: 1}})
	}
	r.Schedule = s
	verdicts := []doorsched.Verdict{
		doorsched.NoConflict, doorsched.QueryOpen, doorsched.Caution, doorsched.Conflict, doorsched.Approval, doorsched.QueryOpen, doorsched.NoConflict, doorsched.OutOfScope,
	}
	var all []string
	for i := range s.Doors {
		d := result.Door{View: s.View(i), Mark: s.Doors[i].Mark, Source: s.Doors[i].Source, Verdict: verdicts[i%len(verdicts)]}
		d.Proposed.Verdict = doorsched.NoConflict
		if d.Verdict == doorsched.OutOfScope {
			d.Proposed.Verdict = doorsched.OutOfScope
		}
		all = append(all, d.Mark)
		cell := func(col int) []doorsched.Cell {
			return []doorsched.Cell{{Sheet: sheet, Row: d.Source.Row, Col: col}}
		}
		cite := doorsched.Citation{Document: "IBC", Edition: "2021", Clause: "1010.1.1", Status: doorsched.Verified}
		switch d.Verdict {
		case doorsched.Conflict:
			d.Findings = append(d.Findings, doorsched.Finding{
				Rule: "clear-width", Severity: doorsched.Conflict, Door: d.Mark, Fields: []doorsched.FieldID{field("width")}, Cells: cell(3),
				Value: doorsched.NumberOf(711.2, "mm"), Limit: doorsched.NumberOf(812.8, "mm"), Citation: cite,
				Message:  "The clear opening of 28 in is less than the 32 in that an egress door needs.",
				Remedies: []string{"Widen the leaf to 36 in or more.", "-> or prove the clear width with the stop measured."},
			}, doorsched.Finding{
				Rule: "magnet-release", Severity: doorsched.Conflict, Door: d.Mark, Fields: []doorsched.FieldID{field("lock")}, Cells: cell(6),
				Citation: doorsched.Citation{Document: "IBC", Edition: "2021", Clause: "1010.2.11", Status: doorsched.Memory},
				Message:  "A magnet on an egress door has neither a sensor nor switched hardware to let it go.",
			})
		case doorsched.Caution:
			d.Findings = append(d.Findings, doorsched.Finding{
				Rule: "unreadable-cell", Severity: doorsched.Caution, Door: d.Mark, Cells: cell(5),
				Value: doorsched.TextOf("=90"), Message: "=90 reads as a date; the rating is taken as not given.",
				Remedies: []string{"Correct the cell; until then the field is taken as not given."},
			})
		case doorsched.Approval:
			d.Findings = append(d.Findings, doorsched.Finding{
				Rule: "delayed-egress", Severity: doorsched.Approval, Door: d.Mark, Cells: cell(6), Citation: cite,
				Message: "Delayed egress needs the consent of the authority having jurisdiction.",
			})
		case doorsched.QueryOpen:
			d.Given.NotJudged = []doorsched.NotJudged{{Rule: "panic-hardware", Needs: []doorsched.FieldID{doorsched.OccupantLoad.ID(), doorsched.Sprinkler.ID()}, Stage: doorsched.StageDesign}}
		}
		if d.Verdict != doorsched.OutOfScope {
			d.Given.Site = []doorsched.SiteLine{{Rule: "opening-force", What: "Opening force", Limit: "5 lbf"}}
			d.SetNumber, d.SetBy = rows[n(i)][7], "schedule"
			if d.SetNumber == "" {
				d.SetNumber, d.SetBy = "N1", "proposed"
			}
			d.Choice = hardware.Choice{Lock: "strike", Fail: "secure", By: "proposed", Candidates: []hardware.Candidate{{Name: "electric strike, fail secure, 24 V, lever", Lock: "strike"}}}
			d.Circuit = circuit(i)
			d.Circuit.Door = d.Mark
		}
		d.Given.Verdict = d.Verdict
		r.Doors = append(r.Doors, d)
	}
	r.Sets = []hardware.NumberedSet{
		{Number: "A1", Given: "A1", Doors: all[:1], Set: hardware.Set{Leaves: 1, Items: slices.Clone(items)}},
		{Number: "N1", Proposed: true, Doors: all[1:], Set: hardware.Set{Leaves: 2, Items: slices.Clone(items[:2]), Notes: []string{"Hinges by common practice."}}},
	}
	r.Supplies = []wiring.Supply{{
		Key: "closet 1, 24 V", Place: "closet 1", Nominal: 24, Doors: all, Holding: 2.16, Peak: 4.4, Loading: 88, Size: 5, BatteryHeld: true,
		Hours: 4, AmpHours: 11.3, BlockAh: 12, Recharge: 1.2, Note: "calculated on generic loads",
	}}
	r.Queries = []doorsched.Query{
		{ID: "building.sprinkler", Question: "Is the building sprinklered throughout?", Scope: doorsched.ScopeProject, Field: doorsched.Sprinkler.ID(), Choices: []string{"yes", "no"}, Doors: all},
		{ID: "room.occ_load.201", Question: "What is the occupant load of the room the door serves?", Scope: doorsched.ScopeRoom, Of: "201", Field: doorsched.OccupantLoad.ID(), Doors: all[1:2]},
	}
	r.Assumptions = []doorsched.Assumption{
		{Field: field("width"), Value: "in", Reason: "bare numbers between 24 and 96 are inches here", By: "read", Doors: all},
		{What: "supply voltage", Value: "24 V", Reason: "the usual voltage of electric locks", By: "wiring", Doors: all},
	}
	return r
}

// n is the place in rows of door i.
func n(i int) int { return firstRow - 1 + i }

var items = []hardware.Item{
	{ID: "HNG-BUTT", Name: "Butt hinges, ball bearing", Quantity: 3, Unit: hardware.Each, Standard: "ANSI/BHMA A156.1", Size: "4 1/2 x 4 1/2 in", Action: hardware.ActionNew, Leaf: hardware.LeafActive, Reason: "hangs the leaf", QtyRule: "2 up to 60 in, 1 more for each further 30 in"},
	{ID: "ESTK", Name: "Electric strike", Quantity: 1, Unit: hardware.Each, Function: "fail secure", Standard: "ANSI/BHMA A156.31", Action: hardware.ActionNew, Reason: "releases the latch from outside", Needs: []doorsched.FieldID{field("fire_rating")}},
	{ID: "RDR", Name: "Reader", Quantity: 1, Unit: hardware.Each, Action: hardware.ActionNew, Reason: "access control is asked for"},
}

func circuit(i int) wiring.Circuit {
	return wiring.Circuit{
		Lock: "electric strike", Supply: "closet 1, 24 V", Nominal: 24,
		Holding: doorsched.Known[cable.Amps](0.36), Inrush: doorsched.Known[cable.Amps](0.72), OnMains: doorsched.Known[cable.Volts](22.104 - cable.Volts(i)/10),
		BatteryEnd: doorsched.Known[cable.Volts](20.6), High: doorsched.Known[cable.Volts](27.4),
		LockVolts: doorsched.Known[cable.Volts](20.6), LockVoltsMin: doorsched.Known[cable.Volts](20.4), LockVoltsMax: doorsched.Known[cable.Volts](26.4),
		Longest: doorsched.Known[cable.Metres](61.27), Governs: "battery at the end of its hours",
		Result: "Holds by 0.2 V at the end of the battery's hours.", Basis: "calculated on generic loads",
		Runs: []wiring.Run{{Name: "lock", From: "closet 1", To: "door " + fmt.Sprint(i), Cable: "18 AWG, 2 conductors, plenum", Conductor: "18 AWG", Cores: 2, Length: 30.5, LengthBy: "assumed", Raceway: "1/2", Note: "until measured"}},
	}
}

func csvRows() [][]string {
	rows := [][]string{{"Marram Point ferry terminal: doors"}, nil, {"", "", "Size", "Size"}, header}
	for _, row := range doorRows {
		var line []string
		for _, v := range row {
			s := ""
			if v != nil {
				s = fmt.Sprint(v)
			}
			line = append(line, s)
		}
		rows = append(rows, line)
	}
	return rows
}

// parts gives every entry of a package.
func parts(t testing.TB, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range z.File {
		rc, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(rc)
		if err != nil {
			t.Fatal(err)
		}
		rc.Close()
		out[f.Name] = string(b)
	}
	return out
}

// zipped packs parts again, some of them changed.
func zipped(t testing.TB, from, changed map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, name := range slices.Sorted(maps.Keys(from)) {
		text, ok := changed[name]
		if !ok {
			text = from[name]
		}
		w, err := z.Create(name)
		if err == nil {
			_, err = io.WriteString(w, text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// ownOf is what is ours in a workbook.
func ownOf(t testing.TB, p *ooxml.Package) readback.Own {
	t.Helper()
	own, err := readback.Read(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	return own
}
