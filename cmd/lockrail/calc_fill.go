package main

import (
	"context"
	"errors"
	"fmt"

	"example.com/lockrail/cable"
	"github.com/spf13/pflag"
)

func fillCommand() command {
	return command{
		name: "fill", short: "How full a raceway is, by NEC Chapter 9",
		long: "Counts a multi-core cable as one conductor by its outside diameter, an oval one by\nits wider axis. The limits bind class 2 and 3 cable and are advice for\ncommunications cable.",
		examples: []string{
			"lockrail fill --raceway EMT --trade 3/4 --cable 22x14AWG:THHN",
			"lockrail fill --raceway EMT --trade 1 --cable 4x6.1mm --cable 2x18/2 --format json",
		},
		setup: func(fs *pflag.FlagSet) action {
			var raceway, trade, format string
			var nipple bool
			var cables []string
			fs.StringVar(&raceway, "raceway", "EMT", "`KIND`: EMT, RMC, IMC, PVC40, PVC80, FMC, LFMC")
			fs.StringVar(&trade, "trade", "", "trade `SIZE`: 1/2, 3/4, 1, 1-1/4 ...")
			fs.BoolVar(&nipple, "nipple", false, "a raceway of at most 600 mm (24 in) between enclosures")
			fs.StringArrayVar(&cables, "cable", nil, "`GROUP`: 22x14AWG:THHN, 4x6.1mm, 2x4.8x9.0mm; repeatable")
			formatFlag(fs, &format)
			return func(_ context.Context, args []string, io streams) (int, error) {
				if err := errors.Join(checkFormat(format), noArgs(args)); err != nil {
					return 0, usageError{err}
				}
				if trade == "" || len(cables) == 0 {
					return 0, usagef("--trade and at least one --cable are needed")
				}
				kind, err := cable.ParseRaceway(raceway)
				if err != nil {
					return 0, usageError{err}
				}
				var groups []cable.Group
				for _, c := range cables {
					g, err := cable.ParseGroup(c)
					if err != nil {
						return 0, usageError{err}
					}
					groups = append(groups, g)
				}
				f, err := cable.Pathway{Raceway: kind, Trade: cable.TradeSize(trade), Nipple: nipple}.Fill(groups...)
				if err != nil {
					var input *cable.InputError
					if errors.As(err, &input) {
						return 0, usageError{err}
					}
					return 0, err
				}
				fits := "no"
				if f.Fits {
					fits = "yes"
				}
				smallest := answer{"smallest_trade", nil, "none of the table fits"}
				if f.SmallestTrade != "" {
					smallest = answer{"smallest_trade", string(f.SmallestTrade), string(f.SmallestTrade)}
				}
				answers := []answer{
					{"fill_percent", percent(f.FillPercent), percent(f.FillPercent).String() + " %"},
					{"limit_percent", percent(f.LimitPercent), percent(f.LimitPercent).String() + " %"},
					{"basis", string(f.Basis.Force), fmt.Sprintf("%s (%s, %s)", f.Basis.Force, f.Basis.Source.Text, f.Basis.Source.Status)},
					{"fits", f.Fits, fits},
					smallest,
					{"more", f.More, fmt.Sprint(f.More)},
				}
				if f.Jam.Risk {
					answers = append(answers, answer{"jam_ratio", decimal(f.Jam.Ratio, 2), decimal(f.Jam.Ratio, 2).String() + ": three cables can wedge in a bend"})
				}
				return exitDone, writeAnswers(io.out, format, answers, f.Assumptions)
			}
		},
	}
}
