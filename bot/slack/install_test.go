package slack

import (
	"io"
	"maps"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// startMany starts a server that answers every workspace that installs the app.
func startMany(t *testing.T, fake *slackfake.Server, kept store.Store, change func(*Config)) *rig {
	t.Helper()
	r := startWith(t, fake, "http", kept, func(c *Config, s *Server) {
		if s == nil {
			c.BotToken, c.ClientID, c.ClientSecret, c.URL = "", "1.2", "client-s3cret", "https://pottle.example.org"
			if change != nil {
				change(c)
			}
		}
	})
	await(t, r.srv.signedIn)
	return r
}

// keyed opens a store in memory that has a key.
func keyed(t *testing.T) *store.Badger {
	t.Helper()
	key, err := store.NewKey()
	if err != nil {
		t.Fatal(err)
	}
	kept, err := store.OpenMemory(store.Options{Key: key})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { kept.Close() })
	return kept
}

// accessFor is what Slack gives for a code.
func accessFor(team, token string) map[string]any {
	return map[string]any{
		"access_token": token, "token_type": "bot", "scope": strings.Join(scopeNames(), ","), "bot_user_id": slackfake.User, "app_id": "A1",
		"team": map[string]any{"id": team, "name": "Clinic <" + team + ">"}, "authed_user": map[string]any{"id": "UADMIN"},
	}
}

// browse asks for a page with a cookie, without following where it sends us.
func (r *rig) browse(path, cookie string) (status int, header http.Header, page string) {
	r.t.Helper()
	req, err := http.NewRequest("GET", "http://"+r.at+path, nil)
	if err != nil {
		r.t.Fatal(err)
	}
	if cookie != "" {
		req.Header.Set("Cookie", ticketCookie+"="+cookie)
	}
	resp, err := (&http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}).Do(req)
	if err != nil {
		r.t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		r.t.Fatal(err)
	}
	return resp.StatusCode, resp.Header, string(body)
}

// begin opens the page that sends to Slack, and returns the cookie it sets and
// the state it sends.
func (r *rig) begin() (cookie, state string) {
	r.t.Helper()
	status, header, _ := r.browse(installPath, "")
	to, err := url.Parse(header.Get("Location"))
	if status != http.StatusFound || err != nil || to.Host != "slack.com" || to.Path != "/oauth/v2/authorize" {
		r.t.Fatalf("status %d, sent to %q", status, header.Get("Location"))
	}
	set, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	if err != nil || set.Name != ticketCookie || !set.Secure || !set.HttpOnly || set.SameSite != http.SameSiteLaxMode || set.Path != "/" || set.Domain != "" {
		r.t.Fatalf("cookie %v, %v", set, err)
	}
	q := to.Query()
	if q.Get("client_id") != "1.2" || q.Get("scope") != strings.Join(scopeNames(), ",") || q.Get("redirect_uri") != "https://pottle.example.org/slack/installed" {
		r.t.Errorf("slack is asked for %v", q)
	}
	return set.Value, q.Get("state")
}

// install installs the app in a workspace.
func (r *rig) install(team, token string) {
	r.t.Helper()
	cookie, state := r.begin()
	code := "code-" + token
	r.fake.Grant(code, accessFor(team, token))
	status, header, page := r.browse(installedPath+"?"+url.Values{"code": {code}, "state": {state}}.Encode(), cookie)
	if status != http.StatusOK || !strings.Contains(page, "pottle is in Clinic &lt;"+team+"&gt;") {
		r.t.Fatalf("status %d: %s", status, page)
	}
	for name, want := range map[string]string{"Referrer-Policy": "no-referrer", "Cache-Control": "no-store"} {
		if header.Get(name) != want {
			r.t.Errorf("%s is %q", name, header.Get(name))
		}
	}
	if c := r.call(); c.Method != "oauth.v2.access" || c.Text != "https://pottle.example.org/slack/installed" {
		r.t.Errorf("called %s with %q", c.Method, c.Text)
	}
}

