package cable

import (
	"encoding/json"
	"errors"
)

// Run is a pair of conductors, out and back, of one length.
type Run struct {
	Conductor   Conductor
	Length      Metres      // one way
	Parallel    int         // conductors in parallel each way; zero means one
	Temperature Temperature // zero means DefaultTemperature, returned as an assumption
}

// Loop is the resistance of a run out and back.
type Loop struct {
	Ohms        Ohms         `json:"loop_ohms"`
	Conductor   Resistance   `json:"conductor"` // one conductor at the temperature of the run
	Assumptions []Assumption `json:"assumptions,omitempty"`
}

// Solution is a run under a load of constant current.
type Solution struct {
	EndVolts    Volts   `json:"end_volts"`
	DropVolts   Volts   `json:"drop_volts"`
	DropPercent float64 `json:"drop_percent"`
	Loop
}

// Longest is the longest run that holds a voltage. A load that draws nothing
// holds at any length: Unlimited is then set and Length means nothing.
type Longest struct {
	Length    Metres
	Unlimited bool
}

// MarshalJSON writes {"longest_m": n}, a known zero included, or {"unlimited": true}.
func (l Longest) MarshalJSON() ([]byte, error) {
	if l.Unlimited {
		return []byte(`{"unlimited":true}`), nil
	}
	return json.Marshal(struct {
		Length Metres `json:"longest_m"`
	}{l.Length})
}

const mostParallel = 1000

// perMetre is the loop resistance of one metre of run.
func (r Run) perMetre() (Loop, error) {
	if r.Parallel < 0 || r.Parallel > mostParallel {
		return Loop{}, &InputError{Field: "conductors in parallel", Why: "must be from 1 to 1000"}
	}
	t, assumed := r.Temperature.orDefault()
	resistance, err := r.Conductor.Resistance(t)
	if err != nil {
		return Loop{}, err
	}
	return Loop{
		Ohms:        Ohms(2 * float64(resistance.PerKilometre.Over(1)) / float64(max(r.Parallel, 1))),
		Conductor:   resistance,
		Assumptions: append(r.Conductor.assumed(), assumed...),
	}, nil
}

// Loop is the resistance of the run out and back.
func (r Run) Loop() (Loop, error) {
	if err := CheckNotNegative("length", float64(r.Length)); err != nil {
		return Loop{}, err
	}
	loop, err := r.perMetre()
	if err != nil {
		return Loop{}, err
	}
	loop.Ohms = Ohms(float64(loop.Ohms) * float64(r.Length))
	return loop, CheckNotNegative("loop resistance", float64(loop.Ohms))
}

// Solve is the voltage at the end of the run under a constant current. A drop of
// the whole supply or more is a *DropError.
func (r Run) Solve(supply Volts, load Amps) (Solution, error) {
	if err := checkSupply(supply, load); err != nil {
		return Solution{}, err
	}
	loop, err := r.Loop()
	if err != nil {
		return Solution{}, err
	}
	drop := load.Through(loop.Ohms)
	if drop >= supply {
		return Solution{}, &DropError{Supply: supply, Drop: drop, Largest: supply.Across(loop.Ohms)}
	}
	return Solution{
		EndVolts:    supply - drop,
		DropVolts:   drop,
		DropPercent: 100 * float64(drop) / float64(supply),
		Loop:        loop,
	}, nil
}

func checkSupply(supply Volts, load Amps) error {
	if err := CheckPositive("supply voltage", float64(supply)); err != nil {
		return err
	}
	return CheckNotNegative("load current", float64(load))
}

// Longest is the longest run of this conductor that leaves minimum at the load;
// the Length of the run is not read.
func (r Run) Longest(supply, minimum Volts, load Amps) (Longest, error) {
	if err := checkMinimum(supply, minimum, load); err != nil {
		return Longest{}, err
	}
	if load == 0 {
		return Longest{Unlimited: true}, nil
	}
	return r.LongestWithin((supply - minimum).Losing(load))
}

// LongestWithin is the longest run whose loop resistance stays within limit.
func (r Run) LongestWithin(limit Ohms) (Longest, error) {
	if err := CheckNotNegative("loop resistance", float64(limit)); err != nil {
		return Longest{}, err
	}
	one, err := r.perMetre()
	if err != nil {
		return Longest{}, err
	}
	length := Metres(float64(limit) / float64(one.Ohms))
	return Longest{Length: length}, CheckNotNegative("longest run", float64(length))
}

func checkMinimum(supply, minimum Volts, load Amps) error {
	if err := checkSupply(supply, load); err != nil {
		return err
	}
	if err := CheckPositive("minimum voltage", float64(minimum)); err != nil {
		return err
	}
	if minimum > supply {
		return &InputError{Field: "minimum voltage", Why: "is above the supply voltage: no run holds it"}
	}
	return nil
}

// Smallest is the first size of the list, smallest first, whose run leaves
// minimum at the load, with its solution. The list is usually Sizes of the
// family in hand; sizes not made in the run's construction are passed over, and
// a Stated resistance belongs to the size in hand only. ErrNoSize if none holds;
// if none could even be calculated, the reason for the last one.
func (r Run) Smallest(sizes []Size, supply, minimum Volts, load Amps) (Size, Solution, error) {
	if err := checkMinimum(supply, minimum, load); err != nil {
		return Size{}, Solution{}, err
	}
	if err := CheckNotNegative("length", float64(r.Length)); err != nil {
		return Size{}, Solution{}, err
	}
	r.Conductor.Stated = 0
	var refused error
	calculated := false
	for _, size := range sizes {
		r.Conductor.Size = size
		solution, err := r.Solve(supply, load)
		if err == nil && solution.EndVolts >= minimum {
			return size, solution, nil
		}
		var drop *DropError
		if err == nil || errors.As(err, &drop) {
			calculated = true
		} else {
			refused = err
		}
	}
	if calculated || refused == nil {
		refused = ErrNoSize
	}
	return Size{}, Solution{}, refused
}
