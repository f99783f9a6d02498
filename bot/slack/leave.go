package slack

import (
	"errors"
	"strconv"

	"github.com/slack-go/slack/slackevents"

	"pottle/store"
)

// leftWay is the way of a said that is no more than that the bot may no longer
// be in the workspace.
const leftWay = "left"

// fromLeaving reads that the app was taken out of a workspace, or the bot's
// token revoked. A workspace that is no longer answered may say so still.
func (s *Server) fromLeaving(m said, e slackevents.EventsAPIEvent) (said, bool) {
	if revoked, ok := e.InnerEvent.Data.(*slackevents.TokensRevokedEvent); ok && len(revoked.Tokens.Bot) == 0 {
		return m, false // those of people; there are none
	}
	if m.ws == nil {
		if _, err := s.store.In(m.team).Access(s.ctx); errors.Is(err, store.ErrNotFound) {
			return m, false
		}
	}
	m.way, m.text, m.channel, m.user, m.conversation = leftWay, e.InnerEvent.Type, leftWay, leftWay, leftWay
	if callback, ok := e.Data.(*slackevents.EventsAPICallbackEvent); ok {
		m.ts = strconv.Itoa(callback.EventTime)
	}
	return m, m.complete()
}

// leave stops answering a workspace. Its token is removed at once, and the store
// removes everything of it after store.KeepLeft. What was said before the app was
// installed again no longer counts.
func (s *Server) leave(m said) bool {
	team := s.store.In(m.team)
	said, _ := strconv.ParseInt(m.ts, 10, 64)
	if access, err := team.Access(s.ctx); err == nil && access.When.Unix() > said {
		s.log.Info("a withdrawal from before the installation is passed over", "team", m.team)
		return true
	}
	s.workspaces.remove(m.team)
	if err := team.Withdraw(s.ctx); err != nil {
		s.log.Error("a withdrawal could not be recorded", "team", m.team, "error", err)
		s.metrics.failed("store")
		return false
	}
	s.log.Warn("slack has withdrawn access: the token is removed, and the data will be", "team", m.team, "after", store.KeepLeft)
	return true
}