// TestInstall installs the app in two workspaces: each is answered with its own
// token and from its own memory, also after a restart. In the files no token is
// to be read.
func TestInstall(t *testing.T) {
	key, err := store.NewKey()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	kept, err := store.Open(dir, store.Options{Key: key})
	if err != nil {
		t.Fatal(err)
	}
	fake := slackfake.New()
	t.Cleanup(fake.Close)
	r := startMany(t, fake, kept, nil)
	r.bring("events_api", "E0", slackfake.Event("T1", "E0", slackfake.Message("D1", "U1", "1.0", "", "help"))) // not installed yet
	r.install("T1", "xoxb-one")
	r.install("T2", "xoxb-two")
	r.bring("events_api", "E1", slackfake.Event("T1", "E1", slackfake.Message("D1", "U1", "1.1", "", soup)))
	if c := r.call(); c.Token != "xoxb-one" || !strings.Contains(c.Text, "Lentil soup") {
		t.Errorf("T1 is told with %s: %s", c.Token, c.Text)
	}
	again := func(r *rig, n string) {
		r.bring("events_api", n, slackfake.Event("T2", n, slackfake.Message("D1", "U1", "1."+n, "1.1", "what brings the sodium")))
		if c := r.call(); c.Token != "xoxb-two" || !strings.Contains(c.Text, "no recipe here") {
			t.Errorf("T2 is told with %s: %s", c.Token, c.Text)
		}
		r.bring("events_api", n, slackfake.Event("T1", n, slackfake.Message("D1", "U1", "1."+n, "1.1", "what brings the sodium")))
		if c := r.call(); c.Token != "xoxb-one" || !strings.Contains(c.Text, "salt") {
			t.Errorf("T1 is told with %s: %s", c.Token, c.Text)
		}
		r.bring("slash_commands", n, slackfake.Command("T3", "C1", "U1", "help", "t"+n, fake.ResponseURL("r1")))
	}
	again(r, "2")
	r.end()
	r.quiet()
	r = startMany(t, fake, kept, nil)
	again(r, "3")
	r.end()
	r.quiet()
	if strings.Contains(r.log.String(), "xoxb-") {
		t.Error("the log holds a token")
	}
	if err := kept.Close(); err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(dir + "/*")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, file := range files {
		if data, err := os.ReadFile(file); err != nil || strings.Contains(string(data), "xoxb-") {
			t.Errorf("%s holds a token (%v)", file, err)
		}
	}
}

