package wiring

import (
	"fmt"
	"math"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
)

// remedies are changes that were calculated and hold, each with the voltage it
// gives: a larger conductor, cores in parallel, a supply nearer by, a 24 V lock.
func (b *bench) remedies(l lockLoad, f feed, s standby, supply power.Supply, r power.Result) []string {
	var out []string
	for _, change := range r.Remedies {
		if what, ok := cableChange(change, f); ok {
			out = append(out, gives(what, change.LoadVolts))
		}
	}
	if len(out) == 0 {
		if text, ok := thickest(l, f, supply); ok {
			out = append(out, text)
		}
	}
	if text, ok := b.nearer(l, f, supply, r); ok {
		out = append(out, text)
	}
	if text, ok := b.higher(l, f, s); ok {
		out = append(out, text)
	}
	return out
}

// cableChange says a change of the cable that holds. A change of voltage is not
// one: it is tried by higher, for a given load too.
func cableChange(change power.Remedy, f feed) (string, bool) {
	switch {
	case !change.Holds || change.Supply != 0:
		return "", false
	case change.Parallel > 0:
		return fmt.Sprintf("%d cores in parallel each way", change.Parallel), true
	}
	return fmt.Sprintf("%s in place of %s", change.Size, f.segments[0].Run.Conductor.Size), true
}

// largestConductor is about what the terminals of locks and supplies take (common
// practice): 10 AWG, 6 mm².
const largestConductor cable.SquareMillimetres = 6

// thickest is the first conductor that holds among all larger ones, where no usual
// step of cable does.
func thickest(l lockLoad, f feed, supply power.Supply) (string, bool) {
	now := f.segments[0].Run.Conductor.Size
	for _, size := range cable.Sizes(now.Family()) {
		if size.Area() <= now.Area() || size.Area() > largestConductor {
			continue
		}
		segments := append([]power.Segment(nil), f.segments...)
		segments[0].Run.Conductor.Size = size
		changed, err := atLoad(supply, segments, l.Load)
		if err == nil && !changed.Short {
			return gives(fmt.Sprintf("%s in place of %s, if the terminals take it", size, now), changed.Points[changed.Lowest].Load), true
		}
	}
	return "", false
}

func gives(what string, v cable.Volts) string {
	return fmt.Sprintf("%s: %s at the lock at worst", what, volts(v))
}

// nearer is the supply moved to the longest run that holds, rounded down to whole
// feet or tenths of a metre and calculated again.
func (b *bench) nearer(l lockLoad, f feed, supply power.Supply, r power.Result) (string, bool) {
	if r.Longest.Unlimited || r.Varied != mainSegment {
		return "", false
	}
	length := cable.Metres(math.Floor(float64(r.Longest.Length)*10) / 10)
	if b.region == usWords.region {
		length = cable.Feet(math.Floor(r.Longest.Length.Feet()))
	}
	if length <= 0 {
		return "", false
	}
	segments := append([]power.Segment(nil), f.segments...)
	segments[0].Run.Length = length
	changed, err := atLoad(supply, segments, l.Load)
	if err != nil || changed.Short {
		return "", false
	}
	return gives("a "+b.supply+" at most "+b.words.length(length)+" away", changed.Points[changed.Lowest].Load), true
}

// higher is a 24 V lock on a 24 V supply over the same run, if need be with the
// first change of cable that then holds, where the trade makes the kind of lock for
// 24 V. What the other lock draws is generic, and said.
func (b *bench) higher(l lockLoad, f feed, s standby) (string, bool) {
	if l.nominal != 12 {
		return "", false
	}
	const other cable.Volts = 24
	device, variant, _ := b.genericRow()
	load, err := power.FindLoad(device, variant, other)
	if err != nil {
		return "", false
	}
	supply, _, err := s.supply(other)
	if err != nil {
		return "", false
	}
	result, err := atLoad(supply, f.segments, load)
	if err != nil {
		return "", false
	}
	what := fmt.Sprintf("24 V lock and supply in place of 12 V, if the lock is made for it (generic load of up to %s)", amps(max(load.Range.High, load.Range.InrushHigh)))
	if !result.Short {
		return gives(what, result.Points[result.Lowest].Load), true
	}
	for _, change := range result.Remedies {
		if cable, ok := cableChange(change, f); ok {
			return gives(what+", with "+cable, change.LoadVolts), true
		}
	}
	return "", false
}
