package report

import (
	"bufio"
	"encoding/json"
	"io"

	"example.com/lockrail/doorsched"
)

// Lines writes values as JSON Lines: one a line, text as it is.
func Lines(w io.Writer, lines ...any) error {
	out := bufio.NewWriter(w)
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	for _, l := range lines {
		if err := enc.Encode(l); err != nil {
			return err
		}
	}
	return out.Flush()
}

// Decimal prints a number with at most Places decimals and no trailing zeros.
type Decimal struct {
	Number float64
	Places int
}

// MarshalJSON writes the number as String does.
func (d Decimal) MarshalJSON() ([]byte, error) { return []byte(d.String()), nil }

// String returns the number's text.
func (d Decimal) String() string { return doorsched.FormatNumber(d.Number, d.Places) }
