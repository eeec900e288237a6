package read

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

const (
	headerRows  = 60  // rows in which the header is looked for
	maxBand     = 4   // rows that a header may take
	headerWidth = 400 // columns looked at while looking for the header
)

// heading is one column's place in the header: its texts from the group labels
// down to its own, and the unit that a line of units gives it.
type heading struct {
	path []string
	unit string
}

// text joins group and heading: "Frame / Material".
func (h heading) text() string { return clip(strings.Join(h.path, " / "), 120) }

func (h heading) own() string {
	if len(h.path) == 0 {
		return ""
	}
	return strings.Join(strings.Fields(h.path[len(h.path)-1]), " ")
}

// band is a run of rows taken for the header.
type band struct {
	first, last int // indices into grid.rows
	score       float64
	fields      []doorsched.FieldID // distinct, in table order
	mark        bool
	headings    []heading // by column-1
	machine     bool      // all headings are machine names
}

// reader is the work on one grid.
type reader struct {
	grid *grid
	opt  Options
	file string
	user map[string]doorsched.FieldID // corrections by key of the heading
	cols map[int]doorsched.FieldID    // corrections by column number
	seen map[string]found             // memo of headings looked up
	lost map[string]bool
}

// findHeader picks the rows that read best as a header. ok is false where no
// rows hold a door mark and another field; the band is then the closest.
func (r *reader) findHeader() (band, bool) {
	var best, closest band
	rows := r.grid.rows
	width := min(r.grid.lastCol(), headerWidth)
	for last := range rows {
		if rows[last].number > headerRows+maxBand {
			break
		}
		for first := last; first >= 0 && last-first < maxBand; first-- {
			if rows[last].number-rows[first].number != last-first || rows[first].number > headerRows {
				break // a blank row ends a header
			}
			if first < last && r.isTitle(first, last) {
				continue
			}
			b := r.try(first, last, width)
			if b.mark && len(b.fields) > 1 && b.better(best) {
				best = b
			}
			if b.better(closest) {
				closest = b
			}
		}
	}
	if len(best.fields) == 0 {
		return closest, false
	}
	best.headings = r.grid.headings(best.first, best.last, r.grid.lastCol())
	return best, true
}

func (b band) better(o band) bool {
	const near = 1e-9
	if b.score > o.score+near {
		return true
	}
	if b.score < o.score-near {
		return false
	}
	return len(o.fields) > 0 && b.last-b.first < o.last-o.first && b.last <= o.last
}

// isTitle reports whether row i, above the other rows of a band, is a title
// rather than a line of group labels.
func (r *reader) isTitle(i, last int) bool {
	cells := r.grid.rows[i].cells
	if len(cells) != 1 {
		return false
	}
	k := key(cells[0].text)
	_, label := words.groups[k]
	_, open := words.ambiguous[k]
	return cells[0].col <= r.grid.rows[last].cells[0].col || !label && !open && !words.known(k)
}

// try reads rows first to last as a header and weighs what that gives.
func (r *reader) try(first, last, width int) band {
	b := band{first: first, last: last}
	b.headings = r.grid.headings(first, last, width)
	b.machine = machineHeader(b.headings)
	labels := 0
	for i, h := range b.headings {
		f, ok := r.meaningOf(i+1, h, b.machine)
		if !ok {
			continue
		}
		if h.unit != "" {
			b.score += 0.25
		}
		if f.how == unread {
			b.score += 0.5
			continue
		}
		if f.byLabel {
			labels++
		}
		at, have := slices.BinarySearch(b.fields, f.field)
		if have {
			continue
		}
		b.fields = slices.Insert(b.fields, at, f.field)
		b.mark = b.mark || f.field == doorsched.Mark.ID()
		if f.confidence == Near {
			b.score += 0.6
		} else {
			b.score++
		}
	}
	b.score += 0.1 * float64(labels)
	return b
}

// meaningOf returns what the heading of a column means, the user's word first.
func (r *reader) meaningOf(col int, h heading, machine bool) (found, bool) {
	if id, ok := r.cols[col]; ok {
		return asUserSays(id, h), true
	}
	if len(h.path) == 0 {
		return found{}, false
	}
	for _, k := range []string{key(h.text()), key(h.own())} {
		if id, ok := r.user[k]; ok && k != "" {
			return asUserSays(id, h), true
		}
	}
	memo := strings.Join(h.path, "\x00") + "\x00" + h.unit
	if machine {
		memo += "\x00machine"
	}
	if f, ok := r.seen[memo]; ok {
		return f, true
	}
	if r.lost[memo] {
		return found{}, false
	}
	f, ok := found{}, false
	if machine {
		f, ok = machineName(h.own())
	}
	if !ok {
		f, ok = words.look(h.path)
		// a name with a slip is not guessed at where all others are exact
		ok = ok && !(machine && f.confidence == Near)
	}
	if !ok {
		r.lost[memo] = true
		return found{}, false
	}
	if h.unit != "" {
		f.unit = h.unit
	}
	r.seen[memo] = f
	return f, true
}

