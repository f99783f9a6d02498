package slack

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"

	"github.com/slack-go/slack"
	"github.com/slack-go/slack/slackevents"
)

// mostBody is the largest request that is read.
const mostBody = 1 << 20 // 1 MiB

// serveHTTP serves until ctx ends. With Socket Mode there is only the health
// of the server to ask for.
func (s *Server) serveHTTP(ctx context.Context) error {
	return s.serveAt(ctx, s.cfg.Listen, s.routes())
}

// serveAt serves at an address until ctx ends.
func (s *Server) serveAt(ctx context.Context, address string, handler http.Handler) error {
	listener, err := net.Listen("tcp", address)
	if err != nil {
		return fmt.Errorf("listen at %q: %w", address, err)
	}
	s.log.Info("listening", "address", listener.Addr().String())
	select {
	case s.listening <- listener.Addr().String():
	default:
	}
	server := &http.Server{
		Handler: handler, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second,
		WriteTimeout: 10 * time.Second, IdleTimeout: time.Minute, MaxHeaderBytes: 64 << 10,
	}
	stopped := make(chan struct{})
	go func() {
		defer close(stopped)
		<-ctx.Done()
		patience, done := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
		defer done()
		server.Shutdown(patience)
	}()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("serve at %q: %w", address, err)
	}
	<-stopped
	return nil
}

func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "ok\n") })
	mux.HandleFunc("GET /readyz", s.ready)
	if s.cfg.HTTP {
		mux.Handle("POST "+eventsPath, s.signed(s.events))
		mux.Handle("POST "+commandsPath, s.signed(s.command))
		mux.Handle("POST "+interactivityPath, s.signed(s.interaction))
	}
	if s.cfg.Many() {
		mux.HandleFunc("GET "+installPath, s.install)
		mux.HandleFunc("GET "+installedPath, s.installed)
	}
	return mux
}

// ready answers whether messages are taken.
func (s *Server) ready(w http.ResponseWriter, _ *http.Request) {
	switch {
	case s.gate.isClosed():
		http.Error(w, "shutting down", http.StatusServiceUnavailable)
	case !s.isSignedIn():
		http.Error(w, "not signed in to Slack", http.StatusServiceUnavailable)
	case !s.cfg.Many() && s.workspaces.empty():
		http.Error(w, "Slack has withdrawn access", http.StatusServiceUnavailable)
	case !s.cfg.HTTP && !s.sockets[0].Load() && !s.sockets[1].Load():
		http.Error(w, "not connected to Slack", http.StatusServiceUnavailable)
	default:
		io.WriteString(w, "ready\n")
	}
}

// signed passes on what Slack signed, with the body as it was read.
func (s *Server) signed(next func(http.ResponseWriter, *http.Request, []byte)) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostBody))
		var large *http.MaxBytesError
		switch {
		case errors.As(err, &large):
			s.metrics.failed("large")
			http.Error(w, "too large", http.StatusRequestEntityTooLarge)
			return
		case err != nil:
			http.Error(w, "the request could not be read", http.StatusBadRequest)
			return
		}
		if err := verify(r.Header, body, s.cfg.SigningSecret, s.now()); err != nil {
			s.metrics.failed("signature")
			s.log.Warn("a request was refused", "path", r.URL.Path, "error", err)
			http.Error(w, "not signed by Slack", http.StatusUnauthorized)
			return
		}
		r.Body = io.NopCloser(bytes.NewReader(body))
		next(w, r, body)
	})
}

// events takes /slack/events.
func (s *Server) events(w http.ResponseWriter, _ *http.Request, body []byte) {
	var outer struct{ Type, Challenge string }
	if err := json.Unmarshal(body, &outer); err != nil {
		http.Error(w, "no JSON", http.StatusBadRequest)
		return
	}
	if outer.Type == slackevents.URLVerification {
		w.Header().Set("Content-Type", "text/plain")
		io.WriteString(w, outer.Challenge)
		return
	}
	event, err := slackevents.ParseEvent(body, slackevents.OptionNoVerifyToken())
	if err != nil { // of a kind that we do not know: Slack need not send it again
		s.metrics.failed("decode")
		return
	}
	acknowledge(s, w, event, s.fromEvent)
}

// command takes /slack/commands.
func (s *Server) command(w http.ResponseWriter, r *http.Request, _ []byte) {
	command, err := slack.SlashCommandParse(r)
	if err != nil || command.Command == "" {
		http.Error(w, "no command", http.StatusBadRequest)
		return
	}
	acknowledge(s, w, command, s.fromCommand)
}

// interaction takes /slack/interactivity.
func (s *Server) interaction(w http.ResponseWriter, r *http.Request, _ []byte) {
	callback, err := slack.InteractionCallbackParse(r)
	if err != nil {
		http.Error(w, "no interaction", http.StatusBadRequest)
		return
	}
	acknowledge(s, w, callback, s.fromInteraction)
}

// acknowledge reads a request, takes it in and tells Slack whether to send it
// again.
func acknowledge[T any](s *Server, w http.ResponseWriter, request T, read func(T) (said, bool)) {
	if s.take(func() (said, bool) { return read(request) }) == refused {
		http.Error(w, "not now", http.StatusServiceUnavailable)
	}
}

// take reads one request and takes it in. Until Slack has said who the bot is,
// nothing is taken. A request that cannot be read at all is let go.
func (s *Server) take(read func() (said, bool)) verdict {
	if !s.isSignedIn() {
		return refused
	}
	v := ignored
	s.contain(said{way: "reading"}, func() {
		if m, ok := read(); ok {
			v = s.accept(m)
		}
	})
	return v
}
