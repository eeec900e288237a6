package egress

import "example.com/lockrail/doorsched"

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
		out.Fields = append(out.Fields, c.Fields...)
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
		out.Fields = append(out.Fields, c.Fields...)
	}
	return out
}

// Not turns a condition round.
func Not(c Cond) Cond {
	c.Answer = c.Answer.Not()
	return c
}

// Case is one door on one edition, as rules see it.
type Case struct {
	View    doorsched.View
	Edition doorsched.Edition
}

func (c Case) cond(id doorsched.FieldID, a doorsched.Answer) Cond {
	out := Cond{Answer: a, Fields: []doorsched.FieldID{id}}
	if a == doorsched.Unknown {
		out.Needs = out.Fields
	}
	return out
}

// Is holds when a yes-no field says yes.
func (c Case) Is(f doorsched.Field[doorsched.Answer]) Cond {
	return c.cond(f.ID(), f.In(c.View).Or(doorsched.Unknown))
}

// OneOf holds when a choice field has one of the values.
func (c Case) OneOf(f doorsched.Field[doorsched.Choice], values ...doorsched.Choice) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return c.cond(f.ID(), doorsched.Unknown)
	}
	for _, x := range values {
		if x == v {
			return c.cond(f.ID(), doorsched.Yes)
		}
	}
	return c.cond(f.ID(), doorsched.No)
}

// Number is what limits compare.
type Number interface {
	~int64 | ~float64
}

// AtLeast holds when a number or length is limit or more.
func AtLeast[T Number](c Case, f doorsched.Field[T], limit T) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return c.cond(f.ID(), doorsched.Unknown)
	}
	return c.cond(f.ID(), doorsched.AnswerOf(v >= limit))
}

// MoreThan holds when a number or length is above limit.
func MoreThan[T Number](c Case, f doorsched.Field[T], limit T) Cond {
	v, ok := f.In(c.View).Get()
	if !ok {
		return c.cond(f.ID(), doorsched.Unknown)
	}
	return c.cond(f.ID(), doorsched.AnswerOf(v > limit))
}

// Has holds when a set field holds the means.
func (c Case) Has(f doorsched.Field[doorsched.MeansSet], m doorsched.Means) Cond {
	s, _ := f.In(c.View).Get()
	return c.cond(f.ID(), s.Has(m))
}

// Rated holds for a fire door.
func (c Case) Rated() Cond {
	r, ok := doorsched.FireRating.In(c.View).Get()
	if !ok {
		return c.cond(doorsched.FireRating.ID(), doorsched.Unknown)
	}
	return c.cond(doorsched.FireRating.ID(), doorsched.AnswerOf(r.Rated()))
}

// Settled is a condition that needs no field.
func Settled(b bool) Cond { return Cond{Answer: doorsched.AnswerOf(b)} }
