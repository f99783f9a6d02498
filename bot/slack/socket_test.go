package slack

import (
	"fmt"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// TestSocketBadEnvelopes: what cannot be decoded is acknowledged all the same,
// so that Slack does not count it as a failure and send it again.
func TestSocketBadEnvelopes(t *testing.T) {
	r := start(t, "socket", nil, nil)
	for id, envelope := range map[string]map[string]any{
		"unknown event":    slackfake.Envelope("unknown event", "events_api", slackfake.Event(slackfake.Team, "E1", map[string]any{"type": "made_up"})),
		"another shape":    slackfake.Envelope("another shape", "events_api", slackfake.Event(slackfake.Team, "E2", map[string]any{"type": "message", "ts": []int{1}})),
		"unknown envelope": slackfake.Envelope("unknown envelope", "made_up", nil),
		"bad command":      slackfake.Envelope("bad command", "slash_commands", []int{1}),
		"bad interaction":  slackfake.Envelope("bad interaction", "interactive", "x"),
	} {
		if err := r.fake.Send(envelope); err != nil {
			t.Fatal(err)
		}
		if got := await(t, r.fake.Acks); got != id {
			t.Errorf("%q was acknowledged, not %q", got, id)
		}
	}
	if err := r.fake.Send([]any{"no", "envelope"}); err != nil {
		t.Fatal(err)
	}
	r.say("E3", slackfake.Message("D1", "U1", "1.1", "", "help"))
	r.call()
	r.end()
	r.quiet()
}

// TestSocketDrops closes the connections again and again, with and without a
// word: every message, sent until it is acknowledged as Slack does, is answered
// once.
func TestSocketDrops(t *testing.T) {
	r := start(t, "socket", nil, func(c *Config, s *Server) {
		if s != nil {
			s.times.quick = time.Nanosecond // these drops are no reason to hold back
		}
	})
	const n = 12
	acked := make(map[string]bool)
	for i := range n {
		id := fmt.Sprint("E", i)
		envelope := slackfake.Envelope(id, "events_api", slackfake.Event(slackfake.Team, id, slackfake.Message("D1", "U1", fmt.Sprint("1.", i), "", "help")))
		for r.fake.Send(envelope) != nil {
			await(t, r.fake.Connected)
		}
		switch i % 4 {
		case 1:
			r.fake.Drop()
		case 3:
			r.fake.Disconnect("warning")
		}
		for again := time.After(time.Second); !acked[id]; {
			select {
			case got := <-r.fake.Acks:
				acked[got] = true
			case <-again:
				for r.fake.Send(envelope) != nil {
					await(t, r.fake.Connected)
				}
				again = time.After(time.Second)
			}
		}
	}
	for range n {
		r.call()
	}
	r.end()
	r.quiet()
}

// TestSocketQuick: where each connection is closed at once, slack-go's own
// eagerness gives way to our longer waits.
func TestSocketQuick(t *testing.T) {
	fake := slackfake.New()
	t.Cleanup(fake.Close)
	r := startWith(t, fake, "socket", nil, func(c *Config, s *Server) {
		if s != nil {
			s.times.backoff = time.Hour
		}
	})
	await(t, r.srv.signedIn)
	for range 2 * (quickLimit + 1) { // of each client, then it holds back
		await(t, fake.Connected)
		fake.Drop()
	}
	wait := time.After(patience)
	for strings.Count(r.log.String(), "closes each connection soon") < 2 {
		select {
		case <-fake.Connected:
			fake.Drop()
		case <-wait:
			t.Fatalf("no end of connections:\n%s", r.log)
		case <-time.After(10 * time.Millisecond):
		}
	}
	r.end()
}

// TestTokens: a token that Slack does not accept ends the server with an error
// that names it and does not hold it.
func TestTokens(t *testing.T) {
	for method, name := range map[string]string{"auth.test": "SLACK_BOT_TOKEN", "apps.connections.open": "SLACK_APP_TOKEN"} {
		t.Run(method, func(t *testing.T) {
			fake := slackfake.New()
			t.Cleanup(fake.Close)
			fake.Fail(func(c slackfake.Call) *slackfake.Fault {
				if c.Method == method {
					return &slackfake.Fault{Error: "invalid_auth"}
				}
				return nil
			})
			memory, err := store.OpenMemory(store.Options{})
			if err != nil {
				t.Fatal(err)
			}
			defer memory.Close()
			srv, err := New(Config{BotToken: "xoxb-1", AppToken: "xapp-1", APIURL: fake.APIURL()}, theEngine(), memory)
			if err != nil {
				t.Fatal(err)
			}
			err = srv.Run(t.Context())
			if err == nil || !strings.Contains(err.Error(), name) || strings.Contains(err.Error(), "xoxb-1") || strings.Contains(err.Error(), "xapp-1") {
				t.Errorf("Run: %v", err)
			}
		})
	}
}

// TestSocketSlowWork: acknowledgements do not wait for work.
func TestSocketSlowWork(t *testing.T) {
	goOn := make(chan struct{})
	var worked atomic.Int32
	r := start(t, "socket", nil, func(c *Config, s *Server) {
		if s != nil {
			s.worked = func(said) { worked.Add(1); <-goOn }
		}
	})
	for i := range 100 { // more than slack-go's buffers hold
		r.say(fmt.Sprint("E", i), slackfake.Message(fmt.Sprint("D", i), fmt.Sprint("U", i), "1.1", "", "help"))
	}
	close(goOn)
	for range 100 {
		r.call()
	}
	r.end()
	r.quiet()
}
