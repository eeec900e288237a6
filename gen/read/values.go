package read

import (
	"fmt"
	"regexp"
	"strings"

	"example.com/lockrail/doorsched"
)

// cellValues is what one text says in one column.
type cellValues struct {
	values      []doorsched.Value // Field, Data, Origin
	placeholder bool
	problem     string
	note        string // for the door's access control note
	assumed     []doorsched.Assumption
}

func (v *cellValues) add(f doorsched.FieldID, data any, o doorsched.Origin) {
	v.values = append(v.values, doorsched.Value{Field: f, Data: data, Origin: o})
}

func (v *cellValues) assume(f doorsched.FieldID, value, reason string) {
	v.assumed = append(v.assumed, doorsched.Assumption{Field: f, Value: value, Reason: reason, By: "read"})
}

// read reads one cell's text. Equal texts of a column say the same, so each is
// read once.
func (c *column) read(text string) cellValues {
	if v, ok := c.memo[text]; ok {
		return v
	}
	v := c.readText(text)
	c.memo[text] = v
	return v
}

func (c *column) readText(text string) cellValues {
	var v cellValues
	if isDitto(text) {
		v.problem = "a ditto mark; write the value out"
		return v
	}
	if isPlaceholder(text, c.info) {
		v.placeholder = true
		return v
	}
	switch {
	case c.how == size:
		c.readSize(&v, text)
	case c.how == access || c.how == electric:
		c.readAccess(&v, text)
	case c.how == yesMeans:
		c.readYesMeans(&v, text)
	case c.info.Kind == doorsched.KindLength:
		c.readLength(&v, text)
	default:
		c.readPlain(&v, text)
	}
	return v
}

func (c *column) readPlain(v *cellValues, text string) {
	if data, ok := spoken(c.field, text); ok {
		v.add(c.field, data, doorsched.Given)
		return
	}
	given := text
	if c.field == doorsched.FireRating.ID() && c.unit == "hr" && bareHours.MatchString(text) {
		given += " HR"
	}
	data, err := c.info.Parse(given, doorsched.Alias{Unit: numberUnit(c), Means: c.means})
	switch {
	case err != nil:
		v.problem = c.explain(text, err)
		if c.field == doorsched.FireRating.ID() && labelLetter.MatchString(text) {
			v.add(doorsched.LabelClass.ID(), text, doorsched.Derived)
		}
	case data == nil:
		v.placeholder = true
	default:
		v.add(c.field, data, doorsched.Given)
		c.derive(v, text, data)
	}
}

var (
	bareHours   = regexp.MustCompile(`^[\d\s./-]+$`)
	labelLetter = regexp.MustCompile(`(?i)^(?:class\s+)?[a-e](?:\s+label)?$`)
)

func numberUnit(c *column) string {
	if c.info.Kind == doorsched.KindNumber {
		return c.unit
	}
	return ""
}

// explain says what is wrong with a value in few words: the field table's error
// already names field and text, which the problem holds apart.
func (c *column) explain(text string, err error) string {
	msg := err.Error()
	msg = strings.TrimPrefix(msg, fmt.Sprintf("%s: %s = %q: ", doorsched.ErrValue, c.info.Name, text))
	return "cannot be read as " + c.info.US + ": " + msg
}

// kindOf gives for fields kept as written the field that holds the kind, set
// where the text names one.
var kindOf = map[doorsched.FieldID]doorsched.FieldID{
	doorsched.DoorMaterial.ID():  doorsched.DoorMat.ID(),
	doorsched.FrameMaterial.ID(): doorsched.FrameMat.ID(),
	doorsched.LockText.ID():      doorsched.Lock.ID(),
	doorsched.HingeText.ID():     doorsched.HingeCount.ID(),
	doorsched.FrameType.ID():     doorsched.FrameMat.ID(),
}

// derive adds what follows from a value.
func (c *column) derive(v *cellValues, text string, data any) {
	if id, ok := kindOf[c.field]; ok && (c.field != doorsched.FrameType.ID() || c.meaning.text != 0) {
		kind, _ := doorsched.FieldInfo(id)
		if k, err := kind.Parse(text, doorsched.Alias{}); err == nil && k != nil {
			v.add(id, k, doorsched.Derived)
		}
	}
	if rating, ok := data.(doorsched.Rating); ok && rating.Smoke == doorsched.Yes {
		v.add(doorsched.Smoke.ID(), doorsched.Yes, doorsched.Derived)
	}
	if c.field == doorsched.Reader.ID() && data != doorsched.Choice("none") {
		v.add(doorsched.AccessControlled.ID(), doorsched.Yes, doorsched.Derived)
	}
}

