// Command lockrail judges door schedules and gives them back annotated.
// "lockrail help" lists what it does; docs/commands.md is made from the same table.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"

	"github.com/spf13/pflag"
)

// Exit statuses. The output format never changes them.
const (
	exitDone      = 0
	exitFindings  = 1 // done, findings at or above --fail-on
	exitUsage     = 2
	exitFailed    = 3
	exitInterrupt = 130
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := run(ctx, os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})
	if ctx.Err() != nil {
		status = exitInterrupt
	}
	stop()
	os.Exit(status)
}

type streams struct {
	in       io.Reader
	out, err io.Writer
}

// usageError is a mistake on the command line.
type usageError struct{ err error }

func (e usageError) Error() string { return e.err.Error() }
func (e usageError) Unwrap() error { return e.err }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

func run(ctx context.Context, args []string, io streams) int {
	if len(args) == 0 {
		fmt.Fprint(io.err, overview())
		return exitUsage
	}
	name := args[0]
	switch name {
	case "help", "--help", "-h":
		return help(args[1:], io)
	case "version", "--version":
		fmt.Fprintln(io.out, version())
		return exitDone
	}
	c, ok := commandByName(name)
	if !ok {
		fmt.Fprintf(io.err, "lockrail: no command %q%s; \"lockrail help\" lists them\n", name, didYouMean(name, commandNames()))
		return exitUsage
	}
	fs := pflag.NewFlagSet(name, pflag.ContinueOnError)
	fs.SortFlags = false
	fs.SetOutput(io.err)
	fs.Usage = func() {}
	do := c.setup(fs)
	if err := fs.Parse(args[1:]); err != nil {
		if errors.Is(err, pflag.ErrHelp) {
			fmt.Fprint(io.out, c.manual())
			return exitDone
		}
		var unknown *pflag.NotExistError
		near := ""
		if errors.As(err, &unknown) {
			near = didYouMean(unknown.GetSpecifiedName(), flagNames(fs))
		}
		fmt.Fprintf(io.err, "lockrail %s: %v%s\n%s", name, err, near, c.brief())
		return exitUsage
	}
	status, err := do(ctx, fs.Args(), io)
	var usage usageError
	switch {
	case errors.As(err, &usage):
		fmt.Fprintf(io.err, "lockrail %s: %v\n%s", name, err, c.brief())
		return exitUsage
	case err != nil:
		fmt.Fprintf(io.err, "lockrail %s: %v\n", name, err)
		return exitFailed
	}
	return status
}
