// Package slackfake is a small Slack on the loopback, for tests: the methods of
// the Web API that pottle calls, addresses to answer commands at, and Socket
// Mode over a real websocket.
package slackfake

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
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
	Method  string
	Channel string
	Thread  string
	TS      string // of the post: given by this server, or named by the caller
	Text    string
	Blocks  string // JSON
	Unfurl  bool
	Who     string // of "respond": ephemeral or in_channel
	ID      string // of "respond": the id that ResponseURL was given
	When    time.Time
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
}

// New starts a fake; Close ends it.
func New() *Server {
	f := &Server{Calls: make(chan Call, 10_000), Acks: make(chan string, 10_000), Connected: make(chan struct{}, 10_000), tickets: make(map[string]bool), files: make(map[string]string)}
	mux := http.NewServeMux()
	mux.HandleFunc("POST /api/auth.test", func(w http.ResponseWriter, r *http.Request) {
		f.answer(w, r, Call{Method: "auth.test"}, map[string]any{"team_id": Team, "user_id": User, "bot_id": Bot})
	})
	for _, method := range []string{"chat.postMessage", "chat.update", "chat.delete"} {
		mux.HandleFunc("POST /api/"+method, f.chat(method))
	}
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
		f.answer(w, r, c, map[string]any{"channel": c.Channel, "ts": c.TS, "text": c.Text})
	}
}

// respond takes an answer at a response_url.
func (f *Server) respond(w http.ResponseWriter, r *http.Request) {
	var body struct {
		Text   string          `json:"text"`
		Who    string          `json:"response_type"`
		Blocks json.RawMessage `json:"blocks"`
	}
	if err := json.NewDecoder(r.Body).Decode(&body); err != nil {
		http.Error(w, "no JSON", http.StatusBadRequest)
		return
	}
	if f.record(w, Call{Method: "respond", ID: r.PathValue("id"), Text: body.Text, Who: body.Who, Blocks: string(body.Blocks)}) {
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

// answer answers a method, unless it is to fail.
func (f *Server) answer(w http.ResponseWriter, r *http.Request, c Call, with map[string]any) {
	if r.Header.Get("Authorization") == "" && r.FormValue("token") == "" {
		json.NewEncoder(w).Encode(map[string]any{"ok": false, "error": "not_authed"})
		return
	}
	if f.record(w, c) {
		with["ok"] = true
		json.NewEncoder(w).Encode(with)
	}
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
	if c.Method != "auth.test" {
		f.Calls <- c
	}
	return true
}
