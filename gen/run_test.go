package gen_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen"
	"example.com/lockrail/gen/report"
	"github.com/google/go-cmp/cmp"
)

// realSchedule is a schedule that someone else wrote; it lies beside the
// repository and is not part of it.
func realSchedule(t *testing.T) []byte {
	t.Helper()
	path := os.Getenv("LOCKRAIL_REAL")
	if path == "" {
		path = "../../shared/real/us-door-schedule.csv"
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

// A schedule that says nothing of egress or locks leads to questions, and to
// nothing else: what was left out is never passed, and nothing is invented.
func TestRealScheduleOnlyAsks(t *testing.T) {
	data := realSchedule(t)
	for _, edition := range doorsched.Editions() {
		out, err := gen.Run(context.Background(), "real.csv", data, gen.Options{Edition: edition.ID})
		if err != nil {
			t.Fatal(err)
		}
		if len(out.Doors) != 132 {
			t.Errorf("%s: %d doors; want 132", edition.ID, len(out.Doors))
		}
		for _, d := range out.Doors {
			if d.Verdict != doorsched.QueryOpen && d.Verdict != doorsched.OutOfScope && d.Verdict != doorsched.Conflict {
				t.Errorf("%s: %s is %s on nothing but size, material and rating", edition.ID, d.Mark, d.Verdict)
			}
			if d.Verdict == doorsched.Conflict {
				t.Logf("%s: %s: %s", edition.ID, d.Mark, d.Findings[0].Message)
			}
		}
		if n := len(out.Queries); n == 0 || n > 25 {
			t.Errorf("%s: %d questions; want 1 to 25", edition.ID, n)
		}
	}
}

const lookAlike = "Door,,,,Frame,Fire Rating Label,Hardware\n" +
	"Mark,Size,,Material,Material,,Set No.\n" +
	",Width,Height,,,,\n" +
	",,,,,,\n" +
	"D01,3' - 0\",7' - 0\",STL,HM,90 MIN,A1\n" +
	"D02,3' - 0\",7' - 0\",WD,HM,NR,A1\n" +
	"D03,6' - 0\",7' - 0\",ALUM,ALUM,,C1\n"

func TestSameInputSameLines(t *testing.T) {
	var first string
	for range 5 {
		out, err := gen.Run(context.Background(), "doors.csv", []byte(lookAlike), gen.Options{Edition: doorsched.IBC2021})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := report.JSONLines(&b, out.Result); err != nil {
			t.Fatal(err)
		}
		if first == "" {
			first = b.String()
		}
		if d := cmp.Diff(first, b.String()); d != "" {
			t.Fatalf("(-first +again):\n%s", d)
		}
	}
}

// Separators and a byte-order mark change nothing.
func TestDialectsAgree(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(strings.ReplaceAll(lookAlike, `"`, `''`))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var semi strings.Builder
	w := csv.NewWriter(&semi)
	w.Comma = ';'
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	verdicts := func(data string) []string {
		out, err := gen.Run(context.Background(), "doors.csv", []byte(data), gen.Options{Edition: doorsched.IBC2021})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, d := range out.Doors {
			w, _ := doorsched.Width.In(d.View).Get()
			got = append(got, d.Mark+" "+d.Verdict.Code()+" "+w.String())
		}
		return got
	}
	want := verdicts(lookAlike)
	for name, data := range map[string]string{"semicolons": semi.String(), "byte-order mark": "\ufeff" + lookAlike, "CRLF": strings.ReplaceAll(lookAlike, "\n", "\r\n")} {
		if d := cmp.Diff(want, verdicts(data)); d != "" {
			t.Errorf("%s (-want +got):\n%s", name, d)
		}
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := gen.Doors(ctx, make([]doorsched.Door, 3), doorsched.IBC2021); err == nil {
		t.Error("a cancelled job went on")
	}
}
