package cable

import "strconv"

const (
	// DefaultTemperature is the conductor temperature taken when none is given:
	// indoors, above a ceiling, lightly loaded. Results name it as an assumption.
	DefaultTemperature Celsius = 40

	// CopperCoefficient is the temperature coefficient of annealed copper, per
	// kelvin, referenced to 20 °C (IEC 60028, ASTM B193). The rounded factors
	// printed with IEC 60228 follow 0.004 and differ in the third digit.
	CopperCoefficient = 0.00393

	coldest Celsius = -60
	hottest Celsius = 200
)

// Temperature is a conductor temperature, or not given (the zero value).
type Temperature struct {
	given bool
	value Celsius
}

// At is a given temperature.
func At(t Celsius) Temperature { return Temperature{true, t} }

// Given is the temperature and whether there is one.
func (t Temperature) Given() (Celsius, bool) { return t.value, t.given }

// orDefault is the temperature to calculate at, with the assumption if it was not given.
func (t Temperature) orDefault() (Celsius, []Assumption) {
	if t.given {
		return t.value, nil
	}
	return DefaultTemperature, []Assumption{{
		What:   "conductor temperature",
		Value:  strconv.FormatFloat(float64(DefaultTemperature), 'f', -1, 64) + " °C",
		Why:    "not given; indoor run, lightly loaded",
		Source: Source{"indoor design temperature", Practice},
	}}
}

// copperRatio is the resistance of copper at to over that at from.
func copperRatio(from, to Celsius) (float64, error) {
	if !finite(float64(to)) || to < coldest || to > hottest {
		return 0, &InputError{"temperature", strconv.FormatFloat(float64(to), 'g', -1, 64) + " °C", "must be from -60 to 200 °C"}
	}
	factor := func(t Celsius) float64 { return 1 + float64(CopperCoefficient*float64(t-20)) }
	return factor(to) / factor(from), nil
}
