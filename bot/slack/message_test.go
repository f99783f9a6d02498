package slack

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/slack-go/slack"

	"pottle/bot"
	"pottle/engine"
	"pottle/fooddata"
)

// overview is a reply as the conversation gives it.
const overview = `Chicken soup
6 servings, each 164 g as assembled

                              % DV
Energy              129 kcal
Carbohydrate           0.4 g   <1%
  Choices of 15 g     16 1/2
  Fibre, at least      0.0 g    0%
    added          no figure
Sodium, at least   23,590 mg >999%
Carbohydrate, at least 1,129,000 g
Vitamin D             0.1 µg   <1%

Energy from carbohydrate 1 %, protein 53 %, fat 45 %.

Assumed:
line 1  chicken broth: regular chicken broth, 498 g
line 3  butter: salted butter, 28 g
To correct one, say "line 1 is homemade chicken stock".

What would help, for a serving:
1  Use 2 cups canned low-sodium chicken broth instead of chicken broth: sodium 590 → 306 mg
2  Use 1/4 tsp salt instead of 1/2 tsp: sodium 590 → 493 mg
Say "apply 1", or "suggest" for more.

` + bot.Reminder

func TestMessagesOverview(t *testing.T) {
	posts := Messages(overview)
	if len(posts) != 1 {
		t.Fatalf("%d posts, want 1", len(posts))
	}
	m := posts[0]
	var kinds []string
	for _, b := range m.Blocks {
		switch b := b.(type) {
		case *slack.ActionBlock:
			kinds = append(kinds, "buttons")
		case *slack.SectionBlock:
			if strings.HasPrefix(b.Text.Text, codeFence) {
				kinds = append(kinds, "figures")
			} else {
				kinds = append(kinds, "text")
			}
		}
	}
	if got, want := strings.Join(kinds, " "), "text figures text buttons text"; got != want {
		t.Errorf("blocks are %s, want %s", got, want)
	}
	figures := m.Blocks[1].(*slack.SectionBlock).Text.Text
	for _, line := range []string{"% DV\nEnergy", "Carbohydrate           0.4 g   &lt;1%\n", "\nCarbohydrate, at least 1,129,000 g\n", "Vitamin D             0.1 µg   &lt;1%\n```"} {
		if !strings.Contains(figures, line) {
			t.Errorf("the figures lack %q:\n%s", line, figures)
		}
	}
	var said []string
	for _, e := range m.Blocks[3].(*slack.ActionBlock).Elements.ElementSet {
		b := e.(*slack.ButtonBlockElement)
		says, stands, _ := strings.Cut(b.Value, offerSign)
		if b.Text.Text != "Apply "+strings.TrimPrefix(says, "apply ") || stands == "" || !strings.HasPrefix(b.ActionID, actionSay) {
			t.Errorf("button %q with the id %q says %q", b.Text.Text, b.ActionID, b.Value)
		}
		said = append(said, says)
	}
	if got, want := strings.Join(said, ", "), "apply 1, apply 2"; got != want {
		t.Errorf("the buttons say %q, want %q", got, want)
	}
	checkPosts(t, overview, posts)
}

