package slack

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"

	"github.com/slack-go/slack"
)

// postSurely posts in m's thread and returns the time stamp of the post. After a
// call that leaves open whether Slack took it, and after a restart, it looks
// whether the post is there before it posts, so that an answer neither gets
// lost nor comes twice.
func (s *Server) postSurely(m said, post Message) (stamp string, err error) {
	look := m.tries > 0
	for wait := s.times.backoff; ; wait *= 2 {
		stamp, err = s.postOnce(m, post, look)
		if !unsure(err) && !unsent(err) || wait > s.times.giveUp {
			return stamp, err
		}
		look = look || unsure(err)
		s.log.Warn("an answer is not posted for sure", "error", cause(err), "again_in", wait)
		s.metrics.failed("unsure")
		if !sleep(s.ctx, wait) {
			return "", err
		}
	}
}

// postOnce posts, unless it is to look and the post is there already. Who may
// not look does not post twice, but after a restart rather that than not at all.
func (s *Server) postOnce(m said, post Message, look bool) (stamp string, err error) {
	if look {
		stamp, err := m.ws.poster.find(s.ctx, m, post)
		mayNot := errorCode(err) != "" && !unsure(err)
		if stamp != "" || err != nil && !(mayNot && m.tries > 0) {
			return stamp, err
		}
	}
	return m.ws.poster.post(s.ctx, m.channel, m.thread, post)
}

// unsent reports an error of a call that never reached Slack.
func unsent(err error) bool {
	var dial *net.OpError
	return errors.As(err, &dial) && dial.Op == "dial"
}

// unsure reports an error that leaves open whether Slack did what was asked.
func unsure(err error) bool {
	var limited *slack.RateLimitedError
	var status slack.StatusCodeError
	var network net.Error
	var syntax *json.SyntaxError
	switch {
	case err == nil, errorCode(err) != "" && errorCode(err) != "internal_error" && errorCode(err) != "fatal_error",
		errors.As(err, &limited), errors.Is(err, context.Canceled), unsent(err):
		return false
	case errors.As(err, &status):
		return status.Code >= http.StatusInternalServerError
	}
	return errorCode(err) != "" || errors.As(err, &network) || errors.As(err, &syntax) ||
		errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
}

// find looks among what was posted since m for a post of ours, and returns its
// time stamp, or "" if it is not there.
func (p *poster) find(ctx context.Context, m said, post Message) (stamp string, err error) {
	var posts []slack.Message
	err = p.call(ctx, "", func() (err error) {
		if m.thread != "" {
			posts, _, _, err = p.api.GetConversationRepliesContext(ctx, &slack.GetConversationRepliesParameters{
				ChannelID: m.channel, Timestamp: m.thread, Oldest: m.since(), Limit: 200})
			return err
		}
		got, err := p.api.GetConversationHistoryContext(ctx, &slack.GetConversationHistoryParameters{
			ChannelID: m.channel, Oldest: m.since(), Limit: 200})
		if got != nil {
			posts = got.Messages
		}
		return err
	})
	for _, there := range posts {
		if there.User == m.ws.user && there.Timestamp > m.since() && sameText(there.Text, post.Text) {
			return there.Timestamp, nil
		}
	}
	return "", err
}

// sameText compares a text with one that was posted: Slack may write it anew.
func sameText(a, b string) bool {
	plain := func(s string) string { return strings.Join(strings.Fields(Clean(s)), " ") }
	return plain(a) == plain(b)
}

// since is a time stamp of Slack's before which m cannot have been answered.
func (m *said) since() string {
	if m.ts != "" {
		return m.ts
	}
	at := m.arrived.Add(-clockSlack)
	return fmt.Sprintf("%d.%06d", at.Unix(), at.Nanosecond()/int(time.Microsecond))
}

// clockSlack is by how much our clock may be ahead of Slack's without harm.
const clockSlack = 5 * time.Second
