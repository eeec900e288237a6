package doorsched

import "testing"

func TestNoNameTwice(t *testing.T) {
	if len(table.twice) > 0 {
		t.Errorf("names claimed by two fields: %q", table.twice)
	}
}
