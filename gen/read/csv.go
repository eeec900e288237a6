package read

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
)

// Limits of a CSV file are those of a spreadsheet's sheet.
const (
	MaxRows    = 1_048_576
	MaxColumns = 16_384
)

// maxFieldLines is how many lines one quoted field may span; a cell's notes are
// shorter, and a stray quote must not swallow the file.
const maxFieldLines = 50

// sampleLines is how many lines settle the separator and the column count.
const sampleLines = 400

var errTooMany = errors.New("more rows or columns than a spreadsheet holds")

// parseCSV reads comma-, semicolon- or tab-separated text as spreadsheets and
// careless tools write it. It follows RFC 4180 where that yields the file's
// usual number of columns, and departs from it where door schedules break it:
//
//   - a quote inside an unquoted field is an inch mark: 3' - 0"
//   - "3'-0"" is a quoted field whose inch mark was not doubled. By the RFC it
//     runs on and swallows what follows; it is closed after the inch mark where
//     that, and only that, gives the row its usual number of columns
//   - a quoted field that spans lines is accepted if the row then has the usual
//     number of columns and no line inside it is a whole row by itself;
//     otherwise its opening quote is literal and the line ends the row
//   - rows may be shorter or longer than the header
//
// A first line "sep=;" is obeyed and not counted, as spreadsheets do. Line ends
// are LF, CRLF or CR.
func parseCSV(ctx context.Context, text []byte) (*grid, error) {
	lines := splitLines(text)
	sep := byte(0)
	if len(lines) > 0 && len(lines[0]) == 5 && bytes.HasPrefix(bytes.ToLower(lines[0]), []byte("sep=")) {
		sep = lines[0][4]
		lines = lines[1:]
	}
	if sep == 0 {
		sep = separator(lines)
	}
	p := csvReader{lines: lines, sep: sep, usual: usualCount(lines, sep)}
	g := &grid{}
	for n := 1; p.at < len(p.lines); n++ {
		if n%256 == 0 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
		}
		if n > MaxRows {
			return nil, fmt.Errorf("%w: more than %d rows", errTooMany, MaxRows)
		}
		fields := p.row()
		if len(fields) > MaxColumns {
			return nil, fmt.Errorf("%w: row %d has %d columns", errTooMany, n, len(fields))
		}
		row := gridRow{number: n}
		for i, f := range fields {
			if t := strings.TrimSpace(f); t != "" {
				row.cells = append(row.cells, gridCell{col: i + 1, text: t})
			}
		}
		if len(row.cells) > 0 {
			g.rows = append(g.rows, row)
		}
	}
	return g, nil
}

func splitLines(text []byte) [][]byte {
	var lines [][]byte
	for len(text) > 0 {
		i := bytes.IndexAny(text, "\r\n")
		if i < 0 {
			return append(lines, text)
		}
		lines = append(lines, text[:i])
		if text[i] == '\r' && i+1 < len(text) && text[i+1] == '\n' {
			i++
		}
		text = text[i+1:]
	}
	return lines
}

// separator picks the one of comma, semicolon and tab that cuts most lines into
// the same, largest number of fields.
func separator(lines [][]byte) byte {
	best, bestScore := byte(','), 0
	for _, sep := range []byte{',', ';', '\t'} {
		counts := fieldCounts(lines, sep)
		mode := modeOf(counts)
		score := 0
		for _, n := range counts {
			if n == mode {
				score += n - 1
			}
		}
		if score > bestScore {
			best, bestScore = sep, score
		}
	}
	return best
}

func usualCount(lines [][]byte, sep byte) int { return modeOf(fieldCounts(lines, sep)) }

func fieldCounts(lines [][]byte, sep byte) []int {
	var counts []int
	for _, l := range lines[:min(len(lines), sampleLines)] {
		if len(bytes.TrimSpace(l)) == 0 {
			continue
		}
		r := csvReader{lines: [][]byte{l}, sep: sep}
		if fields, _, closed := r.quoted(0, 1, false); closed {
			counts = append(counts, len(fields))
		}
	}
	return counts
}

// modeOf returns the commonest count, the larger of two equally common ones.
func modeOf(counts []int) int {
	times := map[int]int{}
	best := 1
	for _, n := range counts {
		times[n]++
	}
	for n, k := range times {
		if k > times[best] || k == times[best] && n > best {
			best = n
		}
	}
	return best
}

type csvReader struct {
	lines [][]byte
	sep   byte
	usual int // fields of most rows
	at    int // next line
}

// row reads one row and moves on.
func (r *csvReader) row() []string {
	fields, used := r.choose()
	r.at += used
	return fields
}

func (r *csvReader) choose() (fields []string, lines int) {
	plain, _, closed := r.quoted(r.at, 1, false)
	if closed && len(plain) >= r.usual {
		return plain, 1
	}
	inch, _, inchClosed := r.quoted(r.at, 1, true)
	if inchClosed && len(inch) == r.usual {
		return inch, 1
	}
	literal := r.literal()
	if closed {
		if len(literal) == r.usual {
			return literal, 1
		}
		return plain, 1
	}
	for _, inches := range []bool{false, true} {
		long, used, ok := r.quoted(r.at, maxFieldLines, inches)
		if ok && len(long) <= r.usual && !r.swallows(used) {
			return long, used
		}
	}
	if inchClosed && len(literal) != r.usual {
		return inch, 1
	}
	return literal, 1
}

// swallows reports whether one of the lines that a multi-line field would take
// in, after the first, is a whole row by itself.
func (r *csvReader) swallows(used int) bool {
	if r.usual < 2 {
		return false
	}
	for i := r.at + 1; i < r.at+used; i++ {
		for _, inches := range []bool{false, true} {
			if f, _, closed := r.quoted(i, 1, inches); closed && len(f) == r.usual {
				return true
			}
		}
	}
	return false
}

func (r *csvReader) literal() []string {
	return strings.Split(string(r.lines[r.at]), string(r.sep))
}

// quoted reads a row that starts at line i by the quoting rules, over at most
// max lines. With inches, a doubled quote after a digit that stands before a
// separator or the line's end is an inch mark and the closing quote. closed is
// false where a quoted field has no end within max lines.
func (r *csvReader) quoted(i, max int, inches bool) (fields []string, used int, closed bool) {
	line := r.lines[i]
	used = 1
	pos := 0
	for {
		if pos >= len(line) || line[pos] != '"' {
			end := bytes.IndexByte(line[pos:], r.sep)
			if end < 0 {
				return append(fields, string(line[pos:])), used, true
			}
			fields = append(fields, string(line[pos:pos+end]))
			pos += end + 1
			continue
		}
		var b strings.Builder
		pos++
		open := true
		for open {
			q := bytes.IndexByte(line[pos:], '"')
			if q < 0 {
				if used == max || i+used >= len(r.lines) {
					return fields, used, false
				}
				b.Write(line[pos:])
				b.WriteByte('\n')
				line, pos = r.lines[i+used], 0
				used++
				continue
			}
			b.Write(line[pos : pos+q])
			pos += q + 1
			ends := func(at int) bool { return at >= len(line) || line[at] == r.sep }
			switch {
			case ends(pos):
				open = false
			case line[pos] != '"':
				b.WriteByte('"') // a bare quote inside a quoted field
			case inches && ends(pos+1) && pos >= 2 && line[pos-2] >= '0' && line[pos-2] <= '9':
				b.WriteByte('"')
				pos++
				open = false
			default:
				b.WriteByte('"')
				pos++
			}
		}
		fields = append(fields, b.String())
		if pos >= len(line) {
			return fields, used, true
		}
		pos++ // the separator
	}
}