// TestInstallRefused: what is not begun here, not by this browser, over, used or
// not wanted installs nothing.
func TestInstallRefused(t *testing.T) {
	for _, c := range []struct {
		name   string
		spoil  func(q url.Values, cookie *string)
		answer map[string]any // of Slack, instead of what is right
		only   []string       // workspaces to answer
		status int
		say    string
		calls  string
	}{
		{"no cookie", func(_ url.Values, c *string) { *c = "" }, nil, nil, 400, "not begun here", ""},
		{"another's cookie", func(_ url.Values, c *string) { *c = newTickets().give(time.Now()) }, nil, nil, 400, "not begun here", ""},
		{"forged on both sides", func(q url.Values, c *string) { *c = newTickets().give(time.Now()); q.Set("state", *c) }, nil, nil, 400, "not begun here", ""},
		{"no state", func(q url.Values, c *string) { *c = "x"; q.Del("state") }, nil, nil, 400, "not begun here", ""},
		{"refused in Slack", func(q url.Values, _ *string) { q.Set("error", "access_denied"); q.Del("code") }, nil, nil, 200, "was told not to", ""},
		{"no such code", func(q url.Values, _ *string) { q.Set("code", "other") }, nil, nil, 400, "no longer good", ""},
		{"a whole organisation", nil, map[string]any{"is_enterprise_install": true}, nil, 403, "one workspace at a time", "oauth.v2.access"},
		{"no bot token", nil, map[string]any{"token_type": "user"}, nil, 502, "no bot token", "oauth.v2.access"},
		{"tokens that are renewed", nil, map[string]any{"refresh_token": "xoxe-1", "expires_in": 43200}, nil, 403, "set to be renewed", "oauth.v2.access auth.revoke"},
		{"another workspace", nil, nil, []string{"T2"}, 403, "not among them", "oauth.v2.access auth.revoke"},
	} {
		t.Run(c.name, func(t *testing.T) {
			fake := slackfake.New()
			t.Cleanup(fake.Close)
			kept := keyed(t)
			r := startMany(t, fake, kept, func(cfg *Config) { cfg.Workspaces = c.only })
			cookie, state := r.begin()
			access := accessFor("T1", "xoxb-one")
			maps.Copy(access, c.answer)
			fake.Grant("code", access)
			q := url.Values{"code": {"code"}, "state": {state}}
			if c.spoil != nil {
				c.spoil(q, &cookie)
			}
			status, _, page := r.browse(installedPath+"?"+q.Encode(), cookie)
			if status != c.status || !strings.Contains(page, c.say) || !strings.Contains(page, "Nothing was installed") {
				t.Errorf("status %d: %s", status, page)
			}
			r.bring("events_api", "E1", slackfake.Event("T1", "E1", slackfake.Message("D1", "U1", "1.1", "", "help")))
			r.end()
			var calls []string
			for len(fake.Calls) > 0 {
				call := r.call()
				calls = append(calls, call.Method)
				if call.Method == "auth.revoke" && call.Token != "xoxb-one" {
					t.Errorf("revoked %q", call.Token)
				}
			}
			if got := strings.Join(calls, " "); got != c.calls {
				t.Errorf("called %q, want %q", got, c.calls)
			}
			if teams, err := kept.Workspaces(t.Context()); err != nil || len(teams) != 0 {
				t.Errorf("the store holds %v, %v", teams, err)
			}
			if strings.Contains(r.log.String()+page, "xoxb-") || strings.Contains(r.log.String()+page, "s3cret") {
				t.Error("the log or the page holds a secret")
			}
		})
	}
}

// TestInstallNoKey: without a key no token is kept.
func TestInstallNoKey(t *testing.T) {
	fake := slackfake.New()
	t.Cleanup(fake.Close)
	r := startMany(t, fake, nil, nil)
	cookie, state := r.begin()
	fake.Grant("code", accessFor("T1", "xoxb-one"))
	status, _, page := r.browse(installedPath+"?"+url.Values{"code": {"code"}, "state": {state}}.Encode(), cookie)
	_, ref, ok := strings.Cut(page, "reference ")
	if status != http.StatusBadGateway || !ok || !strings.Contains(r.log.String(), "reference="+ref[:8]) {
		t.Errorf("status %d: %s\n%s", status, page, r.log)
	}
}

