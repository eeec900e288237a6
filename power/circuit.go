package power

import (
	"errors"
	"fmt"

	"example.com/lockrail/cable"
)

// Segment is a run in series with others: a cable, then a power transfer with
// conductors and a current limit of its own.
type Segment struct {
	Name  string
	Run   cable.Run
	Limit cable.Amps // zero: not given
}

// Circuit is one load behind segments in series.
type Circuit struct {
	Supply   Supply
	Segments []Segment // from the supply to the load, at least one
	Load     Load
}

// State is what the load does at a point.
type State string

const (
	Holding  State = "holding"
	Inrush   State = "inrush"
	Lightest State = "holding at its least current" // for over-voltage
)

// Point is the voltage at the load for one voltage of the supply and one state.
type Point struct {
	Event  Event       `json:"event"`
	State  State       `json:"state"`
	Source cable.Volts `json:"source_volts"`
	Load   cable.Volts `json:"load_volts"`
	Amps   cable.Amps  `json:"amps"`
	// Margin is the distance from the lower end of the window, at Lightest from the
	// upper one; negative means outside.
	Margin cable.Volts `json:"margin_volts"`
	// Collapse, if set, means that there is no voltage; the numbers are then zero
	// and Margin is the whole of the lower end.
	Collapse *CollapseError `json:"-"`
}

// OverLimit is a current above what a segment or the supply may carry.
type OverLimit struct {
	Where string     `json:"where"` // the segment, or "supply"
	State State      `json:"state"`
	Limit cable.Amps `json:"limit_amps"`
	Amps  cable.Amps `json:"amps"`
}

// Result is the voltage at a load under everything its supply can do.
type Result struct {
	Points  []Point `json:"points"`
	Lowest  int     `json:"lowest"`  // index into Points: least margin above the lower end
	Highest int     `json:"highest"` // index into Points: the margin below the upper end
	Window  Window  `json:"window"`
	Short   bool    `json:"short"` // below the window at some point
	Over    bool    `json:"over"`  // above it
	// OverLimits are currents above what a segment or the supply may carry.
	OverLimits []OverLimit `json:"over_limits,omitempty"`
	// Holds: inside the window at every point and within every current limit.
	Holds    bool       `json:"holds"`
	LoopOhms cable.Ohms `json:"loop_ohms"`
	// Longest is how long the longest segment may be with the others as they are
	// and the lower end of the window held; Varied is its name.
	Longest cable.Longest `json:"longest"`
	Varied  string        `json:"varied"`
	// Remedies are calculated when the circuit is short of voltage.
	Remedies []Remedy `json:"remedies,omitempty"`
	// Generic: calculated on generic loads or a generic window, so a shortfall is
	// a question about the product before it is a fault.
	Generic     bool               `json:"generic"`
	Assumptions []cable.Assumption `json:"assumptions,omitempty"`
}

// Governs is the point of least margin of all.
func (r Result) Governs() Point {
	if r.Points[r.Highest].Margin < r.Points[r.Lowest].Margin {
		return r.Points[r.Highest]
	}
	return r.Points[r.Lowest]
}

// solved is a circuit with every default filled in.
type solved struct {
	Circuit
	loops []cable.Ohms
	loop  cable.Ohms
}

// AtLoad is the voltage at the load for each voltage of the supply, holding and
// at inrush. If the voltage collapses at a point the error is the first
// *CollapseError, and the result is still good for the other points and the
// remedies; with any other error the result is empty.
func (c Circuit) AtLoad() (Result, error) {
	s, assumed, err := c.complete()
	if err != nil {
		return Result{}, err
	}
	result := s.evaluate()
	result.Assumptions = assumed
	if result.Longest, err = s.longest(); err != nil {
		return Result{}, err
	}
	result.Varied = s.segmentName(s.varied())
	if result.Short {
		result.Remedies = s.remedies()
	}
	for _, p := range result.Points {
		if p.Collapse != nil {
			return result, p.Collapse
		}
	}
	return result, nil
}

func (c Circuit) complete() (solved, []cable.Assumption, error) {
	supply, assumed, err := c.Supply.Complete()
	if err != nil {
		return solved{}, nil, err
	}
	load, more, err := c.Load.complete(supply.Nominal)
	if err != nil {
		return solved{}, nil, err
	}
	assumed = append(assumed, more...)
	if len(c.Segments) == 0 {
		return solved{}, nil, &cable.InputError{Field: "segments", Why: "none given"}
	}
	s := solved{Circuit: Circuit{supply, c.Segments, load}}
	for i, segment := range c.Segments {
		loop, err := segment.Run.Loop()
		if err != nil {
			return solved{}, nil, fmt.Errorf("%s: %w", s.segmentName(i), err)
		}
		if err := cable.CheckNotNegative("current limit", float64(segment.Limit)); err != nil {
			return solved{}, nil, fmt.Errorf("%s: %w", s.segmentName(i), err)
		}
		s.loops = append(s.loops, loop.Ohms)
		s.loop += loop.Ohms
		assumed = addAssumptions(assumed, loop.Assumptions)
	}
	return s, assumed, cable.CheckNotNegative("loop resistance", float64(s.loop))
}

