package hardware

import "example.com/lockrail/doorsched"

// NFPA 80 6.4 (verified, as quoted in secondary copies): two hinges on a leaf up
// to 60 in high and one more for every further 30 in or fraction of it.
const (
	twoHingesTo   = 60 * doorsched.Inch
	onePerFurther = 30 * doorsched.Inch
)

// fourHingesAbove is where UK practice goes from three hinges to four (weak
// source: forum and guide pages).
const fourHingesAbove = 2200 * doorsched.Millimetre

// HingesByHeight returns the hinges one leaf of height h needs by NFPA 80.
func HingesByHeight(h doorsched.Length) int {
	if h <= twoHingesTo {
		return 2
	}
	return 2 + int((h-twoHingesTo+onePerFurther-1)/onePerFurther)
}

// hingesByPractice is the count a set is given: the trade hangs a commercial
// leaf with a closer on three, and a UK leaf on three whatever its height up to
// about 2200 mm. The count of the door's own listing or certificate governs.
func hingesByPractice(h doorsched.Length, r doorsched.Region, closer bool) (n int, rule string, status doorsched.Status) {
	if r == doorsched.RegionUK {
		if h > fourHingesAbove {
			return 4, "4 above about 2200 mm (weak source); the door's fire evidence governs", doorsched.Practice
		}
		return 3, "3 a leaf is customary; the door's fire evidence governs", doorsched.Practice
	}
	n = HingesByHeight(h)
	if closer && n < 3 {
		return 3, "3 on a leaf with a closer", doorsched.Practice
	}
	return n, "NFPA 80 6.4: 2 to 60 in, 1 more for each further 30 in or fraction", doorsched.Verified
}

// hingeHeights is the table of hinge heights by leaf thickness and width: the
// recommendation of the hardware consultants' institute as listed in a secondary
// copy (verified). At 1-3/8 in two copies disagree on 36 or 37 in.
var hingeHeights = []struct {
	thinnest, thickest, widest, height doorsched.Length // widest 0: any width
	heavy                              bool
}{
	{in(1, 3, 8), in(1, 3, 8), in(32, 0, 1), in(3, 1, 2), false},
	{in(1, 3, 8), in(1, 3, 8), in(37, 0, 1), in(4, 0, 1), false},
	{in(1, 3, 4), in(1, 3, 4), in(36, 0, 1), in(4, 1, 2), false},
	{in(1, 3, 4), in(1, 3, 4), in(48, 0, 1), in(5, 0, 1), false},
	{in(1, 3, 4), in(1, 3, 4), 0, in(6, 0, 1), false},
	{in(2, 0, 1), in(2, 1, 2), in(42, 0, 1), in(5, 0, 1), true},
	{in(2, 0, 1), in(2, 1, 2), 0, in(6, 0, 1), true},
}

// in is whole inches and a vulgar fraction.
func in(whole, num, den doorsched.Length) doorsched.Length {
	return whole*doorsched.Inch + num*doorsched.Inch/den
}

// HingeHeight returns the height of the hinges of a leaf and whether they are
// of heavy weight; ok is false outside the table.
func HingeHeight(thickness, width doorsched.Length) (height doorsched.Length, heavy, ok bool) {
	for _, r := range hingeHeights {
		if thickness >= r.thinnest && thickness <= r.thickest && (r.widest == 0 || width <= r.widest) {
			return r.height, r.heavy, true
		}
	}
	return 0, false, false
}

// hingeStockWidths are the widths hinges are made in (common practice).
var hingeStockWidths = []doorsched.Length{in(3, 1, 2), in(4, 0, 1), in(4, 1, 2), in(5, 0, 1), in(6, 0, 1)}

const (
	usualBackset  = doorsched.Inch / 4
	usualTrimGap  = doorsched.Inch + doorsched.Inch/2
	labelledTall  = 8 * doorsched.Foot
	wideForCloser = 36 * doorsched.Inch
)

// hingeWidth is the open width of a hinge: 2 (t - b) + c, rounded up to stock,
// at the usual backset of 1/4 in and trim clearance of 1-1/2 in.
func hingeWidth(thickness doorsched.Length) (doorsched.Length, bool) {
	w := 2*(thickness-usualBackset) + usualTrimGap
	for _, s := range hingeStockWidths {
		if w <= s {
			return s, true
		}
	}
	return 0, false
}

// HingeDuty is what EN 1935's adjusted door mass is worked out from.
type HingeDuty struct {
	MassKg        float64
	Width, Height doorsched.Length
	Closer        bool // a controlled closing device
	BackCheck     bool // the closer has back-check or holds open
	HeavyUse      bool // extra heavy use
}

// AdjustedMass returns the adjusted door mass of EN 1935 guidance: percentages
// of the leaf's own mass, summed: 20 for a closer or 75 for one with back-check
// or hold-open, 10 for extra heavy use, and (2 - height/width) in whole percent
// for a leaf lower than twice its width.
func AdjustedMass(d HingeDuty) float64 {
	percent := wideLeafPercent(d.Width, d.Height)
	switch {
	case d.BackCheck:
		percent += 75
	case d.Closer:
		percent += 20
	}
	if d.HeavyUse {
		percent += 10
	}
	return d.MassKg * float64(100+percent) / 100
}

// wideLeafPercent rounds half up in whole numbers, as the published table does.
func wideLeafPercent(width, height doorsched.Length) int64 {
	if width <= 0 || height <= 0 || height >= 2*width {
		return 0
	}
	over := 2*width - height
	return int64((over*200 + width) / (2 * width))
}

// hingeGrades is EN 1935's door grades (200 000 cycles) with the adjusted mass
// in kilograms that three hinges carry (verified).
var hingeGrades = []struct {
	grade int
	kg    float64
}{{4, 20}, {7, 40}, {10, 60}, {11, 80}, {12, 100}, {13, 120}, {14, 160}}

// leastFireHinge is the least grade on a new fire door (published guidance; 13
// is the usual choice).
const leastFireHinge = 11

// leastDoorHinge is the lowest grade offered: grade 4 carries too little for the
// leaves of these schedules and the published cases begin at 7.
const leastDoorHinge = 7

// HingeGrade returns the least EN 1935 grade, on three hinges, for an adjusted
// mass in kilograms; ok is false where no grade carries it.
func HingeGrade(adjusted float64, fire bool) (grade int, ok bool) {
	least := leastDoorHinge
	if fire {
		least = leastFireHinge
	}
	for _, g := range hingeGrades {
		if g.grade >= least && adjusted <= g.kg {
			return g.grade, true
		}
	}
	return 0, false
}
