package hardware

import (
	"fmt"

	"example.com/lockrail/doorsched"
)

const poundsPerSquareFoot = 4.88242763638305 // kg/m² in one lb/ft²

// arealMasses is the mass of a leaf by area (common practice); the high end of a
// range is taken, so that hinges and closer are not chosen too small.
var arealMasses = []struct {
	leaf string
	kgM2 float64
}{
	{"44 mm FD30 timber", 24},
	{"54 mm FD60 timber", 31},
	{"1-3/4 in solid-core wood", 5 * poundsPerSquareFoot},
	{"1-3/4 in hollow metal", 6.5 * poundsPerSquareFoot},
	{"glass", 2.5}, // for each millimetre of thickness
}

// MassEstimate is a leaf's mass worked out from its area.
type MassEstimate struct {
	Kg   float64
	Leaf string // the row of the table it rests on
}

// EstimateMass estimates the mass of a leaf of the given width from the door's
// height, material and, for glass, thickness; ok is false where the schedule
// says too little. It is an assumption and must be shown as one.
func EstimateMass(v doorsched.View, r doorsched.Region, width doorsched.Length) (MassEstimate, bool) {
	height, haveH := doorsched.Height.In(v).Get()
	mat, haveMat := doorsched.DoorMat.In(v).Get()
	if !haveH || !haveMat || width <= 0 {
		return MassEstimate{}, false
	}
	thickness, haveT := doorsched.Thickness.In(v).Get()
	rating, _ := doorsched.FireRating.In(v).Get()
	row, factor := -1, 1.0
	switch mat {
	case "wood", "hpdl":
		switch {
		case r == doorsched.RegionUS:
			row = 2
		case rating.Minutes > 30 || haveT && thickness >= 54*doorsched.Millimetre:
			row = 1
		default:
			row = 0
		}
	case "steel":
		row = 3
	case "glass":
		if !haveT {
			return MassEstimate{}, false
		}
		row, factor = 4, thickness.Millimetres()
	}
	if row < 0 {
		return MassEstimate{}, false
	}
	m := arealMasses[row]
	return MassEstimate{Kg: m.kgM2 * factor * width.Metres() * height.Metres(), Leaf: m.leaf}, true
}

// assumption words an estimate for the user.
func (m MassEstimate) assumption(mark string) doorsched.Assumption {
	return doorsched.Assumption{
		Field: doorsched.LeafMass.ID(), Value: doorsched.FormatNumber(m.Kg, 1) + " kg",
		Reason: fmt.Sprintf("no leaf mass given: area times the mass of %s (common practice, high end)", m.Leaf),
		By:     "hardware", Doors: []string{mark},
	}
}
