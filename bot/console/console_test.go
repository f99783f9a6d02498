package console

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"

	"golang.org/x/term"
)

// echo answers with what it heard, lines joined by a bar.
type echo struct{ heard []string }

func (e *echo) Reply(text string) string {
	e.heard = append(e.heard, text)
	return "heard " + strings.ReplaceAll(text, "\n", "|")
}

func TestPlain(t *testing.T) {
	for _, c := range []struct {
		name, in string
		heard    []string
	}{
		{"Nothing", "", nil},
		{"OnlyBlankLines", "\n\n  \n", nil},
		{"OneLine", "sodium in salt\n", []string{"sodium in salt"}},
		{"WithoutNewlineAtTheEnd", "a\nb", []string{"a\nb"}},
		{"BlankLineEndsAMessage", "a\nb\n\nc\n", []string{"a\nb", "c"}},
		{"SpacesAreABlankLine", "a\n \t\nb\n", []string{"a", "b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var talk echo
			var out bytes.Buffer
			if err := Plain(strings.NewReader(c.in), &out, &talk); err != nil {
				t.Fatal(err)
			}
			if strings.Join(talk.heard, "§") != strings.Join(c.heard, "§") {
				t.Errorf("heard %q, want %q", talk.heard, c.heard)
			}
			if n := strings.Count(out.String(), "heard "); n != len(c.heard) {
				t.Errorf("%d replies written, want %d", n, len(c.heard))
			}
		})
	}
}

func TestPlainLineTooLong(t *testing.T) {
	if err := Plain(strings.NewReader(strings.Repeat("x", 1<<20)), io.Discard, &echo{}); err == nil {
		t.Error("a line of 1 MB gave no error")
	}
}

// keyboard hands out lines; those that begin with "paste:" were pasted.
type keyboard struct {
	lines   []string
	prompts []string
	bytes.Buffer
}

func (k *keyboard) ReadLine() (string, error) {
	if len(k.lines) == 0 {
		return "", io.EOF
	}
	line := k.lines[0]
	k.lines = k.lines[1:]
	if pasted, ok := strings.CutPrefix(line, "paste:"); ok {
		return pasted, term.ErrPasteIndicator
	}
	if line == "fail" {
		return "", errors.New("no terminal")
	}
	return line, nil
}

func (k *keyboard) SetPrompt(p string) { k.prompts = append(k.prompts, p) }

func TestConverse(t *testing.T) {
	for _, c := range []struct {
		name  string
		lines []string
		heard []string
	}{
		{"Typed", []string{"help", "1 banana"}, []string{"help", "1 banana"}},
		{"EmptyLinesSayNothing", []string{"", " ", "help"}, []string{"help"}},
		{"PastedWhole", []string{"paste:Soup", "paste:", "paste:1 cup milk", ""}, []string{"Soup\n\n1 cup milk"}},
		{"LastLineOfAPasteHasNoNewline", []string{"paste:Soup", "1 cup milk"}, []string{"Soup\n1 cup milk"}},
		{"TypingAfterAPaste", []string{"paste:a", "", "servings 6"}, []string{"a", "servings 6"}},
		{"RecipeTyped", []string{"recipe", "Soup", "1 cup milk", "", "help"}, []string{"Soup\n1 cup milk", "help"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var talk echo
			k := &keyboard{lines: c.lines}
			if err := converse(k, &talk); err != nil {
				t.Fatal(err)
			}
			if strings.Join(talk.heard, "§") != strings.Join(c.heard, "§") {
				t.Errorf("heard %q, want %q", talk.heard, c.heard)
			}
			if !strings.HasPrefix(k.String(), "pottle.") {
				t.Error("no greeting")
			}
		})
	}
}

func TestConverseFails(t *testing.T) {
	if err := converse(&keyboard{lines: []string{"fail"}}, &echo{}); err == nil || !strings.Contains(err.Error(), "read the terminal") {
		t.Errorf("error %v, want one that says reading the terminal failed", err)
	}
}
