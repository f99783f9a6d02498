package slack

import (
	"context"
	"encoding/json"

	"pottle/store"
)

// mostTries is how often a message is begun again after restarts: one that ends
// the program each time must not do so for ever.
const mostTries = 3

const gaveUpReply = "I was interrupted each time I worked on this, so I leave it. Say it in another way, or tell who runs pottle."

// keptSaid is a said as the store keeps it until it is answered. It may be read
// by a later version of the program: fields are only ever added.
type keptSaid struct {
	Way          string `json:"way"`
	Channel      string `json:"channel"`
	User         string `json:"user"`
	Conversation string `json:"conversation"`
	Thread       string `json:"thread,omitempty"`
	TS           string `json:"ts,omitempty"`
	Text         string `json:"text,omitempty"`
	File         string `json:"file,omitempty"`
	BadFile      bool   `json:"bad_file,omitempty"`
	Known        bool   `json:"known,omitempty"`
	Edited       bool   `json:"edited,omitempty"`
	AnswerAt     string `json:"answer_at,omitempty"`
	Hook         string `json:"hook,omitempty"`
	Share        string `json:"share,omitempty"`
	Offer        string `json:"offer,omitempty"`
	Lead         string `json:"lead,omitempty"`
	Tries        int    `json:"tries,omitempty"`
	Reply        string `json:"reply,omitempty"` // it is worked, and only to be answered
}

// keep records that a message arrived, with all that it takes to answer it. Of
// one that is too large for that only the event is recorded.
func (s *Server) keep(ctx context.Context, m said) (store.EventState, error) {
	team := s.store.In(m.team)
	payload, err := json.Marshal(keptSaid{
		Way: m.way, Channel: m.channel, User: m.user, Conversation: m.conversation, Thread: m.thread, TS: m.ts,
		Text: m.text, File: m.file, BadFile: m.badFile, Known: m.known, Edited: m.edited, AnswerAt: m.answerAt, Hook: m.hook,
		Share: m.share, Offer: m.offer, Lead: m.lead, Tries: m.tries, Reply: m.reply,
	})
	if err != nil || len(payload) > store.MaxPayload || len(m.conversation) > store.MaxID {
		return team.SeeEvent(ctx, m.event)
	}
	return team.KeepEvent(ctx, store.Event{ID: m.event, Conversation: m.conversation, Payload: payload})
}

// resume takes in what was acknowledged and not answered when the program
// ended, in the order in which it arrived.
func (s *Server) resume(ctx context.Context, ws *workspace) {
	team := ws.team
	events, err := s.store.In(team).UnfinishedEvents(ctx)
	if err != nil {
		s.log.Error("unanswered messages could not be read", "error", err, "team", team)
		s.metrics.failed("store")
		return
	}
	resumed := 0
	for _, e := range events {
		var k keptSaid
		if err := json.Unmarshal(e.Payload, &k); err != nil {
			s.log.Error("an unanswered message could not be read", "team", team) // it goes after a day
			s.metrics.failed("store")
			continue
		}
		m := said{
			way: k.Way, event: e.ID, team: team, channel: k.Channel, user: k.User, conversation: k.Conversation,
			thread: k.Thread, ts: k.TS, text: k.Text, file: k.File, badFile: k.BadFile, known: k.Known, edited: k.Edited,
			ws: ws, answerAt: k.AnswerAt, hook: k.Hook, share: k.Share, offer: k.Offer, lead: k.Lead, arrived: e.When, tries: k.Tries + 1, reply: k.Reply,
		}
		m.id = m.team + "/" + m.event
		// It was acknowledged, so the limits of new messages do not hold for it.
		if v := s.gate.enter(&m); v != taken && v != busy {
			continue
		}
		if !s.among(m) { // those to answer are others now
			s.finish(m, true)
			continue
		}
		resumed++
		m.taken = s.now()
		s.threads.add(m.talk(), func() { s.workAgain(m) })
	}
	if resumed > 0 {
		s.log.Info("answering what was left unanswered", "messages", resumed, "team", team)
	}
}

// workAgain works a message that was left unanswered, after it has recorded
// that it does so.
func (s *Server) workAgain(m said) {
	if m.tries > mostTries {
		s.log.Error("a message is given up", "way", m.way, "team", m.team, "channel", m.channel, "tries", mostTries)
		s.metrics.failed("abandoned")
		s.deliver(m, func() bool { return s.tell(m, gaveUpReply) })
		return
	}
	s.keepMore(m)
	m.begun = s.begunBefore(m)
	if m.reply != "" {
		s.deliver(m, func() bool { return s.answer(m, m.reply) })
		return
	}
	s.work(m)
}

// keepMore keeps what is known now of a message that was recorded before.
func (s *Server) keepMore(m said) {
	if _, err := s.keep(s.ctx, m); err != nil && s.ctx.Err() == nil {
		s.log.Error("an event could not be recorded", "error", err, "way", m.way)
		s.metrics.failed("store")
	}
}
