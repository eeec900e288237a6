package ooxml

import (
	"slices"
	"strconv"
	"strings"
)

// workbookOrder is the order of the children of <workbook> (ECMA-376 part 1, 18.2.27).
var workbookOrder = []string{
	"fileVersion", "fileSharing", "workbookPr", "workbookProtection", "bookViews", "sheets", "functionGroups", "externalReferences",
	"definedNames", "calcPr", "oleSize", "customWorkbookViews", "pivotCaches", "smartTagPr", "smartTagTypes", "webPublishing",
	"fileRecoveryPr", "webPublishObjects", "extLst",
}

// workbook splices the workbook part: sheets, names, views, calculation.
func (t *patcher) workbook() error {
	e := &partEdit{base: t.p.workbook}
	o, err := readOutline(t.p.workbookPart, e.base, nsMain, "workbook")
	if err != nil {
		return err
	}
	t.edits[strings.ToLower(t.p.workbookPart)] = e
	e.splices = t.sheetList(o)
	e.splices = append(e.splices, t.views(o)...)
	names, err := t.definedNames(o)
	if err != nil {
		return err
	}
	e.splices = append(e.splices, names...)
	if t.plan.RecalculateOnOpen {
		if pr := o.child("calcPr"); pr == nil {
			at := o.place(workbookOrder, "calcPr")
			e.splices = append(e.splices, splice{at, at, "<" + o.prefix + `calcPr fullCalcOnLoad="1"/>`})
		} else if !pr.flag("fullCalcOnLoad") {
			e.splices = append(e.splices, o.setAttr(pr, "fullCalcOnLoad", "1")...)
		}
	}
	return nil
}

func (t *patcher) sheetList(o *outline) []splice {
	var out []splice
	list := o.child("sheets")
	for i := range list.kids {
		if k := &list.kids[i]; k.local == "sheet" && t.gone[strings.ToLower(k.get("name"))] {
			out = append(out, splice{k.start, k.end, ""})
		}
	}
	rel, declare := o.rel, ""
	if rel == "" {
		rel, declare = "r:", ` xmlns:r="`+nsDocRels+`"`
	}
	text := ""
	for _, s := range t.newSheets {
		state := ""
		if s.State == Hidden || s.State == VeryHidden {
			state = ` state="` + string(s.State) + `"`
		}
		text += "<" + o.prefix + `sheet` + declare + ` name="` + escapeXML(s.Name) + `" sheetId="` + itoa(s.SheetID) + `"` + state + " " + rel + `id="` + s.RelID + `"/>`
	}
	if text != "" {
		out = append(out, o.insert(list, list.close, text))
	}
	return out
}

// newIndex maps a sheet's old place to its new one, -1 for a removed sheet.
func (t *patcher) newIndex(old int) int {
	if old < 0 || old >= len(t.p.sheets) || t.gone[strings.ToLower(t.p.sheets[old].Name)] {
		return -1
	}
	n := old
	for i := range old {
		if t.gone[strings.ToLower(t.p.sheets[i].Name)] {
			n--
		}
	}
	return n
}

// views keeps the active tab on the sheet it was on, or moves it to the first
// visible one if that is removed.
func (t *patcher) views(o *outline) []splice {
	list := o.child("bookViews")
	if list == nil || len(t.gone) == 0 {
		return nil
	}
	first := slices.IndexFunc(t.sheets, func(s SheetInfo) bool { return s.State != Hidden && s.State != VeryHidden })
	var out []splice
	for i := range list.kids {
		for _, name := range []string{"activeTab", "firstSheet"} {
			k := &list.kids[i]
			old, _ := strconv.Atoi(k.get(name))
			n := t.newIndex(old)
			if n < 0 {
				n = first
			}
			if n != old {
				out = append(out, o.setAttr(k, name, itoa(n))...)
			}
		}
	}
	return out
}

