package read_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/read"
)

// Nothing of a file vanishes: every cell that holds text is in the header, in a
// column or row that is reported as not read, in a value of its door, in a
// placeholder or in a problem.
func FuzzBytes(f *testing.F) {
	for _, s := range []string{
		"Mark,Width\n101,3' - 0\"\n102,\"3'-0\"\"\n",
		"\ufeffMark;Width;Height\r\n1;915;2100\r\n",
		"Door,,Frame\nMark,Material,Material\n1,\"WD\n2,\"HM\"\n",
		"Doors\nMark,Size,Label,AC,Maglock,Security\nLEVEL 2\n1,3068 PR,B,in,yes,no\n1,TBC,--,yes,no,yes\nTotal: 2\n",
		"mark,release_on_fire_alarm,exit_button,lock\n1,yes,no,x\n",
		"Mark,Lock,Hinges,Existing,New\n1,L1,3,yes,no\n,,,,x\n\nSet,Type,Number\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		res, err := read.Bytes(context.Background(), "f.csv", data, read.Options{})
		if err != nil {
			var e *read.Error
			if !errors.As(err, &e) || !strings.HasPrefix(err.Error(), "f.csv: ") {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		checkNothingLost(t, res)
	})
}

// checkNothingLost looks for a home for every cell of a CSV file.
func checkNothingLost(t interface{ Errorf(string, ...any) }, res *read.Result) {
	home := map[doorsched.Cell]bool{}
	rows := map[int]bool{}
	doors := map[int]*doorsched.Door{}
	for i := range res.Schedule.Doors {
		d := &res.Schedule.Doors[i]
		doors[d.Source.Row] = d
		for _, v := range d.All() {
			home[v.Cell] = true
		}
	}
	for _, p := range res.Problems {
		home[p.Cell] = true
	}
	for _, p := range res.Placeholders {
		home[p.Cell] = true
	}
	for _, s := range res.Skipped {
		for n := s.Row; n <= s.Last; n++ {
			rows[n] = true
		}
	}
	columns := map[int]read.Column{}
	for _, c := range res.Columns {
		columns[c.Col] = c
	}
	for i, row := range res.Rows {
		n := i + 1
		if n >= res.Header.FirstRow && n <= res.Header.LastRow || rows[n] {
			continue
		}
		for j, text := range row {
			at := doorsched.Cell{Row: n, Col: j + 1}
			c, known := columns[j+1]
			if text == "" || home[at] || known && c.Field == doorsched.NoField {
				continue
			}
			if d := doors[n]; known && d != nil && saysSo(d, c, text) {
				continue
			}
			t.Errorf("%s %q is nowhere", at, text)
		}
	}
}

// saysSo covers the cells that share a value with another cell of their row: a
// second note, a second yes to one question, one means of a set.
func saysSo(d *doorsched.Door, c read.Column, text string) bool {
	if strings.Contains(doorsched.AccessText.Of(&d.Record).Or(""), text) {
		return true
	}
	_, err := doorsched.ParseAnswer(text)
	_, held := d.Get(c.Field)
	info, _ := doorsched.FieldInfo(c.Field)
	return held && (err == nil || info.Kind == doorsched.KindMeans)
}

// The same law on tables that look like schedules, where random bytes seldom get.
func TestNothingLost(t *testing.T) {
	headings := []string{"Width", "Leaf Width", "Height", "Size", "Thickness", "Fire Rating", "Label", "Leaves", "Material", "Frame", "Type", "Finish", "Lock", "Lockset", "Maglock",
		"Access Control", "Card Reader", "Electrified", "Security", "Break glass", "Reed switch", "Hold Open", "MHO", "Existing", "New", "Hinges", "Seals", "Swing", "Smoke Control",
		"To Room", "From Room", "Level", "Building", "Remarks", "Comments", "Int./Ext.", "Qty", "S.O. Width", "Cost code", "", "release_set", "exit_button", "Occupant load"}
	texts := []string{"", "", "x", "yes", "no", "--", "TBC", "See spec", `"`, "3'-0\"", "3'-O\"", "915", "36", "3068", "PR 762", "926+326", "3-0 x 7-0 PR", "B", "NR", "FD30S", "90 MIN",
		"HM", "WD", "F1", "LH", "maglock", "both sides", "none", "3", "Level 1", "Total: 3", "{sensor,button}", "unknown", "n/a", "Mark", "101", "Width", "Set"}
	rapid.Check(t, func(rt *rapid.T) {
		head := append([]string{"Mark"}, rapid.SliceOfN(rapid.SampledFrom(headings), 1, 8).Draw(rt, "headings")...)
		rows := [][]string{head}
		for range rapid.IntRange(0, 6).Draw(rt, "rows") {
			rows = append(rows, rapid.SliceOfN(rapid.SampledFrom(texts), 0, len(head)+2).Draw(rt, "row"))
		}
		res, err := read.Bytes(context.Background(), "t.csv", table(rows...), read.Options{})
		if err != nil {
			var e *read.Error
			if !errors.As(err, &e) {
				rt.Fatalf("%T: %v", err, err)
			}
			return
		}
		checkNothingLost(rt, res)
	})
}
