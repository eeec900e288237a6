package ooxml

import (
	"bytes"
	"encoding/xml"
	"io"
	"testing"

	"pgregory.net/rapid"
)

// seeds are documents with every construct the lexer knows.
var seeds = []string{
	`<?xml version="1.0" encoding="UTF-8"?><a xmlns="u" xmlns:p='v'><p:b c="1" p:d='&lt;"'/><!-- x - y --><e>t &amp; &#x41;&#10;<![CDATA[<z>]]></e><?pi data?></a>`,
	"\xEF\xBB\xBF<a>\r\nline\rline é 漢 \U0001F6AA</a>\n",
	`<a><b><c><d/></c></b></a>`,
	`<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>`,
}

type flat struct{ kind, space, local, text string }

// ours gives the tokens of the lexer; text pieces are joined.
func ours(b []byte) ([]flat, error) {
	l, err := newLexer("", b)
	if err != nil {
		return nil, err
	}
	var out []flat
	for {
		if err := l.next(); err != nil {
			return nil, err
		}
		switch l.kind {
		case tokenEOF:
			return out, nil
		case tokenStart:
			out = append(out, flat{"start", l.space, string(l.local), ""})
			for _, a := range l.attrs {
				if string(a.prefix) != "xmlns" && string(a.local) != "xmlns" {
					space := ""
					if len(a.prefix) > 0 {
						space, _ = l.lookup(a.prefix)
					}
					out = append(out, flat{"attr", space, string(a.local), unescapeXML(a.value)})
				}
			}
			if l.empty {
				out = append(out, flat{"end", l.space, string(l.local), ""})
			}
		case tokenEnd:
			out = append(out, flat{"end", l.space, string(l.local), ""})
		case tokenText:
			if l.depth() > 0 {
				out = appendText(out, l.decoded())
			}
		}
	}
}

func appendText(out []flat, s string) []flat {
	if n := len(out); n > 0 && out[n-1].kind == "text" {
		out[n-1].text += s
		return out
	}
	if s == "" {
		return out
	}
	return append(out, flat{"text", "", "", s})
}

// theirs gives the same from encoding/xml.
func theirs(b []byte) ([]flat, error) {
	d := xml.NewDecoder(bytes.NewReader(bytes.TrimPrefix(b, []byte("\xEF\xBB\xBF"))))
	var out []flat
	depth := 0
	for {
		t, err := d.Token()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		switch t := t.(type) {
		case xml.StartElement:
			depth++
			out = append(out, flat{"start", t.Name.Space, t.Name.Local, ""})
			for _, a := range t.Attr {
				if a.Name.Space != "xmlns" && a.Name.Local != "xmlns" {
					out = append(out, flat{"attr", a.Name.Space, a.Name.Local, a.Value})
				}
			}
		case xml.EndElement:
			depth--
			out = append(out, flat{"end", t.Name.Space, t.Name.Local, ""})
		case xml.CharData:
			if depth > 0 {
				out = appendText(out, string(t))
			}
		}
	}
}

// agree: what the lexer accepts, the standard library accepts and reads the same.
func agree(t interface {
	Helper()
	Fatalf(string, ...any)
}, b []byte) {
	t.Helper()
	a, err := ours(b)
	if err != nil {
		return
	}
	want, err := theirs(b)
	if err != nil {
		t.Fatalf("accepted %q, encoding/xml says %v", b, err)
	}
	if len(a) != len(want) {
		t.Fatalf("%q: tokens %v, encoding/xml %v", b, a, want)
	}
	for i := range a {
		if a[i] != want[i] {
			t.Fatalf("%q: token %v, encoding/xml %v", b, a[i], want[i])
		}
	}
}

func TestLexerAgreesWithEncodingXML(t *testing.T) {
	for _, s := range seeds {
		if _, err := ours([]byte(s)); err != nil {
			t.Errorf("%q: %v", s, err)
		}
		agree(t, []byte(s))
	}
	rapid.Check(t, func(rt *rapid.T) {
		b := []byte(rapid.SampledFrom(seeds).Draw(rt, "seed"))
		for range rapid.IntRange(1, 3).Draw(rt, "edits") {
			at := rapid.IntRange(0, len(b)-1).Draw(rt, "at")
			n := rapid.IntRange(0, min(4, len(b)-at)).Draw(rt, "cut")
			put := rapid.SampledFrom([]string{"", "<", ">", "/", "&", "\"", "'", "a", " ", "=", "<b>", "</b>", "]]>", "<!--", "&#0;", "\x00", "\xff", ":", "xmlns:q='w' "}).Draw(rt, "put")
			b = append(append(append([]byte(nil), b[:at]...), put...), b[at+n:]...)
			if len(b) == 0 {
				return
			}
		}
		agree(rt, b)
	})
}

func FuzzLexer(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) { agree(t, b) })
}

// Every text survives being written and read back.
func TestTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := rapid.OneOf(rapid.String(), rapid.StringOfN(rapid.SampledFrom([]rune{'_', 'x', '0', '5', 'F', 'A', '\r', '\n', '\x01', '"', '<', ' ', '\uFFFE', 0x1F6AA}), 0, 20, -1)).Draw(rt, "s")
		text := `<t xmlns="` + nsMain + `" a="` + EscapeText(s) + `">` + EscapeText(s) + `</t>`
		l, err := newLexer("", []byte(text))
		if err != nil {
			rt.Fatal(err)
		}
		if err := l.root(nsMain, "t"); err != nil {
			rt.Fatalf("%q: %v", text, err)
		}
		if got := unescapeHex(l.str("a")); got != s {
			rt.Fatalf("attribute %q, want %q", got, s)
		}
		got, err := l.innerText()
		if err != nil {
			rt.Fatal(err)
		}
		if got = unescapeHex(got); got != s {
			rt.Fatalf("text %q, want %q", got, s)
		}
	})
}