func TestChoices(t *testing.T) {
	for _, c := range []struct{ name, lines, want string }{
		{"two and all", "1  Use oil\n   also less\n2. Use milk\nSay \"apply 1\", \"apply 1 and 2\" or \"apply all\".", "apply 1,apply 2,apply all"},
		{"one", "1  Use oil\nSay \"apply 1\" to make it.", "apply 1"},
		{"no offer", "1  2 cups broth\n   broth, 498 g\n2  1 lb chicken", ""},
		{"out of order", "2  Use milk\n1  Use oil\nSay \"apply 1\".", "apply 1"},
		{"the help", "  suggest / cut sodium / more fibre / apply 1", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			lines := strings.Split(c.lines, "\n")
			found := choices(lines)
			var said []string
			for i := range lines {
				if f, ok := found[i]; ok {
					says, _, _ := strings.Cut(f.says, offerSign)
					said = append(said, says)
				}
			}
			if got := strings.Join(said, ","); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestAligned(t *testing.T) {
	for _, c := range []struct {
		name, text string
		figures    int // lines
	}{
		{"label", "Rounded as for a declaration (21 CFR 101.9(c)), for a serving:\nServings                   6\nCalories            130 kcal\n  Trans            not known\nIron                  0.7 mg    4%\nCalculated from tables: a label on a package needs more than this.", 4},
		{"versions", "Energy              129 → 137 kcal\nCarbohydrate           0.4 → 1.0 g\nSaturated              3.0 → 3.2 g", 3},
		{"against the original", "A serving of the original, then of this version:\nEnergy kcal       129    137   +6%\nCarbohydrate g     0.4    1.0 +162%\nFibre g           0.0    0.0\nEnergy: broth → low-sodium broth +8 kcal", 3},
		{"two foods", "First banana, then orange:\nEnergy, kcal         105        62\nFibre, g             3.1       3.1\n    added, g   no figure       0.0\nBanana, 118 g (USDA 09040)", 3},
		{"lines of a recipe", "1  2 cups chicken broth\n   broth (USDA 06194), 498 g\n2  1 lb chicken\n3  2 tbsp butter, 28 g", 0},
		{"what brings", "Sodium in a serving: 306 mg\nline 4  salt: 194 mg, 63 %\nline 2  chicken: 58 mg, 19 %\nline 3  butter: 30 mg, 10 %", 0},
		{"one row", "Sodium                 303 → 12 mg", 1},
		{"two rows and a cause", "Sodium                 303 → 12 mg\nCalcium                 62 → 61 mg\nSodium: potato → cauliflower +36 mg", 2},
		{"a pair", "Energy  1 kcal\nFat  2 g", 0},
		{"prose", "Sodium 1 mg\nEnergy 5 kcal\nServes 6\nBake at 350", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := 0
			for _, is := range aligned(strings.Split(c.text, "\n")) {
				if is {
					n++
				}
			}
			if n != c.figures {
				t.Errorf("%d lines of figures, want %d", n, c.figures)
			}
		})
	}
}

// TestMessagesOfConversation keeps the posts in step with how the conversation
// sets its figures.
func TestMessagesOfConversation(t *testing.T) {
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	talk := bot.NewConversation(engine.New(table, engine.Options{}))
	const recipe = "Chicken soup\nServes 6\n2 cups chicken broth\n1 lb chicken\n2 tbsp butter\n1/2 tsp salt\n1 cup rice"
	for _, c := range []struct {
		say     string
		figures int // least lines in code blocks
		buttons int
	}{
		{recipe, 14, 3}, {"label", 15, 0}, {"warnings", 0, 0}, {"lines", 0, 0}, {"suggest", 0, 3}, {"apply 1", 5, 0},
		{"compare with the original", 10, 0}, {"what changed", 5, 0}, {"what brings the sodium", 0, 0},
		{"banana vs orange", 14, 0}, {"help", 0, 0}, {"sodium in 1/4 tsp salt", 0, 0},
		{"make it dairy-free", 0, 1}, {"servings 100000", 0, 0}, {"servings 1", 14, 0},
	} {
		t.Run(c.say, func(t *testing.T) {
			reply := talk.Reply(c.say)
			posts := Messages(reply)
			checkPosts(t, reply, posts)
			figures, buttons := 0, 0
			for _, m := range posts {
				for _, b := range m.Blocks {
					switch b := b.(type) {
					case *slack.ActionBlock:
						buttons += len(b.Elements.ElementSet)
					case *slack.SectionBlock:
						inside, code := strings.CutPrefix(b.Text.Text, codeFence+"\n")
						for line := range strings.SplitSeq(strings.TrimSuffix(inside, "\n"+codeFence), "\n") {
							line = unescaper.Replace(line)
							switch {
							case code && utf8.RuneCountInString(line) > 35: // 34, and 35 in a comparison
								t.Errorf("%q is wider than a phone", line)
							case code:
								figures++
							case strings.Contains(strings.TrimLeft(line, " "), "   "):
								t.Errorf("%q stands outside a code block", line)
							}
						}
					}
				}
			}
			if figures < c.figures || c.figures == 0 && figures > 0 || buttons < c.buttons || c.buttons == 0 && buttons > 0 {
				t.Errorf("%d lines of figures and %d buttons, want %d and %d:\n%s", figures, buttons, c.figures, c.buttons, reply)
			}
		})
	}
}

// TestMessagesOfTranscripts posts the replies of all transcripts of the
// conversation.
func TestMessagesOfTranscripts(t *testing.T) {
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	e := engine.New(table, engine.Options{})
	files, err := filepath.Glob("../testdata/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	column := regexp.MustCompile(`\S {3,}\S`)
	replies := 0
	for _, file := range files {
		transcript, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		talk := bot.NewConversation(e)
		var said []string
		for line := range strings.SplitSeq(string(transcript)+"\n", "\n") {
			if typed, ok := strings.CutPrefix(line, "> "); ok {
				said = append(said, typed)
				continue
			}
			if said == nil {
				continue
			}
			reply := talk.Reply(strings.Join(said, "\n"))
			said = nil
			replies++
			posts := Messages(reply)
			checkPosts(t, reply, posts)
			for _, m := range posts {
				outside := strings.Split(m.Text, codeFence) // every other one
				for i := 0; i < len(outside); i += 2 {
					if found := column.FindString(outside[i]); found != "" {
						t.Errorf("%s: %q stands outside a code block", file, found)
					}
				}
			}
			if t.Failed() {
				t.Fatalf("%s: of the reply\n%s", file, reply)
			}
		}
	}
	if replies < 300 {
		t.Errorf("only %d replies", replies)
	}
}

// checkPosts checks what must hold of the posts of any reply.
func checkPosts(t *testing.T, reply string, posts []Message) {
	t.Helper()
	var all strings.Builder
	for i, m := range posts {
		where := fmt.Sprintf("post %d of %d", i+1, len(posts))
		if n := utf8.RuneCountInString(m.Text); n > 4000 {
			t.Errorf("%s: %d characters of text, %d bytes", where, n, len(m.Text))
		}
		if len(m.Blocks) > 50 {
			t.Errorf("%s: %d blocks", where, len(m.Blocks))
		}
		if !strings.HasSuffix(m.Text, reminder) || strings.Count(m.Text, reminder) != 1 {
			t.Errorf("%s: the reminder does not stand at its end once", where)
		}
		if strings.Count(m.Text, codeFence)%2 != 0 || strings.Contains(strings.ReplaceAll(m.Text, codeFence, ""), "`") {
			t.Errorf("%s: backticks beyond its fences", where)
		}
		total := 0
		var shown strings.Builder
		ids := make(map[string]bool)
		for _, b := range m.Blocks {
			switch b := b.(type) {
			case *slack.SectionBlock:
				n := utf8.RuneCountInString(b.Text.Text)
				if total += n; n > 2900 || n == 0 {
					t.Errorf("%s: %d characters in a section", where, n)
				}
				if strings.Count(b.Text.Text, codeFence)%2 != 0 {
					t.Errorf("%s: a block of code is open", where)
				}
				shown.WriteString(b.Text.Text + " ")
			case *slack.ActionBlock:
				if n := len(b.Elements.ElementSet); n == 0 || n > 25 {
					t.Errorf("%s: %d buttons in a block", where, n)
				}
				for _, e := range b.Elements.ElementSet {
					e := e.(*slack.ButtonBlockElement)
					if ids[e.ActionID] {
						t.Errorf("%s: two buttons %q", where, e.ActionID)
					}
					ids[e.ActionID] = true
					total += len(e.Text.Text) + len(e.Value)
					if utf8.RuneCountInString(e.Text.Text) > 75 || utf8.RuneCountInString(e.AccessibilityLabel) > 75 || len(e.Value) > 2000 {
						t.Errorf("%s: button %+v is too long", where, e)
					}
				}
			default:
				t.Errorf("%s: a block %T", where, b)
			}
		}
		if total > 12000 {
			t.Errorf("%s: %d characters in its blocks", where, total)
		}
		if got, want := plain(shown.String()), plain(m.Text); got != want {
			t.Errorf("%s: blocks and text differ:\n%q\n%q", where, got, want)
		}
		for _, r := range strings.NewReplacer("&amp;", "", "&lt;", "", "&gt;", "").Replace(m.Text) {
			if r == '&' || r == '<' || r == '>' {
				t.Fatalf("%s: %q is not escaped", where, r)
			}
		}
		all.WriteString(strings.TrimSuffix(m.Text, reminder))
		if _, err := json.Marshal(m.Blocks); err != nil {
			t.Errorf("%s: %v", where, err)
		}
	}
	said := strings.NewReplacer(bot.Reminder, "", "\x00", "").Replace(strings.ToValidUTF8(reply, "\ufffd"))
	if got, want := plain(all.String()), plain(said); got != want {
		i := 0
		for i < min(len(got), len(want)) && got[i] == want[i] {
			i++
		}
		t.Errorf("what is posted differs from the reply:\n%.200q\n%.200q", got[i:], want[i:])
	}
}

// plain is text without escapes, fences and spaces.
func plain(s string) string {
	s = tidy(unescaper.Replace(strings.ReplaceAll(s, codeFence, "")))
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "`", "")), "")
}

