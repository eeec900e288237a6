package doorsched

import "slices"

// Edition is a document and date that doors are judged on.
type Edition string

// Editions that can be judged.
const (
	IBC2021     Edition = "ibc-2021"
	England2019 Edition = "england-2019"
)

// EditionInfo describes an edition.
type EditionInfo struct {
	ID     Edition
	Title  string
	Region Region
}

var editions = [...]EditionInfo{
	{IBC2021, "International Building Code 2021, with NFPA 80 and the accessibility standards as their own documents", RegionUS},
	{England2019, "England: Approved Document B volume 2 (2019 edition with amendments) and the standards of practice it leans on", RegionUK},
}

// Editions lists the editions that can be judged.
func Editions() []EditionInfo { return slices.Clone(editions[:]) }

// Info returns the edition's description; ok is false for an edition that cannot be judged.
func (e Edition) Info() (EditionInfo, bool) {
	for _, i := range editions {
		if i.ID == e {
			return i, true
		}
	}
	return EditionInfo{}, false
}
