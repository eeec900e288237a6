package ooxml

import "strings"

// Kind says what is wrong. It is an error itself, so that
// errors.Is(err, ooxml.Encrypted) asks for one kind.
type Kind string

// Kinds that are about the file given to [Open], [Package.Scan] or [Package.ReadPart].
const (
	Empty            Kind = "the file is empty"
	PlainText        Kind = "the file is plain text, not a workbook"
	NotWorkbook      Kind = "the file is not a workbook of the .xlsx family"
	LegacyXLS        Kind = "the file is a legacy .xls workbook"
	Encrypted        Kind = "the file is password-protected"
	DamagedZip       Kind = "the file is truncated or damaged"
	TooLarge         Kind = "the file is larger than the limits allow"
	DuplicateEntry   Kind = "two entries share one name"
	EscapingName     Kind = "an entry name leaves the package"
	Checksum         Kind = "an entry does not match its checksum or size"
	MalformedXML     Kind = "a part is not well-formed XML"
	DTD              Kind = "a part declares a document type or entities"
	Strict           Kind = "the workbook is saved as Strict Open XML"
	Binary           Kind = "the workbook is binary (.xlsb)"
	MissingPart      Kind = "a part is missing"
	BadStructure     Kind = "a part breaks the file format"
	BadReference     Kind = "a cell reference is out of range or unreadable"
	BadValue         Kind = "a cell's value cannot be read"
	RowOrder         Kind = "rows are out of order or repeated"
	CellOrder        Kind = "cells are out of order or repeated"
	MissingReference Kind = "some cells of a sheet carry no reference"
)

// Kinds that are about a [Plan].
const (
	NoSuchSheet Kind = "the workbook has no such worksheet"
	Occupied    Kind = "a cell that is not ours stands where the plan puts one"
	NameTaken   Kind = "the workbook has a sheet of this name that is not ours"
	BadPlan     Kind = "the plan cannot be carried out"
)

func (k Kind) Error() string { return string(k) }

// Error is every error of this package except those of the context and of the
// writer given to [Patch]. Fields that do not apply are empty.
type Error struct {
	Kind  Kind
	Part  string // entry of the package
	Sheet string // title of the sheet
	Cell  string // reference such as "B7"
	Value string // the offending text
	Msg   string // what was found and what to do, without the fields above
	Err   error  // cause, if another package reported it
}

func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(string(e.Kind))
	var where []string
	if e.Sheet != "" {
		where = append(where, "sheet "+clip(e.Sheet))
	}
	if e.Cell != "" {
		where = append(where, "cell "+clip(e.Cell))
	}
	if e.Part != "" {
		where = append(where, "part "+clip(e.Part))
	}
	if len(where) > 0 {
		b.WriteString(" (" + strings.Join(where, ", ") + ")")
	}
	if e.Msg != "" {
		b.WriteString(": " + e.Msg)
	}
	if e.Value != "" {
		b.WriteString(": " + clip(e.Value))
	}
	if e.Err != nil {
		b.WriteString(": " + e.Err.Error())
	}
	return b.String()
}

// Is matches a [Kind].
func (e *Error) Is(target error) bool {
	k, ok := target.(Kind)
	return ok && k == e.Kind
}

// Unwrap gives the cause.
func (e *Error) Unwrap() error { return e.Err }

// clip keeps a value from a hostile file from flooding a message.
func clip(s string) string {
	const most = 80
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == '\uFFFD' {
			return '?'
		}
		return r
	}, s)
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "…"
	}
	return `"` + s + `"`
}

// RiskKind says what a user should know before the workbook is written back.
type RiskKind string

// The risks that [Open] looks for. None of them is fatal.
const (
	Macros            RiskKind = "macros"             // kept as they are
	Signed            RiskKind = "signed"             // any change makes a digital signature invalid
	ProtectedSheet    RiskKind = "protected sheet"    // cells put there are locked like the others
	ProtectedWorkbook RiskKind = "protected workbook" // the structure is locked; sheets can still be added in the file
	WideSheet         RiskKind = "wide sheet"         // cells beyond column 1,000
	NoReferences      RiskKind = "no references"      // no cell carries a reference: readable, not patchable
)

// Risk is one thing found by [Open] that does not stop the work.
type Risk struct {
	Kind  RiskKind
	Part  string
	Sheet string
	Msg   string
}
