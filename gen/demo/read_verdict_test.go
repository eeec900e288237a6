package demo_test

import (
	"testing"

	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/gen/demo"
)

// The files give the same verdicts as the table: nothing is lost on the way
// through a spreadsheet.
func TestVerdictsOfTheFiles(t *testing.T) {
	for _, f := range readFiles {
		t.Run(f.file, func(t *testing.T) {
			res := readFile(t, f.file)
			for i, d := range demo.Doors() {
				expect(t, d, f.edition, egress.JudgeDoor(res.Schedule.View(i), f.edition))
			}
		})
	}
}
