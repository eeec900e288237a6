package main

import (
	"context"
	"errors"

	"example.com/lockrail/cable"
	"example.com/lockrail/power"
	"github.com/spf13/pflag"
)

func batteryCommand() command {
	return command{
		name: "battery", short: "Standby battery for a list of phases",
		long: "Ampere-hours of the phases with margin, ageing and temperature, the next common\nblock, and the current that recharges it.",
		examples: []string{
			"lockrail battery --phase 0.42Ax24h --phase 3.8Ax5min --margin 1.2",
			"lockrail battery --phase 0.5Ax4h --margin 1.25 --ageing 1.25 --temp 5C --format json",
		},
		setup: func(fs *pflag.FlagSet) action {
			var phases []string
			var margin, ageing float64
			var temp, format string
			fs.StringArrayVar(&phases, "phase", nil, "`AMPSxTIME`: 0.42Ax24h; repeatable")
			fs.Float64Var(&margin, "margin", 0, "`FACTOR` for growth (default 1.25, shown)")
			fs.Float64Var(&ageing, "ageing", 0, "`FACTOR` for end of life (default none, shown)")
			fs.StringVar(&temp, "temp", "", "battery temperature, `5C` (default 25C, shown)")
			formatFlag(fs, &format)
			return func(_ context.Context, args []string, io streams) (int, error) {
				if err := errors.Join(checkFormat(format), noArgs(args)); err != nil {
					return 0, usageError{err}
				}
				if len(phases) == 0 {
					return 0, usagef("at least one --phase is needed")
				}
				b := power.Battery{Margin: margin, Ageing: ageing}
				for _, p := range phases {
					phase, err := power.ParsePhase(p)
					if err != nil {
						return 0, usageError{err}
					}
					b.Phases = append(b.Phases, phase)
				}
				if temp != "" {
					t, err := cable.ParseTemperature(temp)
					if err != nil {
						return 0, usageError{err}
					}
					b.Temperature = cable.At(t)
				}
				r, err := b.Solve()
				var input *cable.InputError
				if errors.As(err, &input) {
					return 0, usageError{err}
				}
				if err != nil {
					return 0, err
				}
				block := answer{"block_amp_hours", nil, "none of the common sizes: design blocks in parallel"}
				if r.Block > 0 {
					block = answer{"block_amp_hours", decimal(r.Block, 2), decimal(r.Block, 2).String() + " Ah"}
				}
				return exitDone, writeAnswers(io.out, format, []answer{
					{"amp_hours", decimal(r.Needed, 3), decimal(r.Needed, 3).String() + " Ah"},
					block,
					{"recharge_amps", decimal(r.RechargeAmps, 3), decimal(r.RechargeAmps, 3).String() + " A"},
				}, r.Assumptions)
			}
		},
	}
}
