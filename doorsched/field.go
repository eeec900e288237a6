package doorsched

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
)

// FieldID names one field of the table. Its order is the table's order.
type FieldID uint16

// NoField is the zero FieldID; no field of the table has it.
const NoField FieldID = 0

// Kind is how a field's values are written and compared.
type Kind string

// Kinds of field.
const (
	KindText   Kind = "text"
	KindLength Kind = "length"
	KindNumber Kind = "number"
	KindCount  Kind = "count"
	KindAnswer Kind = "yes-no"
	KindChoice Kind = "choice"
	KindMeans  Kind = "set"
	KindRating Kind = "fire rating"
)

// Scope is what one value of a field belongs to. A field asked once for a
// building holds for all its doors, unless a door says otherwise.
type Scope string

// Scopes, widest first.
const (
	ScopeProject  Scope = "project"
	ScopeBuilding Scope = "building"
	ScopeStorey   Scope = "storey"
	ScopeRoom     Scope = "room"
	ScopeDoor     Scope = "door"
	ScopeLeaf     Scope = "leaf"
)

// Stage is when a field can be known at all.
type Stage string

// Stages in order of a job.
const (
	StageDesign        Stage = "design"
	StageSurvey        Stage = "survey"
	StageCommissioning Stage = "commissioning"
)

// Alias is another name under which a field is given, with the unit a bare
// number has under that name (hw_h_in is in inches, clear_w_mm in millimetres).
// An alias of a set field may stand for one of its means.
type Alias struct {
	Name  string
	Unit  string
	Means Means
}

// Option is one accepted value of a choice, with other spellings.
type Option struct {
	Name    Choice
	Aliases []string
}

// Choice is one of a field's accepted values.
type Choice string

// Info describes one field of the table.
type Info struct {
	ID      FieldID
	Name    string // machine name, lower case with underscores
	US, UK  string // the trade's words
	Kind    Kind
	Unit    string // unit of numbers and, for lengths, of bare numbers under the machine name ("" = by size)
	Options []Option
	Scope   Scope
	Stage   Stage
	Help    string
	Aliases []Alias
}

// Words returns the field's name in the words of a region.
func (i Info) Words(r Region) string {
	if r == RegionUK {
		return i.UK
	}
	return i.US
}

// Choices lists the names of the accepted values.
func (i Info) Choices() []string {
	var out []string
	for _, o := range i.Options {
		out = append(out, string(o.Name))
	}
	if i.Kind == KindAnswer {
		return []string{"yes", "no"}
	}
	if i.Kind == KindMeans {
		for _, m := range meansNames {
			out = append(out, m.name)
		}
	}
	return out
}

// Fields returns the table of fields in its order.
func Fields() []Info { return append([]Info(nil), table.rows...) }

// FieldInfo returns one row of the table; ok is false for an id outside it.
func FieldInfo(id FieldID) (Info, bool) {
	if id == NoField || int(id) > len(table.rows) {
		return Info{}, false
	}
	return table.rows[id-1], true
}

// String returns the machine name.
func (id FieldID) String() string {
	if i, ok := FieldInfo(id); ok {
		return i.Name
	}
	return fmt.Sprintf("field %d", uint16(id))
}

// LookupField finds a field by machine name or alias; spaces, hyphens and case
// do not matter.
func LookupField(name string) (Info, Alias, bool) {
	n := canonName(name)
	hit, ok := table.byName[n]
	if !ok {
		return Info{}, Alias{}, false
	}
	return table.rows[hit.id-1], hit.alias, true
}

func canonName(s string) string {
	s = strings.ToLower(strings.TrimSpace(s))
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' {
			return '_'
		}
		return r
	}, s)
}

// ErrField is wrapped by errors about a field name that the table does not have.
var ErrField = errors.New("unknown field")

// ErrValue is wrapped by errors about a value that a field does not accept.
var ErrValue = errors.New("value not accepted")

