package layout_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"example.com/lockrail/gen/layout"
)

func TestKeysAndNames(t *testing.T) {
	titles := map[string]bool{}
	for _, s := range layout.Sheets() {
		if key, ok := layout.SheetKey(layout.SheetName(s.Key)); !ok || key != s.Key {
			t.Errorf("%s: its defined name does not lead back to it", s.Key)
		}
		if s.Purpose.US == "" || s.Purpose.UK == "" || len(s.Title.US) > 31 || len(s.Title.UK) > 31 || titles[s.Title.US] {
			t.Errorf("%s: purpose missing, title too long or taken", s.Key)
		}
		titles[s.Title.US] = true
		seen := map[string]bool{}
		for _, c := range s.Columns {
			if seen[c.Key] || c.Title.US == "" || c.Title.UK == "" || c.Width <= 0 {
				t.Errorf("%s: column %q is twice or incomplete", s.Key, c.Key)
			}
			seen[c.Key] = true
		}
	}
	if _, ok := layout.SheetKey("_lockrail.sheet.elsewhere"); ok {
		t.Error("an unknown key was recognised")
	}
	if layout.ResultColumn("mark") != 1 {
		t.Error("the door mark must come first")
	}
}

// Relative luminance and contrast by WCAG 2.1, "contrast ratio": black text on
// every tint must reach 7:1.
func TestTintsKeepContrast(t *testing.T) {
	for _, code := range []string{"conflict", "approval", "query", "caution", "no-conflict", "out-of-scope"} {
		var lum float64
		for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
			n, err := strconv.ParseUint(layout.ShadeOf(code).Tint[2*i:2*i+2], 16, 8)
			if err != nil {
				t.Fatal(err)
			}
			c := float64(n) / 255
			if c <= 0.03928 {
				c /= 12.92
			} else {
				c = math.Pow((c+0.055)/1.055, 2.4)
			}
			lum += weight * c
		}
		if ratio := (lum + 0.05) / 0.05; ratio < 7 {
			t.Errorf("%s: contrast %.1f", code, ratio)
		}
	}
}

// The same table serves both vocabularies.
func Example() {
	s, _ := layout.SheetByKey(layout.Sets)
	fmt.Println(s.Title.In("US"), "/", s.Title.In("UK"))
	fmt.Println(layout.SheetName(s.Key))
	// Output:
	// Hardware sets / Ironmongery sets
	// _lockrail.sheet.sets
}
