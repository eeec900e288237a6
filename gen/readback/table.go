package readback

import (
	"context"
	"strconv"
	"strings"
	"time"

	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
)

// table reads a sheet of ours back: one map a line, from column keys to text. A
// person may have moved, added or deleted columns, so they are found by their
// headings, in the words of either region.
func table(ctx context.Context, p *ooxml.Package, title string, s layout.Sheet) ([]map[string]string, error) {
	sheet, err := p.Scan(ctx, title)
	if err != nil {
		return nil, err
	}
	var keys map[int]string // by column
	var out []map[string]string
	for _, row := range sheet.Rows {
		if keys == nil {
			keys = headings(row, s)
			continue
		}
		line := map[string]string{}
		for _, c := range row.Cells {
			if key, ok := keys[c.Col]; ok {
				if text := strings.TrimSpace(shown(p, c)); text != "" {
					line[key] = text
				}
			}
		}
		if len(line) > 0 {
			out = append(out, line)
		}
	}
	return out, nil
}

// headings gives the columns of a heading row; nil for any other row.
func headings(row ooxml.Row, s layout.Sheet) map[int]string {
	found := map[int]string{}
	for _, c := range row.Cells {
		for _, col := range s.Columns {
			if c.Text == col.Title.US || c.Text == col.Title.UK {
				found[c.Col] = col.Key
			}
		}
	}
	if len(found) < 2 {
		return nil
	}
	return found
}

// shown is a cell's text with a date as a date: 2026-03-01.
func shown(p *ooxml.Package, c ooxml.Cell) string {
	if c.Kind != ooxml.CellNumber || !p.Styles().IsDate(c.Style) {
		return c.Text
	}
	serial, err := strconv.ParseFloat(c.Raw, 64)
	if err != nil {
		return c.Text
	}
	if t, ok := ooxml.SerialTime(serial, p.Date1904()); ok {
		return strings.TrimSuffix(t.Format(time.DateTime), " 00:00:00")
	}
	return c.Text
}
