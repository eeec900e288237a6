package cable_test

import (
	"math"
	"strings"
	"testing"

	"example.com/lockrail/cable"
)

func TestParseLength(t *testing.T) {
	for text, want := range map[string]cable.Metres{
		"30m": 30, " 30 m ": 30, "0.5 km": 500, "600mm": 0.6, "12.5cm": 0.125,
		"100ft": 30.48, "100 FT": 30.48, "10'": 3.048, "24in": 0.6096, `24"`: 0.6096, "0m": 0,
	} {
		got, err := cable.ParseLength(text)
		if err != nil || math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("%q: got %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "m", "30", "-3m", "1,5m", "1e3m", "NaNm", "Infm", "30 yards", "3 m 4", "1.2.3m", "0x10m", "1_0m", strings.Repeat("9", 400) + "m"} {
		if got, err := cable.ParseLength(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

func TestParseCurrentAndPower(t *testing.T) {
	for text, want := range map[string]cable.Amps{"0.42A": 0.42, "420 mA": 0.42, "3.8a": 3.8} {
		if got, err := cable.ParseCurrent(text); err != nil || math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("%q: got %v, %v", text, got, err)
		}
	}
	if got, err := cable.ParsePower("18W"); err != nil || got != 18 {
		t.Errorf("got %v, %v", got, err)
	}
	for _, text := range []string{"", "5", "-1A", "1V", "A"} {
		if got, err := cable.ParseCurrent(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

func TestParseSize(t *testing.T) {
	for text, want := range map[string]string{
		"18AWG": "18 AWG", "18 AWG": "18 AWG", "18 awg": "18 AWG", "4/0 AWG": "4/0 AWG", "1/0AWG": "1/0 AWG", "0 AWG": "1/0 AWG", "23AWG": "23 AWG",
		"1.5mm2": "1.5 mm²", "1.5 mm²": "1.5 mm²", "1.5MM2": "1.5 mm²", "1.5 mm^2": "1.5 mm²", "0.22mm2": "0.22 mm²", "16 sqmm": "16 mm²",
	} {
		got, err := cable.ParseSize(text)
		if err != nil || got.String() != want {
			t.Errorf("%q: got %v, %v; want %s", text, got, err, want)
		}
	}
	for _, text := range []string{"", "18", "1.5", "AWG", "00AWG", "000AWG", "5/0AWG", "0/0AWG", "01/0AWG", "40AWG", "17AWG", "1.5AWG", "-18AWG", "1,5mm2", "1.2mm2", "-1mm2", "mm2", "NaNmm2", "18AWG 2"} {
		if got, err := cable.ParseSize(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

func TestParseTemperature(t *testing.T) {
	for text, want := range map[string]cable.Celsius{"75C": 75, "75 C": 75, "75 °C": 75, "75°C": 75, "167F": 75, "-10C": -10, "32f": 0, "14 °F": -10} {
		got, err := cable.ParseTemperature(text)
		if err != nil || math.Abs(float64(got-want)) > 1e-12 {
			t.Errorf("%q: got %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "75", "C", "75K", "--5C", "500C", "-273C", "NaNC"} {
		if got, err := cable.ParseTemperature(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

// Whatever is read, what was understood prints to something that reads the same.
func FuzzParseSize(f *testing.F) {
	for _, s := range []string{"18AWG", "4/0 AWG", "1.5mm2", "1.5 mm²", "00AWG", "9e9mm2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := cable.ParseSize(s)
		if err != nil {
			return
		}
		again, err := cable.ParseSize(got.String())
		if err != nil || again != got {
			t.Errorf("%q is %v, which reads as %v, %v", s, got, again, err)
		}
		if _, err := (cable.Conductor{Size: got}).Resistance(40); err != nil {
			t.Errorf("%q was accepted but has no resistance: %v", s, err)
		}
	})
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"30m", "100ft", "10'", "1.5 km", "9999999999999999999999999999999km"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := cable.ParseLength(s)
		if err == nil && !(got >= 0 && !math.IsInf(float64(got), 0)) {
			t.Errorf("%q: %v", s, got)
		}
	})
}

func FuzzParseTemperature(f *testing.F) {
	for _, s := range []string{"75C", "-10 °C", "167F"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := cable.ParseTemperature(s)
		if err == nil && !(got >= -60 && got <= 200) {
			t.Errorf("%q: %v", s, got)
		}
	})
}
