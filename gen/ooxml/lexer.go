package ooxml

import (
	"bytes"
	"strconv"
	"unicode/utf8"
)

// Namespaces of the transitional format and of the packaging.
const (
	nsMain        = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	nsDocRels     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	nsPackageRels = "http://schemas.openxmlformats.org/package/2006/relationships"
	nsTypes       = "http://schemas.openxmlformats.org/package/2006/content-types"
	nsDrawing     = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"
	strictPrefix  = "http://purl.oclc.org/ooxml/"
)

const adviceStrict = "save it again as an ordinary workbook (.xlsx, not Strict)"

// maxDepth bounds the nesting of a part. The deepest element of the format is
// well under it.
const maxDepth = 256

type tokenKind uint8

const (
	tokenEOF   tokenKind = iota
	tokenStart           // also for <x/>, with empty set and no end token following
	tokenEnd
	tokenText  // raw text, or the content of a CDATA section
	tokenOther // comment, processing instruction, declaration
)

type attr struct {
	prefix, local []byte
	value         []byte // raw
}

// lexer walks one part token by token, keeps byte offsets, and checks that the
// part is well-formed XML 1.0 with namespaces. encoding/xml is not used because
// splicing needs the offsets of every token and a big sheet the speed. A
// document type declaration is refused, so no entity beyond the five of XML can occur.
type lexer struct {
	part string
	b    []byte
	pos  int

	kind       tokenKind
	start, end int // the token is b[start:end]
	prefix     []byte
	local      []byte
	space      string // namespace of the element, for start tokens
	attrs      []attr
	empty      bool
	cdata      bool
	text       []byte

	stack []openElement
	binds []binding
	keep  int  // bindings to keep at the next token: those before an empty element
	done  bool // the root element is closed
}

type openElement struct {
	name  []byte
	space string
	binds int // bindings to keep when it closes
}

type binding struct {
	prefix []byte
	uri    string
}

func newLexer(part string, b []byte) (*lexer, error) {
	l := &lexer{part: part, b: b}
	switch {
	case bytes.HasPrefix(b, []byte("\xEF\xBB\xBF")):
		l.pos = 3
	case bytes.HasPrefix(b, []byte("\xFE\xFF")), bytes.HasPrefix(b, []byte("\xFF\xFE")), len(b) > 1 && (b[0] == 0 || b[1] == 0):
		return nil, l.fail("the part is not in UTF-8; save the workbook again in a spreadsheet program")
	}
	return l, nil
}

func (l *lexer) fail(msg string) *Error {
	return &Error{Kind: MalformedXML, Part: l.part, Msg: msg + " (byte " + strconv.Itoa(l.pos) + ")"}
}

// depth counts the open elements; after a start token with empty set it does
// not count that element.
func (l *lexer) depth() int { return len(l.stack) }

// is reports whether the current start token is the named element of the main namespace.
func (l *lexer) is(local string) bool { return string(l.local) == local && l.space == nsMain }

// attr gives the raw value of an attribute without prefix.
func (l *lexer) attr(local string) ([]byte, bool) {
	for i := range l.attrs {
		if a := &l.attrs[i]; len(a.prefix) == 0 && string(a.local) == local {
			return a.value, true
		}
	}
	return nil, false
}

// str gives the decoded value of an attribute without prefix, "" if absent.
func (l *lexer) str(local string) string {
	v, _ := l.attr(local)
	return unescapeXML(v)
}

// flag reads an xsd:boolean attribute.
func (l *lexer) flag(local string) bool {
	v, _ := l.attr(local)
	return string(v) == "1" || string(v) == "true"
}

// number reads a non-negative integer attribute; ok is false if it is absent or not one.
func (l *lexer) number(local string) (n int, ok bool) {
	v, _ := l.attr(local)
	return parseUint(v)
}

