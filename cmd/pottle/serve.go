package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"
	"os/signal"
	"syscall"
	"time"

	"pottle/bot/slack"
	"pottle/store"
)

// serveCommand has no flags for tokens: what is on a command line, every user
// of the machine can read.
type serveCommand struct {
	Data       string        `help:"The directory of the teams' memory." env:"POTTLE_DATA" placeholder:"DIR"`
	Key        string        `help:"A file with the key, if the memory is encrypted." env:"POTTLE_KEY" placeholder:"FILE"`
	HTTP       bool          `help:"Take requests over HTTP; otherwise over Socket Mode if SLACK_APP_TOKEN is set, else HTTP." name:"http" env:"POTTLE_HTTP"`
	Listen     string        `help:"The address for HTTP, by default :8080; with Socket Mode for /healthz and /readyz only, by default none." env:"POTTLE_LISTEN" placeholder:"ADDRESS"`
	Metrics    string        `help:"An address that has only /metrics, such as 127.0.0.1:9090." env:"POTTLE_METRICS" placeholder:"ADDRESS"`
	APIURL     string        `help:"Another address of Slack's Web API, for tests." name:"slack-api-url" env:"POTTLE_SLACK_API_URL" placeholder:"URL"`
	Workspaces []string      `help:"Answer these workspaces only, by team id." env:"POTTLE_WORKSPACES" placeholder:"T..."`
	Channels   []string      `help:"Answer in these channels only, by id; direct messages have ids too." env:"POTTLE_CHANNELS" placeholder:"C..."`
	Drain      time.Duration `help:"How long to wait for answers at the end." env:"POTTLE_DRAIN" default:"25s"`
	Manifest   bool          `help:"Print the app manifest to paste in Slack, and end." name:"print-manifest"`
	URL        string        `help:"The public address, for HTTP: it goes into the manifest (without it, Socket Mode does), and many workspaces install pottle there." name:"url" env:"POTTLE_URL" placeholder:"https://..."`
	Verbose    bool          `help:"Log more." short:"v"`
}

// defaultListen is where HTTP requests are taken if nothing else is said.
const defaultListen = ":8080"

// Run serves until it is told to stop (SIGTERM or SIGINT): it then takes
// nothing new and answers what it acknowledged. A second signal ends it at
// once. Logs are JSON lines on standard error.
func (c *serveCommand) Run(p *program) error {
	if c.Manifest {
		return slack.PrintManifest(p.out, c.URL)
	}
	level := slog.LevelInfo
	if c.Verbose {
		level = slog.LevelDebug
	}
	log := slog.New(slog.NewJSONHandler(p.err, &slog.HandlerOptions{Level: level}))
	cfg := slack.Config{
		HTTP: c.HTTP, Listen: c.Listen, Metrics: c.Metrics, APIURL: c.APIURL,
		URL: c.URL, Workspaces: c.Workspaces, Channels: c.Channels, Drain: c.Drain, Log: log,
	}
	if err := cfg.ReadTokens(os.Getenv); err != nil {
		return usageError{err}
	}
	if cfg.Many() && c.Key == "" {
		return usageError{errors.New("serve: the tokens of many workspaces are kept encrypted: make a key with \"pottle store key FILE\" and set POTTLE_KEY")}
	}
	if cfg.Many() || cfg.AppToken == "" && cfg.SigningSecret != "" {
		cfg.HTTP = true
	}
	if cfg.HTTP && cfg.Listen == "" {
		cfg.Listen = defaultListen
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // the next signal ends the program
	return c.serve(ctx, cfg)
}

// serve opens what the server needs, runs it and closes the store after it.
func (c *serveCommand) serve(ctx context.Context, cfg slack.Config) error {
	e, err := newEngine()
	if err != nil {
		return err
	}
	return dataFlags{Data: c.Data, Key: c.Key}.withStore(func(_ context.Context, s *store.Badger) error {
		server, err := slack.New(cfg, e, s)
		if err != nil {
			return usageError{fmt.Errorf("serve: %w", err)}
		}
		return server.Run(ctx)
	})
}
