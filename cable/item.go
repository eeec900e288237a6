package cable

import (
	"fmt"
	"strings"
)

// Circuit is what a conductor or cable carries; it decides whether raceway fill
// is a rule or advice. The empty value is not given.
type Circuit string

const (
	PowerCircuit   Circuit = "power"          // single conductors of light and power circuits
	Class2Circuit  Circuit = "class2"         // class 2 or class 3 cable
	Communications Circuit = "communications" // communications cable
)

// Item is one conductor or one multi-conductor cable in a raceway; a cable counts
// as one conductor of its outside diameter (NEC Chapter 9 Notes 5 and 9).
type Item struct {
	Name     string
	Area     SquareInches // printed in Table 5, or that of the circle on Diameter
	Diameter Inches       // of an oval cable the major axis
	Circuit  Circuit
	Source   Source
}

// Insulated is a single insulated conductor with the area NEC Chapter 9 Table 5
// prints for it. Insulation is a type such as THHN, XHHW-2, RHW, TFFN.
func Insulated(size Size, insulation string) (Item, error) {
	wanted := strings.ToUpper(strings.TrimSpace(insulation))
	if wanted == "" {
		return Item{}, &InputError{"conductor", size.String(), "has no insulation type; write for example THHN"}
	}
	known := false
	for _, row := range table5 {
		if !hasType(row.types, wanted) {
			continue
		}
		known = true
		if AWG(int(row.gauge)) != size {
			continue
		}
		diameter := row.diameter
		if diameter == 0 {
			diameter = row.area.diameter()
		}
		source := table5Source
		source.Status = row.status
		return Item{size.String() + " " + wanted, row.area, diameter, PowerCircuit, source}, nil
	}
	if known {
		return Item{}, &InputError{"conductor", size.String() + " " + wanted, "this size of the type is not in the table held here"}
	}
	return Item{}, &InputError{"insulation", insulation, "not a type of NEC Chapter 9 Table 5 held here"}
}

func hasType(types, wanted string) bool {
	for t := range strings.SplitSeq(types, "/") {
		if t == wanted {
			return true
		}
	}
	return false
}

// Round is a multi-conductor cable by its outside diameter.
func Round(name string, outside Millimetres, c Circuit) (Item, error) {
	return Oval(name, outside, outside, c)
}

// Oval is a flat or oval cable; the circle on its major axis counts (Note 9).
func Oval(name string, a, b Millimetres, c Circuit) (Item, error) {
	for _, d := range [...]Millimetres{a, b} {
		if err := CheckPositive("outside diameter", float64(d)); err != nil {
			return Item{}, err
		}
		if d > 1000 {
			return Item{}, &InputError{"outside diameter", fmt.Sprintf("%g mm", float64(d)), "must be at most 1000 mm"}
		}
	}
	major := max(a, b).Inches()
	source := Source{"NEC Chapter 9 Notes 5 and 9, actual outside diameter", Verified}
	return Item{name, major.circle(), major, c, source}, nil
}