func parseUint(v []byte) (int, bool) {
	if len(v) == 0 || len(v) > 10 {
		return 0, false
	}
	n := 0
	for _, c := range v {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, true
}

// relAttr gives the decoded value of an attribute of the relationships
// namespace, whatever its prefix.
func (l *lexer) relAttr(local string) string {
	for i := range l.attrs {
		a := &l.attrs[i]
		if len(a.prefix) > 0 && string(a.local) == local {
			if uri, ok := l.lookup(a.prefix); ok && uri == nsDocRels {
				return unescapeXML(a.value)
			}
		}
	}
	return ""
}

// prefixFor gives the prefix bound to a namespace where the lexer stands, with
// its colon.
func (l *lexer) prefixFor(uri string) (string, bool) {
	for i := len(l.binds) - 1; i >= 0; i-- {
		if l.binds[i].uri == uri && len(l.binds[i].prefix) > 0 {
			if now, _ := l.lookup(l.binds[i].prefix); now == uri {
				return string(l.binds[i].prefix) + ":", true
			}
		}
	}
	return "", false
}

func (l *lexer) lookup(prefix []byte) (string, bool) {
	for i := len(l.binds) - 1; i >= 0; i-- {
		if string(l.binds[i].prefix) == string(prefix) {
			return l.binds[i].uri, true
		}
	}
	switch string(prefix) {
	case "":
		return "", true
	case "xml":
		return "http://www.w3.org/XML/1998/namespace", true
	}
	return "", false
}

// next moves to the next token.
func (l *lexer) next() error {
	l.start = l.pos
	if l.empty && l.kind == tokenStart {
		l.binds = l.binds[:l.keep]
	}
	if l.pos >= len(l.b) {
		l.kind, l.end = tokenEOF, l.pos
		if len(l.stack) > 0 {
			return l.fail("the part ends inside <" + string(l.stack[len(l.stack)-1].name) + ">")
		}
		if !l.done {
			return l.fail("the part has no element")
		}
		return nil
	}
	if l.b[l.pos] != '<' {
		return l.readText()
	}
	rest := l.b[l.pos:]
	switch {
	case len(rest) > 1 && rest[1] == '/':
		return l.readEnd()
	case len(rest) > 1 && rest[1] == '!':
		return l.readDeclaration(rest)
	case len(rest) > 1 && rest[1] == '?':
		return l.readInstruction(rest)
	}
	return l.readStart()
}

func (l *lexer) finish(kind tokenKind) {
	l.kind, l.end = kind, l.pos
}

func (l *lexer) readText() error {
	b := l.b[l.pos:]
	n := bytes.IndexByte(b, '<')
	if n < 0 {
		n = len(b)
	}
	l.text, l.cdata = b[:n], false
	where := inElement
	if len(l.stack) == 0 {
		where = outsideRoot
	}
	if err := l.checkText(l.text, where); err != nil {
		return err
	}
	l.pos += n
	l.finish(tokenText)
	return nil
}

// plainByte marks ASCII that needs no further look in text and values.
var plainByte = func() (t [256]bool) {
	for c := ' '; c < 0x7f; c++ {
		t[c] = true
	}
	t['\t'], t['\n'], t['\r'], t[0x7f] = true, true, true, true
	t['&'], t['<'], t[']'] = false, false, false
	return t
}()

type place uint8

const (
	inElement place = iota
	inValue
	outsideRoot
)

func (l *lexer) checkText(b []byte, where place) error {
	for i := 0; i < len(b); {
		c := b[i]
		switch {
		case where == outsideRoot && !isSpace(c):
			return l.fail("text outside the root element")
		case plainByte[c]:
			i++
		case c == '&':
			n := entityLen(b[i:])
			if n == 0 {
				return l.fail("an entity that XML does not define")
			}
			i += n
		case c == ']':
			if where == inElement && bytes.HasPrefix(b[i:], []byte("]]>")) {
				return l.fail("]]> in text")
			}
			i++
		case c == '<':
			return l.fail("< in an attribute value")
		default:
			n := runeLen(b[i:])
			if n == 0 {
				return l.fail("a character that XML does not allow, or not UTF-8")
			}
			i += n
		}
	}
	return nil
}

// runeLen gives the length of an XML character at the start of b, 0 if there is none.
func runeLen(b []byte) int {
	r, n := utf8.DecodeRune(b)
	if r == utf8.RuneError && n <= 1 || r < ' ' && !isSpace(byte(r)) || r == 0xFFFE || r == 0xFFFF {
		return 0
	}
	return n
}

// entityLen gives the length of a reference at the start of b, 0 if it is not
// one of the five of XML or a valid character.
func entityLen(b []byte) int {
	_, n := entity(b)
	return n
}

func entity(b []byte) (rune, int) {
	end := bytes.IndexByte(b[:min(len(b), 12)], ';')
	if end < 2 {
		return 0, 0
	}
	switch string(b[1:end]) {
	case "amp":
		return '&', end + 1
	case "lt":
		return '<', end + 1
	case "gt":
		return '>', end + 1
	case "quot":
		return '"', end + 1
	case "apos":
		return '\'', end + 1
	}
	if b[1] != '#' || end < 3 {
		return 0, 0
	}
	digits, base := b[2:end], 10
	if digits[0] == 'x' {
		digits, base = digits[1:], 16
	}
	n, err := strconv.ParseUint(string(digits), base, 32)
	if err != nil || n > utf8.MaxRune || n < ' ' && n != '\t' && n != '\n' && n != '\r' || n >= 0xD800 && n < 0xE000 || n == 0xFFFE || n == 0xFFFF {
		return 0, 0
	}
	return rune(n), end + 1
}

// unescapeXML decodes checked text or a checked value; line ends become line feeds.
func unescapeXML(b []byte) string {
	if bytes.IndexByte(b, '&') < 0 && bytes.IndexByte(b, '\r') < 0 {
		return string(b)
	}
	out := make([]byte, 0, len(b))
	for i := 0; i < len(b); i++ {
		switch b[i] {
		case '&':
			r, n := entity(b[i:])
			if n == 0 {
				out = append(out, '&')
				continue
			}
			out = utf8.AppendRune(out, r)
			i += n - 1
		case '\r':
			out = append(out, '\n')
			if i+1 < len(b) && b[i+1] == '\n' {
				i++
			}
		default:
			out = append(out, b[i])
		}
	}
	return string(out)
}

// decoded gives the current text token as a person would read it.
func (l *lexer) decoded() string {
	if l.cdata {
		return string(bytes.ReplaceAll(bytes.ReplaceAll(l.text, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n")))
	}
	return unescapeXML(l.text)
}

func (l *lexer) readDeclaration(rest []byte) error {
	switch {
	case bytes.HasPrefix(rest, []byte("<!--")):
		n := bytes.Index(rest[4:], []byte("--"))
		if n < 0 || !bytes.HasPrefix(rest[4+n:], []byte("-->")) {
			return l.fail("a comment that does not end well")
		}
		if err := l.checkRaw(rest[4 : 4+n]); err != nil {
			return err
		}
		l.pos += 4 + n + 3
		l.finish(tokenOther)
		return nil
	case bytes.HasPrefix(rest, []byte("<![CDATA[")):
		n := bytes.Index(rest, []byte("]]>"))
		if n < 0 || len(l.stack) == 0 {
			return l.fail("a CDATA section out of place or without end")
		}
		l.text, l.cdata = rest[9:n], true
		if err := l.checkRaw(l.text); err != nil {
			return err
		}
		l.pos += n + 3
		l.finish(tokenText)
		return nil
	}
	return &Error{Kind: DTD, Part: l.part, Msg: "no such declaration is needed in a workbook; the file is refused"}
}

func (l *lexer) checkRaw(b []byte) error {
	for i := 0; i < len(b); {
		if b[i] >= ' ' && b[i] < 0x80 {
			i++
			continue
		}
		n := runeLen(b[i:])
		if n == 0 {
			return l.fail("a character that XML does not allow, or not UTF-8")
		}
		i += n
	}
	return nil
}

func (l *lexer) readInstruction(rest []byte) error {
	n := bytes.Index(rest[2:], []byte("?>"))
	if n < 0 {
		return l.fail("a processing instruction without end")
	}
	body := rest[2 : 2+n]
	if err := l.checkRaw(body); err != nil {
		return err
	}
	if nameLen(body) == 0 {
		return l.fail("a processing instruction without name")
	}
	if bytes.HasPrefix(body, []byte("xml")) && (len(body) == 3 || isSpace(body[3])) {
		if l.pos != 0 && !(l.pos == 3 && l.b[0] == 0xEF) {
			return l.fail("an XML declaration inside the part")
		}
		if v, ok := pseudoAttr(body, "version"); !ok || string(v) != "1.0" {
			return l.fail("the part is not XML 1.0")
		}
		if enc, ok := pseudoAttr(body, "encoding"); ok && !bytes.EqualFold(enc, []byte("utf-8")) && !bytes.EqualFold(enc, []byte("us-ascii")) {
			return l.fail("the part is not in UTF-8; save the workbook again in a spreadsheet program")
		}
	}
	l.pos += 2 + n + 2
	l.finish(tokenOther)
	return nil
}

func pseudoAttr(body []byte, name string) ([]byte, bool) {
	at := bytes.Index(body, []byte(name))
	if at < 0 {
		return nil, false
	}
	v := bytes.TrimLeft(body[at+len(name):], " \t\r\n=")
	if len(v) < 2 || v[0] != '"' && v[0] != '\'' {
		return nil, false
	}
	end := bytes.IndexByte(v[1:], v[0])
	if end < 0 {
		return nil, false
	}
	return v[1 : 1+end], true
}

// nameByte marks the bytes of a name; whatever is not ASCII is taken as a
// letter once it is known to be UTF-8.
var nameByte = func() (t [256]bool) {
	for c := range t {
		t[c] = c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-' || c == '.' || c == ':' || c >= 0x80
	}
	return t
}()

func nameLen(b []byte) int {
	n := 0
	for n < len(b) && nameByte[b[n]] {
		n++
	}
	if n > 0 && (b[0] == '-' || b[0] == '.' || b[0] >= '0' && b[0] <= '9') {
		return 0
	}
	return n
}

// splitName parts a qualified name; ok is false if it is not one.
func splitName(name []byte) (prefix, local []byte, ok bool) {
	i := bytes.IndexByte(name, ':')
	if i < 0 {
		return nil, name, true
	}
	if i == 0 || i == len(name)-1 || bytes.IndexByte(name[i+1:], ':') >= 0 {
		return nil, nil, false
	}
	return name[:i], name[i+1:], true
}

func (l *lexer) skipSpace() bool {
	at := l.pos
	for l.pos < len(l.b) && isSpace(l.b[l.pos]) {
		l.pos++
	}
	return l.pos > at
}

func (l *lexer) readName() (name, prefix, local []byte, err error) {
	n := nameLen(l.b[l.pos:])
	name = l.b[l.pos : l.pos+n]
	prefix, local, ok := splitName(name)
	if n == 0 || !ok || !utf8.Valid(name) {
		return nil, nil, nil, l.fail("a name expected")
	}
	l.pos += n
	return name, prefix, local, nil
}

func (l *lexer) readStart() error {
	if l.done {
		return l.fail("a second root element")
	}
	l.pos++
	name, prefix, local, err := l.readName()
	if err != nil {
		return err
	}
	l.prefix, l.local = prefix, local
	l.attrs = l.attrs[:0]
	keep := len(l.binds)
	for {
		spaced := l.skipSpace()
		if l.pos >= len(l.b) {
			return l.fail("the part ends inside a tag")
		}
		c := l.b[l.pos]
		if c == '>' {
			l.pos++
			l.empty = false
			break
		}
		if c == '/' {
			if l.pos+1 >= len(l.b) || l.b[l.pos+1] != '>' {
				return l.fail("a tag that does not end well")
			}
			l.pos += 2
			l.empty = true
			break
		}
		if !spaced {
			return l.fail("white space expected between attributes")
		}
		if err := l.readAttr(); err != nil {
			return err
		}
	}
	if err := l.checkAttrs(); err != nil {
		return err
	}
	space, ok := l.lookup(prefix)
	if !ok {
		return l.fail("the prefix " + string(prefix) + " is not declared")
	}
	l.space = space
	if l.empty {
		// Its bindings stay until the next token, so that relAttr works on it.
		l.keep = keep
		l.done = len(l.stack) == 0
		l.finish(tokenStart)
		return nil
	}
	if len(l.stack) >= maxDepth {
		return l.fail("elements are nested too deeply")
	}
	l.stack = append(l.stack, openElement{name: name, space: space, binds: keep})
	l.finish(tokenStart)
	return nil
}

func (l *lexer) readAttr() error {
	_, prefix, local, err := l.readName()
	if err != nil {
		return err
	}
	l.skipSpace()
	if l.pos >= len(l.b) || l.b[l.pos] != '=' {
		return l.fail("= expected after an attribute name")
	}
	l.pos++
	l.skipSpace()
	if l.pos >= len(l.b) || l.b[l.pos] != '"' && l.b[l.pos] != '\'' {
		return l.fail("a quoted value expected")
	}
	quote := l.b[l.pos]
	n := bytes.IndexByte(l.b[l.pos+1:], quote)
	if n < 0 {
		return l.fail("a value without closing quote")
	}
	value := l.b[l.pos+1 : l.pos+1+n]
	if err := l.checkValue(value); err != nil {
		return err
	}
	l.pos += n + 2
	if len(l.attrs) >= 1000 {
		return l.fail("too many attributes")
	}
	l.attrs = append(l.attrs, attr{prefix, local, value})
	switch {
	case string(prefix) == "xmlns":
		if len(value) == 0 {
			return l.fail("a prefix bound to nothing")
		}
		l.binds = append(l.binds, binding{local, unescapeXML(value)})
	case len(prefix) == 0 && string(local) == "xmlns":
		l.binds = append(l.binds, binding{nil, unescapeXML(value)})
	}
	return nil
}

func (l *lexer) checkValue(b []byte) error {
	for _, c := range b {
		if !plainByte[c] {
			return l.checkText(b, inValue)
		}
	}
	return nil
}

func (l *lexer) checkAttrs() error {
	for i := range l.attrs {
		a := &l.attrs[i]
		if len(a.prefix) > 0 && string(a.prefix) != "xmlns" {
			if _, ok := l.lookup(a.prefix); !ok {
				return l.fail("the prefix " + string(a.prefix) + " is not declared")
			}
		}
		for j := range i {
			if bytes.Equal(l.attrs[j].local, a.local) && bytes.Equal(l.attrs[j].prefix, a.prefix) {
				return l.fail("the attribute " + string(a.local) + " is given twice")
			}
		}
	}
	return nil
}

func (l *lexer) readEnd() error {
	l.pos += 2
	n := nameLen(l.b[l.pos:])
	if n == 0 || len(l.stack) == 0 {
		return l.fail("an end tag that closes nothing")
	}
	top := l.stack[len(l.stack)-1]
	if !bytes.Equal(top.name, l.b[l.pos:l.pos+n]) {
		return l.fail("</" + string(l.b[l.pos:l.pos+n]) + "> closes <" + string(top.name) + ">")
	}
	l.pos += n
	l.skipSpace()
	if l.pos >= len(l.b) || l.b[l.pos] != '>' {
		return l.fail("an end tag that does not end well")
	}
	l.pos++
	l.prefix, l.local, _ = splitName(top.name)
	l.space = top.space
	l.stack = l.stack[:len(l.stack)-1]
	l.binds = l.binds[:top.binds]
	if len(l.stack) == 0 {
		l.done = true
	}
	l.finish(tokenEnd)
	return nil
}

// skip moves past the element whose start token is current; the end offset is l.end.
func (l *lexer) skip() error {
	if l.empty {
		return nil
	}
	for depth := len(l.stack); ; {
		if err := l.next(); err != nil {
			return err
		}
		if l.kind == tokenEnd && len(l.stack) < depth {
			return nil
		}
	}
}

// innerText reads the text of the element whose start token is current, child
// elements left out, and moves to its end.
func (l *lexer) innerText() (string, error) {
	if l.empty {
		return "", nil
	}
	depth := len(l.stack)
	text := ""
	for {
		if err := l.next(); err != nil {
			return "", err
		}
		switch l.kind {
		case tokenText:
			if len(l.stack) == depth {
				if text == "" {
					text = l.decoded()
				} else {
					text += l.decoded()
				}
			}
		case tokenEnd:
			if len(l.stack) < depth {
				return text, nil
			}
		}
	}
}

// child moves to the next start token directly inside the element that was
// open at the given depth. ok is false at that element's end.
func (l *lexer) child(depth int) (ok bool, err error) {
	for {
		if err := l.next(); err != nil {
			return false, err
		}
		switch l.kind {
		case tokenStart:
			return true, nil
		case tokenEnd:
			if len(l.stack) < depth {
				return false, nil
			}
		case tokenEOF:
			return false, nil
		}
	}
}

// root moves to the root element and checks its name.
func (l *lexer) root(space, local string) error {
	for {
		if err := l.next(); err != nil {
			return err
		}
		if l.kind == tokenStart {
			break
		}
	}
	if len(l.space) >= len(strictPrefix) && l.space[:len(strictPrefix)] == strictPrefix {
		return &Error{Kind: Strict, Part: l.part, Msg: adviceStrict}
	}
	if l.space != space || string(l.local) != local {
		return &Error{Kind: BadStructure, Part: l.part, Value: string(l.local), Msg: "the part should hold <" + local + ">"}
	}
	return nil
}

// drain reads to the end, for the checks alone.
func (l *lexer) drain() error {
	for {
		if err := l.next(); err != nil || l.kind == tokenEOF {
			return err
		}
	}
}
