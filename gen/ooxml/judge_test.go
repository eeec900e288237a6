package ooxml_test

import (
	"context"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A spreadsheet program opens what we wrote and shows every cell. Set
// LOCKRAIL_REQUIRE_JUDGES=1 to make its absence a failure.
func TestSpreadsheetProgramReadsOurOutput(t *testing.T) {
	program, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("LOCKRAIL_REQUIRE_JUDGES") == "1" {
			t.Fatal("soffice is not installed")
		}
		t.Skip("soffice is not installed")
	}
	const rows = 5
	out, _ := patch(t, kitchenSink(t, rows), fullPlan(rows))
	dir := t.TempDir()
	file := filepath.Join(dir, "out.xlsx")
	if err := os.WriteFile(file, out, 0o600); err != nil {
		t.Fatal(err)
	}
	convert := func(format, file string) {
		t.Helper()
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
		defer cancel()
		cmd := exec.CommandContext(ctx, program, "-env:UserInstallation=file://"+dir+"/profile", "--headless", "--convert-to", format, "--outdir", dir, file)
		if text, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
	}
	// The last number of the filter's options writes every sheet to its own file.
	convert("csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,true,false,false,-1", file)
	read := func(sheet string) [][]string {
		t.Helper()
		f, err := os.Open(filepath.Join(dir, "out-"+sheet+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		r := csv.NewReader(f)
		r.FieldsPerRecord = -1
		records, err := r.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return records
	}
	schedule := read(userSheet)
	at := func(row, col int) string {
		if row > len(schedule) || col > len(schedule[row-1]) {
			return ""
		}
		return schedule[row-1][col-1]
	}
	for _, tt := range []struct {
		row, col int
		want     string
	}{
		{4, 2, "D001"}, {4, 3, "915"}, {3, 13, "Verdict"}, {4, 12, "D001"}, {5, 14, "21.425 V"}, {4, 15, "CHANGED"}, {rows + 10, 12, "a row that was not there"},
	} {
		if got := at(tt.row, tt.col); got != tt.want {
			t.Errorf("row %d, column %d: %q, want %q", tt.row, tt.col, got, tt.want)
		}
	}
	if got := at(4, 13); !strings.HasPrefix(got, "=conflict & <query>") {
		t.Errorf("text that begins with = reads %q", got)
	}
	if q := read("Queries"); len(q) < 4 || q[3][1] != "Sprinklered?" {
		t.Errorf("our sheet reads %q", q)
	}
	convert("pdf", file)
	if info, err := os.Stat(filepath.Join(dir, "out.pdf")); err != nil || info.Size() < 1000 {
		t.Errorf("PDF: %v", err)
	}

	// Saved again by that program, whatever form it gives our parts, the workbook
	// still takes the plan, and takes it once.
	second := filepath.Join(dir, "again.ods")
	convert("ods", file)
	if err := os.Rename(filepath.Join(dir, "out.ods"), second); err != nil {
		t.Fatal(err)
	}
	convert("xlsx", second)
	saved, err := os.ReadFile(filepath.Join(dir, "again.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	plan := fullPlan(rows)
	plan.Put[0].Replace, plan.Put[1].Replace = true, true
	renewed, c := patch(t, saved, plan)
	checkUntouched(t, saved, renewed, c)
	if _, c := patch(t, renewed, plan); !c.None() {
		t.Errorf("a second run changes %+v", c)
	}
	if n := strings.Count(part(t, renewed, "xl/worksheets/sheet1.xml"), "our_mark"); n != 1 {
		t.Errorf("%d conditional formats of ours", n)
	}
	if cell, _ := scan(t, open(t, renewed), userSheet).Cell(4, 12); cell.Text != "D001" {
		t.Errorf("our cell reads %+v", cell)
	}
}
