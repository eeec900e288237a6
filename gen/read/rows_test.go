package read_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/read"
)

func marks(res *read.Result) []string {
	var out []string
	for i := range res.Schedule.Doors {
		out = append(out, res.Schedule.Doors[i].Mark)
	}
	return out
}

func skipped(res *read.Result) []string {
	var out []string
	for _, s := range res.Skipped {
		out = append(out, fmt.Sprintf("%d-%d %s: %s", s.Row, s.Last, s.Reason, s.Text))
	}
	return out
}

func problems(res *read.Result) []string {
	var out []string
	for _, p := range res.Problems {
		out = append(out, p.Cell.String()+" "+p.Message)
	}
	return out
}

func TestRows(t *testing.T) {
	const text = `Marram Point ferry terminal,,,
Mark,Width,To Room,Remarks
BUILDING A,,,
Level 1,,,
101,915 mm,Ticket hall,
102,915 mm,101,

Mark,Width,To Room,Remarks
Level: 2,,,
201,915 mm,,
201,926 mm,Office,second of that mark
,915 mm,,no mark here
-,915 mm,,
Level: 2: 3,,,
Building B,,,
B1,,,
Notes,,,
All doors to be checked on site.,,,
Total,132,,
Grand total: 5,,,
Set,Type,Finish
1,915,x
`
	res := mustRead(t, "t.csv", []byte(text), read.Options{})
	if diff := cmp.Diff([]string{"101", "102", "201", "201", "B1"}, marks(res)); diff != "" {
		t.Errorf("marks (-want +got):\n%s", diff)
	}
	want := []string{
		"1-1 above the header: Marram Point ferry terminal",
		"3-3 section: BUILDING A",
		"4-4 section: Level 1",
		"7-7 blank: ",
		"8-8 header repeated: Mark | Width | To Room | Remarks",
		"9-9 section: Level: 2",
		"12-12 no door mark: 915 mm | no mark here",
		"13-13 no door mark: - | 915 mm",
		"14-14 total: Level: 2: 3",
		"15-15 section: Building B",
		"17-17 section: Notes",
		"18-18 section: All doors to be checked on site.",
		"19-19 total: Total | 132",
		"20-20 total: Grand total: 5",
		"21-21 another table: Set | Type | Finish",
		"22-22 another table: 1 | 915 | x",
	}
	if diff := cmp.Diff(want, skipped(res)); diff != "" {
		t.Errorf("skipped (-want +got):\n%s", diff)
	}
	want = []string{
		"A11 the mark stands in A10 already; both rows are kept",
		"B12 the row has no door mark and is not read as a door",
		"A13 the row has no door mark and is not read as a door",
		"A21 another table begins here; it and the rows below it are not read as doors",
	}
	if diff := cmp.Diff(want, problems(res)); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
	var got []string
	for _, d := range res.Schedule.Doors {
		got = append(got, strings.Join([]string{d.Mark, d.Building, d.Storey, d.Room}, "|"))
	}
	want = []string{"101|BUILDING A|Level 1|Ticket hall", "102|BUILDING A|Level 1|101", "201|BUILDING A|2|", "201|BUILDING A|2|Office", "B1|Building B||"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("places of doors (-want +got):\n%s", diff)
	}
	if v, _ := res.Schedule.Doors[2].Get(doorsched.Level.ID()); v.Cell.Ref() != "A9" || v.Origin != doorsched.Given {
		t.Errorf("level of 201: %+v", v)
	}
	names := func(ps []doorsched.Place) (out []string) {
		for _, p := range ps {
			out = append(out, p.Name)
		}
		return out
	}
	if diff := cmp.Diff([][]string{{"BUILDING A", "Building B"}, {"Level 1", "2"}, {"Ticket hall", "101", "Office"}},
		[][]string{names(res.Schedule.Buildings), names(res.Schedule.Storeys), names(res.Schedule.Rooms)}); diff != "" {
		t.Errorf("places (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(read.Table{FirstDataRow: 5, LastDataRow: 16, LastUsedCol: 4, MarkCol: 1}, res.Table); diff != "" {
		t.Errorf("table (-want +got):\n%s", diff)
	}
	checkNothingLost(t, res)
}

// A door's own column goes before the section that it stands in.
func TestColumnBeforeSection(t *testing.T) {
	res := mustRead(t, "t.csv", []byte("Mark,Level,Building\nLevel 1,,\n101,,\n102,Roof,Annex\n"), read.Options{})
	for i, want := range []string{"101|Level 1|", "102|Roof|Annex"} {
		d := res.Schedule.Doors[i]
		if got := d.Mark + "|" + d.Storey + "|" + d.Building; got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

// fields lists the columns as "heading=field".
func fields(res *read.Result) []string {
	var out []string
	for _, c := range res.Columns {
		s := c.Heading + "="
		if c.Field != doorsched.NoField {
			s += c.Field.String()
		}
		out = append(out, s)
	}
	return out
}

func TestHeaderPlaces(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		header     read.HeaderPlace
		want       []string
	}{
		{"one row", "Mark,Width\n1,3-0\n", read.HeaderPlace{FirstRow: 1, LastRow: 1}, []string{"Mark=mark", "Width=width"}},
		{"below a title block", "Job,Ferry terminal\nDate,2 May\n\nNo.,Width,Fire Rating\n1,3-0,NR\n", read.HeaderPlace{FirstRow: 4, LastRow: 4}, []string{"No.=mark", "Width=width", "Fire Rating=fire_rating"}},
		{"groups", "Mark,Door,,Frame,,Remarks\n,Material,Finish,Material,Finish,\n1,WD,PT,HM,PT,x\n", read.HeaderPlace{FirstRow: 1, LastRow: 2},
			[]string{"Mark=mark", "Door / Material=door_material", "Door / Finish=door_finish", "Frame / Material=frame_material", "Frame / Finish=frame_finish", "Remarks=remarks"}},
		{"groups without door", "Mark,Fire Rating,Hardware,\n,,Set,Type\n1,NR,A1,x\n", read.HeaderPlace{FirstRow: 1, LastRow: 2},
			[]string{"Mark=mark", "Fire Rating=fire_rating", "Hardware / Set=hardware_set", "Hardware / Type="}},
		{"neighbours", "Mark,Door Type,Material,Finish,Frame Type,Material,Finish\n1,A,WD,PT,F1,HM,PT\n", read.HeaderPlace{FirstRow: 1, LastRow: 1},
			[]string{"Mark=mark", "Door Type=door_type", "Material=door_material", "Finish=door_finish", "Frame Type=frame_type", "Material=frame_material", "Finish=frame_finish"}},
		{"a heading of its own is no group", "Mark,Door,,Fire Rating,,Remarks\n,Width,Height,,Type,\n1,3-0,7-0,NR,A,x\n", read.HeaderPlace{FirstRow: 1, LastRow: 2},
			[]string{"Mark=mark", "Door / Width=width", "Door / Height=height", "Fire Rating=fire_rating", "Type=door_type", "Remarks=remarks"}},
		{"line of units", "Mark,Width,Height\n,mm,mm\n1,915,2100\n", read.HeaderPlace{FirstRow: 1, LastRow: 2}, []string{"Mark=mark", "Width=width", "Height=height"}},
		{"structural opening", "Mark,S.O.,,Leaf,\n,Width,Height,Width,Height\n1,1010,2135,926,2040\n", read.HeaderPlace{FirstRow: 1, LastRow: 2},
			[]string{"Mark=mark", "S.O. / Width=", "S.O. / Height=", "Leaf / Width=leaf_width", "Leaf / Height=height"}},
		{"rooms", "Mark,To Room,,From Room,\n,Number,Name,Number,Name\n1,101,Hall,102,Lobby\n", read.HeaderPlace{FirstRow: 1, LastRow: 2},
			[]string{"Mark=mark", "To Room / Number=room_to", "To Room / Name=room_name", "From Room / Number=room_from", "From Room / Name="}},
	} {
		res := mustRead(t, "t.csv", []byte(tt.text), read.Options{})
		if tt.header != res.Header {
			t.Errorf("%s: header %+v, want %+v", tt.name, res.Header, tt.header)
		}
		if diff := cmp.Diff(tt.want, fields(res)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
		if n := len(res.Schedule.Doors); n != 1 {
			t.Errorf("%s: %d doors", tt.name, n)
		}
	}
}

func TestNoHeaderSaysWhatIsClosest(t *testing.T) {
	_, err := read.Bytes(context.Background(), "doors.csv", []byte("Job,Terminal\nDoor picture,Width,Height\nA,3-0,7-0\n"), read.Options{})
	var e *read.Error
	if !errors.Is(err, read.ErrNoHeader) || !errors.As(err, &e) {
		t.Fatal(err)
	}
	for _, part := range []string{"doors.csv: A2: no door schedule found", "Door picture | Width | Height", "Mark, Door No., Opening No.", "row 2, which gives only width, height and no door mark"} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("%q lacks %q", err, part)
		}
	}
}

func TestCorrections(t *testing.T) {
	const text = "Mark,Cert,Height,Height\n1,FD30,2100,2040\n"
	for _, tt := range []struct {
		name    string
		columns map[string]string
		want    string
		kind    error
	}{
		{"by heading and column", map[string]string{"fire_rating": "cert", "height": "column D"}, "height=2040 mm, fire_rating=FD30", nil},
		{"nothing said", nil, "", read.ErrTwoColumns},
		{"no such heading", map[string]string{"height": "column C", "fire_rating": "Certificate"}, "", read.ErrOption},
		{"no such field", map[string]string{"colour": "Cert"}, "", read.ErrOption},
	} {
		res, err := read.Bytes(context.Background(), "t.csv", []byte(text), read.Options{Columns: tt.columns})
		if !errors.Is(err, tt.kind) || (err == nil) != (tt.kind == nil) {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if err != nil {
			continue
		}
		if got := said(&res.Schedule.Doors[0]); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
		if res.Columns[1].Confidence != read.ByUser {
			t.Errorf("%s: %+v", tt.name, res.Columns[1])
		}
	}
}

// An inch mark that was not doubled joins rows by the rules of CSV. No door is
// lost by it.
func TestQuotesJoinNoRows(t *testing.T) {
	res := mustRead(t, "t.csv", []byte("Mark,Width,Height,Set No.\n1,\"3'-0\"\",\"7'-0\"\",A1\n2,\"3'-0\"\",\"7'-0\"\",A2\n3,\"3'-0\"\"\",\"7'-0\"\"\",A3\n"), read.Options{})
	var got []string
	for i := range res.Schedule.Doors {
		got = append(got, res.Schedule.Doors[i].Mark+" "+said(&res.Schedule.Doors[i]))
	}
	want := []string{"1 width=914.4 mm, height=2133.6 mm, hardware_set=A1", "2 width=914.4 mm, height=2133.6 mm, hardware_set=A2", "3 width=914.4 mm, height=2133.6 mm, hardware_set=A3"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := read.Bytes(ctx, "t.csv", []byte("Mark,Width\n1,3-0\n"), read.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// Our own columns are read as if they were not there.
func TestOursLeftOutOfCSV(t *testing.T) {
	res := mustRead(t, "t.csv", []byte("Mark,Width,Verdict,Lock\n1,3-0,conflict,maglock\n"), read.Options{
		Ours: func(*ooxmlPackage) read.Ours { return read.Ours{Columns: []read.SheetColumns{{First: 3, Last: 4}}} },
	})
	if got := said(&res.Schedule.Doors[0]); got != "width=914.4 mm" || len(res.Columns) != 2 {
		t.Errorf("%s; %v", got, res.Columns)
	}
}
