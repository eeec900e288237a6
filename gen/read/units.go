package read

import (
	"regexp"
	"strings"

	"example.com/lockrail/doorsched"
)

// lengthUnit is the unit of a column's bare numbers and, where it is not the
// heading's or the caller's, why.
type lengthUnit struct {
	unit   doorsched.Unit
	reason string // empty: nothing was assumed
}

var (
	imperialMark = regexp.MustCompile(`(?i)\d\s*(?:'|"|′|″|’|”|ft\b|in\b)|^\d{1,2}\s*-\s*\d{1,2}$|\d\s*/\s*\d`)
	metricMark   = regexp.MustCompile(`(?i)\d\s*mm\b`)
	bareNumber   = regexp.MustCompile(`^\d+(?:\.\d+)?$`)
)

// settleUnits decides in what unit the bare numbers of each length column are:
// as its heading says, else as the caller says, else as other cells and headings
// of the file say, else by the size of the doors in it.
func (r *reader) settleUnits(cols []*column, rows []gridRow) {
	file := lengthUnit{}
	decided := false
	for _, c := range cols {
		if !c.isLength() {
			continue
		}
		switch u := doorsched.Unit(c.unit); {
		case c.how != size && c.Confidence == Exact && u == "":
			c.bare.unit = doorsched.Unit(c.info.Unit)
		case isLengthUnit(u):
			c.bare.unit = u
		}
		if c.bare.unit == "" {
			c.bare.unit = r.opt.Unit
		}
		if c.bare.unit == "" {
			if !decided {
				file, decided = fileUnit(cols, rows), true
			}
			c.bare = file
		}
	}
}

func (c *column) isLength() bool {
	return c.how == size || c.how != unread && c.info.Kind == doorsched.KindLength
}

func isLengthUnit(u doorsched.Unit) bool {
	switch u {
	case doorsched.UnitMillimetre, doorsched.UnitCentimetre, doorsched.UnitMetre, doorsched.UnitInch, doorsched.UnitFoot:
		return true
	}
	return false
}

// fileUnit looks at every length of the file. A file that says both says nothing.
func fileUnit(cols []*column, rows []gridRow) lengthUnit {
	imperial, metric := 0, 0
	small, large, odd := 0, 0, 0 // bare door sizes below and from 250, and others
	for _, c := range cols {
		if !c.isLength() {
			continue
		}
		switch doorsched.Unit(c.unit) {
		case doorsched.UnitMillimetre, doorsched.UnitCentimetre, doorsched.UnitMetre:
			metric++
		case doorsched.UnitInch, doorsched.UnitFoot:
			imperial++
		}
		for _, row := range rows {
			cell, ok := row.at(c.Col)
			if !ok {
				continue
			}
			switch t := cell.text; {
			case imperialMark.MatchString(t):
				imperial++
			case metricMark.MatchString(t):
				metric++
			case c.how == size || c.field == doorsched.Width.ID() || c.field == doorsched.Height.ID() || c.field == doorsched.LeafWidth.ID():
				parts := sizeParts.Split(t, -1)
				if c.how == size && len(parts) == 1 {
					continue // perhaps a call-out
				}
				for i, p := range parts {
					if i > 1 || !bareNumber.MatchString(p) {
						continue
					}
					switch n, err := doorsched.ParseLength(p, doorsched.UnitBySize); {
					case err != nil:
					case n.Unit == doorsched.UnitMillimetre:
						large++
					case n.Length < 10*doorsched.Inch:
						odd++
					default:
						small++
					}
				}
			}
		}
	}
	switch {
	case imperial > 0 && metric == 0:
		return lengthUnit{doorsched.UnitInch, "a bare number is taken as inches, because other sizes of the file are in feet and inches"}
	case metric > 0 && imperial == 0:
		return lengthUnit{doorsched.UnitMillimetre, "a bare number is taken as millimetres, because other sizes of the file are"}
	case imperial > 0:
		return lengthUnit{doorsched.UnitBySize, "the file mixes feet and inches with millimetres: a bare number from 250 is taken as millimetres, a smaller one as inches"}
	case large > 0 && small == 0 && odd == 0:
		return lengthUnit{doorsched.UnitMillimetre, "no unit is given and all widths and heights are 250 or more: taken as millimetres"}
	case small > 0 && large == 0 && odd == 0:
		return lengthUnit{doorsched.UnitInch, "no unit is given and all widths and heights are below 250: taken as inches"}
	}
	return lengthUnit{doorsched.UnitBySize, "no unit is given: a bare number from 250 is taken as millimetres, a smaller one as inches"}
}

// sane holds, for the sizes of a door, what no opening is beyond. A bare number
// in the wrong unit, and a slip of a digit, show themselves by it.
var sane = map[doorsched.FieldID]struct{ least, most doorsched.Length }{
	doorsched.Width.ID():         {250 * doorsched.Millimetre, 15 * doorsched.Metre},
	doorsched.Height.ID():        {250 * doorsched.Millimetre, 15 * doorsched.Metre},
	doorsched.LeafWidth.ID():     {200 * doorsched.Millimetre, 6 * doorsched.Metre},
	doorsched.InactiveWidth.ID(): {100 * doorsched.Millimetre, 6 * doorsched.Metre},
	doorsched.Thickness.ID():     {6 * doorsched.Millimetre, 300 * doorsched.Millimetre},
}

var (
	sizeParts = regexp.MustCompile(`(?i)\s*[x×]\s*|\s+by\s+`)
	sizeLike  = regexp.MustCompile(`(?i)\d\s*["']?\s*[x×]\s*\d|\bby\b|\b(?:pr|pair|dbl|double|sgl|single)\b|\d ?no\b`)
	pairWords = regexp.MustCompile(`(?i)\b(?:pr|pair|dbl|double|sgl|single|2 ?no)\b\.?`)
)

// bareThickness reads a bare thickness by its size where no unit is known:
// leaves are between 3/4 in and 6 in, or between 18 mm and 150 mm.
func bareThickness(text string, bare lengthUnit) lengthUnit {
	if bare.unit != doorsched.UnitBySize || !bareNumber.MatchString(text) {
		return bare
	}
	n, err := doorsched.ParseLength(text, doorsched.UnitMillimetre)
	switch {
	case err != nil:
		return bare
	case n.Length >= 18*doorsched.Millimetre:
		return lengthUnit{doorsched.UnitMillimetre, "no unit is given: a bare thickness from 18 is taken as millimetres, a smaller one as inches"}
	}
	return lengthUnit{doorsched.UnitInch, "no unit is given: a bare thickness from 18 is taken as millimetres, a smaller one as inches"}
}

// bareUnitOf settles the unit of one bare number where the column has none.
func bareUnitOf(text string, bare doorsched.Unit) doorsched.Unit {
	t := strings.TrimSpace(pairWords.ReplaceAllString(text, ""))
	if bare != doorsched.UnitBySize || !bareNumber.MatchString(t) {
		return bare
	}
	if m, err := doorsched.ParseLength(t, bare); err == nil {
		return m.Unit
	}
	return bare
}
