package demo_test

import (
	"context"
	"slices"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/demo"
	"example.com/lockrail/gen/read"
	"github.com/google/go-cmp/cmp"
)

// readFiles are the demo files with the edition each is judged on and the
// headings that are the owner's own, which no reader is meant to know.
var readFiles = []struct {
	file    string
	region  doorsched.Region
	edition doorsched.Edition
	own     []string
}{
	{demo.USWorkbook, doorsched.RegionUS, doorsched.IBC2021, []string{"Area ft²", "Calc H", "Calc W", "Cost code", "Sketch ref"}},
	{demo.USCSV, doorsched.RegionUS, doorsched.IBC2021, []string{"Area ft²", "Calc H", "Calc W", "Cost code", "Sketch ref"}},
	{demo.UKWorkbook, doorsched.RegionUK, doorsched.England2019, []string{"Area m²", "Cost code", "Sketch ref"}},
}

func readFile(t *testing.T, name string) *read.Result {
	t.Helper()
	res, err := read.Bytes(context.Background(), name, files(t)[name], read.Options{})
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return res
}

func TestReaderFindsEveryHeadingAndDoor(t *testing.T) {
	for _, f := range readFiles {
		t.Run(f.file, func(t *testing.T) {
			res := readFile(t, f.file)
			var want, got []string
			for _, d := range demo.Doors() {
				want = append(want, d.Mark)
			}
			for _, d := range res.Schedule.Doors {
				got = append(got, d.Mark)
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("doors (-want +got):\n%s", diff)
			}
			var unknown []string
			for _, c := range res.Columns {
				if c.Field == doorsched.NoField {
					unknown = append(unknown, lastPart(c.Heading))
				}
			}
			slices.Sort(unknown)
			if diff := cmp.Diff(f.own, unknown); diff != "" {
				t.Errorf("headings not recognised (-want +got):\n%s", diff)
			}
			// The label letter is planted; everything else can be read.
			var problems []string
			for _, p := range res.Problems {
				problems = append(problems, p.Door+" "+p.Field.String()+" "+p.Value)
			}
			var planted []string
			if f.region == doorsched.RegionUS {
				planted = []string{"015 fire_rating B"}
			}
			if diff := cmp.Diff(planted, problems); diff != "" {
				t.Errorf("problems (-want +got):\n%s", diff)
			}
			for _, a := range res.Assumed {
				t.Errorf("assumed %v = %s: %s", a.Field, a.Value, a.Reason)
			}
		})
	}
}

// lastPart is a heading without its group labels.
func lastPart(heading string) string {
	for i := len(heading) - 1; i > 0; i-- {
		if heading[i] == ' ' && heading[i-1] == '/' {
			return heading[i+1:]
		}
	}
	return heading
}

// What is read is what the table says, field by field.
func TestReaderReadsWhatTheTableSays(t *testing.T) {
	for _, f := range readFiles {
		res := readFile(t, f.file)
		for i, d := range demo.Doors() {
			rec := record(t, d, f.region)
			for _, v := range rec.All() {
				if text, ok := v.Data.(string); ok && (text == "N/A" || text == "TBC") {
					continue // a placeholder: no value
				}
				got, ok := res.Schedule.View(i).Get(v.Field)
				if !ok {
					t.Errorf("%s door %s: %v not read, want %v", f.file, d.Mark, v.Field, v.Raw)
				} else if got.Data != v.Data {
					t.Errorf("%s door %s: %v read as %v, want %v", f.file, d.Mark, v.Field, got.Data, v.Data)
				}
			}
		}
	}
}
