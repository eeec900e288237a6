package hardware

import "example.com/lockrail/doorsched"

// closerSizes is EN 1154 Table 1: largest leaf width and test mass by size
// (verified: two summaries agree). The standard ties size to width and gives
// mass as the test mass; taking the larger of both is the cautious trade reading.
var closerSizes = []struct {
	size  int
	width doorsched.Length
	kg    float64
}{
	{1, 750 * doorsched.Millimetre, 20},
	{2, 850 * doorsched.Millimetre, 40},
	{3, 950 * doorsched.Millimetre, 60},
	{4, 1100 * doorsched.Millimetre, 80},
	{5, 1250 * doorsched.Millimetre, 100},
	{6, 1400 * doorsched.Millimetre, 120},
	{7, 1600 * doorsched.Millimetre, 160},
}

// leastFireCloser is the least size on a fire door (EN 1154 Annex A, trade journal).
const leastFireCloser = 3

// CloserSize returns the EN 1154 size for a leaf: the larger of size by width and
// size by mass in kilograms, at least 3 on a fire door, then up sizes more for
// wind, draught or a parallel arm. ok is false beyond size 7.
func CloserSize(width doorsched.Length, massKg float64, fire bool, up int) (size int, ok bool) {
	for _, r := range closerSizes {
		if width <= r.width && massKg <= r.kg {
			size = r.size
			break
		}
	}
	if size == 0 {
		return 0, false
	}
	if fire {
		size = max(size, leastFireCloser)
	}
	size += up
	return size, size <= closerSizes[len(closerSizes)-1].size
}
