package demo

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"regexp"
	"slices"
	"strings"
)

// textNumber is a formula cell whose cached value is a number, marked as text:
// that is how the library leaves one when the value is set before the formula.
var textNumber = regexp.MustCompile(`(<c [^>]*?) t="str"(><f>[^<]*</f><v>-?[0-9][0-9.]*</v></c>)`)

// repack writes the parts in the order of their names, the content types first
// as readers expect, without dates, so that the bytes hang on nothing but the
// content; and gives formulas numbers for cached values where they are numbers.
func repack(data []byte) ([]byte, error) {
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	parts := slices.Clone(in.File)
	slices.SortFunc(parts, func(a, b *zip.File) int { return strings.Compare(order(a.Name), order(b.Name)) })
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, p := range parts {
		body, err := content(p)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.Name, err)
		}
		if path.Dir(p.Name) == "xl/worksheets" {
			body = textNumber.ReplaceAll(body, []byte("$1$2"))
		}
		f, err := w.CreateHeader(&zip.FileHeader{Name: p.Name, Method: zip.Deflate})
		if err != nil {
			return nil, err
		}
		if _, err := f.Write(body); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func order(name string) string {
	if name == "[Content_Types].xml" {
		return ""
	}
	return name
}

func content(f *zip.File) ([]byte, error) {
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	return io.ReadAll(r)
}
