package ooxml

import (
	"slices"
	"strconv"
	"strings"
)

// styleOrder is the order of the children of <styleSheet> (ECMA-376 part 1, 18.8.39).
var styleOrder = []string{"numFmts", "fonts", "fills", "borders", "cellStyleXfs", "cellXfs", "cellStyles", "dxfs", "tableStyles", "colors", "extLst"}

const emptyStyles = xmlHead + `<styleSheet xmlns="` + nsMain + `"></styleSheet>`

// generator writes an element with a given prefix for the main namespace.
type generator func(p string) string

// styleList is one list of the style sheet: what is there and what is added.
type styleList struct {
	elem  *element
	known map[string]int // by canonical form
	count int
	added []string
}

// styleEditor appends to the lists of styles.xml. Nothing is renumbered, and
// what is there already in the same form is used again.
type styleEditor struct {
	o       *outline
	lists   map[string]*styleList
	formats map[string]int // custom number formats by code
	nextFmt int
}

func newStyleEditor(part string, raw []byte) (*styleEditor, error) {
	o, err := readDeep(part, raw, nsMain, "styleSheet", 8)
	if err != nil {
		return nil, err
	}
	e := &styleEditor{o: o, lists: map[string]*styleList{}, formats: map[string]int{}, nextFmt: 164}
	for _, name := range []string{"numFmts", "fonts", "fills", "borders", "cellXfs", "dxfs"} {
		l := &styleList{elem: o.child(name), known: map[string]int{}}
		if l.elem != nil {
			for i := range l.elem.kids {
				k := &l.elem.kids[i]
				if k.space != nsMain {
					continue
				}
				if c := canonical(k); !contains(l.known, c) {
					l.known[c] = l.count
				}
				l.count++
			}
		}
		e.lists[name] = l
	}
	if l := e.lists["numFmts"]; l.elem != nil {
		for i := range l.elem.kids {
			k := &l.elem.kids[i]
			id, err := strconv.Atoi(k.get("numFmtId"))
			if err != nil {
				continue
			}
			e.nextFmt = max(e.nextFmt, id+1)
			if code := k.get("formatCode"); !contains(e.formats, code) {
				e.formats[code] = id
			}
		}
	}
	return e, nil
}

func contains[K comparable, V any](m map[K]V, k K) bool {
	_, ok := m[k]
	return ok
}

// canonical gives an element in a form that does not depend on prefixes,
// quotes, white space or the order of attributes.
func canonical(e *element) string {
	var attrs []string
	for _, a := range e.attrs {
		if string(a.prefix) == "xmlns" || len(a.prefix) == 0 && string(a.local) == "xmlns" {
			continue
		}
		attrs = append(attrs, string(a.prefix)+":"+string(a.local)+"="+strconv.Quote(unescapeXML(a.value)))
	}
	slices.Sort(attrs)
	s := e.local + "(" + strings.Join(attrs, ",")
	for i := range e.kids {
		s += " " + canonical(&e.kids[i])
	}
	return s + ")"
}

// base puts the items in a list that every workbook has and this one lacks, so
// that index 0 keeps its meaning of "default".
func (e *styleEditor) base(name string) {
	l := e.lists[name]
	if l.count > 0 {
		return
	}
	switch name {
	case "fonts":
		e.append(name, defaultFont)
	case "fills":
		for _, pattern := range []string{"none", "gray125"} {
			e.append(name, func(p string) string {
				return "<" + p + "fill><" + p + `patternFill patternType="` + pattern + `"/></` + p + "fill>"
			})
		}
	case "borders":
		e.append(name, func(p string) string {
			s := "<" + p + "border>"
			for _, side := range borderSides {
				s += "<" + p + side + "/>"
			}
			return s + "</" + p + "border>"
		})
	case "cellXfs":
		e.append(name, func(p string) string { return "<" + p + `xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>` })
	}
}

func defaultFont(p string) string {
	return "<" + p + "font><" + p + `sz val="11"/><` + p + `name val="Calibri"/><` + p + `family val="2"/></` + p + "font>"
}

var borderSides = []string{"left", "right", "top", "bottom", "diagonal"}

func (e *styleEditor) append(name string, g generator) int {
	l := e.lists[name]
	l.known[canonicalOf(g)] = l.count
	l.added = append(l.added, g(e.o.prefix))
	l.count++
	return l.count - 1
}

// add gives the index of an item, appending it if there is none like it.
func (e *styleEditor) add(name string, g generator) int {
	e.base(name)
	if i, ok := e.lists[name].known[canonicalOf(g)]; ok {
		return i
	}
	return e.append(name, g)
}

