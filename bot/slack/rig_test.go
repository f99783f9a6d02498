package slack

import (
	"bytes"
	"context"
	"encoding/hex"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/engine"
	"pottle/fooddata"
	"pottle/store"
)

var theEngine = sync.OnceValue(func() *engine.Engine {
	table, err := fooddata.Open()
	if err != nil {
		panic(err)
	}
	return engine.New(table, engine.Options{})
})

// rig is a running server with a fake of Slack.
type rig struct {
	t     *testing.T
	fake  *slackfake.Server
	store store.Store
	srv   *Server
	log   *logBuffer
	at    string // the server's address
	stop  context.CancelFunc
	done  chan error
}

const testSecret = "s3cret"

// patience is how long a test waits for what should happen at once.
const patience = 20 * time.Second

type logBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *logBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *logBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// start starts a server over HTTP or Socket Mode; change changes its settings
// before. It is stopped at the end of the test.
func start(t *testing.T, over string, kept store.Store, change func(*Config, *Server)) *rig {
	t.Helper()
	fake := slackfake.New()
	t.Cleanup(fake.Close)
	r := startWith(t, fake, over, kept, change)
	<-r.srv.signedIn
	if over == "socket" {
		for range 2 {
			await(t, fake.Connected)
		}
	}
	return r
}

func startWith(t *testing.T, fake *slackfake.Server, over string, kept store.Store, change func(*Config, *Server)) *rig {
	t.Helper()
	if kept == nil {
		memory, err := store.OpenMemory(store.Options{})
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { memory.Close() })
		kept = memory
	}
	r := &rig{t: t, fake: fake, store: kept, log: &logBuffer{}, done: make(chan error, 1)}
	cfg := Config{
		BotToken: "xoxb-1", AppToken: "xapp-1", SigningSecret: testSecret, HTTP: over == "http", Listen: "127.0.0.1:0",
		APIURL: fake.APIURL(), Pace: time.Microsecond, Drain: patience, Log: slog.New(slog.NewTextHandler(r.log, nil)),
	}
	if change != nil {
		change(&cfg, nil)
	}
	srv, err := New(cfg, theEngine(), kept)
	if err != nil {
		t.Fatal(err)
	}
	srv.times.stagger, srv.times.backoff, srv.times.settle = time.Millisecond, 5*time.Millisecond, 50*time.Millisecond
	if change != nil {
		change(&srv.cfg, srv)
	}
	r.srv = srv
	ctx, stop := context.WithCancel(context.Background())
	r.stop = stop
	go func() { r.done <- srv.Run(ctx) }()
	select {
	case r.at = <-srv.listening:
	case err := <-r.done:
		t.Fatalf("the server ended: %v", err)
	}
	t.Cleanup(func() {
		if r.done != nil {
			r.end()
		}
	})
	return r
}

// end stops the server and waits until it has ended.
func (r *rig) end() {
	r.t.Helper()
	r.stop()
	if err := await(r.t, r.done); err != nil {
		r.t.Errorf("Run: %v", err)
	}
	r.done = nil
}

// await receives within patience.
func await[T any](t *testing.T, c <-chan T) T {
	t.Helper()
	select {
	case v := <-c:
		return v
	case <-time.After(patience):
		t.Fatal("nothing came")
		panic("unreachable")
	}
}

// post posts a body, signed now, and returns the status and the answer.
func (r *rig) post(path, kind, body string) (int, string) {
	r.t.Helper()
	return r.postAt(path, kind, body, time.Now(), testSecret)
}

func (r *rig) postAt(path, kind, body string, at time.Time, secret Secret) (int, string) {
	r.t.Helper()
	stamp := strconv.FormatInt(at.Unix(), 10)
	return r.send(path, body, map[string]string{
		"Content-Type": kind, "X-Slack-Request-Timestamp": stamp, "X-Slack-Signature": "v0=" + hex.EncodeToString(sign(stamp, []byte(body), secret)),
	})
}

func (r *rig) send(path, body string, header map[string]string) (int, string) {
	r.t.Helper()
	req, err := http.NewRequest("POST", "http://"+r.at+path, strings.NewReader(body))
	if err != nil {
		r.t.Fatal(err)
	}
	for k, v := range header {
		req.Header.Set(k, v)
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		r.t.Fatal(err)
	}
	defer resp.Body.Close()
	answer, err := io.ReadAll(resp.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	return resp.StatusCode, string(answer)
}

func (r *rig) get(path string) int {
	r.t.Helper()
	resp, err := http.Get("http://" + r.at + path)
	if err != nil {
		r.t.Fatal(err)
	}
	resp.Body.Close()
	return resp.StatusCode
}

// say sends an event over the rig's transport and waits until it is
// acknowledged.
func (r *rig) say(id string, inner map[string]any) {
	r.t.Helper()
	r.bring("events_api", id, slackfake.Event(slackfake.Team, id, inner))
}

// bring sends a request over the rig's transport and waits until it is
// acknowledged.
func (r *rig) bring(kind, id string, payload any) {
	r.t.Helper()
	if !r.srv.cfg.HTTP {
		if err := r.fake.Send(slackfake.Envelope("env-"+id, kind, payload)); err != nil {
			r.t.Fatal(err)
		}
		if got := await(r.t, r.fake.Acks); got != "env-"+id {
			r.t.Fatalf("%q was acknowledged, not %q", got, "env-"+id)
		}
		return
	}
	const form = "application/x-www-form-urlencoded"
	status, answer := 0, ""
	switch kind {
	case "events_api":
		status, answer = r.post("/slack/events", "application/json", asJSON(payload))
	case "slash_commands":
		status, answer = r.post("/slack/commands", form, payload.(url.Values).Encode())
	case "interactive":
		status, answer = r.post("/slack/interactivity", form, slackfake.Form(payload.(map[string]any)).Encode())
	}
	if status != http.StatusOK {
		r.t.Fatalf("%s %s: status %d, %s", kind, id, status, answer)
	}
}

func asJSON(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return string(b)
}

// call waits for the next call of Slack.
func (r *rig) call() slackfake.Call {
	r.t.Helper()
	return await(r.t, r.fake.Calls)
}

// quiet fails if there was a call more.
func (r *rig) quiet() {
	r.t.Helper()
	select {
	case c := <-r.fake.Calls:
		r.t.Errorf("one call too many: %s in %s %s: %q", c.Method, c.Channel, c.Thread, c.Text)
	default:
	}
}

const soup = "Lentil soup\nServes 4\n1 cup lentils\n1 tsp salt\n1 onion"
