// Command pottle works out what a serving of a recipe holds, answers quick
// questions about foods, and converses, in the terminal.
//
// Exit status: 0 done, 1 could not be worked out (the reason is on standard
// error), 2 wrong usage.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"

	"pottle/engine"
	"pottle/fooddata"
)

// program is pottle with its inputs and outputs, so that tests can run it
// whole.
type program struct {
	in       io.Reader
	out, err io.Writer
}

// commands are the subcommands, as kong reads them.
type commands struct {
	Recipe  recipeCommand  `cmd:"" help:"Work out a recipe from a file, or from standard input (-)."`
	Ask     askCommand     `cmd:"" help:"Answer one question, such as: sodium in 1 tsp soy sauce."`
	Chat    chatCommand    `cmd:"" help:"Converse: paste recipes, ask, correct."`
	Serve   serveCommand   `cmd:"" help:"Answer a team in Slack."`
	Doctor  doctorCommand  `cmd:"" help:"Check that pottle can serve: tokens, scopes, connection, clock, memory, food table."`
	Box     boxCommand     `cmd:"" help:"The team's saved recipes."`
	Store   storeCommand   `cmd:"" help:"Back up, restore and check the team's memory."`
	Version versionCommand `cmd:"" help:"Print the version of the program and of its food table."`
}

// usageError is a wrong call of the program: exit status 2.
type usageError struct{ error }

func main() {
	p := &program{in: os.Stdin, out: os.Stdout, err: os.Stderr}
	os.Exit(p.run(os.Args[1:]))
}

// run runs pottle with args and returns its exit status.
func (p *program) run(args []string) (status int) {
	var c commands
	exited := -1
	parser, err := kong.New(&c, kong.Name("pottle"),
		kong.Description("What a serving of a recipe holds, and quick answers about foods, for dietitians."),
		kong.Writers(p.out, p.err), kong.UsageOnError(), kong.Exit(func(code int) { exited = code }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}), kong.Bind(p))
	if err != nil {
		fmt.Fprintln(p.err, "pottle:", err)
		return 2
	}
	ctx, err := parser.Parse(args)
	if exited >= 0 { // --help
		return exited
	}
	if err != nil {
		fmt.Fprintf(p.err, "pottle: %v\nSay \"pottle --help\" for the commands.\n", err)
		return 2
	}
	if err := ctx.Run(p); err != nil {
		fmt.Fprintln(p.err, "pottle:", err)
		var usage usageError
		if errors.As(err, &usage) {
			return 2
		}
		return 1
	}
	return 0
}

// newEngine opens the food table and makes an engine on it.
func newEngine() (*engine.Engine, error) {
	table, err := fooddata.Open()
	if err != nil {
		return nil, fmt.Errorf("open food table: %w", err)
	}
	return engine.New(table, engine.Options{}), nil
}
