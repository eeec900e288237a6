package ooxml

import (
	"slices"
	"testing"
)

// Whatever is put stands in the order of the schema, next to anything the
// schema allows there.
func TestPlaceFollowsTheSchema(t *testing.T) {
	for _, list := range []struct {
		root  string
		order []string
	}{{"worksheet", sheetOrder}, {"workbook", workbookOrder}, {"styleSheet", styleOrder}} {
		for skip := range 3 {
			text := "<" + list.root + ` xmlns="` + nsMain + `">`
			for i, name := range list.order {
				if i%3 != skip {
					text += "<" + name + "/>"
				}
			}
			text += "</" + list.root + ">"
			o, err := readOutline("", []byte(text), nsMain, list.root)
			if err != nil {
				t.Fatal(err)
			}
			for _, name := range list.order {
				at := o.place(list.order, name)
				p, err := readOutline("", []byte(text[:at]+"<"+name+"/>"+text[at:]), nsMain, list.root)
				if err != nil {
					t.Fatal(err)
				}
				var ranks []int
				for _, k := range p.root.kids {
					ranks = append(ranks, slices.Index(list.order, k.local))
				}
				if !slices.IsSorted(ranks) {
					t.Errorf("<%s> in <%s> is out of order: %v", name, list.root, ranks)
				}
			}
		}
	}
}
