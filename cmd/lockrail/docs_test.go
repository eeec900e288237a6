package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/pflag"
)

//go:generate go test . -update

var update = flag.Bool("update", false, "rewrite generated documents and golden files")

const commandsDoc = "../../docs/commands.md"

// commandsPage is docs/commands.md, made from the table of commands.
func commandsPage() string {
	var b strings.Builder
	b.WriteString("# Commands\n\nMade from the command's own table by `go generate ./...`; do not edit.\n\n```\n" + overview() + "```\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "\n## lockrail %s\n\n```\n%s```\n", c.name, c.manual())
	}
	return b.String()
}

func TestCommandsDocIsCurrent(t *testing.T) {
	want := commandsPage()
	if *update {
		if err := os.WriteFile(commandsDoc, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(commandsDoc)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, string(got)); d != "" {
		t.Errorf("docs/commands.md is stale; go generate ./... (-want +got):\n%s", d)
	}
}

// Every example of every command runs as printed, from the repository's root.
func TestExamplesRun(t *testing.T) {
	t.Chdir("../..")
	out := t.TempDir()
	for _, c := range commands() {
		for _, e := range c.examples {
			args, err := shellWords(strings.TrimPrefix(e, "lockrail "))
			if err != nil {
				t.Fatal(err)
			}
			for i, a := range args {
				// What the examples write, and read again, goes to a scratch folder.
				if a == "marram-point.xlsx" {
					args[i] = out + "/" + a
				}
			}
			var stdout, stderr bytes.Buffer
			if status := run(context.Background(), args, streams{strings.NewReader(""), &stdout, &stderr}); status > exitFindings {
				t.Errorf("%s: exit %d\n%s", e, status, stderr.String())
			}
		}
	}
}

// Every flag is mentioned in the manual with a help text and a placeholder.
func TestFlagsAreDocumented(t *testing.T) {
	for _, c := range commands() {
		fs := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
		c.setup(fs)
		fs.VisitAll(func(f *pflag.Flag) {
			if f.Usage == "" || !strings.Contains(c.manual(), "--"+f.Name) {
				t.Errorf("%s --%s is not documented", c.name, f.Name)
			}
			if f.Value.Type() != "bool" && !strings.Contains(f.Usage, "`") {
				t.Errorf("%s --%s has no placeholder", c.name, f.Name)
			}
		})
	}
}

// shellWords splits on spaces outside single quotes.
func shellWords(s string) ([]string, error) {
	var words []string
	word, quoted, open := "", false, false
	for _, r := range s {
		switch {
		case r == '\'':
			quoted, open = !quoted, true
		case r == ' ' && !quoted:
			if open {
				words = append(words, word)
			}
			word, open = "", false
		default:
			word, open = word+string(r), true
		}
	}
	if quoted {
		return nil, fmt.Errorf("unbalanced quote in %q", s)
	}
	if open {
		words = append(words, word)
	}
	return words, nil
}
