package slack

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"time"
)

// Finding is what one check found: that all is well, or what is wrong and what
// to do about it. It holds no token.
type Finding struct {
	Fault bool
	Text  string // what was found, in words
	Do    string // what to do; may stand without a fault too
}

// Examine checks the tokens, and by them what Slack says: who the bot is, what
// it may do, whether a connection can be had, and whether the clocks agree. It
// posts no message and reads none.
func Examine(ctx context.Context, cfg Config) []Finding {
	e := newExamination(cfg)
	e.tokens()
	if cfg.Many() {
		e.address(ctx)
	} else {
		e.bot(ctx)
	}
	if !cfg.HTTP {
		e.connection(ctx)
	}
	return e.told()
}

func newExamination(cfg Config) *examination {
	return &examination{cfg: cfg, now: time.Now, client: &http.Client{Timeout: examineFor, CheckRedirect: func(*http.Request, []*http.Request) error {
		return http.ErrUseLastResponse // a token goes nowhere else
	}}}
}

// told is what was found, without secrets.
func (e *examination) told() []Finding {
	hide := hider(e.cfg)
	for i := range e.found {
		e.found[i].Text, e.found[i].Do = hide.Replace(e.found[i].Text), hide.Replace(e.found[i].Do)
	}
	return e.found
}

// examineFor is the longest that Slack may take for an answer.
const examineFor = 10 * time.Second

// hider hides the tokens of cfg, wherever an error should have picked one up.
func hider(cfg Config) *strings.Replacer {
	var pairs []string
	for _, s := range []Secret{cfg.BotToken, cfg.AppToken, cfg.SigningSecret, cfg.ClientSecret} {
		if s != "" {
			pairs = append(pairs, string(s), "(secret)")
		}
	}
	return strings.NewReplacer(pairs...)
}

type examination struct {
	cfg    Config
	client *http.Client
	now    func() time.Time
	found  []Finding
}

func (e *examination) ok(format string, args ...any) {
	e.found = append(e.found, Finding{Text: fmt.Sprintf(format, args...)})
}

func (e *examination) fault(do, format string, args ...any) {
	e.found = append(e.found, Finding{Fault: true, Text: fmt.Sprintf(format, args...), Do: do})
}

// Where Slack shows what to set.
const (
	whereBot     = "api.slack.com/apps, your app, OAuth & Permissions"
	whereApp     = "api.slack.com/apps, your app, Basic Information, App-Level Tokens"
	whereSigning = "api.slack.com/apps, your app, Basic Information, App Credentials"
)

var (
	botShape     = regexp.MustCompile(`^xoxb-[0-9A-Za-z-]{10,}$`)
	appShape     = regexp.MustCompile(`^xapp-[0-9A-Za-z-]{10,}$`)
	signingShape = regexp.MustCompile(`^[0-9a-f]{32}$`)
	clientShape  = regexp.MustCompile(`^\d+\.\d+$`)
)

// tokens checks the shape of what is set.
func (e *examination) tokens() {
	if e.cfg.Many() {
		if e.cfg.BotToken != "" {
			e.fault("unset one of them", "SLACK_BOT_TOKEN is for one workspace, SLACK_CLIENT_ID for many")
		}
		e.shape("SLACK_CLIENT_ID", Secret(e.cfg.ClientID), clientShape, "a client id", whereSigning+`: copy the "Client ID", two numbers with a point between`)
		e.shape("SLACK_CLIENT_SECRET", e.cfg.ClientSecret, signingShape, "a client secret", whereSigning+`: copy the "Client Secret", 32 digits and letters a to f`)
		e.shape("SLACK_SIGNING_SECRET", e.cfg.SigningSecret, signingShape, "a signing secret", whereSigning+`: copy the "Signing Secret", 32 digits and letters a to f`)
		return
	}
	e.shape("SLACK_BOT_TOKEN", e.cfg.BotToken, botShape, "a bot token", whereBot+`: copy the "Bot User OAuth Token", which begins with xoxb-`)
	if e.cfg.HTTP {
		e.shape("SLACK_SIGNING_SECRET", e.cfg.SigningSecret, signingShape, "a signing secret", whereSigning+`: copy the "Signing Secret", 32 digits and letters a to f`)
		return
	}
	e.shape("SLACK_APP_TOKEN", e.cfg.AppToken, appShape, "an app-level token", whereApp+": make a token with the scope connections:write; it begins with xapp-")
}

