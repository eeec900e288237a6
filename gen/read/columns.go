package read

import (
	"fmt"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
)

// Column is one column of the schedule and what it was taken for.
type Column struct {
	Col     int
	Heading string            // group and heading joined: "Frame / Material"
	Field   doorsched.FieldID // 0: not read; Note says why
	// Also lists the fields that the column can set besides Field, as a size does.
	Also       []doorsched.FieldID
	Unit       string // of its bare numbers, as the heading gives it
	Confidence Confidence
	Samples    []string // up to three different texts
	Note       string
}

// column is a Column at work.
type column struct {
	Column
	meaning
	info    doorsched.Info
	own     string // its own heading, without groups
	at      doorsched.Cell
	open    choiceOfClass
	opening bool                  // its width is the whole opening's
	bare    lengthUnit            // of bare lengths
	memo    map[string]cellValues // by text
}

// adds reports whether the column adds to a field that other columns may speak
// of too, rather than claim it.
func (c *column) adds() bool {
	return c.how == access || c.how == electric || c.how == yesMeans || c.info.Kind == doorsched.KindMeans
}

// assign settles which column is which field.
func (r *reader) assign(b band) ([]*column, error) {
	var cols []*column
	for i, h := range b.headings {
		c := &column{Column: Column{Col: i + 1, Heading: h.text()}, own: h.own(), memo: map[string]cellValues{}}
		c.at = r.headingCell(b, i+1)
		c.Samples = r.samples(b.last+1, c.Col)
		if c.Heading == "" && len(c.Samples) == 0 {
			continue
		}
		if f, ok := r.meaningOf(c.Col, h, b.machine); ok {
			c.meaning, c.Confidence, c.open = f.meaning, f.confidence, f.open
			for _, label := range h.path {
				k := key(label)
				c.opening = c.opening || words.classOf(k) == ofOpening || strings.HasPrefix(k, "opening")
			}
		} else {
			c.how = unread
			c.note = "not recognised"
			if c.Heading == "" {
				c.note = "no heading"
			}
		}
		cols = append(cols, c)
	}
	r.settleOpen(cols)
	return cols, r.settleClaims(cols)
}

func (r *reader) headingCell(b band, col int) doorsched.Cell {
	for i := b.last; i >= b.first; i-- {
		if _, ok := r.grid.rows[i].at(col); ok {
			return r.grid.cell(r.grid.rows[i].number, col)
		}
	}
	return r.grid.cell(r.grid.rows[b.last].number, col)
}

// samples returns the first three different texts of a column. It stops after a
// hundred rows that show nothing new.
func (r *reader) samples(from, col int) []string {
	var out []string
	idle := 0
	for _, row := range r.grid.rows[from:] {
		t := row.text(col)
		if t == "" || slices.Contains(out, clip(t, 40)) {
			if idle++; idle > 100 && len(out) > 0 {
				break
			}
			continue
		}
		if out, idle = append(out, clip(t, 40)), 0; len(out) == 3 {
			break
		}
	}
	return out
}

// settleOpen settles headings that mean something else under another group
// (Material, Finish, Type, Width) where no group label stands above them: one
// such heading by itself is the door's; of several, each belongs with the nearest
// settled column to its left.
func (r *reader) settleOpen(cols []*column) {
	for i, c := range cols {
		if c.open == nil {
			continue
		}
		alone := true
		for j, o := range cols {
			if i != j && (o.open != nil && key(o.own) == key(c.own) || o.open == nil && o.how != unread && o.field == c.field && o.how == c.how) {
				alone = false
			}
		}
		if alone {
			continue
		}
		near := ofDoor
		for j := i - 1; j >= 0; j-- {
			if k := classOfField(cols[j]); k != "" {
				near = k
				break
			}
		}
		if m, ok := c.open[near]; ok {
			rank := c.rank
			c.meaning, c.Confidence = m, ByGroup
			if near == ofDoor {
				c.rank = rank
			}
		}
	}
}

// classOfField tells whose column this is, empty where it could be anyone's.
func classOfField(c *column) class {
	if c.how == unread && c.note == notADoor {
		return ofFrame
	}
	switch c.field {
	case doorsched.DoorMaterial.ID(), doorsched.DoorFinish.ID(), doorsched.DoorType.ID(), doorsched.Width.ID(), doorsched.Height.ID(), doorsched.Thickness.ID(), doorsched.LeafWidth.ID(), doorsched.DoorMat.ID():
		return ofDoor
	case doorsched.FrameType.ID(), doorsched.FrameMaterial.ID(), doorsched.FrameFinish.ID(), doorsched.FrameMat.ID():
		return ofFrame
	case doorsched.HardwareSet.ID(), doorsched.LockText.ID(), doorsched.KeySet.ID():
		return ofHardware
	case doorsched.Glazing.ID():
		return ofGlass
	case doorsched.RoomTo.ID():
		return ofToRoom
	case doorsched.RoomFrom.ID():
		return ofFromRoom
	}
	return ""
}

