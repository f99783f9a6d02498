package slack

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
)

// TestRefused sends what must not be taken: nothing of it is answered.
func TestRefused(t *testing.T) {
	r := start(t, "http", nil, nil)
	body := asJSON(slackfake.Event(slackfake.Team, "E1", slackfake.Message("D1", "U1", "1.1", "", "sodium in 1 tsp salt")))
	now := time.Now()
	for _, c := range []struct {
		name, path, body string
		at               time.Time
		secret           Secret
		status           int
	}{
		{"forged", "/slack/events", body, now, "guess", http.StatusUnauthorized},
		{"old", "/slack/events", body, now.Add(-6 * time.Minute), testSecret, http.StatusUnauthorized},
		{"future", "/slack/events", body, now.Add(6 * time.Minute), testSecret, http.StatusUnauthorized},
		{"forged command", "/slack/commands", "command=/pottle&text=help", now, "guess", http.StatusUnauthorized},
		{"forged interaction", "/slack/interactivity", "payload={}", now, "guess", http.StatusUnauthorized},
		{"no JSON", "/slack/events", "{", now, testSecret, http.StatusBadRequest},
		{"empty", "/slack/events", "", now, testSecret, http.StatusBadRequest},
		{"JSON of another shape", "/slack/events", "[1]", now, testSecret, http.StatusBadRequest},
		{"no command", "/slack/commands", "text=help", now, testSecret, http.StatusBadRequest},
		{"bad form", "/slack/commands", "command=%zz", now, testSecret, http.StatusBadRequest},
		{"no payload", "/slack/interactivity", "x=1", now, testSecret, http.StatusBadRequest},
		{"payload in the query", "/slack/interactivity?payload=%7B%7D", "x=1", now, testSecret, http.StatusBadRequest},
		{"payload no JSON", "/slack/interactivity", "payload=%7B", now, testSecret, http.StatusBadRequest},
		{"too large", "/slack/events", strings.Repeat(" ", mostBody+1), now, testSecret, http.StatusRequestEntityTooLarge},
		{"unknown event", "/slack/events", `{"type":"event_callback","team_id":"T1","event_id":"E9","event":{"type":"made_up"}}`, now, testSecret, http.StatusOK},
		{"event of another shape", "/slack/events", `{"type":"event_callback","team_id":"T1","event_id":"E9","event":{"type":"message","ts":{}}}`, now, testSecret, http.StatusOK},
		{"another path", "/slack/other", body, now, testSecret, http.StatusNotFound},
	} {
		t.Run(c.name, func(t *testing.T) {
			status, _ := r.postAt(c.path, "application/x-www-form-urlencoded", c.body, c.at, c.secret)
			if status != c.status {
				t.Errorf("status %d, want %d", status, c.status)
			}
		})
	}
	t.Run("unsigned", func(t *testing.T) {
		if status, _ := r.send("/slack/events", body, nil); status != http.StatusUnauthorized {
			t.Errorf("status %d", status)
		}
	})
	t.Run("read", func(t *testing.T) {
		if status := r.get("/slack/events"); status != http.StatusMethodNotAllowed {
			t.Errorf("status %d", status)
		}
	})
	t.Run("url verification", func(t *testing.T) {
		status, answer := r.post("/slack/events", "application/json", `{"type":"url_verification","challenge":"3eZbrw1a"}`)
		if status != http.StatusOK || answer != "3eZbrw1a" {
			t.Errorf("status %d, %q", status, answer)
		}
	})
	t.Run("replayed command", func(t *testing.T) {
		form := slackfake.Command(slackfake.Team, "C1", "U1", "help", "trigger", r.fake.ResponseURL("r1"))
		for range 3 {
			r.bring("slash_commands", "S1", form)
		}
		r.call()
		r.call() // the button
	})
	r.end()
	r.quiet()
}

func TestHealth(t *testing.T) {
	fake := slackfake.New()
	t.Cleanup(fake.Close)
	down := make(chan struct{})
	fake.Fail(func(c slackfake.Call) *slackfake.Fault {
		select {
		case <-down:
			return nil
		default:
			return &slackfake.Fault{Status: http.StatusInternalServerError}
		}
	})
	r := startWith(t, fake, "http", nil, nil)
	if got := r.get("/healthz"); got != http.StatusOK {
		t.Errorf("healthz %d", got)
	}
	if got := r.get("/readyz"); got != http.StatusServiceUnavailable {
		t.Errorf("readyz %d before Slack can be reached", got)
	}
	event := asJSON(slackfake.Event(slackfake.Team, "E1", slackfake.Message("D1", "U1", "1.1", "", "help")))
	if status, _ := r.post("/slack/events", "application/json", event); status != http.StatusServiceUnavailable {
		t.Errorf("an event gets %d before Slack can be reached", status)
	}
	close(down)
	await(t, r.srv.signedIn)
	if got := r.get("/readyz"); got != http.StatusOK {
		t.Errorf("readyz %d", got)
	}
	if status, _ := r.post("/slack/events", "application/json", event); status != http.StatusOK {
		t.Errorf("an event gets %d", status)
	}
	r.call()
}

func TestMetrics(t *testing.T) {
	r := start(t, "http", nil, func(c *Config, s *Server) { c.Listen, c.Metrics = "127.0.0.1:0", "" })
	r.say("E1", slackfake.Message("D1", "U1", "1.1", "", "help"))
	r.call()
	r.say("E1", slackfake.Message("D1", "U1", "1.1", "", "help"))
	r.end()
	families, err := r.srv.metrics.registry.Gather()
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, f := range families {
		text.WriteString(f.String())
	}
	for _, want := range []string{"pottle_messages_total", `value:"taken"`, `value:"repeated"`, "pottle_answer_seconds"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("%q is not among the metrics", want)
		}
	}
}
