package doorsched_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func answers(t *rapid.T, label string) doorsched.Answer {
	return doorsched.Answer(rapid.IntRange(0, 2).Draw(t, label))
}

// Kleene's laws, against which every rule's conditions lean.
func TestAnswerLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := answers(t, "a"), answers(t, "b"), answers(t, "c")
		if a.And(b) != b.And(a) || a.And(b.And(c)) != a.And(b).And(c) {
			t.Fatal("And does not commute or associate")
		}
		if a.Not().Not() != a || a.And(b).Not() != a.Not().Or(b.Not()) {
			t.Fatal("De Morgan fails")
		}
		if a.And(b.Or(c)) != a.And(b).Or(a.And(c)) {
			t.Fatal("And does not distribute")
		}
	})
}

func TestMeans(t *testing.T) {
	s, err := doorsched.ParseMeans("{sensor,button}")
	if err != nil {
		t.Fatal(err)
	}
	got := []doorsched.Answer{
		s.Has(doorsched.BySensor), s.Has(doorsched.ByFireAlarm),
		doorsched.OneMeans(doorsched.ByButton, true).Has(doorsched.ByFireAlarm),
		doorsched.OneMeans(doorsched.ByFireAlarm, false).Merge(doorsched.OneMeans(doorsched.ByButton, true)).HasAny(doorsched.ByFireAlarm | doorsched.ByButton),
	}
	want := []doorsched.Answer{doorsched.Yes, doorsched.No, doorsched.Unknown, doorsched.Yes}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if _, err := doorsched.ParseMeans("sensor,magic"); err == nil || !strings.Contains(err.Error(), "magic") {
		t.Errorf("unknown means: %v", err)
	}
	open := doorsched.OneMeans(doorsched.ByButton, true)
	if back, err := doorsched.ParseMeans(open.String()); err != nil || back != open {
		t.Errorf("%s reads back as %s, %v", open, back, err)
	}
}

