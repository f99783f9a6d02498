package slack

import (
	"net/http"
	"sync"

	"github.com/slack-go/slack"
)

// workspace is a workspace that the bot is in: who it is there, and its way to
// speak.
type workspace struct {
	team, user string // ids of the workspace and of the bot's user in it
	api        *slack.Client
	poster     *poster
}

// workspaces are those that are answered, by team id.
type workspaces struct {
	mu  sync.RWMutex
	all map[string]*workspace
}

func newWorkspaces() *workspaces { return &workspaces{all: make(map[string]*workspace)} }

// get returns a workspace, or nil if the bot is not in it.
func (w *workspaces) get(team string) *workspace {
	w.mu.RLock()
	defer w.mu.RUnlock()
	return w.all[team]
}

func (w *workspaces) empty() bool {
	w.mu.RLock()
	defer w.mu.RUnlock()
	return len(w.all) == 0
}

func (w *workspaces) put(ws *workspace) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.all[ws.team] = ws
}

func (w *workspaces) remove(team string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	delete(w.all, team)
}

// enter makes a workspace one of those that are answered.
func (s *Server) enter(team, user string, api *slack.Client) *workspace {
	ws := &workspace{team: team, user: user, api: api, poster: newPoster(api, s.http, s.cfg, s.metrics, &s.times)}
	s.workspaces.put(ws)
	return ws
}

// client returns a client of the Web API for a bot token.
func (s *Server) client(token Secret) *slack.Client {
	return slack.New(string(token), slackOptions(s.cfg, s.http)...)
}

func slackOptions(cfg Config, client *http.Client) []slack.Option {
	options := []slack.Option{slack.OptionHTTPClient(client)}
	if cfg.APIURL != "" {
		options = append(options, slack.OptionAPIURL(cfg.APIURL))
	}
	return options
}
