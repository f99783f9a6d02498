package slack

import (
	"context"
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"github.com/slack-go/slack"

	"pottle/store"
)

// A workspace installs the app by OAuth v2: somebody opens installPath, is sent
// to Slack to agree, and comes back to installedPath with a code, which is
// changed for the workspace's token. What ties the two together is a ticket: it
// goes to Slack and back as the state, and stays in a cookie meanwhile.
const (
	installPath   = "/slack/install"
	installedPath = "/slack/installed"
	authorizeURL  = "https://slack.com/oauth/v2/authorize"
)

// ticketCookie may only be set by this host over HTTPS, which browsers take
// from its name.
const ticketCookie = "__Host-pottle-install"

// ticketTime is how long an installation may take.
const ticketTime = 10 * time.Minute

// tickets are given out to who begins an installation and taken back once.
type tickets struct {
	key  []byte // signs them, so that those given out need not be kept
	used *recent[struct{}]
}

func newTickets() *tickets {
	key := make([]byte, 32)
	rand.Read(key)
	return &tickets{key: key, used: newRecent[struct{}](10_000)}
}

// give makes a ticket: its end, random bytes, and the signature of both.
func (t *tickets) give(now time.Time) string {
	b := binary.BigEndian.AppendUint64(nil, uint64(now.Add(ticketTime).Unix()))
	random := make([]byte, 16)
	rand.Read(random)
	b = append(b, random...)
	return base64.RawURLEncoding.EncodeToString(append(b, t.sign(b)...))
}

func (t *tickets) sign(b []byte) []byte {
	mac := hmac.New(sha256.New, t.key)
	mac.Write(b)
	return mac.Sum(nil)
}

// take reports whether a ticket is one that was given out, is not over and was
// not taken before.
func (t *tickets) take(ticket string, now time.Time) bool {
	const signed = 8 + 16
	b, err := base64.RawURLEncoding.DecodeString(ticket)
	if err != nil || len(b) != signed+sha256.Size || !hmac.Equal(b[signed:], t.sign(b[:signed])) {
		return false
	}
	return now.Unix() <= int64(binary.BigEndian.Uint64(b)) && t.used.putNew(string(b[:signed]), struct{}{})
}

