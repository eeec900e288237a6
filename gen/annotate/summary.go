package annotate

import (
	"fmt"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/result"
)

// The Summary fits one printed page, so every list on it is cut.
const (
	summaryQueries = 5
	summaryMarks   = 14
	summaryWords   = 150
)

// verdictMeans says in a few words what each verdict stands for.
func verdictMeans(v doorsched.Verdict) string {
	switch v {
	case doorsched.Conflict:
		return "A rule is broken."
	case doorsched.Approval:
		return "Needs the authority's consent, or has it on record."
	case doorsched.QueryOpen:
		return "Not judged in full for want of a field."
	case doorsched.Caution:
		return "Nothing broken, something to mind."
	case doorsched.NoConflict:
		return "Every rule that applies and could be judged holds."
	case doorsched.OutOfScope:
		return "Listed and not judged."
	}
	return ""
}

func (b *book) summary(p *page) {
	p.tall = true
	r := b.res
	line := func(item, value, note string) {
		p.text("item", item)
		p.text("value", value)
		p.text("note", note)
		p.next()
	}
	section := func(title, value, note string) {
		style := p.look.heading(true)
		p.styled("item", title, style)
		p.styled("value", value, style)
		p.styled("note", note, style)
		p.end(style)
	}

	section("What was judged", "", "")
	line("Schedule", b.schedule.Info.Name, fmt.Sprintf("Headings in row %d, doors in rows %d to %d; results from column %s on.",
		r.Place.HeadLast, r.Place.FirstRow, r.Place.LastRow, doorsched.ColumnName(b.firstColumn)))
	p.text("item", "Doors")
	p.number("value", float64(len(r.Doors)), 0)
	p.text("note", b.proposedSets())
	p.next()
	line("Edition", string(r.Edition.ID), r.Edition.Title+".")

	section("Verdict on the schedule as given", "Doors", "Meaning; which doors")
	given := r.Counts()
	for _, v := range doorsched.Verdicts() {
		p.verdict("item", v)
		p.number("value", float64(given[v]), 0)
		marks := ""
		if v != doorsched.NoConflict && given[v] > 0 {
			marks = result.Marks(b.marksOf(func(d *result.Door) bool { return d.Verdict == v }), summaryMarks) + "."
		}
		p.text("note", joined(" ", verdictMeans(v), marks))
		p.next()
	}
	line("The same with our sets", "", b.withOurSets())

	section("Questions that unlock the most doors", "Doors", fmt.Sprintf("%s in all, on %s", count(len(r.Queries), "question"), b.titles[layout.Queries]))
	for _, q := range r.Queries[:min(summaryQueries, len(r.Queries))] {
		p.text("item", joined(": ", b.fieldWords([]doorsched.FieldID{q.Field}), q.Of))
		p.number("value", float64(len(q.Doors)), 0)
		p.text("note", firstWords(q.Question, summaryWords))
		p.next()
	}

	section("What to know", "", "")
	unknown := b.unrecognised()
	p.text("item", "Headings not recognised")
	p.number("value", float64(len(unknown)), 0)
	p.text("note", firstWords(strings.Join(unknown, "; "), summaryWords*2))
	p.next()
	b.notJudged(p)
	b.generic(p)
	p.text("item", "Defaults assumed")
	p.number("value", float64(len(r.Assumptions)), 0)
	p.text("note", "Each with its reason on "+b.titles[layout.Assumptions]+".")
	p.next()
	for _, c := range r.Cautions {
		line("Caution", "", c)
	}
	if !slices.Contains(r.Cautions, result.Caution) {
		line("Caution", "", result.Caution)
	}
}

// marksOf lists the doors that a condition picks.
func (b *book) marksOf(pick func(*result.Door) bool) []string {
	var out []string
	for i := range b.res.Doors {
		if d := &b.res.Doors[i]; pick(d) {
			out = append(out, d.Mark)
		}
	}
	return out
}

func (b *book) proposedSets() string {
	ours := 0
	for _, s := range b.res.Sets {
		if s.Proposed {
			ours++
		}
	}
	return fmt.Sprintf("%s on %s, %d of them proposed by us.", count(len(b.res.Sets), "set"), b.titles[layout.Sets], ours)
}

// withOurSets counts the verdicts that the doors get with our lock and set.
func (b *book) withOurSets() string {
	n := map[doorsched.Verdict]int{}
	for _, d := range b.res.Doors {
		n[d.Proposed.Verdict]++
	}
	var parts []string
	for _, v := range doorsched.Verdicts() {
		if n[v] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n[v], v))
		}
	}
	return strings.Join(parts, ", ")
}

// unrecognised lists the headings that no field was read from.
func (b *book) unrecognised() []string {
	var out []string
	for _, h := range b.res.Headings {
		if h.Field == doorsched.NoField && h.Heading != "" {
			out = append(out, oneLine(h.Heading)+" ("+doorsched.ColumnName(h.Col)+")")
		}
	}
	return out
}

// notJudged says how many doors have rules that wait for a field, which fields
// are wanted most, and what waits for a measurement on site.
func (b *book) notJudged(p *page) {
	wanted := map[doorsched.FieldID]int{}
	doors, site := 0, 0
	for _, d := range b.res.Doors {
		open := false
		site += len(d.Given.Site)
		for _, n := range d.Given.NotJudged {
			if n.Stage == doorsched.StageCommissioning {
				continue
			}
			open = true
			for _, id := range n.Needs {
				wanted[id]++
			}
		}
		if open {
			doors++
		}
	}
	var ids []doorsched.FieldID
	for id := range wanted {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(x, y doorsched.FieldID) int {
		if d := wanted[y] - wanted[x]; d != 0 {
			return d
		}
		return int(x) - int(y)
	})
	note := ""
	if len(ids) > 0 {
		note = "Wanted most: " + b.fieldWords(ids[:min(6, len(ids))]) + "."
	}
	if site > 0 {
		note = joined(" ", note, fmt.Sprintf("%s can only be measured on site.", count(site, "point")))
	}
	p.text("item", "Doors with rules not judged")
	p.number("value", float64(doors), 0)
	p.text("note", note)
	p.next()
}

// generic counts the locks that were calculated on loads of common practice.
func (b *book) generic(p *page) {
	marks := b.marksOf(func(d *result.Door) bool { return strings.Contains(d.Circuit.Basis, "generic") })
	p.text("item", "Locks on generic loads")
	p.number("value", float64(len(marks)), 0)
	if len(marks) > 0 {
		p.text("note", "Common practice, not a product's data: give the loads. "+result.Marks(marks, summaryMarks)+".")
	}
	p.next()
}
