package annotate_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/result"
	"github.com/google/go-cmp/cmp"
)

// The dump shows an annotated workbook of three doors as text: a line a row,
// cells cut short, blank ones as a dot.
func TestGolden(t *testing.T) {
	out := run(t, userBook(t), func(r *result.Result) {
		r.Doors, r.Place.LastRow = r.Doors[1:4], firstRow+3
	})
	var b strings.Builder
	for _, info := range open(t, out).Sheets() {
		s := scan(t, out, info.Name)
		if info.Name == "Pricing" || info.Name == "Summary" {
			continue
		}
		fmt.Fprintf(&b, "[%s]\n", info.Name)
		rows, first := s.Rows, 1
		if info.Name == doorsSheet {
			first = 12
		} else {
			rows = rows[1:] // the purpose
		}
		for _, row := range rows {
			if line := dumpRow(row, first); line != "" {
				fmt.Fprintf(&b, "%2d %s\n", row.Number, line)
			}
		}
	}
	path := filepath.Join("..", "..", "testdata", "annotate", "three_doors.txt")
	if *update {
		must(t, os.MkdirAll(filepath.Dir(path), 0o755))
		must(t, os.WriteFile(path, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(path)
	must(t, err)
	if d := cmp.Diff(string(want), b.String()); d != "" {
		t.Errorf("run with -update if this is meant (-want +got):\n%s", d)
	}
}

func dumpRow(row ooxml.Row, first int) string {
	var cells []string
	for _, c := range row.Cells {
		if c.Col < first {
			continue
		}
		s := strings.Join(strings.Fields(c.Text), " ")
		if c.HasFormula {
			s = "=…"
		}
		if r := []rune(s); len(r) > 22 {
			s = string(r[:21]) + "…"
		}
		if s == "" {
			s = "·"
		}
		cells = append(cells, s)
	}
	return strings.TrimRight(strings.Join(cells, " | "), " |·")
}