// canonicalOf gives the canonical form of what a generator writes.
func canonicalOf(g generator) string {
	e := elementOf(g)
	return canonical(&e)
}

func elementOf(g generator) element {
	o, err := readDeep("", []byte(`<r xmlns="`+nsMain+`">`+g("")+"</r>"), nsMain, "r", 8)
	if err != nil || len(o.root.kids) != 1 {
		return element{local: g("")} // equal to nothing but itself
	}
	return o.root.kids[0]
}

func isColor(s string) bool {
	return len(s) == 6 && strings.Trim(s, "0123456789ABCDEFabcdef") == ""
}

func colorXML(p, name, rgb string) string {
	return "<" + p + name + ` rgb="FF` + strings.ToUpper(rgb) + `"/>`
}

func (e *styleEditor) numFmt(code string) int {
	if id, ok := builtinFormats[code]; ok {
		return id
	}
	if id, ok := e.formats[code]; ok {
		return id
	}
	id := e.nextFmt
	e.nextFmt++
	e.formats[code] = id
	e.append("numFmts", func(p string) string {
		return "<" + p + `numFmt numFmtId="` + itoa(id) + `" formatCode="` + escapeXML(code) + `"/>`
	})
	return id
}

// builtinFormats are those that read the same in every locale (ECMA-376 part 1, 18.8.30).
var builtinFormats = map[string]int{"": 0, "General": 0, "0": 1, "0.00": 2, "#,##0": 3, "#,##0.00": 4, "0%": 9, "0.00%": 10, "@": 49}

// font writes a font that differs from the workbook's default one only where
// the style says so, in the order of the schema.
func (e *styleEditor) font(s *Style) int {
	e.base("fonts")
	if !s.Bold && !s.Italic && !s.Underline && s.Size == 0 && s.Font == "" && s.Color == "" {
		return 0
	}
	first := elementOf(defaultFont)
	if l := e.lists["fonts"]; l.elem != nil && len(l.elem.kids) > 0 {
		first = l.elem.kids[0]
	}
	return e.add("fonts", func(p string) string {
		b := "<" + p + "font>"
		for _, flag := range []struct {
			on   bool
			name string
		}{{s.Bold, "b"}, {s.Italic, "i"}, {s.Underline, "u"}} {
			if flag.on {
				b += "<" + p + flag.name + "/>"
			}
		}
		inherit := func(name, otherwise string) {
			for i := range first.kids {
				if k := &first.kids[i]; k.local == name && k.space == nsMain {
					b += "<" + p + name
					for _, a := range k.attrs {
						if len(a.prefix) == 0 {
							b += " " + string(a.local) + `="` + escapeXML(unescapeXML(a.value)) + `"`
						}
					}
					b += "/>"
					return
				}
			}
			b += otherwise
		}
		if s.Size > 0 {
			b += "<" + p + `sz val="` + numberText(s.Size) + `"/>`
		} else {
			inherit("sz", "<"+p+`sz val="11"/>`)
		}
		if s.Color != "" {
			b += colorXML(p, "color", s.Color)
		} else {
			inherit("color", "")
		}
		if s.Font != "" {
			b += "<" + p + `name val="` + escapeXML(s.Font) + `"/>`
		} else {
			inherit("name", "<"+p+`name val="Calibri"/>`)
			inherit("family", "")
			inherit("charset", "")
			inherit("scheme", "")
		}
		return b + "</" + p + "font>"
	})
}

func (e *styleEditor) fill(rgb string) int {
	e.base("fills")
	if rgb == "" {
		return 0
	}
	return e.add("fills", func(p string) string {
		return "<" + p + "fill><" + p + `patternFill patternType="solid">` + colorXML(p, "fgColor", rgb) + "<" + p + `bgColor indexed="64"/></` + p + "patternFill></" + p + "fill>"
	})
}

func borderXML(p, rgb string, sides []string) string {
	b := "<" + p + "border>"
	for _, side := range sides {
		if side == "diagonal" {
			b += "<" + p + side + "/>"
			continue
		}
		b += "<" + p + side + ` style="thin">` + colorXML(p, "color", rgb) + "</" + p + side + ">"
	}
	return b + "</" + p + "border>"
}

func (e *styleEditor) border(rgb string) int {
	e.base("borders")
	if rgb == "" {
		return 0
	}
	return e.add("borders", func(p string) string { return borderXML(p, rgb, borderSides) })
}

