package ooxml

import (
	"context"
	"path"
	"strconv"
	"strings"
)

// State says whether a person sees a sheet.
type State string

// States of a sheet. A very hidden one is shown only by macros.
const (
	Visible    State = "visible"
	Hidden     State = "hidden"
	VeryHidden State = "veryHidden"
)

// SheetType says what a sheet's part holds.
type SheetType string

// Only worksheets have cells.
const (
	Worksheet  SheetType = "worksheet"
	Chartsheet SheetType = "chartsheet"
	OtherSheet SheetType = "other" // dialog sheet, macro sheet, or one without a part
)

// SheetInfo is a sheet as the workbook lists it.
type SheetInfo struct {
	Name    string
	State   State
	Type    SheetType
	Part    string // entry name
	RelID   string
	SheetID int
}

// DefinedName is a name of the workbook, or of one sheet.
type DefinedName struct {
	Name    string
	Sheet   string // the sheet it is local to; "" for the whole workbook
	Formula string // without "="
	Hidden  bool
	Comment string
}

const contentTypesPart = "[Content_Types].xml"

// readWorkbook finds the workbook part and reads the small parts that describe the package.
func (p *Package) readWorkbook(ctx context.Context) error {
	f, ok := p.entry(contentTypesPart)
	if !ok {
		return p.notPackage(ctx)
	}
	b, err := p.inflate(ctx, f)
	if err != nil {
		return err
	}
	types, err := readOutline(f.Name, b, nsTypes, "Types")
	if err != nil {
		return err
	}
	if err := p.findWorkbook(ctx, types); err != nil {
		return err
	}
	if p.workbook, err = p.ReadPart(ctx, p.workbookPart); err != nil {
		return err
	}
	o, err := readOutline(p.workbookPart, p.workbook, nsMain, "workbook")
	if err != nil {
		return err
	}
	if b, err = p.ReadPart(ctx, relsPart(p.workbookPart)); err != nil {
		return err
	}
	if p.rels, err = readRels(relsPart(p.workbookPart), b); err != nil {
		return err
	}
	if err := p.readSheetList(o); err != nil {
		return err
	}
	if err := p.readNames(o); err != nil {
		return err
	}
	if pr := o.child("workbookPr"); pr != nil {
		p.date1904 = pr.flag("date1904")
	}
	if pr := o.child("workbookProtection"); pr != nil && pr.flag("lockStructure") {
		p.risk(ProtectedWorkbook, p.workbookPart, "", "the structure of the workbook is protected")
	}
	p.styles = &Styles{}
	if part := p.related(relStyles); part != "" {
		if b, err = p.ReadPart(ctx, part); err != nil {
			return err
		}
		p.styles, err = readStyles(part, b)
	}
	return err
}

// notPackage says what a zip archive is that is no Open Packaging package.
func (p *Package) notPackage(ctx context.Context) error {
	msg := "it is a zip archive without " + contentTypesPart
	if f, ok := p.entry("mimetype"); ok && f.UncompressedSize64 < 200 {
		if b, err := p.inflate(ctx, f); err == nil && strings.HasPrefix(string(b), "application/vnd.oasis.opendocument") {
			msg = "it is an OpenDocument file; save it as .xlsx first"
		}
	}
	return &Error{Kind: NotWorkbook, Msg: msg}
}

func (p *Package) findWorkbook(ctx context.Context, types *outline) error {
	const rootRels = "_rels/.rels"
	b, err := p.ReadPart(ctx, rootRels)
	if err != nil {
		return err
	}
	rels, err := readRels(rootRels, b)
	if err != nil {
		return err
	}
	for _, r := range rels {
		if r.kind == relWorkbook && !r.external {
			p.workbookPart = p.resolve("", r)
		}
	}
	if p.workbookPart == "" {
		return &Error{Kind: NotWorkbook, Part: rootRels, Msg: "the package names no main document"}
	}
	switch t := contentType(types, p.workbookPart); {
	case strings.Contains(t, "sheet.binary"):
		return &Error{Kind: Binary, Part: p.workbookPart, Msg: "save it as .xlsx or .xlsm first"}
	case strings.Contains(t, "spreadsheetml"), strings.Contains(t, "ms-excel"):
	default:
		return &Error{Kind: NotWorkbook, Part: p.workbookPart, Value: t, Msg: "the main document is of another type"}
	}
	return nil
}

