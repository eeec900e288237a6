package demo

import (
	"bytes"
	"encoding/csv"
	"strconv"
)

// csv writes the sheet as a spreadsheet saves it under "CSV UTF-8": a byte
// order mark, CRLF, only the first cell of what was merged, formulas as what
// they come to, hidden columns like any other, every row as wide as the widest.
func (s *sheet) csv() ([]byte, error) {
	var out bytes.Buffer
	out.WriteString("\ufeff")
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	row := func(cells ...string) error {
		return w.Write(append(cells, make([]string, len(s.columns)-len(cells))...))
	}
	for _, t := range append(append([]string(nil), s.title...), "") {
		if err := row(t); err != nil {
			return nil, err
		}
	}
	head := make([][]string, s.head)
	for i := range head {
		head[i] = make([]string, len(s.columns))
	}
	for _, sp := range s.spans() {
		head[sp.row][sp.first] = sp.text
	}
	for _, h := range head {
		if err := row(h...); err != nil {
			return nil, err
		}
	}
	for _, l := range s.rows {
		cells := make([]string, len(s.columns))
		cells[0] = l.text
		for i, v := range l.cells {
			cells[i] = s.shown(i, v)
		}
		if l.kind == totalLine {
			cells[1] = strconv.Itoa(s.doorCount())
			cells[s.special(area)] = s.shown(s.special(area), s.totalArea())
		}
		if err := row(cells...); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

// shown is a cell's text as its number format shows it.
func (s *sheet) shown(col int, v any) string {
	switch x := v.(type) {
	case string:
		return x
	case float64:
		if s.columns[col].special == area {
			return strconv.FormatFloat(x, 'f', s.areaDecimals(), 64)
		}
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return ""
}

func (s *sheet) areaDecimals() int { return 1 + s.at }
