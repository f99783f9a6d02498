package slack

import (
	"errors"

	"pottle/bot"
	"pottle/store"
)

// follow lets a person's own conversation in a channel go on from the last
// recipe of the channel, if that has changed since it did so last. What is said
// there changes nothing in the channel's threads.
func (s *Server) follow(m said, talk *bot.Conversation) {
	thread := s.lastThread(m)
	if thread == "" {
		return
	}
	other, err := s.store.In(m.team).Conversation(s.ctx, conversationID(m.channel, thread))
	if errors.Is(err, store.ErrNotFound) {
		return // it was forgotten
	}
	known, stands := s.marked(m, followMark(m)), ""
	if err == nil {
		stands, err = talk.Follow(other.State, known)
	}
	if err == nil && stands != known {
		s.mark(m, followMark(m), stands)
	}
	if err != nil {
		s.log.Error("the channel's last recipe could not be read", "error", err, "team", m.team, "channel", m.channel)
		s.metrics.failed("store")
	}
}
