package cable_test

import (
	"fmt"

	"example.com/lockrail/cable"
)

// The voltage at a lock 30 m away, the longest run that would hold and the
// smallest size for the length in hand.
func ExampleRun() {
	run := cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18)}, Length: 30}
	got, err := run.Solve(24, 0.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f V, drop %.1f %%, %s\n", got.EndVolts, got.DropPercent, got.Conductor.Source)
	longest, _ := run.Longest(24, 20.4, 0.5)
	smallest, _, _ := run.Smallest(cable.Sizes(cable.AWGFamily), 24, 20.4, 0.5)
	fmt.Printf("holds to %.2f m; smallest size %s\n", longest.Length, smallest)
	for _, a := range got.Assumptions {
		fmt.Printf("assumed: %s %s\n", a.What, a.Value)
	}
	// Output:
	// 23.306 V, drop 2.9 %, NEC Chapter 9 Table 8, direct-current resistance at 75 °C
	// holds to 155.62 m; smallest size 24 AWG
	// assumed: conductor construction stranded
	// assumed: conductor temperature 40 °C
}

func ExamplePathway_Fill() {
	conductors, err := cable.ParseGroup("22x14AWG:THHN")
	if err != nil {
		fmt.Println(err)
		return
	}
	fill, err := cable.Pathway{Raceway: cable.EMT, Trade: "3/4"}.Fill(conductors)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f %% of %.0f %%, fits %v (rounded up by Note 7: %v), %s\n", fill.FillPercent, fill.LimitPercent, fill.Fits, fill.RoundedUp, fill.Basis.Force)
	// Output:
	// 40.0 % of 40 %, fits true (rounded up by Note 7: true), mandatory
}
