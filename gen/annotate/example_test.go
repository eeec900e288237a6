package annotate_test

import (
	"bytes"
	"context"
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/annotate"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/result"
)

// A CSV file comes back as a workbook: its rows, and beside each door what was
// found. gen.Run makes the result; here it is made by hand.
func Example() {
	rows := [][]string{{"Mark", "Width"}, {"101", "900"}, {"102", "700"}}
	edition, _ := doorsched.England2019.Info()
	r := &result.Result{
		File: "doors.csv", Edition: edition,
		Place:    result.Place{HeadFirst: 1, HeadLast: 1, FirstRow: 2, LastRow: 3, MarkCol: 1},
		Headings: []result.Heading{{Col: 1, Heading: "Mark", Field: doorsched.Mark.ID()}, {Col: 2, Heading: "Width", Field: doorsched.Width.ID()}},
		Doors: []result.Door{
			{Mark: "101", Source: doorsched.Cell{Row: 2, Col: 1}, Verdict: doorsched.NoConflict},
			{Mark: "102", Source: doorsched.Cell{Row: 3, Col: 1}, Verdict: doorsched.Conflict},
		},
	}
	ctx := context.Background()
	var out bytes.Buffer
	if err := annotate.FromCSV(ctx, r, rows, &out); err != nil {
		fmt.Println(err)
		return
	}
	p, err := ooxml.Open(ctx, bytes.NewReader(out.Bytes()), int64(out.Len()), ooxml.Limits{})
	if err != nil {
		fmt.Println(err)
		return
	}
	sheet, err := p.Scan(ctx, "Door schedule")
	if err != nil {
		fmt.Println(err)
		return
	}
	for row := 1; row <= 3; row++ {
		verdict, _ := sheet.Cell(row, 5)
		judged, _ := sheet.Cell(row, 12)
		fmt.Println(verdict.Text, "|", judged.Text)
	}
	// Output:
	// Verdict | Judged on
	// no conflict found | Door number 101; Width 900; edition england-2019
	// conflict | Door number 102; Width 700; edition england-2019
}
