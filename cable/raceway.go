package cable

import (
	"math"
	"strings"
)

// Raceway is a kind of raceway of NEC Chapter 9 Table 4.
type Raceway string

const (
	EMT   Raceway = "EMT"    // electrical metallic tubing
	ENT   Raceway = "ENT"    // electrical nonmetallic tubing
	FMC   Raceway = "FMC"    // flexible metal conduit
	IMC   Raceway = "IMC"    // intermediate metal conduit
	LFNCA Raceway = "LFNC-A" // liquidtight flexible nonmetallic conduit
	LFNCB Raceway = "LFNC-B"
	LFMC  Raceway = "LFMC" // liquidtight flexible metal conduit
	RMC   Raceway = "RMC"  // rigid metal conduit
	PVC40 Raceway = "PVC40"
	PVC80 Raceway = "PVC80"
)

// TradeSize is a trade size as the trade writes it: "1/2", "1-1/4".
type TradeSize string

// RacewaySize is a row of NEC Chapter 9 Table 4, areas as printed.
type RacewaySize struct {
	Raceway    Raceway
	Trade      TradeSize
	Designator int // metric designator
	Inside     Inches
	Area100    SquareInches
	Area60     SquareInches
	Area53     SquareInches
	Area31     SquareInches
	Area40     SquareInches
}

// RacewaySizes lists the sizes of a raceway, smallest first; none if it is not known.
func RacewaySizes(r Raceway) []RacewaySize {
	var sizes []RacewaySize
	for _, row := range raceways {
		if row.Raceway == r {
			sizes = append(sizes, row)
		}
	}
	return sizes
}

// ParseRaceway reads the names of the table, whatever their case: EMT, RMC, IMC,
// PVC40, "PVC schedule 80", LFNC-A.
func ParseRaceway(s string) (Raceway, error) {
	name := strings.NewReplacer(" ", "", "-", "", "SCHEDULE", "", "SCH", "").Replace(strings.ToUpper(s))
	for _, r := range [...]Raceway{EMT, RMC, IMC, PVC40, PVC80, FMC, LFMC, ENT, LFNCA, LFNCB} {
		if name == strings.ReplaceAll(string(r), "-", "") {
			return r, nil
		}
	}
	return "", &InputError{"raceway", s, "not known; EMT, RMC, IMC, PVC40, PVC80, FMC, LFMC, ENT, LFNC-A or LFNC-B"}
}

// lookRaceway finds the size of a raceway; the trade size may be written 1-1/4,
// 1 1/4 or 1-1/4".
func lookRaceway(r Raceway, t TradeSize) (RacewaySize, error) {
	name := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(string(t)), `"`))
	name = strings.ReplaceAll(name, " ", "-")
	var sold []string
	for _, row := range raceways {
		if row.Raceway != r {
			continue
		}
		if string(row.Trade) == name {
			return row, nil
		}
		sold = append(sold, string(row.Trade))
	}
	if sold == nil {
		return RacewaySize{}, &InputError{"raceway", string(r), "not a raceway of NEC Chapter 9 Table 4 held here"}
	}
	return RacewaySize{}, &InputError{"trade size", string(t), "not a size of " + string(r) + "; sizes are " + strings.Join(sold, ", ")}
}

// special reports the sizes that NEC 348.22 and 350.22 take out of Table 1.
func (s RacewaySize) special() bool {
	return s.Trade == "3/8" && (s.Raceway == FMC || s.Raceway == LFMC)
}

// limit is the area that may be filled with n conductors, and its percentage.
func (s RacewaySize) limit(n int, nipple bool) (SquareInches, float64) {
	switch {
	case nipple:
		return s.Area60, 60
	case n == 1:
		return s.Area53, 53
	case n == 2:
		return s.Area31, 31
	}
	return s.Area40, 40
}

// diameter of a circle of this area.
func (a SquareInches) diameter() Inches {
	return Inches(math.Sqrt(float64(a) * 4 / math.Pi))
}
