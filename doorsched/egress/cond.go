package egress

import (
	"strings"

	"example.com/lockrail/doorsched"
)

// Cond is a condition with what it would take to decide it.
type Cond struct {
	Answer doorsched.Answer
	Needs  []doorsched.FieldID // only while Unknown
	// Fields are the inputs that decided.
	Fields []doorsched.FieldID
}

// All holds when every condition holds. One known to be false settles it;
// otherwise the first unknown one, in the order given, says what is needed, so
// that a question is raised only when the conditions before it hold.
func All(cs ...Cond) Cond {
	out := Cond{Answer: doorsched.Yes}
	for _, c := range cs {
		switch c.Answer {
		case doorsched.No:
			return Cond{Answer: doorsched.No, Fields: c.Fields}
		case doorsched.Unknown:
			if out.Answer == doorsched.Yes {
				out.Answer, out.Needs = doorsched.Unknown, c.Needs
			}
		}
		out.Fields = join(out.Fields, c.Fields)
	}
	return out
}

// Any holds when at least one condition holds.
func Any(cs ...Cond) Cond {
	out := Cond{Answer: doorsched.No}
	for _, c := range cs {
		switch c.Answer {
		case doorsched.Yes:
			return Cond{Answer: doorsched.Yes, Fields: c.Fields}
		case doorsched.Unknown:
			if out.Answer == doorsched.No {
				out.Answer, out.Needs = doorsched.Unknown, c.Needs
			}
		}
		out.Fields = join(out.Fields, c.Fields)
	}
	return out
}

// Not turns a condition round.
func Not(c Cond) Cond {
	c.Answer = c.Answer.Not()
	return c
}

// Implies holds where b holds or a does not; b is asked about only when a holds.
func Implies(a, b Cond) Cond { return Any(Not(a), b) }

// join appends without writing into a, which may be shared, and without saying
// a field twice.
func join(a, b []doorsched.FieldID) []doorsched.FieldID {
	if len(a) == 0 {
		return b
	}
	out := a[:len(a):len(a)]
next:
	for _, id := range b {
		for _, have := range out {
			if have == id {
				continue next
			}
		}
		out = append(out, id)
	}
	return out
}

// Case is one door on one edition, as rules see it.
type Case struct {
	View    doorsched.View
	Edition doorsched.Edition
}

// UK reports whether the door is judged in England.
func (c Case) UK() bool { return c.Edition == doorsched.England2019 }

// singles holds every field as a list of one, so that a condition on one field
// needs no memory of its own.
var singles = func() []doorsched.FieldID {
	out := make([]doorsched.FieldID, len(doorsched.Fields())+1)
	for i := range out {
		out[i] = doorsched.FieldID(i)
	}
	return out
}()

func single(id doorsched.FieldID) []doorsched.FieldID { return singles[id : id+1 : id+1] }

func cond(id doorsched.FieldID, a doorsched.Answer) Cond {
	out := Cond{Answer: a, Fields: single(id)}
	if a == doorsched.Unknown {
		out.Needs = out.Fields
	}
	return out
}

// Is holds when a yes-no field says yes.
func (c Case) Is(f doorsched.Field[doorsched.Answer]) Cond {
	return cond(f.ID(), f.In(c.View).Or(doorsched.Unknown))
}

// OneOf holds when a choice field has one of the values.
func (c Case) OneOf(f doorsched.Field[doorsched.Choice], values ...doorsched.Choice) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return cond(f.ID(), doorsched.Unknown)
	}
	for _, x := range values {
		if x == v {
			return cond(f.ID(), doorsched.Yes)
		}
	}
	return cond(f.ID(), doorsched.No)
}

// Group holds when the occupancy group is one of those named; "A" stands for
//
func (c Case) Group(names ...string) Cond {
	id := doorsched.Occupancy.ID()
	v, ok := doorsched.Occupancy.In(c.View).Get()
	if !ok {
		return cond(id, doorsched.Unknown)
	}
	for _, n := range names {
		if rest, ok := strings.CutPrefix(string(v), n); ok && (rest == "" || rest[0] == '-') {
			return cond(id, doorsched.Yes)
		}
	}
	return cond(id, doorsched.No)
}

// Number is what limits compare.
type Number interface {
	~int64 | ~float64
}

// AtLeast holds when a number or length is limit or more.
func AtLeast[T Number](c Case, f doorsched.Field[T], limit T) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return cond(f.ID(), doorsched.Unknown)
	}
	return cond(f.ID(), doorsched.AnswerOf(v >= limit))
}

// MoreThan holds when a number or length is above limit.
func MoreThan[T Number](c Case, f doorsched.Field[T], limit T) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return cond(f.ID(), doorsched.Unknown)
	}
	return cond(f.ID(), doorsched.AnswerOf(v > limit))
}

// AtMost holds when a number or length is limit or less.
func AtMost[T Number](c Case, f doorsched.Field[T], limit T) Cond {
	return Not(MoreThan(c, f, limit))
}

// Between holds when a number or length is neither below low nor above high.
func Between[T Number](c Case, f doorsched.Field[T], low, high T) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return cond(f.ID(), doorsched.Unknown)
	}
	return cond(f.ID(), doorsched.AnswerOf(v >= low && v <= high))
}

// Has holds when a set field holds every one of the means.
func (c Case) Has(f doorsched.Field[doorsched.MeansSet], m doorsched.Means) Cond {
	s, _ := f.In(c.View).Get()
	return cond(f.ID(), s.Has(m))
}

// HasAny holds when a set field holds at least one of the means.
func (c Case) HasAny(f doorsched.Field[doorsched.MeansSet], m doorsched.Means) Cond {
	s, _ := f.In(c.View).Get()
	return cond(f.ID(), s.HasAny(m))
}

// Rated holds for a fire door.
func (c Case) Rated() Cond {
	r, ok := doorsched.FireRating.In(c.View).Get()
	if !ok {
		return cond(doorsched.FireRating.ID(), doorsched.Unknown)
	}
	return cond(doorsched.FireRating.ID(), doorsched.AnswerOf(r.Rated()))
}
