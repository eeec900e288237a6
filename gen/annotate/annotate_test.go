package annotate_test

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/annotate"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/read"
	"example.com/lockrail/gen/result"
	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// Parts that have to grow; of them only what is added may differ.
var grown = []string{"xl/workbook.xml", "xl/_rels/workbook.xml.rels", "[Content_Types].xml", "xl/styles.xml", "xl/worksheets/sheet1.xml"}

func TestNothingOfTheUsersChanges(t *testing.T) {
	in := userBook(t)
	out := run(t, in)
	before, after := parts(t, in), parts(t, out)
	for name, text := range before {
		if slices.Contains(grown, name) {
			if name == "xl/styles.xml" {
				continue
			}
			if len(after[name]) <= len(text) {
				t.Errorf("%s did not grow", name)
			}
		} else if after[name] != text {
			t.Errorf("%s changed", name)
		}
	}
	added := 0
	for name := range after {
		if _, old := before[name]; !old {
			added++
			if !strings.HasPrefix(name, "xl/worksheets/sheet") {
				t.Errorf("%s was added", name)
			}
		}
	}
	if want := len(layout.Sheets()); added != want {
		t.Errorf("%d parts were added; want %d", added, want)
	}

	old, now := scan(t, in, doorsSheet), scan(t, out, doorsSheet)
	first := now.Used.C2 - len(layout.Results()) + 1
	var left []ooxml.Cell
	for _, c := range now.Cells {
		if c.Col < first {
			left = append(left, c)
		}
	}
	if d := cmp.Diff(old.Cells, left); d != "" {
		t.Errorf("the user's cells (-before +after):\n%s", d)
	}
	if first != old.RightEdge()+2 {
		t.Errorf("results start in column %d; the user's end in %d", first, old.RightEdge())
	}
	if d := cmp.Diff(old.Merges, now.Merges); d != "" {
		t.Errorf("merges: %s", d)
	}
	sheet := after["xl/worksheets/sheet1.xml"]
	for _, element := range []string{"dataValidations", "autoFilter", "mergeCells", "sheetViews", "legacyDrawing", "pageMargins"} {
		raw := elementOf(before["xl/worksheets/sheet1.xml"], element)
		if raw != "" && !strings.Contains(sheet, raw) {
			t.Errorf("<%s> of the schedule changed", element)
		}
	}
	if raw := elementOf(before["xl/worksheets/sheet1.xml"], "conditionalFormatting"); raw == "" || !strings.Contains(sheet, raw) {
		t.Error("the user's conditional format changed")
	}
	// Cell formats are only added at the end, so that no cell gets another one.
	for _, list := range []string{"cellXfs", "fonts", "fills", "borders", "dxfs"} {
		a, b := inside(before["xl/styles.xml"], list), inside(after["xl/styles.xml"], list)
		if !strings.HasPrefix(b, a) {
			t.Errorf("<%s> of the user changed", list)
		}
	}
	for _, n := range open(t, in).Names() {
		if !slices.Contains(open(t, out).Names(), n) {
			t.Errorf("the name %s is gone or changed", n.Name)
		}
	}
}

func elementOf(xml, name string) string {
	i := strings.Index(xml, "<"+name)
	if i < 0 {
		return ""
	}
	if j := strings.Index(xml[i:], "</"+name+">"); j >= 0 {
		return xml[i : i+j+len(name)+3]
	}
	return xml[i : i+strings.IndexByte(xml[i:], '>')+1]
}

func inside(xml, name string) string {
	e := elementOf(xml, name)
	e = e[strings.IndexByte(e, '>')+1:]
	return strings.TrimSuffix(e, "</"+name+">")
}

