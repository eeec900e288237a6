package annotate_test

import (
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/result"
	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// The columns of userBook's results.
const (
	changedCol = 14
	judgedCol  = 20
)

// sinceJudged calculates, with a calculator that is not ours, the text that the
// formulas rebuild, and compares it as they do. That calculator loses its way
// among operators inside a function's argument, so it is given the rebuilt text
// alone; the whole formula is calculated by TestSinceJudgedInSpreadsheet.
func sinceJudged(t testing.TB, f *excelize.File, rows int) []string {
	t.Helper()
	var out []string
	for row := firstRow; row < firstRow+rows; row++ {
		formula, err := f.GetCellFormula(doorsSheet, ooxml.CellName(row, changedCol))
		must(t, err)
		expr, ok := strings.CutPrefix(formula, "IFERROR(IF(EXACT(")
		expr, ok2 := strings.CutSuffix(expr, ","+ooxml.CellName(row, judgedCol)+`),"","CHANGED"),"CHANGED")`)
		if !ok || !ok2 {
			t.Fatalf("row %d: %s", row, formula)
		}
		must(t, f.SetCellFormula(doorsSheet, "Z1", expr))
		rebuilt, err := f.CalcCellValue(doorsSheet, "Z1")
		if err == nil && rebuilt == cell(t, f, doorsSheet, ooxml.CellName(row, judgedCol)) {
			out = append(out, "")
		} else {
			out = append(out, "CHANGED")
		}
	}
	return out
}

func TestSinceJudged(t *testing.T) {
	out := run(t, userBook(t))
	unchanged := make([]string, len(doorRows))
	with := func(row int) []string {
		want := make([]string, len(doorRows))
		want[row-firstRow] = "CHANGED"
		return want
	}
	for _, c := range []struct {
		name, sheet, ref string
		value            any
		want             []string
	}{
		{"nothing", "", "", nil, unchanged},
		{"a text", doorsSheet, "C5", `3' - 2"`, with(5)},
		{"a whole number", doorsSheet, "C6", 35, with(6)},
		{"a fraction", doorsSheet, "C7", 36.4, with(7)},
		{"a date", doorsSheet, "E7", 91, with(7)},
		{"a truth", doorsSheet, "G7", false, with(7)},
		{"what was blank", doorsSheet, "H7", "A1", with(7)},
		{"a cell emptied", doorsSheet, "E8", nil, with(8)},
		{"the mark", doorsSheet, "A8", "008", with(8)},
		{"a number into the same text", doorsSheet, "C6", "36", unchanged},
		{"only spaces", doorsSheet, "F8", "  magnet ", unchanged},
		{"remarks", doorsSheet, "J8", "moved", unchanged},
		{"a heading that was not recognised", doorsSheet, "I8", "E-01", unchanged},
		{"a merged cell", doorsSheet, "B10", "L9", []string{"", "", "", "", "", "CHANGED", "CHANGED", "CHANGED"}},
		{"the edition", "Settings", "B3", "england-2019", []string{"CHANGED", "CHANGED", "CHANGED", "CHANGED", "CHANGED", "CHANGED", "CHANGED", "CHANGED"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := reopen(t, out)
			if c.ref != "" {
				set(t, f, c.sheet, c.ref, c.value)
			}
			if d := cmp.Diff(c.want, sinceJudged(t, f, len(doorRows))); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

// A judged cell that turns into an error is a change; one that was an error when
// it was judged, and still is, is none.
func TestSinceJudgedErrors(t *testing.T) {
	f := reopen(t, userBook(t))
	must(t, f.SetCellFormula(doorsSheet, "C5", "1/0"))
	in := parts(t, save(t, f))
	sheet := in["xl/worksheets/sheet1.xml"]
	i := strings.Index(sheet, `<c r="C5"`)
	j := i + strings.Index(sheet[i:], "</c>")
	sheet = sheet[:i] + `<c r="C5" t="e"><f>1/0</f><v>#DIV/0!</v>` + sheet[j:]
	out := run(t, zipped(t, in, map[string]string{"xl/worksheets/sheet1.xml": sheet}))

	g := reopen(t, out)
	if got := cell(t, g, doorsSheet, ooxml.CellName(5, judgedCol)); !strings.Contains(got, "Width #DIV/0!; ") {
		t.Errorf("judged on %q", got)
	}
	if got := sinceJudged(t, g, 2); got[0] != "" {
		t.Errorf("the same error reads %q", got[0])
	}
	must(t, g.SetCellFormula(doorsSheet, "C6", "1/0"))
	if got := sinceJudged(t, g, 2); got[1] != "CHANGED" {
		t.Errorf("a new error reads %q", got[1])
	}
}

// However a cell is filled, its row is not CHANGED until it is, and the user's
// cell is what it was.
func TestSinceJudgedLaw(t *testing.T) {
	value := rapid.OneOf(
		rapid.Map(rapid.StringMatching(`[ -~]{0,12}`), func(s string) any { return s }),
		rapid.Map(rapid.String(), func(s string) any { return strings.ToValidUTF8(s, "") }),
		rapid.Map(rapid.IntRange(-1e6, 1e12), func(n int) any { return n }),
		rapid.Map(rapid.Float64Range(-1e6, 1e6), func(v float64) any { return v }),
		rapid.Map(rapid.Float64Range(0, 1e-7), func(v float64) any { return v }),
		rapid.Map(rapid.Bool(), func(v bool) any { return v }),
	)
	base := userBook(t)
	rapid.Check(t, func(rt *rapid.T) {
		f := reopen(t, base)
		for _, ref := range []string{"C5", "D5", "E6", "F6", "G7"} {
			v := value.Draw(rt, ref)
			if s, ok := v.(string); ok && (!utf8.ValidString(s) || strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r >= 0xFFFE && r <= 0xFFFF })) {
				continue // XML 1.0 has no such characters
			}
			set(t, f, doorsSheet, ref, v)
		}
		in := save(t, f)
		out := run(t, in)
		g := reopen(t, out)
		for i, got := range sinceJudged(t, g, 3) {
			if got != "" {
				text := cell(t, g, doorsSheet, ooxml.CellName(firstRow+i, judgedCol))
				rt.Fatalf("row %d is %s on %q", firstRow+i, got, text)
			}
		}
		if string(out) != string(run(t, out)) {
			rt.Fatal("the second run gave other bytes")
		}
	})
}

// A schedule with more judged columns than a formula holds says how many are
// not watched.
func TestFormulaBound(t *testing.T) {
	out := run(t, userBook(t), func(r *result.Result) {
		for i := range 200 {
			r.Headings = append(r.Headings, result.Heading{Col: 1 + i%8, Heading: "again", Field: doorsched.Width.ID()})
		}
	})
	s := scan(t, out, doorsSheet)
	for row := firstRow; row < firstRow+len(doorRows); row++ {
		c, _ := s.Cell(row, changedCol)
		if len(c.Formula) > 8192 {
			t.Errorf("row %d: %d characters", row, len(c.Formula))
		}
		text, _ := s.Cell(row, judgedCol)
		if !strings.Contains(text.Text, "more cells not watched; ") {
			t.Errorf("row %d: %q", row, text.Text)
		}
	}
	if got := sinceJudged(t, reopen(t, out), len(doorRows)); strings.Join(got, "") != "" {
		t.Errorf("%q", got)
	}
}

// The spreadsheet program itself recalculates the workbook.
func TestSinceJudgedInSpreadsheet(t *testing.T) {
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("LOCKRAIL_REQUIRE_JUDGES") == "1" {
			t.Fatal("no spreadsheet program to judge by: ", err)
		}
		t.Skip("no spreadsheet program: ", err)
	}
	if testing.Short() {
		t.Skip("starts a spreadsheet program")
	}
	out := run(t, userBook(t))
	f := reopen(t, out)
	set(t, f, doorsSheet, "C8", 31)
	changed := save(t, f)

	dir := t.TempDir()
	for name, c := range map[string]struct {
		data []byte
		want map[string]string
	}{
		"same":    {out, map[string]string{}},
		"changed": {changed, map[string]string{"007": "CHANGED"}},
	} {
		path := filepath.Join(dir, name+".xlsx")
		must(t, os.WriteFile(path, c.data, 0o600))
		cmd := exec.Command(soffice, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless", "--convert-to", "csv", "--outdir", dir, path)
		if text, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		file, err := os.Open(filepath.Join(dir, name+".csv"))
		must(t, err)
		r := csv.NewReader(file)
		r.FieldsPerRecord = -1
		rows, err := r.ReadAll()
		file.Close()
		must(t, err)
		got := map[string]string{}
		for _, row := range rows[firstRow-1:] {
			if row[changedCol-1] != "" {
				got[row[0]] = row[changedCol-1]
			}
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}