func (t *patcher) definedNames(o *outline) ([]splice, error) {
	type key struct{ name, sheet string }
	keyOf := func(n *DefinedName) key { return key{strings.ToLower(n.Name), strings.ToLower(n.Sheet)} }
	set, drop := map[key]*DefinedName{}, map[key]bool{}
	var order []key
	for _, n := range append(append([]DefinedName(nil), t.plan.SetNames...), t.names...) {
		if err := t.checkName(&n); err != nil {
			return nil, err
		}
		if _, dup := set[keyOf(&n)]; dup {
			return nil, &Error{Kind: BadPlan, Sheet: n.Sheet, Value: n.Name, Msg: "the plan sets the name twice"}
		}
		set[keyOf(&n)] = &n
		order = append(order, keyOf(&n))
	}
	for _, n := range append(append([]DefinedName(nil), t.plan.DropNames...), t.drop...) {
		drop[keyOf(&n)] = true
	}

	list := o.child("definedNames")
	var out []splice
	left := 0
	if list != nil {
		for i := range list.kids {
			k := &list.kids[i]
			if k.local != "definedName" {
				continue
			}
			old := DefinedName{Name: k.get("name"), Hidden: k.flag("hidden"), Comment: k.get("comment")}
			var err error
			if old.Formula, err = o.text(k); err != nil {
				return nil, err
			}
			local := k.get("localSheetId")
			at := -1
			if n, err := strconv.Atoi(local); err == nil && n >= 0 && n < len(t.p.sheets) {
				old.Sheet = t.p.sheets[n].Name
				if at = t.newIndex(n); at < 0 {
					out = append(out, splice{k.start, k.end, ""})
					continue
				}
			} else if local != "" {
				left++ // a leftover of a deleted sheet is not ours
				continue
			}
			want := set[keyOf(&old)]
			delete(set, keyOf(&old))
			switch {
			case want == nil && drop[keyOf(&old)]:
				out = append(out, splice{k.start, k.end, ""})
				continue
			case want != nil && (want.Formula != old.Formula || want.Hidden != old.Hidden || want.Comment != old.Comment):
				want.Name = old.Name // in the case it is known by
				out = append(out, splice{k.start, k.end, t.nameXML(o, want)})
			case local != "" && itoa(at) != local:
				out = append(out, o.setAttr(k, "localSheetId", itoa(at))...)
			}
			left++
		}
	}
	text := ""
	for _, k := range order {
		if n := set[k]; n != nil {
			text += t.nameXML(o, n)
		}
	}
	switch {
	case list == nil && text != "":
		at := o.place(workbookOrder, "definedNames")
		out = append(out, splice{at, at, "<" + o.prefix + "definedNames>" + text + "</" + o.prefix + "definedNames>"})
	case list != nil && text != "":
		out = append(out, o.insert(list, list.close, text))
	case list != nil && left == 0 && len(list.kids) > 0:
		// The schema does not allow an empty list.
		out = []splice{{list.start, list.end, ""}}
	}
	return out, nil
}

func (t *patcher) checkName(n *DefinedName) error {
	bad := func(msg string) error { return &Error{Kind: BadPlan, Sheet: n.Sheet, Value: n.Name, Msg: msg} }
	switch {
	case n.Name == "" || utf16Len(n.Name) > 255 || strings.ContainsAny(n.Name, " \t\r\n!'\"()+-*/^&=<>,;:{}[]@#"):
		return bad("not a defined name")
	case n.Formula == "" || n.Formula[0] == '=' || utf16Len(n.Formula) > 8192:
		return bad("a defined name needs a formula without leading =")
	case looksLikeReference(n.Name):
		return bad("the name reads like a cell")
	case n.Sheet != "" && t.sheetAt(n.Sheet) < 0:
		return bad("the sheet it is local to is not there")
	}
	return nil
}

// sheetAt gives a sheet's place as it will be, -1 if there is none.
func (t *patcher) sheetAt(name string) int {
	return slices.IndexFunc(t.sheets, func(s SheetInfo) bool { return strings.EqualFold(s.Name, name) })
}

func (t *patcher) nameXML(o *outline, n *DefinedName) string {
	s := "<" + o.prefix + `definedName name="` + escapeXML(n.Name) + `"`
	if n.Comment != "" {
		s += ` comment="` + escapeXML(n.Comment) + `"`
	}
	if n.Sheet != "" {
		s += ` localSheetId="` + itoa(t.sheetAt(n.Sheet)) + `"`
	}
	if n.Hidden {
		s += ` hidden="1"`
	}
	return s + ">" + escapeXML(n.Formula) + "</" + o.prefix + "definedName>"
}

// calcChain takes cells that are no formulas any more out of the calculation
// chain: a chain that names such a cell counts as damage, one that lacks a
// formula does not.
func (t *patcher) calcChain() error {
	part := t.p.related(relCalcChain)
	lost := len(t.goneSheetIDs) > 0
	gone := map[int]map[Ref]bool{}
	for id, refs := range t.goneFormulas {
		gone[id] = map[Ref]bool{}
		for _, r := range refs {
			gone[id][r] = true
			lost = true
		}
	}
	if part == "" || !lost {
		return nil
	}
	e, err := t.partOf(part)
	if err != nil {
		return err
	}
	o, err := readOutline(part, e.base, nsMain, "calcChain")
	if err != nil {
		return err
	}
	// An entry without sheet id has that of the entry before, so the id is
	// written out where the entry it came from goes.
	id, written, left := 0, 0, 0
	for i := range o.root.kids {
		k := &o.root.kids[i]
		explicit := k.get("i") != ""
		if explicit {
			id, _ = strconv.Atoi(k.get("i"))
		}
		row, col, _ := ParseCell(k.get("r"))
		if t.goneSheetIDs[id] || gone[id][Ref{row, col}] {
			e.splices = append(e.splices, splice{k.start, k.end, ""})
			continue
		}
		if !explicit && id != written {
			e.splices = append(e.splices, o.setAttr(k, "i", itoa(id))...)
		}
		written = id
		left++
	}
	if left > 0 {
		return nil
	}
	t.removePart(part)
	for _, r := range t.p.rels {
		if r.kind == relCalcChain {
			t.goneRels = append(t.goneRels, r.id)
		}
	}
	return nil
}
