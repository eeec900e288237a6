package main

import (
	"context"
	"errors"
	"io"
	"os"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen"
	"example.com/lockrail/gen/result"
	"github.com/spf13/pflag"
)

// schedule holds the flags of every command that reads a schedule.
type schedule struct {
	edition string
	columns []string
	sheet   string
	unit    string
}

func (s *schedule) flags(fs *pflag.FlagSet, withEdition bool) {
	if withEdition {
		fs.StringVar(&s.edition, "edition", "", "judge on `EDITION`: "+editionList()+"; an annotated workbook remembers its own")
	}
	fs.StringArrayVar(&s.columns, "column", nil, "read `FIELD=HEADING` from the column so headed (FIELD= reads none); repeatable")
	fs.StringVar(&s.sheet, "sheet", "", "read the schedule on sheet `NAME`")
	fs.StringVar(&s.unit, "unit", "", "unit of bare lengths, `mm|in|ft|m|cm`, where the file does not say")
}

func editionList() string {
	var ids []string
	for _, e := range doorsched.Editions() {
		ids = append(ids, string(e.ID))
	}
	return strings.Join(ids, " or ")
}

func (s *schedule) options() (gen.Options, error) {
	o := gen.Options{Edition: doorsched.Edition(s.edition), Sheet: s.sheet, Unit: doorsched.Unit(s.unit)}
	switch o.Unit {
	case doorsched.UnitBySize, doorsched.UnitMillimetre, doorsched.UnitCentimetre, doorsched.UnitMetre, doorsched.UnitInch, doorsched.UnitFoot:
	default:
		return o, usagef("--unit %q is not mm, in, ft, m or cm", s.unit)
	}
	if o.Edition != "" {
		if _, ok := o.Edition.Info(); !ok {
			return o, usagef("--edition %q is not one that can be judged; known: %s", s.edition, editionList())
		}
	}
	for _, c := range s.columns {
		field, heading, ok := strings.Cut(c, "=")
		if !ok {
			return o, usagef("--column %q is not FIELD=HEADING", c)
		}
		info, _, known := doorsched.LookupField(field)
		if !known {
			return o, usagef("--column %q: no field %q%s", c, field, didYouMean(field, fieldNames()))
		}
		if o.Columns == nil {
			o.Columns = map[string]string{}
		}
		o.Columns[info.Name] = heading
	}
	return o, nil
}

func fieldNames() []string {
	var out []string
	for _, i := range doorsched.Fields() {
		out = append(out, i.Name)
	}
	return out
}

// load reads a whole file; "-" is standard input.
func load(name string, in io.Reader) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(in)
	}
	return os.ReadFile(name)
}

// job runs the pipeline on one file.
func (s *schedule) job(ctx context.Context, name string, in io.Reader) (*gen.Output, error) {
	o, err := s.options()
	if err != nil {
		return nil, err
	}
	data, err := load(name, in)
	if err != nil {
		return nil, err
	}
	out, err := gen.Run(ctx, name, data, o)
	return out, editionIsUsage(err)
}

// doorsFrom runs the pipeline on doors given on the command line.
func (s *schedule) doorsFrom(ctx context.Context, specs []string) (*result.Result, error) {
	o, err := s.options()
	if err != nil {
		return nil, err
	}
	var doors []doorsched.Door
	for _, spec := range specs {
		d, err := gen.ParseDoor(spec)
		if err != nil {
			return nil, usageError{err}
		}
		doors = append(doors, d)
	}
	res, err := gen.Doors(ctx, doors, o.Edition)
	return res, editionIsUsage(err)
}

// editionIsUsage: an edition that was not named is a mistake on the command line.
func editionIsUsage(err error) error {
	if errors.Is(err, gen.ErrEdition) {
		return usageError{err}
	}
	return err
}

// failOn reads --fail-on.
func failOn(word string) (doorsched.Verdict, error) {
	if word == "none" {
		return 0, nil
	}
	v, ok := doorsched.ParseVerdict(word)
	if !ok || v > doorsched.Caution {
		return 0, usagef("--fail-on %q is not conflict, approval, query, caution or none", word)
	}
	return v, nil
}

// statusOf is the exit status of a result. With limit 0 nothing fails.
func statusOf(r *result.Result, limit doorsched.Verdict) int {
	if limit != 0 && r.Worst().AtLeast(limit) {
		return exitFindings
	}
	return exitDone
}

const (
	formatText = "text"
	formatJSON = "json"
)

func formatFlag(fs *pflag.FlagSet, format *string) {
	fs.StringVar(format, "format", formatText, "write `text|json`")
}

func checkFormat(format string) error {
	if format != formatText && format != formatJSON {
		return usagef("--format %q is not text or json", format)
	}
	return nil
}