// Set parses text and stores it in r under the field called name, which may be
// an alias. Empty text, "unknown" and "?" leave the field Unknown.
func Set(r *Record, name, text string, origin Origin) error {
	info, alias, ok := LookupField(name)
	if !ok {
		if near := nearestField(canonName(name)); near != "" {
			return fmt.Errorf("%w %q; did you mean %q?", ErrField, name, near)
		}
		return fmt.Errorf("%w %q", ErrField, name)
	}
	v, err := info.Parse(text, alias)
	if err != nil {
		return err
	}
	if v == nil {
		return nil
	}
	r.Put(Value{Field: info.ID, Data: v, Origin: origin, Raw: text})
	return nil
}

// Parse reads text as a value of the field: a Length, float64, int64, Answer,
// Choice, MeansSet, Rating or string. It returns nil where the text says
// nothing. Errors wrap ErrValue and name the field and the text.
func (i Info) Parse(text string, under Alias) (any, error) {
	t := strings.TrimSpace(text)
	switch strings.ToLower(t) {
	case "", "unknown", "?":
		return nil, nil
	}
	fail := func(err error) (any, error) {
		return nil, fmt.Errorf("%w: %s = %q: %w", ErrValue, i.Name, text, err)
	}
	if under.Means != 0 {
		a, err := ParseAnswer(t)
		if err != nil {
			return fail(err)
		}
		return OneMeans(under.Means, a == Yes), nil
	}
	unit := under.Unit
	if unit == "" {
		unit = i.Unit
	}
	switch i.Kind {
	case KindText:
		return t, nil
	case KindLength:
		bare := Unit(unit)
		m, err := ParseLength(t, bare)
		if err != nil {
			return fail(err)
		}
		return m.Length, nil
	case KindNumber:
		n, err := parseQuantity(t, unit, i.Unit)
		if err != nil {
			return fail(err)
		}
		return n, nil
	case KindCount:
		n, err := strconv.ParseInt(strings.ReplaceAll(t, ",", ""), 10, 64)
		if err != nil || n < 0 {
			if f, ferr := strconv.ParseFloat(t, 64); ferr == nil && f >= 0 && f < 1e9 && f == float64(int64(f)) {
				return int64(f), nil
			}
			return fail(errors.New("not a whole number"))
		}
		return n, nil
	case KindAnswer:
		a, err := ParseAnswer(t)
		if err != nil {
			return fail(err)
		}
		return a, nil
	case KindChoice:
		c := canonName(t)
		for _, o := range i.Options {
			if canonName(string(o.Name)) == c {
				return o.Name, nil
			}
			for _, a := range o.Aliases {
				if canonName(a) == c {
					return o.Name, nil
				}
			}
		}
		return fail(fmt.Errorf("not one of %s", strings.Join(i.Choices(), ", ")))
	case KindMeans:
		s, err := ParseMeans(t)
		if err != nil {
			return fail(err)
		}
		return s, nil
	case KindRating:
		r, err := ParseRating(t)
		if err != nil {
			return fail(err)
		}
		return r, nil
	}
	return fail(errors.New("field has no kind"))
}

// Format writes a value of the field as Parse would read it back.
func (i Info) Format(data any) string {
	switch v := data.(type) {
	case Length:
		return FormatNumber(v.Millimetres(), 6) + " mm" // to the nanometre
	case float64:
		s := strconv.FormatFloat(v, 'f', -1, 64)
		if i.Unit != "" {
			s += " " + i.Unit
		}
		return s
	case int64:
		return strconv.FormatInt(v, 10)
	case Answer:
		return v.String()
	case Choice:
		return string(v)
	case MeansSet:
		return v.String()
	case Rating:
		return v.String()
	case string:
		return v
	}
	return ""
}