// contentType gives the declared type of a part, by name or by extension.
func contentType(types *outline, part string) string {
	byExt := ""
	for i := range types.root.kids {
		switch k := &types.root.kids[i]; k.local {
		case "Override":
			if strings.EqualFold(strings.TrimPrefix(k.get("PartName"), "/"), part) {
				return k.get("ContentType")
			}
		case "Default":
			if strings.EqualFold("."+k.get("Extension"), path.Ext(part)) {
				byExt = k.get("ContentType")
			}
		}
	}
	return byExt
}

func (p *Package) readSheetList(o *outline) error {
	list := o.child("sheets")
	if list == nil {
		return &Error{Kind: BadStructure, Part: o.part, Msg: "the workbook lists no sheets"}
	}
	byID := map[string]relationship{}
	for _, r := range p.rels {
		byID[r.id] = r
	}
	seen, parts := map[string]bool{}, map[string]bool{}
	for i := range list.kids {
		k := &list.kids[i]
		if k.local != "sheet" || k.space != nsMain {
			continue
		}
		s := SheetInfo{Name: k.get("name"), State: Visible, Type: OtherSheet, RelID: k.rel}
		s.SheetID, _ = strconv.Atoi(k.get("sheetId"))
		if v := k.get("state"); v != "" {
			s.State = State(v)
		}
		if key := strings.ToLower(s.Name); seen[key] {
			return &Error{Kind: BadStructure, Part: o.part, Sheet: s.Name, Msg: "two sheets share one name"}
		} else {
			seen[key] = true
		}
		if r, ok := byID[s.RelID]; ok && !r.external {
			s.Part = p.resolve(p.workbookPart, r)
			switch r.kind {
			case relWorksheet:
				s.Type = Worksheet
			case relChartsheet:
				s.Type = Chartsheet
			}
			if !p.has(s.Part) {
				return &Error{Kind: MissingPart, Part: s.Part, Sheet: s.Name}
			}
			if parts[s.Part] {
				return &Error{Kind: BadStructure, Part: s.Part, Sheet: s.Name, Msg: "two sheets share one part"}
			}
			parts[s.Part] = true
		}
		p.sheets = append(p.sheets, s)
	}
	if len(p.sheets) == 0 {
		return &Error{Kind: BadStructure, Part: o.part, Msg: "the workbook lists no sheets"}
	}
	return nil
}

func (p *Package) readNames(o *outline) error {
	list := o.child("definedNames")
	if list == nil {
		return nil
	}
	for i := range list.kids {
		k := &list.kids[i]
		if k.local != "definedName" {
			continue
		}
		n := DefinedName{Name: k.get("name"), Hidden: k.flag("hidden"), Comment: k.get("comment")}
		if local := k.get("localSheetId"); local != "" {
			at, err := strconv.Atoi(local)
			if err != nil || at < 0 || at >= len(p.sheets) {
				continue // a leftover of a deleted sheet; no one can use it
			}
			n.Sheet = p.sheets[at].Name
		}
		var err error
		if n.Formula, err = o.text(k); err != nil {
			return err
		}
		p.names = append(p.names, n)
	}
	return nil
}

// Sheets gives the sheets in the order of their tabs.
func (p *Package) Sheets() []SheetInfo { return append([]SheetInfo(nil), p.sheets...) }

// SheetByName finds a sheet by its title, in any case as a formula would.
func (p *Package) SheetByName(name string) (SheetInfo, bool) {
	if i := p.sheetIndex(name); i >= 0 {
		return p.sheets[i], true
	}
	return SheetInfo{}, false
}

func (p *Package) sheetIndex(name string) int {
	for i := range p.sheets {
		if strings.EqualFold(p.sheets[i].Name, name) {
			return i
		}
	}
	return -1
}

// Date1904 reports whether serial dates count from 1904 rather than 1900.
func (p *Package) Date1904() bool { return p.date1904 }

// Names gives the defined names in the order of the file.
func (p *Package) Names() []DefinedName { return append([]DefinedName(nil), p.names...) }

// Styles gives the cell formats.
func (p *Package) Styles() *Styles { return p.styles }
