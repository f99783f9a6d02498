package slack

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"

	"github.com/slack-go/slack"
	"golang.org/x/time/rate"
)

// newHTTPClient returns the client for all calls to Slack. It follows no
// redirects, which could carry a token elsewhere.
func newHTTPClient() *http.Client {
	return &http.Client{
		Timeout:       30 * time.Second,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
}

// poster calls Slack's chat methods: paced within each channel, and again after
// a 429 only. Anything else that fails may have been posted all the same, and
// is not tried twice.
type poster struct {
	api      *slack.Client
	http     *http.Client // for answers at a response_url
	anyHost  bool         // such an address need not be Slack's: the API is not either
	channels *paces       // of posts
	log      *slog.Logger
	metrics  *metrics
	times    *times

	mu    sync.Mutex
	until time.Time // Slack takes nothing before
}

func newPoster(api *slack.Client, client *http.Client, cfg Config, m *metrics, t *times) *poster {
	return &poster{api: api, http: client, anyHost: cfg.APIURL != "", channels: newPaces(rate.Every(cfg.Pace), 1),
		log: cfg.Log, metrics: m, times: t}
}

// post posts in a thread, or with an empty thread in the channel itself, and
// returns the time stamp of the post.
func (p *poster) post(ctx context.Context, channel, thread string, m Message) (stamp string, err error) {
	err = p.withBlocksOrNot(m, func(options ...slack.MsgOption) error {
		options = append(options, slack.MsgOptionDisableLinkUnfurl(), slack.MsgOptionDisableMediaUnfurl())
		if thread != "" {
			options = append(options, slack.MsgOptionTS(thread))
		}
		return p.call(ctx, channel, func() (err error) {
			_, stamp, err = p.api.PostMessageContext(ctx, channel, options...)
			return err
		})
	})
	return stamp, err
}

// update changes a post.
func (p *poster) update(ctx context.Context, channel, stamp string, m Message) error {
	return p.withBlocksOrNot(m, func(options ...slack.MsgOption) error {
		return p.call(ctx, channel, func() error {
			_, _, _, err := p.api.UpdateMessageContext(ctx, channel, stamp, options...)
			return err
		})
	})
}

// remove takes a post away.
func (p *poster) remove(ctx context.Context, channel, stamp string) error {
	return p.call(ctx, channel, func() error {
		_, _, err := p.api.DeleteMessageContext(ctx, channel, stamp)
		return err
	})
}

// private answers at a response_url, seen by the person who asked only.
func (p *poster) private(ctx context.Context, at string, m Message) error {
	return p.respond(ctx, at, m, slack.WebhookMessage{ResponseType: slack.ResponseTypeEphemeral})
}

// instead is private in the place of what was answered before.
func (p *poster) instead(ctx context.Context, at string, m Message) error {
	return p.respond(ctx, at, m, slack.WebhookMessage{ResponseType: slack.ResponseTypeEphemeral, ReplaceOriginal: true})
}

// public answers at a response_url, seen by all in the channel.
func (p *poster) public(ctx context.Context, at string, m Message) error {
	return p.respond(ctx, at, m, slack.WebhookMessage{ResponseType: slack.ResponseTypeInChannel})
}

func (p *poster) respond(ctx context.Context, at string, m Message, body slack.WebhookMessage) error {
	if !p.slacks(at) {
		return errors.New("the address to answer at is not Slack's")
	}
	body.Text = m.Text
	if len(m.Blocks) > 0 {
		body.Blocks = &slack.Blocks{BlockSet: m.Blocks}
	}
	return p.call(ctx, "", func() error {
		return slack.PostWebhookCustomHTTPContext(ctx, at, p.http, &body)
	})
}

// slacks reports whether an address that came with a message is Slack's.
func (p *poster) slacks(address string) bool {
	u, err := url.Parse(address)
	return err == nil && (p.anyHost || u.Scheme == "https" && strings.HasSuffix(u.Hostname(), ".slack.com"))
}

// withBlocksOrNot calls do with the message; if Slack does not take its blocks,
// again with the text alone.
func (p *poster) withBlocksOrNot(m Message, do func(...slack.MsgOption) error) error {
	text := slack.MsgOptionText(m.Text, false) // escaped already
	if len(m.Blocks) == 0 {
		return do(text)
	}
	err := do(text, slack.MsgOptionBlocks(m.Blocks...))
	if code := errorCode(err); strings.HasPrefix(code, "invalid_blocks") || code == "msg_blocks_too_long" {
		p.log.Warn("slack does not take the blocks of a message", "error", code)
		p.metrics.failed("blocks")
		return do(text)
	}
	return err
}

// tries is how often a call is made that Slack asks to make later.
const tries = 6

// call makes a call in the pace of its channel ("" for none), and again as long
// as Slack asks to wait.
func (p *poster) call(ctx context.Context, channel string, do func() error) error {
	for try := 1; ; try++ {
		if err := p.wait(ctx, channel); err != nil {
			return err
		}
		err := do()
		wait, ok := p.later(err)
		if !ok {
			return err
		}
		p.metrics.retried()
		if try == tries {
			return fmt.Errorf("slack asked to wait %d times: %w", tries, err)
		}
		p.log.Warn("slack asks to wait", "wait", wait, "channel", channel)
		p.mu.Lock()
		if until := time.Now().Add(wait); until.After(p.until) {
			p.until = until
		}
		p.mu.Unlock()
	}
}

// later reports whether Slack asks to make the call later, and how much.
func (p *poster) later(err error) (time.Duration, bool) {
	var limited *slack.RateLimitedError
	var status slack.StatusCodeError
	switch {
	case errors.As(err, &limited):
		return max(limited.RetryAfter, time.Second), true
	case errors.As(err, &status) && status.Code == http.StatusTooManyRequests, errorCode(err) == "ratelimited":
		return p.times.noHint, true
	}
	return 0, false
}

// wait waits until the channel's next post is due and Slack takes posts.
func (p *poster) wait(ctx context.Context, channel string) error {
	if channel != "" {
		if err := p.channels.of(channel).Wait(ctx); err != nil {
			return err
		}
	}
	for {
		p.mu.Lock()
		rest := time.Until(p.until)
		p.mu.Unlock()
		if rest <= 0 {
			return ctx.Err()
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(rest):
		}
	}
}

// errorCode is Slack's word for what went wrong, or "".
func errorCode(err error) string {
	var says slack.SlackErrorResponse
	if errors.As(err, &says) {
		return says.Err
	}
	return ""
}
