package doorsched

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Length is a length in nanometres. One 64th of an inch is exactly 396,875 nm,
// so feet, inches, vulgar fractions and millimetres are all exact and a limit
// compares the same whichever way a size was written.
type Length int64

// Units of length.
const (
	Nanometre  Length = 1
	Millimetre Length = 1_000_000
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch       Length = 25_400_000
	Foot              = 12 * Inch
)

// Inches returns n inches, to the nearest nanometre.
func Inches(n float64) Length { return Length(math.Round(n * float64(Inch))) }

// Millimetres returns n millimetres, to the nearest nanometre.
func Millimetres(n float64) Length { return Length(math.Round(n * float64(Millimetre))) }

// Millimetres returns the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Inches returns the length in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Metres returns the length in metres.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// String gives the length in millimetres with at most two decimals: "660.4 mm".
func (l Length) String() string {
	return trimZeros(strconv.FormatFloat(l.Millimetres(), 'f', 2, 64)) + " mm"
}

// FeetInches gives the length as 3'-0" or 8'-8 3/8", to the nearest 64th of an inch.
func (l Length) FeetInches() string {
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	const tick = Inch / 64
	n := int64((l + tick/2) / tick)
	feet, n := n/(64*12), n%(64*12)
	inches, n := n/64, n%64
	frac := ""
	if n != 0 {
		d := int64(64)
		for n%2 == 0 {
			n, d = n/2, d/2
		}
		frac = fmt.Sprintf(" %d/%d", n, d)
	}
	return fmt.Sprintf("%s%d'-%d%s\"", sign, feet, inches, frac)
}

