package cable

import (
	"fmt"
	"math"
)

// Pathway is the raceway to be filled.
type Pathway struct {
	Raceway Raceway
	Trade   TradeSize
	// Nipple is a raceway of at most NippleLength between enclosures.
	Nipple bool
}

// NippleLength is the longest raceway that may be filled as a nipple (NEC Chapter 9 Note 4).
const NippleLength Metres = 0.6

// Force says whether a limit is a rule or good practice.
type Force string

const (
	Mandatory Force = "mandatory"
	Advice    Force = "advice"
)

// Basis is why the limit applies.
type Basis struct {
	Force  Force  `json:"force"`
	Source Source `json:"source"`
}

// Fill is how full a raceway is.
type Fill struct {
	Count        int          `json:"count"` // conductors and cables
	Area         SquareInches `json:"area_in2"`
	LimitArea    SquareInches `json:"limit_in2"`
	FillPercent  float64      `json:"fill_percent"`
	LimitPercent float64      `json:"limit_percent"`
	Basis        Basis        `json:"basis"`
	Fits         bool         `json:"fits"`
	// RoundedUp: it fits by NEC Chapter 9 Note 7 only, which takes a fraction of
	// 0.8 as a whole conductor when all are of one size.
	RoundedUp bool `json:"rounded_up,omitempty"`
	// SmallestTrade is the smallest trade size of the raceway that fits; empty if
	// none does. Sizes that another table governs are not offered.
	SmallestTrade TradeSize `json:"smallest_trade,omitempty"`
	// More says for each group given how many more of it alone fit.
	More        []int        `json:"more"`
	Jam         Jam          `json:"jam"`
	Source      Source       `json:"source"`
	Assumptions []Assumption `json:"assumptions,omitempty"`
}

// Jam is the ratio of raceway to cable diameter at which three of them can wedge
// in a bend. Ratio is zero unless exactly three are pulled.
type Jam struct {
	Ratio float64 `json:"ratio,omitempty"`
	Risk  bool    `json:"risk,omitempty"`
}

const (
	jamLow  = 2.8
	jamHigh = 3.2
	// slack keeps decimal areas that add up to exactly the limit from failing in
	// the last binary digit.
	slack = 1e-9
)

// Fill is how full the pathway is with the groups. Errors: InputError,
// ErrSpecialTable.
func (p Pathway) Fill(groups ...Group) (Fill, error) {
	row, err := p.look()
	if err != nil {
		return Fill{}, err
	}
	if len(groups) == 0 {
		return Fill{}, &InputError{Field: "conductors or cables", Why: "none given"}
	}
	for _, g := range groups {
		if g.Count < 1 || g.Count > mostItems {
			return Fill{}, &InputError{"conductors or cables", fmt.Sprint(g.Count), "count must be from 1 to 100000"}
		}
		if err := CheckPositive("area of "+g.Item.Name, float64(g.Item.Area)); err != nil {
			return Fill{}, err
		}
		if err := CheckPositive("diameter of "+g.Item.Name, float64(g.Item.Diameter)); err != nil {
			return Fill{}, err
		}
	}
	content := add(groups)
	fill := Fill{Count: content.count, Area: content.area, Source: table4Source}
	fill.LimitArea, fill.LimitPercent = row.limit(content.count, p.Nipple)
	fill.FillPercent = 100 * float64(content.area) / float64(row.Area100)
	fill.Fits, fill.RoundedUp = row.fits(content, p.Nipple)
	fill.SmallestTrade = smallestTrade(p, content)
	for i := range groups {
		fill.More = append(fill.More, row.more(content, groups[i].Item, p.Nipple))
	}
	if content.count == 3 {
		fill.Jam.Ratio = float64(row.Inside) * 3 / float64(content.diameters)
		fill.Jam.Risk = fill.Jam.Ratio >= jamLow && fill.Jam.Ratio <= jamHigh
	}
	fill.Basis, fill.Assumptions = basis(groups)
	return fill, nil
}

