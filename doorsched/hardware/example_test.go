package hardware_test

import (
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
)

// A schedule gives a magnetic lock on a fire door. It is kept and judged; the
// set around it is derived, and what is not known is said.
func Example() {
	var r doorsched.Record
	for _, given := range [][2]string{
		{"leaf_width", "926 mm"}, {"height", "2040 mm"}, {"fire_rating", "FD30S"}, {"access_controlled", "yes"},
		{"lock", "magnetic_lock"}, {"hw", "lever"}, {"leaf_mass", "45 kg"},
	} {
		if err := doorsched.Set(&r, given[0], given[1], doorsched.Given); err != nil {
			fmt.Println(err)
			return
		}
	}
	v := doorsched.NewView("101", &r)
	c := hardware.Choose(v, doorsched.England2019)
	s := hardware.Derive(v, doorsched.England2019, c)
	fmt.Println(c.Lock, "by", c.By)
	for _, id := range []string{"HNG-BUTT", "CLS", "EDR"} {
		it, _ := s.Item(id)
		fmt.Printf("%d %s, %s\n", it.Quantity, it.Name, it.Function)
	}
	fmt.Println(hardware.Operation(v, doorsched.England2019, c, s)[3])
	// Output:
	// electromagnetic by schedule
	// 3 butt hinge, grade 11
	// 1 door closer, power size 3
	// 1 emergency door release unit, green, type A, stays released, cuts both poles of the lock supply, about 1.4 m up, within 2 m
	// Mains lost, on battery: whether the lock stays locked on battery is not said; the means of release above still unlock it.
}
