// Package console lets a Conversation run in a terminal or over a pipe.
package console

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"pottle/grammar"
)

// Talker answers one message; bot.Conversation is one.
type Talker interface {
	Reply(text string) string
}

const (
	prompt      = "> "
	pastePrompt = "(Enter works it out) "
	typePrompt  = "(an empty line works it out) "
	greeting    = "pottle. Paste a recipe, or ask, such as: sodium in 1/4 tsp salt. \"help\" tells more; Ctrl-D ends."
)

// Plain reads messages from a pipe or a file until it ends. Lines up to a
// blank line are one message.
func Plain(in io.Reader, out io.Writer, talk Talker) error {
	scanner := bufio.NewScanner(in)
	scanner.Buffer(nil, 4*grammar.MaxRecipe)
	var message []string
	answer := func() error {
		if len(message) == 0 {
			return nil
		}
		_, err := fmt.Fprintf(out, "%s\n\n", talk.Reply(strings.Join(message, "\n")))
		message = nil
		return err
	}
	for scanner.Scan() {
		line := scanner.Text()
		if strings.TrimSpace(line) != "" {
			message = append(message, line)
			continue
		}
		if err := answer(); err != nil {
			return err
		}
	}
	if err := scanner.Err(); err != nil {
		return fmt.Errorf("read the conversation: %w", err)
	}
	return answer()
}

// Terminal converses on a terminal: lines are edited, the arrow keys bring
// back earlier ones, and text that is pasted is taken whole, blank lines and
// all, once Enter is pressed. It returns at Ctrl-D.
func Terminal(tty *os.File, out io.Writer, talk Talker) error {
	state, err := term.MakeRaw(int(tty.Fd()))
	if err != nil {
		return fmt.Errorf("prepare the terminal: %w", err)
	}
	defer func() { _ = term.Restore(int(tty.Fd()), state) }()
	t := term.NewTerminal(readWriter{tty, out}, prompt)
	if width, height, err := term.GetSize(int(tty.Fd())); err == nil && width > 0 {
		_ = t.SetSize(width, height)
	}
	t.SetBracketedPasteMode(true)
	defer t.SetBracketedPasteMode(false)
	return converse(t, talk)
}

type readWriter struct {
	io.Reader
	io.Writer
}

// lineEditor is what converse needs of term.Terminal.
type lineEditor interface {
	ReadLine() (string, error)
	SetPrompt(string)
	io.Writer
}

// converse runs the conversation over an editor. Pasted lines are gathered;
// the next line that is typed, usually an empty one, ends them. After the word
// "recipe" typed lines are gathered as well, up to an empty one.
func converse(t lineEditor, talk Talker) error {
	if _, err := fmt.Fprintln(t, greeting); err != nil {
		return err
	}
	var pasted []string
	typing := false
	for {
		line, err := t.ReadLine()
		switch {
		case errors.Is(err, term.ErrPasteIndicator):
			pasted = append(pasted, line)
			t.SetPrompt(pastePrompt)
			continue
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return fmt.Errorf("read the terminal: %w", err)
		}
		typed := strings.TrimSpace(line)
		if typing && typed != "" || strings.EqualFold(typed, "recipe") && len(pasted) == 0 {
			if typing {
				pasted = append(pasted, line)
			}
			typing = true
			t.SetPrompt(typePrompt)
			continue
		}
		message := strings.TrimSpace(strings.Join(append(pasted, line), "\n"))
		pasted, typing = nil, false
		t.SetPrompt(prompt)
		if message == "" {
			continue
		}
		if _, err := fmt.Fprintf(t, "%s\n\n", talk.Reply(message)); err != nil {
			return err
		}
	}
}
