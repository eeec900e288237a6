package annotate

import (
	"strings"

	"example.com/lockrail/doorsched"
)

func (b *book) findings(p *page) {
	for i := range b.res.Doors {
		for _, f := range b.res.Doors[i].Findings {
			p.text("door", b.res.Doors[i].Mark)
			p.verdict("severity", f.Severity)
			p.text("rule", f.Rule)
			if len(f.Cells) > 0 {
				link := p.look.body()
				link.Underline = true
				p.styled("cells", b.refs(f.Cells), link)
				p.link("cells", b.sheetOf(f.Cells[0]), f.Cells[0])
			}
			p.text("value", f.Value.String())
			p.text("limit", f.Limit.String())
			p.text("message", f.Message)
			p.text("mend", strings.Join(f.Remedies, "\n"))
			if f.Citation != (doorsched.Citation{}) {
				p.text("citation", f.Citation.String())
			}
			p.next()
		}
	}
	p.none("No findings.")
}

// refs names cells; the sheet stands with those that are not on the schedule's.
func (b *book) refs(cells []doorsched.Cell) string {
	var out []string
	for _, c := range cells {
		switch {
		case c.IsZero():
		case b.onSchedule(c):
			out = append(out, c.Ref())
		default:
			out = append(out, c.String())
		}
	}
	return strings.Join(out, ", ")
}
