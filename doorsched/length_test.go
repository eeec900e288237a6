package doorsched_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/lockrail/doorsched"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestParseLength(t *testing.T) {
	in, mm := doorsched.UnitInch, doorsched.UnitMillimetre
	tests := []struct {
		text string
		bare doorsched.Unit
		want doorsched.Measure
	}{
		{`3'-0"`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "ft"}},
		{`3' - 0"`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "ft"}},
		{`2' - 2"`, "", doorsched.Measure{Length: doorsched.Millimetres(660.4), Unit: "ft"}},
		{`8' - 8 3/8"`, "", doorsched.Measure{Length: doorsched.Inches(104.375), Unit: "ft"}},
		{`0' - 1 3/4"`, "", doorsched.Measure{Length: doorsched.Inches(1.75), Unit: "ft"}},
		{`3' - 5 29/32"`, "", doorsched.Measure{Length: doorsched.Inches(41.90625), Unit: "ft"}},
		{`3-0`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "ft"}},
		{`1-3/4"`, "", doorsched.Measure{Length: doorsched.Inches(1.75), Unit: "in"}},
		{`1 3/4"`, "", doorsched.Measure{Length: doorsched.Inches(1.75), Unit: "in"}},
		{`1 3/4`, "", doorsched.Measure{Length: doorsched.Inches(1.75), Unit: "in", Assumed: true}},
		{`36"`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "in"}},
		{`36''`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "in"}},
		{`36 in.`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "in"}},
		{`3 ft 6 in`, "", doorsched.Measure{Length: 42 * doorsched.Inch, Unit: "ft"}},
		{`3’–0”`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "ft"}},
		{`6' 0½"`, "", doorsched.Measure{Length: doorsched.Inches(72.5), Unit: "ft"}},
		{`915`, "", doorsched.Measure{Length: 915 * doorsched.Millimetre, Unit: "mm", Assumed: true}},
		{`36`, "", doorsched.Measure{Length: 36 * doorsched.Inch, Unit: "in", Assumed: true}},
		{`36`, mm, doorsched.Measure{Length: 36 * doorsched.Millimetre, Unit: "mm"}},
		{`84`, in, doorsched.Measure{Length: 84 * doorsched.Inch, Unit: "in"}},
		{`915 mm`, "", doorsched.Measure{Length: 915 * doorsched.Millimetre, Unit: "mm"}},
		{`0.915 m`, "", doorsched.Measure{Length: 915 * doorsched.Millimetre, Unit: "m"}},
		{`91.5cm`, "", doorsched.Measure{Length: 915 * doorsched.Millimetre, Unit: "cm"}},
	}
	for _, tt := range tests {
		got, err := doorsched.ParseLength(tt.text, tt.bare)
		if err != nil {
			t.Errorf("ParseLength(%q): %v", tt.text, err)
		}
		if d := cmp.Diff(tt.want, got); d != "" {
			t.Errorf("ParseLength(%q) (-want +got):\n%s", tt.text, d)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, tt := range []struct{ text, says string }{
		{`3'-O"`, "letter 'O'"},
		{`3'-l0"`, "letter 'l'"},
		{`3'-14"`, "12 inches or more"},
		{"", "empty"},
		{"wide", "not a number"},
		{"1/0", "not a number"},
		{"-36", "not a number"},
		{"99999999", "not a number"},
		{"9999999 ft", "out of range"},
		{"3' 200mm", "mixes feet"},
	} {
		_, err := doorsched.ParseLength(tt.text, "")
		if !errors.Is(err, doorsched.ErrLength) || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("ParseLength(%q) = %v; want ErrLength saying %q", tt.text, err, tt.says)
		}
	}
}

// The three ways to write one limit are one number, so that a boundary does not flip.
func TestBoundariesAgree(t *testing.T) {
	want := 48 * doorsched.Inch
	for _, s := range []string{`48"`, `4'-0"`, "1219.2 mm", "4-0", "1.2192 m"} {
		m, err := doorsched.ParseLength(s, "")
		if err != nil || m.Length != want {
			t.Errorf("%s = %d nm, %v; want %d", s, m.Length, err, want)
		}
	}
}

func TestFeetInchesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := doorsched.Length(rapid.Int64Range(0, 64*12*40).Draw(t, "64ths")) * doorsched.Inch / 64
		m, err := doorsched.ParseLength(l.FeetInches(), "")
		if err != nil || m.Length != l {
			t.Fatalf("%s reads back as %d, %v; want %d", l.FeetInches(), m.Length, err, l)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{`3'-0"`, "915", "1-3/4", "3-0", "½", "0.915 m", "1e9"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := doorsched.ParseLength(s, "")
		if err == nil && (m.Length < 0 || m.Unit == "") {
			t.Errorf("ParseLength(%q) = %+v", s, m)
		}
	})
}

func TestParseSize(t *testing.T) {
	type want struct {
		w, h   string
		leaves int
		leaf   bool
	}
	for _, tt := range []struct {
		text string
		bare doorsched.Unit
		want want
	}{
		{"3068", "", want{"914.4 mm", "2032 mm", 0, false}},
		{"2868", "", want{"812.8 mm", "2032 mm", 0, false}},
		{"3-0 x 7-0 PR", "", want{"914.4 mm", "2133.6 mm", 2, false}},
		{"PR 762", "", want{"762 mm", "0 mm", 2, true}},
		{"1010x2185", "", want{"1010 mm", "2185 mm", 0, false}},
		{"915 x 2100", "mm", want{"915 mm", "2100 mm", 0, false}},
		{`3'-0" x 7'-0" x 1-3/4"`, "", want{"914.4 mm", "2133.6 mm", 0, false}},
		{"2100", "mm", want{"2100 mm", "0 mm", 0, false}},
	} {
		z, err := doorsched.ParseSize(tt.text, tt.bare)
		if err != nil {
			t.Errorf("ParseSize(%q): %v", tt.text, err)
			continue
		}
		got := want{z.Width.Length.String(), z.Height.Length.String(), z.Leaves, z.WidthIsLeaf}
		if got != tt.want {
			t.Errorf("ParseSize(%q) = %+v; want %+v", tt.text, got, tt.want)
		}
	}
}

func TestParseRating(t *testing.T) {
	for _, tt := range []struct {
		text, want string
		minutes    int
		smoke      doorsched.Answer
	}{
		{"NR", "NR", 0, doorsched.No},
		{"Non-Rated", "NR", 0, doorsched.No},
		{"0", "NR", 0, doorsched.No},
		{"90", "90 min", 90, doorsched.Unknown},
		{"90 MIN", "90 min", 90, doorsched.Unknown},
		{"45M", "45 min", 45, doorsched.Unknown},
		{"1-1/2 HR", "90 min", 90, doorsched.Unknown},
		{"1.5 hr", "90 min", 90, doorsched.Unknown},
		{"3/4 HR", "45 min", 45, doorsched.Unknown},
		{"20 MIN S", "20 min S", 20, doorsched.Yes},
		{"FD30", "FD30", 30, doorsched.No},
		{"FD 60S", "FD60S", 60, doorsched.Yes},
		{"E30 Sa", "E 30 Sa", 30, doorsched.Yes},
		{"EI 30", "EI 30", 30, doorsched.No},
	} {
		r, err := doorsched.ParseRating(tt.text)
		if err != nil || r.String() != tt.want || r.Minutes != tt.minutes || r.Smoke != tt.smoke {
			t.Errorf("ParseRating(%q) = %q %d %s, %v", tt.text, r, r.Minutes, r.Smoke, err)
		}
	}
	for _, s := range []string{"B", "Class A", "C LABEL", "FD", "fire", "9000", ""} {
		if _, err := doorsched.ParseRating(s); !errors.Is(err, doorsched.ErrRating) {
			t.Errorf("ParseRating(%q) = %v; want ErrRating", s, err)
		}
	}
}

func FuzzParseRating(f *testing.F) {
	for _, s := range []string{"NR", "FD30S", "1-1/2 HR", "E30 Sa", "B"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := doorsched.ParseRating(s)
		if err != nil {
			return
		}
		again, err := doorsched.ParseRating(r.String())
		if err != nil || again != r {
			t.Errorf("%q = %+v, written %q reads as %+v, %v", s, r, r, again, err)
		}
	})
}
