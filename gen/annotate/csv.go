package annotate

import (
	"bytes"
	"context"
	"io"
	"unicode/utf8"

	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/result"
	"github.com/xuri/excelize/v2"
)

// csvSheet is the title of the sheet that takes a CSV file's rows.
const csvSheet = "Door schedule"

// FromCSV writes a new workbook with the rows of a CSV file as text, each where
// it stood, and annotates it. rows[0] is row 1. Errors are as for [Workbook].
func FromCSV(ctx context.Context, r *result.Result, rows [][]string, w io.Writer) error {
	data, err := csvBook(ctx, r.Place, rows)
	if err != nil {
		return err
	}
	p, err := ooxml.Open(ctx, bytes.NewReader(data), int64(len(data)), ooxml.Limits{})
	if err != nil {
		return err
	}
	book := *r
	book.Place.Sheet = csvSheet
	return Workbook(ctx, p, &book, w)
}

func csvBook(ctx context.Context, place result.Place, rows [][]string) (data []byte, err error) {
	f := excelize.NewFile()
	defer func() {
		if cerr := f.Close(); err == nil {
			err = cerr
		}
	}()
	if err := f.SetSheetName(f.GetSheetName(0), csvSheet); err != nil {
		return nil, err
	}
	// The text format keeps a number that a person types over one of these cells
	// as the schedule had it: 007 stays 007.
	plain, err := f.NewStyle(&excelize.Style{NumFmt: 49})
	if err != nil {
		return nil, err
	}
	head, err := f.NewStyle(&excelize.Style{
		NumFmt: 49, Font: &excelize.Font{Bold: true}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{layout.Grey}},
	})
	if err != nil {
		return nil, err
	}
	for i, n := range widths(rows) {
		col := ooxml.ColumnName(i + 1)
		if err := f.SetColWidth(csvSheet, col, col, n); err != nil {
			return nil, err
		}
	}
	if place.HeadLast > 0 {
		err := f.SetPanes(csvSheet, &excelize.Panes{
			Freeze: true, YSplit: place.HeadLast, TopLeftCell: ooxml.CellName(place.HeadLast+1, 1), ActivePane: "bottomLeft",
		})
		if err != nil {
			return nil, err
		}
	}
	for i, row := range rows {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		style := plain
		if n := i + 1; n >= place.HeadFirst && n <= place.HeadLast {
			style = head
		}
		for j, text := range row {
			if text == "" {
				continue
			}
			ref := ooxml.CellName(i+1, j+1)
			if err := f.SetCellStr(csvSheet, ref, text); err != nil {
				return nil, err
			}
			if err := f.SetCellStyle(csvSheet, ref, ref, style); err != nil {
				return nil, err
			}
		}
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

// widths fits columns to their content, within reason.
func widths(rows [][]string) []float64 {
	var out []float64
	for _, row := range rows {
		for i, text := range row {
			if i == len(out) {
				out = append(out, 8)
			}
			out[i] = max(out[i], min(float64(utf8.RuneCountInString(text))+2, 36))
		}
	}
	return out
}
