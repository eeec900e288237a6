package annotate

import (
	"strconv"
	"strings"

	"example.com/lockrail/gen/result"
)

func (b *book) sets(p *page) {
	for _, s := range b.res.Sets {
		by := "schedule"
		if s.Proposed {
			by = "proposed"
		}
		head := func() {
			p.text("set", s.Number)
			p.text("by", by)
		}
		doors := result.Marks(s.Doors, mostMarks)
		for _, it := range s.Set.Items {
			head()
			p.text("doors", doors)
			doors = "" // once a set
			p.number("qty", float64(it.Quantity), 0)
			p.text("unit", string(it.Unit))
			p.text("item", it.Name)
			p.text("leaf", string(it.Leaf))
			p.text("function", it.Function)
			p.text("standard", it.Standard)
			p.text("size", it.Size)
			p.text("finish", it.Finish)
			p.text("action", string(it.Action))
			why := it.Reason
			if it.QtyRule != "" {
				why = joined("\n", why, "Quantity "+strconv.Itoa(it.Quantity)+": "+it.QtyRule)
			}
			p.text("why", why)
			p.text("needs", b.fieldWords(it.Needs))
			p.next()
		}
		if note := strings.Join(s.Set.Notes, "\n"); note != "" || len(s.Set.Items) == 0 {
			head()
			p.text("doors", doors)
			p.text("item", "Note")
			p.text("why", note)
			p.text("needs", b.fieldWords(s.Set.Needs))
			p.next()
		}
	}
	p.none("No sets.")
}
