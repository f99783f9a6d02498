package slack

import (
	"strings"
	"testing"

	"pottle/bot"
	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// TestWaysIn talks to pottle in every way, over both transports.
func TestWaysIn(t *testing.T) {
	for _, over := range []string{"http", "socket"} {
		t.Run(over, func(t *testing.T) { waysIn(t, start(t, over, nil, nil)) })
	}
}

func waysIn(t *testing.T, r *rig) {
	want := func(c slackfake.Call, method, where, thread string, texts ...string) {
		t.Helper()
		got := c.Channel
		if method == "respond" {
			got = c.ID
		}
		if c.Method != method || got != where || c.Thread != thread {
			t.Errorf("got %s in %q, thread %q; want %s in %q, thread %q", c.Method, got, c.Thread, method, where, thread)
		}
		for _, text := range texts {
			if !strings.Contains(c.Text, text) {
				t.Errorf("%q is not in the answer:\n%s", text, c.Text)
			}
		}
		if c.Unfurl && c.Method == "chat.postMessage" {
			t.Error("links of an answer are unfurled")
		}
	}

	t.Log("a direct question is answered where it was asked")
	r.say("E1", slackfake.Message("D1", "U1", "1.000001", "", "sodium in 1 tsp salt"))
	want(r.call(), "chat.postMessage", "D1", "", "mg", bot.Reminder)

	t.Log("a direct recipe is answered in a thread on it")
	r.say("E2", slackfake.Message("D1", "U1", "1.000002", "", soup))
	want(r.call(), "chat.postMessage", "D1", "1.000002", "Lentil soup")

	t.Log("a reply in that thread is about the recipe")
	r.say("E3", slackfake.Message("D1", "U1", "1.000003", "1.000002", "servings 6"))
	want(r.call(), "chat.postMessage", "D1", "1.000002", "6")

	t.Log("a question outside the thread is about the last recipe")
	r.say("E4", slackfake.Message("D1", "U1", "1.000004", "", "what brings the sodium"))
	want(r.call(), "chat.postMessage", "D1", "", "salt")

	t.Log("a mention in a channel is answered in a thread")
	r.say("E5", slackfake.Mention("C1", "U1", "2.000001", "", soup))
	want(r.call(), "chat.postMessage", "C1", "2.000001", "Lentil soup")

	t.Log("a reply there needs no mention, and one with a mention is answered once")
	r.say("E6", slackfake.Message("C1", "U2", "2.000002", "2.000001", "what brings the sodium"))
	want(r.call(), "chat.postMessage", "C1", "2.000001", "salt")
	r.say("E7", slackfake.Message("C1", "U2", "2.000003", "2.000001", "<@"+slackfake.User+"> servings 8"))
	r.say("E8", slackfake.Mention("C1", "U2", "2.000003", "2.000001", "servings 8"))
	want(r.call(), "chat.postMessage", "C1", "2.000001", "8")

	t.Log("a mention alone asks for help")
	r.say("E9", slackfake.Mention("C1", "U2", "2.000004", "", ""))
	help := r.call()
	want(help, "chat.postMessage", "C1", "2.000004")

	t.Log("what is not for pottle")
	bot := slackfake.Message("D1", "U1", "3.000001", "", "sodium in 1 tsp salt")
	bot["bot_id"] = "B9"
	joined := slackfake.Message("D1", "U1", "3.000002", "", "sodium in 1 tsp salt")
	joined["subtype"] = "channel_join"
	guest := slackfake.Mention("C1", "U9", "3.000003", "", "sodium in 1 tsp salt")
	guest["user_team"] = "T2"
	for i, inner := range []map[string]any{
		bot, joined, guest,
		slackfake.Message("D1", slackfake.User, "3.000004", "", "sodium in 1 tsp salt"),
		slackfake.Message("C1", "U1", "3.000005", "", "sodium in 1 tsp salt"),
		slackfake.Message("C1", "U1", "3.000006", "3.000000", "sodium in 1 tsp salt"),
		slackfake.Message("D1", "U1", "3.000007", "", " "),
		{"type": "reaction_added", "user": "U1"},
	} {
		r.say("N"+string(rune('0'+i)), inner)
	}

	t.Log("a command is answered privately, and can be shared once, by who asked")
	r.bring("slash_commands", "S1", slackfake.Command(slackfake.Team, "C2", "U1", "sodium in 1 tsp salt", "t1", r.fake.ResponseURL("r1")))
	private := r.call()
	want(private, "respond", "r1", "", "mg")
	button := r.call()
	want(button, "respond", "r1", "", "Only you see this")
	if private.Who != "ephemeral" || button.Who != "ephemeral" {
		t.Errorf("a private answer is %q, its button %q", private.Who, button.Who)
	}
	_, value, _ := strings.Cut(button.Blocks, `"value":"`)
	value, _, _ = strings.Cut(value, `"`)
	r.bring("interactive", "S2", slackfake.Press(slackfake.Team, "C2", "U2", "t2", "", shareAction, value, r.fake.ResponseURL("r2"), true))
	want(r.call(), "respond", "r2", "", "no longer kept")
	r.bring("interactive", "S3", slackfake.Press(slackfake.Team, "C2", "U1", "t3", "", shareAction, value, r.fake.ResponseURL("r3"), true))
	shared := r.call()
	want(shared, "chat.postMessage", "C2", "")
	if shared.Text != private.Text {
		t.Errorf("shared %q, shown %q", shared.Text, private.Text)
	}
	r.bring("interactive", "S4", slackfake.Press(slackfake.Team, "C2", "U1", "t4", "", shareAction, value, r.fake.ResponseURL("r4"), true))
	want(r.call(), "respond", "r4", "", "already shared")

	t.Log("the shortcut works out somebody's message, in a thread on it")
	r.bring("interactive", "S5", slackfake.Shortcut(slackfake.Team, "C1", "U1", "t5", "4.000001", soup, r.fake.ResponseURL("r5")))
	want(r.call(), "chat.postMessage", "C1", "4.000001", "Lentil soup")

	t.Log("where the bot is not, the person is told")
	r.fake.Fail(func(c slackfake.Call) *slackfake.Fault {
		if c.Channel == "C9" {
			return &slackfake.Fault{Error: "not_in_channel"}
		}
		return nil
	})
	r.bring("interactive", "S6", slackfake.Shortcut(slackfake.Team, "C9", "U1", "t6", "4.000001", soup, r.fake.ResponseURL("r6")))
	want(r.call(), "respond", "r6", "", "/invite")
	r.bring("slash_commands", "S7", slackfake.Command(slackfake.Team, "C9", "U1", "sodium in 1 tsp salt", "t7", r.fake.ResponseURL("r7")))
	r.call()
	_, value, _ = strings.Cut(r.call().Blocks, `"value":"`)
	value, _, _ = strings.Cut(value, `"`)
	r.bring("interactive", "S8", slackfake.Press(slackfake.Team, "C9", "U1", "t8", "", shareAction, value, r.fake.ResponseURL("r8"), true))
	if c := r.call(); c.Who != "in_channel" || c.ID != "r8" {
		t.Errorf("shared as %q at %q", c.Who, c.ID)
	}

	t.Log("a button says its value in its thread")
	r.bring("interactive", "S9", slackfake.Press(slackfake.Team, "C1", "U1", "t9", "2.000001", "choose-1", "what brings the sodium", r.fake.ResponseURL("r9"), false))
	want(r.call(), "chat.postMessage", "C1", "2.000001", "salt")

	t.Log("an edited message is answered anew, in the same post")
	r.say("X1", slackfake.Message("D1", "U1", "5.000001", "", soup))
	first := r.call()
	r.say("X2", slackfake.Edited("D1", "U1", "5.000001", "", soup, strings.Replace(soup, "1 tsp salt", "3 tsp salt", 1)))
	second := r.call()
	want(second, "chat.update", "D1", "", "Lentil soup")
	if second.TS != first.TS || second.Text == first.Text {
		t.Errorf("post %s was answered anew in %s", first.TS, second.TS)
	}
	r.say("X3", slackfake.Edited("D1", "U1", "5.000001", "", soup, soup)) // nothing changed
	r.say("X4", slackfake.Edited("C1", "U1", "6.000001", "", "a", "b"))   // was never answered

	t.Log("a text file is a recipe, and a picture is not")
	file := slackfake.Message("D1", "U1", "8.000001", "", "here it is")
	file["subtype"], file["files"] = "file_share", []any{r.fake.File("F1", "text/plain", soup)}
	r.say("F1", file)
	want(r.call(), "chat.postMessage", "D1", "8.000001", "Lentil soup")
	file = slackfake.Mention("C1", "U1", "8.000002", "", "")
	file["files"] = []any{r.fake.File("F2", "text/plain", soup)}
	r.say("F2", file)
	want(r.call(), "chat.postMessage", "C1", "8.000002", "Lentil soup")
	file = slackfake.Message("D1", "U1", "8.000003", "", "")
	file["subtype"], file["files"] = "file_share", []any{r.fake.File("F3", "image/png", "x")}
	r.say("F3", file)
	want(r.call(), "chat.postMessage", "D1", "", "Paste the recipe")
	file = slackfake.Message("D1", "U1", "8.000004", "", "")
	gone := r.fake.File("F4", "text/plain", soup)
	gone["url_private_download"] = r.fake.URL + "/files/other"
	file["subtype"], file["files"] = "file_share", []any{gone}
	r.say("F4", file)
	want(r.call(), "chat.postMessage", "D1", "8.000004", "could not be read")
	file = slackfake.Message("D1", "U1", "8.000005", "", "")
	large := r.fake.File("F5", "text/plain", strings.Repeat("x", mostFile+1))
	large["size"] = 9
	file["subtype"], file["files"] = "file_share", []any{large}
	r.say("F5", file)
	want(r.call(), "chat.postMessage", "D1", "8.000005", "could not be read")

	file = slackfake.Message("C1", "U1", "8.000006", "2.000001", "")
	file["subtype"], file["files"] = "file_share", []any{r.fake.File("F6", "image/png", "x")}
	r.say("F6", file)

	t.Log("a saved recipe is on the Home tab")
	r.say("H1", slackfake.Message("D1", "U1", "5.000002", "5.000001", "save as winter soup"))
	r.call()
	r.say("H2", map[string]any{"type": "app_home_opened", "user": "U1", "channel": "D1", "tab": "home", "event_ts": "7.1"})
	home := r.call()
	want(home, "views.publish", "U1", "")
	if !strings.Contains(home.Blocks, "winter soup") {
		t.Errorf("the Home tab does not list the recipe: %s", home.Blocks)
	}
	r.say("H3", map[string]any{"type": "app_home_opened", "user": "U1", "channel": "D1", "tab": "messages", "event_ts": "7.2"})

	t.Log("talk of others in a thread of theirs is not kept, not even that it was said")
	if state, err := r.store.In(slackfake.Team).SeeEvent(t.Context(), "N5"); err != nil || state != store.EventNew {
		t.Errorf("it is %v, %v", state, err)
	}

	r.end()
	r.quiet()
	if text := r.log.String(); strings.Contains(text, "salt") || strings.Contains(text, "Lentil") || strings.Contains(text, "xoxb") {
		t.Errorf("the log holds what was said, or a token:\n%s", text)
	}
}