// kinds are the beginnings of Slack's tokens.
var kinds = []struct{ begins, is string }{
	{"xoxb-", "a bot token"}, {"xapp-", "an app-level token"}, {"xoxp-", "a user's token"}, {"xoxe", "a token that is renewed"}, {"xoxa-", "an old token"}, {"xoxs-", "a session's token"},
}

func (e *examination) shape(name string, s Secret, shape *regexp.Regexp, is, do string) {
	switch {
	case s == "":
		e.fault(do, "%s is not set", name)
	case shape.MatchString(string(s)):
		e.ok("%s looks like %s", name, is)
	default:
		for _, k := range kinds {
			if strings.HasPrefix(string(s), k.begins) && k.is != is {
				e.fault(do, "%s is %s, not %s", name, k.is, is)
				return
			}
		}
		e.fault(do, "%s does not look like %s: is it cut short, or is something else in it?", name, is)
	}
}

// bot asks Slack who the bot is, and checks its scopes and the clock.
func (e *examination) bot(ctx context.Context) {
	if e.cfg.BotToken == "" {
		return
	}
	var who struct {
		Team   string `json:"team"`
		TeamID string `json:"team_id"`
		User   string `json:"user"`
		BotID  string `json:"bot_id"`
	}
	header, midway, err := e.call(ctx, "auth.test", e.cfg.BotToken, &who)
	if header != nil {
		e.clock(header, midway)
	}
	if err != nil {
		e.refused("SLACK_BOT_TOKEN", "auth.test", whereBot, err)
		return
	}
	e.ok("Slack knows the bot as %q in the workspace %q (%s)", who.User, who.Team, who.TeamID)
	if who.BotID == "" {
		e.fault(whereBot+`: copy the "Bot User OAuth Token"`, "SLACK_BOT_TOKEN is not a bot's")
	}
	if w := e.cfg.Workspaces; len(w) > 0 && !slices.Contains(w, who.TeamID) {
		e.fault("add "+who.TeamID+" to POTTLE_WORKSPACES, or leave it unset", "the workspace %s is not among those that are answered", who.TeamID)
	}
	e.scopes(header)
}

// scopes compares what the token may do with what the bot needs.
func (e *examination) scopes(header http.Header) {
	if _, told := header["X-Oauth-Scopes"]; !told {
		e.ok("Slack does not say which scopes the token has; they were not checked")
		return
	}
	missing, unneeded := missingScopes(header.Get("X-OAuth-Scopes"))
	if len(missing) == 0 {
		e.ok("the token has every scope that is needed")
	}
	for _, name := range missing {
		i := slices.IndexFunc(scopes, func(s scope) bool { return s.name == name })
		e.fault(whereBot+": add it under Bot Token Scopes, then reinstall the app", "the scope %s is missing (%s)", name, scopes[i].why)
	}
	if len(unneeded) > 0 {
		e.found = append(e.found, Finding{Text: "the token may do more than pottle needs: " + strings.Join(unneeded, ", "), Do: whereBot + ": remove what no other part of the app uses"})
	}
}

// mostSkew is the most by which our clock may differ from Slack's. Slack's
// signatures are refused after five minutes.
const mostSkew = time.Minute

// clock compares our clock, midway through a call, with the date of its answer,
// which has whole seconds.
func (e *examination) clock(header http.Header, midway time.Time) {
	theirs, err := http.ParseTime(header.Get("Date"))
	if err != nil {
		e.ok("the answer has no date; the clock was not checked")
		return
	}
	skew := midway.Sub(theirs).Round(time.Second)
	how := "ahead of"
	if skew < 0 {
		how, skew = "behind", -skew
	}
	if skew > mostSkew {
		e.fault("set the clock, for instance: timedatectl set-ntp true", "the clock of this machine is %s %s Slack's; requests over HTTP are refused from 5 minutes on", skew, how)
		return
	}
	e.ok("the clock agrees with Slack's to within %s", max(skew, time.Second))
}

// connection asks for the address of a Socket Mode connection. It is not used;
// Slack forgets it.
func (e *examination) connection(ctx context.Context) {
	if e.cfg.AppToken == "" {
		return
	}
	var opened struct {
		URL string `json:"url"`
	}
	if _, _, err := e.call(ctx, "apps.connections.open", e.cfg.AppToken, &opened); err != nil {
		e.refused("SLACK_APP_TOKEN", "apps.connections.open", whereApp, err)
		return
	}
	u, err := url.Parse(opened.URL)
	if err != nil || u.Host == "" {
		e.fault("try again later", "Slack gives no address to connect to")
		return
	}
	e.ok("Slack gives a connection for Socket Mode, at %s", u.Hostname())
}
