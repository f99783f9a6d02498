package slack

import (
	"crypto/rand"
	"encoding/hex"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"pottle/bot"
)

// work works one message and puts its answer in the lane of its channel.
func (s *Server) work(m said) {
	var reply string
	if trouble := s.contain(m, func() { reply = s.reply(&m) }); trouble != "" {
		reply = trouble
	}
	if s.ctx.Err() != nil { // shutdown waits no longer
		s.finish(m, false)
		return
	}
	if reply != "" && m.lead != "" {
		reply = m.lead + "\n\n" + reply
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
	s.channels.add(m.lane(), func() {
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
func (s *Server) reply(m *said) string {
	s.worked(*m)
	team := s.store.In(m.team)
	if m.share != "" || m.way == homeWay || m.way == leftWay {
		return ""
	}
	if m.edited {
		if _, ok := s.answersTo(*m); !ok {
			return ""
		}
	}
	if m.known && s.unknown(*m) { // it was not sure before what came in between
		return ""
	}
	defer s.sayBegun(*m)()
	s.slow()
	switch {
	case m.badFile:
		return noTextFile
	case m.file != "":
		text, err := s.fetch(*m)
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
	if m.way == "command" {
		s.follow(*m, talk)
	}
	if m.offer != "" && !s.chosen(m, talk) {
		return noOffer
	}
	before := talk.Analysis()
	reply := talk.Reply(m.text)
	m.forgotten = talk.Forgotten()
	if after := talk.Analysis(); after != nil && after != before {
		s.metrics.worked(after)
		s.noteLast(*m)
		if title := after.Title; m.way == "command" && title != "" && !strings.HasPrefix(reply, title) {
			reply = title + "\n\n" + reply // the recipe came from elsewhere: which one it is must be seen
		}
	}
	return reply
}

// talk names the message's conversation among all workspaces.
func (m *said) talk() string { return m.team + "/" + m.conversation }

// key names the message among those that were answered.
func (m *said) key() string { return m.team + "/" + m.channel + "/" + m.ts }
