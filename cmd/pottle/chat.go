package main

import (
	"os"

	"golang.org/x/term"

	"pottle/bot"
	"pottle/bot/console"
)

type chatCommand struct{}

// Run converses until the end of the input. On a terminal lines are edited
// with history and pasted text is taken whole; otherwise a blank line ends a
// message.
func (c *chatCommand) Run(p *program) error {
	e, err := newEngine()
	if err != nil {
		return err
	}
	talk := bot.NewConversation(e)
	if f, ok := p.in.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		return console.Terminal(f, p.out, talk)
	}
	return console.Plain(p.in, p.out, talk)
}
