package readback

import (
	"context"

	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/ooxml"
	"example.com/lockrail/gen/result"
)

// answers reads what was written on Queries, line by line. A line on which
// nothing was written is no answer.
func answers(ctx context.Context, p *ooxml.Package, o Own) ([]result.Answer, error) {
	var out []result.Answer
	lines, err := lines(ctx, p, o, layout.Queries)
	for _, l := range lines {
		a := result.Answer{
			Query: l["id"], Question: l["question"], Of: l["of"], Doors: l["marks"],
			Raised: l["raised"], To: l["to"], Due: l["due"], Text: l["answer"], By: l["by"], On: l["date"],
		}
		if a.Query != "" && a.Raised+a.To+a.Due+a.Text+a.By+a.On != "" {
			out = append(out, a)
		}
	}
	return out, err
}

func settings(ctx context.Context, p *ooxml.Package, o Own) ([]Setting, error) {
	var out []Setting
	lines, err := lines(ctx, p, o, layout.Settings)
	for _, l := range lines {
		if l["setting"] != "" {
			out = append(out, Setting{l["setting"], l["value"], l["note"]})
		}
	}
	return out, err
}

func lines(ctx context.Context, p *ooxml.Package, o Own, key string) ([]map[string]string, error) {
	title, ok := o.Sheets[key]
	if !ok {
		return nil, nil
	}
	s, _ := layout.SheetByKey(key)
	return table(ctx, p, title, s)
}
