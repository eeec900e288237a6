package main

import (
	"encoding/json"
	"fmt"
	"io"

	"example.com/lockrail/cable"
	"example.com/lockrail/gen/report"
	"github.com/spf13/pflag"
)

// conductorFlags are the flags of every calculator that takes a conductor.
type conductorFlags struct {
	size, temp string
	solid      bool
}

func (c *conductorFlags) flags(fs *pflag.FlagSet) {
	fs.StringVar(&c.size, "size", "", "conductor `SIZE`: 18AWG, 1.5mm2")
	fs.BoolVar(&c.solid, "solid", false, "solid conductor; otherwise stranded")
	fs.StringVar(&c.temp, "temp", "", "conductor temperature, `75C` or 167F (default 40C)")
}

func (c *conductorFlags) conductor() (cable.Conductor, cable.Temperature, error) {
	var out cable.Conductor
	var at cable.Temperature
	if c.size != "" {
		size, err := cable.ParseSize(c.size)
		if err != nil {
			return out, at, usageError{err}
		}
		out.Size = size
	}
	if c.solid {
		out.Construction = cable.Solid
	}
	if c.temp != "" {
		t, err := cable.ParseTemperature(c.temp)
		if err != nil {
			return out, at, usageError{err}
		}
		at = cable.At(t)
	}
	return out, at, nil
}

func parseLengthFlag(name, text string) (cable.Metres, error) {
	if text == "" {
		return 0, usagef("--%s is needed", name)
	}
	l, err := cable.ParseLength(text)
	if err != nil {
		return 0, usageError{fmt.Errorf("--%s: %w", name, err)}
	}
	return l, nil
}

// decimal prints a quantity with at most places decimals.
func decimal[T ~float64](v T, places int) report.Decimal {
	return report.Decimal{Number: float64(v), Places: places}
}

func volts[T ~float64](v T) report.Decimal   { return decimal(v, 3) }
func metres[T ~float64](v T) report.Decimal  { return decimal(v, 2) }
func percent[T ~float64](v T) report.Decimal { return decimal(v, 1) }
func watts[T ~float64](v T) report.Decimal   { return decimal(v, 3) }
func ohms[T ~float64](v T) report.Decimal    { return decimal(v, 4) }

// answer is one calculator's result: what it is called, its value as JSON
// writes it, and how a person reads it.
type answer struct {
	key   string
	value any
	text  string
}

// writeAnswers writes one JSON object in the order given, or one line each.
// Assumptions follow either way.
func writeAnswers(w io.Writer, format string, answers []answer, assumed []cable.Assumption) error {
	if format == formatText {
		for _, a := range answers {
			if _, err := fmt.Fprintf(w, "%-18s %s\n", a.key, a.text); err != nil {
				return err
			}
		}
		for _, a := range assumed {
			if _, err := fmt.Fprintf(w, "assumed: %s = %s; %s (%s, %s)\n", a.What, a.Value, a.Why, a.Source.Text, a.Source.Status); err != nil {
				return err
			}
		}
		_, err := fmt.Fprintln(w, "A calculation on the values shown; the adopted code and a licensed person decide.")
		return err
	}
	out := []byte("{")
	for i, a := range append(answers, answer{key: "assumptions", value: append([]cable.Assumption{}, assumed...)}) {
		v, err := json.Marshal(a.value)
		if err != nil {
			return err
		}
		if i > 0 {
			out = append(out, ',')
		}
		out = fmt.Appendf(out, "%q:%s", a.key, v)
	}
	_, err := w.Write(append(out, "}\n"...))
	return err
}
