package demo_test

import (
	"fmt"
	"maps"
	"slices"

	"example.com/lockrail/gen/demo"
)

func Example() {
	files, err := demo.Files()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Println(name)
	}
	fmt.Println(len(demo.Doors()), "doors")
	// Output:
	// marram-point-uk.xlsx
	// marram-point-us.csv
	// marram-point-us.xlsx
	// 33 doors
}
