package doorsched

import (
	"fmt"
	"regexp"
	"strings"
)

// Size is a door size as one cell gives it: 3-0 x 7-0, 3068, 915 x 2100, PR 762.
type Size struct {
	Width, Height Measure
	// Leaves is 2 when the text says pair, 1 when it says single, 0 when it says neither.
	Leaves int
	// WidthIsLeaf is set where the pair word stands before a single width
	// ("PR 762"): that width is one leaf, not the opening.
	WidthIsLeaf bool
}

var (
	pairWord   = regexp.MustCompile(`(?i)(^|\s)(pr\.?|pair|dbl\.?|double|2 ?no\.?)(\s|$)`)
	singleWord = regexp.MustCompile(`(?i)(^|\s)(sgl\.?|single)(\s|$)`)
	callOut    = regexp.MustCompile(`^(\d)(\d)(\d)(\d)$`)
	sizeSplit  = regexp.MustCompile(`(?i)\s*[x×]\s*|\s+by\s+`)
)

// ParseSize reads a width with an optional height and pair word. Four bare
// digits such as 3068 are a call-out, feet and inches of width then of height,
// unless bare says millimetres.
func ParseSize(s string, bare Unit) (Size, error) {
	var z Size
	text := strings.TrimSpace(s)
	if loc := pairWord.FindStringIndex(text); loc != nil {
		z.Leaves = 2
		z.WidthIsLeaf = loc[0] == 0
		text = strings.TrimSpace(text[:loc[0]] + " " + text[loc[1]:])
	} else if loc := singleWord.FindStringIndex(text); loc != nil {
		z.Leaves = 1
		text = strings.TrimSpace(text[:loc[0]] + " " + text[loc[1]:])
	}
	if m := callOut.FindStringSubmatch(text); m != nil && bare != UnitMillimetre && m[1] >= "1" && m[3] >= "5" && m[3] <= "9" {
		w, err := ParseLength(m[1]+"-"+m[2], bare)
		if err != nil {
			return Size{}, err
		}
		h, err := ParseLength(m[3]+"-"+m[4], bare)
		if err != nil {
			return Size{}, err
		}
		w.Assumed, h.Assumed = true, true
		z.Width, z.Height = w, h
		return z, nil
	}
	parts := sizeSplit.Split(normaliseMarks(text), -1)
	if len(parts) > 3 {
		return Size{}, fmt.Errorf("%w: %q has more than width x height x thickness", ErrLength, s)
	}
	var err error
	if z.Width, err = ParseLength(parts[0], bare); err != nil {
		return Size{}, err
	}
	if len(parts) > 1 {
		if z.Height, err = ParseLength(parts[1], bare); err != nil {
			return Size{}, err
		}
	}
	return z, nil
}
