package egress_test

import (
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
)

// A classroom door has a magnetic lock and nothing but a wall button to release it.
func Example() {
	var d doorsched.Record
	for _, in := range [][2]string{
		{"egress", "required"}, {"occ", "E"}, {"serves_ol", "40"}, {"hw", "lever"}, {"latch", "yes"},
		{"lock", "electromagnetic"}, {"release_set", "{button,power_loss}"},
	} {
		if err := doorsched.Set(&d, in[0], in[1], doorsched.Given); err != nil {
			fmt.Println(err)
		}
	}
	report := egress.JudgeDoor(doorsched.NewView("114", &d), doorsched.IBC2021)
	fmt.Println(report.Verdict)
	for _, f := range report.Findings {
		fmt.Println(f.Citation)
		fmt.Println(f.Message)
	}
	// Output:
	// conflict
	// IBC 2021, 1010.2.12
	// An electric lock holds the egress side and is released by button, power loss: neither a sensor nor a switch in the hardware on the leaf. A wall button alone leaves people at a door they do not know how to open.
}

// What a schedule does not say is asked once, not door by door.
func ExampleQueries() {
	s := &doorsched.Schedule{Doors: []doorsched.Door{{Mark: "101"}, {Mark: "102"}}}
	var reports []egress.Report
	for i := range s.Doors {
		s.Doors[i].Put(doorsched.Value{Field: doorsched.HardwareSet.ID(), Data: "A1", Origin: doorsched.Given})
		reports = append(reports, egress.JudgeDoor(s.View(i), doorsched.IBC2021))
	}
	for _, q := range egress.Queries(s, reports, doorsched.IBC2021)[:2] {
		fmt.Println(q.ID, q.Doors)
	}
	// Output:
	// fire_rating [101 102]
	// wall [101 102]
}
