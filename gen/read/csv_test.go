package read

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// flat writes a grid one line a row: 3:a|b||d.
func flat(g *grid) []string {
	var out []string
	for _, r := range g.rows {
		line := ""
		col := 1
		for _, c := range r.cells {
			for ; col < c.col; col++ {
				line += "|"
			}
			line += strings.ReplaceAll(c.text, "\n", "⏎")
		}
		out = append(out, fmt.Sprintf("%d:%s", r.number, line))
	}
	return out
}

func TestCSVReader(t *testing.T) {
	for _, tt := range []struct {
		name, in string
		want     []string
	}{
		{"plain", "a,b,c\n1,2,3\n", []string{"1:a|b|c", "2:1|2|3"}},
		{"carriage returns", "a,b\r1,2\r", []string{"1:a|b", "2:1|2"}},
		{"blank lines count", "a,b\r\n\r\n1,2", []string{"1:a|b", "3:1|2"}},
		{"semicolons", "a;b;c\n1,5;2;3\n", []string{"1:a|b|c", "2:1,5|2|3"}},
		{"tabs", "a\tb\n3' - 0\"\t2", []string{"1:a|b", "2:3' - 0\"|2"}},
		{"said separator is no row", "sep=;\na;b\n1;2", []string{"1:a|b", "2:1|2"}},
		{"ragged rows", "t\na,b,c\n1\n1,2,3,4\n5,6,7", []string{"1:t", "2:a|b|c", "3:1", "4:1|2|3|4", "5:5|6|7"}},
		{"bare inch mark", "a,b,c\n1,3' - 0\",7' - 0\"\n", []string{"1:a|b|c", `2:1|3' - 0"|7' - 0"`}},
		{"doubled inch mark", "a,b,c\n1,\"3'-0\"\"\",\"7'-0\"\"\"\n", []string{"1:a|b|c", `2:1|3'-0"|7'-0"`}},
		{"inch mark not doubled", "a,b,c\n1,\"3'-0\"\",\"7'-0\"\"\n2,x,y\n", []string{"1:a|b|c", `2:1|3'-0"|7'-0"`, "3:2|x|y"}},
		{"inch mark not doubled, once a row", "a,b,c\n1,\"3'-0\"\",x\n2,\"7'-0\"\",y\n", []string{"1:a|b|c", `2:1|3'-0"|x`, `3:2|7'-0"|y`}},
		{"inch mark not doubled at the end", "a,b\n1,\"3'-0\"\"\n2,\"7'-0\"\"\n3,x\n", []string{"1:a|b", `2:1|3'-0"`, `3:2|7'-0"`, "4:3|x"}},
		{"inch mark not doubled before a quoted field", "a,b,c,d\n1,\"3'-0\"\",x,\"y\"\n", []string{"1:a|b|c|d", `2:1|3'-0"|x|y`}},
		{"separator in quotes", "a,b,c\n1,\"x, y\",3\n", []string{"1:a|b|c", "2:1|x, y|3"}},
		{"quoted words before a comma", "a,b,c\n1,\"the \"\"new\"\", big\",3\n", []string{"1:a|b|c", `2:1|the "new", big|3`}},
		{"heading over two lines", "a,\"Fire\nRating\",c\n1,2,3\n4,5,6\n", []string{"1:a|Fire⏎Rating|c", "2:1|2|3", "3:4|5|6"}},
		{"title over two lines", "\"Terminal\nDoors\"\na,b,c\n1,2,3\n", []string{"1:Terminal⏎Doors", "2:a|b|c", "3:1|2|3"}},
		{"open quote swallows no row", "a,b,c\n1,\"3'-0,x\n2,y,z\n3,y,\"z\"\n", []string{"1:a|b|c", `2:1|"3'-0|x`, "3:2|y|z", "4:3|y|z"}},
		{"open quote in a short row", "a,b,c\n1,\"3'-0\n2,\"y\",z\n3,y,z\n", []string{"1:a|b|c", `2:1|"3'-0`, "3:2|y|z", "4:3|y|z"}},
		{"ditto marks", "a,b,c,d\n1,2,3,4\n5,\",\",6\n", []string{"1:a|b|c|d", "2:1|2|3|4", `3:5|"|"|6`}},
		{"text after a closing quote", "a,b\n\"x\"y,2\n", []string{"1:a|b", `2:"x"y|2`}},
		{"empty", "", nil},
	} {
		g, err := parseCSV(context.Background(), []byte(tt.in))
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if diff := cmp.Diff(tt.want, flat(g)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

func TestDecode(t *testing.T) {
	const text = "Mark,Café ½\n"
	utf16 := func(little bool) []byte {
		var b bytes.Buffer
		for _, r := range "\ufeff" + text {
			if little {
				b.Write([]byte{byte(r), byte(r >> 8)})
			} else {
				b.Write([]byte{byte(r >> 8), byte(r)})
			}
		}
		return b.Bytes()
	}
	for name, in := range map[string][]byte{
		"UTF-8":                []byte(text),
		"UTF-8 with BOM":       []byte("\ufeff" + text),
		"UTF-16 little-endian": utf16(true),
		"UTF-16 big-endian":    utf16(false),
		"Windows-1252":         []byte("Mark,Caf\xe9 \xbd\n"),
	} {
		got, err := decode(in)
		if err != nil || string(got) != text {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	for name, in := range map[string]string{
		"NUL":    "a,b\n1,\x002\n",
		"binary": "\x89PNG\r\n\x1a\n\x01\x02\x03\x04\x05\x06",
		"PDF":    "%PDF-1.7\n% text",
	} {
		if got, err := decode([]byte(in)); err == nil {
			t.Errorf("%s: read as %q", name, got)
		}
	}
}

func TestCSVLimits(t *testing.T) {
	for name, in := range map[string]string{
		"columns": strings.Repeat(",", MaxColumns+1),
		"rows":    strings.Repeat("\n", MaxRows) + "x\n",
	} {
		if _, err := parseCSV(context.Background(), []byte(in)); !errors.Is(err, errTooMany) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestCSVStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := parseCSV(ctx, []byte(strings.Repeat("a,b\n", 1000))); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// Whatever the quotes, no letter or digit of the text is lost, added or moved.
func FuzzCSVReader(f *testing.F) {
	for _, s := range []string{"a,b\n1,3' - 0\"\n", "a,b,c\n1,\"3'-0\"\",\"7'-0\"\"\n2,x,y\n", "a;\"b\nc\";d\n1;2;3", "\"\n\"\",\"\n", "sep=\ta\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		text, err := decode(data)
		if err != nil {
			return
		}
		g, err := parseCSV(context.Background(), text)
		if err != nil {
			return
		}
		if line, _, _ := strings.Cut(string(text), "\n"); len(line) >= 5 && strings.EqualFold(line[:4], "sep=") {
			return // the line that names the separator is no row
		}
		var got strings.Builder
		for i, r := range g.rows {
			if i > 0 && r.number <= g.rows[i-1].number {
				t.Fatalf("row %d after row %d", r.number, g.rows[i-1].number)
			}
			for j, c := range r.cells {
				if c.text == "" || j > 0 && c.col <= r.cells[j-1].col {
					t.Fatalf("row %d: cell %d %q", r.number, c.col, c.text)
				}
				got.WriteString(key(c.text))
			}
		}
		if want := key(string(text)); got.String() != want {
			t.Errorf("%q was read as %q", want, got.String())
		}
	})
}
