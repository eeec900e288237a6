package power

import (
	"fmt"

	"example.com/lockrail/cable"
)

// Remedy is a change that was calculated, with what it gives.
type Remedy struct {
	Segment  string      `json:"segment,omitempty"` // whose conductors change
	Size     cable.Size  `json:"size,omitzero"`     // larger conductor
	Parallel int         `json:"parallel,omitempty"`
	Supply   cable.Volts `json:"supply_volts,omitempty"` // other supply and the load's twin for it
	// LoadVolts is the lowest voltage at the load of the changed circuit, as far as
	// the window goes; zero if it still collapses.
	LoadVolts cable.Volts `json:"load_volts"`
	Margin    cable.Volts `json:"margin_volts"`
	// Holds the lower end of the window at every point, within every current limit;
	// no change of cable mends a voltage that is too high.
	Holds bool `json:"holds"`
}

// String says the change: "18 AWG in cable", "2 cores in parallel in cable",
// "24 V supply and lock".
func (r Remedy) String() string {
	switch {
	case r.Size.Given():
		return fmt.Sprintf("%s in %s", r.Size, r.Segment)
	case r.Parallel > 0:
		return fmt.Sprintf("%d cores in parallel each way in %s", r.Parallel, r.Segment)
	}
	return fmt.Sprintf("%s supply and load", volts(r.Supply))
}

// mostTried is how many larger sizes, and how many cores in parallel, are tried.
const mostTried = 4

// remedies are larger sizes and cores in parallel of the varied segment, each up
// to the first that holds, and 24 V in place of 12 V where the trade makes the
// generic load for both.
func (s solved) remedies() []Remedy {
	at := s.varied()
	run := s.Segments[at].Run
	var found []Remedy
	try := func(r Remedy, changed cable.Run) bool {
		segments := append([]Segment(nil), s.Segments...)
		segments[at].Run = changed
		r.Segment = s.segmentName(at)
		return s.try(&found, r, Circuit{s.Supply, segments, s.Load})
	}
	if size := run.Conductor.Size; size.Given() && run.Conductor.Stated == 0 {
		tried := 0
		for _, larger := range cable.Sizes(size.Family()) {
			if larger.Area() <= size.Area() || tried == mostTried {
				continue
			}
			changed := run
			changed.Conductor.Size = larger
			tried++
			if try(Remedy{Size: larger}, changed) {
				break
			}
		}
	}
	for n := max(run.Parallel, 1) + 1; n <= max(run.Parallel, 1)+mostTried-1; n++ {
		changed := run
		changed.Parallel = n
		if try(Remedy{Parallel: n}, changed) {
			break
		}
	}
	if s.Supply.Nominal == 12 && s.Load.Generic() {
		if twin, err := FindLoad(s.Load.Range.Device, s.Load.Range.Variant, 24); err == nil {
			s.try(&found, Remedy{Supply: 24}, Circuit{Supply{Nominal: 24, Backup: s.Supply.Backup}, s.Segments, twin})
		}
	}
	return found
}

// try evaluates a changed circuit and keeps what it gives; a change that cannot
// be calculated is no remedy.
func (s solved) try(found *[]Remedy, r Remedy, c Circuit) bool {
	changed, _, err := c.complete()
	if err != nil {
		return false
	}
	result := changed.evaluate()
	lowest := result.Points[result.Lowest]
	r.LoadVolts, r.Margin = lowest.Load, lowest.Margin
	r.Holds = !result.Short && len(result.OverLimits) == 0
	*found = append(*found, r)
	return r.Holds
}
