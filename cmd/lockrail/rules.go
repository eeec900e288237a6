package main

import (
	"context"
	"fmt"
	"io"

	"example.com/lockrail/doorsched"
	"example.com/lockrail/doorsched/egress"
	"example.com/lockrail/gen/report"
	"github.com/spf13/pflag"
)

func rulesCommand() command {
	return command{
		name: "rules", args: "[RULE ...]", short: "List the rules, what they protect and where they stand written",
		long: "Lists every rule, or those named, with the clause of each edition. A clause marked\n\"to be checked\" was not seen in print. docs/rules.md is made from the same values.",
		examples: []string{
			"lockrail rules",
			"lockrail rules --edition england-2019 --format json",
			"lockrail rules free-egress",
		},
		setup: func(fs *pflag.FlagSet) action {
			var edition, format string
			fs.StringVar(&edition, "edition", "", "only rules of `EDITION`: "+editionList())
			formatFlag(fs, &format)
			return func(_ context.Context, args []string, io streams) (int, error) {
				if err := checkFormat(format); err != nil {
					return 0, err
				}
				e := doorsched.Edition(edition)
				if _, ok := e.Info(); !ok && e != "" {
					return 0, usagef("--edition %q is not one that can be judged; known: %s", edition, editionList())
				}
				rules, err := chosenRules(args)
				if err != nil {
					return 0, err
				}
				for _, r := range rules {
					if e != "" && !r.On(e) {
						continue
					}
					if err := writeRule(io.out, r, e, format); err != nil {
						return 0, err
					}
				}
				return exitDone, nil
			}
		},
	}
}

func chosenRules(slugs []string) ([]*egress.Rule, error) {
	if len(slugs) == 0 {
		return egress.Rules(), nil
	}
	var known []string
	for _, r := range egress.Rules() {
		known = append(known, r.Slug)
	}
	var out []*egress.Rule
	for _, s := range slugs {
		r, ok := egress.RuleByName(s)
		if !ok {
			return nil, usagef("no rule %q%s", s, didYouMean(s, known))
		}
		out = append(out, r)
	}
	return out, nil
}

type ruleLine struct {
	Kind      string         `json:"kind"`
	Slug      string         `json:"slug"`
	Title     string         `json:"title"`
	Protects  string         `json:"protects"`
	Stage     string         `json:"stage"`
	Severity  string         `json:"severity"`
	Fields    []string       `json:"fields"`
	Refs      []string       `json:"refs"`
	Citations []ruleCitation `json:"citations"`
}

type ruleCitation struct {
	On       string `json:"on"`
	Document string `json:"document"`
	Edition  string `json:"edition"`
	Clause   string `json:"clause"`
	Status   string `json:"status"`
}

func writeRule(w io.Writer, r *egress.Rule, only doorsched.Edition, format string) error {
	var cites []ruleCitation
	for _, e := range doorsched.Editions() {
		if c, ok := r.Cite[e.ID]; ok && (only == "" || only == e.ID) {
			cites = append(cites, ruleCitation{string(e.ID), c.Document, c.Edition, c.Clause, string(c.Status)})
		}
	}
	if format == formatJSON {
		return report.Lines(w, ruleLine{"rule", r.Slug, r.Title, r.Protects, string(r.Stage), r.Severity.Code(), report.Names(r.Fields), append([]string{}, r.Refs...), cites})
	}
	fmt.Fprintf(w, "%s: %s\n  %s\n", r.Slug, r.Title, r.Protects)
	for _, c := range cites {
		fmt.Fprintf(w, "  %s: %s\n", c.On, doorsched.Citation{Document: c.Document, Edition: c.Edition, Clause: c.Clause, Status: doorsched.Status(c.Status)})
	}
	return nil
}
