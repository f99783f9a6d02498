package slackfake

import (
	"encoding/json"
	"net/url"
)

// Message is a message as an event tells it. ChannelType is "im" for a direct
// channel (D...) and "channel" otherwise.
func Message(channel, user, ts, thread, text string) map[string]any {
	m := map[string]any{"type": "message", "channel": channel, "user": user, "ts": ts, "event_ts": ts, "text": text, "channel_type": "channel"}
	if channel[0] == 'D' {
		m["channel_type"] = "im"
	}
	if thread != "" {
		m["thread_ts"] = thread
	}
	return m
}

// Mention is a message that names the bot.
func Mention(channel, user, ts, thread, text string) map[string]any {
	m := Message(channel, user, ts, thread, "<@"+User+"> "+text)
	m["type"] = "app_mention"
	delete(m, "channel_type")
	return m
}

// Edited tells that a message was changed to text.
func Edited(channel, user, ts, thread, before, text string) map[string]any {
	old, now := Message(channel, user, ts, thread, before), Message(channel, user, ts, thread, text)
	now["edited"] = map[string]any{"user": user, "ts": ts}
	e := Message(channel, user, ts, thread, "")
	delete(e, "user")
	delete(e, "text")
	e["subtype"], e["message"], e["previous_message"] = "message_changed", now, old
	return e
}

// Event is the body of an event of the Events API.
func Event(team, id string, inner map[string]any) map[string]any {
	return map[string]any{"type": "event_callback", "team_id": team, "api_app_id": "A1", "event_id": id, "event_time": 1, "event": inner}
}

// Command is the form of the command /pottle.
func Command(team, channel, user, text, trigger, responseURL string) url.Values {
	return url.Values{"command": {"/pottle"}, "team_id": {team}, "channel_id": {channel}, "user_id": {user}, "text": {text},
		"trigger_id": {trigger}, "response_url": {responseURL}}
}

// Shortcut is the use of a message shortcut on a message.
func Shortcut(team, channel, user, trigger, ts, text, responseURL string) map[string]any {
	return map[string]any{"type": "message_action", "callback_id": "use_message", "trigger_id": trigger, "response_url": responseURL,
		"team": map[string]any{"id": team}, "channel": map[string]any{"id": channel}, "user": map[string]any{"id": user},
		"message": map[string]any{"type": "message", "ts": ts, "text": text, "user": "UOTHER"}}
}

// Press is the press of a button, of a private message if ephemeral.
func Press(team, channel, user, trigger, thread, action, value, responseURL string, ephemeral bool) map[string]any {
	return map[string]any{"type": "block_actions", "trigger_id": trigger, "response_url": responseURL,
		"team": map[string]any{"id": team}, "channel": map[string]any{"id": channel}, "user": map[string]any{"id": user},
		"container": map[string]any{"type": "message", "channel_id": channel, "thread_ts": thread, "is_ephemeral": ephemeral},
		"actions":   []any{map[string]any{"type": "button", "action_id": action, "value": value, "block_id": "b"}}}
}

// Form is an interaction as it comes over HTTP.
func Form(interaction map[string]any) url.Values {
	payload, err := json.Marshal(interaction)
	if err != nil {
		panic(err)
	}
	return url.Values{"payload": {string(payload)}}
}

// Envelope wraps what Socket Mode brings: kind is events_api, slash_commands or
// interactive.
func Envelope(id, kind string, payload any) map[string]any {
	if form, ok := payload.(url.Values); ok {
		flat := make(map[string]any)
		for name := range form {
			flat[name] = form.Get(name)
		}
		payload = flat
	}
	return map[string]any{"type": kind, "envelope_id": id, "payload": payload, "accepts_response_payload": false}
}
