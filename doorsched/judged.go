package doorsched

import (
	"slices"
	"strings"
)

// Verdict is the word in which a door is judged, and the severity of a finding.
// The zero value is invalid.
type Verdict uint8

// Verdicts, worst first; OutOfScope stands apart.
const (
	Conflict   Verdict = iota + 1 // a rule is broken
	Approval                      // needs the authority's consent, or has it on record
	QueryOpen                     // not judged for want of a design or survey field
	Caution                       // nothing broken, something to mind
	NoConflict                    // no conflict found
	OutOfScope                    // a lift door, a cased opening, by others …
)

var verdictWords = [...]string{"", "conflict", "approval", "query", "caution", "no-conflict", "out-of-scope"}

// Code returns the word that machines read: conflict, approval, query, caution,
// no-conflict, out-of-scope.
func (v Verdict) Code() string {
	if int(v) < len(verdictWords) {
		return verdictWords[v]
	}
	return ""
}

// String returns the words people read: "no conflict found", "out of scope".
func (v Verdict) String() string {
	switch v {
	case NoConflict:
		return "no conflict found"
	case OutOfScope:
		return "out of scope"
	}
	return v.Code()
}

// Verdicts lists all verdicts, worst first.
func Verdicts() []Verdict {
	return []Verdict{Conflict, Approval, QueryOpen, Caution, NoConflict, OutOfScope}
}

// ParseVerdict reads a machine word.
func ParseVerdict(s string) (Verdict, bool) {
	i := slices.Index(verdictWords[1:], s)
	return Verdict(i + 1), i >= 0
}

// AtLeast reports whether v is as bad as w or worse.
func (v Verdict) AtLeast(w Verdict) bool { return v <= w }

// Region chooses between the trade's two vocabularies.
type Region string

// Regions.
const (
	RegionUS Region = "US"
	RegionUK Region = "UK"
)

// Status says how far a value or clause number was seen.
type Status string

// Statuses. A citation from memory prints "to be checked".
const (
	Verified Status = "verified" // a published copy was seen, mostly a secondary one
	Memory   Status = "memory"   // nobody saw it
	Practice Status = "practice" // the trade does so
)

// Citation names the document, edition and clause a finding rests on.
type Citation struct {
	Document, Edition, Clause string
	Status                    Status
}

// String returns "IBC 2021, 1010.2.1", with "(clause to be checked)" where it
// was not seen.
func (c Citation) String() string {
	s := strings.TrimSpace(c.Document + " " + c.Edition)
	if c.Clause != "" {
		s += ", " + c.Clause
	}
	switch c.Status {
	case Memory:
		s += " (clause to be checked)"
	case Practice:
		s += " (common practice)"
	}
	return s
}

// Quantity is a number with its unit, or a text where no unit stands.
type Quantity struct {
	Number float64
	Unit   string // empty: Text holds the value
	Text   string
}

// TextOf and LengthOf make quantities; LengthOf is in millimetres.
func TextOf(s string) Quantity                 { return Quantity{Text: s} }
func LengthOf(l Length) Quantity               { return Quantity{Number: l.Millimetres(), Unit: "mm"} }
func NumberOf(n float64, unit string) Quantity { return Quantity{Number: n, Unit: unit} }

// IsZero reports whether q says nothing.
func (q Quantity) IsZero() bool { return q == Quantity{} }

// String writes the number with its unit, or the text.
func (q Quantity) String() string {
	if q.Unit == "" {
		return q.Text
	}
	return FormatNumber(q.Number, 2) + " " + q.Unit
}

// Finding is one thing to say about one door.
type Finding struct {
	Rule     string // slug
	Refs     []string
	Severity Verdict
	Door     string
	Fields   []FieldID
	Cells    []Cell
	Value    Quantity
	Limit    Quantity
	Citation Citation
	Message  string
	Remedies []string
}

// Compare orders findings by severity, rule, first cell and message; doors are
// kept in the schedule's order by the caller.
func (f Finding) Compare(g Finding) int {
	if d := int(f.Severity) - int(g.Severity); d != 0 {
		return d
	}
	if d := strings.Compare(f.Rule, g.Rule); d != 0 {
		return d
	}
	return strings.Compare(f.Message, g.Message)
}

// NotJudged is a rule that could not be judged for a door, with the first
// fields it needs.
type NotJudged struct {
	Rule  string
	Needs []FieldID
	Stage Stage // the latest stage among the needs
}

// SiteLine is one line of a commissioning sheet: what only a measurement on
// site can settle.
type SiteLine struct {
	Rule     string
	What     string
	Limit    string
	Field    FieldID
	Citation Citation
}

// Assumption is a default that was used, to be shown to the user.
type Assumption struct {
	Field  FieldID
	What   string // in place of Field where no field of the table is meant
	Value  string
	Reason string
	By     string // which part assumed it
	Doors  []string
}

// Query is one question to the client.
type Query struct {
	ID       string
	Question string
	Scope    Scope
	Of       string // the place it is asked about; empty for a project or a list of doors
	Field    FieldID
	Choices  []string
	Doors    []string
}
