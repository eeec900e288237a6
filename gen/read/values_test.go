package read_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/read"
)

// table writes rows as CSV, each field quoted.
func table(rows ...[]string) []byte {
	var b strings.Builder
	for _, row := range rows {
		for i, f := range row {
			if i > 0 {
				b.WriteByte(',')
			}
			if f != "" {
				b.WriteString(`"` + strings.ReplaceAll(f, `"`, `""`) + `"`)
			}
		}
		b.WriteByte('\n')
	}
	return []byte(b.String())
}

// said lists what a door's record holds besides its mark: "width=915 mm", with
// the origin where it is not given.
func said(d *doorsched.Door) string {
	var out []string
	for _, v := range d.All() {
		if v.Field == doorsched.Mark.ID() {
			continue
		}
		info, _ := doorsched.FieldInfo(v.Field)
		s := info.Name + "=" + info.Format(v.Data)
		if v.Origin != doorsched.Given {
			s += " " + v.Origin.String()
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

func TestValues(t *testing.T) {
	for _, tt := range []struct {
		heading, text string
		want          string // as said
		problem       string // part of the message
	}{
		{"Width", `3'-0"`, "width=914.4 mm", ""},
		{"Width", "3-0", "width=914.4 mm", ""},
		{"Width", "915", "width=915 mm", ""},
		{"Width", "36", "width=914.4 mm", ""},
		{"Width", `36"`, "width=914.4 mm", ""},
		{"Width (mm)", "915", "width=915 mm", ""},
		{"Width (in)", "36", "width=914.4 mm", ""},
		{"Width (m)", "0.915", "width=915 mm", ""},
		{"Width", `3'-O"`, "", `letter 'O'`},
		{"Width", "wide", "", "cannot be read as Width"},
		{"Width", "3", "", "no width of a door; taken in in, give the unit"},
		{"Width (mm)", "36", "", "no width of a door; taken in mm"},
		{"Width", `8'-0" x 7'-0"`, "width=2438.4 mm, height=2133.6 mm", ""},
		{"Width", "PR 762", "width=762 mm, leaves=2, width_is=leaf derived", ""},
		{"Width", "PR 1065", "width=1065 mm, leaves=2, width_is=leaf derived", ""}, // no call-out of 1'-0" x 6'-5"
		{"Width", "926 + 326", "leaves=2, leaf_width=926 mm, inactive_leaf_width=326 mm", ""},
		{"Leaf Width", "926", "leaf_width=926 mm", ""},
		{"Leaf Width", "PR 762", "leaves=2, leaf_width=762 mm", ""},
		{"Width", `"`, "", "ditto"},
		{"Thickness", "45", "thickness=45 mm", ""},
		{"Thickness", "1 3/4", "thickness=44.45 mm", ""},
		{"Thickness", "1.75", "thickness=44.45 mm", ""},
		{"Thickness", "915", "", "no thickness of a door"},
		{"Size", "3-0 x 7-0 PR", "width=914.4 mm, height=2133.6 mm, leaves=2", ""},
		{"Size", "1010x2185", "width=1010 mm, height=2185 mm", ""},
		{"Size", "3068", "width=914.4 mm, height=2032 mm", ""},
		{"Size", "915 x 2100 x 54", "width=915 mm, height=2100 mm, thickness=54 mm", ""},
		{"Size", `3'-0" x 7'-0" x 1 3/4"`, "width=914.4 mm, height=2133.6 mm, thickness=44.45 mm", ""},
		{"Size", "large", "", "cannot be read as a size"},
		{"Fire Rating", "NR", "fire_rating=NR", ""},
		{"Fire Rating", "1-1/2 HR", "fire_rating=90 min", ""},
		{"Fire Rating", "FD30S", "fire_rating=FD30S, smoke=yes derived", ""},
		{"Fire Rating", "FD30", "fire_rating=FD30", ""},
		{"Fire Rating", "E30 Sa", "fire_rating=E 30 Sa, smoke=yes derived", ""},
		{"Fire Rating", "90", "fire_rating=90 min", ""},
		{"Fire Rating (hrs)", "1.5", "fire_rating=90 min", ""},
		{"Fire Rating", "B", "label_class=B derived", "letter label"},
		{"Fire Rating", "TBC at RIBA Stage 4", "", ""},
		{"Fire Rating", "-", "", ""},
		{"Material", "STL", "door_material=STL, door_mat=steel derived", ""},
		{"Material", "WD STEEL", "door_material=WD STEEL, door_mat=steel derived", ""},
		{"Material", "Bronze", "door_material=Bronze", ""},
		{"Frame Material", "HM", "frame_material=HM, frame=hollow_metal derived", ""},
		{"Leaves", "PR", "leaves=2", ""},
		{"Single/Double", "Single", "leaves=1", ""},
		{"Leaves", "1.5", "", "not a whole number"},
		{"Hand", "LHR", "handing=LHR", ""},
		{"Card Reader", "Yes", "access_controlled=yes, reader=card derived", ""},
		{"Card Reader", "x", "access_controlled=yes, reader=card derived", ""},
		{"Access Control", "No", "access_controlled=no", ""},
		{"Access Control", "Keypad", "access_controlled=yes derived, reader=keypad", ""},
		{"AC", "Reader both sides", "access_control_note=AC: Reader both sides", ""},
		{"Electrified", "Y", "access_controlled=yes assumed", ""},
		{"Electric locking", "Electric strike", "lock=electric_strike", ""},
		{"Maglock", "yes", "lock=electromagnetic", ""},
		{"Maglock", "no", "access_control_note=Maglock: no", ""},
		{"Break glass", "Yes", "override=green", ""},
		{"Break glass", "No", "override=none", ""},
		{"Break glass", "Both sides", "access_control_note=Break glass: Both sides", ""},
		{"Reed switch", "yes", "door_contact=yes", ""},
		{"Reed switch", "recessed", "access_control_note=Reed switch: recessed", ""},
		{"MHO", "yes", "hold_open=magnetic", ""},
		{"Hold Open", "yes", "hold_open=held", ""},
		{"Hold Open", "sometimes", "", "not one of"},
		{"Int./Ext.", "EXT", "exterior=yes", ""},
		{"Existing", "yes", "phase=existing", ""},
		{"Existing", "no", "phase=new derived", ""},
		{"Phase", "Existing to remain", "phase=existing_to_remain", ""},
		{"Self Closing", "TRUE", "self_closing=yes", ""},
		{"Hardware Set", "03", "hardware_set=03", ""},
		{"Hardware Set", "See Hardware Set", "", ""},
		{"Remarks", "See spec 08 71 00", "remarks=See spec 08 71 00", ""},
		{"Leaf Weight (lb)", "100", "leaf_mass=45.359237 kg", ""},
		{"Structural Opening Width", "1010", "", ""},
		{"Qty", "2", "", ""},
	} {
		t.Run(tt.heading+"="+tt.text, func(t *testing.T) {
			res := mustRead(t, "t.csv", table([]string{"Mark", "Level", tt.heading}, []string{"101", "", tt.text}), read.Options{})
			d := &res.Schedule.Doors[0]
			if diff := cmp.Diff(tt.want, said(d)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			msg := ""
			for _, p := range res.Problems {
				msg += p.Message
				if p.Cell.Ref() != "C2" || p.Value != tt.text || p.Door != "101" {
					t.Errorf("problem is at %s with %q of %q", p.Cell, p.Value, p.Door)
				}
			}
			if (tt.problem == "") != (msg == "") || !strings.Contains(msg, tt.problem) {
				t.Errorf("problem %q, want %q", msg, tt.problem)
			}
			for _, v := range d.All() {
				if v.Field != doorsched.Mark.ID() && (v.Cell.Ref() != "C2" || v.Raw != tt.text) {
					t.Errorf("%s comes from %s %q", v.Field, v.Cell, v.Raw)
				}
			}
		})
	}
}

// Every default is returned, with the doors that it touches.
func TestAssumptions(t *testing.T) {
	for _, tt := range []struct {
		name string
		rows [][]string
		opt  read.Options
		want []string
	}{
		{"by size, millimetres", [][]string{{"Mark", "Width"}, {"1", "915"}, {"2", "826"}}, read.Options{}, []string{"width mm 1,2"}},
		{"by size, inches", [][]string{{"Mark", "Width"}, {"1", "36"}}, read.Options{}, []string{"width in 1"}},
		{"other cells", [][]string{{"Mark", "Width", "Height"}, {"1", "36", `7'-0"`}}, read.Options{}, []string{"width in 1"}},
		{"other heading", [][]string{{"Mark", "Width (mm)", "Height"}, {"1", "915", "2100"}}, read.Options{}, []string{"height mm 1"}},
		{"heading", [][]string{{"Mark", "Width (mm)"}, {"1", "915"}}, read.Options{}, nil},
		{"caller", [][]string{{"Mark", "Width"}, {"1", "91.5"}}, read.Options{Unit: doorsched.UnitCentimetre}, nil},
		{"written", [][]string{{"Mark", "Width"}, {"1", "915 mm"}}, read.Options{}, nil},
		{"call-out", [][]string{{"Mark", "Size"}, {"1", "3070"}}, read.Options{}, []string{"width feet and inches 1"}},
		{"electrified", [][]string{{"Mark", "Electrified"}, {"1", "yes"}, {"2", "no"}, {"3", "yes"}}, read.Options{}, []string{"access_controlled yes 1,3", "access_controlled no 2"}},
		{"break glass", [][]string{{"Mark", "Break glass"}, {"1", "yes"}, {"2", "no"}}, read.Options{}, []string{"override green 1"}},
	} {
		res := mustRead(t, "t.csv", table(tt.rows...), tt.opt)
		var got []string
		for _, a := range res.Assumed {
			if a.Reason == "" || a.By != "read" {
				t.Errorf("%s: %+v", tt.name, a)
			}
			got = append(got, fmt.Sprintf("%s %s %s", a.Field, a.Value, strings.Join(a.Doors, ",")))
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

// A bare number is read as the rest of the file is written, and refused where
// that makes no door.
func TestUnitOfTheFile(t *testing.T) {
	for _, tt := range []struct{ width, height, want, problem string }{
		{"36", `7'-0"`, "width=914.4 mm, height=2133.6 mm", ""},
		{"915", `7'-0"`, "height=2133.6 mm", "which is no width of a door; taken in in"},
		{"36", "2100 mm", "height=2100 mm", "which is no width of a door; taken in mm"},
		{"915", "2100 mm", "width=915 mm, height=2100 mm", ""},
	} {
		res := mustRead(t, "t.csv", table([]string{"Mark", "Width", "Height"}, []string{"1", tt.width, tt.height}), read.Options{})
		msg := ""
		for _, p := range res.Problems {
			msg += p.Message
		}
		if got := said(&res.Schedule.Doors[0]); got != tt.want || (msg == "") != (tt.problem == "") || !strings.Contains(msg, tt.problem) {
			t.Errorf("%s x %s: %s; %s", tt.width, tt.height, got, msg)
		}
	}
}

// Columns whose cells their first field does not accept are kept as text, and
// what does name a kind is taken from it.
func TestTextFallback(t *testing.T) {
	for _, tt := range []struct {
		heading string
		texts   []string
		want    []string
	}{
		{"Frame", []string{"HM", "WD"}, []string{"frame=hollow_metal", "frame=wood"}},
		{"Frame", []string{"F1", "HM"}, []string{"frame_type=F1", "frame=hollow_metal derived, frame_type=HM"}},
		{"Swing", []string{"with", "against"}, []string{"swing=with", "swing=against"}},
		{"Swing", []string{"LH", "RHR"}, []string{"handing=LH", "handing=RHR"}},
		{"Lock", []string{"maglock", "mechanical"}, []string{"lock=electromagnetic", "lock=mechanical"}},
		{"Lock", []string{"L1", "maglock"}, []string{"lockset=L1", "lockset=maglock, lock=electromagnetic derived"}},
		{"Hinges", []string{"3", "4"}, []string{"hinge_count=3", "hinge_count=4"}},
		{"Hinges", []string{"3", "butts"}, []string{"hinge_count=3 derived, hinge_note=3", "hinge_note=butts"}},
		{"Seals", []string{"yes", "brush"}, []string{"seal_note=yes", "seal_note=brush"}},
	} {
		rows := [][]string{{"Mark", "Level", tt.heading}}
		for i, x := range tt.texts {
			rows = append(rows, []string{fmt.Sprint(101 + i), "", x})
		}
		res := mustRead(t, "t.csv", table(rows...), read.Options{})
		var got []string
		for i := range res.Schedule.Doors {
			got = append(got, said(&res.Schedule.Doors[i]))
		}
		if diff := cmp.Diff(tt.want, got); diff != "" || len(res.Problems) > 0 {
			t.Errorf("%s %q (-want +got):\n%s%v", tt.heading, tt.texts, diff, res.Problems)
		}
	}
}

// Two columns may speak of one thing; where they disagree one is kept and the
// other becomes a problem.
func TestContradictions(t *testing.T) {
	for _, tt := range []struct {
		head, row []string
		want      string
		problems  int
	}{
		{[]string{"Mark", "Lock", "Maglock"}, []string{"1", "electric strike", "yes"}, "lock=electric_strike", 1},
		{[]string{"Mark", "Lock", "Maglock"}, []string{"1", "maglock", "yes"}, "lock=electromagnetic", 0},
		{[]string{"Mark", "Size", "Leaves"}, []string{"1", "1800 x 2100 PR", "1"}, "width=1800 mm, height=2100 mm, leaves=1", 1},
		{[]string{"Mark", "Fire Rating", "Smoke Control"}, []string{"1", "FD30S", "no"}, "fire_rating=FD30S, smoke=no", 1},
		{[]string{"Mark", "Access Control", "Card Reader"}, []string{"1", "yes", "no"}, "access_controlled=yes, reader=none", 0},
		{[]string{"Mark", "Access Control", "Electrified"}, []string{"1", "no", "yes"}, "access_controlled=no", 1},
		{[]string{"Mark", "Access Control", "Security"}, []string{"1", "outer", "guard"}, "access_control_note=Access Control: outer; Security: guard", 0},
		{[]string{"Mark", "Opening Width", "Leaves"}, []string{"1", "1800 mm", "2"}, "width=1800 mm, leaves=2, width_is=opening derived", 0},
	} {
		res := mustRead(t, "t.csv", table(tt.head, tt.row), read.Options{})
		if diff := cmp.Diff(tt.want, said(&res.Schedule.Doors[0])); diff != "" || len(res.Problems) != tt.problems {
			t.Errorf("%q (-want +got):\n%s%v", tt.head, diff, res.Problems)
		}
	}
}

// A file with the field table's own names reads completely, with the units that
// aliases carry.
func TestMachineNames(t *testing.T) {
	head := []string{"mark", "clear_w_in", "hw_h_in", "frame", "sign", "building", "swing", "release_on_fire_alarm", "exit_button", "holding_force_lbf", "release_set_x"}
	row := []string{"1", "32", "40", "hm", "yes", "new", "with", "yes", "no", "1200", "?"}
	res := mustRead(t, "t.csv", table(head, row), read.Options{})
	want := "frame=hollow_metal, swing=with, clear_width=812.8 mm, hw_height=1016 mm, holding_force=5337.8659383126 N, release_set={fire_alarm,…}, sign=yes, building_age=new"
	if diff := cmp.Diff(want, said(&res.Schedule.Doors[0])); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for _, c := range res.Columns[:10] {
		if c.Confidence != read.Exact {
			t.Errorf("%s is %q", c.Heading, c.Confidence)
		}
	}
	if c := res.Columns[10]; c.Field != 0 || c.Note != "not recognised" {
		t.Errorf("%+v", c)
	}
	// The same words in a person's schedule are the trade's.
	res = mustRead(t, "t.csv", table([]string{"Mark", "Building", "Sign"}, []string{"1", "North", "Exit"}), read.Options{})
	if got := said(&res.Schedule.Doors[0]); got != "building_name=North, sign_type=Exit" {
		t.Errorf("got %s", got)
	}
}

// The formats that public schedules use; value_formats.csv names each one's source.
func TestValueFormats(t *testing.T) {
	f, err := os.Open("../../testdata/read/value_formats.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	heading := map[string]string{"width/height": "Width", "width": "Width", "size": "Size", "thickness": "Thickness", "fire_rating": "Fire Rating", "leaf_count": "Leaves",
		"handing": "Hand", "material": "Material", "finish": "Finish", "hardware_set": "Hardware Set", "room": "To Room"}
	// Formats of the whole file are checked by the tests of reader and header; a
	// hand at the end of a description is not read.
	elsewhere := map[string]bool{"placeholder": true, "header": true, "row_length": true, "encoding": true, "csv_quoting": true, "material_blank": true}
	checked := 0
	for _, r := range rows[1:] {
		field, format := r[0], r[1]
		if elsewhere[field] || strings.HasPrefix(format, "...") || strings.HasPrefix(format, `""`) {
			continue
		}
		h, ok := heading[field]
		if !ok {
			t.Errorf("no heading for %q", field)
			continue
		}
		for _, text := range examples(field, format) {
			res := mustRead(t, "t.csv", table([]string{"Mark", "Level", h}, []string{"1", "", text}), read.Options{})
			if len(res.Problems) > 0 || said(&res.Schedule.Doors[0]) == "" && text != "-" {
				t.Errorf("%s %q: %q %v", field, text, said(&res.Schedule.Doors[0]), res.Problems)
			}
			checked++
		}
	}
	if checked < 50 {
		t.Errorf("only %d formats checked", checked)
	}
}

// examples splits a line of value_formats.csv that gives several.
func examples(field, format string) []string {
	switch {
	case field == "room" || strings.Contains(format, "3/8") || strings.Contains(format, "29/32"):
		return []string{format}
	case field == "handing":
		return strings.Fields(strings.ReplaceAll(format, ";", " "))
	case strings.Contains(format, " / "):
		return strings.Split(format, " / ")
	case strings.Contains(format, " or "):
		return strings.Split(format, " or ")
	}
	return strings.Split(format, ", ")
}
