package doorsched

// Opt is a value that may be Unknown. Its zero value is Unknown.
type Opt[T any] struct {
	v     T
	known bool
}

// Known returns an Opt that holds v.
func Known[T any](v T) Opt[T] { return Opt[T]{v, true} }

// Get returns the value and whether it is known.
func (o Opt[T]) Get() (T, bool) { return o.v, o.known }

// IsKnown reports whether a value is held.
func (o Opt[T]) IsKnown() bool { return o.known }

// Or returns the value, or def where it is Unknown. The caller owes the user a
// word about def.
func (o Opt[T]) Or(def T) T {
	if o.known {
		return o.v
	}
	return def
}

// Answer is a three-valued truth. Its zero value is Unknown.
type Answer uint8

// The three answers.
const (
	Unknown Answer = iota
	No
	Yes
)

// AnswerOf turns a Go bool into an Answer.
func AnswerOf(b bool) Answer {
	if b {
		return Yes
	}
	return No
}

// String returns "unknown", "no" or "yes".
func (a Answer) String() string { return [...]string{"unknown", "no", "yes"}[a%3] }

// Not swaps Yes and No and leaves Unknown.
func (a Answer) Not() Answer {
	switch a {
	case Yes:
		return No
	case No:
		return Yes
	}
	return Unknown
}

// And is No if either is No, Yes if both are Yes, Unknown otherwise.
func (a Answer) And(b Answer) Answer {
	switch {
	case a == No || b == No:
		return No
	case a == Yes && b == Yes:
		return Yes
	}
	return Unknown
}

// Or is Yes if either is Yes, No if both are No, Unknown otherwise.
func (a Answer) Or(b Answer) Answer { return a.Not().And(b.Not()).Not() }
