package doorsched_test

import (
	"fmt"

	"example.com/lockrail/doorsched"
)

// A field that the schedule leaves out is Unknown, and a length is exact in
// whichever system it was written.
func Example() {
	var door doorsched.Record
	for _, given := range [][2]string{{"mark", "101A"}, {"width", `2' - 2"`}, {"fire_rating", "1-1/2 HR"}} {
		if err := doorsched.Set(&door, given[0], given[1], doorsched.Given); err != nil {
			fmt.Println(err)
		}
	}
	v := doorsched.NewView("101A", &door)
	width, _ := doorsched.Width.In(v).Get()
	rating, _ := doorsched.FireRating.In(v).Get()
	fmt.Println(width, width.FeetInches(), rating)
	fmt.Println("lock known:", doorsched.Lock.In(v).IsKnown())
	// Output:
	// 660.4 mm 2'-2" 90 min
	// lock known: false
}
