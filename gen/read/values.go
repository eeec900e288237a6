package read

import (
	"fmt"
	"regexp"
	"strings"

	"example.com/lockrail/doorsched"
)

// writer fills doors from rows.
type writer struct {
	*reader
	res  *Result
	cols []column
	bare doorsched.Unit
}

var waiting = regexp.MustCompile(`(?i)^(tbc|tbd|t\.b\.c|t\.b\.d|see |refer to |to be confirmed|to be determined|to be advised|pending)`)

// placeholder reports a text that holds no data.
func placeholder(t string) bool {
	switch strings.ToLower(strings.Trim(t, " .")) {
	case "", "-", "--", "---", "–", "—", "n/a", "na", "n.a", "?", "??", "…", "*":
		return true
	}
	return waiting.MatchString(t)
}

// unit settles the unit of bare lengths from the cells that carry one.
func (w *writer) unit() {
	if w.bare = w.opt.Unit; w.bare != "" {
		return
	}
	imperial, metric, bare := 0, 0, 0
	for _, c := range w.cols {
		info, ok := doorsched.FieldInfo(c.Field)
		if !ok || info.Kind != doorsched.KindLength || c.Unit != "" {
			continue
		}
		for _, row := range w.grid.rows {
			t := row.text(c.Col)
			m, err := doorsched.ParseLength(t, doorsched.UnitBySize)
			switch {
			case t == "" || err != nil:
			case m.Assumed:
				bare++
			case m.Unit == doorsched.UnitInch || m.Unit == doorsched.UnitFoot:
				imperial++
			default:
				metric++
			}
		}
	}
	var reason string
	switch {
	case bare == 0:
		return
	case imperial > 0 && metric == 0:
		w.bare, reason = doorsched.UnitInch, "other sizes of the file are in feet and inches"
	case metric > 0 && imperial == 0:
		w.bare, reason = doorsched.UnitMillimetre, "other sizes of the file are metric"
	default:
		reason = "no unit is written; below 250 is read as inches, other numbers as millimetres"
	}
	unit := string(w.bare)
	if unit == "" {
		unit = "by size"
	}
	w.res.Assumed = append(w.res.Assumed, doorsched.Assumption{What: "unit of bare lengths", Value: unit, Reason: reason, By: "read"})
}

func (w *writer) door(row gridRow, storey, building string) {
	mark := row.text(w.res.Table.MarkCol)
	d := doorsched.Door{Mark: mark, Source: w.grid.cell(row.number, w.res.Table.MarkCol), Storey: storey, Building: building}
	for _, c := range w.cols {
		cell, ok := row.at(c.Col)
		if !ok || c.Field == doorsched.NoField {
			continue
		}
		w.value(&d, c, cell, w.grid.cell(row.number, c.Col))
	}
	own := func(f doorsched.Field[string], to *string) {
		if v, ok := f.Of(&d.Record).Get(); ok {
			*to = v
		}
	}
	own(doorsched.Level, &d.Storey)
	own(doorsched.BuildingName, &d.Building)
	own(doorsched.RoomFrom, &d.Room)
	own(doorsched.RoomTo, &d.Room)
	w.res.Schedule.Doors = append(w.res.Schedule.Doors, d)
}

