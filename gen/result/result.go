// Package result holds the one value that every writer reads: the schedule, and
// for each door what was judged, chosen, calculated and asked. Writers compute
// nothing.
//
// It is for programs that write or embed lockrail's results. gen.Run makes the
// value; nothing here reads a file or applies a rule.
package result

import (
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/doorsched/wiring"
)

// Result is everything about one schedule on one edition.
type Result struct {
	File        string
	Edition     doorsched.EditionInfo
	Schedule    *doorsched.Schedule
	Place       Place
	Headings    []Heading
	Doors       []Door
	Sets        []hardware.NumberedSet
	Supplies    []wiring.Supply
	Queries     []doorsched.Query
	Answers     []Answer
	Assumptions []doorsched.Assumption
	Cautions    []string // that hold for the whole result
}

// Place is where the schedule stands in its file; all numbers count from 1.
type Place struct {
	Sheet                      string // empty for a CSV file
	HeadFirst, HeadLast        int
	FirstRow, LastRow, MarkCol int
	RightEdge                  int // last column the user's sheet takes
}

// Heading is one column of the schedule and the field it was read as.
type Heading struct {
	Col     int
	Heading string
	Field   doorsched.FieldID // NoField: not recognised
}

// Door is one door with all that is known about it.
type Door struct {
	View      doorsched.View
	Mark      string
	Source    doorsched.Cell
	Given     egress.Report // the schedule and the client's answers only
	Proposed  egress.Report // the same door with our lock and set
	Verdict   doorsched.Verdict
	Choice    hardware.Choice
	Set       hardware.Set
	SetNumber string
	SetBy     string // "schedule", "proposed", or "" where there is none
	Circuit   wiring.Circuit
	Operation []string
	Findings  []doorsched.Finding // of rules, circuits and reading, worst first
}

// Answer is a line of the user's on the Queries sheet, kept whether or not the
// question is still open.
type Answer struct {
	Query                         string // id
	Question                      string
	Of                            string
	Doors                         string // the marks as they stood, for a question no longer open
	Raised, To, Due, Text, By, On string
	Applied                       doorsched.Origin // Answered, Assumed, or 0 where it was not used
	Problem                       string           // why it was not used
}

// Counts returns the number of doors of each verdict.
func (r *Result) Counts() map[doorsched.Verdict]int {
	out := map[doorsched.Verdict]int{}
	for _, d := range r.Doors {
		out[d.Verdict]++
	}
	return out
}

// Findings returns the findings of all doors in the schedule's order.
func (r *Result) Findings() []doorsched.Finding {
	var out []doorsched.Finding
	for _, d := range r.Doors {
		out = append(out, d.Findings...)
	}
	return out
}

// Worst returns the worst verdict of any door in scope; NoConflict if there is none.
func (r *Result) Worst() doorsched.Verdict {
	worst := doorsched.NoConflict
	for _, d := range r.Doors {
		if d.Verdict != doorsched.OutOfScope {
			worst = min(worst, d.Verdict)
		}
	}
	return worst
}

// Caution is the standing word that every output carries.
const Caution = "Checked against the rules named, calculated from the values shown, and silent on what was not given. " +
	"The local code, the authority having jurisdiction and licensed practice decide."

// Marks joins door marks for a cell, cut with a count where there are many.
func Marks(marks []string, most int) string {
	if len(marks) <= most {
		return strings.Join(marks, ", ")
	}
	return strings.Join(marks[:most], ", ") + " … and " + doorsched.FormatNumber(float64(len(marks)-most), 0) + " more"
}
