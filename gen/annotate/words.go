package annotate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// oneLine keeps a cell that is not wrapped on its line.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// firstWords cuts text at a space, at no more than n characters.
func firstWords(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	cut := string(r[:n])
	if i := strings.LastIndexByte(cut, ' '); i > n/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,;:") + " …"
}

func round(v float64, places int) float64 {
	scale := math.Pow10(places)
	return math.Round(v*scale) / scale
}

// unique keeps the first of each field.
func unique(ids []doorsched.FieldID) []doorsched.FieldID {
	var out []doorsched.FieldID
	for _, id := range ids {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// joined joins the parts that say something.
func joined(sep string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), sep)
}
