package wiring_test

import (
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
	"example.com/lockrail/doorsched/wiring"
)

// A magnet 100 m away on thin cable: what arrives, and what would mend it.
func ExampleWire() {
	var door doorsched.Record
	for _, f := range [][2]string{
		{"lock_volts", "12"}, {"lock_amps", "0.5"}, {"cable_length", "100 m"}, {"cable_size", "22 AWG"}, {"battery_hours", "0"},
	} {
		if err := doorsched.Set(&door, f[0], f[1], doorsched.Given); err != nil {
			fmt.Println(err)
		}
	}
	plan := wiring.Wire([]wiring.Door{{
		View:   doorsched.NewView("014", &door),
		Choice: hardware.Choice{Lock: "electromagnetic", Fail: "safe"},
	}}, doorsched.England2019)
	c := plan.Circuits[0]
	fmt.Println(c.Lock)
	fmt.Println(c.Result)
	for _, f := range c.Findings {
		for _, r := range f.Remedies {
			fmt.Println("-", r)
		}
	}
	s := plan.Supplies[0]
	fmt.Printf("%s: %.2f A held, %g A supply\n", s.Key, float64(s.Holding), float64(s.Size))
	// Output:
	// magnetic lock, fail safe
	// Does not hold: 5.56 V at the lock (supply low on mains, holding), 10.2 V needed; 100 m of 22 AWG; calculated on the values given
	// - 14 AWG in place of 22 AWG: 10.49 V at the lock at worst
	// - a power supply unit at most 20.5 m away: 10.2 V at the lock at worst
	// - 24 V lock and supply in place of 12 V, if the lock is made for it (generic load of up to 0.5 A), with 18 AWG in place of 22 AWG: 20.8 V at the lock at worst
	// not placed, 12 V: 0.50 A held, 1 A supply
}
