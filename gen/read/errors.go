package read

import (
	"errors"
	"strings"

	"example.com/lockrail/doorsched"
)

// Kinds of error. Every error about a file's content, other than those of the
// workbook package, is an *Error that wraps one of them.
var (
	ErrNoHeader   = errors.New("no door schedule found")
	ErrTwoColumns = errors.New("two columns claim one field")
	ErrNotTable   = errors.New("not a table of text")
	ErrTooLarge   = errors.New("too large")
	ErrOption     = errors.New("cannot be done as asked")
)

// Error says why a file could not be read and where.
type Error struct {
	Kind  error
	File  string
	Sheet string           // empty for CSV
	Cells []doorsched.Cell // where it shows; may be empty
	Value string           // what stands there
	Msg   string
}

// Error writes "doors.xlsx: Sheet1!C4: no door schedule found: …".
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	switch {
	case len(e.Cells) > 0:
		b.WriteString(": ")
		for i, c := range e.Cells {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(c.String())
		}
	case e.Sheet != "":
		b.WriteString(": " + e.Sheet)
	}
	b.WriteString(": " + e.Kind.Error())
	if e.Value != "" {
		b.WriteString(": " + quote(e.Value))
	}
	if e.Msg != "" {
		b.WriteString(": " + e.Msg)
	}
	return b.String()
}

// Unwrap returns the kind.
func (e *Error) Unwrap() error { return e.Kind }

// quote sets text apart in a message and keeps it short. It doubles nothing:
// schedules are full of inch marks.
func quote(s string) string { return "«" + clip(s, 60) + "»" }

func clip(s string, n int) string {
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
