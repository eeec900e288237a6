package readback_test

import (
	"context"
	"fmt"

	"example.com/lockrail/gen/readback"
)

// A file that we never touched holds nothing of ours.
func ExampleRead() {
	own, err := readback.Read(context.Background(), nil)
	fmt.Println(len(own.Sheets), len(own.Answers), err)
	// Output: 0 0 <nil>
}
