package ooxml

import (
	"cmp"
	"io"
	"slices"
)

// applySplices writes b with the splices in place, without building the whole.
// Splices at one offset keep the order they were given in.
func applySplices(w io.Writer, b []byte, splices []splice) error {
	at := 0
	for _, s := range sortSplices(splices) {
		if s.at < at {
			// Two edits of one place are a mistake in this package, not of the file.
			return &Error{Kind: BadPlan, Msg: "two changes overlap"}
		}
		if _, err := w.Write(b[at:s.at]); err != nil {
			return err
		}
		if _, err := io.WriteString(w, s.text); err != nil {
			return err
		}
		at = s.end
	}
	_, err := w.Write(b[at:])
	return err
}

func sortSplices(splices []splice) []splice {
	out := slices.Clone(splices)
	slices.SortStableFunc(out, func(a, b splice) int { return cmp.Compare(a.at, b.at) })
	return out
}

// changes reports whether any splice alters b.
func changes(b []byte, splices []splice) bool {
	for _, s := range splices {
		if string(b[s.at:s.end]) != s.text {
			return true
		}
	}
	return false
}
