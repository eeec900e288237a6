package read

import (
	"regexp"
	"strconv"
	"strings"

	"example.com/lockrail/gen/ooxml"
)

// builtInFormats are the number formats without a code in the file that show
// something else than General does (ECMA-376 part 1, 18.8.30).
var builtInFormats = map[int]string{1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00"}

// simpleFormat is a text in quotes, digits with a fixed number of decimals, and
// a text in quotes: 000, 0.00, 0" mm", "D-"000.
var simpleFormat = regexp.MustCompile(`^(?:"([^"]*)")?([#,]*)(0+)(?:\.(0+))?((?:\s*(?:"[^"]*"|\\.|\s))*)$`)

// showNumber writes a number as its cell format shows it, for the formats that
// schedules give to marks and sizes; any other format as General does.
func showNumber(styles *ooxml.Styles, c ooxml.Cell) string {
	id, code := styles.NumFmt(c.Style)
	if code == "" {
		code = builtInFormats[id]
	}
	code, _, _ = strings.Cut(code, ";")
	m := simpleFormat.FindStringSubmatch(code)
	n, err := strconv.ParseFloat(c.Raw, 64)
	if m == nil || err != nil || n < 0 || n > 1e15 {
		return c.Text
	}
	digits := strconv.FormatFloat(n, 'f', len(m[4]), 64)
	whole, _, _ := strings.Cut(digits, ".")
	if pad := len(m[3]) - len(whole); pad > 0 {
		digits = strings.Repeat("0", pad) + digits
	}
	tail := strings.NewReplacer(`"`, "", `\`, "").Replace(m[5])
	return m[1] + digits + tail
}
