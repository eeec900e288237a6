package ooxml

import (
	"archive/zip"
	"context"
	"errors"
	"io"
	"path"
	"strings"
)

// Package is a workbook that passed [Open]. It reads from the io.ReaderAt given
// there, which has to stay open and unchanged. A Package is safe for use by
// several goroutines.
type Package struct {
	zip    *zip.Reader
	limits Limits
	index  map[string]int // lower-case entry name

	workbookPart string
	workbook     []byte
	rels         []relationship // of the workbook part
	sheets       []SheetInfo
	date1904     bool
	names        []DefinedName
	styles       *Styles
	shared       []string
	risks        []Risk
}

// Open checks the whole file and reads the workbook's outline: magic bytes,
// entry names, sizes in bytes really inflated, the checksum of every entry, and
// the structure of every XML part this package reads. It returns an [*Error]
// for whatever could not be read truly, or the error of ctx.
func Open(ctx context.Context, r io.ReaderAt, size int64, lim Limits) (*Package, error) {
	if err := sniff(ctx, r, size); err != nil {
		return nil, err
	}
	zr, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) {
		return nil, &Error{Kind: DamagedZip, Msg: "it begins like a zip archive but its directory cannot be read", Err: err}
	}
	p := &Package{zip: zr, limits: lim.withDefaults()}
	if err := p.checkEntries(); err != nil {
		return nil, err
	}
	if err := p.readWorkbook(ctx); err != nil {
		return nil, err
	}
	if err := p.readAll(ctx); err != nil {
		return nil, err
	}
	return p, nil
}

func (p *Package) checkEntries() error {
	if n := len(p.zip.File); n > p.limits.Entries {
		return &Error{Kind: TooLarge, Msg: "too many entries"}
	}
	p.index = make(map[string]int, len(p.zip.File))
	for i, f := range p.zip.File {
		if err := checkEntryName(f.Name); err != nil {
			return err
		}
		if f.Flags&1 != 0 {
			return &Error{Kind: Encrypted, Part: f.Name, Msg: "the entry is encrypted"}
		}
		if f.Method != zip.Store && f.Method != zip.Deflate {
			return &Error{Kind: DamagedZip, Part: f.Name, Msg: "the entry uses a compression that workbooks do not use"}
		}
		key := strings.ToLower(f.Name)
		if _, dup := p.index[key]; dup {
			return &Error{Kind: DuplicateEntry, Part: f.Name}
		}
		p.index[key] = i
	}
	return nil
}

func checkEntryName(name string) error {
	fail := func(msg string) error { return &Error{Kind: EscapingName, Part: name, Msg: msg} }
	switch {
	case name == "":
		return fail("an entry has no name")
	case strings.ContainsAny(name, "\\\x00"):
		return fail("it has a backslash or a null byte")
	case strings.HasPrefix(name, "/") || len(name) > 1 && name[1] == ':':
		return fail("it is absolute")
	}
	for step := range strings.SplitSeq(strings.TrimSuffix(name, "/"), "/") {
		if step == ".." || step == "." || step == "" {
			return fail("it has an empty step or dots for one")
		}
	}
	return nil
}

// entry finds a part by name, in any case as the packaging standard asks.
func (p *Package) entry(name string) (*zip.File, bool) {
	i, ok := p.index[strings.ToLower(name)]
	if !ok {
		return nil, false
	}
	return p.zip.File[i], true
}

// inflate gives the entry's bytes with its checksum checked.
func (p *Package) inflate(ctx context.Context, f *zip.File) ([]byte, error) {
	var buf []byte
	if f.UncompressedSize64 < uint64(p.limits.EntryBytes) {
		// The declared size is only a hint: a small file that claims much gets little.
		buf = make([]byte, 0, min(f.UncompressedSize64+1, 64*f.CompressedSize64+512))
	}
	_, err := p.pump(ctx, f, func(b []byte) { buf = append(buf, b...) })
	return buf, err
}

