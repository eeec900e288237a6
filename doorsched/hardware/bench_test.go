package hardware_test

import (
	"fmt"
	"testing"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/hardware"
)

// BenchmarkThousandDoors chooses and derives a schedule of 1,000 doors of which
// 50 differ.
func BenchmarkThousandDoors(b *testing.B) {
	var views []doorsched.View
	for i := range 1000 {
		k := i % 50
		views = append(views, door(b, fmt.Sprint(i), "width", fmt.Sprintf("%d mm", 800+k*10), "height", "2100 mm", "thickness", `1-3/4"`,
			"fire_rating", []string{"NR", "90 min"}[k%2], "access_controlled", []string{"yes", "no"}[k/2%2], "door_mat", "steel", "use", "office"))
	}
	for b.Loop() {
		c := hardware.NewChooser(doorsched.IBC2021)
		for _, v := range views {
			hardware.Derive(v, doorsched.IBC2021, c.Choose(v))
		}
	}
}