// settleClaims gives each field to the column with the best claim. Equal claims
// are an error, for picking one would be a guess.
func (r *reader) settleClaims(cols []*column) error {
	holder := map[doorsched.FieldID]*column{}
	for _, c := range cols {
		if c.how == unread || c.adds() {
			continue
		}
		c.info, _ = doorsched.FieldInfo(c.field)
		if c.adds() { // a set field
			continue
		}
		h, taken := holder[c.field]
		if !taken {
			holder[c.field] = c
			continue
		}
		winner, loser := h, c
		d := r.compareClaims(h, c)
		// A second word for a mark, a level or a remark is left aside and said so;
		// two filled columns of a field that is judged are for the user to settle.
		if h.Confidence != ByUser && c.Confidence != ByUser && h.instead == 0 && c.instead == 0 &&
			c.info.Kind != doorsched.KindText && len(h.Samples) > 0 && len(c.Samples) > 0 {
			d = 0
		}
		switch {
		case d > 0:
			winner, loser = c, h
		case d == 0:
			id := c.field.String()
			return &Error{Kind: ErrTwoColumns, File: r.file, Sheet: r.grid.sheet, Cells: []doorsched.Cell{h.at, c.at}, Value: id,
				Msg: fmt.Sprintf("both %s in %s and %s in %s read as %s (%s); say which is meant with --column '%s=%s' or --column '%s=%s'",
					quote(h.Heading), h.at.Ref(), quote(c.Heading), c.at.Ref(), id, c.info.US, id, "column "+doorsched.ColumnName(h.Col), id, "column "+doorsched.ColumnName(c.Col))}
		}
		loser.how, loser.note = unread, fmt.Sprintf("%s is read from %s in column %s", winner.field, quote(winner.Heading), doorsched.ColumnName(winner.Col))
		holder[c.field] = winner
	}
	for _, c := range cols {
		if c.instead != 0 && slices.ContainsFunc(cols, func(o *column) bool { return o != c && o.how == access && o.field == c.field }) {
			c.field = c.instead
		}
	}
	for _, c := range cols {
		c.finish()
	}
	return nil
}

// compareClaims is negative where a has the better claim.
func (r *reader) compareClaims(a, b *column) int {
	if (a.Confidence == ByUser) != (b.Confidence == ByUser) {
		return a.rank - b.rank
	}
	if (len(a.Samples) == 0) != (len(b.Samples) == 0) {
		return len(b.Samples) - len(a.Samples) // an empty column claims nothing
	}
	if a.rank != b.rank {
		return a.rank - b.rank
	}
	near := func(c *column) int {
		if c.Confidence == Near {
			return 1
		}
		return 0
	}
	return near(a) - near(b)
}

func (c *column) finish() {
	c.Note = c.note
	if c.how == unread {
		c.field, c.Confidence = doorsched.NoField, ""
		return
	}
	c.Field, c.Unit = c.field, c.unit
	c.info, _ = doorsched.FieldInfo(c.field)
	if c.how == size {
		c.Also = []doorsched.FieldID{doorsched.Height.ID(), doorsched.Thickness.ID(), doorsched.Leaves.ID(), doorsched.WidthIs.ID()}
		c.Note = "a size: sets width, height, thickness and leaves as far as the text gives them"
	}
}

// chooseText gives columns whose cells their first field does not accept to
// their text field ("Lock": L1, L2), so that nothing becomes a problem for
// being written the usual way.
func (r *reader) chooseText(cols []*column, rows []gridRow) {
	for _, c := range cols {
		if c.text == 0 || c.how == unread {
			continue
		}
		for _, row := range rows {
			cell, ok := row.at(c.Col)
			if !ok || cell.fault != "" || isPlaceholder(cell.text, c.info) {
				continue
			}
			if _, err := c.info.Parse(cell.text, doorsched.Alias{}); err != nil {
				if !slices.ContainsFunc(cols, func(o *column) bool { return o != c && o.how != unread && o.field == c.text }) {
					c.field = c.text
					c.finish()
				}
				break
			}
		}
	}
}
