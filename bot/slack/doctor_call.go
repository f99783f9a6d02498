package slack

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"time"
)

// refusal is Slack's word for why it did not do what was asked.
type refusal string

func (r refusal) Error() string { return string(r) }

// limited is Slack's answer to calls that are too many.
type limited struct{ after string }

func (l limited) Error() string { return "too many calls; try again after " + l.after + " s" }

// notSlack is an answer that does not come from Slack's Web API.
type notSlack struct{ what string }

func (n notSlack) Error() string { return n.what }

// mostAnswer is the most bytes of an answer that are read.
const mostAnswer = 1 << 20

// call calls a method of the Web API and decodes the answer into result. It
// returns the answer's header, if there was one, and our time midway.
func (e *examination) call(ctx context.Context, method string, token Secret, result any) (http.Header, time.Time, error) {
	base := strings.TrimSuffix(cmp.Or(e.cfg.APIURL, "https://slack.com/api/"), "/")
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, base+"/"+method, nil)
	if err != nil {
		return nil, time.Time{}, notSlack{"POTTLE_SLACK_API_URL is no address"}
	}
	r.Header.Set("Authorization", "Bearer "+string(token))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	began := e.now()
	response, err := e.client.Do(r)
	if err != nil {
		return nil, time.Time{}, err
	}
	defer response.Body.Close()
	midway := began.Add(e.now().Sub(began) / 2)
	body, err := io.ReadAll(io.LimitReader(response.Body, mostAnswer))
	if err != nil {
		return response.Header, midway, err
	}
	if response.StatusCode == http.StatusTooManyRequests {
		return response.Header, midway, limited{cmp.Or(response.Header.Get("Retry-After"), "60")}
	}
	var answer struct {
		OK    bool   `json:"ok"`
		Error string `json:"error"`
	}
	if err := json.Unmarshal(body, &answer); err != nil {
		return response.Header, midway, notSlack{fmt.Sprintf("the answer (HTTP status %d) is not Slack's", response.StatusCode)}
	}
	if !answer.OK {
		return response.Header, midway, refusal(cmp.Or(answer.Error, "no reason given"))
	}
	return response.Header, midway, json.Unmarshal(body, result)
}

// refusals says in words what Slack's reasons mean, and what to do.
var refusals = map[string]struct{ means, do string }{
	"invalid_auth":            {"Slack does not know the token", "copy it again, whole"},
	"not_authed":              {"Slack got no token", "set it again"},
	"account_inactive":        {"the app is not installed any more, or its bot was removed", "install the app again"},
	"token_revoked":           {"the token was taken back", "install the app again and copy the new token"},
	"token_expired":           {"the token has run out", "turn token rotation off for the app and install it again"},
	"not_allowed_token_type":  {"this kind of token cannot be used here", "copy the right one"},
	"missing_scope":           {"the token lacks a scope", "add connections:write to an app-level token, or the bot's scopes to the bot token"},
	"team_access_not_granted": {"the app may not be used in this workspace", "ask an administrator of the workspace to allow it"},
	"access_denied":           {"the workspace does not allow it", "ask an administrator of the workspace to allow it"},
	"org_login_required":      {"the workspace is being moved", "try again when that is done"},
	"ekm_access_denied":       {"an administrator has closed access for the time being", "ask an administrator of the workspace"},
	"ratelimited":             {"too many calls", "wait a minute and try again"},
	"internal_error":          {"Slack has trouble of its own", "look at slack-status.com and try again later"},
	"service_unavailable":     {"Slack has trouble of its own", "look at slack-status.com and try again later"},
}

// refused says why a call failed.
func (e *examination) refused(name, method, where string, err error) {
	var why refusal
	var dns *net.DNSError
	switch {
	case errors.As(err, &why):
		r, known := refusals[string(why)]
		if !known {
			r.means, r.do = "Slack refuses it", "copy the token again, or look the reason up in Slack's page on "+method
		}
		e.fault(where+": "+r.do, "%s: %s (%s says %s)", name, r.means, method, why)
	case errors.As(err, new(limited)):
		e.fault("try again then", "%s could not be checked: %v", name, err)
	case errors.As(err, new(notSlack)):
		e.fault("look for a proxy in between, and leave POTTLE_SLACK_API_URL unset but for tests", "%s could not be checked: %v", name, err)
	case errors.As(err, &dns):
		e.fault("check the network and its name service", "Slack cannot be reached: the name %s is not found", dns.Name)
	case errors.Is(err, context.DeadlineExceeded) || isTimeout(err):
		e.fault("let this machine reach slack.com on port 443; if a proxy is needed set HTTPS_PROXY", "Slack does not answer within %s", examineFor)
	default:
		e.fault("let this machine reach slack.com on port 443; if a proxy is needed set HTTPS_PROXY", "Slack cannot be reached: %v", plainCause(err))
	}
}

func isTimeout(err error) bool {
	var n net.Error
	return errors.As(err, &n) && n.Timeout()
}

// plainCause is err without the address that was called.
func plainCause(err error) error {
	var u *url.Error
	if errors.As(err, &u) {
		return u.Err
	}
	return err
}
