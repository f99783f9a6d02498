package slack

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/slack-go/slack"
)

// homeText is all that a Home tab shows; it checks the limits.
func homeText(t *testing.T, view slack.HomeTabViewRequest) string {
	t.Helper()
	if len(view.Blocks.BlockSet) > homeBlocks || view.Type != slack.VTHomeTab {
		t.Errorf("%d blocks of a view %q", len(view.Blocks.BlockSet), view.Type)
	}
	var all []string
	for _, b := range view.Blocks.BlockSet {
		switch b := b.(type) {
		case *slack.SectionBlock:
			if n := utf8.RuneCountInString(b.Text.Text); n == 0 || n > sectionLimit {
				t.Errorf("a section of %d characters", n)
			}
			all = append(all, b.Text.Text)
		case *slack.HeaderBlock:
			if utf8.RuneCountInString(b.Text.Text) > 150 || b.Text.Type != slack.PlainTextType {
				t.Errorf("heading %q", b.Text.Text)
			}
			all = append(all, b.Text.Text)
		default:
			t.Errorf("a block %T", b)
		}
	}
	if _, err := json.Marshal(view); err != nil {
		t.Error(err)
	}
	return strings.Join(all, "\n")
}

func TestHome(t *testing.T) {
	text := homeText(t, Home([]string{"Rice pudding"}, []string{"Barley & bean soup", "<!channel> stew\nof the *day*"}))
	for _, want := range []string{"Serves 6", "sodium in 1 tsp soy sauce", "Rice pudding", "Barley &amp; bean soup", "&lt;!channel&gt; stew of the ∗day∗", `Say "open Barley &amp; bean soup"`, reminder} {
		if !strings.Contains(text, want) {
			t.Errorf("Home lacks %q:\n%s", want, text)
		}
	}
}

func TestHomeEmpty(t *testing.T) {
	text := homeText(t, Home(nil, nil))
	if !strings.Contains(text, "None yet.") || strings.Contains(text, "Last worked on") {
		t.Errorf("Home without recipes is:\n%s", text)
	}
}

func TestHomeMany(t *testing.T) {
	var names []string
	for i := range 5000 {
		names = append(names, fmt.Sprintf("%d %s", i, strings.Repeat("& é ", 200)))
	}
	text := homeText(t, Home(names, names))
	if strings.Count(text, "and 4950 more") != 2 || !strings.Contains(text, "49 &amp;") {
		t.Errorf("Home of many recipes is:\n%.500s", text)
	}
}