// spoken reads words that schedules use for a field and the field table does
// not list.
func spoken(f doorsched.FieldID, text string) (any, bool) {
	data, ok := spokenWords[f][strings.ToLower(strings.TrimRight(text, "."))]
	return data, ok
}

var spokenWords = map[doorsched.FieldID]map[string]any{
	doorsched.Leaves.ID(): {
		"pr": int64(2), "pair": int64(2), "dbl": int64(2), "double": int64(2), "double leaf": int64(2), "pair of doors": int64(2), "2 leaf": int64(2), "2 leaves": int64(2),
		"sgl": int64(1), "single": int64(1), "single leaf": int64(1), "1 leaf": int64(1), "s": int64(1), "p": int64(2), "d": int64(2),
	},
	doorsched.Exterior.ID(): {
		"ext": doorsched.Yes, "external": doorsched.Yes, "exterior": doorsched.Yes,
		"int": doorsched.No, "internal": doorsched.No, "interior": doorsched.No,
	},
	doorsched.Smoke.ID(): {"s": doorsched.Yes, "sa": doorsched.Yes, "s200": doorsched.Yes},
	doorsched.Phase.ID(): {
		"new construction": doorsched.Choice("new"), "proposed": doorsched.Choice("new"), "ex": doorsched.Choice("existing"), "exist": doorsched.Choice("existing"),
		"demolished": doorsched.Choice("remove"), "removed": doorsched.Choice("remove"), "by others": doorsched.Choice("by_others"),
	},
}

func (c *column) readYesMeans(v *cellValues, text string) {
	a, err := doorsched.ParseAnswer(text)
	switch {
	case err != nil:
		c.readPlain(v, text) // perhaps one of the field's own words
	case a == doorsched.Yes:
		v.add(c.field, c.yes, doorsched.Given)
	case c.no == "":
		v.problem = "no says nothing certain about " + c.info.US
	case c.field == doorsched.Phase.ID(): // "Existing: no" is new work by exclusion only
		v.add(c.field, c.no, doorsched.Derived)
	default:
		v.add(c.field, c.no, doorsched.Given)
	}
}

// readAccess reads a column about access control. What is neither yes nor no
// nor a kind of lock or reader stays with the door as a note.
func (c *column) readAccess(v *cellValues, text string) {
	note := c.own + ": " + text
	answer, err := doorsched.ParseAnswer(text)
	if err != nil {
		c.readAccessWords(v, text, note)
		return
	}
	if c.how == electric {
		const reason = "an electrified door is taken as access controlled, one that is not as not"
		v.add(c.field, answer, doorsched.Assumed)
		v.assume(c.field, answer.String(), reason)
		return
	}
	if c.info.Kind == doorsched.KindAnswer {
		v.add(c.field, answer, doorsched.Given)
		if c.yes != "" && answer == doorsched.Yes {
			v.add(doorsched.Reader.ID(), c.yes, doorsched.Derived)
		}
		return
	}
	kind := c.yes
	if answer == doorsched.No {
		kind = c.no
	}
	if kind == "" {
		v.note = note
		return
	}
	v.add(c.field, kind, doorsched.Given)
	c.derive(v, text, kind)
	if c.field == doorsched.Override.ID() && answer == doorsched.Yes {
		v.assume(c.field, string(kind), "a break glass unit in an access control column is taken as the green emergency door release, not as a fire alarm call point")
	}
}

func (c *column) readAccessWords(v *cellValues, text, note string) {
	ids := []doorsched.FieldID{doorsched.Lock.ID(), doorsched.Reader.ID()}
	if c.info.Kind == doorsched.KindChoice {
		ids = []doorsched.FieldID{c.field}
	}
	for _, id := range ids {
		info, _ := doorsched.FieldInfo(id)
		data, err := info.Parse(text, doorsched.Alias{})
		if err != nil || data == nil {
			continue
		}
		v.add(id, data, doorsched.Given)
		if id == doorsched.Reader.ID() {
			v.add(doorsched.AccessControlled.ID(), doorsched.Yes, doorsched.Derived)
		}
		return
	}
	v.note = note
}

// readLength reads a length column. Widths may hold a whole size, a pair word or
// two leaves ("PR 762", "926 + 326").
func (c *column) readLength(v *cellValues, text string) {
	leafColumn := c.field == doorsched.LeafWidth.ID()
	if c.field == doorsched.Width.ID() || leafColumn {
		if a, b, ok := strings.Cut(text, "+"); ok {
			c.readTwoLeaves(v, text, a, b)
			return
		}
		if sizeLike.MatchString(text) {
			c.readSize(v, text)
			if leafColumn {
				for i := range v.values {
					if v.values[i].Field == doorsched.Width.ID() {
						v.values[i].Field = c.field
					}
				}
			}
			return
		}
	}
	bare := c.bare
	if c.field == doorsched.Thickness.ID() {
		bare = bareThickness(text, bare)
	}
	c.addLength(v, c.field, text, bare)
}

