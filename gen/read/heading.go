package read

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"example.com/lockrail/doorsched"
)

// Confidence says how a column's field was found.
type Confidence string

// Confidences.
const (
	Exact   Confidence = "exact"   // machine name or alias of the field table
	Synonym Confidence = "synonym" // a heading of the vocabulary
	Near    Confidence = "near"    // a heading of the vocabulary with a slip in it
	ByGroup Confidence = "group"   // settled by a group label or a neighbouring column
	ByUser  Confidence = "user"    // the user's correction
)

// key folds a heading to what is compared: letters and digits in lower case.
// "Dr. No.", "DR NO" and "dr_no" are one heading; so are "DoorLeafWidth" and
// "Door leaf width".
func key(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

var (
	bracketed  = regexp.MustCompile(`^(.*?)[\s,]*[\(\[]\s*([^()\[\]]*?)\s*[\)\]]\s*$`)
	unitAtEnd  = regexp.MustCompile(`(?i)^(.*\S)[\s,]+(?:in\s+)?(mm|cm|inches|kg|lbs)\.?$`)
	headUnits  = map[string]string{"mm": "mm", "millimetres": "mm", "millimeters": "mm", "cm": "cm", "m": "m", "metres": "m", "in": "in", "ins": "in", "inch": "in", "inches": "in", `"`: "in", "ft": "ft", "feet": "ft", "kg": "kg", "lb": "lb", "lbs": "lb", "min": "min", "mins": "min", "minutes": "min", "hr": "hr", "hrs": "hr", "hours": "hr", "h": "hr", "v": "V", "a": "A", "ma": "mA", "w": "W", "n": "N", "lbf": "lbf", "s": "s", "sec": "s"}
	yesNoAsked = regexp.MustCompile(`(?i)^y(es)?\s*/\s*n(o)?$`)
)

// cutUnit takes the unit out of a heading: "Width (mm)", "Width, mm".
func cutUnit(s string) (rest, unit string) {
	if m := bracketed.FindStringSubmatch(s); m != nil {
		if u, ok := headUnits[strings.ToLower(strings.TrimSuffix(m[2], "."))]; ok {
			return m[1], u
		}
		if yesNoAsked.MatchString(m[2]) {
			return m[1], ""
		}
	}
	if m := unitAtEnd.FindStringSubmatch(s); m != nil {
		return m[1], headUnits[strings.ToLower(m[2])]
	}
	return s, ""
}

// pureUnit reports whether a header cell is only a unit, as a line of units
// under the headings holds.
func pureUnit(s string) (string, bool) {
	u, ok := headUnits[strings.ToLower(strings.Trim(s, "()[]. "))]
	return u, ok && s != ""
}

// found is what a heading turned out to mean.
type found struct {
	meaning
	confidence Confidence
	// open is set where the heading alone does not settle its field and no group
	// label did: meaning is then what it is if nothing else claims that.
	open choiceOfClass
	// byLabel is set where a group label settled it.
	byLabel bool
}

// look finds the meaning of a column's header texts, group labels first. ok is
// false where the vocabulary has nothing.
func (x *lexicon) look(path []string) (found, bool) {
	if len(path) == 0 {
		return found{}, false
	}
	own, unit := cutUnit(path[len(path)-1])
	labels := path[:len(path)-1]
	if len(labels) == 0 && machineLike(own) {
		if f, ok := machineName(own); ok {
			return f, true
		}
	}
	f, ok := x.lookOwn(own, labels)
	if !ok && own != path[len(path)-1] {
		// the bracket may belong to the name: Fire Rating (FD)
		if f, ok = x.lookOwn(path[len(path)-1], labels); ok {
			unit = ""
		}
	}
	if unit != "" {
		f.unit = unit
	}
	return f, ok
}

func (x *lexicon) lookOwn(own string, labels []string) (found, bool) {
	k := key(own)
	if k == "" {
		return found{}, false
	}
	by, isOpen := x.ambiguous[k]
	// The nearest label joined with the heading may be a heading itself: Frame
	// + Material, Structural Opening + Width.
	for i := len(labels) - 1; i >= 0; i-- {
		label := key(labels[i])
		if m, ok := x.names[label+k]; ok && (isOpen || !x.known(k)) {
			return found{meaning: m, confidence: ByGroup, byLabel: true}, true
		}
		if isOpen {
			if m, ok := by[x.classOf(label)]; ok {
				return found{meaning: m, confidence: ByGroup, byLabel: true}, true
			}
		}
	}
	if m, ok := x.names[k]; ok {
		f := found{meaning: m, confidence: Synonym}
		if isOpen {
			f.open = by
		}
		return f, true
	}
	if isOpen { // a word that means something only under a label: Set, Name
		return found{}, false
	}
	if f, ok := x.lookParts(own); ok {
		return f, true
	}
	for _, prefix := range []string{"doorset", "door", "dr"} {
		if rest, ok := strings.CutPrefix(k, prefix); ok {
			if m, ok := x.names[rest]; ok {
				return found{meaning: m, confidence: Synonym}, true
			}
		}
	}
	if m, ok := x.near(k); ok {
		return found{meaning: m, confidence: Near}, true
	}
	return found{}, false
}

func (x *lexicon) known(k string) bool { _, ok := x.names[k]; return ok }

// classOf returns the class of a group label's key. Labels in the plural or with
// "information" added are common enough to be in the list; anything else says
// nothing.
func (x *lexicon) classOf(label string) class { return x.groups[label] }

var partSplit = regexp.MustCompile(`\s*[/&+]\s*|\s+and\s+`)

// lookParts reads "Notes / Comments": several words for one field.
func (x *lexicon) lookParts(own string) (found, bool) {
	parts := partSplit.Split(own, -1)
	if len(parts) < 2 {
		return found{}, false
	}
	var out meaning
	for i, p := range parts {
		m, ok := x.names[key(p)]
		if !ok || i > 0 && m.field != out.field {
			return found{}, false
		}
		if i == 0 || m.rank < out.rank {
			out = m
		}
	}
	return found{meaning: out, confidence: Synonym}, true
}

// machineLike reports whether a heading is written like a machine name rather
// than by a person: no capitals, no spaces, at least one underscore.
func machineLike(s string) bool {
	return strings.Contains(s, "_") && !strings.ContainsFunc(s, func(r rune) bool { return unicode.IsUpper(r) || unicode.IsSpace(r) })
}

func machineName(s string) (found, bool) {
	info, alias, ok := doorsched.LookupField(s)
	if !ok {
		return found{}, false
	}
	return found{meaning: meaning{field: info.ID, unit: alias.Unit, means: alias.Means}, confidence: Exact}, true
}

// minNear is the length from which one slip is forgiven: shorter headings turn
// into each other too easily (Door Rev, Door Ref).
const minNear = 8

func longKeys(m map[string]meaning) []string {
	var out []string
	for k := range m {
		if len(k) >= minNear-2 {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	return out
}

// near forgives two neighbouring letters swapped (Heigth) in headings of six
// letters or more, one other slip from eight, two from eleven, if that leads to
// one field only.
func (x *lexicon) near(k string) (meaning, bool) {
	if len(k) < minNear-2 {
		return meaning{}, false
	}
	var out meaning
	best := 99
	for _, w := range x.long {
		if w[0] != k[0] || len(w) > len(k)+2 || len(k) > len(w)+2 {
			continue
		}
		d := 99
		if swapped(k, w) {
			d = 1
		} else if n := doorsched.EditDistance(k, w); n == 1 && len(w) >= minNear || n == 2 && len(w) >= minNear+3 {
			d = n
		}
		m := x.names[w]
		switch {
		case d < best:
			best, out = d, m
		case d == best && d < 99 && m.field != out.field:
			return meaning{}, false
		}
	}
	return out, best < 99
}

// swapped reports whether a and b differ by two neighbouring letters exchanged.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		}
	}
	return false
}
