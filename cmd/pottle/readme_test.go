package main

import (
	"os"
	"strings"
	"testing"

	"pottle/bot"
)

// TestReadme holds the conversation in the README against what the program
// says now. In it "> " and two spaces begin what is said; "…" stands for any
// lines.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "```\n> ")
	if !found {
		t.Fatal("no conversation in the README")
	}
	conversation, _, _ := strings.Cut("> "+rest, "\n```")
	e, err := newEngine()
	if err != nil {
		t.Fatal(err)
	}
	talk := bot.NewConversation(e)
	var said, want []string
	said1 := false
	compare := func() {
		if len(said) == 0 {
			return
		}
		reply := strings.Split(talk.Reply(strings.Join(said, "\n")), "\n")
		at, skip := 0, false
		for _, line := range want {
			if line == "…" {
				skip = true
				continue
			}
			for skip && at < len(reply) && reply[at] != line {
				at++
			}
			skip = false
			if at >= len(reply) || reply[at] != line {
				t.Errorf("after %q the README has %q; the reply has %q", said[0], line, reply[min(at, len(reply)-1)])
				break
			}
			at++
		}
		said, want = nil, nil
	}
	exchanges := 0
	for _, line := range strings.Split(conversation, "\n") {
		switch {
		case strings.HasPrefix(line, "> "):
			for len(want) > 0 && want[len(want)-1] == "" {
				want = want[:len(want)-1]
			}
			compare()
			exchanges++
			said, said1 = []string{line[2:]}, true
		case said1 && (strings.HasPrefix(line, "  ") || line == ""):
			said = append(said, strings.TrimPrefix(line, "  "))
		default:
			said1 = false
			want = append(want, line)
		}
	}
	compare()
	if exchanges < 3 {
		t.Errorf("only %d exchanges found in the README", exchanges)
	}
}
