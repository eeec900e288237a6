package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen"
	"example.com/lockrail/gen/read"
	"example.com/lockrail/gen/report"
	"github.com/spf13/pflag"
)

func columnsCommand() command {
	return command{
		name: "columns", args: "FILE", short: "Show where the schedule was found and how its columns were read",
		long: "Shows the header rows found, each column with the field it was read as and samples,\nthe rows that are no doors, and the cells that could not be read. Correct it with\n--column. With --fields it lists the table of fields instead; no FILE is needed.",
		examples: []string{
			"lockrail columns testdata/demo/marram-point-us.xlsx",
			"lockrail columns --column 'hardware_set=Sketch ref' testdata/demo/marram-point-us.xlsx",
			"lockrail columns --fields --format json",
		},
		setup: func(fs *pflag.FlagSet) action {
			var s schedule
			var format string
			var fields bool
			s.flags(fs, false)
			fs.BoolVar(&fields, "fields", false, "list every field with its unit, accepted values, scope and stage")
			formatFlag(fs, &format)
			return func(ctx context.Context, args []string, io streams) (int, error) {
				if err := checkFormat(format); err != nil {
					return 0, err
				}
				if fields {
					if len(args) > 0 {
						return 0, usagef("--fields takes no FILE")
					}
					return exitDone, writeFields(io.out, format)
				}
				if len(args) != 1 {
					return 0, usagef("name one FILE")
				}
				o, err := s.options()
				if err != nil {
					return 0, err
				}
				data, err := load(args[0], io.in)
				if err != nil {
					return 0, err
				}
				in, _, err := gen.Read(ctx, args[0], data, o)
				if err != nil {
					return 0, err
				}
				return exitDone, writeColumns(io.out, in, format)
			}
		},
	}
}

type fieldLine struct {
	Kind    string   `json:"kind"`
	Name    string   `json:"name"`
	US      string   `json:"us"`
	UK      string   `json:"uk"`
	Type    string   `json:"type"`
	Unit    string   `json:"unit"`
	Values  []string `json:"values"`
	Scope   string   `json:"scope"`
	Stage   string   `json:"stage"`
	Aliases []string `json:"aliases"`
	Help    string   `json:"help"`
}

func writeFields(w io.Writer, format string) error {
	if format == formatJSON {
		var lines []any
		for _, i := range doorsched.Fields() {
			l := fieldLine{"field", i.Name, i.US, i.UK, string(i.Kind), i.Unit, append([]string{}, i.Choices()...), string(i.Scope), string(i.Stage), []string{}, i.Help}
			for _, a := range i.Aliases {
				l.Aliases = append(l.Aliases, a.Name)
			}
			lines = append(lines, l)
		}
		return report.Lines(w, lines...)
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "FIELD\tTYPE\tUNIT\tSCOPE\tSTAGE\tVALUES")
	for _, i := range doorsched.Fields() {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n", i.Name, i.Kind, i.Unit, i.Scope, i.Stage, strings.Join(i.Choices(), " "))
	}
	return t.Flush()
}

type columnLine struct {
	Kind       string   `json:"kind"`
	Column     string   `json:"column"`
	Heading    string   `json:"heading"`
	Field      string   `json:"field,omitempty"`
	Also       []string `json:"also,omitempty"`
	Unit       string   `json:"unit,omitempty"`
	Confidence string   `json:"confidence,omitempty"`
	Samples    []string `json:"samples"`
	Note       string   `json:"note,omitempty"`
}

type tableLine struct {
	Kind     string `json:"kind"`
	File     string `json:"file"`
	Sheet    string `json:"sheet,omitempty"`
	HeadRows [2]int `json:"head_rows"`
	DataRows [2]int `json:"data_rows"`
	Doors    int    `json:"doors"`
}

type skippedLine struct {
	Kind   string `json:"kind"`
	Row    int    `json:"row"`
	Reason string `json:"reason"`
	Text   string `json:"text,omitempty"`
}

type problemLine struct {
	Kind    string `json:"kind"`
	Cell    string `json:"cell"`
	Field   string `json:"field,omitempty"`
	Value   string `json:"value"`
	Message string `json:"message"`
}

func writeColumns(w io.Writer, in *read.Result, format string) error {
	if format == formatJSON {
		lines := []any{tableLine{"table", in.Schedule.File, in.Table.Sheet, [2]int{in.Header.FirstRow, in.Header.LastRow}, [2]int{in.Table.FirstDataRow, in.Table.LastDataRow}, len(in.Schedule.Doors)}}
		for _, c := range in.Columns {
			lines = append(lines, columnLine{"column", doorsched.ColumnName(c.Col), c.Heading, fieldName(c.Field), report.Names(c.Also), c.Unit, string(c.Confidence), append([]string{}, c.Samples...), c.Note})
		}
		for _, s := range in.Skipped {
			lines = append(lines, skippedLine{"skipped", s.Row, string(s.Reason), s.Text})
		}
		for _, p := range in.Problems {
			lines = append(lines, problemLine{"problem", p.Cell.String(), fieldName(p.Field), p.Value, p.Message})
		}
		return report.Lines(w, lines...)
	}
	where := ""
	if in.Table.Sheet != "" {
		where = fmt.Sprintf("sheet %q, ", in.Table.Sheet)
	}
	fmt.Fprintf(w, "%s: %sheadings in rows %d to %d, %d doors in rows %d to %d\n\n", in.Schedule.File, where,
		in.Header.FirstRow, in.Header.LastRow, len(in.Schedule.Doors), in.Table.FirstDataRow, in.Table.LastDataRow)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "COLUMN\tHEADING\tREAD AS\tUNIT\tHOW SURE\tSAMPLES")
	for _, c := range in.Columns {
		as := fieldName(c.Field)
		if as == "" {
			as = "(not recognised)"
		}
		for _, a := range c.Also {
			as += ", " + a.String()
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\n", doorsched.ColumnName(c.Col), c.Heading, as, c.Unit, c.Confidence, strings.Join(c.Samples, " | "))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	for _, c := range in.Columns {
		if c.Note != "" {
			fmt.Fprintf(w, "column %s: %s\n", doorsched.ColumnName(c.Col), c.Note)
		}
	}
	for _, s := range in.Skipped {
		if s.Text != "" {
			fmt.Fprintf(w, "row %d is no door: %s (%s)\n", s.Row, s.Reason, s.Text)
		}
	}
	for _, p := range in.Problems {
		fmt.Fprintf(w, "%s %q: %s\n", p.Cell, p.Value, p.Message)
	}
	for _, a := range in.Assumed {
		fmt.Fprintf(w, "assumed %s = %s: %s\n", report.AssumedField(a), a.Value, a.Reason)
	}
	return nil
}

func fieldName(id doorsched.FieldID) string {
	if id == doorsched.NoField {
		return ""
	}
	return id.String()
}
