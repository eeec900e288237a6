package gen

import (
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

// mostRounds bounds the rounds of answering: an answer may open a question that
// was answered too.
const mostRounds = 12

// answerQueries puts the client's answers to the open questions into the
// schedule and reports whether any was put. An answer with a name and a date is
// Answered; without them it stays an assumption.
func answerQueries(s *doorsched.Schedule, open []doorsched.Query, answers []result.Answer) bool {
	put := false
	for i := range answers {
		a := &answers[i]
		if a.Text == "" || a.Problem != "" {
			continue
		}
		k := slices.IndexFunc(open, func(q doorsched.Query) bool { return q.ID == a.Query })
		if k < 0 {
			continue
		}
		q := open[k]
		info, _ := doorsched.FieldInfo(q.Field)
		data, err := info.Parse(a.Text, doorsched.Alias{})
		if err != nil {
			a.Problem = err.Error()
			continue
		}
		if data == nil {
			a.Problem = "says nothing"
			continue
		}
		a.Applied = doorsched.Answered
		if a.By == "" || a.On == "" {
			a.Applied = doorsched.Assumed
		}
		v := doorsched.Value{Field: q.Field, Data: data, Origin: a.Applied, Raw: a.Text}
		for _, r := range records(s, q) {
			r.Put(v)
			put = true
		}
	}
	return put
}

// records are what a question is asked about: its place, or each of its doors.
func records(s *doorsched.Schedule, q doorsched.Query) []*doorsched.Record {
	var places []doorsched.Place
	switch q.Scope {
	case doorsched.ScopeProject:
		return []*doorsched.Record{&s.Project}
	case doorsched.ScopeBuilding:
		places = s.Buildings
	case doorsched.ScopeStorey:
		places = s.Storeys
	case doorsched.ScopeRoom:
		places = s.Rooms
	}
	for i := range places {
		if q.Of != "" && places[i].Name == q.Of {
			return []*doorsched.Record{&places[i].Record}
		}
	}
	var out []*doorsched.Record
	for i := range s.Doors {
		if slices.Contains(q.Doors, s.Doors[i].Mark) {
			out = append(out, &s.Doors[i].Record)
		}
	}
	return out
}

// unsigned lists answers that stay assumptions for want of a name or a date.
func unsigned(answers []result.Answer, open map[string]doorsched.Query) []doorsched.Assumption {
	var out []doorsched.Assumption
	for _, a := range answers {
		if a.Applied != doorsched.Assumed {
			continue
		}
		q := open[a.Query]
		out = append(out, doorsched.Assumption{
			Field: q.Field, Value: a.Text, Reason: "answered on Queries without a name or a date", By: "queries", Doors: q.Doors,
		})
	}
	return out
}
