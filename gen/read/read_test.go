package read_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/read"
	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

func mustRead(t *testing.T, name string, data []byte, opt read.Options) *read.Result {
	t.Helper()
	r, err := read.Bytes(context.Background(), name, data, opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// shown writes each door as "mark field=value …", without places.
func shown(r *read.Result) []string {
	var out []string
	for _, d := range r.Schedule.Doors {
		line := d.Mark + " @" + d.Storey + "@" + d.Room
		for _, v := range d.All() {
			i, _ := doorsched.FieldInfo(v.Field)
			line += "; " + i.Name + "=" + i.Format(v.Data) + " " + v.Origin.String()
		}
		out = append(out, line)
	}
	return out
}

func lookAlike(t *testing.T) []byte {
	t.Helper()
	data, err := os.ReadFile("../../testdata/read/look-alike.csv")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func realSchedule(t *testing.T) []byte {
	t.Helper()
	path := os.Getenv("LOCKRAIL_REAL")
	if path == "" {
		path = "../../../shared/real/us-door-schedule.csv"
	}
	data, err := os.ReadFile(path)
	if err != nil {
		if os.Getenv("LOCKRAIL_REQUIRE_JUDGES") != "" {
			t.Fatalf("the outside schedule is demanded here: %v", err)
		}
		t.Skipf("no outside schedule: %v", err)
	}
	return data
}

func TestLookAlike(t *testing.T) {
	r := mustRead(t, "look-alike.csv", lookAlike(t), read.Options{})
	if len(r.Schedule.Doors) != 8 || r.Header.FirstRow != 2 || r.Header.LastRow != 4 || r.Table.FirstDataRow != 6 {
		t.Fatalf("%d doors, header %+v, table %+v", len(r.Schedule.Doors), r.Header, r.Table)
	}
	got := shown(r)
	for i, want := range map[int]string{
		0: "D01 @@; mark=D01 given; width=660.4 mm given; height=2133.6 mm given; thickness=44.45 mm given; door_material=WD given; door_mat=wood derived; door_finish=PNT given; frame_material=HM given; frame=hollow_metal derived; frame_finish=PNT given; fire_rating=NR given; hardware_set=E1 given",
		5: "007 @LEVEL 2@102; mark=007 given; level=LEVEL 2 given; room_from=102 given; width=1066.8 mm given; height=2438.4 mm given; thickness=44.45 mm given; door_material=STL given; door_mat=steel derived; frame_material=HM given; frame=hollow_metal derived; frame_finish=PNT given; hardware_set=B4 given",
		6: "201B @LEVEL 2@202; mark=201B given; level=LEVEL 2 given; room_from=202 given; width=914.4 mm given; height=2133.6 mm given; thickness=44.45 mm given; door_material=WD given; door_mat=wood derived; door_finish=PNT given; frame_material=HM given; frame=hollow_metal derived; frame_finish=PNT given; fire_rating=FD30S given; smoke=yes derived; hardware_set=A4 given",
	} {
		if d := cmp.Diff(want, got[i]); d != "" {
			t.Errorf("door %d (-want +got):\n%s", i, d)
		}
	}
	var problems []string
	for _, p := range r.Problems {
		problems = append(problems, p.Cell.String()+" "+p.Value)
	}
	if d := cmp.Diff([]string{`B14 3'-O"`, "K14 B"}, problems); d != "" {
		t.Errorf("problems (-want +got):\n%s", d)
	}
	var skipped []string
	for _, s := range r.Skipped {
		skipped = append(skipped, string(s.Reason)+": "+s.Text)
	}
	if d := cmp.Diff([]string{"above the header: Door Schedule", "blank: ", "section: LEVEL 2", "total: Total: 8"}, skipped); d != "" {
		t.Errorf("skipped (-want +got):\n%s", d)
	}
}

// book writes a CSV's rows as a workbook with merged group headings, as the
// program it came from would have.
func book(t *testing.T, rows [][]string, groups, head int) []byte {
	t.Helper()
	f := excelize.NewFile()
	wide := 0
	for _, row := range rows {
		wide = max(wide, len(row))
	}
	at := func(i, j int) string {
		if j < len(rows[i]) {
			return rows[i][j]
		}
		return ""
	}
	below := func(i, j int) bool {
		for k := i + 1; k < head; k++ {
			if at(k, j) != "" {
				return true
			}
		}
		return false
	}
	for i, row := range rows {
		for j, text := range row {
			name, _ := excelize.CoordinatesToCellName(j+1, i+1)
			if text != "" {
				if err := f.SetCellStr("Sheet1", name, text); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	for i := groups - 1; i < head-1; i++ {
		for j := 0; j < wide; j++ {
			end := j
			for end+1 < wide && at(i, j) != "" && at(i, end+1) == "" && below(i, end+1) {
				end++
			}
			if end > j {
				a, _ := excelize.CoordinatesToCellName(j+1, i+1)
				b, _ := excelize.CoordinatesToCellName(end+1, i+1)
				if err := f.MergeCell("Sheet1", a, b); err != nil {
					t.Fatal(err)
				}
			}
			j = end
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// The same schedule as a workbook with merged headings gives the same doors.
func TestWorkbookReadsAsCSV(t *testing.T) {
	for name, data := range map[string][]byte{"look-alike": lookAlike(t), "real": nil} {
		t.Run(name, func(t *testing.T) {
			if data == nil {
				data = realSchedule(t)
			}
			csv := mustRead(t, "doors.csv", data, read.Options{})
			xlsx := mustRead(t, "doors.xlsx", book(t, csv.Rows, csv.Header.FirstRow, csv.Header.LastRow), read.Options{})
			if d := cmp.Diff(shown(csv), shown(xlsx)); d != "" {
				t.Errorf("(-csv +xlsx):\n%s", d)
			}
		})
	}
}

// A schedule that someone else wrote, whole: 132 doors, door material apart from
// frame material, NR known and blank unknown, exact sizes.
func TestRealScheduleIsReadWhole(t *testing.T) {
	r := mustRead(t, "real.csv", realSchedule(t), read.Options{})
	doors := r.Schedule.Doors
	if len(doors) != 132 || len(r.Problems) > 0 {
		t.Errorf("%d doors, problems %v", len(doors), r.Problems)
	}
	nr, blank, rated, apart := 0, 0, 0, 0
	for i := range doors {
		v := r.Schedule.View(i)
		switch rating, ok := doorsched.FireRating.In(v).Get(); {
		case !ok:
			blank++
		case rating.Rated():
			rated++
		default:
			nr++
		}
		if doorsched.DoorMaterial.In(v).Or("") == "WD" && doorsched.FrameMaterial.In(v).Or("") == "HM" {
			apart++
		}
	}
	// Counted in the file with awk on its eleventh-but-last column: 19 blank.
	if blank != 19 || nr+rated+blank != 132 || nr == 0 || apart == 0 {
		t.Errorf("NR %d, rated %d, blank %d, wood in hollow metal %d", nr, rated, blank, apart)
	}
	if w, _ := doorsched.Width.In(r.Schedule.View(0)).Get(); doors[0].Mark != "101A" || w != doorsched.Millimetres(660.4) {
		t.Errorf("%s is %d nm wide", doors[0].Mark, w)
	}
}

func TestRefusals(t *testing.T) {
	for _, tt := range []struct {
		name, data string
		is         error
		says       string
	}{
		{"prose.csv", "Dear all,\nplease see the doors.\n", read.ErrNoHeader, "prose.csv"},
		{"twice.csv", "Mark,Width,Fire Rating,Label\n1,3-0,90,45\n", read.ErrTwoColumns, "C1, D1"},
		{"same.csv", "Mark,Height,Height\n1,7-0,8-0\n", read.ErrTwoColumns, "--column"},
		{"nul.csv", "Mark,Width\n1\x00,3-0\n", read.ErrNotTable, "NUL"},
		{"empty.xlsx", "", ooxml.Empty, "empty.xlsx"},
	} {
		_, err := read.Bytes(context.Background(), tt.name, []byte(tt.data), read.Options{})
		if !errors.Is(err, tt.is) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v; want %v saying %q", tt.name, err, tt.is, tt.says)
		}
	}
}

func BenchmarkCSV(b *testing.B) {
	var data bytes.Buffer
	data.WriteString("Mark,Width,Height,Fire Rating,Hardware Set\n")
	for i := range 20_000 {
		data.WriteString(strings.Replace("D#,3' - 0\",7' - 0\",90 MIN,A1\n", "#", doorsched.FormatNumber(float64(i), 0), 1))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := read.Bytes(context.Background(), "b.csv", data.Bytes(), read.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