// MaxCount is the greatest number of one conductor or cable in the pathway, as
// NEC Informative Annex C counts it: 53, 31 and 40 % of the printed area, a
// fraction of 0.8 or more taken as a whole (Note 7). In a nipple nothing is
// rounded up, since Annex C does not count nipples.
func (p Pathway) MaxCount(item Item) (int, error) {
	row, err := p.look()
	if err != nil {
		return 0, err
	}
	if err := CheckPositive("area of "+item.Name, float64(item.Area)); err != nil {
		return 0, err
	}
	return row.maxCount(item.Area, p.Nipple), nil
}

func (p Pathway) look() (RacewaySize, error) {
	row, err := lookRaceway(p.Raceway, p.Trade)
	if err == nil && row.special() {
		err = ErrSpecialTable
	}
	return row, err
}

// content is what lies in a raceway, added up.
type content struct {
	count     int
	area      SquareInches
	diameters Inches // sum of all
	one       SquareInches
	oneSize   bool // all of one area: Note 7 may be used
}

func add(groups []Group) content {
	c := content{one: groups[0].Item.Area, oneSize: true}
	for _, g := range groups {
		c.count += g.Count
		c.area += SquareInches(float64(g.Count) * float64(g.Item.Area))
		c.diameters += Inches(float64(g.Count) * float64(g.Item.Diameter))
		c.oneSize = c.oneSize && g.Item.Area == c.one
	}
	return c
}

func (s RacewaySize) fits(c content, nipple bool) (fits, roundedUp bool) {
	limit, _ := s.limit(c.count, nipple)
	if float64(c.area) <= float64(limit)*(1+slack) {
		return true, false
	}
	roundedUp = c.oneSize && c.count <= s.maxCount(c.one, nipple)
	return roundedUp, roundedUp
}

func (s RacewaySize) maxCount(one SquareInches, nipple bool) int {
	whole := func(n int) int {
		limit, _ := s.limit(n, nipple)
		quotient := math.Min(float64(limit)/float64(one), math.MaxInt32) + slack
		count := math.Floor(quotient)
		if !nipple && quotient-count >= 0.8 {
			count++
		}
		return int(count)
	}
	for _, n := range [...]int{3, 2, 1} {
		if count := whole(n); count >= n {
			if n < 3 {
				return n
			}
			return count
		}
	}
	return 0
}

// more is how many of item fit besides the content.
func (s RacewaySize) more(c content, item Item, nipple bool) int {
	if c.oneSize && item.Area == c.one {
		return max(s.maxCount(c.one, nipple)-c.count, 0)
	}
	best := 0
	limit, _ := s.limit(3, nipple)
	upper := int(math.Min(float64(limit-c.area)/float64(item.Area)+1, mostItems))
	// Only 1 and 2 further ones can fall under a limit other than that for
	// three or more, so the quotient is tried downwards and settles at once.
	for n := upper; n >= 1; n-- {
		with := content{count: c.count + n, area: c.area + SquareInches(float64(n)*float64(item.Area))}
		if ok, _ := s.fits(with, nipple); ok {
			best = n
			break
		}
	}
	return best
}

func smallestTrade(p Pathway, c content) TradeSize {
	for _, row := range raceways {
		if row.Raceway != p.Raceway || row.special() {
			continue
		}
		if ok, _ := row.fits(c, p.Nipple); ok {
			return row.Trade
		}
	}
	return ""
}

var (
	basisPower  = Basis{Mandatory, Source{"NEC Chapter 9 Table 1 through the article of the raceway", Verified}}
	basisClass2 = Basis{Mandatory, Source{"NEC 725.3(A) through 300.17", Verified}}
	basisComm   = Basis{Advice, Source{"NEC 800.110(B): chapter 9 fill does not apply; 40 % is good practice", Verified}}
)

// basis is the strictest of the groups'.
func basis(groups []Group) (Basis, []Assumption) {
	found := basisComm
	var assumed []Assumption
	for _, g := range groups {
		switch g.Item.Circuit {
		case Communications:
		case PowerCircuit:
			found = basisPower
		default:
			if found.Force == Advice {
				found = basisClass2
			}
			if g.Item.Circuit == "" && assumed == nil {
				assumed = []Assumption{{"circuit of the cables", "class 2 or class 3", "not given; the stricter basis is taken", basisClass2.Source}}
			}
		}
	}
	return found, assumed
}
