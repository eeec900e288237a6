package main

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func lockrail(t *testing.T, stdin string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, err bytes.Buffer
	status = run(context.Background(), args, streams{strings.NewReader(stdin), &out, &err})
	return status, out.String(), err.String()
}

const (
	demoUS = "../../testdata/demo/marram-point-us.xlsx"
	demoUK = "../../testdata/demo/marram-point-uk.xlsx"
)

func TestExitStatus(t *testing.T) {
	dir := t.TempDir()
	write := func(name, content string) string {
		p := filepath.Join(dir, name)
		if err := os.WriteFile(p, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		return p
	}
	notBook := write("notes.xlsx", "not a workbook at all")
	noHead := write("prose.csv", "Dear all,\nplease see the doors.\n")
	twice := write("twice.csv", "Mark,Fire Rating,Label\n101,90 MIN,45 MIN\n")
	badSize := write("size.csv", "Mark,Width,Height,Fire Rating\n101,3'-O\",7'-0\",90 MIN\n")
	conflict := "mark=1; fire_rating=90; lock=electric_strike; fail=safe"
	for _, tt := range []struct {
		name   string
		args   []string
		want   int
		stdout string // part of it
		stderr string
	}{
		{"nothing", nil, exitUsage, "", "commands:"},
		{"help", []string{"help"}, exitDone, "commands:", ""},
		{"help of one", []string{"help", "check"}, exitDone, "--fail-on", ""},
		{"--help", []string{"annotate", "--help"}, exitDone, "--in-place", ""},
		{"no such command", []string{"chek"}, exitUsage, "", `did you mean "check"?`},
		{"no such flag", []string{"check", "--editon", "x"}, exitUsage, "", `did you mean "edition"?`},
		{"no edition", []string{"check", "--door", "mark=1"}, exitUsage, "", "ibc-2021"},
		{"unknown edition", []string{"check", "--edition", "ibc-1999", "--door", "mark=1"}, exitUsage, "", "ibc-1999"},
		{"unknown field", []string{"check", "--edition", "ibc-2021", "--door", "widht=3-0"}, exitUsage, "", `did you mean "width"?`},
		{"bad value", []string{"check", "--edition", "ibc-2021", "--door", "width=3'-O\""}, exitUsage, "", "letter 'O'"},
		{"conflict", []string{"check", "--edition", "ibc-2021", "--door", conflict}, exitFindings, "conflict", ""},
		{"conflict, json", []string{"check", "--edition", "ibc-2021", "--format", "json", "--door", conflict}, exitFindings, `"severity":"conflict"`, ""},
		{"conflict allowed", []string{"check", "--edition", "ibc-2021", "--fail-on", "none", "--door", conflict}, exitDone, "conflict", ""},
		{"query only", []string{"check", "--edition", "ibc-2021", "--door", "mark=1; width=3-0"}, exitDone, "query", ""},
		{"query fails", []string{"check", "--edition", "ibc-2021", "--fail-on", "query", "--door", "mark=1; width=3-0"}, exitFindings, "query", ""},
		{"not a workbook", []string{"check", "--edition", "ibc-2021", notBook}, exitFailed, "", notBook},
		{"no header", []string{"check", "--edition", "ibc-2021", noHead}, exitFailed, "", noHead},
		{"two columns", []string{"check", "--edition", "ibc-2021", twice}, exitFailed, "", "Label"},
		{"two columns settled", []string{"check", "--edition", "ibc-2021", "--column", "fire_rating=Label", twice}, exitDone, "query", ""},
		{"bad size is no end", []string{"check", "--edition", "ibc-2021", badSize}, exitDone, "3'-O\"", ""},
		{"no such file", []string{"check", "--edition", "ibc-2021", filepath.Join(dir, "gone.xlsx")}, exitFailed, "", "gone.xlsx"},
		{"worst of several", []string{"check", "--edition", "ibc-2021", notBook, badSize}, exitFailed, "query", notBook},
		{"overwrite", []string{"annotate", "--edition", "ibc-2021", demoUS, "-o", demoUS}, exitUsage, "", "--in-place"},
		{"calculator", []string{"drop", "--volts", "24", "--amps", "0.5", "--length", "30", "--size", "18AWG"}, exitUsage, "", "unit"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			status, stdout, stderr := lockrail(t, "", tt.args...)
			if status != tt.want || !strings.Contains(stdout, tt.stdout) || !strings.Contains(stderr, tt.stderr) {
				t.Errorf("exit %d; want %d\nstdout (want %q):\n%s\nstderr (want %q):\n%s", status, tt.want, tt.stdout, stdout, tt.stderr, stderr)
			}
			if tt.want == exitUsage && stdout != "" {
				t.Errorf("a mistake on the command line wrote to standard output:\n%s", stdout)
			}
		})
	}
}

