package read

import (
	"regexp"
	"strings"

	"example.com/lockrail/doorsched"
)

// Placeholder is a cell that is not empty and yet carries no data.
type Placeholder struct {
	Cell  doorsched.Cell
	Door  string
	Field doorsched.FieldID
	Text  string
}

var (
	blankMarks  = regexp.MustCompile(`^(?:[-–—_]+|[?]+|…|\.{2,}|(?i:n\.?\s?/\s?a\.?|n\.a\.|unknown))$`)
	toBeDecided = regexp.MustCompile(`^(?i:t\.?b\.?[acd]\.?)(?:[\s,:(].*)?$`)
	seeSomewhat = regexp.MustCompile(`^(?i:(?:refer to|refer|see|as per|per)\s+\S.*)$`)
)

// freeText are the fields in which "see specification" is what the author had
// to say, not the want of a value.
var freeText = map[doorsched.FieldID]bool{
	doorsched.Remarks.ID(): true, doorsched.SpecialText.ID(): true, doorsched.SpecRef.ID(): true, doorsched.AccessText.ID(): true,
}

// isPlaceholder reports whether a cell's text stands for no data: "--", "n/a",
// "TBC at stage 4", "See Hardware Set", "?".
func isPlaceholder(text string, f doorsched.Info) bool {
	if blankMarks.MatchString(text) {
		return true
	}
	if freeText[f.ID] {
		return false
	}
	if toBeDecided.MatchString(text) {
		return true
	}
	if strings.EqualFold(text, "na") {
		_, err := f.Parse(text, doorsched.Alias{})
		return f.Kind == doorsched.KindText || err != nil
	}
	return seeSomewhat.MatchString(text)
}

// isDitto reports whether a cell only repeats the one above by a mark.
func isDitto(text string) bool {
	switch strings.ToLower(text) {
	case `"`, "''", "”", "″", "〃", "do.", "ditto", `-"-`, "-''-":
		return true
	}
	return false
}
