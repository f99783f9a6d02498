package slack

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/slack-go/slack"
)

func TestClean(t *testing.T) {
	for _, c := range []struct{ name, sent, typed string }{
		{"escaped", "fish &amp; chips &lt; 600 kcal &gt; 2", "fish & chips < 600 kcal > 2"},
		{"unescaped once", "&amp;lt;", "&lt;"},
		{"mention of the bot", "<@U0LAN0Z89> sodium in 1 tsp salt", "sodium in 1 tsp salt"},
		{"mention with a name", "<@U0LAN0Z89|pottle> help", "help"},
		{"mention inside", "hey <@U0LAN0Z89> help", "hey help"},
		{"group", "<!subteam^S0614TZR7|@dietitians> <!here> help", "help"},
		{"channel", "in <#C024BE7LR|kitchen> and <#C024BE7LR>", "in #kitchen and"},
		{"link with a label", "<https://example.org/a?b=1&amp;c=2|the soup>", "the soup"},
		{"link", "<https://example.org/a?b=1&amp;c=2>", "https://example.org/a?b=1&c=2"},
		{"address", "<mailto:a@example.org|a@example.org> <mailto:b@example.org>", "a@example.org b@example.org"},
		{"telephone", "<tel:5551234|555-1234>", "555-1234"},
		{"date", "<!date^1392734382^{date}|18 February>", "18 February"},
		{"smart quotes", "“line 3 is 2% milk” it’s 9″", `"line 3 is 2% milk" it's 9"`},
		{"odd spaces", "1\u00a0cup\u202frice\u200b\u2009\ufeffnow", "1 cup rice now"},
		{"line ends", "1 cup rice\r\n2 eggs\u20283 apples", "1 cup rice\n2 eggs\n3 apples"},
		{"bold", "*Barley soup*", "Barley soup"},
		{"bold in a line", "*Ingredients:* 2 cups", "Ingredients: 2 cups"},
		{"bold in a list", "• *2 cups flour*", "• 2 cups flour"},
		{"italic", "_for the sauce_", "for the sauce"},
		{"struck", "~1/2 cup butter~", "1/2 cup butter"},
		{"several", "*_Barley soup_*", "Barley soup"},
		{"two in a row", "*a* *b* *c*", "a b c"},
		{"code", "`apply 1`", "apply 1"},
		{"fence", "```\n1 cup rice\n2 eggs\n```", "1 cup rice\n2 eggs"},
		{"fence on the line", "```1 cup rice\n2 eggs```", "1 cup rice\n2 eggs"},
		{"fence after words", "this: ```1 cup rice```", "this:\n1 cup rice"},
		{"fraction", "1/2 cup", "1/2 cup"},
		{"times", "2 * 3", "2 * 3"},
		{"times twice", "2 * 3 * 4", "2 * 3 * 4"},
		{"bullet", "* 2 cups flour\n* 1 egg", "* 2 cups flour\n* 1 egg"},
		{"footnotes", "2 cups flour* and 1 cup sugar*", "2 cups flour* and 1 cup sugar*"},
		{"about", "~2 cups or ~500 g", "~2 cups or ~500 g"},
		{"blank", "_ _", "_ _"},
		{"names", "snake_case_name", "snake_case_name"},
		{"less than", "5 &lt; 6 and 7 &gt; 2", "5 < 6 and 7 > 2"},
		{"not Slack's", "<b>bold</b>", "<b>bold</b>"},
		{"blank lines", "\n\na  \n\n\n\nb\n", "a\n\nb"},
		{"look-alikes", escape("`a` *b* _c_ ~d~ <&>"), "a b c ~d~ <&>"},
		{"empty", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Clean(c.sent); got != c.typed {
				t.Errorf("Clean(%q) = %q, want %q", c.sent, got, c.typed)
			}
		})
	}
}

func TestCleanKeepsRecipe(t *testing.T) {
	const typed = "Lentil soup\nServes 6\n\n1 1/2 cups lentils (about 280 g)\n2 * 400 g tins tomatoes\n1 – 2 tsp salt, to taste\n½ cup crème fraîche"
	if got := Clean(typed); got != typed {
		t.Errorf("Clean changed a plain recipe to %q", got)
	}
}

// richList is a recipe as Slack's editor sends it.
const richList = `[{"type":"rich_text","elements":[
	{"type":"rich_text_section","elements":[{"type":"user","user_id":"U1"},{"type":"text","text":" "},{"type":"text","text":"Rice pudding","style":{"bold":true}},{"type":"text","text":"\nServes 4"}]},
	{"type":"rich_text_list","style":"bullet","indent":0,"elements":[
		{"type":"rich_text_section","elements":[{"type":"text","text":"1 cup rice"}]},
		{"type":"rich_text_section","elements":[{"type":"text","text":"2 cups "},{"type":"link","url":"https://example.org","text":"milk"}]}]},
	{"type":"rich_text_list","style":"ordered","indent":1,"offset":2,"elements":[
		{"type":"rich_text_section","elements":[{"type":"text","text":"Boil"}]}]},
	{"type":"rich_text_preformatted","elements":[{"type":"text","text":"1 tsp salt\n1 “pinch” nutmeg"}]},
	{"type":"rich_text_quote","elements":[{"type":"text","text":"good & warm "},{"type":"emoji","name":"rice"}]},
	{"type":"rich_text_later","elements":[]}]}]`

func TestRichText(t *testing.T) {
	var blocks slack.Blocks
	if err := json.Unmarshal([]byte(richList), &blocks); err != nil {
		t.Fatal(err)
	}
	const want = "Rice pudding\nServes 4\n- 1 cup rice\n- 2 cups milk\n  3. Boil\n1 tsp salt\n1 \"pinch\" nutmeg\ngood & warm :rice:"
	if got := RichText(blocks.BlockSet); got != want {
		t.Errorf("RichText = %q, want %q", got, want)
	}
	if got := RichText([]slack.Block{slack.NewDividerBlock(), (*slack.RichTextBlock)(nil), nil}); got != "" {
		t.Errorf("RichText without rich text = %q", got)
	}
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"<@U1> a", "*a* _b_ ~c~ `d` ```e```", "<!date^1^{x}|y>", "&amp;lt;", "<http://a|b", "* a", "a\n\n\nb", "“x”", "\xff<@", "<|>", "<>", "*_~`*"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		once := Clean(s)
		if !utf8.ValidString(once) {
			t.Fatalf("Clean(%q) is no UTF-8", s)
		}
		if strings.ContainsAny(once, "\r\u200b\u00a0’“") {
			t.Fatalf("Clean(%q) = %q leaves an odd character", s, once)
		}
		if strings.ContainsAny(s, "<&") || strings.ContainsAny(once, "*_`") {
			return // a second pass may rightly find more
		}
		if twice := Clean(once); twice != once {
			t.Fatalf("Clean(%q) = %q, then %q", s, once, twice)
		}
	})
}

func FuzzRichText(f *testing.F) {
	f.Add([]byte(richList))
	f.Fuzz(func(t *testing.T, b []byte) {
		var blocks slack.Blocks
		if json.Unmarshal(b, &blocks) != nil {
			return
		}
		if got := RichText(blocks.BlockSet); !utf8.ValidString(got) {
			t.Fatalf("RichText of %q is no UTF-8", b)
		}
	})
}
