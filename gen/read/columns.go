package read

import (
	"fmt"
	"slices"

	"example.com/lockrail/doorsched"
)

// column is one column with what its cells mean.
type column struct {
	Column
	meaning
}

// resolve settles what every column means: group labels first, then neighbours,
// then rank where two claim one field.
func (r *reader) resolve(b band) ([]column, error) {
	var out []column
	filled := r.filledColumns(b.last)
	for i, h := range b.headings {
		col := i + 1
		if len(h.path) == 0 && !filled[col] {
			continue
		}
		c := column{Column: Column{Col: col, Heading: h.text()}}
		f, ok := r.meaningOf(col, h, b.machine)
		switch {
		case !ok && len(h.path) == 0:
			c.Note = "no heading"
		case !ok:
			c.Note = "heading not recognised"
		case f.how == unread:
			c.Note = f.note
		case r.refusedField(f.field):
			c.Note = f.field.String() + " is in no column, you said"
		default:
			if f.open != nil && f.confidence != ByUser {
				if m, ok := f.open[neighbour(out)]; ok {
					f.meaning, f.confidence = m, ByGroup
				}
			}
			if f.how == unread {
				c.Note = f.note
				break
			}
			c.meaning, c.Field, c.Unit, c.Confidence, c.Note = f.meaning, f.field, f.unit, f.confidence, f.note
		}
		out = append(out, c)
	}
	return r.settle(out, b, filled)
}

// neighbour is the class that the nearest column to the left speaks of.
func neighbour(left []column) class {
	for i := len(left) - 1; i >= 0; i-- {
		switch left[i].Field {
		case doorsched.NoField:
			continue
		case doorsched.FrameType.ID(), doorsched.FrameMaterial.ID(), doorsched.FrameMat.ID(), doorsched.FrameFinish.ID():
			return ofFrame
		case doorsched.HardwareSet.ID():
			return ofHardware
		case doorsched.DoorType.ID(), doorsched.Width.ID(), doorsched.Height.ID(), doorsched.Thickness.ID(), doorsched.DoorMaterial.ID():
			return ofDoor
		}
		return ""
	}
	return ""
}

// settle leaves one column a field. Columns that each speak of one means of a
// set go together.
func (r *reader) settle(cols []column, b band, filled map[int]bool) ([]column, error) {
	for i := range cols {
		for j := i + 1; j < len(cols); j++ {
			x, y := &cols[i], &cols[j]
			if x.Field == doorsched.NoField || x.Field != y.Field || x.means != 0 && y.means != 0 {
				continue
			}
			// A second word for a mark, a level or a remark is left aside and said so;
			// two columns of a field that is judged are for the user to settle.
			info, _ := doorsched.FieldInfo(x.Field)
			judged := info.Kind != doorsched.KindText && filled[x.Col] && filled[y.Col]
			lose := y
			switch {
			case x.Confidence == ByUser && y.Confidence != ByUser:
			case y.Confidence == ByUser && x.Confidence != ByUser:
				lose = x
			case x.rank == y.rank, judged && !instead(cols, x, y):
				row := r.grid.rows[b.last].number
				return nil, &Error{
					Kind: ErrTwoColumns, File: r.file, Sheet: r.grid.sheet,
					Cells: []doorsched.Cell{r.grid.cell(row, x.Col), r.grid.cell(row, y.Col)}, Value: x.Heading + " and " + y.Heading,
					Msg: fmt.Sprintf("both read as %s; say which with --column '%s=%s' or --column '%s=column %s'", x.Field, x.Field, y.Heading, x.Field, doorsched.ColumnName(y.Col)),
				}
			case x.rank > y.rank:
				lose = x
			}
			win := x
			if lose == x {
				win = y
			}
			note := fmt.Sprintf("%s is read from column %s", lose.Field, doorsched.ColumnName(win.Col))
			if free(cols, lose.instead) {
				lose.Field, lose.field = lose.instead, lose.instead
				continue
			}
			lose.Field, lose.meaning, lose.Confidence, lose.Note = doorsched.NoField, meaning{}, "", note
		}
	}
	return cols, nil
}

// free reports whether a field is there to be taken.
func free(cols []column, id doorsched.FieldID) bool {
	return id != doorsched.NoField && !slices.ContainsFunc(cols, func(c column) bool { return c.Field == id })
}

// instead reports whether one of two columns has another field to go to.
func instead(cols []column, x, y *column) bool {
	return x.rank != y.rank && (x.rank > y.rank && free(cols, x.instead) || y.rank > x.rank && free(cols, y.instead))
}

func (r *reader) filledColumns(after int) map[int]bool {
	out := map[int]bool{}
	for _, row := range r.grid.rows[after+1:] {
		for _, c := range row.cells {
			out[c.col] = true
		}
	}
	return out
}
