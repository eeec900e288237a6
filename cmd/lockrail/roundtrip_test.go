package main

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// parts reads a workbook's entries, inflated.
func parts(t *testing.T, name string) map[string]string {
	t.Helper()
	z, err := zip.OpenReader(name)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	out := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(data)
	}
	return out
}

// The demo given back: what is not ours is equal byte for byte, and doing it
// again, on the edition that the workbook remembers, changes nothing.
func TestAnnotateTwiceIsOnce(t *testing.T) {
	// Parts that have to grow: the schedule's sheet, the list of sheets and names
	// with its relations and types, the styles.
	grows := []string{"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml", "xl/workbook.xml", sheet1}
	for _, tt := range []struct{ demo, edition string }{{demoUS, "ibc-2021"}, {demoUK, "england-2019"}} {
		t.Run(tt.edition, func(t *testing.T) {
			once := filepath.Join(t.TempDir(), "once.xlsx")
			if status, _, stderr := lockrail(t, "", "annotate", "--edition", tt.edition, tt.demo, "-o", once); status != exitDone {
				t.Fatalf("exit %d: %s", status, stderr)
			}
			before, after := parts(t, tt.demo), parts(t, once)
			for name, want := range before {
				if !slices.Contains(grows, name) && after[name] != want {
					t.Errorf("%s is not ours and changed", name)
				}
			}
			first, err := os.ReadFile(once)
			if err != nil {
				t.Fatal(err)
			}
			if status, _, stderr := lockrail(t, "", "annotate", once, "--in-place"); status != exitDone {
				t.Fatalf("again: exit %d: %s", status, stderr)
			}
			second, err := os.ReadFile(once)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(first, second) {
				again := parts(t, once)
				for name := range again {
					if d := cmp.Diff(after[name], again[name]); d != "" {
						t.Errorf("%s changed on the second run:\n%.2000s", name, d)
					}
				}
				if !t.Failed() {
					t.Error("the packing changed on the second run")
				}
			}
		})
	}
}

// A judged workbook checks as the one it came from.
func TestCheckOfOurOutput(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out.xlsx")
	if status, _, stderr := lockrail(t, "", "annotate", "--edition", "ibc-2021", demoUS, "-o", out); status != exitDone {
		t.Fatal(stderr)
	}
	_, want, _ := lockrail(t, "", "check", "--edition", "ibc-2021", demoUS)
	_, got, _ := lockrail(t, "", "check", out)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-schedule +annotated):\n%s", d)
	}
}