func trimZeros(s string) string {
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// Unit is a unit in which a bare number may be meant.
type Unit string

// Units that lengths are written in. UnitBySize lets the parser choose between
// inches and millimetres from the number's size, and say that it did.
const (
	UnitBySize     Unit = ""
	UnitMillimetre Unit = "mm"
	UnitCentimetre Unit = "cm"
	UnitMetre      Unit = "m"
	UnitInch       Unit = "in"
	UnitFoot       Unit = "ft"
)

func (u Unit) length() (Length, bool) {
	switch u {
	case UnitMillimetre:
		return Millimetre, true
	case UnitCentimetre:
		return Centimetre, true
	case UnitMetre:
		return Metre, true
	case UnitInch:
		return Inch, true
	case UnitFoot:
		return Foot, true
	}
	return 0, false
}

// Measure is a parsed length, the unit it was read in, and whether that unit
// was written (false) or assumed (true).
type Measure struct {
	Length  Length
	Unit    Unit
	Assumed bool
}

// ErrLength is wrapped by every error of ParseLength.
var ErrLength = errors.New("not a length")

// largestBareInches separates inches from millimetres when a bare number is
// read by size: no door is 250 in wide, none is narrower than 250 mm.
const largestBareInches = 250

// ParseLength reads a length as schedules write it: 3'-0", 3' - 0 1/2", 3-0,
// 36", 1 3/4", 1-3/4", 3 ft 6 in, 915 mm, 0.915 m, 915. A bare number is read in
// unit bare; with UnitBySize one below 250 is inches, any other millimetres, and
// Assumed is set.
func ParseLength(s string, bare Unit) (Measure, error) {
	text := normaliseMarks(s)
	if text == "" {
		return Measure{}, fmt.Errorf("%w: empty", ErrLength)
	}
	if i := strings.IndexAny(text, "oOlI"); i >= 0 && strings.ContainsAny(text, `'"0123456789`) && !hasUnitLetters(text) {
		return Measure{}, fmt.Errorf("%w: %q has the letter %q where a digit belongs", ErrLength, s, text[i])
	}
	m, err := parseMarked(text, bare)
	if err != nil {
		return Measure{}, fmt.Errorf("%w: %q %s", ErrLength, s, err)
	}
	if m.Length < 0 || m.Length > 1000*Metre {
		return Measure{}, fmt.Errorf("%w: %q is out of range", ErrLength, s)
	}
	return m, nil
}

func hasUnitLetters(s string) bool {
	l := strings.ToLower(s)
	for _, u := range []string{"mm", "cm", "m", "in", "ft", "feet", "foot", "inch"} {
		if strings.HasSuffix(strings.TrimRight(l, ". "), u) {
			return true
		}
	}
	return false
}

// normaliseMarks folds typographic primes, quotes, dashes and spaces to ASCII,
// and two apostrophes to one inch mark.
func normaliseMarks(s string) string {
	r := strings.NewReplacer(
		"\u2032", "'", "\u2019", "'", "\u2018", "'", "\u00b4", "'", "`", "'",
		"\u2033", `"`, "\u201d", `"`, "\u201c", `"`,
		"\u2013", "-", "\u2014", "-", "\u2212", "-", "\u2010", "-", "\u2011", "-",
		"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
		"\u00bd", " 1/2", "\u00bc", " 1/4", "\u00be", " 3/4", "\u215b", " 1/8", "\u215c", " 3/8", "\u215d", " 5/8", "\u215e", " 7/8",
	)
	s = strings.ReplaceAll(r.Replace(strings.TrimSpace(s)), "''", `"`)
	return strings.Join(strings.Fields(s), " ")
}

var unitWords = []struct {
	word string
	unit Unit
}{
	{"millimetres", UnitMillimetre}, {"millimeters", UnitMillimetre}, {"mm", UnitMillimetre},
	{"cm", UnitCentimetre}, {"metres", UnitMetre}, {"meters", UnitMetre}, {"m", UnitMetre},
	{"inches", UnitInch}, {"inch", UnitInch}, {"in", UnitInch}, {`"`, UnitInch},
	{"feet", UnitFoot}, {"foot", UnitFoot}, {"ft", UnitFoot}, {"'", UnitFoot},
}

func cutUnit(s string) (string, Unit, bool) {
	l := strings.ToLower(strings.TrimRight(s, ". "))
	for _, w := range unitWords {
		if rest, ok := strings.CutSuffix(l, w.word); ok {
			return strings.TrimSpace(rest), w.unit, true
		}
	}
	return strings.TrimSpace(l), "", false
}

func parseMarked(text string, bare Unit) (Measure, error) {
	low := strings.ToLower(text)
	for _, w := range []string{"feet", "foot", "ft.", "ft"} {
		if i := strings.Index(low, w); i > 0 {
			low = low[:i] + "'" + low[i+len(w):]
			break
		}
	}
	// feet and inches
	if f, rest, ok := strings.Cut(low, "'"); ok {
		feet, err := parseNumber(f)
		if err != nil {
			return Measure{}, err
		}
		rest = strings.TrimSpace(rest)
		rest = strings.TrimSpace(strings.TrimPrefix(rest, "-"))
		if rest == "" {
			return Measure{Length: scale(feet, Foot), Unit: UnitFoot}, nil
		}
		num, unit, hasUnit := cutUnit(rest)
		if hasUnit && unit != UnitInch {
			return Measure{}, fmt.Errorf("mixes feet with %s", unit)
		}
		inches, err := parseNumber(num)
		if err != nil {
			return Measure{}, err
		}
		if inches.value() >= 12 {
			return Measure{}, errors.New("has 12 inches or more after the feet")
		}
		return Measure{Length: scale(feet, Foot) + scale(inches, Inch), Unit: UnitFoot}, nil
	}
	num, unit, hasUnit := cutUnit(low)
	// 3-0: hyphen feet-inches, but 1-3/4 is a mixed fraction
	if f, in, ok := strings.Cut(num, "-"); ok && !hasUnit && !strings.Contains(num, "/") {
		feet, err := parseNumber(f)
		if err != nil {
			return Measure{}, err
		}
		inches, err := parseNumber(in)
		if err != nil {
			return Measure{}, err
		}
		if inches.value() >= 12 {
			return Measure{}, errors.New("has 12 inches or more after the hyphen")
		}
		return Measure{Length: scale(feet, Foot) + scale(inches, Inch), Unit: UnitFoot}, nil
	}
	n, err := parseNumber(num)
	if err != nil {
		return Measure{}, err
	}
	m := Measure{Unit: unit}
	if !hasUnit {
		m.Unit, m.Assumed = bare, bare == UnitBySize
		switch {
		case bare != UnitBySize:
		case strings.Contains(num, "/") || n.value() < largestBareInches:
			m.Unit = UnitInch
		default:
			m.Unit = UnitMillimetre
		}
	}
	u, ok := m.Unit.length()
	if !ok {
		return Measure{}, fmt.Errorf("has no length unit (%q)", m.Unit)
	}
	m.Length = scale(n, u)
	return m, nil
}

// ratio is an exact non-negative number a/b.
type ratio struct{ a, b int64 }

func (r ratio) value() float64 { return float64(r.a) / float64(r.b) }

// scale multiplies exactly where the result is a whole number of nanometres and
// rounds to the nearest otherwise.
func scale(r ratio, u Length) Length {
	whole, rest := r.a/r.b, r.a%r.b
	return Length(whole)*u + Length((rest*int64(u)+r.b/2)/r.b)
}

// parseNumber reads 3, 3.5, 3/8, 1 3/4, 1-3/4. Values beyond 10^7 or finer than
// 10^-6 are refused, which keeps scale within int64.
func parseNumber(s string) (ratio, error) {
	s = strings.TrimSpace(s)
	bad := fmt.Errorf("cannot be read (%q is not a number)", s)
	whole, frac := s, ""
	if i := strings.LastIndexAny(s, " -"); i > 0 && strings.Contains(s[i:], "/") {
		whole, frac = strings.TrimSpace(s[:i]), s[i+1:]
	} else if strings.Contains(s, "/") {
		whole, frac = "0", s
	}
	d, err := parseDecimal(whole)
	if err != nil {
		return ratio{}, bad
	}
	if frac == "" {
		return d, nil
	}
	n, den, ok := strings.Cut(frac, "/")
	a, err1 := strconv.ParseInt(strings.TrimSpace(n), 10, 32)
	b, err2 := strconv.ParseInt(strings.TrimSpace(den), 10, 32)
	if !ok || err1 != nil || err2 != nil || a < 0 || b <= 0 || b > 1024 || d.b != 1 || a >= b*1000 {
		return ratio{}, bad
	}
	return ratio{d.a*b + a, b}, nil
}

func parseDecimal(s string) (ratio, error) {
	bad := errors.New("not a number")
	digits, frac, _ := strings.Cut(s, ".")
	if digits == "" && frac == "" {
		return ratio{}, bad
	}
	if len(digits) > 7 || len(frac) > 6 {
		return ratio{}, bad
	}
	r := ratio{0, 1}
	for _, c := range digits + frac {
		if c < '0' || c > '9' {
			return ratio{}, bad
		}
		r.a = r.a*10 + int64(c-'0')
	}
	for range frac {
		r.b *= 10
	}
	return r, nil
}
