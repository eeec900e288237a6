package main

import (
	"context"
	"errors"
	"fmt"

	"example.com/lockrail/cable"
	"github.com/spf13/pflag"
)

func dropCommand() command {
	return command{
		name: "drop", short: "Voltage at the end of a run, longest run, smallest conductor",
		long: "A constant current at the end of a two-wire run. The least voltage is 85 % of the\nsupply unless --min says otherwise (UL 294 output window; a lock's own data wins).",
		examples: []string{
			"lockrail drop --volts 24 --amps 0.5 --length 30m --size 18AWG",
			"lockrail drop --volts 12 --amps 0.4 --length 100ft --size 22AWG --min 10.8 --temp 75C --format json",
		},
		setup: func(fs *pflag.FlagSet) action {
			var supply, amps, least float64
			var length, format string
			var c conductorFlags
			fs.Float64Var(&supply, "volts", 0, "supply `VOLTS`")
			fs.Float64Var(&amps, "amps", 0, "load `AMPS`")
			fs.StringVar(&length, "length", "", "one-way length, `30m` or 100ft")
			c.flags(fs)
			fs.Float64Var(&least, "min", 0, "least `VOLTS` the load takes (default 85 % of the supply)")
			formatFlag(fs, &format)
			return func(_ context.Context, args []string, io streams) (int, error) {
				if err := errors.Join(checkFormat(format), noArgs(args)); err != nil {
					return 0, usageError{err}
				}
				l, err := parseLengthFlag("length", length)
				if err != nil {
					return 0, err
				}
				conductor, at, err := c.conductor()
				if err != nil {
					return 0, err
				}
				if !conductor.Size.Given() {
					return 0, usagef("--size is needed")
				}
				run := cable.Run{Conductor: conductor, Length: l, Temperature: at}
				sol, err := run.Solve(cable.Volts(supply), cable.Amps(amps))
				if err != nil {
					return 0, err
				}
				assumed := sol.Assumptions
				if !fs.Changed("min") {
					least = 0.85 * supply
					assumed = append(assumed, cable.Assumption{What: "least voltage", Value: volts(least).String() + " V", Why: "not given; 85 % of the supply",
						Source: cable.Source{Text: "UL 294 6th edition, 36.1: output window 85 to 110 %", Status: cable.Verified}})
				}
				answers := []answer{
					{"end_volts", volts(sol.EndVolts), volts(sol.EndVolts).String() + " V"},
					{"drop_volts", volts(sol.DropVolts), volts(sol.DropVolts).String() + " V"},
					{"drop_percent", percent(sol.DropPercent), percent(sol.DropPercent).String() + " %"},
					{"loop_ohms", ohms(sol.Ohms), ohms(sol.Ohms).String() + " ohm"},
				}
				longest, err := run.Longest(cable.Volts(supply), cable.Volts(least), cable.Amps(amps))
				if err != nil {
					return 0, err
				}
				if longest.Unlimited {
					answers = append(answers, answer{"longest_m", nil, "any: no current flows"})
				} else {
					answers = append(answers, answer{"longest_m", metres(longest.Length), metres(longest.Length).String() + " m"})
				}
				size, small, err := run.Smallest(cable.Sizes(conductor.Size.Family()), cable.Volts(supply), cable.Volts(least), cable.Amps(amps))
				switch {
				case errors.Is(err, cable.ErrNoSize):
					answers = append(answers, answer{"smallest_size", nil, "none of the table holds"})
				case err != nil:
					return 0, err
				default:
					answers = append(answers, answer{"smallest_size", size.String(), fmt.Sprintf("%s (%s V at the end)", size, volts(small.EndVolts))})
				}
				return exitDone, writeAnswers(io.out, format, answers, assumed)
			}
		},
	}
}

func noArgs(args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("takes no %q", args[0])
	}
	return nil
}
