package doorsched

import (
	"slices"
	"strconv"
)

// Origin says how a value came about.
type Origin uint8

// Origins.
const (
	Given    Origin = iota + 1 // the schedule says so
	Answered                   // the client answered a query, with name and date
	Assumed                    // a stated default
	Derived                    // follows from other values
)

// String returns the origin's word.
func (o Origin) String() string {
	switch o {
	case Given:
		return "given"
	case Answered:
		return "answered"
	case Assumed:
		return "assumed"
	case Derived:
		return "derived"
	}
	return "unknown"
}

// Cell is the place of a value in the user's file. Row and Col count from 1;
// the zero Cell is no cell.
type Cell struct {
	Sheet    string
	Row, Col int
}

// IsZero reports whether c is no cell.
func (c Cell) IsZero() bool { return c.Row == 0 }

// Ref returns the cell's reference without the sheet: "C7".
func (c Cell) Ref() string {
	if c.IsZero() {
		return ""
	}
	return ColumnName(c.Col) + strconv.Itoa(c.Row)
}

// String returns Sheet!C7, or C7 where the file has no sheets.
func (c Cell) String() string {
	if c.IsZero() {
		return ""
	}
	if c.Sheet == "" {
		return c.Ref()
	}
	return c.Sheet + "!" + c.Ref()
}

// ColumnName returns the letters of a column counted from 1.
func ColumnName(col int) string {
	var b []byte
	for ; col > 0; col = (col - 1) / 26 {
		b = append(b, byte('A'+(col-1)%26))
	}
	slices.Reverse(b)
	return string(b)
}

// Value is one field's value with where it came from.
type Value struct {
	Field  FieldID
	Data   any
	Origin Origin
	Cell   Cell
	Raw    string // the text as found
}

// Record holds the values known about one thing. Its zero value knows nothing.
type Record struct{ values []Value }

// Put stores v, replacing what the record held for the field; means are merged,
// so that "break glass: yes" adds to what other columns said.
func (r *Record) Put(v Value) {
	i, found := r.search(v.Field)
	if !found {
		r.values = slices.Insert(r.values, i, v)
		return
	}
	if m, ok := v.Data.(MeansSet); ok {
		if old, ok := r.values[i].Data.(MeansSet); ok {
			v.Data = old.Merge(m)
			if v.Cell.IsZero() {
				v.Cell = r.values[i].Cell
			}
		}
	}
	r.values[i] = v
}

// Get returns the value held for a field.
func (r *Record) Get(id FieldID) (Value, bool) {
	if r == nil {
		return Value{}, false
	}
	if i, found := r.search(id); found {
		return r.values[i], true
	}
	return Value{}, false
}

// Delete makes a field Unknown.
func (r *Record) Delete(id FieldID) {
	if i, found := r.search(id); found {
		r.values = slices.Delete(r.values, i, i+1)
	}
}

// All returns the values in the table's order. The slice is the record's own.
func (r *Record) All() []Value { return r.values }

// Clone returns a record that can be changed apart.
func (r *Record) Clone() Record { return Record{slices.Clone(r.values)} }

func (r *Record) search(id FieldID) (int, bool) {
	return slices.BinarySearchFunc(r.values, id, func(v Value, id FieldID) int { return int(v.Field) - int(id) })
}
