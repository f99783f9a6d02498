package slack

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/slack-go/slack"

	"pottle/store"
)

// signIn finds out which workspaces are answered. What was left unanswered in
// them is taken in before anything new.
func (s *Server) signIn(ctx context.Context, failed <-chan error) error {
	var err error
	if s.cfg.Many() {
		err = s.readInstalled(ctx)
	} else {
		err = s.signInOne(ctx, failed)
	}
	if err == nil && ctx.Err() == nil {
		close(s.signedIn)
	}
	return err
}

// signInOne has the workspace of the token answered.
func (s *Server) signInOne(ctx context.Context, failed <-chan error) error {
	who, err := s.identify(ctx, failed)
	if err != nil || who == nil {
		return err
	}
	if err := s.store.In(who.TeamID).Stay(ctx); err != nil {
		return fmt.Errorf("sign in: %w", err)
	}
	s.resume(ctx, s.enter(who.TeamID, who.UserID, s.client(s.cfg.BotToken)))
	s.log.Info("signed in", "team", who.TeamID, "user", who.UserID)
	return nil
}

// readInstalled has the workspaces answered that have installed the app.
func (s *Server) readInstalled(ctx context.Context) error {
	teams, err := s.store.Workspaces(ctx)
	if err != nil {
		return fmt.Errorf("read the workspaces: %w", err)
	}
	installed := 0
	for _, team := range teams {
		access, err := s.store.In(team).Access(ctx)
		switch {
		case errors.Is(err, store.ErrNotFound):
			continue
		case errors.Is(err, store.ErrKey):
			s.log.Error("a workspace's token was kept with another key; it must install the app again", "team", team)
			continue
		case err != nil:
			return fmt.Errorf("read the workspaces: %w", err)
		case len(s.cfg.Workspaces) > 0 && !slices.Contains(s.cfg.Workspaces, team):
			continue
		}
		s.resume(ctx, s.enter(team, access.User, s.client(access.Token)))
		installed++
	}
	s.log.Info("signed in", "workspaces", installed)
	return nil
}

// isSignedIn reports whether it is known which workspaces are answered.
func (s *Server) isSignedIn() bool {
	select {
	case <-s.signedIn:
		return true
	default:
		return false
	}
}

// identify asks Slack who the bot is by its token, again and again while Slack
// cannot be reached. It gives nil if ctx ends meanwhile.
func (s *Server) identify(ctx context.Context, failed <-chan error) (*slack.AuthTestResponse, error) {
	api := s.client(s.cfg.BotToken)
	for wait := s.times.backoff; ; wait = min(2*wait, time.Minute) {
		who, err := api.AuthTestContext(ctx)
		if err == nil {
			if len(s.cfg.Workspaces) > 0 && !slices.Contains(s.cfg.Workspaces, who.TeamID) {
				return nil, fmt.Errorf("SLACK_BOT_TOKEN is of the workspace %s, which is not among those to answer", who.TeamID)
			}
			return who, nil
		}
		var slackSays slack.SlackErrorResponse
		if errors.As(err, &slackSays) && slackSays.Err != "ratelimited" && slackSays.Err != "internal_error" {
			return nil, fmt.Errorf("slack does not accept SLACK_BOT_TOKEN: %s", slackSays.Err)
		}
		s.log.Warn("slack cannot be reached", "error", cause(err), "again_in", wait)
		select {
		case <-ctx.Done():
			return nil, nil
		case err := <-failed:
			return nil, err
		case <-time.After(wait):
		}
	}
}
