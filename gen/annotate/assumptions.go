package annotate

import (
	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/result"
)

func (b *book) assumptions(p *page) {
	for _, a := range b.res.Assumptions {
		what := a.What
		if i, ok := doorsched.FieldInfo(a.Field); ok {
			what = i.Words(b.res.Edition.Region)
		}
		p.text("what", what)
		p.text("value", a.Value)
		p.text("reason", a.Reason)
		p.text("by", a.By)
		if len(a.Doors) > 0 {
			p.number("count", float64(len(a.Doors)), 0)
		}
		p.text("marks", result.Marks(a.Doors, mostMarks))
		p.next()
	}
	p.none("Nothing was assumed.")
}
