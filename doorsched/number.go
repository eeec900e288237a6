package doorsched

import "strconv"

// FormatNumber writes n with at most the given decimals and no trailing zeros.
func FormatNumber(n float64, decimals int) string {
	s := trimZeros(strconv.FormatFloat(n, 'f', decimals, 64))
	if s == "-0" {
		return "0"
	}
	return s
}
