package slack

import (
	"strings"
	"testing"

	"github.com/slack-go/slack"

	"pottle/bot/slack/slackfake"
)

func TestWithoutStruck(t *testing.T) {
	for _, c := range []struct{ name, text, kept, struck string }{
		{"none", "Soup\n1 tsp salt", "Soup\n1 tsp salt", ""},
		{"a line", "Soup\n~1 tsp salt~\n1 onion", "Soup\n1 onion", "1 tsp salt"},
		{"a bullet", "Soup\n• ~1 tsp salt~\n- ~1 leek~\n2. ~1 egg~\n1 onion", "Soup\n1 onion", "1 tsp salt|1 leek|1 egg"},
		{"a piece", "Soup\n~2 tsp~ 1 tsp salt\n1 onion (~large~ small)", "Soup\n1 tsp salt\n1 onion ( small)", "2 tsp|large"},
		{"a piece at the end", "Soup\n1 cup cream ~or milk~", "Soup\n1 cup cream", "or milk"},
		{"about", "Soup\n~2 cups flour, ~3 eggs\n~2-~3 onions\n~ 4 leeks ~", "Soup\n~2 cups flour, ~3 eggs\n~2-~3 onions\n~ 4 leeks ~", ""},
		{"one line", "~sodium in 1 tsp salt~", "~sodium in 1 tsp salt~", ""},
		{"a piece of one line", "sodium in ~2~ 1 tsp salt", "sodium in 1 tsp salt", "2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			kept, struck := withoutStruck(c.text)
			if kept != c.kept || strings.Join(struck, "|") != c.struck {
				t.Errorf("kept %q, struck %q", kept, struck)
			}
		})
	}
}

// TestStruck: an ingredient that is struck through is left out, and the reply
// says so, whether Slack tells it as text or as rich text.
func TestStruck(t *testing.T) {
	r := start(t, "http", nil, nil)
	r.say("E1", slackfake.Message("D1", "U1", "1.1", "", strings.Replace(soup, "1 tsp salt", "~1 tsp salt~", 1)))
	plain := r.call()
	r.end()
	strike := &slack.RichTextSectionTextStyle{Strike: true}
	section := func(parts ...slack.RichTextSectionElement) *slack.RichTextSection {
		return slack.NewRichTextSection(parts...)
	}
	text, struck := typed("", slack.Blocks{BlockSet: []slack.Block{slack.NewRichTextBlock("b",
		section(slack.NewRichTextSectionTextElement("Lentil soup\nServes 4\n", nil)),
		slack.NewRichTextList(slack.RTEListBullet, 0,
			section(slack.NewRichTextSectionTextElement("1 cup lentils", nil)),
			section(slack.NewRichTextSectionTextElement("1 tsp ", strike), slack.NewRichTextSectionTextElement("salt", &slack.RichTextSectionTextStyle{Strike: true, Bold: true})),
			section(slack.NewRichTextSectionTextElement("1 onion", nil))))}})
	if strings.Contains(text, "salt") || leftOut(struck) != "Left out, because it is struck through: 1 tsp salt." {
		t.Errorf("typed %q, struck %q", text, struck)
	}
	if !strings.HasPrefix(plain.Text, "Left out, because it is struck through: 1 tsp salt.\n\nLentil soup\n4 servings") || !strings.Contains(plain.Text, "Sodium                  4 mg") {
		t.Errorf("told:\n%s", plain.Text)
	}
}
