package slack

import (
	"errors"
	"fmt"
	"log/slog"
	"os"
	"pottle/store"
	"strings"
	"time"
)

// Secret is a token or key. It prints as "(secret)", whatever prints it.
type Secret = store.Secret

// Config says how the bot is reached and how much it takes on. The zero value
// of everything but the tokens is fit for use.
type Config struct {
	BotToken      Secret // xoxb-, of one workspace
	AppToken      Secret // xapp-, for Socket Mode
	SigningSecret Secret // for HTTP

	// With these instead of BotToken every workspace that installs the app is
	// answered, over HTTP; the store must have a key.
	ClientID     string
	ClientSecret Secret
	URL          string // public address of the HTTP server, such as "https://pottle.example.org"

	HTTP   bool   // requests come over HTTP; otherwise over Socket Mode
	Listen string // address of the HTTP server; with Socket Mode it has only /healthz and /readyz, and "" is none
	APIURL string // of the Web API; "" is Slack's own

	Metrics string // address of a server that has only /metrics; "" is none

	Workspaces []string // team ids that are answered; empty for the token's own, or for all that install the app
	Channels   []string // channel ids that are answered; empty for all

	Queue    int           // most messages accepted and not yet answered; 2,000 if 0, or 10,000 for many workspaces
	PerTeam  int           // the same of one workspace; 2,000 if 0
	PerUser  int           // the same of one person; 40 if 0
	TeamRate int           // messages a minute of one workspace, after the first PerTeam; 1,200 if 0
	UserRate int           // messages a minute of one person, after the first PerUser; 60 if 0
	Workers  int           // messages worked at once; 8 if 0
	Pace     time.Duration // between two posts in one channel; 1 s if 0
	Drain    time.Duration // how long shutdown waits for answers; 8 s if 0

	Log *slog.Logger // never sees the text of a message; nil is none
}

// Many reports whether every workspace that installs the app is answered.
func (c *Config) Many() bool { return c.ClientID != "" }

// redirectURL is where Slack sends who installed the app.
func (c *Config) redirectURL() string { return strings.TrimRight(c.URL, "/") + installedPath }

// ReadTokens fills the tokens from the environment: SLACK_BOT_TOKEN,
// SLACK_APP_TOKEN, SLACK_SIGNING_SECRET and SLACK_CLIENT_SECRET, or the files
// that the same names with _FILE at the end point to; and SLACK_CLIENT_ID.
func (c *Config) ReadTokens(getenv func(string) string) error {
	c.ClientID = strings.TrimSpace(getenv("SLACK_CLIENT_ID"))
	var faults []error
	for name, to := range map[string]*Secret{
		"SLACK_BOT_TOKEN": &c.BotToken, "SLACK_APP_TOKEN": &c.AppToken, "SLACK_SIGNING_SECRET": &c.SigningSecret,
		"SLACK_CLIENT_SECRET": &c.ClientSecret,
	} {
		value, file := getenv(name), getenv(name+"_FILE")
		switch {
		case value != "" && file != "":
			faults = append(faults, fmt.Errorf("both %s and %s_FILE are set; keep one", name, name))
		case file != "":
			content, err := os.ReadFile(file)
			if err != nil {
				faults = append(faults, fmt.Errorf("read %s_FILE: %w", name, err))
			}
			value = string(content)
		}
		*to = Secret(strings.TrimSpace(value))
	}
	return errors.Join(faults...)
}

// check fills in what was left at zero and returns all that is wrong at once.
func (c *Config) check() error {
	var faults []error
	want := func(ok bool, text string) {
		if !ok {
			faults = append(faults, errors.New(text))
		}
	}
	if c.Many() {
		want(c.BotToken == "", "SLACK_BOT_TOKEN is for one workspace, SLACK_CLIENT_ID for many: keep one")
		want(c.ClientSecret != "", "SLACK_CLIENT_SECRET is not set (Slack: Basic Information)")
		want(c.HTTP, "many workspaces are answered over HTTP only: set POTTLE_HTTP=true")
		want(publicAddress(c.URL) == nil, "the public address is not set: POTTLE_URL, such as https://pottle.example.org")
	} else {
		want(strings.HasPrefix(string(c.BotToken), "xoxb-"), "SLACK_BOT_TOKEN is not set to a token that begins with xoxb- (Slack: OAuth & Permissions)")
	}
	if c.HTTP {
		want(c.SigningSecret != "", "SLACK_SIGNING_SECRET is not set (Slack: Basic Information)")
		want(c.Listen != "", "no address to listen at: set POTTLE_LISTEN, such as :8080")
	} else {
		want(strings.HasPrefix(string(c.AppToken), "xapp-"), "SLACK_APP_TOKEN is not set to a token that begins with xapp- (Slack: Basic Information, App-Level Tokens, scope connections:write)")
	}
	if c.APIURL != "" && !strings.HasSuffix(c.APIURL, "/") {
		c.APIURL += "/" // slack-go joins the method's name to it as it is
	}
	queue := 2000
	if c.Many() {
		queue = 10_000
	}
	c.Queue, c.Workers = or(c.Queue, queue), or(c.Workers, 8)
	c.PerTeam, c.PerUser = or(c.PerTeam, 2000), or(c.PerUser, 40)
	c.TeamRate, c.UserRate = or(c.TeamRate, 1200), or(c.UserRate, 60)
	c.Pace, c.Drain = or(c.Pace, time.Second), or(c.Drain, 8*time.Second)
	if c.Log == nil {
		c.Log = slog.New(slog.DiscardHandler)
	}
	return errors.Join(faults...)
}

func or[T int | time.Duration](v, otherwise T) T {
	if v <= 0 {
		return otherwise
	}
	return v
}
