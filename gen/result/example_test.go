package result_test

import (
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

// Doors out of scope do not weigh on the whole.
func ExampleResult_Worst() {
	r := result.Result{Doors: []result.Door{{Verdict: doorsched.Caution}, {Verdict: doorsched.OutOfScope}}}
	fmt.Println(r.Worst(), r.Counts()[doorsched.OutOfScope])
	fmt.Println(result.Marks([]string{"101", "102", "103"}, 2))
	// Output:
	// caution 1
	// 101, 102 … and 1 more
}
