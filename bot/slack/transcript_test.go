package slack

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pottle/bot"
	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// TestTranscripts says in Slack what the transcripts of the conversation say:
// each answer must be, to the last character, what the conversation itself
// replies, which the transcripts' own test examines.
func TestTranscripts(t *testing.T) {
	files, err := filepath.Glob("../testdata/*.txt")
	if err != nil || len(files) < 50 {
		t.Fatalf("%d transcripts, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			t.Parallel()
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			transcript(t, string(text))
		})
	}
}

func transcript(t *testing.T, text string) {
	memory, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer memory.Close()
	r := start(t, "http", nil, nil)
	talks := make(map[string]*bot.Conversation)
	slackEscape := strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")
	who, said, n := "U", "", 0
	say := func() {
		if said == "" {
			return
		}
		message := strings.TrimSuffix(said, "\n")
		said = ""
		talk := talks[who]
		if talk == nil {
			talk = bot.NewConversation(theEngine())
			if err := talk.Remember(t.Context(), bot.Memory{Team: memory.In(slackfake.Team), ID: "slack/D1/" + who, Who: who}); err != nil {
				t.Fatal(err)
			}
			talks[who] = talk
		}
		n++
		r.say(fmt.Sprint("E", n), slackfake.Message("D1", who, fmt.Sprint("2.", n), who, slackEscape.Replace(message)))
		for i, want := range Messages(talk.Reply(message)) {
			if got := r.call(); got.Text != want.Text {
				t.Errorf("%q\nis answered, post %d:\n%s\nby the conversation itself:\n%s", message, i+1, got.Text, want.Text)
			}
		}
	}
	for line := range strings.Lines(text) {
		sign, rest, _ := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		switch sign {
		case ">":
			said += rest + "\n"
			continue
		case "@":
			say()
			name, again := strings.CutSuffix(strings.TrimSpace(rest), " again")
			who = "U" + name
			if again {
				delete(talks, who)
			}
			continue
		}
		say()
	}
	say()
	r.end()
	r.quiet()
}
