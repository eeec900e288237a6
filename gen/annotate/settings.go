package annotate

import (
	"fmt"
	"slices"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/gen/layout"
	"example.com/lockrail/gen/readback"
)

// editionRow is where the edition stands on Settings: the formulas beside the
// schedule look there.
const editionRow = layout.FirstRow

func settingsColumn(key string) int {
	s, _ := layout.SheetByKey(layout.Settings)
	return s.Column(key)
}

// settings writes the edition, one line for each field that a heading was
// recognised as, and every other line that a person added. Values of the user's
// are kept; an empty one leaves the heading to be recognised.
func (b *book) settings(p *page) {
	kept := map[string]string{}
	for _, s := range b.own.Settings {
		kept[s.Name] = s.Value
	}
	line := func(s readback.Setting) {
		p.text("setting", s.Name)
		p.user("value", s.Value)
		p.text("note", s.Note)
		p.next()
	}
	var editions []string
	for _, e := range doorsched.Editions() {
		editions = append(editions, string(e.ID))
	}
	p.choose("value", editions)
	line(readback.Setting{Name: readback.SettingEdition, Value: string(b.res.Edition.ID), Note: "The edition that doors are judged on when none is named: " + b.res.Edition.Title + "."})

	known := []string{readback.SettingEdition}
	for _, h := range b.res.Headings {
		i, ok := doorsched.FieldInfo(h.Field)
		if name := readback.SettingColumn + i.Name; ok && !slices.Contains(known, name) {
			known = append(known, name)
			line(readback.Setting{Name: name, Value: kept[name], Note: fmt.Sprintf("%s: read from column %s, %s.",
				i.Words(b.res.Edition.Region), doorsched.ColumnName(h.Col), oneLine(h.Heading))})
		}
	}
	for _, s := range b.own.Settings {
		if !slices.Contains(known, s.Name) {
			known = append(known, s.Name)
			if s.Value != "" || len(s.Name) < len(readback.SettingColumn) || s.Name[:len(readback.SettingColumn)] != readback.SettingColumn {
				line(s)
			}
		}
	}
}
