package read_test

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/read"
)

type ooxmlPackage = ooxml.Package

// build makes a workbook with a test oracle's writer.
func build(t *testing.T, fill func(f *excelize.File) error) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	if err := fill(f); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// put writes rows of values from A1 on.
func put(f *excelize.File, sheet string, rows ...[]any) error {
	for i, row := range rows {
		ref, _ := excelize.CoordinatesToCellName(1, i+1)
		if err := f.SetSheetRow(sheet, ref, &row); err != nil {
			return err
		}
	}
	return nil
}

// The field-by-field comparison of workbook and CSV, with cells; TestWorkbookReadsAsCSV
// compares what is printed.
func TestWorkbookSameRecords(t *testing.T) {
	for name, data := range map[string][]byte{"look-alike": lookAlike(t), "real": nil} {
		t.Run(name, func(t *testing.T) {
			if data == nil {
				data = realSchedule(t)
			}
			want := mustRead(t, "doors.csv", data, read.Options{})
			var semi strings.Builder
			semi.WriteString("\ufeff")
			for _, row := range want.Rows {
				for i, f := range row {
					if i > 0 {
						semi.WriteByte(';')
					}
					if strings.ContainsAny(f, `";`) {
						f = `"` + strings.ReplaceAll(f, `"`, `""`) + `"`
					}
					semi.WriteString(f)
				}
				semi.WriteString("\r\n")
			}
			for name, file := range map[string][]byte{
				"doors.csv":  []byte(semi.String()),
				"doors.xlsx": book(t, want.Rows, want.Header.FirstRow, want.Header.LastRow),
			} {
				got := mustRead(t, name, file, read.Options{})
				if diff := cmp.Diff(openDoors(want), openDoors(got), cmp.AllowUnexported(doorsched.MeansSet{})); diff != "" {
					t.Errorf("%s: doors (-csv +%s):\n%s", name, name, diff)
				}
				if diff := cmp.Diff(want.Columns, got.Columns); diff != "" {
					t.Errorf("%s: columns (-csv +%s):\n%s", name, name, diff)
				}
			}
		})
	}
}

type openDoor struct {
	Mark, Building, Storey, Room string
	Source                       doorsched.Cell
	Values                       []doorsched.Value
}

// openDoors lists every value with its cell, without the sheet's name.
func openDoors(res *read.Result) []openDoor {
	var out []openDoor
	for _, d := range res.Schedule.Doors {
		o := openDoor{d.Mark, d.Building, d.Storey, d.Room, d.Source, nil}
		o.Source.Sheet = ""
		for _, v := range d.All() {
			v.Cell.Sheet = ""
			o.Values = append(o.Values, v)
		}
		out = append(out, o)
	}
	return out
}

// Marks and sizes are read as the sheet shows them.
func TestNumbersAsShown(t *testing.T) {
	formats := []struct {
		value any
		code  string
	}{{101.1, "0.00"}, {7, "000"}, {101, "General"}, {12, `"D-"000`}, {915, `0" mm"`}, {1234.5, "#,##0.0"}, {3, "0"}, {101.1, "@"}}
	var want []string
	data := build(t, func(f *excelize.File) error {
		if err := put(f, "Sheet1", []any{"Mark", "Remarks"}); err != nil {
			return err
		}
		for i, x := range formats {
			ref, _ := excelize.CoordinatesToCellName(1, i+2)
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &x.code})
			if err != nil {
				return err
			}
			if err := errors.Join(f.SetCellValue("Sheet1", ref, x.value), f.SetCellStyle("Sheet1", ref, ref, style)); err != nil {
				return err
			}
			shown, err := f.GetCellValue("Sheet1", ref)
			if err != nil {
				return err
			}
			// grouping commas are left out, which would keep a size from being read
			want = append(want, strings.ReplaceAll(shown, ",", ""))
		}
		return nil
	})
	if diff := cmp.Diff(want, marks(mustRead(t, "t.xlsx", data, read.Options{}))); diff != "" {
		t.Errorf("marks (-shown +read):\n%s", diff)
	}
}

