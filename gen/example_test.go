package gen_test

import (
	"context"
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen"
)

// One door, described in a line, through the whole job.
func ExampleDoors() {
	door, err := gen.ParseDoor("mark=S1; fire_rating=90; lock=electric_strike; fail=safe")
	if err != nil {
		fmt.Println(err)
		return
	}
	res, err := gen.Doors(context.Background(), []doorsched.Door{door}, doorsched.IBC2021)
	if err != nil {
		fmt.Println(err)
		return
	}
	d := res.Doors[0]
	fmt.Println(d.Mark, d.Verdict)
	for _, f := range d.Findings {
		fmt.Println(f.Rule, f.Citation.Document)
	}
	// Output:
	// S1 conflict
	// strike-fail-state NFPA 80
}
