package read

import (
	"encoding/csv"
	"os"
	"testing"

	"example.com/lockrail/doorsched"
)

// shorthand gives the field of the table for the field names of synonyms.csv
// that are other than the table's.
var shorthand = map[string]doorsched.FieldID{
	"tag_asset": doorsched.AssetTag.ID(), "size": doorsched.Width.ID(), "leaf_count": doorsched.Leaves.ID(), "access_control": doorsched.AccessControlled.ID(),
	"lever": doorsched.LeverText.ID(), "pull": doorsched.PullText.ID(), "push_plate": doorsched.PushPlateText.ID(), "stop": doorsched.StopText.ID(),
	"protection": doorsched.ProtectionText.ID(), "seal": doorsched.SealText.ID(), "hinges": doorsched.HingeText.ID(), "lock": doorsched.LockText.ID(),
	"sign": doorsched.SignType.ID(), "threshold": doorsched.ThresholdText.ID(), "louver": doorsched.Louver.ID(),
}

// different lists the headings that the vocabulary deliberately reads otherwise
// than synonyms.csv, with the field it gives ("" = not read) and why.
var different = map[string]struct{ field, why string }{
	"room_to Room name":                {"room_name", "the table has a field for the room's name; number and name often stand side by side"},
	"room_to Room Name":                {"room_name", "as above"},
	"width Door leaf width":            {"leaf_width", "the table keeps the leaf's width apart from a width that may be the opening's"},
	"width DoorLeafWidth":              {"leaf_width", "as above"},
	"width Leaf Width":                 {"leaf_width", "as above"},
	"width Leaf W":                     {"leaf_width", "as above"},
	"width Leaf Width (mm)":            {"leaf_width", "as above"},
	"width Structural Opening Width":   {"", "the structural opening is not the leaf"},
	"height S.O. Height":               {"", "the structural opening is not the leaf"},
	"height Structural Opening Height": {"", "the structural opening is not the leaf"},
	"leaf_count Count":                 {"", "a plain row count in that file; read as leaves it would make every pair a single"},
	"leaf_count Qty":                   {"", "counts doorsets"},
	"frame_type Type":                  {"door_type", "under the Frame group it is frame_type: TestGroups"},
	"frame_type Frame":                 {"frame", "frame_type where the cells name no material: TestTextFallback"},
	"frame_type Lining / Frame":        {"frame", "as above"},
	"handing Swing":                    {"swing", "handing where the cells are no opening directions: TestTextFallback"},
	"handing Opening":                  {"mark", "the US mark; a UK column of that name would need the user's word"},
	"access_control Reed switch":       {"door_contact", "the table has the device"},
	"access_control Break glass":       {"override", "the table has the device"},
	"access_control Maglock":           {"lock", "yes is an electromagnetic lock"},
	"access_control Security Rating":   {"security_rating", "synonyms.csv has it under both; verified there"},
	"closer Self Closing":              {"self_closing", "the table has the answer apart from the device"},
	"hinges Hinges":                    {"hinge_count", "hinge_note where the cells are no numbers"},
	"seal Door seals":                  {"gasketed", "seal_note where the cells are not yes or no"},
	"seal Meeting stile detail":        {"gasketed", "as above"},
}

