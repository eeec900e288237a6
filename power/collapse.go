package power

import (
	"fmt"

	"example.com/lockrail/cable"
)

// CollapseError means that the cable cannot carry the load at all: a converter
// would pull its voltage down until it drops out, a constant current would leave
// nothing.
type CollapseError struct {
	Segment string // the segment that takes most of the voltage
	Source  cable.Volts
	Loop    cable.Ohms // of all segments
	Minimum cable.Volts
	Largest Draw // the greatest load of the kind that would leave Minimum
}

func (e *CollapseError) Error() string {
	text := fmt.Sprintf("voltage collapses in %s: %.2f V through %.3f ohm", e.Segment, float64(e.Source), float64(e.Loop))
	switch d := e.Largest.(type) {
	case ConstantPower:
		text += fmt.Sprintf(" would hold at most %.2f W", float64(d.Watts))
	case ConstantCurrent:
		text += fmt.Sprintf(" would hold at most %.3f A", float64(d.Amps))
	}
	return text
}
