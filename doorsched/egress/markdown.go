package egress

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"example.com/lockrail/doorsched"
)

// Markdown writes the reference of all rules: what each protects, on which
// editions it is judged and under which citation, the fields it reads and the
// rows of published requirements it covers.
func Markdown(w io.Writer) error {
	b := bufio.NewWriter(w)
	fmt.Fprint(b, `# Rules

Generated from the rules in `+"`doorsched/egress`"+`; do not edit.

Each rule is a reading of a model code, guidance or standard. It defers to the local code, the authority having jurisdiction and licensed practice. A clause marked
"to be checked" was not seen in print. English guidance that is not followed is reported as such; it is not the law. A field that is not given is Unknown: the rule is then not
judged, and says which field it needs. What only a measurement can settle becomes a line for the site and does not touch a door's verdict.

| rule | in short | editions |
|---|---|---|
`)
	for _, r := range allRules {
		var on []string
		for _, e := range doorsched.Editions() {
			if r.On(e.ID) {
				on = append(on, string(e.ID))
			}
		}
		fmt.Fprintf(b, "| [%s](#%s) | %s | %s |\n", r.Slug, r.Slug, r.Title, strings.Join(on, ", "))
	}
	for _, r := range allRules {
		fmt.Fprintf(b, "\n## %s\n\n%s. %s\n\n", r.Slug, r.Title, r.Protects)
		for _, e := range doorsched.Editions() {
			if c, ok := r.Cite[e.ID]; ok {
				fmt.Fprintf(b, "- %s: %s\n", e.ID, c)
			}
		}
		fmt.Fprintf(b, "- severity: %s; stage: %s\n", r.Severity, r.Stage)
		var reads []string
		for _, id := range r.Fields {
			reads = append(reads, "`"+id.String()+"`")
		}
		fmt.Fprintf(b, "- reads: %s\n- covers: %s\n", strings.Join(reads, ", "), strings.Join(r.Refs, ", "))
	}
	return b.Flush()
}
