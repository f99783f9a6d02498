// Package slackfake is a small Slack on the loopback, for tests: the methods of
// the Web API that pottle calls, addresses to answer commands at, and Socket
// Mode over a real websocket.
package slackfake

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"time"
)

// Names of the one workspace and of the bot in it.
const (
	Team = "T1"
	User = "UBOT"
	Bot  = "BBOT"
)

// Call is a call of a method, or with Method "respond" an answer at a
// response_url.
type Call struct {
	Method   string
	Channel  string
	Thread   string
	TS       string // of the post: given by this server, or named by the caller
	Text     string
	Blocks   string // JSON
	Unfurl   bool
	Replaces bool   // of "respond": what was answered before
	Who      string // of "respond": ephemeral or in_channel
	ID       string // of "respond": the id that ResponseURL was given
	Token    string // that the call was made with
	When     time.Time
}

// Fault is how a call fails.
type Fault struct {
	Status     int    // of HTTP; 200 if 0
	RetryAfter string // header; none if empty
	Error      string // Slack's word for it
}

// Server is the fake. Its channels are large; a test that does not read them
// need not.
type Server struct {
	*httptest.Server

	// Calls are all that succeeded, in order.
	Calls chan Call
	// Acks are the envelope ids that were acknowledged over Socket Mode.
	Acks chan string
	// Connected gets a value for each Socket Mode connection.
	Connected chan struct{}

	mu      sync.Mutex
	fault   func(Call) *Fault
	faults  int
	stamp   int
	ticket  int
	tickets map[string]bool
	sockets []*socket
	next    int
	files   map[string]string
	posted  map[string][]post // by channel
	codes   map[string]map[string]any
}

// post is a message of the bot's that stands in a channel.
type post struct{ ts, thread, text string }

// New starts a fake; Close ends it.
func New() *Server {
	f := &Server{Calls: make(chan Call, 10_000), Acks: make(chan string, 10_000), Connected: make(chan struct{}, 10_000), tickets: make(map[string]bool), files: make(map[string]string),
		posted: make(map[string][]post), codes: make(map[string]map[string]any)}
	mux := http.NewServeMux()
	mux.HandleFunc("POST /api/auth.test", func(w http.ResponseWriter, r *http.Request) {
		f.answer(w, r, Call{Method: "auth.test"}, map[string]any{"team_id": Team, "user_id": User, "bot_id": Bot})
	})
	for _, method := range []string{"chat.postMessage", "chat.update", "chat.delete"} {
		mux.HandleFunc("POST /api/"+method, f.chat(method))
	}
	for _, method := range []string{"conversations.replies", "conversations.history"} {
		mux.HandleFunc("POST /api/"+method, f.read(method))
	}
	mux.HandleFunc("POST /api/oauth.v2.access", f.access)
	mux.HandleFunc("POST /api/auth.revoke", func(w http.ResponseWriter, r *http.Request) {
		f.answer(w, r, Call{Method: "auth.revoke"}, map[string]any{"revoked": true})
	})
	mux.HandleFunc("POST /api/views.publish", f.publish)
	mux.HandleFunc("GET /files/{id}", func(w http.ResponseWriter, r *http.Request) {
		f.mu.Lock()
		text, ok := f.files[r.PathValue("id")]
		f.mu.Unlock()
		if !ok || r.Header.Get("Authorization") == "" {
			http.Redirect(w, r, "/signin", http.StatusFound)
			return
		}
		io.WriteString(w, text)
	})
	mux.HandleFunc("POST /api/apps.connections.open", f.open)
	mux.HandleFunc("POST /respond/{id}", f.respond)
	mux.HandleFunc("GET /link", f.link)
	f.Server = httptest.NewServer(mux)
	return f
}

// Close ends the fake and its connections.
func (f *Server) Close() {
	f.Drop()
	f.Server.Close()
}

// APIURL is the address of the Web API.
func (f *Server) APIURL() string { return f.URL + "/api/" }

// ResponseURL is an address to answer at; the answers come with the same id.
func (f *Server) ResponseURL(id string) string { return f.URL + "/respond/" + id }

// Fail makes calls fail for which fault gives one; nil takes it away.
func (f *Server) Fail(fault func(Call) *Fault) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.fault = fault
}

// File keeps a file and returns it as a message tells it.
func (f *Server) File(id, kind, text string) map[string]any {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.files[id] = text
	return map[string]any{"id": id, "mimetype": kind, "size": len(text), "url_private_download": f.URL + "/files/" + id}
}

// Faults is how many calls were made to fail.
func (f *Server) Faults() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.faults
}

// chat answers a method that posts, changes or removes a message.
func (f *Server) chat(method string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		c := Call{
			Method: method, Channel: r.FormValue("channel"), Thread: r.FormValue("thread_ts"), TS: r.FormValue("ts"),
			Text: r.FormValue("text"), Blocks: r.FormValue("blocks"),
			Unfurl: r.FormValue("unfurl_links") != "false" || r.FormValue("unfurl_media") != "false",
		}
		if method == "chat.postMessage" {
			f.mu.Lock()
			f.stamp++
			c.TS = fmt.Sprintf("9000000000.%06d", f.stamp)
			f.mu.Unlock()
		}
		if f.answer(w, r, c, map[string]any{"channel": c.Channel, "ts": c.TS, "text": c.Text}) {
			f.stand(c)
		}
	}
}

