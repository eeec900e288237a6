package cable_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"example.com/lockrail/cable"
)

type row map[string]string

// published reads a file of published values.
func published(t testing.TB, name string) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "cable", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []row
	for _, record := range records[1:] {
		r := row{}
		for i, name := range records[0] {
			r[name] = record[i]
		}
		rows = append(rows, r)
	}
	if len(rows) == 0 {
		t.Fatal("no rows in " + name)
	}
	return rows
}

func (r row) number(t testing.TB, name string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[name], 64)
	if err != nil {
		t.Fatalf("%v: %v", r, err)
	}
	return x
}

// example reads the inputs and printed results of a worked example.
func example(t testing.TB, id string) (inputs, printed map[string]any) {
	t.Helper()
	for _, r := range published(t, "worked.csv") {
		if r["id"] != id {
			continue
		}
		for text, into := range map[string]*map[string]any{r["inputs_json"]: &inputs, r["recalculated_json"]: &printed} {
			if err := json.Unmarshal([]byte(text), into); err != nil {
				t.Fatal(err)
			}
		}
		over := map[string]any{}
		if err := json.Unmarshal([]byte(r["printed_result_json"]), &over); err != nil {
			t.Fatal(err)
		}
		for k, v := range over {
			printed[k] = v
		}
		return inputs, printed
	}
	t.Fatal("no worked example " + id)
	return nil, nil
}

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, published %v (allowed %v)", what, got, want, tolerance)
	}
}

func size(t testing.TB, s string) cable.Size {
	t.Helper()
	parsed, err := cable.ParseSize(s)
	if err != nil {
		t.Fatal(err)
	}
	return parsed
}
