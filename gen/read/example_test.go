package read_test

import (
	"context"
	"fmt"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/read"
)

// A schedule as a spreadsheet writes it, with inch marks that no quoting protects.
func ExampleBytes() {
	data := []byte("Door,,Frame\nMark,Width,Material\n101A,2' - 2\",HM\n")
	r, err := read.Bytes(context.Background(), "doors.csv", data, read.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range r.Columns {
		fmt.Println(c.Heading, "->", c.Field)
	}
	w, _ := doorsched.Width.In(r.Schedule.View(0)).Get()
	fmt.Println(r.Schedule.Doors[0].Mark, w)
	// Output:
	// Door / Mark -> mark
	// Door / Width -> width
	// Frame / Material -> frame_material
	// 101A 660.4 mm
}
