package cable

import "math"

// Quantities are defined types so that a wrong product does not compile; the
// right ones are named methods. Products are rounded by an explicit conversion so
// that no compiler fuses them with a sum and answers differ between machines.
type (
	Volts               float64
	Amps                float64
	Ohms                float64
	Watts               float64
	Metres              float64
	Millimetres         float64
	Inches              float64
	Celsius             float64
	SquareMillimetres   float64
	SquareInches        float64
	OhmsPerKilometre    float64
	OhmsPerThousandFeet float64
	CircularMils        float64
)

const (
	metresPerFoot      = 0.3048 // exact
	millimetresPerInch = 25.4   // exact
)

// Feet is a length of ft feet.
func Feet(ft float64) Metres { return Metres(ft * metresPerFoot) }

// Feet is the length in feet.
func (m Metres) Feet() float64 { return float64(m) / metresPerFoot }

// Millimetres converts inches.
func (in Inches) Millimetres() Millimetres { return Millimetres(float64(in) * millimetresPerInch) }

// Inches converts millimetres.
func (mm Millimetres) Inches() Inches { return Inches(float64(mm) / millimetresPerInch) }

// SquareMillimetres converts square inches.
func (a SquareInches) SquareMillimetres() SquareMillimetres {
	return SquareMillimetres(float64(a) * (millimetresPerInch * millimetresPerInch))
}

// SquareMillimetres is the area of c circular mils: a circle one thousandth of an
// inch across has one.
func (c CircularMils) SquareMillimetres() SquareMillimetres {
	return SquareMillimetres(float64(c) * (math.Pi / 4 * 0.0254 * 0.0254))
}

// circle is the area of a circle of this diameter.
func (in Inches) circle() SquareInches {
	return SquareInches(math.Pi / 4 * float64(in) * float64(in))
}

// Through is the voltage a current loses in a resistance.
func (a Amps) Through(r Ohms) Volts { return Volts(float64(a) * float64(r)) }

// HeatIn is the power a current turns to heat in a resistance.
func (a Amps) HeatIn(r Ohms) Watts { return Watts(float64(a) * float64(a) * float64(r)) }

// Across is the current a voltage drives through a resistance above zero.
func (v Volts) Across(r Ohms) Amps { return Amps(float64(v) / float64(r)) }

// Carrying is the power of a current at this voltage.
func (v Volts) Carrying(a Amps) Watts { return Watts(float64(v) * float64(a)) }

// Losing is the resistance that loses this voltage at a current above zero.
func (v Volts) Losing(a Amps) Ohms { return Ohms(float64(v) / float64(a)) }

// DrawnAt is the current that carries this power at a voltage above zero.
func (w Watts) DrawnAt(v Volts) Amps { return Amps(float64(w) / float64(v)) }

// Over is the resistance of one conductor of this length.
func (r OhmsPerKilometre) Over(m Metres) Ohms { return Ohms(float64(r) * float64(m) / 1000) }

// PerKilometre converts the unit of the NEC tables.
func (r OhmsPerThousandFeet) PerKilometre() OhmsPerKilometre {
	return OhmsPerKilometre(float64(r) / metresPerFoot)
}
