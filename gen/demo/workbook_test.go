package demo_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/lockrail/gen/demo"
	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

const schedule = "Door Schedule"

func open(t *testing.T, name string) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(files(t)[name]))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

var markText = regexp.MustCompile(`^[01]\d\d$`)

// marks lists the door marks in the first column.
func marks(t *testing.T, f *excelize.File) (out []string, rows map[string]int) {
	t.Helper()
	all, err := f.GetRows(schedule)
	if err != nil {
		t.Fatal(err)
	}
	rows = map[string]int{}
	for i, r := range all {
		if len(r) > 0 && markText.MatchString(r[0]) {
			out = append(out, r[0])
			rows[r[0]] = i + 1
		}
	}
	return out, rows
}

func TestBothWorkbooksHoldTheSameDoors(t *testing.T) {
	var want []string
	for _, d := range demo.Doors() {
		want = append(want, d.Mark)
	}
	for _, r := range regions {
		got, _ := marks(t, open(t, r.file))
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s marks (-want +got):\n%s", r.file, diff)
		}
	}
}

// Every feature that annotation must keep is in the workbooks.
func TestWorkbookFeatures(t *testing.T) {
	for _, r := range regions {
		t.Run(r.file, func(t *testing.T) {
			f := open(t, r.file)
			if diff := cmp.Diff([]string{schedule, "Notes", "Legend"}, f.GetSheetList()); diff != "" {
				t.Error(diff)
			}
			merged, err := f.GetMergeCells(schedule)
			check(t, err)
			if len(merged) < 9 {
				t.Errorf("%d merged headings", len(merged))
			}
			panes, err := f.GetPanes(schedule)
			check(t, err)
			if !panes.Freeze || panes.XSplit != 1 || panes.YSplit < 5 {
				t.Errorf("panes %+v", panes)
			}
			formats, err := f.GetConditionalFormats(schedule)
			check(t, err)
			lists, err := f.GetDataValidations(schedule)
			check(t, err)
			notes, err := f.GetComments(schedule)
			check(t, err)
			if len(formats) != 1 || len(lists) != 1 || len(notes) != 1 {
				t.Errorf("%d conditional formats, %d validations, %d notes; want one each", len(formats), len(lists), len(notes))
			}
			names := map[string]bool{}
			for _, n := range f.GetDefinedName() {
				names[n.Name] = true
			}
			for _, n := range []string{"_xlnm.Print_Area", "_xlnm.Print_Titles", "_xlnm._FilterDatabase"} {
				if !names[n] {
					t.Errorf("no defined name %s", n)
				}
			}
			layout, err := f.GetPageLayout(schedule)
			check(t, err)
			if *layout.Orientation != "landscape" {
				t.Error("not landscape")
			}
			if hidden(t, f) == 0 {
				t.Error("no hidden column")
			}
			props, err := f.GetDocProps()
			check(t, err)
			if props.Creator != "Estimating" {
				t.Errorf("creator %q", props.Creator)
			}
		})
	}
}

func check(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func hidden(t *testing.T, f *excelize.File) int {
	cols, err := f.GetCols(schedule)
	check(t, err)
	n := 0
	for i := range cols {
		name, _ := excelize.ColumnNumberToName(i + 1)
		if shown, err := f.GetColVisible(schedule, name); err == nil && !shown {
			n++
		}
	}
	return n
}

// The values saved with the formulas are what a spreadsheet calculates, and are
// saved as numbers.
func TestSavedValuesOfFormulas(t *testing.T) {
	for _, r := range regions {
		f := open(t, r.file)
		checked := 0
		for _, sheet := range []string{schedule, "Legend"} {
			rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
			check(t, err)
			for i, row := range rows {
				for j := range row {
					cell, _ := excelize.CoordinatesToCellName(j+1, i+1)
					formula, err := f.GetCellFormula(sheet, cell)
					check(t, err)
					if formula == "" {
						continue
					}
					calculated, err := f.CalcCellValue(sheet, cell, excelize.Options{RawCellValue: true})
					if err != nil {
						t.Errorf("%s %s!%s =%s: %v", r.file, sheet, cell, formula, err)
						continue
					}
					saved, _ := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
					if !sameNumber(saved, calculated) {
						t.Errorf("%s %s!%s =%s: saved %q, calculated %q", r.file, sheet, cell, formula, saved, calculated)
					}
					checked++
				}
			}
		}
		if checked < 30 {
			t.Errorf("%s: %d formulas checked", r.file, checked)
		}
		if n := len(regexp.MustCompile(`t="str"><f>[^<]*</f><v>\d`).FindAll(part(t, r.file, "xl/worksheets/sheet1.xml"), -1)); n > 0 {
			t.Errorf("%s: %d numbers saved as text", r.file, n)
		}
	}
}

func sameNumber(a, b string) bool {
	x, errA := strconv.ParseFloat(a, 64)
	y, errB := strconv.ParseFloat(b, 64)
	if errA != nil || errB != nil {
		return a == b
	}
	return x-y < 1e-9 && y-x < 1e-9
}

func part(t *testing.T, file, name string) []byte {
	t.Helper()
	data := files(t)[file]
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	check(t, err)
	r, err := z.Open(name)
	check(t, err)
	defer r.Close()
	out, err := io.ReadAll(r)
	check(t, err)
	return out
}

// No name of a maker, a program or a person is in the files.
func TestFilesNameNobody(t *testing.T) {
	for _, r := range regions {
		for _, name := range []string{"docProps/app.xml", "docProps/core.xml"} {
			if s := strings.ToLower(string(part(t, r.file, name))); strings.Contains(s, "excel") || strings.Contains(s, "xuri") {
				t.Errorf("%s %s: %s", r.file, name, s)
			}
		}
	}
}

// The CSV file is what the American sheet shows, cell by cell.
func TestCSVIsTheSheet(t *testing.T) {
	f := open(t, demo.USWorkbook)
	shown, err := f.GetRows(schedule)
	check(t, err)
	text, ok := bytes.CutPrefix(files(t)[demo.USCSV], []byte("\xef\xbb\xbf"))
	if !ok {
		t.Error("no byte order mark")
	}
	got, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	check(t, err)
	width := 0
	for _, r := range shown {
		width = max(width, len(r))
	}
	for i, r := range shown {
		shown[i] = append(r, make([]string, width-len(r))...)
	}
	for len(got) > len(shown) && strings.Join(got[len(got)-1], "") == "" {
		got = got[:len(got)-1]
	}
	if diff := cmp.Diff(shown, got); diff != "" {
		t.Errorf("(-sheet +csv):\n%.3000s", diff)
	}
	if !bytes.Contains(text, []byte(`"3'-0"""`)) || !bytes.Contains(text, []byte("\r\n")) {
		t.Error("not quoted or ended as a spreadsheet does")
	}
}
