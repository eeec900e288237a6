package demo_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/gen/demo"
)

// Every door gets the verdict it is there for, on each edition, for the rules it
// is there to break and no others, from the table itself.
func TestVerdictsOfTheTable(t *testing.T) {
	for _, r := range regions {
		for _, d := range demo.Doors() {
			t.Run(string(r.edition)+"/"+d.Mark, func(t *testing.T) {
				rec := record(t, d, r.region)
				expect(t, d, r.edition, egress.JudgeDoor(doorsched.NewView(d.Mark, &rec), r.edition))
			})
		}
	}
}

func expect(t *testing.T, d demo.Door, e doorsched.Edition, got egress.Report) {
	t.Helper()
	var broken []string
	for _, f := range got.Findings {
		broken = append(broken, f.Rule)
	}
	slices.Sort(broken)
	broken = slices.Compact(broken)
	if got.Verdict == d.Want(e) && slices.Equal(broken, d.Breaks(e)) {
		return
	}
	var why strings.Builder
	for _, f := range got.Findings {
		why.WriteString("\n  " + f.Severity.Code() + " " + f.Rule + ": " + f.Message)
	}
	for _, n := range got.NotJudged {
		why.WriteString("\n  not judged " + n.Rule + ":")
		for _, id := range n.Needs {
			why.WriteString(" " + id.String())
		}
	}
	t.Errorf("door %s (%s): verdict %s, want %s; breaks %v, want %v%s", d.Mark, d.Why, got.Verdict.Code(), d.Want(e).Code(), broken, d.Breaks(e), why.String())
}
