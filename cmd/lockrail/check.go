package main

import (
	"context"
	"fmt"
	"io"

	"example.com/lockrail/gen/report"
	"example.com/lockrail/gen/result"
	"github.com/spf13/pflag"
)

func checkCommand() command {
	return command{
		name: "check", args: "FILE ...", short: "Judge the doors of a schedule, or doors described on the command line",
		long: "Reads each FILE (.xlsx, .xlsm, .csv; - is standard input) and judges every door on\nthe edition: what conflicts, under which clause, what would mend it; what was not\njudged and for want of which field; and the questions that would settle most doors.\nThe format json is documented in docs/json.md.",
		examples: []string{
			"lockrail check --edition ibc-2021 testdata/demo/marram-point-us.xlsx",
			"lockrail check --edition england-2019 --format json testdata/demo/marram-point-uk.xlsx",
			"lockrail check --edition ibc-2021 --door 'mark=101; fire_rating=90; lock=electric_strike; fail=safe'",
		},
		setup: func(fs *pflag.FlagSet) action {
			var s schedule
			var doors []string
			var format, fail string
			s.flags(fs, true)
			fs.StringArrayVar(&doors, "door", nil, "judge one door given as `'FIELD=VALUE; ...'`; repeatable")
			formatFlag(fs, &format)
			fs.StringVar(&fail, "fail-on", "conflict", "exit 1 at this verdict or a worse one: `conflict|approval|query|caution|none`")
			return func(ctx context.Context, args []string, io streams) (int, error) {
				if err := checkFormat(format); err != nil {
					return 0, err
				}
				limit, err := failOn(fail)
				if err != nil {
					return 0, err
				}
				if len(args) == 0 && len(doors) == 0 {
					return 0, usagef("name a FILE or give a --door")
				}
				status := exitDone
				show := func(r *result.Result) error {
					status = max(status, statusOf(r, limit))
					return writeReport(io.out, r, format)
				}
				if len(doors) > 0 {
					r, err := s.doorsFrom(ctx, doors)
					if err != nil {
						return 0, err
					}
					if err := show(r); err != nil {
						return 0, err
					}
				}
				// Every file is tried; the worst status wins.
				for _, name := range args {
					out, err := s.job(ctx, name, io.in)
					if _, usage := err.(usageError); usage {
						return 0, err
					}
					if err != nil {
						fmt.Fprintf(io.err, "lockrail check: %v\n", err)
						status = exitFailed
						continue
					}
					if err := show(out.Result); err != nil {
						return 0, err
					}
				}
				return status, nil
			}
		},
	}
}

func writeReport(w io.Writer, r *result.Result, format string) error {
	if format == formatJSON {
		return report.JSONLines(w, r)
	}
	return report.Text(w, r, 100)
}
