package ooxml

import (
	"archive/zip"
	"context"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Changes names the entries that [Patch] wrote anew; all others are the very
// bytes of the input.
type Changes struct {
	Changed, Added, Removed []string
}

// None reports that the output is the input, entry for entry.
func (c Changes) None() bool { return len(c.Changed)+len(c.Added)+len(c.Removed) == 0 }

// partEdit is what happens to one entry: splices into base, or all new text.
type partEdit struct {
	base    []byte
	splices []splice
	text    string
	whole   bool
	gone    bool
}

func (e *partEdit) changed() bool {
	if e.whole {
		return e.text != string(e.base)
	}
	return changes(e.base, e.splices)
}

// patcher collects the edits of all parts before a byte is written.
type patcher struct {
	ctx  context.Context
	p    *Package
	plan *Plan
	f    formats

	edits map[string]*partEdit // by lower-case name
	added []addedPart

	sheets       []SheetInfo // as they will be
	newSheets    []SheetInfo
	gone         map[string]bool // lower-case titles of removed sheets
	names        []DefinedName   // to set
	drop         []DefinedName
	rels         []relationship // to add to the workbook part
	goneRels     []string
	goneFormulas map[int][]Ref // by sheet id
	goneSheetIDs map[int]bool
}

type addedPart struct{ name, contentType, text string }

// Patch writes the package with the plan carried out to w. Entries that do not
// change are copied as compressed bytes with their header, in their order;
// changed ones keep their place and new ones go at the end. The output depends
// on the input and the plan alone. Nothing is written before the whole plan is
// known to be good; errors are [*Error], or those of ctx and w.
func Patch(ctx context.Context, p *Package, plan *Plan, w io.Writer) (Changes, error) {
	t := &patcher{
		ctx: ctx, p: p, plan: plan, edits: map[string]*partEdit{}, gone: map[string]bool{},
		sheets: p.Sheets(), goneFormulas: map[int][]Ref{}, goneSheetIDs: map[int]bool{},
	}
	steps := []func() error{t.checkTargets, t.styles, t.edit, t.put, t.remove, t.workbook, t.calcChain, t.relations, t.contentTypes}
	for _, step := range steps {
		if err := ctx.Err(); err != nil {
			return Changes{}, err
		}
		if err := step(); err != nil {
			return Changes{}, err
		}
	}
	return t.write(w)
}

func (t *patcher) fail(kind Kind, sheet, msg string) error {
	return &Error{Kind: kind, Sheet: sheet, Msg: msg}
}

// checkTargets makes sure that one sheet is touched in one way.
func (t *patcher) checkTargets() error {
	seen := map[string]bool{}
	touch := func(name string) error {
		key := strings.ToLower(name)
		if seen[key] {
			return t.fail(BadPlan, name, "the plan names the sheet twice")
		}
		seen[key] = true
		return nil
	}
	for _, e := range t.plan.Edits {
		if err := touch(e.Sheet); err != nil {
			return err
		}
	}
	for i := range t.plan.Put {
		s := &t.plan.Put[i]
		if err := touch(s.Name); err != nil {
			return err
		}
		if err := CheckSheetName(s.Name); err != nil && !s.Replace {
			return err
		}
	}
	for _, name := range t.plan.Remove {
		if err := touch(name); err != nil {
			return err
		}
	}
	return nil
}

// partOf gives the edit of an entry, with its bytes read.
func (t *patcher) partOf(name string) (*partEdit, error) {
	key := strings.ToLower(name)
	if e := t.edits[key]; e != nil {
		return e, nil
	}
	b, err := t.p.ReadPart(t.ctx, name)
	if err != nil {
		return nil, err
	}
	e := &partEdit{base: b}
	t.edits[key] = e
	return e, nil
}

func (t *patcher) removePart(name string) {
	t.edits[strings.ToLower(name)] = &partEdit{gone: true}
}

func (t *patcher) styles() error {
	if len(t.plan.styles)+len(t.plan.diffs) == 0 {
		return nil
	}
	part, raw := t.p.styles.part, t.p.styles.raw
	if part == "" {
		raw = []byte(emptyStyles)
	}
	e, err := newStyleEditor(part, raw)
	if err != nil {
		return err
	}
	for i := range t.plan.styles {
		id, err := e.style(&t.plan.styles[i])
		if err != nil {
			return err
		}
		t.f.styles = append(t.f.styles, id)
	}
	for i := range t.plan.diffs {
		id, err := e.diff(&t.plan.diffs[i])
		if err != nil {
			return err
		}
		t.f.diffs = append(t.f.diffs, id)
	}
	splices := e.splices()
	if part != "" {
		t.edits[strings.ToLower(part)] = &partEdit{base: raw, splices: splices}
		return nil
	}
	var b strings.Builder
	if err := applySplices(&b, raw, splices); err != nil {
		return err
	}
	t.addPart(t.freePart("styles", ""), typeStyles, relBase+relStyles, b.String())
	return nil
}

// Content types and relationship types of the parts we add.
const (
	typeStyles    = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
	typeWorksheet = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
	relBase       = nsDocRels + "/"
)

// freePart gives a name beside the workbook part that no entry has.
func (t *patcher) freePart(stem, number string) string {
	dir := path.Dir(t.p.workbookPart)
	for n := 1; ; n++ {
		name := path.Join(dir, stem+number+".xml")
		taken := t.p.has(name) || slices.ContainsFunc(t.added, func(a addedPart) bool { return strings.EqualFold(a.name, name) })
		if !taken {
			return name
		}
		number = strconv.Itoa(n)
	}
}

// addPart adds an entry that the workbook part points to.
func (t *patcher) addPart(name, contentType, relType, text string) {
	t.added = append(t.added, addedPart{name, contentType, text})
	rel := relationship{id: t.freeRel(), kind: relType, target: "/" + name}
	if dir := path.Dir(t.p.workbookPart); dir == "." {
		rel.target = name
	} else if strings.HasPrefix(name, dir+"/") {
		rel.target = strings.TrimPrefix(name, dir+"/")
	}
	t.rels = append(t.rels, rel)
}

func (t *patcher) freeRel() string {
	most := 0
	for _, list := range [][]relationship{t.p.rels, t.rels} {
		for _, r := range list {
			if n, err := strconv.Atoi(strings.TrimPrefix(strings.ToLower(r.id), "rid")); err == nil {
				most = max(most, n)
			}
		}
	}
	for {
		most++
		id := "rId" + strconv.Itoa(most)
		taken := func(r relationship) bool { return strings.EqualFold(r.id, id) }
		if !slices.ContainsFunc(t.p.rels, taken) && !slices.ContainsFunc(t.rels, taken) {
			return id
		}
	}
}

func (t *patcher) edit() error {
	for i := range t.plan.Edits {
		e := &t.plan.Edits[i]
		sheet, b, err := t.p.scan(t.ctx, e.Sheet, true)
		if err != nil {
			return err
		}
		cells, err := sortCells(sheet.Info.Name, e.Cells, t.f)
		if err != nil {
			return err
		}
		s := sheetPatch{b: b, sheet: sheet, lay: &sheet.layout, edit: e, cells: cells, f: t.f}
		if err := s.run(); err != nil {
			return err
		}
		t.edits[strings.ToLower(sheet.Info.Part)] = &partEdit{base: b, splices: s.out}
		id := sheet.Info.SheetID
		t.goneFormulas[id] = append(t.goneFormulas[id], s.goneFormulas...)
	}
	return nil
}

func (t *patcher) put() error {
	for i := range t.plan.Put {
		s := &t.plan.Put[i]
		var err error
		if s.Replace {
			err = t.replace(s)
		} else {
			err = t.add(s)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (t *patcher) replace(s *PutSheet) error {
	old, b, err := t.p.scan(t.ctx, s.Name, false)
	if err != nil {
		return err
	}
	put := *s
	put.Name = old.Info.Name
	text, err := replacedSheetXML(&put, b, &old.layout, t.f)
	if err != nil {
		return err
	}
	t.edits[strings.ToLower(old.Info.Part)] = &partEdit{base: b, text: text, whole: true}
	formulas := map[Ref]bool{}
	for _, c := range s.Cells {
		if c.kind == CellFormulaString {
			formulas[Ref{c.Row, c.Col}] = true
		}
	}
	id := old.Info.SheetID
	for _, c := range old.Cells {
		if r := (Ref{c.Row, c.Col}); c.HasFormula && !formulas[r] {
			t.goneFormulas[id] = append(t.goneFormulas[id], r)
		}
	}
	for _, name := range []string{nameFilter, namePrintArea, namePrintTitles} {
		t.drop = append(t.drop, DefinedName{Name: name, Sheet: put.Name})
	}
	t.names = append(t.names, put.localNames()...)
	return nil
}

func (t *patcher) add(s *PutSheet) error {
	text, err := newSheetXML(s, t.f)
	if err != nil {
		return err
	}
	t.names = append(t.names, s.localNames()...)
	if old, ok := t.p.SheetByName(s.Name); ok {
		if old.Type == Worksheet {
			b, err := t.p.ReadPart(t.ctx, old.Part)
			if err != nil {
				return err
			}
			if string(b) == text {
				return nil
			}
		}
		return t.fail(NameTaken, old.Name, "take another name, or replace it if it is ours")
	}
	switch s.State {
	case "", Visible, Hidden, VeryHidden:
	default:
		return t.fail(BadPlan, s.Name, "a sheet is visible, hidden or veryHidden")
	}
	part := t.freePart("worksheets/sheet", strconv.Itoa(len(t.p.sheets)+len(t.newSheets)+1))
	t.addPart(part, typeWorksheet, relBase+relWorksheet, text)
	info := SheetInfo{Name: s.Name, State: s.State, Type: Worksheet, Part: part, RelID: t.rels[len(t.rels)-1].id}
	for _, o := range append(t.p.Sheets(), t.newSheets...) {
		info.SheetID = max(info.SheetID, o.SheetID)
	}
	info.SheetID++
	t.newSheets = append(t.newSheets, info)
	t.sheets = append(t.sheets, info)
	return nil
}

// remove takes sheets of ours out, with the parts that only they point to. A
// sheet that is not there is gone already.
func (t *patcher) remove() error {
	for _, name := range t.plan.Remove {
		info, ok := t.p.SheetByName(name)
		if !ok {
			continue
		}
		t.gone[strings.ToLower(info.Name)] = true
		t.goneSheetIDs[info.SheetID] = true
		if info.Part == "" {
			continue
		}
		t.goneRels = append(t.goneRels, info.RelID)
		if err := t.removeTree(info.Part); err != nil {
			return err
		}
	}
	t.sheets = slices.DeleteFunc(t.sheets, func(s SheetInfo) bool { return t.gone[strings.ToLower(s.Name)] })
	if !slices.ContainsFunc(t.sheets, func(s SheetInfo) bool { return s.State != Hidden && s.State != VeryHidden }) {
		return t.fail(BadPlan, "", "no visible sheet would be left")
	}
	return nil
}

// removeTree removes a part and, in turn, the parts that nothing else points to.
func (t *patcher) removeTree(part string) error {
	rels, err := t.p.relsOf(t.ctx, part)
	if err != nil {
		return err
	}
	t.removePart(part)
	if t.p.has(relsPart(part)) {
		t.removePart(relsPart(part))
	}
	for _, r := range rels {
		target := t.p.resolve(part, r)
		if r.external || !t.p.has(target) || t.isGone(target) {
			continue
		}
		used, err := t.pointedTo(target)
		if err != nil {
			return err
		}
		if used {
			continue
		}
		if err := t.removeTree(target); err != nil {
			return err
		}
	}
	return nil
}

func (t *patcher) isGone(part string) bool {
	e := t.edits[strings.ToLower(part)]
	return e != nil && e.gone
}

// pointedTo reports whether a part that stays has a relationship to the target.
func (t *patcher) pointedTo(target string) (bool, error) {
	for _, name := range t.p.Parts() {
		dir, file := path.Split(name)
		if path.Base(dir) != "_rels" || t.isGone(name) {
			continue
		}
		source := path.Join(path.Dir(path.Clean(dir)), strings.TrimSuffix(file, ".rels"))
		b, err := t.p.ReadPart(t.ctx, name)
		if err != nil {
			return false, err
		}
		rels, err := readRels(name, b)
		if err != nil {
			return false, err
		}
		for _, r := range rels {
			if !r.external && strings.EqualFold(t.p.resolve(source, r), target) {
				return true, nil
			}
		}
	}
	return false, nil
}

// relations adds and removes relationships of the workbook part.
func (t *patcher) relations() error {
	if len(t.rels)+len(t.goneRels) == 0 {
		return nil
	}
	e, err := t.partOf(relsPart(t.p.workbookPart))
	if err != nil {
		return err
	}
	o, err := readOutline(relsPart(t.p.workbookPart), e.base, nsPackageRels, "Relationships")
	if err != nil {
		return err
	}
	for i := range o.root.kids {
		if k := &o.root.kids[i]; slices.Contains(t.goneRels, k.get("Id")) {
			e.splices = append(e.splices, splice{k.start, k.end, ""})
		}
	}
	text := ""
	for _, r := range t.rels {
		text += "<" + o.prefix + `Relationship Id="` + r.id + `" Type="` + r.kind + `" Target="` + escapeXML(r.target) + `"/>`
	}
	if text != "" {
		e.splices = append(e.splices, o.insert(&o.root, o.root.close, text))
	}
	return nil
}

func (t *patcher) contentTypes() error {
	gone := map[string]bool{}
	for name, e := range t.edits {
		if e.gone {
			gone["/"+name] = true
		}
	}
	if len(t.added)+len(gone) == 0 {
		return nil
	}
	e, err := t.partOf(contentTypesPart)
	if err != nil {
		return err
	}
	o, err := readOutline(contentTypesPart, e.base, nsTypes, "Types")
	if err != nil {
		return err
	}
	for i := range o.root.kids {
		if k := &o.root.kids[i]; k.local == "Override" && gone[strings.ToLower(k.get("PartName"))] {
			e.splices = append(e.splices, splice{k.start, k.end, ""})
		}
	}
	text := ""
	for _, a := range t.added {
		text += "<" + o.prefix + `Override PartName="/` + escapeXML(a.name) + `" ContentType="` + a.contentType + `"/>`
	}
	if text != "" {
		e.splices = append(e.splices, o.insert(&o.root, o.root.close, text))
	}
	return nil
}

// newEntryTime stands in the header of every entry we add: the first moment a
// zip file can name.
var newEntryTime = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

func (t *patcher) write(w io.Writer) (Changes, error) {
	var c Changes
	zw := zip.NewWriter(w)
	if err := zw.SetComment(t.p.zip.Comment); err != nil {
		return c, err
	}
	for _, f := range t.p.zip.File {
		if err := t.ctx.Err(); err != nil {
			return c, err
		}
		e := t.edits[strings.ToLower(f.Name)]
		if e != nil && e.gone {
			c.Removed = append(c.Removed, f.Name)
			continue
		}
		if e == nil || !e.changed() {
			if err := zw.Copy(f); err != nil {
				return c, err
			}
			continue
		}
		c.Changed = append(c.Changed, f.Name)
		// The header stays but for what follows from the new bytes. A zero
		// Modified keeps the time fields as they are.
		h := f.FileHeader
		h.Method, h.Extra, h.Modified = zip.Deflate, nil, time.Time{}
		part, err := zw.CreateHeader(&h)
		if err != nil {
			return c, err
		}
		if e.whole {
			_, err = io.WriteString(part, e.text)
		} else {
			err = applySplices(part, e.base, e.splices)
		}
		if err != nil {
			return c, err
		}
	}
	for _, a := range t.added {
		c.Added = append(c.Added, a.name)
		part, err := zw.CreateHeader(&zip.FileHeader{Name: a.name, Method: zip.Deflate, Modified: newEntryTime})
		if err != nil {
			return c, err
		}
		if _, err := io.WriteString(part, a.text); err != nil {
			return c, err
		}
	}
	return c, zw.Close()
}
