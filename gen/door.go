package gen

import (
	"fmt"
	"strings"

	"example.com/lockrail/doorsched"
)

// ParseDoor reads one door as "mark=101; width=3-0; release_set={sensor,button}":
// names and aliases of the table of fields.
func ParseDoor(text string) (doorsched.Door, error) {
	var d doorsched.Door
	for _, part := range strings.Split(text, ";") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		name, value, ok := strings.Cut(part, "=")
		if !ok {
			return d, fmt.Errorf("door %q: %q is not FIELD=VALUE", text, part)
		}
		if err := doorsched.Set(&d.Record, name, value, doorsched.Given); err != nil {
			return d, fmt.Errorf("door %q: %w", text, err)
		}
	}
	d.Mark = doorsched.Mark.Of(&d.Record).Or("")
	return d, nil
}
