package read

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// MaxBytes is the size up to which a file is read at all: some hundred times the
// largest schedules seen.
const MaxBytes = 64 << 20

// decode turns a text file into UTF-8: by its byte order mark, else as it is if
// it is valid UTF-8, else as Windows-1252, which is what spreadsheets write
// under "CSV" on Windows in western Europe and America.
func decode(data []byte) ([]byte, error) {
	switch {
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		data = data[3:]
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), bytes.HasPrefix(data, []byte{0xFE, 0xFF}):
		out, err := unicode.UTF16(unicode.LittleEndian, unicode.ExpectBOM).NewDecoder().Bytes(data)
		if err != nil {
			return nil, fmt.Errorf("the byte order mark says UTF-16, but it cannot be decoded: %w", err)
		}
		data = out
	}
	if i := bytes.IndexByte(data, 0); i >= 0 {
		line := 1 + bytes.Count(data[:i], []byte{'\n'})
		return nil, fmt.Errorf("line %d holds a NUL byte; if the file is UTF-16 without a byte order mark, save it as CSV UTF-8", line)
	}
	if !utf8.Valid(data) {
		out, err := charmap.Windows1252.NewDecoder().Bytes(data)
		if err != nil {
			return nil, err
		}
		data = out
	}
	// Pictures, PDF and the like seldom get this far without a NUL, but when they
	// do they are full of control characters, which no spreadsheet writes.
	control := 0
	for _, c := range data {
		if c < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != '\v' {
			control++
		}
	}
	if control*100 > len(data) {
		return nil, fmt.Errorf("the content is binary (%d control characters)", control)
	}
	if bytes.HasPrefix(data, []byte("%PDF-")) {
		return nil, fmt.Errorf("the content is a PDF document")
	}
	return data, nil
}