// What a spreadsheet has turned into something else is told, not guessed back.
func TestSpoiltCells(t *testing.T) {
	data := build(t, func(f *excelize.File) error {
		if err := f.SetSheetName("Sheet1", "Doors"); err != nil {
			return err
		}
		day := time.Date(2000, 3, 1, 0, 0, 0, 0, time.UTC)
		return errors.Join(
			put(f, "Doors", []any{"Mark", "Width", "Fire Rating", "Remarks"}, []any{"101", `3'-O"`, "NR", day}),
			f.SetCellValue("Doors", "A3", "102"), f.SetCellValue("Doors", "B3", day),
			f.SetCellDefault("Doors", "C3", "#REF!"))
	})
	res := mustRead(t, "t.xlsx", data, read.Options{})
	got := problems(res)
	if len(got) < 2 || !strings.HasPrefix(got[0], `Doors!B2 cannot be read as Width`) || !strings.HasPrefix(got[1], "Doors!B3 the spreadsheet holds a date here") {
		t.Errorf("problems: %q", got)
	}
	if s := said(&res.Schedule.Doors[0]); s != "remarks=2000-03-01, fire_rating=NR" {
		t.Errorf("101: %s", s)
	}
}

// A level merged down over its doors is every one's level.
func TestMergedDown(t *testing.T) {
	data := build(t, func(f *excelize.File) error {
		return errors.Join(
			put(f, "Sheet1", []any{"Level", "Mark", "Width"}, []any{"L1", "101", "3-0"}, []any{nil, "102", "3-0"}, []any{"L2", "201", "3-0"}, []any{"Grand total", nil, "3"}),
			f.MergeCell("Sheet1", "A2", "A3"))
	})
	res := mustRead(t, "t.xlsx", data, read.Options{})
	for i, want := range []string{"L1 A2", "L1 A3", "L2 A4"} {
		d := res.Schedule.Doors[i]
		v, _ := d.Get(doorsched.Level.ID())
		if got := d.Storey + " " + v.Cell.Ref(); got != want {
			t.Errorf("%s: %s, want %s", d.Mark, got, want)
		}
	}
}

func TestSheetChoice(t *testing.T) {
	data := build(t, func(f *excelize.File) error {
		for _, n := range []string{"Hardware", "Doors", "Old doors", "Secret", "Ours"} {
			if _, err := f.NewSheet(n); err != nil {
				return err
			}
		}
		good := [][]any{{"Mark", "Width", "Height", "Fire Rating", "Hardware Set"}, {"101", "3-0", "7-0", "NR", "A1"}}
		return errors.Join(
			put(f, "Sheet1", []any{"Dear all"}),
			put(f, "Hardware", []any{"Set", "Item", "Finish"}, []any{"A1", "Lockset", "SS"}),
			put(f, "Doors", good...),
			put(f, "Old doors", []any{"Mark", "Width"}, []any{"1", "3-0"}),
			put(f, "Secret", append(good, []any{"999"})...),
			put(f, "Ours", append(good, []any{"998"})...),
			f.SetSheetVisible("Secret", false),
			f.SetRowVisible("Doors", 2, false),
			f.SetColVisible("Doors", "D", false),
		)
	})
	ours := func(p *ooxml.Package) read.Ours {
		if p == nil {
			t.Error("no package given")
		}
		return read.Ours{Sheets: []string{"ours"}, Columns: []read.SheetColumns{{Sheet: "Doors", First: 5, Last: 5}}}
	}
	res := mustRead(t, "t.xlsx", data, read.Options{Ours: ours})
	if res.Header.Sheet != "Doors" || res.Package == nil || res.Format != read.FormatXLSX {
		t.Errorf("read %+v %q", res.Header, res.Format)
	}
	if got := said(&res.Schedule.Doors[0]); got != "width=914.4 mm, height=2133.6 mm, fire_rating=NR" {
		t.Errorf("101: %s", got)
	}
	want := []string{
		"Doors!D1 the column is hidden; it is read like the rest",
		"Doors!A2 the row is hidden; it is read like the rest",
		"Old doors!A1 this sheet reads as a door schedule too (2 fields); only Doors was read",
	}
	if diff := cmp.Diff(want, problems(res)); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
	for sheet, mark := range map[string]string{"old DOORS": "1", "Secret": "101"} {
		res := mustRead(t, "t.xlsx", data, read.Options{Sheet: sheet})
		if res.Schedule.Doors[0].Mark != mark {
			t.Errorf("%s: %v", sheet, marks(res))
		}
	}
	for sheet, kind := range map[string]error{"Hardware": read.ErrNoHeader, "Nowhere": read.ErrOption} {
		_, err := read.Bytes(context.Background(), "t.xlsx", data, read.Options{Sheet: sheet})
		if !errors.Is(err, kind) || !strings.Contains(err.Error(), sheet) {
			t.Errorf("%s: %v", sheet, err)
		}
	}
}
