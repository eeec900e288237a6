package demo

import (
	"fmt"

	"example.com/lockrail/doorsched"
)

// Names of the demo files.
const (
	USWorkbook = "marram-point-us.xlsx"
	UKWorkbook = "marram-point-uk.xlsx"
	USCSV      = "marram-point-us.csv"
)

// Files builds the demo files, by name. The bytes are the same each time.
func Files() (map[string][]byte, error) {
	us, err := newSheet(doorsched.RegionUS)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", USWorkbook, err)
	}
	uk, err := newSheet(doorsched.RegionUK)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", UKWorkbook, err)
	}
	out := map[string][]byte{}
	if out[USWorkbook], err = us.workbook(); err != nil {
		return nil, fmt.Errorf("%s: %w", USWorkbook, err)
	}
	if out[UKWorkbook], err = uk.workbook(); err != nil {
		return nil, fmt.Errorf("%s: %w", UKWorkbook, err)
	}
	if out[USCSV], err = us.csv(); err != nil {
		return nil, fmt.Errorf("%s: %w", USCSV, err)
	}
	return out, nil
}
