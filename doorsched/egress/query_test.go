package egress

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"github.com/google/go-cmp/cmp"
)

// bareSchedule is doors as many schedules give them: size, material, rating and
// set number, and nothing about egress or locks.
func bareSchedule(t testing.TB, n int) *doorsched.Schedule {
	sizes := []string{"width=2-2; height=7-0; thickness=1 3/4", "width=3-0; height=7-0; thickness=1 3/4", "width=3-6; height=8-0; thickness=1 3/4", "width=6-0; height=7-10", "width=8-0; height=8-4; thickness=3"}
	makes := []string{"door_material=STL; frame_material=HM; hardware_set=A1", "door_material=WD; frame_material=HM; hardware_set=E1", "door_material=ALUM; frame_material=ALUM; hardware_set=D1", ""}
	ratings := []string{"rating=NR", "rating=90 MIN", "", "rating=45 MIN"}
	s := &doorsched.Schedule{}
	for i := range n {
		s.Doors = append(s.Doors, doorsched.Door{
			Mark:   fmt.Sprintf("%d%c", 101+i/4, 'A'+i%4),
			Record: *record(t, sizes[i%len(sizes)]+"; "+makes[i%len(makes)]+"; "+ratings[i%len(ratings)]),
		})
	}
	return s
}

func judgeAllDoors(s *doorsched.Schedule, e doorsched.Edition) []Report {
	var out []Report
	for i := range s.Doors {
		out = append(out, JudgeDoor(s.View(i), e))
	}
	return out
}

func TestBareScheduleAsksAndNeverAccuses(t *testing.T) {
	for _, i := range doorsched.Editions() {
		s := bareSchedule(t, 132)
		reports := judgeAllDoors(s, i.ID)
		for n, r := range reports {
			if r.Verdict != doorsched.QueryOpen || len(r.Findings) > 0 {
				t.Errorf("%s on %s: %v, %v", s.Doors[n].Mark, i.ID, r.Verdict, r.Findings)
			}
			if w := Worst(s.View(n), i.ID); w != r.Verdict {
				t.Errorf("%s: Worst = %v, JudgeDoor = %v", s.Doors[n].Mark, w, r.Verdict)
			}
		}
		qs := Queries(s, reports, i.ID)
		if len(qs) == 0 || len(qs) > 25 {
			t.Errorf("%s: %d questions, want 1 to 25", i.ID, len(qs))
		}
		for n, q := range qs {
			t.Logf("%s: %s (%d doors)", i.ID, q.ID, len(q.Doors))
			if n > 0 && len(q.Doors) > len(qs[n-1].Doors) {
				t.Errorf("%s unlocks more doors than the question before it", q.ID)
			}
		}
	}
}

func TestOutOfScope(t *testing.T) {
	for _, in := range []string{"opening_kind=lift; egress=required", "opening_kind=overhead", "phase=existing_to_remain; key_egress=yes", "phase=by_others"} {
		if r := JudgeDoor(door(t, in), us); r.Verdict != doorsched.OutOfScope || len(r.Outcomes) > 0 {
			t.Errorf("%s: %v", in, r.Verdict)
		}
	}
}

