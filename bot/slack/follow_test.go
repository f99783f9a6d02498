package slack

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// TestFollow: /pottle without a name goes on from the channel's last recipe, for
// the person who asks only, and also after a restart.
func TestFollow(t *testing.T) {
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	r := start(t, "http", kept, nil)
	n := 0
	command := func(channel, user, text string, holds ...string) {
		t.Helper()
		n++
		id := fmt.Sprint("c", n)
		r.bring("slash_commands", id, slackfake.Command(slackfake.Team, channel, user, text, id, r.fake.ResponseURL(id)))
		c := r.call()
		r.call() // the button to share
		for _, want := range holds {
			if c.Method != "respond" || c.ID != id || !strings.Contains(c.Text, want) {
				t.Errorf("/pottle %s of %s in %s: %s %s lacks %q:\n%s", text, user, channel, c.Method, c.ID, want, c.Text)
			}
		}
	}
	said := func(inner map[string]any, holds string) {
		t.Helper()
		n++
		r.say(fmt.Sprint("E", n), inner)
		if c := r.call(); !strings.Contains(c.Text, holds) {
			t.Errorf("told:\n%s\nwithout %q", c.Text, holds)
		}
	}
	stew := strings.NewReplacer("Lentil soup", "Bean stew", "Serves 4", "Serves 6", "1 onion", "2 onions").Replace(soup)

	command("C1", "U1", "scale to 24", "no recipe here")
	said(slackfake.Mention("C1", "U1", "1.000001", "", soup), "Lentil soup")
	command("C1", "U1", "scale to 24", "Lentil soup", "24")
	said(slackfake.Mention("C1", "U2", "1.000002", "1.000001", "show the lines"), "1 onion") // the thread is as it was
	command("C1", "U2", "scale to 8", "2 onions")                                            // and another person has it as it was
	command("C1", "U1", "show the lines", "6 onions")                                        // who scaled it has it scaled
	command("C2", "U1", "scale to 24", "no recipe here")                                     // it is the other channel's
	said(slackfake.Mention("C1", "U2", "1.000009", "", stew), "Bean stew")
	command("C1", "U1", "scale to 12", "Bean stew", "4 onions")
	said(slackfake.Mention("C1", "U2", "1.000010", "1.000009", "double the onion"), "onion")
	command("C1", "U1", "scale to 12", "8 onions")
	said(slackfake.Message("D1", "U1", "2.000001", "", soup), "Lentil soup")
	command("D1", "U1", "scale to 12", "3 onions")

	r.end()
	r.quiet()
	r = start(t, "http", kept, nil)
	command("C1", "U1", "show the lines", "8 onions")
	command("C1", "U3", "scale to 12", "Bean stew", "8 onions")
	said(slackfake.Message("D1", "U1", "2.000002", "", "what brings the sodium"), "salt") // outside the thread: the last recipe
	said(slackfake.Message("D1", "U1", "2.000003", "2.000001", "forget everything about this conversation"), "Forgotten")
	command("D1", "U2", "scale to 12", "no recipe here")
	r.end()
	r = start(t, "http", kept, nil)
	said(slackfake.Message("D1", "U1", "2.000004", "", "what brings the sodium"), "no recipe here")
	r.end()
	r.quiet()
}

// TestEditAfterRestart edits a message that was answered before a restart: the
// old answer changes.
func TestEditAfterRestart(t *testing.T) {
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	r := start(t, "http", kept, nil)
	r.say("E1", slackfake.Message("D1", "U1", "5.000001", "", soup))
	first := r.call()
	r.end()
	r = start(t, "http", kept, nil)
	edited := strings.Replace(soup, "1 tsp salt", "3 tsp salt", 1)
	r.say("E2", slackfake.Edited("D1", "U1", "5.000001", "", soup, edited))
	if c := r.call(); c.Method != "chat.update" || c.TS != first.TS || c.Text == first.Text {
		t.Errorf("%s of %s, was %s:\n%s", c.Method, c.TS, first.TS, c.Text)
	}
	r.say("E3", slackfake.Edited("D1", "U1", "5.000007", "", soup, edited)) // was never answered
	r.say("E4", slackfake.Edited("D2", "U1", "5.000001", "", soup, edited)) // nor this
	r.end()
	r.quiet()
}