func (c *column) readTwoLeaves(v *cellValues, text, a, b string) {
	c.addLength(v, doorsched.LeafWidth.ID(), strings.TrimSpace(a), c.bare)
	c.addLength(v, doorsched.InactiveWidth.ID(), strings.TrimSpace(b), c.bare)
	if v.problem != "" {
		*v = cellValues{problem: v.problem}
		return
	}
	x, y := v.values[0].Data.(doorsched.Length), v.values[1].Data.(doorsched.Length)
	v.values[0].Data, v.values[1].Data = max(x, y), min(x, y)
	v.add(doorsched.Leaves.ID(), int64(2), doorsched.Given)
}

// addLength reads text as a length of field id, or says why it cannot be one.
func (c *column) addLength(v *cellValues, id doorsched.FieldID, text string, bare lengthUnit) {
	m, err := doorsched.ParseLength(text, bare.unit)
	if err != nil {
		v.problem = "cannot be read as " + c.info.US + ": " + err.Error()
		return
	}
	c.addMeasure(v, id, m, text, bare)
}

func (c *column) addMeasure(v *cellValues, id doorsched.FieldID, m doorsched.Measure, text string, bare lengthUnit) {
	isBare := bareNumber.MatchString(strings.TrimSpace(text))
	if s, ok := sane[id]; ok && (m.Length < s.least || m.Length > s.most) {
		info, _ := doorsched.FieldInfo(id)
		v.problem = fmt.Sprintf("reads as %s (%s), which is no %s of a door", m.Length, m.Length.FeetInches(), strings.ToLower(info.US))
		if isBare {
			v.problem += fmt.Sprintf("; taken in %s, give the unit if that is wrong", m.Unit)
		}
		return
	}
	v.add(id, m.Length, doorsched.Given)
	if isBare && bare.reason != "" {
		v.assume(id, string(m.Unit), bare.reason)
	}
}

// readSize reads width, height, thickness and pair word from one text.
func (c *column) readSize(v *cellValues, text string) {
	bare := c.bare.unit
	if c.how != size {
		bare = bareUnitOf(text, bare)
	}
	parts := sizeParts.Split(text, -1)
	main := text
	if len(parts) == 3 && !pairWords.MatchString(parts[2]) {
		main = strings.Join(parts[:2], " x ")
	} else {
		parts = parts[:min(len(parts), 2)]
	}
	z, err := doorsched.ParseSize(main, bare)
	if err != nil {
		v.problem = "cannot be read as a size: " + err.Error()
		return
	}
	clean := func(i int) string { return strings.TrimSpace(pairWords.ReplaceAllString(parts[i], "")) }
	callOut := len(parts) == 1 && z.Height.Length > 0
	if callOut {
		v.assume(doorsched.Width.ID(), "feet and inches", "four digits are taken as a call-out: feet and inches of the width, then of the height")
	}
	c.addMeasure(v, doorsched.Width.ID(), z.Width, orEmpty(clean(0), callOut), c.bare)
	switch {
	case callOut:
		c.addMeasure(v, doorsched.Height.ID(), z.Height, "", c.bare)
	case z.Height.Length > 0:
		c.addMeasure(v, doorsched.Height.ID(), z.Height, clean(1), c.bare)
	}
	if len(parts) == 3 {
		t := strings.TrimSpace(parts[2])
		c.addLength(v, doorsched.Thickness.ID(), t, bareThickness(t, c.bare))
	}
	if v.problem != "" {
		*v = cellValues{problem: v.problem}
		return
	}
	if z.Leaves > 0 {
		v.add(doorsched.Leaves.ID(), int64(z.Leaves), doorsched.Given)
	}
	if z.WidthIsLeaf && c.field != doorsched.LeafWidth.ID() {
		v.add(doorsched.WidthIs.ID(), doorsched.Choice("leaf"), doorsched.Derived)
	}
}

func orEmpty(s string, empty bool) string {
	if empty {
		return ""
	}
	return s
}

func show(v doorsched.Value) string {
	if v.Raw != "" {
		return quote(v.Raw)
	}
	info, _ := doorsched.FieldInfo(v.Field)
	return info.Format(v.Data)
}
