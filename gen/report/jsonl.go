package report

import (
	"io"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

// Schema names the shape of the lines.
const Schema = "lockrail/1"

type doorLine struct {
	Kind         string        `json:"kind"`
	Mark         string        `json:"mark"`
	Source       *sourceOf     `json:"source,omitempty"`
	Verdict      string        `json:"verdict"`
	Proposed     string        `json:"proposed,omitempty"`
	WidthMM      *Decimal      `json:"width_mm,omitempty"`
	HeightMM     *Decimal      `json:"height_mm,omitempty"`
	Leaves       []leafOf      `json:"leaves,omitempty"`
	FireMin      *int          `json:"fire_min,omitempty"`
	Smoke        *bool         `json:"smoke,omitempty"`
	Set          string        `json:"set,omitempty"`
	SetBy        string        `json:"set_by,omitempty"`
	Lock         string        `json:"lock,omitempty"`
	LockBy       string        `json:"lock_by,omitempty"`
	Fail         string        `json:"fail,omitempty"`
	LockVolts    *Decimal      `json:"lock_volts,omitempty"`
	LockVoltsMin *Decimal      `json:"lock_volts_min,omitempty"`
	Controller   string        `json:"controller,omitempty"`
	NotJudged    []notJudgedOf `json:"not_judged,omitempty"`
	ToMeasure    []measureOf   `json:"to_measure,omitempty"`
}

type sourceOf struct {
	File  string `json:"file,omitempty"`
	Sheet string `json:"sheet,omitempty"`
	Row   int    `json:"row,omitempty"`
}

type leafOf struct {
	WidthMM Decimal `json:"width_mm"`
}

type notJudgedOf struct {
	Rule  string   `json:"rule"`
	Needs []string `json:"needs"`
}

type measureOf struct {
	Rule     string     `json:"rule"`
	Field    string     `json:"field,omitempty"`
	What     string     `json:"what"`
	Limit    string     `json:"limit"`
	Citation citationOf `json:"citation"`
}

type citationOf struct {
	Document string `json:"document"`
	Edition  string `json:"edition"`
	Clause   string `json:"clause"`
	Status   string `json:"status"`
}

type findingLine struct {
	Kind     string      `json:"kind"`
	Rule     string      `json:"rule"`
	Refs     []string    `json:"refs"`
	Severity string      `json:"severity"`
	Door     string      `json:"door"`
	Fields   []string    `json:"fields"`
	Cells    []string    `json:"cells,omitempty"`
	Value    any         `json:"value,omitempty"`
	Limit    any         `json:"limit,omitempty"`
	Unit     string      `json:"unit,omitempty"`
	Citation *citationOf `json:"citation,omitempty"`
	Message  string      `json:"message"`
	Remedies []string    `json:"remedies,omitempty"`
}

type queryLine struct {
	Kind     string   `json:"kind"`
	ID       string   `json:"id"`
	Question string   `json:"question"`
	Scope    string   `json:"scope"`
	Field    string   `json:"field"`
	Choices  []string `json:"choices,omitempty"`
	Doors    []string `json:"doors"`
}

type assumptionLine struct {
	Kind   string   `json:"kind"`
	Field  string   `json:"field"`
	Value  string   `json:"value"`
	Reason string   `json:"reason"`
	By     string   `json:"by"`
	Doors  []string `json:"doors,omitempty"`
}

type summaryLine struct {
	Kind       string `json:"kind"`
	Schema     string `json:"schema"`
	Edition    string `json:"edition"`
	Doors      int    `json:"doors"`
	Conflict   int    `json:"conflict"`
	Approval   int    `json:"approval"`
	Query      int    `json:"query"`
	Caution    int    `json:"caution"`
	NoConflict int    `json:"no-conflict"`
	OutOfScope int    `json:"out-of-scope"`
	Findings   int    `json:"findings"`
	Queries    int    `json:"queries"`
}

func millimetres(l doorsched.Length) Decimal { return Decimal{l.Millimetres(), 2} }

// placesOf is how many decimals a unit is printed with.
func placesOf(unit string) int {
	switch unit {
	case "V":
		return 3
	case "%":
		return 1
	}
	return 2
}

// JSONLines writes the result: its doors with their findings in the schedule's
// order, then queries, assumptions and the summary.
func JSONLines(w io.Writer, r *result.Result) error {
	var lines []any
	for i := range r.Doors {
		lines = append(lines, lineOfDoor(r, &r.Doors[i]))
		for _, f := range r.Doors[i].Findings {
			lines = append(lines, lineOfFinding(f))
		}
	}
	for _, q := range r.Queries {
		lines = append(lines, queryLine{"query", q.ID, q.Question, string(q.Scope), q.Field.String(), q.Choices, q.Doors})
	}
	for _, a := range r.Assumptions {
		lines = append(lines, assumptionLine{"assumption", AssumedField(a), a.Value, a.Reason, a.By, a.Doors})
	}
	n := r.Counts()
	lines = append(lines, summaryLine{"summary", Schema, string(r.Edition.ID), len(r.Doors),
		n[doorsched.Conflict], n[doorsched.Approval], n[doorsched.QueryOpen], n[doorsched.Caution], n[doorsched.NoConflict], n[doorsched.OutOfScope],
		len(r.Findings()), len(r.Queries)})
	return Lines(w, lines...)
}

// AssumedField is the field's machine name, or what was assumed in words where
// no field of the table is meant.
func AssumedField(a doorsched.Assumption) string {
	if a.Field != doorsched.NoField {
		return a.Field.String()
	}
	return a.What
}

func lineOfDoor(r *result.Result, d *result.Door) doorLine {
	l := doorLine{
		Kind: "door", Mark: d.Mark, Verdict: d.Verdict.Code(), Proposed: d.Proposed.Verdict.Code(),
		Set: d.SetNumber, SetBy: d.SetBy, Lock: string(d.Choice.Lock), LockBy: d.Choice.By, Fail: string(d.Choice.Fail),
		Controller: d.Circuit.Controller,
	}
	if r.File != "" || !d.Source.IsZero() {
		l.Source = &sourceOf{r.File, d.Source.Sheet, d.Source.Row}
	}
	if w, ok := doorsched.Width.In(d.View).Get(); ok {
		l.WidthMM = ptr(millimetres(w))
	}
	if h, ok := doorsched.Height.In(d.View).Get(); ok {
		l.HeightMM = ptr(millimetres(h))
	}
	for _, w := range d.View.Leaves().Widths {
		l.Leaves = append(l.Leaves, leafOf{millimetres(w)})
	}
	if rating, ok := doorsched.FireRating.In(d.View).Get(); ok {
		l.FireMin = ptr(rating.Minutes)
	}
	if smoke := doorsched.Smoke.In(d.View).Or(doorsched.Unknown); smoke != doorsched.Unknown {
		l.Smoke = ptr(smoke == doorsched.Yes)
	}
	if v, ok := d.Circuit.LockVolts.Get(); ok {
		l.LockVolts = ptr(Decimal{float64(v), 3})
	}
	if v, ok := d.Circuit.LockVoltsMin.Get(); ok {
		l.LockVoltsMin = ptr(Decimal{float64(v), 3})
	}
	for _, n := range Open(d.Given.NotJudged) {
		l.NotJudged = append(l.NotJudged, notJudgedOf{n.Rule, Names(n.Needs)})
	}
	for _, s := range d.Given.Site {
		field := ""
		if s.Field != doorsched.NoField {
			field = s.Field.String()
		}
		l.ToMeasure = append(l.ToMeasure, measureOf{s.Rule, field, s.What, s.Limit, cite(s.Citation)})
	}
	return l
}

func lineOfFinding(f doorsched.Finding) findingLine {
	l := findingLine{
		Kind: "finding", Rule: f.Rule, Refs: f.Refs, Severity: f.Severity.Code(), Door: f.Door, Fields: Names(f.Fields),
		Value: valueOf(f.Value), Limit: valueOf(f.Limit), Unit: f.Value.Unit, Message: f.Message, Remedies: f.Remedies,
	}
	if l.Refs == nil {
		l.Refs = []string{}
	}
	if l.Unit == "" {
		l.Unit = f.Limit.Unit
	}
	for _, c := range f.Cells {
		l.Cells = append(l.Cells, c.String())
	}
	if f.Citation != (doorsched.Citation{}) {
		l.Citation = ptr(cite(f.Citation))
	}
	return l
}

// Open lists the rules that wait for something other than a measurement on
// site; those that wait for one are lines to measure.
func Open(ns []doorsched.NotJudged) []doorsched.NotJudged {
	var out []doorsched.NotJudged
	for _, n := range ns {
		if n.Stage != doorsched.StageCommissioning {
			out = append(out, n)
		}
	}
	return out
}

func cite(c doorsched.Citation) citationOf {
	return citationOf{c.Document, c.Edition, c.Clause, string(c.Status)}
}

func valueOf(q doorsched.Quantity) any {
	switch {
	case q.IsZero():
		return nil
	case q.Unit != "":
		return Decimal{q.Number, placesOf(q.Unit)}
	}
	return q.Text
}

// Names lists the machine names of fields.
func Names(ids []doorsched.FieldID) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = id.String()
	}
	return out
}

func ptr[T any](v T) *T { return &v }
