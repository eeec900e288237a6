package main

import (
	"context"
	"errors"
	"fmt"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
	"github.com/spf13/pflag"
)

func poeCommand() command {
	return command{
		name: "poe", short: "Power over Ethernet at the device",
		long: "A device of constant power behind its channel, from the least voltage of the\nsource's type. Without --size the worst channel of the standard is taken.",
		examples: []string{
			"lockrail poe --type 2 --length 90m --load 18W",
			"lockrail poe --type 3 --length 100m --load 40W --size 24AWG --format json",
		},
		setup: func(fs *pflag.FlagSet) action {
			var kind int
			var length, load, format string
			var c conductorFlags
			fs.IntVar(&kind, "type", 0, "`TYPE` of the source, 1 to 4")
			fs.StringVar(&length, "length", "", "channel length, `90m`")
			fs.StringVar(&load, "load", "", "power at the device, `18W`")
			fs.StringVar(&c.size, "size", "", "conductor `SIZE`: 24AWG (default: the worst channel)")
			fs.StringVar(&c.temp, "temp", "", "conductor temperature, `75C`, with --size (default 40C)")
			formatFlag(fs, &format)
			return func(_ context.Context, args []string, io streams) (int, error) {
				if err := errors.Join(checkFormat(format), noArgs(args)); err != nil {
					return 0, usageError{err}
				}
				l, err := parseLengthFlag("length", length)
				if err != nil {
					return 0, err
				}
				w, err := cable.ParsePower(load)
				if err != nil {
					return 0, usageError{err}
				}
				conductor, at, err := c.conductor()
				if err != nil {
					return 0, err
				}
				r, err := power.Ethernet{Type: kind, Length: l, Load: w, Conductor: conductor, Temperature: at}.Solve()
				var collapse *power.CollapseError
				var input *cable.InputError
				switch {
				case errors.As(err, &input):
					return 0, usageError{err}
				case err != nil && !errors.As(err, &collapse):
					return 0, err
				}
				answers := []answer{
					{"device_volts", volts(r.DeviceVolts), volts(r.DeviceVolts).String() + " V"},
					{"device_watts_max", watts(r.DeviceWattsMax), watts(r.DeviceWattsMax).String() + " W (" + string(r.Bound) + ")"},
					{"cable_loss_watts", watts(r.CableLossWatts), watts(r.CableLossWatts).String() + " W"},
				}
				if collapse != nil {
					answers[0] = answer{"device_volts", nil, "none: " + collapse.Error()}
					answers[2] = answer{"cable_loss_watts", nil, "-"}
				}
				fits := "no"
				if r.Fits {
					fits = "yes"
				}
				answers = append(answers, answer{"fits", r.Fits, fits})
				if r.LeastType == 0 {
					answers = append(answers, answer{"least_type", nil, "none"})
				} else {
					answers = append(answers, answer{"least_type", r.LeastType, fmt.Sprint(r.LeastType)})
				}
				if r.BeyondChannel {
					answers = append(answers, answer{"beyond_channel", true, "yes: longer than a data channel may be"})
				}
				return exitDone, writeAnswers(io.out, format, answers, r.Assumptions)
			}
		},
	}
}