// value reads one cell.
func (w *writer) value(d *doorsched.Door, c column, cell gridCell, at doorsched.Cell) {
	info, _ := doorsched.FieldInfo(c.Field)
	put := func(id doorsched.FieldID, data any, o doorsched.Origin) {
		d.Put(doorsched.Value{Field: id, Data: data, Origin: o, Cell: at, Raw: cell.text})
	}
	bad := func(msg string) {
		w.res.Problems = append(w.res.Problems, Problem{Cell: at, Door: d.Mark, Field: c.Field, Value: cell.text, Message: msg})
	}
	if placeholder(cell.text) {
		w.res.Placeholders = append(w.res.Placeholders, Placeholder{at, d.Mark, c.Field, cell.text})
		return
	}
	if cell.fault != "" && info.Kind != doorsched.KindText {
		bad(fmt.Sprintf("%s %s: %s. The field is taken as not given.", at, quote(cell.text), cell.fault))
		return
	}
	answer, isAnswer := doorsched.ParseAnswer(cell.text)
	switch c.how {
	case size:
		w.size(d, c, cell, at, bad)
		return
	case yesMeans, access, electric:
		switch {
		case isAnswer == nil && c.how == electric:
			put(doorsched.AccessText.ID(), c.Heading+": "+cell.text, doorsched.Given)
			return
		case isAnswer == nil && info.Kind == doorsched.KindAnswer:
			put(c.Field, answer, doorsched.Given)
			return
		case isAnswer == nil && answer == doorsched.Yes && c.yes != "":
			put(c.Field, c.yes, doorsched.Given)
			if c.Field == doorsched.Override.ID() {
				w.assume(c.Field, string(c.yes), "a break glass unit is taken for an emergency door release", d.Mark)
			}
			return
		case isAnswer == nil && answer == doorsched.No && c.no != "":
			put(c.Field, c.no, doorsched.Given)
			return
		case isAnswer == nil:
			put(doorsched.AccessText.ID(), c.Heading+": "+cell.text, doorsched.Given)
			return
		}
	}
	text := cell.text
	if c.Field == doorsched.Width.ID() || c.Field == doorsched.LeafWidth.ID() {
		if z, err := doorsched.ParseSize(text, w.unitOf(c)); err == nil && z.Leaves != 0 {
			w.size(d, c, cell, at, bad)
			return
		}
	}
	if c.Field == doorsched.Exterior.ID() {
		switch l := strings.ToLower(text); {
		case strings.HasPrefix(l, "ext"):
			text = "yes"
		case strings.HasPrefix(l, "int"):
			text = "no"
		}
	}
	unit := c.Unit
	if info.Kind == doorsched.KindLength && unit == "" && info.Unit == "" {
		unit = string(w.bare)
	}
	data, err := info.Parse(text, doorsched.Alias{Unit: unit, Means: c.means})
	switch {
	case err != nil && c.text != doorsched.NoField:
		put(c.text, cell.text, doorsched.Given)
		return
	case err != nil && (c.how == access || c.how == yesMeans || c.how == electric):
		put(doorsched.AccessText.ID(), c.Heading+": "+cell.text, doorsched.Given)
		return
	case err != nil:
		bad(fmt.Sprintf("%s cannot be read as %s: %v. The field is taken as not given.", at, strings.ToLower(info.US), err))
		return
	case data == nil:
		return
	}
	put(c.Field, data, doorsched.Given)
	w.derive(d, c.Field, data, put)
}

// derive adds what follows from a value, at the same cell.
func (w *writer) derive(d *doorsched.Door, id doorsched.FieldID, data any, put func(doorsched.FieldID, any, doorsched.Origin)) {
	kinds := map[doorsched.FieldID]doorsched.FieldID{
		doorsched.DoorMaterial.ID(): doorsched.DoorMat.ID(), doorsched.FrameMaterial.ID(): doorsched.FrameMat.ID(),
	}
	if kind, ok := kinds[id]; ok {
		if _, have := d.Get(kind); have {
			return
		}
		info, _ := doorsched.FieldInfo(kind)
		if v, err := info.Parse(data.(string), doorsched.Alias{}); err == nil && v != nil {
			put(kind, v, doorsched.Derived)
		}
	}
	if r, ok := data.(doorsched.Rating); ok && r.Smoke != doorsched.Unknown && r.Rated() {
		if _, have := d.Get(doorsched.Smoke.ID()); !have {
			put(doorsched.Smoke.ID(), r.Smoke, doorsched.Derived)
		}
	}
}

func (w *writer) unitOf(c column) doorsched.Unit {
	if c.Unit != "" {
		return doorsched.Unit(c.Unit)
	}
	return w.bare
}

// size reads width, height, leaves and what the width is of from one text.
func (w *writer) size(d *doorsched.Door, c column, cell gridCell, at doorsched.Cell, bad func(string)) {
	z, err := doorsched.ParseSize(cell.text, w.unitOf(c))
	if err != nil {
		bad(fmt.Sprintf("%s cannot be read as a size: %v. The field is taken as not given.", at, err))
		return
	}
	put := func(id doorsched.FieldID, data any) {
		d.Put(doorsched.Value{Field: id, Data: data, Origin: doorsched.Given, Cell: at, Raw: cell.text})
	}
	put(c.Field, z.Width.Length)
	if z.Height.Length != 0 {
		put(doorsched.Height.ID(), z.Height.Length)
	}
	if z.Leaves != 0 {
		put(doorsched.Leaves.ID(), int64(z.Leaves))
	}
	if z.WidthIsLeaf {
		put(doorsched.WidthIs.ID(), doorsched.Choice("leaf"))
	}
}

func (w *writer) assume(id doorsched.FieldID, value, reason, door string) {
	for i := range w.res.Assumed {
		a := &w.res.Assumed[i]
		if a.Field == id && a.Value == value && a.Reason == reason {
			a.Doors = append(a.Doors, door)
			return
		}
	}
	w.res.Assumed = append(w.res.Assumed, doorsched.Assumption{Field: id, Value: value, Reason: reason, By: "read", Doors: []string{door}})
}
