package ooxml

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// EscapeText gives s as the text of an element or a double-quoted attribute.
// Characters that XML cannot carry become _xHHHH_ as the file format writes
// them (ECMA-376 part 1, 22.9.2.19), and text that looks like such an escape is
// kept apart from one. Carriage returns are escaped because a parser would
// otherwise turn them into line feeds. Bytes that are not UTF-8 become U+FFFD.
func EscapeText(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool {
		return r < ' ' || r == '&' || r == '<' || r == '>' || r == '"' || r == '_' || r >= utf8.RuneError
	}) {
		return s
	}
	var b strings.Builder
	for i, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\t' || r == '\n':
			b.WriteRune(r)
		case r < ' ' || r == 0xFFFE || r == 0xFFFF:
			b.WriteString("_x" + strings.ToUpper(strconv.FormatInt(0x10000|int64(r), 16)[1:]) + "_")
		case r == '_' && isHexEscape(s[i:]):
			b.WriteString("_x005F_")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// escapeXML is EscapeText for places where the _xHHHH_ form has no meaning
// (formulas, names, sheet titles): what XML cannot carry is dropped, and white
// space is written as character references so that an attribute keeps it.
func escapeXML(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteString("&#" + strconv.Itoa(int(r)) + ";")
		case r < ' ' || r == 0xFFFE || r == 0xFFFF:
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// isHexEscape reports whether s begins with _xHHHH_.
func isHexEscape[T string | []byte](s T) bool {
	if len(s) < 7 || s[0] != '_' || s[1] != 'x' || s[6] != '_' {
		return false
	}
	for i := 2; i < 6; i++ {
		c := s[i]
		if !(c >= '0' && c <= '9' || c|0x20 >= 'a' && c|0x20 <= 'f') {
			return false
		}
	}
	return true
}

// unescapeHex undoes the _xHHHH_ form, surrogate pairs included.
func unescapeHex(s string) string {
	at := strings.Index(s, "_x")
	if at < 0 {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		if !isHexEscape(s[i:]) {
			b.WriteByte(s[i])
			i++
			continue
		}
		r := hexRune(s[i:])
		i += 7
		if r >= 0xD800 && r < 0xDC00 && isHexEscape(s[i:]) {
			if low := hexRune(s[i:]); low >= 0xDC00 && low < 0xE000 {
				r = (r-0xD800)<<10 + (low - 0xDC00) + 0x10000
				i += 7
			}
		}
		b.WriteRune(r)
	}
	return b.String()
}

func hexRune(s string) rune {
	n, _ := strconv.ParseUint(s[2:6], 16, 16) // isHexEscape has checked the digits
	return rune(n)
}

// keepsSpace reports whether s needs xml:space="preserve" to survive a reader.
func keepsSpace(s string) bool {
	return s != "" && (isSpace(s[0]) || isSpace(s[len(s)-1]) || strings.ContainsAny(s, "\n\t"))
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }
