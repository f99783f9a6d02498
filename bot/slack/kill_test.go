package slack

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// The kill test runs this test binary as a child that serves, and kills it
// between acknowledgement and answer.

// Set in the child.
const (
	killDir   = "POTTLE_KILL_DIR"
	killKey   = "POTTLE_KILL_KEY"   // a key file, or empty
	killAPI   = "POTTLE_KILL_API"   // of the parent's Slack
	killBlock = "POTTLE_KILL_BLOCK" // never works a message, if not empty
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(killDir); dir != "" {
		if err := killChild(dir); err != nil {
			fmt.Println("fault", err)
			os.Exit(3)
		}
		return
	}
	os.Exit(m.Run())
}

// killChild serves until its input ends. It says its address, and "begun" when
// a message is worked.
func killChild(dir string) error {
	var o store.Options
	if file := os.Getenv(killKey); file != "" {
		key, err := store.ReadKey(file)
		if err != nil {
			return err
		}
		o.Key = key
	}
	kept, err := store.Open(dir, o)
	if err != nil {
		return err
	}
	defer kept.Close()
	srv, err := New(Config{
		BotToken: "xoxb-1", SigningSecret: testSecret, HTTP: true, Listen: "127.0.0.1:0", APIURL: os.Getenv(killAPI),
		Pace: time.Microsecond, Log: slog.New(slog.DiscardHandler),
	}, theEngine(), kept)
	if err != nil {
		return err
	}
	if os.Getenv(killBlock) != "" {
		srv.worked = func(said) { fmt.Println("begun"); select {} }
	}
	ctx, stop := context.WithCancel(context.Background())
	go func() { io.Copy(io.Discard, os.Stdin); stop() }()
	go func() { fmt.Println("at", <-srv.listening); <-srv.signedIn; fmt.Println("signed in") }()
	return srv.Run(ctx)
}

// child is a serving process.
type child struct {
	t     *testing.T
	cmd   *exec.Cmd
	stdin io.Closer
	lines *bufio.Scanner
	begun bool // it said so while another line was waited for
}

// serve starts a child and waits until it takes messages.
func (r *rig) serve(dir, keyFile, block string) *child {
	r.t.Helper()
	c := &child{t: r.t, cmd: exec.Command(os.Args[0])}
	c.cmd.Env = append(os.Environ(), killDir+"="+dir, killKey+"="+keyFile, killAPI+"="+r.fake.APIURL(), killBlock+"="+block)
	c.cmd.Stderr = os.Stderr
	stdin, err := c.cmd.StdinPipe()
	if err != nil {
		r.t.Fatal(err)
	}
	stdout, err := c.cmd.StdoutPipe()
	if err != nil {
		r.t.Fatal(err)
	}
	c.stdin, c.lines = stdin, bufio.NewScanner(stdout)
	if err := c.cmd.Start(); err != nil {
		r.t.Fatal(err)
	}
	r.t.Cleanup(func() { c.cmd.Process.Kill() }) // no harm if it has ended
	r.at = c.hear("at")
	c.hear("signed in")
	return c
}

// hear waits for a line of the child, past those that say that a message is
// worked, and returns what follows word.
func (c *child) hear(word string) string {
	c.t.Helper()
	timer := time.AfterFunc(patience, func() { c.cmd.Process.Kill() })
	defer timer.Stop()
	if word == "begun" && c.begun {
		return ""
	}
	for c.lines.Scan() {
		if rest, ok := strings.CutPrefix(c.lines.Text(), word); ok {
			return strings.TrimSpace(rest)
		}
		if c.lines.Text() != "begun" {
			break
		}
		c.begun = true
	}
	c.t.Fatalf("the child says %q, not %q", c.lines.Text(), word)
	return ""
}

func (c *child) kill() {
	c.t.Helper()
	if err := c.cmd.Process.Kill(); err != nil {
		c.t.Fatal(err)
	}
	if err := c.cmd.Wait(); err == nil {
		c.t.Fatal("the child was not killed")
	}
}

// end ends a child in peace: what it took is answered.
func (c *child) end() {
	c.t.Helper()
	c.stdin.Close()
	if err := c.cmd.Wait(); err != nil {
		c.t.Fatal(err)
	}
}

// TestKill kills a server that has acknowledged and not answered. The next one
// answers by itself, once, in order; Slack's repetitions are not answered.
func TestKill(t *testing.T) {
	key, err := store.NewKey()
	if err != nil {
		t.Fatal(err)
	}
	keyFile := filepath.Join(t.TempDir(), "key")
	if err := key.WriteFile(keyFile); err != nil {
		t.Fatal(err)
	}
	for name, file := range map[string]string{"plain": "", "encrypted": keyFile} {
		t.Run(name, func(t *testing.T) {
			fake := slackfake.New()
			defer fake.Close()
			r, dir := &rig{t: t, fake: fake}, t.TempDir()
			const n = 4
			sayAll := func() {
				for i := 1; i <= n; i++ {
					inner := slackfake.Message("D1", "U1", fmt.Sprint("1.", i), "1.0", fmt.Sprintf("sodium in %d tsp salt", i))
					id := fmt.Sprint("E", 20-i) // not in the order of arrival
					if status, answer := r.post(eventsPath, "application/json", asJSON(slackfake.Event(slackfake.Team, id, inner))); status != http.StatusOK {
						t.Fatalf("%s: status %d, %s", id, status, answer)
					}
				}
				command := slackfake.Command(slackfake.Team, "C1", "U2", "sodium in 9 tsp salt", "t1", fake.ResponseURL("r1"))
				if status, answer := r.post(commandsPath, "application/x-www-form-urlencoded", command.Encode()); status != http.StatusOK {
					t.Fatalf("command: status %d, %s", status, answer)
				}
			}
			c := r.serve(dir, file, "block")
			sayAll()
			c.hear("begun")
			c.kill()
			c = r.serve(dir, file, "block") // and again, when it had begun to answer
			c.hear("begun")
			c.kill()
			r.quiet()

			c = r.serve(dir, file, "")
			next, private := 1, 0
			for next <= n {
				call := r.call()
				if call.Method == "respond" { // to the command
					private++
					continue
				}
				if want := fmt.Sprintf("%d tsp", next); call.Channel != "D1" || call.Thread != "1.0" || !strings.Contains(call.Text, want) {
					t.Fatalf("answer %d in %s %s: %q", next, call.Channel, call.Thread, call.Text)
				}
				next++
			}
			sayAll()
			c.end()
			for len(fake.Calls) > 0 {
				if call := r.call(); call.Method != "respond" {
					t.Errorf("answered twice: %q", call.Text)
				} else {
					private++
				}
			}
			if private != 2 { // the answer and the button to share it
				t.Errorf("%d posts to answer the command", private)
			}
			r.serve(dir, file, "").end()
			r.quiet()

			kept, err := store.Open(dir, store.Options{Key: map[bool]*store.Key{true: key}[file != ""]})
			if err != nil {
				t.Fatal(err)
			}
			defer kept.Close()
			if list, err := kept.In(slackfake.Team).UnfinishedEvents(t.Context()); err != nil || len(list) > 0 {
				t.Errorf("%d unfinished, %v", len(list), err)
			}
		})
	}
}

// TestWorkedOnce ends the server between work and post: the next one posts the
// answer and does not work the message again, as that might change things twice.
func TestWorkedOnce(t *testing.T) {
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	r := start(t, "http", kept, func(c *Config, _ *Server) { c.Drain = time.Millisecond })
	r.fake.Fail(func(slackfake.Call) *slackfake.Fault {
		return &slackfake.Fault{Status: http.StatusTooManyRequests, RetryAfter: "1000"}
	})
	r.say("E1", slackfake.Message("D1", "U1", "1.1", "", "sodium in 1 tsp salt"))
	for end := time.Now().Add(patience); r.fake.Faults() == 0; time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("nothing is posted")
		}
	}
	r.end()
	r.quiet()
	r = start(t, "http", kept, func(_ *Config, s *Server) {
		if s != nil {
			s.worked = func(said) { t.Error("worked again") }
		}
	})
	if c := r.call(); c.Channel != "D1" || !strings.Contains(c.Text, "1 tsp salt") {
		t.Errorf("told %q in %s", c.Text, c.Channel)
	}
	r.end()
	r.quiet()
}

