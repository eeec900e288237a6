package gen

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/read"
	"example.com/lockrail/gen/readback"
	"example.com/lockrail/gen/result"
)

// Options settles what the file leaves open.
type Options struct {
	// Edition the doors are judged on. Where it is empty the workbook's own
	// Settings sheet decides; there is no other default.
	Edition doorsched.Edition
	// Columns, Sheet and Unit correct how the schedule is read; see read.Options.
	Columns map[string]string
	Sheet   string
	Unit    doorsched.Unit
}

// ErrEdition is wrapped where no edition is named, or one that cannot be judged.
var ErrEdition = errors.New("edition")

// Output is a result with what a writer of the same file needs.
type Output struct {
	*result.Result
	Read    *read.Result
	Package *ooxml.Package // nil for CSV
}

// Run reads a schedule and does the whole job on it. name is the file as the
// user gave it; data is its content. Errors are read's, ooxml's, or wrap ErrEdition.
func Run(ctx context.Context, name string, data []byte, o Options) (*Output, error) {
	if o.Edition != "" {
		if _, err := edition(o.Edition); err != nil {
			return nil, err
		}
	}
	in, own, err := Read(ctx, name, data, o)
	if err != nil {
		return nil, err
	}
	if o.Edition == "" {
		o.Edition = doorsched.Edition(own.Setting(readback.SettingEdition))
	}
	info, err := edition(o.Edition)
	if err != nil {
		return nil, err
	}
	res, answers, err := judgeWithAnswers(ctx, in.Schedule, info, in.Problems, own.Answers)
	if err != nil {
		return nil, err
	}
	res.File, res.Answers = name, answers
	res.Place = placeOf(in)
	for _, c := range in.Columns {
		res.Headings = append(res.Headings, result.Heading{Col: c.Col, Heading: c.Heading, Field: c.Field})
	}
	res.Assumptions = mergeAssumptions(append(slices.Clone(in.Assumed), res.Assumptions...), order(in.Schedule))
	return &Output{Result: res, Read: in, Package: in.Package}, nil
}

// judgeWithAnswers judges, puts in the answers to what is asked, and judges again
// until no answer is left to put in.
func judgeWithAnswers(ctx context.Context, s *doorsched.Schedule, info doorsched.EditionInfo, problems []read.Problem, answers []result.Answer) (*result.Result, []result.Answer, error) {
	answers = slices.Clone(answers)
	asked := map[string]doorsched.Query{}
	for round := 0; ; round++ {
		res, err := judge(ctx, s, info, problems)
		if err != nil {
			return nil, nil, err
		}
		for _, q := range res.Queries {
			asked[q.ID] = q
		}
		if round == mostRounds || !answerQueries(s, res.Queries, answers) {
			res.Assumptions = append(res.Assumptions, unsigned(answers, asked)...)
			return res, answers, nil
		}
	}
}

// Doors does the whole job on doors that were not read from a file.
func Doors(ctx context.Context, doors []doorsched.Door, e doorsched.Edition) (*result.Result, error) {
	info, err := edition(e)
	if err != nil {
		return nil, err
	}
	s := &doorsched.Schedule{Doors: doors}
	res, err := judge(ctx, s, info, nil)
	if err != nil {
		return nil, err
	}
	res.Assumptions = mergeAssumptions(res.Assumptions, order(s))
	return res, nil
}

// Read only reads the schedule, and what an earlier run of ours and the user
// left in the workbook.
func Read(ctx context.Context, name string, data []byte, o Options) (*read.Result, readback.Own, error) {
	in, own, err := readOnce(ctx, name, data, o, o.Columns)
	columns := own.ColumnMap()
	if len(columns) == 0 {
		return in, own, err
	}
	// The workbook's Settings name headings; the caller's word goes before theirs.
	maps.Copy(columns, o.Columns)
	return readOnce(ctx, name, data, o, columns)
}

func readOnce(ctx context.Context, name string, data []byte, o Options, columns map[string]string) (*read.Result, readback.Own, error) {
	var own readback.Own
	var ownErr error
	in, err := read.Bytes(ctx, name, data, read.Options{
		Columns: columns, Sheet: o.Sheet, Unit: o.Unit,
		Ours: func(p *ooxml.Package) read.Ours {
			own, ownErr = readback.Read(ctx, p)
			return own.Ours()
		},
	})
	if ownErr != nil {
		return nil, own, fmt.Errorf("%s: %w", name, ownErr)
	}
	return in, own, err
}

func edition(e doorsched.Edition) (doorsched.EditionInfo, error) {
	info, ok := e.Info()
	if ok {
		return info, nil
	}
	list := ""
	for _, i := range doorsched.Editions() {
		list += "\n  " + string(i.ID) + "  " + i.Title
	}
	if e == "" {
		return info, fmt.Errorf("%w: none named; say on which the doors are to be judged:%s", ErrEdition, list)
	}
	return info, fmt.Errorf("%w: %q is not one that can be judged; known:%s", ErrEdition, e, list)
}

func placeOf(in *read.Result) result.Place {
	return result.Place{
		Sheet: in.Table.Sheet, HeadFirst: in.Header.FirstRow, HeadLast: in.Header.LastRow,
		FirstRow: in.Table.FirstDataRow, LastRow: in.Table.LastDataRow, MarkCol: in.Table.MarkCol, RightEdge: in.Table.LastUsedCol,
	}
}

// order gives each mark its place in the schedule.
func order(s *doorsched.Schedule) map[string]int {
	out := make(map[string]int, len(s.Doors))
	for i := range s.Doors {
		if _, seen := out[s.Doors[i].Mark]; !seen {
			out[s.Doors[i].Mark] = i
		}
	}
	return out
}
