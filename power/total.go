package power

import (
	"sort"
	"strconv"

	"example.com/lockrail/cable"
)

// Demand is a number of equal loads on a supply.
type Demand struct {
	Load     Load
	Quantity int
	// Event names what energises these loads together: fail-safe locks at alarm
	// reset or when mains return, fail-secure locks at a timed unlock. Empty: one
	// at a time.
	Event string
}

// Total is the load of a supply.
type Total struct {
	Holding cable.Amps `json:"holding_amps"`
	// Peak is holding and the worst inrush that comes at once; Event is what brings
	// it, empty for a single load.
	Peak  cable.Amps `json:"peak_amps"`
	Event string     `json:"event,omitempty"`
	// Smallest is the least rating of a supply that would carry both.
	Smallest cable.Amps `json:"smallest_supply_amps"`
	// Judged is false when the supply's current limit is not given; Fits then means
	// nothing.
	Judged      bool               `json:"judged"`
	Fits        bool               `json:"fits"`
	Loading     float64            `json:"loading_percent,omitempty"` // holding in percent of the limit
	Generic     bool               `json:"generic"`
	Assumptions []cable.Assumption `json:"assumptions,omitempty"`
}

// UsualLoading is the part of its rating a supply is loaded to continuously; the
// trade says 75 to 80 %.
const UsualLoading = 0.75

var loadingSource = cable.Source{Text: "trade, 75 to 80 % of the rating", Status: cable.Verified}

// Total adds up the loads at the nominal voltage of the supply. Loading is the
// part of the current limit that may be loaded continuously, above 0 to 1; zero
// takes UsualLoading, returned as an assumption. The inrush may use all of it.
func (s Supply) Total(loading float64, demands ...Demand) (Total, error) {
	if err := cable.CheckPositive("nominal supply voltage", float64(s.Nominal)); err != nil {
		return Total{}, err
	}
	if err := cable.CheckNotNegative("current limit", float64(s.CurrentLimit)); err != nil {
		return Total{}, err
	}
	var t Total
	if loading == 0 {
		loading = UsualLoading
		t.Assumptions = []cable.Assumption{{
			What: "continuous loading of the supply", Value: strconv.FormatFloat(100*loading, 'f', -1, 64) + " %", Why: "not given", Source: loadingSource,
		}}
	}
	if err := cable.CheckPositive("loading", loading); err != nil {
		return Total{}, err
	}
	if loading > 1 {
		return Total{}, &cable.InputError{Field: "loading", Value: strconv.FormatFloat(loading, 'g', -1, 64), Why: "is a part of the rating, at most 1"}
	}
	events := map[string]cable.Amps{}
	for _, d := range demands {
		if d.Quantity < 0 || d.Quantity > 1_000_000 {
			return Total{}, &cable.InputError{Field: "quantity", Value: strconv.Itoa(d.Quantity), Why: "must be from 0 to a million"}
		}
		load, assumed, err := d.Load.complete(s.Nominal)
		if err != nil {
			return Total{}, err
		}
		if d.Quantity == 0 {
			continue
		}
		t.Assumptions = addAssumptions(t.Assumptions, assumed)
		t.Generic = t.Generic || load.Generic()
		holding := load.Holding.AmpsAt(s.Nominal)
		excess := max(load.Inrush.AmpsAt(s.Nominal)-holding, 0)
		t.Holding += cable.Amps(float64(d.Quantity) * float64(holding))
		if d.Event == "" {
			events[""] = max(events[""], excess)
		} else {
			events[d.Event] += cable.Amps(float64(d.Quantity) * float64(excess))
		}
	}
	names := make([]string, 0, len(events))
	for name := range events {
		names = append(names, name)
	}
	sort.Strings(names) // of equals the first name is told
	var worst cable.Amps
	for _, name := range names {
		if events[name] > worst {
			worst, t.Event = events[name], name
		}
	}
	t.Peak = t.Holding + worst
	t.Smallest = max(cable.Amps(float64(t.Holding)/loading), t.Peak)
	if err := cable.CheckNotNegative("total current", float64(t.Smallest)); err != nil {
		return Total{}, err
	}
	if s.CurrentLimit > 0 {
		t.Judged = true
		t.Fits = float64(t.Smallest) <= float64(s.CurrentLimit)*(1+1e-9)
		t.Loading = 100 * float64(t.Holding) / float64(s.CurrentLimit)
	}
	return t, nil
}
