package annotate

func (b *book) cables(p *page) {
	for i := range b.res.Doors {
		for _, r := range b.res.Doors[i].Circuit.Runs {
			p.text("door", b.res.Doors[i].Mark)
			p.text("run", r.Name)
			p.text("from", r.From)
			p.text("to", r.To)
			p.text("cable", r.Cable)
			p.text("conductor", r.Conductor)
			if r.Cores > 0 {
				p.number("cores", float64(r.Cores), 0)
			}
			if r.Length > 0 {
				p.number("length", float64(r.Length), 1)
			}
			p.text("by", r.LengthBy)
			p.text("raceway", r.Raceway)
			p.text("note", r.Note)
			p.next()
		}
	}
	p.none("No runs of cable.")
}
