package annotate

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/readback"
	"example.com/lockrail/gen/result"
)

// Workbook writes the package with the result in it to w. r.Place says where the
// schedule stands in p. Errors are those of ooxml, ctx and w, or say that the
// schedule has no room at its right; nothing is written before the whole
// workbook is known to be good.
func Workbook(ctx context.Context, p *ooxml.Package, r *result.Result, w io.Writer) error {
	own, err := readback.Read(ctx, p)
	if err != nil {
		return err
	}
	sheet, err := p.Scan(ctx, r.Place.Sheet)
	if err != nil {
		return err
	}
	plan := &ooxml.Plan{RecalculateOnOpen: true}
	b := &book{
		ctx: ctx, pkg: p, res: r, own: own, schedule: sheet,
		look: look{plan}, plan: plan, region: string(r.Edition.Region),
	}
	for _, m := range sheet.Merges {
		if m.R2 >= r.Place.FirstRow {
			b.merges = append(b.merges, m)
		}
	}
	b.nameSheets()
	if err := b.results(); err != nil {
		return err
	}
	if err := b.sheets(); err != nil {
		return err
	}
	_, err = ooxml.Patch(ctx, p, plan, w)
	return err
}

// book is one workbook while its plan is made.
type book struct {
	ctx      context.Context
	pkg      *ooxml.Package
	res      *result.Result
	own      readback.Own
	schedule *ooxml.Sheet
	merges   []ooxml.Range // that reach into the rows of the doors
	plan     *ooxml.Plan
	look     look
	region   string
	titles   map[string]string // of our sheets, by key

	firstColumn int // of the result columns
}

// nameSheets settles the title of every sheet of ours: the one it has, else
// ours, else ours with a number where the user has a sheet so called.
func (b *book) nameSheets() {
	b.titles = map[string]string{}
	taken := map[string]bool{}
	for _, s := range b.pkg.Sheets() {
		taken[strings.ToLower(s.Name)] = true
	}
	for _, s := range layout.Sheets() {
		title, ours := b.own.Sheets[s.Key]
		for n := 1; !ours && (n == 1 || taken[strings.ToLower(title)]); n++ {
			title = s.Title.In(b.region)
			if n > 1 {
				title = fmt.Sprintf("%s %d", title, n)
			}
		}
		b.titles[s.Key] = title
	}
}

// sheets plans our sheets and the names that mark them.
func (b *book) sheets() error {
	fill := map[string]func(*page){
		layout.Summary: b.summary, layout.Findings: b.findings, layout.Queries: b.queries, layout.Sets: b.sets,
		layout.Power: b.power, layout.Cables: b.cables, layout.Assumptions: b.assumptions, layout.Settings: b.settings,
	}
	for _, s := range layout.Sheets() {
		if err := b.ctx.Err(); err != nil {
			return err
		}
		write, ok := fill[s.Key]
		if !ok {
			continue
		}
		pg := newPage(s, b.look, b.region)
		write(pg)
		title := b.titles[s.Key]
		put := pg.put(title)
		_, put.Replace = b.own.Sheets[s.Key]
		b.plan.Put = append(b.plan.Put, put)
		b.plan.SetNames = append(b.plan.SetNames, ooxml.DefinedName{
			Name: layout.SheetName(s.Key), Formula: ooxml.QuoteSheet(title) + "!$A$1", Hidden: true,
		})
	}
	return nil
}

// sheetOf gives the sheet of a cell; a result read from CSV names none.
func (b *book) sheetOf(c doorsched.Cell) string {
	if c.Sheet == "" {
		return b.schedule.Info.Name
	}
	return c.Sheet
}

// onSchedule reports whether a cell stands on the schedule's sheet.
func (b *book) onSchedule(c doorsched.Cell) bool {
	return !c.IsZero() && strings.EqualFold(b.sheetOf(c), b.schedule.Info.Name)
}

// fieldWords gives the fields' names in the region's words.
func (b *book) fieldWords(ids []doorsched.FieldID) string {
	var out []string
	for _, id := range ids {
		if i, ok := doorsched.FieldInfo(id); ok {
			out = append(out, i.Words(b.res.Edition.Region))
		}
	}
	return strings.Join(slices.Compact(out), ", ")
}