func scan(t testing.TB, data []byte, sheet string) *ooxml.Sheet {
	t.Helper()
	s, err := open(t, data).Scan(context.Background(), sheet)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func reopen(t testing.TB, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func save(t testing.TB, f *excelize.File) []byte {
	t.Helper()
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func cell(t testing.TB, f *excelize.File, sheet, ref string) string {
	t.Helper()
	s, err := f.GetCellValue(sheet, ref)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func set(t testing.TB, f *excelize.File, sheet, ref string, v any) {
	t.Helper()
	if err := f.SetCellValue(sheet, ref, v); err != nil {
		t.Fatal(err)
	}
}

// A reader that is not ours sees what we wrote.
func TestAnotherReader(t *testing.T) {
	out := run(t, userBook(t))
	f := reopen(t, out)
	want := []string{doorsSheet, "Pricing", "Summary", "Summary 2", "Findings", "Queries", "Hardware sets", "Power", "Cables", "Assumptions", "Settings"}
	if d := cmp.Diff(want, f.GetSheetList()); d != "" {
		t.Errorf("sheets (-want +got):\n%s", d)
	}
	got := map[string]string{}
	for _, ref := range []string{"L4", "M4", "L8", "M8", "O8", "P8", "R8", "T8"} {
		got[ref] = cell(t, f, doorsSheet, ref)
	}
	wantCells := map[string]string{
		"L4": "Door", "M4": "Verdict", "L8": "007", "M8": "conflict", "O8": "no conflict found", "P8": "B2", "R8": "20.6",
		"T8": "Door mark 007; Level L1; Width 30; Height 84; Fire rating 20 MIN; Lock magnet; Access controlled no; Hardware set B2; edition ibc-2021",
	}
	if d := cmp.Diff(wantCells, got); d != "" {
		t.Errorf("cells (-want +got):\n%s", d)
	}
	if got := cell(t, f, "Summary", "A1"); got != "the user's own summary" {
		t.Errorf("the user's Summary says %q", got)
	}
	for _, s := range layout.Sheets() {
		title := s.Title.US
		if s.Key == layout.Summary {
			title = "Summary 2"
		}
		if got := cell(t, f, title, "A1"); got != s.Purpose.US {
			t.Errorf("%s: its first row says %q", title, got)
		}
		for i, c := range s.Columns {
			if got := cell(t, f, title, ooxml.CellName(layout.HeadRow, i+1)); got != c.Title.US {
				t.Errorf("%s: heading %d is %q", title, i+1, got)
			}
		}
		panes, err := f.GetPanes(title)
		if err != nil || !panes.Freeze || panes.YSplit != layout.HeadRow {
			t.Errorf("%s: rows are not frozen: %+v, %v", title, panes, err)
		}
		page, err := f.GetPageLayout(title)
		if err != nil || *page.Size != 1 || (*page.Orientation == "landscape") == (s.Key == layout.Summary) {
			t.Errorf("%s: page %+v, %v", title, page, err)
		}
	}
	wantOurs := read.Ours{Sheets: want[3:], Columns: []read.SheetColumns{{Sheet: doorsSheet, First: 12, Last: 20}}}
	if d := cmp.Diff(wantOurs, ownOf(t, open(t, out)).Ours()); d != "" {
		t.Errorf("what is ours (-want +got):\n%s", d)
	}
	for col, hidden := range map[string]bool{"K": false, "L": false, "T": false, "U": true, "XFD": true} {
		visible, err := f.GetColVisible(doorsSheet, col)
		if err != nil || visible == hidden {
			t.Errorf("column %s is visible: %t, %v", col, visible, err)
		}
	}
}

func TestUKWordsAndPaper(t *testing.T) {
	out := run(t, userBook(t), func(r *result.Result) { r.Edition, _ = doorsched.England2019.Info() })
	f := reopen(t, out)
	if !slices.Contains(f.GetSheetList(), "Ironmongery sets") {
		t.Errorf("sheets %v", f.GetSheetList())
	}
	if page, err := f.GetPageLayout("Findings"); err != nil || *page.Size != 9 {
		t.Errorf("not A4: %+v, %v", page, err)
	}
	if got := cell(t, f, doorsSheet, "P4"); got != "Ironmongery set" {
		t.Errorf("heading %q", got)
	}
}

func TestAgainIsTheSame(t *testing.T) {
	first := run(t, userBook(t))
	second := run(t, first)
	if !bytes.Equal(first, second) {
		a, b := parts(t, first), parts(t, second)
		for name := range b {
			if a[name] != b[name] {
				t.Errorf("%s differs:\n%s", name, cmp.Diff(strings.Split(a[name], "><"), strings.Split(b[name], "><")))
			}
		}
		t.Error("the second run gave other bytes")
	}
}

// The user answers one question in full, one without a name, and writes on a
// third line what is no answer; a later run keeps all of it.
func TestAnswersAreKept(t *testing.T) {
	f := reopen(t, run(t, userBook(t)))
	at := func(key string, row int) string {
		s, _ := layout.SheetByKey(layout.Queries)
		return ooxml.CellName(row, s.Column(key))
	}
	set(t, f, "Queries", at("answer", 3), "yes")
	set(t, f, "Queries", at("by", 3), "Architect")
	set(t, f, "Queries", at("date", 3), 46082) // as a spreadsheet stores a typed date
	style, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	if err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellStyle("Queries", at("date", 3), at("date", 3), style); err != nil {
		t.Fatal(err)
	}
	set(t, f, "Queries", at("to", 4), "=Client")
	set(t, f, "Settings", "A20", "column lock")
	set(t, f, "Settings", "B20", "Elev. code")
	answered := save(t, f)

	written := ownOf(t, open(t, answered))
	want := []result.Answer{
		{Query: "building.sprinkler", Question: "Is the building sprinklered throughout?", Doors: "101, 102, 103, 007, 104, 201, 202, 203", Text: "yes", By: "Architect", On: "2026-03-01"},
		{Query: "room.occ_load.201", Question: "What is the occupant load of the room the door serves?", Of: "201", Doors: "102", To: "=Client"},
	}
	if d := cmp.Diff(want, written.Answers); d != "" {
		t.Errorf("answers (-want +got):\n%s", d)
	}
	if got := []string{written.Setting("edition"), written.ColumnMap()["lock"]}; !slices.Equal(got, []string{"ibc-2021", "Elev. code"}) {
		t.Errorf("settings %q", got)
	}

	third := run(t, answered)
	later := ownOf(t, open(t, third))
	again := later.Answers
	slices.Reverse(again) // the answered one stands after the open one now
	if d := cmp.Diff(want, again); d != "" {
		t.Errorf("answers after another run (-want +got):\n%s", d)
	}
	if d := cmp.Diff(written.ColumnMap(), later.ColumnMap()); d != "" {
		t.Errorf("settings after another run (-want +got):\n%s", d)
	}
	g := reopen(t, third)
	if a, b := cell(t, g, "Queries", at("state", 3)), cell(t, g, "Queries", at("state", 4)); a != "open" || b != "answered" {
		t.Errorf("states %q, %q", a, b)
	}
	if fourth := run(t, third); !bytes.Equal(third, fourth) {
		t.Error("the fourth run gave other bytes")
	}
}

func TestStates(t *testing.T) {
	states := func(a result.Answer, open bool) string {
		out := run(t, userBook(t), func(r *result.Result) {
			a.Query = r.Queries[0].ID
			r.Answers = []result.Answer{a}
			if !open {
				r.Queries = nil
			}
		})
		return cell(t, reopen(t, out), "Queries", "B3")
	}
	for _, c := range []struct {
		a    result.Answer
		open bool
		want string
	}{
		{result.Answer{}, true, "open"},
		{result.Answer{Text: "?", Problem: "says nothing"}, true, "open; answer not used: says nothing"},
		{result.Answer{Text: "?", Problem: "says nothing"}, false, "not used: says nothing"},
		{result.Answer{Text: "yes", Applied: doorsched.Assumed}, false, "assumed"},
		{result.Answer{Text: "yes", Applied: doorsched.Answered}, false, "answered"},
		{result.Answer{Text: "yes"}, false, "no longer asked"},
	} {
		if got := states(c.a, c.open); got != c.want {
			t.Errorf("%+v: %q; want %q", c.a, got, c.want)
		}
	}
}

// No text of a schedule or a rule becomes a formula, in any of our cells.
func TestTextIsNoFormula(t *testing.T) {
	evil := []string{`=HYPERLINK("http://example.invalid")`, "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"}
	out := run(t, userBook(t), func(r *result.Result) {
		for i, s := range evil {
			r.Doors[i].Mark = s
			r.Doors[i].Findings = []doorsched.Finding{{
				Rule: s, Severity: doorsched.Caution, Value: doorsched.TextOf(s), Limit: doorsched.TextOf(s), Message: s, Remedies: []string{s},
				Citation: doorsched.Citation{Document: s},
			}}
		}
		r.File = evil[0]
		r.Queries[0].Question = evil[0]
		r.Queries[0].Choices = []string{`a,b`, `"`}
		r.Sets[0].Number, r.Sets[0].Set.Items[0].Name = evil[0], evil[1]
		r.Assumptions[0].Reason = evil[2]
	})
	p := open(t, out)
	formats := strings.Split(inside(parts(t, out)["xl/styles.xml"], "cellXfs"), "<xf ")[1:]
	found := 0
	for _, info := range p.Sheets() {
		if slices.Contains([]string{"Pricing", "Summary"}, info.Name) {
			continue
		}
		s := scan(t, out, info.Name)
		for _, c := range s.Cells {
			ours := info.Name != doorsSheet || c.Col >= 12
			if c.HasFormula && ours && (info.Name != doorsSheet || c.Col != 14) {
				t.Errorf("%s!%s is a formula: %s", info.Name, c.Name(), c.Formula)
			}
			if ours && c.Text != "" && strings.ContainsAny(c.Text[:1], "=+-@") && c.Kind != ooxml.CellNumber {
				found++
				if c.Kind != ooxml.CellInline || !strings.Contains(formats[c.Style], `quotePrefix="1"`) {
					t.Errorf("%s!%s: %q is %v without quote prefix", info.Name, c.Name(), c.Text, c.Kind)
				}
			}
		}
	}
	if found < 30 {
		t.Errorf("only %d cells begin like formulas", found)
	}
}

func resultStart(t *testing.T, data []byte) string {
	t.Helper()
	for _, n := range open(t, data).Names() {
		if n.Name == layout.ResultName("1") {
			return n.Formula
		}
	}
	return ""
}

// The user's table grows in every direction after a run.
func TestTheUserGoesOn(t *testing.T) {
	first := run(t, userBook(t))
	for _, c := range []struct {
		name string
		edit func(f *excelize.File)
		want string
		kept map[string]string // cells of the user
	}{
		{"a row below", func(f *excelize.File) { set(t, f, doorsSheet, "A13", "301") }, "'Door schedule'!$L$4:$T$13", map[string]string{"L13": "301"}},
		{"a column of theirs right of ours", func(f *excelize.File) { set(t, f, doorsSheet, "V6", "theirs") }, "'Door schedule'!$L$4:$T$12", map[string]string{"V6": "theirs"}},
		{"a cell in the blank column", func(f *excelize.File) { set(t, f, doorsSheet, "K6", "theirs") }, "'Door schedule'!$M$4:$U$12", map[string]string{"K6": "theirs", "L4": "", "L6": "", "M4": "Door"}},
		{"a cell below our columns, on a row of a new door", func(f *excelize.File) {
			set(t, f, doorsSheet, "A13", "301")
			set(t, f, doorsSheet, "M13", "theirs")
		}, "'Door schedule'!$O$4:$W$13", map[string]string{"M13": "theirs", "M4": "", "O13": "301"}},
		{"a column between ours", func(f *excelize.File) {
			must(t, f.InsertCols(doorsSheet, "N", 1))
			set(t, f, doorsSheet, "N4", "Price")
			set(t, f, doorsSheet, "N5", 120)
			must(t, f.SetDefinedName(&excelize.DefinedName{Name: "probe", RefersTo: "Pricing!$A$1"}))
		}, "'Door schedule'!$P$4:$X$12", map[string]string{"N4": "Price", "N5": "120", "M4": "", "O4": "", "P4": "Door"}},
		{"a door taken out", func(f *excelize.File) {
			for _, ref := range []string{"A12", "C12", "E12", "J12"} {
				set(t, f, doorsSheet, ref, nil)
			}
		}, "'Door schedule'!$L$4:$T$11", map[string]string{"L12": "", "M12": "", "L11": "202"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := reopen(t, first)
			c.edit(f)
			second := run(t, save(t, f), func(r *result.Result) {
				for len(r.Doors) > 0 && r.Doors[len(r.Doors)-1].Mark == "" {
					r.Doors = r.Doors[:len(r.Doors)-1]
					r.Place.LastRow--
				}
			})
			if got := resultStart(t, second); got != c.want {
				t.Errorf("results at %s; want %s", got, c.want)
			}
			g := reopen(t, second)
			for ref, want := range c.kept {
				if got := cell(t, g, doorsSheet, ref); got != want {
					t.Errorf("%s = %q; want %q", ref, got, want)
				}
			}
		})
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// A width that the user gave to a column of ours stays.
func TestWidthsStay(t *testing.T) {
	f := reopen(t, run(t, userBook(t)))
	must(t, f.SetColWidth(doorsSheet, "S", "S", 21))
	must(t, f.SetColVisible(doorsSheet, "T", false))
	g := reopen(t, run(t, save(t, f)))
	width, err := g.GetColWidth(doorsSheet, "S")
	must(t, err)
	visible, err := g.GetColVisible(doorsSheet, "T")
	must(t, err)
	if width != 21 || visible {
		t.Errorf("width %g, visible %t", width, visible)
	}
}

// The schedule of the next issue stands on another sheet: our columns go there,
// and nothing of ours is left on the old one.
func TestScheduleMoves(t *testing.T) {
	in := userBook(t)
	f := reopen(t, run(t, in))
	_, err := f.NewSheet("Issue B")
	must(t, err)
	g := reopen(t, in)
	rows, err := g.GetRows(doorsSheet)
	must(t, err)
	for i, row := range rows {
		for j, text := range row {
			set(t, f, "Issue B", ooxml.CellName(i+1, j+1), text)
		}
	}
	out := run(t, save(t, f), func(r *result.Result) {
		r.Place.Sheet = "Issue B"
		for i := range r.Doors {
			r.Doors[i].Source.Sheet = "Issue B"
			for j := range r.Doors[i].Findings {
				r.Doors[i].Findings[j].Cells[0].Sheet = "Issue B"
			}
		}
	})
	old, now := scan(t, in, doorsSheet), scan(t, out, doorsSheet)
	if old.Used != now.Used || old.RightEdge() != now.RightEdge() {
		t.Errorf("the old sheet holds %v; the user's was %v", now.Used, old.Used)
	}
	if raw := parts(t, out)["xl/worksheets/sheet1.xml"]; strings.Contains(raw, "lockrail") {
		t.Error("a conditional format of ours is left on the old sheet")
	}
	if got, want := resultStart(t, out), "'Issue B'!$L$4:$T$12"; got != want {
		t.Errorf("results at %s; want %s", got, want)
	}
}

// A sheet of ours keeps the title that the user gave it, and one that the user
// deleted comes back.
func TestRenamedAndDeleted(t *testing.T) {
	first := parts(t, run(t, userBook(t)))
	book := first["xl/workbook.xml"]
	book = strings.ReplaceAll(book, `name="Findings"`, `name="O'Neil = findings"`)
	book = strings.ReplaceAll(book, `>Findings!`, `>'O''Neil = findings'!`)
	book = strings.ReplaceAll(book, `>Power!$A$1<`, `>#REF!$A$1<`) // its sheet is the user's now
	renamed := zipped(t, first, map[string]string{"xl/workbook.xml": book})
	second := run(t, renamed)
	var titles []string
	for _, s := range open(t, second).Sheets() {
		titles = append(titles, s.Name)
	}
	want := []string{doorsSheet, "Pricing", "Summary", "Summary 2", "O'Neil = findings", "Queries", "Hardware sets", "Power", "Cables", "Assumptions", "Settings", "Power 2"}
	if d := cmp.Diff(want, titles); d != "" {
		t.Errorf("sheets (-want +got):\n%s", d)
	}
	if again := run(t, second); !bytes.Equal(second, again) {
		t.Error("not the same again")
	}
}

func TestCSV(t *testing.T) {
	ctx := context.Background()
	write := func() []byte {
		var out bytes.Buffer
		r := fromRows(t, csvRows(), "")
		if err := annotate.FromCSV(ctx, r, csvRows(), &out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	out := write()
	if !bytes.Equal(out, write()) {
		t.Error("two runs gave other bytes")
	}
	f := reopen(t, out)
	for i, row := range csvRows() {
		for j, want := range row {
			ref := ooxml.CellName(i+1, j+1)
			if got := cell(t, f, doorsSheet, ref); got != want {
				t.Errorf("%s = %q; want %q", ref, got, want)
			}
			if c, ok := scan(t, out, doorsSheet).Cell(i+1, j+1); ok && want != "" && c.Kind != ooxml.CellShared && c.Kind != ooxml.CellInline {
				t.Errorf("%s is %v, not text", ref, c.Kind)
			}
		}
	}
	if got := cell(t, f, doorsSheet, "M8"); got != "conflict" {
		t.Errorf("verdict %q", got)
	}
	if got := cell(t, f, "Findings", "D4"); got != "C8" {
		t.Errorf("cells of the finding: %q", got)
	}
	// The workbook goes round as any other does.
	if second := run(t, out); !bytes.Equal(second, run(t, second)) {
		t.Error("not the same again")
	}
}

func TestNoRoom(t *testing.T) {
	f := reopen(t, userBook(t))
	set(t, f, doorsSheet, "XFA9", "far out")
	p := open(t, save(t, f))
	var out bytes.Buffer
	err := annotate.Workbook(context.Background(), p, resultOf(t, p), &out)
	if err == nil || out.Len() > 0 {
		t.Errorf("err %v, %d bytes written", err, out.Len())
	}
}

func TestCancelled(t *testing.T) {
	p := open(t, userBook(t))
	r := resultOf(t, p)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out bytes.Buffer
	if err := annotate.Workbook(ctx, p, r, &out); err == nil || out.Len() > 0 {
		t.Errorf("err %v, %d bytes written", err, out.Len())
	}
}

// An empty result still gives whole sheets.
func TestNothingToSay(t *testing.T) {
	out := run(t, userBook(t), func(r *result.Result) {
		*r = result.Result{Edition: r.Edition, Place: r.Place}
	})
	f := reopen(t, out)
	for title, want := range map[string]string{"Findings": "No findings.", "Queries": "No questions.", "Power": "No electric locks."} {
		if got := cell(t, f, title, "A3"); got != want {
			t.Errorf("%s: %q; want %q", title, got, want)
		}
	}
	if !bytes.Equal(out, run(t, out, func(r *result.Result) {
		*r = result.Result{Edition: r.Edition, Place: r.Place}
	})) {
		t.Error("not the same again")
	}
}

func BenchmarkWorkbook(b *testing.B) {
	rows := csvRows()
	for i := range 2000 {
		rows = append(rows, append([]string{fmt.Sprintf("X%04d", i)}, rows[7][1:]...))
	}
	r := fromRows(b, rows, "")
	var out bytes.Buffer
	if err := annotate.FromCSV(context.Background(), r, rows, &out); err != nil {
		b.Fatal(err)
	}
	p := open(b, out.Bytes())
	r.Place.Sheet = doorsSheet
	for b.Loop() {
		out.Reset()
		if err := annotate.Workbook(context.Background(), p, r, &out); err != nil {
			b.Fatal(err)
		}
	}
}
