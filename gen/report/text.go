package report

import (
	"fmt"
	"io"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

// Text writes the result for a reader at a terminal: the doors that have
// something to say, the queries that unlock most doors, the counts. Long lines
// are wrapped at width; 0 leaves them long.
func Text(w io.Writer, r *result.Result, width int) error {
	p := &printer{w: w, width: width}
	for i := range r.Doors {
		d := &r.Doors[i]
		if d.Verdict == doorsched.NoConflict && len(d.Findings) == 0 {
			continue
		}
		p.line(0, "%s%s: %s", d.Mark, place(d.Source), d.Verdict)
		for _, f := range d.Findings {
			p.line(2, "%s [%s] %s", f.Severity, f.Rule, f.Message)
			if at := cells(f.Cells); at != "" || !f.Limit.IsZero() {
				p.line(4, "%s", valueAndLimit(f, at))
			}
			if f.Citation != (doorsched.Citation{}) {
				p.line(4, "%s", f.Citation)
			}
			for _, m := range f.Remedies {
				p.line(4, "mend: %s", m)
			}
		}
		if n := notJudged(Open(d.Given.NotJudged)); n != "" {
			p.line(2, "not judged: %s", n)
		}
	}
	if len(r.Queries) > 0 {
		p.line(0, "")
		p.line(0, "Questions, those that unlock most doors first:")
		for _, q := range r.Queries {
			of := ""
			if q.Of != "" {
				of = " (" + q.Of + ")"
			}
			p.line(2, "%s%s %s [%s]", q.Field, of, q.Question, plural(len(q.Doors), "door"))
		}
	}
	if len(r.Assumptions) > 0 {
		p.line(0, "")
		p.line(0, "Assumed, until given:")
		for _, a := range r.Assumptions {
			p.line(2, "%s = %s: %s (%s)", AssumedField(a), a.Value, a.Reason, plural(len(a.Doors), "door"))
		}
	}
	p.line(0, "")
	p.line(0, "%s", SummarySentence(r))
	for _, c := range r.Cautions {
		p.line(0, "%s", c)
	}
	return p.err
}

// SummarySentence counts the doors by verdict in one sentence.
func SummarySentence(r *result.Result) string {
	n := r.Counts()
	var parts []string
	for _, v := range doorsched.Verdicts() {
		if n[v] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n[v], v))
		}
	}
	return fmt.Sprintf("%s on %s: %s; %s, %s.", plural(len(r.Doors), "door"), r.Edition.ID, strings.Join(parts, ", "),
		plural(len(r.Findings()), "finding"), plural(len(r.Queries), "question"))
}

func valueAndLimit(f doorsched.Finding, at string) string {
	var parts []string
	if at != "" {
		parts = append(parts, "at "+at)
	}
	if !f.Value.IsZero() {
		parts = append(parts, "value "+f.Value.String())
	}
	if !f.Limit.IsZero() {
		parts = append(parts, "limit "+f.Limit.String())
	}
	return strings.Join(parts, "; ")
}

func notJudged(ns []doorsched.NotJudged) string {
	var parts []string
	for _, n := range ns {
		parts = append(parts, n.Rule+" needs "+strings.Join(Names(n.Needs), ", "))
	}
	return strings.Join(parts, "; ")
}

func cells(cs []doorsched.Cell) string {
	var out []string
	for _, c := range cs {
		out = append(out, c.String())
	}
	return strings.Join(out, ", ")
}

func place(c doorsched.Cell) string {
	if c.IsZero() {
		return ""
	}
	return " (" + c.String() + ")"
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

type printer struct {
	w     io.Writer
	width int
	err   error
}

func (p *printer) line(indent int, format string, args ...any) {
	if p.err != nil {
		return
	}
	pad := strings.Repeat(" ", indent)
	text := fmt.Sprintf(format, args...)
	for _, l := range wrap(text, p.width-indent) {
		if _, p.err = fmt.Fprintln(p.w, strings.TrimRight(pad+l, " ")); p.err != nil {
			return
		}
		if len(pad) == indent {
			pad += "  "
		}
	}
}

// wrap breaks text at spaces into lines of at most width runes; a longer word
// stays whole.
func wrap(text string, width int) []string {
	if width < 20 || len(text) <= width {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case len([]rune(line))+1+len([]rune(word)) > width-2:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}
