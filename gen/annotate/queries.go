package annotate

import (
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

// mostMarks is how many door marks a cell lists before it counts the rest.
const mostMarks = 40

// queries lists the open questions, those that unlock most doors first, and
// after them those that the user has answered. What the user wrote is kept
// whatever became of the question.
func (b *book) queries(p *page) {
	answers := map[string]result.Answer{}
	for _, a := range b.res.Answers {
		answers[a.Query] = a
	}
	open := map[string]bool{}
	for _, q := range b.res.Queries {
		open[q.ID] = true
		a := answers[q.ID]
		p.text("id", q.ID)
		p.text("state", stateOf(a, true))
		p.text("question", q.Question)
		p.text("of", q.Of)
		p.number("doors", float64(len(q.Doors)), 0)
		p.text("marks", result.Marks(q.Doors, mostMarks))
		p.text("choices", strings.Join(q.Choices, ", "))
		p.answer(a)
		p.choose("answer", q.Choices)
		p.next()
	}
	for _, a := range b.res.Answers {
		if open[a.Query] {
			continue
		}
		p.text("id", a.Query)
		p.text("state", stateOf(a, false))
		p.text("question", a.Question)
		p.text("of", a.Of)
		p.text("marks", a.Doors)
		p.answer(a)
		p.next()
	}
	p.none("No questions.")
}

func (p *page) answer(a result.Answer) {
	p.user("raised", a.Raised)
	p.user("to", a.To)
	p.user("due", a.Due)
	p.user("answer", a.Text)
	p.user("by", a.By)
	p.user("date", a.On)
}

// stateOf says what became of a question.
func stateOf(a result.Answer, open bool) string {
	switch {
	case a.Problem != "" && open:
		return "open; answer not used: " + a.Problem
	case a.Problem != "":
		return "not used: " + a.Problem
	case open:
		return "open"
	case a.Applied == doorsched.Answered:
		return "answered"
	case a.Applied == doorsched.Assumed:
		return "assumed"
	}
	return "no longer asked"
}
