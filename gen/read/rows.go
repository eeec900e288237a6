package read

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// Reason says why a row holds no door.
type Reason string

// Reasons.
const (
	Title          Reason = "above the header"
	Section        Reason = "section"
	Total          Reason = "total"
	RepeatedHeader Reason = "header repeated"
	NoMark         Reason = "no door mark"
	OtherTable     Reason = "another table"
	Blank          Reason = "blank"
)

// SkippedRow is a row, or a run of rows, that holds no door.
type SkippedRow struct {
	Row, Last int // Last is Row but for runs of blank rows
	Reason    Reason
	Text      string // what stands there, shortened
}

// Problem is a cell that could not be taken as it stands. Its field is Unknown
// unless Message says otherwise.
type Problem struct {
	Cell    doorsched.Cell
	Door    string
	Field   doorsched.FieldID // 0 where no one field is meant
	Value   string
	Message string
}

var (
	totalRow      = regexp.MustCompile(`(?i)^(?:(?:grand|sub)?[\s-]*totals?|count|no\. of doors|number of doors)\b`)
	totalCell     = regexp.MustCompile(`(?i)^(?:[\d.,]+|.*\btotals?\b.*|doors?|no\.?)$`)
	levelStrict   = regexp.MustCompile(`(?i)^(?:level|lvl|floor|storey|story)\b\s*[:.#-]?\s*\S`)
	levelLoose    = regexp.MustCompile(`(?i)\b(?:floor|level|storey|story|basement|mezzanine|penthouse|roof|ground|attic|cellar)\b`)
	buildingText  = regexp.MustCompile(`(?i)^(?:building|bldg|block|tower|wing)\b`)
	labelledText  = regexp.MustCompile(`(?i)^(?:level|lvl|floor|storey|story|building|bldg\.?|block|tower|wing)\s*:\s*(\S.*)$`)
	countedFooter = regexp.MustCompile(`^(.*\S)\s*:\s*\d+$`)
	plainWords    = regexp.MustCompile(`^\S+(?:\s+\S+){0,4}$`)
)

// rowReader turns the rows below the header into doors.
type rowReader struct {
	*reader
	cols     []*column // in the order in which they may speak
	byCol    map[int]*column
	mark     *column
	band     band
	headKeys map[int][]string // keys of a column's header texts
	titles   map[string]bool
	out      *Result

	level, building carried
	lastSection     string
	marks           map[string]doorsched.Cell
	assumed         map[string]int
}

// carried is a section's text with its cell.
type carried struct {
	text string
	cell doorsched.Cell
}

func (rr *rowReader) readRows(ctx context.Context, rows []gridRow) error {
	previous := rr.grid.rows[rr.band.last].number
	for i, row := range rows {
		if i%256 == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
		}
		if row.number > previous+1 {
			rr.out.Skipped = append(rr.out.Skipped, SkippedRow{previous + 1, row.number - 1, Blank, ""})
		}
		previous = row.number
		if rr.otherTable(row) {
			rr.problem(row.number, row.cells[0].col, "", 0, row.line(), "another table begins here; it and the rows below it are not read as doors")
			for _, rest := range rows[i:] {
				rr.skip(rest, OtherTable)
			}
			return nil
		}
		rr.row(row)
	}
	return nil
}

func (rr *rowReader) skip(row gridRow, why Reason) {
	rr.out.Skipped = append(rr.out.Skipped, SkippedRow{row.number, row.number, why, row.line()})
}

func (rr *rowReader) problem(row, col int, door string, f doorsched.FieldID, value, msg string) {
	rr.out.Problems = append(rr.out.Problems, Problem{Cell: rr.grid.cell(row, col), Door: door, Field: f, Value: value, Message: msg})
}

func (rr *rowReader) row(row gridRow) {
	mark, hasMark := row.at(rr.mark.Col)
	switch {
	case rr.repeatsHeader(row):
		rr.skip(row, RepeatedHeader)
	case rr.isTotal(row):
		rr.skip(row, Total)
	case rr.isSection(row):
		rr.skip(row, Section)
	case !hasMark, isPlaceholder(mark.text, rr.mark.info), isDitto(mark.text):
		rr.skip(row, NoMark)
		rr.problem(row.number, row.cells[0].col, "", doorsched.Mark.ID(), row.line(), "the row has no door mark and is not read as a door")
	default:
		rr.door(row, mark)
	}
}

func (rr *rowReader) repeatsHeader(row gridRow) bool {
	if rr.titles[row.line()] {
		return true
	}
	for _, c := range row.cells {
		if !slices.Contains(rr.headKeys[c.col], key(c.text)) {
			return false
		}
	}
	return true
}

func (rr *rowReader) isTotal(row gridRow) bool {
	first := row.cells[0].text
	if len(row.cells) == 1 && rr.lastSection != "" {
		if m := countedFooter.FindStringSubmatch(first); m != nil && strings.EqualFold(m[1], rr.lastSection) {
			return true
		}
	}
	if !totalRow.MatchString(first) {
		return false
	}
	for _, c := range row.cells[1:] {
		if !totalCell.MatchString(c.text) {
			return false
		}
	}
	return true
}

