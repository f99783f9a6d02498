package slack

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
)

// TestRate: who has used up the first messages is kept to a rate, persons and
// workspaces each for themselves.
func TestRate(t *testing.T) {
	for _, c := range []struct {
		name             string
		perUser, perTeam int
		told             map[string]string // by team and user: what each of three messages gets, answered or not read
	}{
		{"a person", 2, 100, map[string]string{"T1/U1": "aan", "T1/U2": "aan", "T2/U1": "aan"}},
		{"a workspace", 100, 4, map[string]string{"T1/U1": "aaa", "T1/U2": "ann", "T2/U1": "aaa"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			fake := slackfake.New()
			t.Cleanup(fake.Close)
			r := startMany(t, fake, keyed(t), func(cfg *Config) {
				cfg.PerUser, cfg.PerTeam, cfg.UserRate, cfg.TeamRate = c.perUser, c.perTeam, 1, 1
			})
			r.install("T1", "xoxb-one")
			r.install("T2", "xoxb-two")
			for _, who := range []string{"T1/U1", "T1/U2", "T2/U1"} {
				team, user, _ := strings.Cut(who, "/")
				got := ""
				for n := range 3 {
					id := fmt.Sprint(who, n)
					r.bring("events_api", id, slackfake.Event(team, id, slackfake.Message("D"+user, user, fmt.Sprint("1.", n), "", "sodium in 1 tsp salt")))
					switch text := r.call().Text; {
					case strings.Contains(text, "mg"):
						got += "a"
					case strings.Contains(text, "not read"):
						got += "n"
					}
					for r.srv.gate.inside() > 0 {
						time.Sleep(time.Millisecond)
					}
				}
				if got != c.told[who] {
					t.Errorf("%s gets %q, want %q", who, got, c.told[who])
				}
			}
			r.end()
			r.quiet()
		})
	}
}

// TestFull: a workspace that has no room leaves room for others.
func TestFull(t *testing.T) {
	fake := slackfake.New()
	t.Cleanup(fake.Close)
	goOn := make(chan struct{})
	r := startMany(t, fake, keyed(t), func(cfg *Config) { cfg.PerTeam, cfg.Workers = 2, 4 })
	r.srv.worked = func(said) { <-goOn }
	r.install("T1", "xoxb-one")
	r.install("T2", "xoxb-two")
	for n, team := range []string{"T1", "T1", "T1", "T2"} {
		id := fmt.Sprint("E", n)
		r.bring("events_api", id, slackfake.Event(team, id, slackfake.Message(fmt.Sprint("D", n), fmt.Sprint("U", n), "1.1", "", "sodium in 1 tsp salt")))
	}
	if c := r.call(); c.Channel != "D2" || !strings.Contains(c.Text, "not read") {
		t.Errorf("told in %s: %s", c.Channel, c.Text)
	}
	close(goOn)
	tokens := map[string]int{}
	for range 3 {
		c := r.call()
		if !strings.Contains(c.Text, "mg") {
			t.Errorf("told in %s: %s", c.Channel, c.Text)
		}
		tokens[c.Token]++
	}
	if tokens["xoxb-one"] != 2 || tokens["xoxb-two"] != 1 {
		t.Errorf("answered with %v", tokens)
	}
	r.end()
	r.quiet()
}