// addAssumptions adds those not said yet.
func addAssumptions(to, more []cable.Assumption) []cable.Assumption {
next:
	for _, a := range more {
		for _, b := range to {
			if a == b {
				continue next
			}
		}
		to = append(to, a)
	}
	return to
}

func (s solved) segmentName(i int) string {
	if name := s.Segments[i].Name; name != "" {
		return name
	}
	return fmt.Sprintf("segment %d", i+1)
}

// evaluate solves every point; it needs nothing but a completed circuit.
func (s solved) evaluate() Result {
	r := Result{Window: s.Load.Window, LoopOhms: s.loop, Generic: s.Load.Generic() || s.Load.Window.Generic}
	for _, from := range s.Supply.sources() {
		r.Points = append(r.Points, s.point(from, Holding, s.Load.Holding), s.point(from, Inrush, s.Load.Inrush))
		if from.event == ChargerHigh {
			r.Points = append(r.Points, s.point(from, Lightest, s.Load.HoldingLow))
		}
	}
	for i, p := range r.Points {
		if p.State == Lightest {
			r.Highest = i
		} else if p.Margin < r.Points[r.Lowest].Margin {
			r.Lowest = i
		}
	}
	r.Short = r.Points[r.Lowest].Margin < 0
	r.Over = r.Points[r.Highest].Margin < 0
	r.OverLimits = s.overLimits(r.Points)
	r.Holds = !r.Short && !r.Over && len(r.OverLimits) == 0
	return r
}

func (s solved) point(from source, state State, draw Draw) Point {
	p := Point{Event: from.event, State: state, Source: from.volts}
	v, ok := draw.atLoad(from.volts, s.loop)
	if !ok {
		p.Margin = -s.Load.Window.Min
		p.Collapse = &CollapseError{
			Segment: s.segmentName(s.widest()),
			Source:  from.volts,
			Loop:    s.loop,
			Minimum: s.Load.Window.Min,
			Largest: draw.largest(from.volts, min(s.Load.Window.Min, from.volts), s.loop),
		}
		return p
	}
	p.Load, p.Amps = v, draw.AmpsAt(v)
	p.Margin = tidy(v - s.Load.Window.Min)
	if state == Lightest {
		p.Margin = tidy(s.Load.Window.Max - v)
	}
	return p
}

// tidy takes a margin in the last binary digits as none, so that a run of exactly
// the longest length holds.
func tidy(margin cable.Volts) cable.Volts {
	if margin > -1e-9 && margin < 1e-9 {
		return 0
	}
	return margin
}

// widest is the segment of greatest resistance, the first of equals.
func (s solved) widest() int {
	at := 0
	for i, ohms := range s.loops {
		if ohms > s.loops[at] {
			at = i
		}
	}
	return at
}

// varied is the longest segment, the first of equals: the cable, not the transfer.
func (s solved) varied() int {
	at := 0
	for i, segment := range s.Segments {
		if segment.Run.Length > s.Segments[at].Run.Length {
			at = i
		}
	}
	return at
}

func (s solved) overLimits(points []Point) []OverLimit {
	var over []OverLimit
	add := func(where string, limit cable.Amps) {
		if limit == 0 {
			return
		}
		for _, state := range [...]State{Holding, Inrush} {
			var most cable.Amps
			for _, p := range points {
				if p.State == state {
					most = max(most, p.Amps)
				}
			}
			if most > limit {
				over = append(over, OverLimit{where, state, limit, most})
			}
		}
	}
	add("supply", s.Supply.CurrentLimit)
	for i, segment := range s.Segments {
		add(s.segmentName(i), segment.Limit)
	}
	return over
}

// longest is how long the varied segment may be.
func (s solved) longest() (cable.Longest, error) {
	at := s.varied()
	most, unlimited := cable.Ohms(0), true
	for _, from := range s.Supply.sources() {
		for _, draw := range [...]Draw{s.Load.Holding, s.Load.Inrush} {
			if from.volts < s.Load.Window.Min {
				return cable.Longest{}, nil
			}
			loop, free := draw.mostLoop(from.volts, s.Load.Window.Min)
			if !free && (unlimited || loop < most) {
				most, unlimited = loop, false
			}
		}
	}
	if unlimited {
		return cable.Longest{Unlimited: true}, nil
	}
	left := max(most-(s.loop-s.loops[at]), 0)
	return s.Segments[at].Run.LongestWithin(left)
}

// Solve is the voltage at a load behind one loop resistance from one voltage,
// with the current it draws. *CollapseError if the load cannot be carried.
func Solve(from cable.Volts, loop cable.Ohms, draw Draw) (cable.Volts, cable.Amps, error) {
	if draw == nil {
		return 0, 0, &cable.InputError{Field: "load", Why: "not given"}
	}
	if err := errors.Join(
		cable.CheckPositive("source voltage", float64(from)),
		cable.CheckNotNegative("loop resistance", float64(loop)),
		draw.check(),
	); err != nil {
		return 0, 0, err
	}
	v, ok := draw.atLoad(from, loop)
	if !ok {
		return 0, 0, &CollapseError{Segment: "the run", Source: from, Loop: loop, Largest: draw.largest(from, 0, loop)}
	}
	return v, draw.AmpsAt(v), nil
}