// stand has a call's message stand in its channel.
func (f *Server) stand(c Call) {
	f.mu.Lock()
	defer f.mu.Unlock()
	posts := slices.DeleteFunc(f.posted[c.Channel], func(p post) bool { return c.Method != "chat.postMessage" && p.ts == c.TS })
	if c.Method != "chat.delete" {
		posts = append(posts, post{c.TS, c.Thread, c.Text})
	}
	f.posted[c.Channel] = posts
}

// Lose has a message stand in a channel although the call that posted it failed,
// or as it was posted before.
func (f *Server) Lose(c Call) { f.stand(c) }

// read answers what stands in a thread or in a channel.
func (f *Server) read(method string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		messages := []any{}
		f.mu.Lock()
		for _, p := range f.posted[r.FormValue("channel")] {
			if p.thread == r.FormValue("ts") && p.ts > r.FormValue("oldest") {
				messages = append(messages, map[string]any{"type": "message", "user": User, "ts": p.ts, "thread_ts": p.thread, "text": p.text})
			}
		}
		f.mu.Unlock()
		f.answer(w, r, Call{Method: method, Channel: r.FormValue("channel"), Thread: r.FormValue("ts")}, map[string]any{"messages": messages})
	}
}

// Grant makes a code that is changed, once, for what oauth.v2.access is to
// answer.
func (f *Server) Grant(code string, access map[string]any) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.codes[code] = access
}

// access changes a code for a token.
func (f *Server) access(w http.ResponseWriter, r *http.Request) {
	code := r.FormValue("code")
	f.mu.Lock()
	access, ok := f.codes[code]
	delete(f.codes, code)
	f.mu.Unlock()
	if !ok || r.FormValue("client_id") == "" || r.FormValue("client_secret") == "" {
		json.NewEncoder(w).Encode(map[string]any{"ok": false, "error": "invalid_code"})
		return
	}
	if f.record(w, Call{Method: "oauth.v2.access", Text: r.FormValue("redirect_uri")}) {
		with := map[string]any{"ok": true}
		maps.Copy(with, access)
		json.NewEncoder(w).Encode(with)
	}
}

// respond takes an answer at a response_url.
func (f *Server) respond(w http.ResponseWriter, r *http.Request) {
	var body struct {
		Text     string          `json:"text"`
		Who      string          `json:"response_type"`
		Replaces bool            `json:"replace_original"`
		Blocks   json.RawMessage `json:"blocks"`
	}
	if err := json.NewDecoder(r.Body).Decode(&body); err != nil {
		http.Error(w, "no JSON", http.StatusBadRequest)
		return
	}
	if f.record(w, Call{Method: "respond", ID: r.PathValue("id"), Text: body.Text, Who: body.Who, Replaces: body.Replaces, Blocks: string(body.Blocks)}) {
		io.WriteString(w, "ok")
	}
}

// publish takes a Home tab; its Channel is the person it is shown to.
func (f *Server) publish(w http.ResponseWriter, r *http.Request) {
	var body struct {
		User string          `json:"user_id"`
		View json.RawMessage `json:"view"`
	}
	if err := json.NewDecoder(r.Body).Decode(&body); err != nil {
		http.Error(w, "no JSON", http.StatusBadRequest)
		return
	}
	f.answer(w, r, Call{Method: "views.publish", Channel: body.User, Blocks: string(body.View)}, map[string]any{})
}

// answer answers a method, unless it is to fail, and reports whether it did not.
func (f *Server) answer(w http.ResponseWriter, r *http.Request, c Call, with map[string]any) bool {
	c.Token = cmp.Or(strings.TrimPrefix(r.Header.Get("Authorization"), "Bearer "), r.FormValue("token"))
	if c.Token == "" {
		json.NewEncoder(w).Encode(map[string]any{"ok": false, "error": "not_authed"})
		return false
	}
	if !f.record(w, c) {
		return false
	}
	with["ok"] = true
	json.NewEncoder(w).Encode(with)
	return true
}

// record writes the fault if the call is to fail and else keeps the call.
func (f *Server) record(w http.ResponseWriter, c Call) bool {
	c.When = time.Now()
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.fault != nil {
		if fault := f.fault(c); fault != nil {
			f.faults++
			if fault.RetryAfter != "" {
				w.Header().Set("Retry-After", fault.RetryAfter)
			}
			if fault.Status != 0 {
				w.WriteHeader(fault.Status)
			}
			json.NewEncoder(w).Encode(map[string]any{"ok": false, "error": fault.Error})
			return false
		}
	}
	if c.Method != "auth.test" && !strings.HasPrefix(c.Method, "conversations.") {
		f.Calls <- c
	}
	return true
}