func TestQueries(t *testing.T) {
	s := &doorsched.Schedule{
		Buildings: []doorsched.Place{{Name: "Terminal"}, {Name: "Store"}},
		Doors: []doorsched.Door{
			{Mark: "007", Building: "Terminal", Room: "Ticket hall", Record: *record(t, sensedBut("occ"))},
			{Mark: "008", Building: "Terminal", Room: "Ticket hall", Record: *record(t, sensedBut("occ"))},
			{Mark: "009", Building: "Store", Record: *record(t, strings.Replace(sensedBut("fire_alarm"), "fire_alarm,", "", 1))},
			{Mark: "010", Record: *record(t, strings.Replace(sensedBut("fire_alarm"), "fire_alarm,", "", 1))},
			{Mark: "011", Record: *record(t, sensedBut("btn_sign"))},
			{Mark: "012", Record: *record(t, sensedBut("btn_sign"))},
		},
	}
	var reports []Report
	for i := range s.Doors {
		reports = append(reports, judgeWith([]*Rule{sensorRelease}, s.View(i), us))
	}
	type line struct {
		ID    string
		Scope doorsched.Scope
		Of    string
		Doors []string
	}
	var got []line
	for _, q := range Queries(s, reports, us) {
		got = append(got, line{q.ID, q.Scope, q.Of, q.Doors})
		if q.Question == "" || len(q.Choices) == 0 {
			t.Errorf("%s has no words or choices", q.ID)
		}
	}
	want := []line{
		{"button_sign", doorsched.ScopeDoor, "", []string{"011", "012"}},
		{"occ @ Ticket hall", doorsched.ScopeRoom, "Ticket hall", []string{"007", "008"}},
		{"fire_alarm", doorsched.ScopeBuilding, "", []string{"010"}},
		{"fire_alarm @ Store", doorsched.ScopeBuilding, "Store", []string{"009"}},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// sensedBut is a door on sensor release, all told but one field.
func sensedBut(without string) string {
	out := ""
	for _, kv := range bytes.Split([]byte(sensed+"occ=B"), []byte(";")) {
		if k, _, _ := bytes.Cut(bytes.TrimSpace(kv), []byte("=")); string(k) != without {
			out += string(kv) + ";"
		}
	}
	return out
}

// TestRemediesHold: what is offered mends the fault and breaks nothing else.
func TestRemediesHold(t *testing.T) {
	rated := JudgeDoor(door(t, "egress=required; rating=90; latch=yes; lock=mechanical; occ=A-3; serves_ol=90; hw=lever; use=room"), us)
	i := slices.IndexFunc(rated.Findings, func(f doorsched.Finding) bool { return f.Rule == "panic-hardware" })
	if i < 0 {
		t.Fatal("no finding")
	}
	if d := cmp.Diff([]string{"Fire exit hardware on the door"}, rated.Findings[i].Remedies); d != "" {
		t.Errorf("plain panic hardware does not suit a fire door:\n%s", d)
	}
	for slug, on := range states {
		r, _ := RuleByName(slug)
		for e, cases := range on {
			for _, c := range cases {
				for _, f := range r.Judge(Case{door(t, c.inputs), e}).Faults {
					for _, m := range f.Remedies {
						if len(m.Changes) > 0 && !mends(r, Case{door(t, c.inputs), e}, f, m, []Outcome{{r, Judgement{Faults: []Fault{f}}}}) &&
							!slices.ContainsFunc(f.Remedies, func(o Remedy) bool {
								return mends(r, Case{door(t, c.inputs), e}, f, o, []Outcome{{r, r.Judge(Case{door(t, c.inputs), e})}})
							}) {
							t.Errorf("%s: %s: nothing offered mends %q", slug, c.inputs, f.Item)
						}
					}
				}
			}
		}
	}
}

// TestFindingCells: a finding names the cells of the values that decided.
func TestFindingCells(t *testing.T) {
	r := record(t, "egress=required; lock=mechanical; key_egress=no; motions=2; use=room")
	v, _ := r.Get(doorsched.Motions.ID())
	v.Cell = doorsched.Cell{Sheet: "Doors", Row: 7, Col: 3}
	r.Put(v)
	rep := JudgeDoor(doorsched.NewView("101", r), us)
	if len(rep.Findings) != 1 || len(rep.Findings[0].Cells) != 1 || rep.Findings[0].Cells[0].String() != "Doors!C7" {
		t.Errorf("findings %+v", rep.Findings)
	}
}

// TestNothingIsAssumedSilently: what a judgement rests on without having been
// told is in the report.
func TestNothingIsAssumedSilently(t *testing.T) {
	rep := JudgeDoor(door(t, "use=exit_exterior; width=3-0; occ=B"), us)
	var got []string
	for _, a := range rep.Assumed {
		got = append(got, a.Field.String()+" = "+a.Value)
	}
	want := []string{"egress = provided", `leaves = 1`, `thickness = 0'-1 3/4" (44.45 mm)`, `clear_width = 2'-9 3/4" (857.25 mm)`}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if !slices.ContainsFunc(rep.Site, func(l doorsched.SiteLine) bool { return l.Field == doorsched.ClearWidth.ID() && l.Limit != "" }) {
		t.Errorf("the estimate is not measured on site: %v", rep.Site)
	}
}

func TestRulesDocumentIsCurrent(t *testing.T) {
	var b bytes.Buffer
	if err := Markdown(&b); err != nil {
		t.Fatal(err)
	}
	golden(t, filepath.Join("..", "..", "docs", "rules.md"), b.String())
}

func BenchmarkJudgeDoor(b *testing.B) {
	s := bareSchedule(b, 1000)
	for i := range s.Doors {
		if i%2 == 0 {
			for _, v := range record(b, sensed+"occ=A-3; serves_ol=90; hw=panic; latch=yes; swing=with; motions=1; key_egress=no; use=room; closer=self").All() {
				s.Doors[i].Put(v)
			}
		}
	}
	views := make([]doorsched.View, len(s.Doors))
	for i := range views {
		views[i] = s.View(i)
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, v := range views {
			JudgeDoor(v, us)
		}
	}
}

// TestRoomLoadIsNoEvidence: people counted in a room do not make each of its
// doors a way out; people counted at the door do.
func TestRoomLoadIsNoEvidence(t *testing.T) {
	load := record(t, "serves_ol=80")
	room := Case{doorsched.NewView("101", record(t, "hardware_set=A1"), load), us}
	own := Case{doorsched.NewView("101", load), us}
	if got := room.egress().Answer; got != doorsched.Unknown {
		t.Errorf("load of the room: egress %v", got)
	}
	if got := own.egress().Answer; got != doorsched.Yes {
		t.Errorf("load at the door: egress %v", got)
	}
	if said := own.View.With(record(t, "egress=none")); (Case{said, us}).egress().Answer != doorsched.No {
		t.Error("the schedule's own word does not decide")
	}
}