// ParseAnswer reads yes and no as schedules write them.
func ParseAnswer(s string) (Answer, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "yes", "y", "true", "1", "x", "✓", "✔", "required", "req'd", "provided":
		return Yes, nil
	case "no", "n", "false", "0", "none", "not required":
		return No, nil
	}
	return Unknown, errors.New("not yes or no")
}

// factors converts a unit of a number field to the unit the table stores.
var factors = map[string]map[string]float64{
	"N":   {"N": 1, "lbf": 4.4482216152605, "kN": 1000},
	"N.m": {"N.m": 1, "Nm": 1, "in-lbf": 0.1129848290276167},
	"kg":  {"kg": 1, "lb": 0.45359237, "lbs": 0.45359237},
	"s":   {"s": 1, "sec": 1, "min": 60},
	"h":   {"h": 1, "hr": 1, "hours": 1, "min": 1.0 / 60},
	"m2":  {"m2": 1, "ft2": 0.09290304, "sf": 0.09290304},
	"V":   {"V": 1, "VDC": 1},
	"A":   {"A": 1, "mA": 0.001},
	"W":   {"W": 1},
	"deg": {"deg": 1, "°": 1},
	"C":   {"C": 1, "°C": 1},
	"mm2": {"mm2": 1, "mm²": 1, "in2": 645.16},
	"":    {"": 1},
}

func parseQuantity(t, bareUnit, store string) (float64, error) {
	num, unit := t, bareUnit
	if k := strings.IndexFunc(t, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != '-' && r != '+' }); k > 0 {
		num, unit = t[:k], strings.TrimSpace(t[k:])
	}
	n, err := strconv.ParseFloat(num, 64)
	if err != nil || n != n || n > 1e12 || n < -1e12 {
		return 0, errors.New("not a number")
	}
	for u, f := range factors[store] {
		if strings.EqualFold(u, unit) {
			return n * f, nil
		}
	}
	return 0, fmt.Errorf("unit %q is not understood here (expected %s)", unit, store)
}

func nearestField(name string) string {
	best, bestD := "", 3
	for _, r := range table.rows {
		names := []string{r.Name}
		for _, a := range r.Aliases {
			names = append(names, a.Name)
		}
		for _, n := range names {
			if d := EditDistance(name, n); d < bestD {
				best, bestD = n, d
			}
		}
	}
	return best
}

// EditDistance counts the insertions, deletions and substitutions of runes that
// turn a into b.
func EditDistance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	prev := make([]int, len(rb)+1)
	for j := range prev {
		prev[j] = j
	}
	for i, x := range ra {
		diag := prev[0]
		prev[0] = i + 1
		for j, y := range rb {
			cost := diag
			if x != y {
				cost++
			}
			diag = prev[j+1]
			prev[j+1] = min(cost, prev[j]+1, diag+1)
		}
	}
	return prev[len(rb)]
}

// Field is a typed handle on one row of the table. T is the Go type of its
// values: Length, float64, int64, Answer, Choice, MeansSet, Rating or string.
type Field[T any] struct{ id FieldID }

// ID returns the row the handle stands for.
func (f Field[T]) ID() FieldID { return f.id }

// String returns the machine name.
func (f Field[T]) String() string { return f.id.String() }

// Of returns the value that r itself holds.
func (f Field[T]) Of(r *Record) Opt[T] {
	if v, ok := r.Get(f.id); ok {
		if t, ok := v.Data.(T); ok {
			return Known(t)
		}
	}
	return Opt[T]{}
}

// In returns the value that holds for a door: its own, else its room's,
// storey's, building's, project's.
func (f Field[T]) In(v View) Opt[T] {
	if x, ok := v.Get(f.id); ok {
		if t, ok := x.Data.(T); ok {
			return Known(t)
		}
	}
	return Opt[T]{}
}

// Put stores v in r.
func (f Field[T]) Put(r *Record, v T, origin Origin) {
	r.Put(Value{Field: f.id, Data: v, Origin: origin})
}
