package cable

import "fmt"

// Construction is how a conductor is made up.
type Construction uint8

const (
	Usual    Construction = iota // not given: stranded, IEC class 2 for metric sizes
	Solid                        // IEC class 1
	Stranded                     // IEC class 2
	Flexible                     // IEC class 5; metric only
)

func (c Construction) String() string {
	return [...]string{"usual", "solid", "stranded", "flexible"}[min(c, Flexible)]
}

// Material is what a conductor is made of.
type Material uint8

const (
	Copper Material = iota
	CopperCladAluminium
)

// CommonCladFactor is the resistance of copper-clad aluminium over that of copper
// (common practice), for callers who must calculate what they would not install.
const CommonCladFactor = 1.6

// Conductor is one core. The zero value of everything but Size is usual copper.
type Conductor struct {
	Size         Size
	Construction Construction
	Tinned       bool // coated copper; higher resistance
	Material     Material
	// CladFactor must be given, above 1, for copper-clad aluminium; see CommonCladFactor.
	CladFactor float64
	// Stated, if above zero, is a maker's or measured resistance at StatedAt; it
	// replaces the tables.
	Stated   OhmsPerKilometre
	StatedAt Celsius
}

// Resistance is the resistance of one conductor per length at a temperature.
type Resistance struct {
	PerKilometre OhmsPerKilometre `json:"ohms_per_km"`
	At           Celsius          `json:"at_c"`
	Source       Source           `json:"source"`
}

// Printed is the resistance at the temperature its table is printed for.
// Errors: InputError for a size or construction without a table, ErrCopperClad.
func (c Conductor) Printed() (Resistance, error) {
	r, err := c.copper()
	if err != nil || c.Material == Copper {
		return r, err
	}
	if !finite(c.CladFactor) || c.CladFactor <= 1 {
		return Resistance{}, ErrCopperClad
	}
	r.PerKilometre = OhmsPerKilometre(float64(r.PerKilometre) * c.CladFactor)
	r.Source = Source{fmt.Sprintf("%s, times %g for copper-clad aluminium as stated", r.Source.Text, c.CladFactor), Derived}
	return r, nil
}

func (c Conductor) copper() (Resistance, error) {
	if c.Stated != 0 {
		if err := CheckPositive("stated resistance", float64(c.Stated)); err != nil {
			return Resistance{}, err
		}
		if _, err := copperRatio(20, c.StatedAt); err != nil {
			return Resistance{}, err
		}
		return Resistance{c.Stated, c.StatedAt, Source{"resistance stated by the caller", Derived}}, nil
	}
	switch c.Size.family {
	case AWGFamily:
		return c.awg()
	case MetricFamily:
		return c.metric()
	}
	return Resistance{}, &InputError{Field: "conductor size", Why: "not given"}
}

func (c Conductor) awg() (Resistance, error) {
	bad := func(why string) (Resistance, error) {
		return Resistance{}, &InputError{"conductor", c.Construction.String() + " " + c.Size.String(), why}
	}
	if c.Construction == Flexible {
		return bad("class 5 is a metric construction; give stranded")
	}
	solid := c.Construction == Solid
	row, ok := table8For(c.Size.gauge)
	if !ok {
		if c.Size.gauge < 19 || c.Size.gauge > thinnestGauge {
			return bad("not in NEC Chapter 9 Table 8, and not from 19 to 28 AWG")
		}
		return geometric(c.Size, solid, c.Tinned), nil
	}
	ohms := row.stranded
	switch {
	case solid && c.Tinned:
		ohms = row.solidCoated
	case solid:
		ohms = row.solid
	case c.Tinned:
		ohms = row.strandedCoated
	}
	if ohms == 0 {
		return bad("NEC Chapter 9 Table 8 has no solid conductor of this size")
	}
	return Resistance{ohms.PerKilometre(), table8Temperature, table8Source}, nil
}

// geometric is the resistance of the gauges Table 8 does not have. Strands and
// tin are taken in the proportion Table 8 prints for its smallest size.
func geometric(s Size, solid, tinned bool) Resistance {
	r := annealedResistivity * 1000 / float64(s.Area())
	source := Source{"ASTM B258 diameter and annealed copper at 20 °C (1/58 ohm mm²/m)", Derived}
	smallest, _ := table8For(18)
	ratio := smallest.solid
	switch {
	case solid && tinned:
		ratio = smallest.solidCoated
	case tinned:
		ratio = smallest.strandedCoated
	case !solid:
		ratio = smallest.stranded
	}
	if ratio != smallest.solid {
		source.Text += ", in the ratio of NEC Chapter 9 Table 8, 18 AWG, for strands or tin"
	}
	return Resistance{OhmsPerKilometre(r * float64(ratio) / float64(smallest.solid)), 20, source}
}

func (c Conductor) metric() (Resistance, error) {
	bad := func(why string) (Resistance, error) {
		return Resistance{}, &InputError{"conductor", c.Construction.String() + " " + c.Size.String(), why}
	}
	if c.Size == alarmSize {
		if c.Construction == Solid {
			return bad("0.22 mm² alarm cable is 7/0.2 mm, never solid")
		}
		return Resistance{alarmResistance, 20, alarmSource}, nil
	}
	for _, row := range iec60228 {
		if row.area != c.Size.area {
			continue
		}
		switch {
		case c.Construction == Flexible && c.Tinned:
			return Resistance{row.class5Tinned, 20, iecSource}, nil
		case c.Tinned:
			return bad("only the class 5 column has tinned copper here")
		case c.Construction == Flexible:
			return Resistance{row.class5, 20, iecSource}, nil
		}
		return Resistance{row.class1and2, 20, iecSource}, nil
	}
	return bad("not a size of IEC 60228 from 0.5 to 16 mm², nor 0.22 mm²")
}

// Resistance is the resistance at temperature t, from -60 to 200 °C.
func (c Conductor) Resistance(t Celsius) (Resistance, error) {
	r, err := c.Printed()
	if err != nil {
		return Resistance{}, err
	}
	ratio, err := copperRatio(r.At, t)
	if err != nil {
		return Resistance{}, err
	}
	r.PerKilometre = OhmsPerKilometre(float64(r.PerKilometre) * ratio)
	r.At = t
	return r, nil
}

// assumed names the construction if it was not given.
func (c Conductor) assumed() []Assumption {
	if c.Construction != Usual || c.Stated != 0 {
		return nil
	}
	value := "stranded"
	if c.Size.family == MetricFamily {
		value = "IEC 60228 class 2"
	}
	return []Assumption{{"conductor construction", value, "not given", Source{"usual construction of lock and reader wiring", Practice}}}
}