// asUserSays reads a column as the field that the user named for it, in the
// vocabulary's way where that has the same field under this heading.
func asUserSays(id doorsched.FieldID, h heading) found {
	f, ok := words.look(h.path)
	if !ok || f.field != id {
		unit := ""
		if len(h.path) > 0 {
			_, unit = cutUnit(h.own())
		}
		f = found{meaning: meaning{field: id, unit: cmp.Or(h.unit, unit)}}
	}
	f.confidence, f.open, f.rank = ByUser, nil, -1
	return f
}

// machineHeader reports whether a header is written in machine names
// throughout: then "sign" and "frame" are those fields and no trade words.
func machineHeader(hs []heading) bool {
	named, all := 0, 0
	for _, h := range hs {
		if len(h.path) == 0 {
			continue
		}
		own := h.path[len(h.path)-1]
		if len(h.path) > 1 || own != strings.ToLower(own) || strings.ContainsAny(own, " ./") {
			return false
		}
		all++
		if _, _, ok := doorsched.LookupField(own); ok {
			named++
		}
	}
	return all >= 2 && named*5 >= all*4
}

// headings works out every column's header texts over the rows first to last.
// A label applies to its merged cells; in a row without merges, as a CSV file
// has them, rightwards to the next label. A label with nothing below it in its
// own column is that column's heading and no group label.
func (g *grid) headings(first, last, width int) []heading {
	hs := make([]heading, width)
	lowest := make([]int, width) // row of the column's own heading, -1 none
	for col := range lowest {
		lowest[col] = -1
		for i := first; i <= last; i++ {
			if _, ok := g.rows[i].at(col + 1); ok {
				lowest[col] = i
			}
		}
	}
	for i := first; i <= last; i++ {
		labels := g.labels(i, width)
		for col := range hs {
			text := g.rows[i].text(col + 1)
			if text == "" {
				from := labels[col] // the column whose label covers this one
				if from == 0 || lowest[from-1] == i || lowest[col] <= i {
					continue
				}
				if text = g.rows[i].text(from); text == "" {
					continue
				}
			}
			if p := hs[col].path; len(p) > 0 && key(p[len(p)-1]) == key(text) {
				continue
			}
			hs[col].path = append(hs[col].path, strings.Join(strings.Fields(text), " "))
		}
	}
	for col := range hs {
		p := hs[col].path
		if len(p) < 2 {
			continue
		}
		if u, ok := pureUnit(p[len(p)-1]); ok {
			hs[col].path, hs[col].unit = p[:len(p)-1], u
		}
	}
	return hs
}

// labels returns for each column of row i the column (from 1) whose text covers
// it, 0 for none.
func (g *grid) labels(i, width int) []int {
	out := make([]int, width)
	row := g.rows[i]
	merged := false
	for _, m := range g.merges {
		if m.r1 <= row.number && row.number <= m.r2 && m.c2 > m.c1 {
			merged = true
			for c := m.c1; c <= min(m.c2, width); c++ {
				out[c-1] = m.c1
			}
		}
	}
	if merged {
		return out
	}
	from := 0
	for c := 1; c <= width; c++ {
		if _, ok := row.at(c); ok {
			from = c
		}
		out[c-1] = from
	}
	return out
}

// noHeader describes what was looked for and what came closest.
func (r *reader) noHeader(closest band, where string) *Error {
	e := &Error{Kind: ErrNoHeader, File: r.file, Sheet: r.grid.sheet}
	e.Msg = fmt.Sprintf("%s: looked in the first %d rows for a heading of the door mark (Mark, Door No., Opening No. …) and at least one more field", where, headerRows)
	if len(closest.fields) == 0 {
		if len(r.grid.rows) == 0 {
			e.Msg += "; there is no text at all"
		} else {
			e.Msg += "; no heading was recognised"
		}
		return e
	}
	row := r.grid.rows[closest.last]
	e.Cells = []doorsched.Cell{r.grid.cell(row.number, row.cells[0].col)}
	e.Value = row.line()
	var names []string
	for _, id := range closest.fields {
		names = append(names, id.String())
	}
	e.Msg += fmt.Sprintf("; the closest is row %d, which gives only %s", row.number, strings.Join(names, ", "))
	if !closest.mark {
		e.Msg += " and no door mark; name the mark's heading if it is there under another word"
	}
	return e
}
