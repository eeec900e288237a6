package wiring

import (
	"fmt"
	"slices"

	"example.com/lockrail/cable"
	"example.com/lockrail/doorsched"
)

// bench is one door being wired: what is read from it, and the circuit it becomes.
type bench struct {
	door Door
	words
	circuit Circuit
	unread  []string // values that could not be used, as Result names them
}

// entry is a value of a field: known at all, and firm when the schedule or the
// client gave it, so that a finding may rest on it.
type entry[T any] struct {
	value       T
	known, firm bool
}

func read[T any](v doorsched.View, f doorsched.Field[T]) entry[T] {
	value, known := f.In(v).Get()
	if !known {
		return entry[T]{}
	}
	held, _ := v.Get(f.ID())
	return entry[T]{value, true, held.Origin == doorsched.Given || held.Origin == doorsched.Answered}
}

// quantity reads a number that must lie above zero and below most; one that does
// not is said and read as not given.
func (b *bench) quantity(f doorsched.Field[float64], most float64) entry[float64] {
	e := read(b.door.View, f)
	if e.known && !(e.value > 0 && e.value <= most) {
		b.unusable(f.ID(), fmt.Sprintf("must be above zero and at most %s", doorsched.FormatNumber(most, 1)))
		return entry[float64]{}
	}
	return e
}

// lengthOf reads a length of cable.
func (b *bench) lengthOf(f doorsched.Field[doorsched.Length]) entry[cable.Metres] {
	e := read(b.door.View, f)
	if e.known && e.value < 0 {
		b.unusable(f.ID(), "is below zero")
		return entry[cable.Metres]{}
	}
	return entry[cable.Metres]{cable.Metres(e.value.Metres()), e.known, e.firm}
}

func (b *bench) need(ids ...doorsched.FieldID) {
	for _, id := range ids {
		if i, found := slices.BinarySearch(b.circuit.Needs, id); !found {
			b.circuit.Needs = slices.Insert(b.circuit.Needs, i, id)
		}
	}
}

func (b *bench) assume(field doorsched.FieldID, what, value, reason string) {
	b.circuit.Assumed = addAssumed(b.circuit.Assumed, doorsched.Assumption{
		Field: field, What: what, Value: value, Reason: reason, By: byWiring, Doors: []string{b.door.View.Mark},
	})
}

// assumeAll passes on what a calculation assumed.
func (b *bench) assumeAll(list []cable.Assumption) {
	for _, a := range list {
		b.assume(doorsched.NoField, a.What, a.Value, a.Why+"; "+a.Source.String())
	}
}

// addAssumed keeps each assumption once.
func addAssumed(list []doorsched.Assumption, a doorsched.Assumption) []doorsched.Assumption {
	for _, old := range list {
		if old.Field == a.Field && old.What == a.What && old.Value == a.Value && old.Reason == a.Reason {
			return list
		}
	}
	return append(list, a)
}

func (b *bench) find(f doorsched.Finding) {
	f.Severity = doorsched.Caution
	f.Door = b.door.View.Mark
	for _, id := range f.Fields {
		if c := b.door.View.Cell(id); !c.IsZero() && !slices.Contains(f.Cells, c) {
			f.Cells = append(f.Cells, c)
		}
	}
	b.circuit.Findings = append(b.circuit.Findings, f)
}

// unusable says that a value is there but cannot be calculated with.
func (b *bench) unusable(id doorsched.FieldID, why string) {
	rule := "electrical-value"
	if id == doorsched.CableSize.ID() || id == doorsched.TransferSize.ID() {
		rule = "conductor-unknown"
	}
	for _, f := range b.circuit.Findings {
		if f.Rule == rule && f.Fields[0] == id {
			return
		}
	}
	b.need(id)
	b.unread = append(b.unread, fmt.Sprintf("%s %q cannot be used", b.name(id), b.asGiven(id)))
	b.find(doorsched.Finding{
		Rule: rule, Fields: []doorsched.FieldID{id}, Value: doorsched.TextOf(b.asGiven(id)),
		Message: fmt.Sprintf("%s %q cannot be used: %s. It is taken as not given.", b.name(id), b.asGiven(id), why),
	})
}

// name is a field in the region's words.
func (b *bench) name(id doorsched.FieldID) string {
	info, _ := doorsched.FieldInfo(id)
	return info.Words(b.region)
}

// asGiven is a value as it stands in the file, else as the table writes it.
func (b *bench) asGiven(id doorsched.FieldID) string {
	v, ok := b.door.View.Get(id)
	if !ok {
		return ""
	}
	if v.Raw != "" {
		return v.Raw
	}
	info, _ := doorsched.FieldInfo(id)
	return info.Format(v.Data)
}

// settle sorts what the circuit says.
func (b *bench) settle() Circuit {
	for _, text := range b.unread {
		b.circuit.Result = join(b.circuit.Result, text)
	}
	slices.SortStableFunc(b.circuit.Findings, doorsched.Finding.Compare)
	return b.circuit
}