// isSection reports whether a row is one text that heads the rows below it, and
// keeps it where it names a level or a building.
func (rr *rowReader) isSection(row gridRow) bool {
	c := row.cells[0]
	text := c.text
	if len(row.cells) == 2 && (strings.HasSuffix(text, ":") || labelWord(text)) && key(text) != "" {
		// "Level:" and "2" in two cells
		if !labelWord(strings.TrimSuffix(text, ":")) {
			return false
		}
		text = strings.TrimSuffix(text, ":") + ": " + row.cells[1].text
		c = row.cells[1]
	} else if len(row.cells) > 1 {
		return false
	}
	short := plainWords.MatchString(text) && !strings.HasSuffix(text, ".")
	column := rr.byCol[c.col]
	marked := column == rr.mark && looksLikeMark(text) && !rr.grid.mergedAcross(row.number, c.col)
	value := text
	if m := labelledText.FindStringSubmatch(text); m != nil {
		value = m[1]
	}
	at := carried{value, rr.grid.cell(row.number, c.col)}
	switch {
	case short && buildingText.MatchString(text):
		rr.building, rr.level = at, carried{}
	case short && levelStrict.MatchString(text):
		rr.level = at
	case marked:
		return false
	case short && levelLoose.MatchString(text):
		rr.level = at
	case column != nil && column != rr.mark && column.how != unread && c.col != rr.mark.Col && len(row.cells) == 1 && !rr.grid.mergedAcross(row.number, c.col):
		return false // a value without a mark, not a heading
	}
	rr.lastSection = text
	return true
}

func labelWord(s string) bool {
	switch strings.ToLower(strings.TrimRight(s, ": .")) {
	case "level", "lvl", "floor", "storey", "story", "building", "bldg", "block", "tower", "wing":
		return true
	}
	return false
}

// looksLikeMark tells a mark that stands alone from a section's title.
func looksLikeMark(s string) bool {
	return len(s) <= 12 && strings.ContainsAny(s, "0123456789") && len(strings.Fields(s)) <= 2 && !strings.ContainsAny(s, ":=")
}

func (g *grid) mergedAcross(row, col int) bool {
	return slices.ContainsFunc(g.merges, func(m span) bool { return m.r1 == row && m.c1 == col && m.c2 > m.c1 })
}

// otherTable reports whether a row is the header of a table of another kind.
func (rr *rowReader) otherTable(row gridRow) bool {
	if len(row.cells) < 3 || rr.repeatsHeader(row) {
		return false
	}
	for _, c := range row.cells {
		k := key(c.text)
		if _, open := words.ambiguous[k]; len(k) < 3 || !open && !words.known(k) {
			return false
		}
	}
	return true
}

// door reads one door.
func (rr *rowReader) door(row gridRow, mark gridCell) {
	out := rr.out
	d := doorsched.Door{Mark: mark.text, Source: rr.grid.cell(row.number, mark.col)}
	if first, twice := rr.marks[d.Mark]; twice {
		rr.problem(row.number, mark.col, d.Mark, doorsched.Mark.ID(), d.Mark, fmt.Sprintf("the mark stands in %s already; both rows are kept", first.Ref()))
	} else {
		rr.marks[d.Mark] = d.Source
	}
	if mark.fault != "" {
		rr.problem(row.number, mark.col, d.Mark, doorsched.Mark.ID(), mark.text, mark.fault+"; the mark is kept as shown here")
	}
	d.Put(doorsched.Value{Field: doorsched.Mark.ID(), Data: d.Mark, Origin: doorsched.Given, Cell: d.Source, Raw: mark.text})
	var notes []string
	for _, c := range rr.cols {
		if c == rr.mark {
			continue
		}
		cell, ok := row.at(c.Col)
		if !ok {
			continue
		}
		at := rr.grid.cell(row.number, c.Col)
		if cell.fault != "" && !(cell.date && c.info.Kind == doorsched.KindText && c.field != doorsched.HardwareSet.ID()) {
			rr.problem(row.number, c.Col, d.Mark, c.Field, cell.text, cell.fault)
			continue
		}
		v := c.read(cell.text)
		if v.problem != "" {
			rr.problem(row.number, c.Col, d.Mark, c.Field, cell.text, v.problem)
		}
		if v.placeholder {
			out.Placeholders = append(out.Placeholders, Placeholder{at, d.Mark, c.Field, cell.text})
		}
		if v.note != "" {
			notes = append(notes, v.note)
			if len(notes) == 1 {
				d.Put(doorsched.Value{Field: doorsched.AccessText.ID(), Data: v.note, Origin: doorsched.Given, Cell: at, Raw: cell.text})
			}
		}
		for _, x := range v.values {
			x.Cell, x.Raw = at, cell.text
			if rr.put(&d, c, x) {
				rr.assume(d.Mark, x.Field, v.assumed)
			}
		}
	}
	if len(notes) > 1 {
		v, _ := d.Get(doorsched.AccessText.ID())
		v.Data, v.Raw = strings.Join(notes, "; "), strings.Join(notes, "; ")
		d.Put(v)
	}
	rr.place(&d)
	if n, ok := doorsched.Leaves.Of(&d.Record).Get(); ok && n == 2 {
		rr.openingWidth(&d)
	}
	out.Schedule.Doors = append(out.Schedule.Doors, d)
	if out.Table.FirstDataRow == 0 {
		out.Table.FirstDataRow = row.number
	}
	out.Table.LastDataRow = row.number
}

