package main

import (
	"fmt"
	"strings"

	"pottle/bot"
)

type askCommand struct {
	Text []string `arg:"" help:"The question, in plain words."`
}

// Run answers one request and exits.
func (c *askCommand) Run(p *program) error {
	e, err := newEngine()
	if err != nil {
		return err
	}
	_, err = fmt.Fprintln(p.out, bot.NewConversation(e).Reply(strings.Join(c.Text, " ")))
	return err
}
