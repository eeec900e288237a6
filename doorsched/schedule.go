package doorsched

// Schedule is one door schedule with the places its doors stand in.
type Schedule struct {
	File      string // as the user gave it
	Project   Record
	Buildings []Place
	Storeys   []Place
	Rooms     []Place
	Doors     []Door
}

// Place is a building, storey or room.
type Place struct {
	Name string
	Record
}

// Door is one row of the schedule: one opening, of one leaf or a pair. The names
// of its places refer to Schedule.Buildings, Storeys and Rooms; a name that is
// not there adds nothing.
type Door struct {
	Mark                   string
	Building, Storey, Room string
	Source                 Cell // the mark's cell
	Record
}

// View returns the values that hold for door i.
func (s *Schedule) View(i int) View {
	d := &s.Doors[i]
	layers := make([]*Record, 0, 6)
	layers = append(layers, &d.Record)
	for _, p := range []struct {
		places []Place
		name   string
	}{{s.Rooms, d.Room}, {s.Storeys, d.Storey}, {s.Buildings, d.Building}} {
		if r := findPlace(p.places, p.name); r != nil {
			layers = append(layers, r)
		}
	}
	return NewView(d.Mark, append(layers, &s.Project)...)
}

func findPlace(places []Place, name string) *Record {
	for i := range places {
		if places[i].Name == name {
			return &places[i].Record
		}
	}
	return nil
}

// View is what holds for one door, the nearest saying first: the door, its
// room, storey, building, the project.
type View struct {
	Mark   string
	layers []*Record
	own    int // how many of the layers speak of this door alone
}

// NewView makes a view of records, nearest first; the first is the door's own.
func NewView(mark string, layers ...*Record) View { return View{mark, layers, min(1, len(layers))} }

// With returns a view in which r is asked before everything else.
func (v View) With(r *Record) View {
	return View{v.Mark, append([]*Record{r}, v.layers...), v.own + 1}
}

// Own returns the value that is said of this door itself, not of its room,
// storey, building or project.
func (v View) Own(id FieldID) (Value, bool) {
	return View{layers: v.layers[:v.own]}.Get(id)
}

// Get returns the value that holds for a field. What layers know of a set is merged.
func (v View) Get(id FieldID) (Value, bool) {
	var out Value
	have := false
	for _, l := range v.layers {
		x, ok := l.Get(id)
		if !ok {
			continue
		}
		if !have {
			out, have = x, true
		} else if near, ok := out.Data.(MeansSet); ok {
			if far, ok := x.Data.(MeansSet); ok {
				out.Data = far.Merge(near)
			}
		}
		if m, ok := out.Data.(MeansSet); !ok || m.Complete() {
			break
		}
	}
	return out, have
}

// Cell returns where the field's value stands in the file, or the zero Cell.
func (v View) Cell(id FieldID) Cell {
	x, _ := v.Get(id)
	return x.Cell
}