// TestTickets: a ticket is good once, and for ten minutes.
func TestTickets(t *testing.T) {
	now := time.Unix(1_000_000, 0)
	tickets := newTickets()
	first, second, third := tickets.give(now), tickets.give(now), tickets.give(now)
	for _, c := range []struct {
		name, ticket string
		at           time.Time
		want         bool
	}{
		{"good", first, now, true},
		{"used", first, now, false},
		{"at the end", second, now.Add(ticketTime), true},
		{"over", third, now.Add(ticketTime + time.Second), false},
		{"changed", third[:len(third)-2] + "AA", now, false},
		{"cut short", third[:20], now, false},
		{"empty", "", now, false},
		{"no ticket", "not base64!", now, false},
		{"still good", third, now, true},
	} {
		if got := tickets.take(c.ticket, c.at); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
	if first == second {
		t.Error("two tickets are the same")
	}
}

// TestLeave takes the app out of a workspace: it is no longer answered, its token
// is gone at once and its data after the stated time; unless it comes back.
func TestLeave(t *testing.T) {
	for _, c := range []struct {
		name  string
		event map[string]any
		gone  bool
	}{
		{"taken out", map[string]any{"type": "app_uninstalled"}, true},
		{"token revoked", map[string]any{"type": "tokens_revoked", "tokens": map[string]any{"bot": []string{slackfake.User}}}, true},
		{"a person's token revoked", map[string]any{"type": "tokens_revoked", "tokens": map[string]any{"oauth": []string{"U1"}}}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			fake := slackfake.New()
			t.Cleanup(fake.Close)
			now := time.Now()
			key, err := store.NewKey()
			if err != nil {
				t.Fatal(err)
			}
			kept, err := store.OpenMemory(store.Options{Key: key, Housekeeping: -1, Now: func() time.Time { return now }})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { kept.Close() })
			r := startMany(t, fake, kept, func(c *Config) { c.Channels = []string{"D1"} })
			r.install("T1", "xoxb-one")
			r.install("T2", "xoxb-two")
			said := func(team, id string) {
				t.Helper()
				r.bring("events_api", id, slackfake.Event(team, id, slackfake.Message("D1", "U1", "1."+id, "", "sodium in 1 tsp salt")))
			}
			said("T1", "1")
			said("T2", "1")
			r.call()
			r.call()
			leave := func(at time.Time, id string) {
				event := slackfake.Event("T1", id, c.event)
				event["event_time"] = at.Unix()
				r.bring("events_api", id, event)
				for r.srv.gate.inside() > 0 {
					time.Sleep(time.Millisecond)
				}
			}
			leave(now.Add(-time.Minute), "L0") // from before the installation
			said("T1", "2")
			if c := r.call(); c.Token != "xoxb-one" {
				t.Errorf("told with %q", c.Token)
			}
			leave(now, "L1")
			leave(now, "L1")
			said("T2", "3")
			said("T1", "3")
			r.end()
			if n := len(fake.Calls); n != map[bool]int{true: 1, false: 2}[c.gone] {
				t.Errorf("%d answers", n)
			}
			if _, err := kept.In("T1").Access(t.Context()); (err != nil) != c.gone {
				t.Errorf("access to T1: %v", err)
			}
			for len(fake.Calls) > 0 {
				r.call()
			}
			now = now.Add(store.KeepLeft - time.Hour)
			tidy := func(want string) {
				t.Helper()
				if err := kept.Tidy(t.Context()); err != nil {
					t.Fatal(err)
				}
				if teams, err := kept.Workspaces(t.Context()); err != nil || strings.Join(teams, " ") != want {
					t.Errorf("the store holds %v, %v; want %s", teams, err, want)
				}
			}
			tidy("T1 T2")
			now = now.Add(2 * time.Hour)
			tidy(map[bool]string{true: "T2", false: "T1 T2"}[c.gone])

			r = startMany(t, fake, kept, nil)
			r.install("T1", "xoxb-new")
			said("T1", "4")
			if c := r.call(); c.Token != "xoxb-new" {
				t.Errorf("told with %q", c.Token)
			}
			r.end()
		})
	}
}

// TestLeaveOne: where the token is set, the data goes too, unless the server
// starts again with a token that is good.
func TestLeaveOne(t *testing.T) {
	kept := keyed(t)
	r := start(t, "socket", kept, nil)
	r.say("E1", slackfake.Message("D1", "U1", "1.1", "", "help"))
	r.call()
	r.say("E2", map[string]any{"type": "app_uninstalled"})
	for r.srv.gate.inside() > 0 {
		time.Sleep(time.Millisecond)
	}
	if got := r.get("/readyz"); got != http.StatusServiceUnavailable {
		t.Errorf("readyz is %d", got)
	}
	r.end()
	if at, err := kept.In(slackfake.Team).Left(t.Context()); err != nil || at.IsZero() {
		t.Errorf("left at %v, %v", at, err)
	}
	r = start(t, "socket", kept, nil)
	r.end()
	if at, err := kept.In(slackfake.Team).Left(t.Context()); err != nil || !at.IsZero() {
		t.Errorf("left at %v, %v", at, err)
	}
}
