package cable

import (
	"strconv"
	"strings"
)

// leadingNumber splits plain decimal digits from what follows them. It takes no
// sign, exponent or decimal comma: a comma means different things in different
// countries, so it is refused rather than guessed.
func leadingNumber(s string) (value float64, rest string, ok bool) {
	s = strings.TrimSpace(s)
	end := 0
	for end < len(s) && (s[end] >= '0' && s[end] <= '9' || s[end] == '.') {
		end++
	}
	if end > 32 {
		return 0, "", false
	}
	value, err := strconv.ParseFloat(s[:end], 64)
	return value, strings.TrimSpace(s[end:]), err == nil
}

// ParseQuantity reads a plain decimal number and its unit, which must be one of
// units in lower case with its factor; hint shows how to write it. It is never
// negative and never guesses a unit.
func ParseQuantity(field, text string, units map[string]float64, hint string) (float64, error) {
	value, unit, ok := leadingNumber(text)
	if !ok {
		return 0, &InputError{field, text, "must be a number and a unit, such as " + hint}
	}
	if unit == "" {
		return 0, &InputError{field, text, "has no unit; write " + hint}
	}
	factor, ok := units[strings.ToLower(unit)]
	if !ok {
		return 0, &InputError{field, text, "unit not known; write " + hint}
	}
	return value * factor, nil
}

var lengthUnits = map[string]float64{
	"m": 1, "metre": 1, "metres": 1, "meter": 1, "meters": 1,
	"km": 1000, "cm": 0.01, "mm": 0.001,
	"ft": metresPerFoot, "foot": metresPerFoot, "feet": metresPerFoot, "'": metresPerFoot,
	"in": metresPerFoot / 12, "inch": metresPerFoot / 12, "inches": metresPerFoot / 12, `"`: metresPerFoot / 12,
}

// ParseLength reads "30m", "100 ft", "98'", "600mm". A number without a unit is
// an error: feet and metres differ by more than three.
func ParseLength(s string) (Metres, error) {
	value, err := ParseQuantity("length", s, lengthUnits, "30m or 100ft")
	return Metres(value), err
}

var (
	currentUnits = map[string]float64{"a": 1, "amp": 1, "amps": 1, "ma": 0.001}
	powerUnits   = map[string]float64{"w": 1, "watt": 1, "watts": 1, "mw": 0.001, "kw": 1000}
)

// ParseCurrent reads "0.42A", "420 mA".
func ParseCurrent(s string) (Amps, error) {
	value, err := ParseQuantity("current", s, currentUnits, "0.42A or 420mA")
	return Amps(value), err
}

// ParsePower reads "18W", "500 mW".
func ParsePower(s string) (Watts, error) {
	value, err := ParseQuantity("power", s, powerUnits, "18W")
	return Watts(value), err
}

// ParseSize reads "18AWG", "18 AWG", "1/0 AWG", "1.5mm2", "1.5 mm²". A number
// without a unit is an error. Sizes outside the tables are errors.
func ParseSize(s string) (Size, error) {
	lower := strings.ToLower(strings.TrimSpace(s))
	if gauge, ok := strings.CutSuffix(lower, "awg"); ok {
		return parseGauge(s, strings.TrimSpace(gauge))
	}
	for _, unit := range [...]string{"mm2", "mm²", "mm^2", "sqmm", "sq mm"} {
		number, ok := strings.CutSuffix(lower, unit)
		if !ok {
			continue
		}
		area, rest, ok := leadingNumber(number)
		if !ok || rest != "" {
			break
		}
		size := Metric(SquareMillimetres(area))
		if _, err := (Conductor{Size: size}).Printed(); err != nil {
			return Size{}, &InputError{"conductor size", s, "not a tabulated size; metric sizes are " + list(Sizes(MetricFamily))}
		}
		return size, nil
	}
	return Size{}, &InputError{"conductor size", s, "must be a gauge or a cross-section with its unit, such as 18AWG or 1.5mm2"}
}

func parseGauge(given, number string) (Size, error) {
	zeros, aught := strings.CutSuffix(number, "/0")
	gauge, err := strconv.ParseUint(zeros, 10, 8)
	switch {
	case err != nil, len(zeros) > 1 && zeros[0] == '0': // 00 is how some write 2/0
		return Size{}, &InputError{"conductor size", given, "gauge must be a whole number or 1/0 to 4/0"}
	case aught && (gauge < 1 || gauge > 4), !aught && gauge > thinnestGauge:
		return Size{}, &InputError{"conductor size", given, "gauges run from 28 to 4/0 AWG"}
	}
	size := AWG(int(gauge))
	if aught {
		size = AWG(1 - int(gauge))
	}
	if _, err := (Conductor{Size: size}).Printed(); err != nil {
		return Size{}, &InputError{"conductor size", given, "not a tabulated gauge; gauges sold are " + list(Sizes(AWGFamily))}
	}
	return size, nil
}

func list(sizes []Size) string {
	names := make([]string, len(sizes))
	for i, s := range sizes {
		names[i] = s.String()
	}
	return strings.Join(names, ", ")
}

// ParseTemperature reads "75C", "75 °C", "-10C", "167F". The result is within the
// range the resistance formula is used for, -60 to 200 °C.
func ParseTemperature(s string) (Celsius, error) {
	text := strings.TrimSpace(s)
	text, minus := strings.CutPrefix(text, "-")
	value, unit, ok := leadingNumber(text)
	if !ok {
		return 0, &InputError{"temperature", s, "must be a number and C or F, such as 40C"}
	}
	if minus {
		value = -value
	}
	switch strings.ToLower(strings.TrimPrefix(unit, "°")) {
	case "c":
	case "f":
		value = (value - 32) / 1.8
	default:
		return 0, &InputError{"temperature", s, "has no unit; write 40C or 104F"}
	}
	t := Celsius(value)
	if _, err := copperRatio(20, t); err != nil {
		return 0, err
	}
	return t, nil
}
