package ooxml

import (
	"bytes"
	"context"
	"io"
	"unicode/utf8"
)

var (
	magicZip  = []byte("PK\x03\x04")
	magicOLE2 = []byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1")
)

// sniff looks at the first bytes, so that what is plainly something else is
// called by its name instead of "not a zip file".
func sniff(ctx context.Context, r io.ReaderAt, size int64) error {
	if size <= 0 {
		return &Error{Kind: Empty}
	}
	head := make([]byte, min(size, 4096))
	n, err := r.ReadAt(head, 0)
	if head = head[:n]; n == 0 {
		return &Error{Kind: DamagedZip, Msg: "it cannot be read", Err: err}
	}
	switch {
	case bytes.HasPrefix(head, magicZip):
		return nil
	case bytes.HasPrefix(head, magicOLE2):
		return sniffOLE2(ctx, r, size)
	case bytes.HasPrefix(head, []byte("PK\x05\x06")):
		return &Error{Kind: NotWorkbook, Msg: "it is an empty zip archive"}
	case bytes.HasPrefix(head, []byte("%PDF")):
		return &Error{Kind: NotWorkbook, Msg: "it is a PDF"}
	case bytes.HasPrefix(head, []byte("\x09\x08")), bytes.HasPrefix(head, []byte("\x09\x00")), bytes.HasPrefix(head, []byte("\x09\x04")):
		return &Error{Kind: LegacyXLS, Msg: "save it as .xlsx first"}
	case looksLikeText(head):
		trimmed := bytes.ToLower(bytes.TrimLeft(head, "\xEF\xBB\xBF \t\r\n"))
		switch {
		case bytes.HasPrefix(trimmed, []byte("<?xml")):
			return &Error{Kind: PlainText, Msg: "it is an XML document; save it as .xlsx first"}
		case bytes.HasPrefix(trimmed, []byte("<html")), bytes.HasPrefix(trimmed, []byte("<!doctype")), bytes.HasPrefix(trimmed, []byte("<table")):
			return &Error{Kind: PlainText, Msg: "it is a web page with the name of a workbook; save it as .xlsx first"}
		}
		return &Error{Kind: PlainText, Msg: "it may be CSV under another name"}
	}
	return &Error{Kind: NotWorkbook, Msg: "its first bytes are those of no known workbook"}
}

// sniffOLE2 tells an encrypted package from a legacy workbook by the names of
// the streams, which the compound file keeps in UTF-16.
func sniffOLE2(ctx context.Context, r io.ReaderAt, size int64) error {
	const most = 64 << 20
	encrypted, workbook, book := utf16Bytes("EncryptedPackage"), utf16Bytes("Workbook"), utf16Bytes("Book")
	isXLS := false
	buf := make([]byte, 1<<20)
	const overlap = 64
	for at := int64(0); at < min(size, most); at += int64(len(buf) - overlap) {
		if err := ctx.Err(); err != nil {
			return err
		}
		n, _ := r.ReadAt(buf, at)
		if bytes.Contains(buf[:n], encrypted) {
			return &Error{Kind: Encrypted, Msg: "open it with its password, save it without one, and try again"}
		}
		isXLS = isXLS || bytes.Contains(buf[:n], workbook) || bytes.Contains(buf[:n], book)
	}
	if isXLS {
		return &Error{Kind: LegacyXLS, Msg: "save it as .xlsx first"}
	}
	return &Error{Kind: NotWorkbook, Msg: "it is an OLE compound file, but neither a workbook nor an encrypted one"}
}

func utf16Bytes(s string) []byte {
	b := make([]byte, 0, 2*len(s))
	for i := range len(s) {
		b = append(b, s[i], 0)
	}
	return b
}

func looksLikeText(b []byte) bool {
	if bytes.HasPrefix(b, []byte("\xFF\xFE")) || bytes.HasPrefix(b, []byte("\xFE\xFF")) {
		return true
	}
	odd := 0
	for i := 0; i < len(b); {
		if c := b[i]; c < ' ' && !isSpace(c) && c != '\f' && c != 0x1a {
			return false
		}
		r, n := utf8.DecodeRune(b[i:])
		if r == utf8.RuneError && n == 1 {
			odd++ // an old single-byte encoding has some of these
		}
		i += n
	}
	return odd*4 <= len(b)
}
