package hardware_test

import (
	"encoding/csv"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"example.com/lockrail/doorsched"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// door makes a view of pairs of field name and text, all given.
func door(tb testing.TB, mark string, pairs ...string) doorsched.View {
	tb.Helper()
	var r doorsched.Record
	for i := 0; i+1 < len(pairs); i += 2 {
		if err := doorsched.Set(&r, pairs[i], pairs[i+1], doorsched.Given); err != nil {
			tb.Fatal(err)
		}
	}
	return doorsched.NewView(mark, &r)
}

// rows reads a table of testdata/hardware by heading.
func rows(tb testing.TB, name string) []map[string]string {
	tb.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "hardware", name))
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		tb.Fatal(err)
	}
	var out []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, h := range all[0] {
			m[h] = r[i]
		}
		if m["status"] == "" || m["source"] == "" {
			tb.Errorf("%s: %v has no status or source", name, r)
		}
		out = append(out, m)
	}
	return out
}

func num(tb testing.TB, s string) float64 {
	tb.Helper()
	if s == "" {
		return 0
	}
	n, err := strconv.ParseFloat(s, 64)
	if err != nil {
		tb.Fatal(err)
	}
	return n
}

func lengthOf(tb testing.TB, s string) doorsched.Length {
	tb.Helper()
	m, err := doorsched.ParseLength(s, doorsched.UnitMillimetre)
	if err != nil {
		tb.Fatal(err)
	}
	return m.Length
}
