package ooxml

import (
	"strconv"
)

// element is one element of a part with its place in the bytes: b[start:open]
// is the start tag, b[open:close] the content, b[close:end] the end tag.
type element struct {
	local, space            string
	start, open, close, end int
	empty                   bool
	attrs                   []attr
	rel                     string // the id attribute of the relationships namespace
	kids                    []element
}

// get gives the decoded value of an attribute without prefix.
func (e *element) get(name string) string {
	for _, a := range e.attrs {
		if len(a.prefix) == 0 && string(a.local) == name {
			return unescapeXML(a.value)
		}
	}
	return ""
}

func (e *element) flag(name string) bool {
	v := e.get(name)
	return v == "1" || v == "true"
}

// outline is the root of a part with its children and theirs: enough to splice
// the small parts (workbook, styles, relationships, content types).
type outline struct {
	part   string
	b      []byte
	root   element
	prefix string // of the root's namespace, with its colon
	rel    string // prefix of the relationships namespace, with its colon; "" if none is bound at the root
}

func readOutline(part string, b []byte, space, local string) (*outline, error) {
	return readDeep(part, b, space, local, 2)
}

// readDeep is readOutline with elements kept down to the given depth.
func readDeep(part string, b []byte, space, local string, depth int) (*outline, error) {
	l, err := newLexer(part, b)
	if err != nil {
		return nil, err
	}
	if err := l.root(space, local); err != nil {
		return nil, err
	}
	o := &outline{part: part, b: b}
	if len(l.prefix) > 0 {
		o.prefix = string(l.prefix) + ":"
	}
	o.rel, _ = l.prefixFor(nsDocRels)
	o.root, err = readElement(l, depth)
	if err != nil {
		return nil, err
	}
	return o, l.drain()
}

// readElement reads the element whose start token is current, children to the given depth.
func readElement(l *lexer, depth int) (element, error) {
	e := element{
		local: string(l.local), space: l.space, start: l.start, open: l.end, close: l.end, end: l.end,
		empty: l.empty, attrs: append([]attr(nil), l.attrs...), rel: l.relAttr("id"),
	}
	if l.empty {
		return e, nil
	}
	if depth == 0 {
		if err := l.skip(); err != nil {
			return e, err
		}
		e.close, e.end = l.start, l.end
		return e, nil
	}
	inside := l.depth()
	for {
		ok, err := l.child(inside)
		if err != nil {
			return e, err
		}
		if !ok {
			e.close, e.end = l.start, l.end
			return e, nil
		}
		kid, err := readElement(l, depth-1)
		if err != nil {
			return e, err
		}
		e.kids = append(e.kids, kid)
	}
}

// child finds a child of the root in its namespace.
func (o *outline) child(local string) *element {
	for i := range o.root.kids {
		if k := &o.root.kids[i]; k.local == local && k.space == o.root.space {
			return k
		}
	}
	return nil
}

// text gives the decoded text of an element without children.
func (o *outline) text(e *element) (string, error) {
	l := &lexer{part: o.part, b: o.b[e.open:e.close], stack: []openElement{{}}}
	text := ""
	for l.pos < len(l.b) {
		if err := l.next(); err != nil {
			return "", err
		}
		if l.kind == tokenText {
			text += l.decoded()
		}
	}
	return text, nil
}

// splice replaces b[at:end] by text.
type splice struct {
	at, end int
	text    string
}

// place gives the offset where a child of the root belongs: after the last
// child that the order puts before it or beside it.
func (o *outline) place(order []string, local string) int {
	rank := map[string]int{}
	for i, name := range order {
		rank[name] = i + 1
	}
	at := o.root.open
	for _, k := range o.root.kids {
		if r := rank[k.local]; k.space == o.root.space && r > 0 && r <= rank[local] {
			at = max(at, k.end)
		}
	}
	return at
}

// insert puts text inside e at an offset of its content; an empty element is
// opened for it.
func (o *outline) insert(e *element, at int, text string) splice {
	if !e.empty {
		return splice{at, at, text}
	}
	return splice{e.open - 2, e.open, ">" + text + "</" + o.qname(e) + ">"}
}

// qname gives the name of e as the part writes it.
func (o *outline) qname(e *element) string {
	n := nameLen(o.b[e.start+1:])
	return string(o.b[e.start+1 : e.start+1+n])
}

// setAttr gives the splice that sets an attribute without prefix.
func (o *outline) setAttr(e *element, name, value string) []splice {
	for _, a := range e.attrs {
		if len(a.prefix) == 0 && string(a.local) == name {
			at := offsetIn(o.b, a.value)
			if string(a.value) == value {
				return nil
			}
			return []splice{{at, at + len(a.value), value}}
		}
	}
	at := e.start + 1 + nameLen(o.b[e.start+1:])
	return []splice{{at, at, " " + name + `="` + value + `"`}}
}

// offsetIn gives the place of a sub-slice in the slice it was cut from.
func offsetIn(b, sub []byte) int { return cap(b) - cap(sub) }

func itoa(n int) string { return strconv.Itoa(n) }
