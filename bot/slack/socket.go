package slack

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"math/rand/v2"
	"net/http"
	"slices"
	"time"

	"github.com/slack-go/slack"
	"github.com/slack-go/slack/slackevents"
	"github.com/slack-go/slack/socketmode"
)

// Slack sends a request to any one of an app's connections, and what it sends
// to one that is being closed is lost. Two connections are kept, begun at
// different times, so that Slack does not close both at once.

// keepSocket keeps one of the connections up until ctx ends. It returns an
// error if Slack refuses the token.
func (s *Server) keepSocket(ctx context.Context, n int) error {
	if !sleep(ctx, time.Duration(n)*s.times.stagger) {
		return nil
	}
	for wait := s.times.backoff; !s.gate.isClosed(); {
		began := time.Now()
		err := s.socket(ctx, n)
		s.sockets[n].Store(false)
		switch {
		case ctx.Err() != nil:
			return nil
		case withdrawn(err):
			return fmt.Errorf("slack does not accept SLACK_APP_TOKEN: %w", cause(err))
		}
		if time.Since(began) > 10*s.times.quick {
			wait = s.times.backoff
		}
		s.log.Warn("a connection to slack failed", "connection", n, "error", cause(err), "again_in", wait)
		s.metrics.failed("connection")
		if !sleep(ctx, wait/2+rand.N(wait/2+1)) {
			return nil
		}
		wait = min(2*wait, time.Minute)
	}
	return nil
}

// quickLimit is how many connections in a row may be short before we wait
// longer than slack-go does: Slack may have disabled Socket Mode for the app,
// which slack-go does not tell.
const quickLimit = 5

var errQuick = errors.New("slack closes each connection soon; is Socket Mode enabled, and does no other program use the token?")

// socket runs one client, which connects again by itself, until ctx ends or
// the client gives up.
func (s *Server) socket(ctx context.Context, n int) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	options := append(slackOptions(s.cfg, s.http), slack.OptionAppLevelToken(string(s.cfg.AppToken)))
	client := socketmode.New(slack.New(string(s.cfg.BotToken), options...), socketmode.OptionReadLimit(mostBody), socketmode.OptionLog(log.New(io.Discard, "", 0)))
	ended := make(chan error, 1)
	go func() { ended <- client.RunContext(ctx) }()
	acks := make(chan string, 256)
	go s.acknowledgeAll(ctx, client, acks)

	quick, last := 0, time.Now()
	for {
		select {
		case err := <-ended:
			return err
		case e := <-client.Events:
			switch e.Type {
			case socketmode.EventTypeConnecting:
				s.sockets[n].Store(false)
			case socketmode.EventTypeConnected:
				if time.Since(last) < s.times.quick {
					quick++
				} else {
					quick = 0
				}
				last = time.Now()
				if quick > quickLimit {
					cancel()
					<-ended
					return errQuick
				}
			case socketmode.EventTypeHello:
				s.sockets[n].Store(true)
				s.log.Info("connected to slack", "connection", n)
			default:
				if id := s.envelope(e); id != "" {
					select {
					case acks <- id:
					default: // Slack sends it again, and it will be known
						s.metrics.failed("ack")
					}
				}
			}
		}
	}
}

// envelope takes in what an event brings and returns the envelope to
// acknowledge, or "" if there is none or Slack should send it again.
func (s *Server) envelope(e socketmode.Event) string {
	v := ignored
	switch data := e.Data.(type) {
	case slackevents.EventsAPIEvent:
		v = s.take(func() (said, bool) { return s.fromEvent(data) })
	case slack.SlashCommand:
		v = s.take(func() (said, bool) { return s.fromCommand(data) })
	case slack.InteractionCallback:
		v = s.take(func() (said, bool) { return s.fromInteraction(data) })
	case *socketmode.ErrorBadMessage: // of a kind that we do not know: Slack need not send it again
		s.metrics.failed("decode")
		var envelope struct {
			ID string `json:"envelope_id"`
		}
		json.Unmarshal(data.Message, &envelope)
		return envelope.ID
	}
	if e.Request == nil || v == refused {
		return ""
	}
	return e.Request.EnvelopeID
}

// acknowledgeAll hands acknowledgements to the connection. It is apart from
// reading because it may have to wait while there is no connection, and
// slack-go cannot make one while nobody reads.
func (s *Server) acknowledgeAll(ctx context.Context, client *socketmode.Client, acks <-chan string) {
	for {
		select {
		case <-ctx.Done():
			return
		case id := <-acks:
			wait, done := context.WithTimeout(ctx, s.times.ack)
			if err := client.AckCtx(wait, id, nil); err != nil && ctx.Err() == nil {
				s.metrics.failed("ack")
				s.log.Warn("an acknowledgement could not be sent", "error", err)
			}
			done()
		}
	}
}

// withdrawn reports an answer of Slack that the token is no good.
func withdrawn(err error) bool {
	var status slack.StatusCodeError
	return slices.Contains([]string{"invalid_auth", "account_inactive", "not_authed", "token_revoked", "not_allowed_token_type"}, errorCode(err)) ||
		errors.As(err, &status) && status.Code == http.StatusNotFound
}

// sleep waits and reports whether ctx did not end meanwhile.
func sleep(ctx context.Context, d time.Duration) bool {
	select {
	case <-ctx.Done():
		return false
	case <-time.After(d):
		return true
	}
}