// put stores a value unless another column has said otherwise already. It
// reports whether the value holds now.
func (rr *rowReader) put(d *doorsched.Door, c *column, x doorsched.Value) bool {
	old, ok := d.Get(x.Field)
	_, set := x.Data.(doorsched.MeansSet)
	switch {
	case !ok || set:
		d.Put(x)
	case old.Data == x.Data:
		if old.Origin != doorsched.Given && x.Origin == doorsched.Given {
			d.Put(x)
		}
	case c.how == electric:
		// an electrified door without a credential is no contradiction
		rr.problem(x.Cell.Row, x.Cell.Col, d.Mark, x.Field, x.Raw, fmt.Sprintf("not taken for %s, which is %s by %s", x.Field, show(old), old.Cell.Ref()))
		return false
	case old.Origin != doorsched.Given && x.Origin == doorsched.Given:
		d.Put(x)
		rr.problem(old.Cell.Row, old.Cell.Col, d.Mark, x.Field, old.Raw, fmt.Sprintf("as %s this contradicts %s in %s; the latter is kept", x.Field, show(x), x.Cell.Ref()))
	default:
		rr.problem(x.Cell.Row, x.Cell.Col, d.Mark, x.Field, x.Raw, fmt.Sprintf("as %s this contradicts %s in %s; the latter is kept", x.Field, show(old), old.Cell.Ref()))
		return false
	}
	return true
}

// openingWidth notes that a pair's width is the whole opening's where its
// heading says so.
func (rr *rowReader) openingWidth(d *doorsched.Door) {
	w, ok := d.Get(doorsched.Width.ID())
	if !ok || w.Cell.IsZero() {
		return
	}
	if c := rr.byCol[w.Cell.Col]; c == nil || !c.opening {
		return
	}
	if _, known := d.Get(doorsched.WidthIs.ID()); !known {
		d.Put(doorsched.Value{Field: doorsched.WidthIs.ID(), Data: doorsched.Choice("opening"), Origin: doorsched.Derived, Cell: w.Cell, Raw: w.Raw})
	}
}

// assume records an assumption made for one value of a door.
func (rr *rowReader) assume(mark string, f doorsched.FieldID, made []doorsched.Assumption) {
	for _, a := range made {
		if a.Field != f {
			continue
		}
		k := fmt.Sprintf("%d\x00%s\x00%s", a.Field, a.Value, a.Reason)
		i, ok := rr.assumed[k]
		if !ok {
			i = len(rr.out.Assumed)
			rr.assumed[k] = i
			rr.out.Assumed = append(rr.out.Assumed, a)
		}
		rr.out.Assumed[i].Doors = append(rr.out.Assumed[i].Doors, mark)
	}
}

// place gives the door its places: what its own row says, else its section.
func (rr *rowReader) place(d *doorsched.Door) {
	for _, p := range []struct {
		field doorsched.FieldID
		from  carried
	}{{doorsched.Level.ID(), rr.level}, {doorsched.BuildingName.ID(), rr.building}} {
		if _, ok := d.Get(p.field); !ok && p.from.text != "" {
			d.Put(doorsched.Value{Field: p.field, Data: p.from.text, Origin: doorsched.Given, Cell: p.from.cell, Raw: p.from.text})
		}
	}
	d.Building = doorsched.BuildingName.Of(&d.Record).Or("")
	d.Storey = doorsched.Level.Of(&d.Record).Or("")
	d.Room = doorsched.RoomTo.Of(&d.Record).Or(doorsched.RoomFrom.Of(&d.Record).Or(""))
}

// places lists the buildings, storeys and rooms that doors name, in the order
// of their first doors, so that what is asked about a place has a home.
func places(s *doorsched.Schedule) {
	add := func(list *[]doorsched.Place, seen map[string]bool, name string) {
		if name != "" && !seen[name] {
			seen[name] = true
			*list = append(*list, doorsched.Place{Name: name})
		}
	}
	b, f, r := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for i := range s.Doors {
		add(&s.Buildings, b, s.Doors[i].Building)
		add(&s.Storeys, f, s.Doors[i].Storey)
		add(&s.Rooms, r, s.Doors[i].Room)
	}
}