// TestOldButtons presses buttons below suggestions that are no longer on offer.
func TestOldButtons(t *testing.T) {
	r := start(t, "http", nil, nil)
	r.say("E1", slackfake.Message("D1", "U1", "1.000001", "", soup))
	first := r.call()
	r.say("E2", slackfake.Message("D1", "U1", "1.000002", "1.000001", "more fibre"))
	second := r.call()
	values := func(blocks string) (all []string) {
		for _, after := range strings.Split(blocks, `"value":"`)[1:] {
			value, _, _ := strings.Cut(after, `"`)
			all = append(all, value)
		}
		return all
	}
	old, now := values(first.Blocks), values(second.Blocks)
	if len(old) == 0 || len(now) == 0 || old[0] == now[0] || !strings.HasPrefix(old[0], "apply 1 #") || !strings.HasPrefix(now[0], "apply 1 #") {
		t.Fatalf("the buttons say %q, then %q", old, now)
	}
	press := func(id, value, holds string) {
		t.Helper()
		r.bring("interactive", id, slackfake.Press(slackfake.Team, "D1", "U1", id, "1.000001", actionSay+"1", value, r.fake.ResponseURL(id), false))
		if c := r.call(); c.Thread != "1.000001" || !strings.Contains(c.Text, holds) {
			t.Errorf("%q is answered:\n%s\nwithout %q", value, c.Text, holds)
		}
	}
	press("P1", old[0], "no longer on offer")
	press("P2", now[0], "→")
	press("P3", now[0], "no longer on offer")
	r.end()
	r.quiet()
}

// TestBegun: work that takes long shows that it has begun; the answer takes the
// place of what shows it.
func TestBegun(t *testing.T) {
	goOn := make(chan struct{})
	slow := func(c *Config, s *Server) {
		if s != nil {
			s.times.begun = 5 // nanoseconds
			s.slow = func() { <-goOn }
		}
	}
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	r := start(t, "http", kept, slow)
	r.say("E1", slackfake.Message("D1", "U1", "1.000001", "", soup))
	shown := r.call()
	if shown.Method != "chat.postMessage" || shown.Thread != "1.000001" || !strings.Contains(shown.Text, begunText) || !strings.Contains(shown.Text, "care team") {
		t.Errorf("shown by %s in %s: %s", shown.Method, shown.Thread, shown.Text)
	}
	r.say("E2", slackfake.Message("C1", "U1", "1.000009", "1.000001", "not for pottle")) // shows nothing
	goOn <- struct{}{}
	if c := r.call(); c.Method != "chat.update" || c.TS != shown.TS || !strings.Contains(c.Text, "Lentil soup") {
		t.Errorf("answered by %s of %s: %s", c.Method, c.TS, c.Text)
	}
	r.bring("slash_commands", "t1", slackfake.Command(slackfake.Team, "C1", "U1", "sodium in 1 tsp salt", "t1", r.fake.ResponseURL("r1")))
	if c := r.call(); c.Method != "respond" || !strings.Contains(c.Text, begunText) || c.Replaces {
		t.Errorf("shown by %s: %s", c.Method, c.Text)
	}
	goOn <- struct{}{}
	if c := r.call(); c.Method != "respond" || !strings.Contains(c.Text, "2,325 mg") || !c.Replaces {
		t.Errorf("answered by %s: %s", c.Method, c.Text)
	}
	if c := r.call(); !strings.Contains(c.Text, "Only you see this") || c.Replaces {
		t.Errorf("then %s: %s", c.Method, c.Text)
	}
	r.end()
	r.quiet()

	// Killed meanwhile: the next server's answer takes the same place.
	r = start(t, "http", kept, func(c *Config, s *Server) {
		c.Drain = 1
		slow(c, s)
	})
	r.say("E3", slackfake.Message("D1", "U1", "2.000001", "", soup))
	shown = r.call()
	for end := time.Now().Add(patience); ; time.Sleep(time.Millisecond) { // until it is on record
		if _, err := kept.In(slackfake.Team).Mark(t.Context(), "begun/E3"); err == nil || time.Now().After(end) {
			break
		}
	}
	r.end()
	goOn <- struct{}{}
	r = start(t, "http", kept, nil)
	if c := r.call(); c.Method != "chat.update" || c.TS != shown.TS || !strings.Contains(c.Text, "Lentil soup") {
		t.Errorf("answered by %s of %s: %s", c.Method, c.TS, c.Text)
	}
	r.end()
	r.quiet()
}