// TestPostedOnce ends the server between post and record: the next one finds the
// answer and does not post it again.
func TestPostedOnce(t *testing.T) {
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	r := start(t, "http", kept, func(c *Config, _ *Server) { c.Drain = time.Millisecond })
	tried := make(chan slackfake.Call, 10)
	r.fake.Fail(func(c slackfake.Call) *slackfake.Fault {
		tried <- c
		return &slackfake.Fault{Status: http.StatusTooManyRequests, RetryAfter: "1000"}
	})
	r.say("E1", slackfake.Message("C1", "U1", "1.1", "", "not for pottle"))
	r.say("E2", slackfake.Mention("C1", "U1", "1.2", "", "sodium in 1 tsp salt"))
	posted := await(t, tried)
	r.end()
	for _, c := range []struct {
		thread string
		times  int
	}{{"1.7", 1}, {"1.2", 0}} { // in another thread it is another answer
		fake := slackfake.New()
		defer fake.Close()
		posted.Thread = c.thread
		fake.Lose(posted)
		again, err := store.OpenMemory(store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		defer again.Close()
		events, err := kept.In(slackfake.Team).UnfinishedEvents(t.Context())
		if err != nil || len(events) != 1 {
			t.Fatalf("%d unfinished, %v", len(events), err)
		}
		if _, err := again.In(slackfake.Team).KeepEvent(t.Context(), store.Event{ID: events[0].ID, Conversation: "slack/C1/1.2", Payload: events[0].Payload}); err != nil {
			t.Fatal(err)
		}
		r := startWith(t, fake, "http", again, nil)
		await(t, r.srv.signedIn)
		r.end()
		if n := len(fake.Calls); n != c.times {
			t.Errorf("answer posted in %s before: posted %d times more, want %d", c.thread, n, c.times)
		}
	}
}

// TestGiveUp: a message that ends the program each time is given up in the end.
func TestGiveUp(t *testing.T) {
	kept, err := store.OpenMemory(store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	cut := func(send bool) { // ends a server while it works the message, as if it were killed
		t.Helper()
		begun, goOn := make(chan struct{}), make(chan struct{})
		r := start(t, "http", kept, func(c *Config, s *Server) {
			c.Drain = time.Millisecond
			if s != nil {
				s.worked = func(said) { close(begun); <-goOn }
			}
		})
		if send {
			r.say("E1", slackfake.Message("D1", "U1", "1.1", "", "sodium in 1 tsp salt"))
		}
		await(t, begun)
		r.end()
		close(goOn)
		r.quiet()
	}
	cut(true)
	for range mostTries {
		cut(false)
	}
	r := start(t, "http", kept, nil)
	if c := r.call(); c.Channel != "D1" || !strings.Contains(c.Text, "interrupted") {
		t.Errorf("told %q in %s", c.Text, c.Channel)
	}
	r.end()
	r = start(t, "http", kept, nil)
	r.end()
	r.quiet()
}

// TestForgetLeavesNothing looks at the raw files after "forget everything about
// this conversation": nothing of what was said in it is left, also not among
// the messages kept until they are answered.
func TestForgetLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	kept, err := store.Open(dir, store.Options{Housekeeping: -1})
	if err != nil {
		t.Fatal(err)
	}
	found := func(texts ...string) (hits []string) {
		t.Helper()
		files, err := os.ReadDir(dir)
		if err != nil || len(files) == 0 {
			t.Fatalf("%d files, %v", len(files), err)
		}
		for _, f := range files {
			data, err := os.ReadFile(filepath.Join(dir, f.Name()))
			if err != nil {
				t.Fatal(err)
			}
			for _, text := range texts {
				if strings.Contains(strings.ToLower(string(data)), strings.ToLower(text)) {
					hits = append(hits, f.Name()+": "+text)
				}
			}
		}
		return hits
	}
	r := start(t, "http", kept, nil)
	r.say("E1", slackfake.Message("D1", "U1", "1.000001", "", strings.Replace(soup, "Lentil soup", "Quittenbrot", 1)))
	r.call()
	r.say("E2", slackfake.Message("D1", "U1", "1.000002", "1.000001", "note Zwiebelkuchen"))
	r.call()
	if len(found("Quittenbrot")) == 0 || len(found("Zwiebelkuchen")) == 0 {
		t.Fatal("what was said should be there before")
	}
	r.say("E3", slackfake.Message("D1", "U1", "1.000003", "1.000001", "forget everything about this conversation"))
	if c := r.call(); !strings.Contains(c.Text, "Forgotten") {
		t.Fatalf("told %q", c.Text)
	}
	r.end()
	texts := []string{"Quittenbrot", "Zwiebelkuchen", "lentils", "forget everything", "slack/D1/1.000001"}
	if hits := found(texts...); len(hits) > 0 {
		t.Errorf("left: %q", hits)
	}
	if err := kept.Close(); err != nil {
		t.Fatal(err)
	}
	if hits := found(texts...); len(hits) > 0 {
		t.Errorf("left after closing: %q", hits)
	}
}