// pump reads an entry to its end, which checks its checksum, and hands every
// piece to sink. It gives the inflated bytes counted.
func (p *Package) pump(ctx context.Context, f *zip.File, sink func([]byte)) (int64, error) {
	rc, err := f.Open()
	if err != nil {
		return 0, &Error{Kind: DamagedZip, Part: f.Name, Err: err}
	}
	defer rc.Close()
	piece := make([]byte, 64<<10)
	var total int64
	for {
		if err := ctx.Err(); err != nil {
			return total, err
		}
		n, err := rc.Read(piece)
		total += int64(n)
		if total > p.limits.EntryBytes {
			return total, &Error{Kind: TooLarge, Part: f.Name, Msg: "the entry inflates beyond the limit"}
		}
		if sink != nil {
			sink(piece[:n])
		}
		switch {
		case err == io.EOF:
			return total, nil
		case err != nil:
			return total, &Error{Kind: Checksum, Part: f.Name, Msg: "the file is damaged; take a fresh copy", Err: err}
		}
	}
}

// readAll reads every entry once: all for the checksum, the parts we know for
// their structure.
func (p *Package) readAll(ctx context.Context) error {
	worksheets := map[string]*SheetInfo{}
	for i := range p.sheets {
		if s := &p.sheets[i]; s.Type == Worksheet {
			worksheets[strings.ToLower(s.Part)] = s
		}
	}
	sharedPart := strings.ToLower(p.related(relShared))
	var total int64
	for _, f := range p.zip.File {
		name := strings.ToLower(f.Name)
		sheet := worksheets[name]
		var b []byte
		var n int64
		var err error
		switch {
		case sheet != nil || name == sharedPart || strings.HasSuffix(name, ".rels"):
			b, err = p.inflate(ctx, f)
			n = int64(len(b))
		default:
			n, err = p.pump(ctx, f, nil)
		}
		if err != nil {
			return err
		}
		if total += n; total > p.limits.TotalBytes {
			return &Error{Kind: TooLarge, Part: f.Name, Msg: "the entries together inflate beyond the limit"}
		}
		switch {
		case sheet != nil:
			err = p.checkSheet(ctx, sheet, b)
		case name == sharedPart:
			p.shared, err = readSharedStrings(f.Name, b)
		case strings.HasSuffix(name, ".rels"):
			_, err = readRels(f.Name, b)
		}
		if err != nil {
			return err
		}
	}
	p.packageRisks()
	return nil
}

func (p *Package) checkSheet(ctx context.Context, info *SheetInfo, b []byte) error {
	s := scanner{ctx: ctx, info: *info, limits: p.limits}
	if err := s.scan(b); err != nil {
		return err
	}
	if s.protected {
		p.risk(ProtectedSheet, info.Part, info.Name, "the sheet is protected; cells put on it are locked like the others")
	}
	if s.out.Occupied.C2 > 1000 {
		p.risk(WideSheet, info.Part, info.Name, "cells stand as far right as column "+ColumnName(s.out.Occupied.C2))
	}
	if s.bare > 0 {
		p.risk(NoReferences, info.Part, info.Name, "no cell carries a reference; save the workbook in a spreadsheet program before it is written to")
	}
	return nil
}

func (p *Package) packageRisks() {
	for _, f := range p.zip.File {
		name := strings.ToLower(f.Name)
		switch {
		case path.Base(name) == "vbaproject.bin":
			p.risk(Macros, f.Name, "", "the workbook holds macros; they are kept as they are and never run")
		case strings.HasPrefix(name, "_xmlsignatures/") && path.Ext(name) == ".sigs":
			p.risk(Signed, f.Name, "", "the workbook is digitally signed; any change makes the signature invalid")
		}
	}
}

func (p *Package) risk(k RiskKind, part, sheet, msg string) {
	p.risks = append(p.risks, Risk{Kind: k, Part: part, Sheet: sheet, Msg: msg})
}

// Risks gives what a user should know before the workbook is written back.
func (p *Package) Risks() []Risk { return append([]Risk(nil), p.risks...) }

// Parts gives the names of all entries in the order of the zip file.
func (p *Package) Parts() []string {
	names := make([]string, len(p.zip.File))
	for i, f := range p.zip.File {
		names[i] = f.Name
	}
	return names
}

// ReadPart gives one entry's bytes. The name is matched in any case; an unknown
// one is a [MissingPart] error.
func (p *Package) ReadPart(ctx context.Context, name string) ([]byte, error) {
	f, ok := p.entry(name)
	if !ok {
		return nil, &Error{Kind: MissingPart, Part: name}
	}
	return p.inflate(ctx, f)
}
