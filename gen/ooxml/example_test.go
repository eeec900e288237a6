package ooxml_test

import (
	"bytes"
	"context"
	"fmt"
	"log"

	"example.com/lockrail/gen/ooxml"
	"github.com/xuri/excelize/v2"
)

func Example() {
	// A workbook that belongs to somebody else.
	f := excelize.NewFile()
	defer f.Close()
	_ = f.SetSheetRow("Sheet1", "A1", &[]any{"Mark", "Clear width"})
	_ = f.SetSheetRow("Sheet1", "A2", &[]any{"D01", 815})
	theirs, err := f.WriteToBuffer()
	if err != nil {
		log.Fatal(err)
	}

	ctx := context.Background()
	p, err := ooxml.Open(ctx, bytes.NewReader(theirs.Bytes()), int64(theirs.Len()), ooxml.Limits{})
	if err != nil {
		log.Fatal(err)
	}
	sheet, err := p.Scan(ctx, "Sheet1")
	if err != nil {
		log.Fatal(err)
	}
	for _, c := range sheet.Cells {
		fmt.Println(c.Name(), c.Kind, c.Text)
	}

	plan := &ooxml.Plan{}
	bold := plan.Style(ooxml.Style{Bold: true})
	col := sheet.RightEdge() + 2 // a blank column between theirs and ours
	plan.Edits = []ooxml.SheetEdit{{
		Sheet: "Sheet1",
		Cells: []ooxml.NewCell{
			ooxml.TextCell(1, col, "Verdict", bold),
			ooxml.TextCell(2, col, "query", 0),
		},
	}}
	var out bytes.Buffer
	changes, err := ooxml.Patch(ctx, p, plan, &out)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("changed", changes.Changed)

	again, err := ooxml.Open(ctx, bytes.NewReader(out.Bytes()), int64(out.Len()), ooxml.Limits{})
	if err != nil {
		log.Fatal(err)
	}
	changes, err = ooxml.Patch(ctx, again, plan, &bytes.Buffer{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("changed by the same plan again:", !changes.None())
	// Output:
	// A1 shared string Mark
	// B1 shared string Clear width
	// A2 shared string D01
	// B2 number 815
	// changed [xl/worksheets/sheet1.xml xl/styles.xml]
	// changed by the same plan again: false
}