// A job that fails leaves the target as it was, and no scraps beside it.
func TestFailureWritesNothing(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.xlsx"), filepath.Join(dir, "out.xlsx")
	for name, content := range map[string]string{in: "no workbook", out: "mine"} {
		if err := os.WriteFile(name, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if status, _, _ := lockrail(t, "", "annotate", "--edition", "ibc-2021", in, "-o", out); status != exitFailed {
		t.Errorf("exit %d", status)
	}
	got, err := os.ReadFile(out)
	if err != nil || string(got) != "mine" {
		t.Errorf("the target changed: %q, %v", got, err)
	}
	left, _ := os.ReadDir(dir)
	if len(left) != 2 {
		t.Errorf("scraps were left: %v", left)
	}
}

// The bench calculators against printed examples and the standards' own figures.
func TestCalculators(t *testing.T) {
	for _, tt := range []struct {
		name   string
		source string
		args   []string
		want   map[string]any
		within float64
	}{
		{
			"voltage drop", "low-voltage wiring course on NEC Table 8: 100 ft of 16 AWG stranded (4.99 ohm/kft at 75 C), 4 A, 24 V drops 4.0 V, 16.7 %",
			[]string{"drop", "--volts", "24", "--amps", "4", "--length", "100ft", "--size", "16AWG", "--temp", "75C"},
			map[string]any{"drop_volts": 3.992, "drop_percent": 16.6, "loop_ohms": 0.998}, 0.05,
		},
		{
			"conduit fill", "code forum answer on NEC Tables 4 and 5: twelve 14 AWG THHN fill a 1/2 EMT",
			[]string{"fill", "--raceway", "EMT", "--trade", "1/2", "--cable", "12x14AWG:THHN"},
			map[string]any{"fits": true, "limit_percent": 40.0}, 0.05,
		},
		{
			"class 4 device", "IEEE 802.3: 25.5 W at the device from 30 W at 50 V over 12.5 ohm, 0.6 A, 4.5 W lost",
			[]string{"poe", "--type", "2", "--length", "100m", "--load", "25.5W"},
			map[string]any{"device_volts": 42.5, "cable_loss_watts": 4.5, "fits": true, "least_type": 2.0}, 0.01,
		},
		{
			"battery", "exam study guide: 0.25 A for 24 h and 1.5 A for 5 min are 6.125 Ah",
			[]string{"battery", "--phase", "0.25Ax24h", "--phase", "1.5Ax5min", "--margin", "1"},
			map[string]any{"amp_hours": 6.125, "block_amp_hours": 7.0}, 0.001,
		},
	} {
		t.Run(tt.name, func(t *testing.T) {
			status, stdout, stderr := lockrail(t, "", append(tt.args, "--format", "json")...)
			if status != exitDone {
				t.Fatalf("exit %d: %s", status, stderr)
			}
			var got map[string]any
			if err := json.Unmarshal([]byte(stdout), &got); err != nil {
				t.Fatalf("%v in %s", err, stdout)
			}
			for k, want := range tt.want {
				n, number := want.(float64)
				g, _ := got[k].(float64)
				if number && math.Abs(g-n) > tt.within || !number && got[k] != want {
					t.Errorf("%s = %v; want %v (%s)", k, got[k], want, tt.source)
				}
			}
		})
	}
}
