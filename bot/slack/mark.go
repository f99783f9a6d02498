package slack

import (
	"cmp"
	"context"
	"errors"
	"strings"

	"pottle/store"
)

// Names of marks, which the store keeps about a conversation and drops with it.

// begunMark holds the stamp of the post that says that work on m has begun.
func begunMark(m said) string { return "begun/" + m.event }

// answerMark holds the stamps of the posts that answer m.
func answerMark(m said) string { return "answer/" + m.channel + "/" + m.ts }

// lastMark holds the thread of the last recipe in a channel.
func lastMark(channel string) string { return "last/" + channel }

// followMark holds what stands for the recipe that a person's own conversation
// in a channel went on from last.
func followMark(m said) string { return "follow/" + m.channel + "/" + m.user }

// mark notes something about m's conversation. A note that is lost costs no
// answer, so that it fails is only logged.
func (s *Server) mark(m said, name, value string) {
	ctx, done := context.WithTimeout(context.WithoutCancel(s.ctx), storeWait) // also for the last answer of all
	defer done()
	err := s.store.In(m.team).SetMark(ctx, store.Mark{Conversation: m.conversation, Name: name, Value: value})
	if err != nil {
		s.log.Error("a note about a conversation could not be kept", "error", err, "way", m.way)
		s.metrics.failed("store")
	}
}

// marked reads a mark of m's workspace, or "" if there is none.
func (s *Server) marked(m said, name string) string {
	mark, err := s.store.In(m.team).Mark(s.ctx, name)
	if err != nil && !errors.Is(err, store.ErrNotFound) && s.ctx.Err() == nil {
		s.log.Error("a note about a conversation could not be read", "error", err, "way", m.way)
		s.metrics.failed("store")
	}
	return mark.Value
}

// noteAnswer notes the posts that answer m, for when it is edited.
func (s *Server) noteAnswer(m said, stamps []string) {
	if m.ts == "" || len(stamps) == 0 {
		return
	}
	s.answers.put(m.key(), stamps)
	if !m.forgotten {
		s.mark(m, answerMark(m), strings.Join(stamps, " "))
	}
}

// answersTo returns the stamps of the posts that answer m. It gives false if
// there are none and m is not being answered.
func (s *Server) answersTo(m said) ([]string, bool) {
	if stamps, ok := s.answers.get(m.key()); ok {
		return stamps, true
	}
	stamps := strings.Fields(s.marked(m, answerMark(m)))
	return stamps, len(stamps) > 0
}

// lastThread is the thread of the last recipe in m's channel, or "".
func (s *Server) lastThread(m said) string {
	last, _ := s.latest.get(m.team + "/" + m.channel)
	return cmp.Or(last, s.marked(m, lastMark(m.channel)))
}

// noteLast notes that the last recipe of m's channel is in m's thread. In a
// direct channel that is the thread that began last.
func (s *Server) noteLast(m said) {
	if m.thread == "" || direct(m.channel) && (!m.begins() || m.thread < s.lastThread(m)) {
		return
	}
	s.latest.put(m.team+"/"+m.channel, m.thread)
	if !m.forgotten {
		s.mark(m, lastMark(m.channel), m.thread)
	}
}
