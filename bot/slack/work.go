package slack

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"

	"pottle/bot"
	"pottle/store"
)

// work works one message and puts its answer in the lane of its channel.
func (s *Server) work(m said) {
	var reply string
	if trouble := s.contain(m, func() { reply = s.reply(m) }); trouble != "" {
		reply = trouble
	}
	if s.ctx.Err() != nil { // shutdown waits no longer
		s.finish(m, false)
		return
	}
	if reply != "" { // what it changed is done: after a restart it is answered and not worked again
		m.text, m.reply = "", reply
		s.keepMore(m)
	}
	s.deliver(m, func() bool { return s.answer(m, reply) })
}

// deliver puts the posting of an answer in the lane of its channel. post
// reports whether the event is dealt with.
func (s *Server) deliver(m said, post func() bool) {
	lane := m.team + "/" + m.channel
	if m.answerAt != "" && m.share == "" { // a private answer keeps no channel's pace
		lane = m.team + "/" + m.conversation + "/" + m.user
	}
	s.channels.add(lane, func() {
		answered := false
		defer func() { s.finish(m, answered) }()
		if trouble := s.contain(m, func() { answered = post() }); trouble != "" {
			answered = s.tell(m, trouble)
		}
	})
}

// contain runs f. If f panics, that is logged, without its value, which may
// hold what was said, and what to tell the person is returned.
func (s *Server) contain(m said, f func()) (trouble string) {
	defer func() {
		if p := recover(); p != nil {
			what := fmt.Sprintf("%T", p)
			if fault, ok := p.(runtime.Error); ok {
				what = fault.Error() // the language's own words
			}
			ref := reference()
			s.log.Error("a message could not be worked", "reference", ref, "panic", what,
				"way", m.way, "team", m.team, "channel", m.channel, "stack", string(debug.Stack()))
			s.metrics.failed("panic")
			trouble = "Something went wrong with this message; nothing else is affected. Say it in another way, or tell who runs pottle: reference " + ref + "."
		}
	}()
	f()
	return ""
}

// reference is a number that ties what a person was told to the log.
func reference() string {
	b := make([]byte, 4)
	rand.Read(b)
	return hex.EncodeToString(b)
}

// reply gives the answer to a message, or "" if it is not for pottle.
func (s *Server) reply(m said) string {
	s.worked(m)
	team := s.store.In(m.team)
	if m.share != "" || m.way == homeWay {
		return ""
	}
	if m.edited {
		if _, ok := s.answers.get(m.key()); !ok {
			return ""
		}
	}
	if m.known {
		if _, err := team.Conversation(s.ctx, m.conversation); errors.Is(err, store.ErrNotFound) {
			return ""
		}
	}
	switch {
	case m.badFile:
		return noTextFile
	case m.file != "":
		text, err := s.fetch(m)
		if err != nil {
			s.log.Error("a file could not be read", "error", cause(err), "team", m.team, "channel", m.channel)
			s.metrics.failed("file")
			return unreadFile
		}
		m.text = text
	}
	talk := bot.NewConversation(s.engine)
	if err := talk.Remember(s.ctx, bot.Memory{Team: team, ID: m.conversation, Who: m.user}); err != nil {
		ref := reference()
		s.log.Error("a conversation could not be read", "reference", ref, "error", err, "team", m.team, "channel", m.channel)
		s.metrics.failed("store")
		return "The team's memory could not be read, so this was not worked out. Say it again; if it stays so, tell who runs pottle: reference " + ref + "."
	}
	if m.ts != "" && !m.edited {
		s.answers.put(m.key(), nil) // an edit that comes before the posts waits for them in the channel's lane
	}
	before := talk.Analysis()
	reply := talk.Reply(m.text)
	if after := talk.Analysis(); after != before {
		s.metrics.worked(after)
	}
	return reply
}

// talk names the message's conversation among all workspaces.
func (m *said) talk() string { return m.team + "/" + m.conversation }

// key names the message among those that were answered.
func (m *said) key() string { return m.team + "/" + m.channel + "/" + m.ts }
