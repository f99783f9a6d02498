package slack

import (
	"io"
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

// TestMetrics asks for /metrics as Prometheus does.
func TestMetrics(t *testing.T) {
	r := start(t, "socket", nil, func(c *Config, s *Server) { c.Listen, c.Metrics = "", "127.0.0.1:0" })
	said := map[string]string{"E1": "help", "E2": "Stew\nServes 2\n1 cup lentils\n1 cup quux\n1 cup zorb", "E3": "help"}
	for i, id := range []string{"E1", "E2", "E3", "E1"} {
		r.say(id, slackfake.Message("D1", "U13", "1."+id[1:], "", said[id]))
		if i < len(said) {
			r.call()
		}
	}
	resp, err := http.Get("http://" + r.at + "/metrics")
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil || resp.StatusCode != http.StatusOK {
		t.Fatalf("status %d, %v", resp.StatusCode, err)
	}
	for _, want := range []string{
		`pottle_messages_total{verdict="taken",way="direct"} 3`, `pottle_messages_total{verdict="repeated",way="direct"} 1`,
		"pottle_matches_asked_total 2", "pottle_cache_hits_total ", "pottle_cache_misses_total ", "pottle_slack_waits_total 0",
		`pottle_answer_seconds_bucket{way="direct",le="+Inf"}`,
	} {
		if !strings.Contains(string(body), "\n"+want) {
			t.Errorf("%q is not among the metrics:\n%s", want, body)
		}
	}
	for _, kept := range []string{"U13", "D1", "quux"} {
		if strings.Contains(string(body), kept) {
			t.Errorf("the metrics tell %q", kept)
		}
	}
	for _, path := range []string{"/", "/healthz", "/metrics/x"} {
		if got := r.get(path); got != http.StatusNotFound {
			t.Errorf("%s gives %d beside the metrics", path, got)
		}
	}
}