// style gives the cell format of a style.
func (e *styleEditor) style(s *Style) (int, error) {
	for _, c := range []string{s.Color, s.Fill, s.Border} {
		if c != "" && !isColor(c) {
			return 0, &Error{Kind: BadPlan, Value: c, Msg: "a colour is six hexadecimal digits"}
		}
	}
	if s.Size < 0 || s.Size > 409 || s.Indent < 0 || s.Indent > 250 {
		return 0, &Error{Kind: BadPlan, Msg: "a size or an indent is out of range"}
	}
	if !slices.Contains([]string{"", "left", "center", "right", "fill", "justify"}, s.Horizontal) || !slices.Contains([]string{"", "top", "center", "bottom", "justify"}, s.Vertical) {
		return 0, &Error{Kind: BadPlan, Value: s.Horizontal + " " + s.Vertical, Msg: "an alignment that the format does not have"}
	}
	numFmt, font, fill, border := e.numFmt(s.NumFmt), e.font(s), e.fill(s.Fill), e.border(s.Border)
	return e.add("cellXfs", func(p string) string {
		b := "<" + p + `xf numFmtId="` + itoa(numFmt) + `" fontId="` + itoa(font) + `" fillId="` + itoa(fill) + `" borderId="` + itoa(border) + `"`
		if parents := e.o.child("cellStyleXfs"); parents != nil && len(parents.kids) > 0 {
			b += ` xfId="0"`
		}
		if s.QuotePrefix {
			b += ` quotePrefix="1"`
		}
		aligned := s.Horizontal != "" || s.Vertical != "" || s.Wrap || s.Indent > 0
		for _, use := range []struct {
			on   bool
			name string
		}{{numFmt > 0, "NumberFormat"}, {font > 0, "Font"}, {fill > 0, "Fill"}, {border > 0, "Border"}, {aligned, "Alignment"}, {s.Unlocked, "Protection"}} {
			if use.on {
				b += " apply" + use.name + `="1"`
			}
		}
		if !aligned && !s.Unlocked {
			return b + "/>"
		}
		b += ">"
		if aligned {
			b += "<" + p + "alignment"
			if s.Horizontal != "" {
				b += ` horizontal="` + s.Horizontal + `"`
			}
			if s.Vertical != "" {
				b += ` vertical="` + s.Vertical + `"`
			}
			if s.Wrap {
				b += ` wrapText="1"`
			}
			if s.Indent > 0 {
				b += ` indent="` + itoa(s.Indent) + `"`
			}
			b += "/>"
		}
		if s.Unlocked {
			b += "<" + p + `protection locked="0"/>`
		}
		return b + "</" + p + "xf>"
	}), nil
}

// diff gives the differential format of a conditional format.
func (e *styleEditor) diff(d *Diff) (int, error) {
	for _, c := range []string{d.Color, d.Fill, d.Border} {
		if c != "" && !isColor(c) {
			return 0, &Error{Kind: BadPlan, Value: c, Msg: "a colour is six hexadecimal digits"}
		}
	}
	return e.add("dxfs", func(p string) string {
		b := "<" + p + "dxf>"
		if d.Bold || d.Italic || d.Color != "" {
			b += "<" + p + "font>"
			if d.Bold {
				b += "<" + p + "b/>"
			}
			if d.Italic {
				b += "<" + p + "i/>"
			}
			if d.Color != "" {
				b += colorXML(p, "color", d.Color)
			}
			b += "</" + p + "font>"
		}
		if d.Fill != "" {
			b += "<" + p + "fill><" + p + "patternFill>" + colorXML(p, "bgColor", d.Fill) + "</" + p + "patternFill></" + p + "fill>"
		}
		if d.Border != "" {
			b += borderXML(p, d.Border, borderSides[:4])
		}
		return b + "</" + p + "dxf>"
	}), nil
}

// splices gives what changes in styles.xml.
func (e *styleEditor) splices() []splice {
	var out []splice
	inRoot := "" // what goes into a root that is an empty element
	for _, name := range styleOrder {
		l := e.lists[name]
		if l == nil || len(l.added) == 0 {
			continue
		}
		text := strings.Join(l.added, "")
		if l.elem != nil {
			if l.elem.get("count") != "" {
				out = append(out, e.o.setAttr(l.elem, "count", itoa(l.count))...)
			}
			out = append(out, e.o.insert(l.elem, l.elem.close, text))
			continue
		}
		text = "<" + e.o.prefix + name + ` count="` + itoa(l.count) + `">` + text + "</" + e.o.prefix + name + ">"
		if e.o.root.empty {
			inRoot += text
			continue
		}
		at := e.o.place(styleOrder, name)
		out = append(out, splice{at, at, text})
	}
	if inRoot != "" {
		out = append(out, e.o.insert(&e.o.root, e.o.root.open, inRoot))
	}
	return out
}
