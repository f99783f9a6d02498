package slack

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"

	"pottle/store"
)

// address checks the clock, and whether the public address leads to a pottle
// that many workspaces can install.
func (e *examination) address(ctx context.Context) {
	if header, midway, err := e.call(ctx, "api.test", "", &struct{}{}); header != nil {
		e.clock(header, midway)
	} else {
		e.refused("the connection to Slack", "api.test", "the network", err)
	}
	if err := publicAddress(e.cfg.URL); err != nil {
		e.fault("set POTTLE_URL to the public address, such as https://pottle.example.org", "there is no public address for installations")
		return
	}
	page := strings.TrimRight(e.cfg.URL, "/") + installPath
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, page, nil)
	if err != nil {
		e.fault("set POTTLE_URL to the public address", "POTTLE_URL is no address")
		return
	}
	response, err := e.client.Do(r)
	if err != nil {
		e.fault("start pottle serve, and let the proxy pass /slack/ on to POTTLE_LISTEN", "nothing answers at %s: %v", page, plainCause(err))
		return
	}
	defer response.Body.Close()
	to, err := url.Parse(response.Header.Get("Location"))
	if err != nil || to.Hostname() != "slack.com" || to.Query().Get("client_id") != e.cfg.ClientID {
		e.fault("start pottle serve with the same SLACK_CLIENT_ID, and let the proxy pass /slack/ on to POTTLE_LISTEN", "%s does not lead to the installation (HTTP status %d)", page, response.StatusCode)
		return
	}
	e.ok("workspaces install pottle at %s", page)
}

// ExamineInstalled asks Slack about the token of each workspace that installed
// the app, by what the store keeps.
func ExamineInstalled(ctx context.Context, cfg Config, s store.Store) []Finding {
	e := newExamination(cfg)
	teams, err := s.Workspaces(ctx)
	if err != nil {
		e.fault("restore a backup (pottle store restore)", "the workspaces cannot be read: %v", err)
		return e.told()
	}
	installed := 0
	for _, team := range teams {
		access, err := s.In(team).Access(ctx)
		switch {
		case errors.Is(err, store.ErrNotFound):
			continue
		case err != nil:
			e.fault("let the workspace install pottle again", "the token of the workspace %s cannot be read: %s", team, store.Message(err))
			continue
		}
		installed++
		of := newExamination(cfg)
		of.cfg.BotToken, of.cfg.Workspaces = access.Token, nil
		of.bot(ctx)
		for _, f := range of.told() {
			if f.Fault {
				f.Text = "workspace " + team + ": " + strings.ReplaceAll(f.Text, "SLACK_BOT_TOKEN", "its token")
				f.Do = "let the workspace install pottle again, if it is to"
				e.found = append(e.found, f)
			}
		}
	}
	e.ok("workspaces that have installed pottle: %d", installed)
	return e.told()
}
