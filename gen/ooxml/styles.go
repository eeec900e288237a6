package ooxml

import (
	"strconv"
	"strings"
	"time"
)

// Styles answers questions about the cell formats of a workbook.
type Styles struct {
	part    string
	raw     []byte
	formats map[int]string // custom number formats
	xfs     []int          // number format of each cell format
}

func readStyles(part string, b []byte) (*Styles, error) {
	o, err := readOutline(part, b, nsMain, "styleSheet")
	if err != nil {
		return nil, err
	}
	s := &Styles{part: part, raw: b, formats: map[int]string{}}
	if list := o.child("numFmts"); list != nil {
		for i := range list.kids {
			if id, err := strconv.Atoi(list.kids[i].get("numFmtId")); err == nil {
				s.formats[id] = list.kids[i].get("formatCode")
			}
		}
	}
	if list := o.child("cellXfs"); list != nil {
		for i := range list.kids {
			id, _ := strconv.Atoi(list.kids[i].get("numFmtId"))
			s.xfs = append(s.xfs, id)
		}
	}
	return s, nil
}

// Count gives the number of cell formats; a cell's Style is below it in a sound file.
func (s *Styles) Count() int { return len(s.xfs) }

// NumFmt gives the number format of a cell format: its id, and its code where
// the workbook spells it out. A format out of range is General, id 0.
func (s *Styles) NumFmt(style int) (id int, code string) {
	if style < 0 || style >= len(s.xfs) {
		return 0, ""
	}
	return s.xfs[style], s.formats[s.xfs[style]]
}

// IsDate reports whether a number in this cell format is shown as a date or a
// time: the built-in formats 14–22, 27–36, 45–47 and 50–58 (ECMA-376 part 1,
// 18.8.30), or a code with date letters outside quotes and brackets.
func (s *Styles) IsDate(style int) bool {
	id, code := s.NumFmt(style)
	if code != "" {
		return isDateCode(code)
	}
	return id >= 14 && id <= 22 || id >= 27 && id <= 36 || id >= 45 && id <= 47 || id >= 50 && id <= 58
}

func isDateCode(code string) bool {
	code, _, _ = strings.Cut(code, ";")
	for i := 0; i < len(code); i++ {
		switch c := code[i]; c {
		case '"':
			n := strings.IndexByte(code[i+1:], '"')
			if n < 0 {
				return false
			}
			i += n + 1
		case '\\', '_', '*':
			i++
		case '[':
			n := strings.IndexByte(code[i:], ']')
			if n < 0 {
				return false
			}
			// [h], [mm], [s] count elapsed time; [Red], [$-409], [>=1] do not.
			if inner := strings.ToLower(code[i+1 : i+n]); inner != "" && (strings.Trim(inner, "h") == "" || strings.Trim(inner, "m") == "" || strings.Trim(inner, "s") == "") {
				return true
			}
			i += n
		case 'd', 'D', 'm', 'M', 'y', 'Y', 'h', 'H', 's', 'S':
			return true
		case 'G', 'g':
			if len(code) >= i+7 && strings.EqualFold(code[i:i+7], "general") {
				i += 6
			}
		}
	}
	return false
}

// SerialTime turns a serial date into a time without zone, to the nearest
// second. The 1900 system counts a 29 February 1900 that never was: serial 60 is
// not a date. ok is false for it, for negative numbers and from the year 10000.
func SerialTime(serial float64, date1904 bool) (t time.Time, ok bool) {
	const lastSerial = 2958466 // 1 January 10000 in the 1900 system
	if !(serial >= 0 && serial < lastSerial) {
		return time.Time{}, false
	}
	day := int(serial)
	epoch := time.Date(1899, 12, 31, 0, 0, 0, 0, time.UTC)
	switch {
	case date1904:
		epoch = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case day == 60:
		return time.Time{}, false
	case day > 60:
		day--
	}
	seconds := int((serial-float64(int(serial)))*86400 + 0.5)
	t = epoch.AddDate(0, 0, day).Add(time.Duration(seconds) * time.Second)
	return t, t.Year() < 10000
}
