package slack

import (
	"context"
	"errors"
	"slices"
	"time"

	"pottle/store"
)

const (
	busyReply = "More is being asked of me than I can do at once, so this was not read. Say it again in a minute."
	// storeWait is how long recording an event may take, well within the 3 seconds that Slack gives.
	storeWait = 2 * time.Second
)

// accept takes a message in: once it returns taken, the event is on record and
// will be answered. It returns soon, so that the request can be acknowledged.
func (s *Server) accept(m said) (v verdict) {
	defer func() { s.metrics.accepted(m.way, v) }()
	if !s.among(m) || m.known && !s.threads.has(m.talk()) && s.unknown(m) {
		return ignored // and nothing of it is kept
	}
	m.id = m.team + "/" + m.event
	v = s.gate.enter(&m)
	if v != taken && v != busy {
		return v
	}
	ctx, done := context.WithTimeout(s.ctx, storeWait)
	defer done()
	// What was seen and is not inside was left unfinished: it is worked now.
	state, err := s.keep(ctx, m)
	switch {
	case err != nil:
		s.log.Error("an event could not be recorded", "error", err, "way", m.way)
		s.metrics.failed("store")
		v = refused
	case state == store.EventDone:
		v = repeated
	case v == busy:
		v = s.sayBusy(m)
	default:
		m.taken, m.begun = s.now(), &begun{}
		m.arrived = m.taken
		s.threads.add(m.talk(), func() { s.work(m) })
	}
	if v == refused || v == repeated {
		s.gate.leave(&m)
	}
	return v
}

// unknown reports whether pottle takes no part in the message's thread.
func (s *Server) unknown(m said) bool {
	ctx, done := context.WithTimeout(s.ctx, storeWait)
	defer done()
	_, err := s.store.In(m.team).Conversation(ctx, m.conversation)
	return errors.Is(err, store.ErrNotFound)
}

// among reports whether the message's workspace and channel are among those to
// answer.
func (s *Server) among(m said) bool {
	return (len(s.cfg.Workspaces) == 0 || slices.Contains(s.cfg.Workspaces, m.team)) &&
		(len(s.cfg.Channels) == 0 || m.way == leftWay || slices.Contains(s.cfg.Channels, m.channel))
}

// finish ends what accept began. If the event is not dealt with, it stays seen
// only.
func (s *Server) finish(m said, dealtWith bool) {
	defer s.gate.leave(&m)
	if !dealtWith {
		return
	}
	if !m.taken.IsZero() {
		s.metrics.answered(m.way, s.now().Sub(m.taken))
	}
	// Also for the last answer of all, at shutdown.
	ctx, done := context.WithTimeout(context.WithoutCancel(s.ctx), storeWait)
	defer done()
	if err := s.store.In(m.team).FinishEvent(ctx, m.event); err != nil {
		s.log.Error("an answered event could not be recorded", "error", err, "way", m.way)
		s.metrics.failed("store")
	}
}

// sayBusy has the person told that the message was not taken. If there is no
// room even for that, and where nobody may be waiting for an answer, Slack is to
// send it again.
func (s *Server) sayBusy(m said) verdict {
	if m.known || m.edited || m.way == homeWay || m.way == leftWay {
		return refused
	}
	select {
	case s.apology <- m:
		return busy
	default:
		return refused
	}
}

// apologise posts what sayBusy says, one at a time, until ctx ends.
func (s *Server) apologise(ctx context.Context) error {
	for {
		select {
		case <-ctx.Done():
			return nil
		case m := <-s.apology:
			s.finish(m, s.tell(m, busyReply))
		}
	}
}
