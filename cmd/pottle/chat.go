package main

import (
	"context"
	"fmt"
	"os"

	"golang.org/x/term"

	"pottle/bot"
	"pottle/bot/console"
	"pottle/store"
)

type chatCommand struct {
	dataFlags
	Thread string `help:"The conversation to go on with." default:"console" placeholder:"NAME"`
}

// Run converses until the end of the input. On a terminal lines are edited
// with history and pasted text is taken whole; otherwise a blank line ends a
// message. With a directory the conversation and the team's recipes are kept;
// without, it says that nothing is.
func (c *chatCommand) Run(p *program) error {
	e, err := newEngine()
	if err != nil {
		return err
	}
	talk := bot.NewConversation(e)
	if c.Data == "" {
		if c.onTerminal(p) {
			fmt.Fprintln(p.err, "Nothing is kept: start with --data DIR to keep recipes.")
		}
		return c.converse(p, talk)
	}
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		if err := talk.Remember(ctx, bot.Memory{Team: s.In(c.Team), ID: c.Thread, Who: c.who()}); err != nil {
			return err
		}
		return c.converse(p, talk)
	})
}

func (c *chatCommand) onTerminal(p *program) bool {
	f, ok := p.in.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

func (c *chatCommand) converse(p *program, talk *bot.Conversation) error {
	if c.onTerminal(p) {
		return console.Terminal(p.in.(*os.File), p.out, talk)
	}
	return console.Plain(p.in, p.out, talk)
}
