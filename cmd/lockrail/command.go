package main

import (
	"context"
	"fmt"
	"runtime/debug"
	"strings"

	"example.com/lockrail/doorsched"
	"github.com/spf13/pflag"
)

// action does a command's work and returns its exit status.
type action func(ctx context.Context, args []string, io streams) (int, error)

// command is one line of the table that drives dispatch, help and docs.
type command struct {
	name     string
	args     string // what stands after the flags
	short    string
	long     string
	examples []string
	setup    func(fs *pflag.FlagSet) action
}

// commands lists what lockrail does, in the order of a job.
func commands() []command {
	return []command{
		columnsCommand(), checkCommand(), annotateCommand(), rulesCommand(),
		dropCommand(), fillCommand(), poeCommand(), batteryCommand(),
	}
}

func commandByName(name string) (command, bool) {
	for _, c := range commands() {
		if c.name == name {
			return c, true
		}
	}
	return command{}, false
}

func commandNames() []string {
	var out []string
	for _, c := range commands() {
		out = append(out, c.name)
	}
	return out
}

func flagNames(fs *pflag.FlagSet) []string {
	var out []string
	fs.VisitAll(func(f *pflag.Flag) { out = append(out, f.Name) })
	return out
}

func didYouMean(name string, known []string) string {
	best, distance := "", 3
	for _, k := range known {
		if d := doorsched.EditDistance(name, k); d < distance {
			best, distance = k, d
		}
	}
	if best == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", best)
}

func (c command) usage() string {
	return strings.TrimSpace(fmt.Sprintf("lockrail %s [flags] %s", c.name, c.args))
}

// brief is shown with a mistake; manual when help was asked for.
func (c command) brief() string {
	return fmt.Sprintf("usage: %s\n\"lockrail help %s\" says more\n", c.usage(), c.name)
}

func (c command) manual() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\nusage: %s\n\n", c.short, c.usage())
	if c.long != "" {
		fmt.Fprintf(&b, "%s\n\n", c.long)
	}
	b.WriteString("examples:\n")
	for _, e := range c.examples {
		fmt.Fprintf(&b, "  %s\n", e)
	}
	fs := pflag.NewFlagSet(c.name, pflag.ContinueOnError)
	fs.SortFlags = false
	c.setup(fs)
	if fs.HasFlags() {
		fmt.Fprintf(&b, "\nflags:\n%s", flagList(fs))
	}
	return b.String()
}

// flagList writes flags one a line, the placeholder from the back-quoted word.
func flagList(fs *pflag.FlagSet) string {
	var names, helps []string
	widest := 0
	fs.VisitAll(func(f *pflag.Flag) {
		placeholder, help := pflag.UnquoteUsage(f)
		n := "    --" + f.Name
		if f.Shorthand != "" {
			n = "-" + f.Shorthand + ", --" + f.Name
		}
		if f.Value.Type() != "bool" {
			n += " " + placeholder
		}
		if f.DefValue != "" && f.DefValue != "false" && f.DefValue != "[]" && f.DefValue != "0" {
			help += " (default " + f.DefValue + ")"
		}
		names, helps = append(names, n), append(helps, help)
		widest = max(widest, len(n))
	})
	var b strings.Builder
	for i := range names {
		fmt.Fprintf(&b, "  %-*s  %s\n", widest, names[i], helps[i])
	}
	return b.String()
}

func overview() string {
	var b strings.Builder
	b.WriteString("lockrail judges door schedules for escape, fire and access, chooses locks and\nhardware sets, calculates power and cable, and gives the workbook back annotated.\n\nusage: lockrail COMMAND [flags] ...\n\ncommands:\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-10s %s\n", c.name, c.short)
	}
	b.WriteString("  help       Show a command's flags and examples\n  version    Show the version\n\n")
	b.WriteString("exit status: 0 done; 1 done, with findings at or above --fail-on; 2 the command\nline is wrong; 3 the job could not be done\n")
	return b.String()
}

func help(args []string, io streams) int {
	if len(args) == 0 {
		fmt.Fprint(io.out, overview())
		return exitDone
	}
	c, ok := commandByName(args[0])
	if !ok {
		fmt.Fprintf(io.err, "lockrail help: no command %q%s\n", args[0], didYouMean(args[0], commandNames()))
		return exitUsage
	}
	fmt.Fprint(io.out, c.manual())
	return exitDone
}

func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "lockrail (unknown build)"
	}
	v := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			v += " " + s.Value
		}
	}
	return "lockrail " + v
}
