package report_test

import (
	"fmt"
	"os"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/report"
	"example.com/lockrail/gen/result"
)

// The last line of a result is its summary.
func ExampleJSONLines() {
	edition, _ := doorsched.IBC2021.Info()
	r := &result.Result{Edition: edition, Schedule: &doorsched.Schedule{}}
	if err := report.JSONLines(os.Stdout, r); err != nil {
		fmt.Println(err)
	}
	fmt.Println(report.SummarySentence(r))
	// Output:
	// {"kind":"summary","schema":"lockrail/1","edition":"ibc-2021","doors":0,"conflict":0,"approval":0,"query":0,"caution":0,"no-conflict":0,"out-of-scope":0,"findings":0,"queries":0}
	// 0 doors on ibc-2021: ; 0 findings, 0 questions.
}
