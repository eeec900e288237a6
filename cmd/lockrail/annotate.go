package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"example.com/lockrail/gen"
	"example.com/lockrail/gen/annotate"
	"example.com/lockrail/gen/report"
	"github.com/spf13/pflag"
)

func annotateCommand() command {
	return command{
		name: "annotate", args: "FILE", short: "Give the workbook back with verdicts, sets, power and questions in it",
		long: "Writes a copy of FILE with result columns right of the schedule and our sheets at\nthe end. Everything of yours stays as it was, byte for byte outside the parts that\nhad to grow. Fill in the answer columns of Queries and run it again on the copy:\nanswers are read back and kept. A CSV file gives a new workbook.",
		examples: []string{
			"lockrail annotate --edition ibc-2021 testdata/demo/marram-point-us.xlsx -o marram-point.xlsx",
			"lockrail annotate marram-point.xlsx --in-place",
		},
		setup: func(fs *pflag.FlagSet) action {
			var s schedule
			var out, fail string
			var inPlace bool
			s.flags(fs, true)
			fs.StringVarP(&out, "output", "o", "", "write to `FILE` (- is standard output); default: NAME-annotated.xlsx beside the input")
			fs.BoolVar(&inPlace, "in-place", false, "replace the input itself")
			fs.StringVar(&fail, "fail-on", "none", "exit 1 at this verdict or a worse one: `conflict|approval|query|caution|none`")
			return func(ctx context.Context, args []string, io streams) (int, error) {
				limit, err := failOn(fail)
				if err != nil {
					return 0, err
				}
				if len(args) != 1 {
					return 0, usagef("name one FILE")
				}
				target, err := annotateTarget(args[0], out, inPlace)
				if err != nil {
					return 0, err
				}
				if target == "-" && isTerminal(io.out) {
					return 0, usagef("a workbook is not for a terminal; redirect standard output or name a file with -o")
				}
				o, err := s.job(ctx, args[0], io.in)
				if err != nil {
					return 0, err
				}
				var book bytes.Buffer
				if err := annotated(ctx, o, &book); err != nil {
					return 0, fmt.Errorf("%s: %w", args[0], err)
				}
				if target == "-" {
					if _, err := io.out.Write(book.Bytes()); err != nil {
						return 0, err
					}
				} else if err := writeFile(target, book.Bytes()); err != nil {
					return 0, err
				}
				fmt.Fprintf(io.err, "%s\n", report.SummarySentence(o.Result))
				if target != "-" {
					fmt.Fprintf(io.err, "wrote %s\n", target)
				}
				return statusOf(o.Result, limit), nil
			}
		},
	}
}

func annotated(ctx context.Context, o *gen.Output, book *bytes.Buffer) error {
	if o.Package == nil {
		return annotate.FromCSV(ctx, o.Result, o.Read.Rows, book)
	}
	return annotate.Workbook(ctx, o.Package, o.Result, book)
}

// annotateTarget decides where the workbook goes; the input is only replaced
// when told.
func annotateTarget(in, out string, inPlace bool) (string, error) {
	ext := filepath.Ext(in)
	book := strings.EqualFold(ext, ".xlsx") || strings.EqualFold(ext, ".xlsm")
	switch {
	case inPlace && out != "":
		return "", usagef("--in-place and -o exclude each other")
	case inPlace && !book:
		return "", usagef("--in-place needs a workbook; %s gives a new one, name it with -o", in)
	case inPlace:
		return in, nil
	case out == "-":
		return out, nil
	case out == "" && in == "-":
		return "", usagef("standard input has no name; say where to write with -o")
	case out == "":
		if !book {
			ext = ".xlsx"
		}
		return strings.TrimSuffix(in, filepath.Ext(in)) + "-annotated" + ext, nil
	}
	a, errA := os.Stat(in)
	b, errB := os.Stat(out)
	if errA == nil && errB == nil && os.SameFile(a, b) {
		return "", usagef("-o names the input itself; say --in-place to replace it")
	}
	return out, nil
}

// writeFile writes beside the target and renames, so that the target is whole
// or untouched.
func writeFile(name string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, f.Close(), os.Remove(f.Name()))
		}
	}()
	mode := os.FileMode(0o644)
	if old, serr := os.Stat(name); serr == nil {
		mode = old.Mode().Perm()
	}
	if _, err = f.Write(data); err != nil {
		return err
	}
	if err = f.Chmod(mode); err != nil {
		return err
	}
	if err = f.Sync(); err != nil {
		return err
	}
	if cerr := f.Close(); cerr != nil {
		os.Remove(f.Name())
		return cerr
	}
	if rerr := os.Rename(f.Name(), name); rerr != nil {
		os.Remove(f.Name())
		return rerr
	}
	return nil
}

func isTerminal(w any) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	// The null device is a character device too, and no terminal.
	null, nerr := os.Stat(os.DevNull)
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && (nerr != nil || !os.SameFile(info, null))
}
