package power

import (
	"fmt"
	"strconv"

	"example.com/lockrail/cable"
)

// Window is the range of voltage a device is made to work in.
type Window struct {
	Min     cable.Volts  `json:"min_volts"`
	Max     cable.Volts  `json:"max_volts"`
	Source  cable.Source `json:"source"`
	Generic bool         `json:"generic"` // not the product's own
}

// The generic window, in percent of the marked rating.
const (
	genericLow  = 85
	genericHigh = 110
)

var genericWindowSource = cable.Source{Text: "UL 294 6th edition clause 36.1, output circuits", Status: cable.Verified}

// GenericWindow is 85 to 110 % of the rated voltage.
func GenericWindow(rated cable.Volts) Window {
	return Window{percent(rated, genericLow), percent(rated, genericHigh), genericWindowSource, true}
}

// percent of a voltage, so that 85 % of 24 V is 20.4 V to the last digit.
func percent(v cable.Volts, p float64) cable.Volts { return cable.Volts(float64(v) * p / 100) }

func (w Window) complete(rated cable.Volts) (Window, []cable.Assumption, error) {
	if w.Min == 0 && w.Max == 0 {
		w = GenericWindow(rated)
		return w, []cable.Assumption{{
			What:   "voltage window",
			Value:  fmt.Sprintf("%s to %s", volts(w.Min), volts(w.Max)),
			Why:    "the product's own is not given; 85 to 110 % of rated",
			Source: w.Source,
		}}, nil
	}
	if err := cable.CheckPositive("lower end of the voltage window", float64(w.Min)); err != nil {
		return w, nil, err
	}
	if err := cable.CheckPositive("upper end of the voltage window", float64(w.Max)); err != nil {
		return w, nil, err
	}
	if w.Min > w.Max {
		return w, nil, &cable.InputError{Field: "voltage window", Why: "the lower end is above the upper one"}
	}
	return w, nil, nil
}

func volts(v cable.Volts) string { return strconv.FormatFloat(float64(v), 'f', -1, 64) + " V" }