func TestMessagesAny(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	bits := []string{"Energy              129 kcal", "  Fibre                0.0 g    0%", "Say \"apply 1\" or \"apply all\".", "1  Use <oil> & \"milk\"", "2  Use ``` instead",
		"line 3  butter: salted butter", "", "", strings.Repeat("word ", 300), strings.Repeat("&", 3000), strings.Repeat("é", 5000), bot.Reminder, "> 5 g", "*a* _b_ ~c~ `d`"}
	for range 100 {
		var lines []string
		for range rng.IntN(60) {
			lines = append(lines, bits[rng.IntN(len(bits))])
		}
		reply := strings.Join(lines, "\n")
		checkPosts(t, reply, Messages(reply))
		if t.Failed() {
			t.Fatalf("of a reply of the lines %.60q", lines)
		}
	}
}

func TestMessagesDivides(t *testing.T) {
	paragraph := strings.TrimSpace(strings.Repeat("A sentence of a paragraph. ", 60)) // 1,619 characters
	posts := Messages(strings.Join([]string{paragraph, paragraph, paragraph}, "\n\n"))
	if len(posts) != 2 {
		t.Fatalf("%d posts, want 2", len(posts))
	}
	for i, m := range posts {
		if n := strings.Count(m.Text, paragraph); n != 2-i {
			t.Errorf("post %d holds %d whole paragraphs, want %d", i+1, n, 2-i)
		}
	}
	if posts := Messages(""); len(posts) != 1 || posts[0].Text != reminder {
		t.Errorf("an empty reply is %+v", posts)
	}
}

func FuzzMessages(f *testing.F) {
	f.Add(overview)
	f.Add("a\n\n" + strings.Repeat("<", 5000))
	f.Add("```\n1  x\nSay \"apply 1\"")
	f.Fuzz(func(t *testing.T, reply string) {
		if strings.ContainsFunc(reply, odd) || strings.Contains(reply, bot.Reminder) && reply != overview {
			return // plain changes it; the reminder inside a line stays
		}
		checkPosts(t, reply, Messages(reply))
	})
}

// odd reports characters that tidy changes.
func odd(r rune) bool { return r != 0 && tidy(string(r)) != string(r) }
