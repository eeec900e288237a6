package annotate

import (
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/wiring"
	"example.com/lockrail/gen/result"
)

// power lists the locks door by door and, after them, the supplies they hang on.
func (b *book) power(p *page) {
	for i := range b.res.Doors {
		c := &b.res.Doors[i].Circuit
		if c.Lock == "" {
			continue
		}
		p.text("door", b.res.Doors[i].Mark)
		p.text("lock", c.Lock)
		p.text("supply", c.Supply)
		if c.Nominal > 0 {
			p.number("volts", float64(c.Nominal), 0)
		}
		known(p, "amps", c.Holding, 3)
		known(p, "inrush", c.Inrush, 3)
		known(p, "low", c.OnMains, 2)
		known(p, "battery", c.BatteryEnd, 2)
		known(p, "high", c.High, 2)
		known(p, "min", c.LockVoltsMin, 2)
		known(p, "max", c.LockVoltsMax, 2)
		known(p, "longest", c.Longest, 1)
		p.text("governs", c.Governs)
		p.text("result", joined("\n", c.Result, portOf(c.PoE)))
		p.text("basis", c.Basis)
		p.next()
	}
	for _, s := range b.res.Supplies {
		p.bold("lock", "Supply for "+count(len(s.Doors), "door")+": "+result.Marks(s.Doors, mostMarks))
		p.text("supply", s.Key)
		p.number("volts", float64(s.Nominal), 0)
		p.number("amps", float64(s.Holding), 2)
		p.number("inrush", float64(s.Peak), 2)
		p.text("result", supplySays(s))
		p.text("basis", s.Note)
		p.next()
	}
	p.none("No electric locks.")
}

func supplySays(s wiring.Supply) string {
	num := doorsched.FormatNumber
	out := fmt.Sprintf("Size %s A, loaded to %s %% at its peak of %s A.", num(float64(s.Size), 2), num(s.Loading, 1), num(float64(s.Peak), 2))
	if s.AmpHours > 0 {
		held := "locks not held on battery"
		if s.BatteryHeld {
			held = "locks held on battery"
		}
		out += fmt.Sprintf("\nBattery for %s h, %s: %s Ah worked out, %s Ah block, recharge %s A.",
			num(s.Hours, 1), held, num(s.AmpHours, 2), num(s.BlockAh, 1), num(float64(s.Recharge), 2))
	}
	return out
}

func portOf(o doorsched.Opt[wiring.PoE]) string {
	port, ok := o.Get()
	if !ok {
		return ""
	}
	num := doorsched.FormatNumber
	fits := "does not fit"
	if port.Fits {
		fits = "fits"
	}
	return fmt.Sprintf("Port type %d, class %d: %s W asked of %s W, %s; least type %d.",
		port.Type, port.Class, num(float64(port.Watts), 2), num(float64(port.WattsMax), 2), fits, port.LeastType)
}
