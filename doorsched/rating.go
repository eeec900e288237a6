package doorsched

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// RatingSystem says under which system of classes a fire rating was written.
// FD30 and E30 are kept apart: one is not silently the other.
type RatingSystem string

// Systems of fire rating.
const (
	RatedMinutes RatingSystem = "minutes" // 90 MIN, 1-1/2 HR, 45
	RatedFD      RatingSystem = "FD"      // FD30, FD30S: BS 476-22
	RatedE       RatingSystem = "E"       // E 30: EN 13501-2 integrity
	RatedEI      RatingSystem = "EI"      // EI 30: EN 13501-2 integrity and insulation
	NotRated     RatingSystem = "NR"      // said to have no rating
)

// Rating is a door's fire rating. The zero value is not a rating: an empty cell
// leaves the field Unknown, while "NR" is a Rating of zero minutes.
type Rating struct {
	Minutes int
	System  RatingSystem
	// Smoke is Yes where the label itself says smoke (FD30S, E 30 Sa, "20 MIN S");
	// No for FD and NR labels without it; Unknown where the label cannot say.
	Smoke Answer
}

// Rated reports whether the door is a fire door at all.
func (r Rating) Rated() bool { return r.Minutes > 0 }

// String writes the rating in its own system: "90 min", "FD30S", "E 30 Sa", "NR".
func (r Rating) String() string {
	s := ""
	switch r.System {
	case NotRated, "":
		return "NR"
	case RatedFD:
		s = fmt.Sprintf("FD%d", r.Minutes)
		if r.Smoke == Yes {
			s += "S"
		}
		return s
	case RatedE, RatedEI:
		s = fmt.Sprintf("%s %d", r.System, r.Minutes)
		if r.Smoke == Yes {
			s += " Sa"
		}
		return s
	}
	s = fmt.Sprintf("%d min", r.Minutes)
	if r.Smoke == Yes {
		s += " S"
	}
	return s
}

// ErrRating is wrapped by every error of ParseRating.
var ErrRating = errors.New("not a fire rating")

var (
	fdForm   = regexp.MustCompile(`^FD\s?-?(\d{1,3})\s?(S?)$`)
	enForm   = regexp.MustCompile(`^(E|EI|EI1|EI2|EW)\s?-?(\d{1,3})((?:\s?-?(?:SA|S200|SM|C\d?|S))*)$`)
	minForm  = regexp.MustCompile(`^(\d{1,3})\s?-?(?:MINUTES|MINUTE|MINS|MIN|M)?\.?(?:\s+(S|SMOKE))?$`)
	hourForm = regexp.MustCompile(`^([\d\s./-]+?)\s?-?(?:HOURS|HOUR|HRS|HR|H)\.?(?:\s+(S|SMOKE))?$`)
)

// ParseRating reads NR, 90, 90 MIN, 1-1/2 HR, 3/4 HR, 45M, FD30, FD30S, E30 Sa,
// EI 30. A letter label (A, B, C …) is refused: the trade reads B as 60 or as 90
// minutes, so the minutes must be asked for.
func ParseRating(s string) (Rating, error) {
	t := strings.ToUpper(strings.Join(strings.Fields(normaliseMarks(s)), " "))
	switch t {
	case "NR", "N.R.", "N/R", "NON-RATED", "NON RATED", "NONRATED", "NOT RATED", "UNRATED", "NONE", "NFR", "NIL", "NO RATING", "NON FIRE RATED", "NON-FIRE RATED":
		return Rating{System: NotRated, Smoke: No}, nil
	}
	if m := fdForm.FindStringSubmatch(t); m != nil {
		n, _ := strconv.Atoi(m[1])
		return checkMinutes(Rating{Minutes: n, System: RatedFD, Smoke: AnswerOf(m[2] == "S")}, s)
	}
	if m := enForm.FindStringSubmatch(t); m != nil {
		n, _ := strconv.Atoi(m[2])
		sys := RatedE
		if strings.HasPrefix(m[1], "EI") {
			sys = RatedEI
		}
		return checkMinutes(Rating{Minutes: n, System: sys, Smoke: AnswerOf(strings.Contains(m[3], "S"))}, s)
	}
	if m := minForm.FindStringSubmatch(t); m != nil {
		n, _ := strconv.Atoi(m[1])
		if n == 0 {
			return Rating{System: NotRated, Smoke: No}, nil
		}
		r := Rating{Minutes: n, System: RatedMinutes}
		if m[2] != "" {
			r.Smoke = Yes
		}
		return checkMinutes(r, s)
	}
	if m := hourForm.FindStringSubmatch(t); m != nil {
		n, err := parseNumber(m[1])
		if err != nil || n.a*60%n.b != 0 {
			return Rating{}, fmt.Errorf("%w: %q", ErrRating, s)
		}
		r := Rating{Minutes: int(n.a * 60 / n.b), System: RatedMinutes}
		if m[2] != "" {
			r.Smoke = Yes
		}
		return checkMinutes(r, s)
	}
	if len(t) == 1 || strings.HasPrefix(t, "CLASS ") || strings.HasSuffix(t, " LABEL") {
		return Rating{}, fmt.Errorf("%w: a letter label %q does not fix the minutes; give minutes", ErrRating, s)
	}
	return Rating{}, fmt.Errorf("%w: %q", ErrRating, s)
}

func checkMinutes(r Rating, s string) (Rating, error) {
	if r.Minutes < 1 || r.Minutes > 360 {
		return Rating{}, fmt.Errorf("%w: %q minutes out of range 1 to 360", ErrRating, s)
	}
	return r, nil
}