// Every name of both regions' rule inputs is a field or an alias of one.
func TestSetByAlias(t *testing.T) {
	var r doorsched.Record
	for _, kv := range [][2]string{
		{"width", "3-0"}, {"hw_h_in", "44"}, {"clear_w_mm", "850"}, {"btn_d_ft", "5"}, {"release_set", "{sensor,power_loss}"},
		{"electric_lock", "maglock"}, {"fail_mode", "unlocked"}, {"on_escape_route", "true"}, {"fire", "FD30S"}, {"persons", "61"},
		{"unlatch_lbf", "15"}, {"Access Control", "yes"},
	} {
		if err := doorsched.Set(&r, kv[0], kv[1], doorsched.Given); err != nil {
			t.Errorf("%s: %v", kv[0], err)
		}
	}
	if err := doorsched.Set(&r, "release_on_fire_alarm", "yes", doorsched.Given); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, v := range r.All() {
		i, _ := doorsched.FieldInfo(v.Field)
		got = append(got, i.Name+"="+i.Format(v.Data))
	}
	want := []string{
		"width=914.4 mm", "clear_width=850 mm", "fire_rating=FD30S", "lock=electromagnetic", "fail=safe", "access_controlled=yes",
		"hw_height=1117.6 mm", "release_set={sensor,fire_alarm,power_loss}", "button_distance=1524 mm", "egress=required", "serves_ol=61",
		"unlatch_force=66.7233242289075 N",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestSetRefuses(t *testing.T) {
	var r doorsched.Record
	for _, tt := range []struct {
		name, text, says string
		is               error
	}{
		{"widht", "3-0", `did you mean "width"`, doorsched.ErrField},
		{"lock", "chewing gum", "not one of none, mechanical", doorsched.ErrValue},
		{"width", `3'-O"`, "letter 'O'", doorsched.ErrValue},
		{"serves_ol", "many", "not a whole number", doorsched.ErrValue},
		{"egress_alarm", "maybe", "not yes or no", doorsched.ErrValue},
		{"unlatch_lbf", "15 kg", "unit", doorsched.ErrValue},
	} {
		err := doorsched.Set(&r, tt.name, tt.text, doorsched.Given)
		if !errors.Is(err, tt.is) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("Set(%s, %q) = %v; want %q", tt.name, tt.text, err, tt.says)
		}
	}
	if len(r.All()) != 0 {
		t.Errorf("a refused value was stored: %v", r.All())
	}
	for _, s := range []string{"", "unknown", "?"} {
		if err := doorsched.Set(&r, "width", s, doorsched.Given); err != nil || len(r.All()) != 0 {
			t.Errorf("%q must leave the field Unknown: %v", s, err)
		}
	}
}

func TestTableIsWhole(t *testing.T) {
	for _, i := range doorsched.Fields() {
		if i.Name == "" || i.US == "" || i.UK == "" || i.Help == "" || i.Kind == "" || i.Scope == "" || i.Stage == "" {
			t.Errorf("field %d (%s) is incomplete: %+v", i.ID, i.Name, i)
		}
		if i.Kind == doorsched.KindChoice && len(i.Options) < 2 {
			t.Errorf("%s has no accepted values", i.Name)
		}
		for _, c := range i.Choices() {
			if _, err := i.Parse(c, doorsched.Alias{}); err != nil {
				t.Errorf("%s does not accept its own value: %v", i.Name, err)
			}
		}
	}
}

// A value written by Format reads back as itself.
func TestFormatRoundTrip(t *testing.T) {
	for _, tt := range []struct{ name, text string }{
		{"width", `8' - 8 3/8"`}, {"fire_rating", "1-1/2 HR"}, {"lock", "maglock"}, {"serves_ol", "49"},
		{"open_full_force", "15 lbf"}, {"release_set", "button"}, {"remarks", "see note 3"}, {"glass_sqin", "100"},
	} {
		i, alias, _ := doorsched.LookupField(tt.name)
		v, err := i.Parse(tt.text, alias)
		if err != nil {
			t.Fatal(err)
		}
		again, err := i.Parse(i.Format(v), doorsched.Alias{})
		if err != nil || again != v {
			t.Errorf("%s: %q -> %v -> %q -> %v, %v", tt.name, tt.text, v, i.Format(v), again, err)
		}
	}
}

func TestViewNearestWins(t *testing.T) {
	s := doorsched.Schedule{
		Buildings: []doorsched.Place{{Name: "Terminal"}},
		Rooms:     []doorsched.Place{{Name: "101"}},
		Doors:     []doorsched.Door{{Mark: "D1", Building: "Terminal", Room: "101"}},
	}
	doorsched.Sprinkler.Put(&s.Buildings[0].Record, "13", doorsched.Answered)
	doorsched.FireAlarm.Put(&s.Project, doorsched.No, doorsched.Answered)
	doorsched.FireAlarm.Put(&s.Buildings[0].Record, doorsched.Yes, doorsched.Answered)
	doorsched.ReleaseSet.Put(&s.Project, doorsched.OneMeans(doorsched.ByFireAlarm, true), doorsched.Given)
	doorsched.ReleaseSet.Put(&s.Doors[0].Record, doorsched.OneMeans(doorsched.ByButton, true), doorsched.Given)
	v := s.View(0)
	if a := doorsched.FireAlarm.In(v).Or(doorsched.Unknown); a != doorsched.Yes {
		t.Errorf("the building's answer must win over the project's: %s", a)
	}
	if c := doorsched.Sprinkler.In(v).Or(""); c != "13" {
		t.Errorf("sprinkler = %q", c)
	}
	rel, _ := doorsched.ReleaseSet.In(v).Get()
	if rel.Has(doorsched.ByFireAlarm|doorsched.ByButton) != doorsched.Yes {
		t.Errorf("sets must merge: %s", rel)
	}
	if doorsched.Lock.In(v).IsKnown() {
		t.Error("a field nobody gave must be Unknown")
	}
}

func TestLeaves(t *testing.T) {
	for _, tt := range []struct {
		name   string
		fields string
		want   []string
		needs  string
	}{
		{"single by width", "width=3-0", []string{"914.4 mm"}, ""},
		{"wide without count is asked", "width=6-0", nil, "leaves"},
		{"pair, opening width", "width=6-0; leaves=2", []string{"914.4 mm", "914.4 mm"}, ""},
		{"pair, leaf width", "width=762 mm; leaves=2; width_is=leaf", []string{"762 mm", "762 mm"}, ""},
		{"narrow pair is asked", "width=1000 mm; leaves=2", nil, "width_is"},
		{"unequal pair", "width=4-6; leaf_width=3-0; leaves=2", []string{"914.4 mm", "457.2 mm"}, ""},
		{"nothing", "mark=1", nil, "width"},
	} {
		var r doorsched.Record
		for _, kv := range strings.Split(tt.fields, ";") {
			k, v, _ := strings.Cut(kv, "=")
			if err := doorsched.Set(&r, k, strings.TrimSpace(v), doorsched.Given); err != nil {
				t.Fatal(err)
			}
		}
		l := doorsched.NewView("1", &r).Leaves()
		var got []string
		for _, w := range l.Widths {
			got = append(got, w.String())
		}
		var needs []string
		for _, n := range l.Needs {
			needs = append(needs, n.String())
		}
		if d := cmp.Diff(tt.want, got); d != "" || strings.Join(needs, ",") != tt.needs {
			t.Errorf("%s: needs %v (-want +got):\n%s", tt.name, needs, d)
		}
	}
}

func FuzzSet(f *testing.F) {
	f.Add("width", "3-0")
	f.Add("release_set", "{sensor}")
	f.Add("fire", "FD30S")
	f.Fuzz(func(t *testing.T, name, text string) {
		var r doorsched.Record
		if err := doorsched.Set(&r, name, text, doorsched.Given); err != nil && len(r.All()) != 0 {
			t.Errorf("%s=%q failed and stored %v", name, text, r.All())
		}
	})
}