// install takes /slack/install: it sends the browser to Slack.
func (s *Server) install(w http.ResponseWriter, r *http.Request) {
	ticket := s.tickets.give(s.now())
	http.SetCookie(w, &http.Cookie{Name: ticketCookie, Value: ticket, Path: "/", MaxAge: int(ticketTime / time.Second),
		Secure: true, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	w.Header().Set("Cache-Control", "no-store")
	http.Redirect(w, r, authorizeURL+"?"+url.Values{
		"client_id": {s.cfg.ClientID}, "scope": {strings.Join(scopeNames(), ",")}, "state": {ticket}, "redirect_uri": {s.cfg.redirectURL()},
	}.Encode(), http.StatusFound)
}

// installed takes /slack/installed, where Slack sends the browser back to.
func (s *Server) installed(w http.ResponseWriter, r *http.Request) {
	http.SetCookie(w, &http.Cookie{Name: ticketCookie, Path: "/", MaxAge: -1, Secure: true, HttpOnly: true, SameSite: http.SameSiteLaxMode})
	query := r.URL.Query()
	cookie, err := r.Cookie(ticketCookie)
	state := query.Get("state")
	switch {
	case err != nil, !hmac.Equal([]byte(cookie.Value), []byte(state)), !s.tickets.take(state, s.now()):
		s.metrics.failed("install")
		showPage(w, http.StatusBadRequest, "Nothing was installed", "This was not begun here in the last 10 minutes, or it was used before. Begin again.")
		return
	case query.Get("error") != "":
		showPage(w, http.StatusOK, "Nothing was installed", "Slack was told not to. You can begin again at any time.")
		return
	}
	name, err := s.exchange(r.Context(), query.Get("code"))
	var why reason
	switch {
	case errors.As(err, &why):
		s.metrics.failed("install")
		s.log.Warn("an installation was refused", "reason", why.log)
		showPage(w, why.status, "Nothing was installed", why.say)
	case err != nil:
		ref := reference()
		s.metrics.failed("install")
		s.log.Error("an installation failed", "reference", ref, "error", cause(err))
		showPage(w, http.StatusBadGateway, "Nothing was installed", "Something went wrong. Begin again; if it stays so, tell who runs pottle: reference "+ref+".")
	default:
		showPage(w, http.StatusOK, "pottle is in "+name, `In Slack, open pottle under Apps and say "help". In a channel, say "/invite @pottle" first.`)
	}
}

// reason says why an installation is refused, to the person and in the log.
type reason struct {
	status   int
	say, log string
}

func (r reason) Error() string { return r.log }

// exchange changes a code for the token of a workspace, keeps it, and from then
// on answers the workspace, whose name it returns.
func (s *Server) exchange(ctx context.Context, code string) (name string, err error) {
	var options []slack.OAuthOption
	if s.cfg.APIURL != "" {
		options = append(options, slack.OAuthOptionAPIURL(s.cfg.APIURL))
	}
	got, err := slack.GetOAuthV2ResponseContext(ctx, s.http, s.cfg.ClientID, string(s.cfg.ClientSecret), code, s.cfg.redirectURL(), options...)
	var says slack.SlackErrorResponse
	switch {
	case errors.As(err, &says) && (says.Err == "invalid_code" || says.Err == "code_already_used"):
		return "", reason{http.StatusBadRequest, "Slack's code is no longer good. Begin again.", says.Err}
	case err != nil:
		return "", err
	case got.IsEnterpriseInstall:
		return "", reason{http.StatusForbidden, "pottle is installed in one workspace at a time, not in a whole organisation. Begin again and choose a workspace.", "enterprise installation"}
	case got.TokenType != "bot" || got.Team.ID == "" || got.AccessToken == "" || got.BotUserID == "":
		return "", reason{http.StatusBadGateway, "Slack gave no bot token. Tell who runs pottle.", "no bot token"}
	}
	api := s.client(Secret(got.AccessToken))
	refuse := func(why reason) (string, error) {
		if _, err := api.SendAuthRevokeContext(ctx, ""); err != nil {
			s.log.Error("a token that is not wanted could not be given back", "team", got.Team.ID, "error", cause(err))
		}
		return "", why
	}
	switch {
	case got.RefreshToken != "" || got.ExpiresIn != 0:
		return refuse(reason{http.StatusForbidden, "The app's tokens are set to be renewed, which pottle does not do. Tell who runs pottle.", "token rotation is on: turn it off in the app's settings"})
	case len(s.cfg.Workspaces) > 0 && !slices.Contains(s.cfg.Workspaces, got.Team.ID):
		return refuse(reason{http.StatusForbidden, "This pottle is for certain workspaces only, and yours is not among them. Ask who runs it.", "workspace " + got.Team.ID + " is not among those to answer"})
	}
	if missing, _ := missingScopes(got.Scope); len(missing) > 0 {
		s.log.Warn("a workspace did not grant all scopes", "team", got.Team.ID, "missing", missing)
	}
	err = s.store.In(got.Team.ID).Grant(ctx, store.Access{
		Token: Secret(got.AccessToken), User: got.BotUserID, Name: got.Team.Name, Scopes: got.Scope, By: got.AuthedUser.ID,
	})
	if err != nil {
		return "", err
	}
	s.enter(got.Team.ID, got.BotUserID, api)
	s.log.Info("installed", "team", got.Team.ID)
	return got.Team.Name, nil
}

// page of the browser.
var pageTemplate = template.Must(template.New("page").Parse(`<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>{{.Title}}</title>
<body style="font-family:sans-serif;max-width:32em;margin:4em auto;padding:0 1em"><h1>{{.Title}}</h1><p>{{.Text}}</p></body></html>
`))

// showPage shows a page that runs nothing, is not kept, and passes the code in its
// address on to nobody.
func showPage(w http.ResponseWriter, status int, title, text string) {
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("X-Content-Type-Options", "nosniff")
	w.WriteHeader(status)
	pageTemplate.Execute(w, struct{ Title, Text string }{title, text})
}
