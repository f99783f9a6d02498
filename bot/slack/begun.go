package slack

import (
	"sync"
	"time"
)

// begunText is shown while work on a message takes long. The answer takes its
// place.
const begunText = "Working on it …"

// begun is the post that says that work on a message has begun, if there is one.
// The jobs of the channel's lane alone touch stamp and private.
type begun struct {
	stamp   string // of the post
	private bool   // shown at the response_url instead

	mu    sync.Mutex
	ended bool // the work is done, nothing is to be said any more
}

// sayBegun has it said, if the work takes long, that it has begun. The work ends
// with a call of what it returns.
func (s *Server) sayBegun(m said) (end func()) {
	if m.edited || m.begun == nil || m.begun.stamp != "" {
		return func() {} // there is a post already
	}
	b := m.begun
	timer := time.AfterFunc(s.times.begun, func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		if !b.ended { // else it would come after the answer
			s.channels.add(m.lane(), func() { s.contain(m, func() { s.postBegun(m) }) })
		}
	})
	return func() {
		timer.Stop()
		b.mu.Lock()
		defer b.mu.Unlock()
		b.ended = true
	}
}

// postBegun says that work has begun. If that fails there is only the answer.
func (s *Server) postBegun(m said) {
	post := Messages(begunText)[0]
	var err error
	if m.answerAt != "" {
		err = m.ws.poster.private(s.ctx, m.answerAt, post)
		m.begun.private = err == nil
	} else {
		m.begun.stamp, err = m.ws.poster.post(s.ctx, m.channel, m.thread, post)
	}
	if err != nil {
		s.log.Warn("it could not be said that work has begun", "error", cause(err), "way", m.way)
		return
	}
	if m.begun.stamp != "" {
		s.mark(m, begunMark(m), m.begun.stamp)
	}
}

// begunBefore finds the post that said, before a restart, that work has begun.
func (s *Server) begunBefore(m said) *begun {
	return &begun{stamp: s.marked(m, begunMark(m))}
}
