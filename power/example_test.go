package power_test

import (
	"fmt"
	"time"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
)

// The voltage at a 24 V mortise lock behind 60 m of cable and a power transfer.
func ExampleCircuit_AtLoad() {
	lock, err := power.FindLoad(power.MortiseLock, "solenoid", 24)
	if err != nil {
		fmt.Println(err)
		return
	}
	result, err := power.Circuit{
		Supply: power.Supply{Nominal: 24},
		Segments: []power.Segment{
			{Name: "cable", Run: cable.Run{Conductor: cable.Conductor{Size: cable.AWG(18)}, Length: 60}},
			{Name: "transfer", Run: cable.Run{Conductor: cable.Conductor{Size: cable.AWG(24)}, Length: 1}, Limit: 1},
		},
		Load: lock,
	}.AtLoad()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range result.Points {
		fmt.Printf("%s, %s: %.3f V\n", p.Event, p.State, p.Load)
	}
	fmt.Printf("short %v; generic %v; cable at most %.2f m\n", result.Short, result.Generic, result.Longest.Length)
	for _, r := range result.Remedies {
		fmt.Printf("%s: %.3f V, holds %v\n", r, r.LoadVolts, r.Holds)
	}
	// Output:
	// supply low on mains, holding: 21.475 V
	// supply low on mains, inrush: 21.475 V
	// battery at its end, holding: 19.780 V
	// battery at its end, inrush: 19.780 V
	// charger high, holding: 25.996 V
	// charger high, inrush: 25.996 V
	// charger high, holding at its least current: 26.935 V
	// short true; generic true; cable at most 26.50 m
	// 16 AWG in cable: 20.189 V, holds false
	// 14 AWG in cable: 20.454 V, holds true
	// 2 cores in parallel each way in cable: 20.333 V, holds false
	// 3 cores in parallel each way in cable: 20.525 V, holds true
}

func ExampleEthernet_Solve() {
	r, err := power.Ethernet{Type: 2, Length: 90, Load: 18}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f V, %.2f W lost, at most %.2f W, fits %v, least type %d\n", r.DeviceVolts, r.CableLossWatts, r.DeviceWattsMax, r.Fits, r.LeastType)
	// Output:
	// 45.555 V, 1.76 W lost, at most 25.50 W, fits true, least type 2
}

func ExampleBattery_Solve() {
	r, err := power.Battery{
		Phases: []power.Phase{{Amps: 0.42, For: 24 * time.Hour}, {Amps: 3.8, For: 5 * time.Minute}},
		Margin: 1.2, Ageing: 1.25, Temperature: cable.At(20),
	}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f Ah, next block %.0f Ah, %s\n", r.Needed, r.Block, r.TemperatureSource)
	// Output:
	// 16.47 Ah, next block 17 Ah, IEEE 485 Table 1, lead-acid, rated at 25 °C
}