func TestSynonyms(t *testing.T) {
	f, err := os.Open("../../testdata/read/synonyms.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	used := map[string]bool{}
	for i, row := range rows[1:] {
		field, heading := row[0], row[1]
		want, ok := shorthand[field]
		if !ok {
			info, _, found := doorsched.LookupField(field)
			if !found {
				t.Errorf("line %d: no field %q", i+2, field)
			}
			want = info.ID
		}
		if d, ok := different[field+" "+heading]; ok {
			used[field+" "+heading] = true
			want = doorsched.NoField
			if d.field != "" {
				info, _, found := doorsched.LookupField(d.field)
				if !found {
					t.Errorf("no field %q", d.field)
				}
				want = info.ID
			}
		}
		got, ok := words.look([]string{heading})
		if !ok || got.field != want {
			t.Errorf("line %d: %q reads as %s (%v), want %s", i+2, heading, got.field, ok, want)
		}
	}
	for k := range different {
		if !used[k] {
			t.Errorf("%q is listed as different but is not in synonyms.csv", k)
		}
	}
	if n := len(rows) - 1; n < 225 {
		t.Errorf("only %d synonyms checked", n)
	}
}

func TestOneMeaningPerHeading(t *testing.T) {
	if len(words.twice) > 0 {
		t.Errorf("headings with two meanings: %q", words.twice)
	}
	for k := range words.ambiguous {
		if m, ok := words.names[k]; ok && m.field == 0 && m.how != unread {
			t.Errorf("%q has no field", k)
		}
	}
}

// Every field can be named by its machine name, its aliases and its words.
func TestFieldTableNamed(t *testing.T) {
	for _, f := range doorsched.Fields() {
		names := []string{f.Name}
		for _, a := range f.Aliases {
			names = append(names, a.Name)
		}
		for _, n := range names {
			if got, ok := machineName(n); !ok || got.field != f.ID {
				t.Errorf("%q reads as %s, want %s", n, got.field, f.ID)
			}
		}
	}
}

func TestHeadingForms(t *testing.T) {
	for _, tt := range []struct {
		path []string
		want string // "" = not read or not recognised
		unit string
		by   Confidence
	}{
		{[]string{"DOOR NO."}, "mark", "", Synonym},
		{[]string{"door_no"}, "mark", "", Exact},
		{[]string{"DoorLeafHeight"}, "height", "", Synonym},
		{[]string{"Fire\nRating"}, "fire_rating", "", Synonym},
		{[]string{"Hard-\nware Set"}, "hardware_set", "", Synonym},
		{[]string{"Width (mm)"}, "width", "mm", Synonym},
		{[]string{"Width, mm"}, "width", "mm", Synonym},
		{[]string{"Height [in]"}, "height", "in", Synonym},
		{[]string{"Fire Rating (FD)"}, "fire_rating", "", Synonym},
		{[]string{"Fire Rating (hrs)"}, "fire_rating", "hr", Synonym},
		{[]string{"Heigth"}, "height", "", Near},
		{[]string{"Hardwear Set"}, "hardware_set", "", Near},
		{[]string{"Door Rev"}, "", "", ""},
		{[]string{"Notes / Comments"}, "remarks", "", Synonym},
		{[]string{"Door Fire Rating"}, "fire_rating", "", Synonym},
		{[]string{"Leaf Weight"}, "leaf_mass", "", Synonym},
		{[]string{"hw_h_in"}, "hw_height", "in", Exact},
		{[]string{"clear_w_mm"}, "clear_width", "mm", Exact},
		{[]string{"Drawn by"}, "", "", ""},
	} {
		got, _ := words.look(tt.path)
		name := ""
		if got.field != 0 && got.how != unread {
			name = got.field.String()
		}
		if name != tt.want || got.unit != tt.unit || got.confidence != tt.by {
			t.Errorf("%q: %q unit %q %q, want %q %q %q", tt.path, name, got.unit, got.confidence, tt.want, tt.unit, tt.by)
		}
	}
}

func TestGroups(t *testing.T) {
	for _, tt := range []struct {
		path []string
		want string
	}{
		{[]string{"Frame", "Material"}, "frame_material"},
		{[]string{"Door", "Material"}, "door_material"},
		{[]string{"Frame", "Type"}, "frame_type"},
		{[]string{"Glazing", "Type"}, "glazing"},
		{[]string{"Hardware", "Type"}, "hardware_set"},
		{[]string{"Hardware", "No."}, "hardware_set"},
		{[]string{"Hardware", "Set"}, "hardware_set"},
		{[]string{"To Room", "Number"}, "room_to"},
		{[]string{"To Room", "Name"}, "room_name"},
		{[]string{"From Room", "Number"}, "room_from"},
		{[]string{"Door", "Size", "Width"}, "width"},
		{[]string{"Frame", "Size", "Width"}, ""},
		{[]string{"Structural Opening", "Width"}, ""},
		{[]string{"S.O.", "Height"}, ""},
		{[]string{"Clear Opening", "Width"}, "clear_width"},
		{[]string{"Inactive Leaf", "Width"}, "inactive_leaf_width"},
		{[]string{"Fire", "Rating"}, "fire_rating"},
		{[]string{"Acoustic", "Rating"}, "acoustic"},
		{[]string{"Hardware", "From Room: Number"}, "room_from"}, // the group is wrong; the heading stands by itself
		{[]string{"Package 3", "Material"}, "door_material"},     // the label says nothing
	} {
		got, _ := words.look(tt.path)
		name := ""
		if got.field != 0 && got.how != unread {
			name = got.field.String()
		}
		if name != tt.want {
			t.Errorf("%q: %q, want %q", tt.path, name, tt.want)
		}
	}
}
