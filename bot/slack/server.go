// Package slack brings pottle into Slack: [New] makes a [Server], its Run
// answers until the context ends, one workspace or every one that installs the
// app. What is said comes over Socket Mode or over HTTP, is recorded as seen,
// acknowledged, worked by a [bot.Conversation] of its thread, and answered
// there.
//
// The order within a thread is kept. Every event is answered once, however
// often Slack sends it. What the end of the program cut off is answered after
// the next start: until then the store keeps it. At the end what was
// acknowledged is still answered. The log never holds what anybody said.
package slack

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"net/url"
	"sync"
	"sync/atomic"
	"time"

	"pottle/engine"
	"pottle/store"
)

// Server answers one workspace, or with the app's own credentials every one
// that installs it.
type Server struct {
	cfg    Config
	engine *engine.Engine
	store  store.Store
	log    *slog.Logger
	now    func() time.Time
	times  times

	http       *http.Client // for all calls to Slack
	workspaces *workspaces
	gate       *gate
	threads    *lanes // work, by conversation
	channels   *lanes // posts, by channel
	apology    chan said

	shares  *recent[share]    // private answers that can be shared
	answers *recent[[]string] // posts that answer a message, for when it is edited
	latest  *recent[string]   // the last recipe's thread, by channel
	sockets [2]atomic.Bool    // connected
	tickets *tickets          // of installations
	metrics *metrics

	listening chan string   // the address of the HTTP server, once it listens
	signedIn  chan struct{} // closed once it is known which workspaces are answered

	ctx    context.Context // of all work; ends when shutdown waits no longer
	cancel context.CancelFunc

	worked func(said) // called before a message is worked, for tests
	slow   func()     // called where work may take long, for tests
}

// times are the waits that tests shorten.
type times struct {
	ack     time.Duration // for an acknowledgement to be taken by the connection
	settle  time.Duration // for queued acknowledgements to be written, at the end
	stagger time.Duration // between the starts of the two connections
	quick   time.Duration // a connection that lasts less is a failure
	backoff time.Duration // the first; it doubles up to a minute
	noHint  time.Duration // to wait after a 429 that does not say how long
	begun   time.Duration // work that takes longer shows that it has begun
	giveUp  time.Duration // the longest wait before a post is tried again
	share   time.Duration // how long a private answer can be shared
}

var usualTimes = times{
	ack: 2500 * time.Millisecond, settle: 250 * time.Millisecond, stagger: 5 * time.Second,
	quick: 10 * time.Second, backoff: time.Second, noHint: time.Minute, begun: 2 * time.Second, giveUp: time.Minute, share: 30 * time.Minute,
}

// New checks the settings, naming all faults at once, and makes a server. The
// store stays the caller's to close, after Run has returned.
func New(cfg Config, e *engine.Engine, s store.Store) (*Server, error) {
	if err := cfg.check(); err != nil {
		return nil, err
	}
	srv := &Server{
		cfg: cfg, engine: e, store: s, log: cfg.Log, now: time.Now, times: usualTimes,
		http: newHTTPClient(), workspaces: newWorkspaces(),
		gate:      newGate(cfg),
		threads:   newLanes(cfg.Workers),
		channels:  newLanes(0),
		apology:   make(chan said, 64),
		shares:    newRecent[share](1000),
		answers:   newRecent[[]string](2000),
		latest:    newRecent[string](2000),
		tickets:   newTickets(),
		metrics:   newMetrics(e),
		listening: make(chan string, 1),
		signedIn:  make(chan struct{}),
		worked:    func(said) {},
		slow:      func() {},
	}
	srv.ctx, srv.cancel = context.WithCancel(context.Background())
	return srv, nil
}

// Run answers until ctx ends, then takes nothing new, answers what was taken,
// at most for the configured time, and returns nil. It returns an error if
// Slack refuses the tokens or the address cannot be listened at. It is called
// once.
func (s *Server) Run(ctx context.Context) error {
	defer s.cancel()
	transport, stop := context.WithCancelCause(context.Background())
	defer stop(nil)
	var running sync.WaitGroup
	failed := make(chan error, 4)
	start := func(run func(context.Context) error) {
		running.Go(func() {
			if err := run(transport); err != nil {
				failed <- err
			}
		})
	}
	start(s.apologise)
	if s.cfg.Listen != "" {
		start(s.serveHTTP)
	}
	if s.cfg.Metrics != "" {
		start(s.serveMetrics)
	}
	err := s.signIn(ctx, failed)
	if err == nil && ctx.Err() == nil {
		if !s.cfg.HTTP {
			for n := range s.sockets {
				start(func(ctx context.Context) error { return s.keepSocket(ctx, n) })
			}
		}
		select {
		case <-ctx.Done():
		case err = <-failed:
		}
	}
	s.drain()
	stop(nil)
	running.Wait()
	return err
}

// drain waits for the answers to what was accepted.
func (s *Server) drain() {
	s.log.Info("shutting down", "unanswered", s.gate.inside())
	patience := time.NewTimer(s.cfg.Drain)
	defer patience.Stop()
	select {
	case <-s.gate.close():
	case <-patience.C:
		s.log.Error("shutdown waits no longer", "unanswered", s.gate.inside())
	}
	s.cancel()
	if !s.cfg.HTTP {
		time.Sleep(s.times.settle) // acknowledgements are written by slack-go in its own time
	}
}

// cause is err without the address it was about, which may be a secret.
func cause(err error) error {
	var at *url.Error
	if errors.As(err, &at) {
		return fmt.Errorf("%s: %w", at.Op, at.Err)
	}
	return err
}
