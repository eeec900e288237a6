package cable

import (
	"math"
	"strconv"
)

// Family is a system of conductor sizes.
type Family uint8

const (
	NoFamily Family = iota
	AWGFamily
	MetricFamily
)

func (f Family) String() string {
	switch f {
	case AWGFamily:
		return "AWG"
	case MetricFamily:
		return "metric"
	}
	return "no family"
}

// Size is a conductor size as the trade names it; the zero value is not given.
// It is comparable.
type Size struct {
	family Family
	gauge  int8 // 0 is 1/0, -3 is 4/0
	area   SquareMillimetres
}

const (
	thickestGauge = -3 // 4/0
	thinnestGauge = 28
)

// AWG is a gauge number; 1/0 to 4/0 are 0 to -3. Whether it is tabulated shows
// when a Conductor of it is asked for its resistance.
func AWG(gauge int) Size {
	if gauge < -4 || gauge > 60 {
		gauge = 60 // outside every table, and kept outside
	}
	return Size{family: AWGFamily, gauge: int8(gauge)}
}

// Metric is a nominal cross-section.
func Metric(area SquareMillimetres) Size { return Size{family: MetricFamily, area: area} }

// Family is the system the size belongs to.
func (s Size) Family() Family { return s.family }

// Given reports whether there is a size at all.
func (s Size) Given() bool { return s.family != NoFamily }

// String is "18 AWG", "4/0 AWG", "1.5 mm²".
func (s Size) String() string {
	switch s.family {
	case AWGFamily:
		if s.gauge <= 0 {
			return strconv.Itoa(1-int(s.gauge)) + "/0 AWG"
		}
		return strconv.Itoa(int(s.gauge)) + " AWG"
	case MetricFamily:
		return strconv.FormatFloat(float64(s.area), 'f', -1, 64) + " mm²"
	}
	return "size not given"
}

// MarshalText writes the size as String does, and nothing for none.
func (s Size) MarshalText() ([]byte, error) {
	if !s.Given() {
		return nil, nil
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads what ParseSize reads.
func (s *Size) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = Size{}
		return nil
	}
	parsed, err := ParseSize(string(text))
	if err == nil {
		*s = parsed
	}
	return err
}

// Diameter is the diameter of the bare solid conductor; for AWG by ASTM B258,
// 39 equal ratio steps between 36 AWG (0.005 in) and 4/0 (0.46 in).
func (s Size) Diameter() Inches {
	switch s.family {
	case AWGFamily:
		return Inches(0.005 * math.Pow(92, float64(36-int(s.gauge))/39))
	case MetricFamily:
		return Millimetres(math.Sqrt(float64(s.area) * 4 / math.Pi)).Inches()
	}
	return 0
}

// Area is the cross-section of the copper: as printed in NEC Chapter 9 Table 8
// for the gauges it has, by ASTM B258 for the others, nominal for metric sizes.
func (s Size) Area() SquareMillimetres {
	switch s.family {
	case AWGFamily:
		if row, ok := table8For(s.gauge); ok {
			return row.area.SquareMillimetres()
		}
		return s.Diameter().circle().SquareMillimetres()
	case MetricFamily:
		return s.area
	}
	return 0
}

// Sizes is the ladder of sizes sold as lock and reader wiring, smallest first.
// Odd gauges and 23 AWG (data cable) are tabulated but are not steps of it.
func Sizes(f Family) []Size {
	switch f {
	case AWGFamily:
		sizes := make([]Size, 0, 17)
		for _, g := range [...]int{28, 26, 24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3} {
			sizes = append(sizes, AWG(g))
		}
		return sizes
	case MetricFamily:
		sizes := []Size{alarmSize}
		for _, row := range iec60228 {
			sizes = append(sizes, Metric(row.area))
		}
		return sizes
	}
	return nil
}
