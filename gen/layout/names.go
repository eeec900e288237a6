package layout

import "strings"

// Defined names by which our work is recognised again; they are hidden, and
// follow their cells when the user renames or moves a sheet.
const (
	sheetPrefix  = "_lockrail.sheet."
	resultPrefix = "_lockrail.results."
)

// SheetName is the defined name that marks a sheet of ours.
func SheetName(key string) string { return sheetPrefix + key }

// SheetKey returns the key of the sheet that a defined name marks.
func SheetKey(name string) (string, bool) {
	key, ok := strings.CutPrefix(name, sheetPrefix)
	if !ok {
		return "", false
	}
	_, known := SheetByKey(key)
	return key, known
}

// ResultName is the defined name of our columns beside a schedule; n counts the
// schedules of a workbook from 1.
func ResultName(n string) string { return resultPrefix + n }

// IsResultName reports whether a defined name marks result columns of ours.
func IsResultName(name string) bool { return strings.HasPrefix(name, resultPrefix) }
