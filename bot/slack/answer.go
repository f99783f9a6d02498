package slack

import (
	"time"

	"github.com/slack-go/slack"
)

// answer posts the answer to a message and reports whether the event is dealt
// with: it is not if shutdown cut the posting off.
func (s *Server) answer(m said, reply string) bool {
	switch {
	case m.share != "":
		return s.postShared(m)
	case m.way == homeWay:
		return s.publishHome(m)
	case m.way == leftWay:
		return s.leave(m)
	case reply == "":
		return true
	case m.answerAt != "":
		return s.answerPrivately(m, Messages(reply))
	case m.edited:
		return s.answerAnew(m, Messages(reply))
	}
	stamps, err := s.postAll(m, Messages(reply))
	s.noteAnswer(m, stamps)
	return s.posted(m, err)
}

// postAll posts in the thread and returns the time stamps of the posts. The
// first takes the place of the post that said that work has begun.
func (s *Server) postAll(m said, posts []Message) (stamps []string, err error) {
	for i, post := range posts {
		var stamp string
		if i == 0 && m.begun != nil && m.begun.stamp != "" {
			stamp = m.begun.stamp
			err = m.ws.poster.update(s.ctx, m.channel, stamp, post)
		} else {
			stamp, err = s.postSurely(m, post)
		}
		if err != nil {
			return stamps, err
		}
		stamps = append(stamps, stamp)
	}
	return stamps, nil
}

// answerAnew changes the posts that answered a message before it was edited.
// Posts too many are taken away.
func (s *Server) answerAnew(m said, posts []Message) bool {
	old, _ := s.answersTo(m)
	stamps := make([]string, 0, len(posts))
	for i, stamp := range old {
		if i >= len(posts) {
			if err := m.ws.poster.remove(s.ctx, m.channel, stamp); err != nil {
				return s.posted(m, err)
			}
			continue
		}
		if err := m.ws.poster.update(s.ctx, m.channel, stamp, posts[i]); err != nil {
			return s.posted(m, err)
		}
		stamps = append(stamps, stamp)
	}
	var err error
	if len(posts) > len(old) {
		var more []string
		more, err = s.postAll(m, posts[len(old):])
		stamps = append(stamps, more...)
	}
	s.noteAnswer(m, stamps)
	return s.posted(m, err)
}

// posted reports whether the event is dealt with, after err. What Slack does
// not let us post is dealt with too: it would not next time either.
func (s *Server) posted(m said, err error) bool {
	if err == nil {
		return true
	}
	if s.ctx.Err() != nil {
		return false
	}
	s.log.Error("an answer could not be posted", "error", cause(err), "way", m.way, "team", m.team, "channel", m.channel)
	s.metrics.failed("post")
	if m.way == "shortcut" && absent(err) && m.hook != "" {
		if err := m.ws.poster.private(s.ctx, m.hook, Message{Text: notHere}); err != nil {
			s.log.Error("an answer could not be posted", "error", cause(err), "way", m.way)
		}
	}
	return true
}

const notHere = "I am not in this channel, so I cannot answer here. Say \"/invite @pottle\" first, then use the message again."

// absent reports an answer of Slack that the bot is not in the channel.
func absent(err error) bool {
	says := errorCode(err)
	return says == "not_in_channel" || says == "channel_not_found"
}

// tell posts a short text where the answer would go.
func (s *Server) tell(m said, text string) bool {
	post := Messages(text)[0]
	if m.answerAt != "" {
		return s.posted(m, m.ws.poster.private(s.ctx, m.answerAt, post))
	}
	_, err := m.ws.poster.post(s.ctx, m.channel, m.thread, post)
	return s.posted(m, err)
}

// share is a private answer.
type share struct {
	team, channel, user string
	posts               []Message
	until               time.Time
}

// privatePosts is how often Slack lets us answer one command, less one for the
// button.
const privatePosts = 4

const tooLong = "The rest is too long to be shown privately. Share it, or ask in a direct message."

// answerPrivately shows the answer to the person who asked only, with a button
// to share it.
func (s *Server) answerPrivately(m said, posts []Message) bool {
	footer := "Only you see this."
	shown := posts
	most, answer := privatePosts, m.ws.poster.private
	if m.begun != nil && m.begun.private {
		most, answer = most-1, m.ws.poster.instead
	}
	if len(posts) > most {
		shown, footer = posts[:most], footer+" "+tooLong
	}
	for _, post := range shown {
		err := answer(s.ctx, m.answerAt, post)
		answer = m.ws.poster.private
		if err != nil {
			return s.posted(m, err)
		}
	}
	id := m.team + "/" + reference() + reference()
	s.shares.put(id, share{m.team, m.channel, m.user, posts, s.now().Add(s.times.share)})
	button := slack.NewButtonBlockElement(shareAction, id, slack.NewTextBlockObject(slack.PlainTextType, "Share in the channel", false, false))
	return s.posted(m, m.ws.poster.private(s.ctx, m.answerAt, Message{Text: footer, Blocks: []slack.Block{
		slack.NewContextBlock("", slack.NewTextBlockObject(slack.PlainTextType, footer, false, false)),
		slack.NewActionBlock("", button),
	}}))
}

// postShared posts a private answer in the channel it was asked in, once.
func (s *Server) postShared(m said) bool {
	kept, ok := s.shares.get(m.share)
	switch {
	case !ok || kept.team != m.team || kept.channel != m.channel || kept.user != m.user || s.now().After(kept.until):
		return s.tell(m, "That answer is no longer kept here. Ask again, then share.")
	case kept.posts == nil:
		return s.tell(m, "That is already shared.")
	}
	spent := kept
	spent.posts = nil
	s.shares.put(m.share, spent)
	m.thread = ""
	_, err := s.postAll(m, kept.posts)
	if absent(err) { // Slack lets the answer to the button be public where the bot is not
		err = nil
		for _, post := range kept.posts[:min(len(kept.posts), privatePosts)] {
			if err = m.ws.poster.public(s.ctx, m.answerAt, post); err != nil {
				break
			}
		}
	}
	return s.posted(m, err)
}
