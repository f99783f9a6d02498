package slackfake

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
)

// socket is one Socket Mode connection.
type socket struct {
	mu   sync.Mutex // of writing
	conn *websocket.Conn
}

func (s *socket) write(v any) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.conn.WriteJSON(v)
}

// open gives the address of a connection, good for one use.
func (f *Server) open(w http.ResponseWriter, r *http.Request) {
	f.mu.Lock()
	f.ticket++
	ticket := fmt.Sprint("ticket", f.ticket)
	f.tickets[ticket] = true
	f.mu.Unlock()
	if !strings.HasPrefix(r.Header.Get("Authorization"), "Bearer xapp-") {
		json.NewEncoder(w).Encode(map[string]any{"ok": false, "error": "invalid_auth"})
		return
	}
	f.mu.Lock()
	fault := f.fault
	f.mu.Unlock()
	if fault != nil {
		if bad := fault(Call{Method: "apps.connections.open"}); bad != nil {
			json.NewEncoder(w).Encode(map[string]any{"ok": false, "error": bad.Error})
			return
		}
	}
	address := "ws" + strings.TrimPrefix(f.URL, "http") + "/link?ticket=" + ticket
	json.NewEncoder(w).Encode(map[string]any{"ok": true, "url": address})
}

// The client says that it comes from api.slack.com.
var upgrader = websocket.Upgrader{CheckOrigin: func(*http.Request) bool { return true }}

// link is the websocket.
func (f *Server) link(w http.ResponseWriter, r *http.Request) {
	f.mu.Lock()
	ticket := r.URL.Query().Get("ticket")
	good := f.tickets[ticket]
	delete(f.tickets, ticket)
	f.mu.Unlock()
	if !good {
		http.Error(w, "the address was used", http.StatusForbidden)
		return
	}
	conn, err := upgrader.Upgrade(w, r, nil)
	if err != nil {
		return
	}
	s := &socket{conn: conn}
	if s.write(map[string]any{"type": "hello", "num_connections": 1}) != nil {
		return
	}
	f.mu.Lock()
	f.sockets = append(f.sockets, s)
	f.mu.Unlock()
	f.Connected <- struct{}{}
	stop := make(chan struct{})
	defer close(stop)
	go s.ping(stop)
	for {
		var ack struct {
			ID string `json:"envelope_id"`
		}
		if err := conn.ReadJSON(&ack); err != nil {
			f.forget(s)
			return
		}
		f.Acks <- ack.ID
	}
}

// ping sends pings as Slack does, so that the connection is not taken for dead.
func (s *socket) ping(stop <-chan struct{}) {
	for {
		s.mu.Lock()
		s.conn.WriteControl(websocket.PingMessage, nil, time.Now().Add(time.Second))
		s.mu.Unlock()
		select {
		case <-stop:
			return
		case <-time.After(5 * time.Second):
		}
	}
}

func (f *Server) forget(s *socket) {
	s.conn.Close()
	f.mu.Lock()
	defer f.mu.Unlock()
	for i, other := range f.sockets {
		if other == s {
			f.sockets = append(f.sockets[:i], f.sockets[i+1:]...)
			return
		}
	}
}

// ErrNoConnection is returned by Send if nobody is connected.
var ErrNoConnection = errors.New("no connection")

// Send sends an envelope over one of the connections, each in turn.
func (f *Server) Send(envelope any) error {
	f.mu.Lock()
	if len(f.sockets) == 0 {
		f.mu.Unlock()
		return ErrNoConnection
	}
	f.next++
	s := f.sockets[f.next%len(f.sockets)]
	f.mu.Unlock()
	return s.write(envelope)
}

// Disconnect asks the clients to connect anew, as Slack does every few hours.
func (f *Server) Disconnect(reason string) {
	for _, s := range f.connections() {
		s.write(map[string]any{"type": "disconnect", "reason": reason})
	}
}

// Drop closes all connections without a word.
func (f *Server) Drop() {
	for _, s := range f.connections() {
		f.forget(s)
	}
}

func (f *Server) connections() []*socket {
	f.mu.Lock()
	defer f.mu.Unlock()
	return append([]*socket(nil), f.sockets...)
}
