package ooxml

import (
	"net/url"
	"path"
	"strings"
)

// Last steps of the relationship types this package follows. The part before
// differs between the transitional format and makers' extensions.
const (
	relWorkbook   = "officeDocument"
	relWorksheet  = "worksheet"
	relChartsheet = "chartsheet"
	relShared     = "sharedStrings"
	relStyles     = "styles"
	relCalcChain  = "calcChain"
	relTable      = "table"
	relComments   = "comments"
	relDrawing    = "drawing"
)

type relationship struct {
	id, kind, target string // kind is the last step of the type
	external         bool
}

// relsPart gives the name of the part that holds a part's relationships.
func relsPart(part string) string {
	dir, file := path.Split(part)
	return dir + "_rels/" + file + ".rels"
}

func readRels(part string, b []byte) ([]relationship, error) {
	o, err := readOutline(part, b, nsPackageRels, "Relationships")
	if err != nil {
		return nil, err
	}
	var out []relationship
	seen := map[string]bool{}
	for i := range o.root.kids {
		k := &o.root.kids[i]
		if k.local != "Relationship" || k.space != nsPackageRels {
			continue
		}
		kind := k.get("Type")
		if strings.HasPrefix(kind, strictPrefix) {
			return nil, &Error{Kind: Strict, Part: part, Msg: adviceStrict}
		}
		r := relationship{id: k.get("Id"), kind: path.Base(kind), target: k.get("Target"), external: k.get("TargetMode") == "External"}
		if seen[r.id] {
			return nil, &Error{Kind: BadStructure, Part: part, Value: r.id, Msg: "two relationships share one id"}
		}
		seen[r.id] = true
		out = append(out, r)
	}
	return out, nil
}

// resolve gives the entry name a relationship of the given part points to.
func (p *Package) resolve(source string, r relationship) string {
	target := r.target
	if !strings.HasPrefix(target, "/") {
		target = path.Join(path.Dir(source), target)
	}
	target = strings.TrimPrefix(path.Clean("/"+target), "/")
	if _, ok := p.entry(target); !ok {
		if plain, err := url.PathUnescape(target); err == nil {
			if _, ok := p.entry(plain); ok {
				return plain
			}
		}
	}
	if f, ok := p.entry(target); ok {
		return f.Name
	}
	return target
}

// related gives the first part of a kind the workbook points to, "" if none.
func (p *Package) related(kind string) string {
	for _, r := range p.rels {
		if r.kind == kind && !r.external {
			if name := p.resolve(p.workbookPart, r); p.has(name) {
				return name
			}
		}
	}
	return ""
}

func (p *Package) has(part string) bool {
	_, ok := p.entry(part)
	return ok
}
