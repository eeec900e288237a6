package cable

// Cable is a generic cable of the trade; no maker's product. Its outside
// diameter is the high end of what is sold, so that a raceway is not found
// to fit by a slim sample.
type Cable struct {
	ID        string // "18/4", "cat6", "2x1.5"
	Name      string
	Conductor Conductor
	Cores     int
	Shielded  bool
	Outside   Millimetres // high end
	Circuit   Circuit
	Use       string
	Source    Source // of the diameter
}

var (
	tradeCable      = Source{"generic trade range of outside diameters, high end", Practice}
	rememberedCable = Source{"generic outside diameter, high end; common practice", Memory}
)

var cables = [...]Cable{
	{"22/2", "22 AWG two conductors, unshielded", Conductor{Size: AWG(22), Construction: Stranded}, 2, false, 4.1, Class2Circuit, "door contact, request to exit", tradeCable},
	{"22/4", "22 AWG four conductors", Conductor{Size: AWG(22), Construction: Stranded}, 4, false, 4.8, Class2Circuit, "request to exit, keypad", tradeCable},
	{"22/6", "22 AWG six conductors, shielded", Conductor{Size: AWG(22), Construction: Stranded}, 6, true, 6.4, Class2Circuit, "reader", tradeCable},
	{"18/2", "18 AWG two conductors", Conductor{Size: AWG(18), Construction: Stranded}, 2, false, 6.1, Class2Circuit, "lock power", tradeCable},
	{"18/4", "18 AWG four conductors", Conductor{Size: AWG(18), Construction: Stranded}, 4, false, 7.4, Class2Circuit, "lock power, latch retraction", tradeCable},
	{"16/2", "16 AWG two conductors", Conductor{Size: AWG(16), Construction: Stranded}, 2, false, 7.1, Class2Circuit, "lock power, long runs", rememberedCable},
	{"composite", "22/6 + 18/4 + 22/4 + 22/2 under one jacket", Conductor{}, 16, true, 14, Class2Circuit, "one door", tradeCable},
	{"cat6", "category 6, four pairs, unshielded", Conductor{Size: AWG(23), Construction: Solid}, 8, false, 6.5, Communications, "network, PoE", tradeCable},
	{"alarm-4", "0.22 mm² (7/0.2) four core alarm cable", Conductor{Size: Metric(0.22), Construction: Stranded}, 4, false, 4.0, Class2Circuit, "door contact, request to exit", rememberedCable},
	{"alarm-6", "0.22 mm² (7/0.2) six core alarm cable", Conductor{Size: Metric(0.22), Construction: Stranded}, 6, false, 4.8, Class2Circuit, "keypad, reader", rememberedCable},
	{"alarm-8", "0.22 mm² (7/0.2) eight core alarm cable", Conductor{Size: Metric(0.22), Construction: Stranded}, 8, true, 6.0, Class2Circuit, "reader, screened", rememberedCable},
	{"2x1.0", "1.0 mm² two core", Conductor{Size: Metric(1), Construction: Stranded}, 2, false, 8.0, Class2Circuit, "lock power", rememberedCable},
	{"2x1.5", "1.5 mm² two core", Conductor{Size: Metric(1.5), Construction: Stranded}, 2, false, 8.6, Class2Circuit, "lock power", rememberedCable},
	{"2x2.5", "2.5 mm² two core", Conductor{Size: Metric(2.5), Construction: Stranded}, 2, false, 10.2, Class2Circuit, "lock power, long runs", rememberedCable},
}

// Cables lists the generic cables.
func Cables() []Cable { return append([]Cable(nil), cables[:]...) }

// FindCable is the generic cable of that ID.
func FindCable(id string) (Cable, bool) {
	for _, c := range cables {
		if c.ID == id {
			return c, true
		}
	}
	return Cable{}, false
}

// Item is the cable as it counts in a raceway.
func (c Cable) Item() (Item, error) {
	item, err := Round(c.Name, c.Outside, c.Circuit)
	if err == nil {
		item.Source = c.Source
	}
	return item, err
}
