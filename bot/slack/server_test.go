package slack

import (
	"fmt"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// TestOnce sends one event many times, at once and after the answer.
func TestOnce(t *testing.T) {
	for _, over := range []string{"http", "socket"} {
		t.Run(over, func(t *testing.T) {
			r := start(t, over, nil, nil)
			inner := slackfake.Message("D1", "U1", "1.1", "", "sodium in 1 tsp salt")
			if over == "http" {
				var all sync.WaitGroup
				for range 20 {
					all.Go(func() { r.say("E1", inner) })
				}
				all.Wait()
			} else {
				for range 20 {
					r.say("E1", inner)
				}
			}
			r.call()
			r.say("E1", inner)
			r.end()
			r.quiet()
		})
	}
}

// TestOnceAfterRestart ends the server between acknowledgement and answer: the
// next one answers by itself, and no repetition that Slack sends.
func TestOnceAfterRestart(t *testing.T) {
	kept, err := store.Open(t.TempDir(), store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	inner := slackfake.Message("D1", "U1", "1.1", "", "sodium in 1 tsp salt")

	begun, never := make(chan struct{}), make(chan struct{})
	r := start(t, "http", kept, func(c *Config, s *Server) {
		c.Drain = time.Millisecond // as if it were killed
		if s != nil {
			s.worked = func(said) { close(begun); <-never }
		}
	})
	r.say("E1", inner)
	await(t, begun)
	r.end()
	close(never)
	r.quiet()
	if state, err := kept.In(slackfake.Team).SeeEvent(t.Context(), "E1"); err != nil || state != store.EventSeen {
		t.Fatalf("the event is %v, %v; want seen", state, err)
	}

	r = start(t, "http", kept, nil)
	r.call()
	r.say("E1", inner)
	r.end()
	r.quiet()
	r = start(t, "http", kept, nil)
	r.say("E1", inner)
	r.end()
	r.quiet()
}

// TestOrder says many things in one thread at once with others: within the
// thread the answers keep the order.
func TestOrder(t *testing.T) {
	r := start(t, "http", nil, nil)
	r.say("E0", slackfake.Message("D1", "U1", "1.000000", "", soup))
	r.call()
	const n = 30
	for i := 1; i <= n; i++ {
		r.say(fmt.Sprint("A", i), slackfake.Message("D1", "U1", fmt.Sprintf("1.%06d", i), "1.000000", fmt.Sprintf("servings %d", 100+i)))
		r.say(fmt.Sprint("B", i), slackfake.Message("D2", "U2", fmt.Sprintf("2.%06d", i), "", "sodium in 1 tsp salt"))
	}
	next := 1
	for range 2 * n {
		c := r.call()
		if c.Channel == "D2" {
			continue
		}
		if want := fmt.Sprintf("%d servings", 100+next); !strings.Contains(c.Text, want) {
			t.Fatalf("answer %d does not hold %q:\n%s", next, want, c.Text)
		}
		next++
	}
}

// TestPanic lets one message panic: it is told a reference, which is in the
// log; the next is answered.
func TestPanic(t *testing.T) {
	r := start(t, "http", nil, func(c *Config, s *Server) {
		if s != nil {
			s.worked = func(m said) {
				if m.user == "U13" {
					panic("what was said: " + m.text)
				}
			}
		}
	})
	r.say("E1", slackfake.Message("D1", "U13", "1.1", "", "sodium in 1 tsp miso"))
	c := r.call()
	_, ref, ok := strings.Cut(c.Text, "reference ")
	if !ok || len(ref) < 8 || !strings.Contains(r.log.String(), "reference="+ref[:8]) {
		t.Errorf("the reference is not in reply and log:\n%s\n%s", c.Text, r.log)
	}
	if strings.Contains(r.log.String(), "miso") {
		t.Error("the log holds what was said")
	}
	r.say("E2", slackfake.Message("D1", "U1", "1.2", "", "sodium in 1 tsp salt"))
	if c := r.call(); !strings.Contains(c.Text, "mg") {
		t.Errorf("the next answer: %q", c.Text)
	}
	r.say("E1", slackfake.Message("D1", "U13", "1.1", "", "sodium in 1 tsp miso"))
	r.end()
	r.quiet()
}

// TestDrain stops the server with messages acknowledged and not worked: they
// are answered, and nothing new is taken.
func TestDrain(t *testing.T) {
	for _, over := range []string{"http", "socket"} {
		t.Run(over, func(t *testing.T) {
			begun, goOn := make(chan struct{}), make(chan struct{})
			var once sync.Once
			r := start(t, over, nil, func(c *Config, s *Server) {
				c.Workers = 1
				if s != nil {
					s.worked = func(said) { once.Do(func() { close(begun) }); <-goOn }
				}
			})
			const n = 12
			for i := range n {
				r.say(fmt.Sprint("E", i), slackfake.Message(fmt.Sprint("D", i%3+1), "U1", fmt.Sprint("1.", i), "", "sodium in 1 tsp salt"))
			}
			await(t, begun)
			r.stop()
			for r.srv.gate.isClosed() == false {
				time.Sleep(time.Millisecond)
			}
			late := slackfake.Message("D1", "U1", "2.1", "", "sodium in 1 tsp salt")
			if over == "http" {
				if status, _ := r.post("/slack/events", "application/json", asJSON(slackfake.Event(slackfake.Team, "L1", late))); status != http.StatusServiceUnavailable {
					t.Errorf("a late event gets %d", status)
				}
				if got := r.get("/readyz"); got != http.StatusServiceUnavailable {
					t.Errorf("readyz is %d at shutdown", got)
				}
			} else if err := r.fake.Send(slackfake.Envelope("late", "events_api", slackfake.Event(slackfake.Team, "L1", late))); err != nil {
				t.Fatal(err)
			}
			close(goOn)
			r.end()
			for range n {
				r.call()
			}
			r.quiet()
			select {
			case id := <-r.fake.Acks:
				t.Errorf("%s was acknowledged at shutdown and is not answered", id)
			default:
			}
		})
	}
}

// TestWorkspaces: a request from another workspace, or a channel that is not
// on the list, is acknowledged and reaches nothing.
func TestWorkspaces(t *testing.T) {
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	r := start(t, "http", kept, func(c *Config, s *Server) { c.Channels = []string{"D1", "C1"} })
	r.say("E1", slackfake.Message("D1", "U1", "1.1", "", soup))
	r.call()
	r.bring("events_api", "", slackfake.Event("T2", "E2", slackfake.Message("D1", "U1", "1.2", "1.1", "what brings the sodium")))
	r.bring("slash_commands", "", slackfake.Command("T2", "D1", "U1", "help", "t1", r.fake.ResponseURL("r1")))
	r.bring("interactive", "", slackfake.Press("T2", "D1", "U1", "t2", "1.1", "x", "help", r.fake.ResponseURL("r2"), false))
	r.say("E3", slackfake.Message("D7", "U1", "1.3", "", "help"))
	r.end()
	r.quiet()
	teams, err := kept.Workspaces(t.Context())
	if err != nil || len(teams) != 1 || teams[0] != slackfake.Team {
		t.Errorf("the store holds %v, %v", teams, err)
	}

	// The same store with the same conversation id in another workspace gives
	// nothing of the first.
	other := slackfake.New()
	t.Cleanup(other.Close)
	r2 := startWith(t, other, "http", kept, nil)
	await(t, r2.srv.signedIn)
	r2.srv.enter("T2", slackfake.User, r2.srv.client("xoxb-2"))
	r2.bring("events_api", "", slackfake.Event("T2", "E4", slackfake.Message("D1", "U1", "1.4", "1.1", "what brings the sodium")))
	if c := r2.call(); !strings.Contains(c.Text, "no recipe here") {
		t.Errorf("another workspace is told: %s", c.Text)
	}
}

// TestBusy fills the server: who is too much is told so, once, and what was
// taken is answered.
func TestBusy(t *testing.T) {
	goOn := make(chan struct{})
	r := start(t, "http", nil, func(c *Config, s *Server) {
		c.Queue, c.PerUser = 4, 2
		if s != nil {
			s.worked = func(said) { <-goOn }
		}
	})
	ask := func(id, user string) {
		r.say(id, slackfake.Message("D"+user, user, "1."+id, "", "sodium in 1 tsp salt"))
	}
	ask("1", "U1")
	ask("2", "U1")
	ask("3", "U1") // one person's limit
	if c := r.call(); c.Channel != "DU1" || !strings.Contains(c.Text, "not read") {
		t.Errorf("got %q in %s", c.Text, c.Channel)
	}
	for end := time.Now().Add(patience); r.srv.gate.inside() > 2; time.Sleep(time.Millisecond) { // who is told stays until that is on record
		if time.Now().After(end) {
			t.Fatal("the one that was told does not leave")
		}
	}
	ask("4", "U2")
	ask("5", "U3")
	ask("6", "U4") // the limit of all
	if c := r.call(); c.Channel != "DU4" || !strings.Contains(c.Text, "not read") {
		t.Errorf("got %q in %s", c.Text, c.Channel)
	}
	close(goOn)
	for range 4 {
		if c := r.call(); !strings.Contains(c.Text, "mg") {
			t.Errorf("got %q in %s", c.Text, c.Channel)
		}
	}
	ask("3", "U1")
	ask("6", "U4")
	r.end()
	r.quiet()
}

// TestWait: after a 429 a post is made again when Slack said; without its blocks
// if Slack does not take them; after other refusals it is not.
func TestWait(t *testing.T) {
	var limited atomic.Int32
	r := start(t, "http", nil, func(c *Config, s *Server) {
		if s != nil {
			s.times.noHint = 10 * time.Millisecond
		}
	})
	r.fake.Fail(func(c slackfake.Call) *slackfake.Fault {
		switch {
		case c.Channel == "D1" && limited.Add(1) == 1:
			return &slackfake.Fault{Status: http.StatusTooManyRequests, RetryAfter: "1"}
		case c.Channel == "D2" && limited.Add(1) == 1:
			return &slackfake.Fault{Status: http.StatusTooManyRequests}
		case c.Channel == "D3" && limited.Add(1) == 1:
			return &slackfake.Fault{Error: "ratelimited"}
		case c.Channel == "D4":
			return &slackfake.Fault{Error: "is_archived"}
		case c.Channel == "D5" && c.Blocks != "":
			return &slackfake.Fault{Error: "invalid_blocks"}
		}
		return nil
	})
	for i, least := range []time.Duration{time.Second, 10 * time.Millisecond, 10 * time.Millisecond} {
		limited.Store(0)
		began := time.Now()
		r.say(fmt.Sprint("E", i), slackfake.Message(fmt.Sprint("D", i+1), "U1", "1.1", "", "help"))
		if c := r.call(); c.When.Sub(began) < least {
			t.Errorf("D%d: posted again after %v, not %v", i+1, c.When.Sub(began), least)
		}
	}
	before := r.fake.Faults()
	r.say("F1", slackfake.Message("D4", "U1", "1.1", "", "help"))
	r.say("F2", slackfake.Message("D5", "U1", "1.1", "", "help"))
	if c := r.call(); c.Channel != "D5" || c.Blocks != "" || c.Text == "" {
		t.Errorf("got %q in %s, blocks %q", c.Text, c.Channel, c.Blocks)
	}
	r.end()
	r.quiet()
	if n := r.fake.Faults() - before; n != 2 {
		t.Errorf("%d faults, want 2: what Slack refuses is not posted again", n)
	}
}

// TestUnsure: after a call that leaves open whether the answer was posted, it is
// posted again only if it is not there.
func TestUnsure(t *testing.T) {
	for _, c := range []struct {
		name, thread string
		fault        slackfake.Fault
		there        bool
	}{
		{"posted all the same", "", slackfake.Fault{Status: http.StatusInternalServerError}, true},
		{"posted all the same in a thread", "1.0", slackfake.Fault{Status: http.StatusBadGateway}, true},
		{"not posted", "", slackfake.Fault{Status: http.StatusInternalServerError}, false},
		{"not posted in a thread", "1.0", slackfake.Fault{Error: "fatal_error"}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := start(t, "http", nil, nil)
			var failed atomic.Int32
			r.fake.Fail(func(call slackfake.Call) *slackfake.Fault {
				if call.Method != "chat.postMessage" || failed.Add(1) > 1 {
					return nil
				}
				if c.there {
					go r.fake.Lose(call)
				}
				return &c.fault
			})
			r.say("E1", slackfake.Message("D1", "U1", "1.1", c.thread, "sodium in 1 tsp salt"))
			r.end()
			if posted := len(r.fake.Calls); posted != map[bool]int{true: 0, false: 1}[c.there] {
				t.Errorf("posted %d times more", posted)
			}
			if n := failed.Load(); n != map[bool]int32{true: 1, false: 2}[c.there] {
				t.Errorf("%d tries", n)
			}
		})
	}
}

// TestPace: posts in one channel keep their distance.
func TestPace(t *testing.T) {
	const pace = 50 * time.Millisecond
	r := start(t, "http", nil, func(c *Config, s *Server) { c.Pace = pace })
	for i := range 5 {
		r.say(fmt.Sprint("E", i), slackfake.Message("D1", "U1", fmt.Sprint("1.", i), "", "help"))
	}
	first := r.call().When
	var last time.Time
	for range 4 {
		last = r.call().When
	}
	if took := last.Sub(first); took < 4*pace-pace/2 {
		t.Errorf("5 posts in %v", took)
	}
}

// TestMany sends 1,000 messages of 200 people in 50 channels at once: all are
// answered once, in order within a thread, and in the pace of each channel.
func TestMany(t *testing.T) {
	const pace = 10 * time.Millisecond
	r := start(t, "http", nil, func(c *Config, _ *Server) { c.Pace = pace })
	var all sync.WaitGroup
	for user := range 200 {
		all.Go(func() {
			for i := range 5 {
				id := fmt.Sprintf("E%d-%d", user, i)
				r.say(id, slackfake.Mention(fmt.Sprint("C", user%50), fmt.Sprint("U", user), fmt.Sprintf("%d.%06d", user+1, i), fmt.Sprintf("%d.000000", user+1),
					fmt.Sprintf("sodium in %d tsp salt", i+1)))
			}
		})
	}
	all.Wait()
	next := make(map[string]int)
	first, last := make(map[string]time.Time), make(map[string]time.Time) // by channel
	for range 1000 {
		c := r.call()
		if first[c.Channel].IsZero() {
			first[c.Channel] = c.When
		}
		last[c.Channel] = c.When
		next[c.Thread]++
		if want := fmt.Sprintf("%d tsp", next[c.Thread]); !strings.Contains(c.Text, want) {
			t.Fatalf("answer %d in thread %s does not hold %q:\n%s", next[c.Thread], c.Thread, want, c.Text)
		}
	}
	r.end()
	r.quiet()
	for channel := range first {
		if took := last[channel].Sub(first[channel]); took < 19*pace-pace/2 { // 20 posts
			t.Errorf("channel %s: 20 posts in %v", channel, took)
		}
	}
	for thread, n := range next {
		if n != 5 {
			t.Errorf("thread %s: %d answers", thread, n)
		}
	}
}
