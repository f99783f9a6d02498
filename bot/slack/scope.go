package slack

import (
	"slices"
	"strings"
)

// scope is a permission of the bot's token.
type scope struct{ name, why string }

// scopes are all that the bot asks for, each with the reason.
var scopes = []scope{
	{"app_mentions:read", "to be called by @pottle in a channel"},
	{"channels:history", "to hear replies in its own threads of public channels that it was invited to, without a mention in each, and to see whether an answer was posted"},
	{"chat:write", "to answer"},
	{"commands", "for /pottle and for the shortcut on a message"},
	{"files:read", "to read a recipe that is sent to it as a text file"},
	{"groups:history", "the same as channels:history, in private channels that it was invited to"},
	{"im:history", "to read what is said to it in a direct message"},
}

// botEvents are the events that the bot subscribes to.
var botEvents = []string{
	"app_home_opened",
	"app_mention",
	"app_uninstalled",
	"message.channels",
	"message.groups",
	"message.im",
	"tokens_revoked",
}

func scopeNames() []string {
	names := make([]string, len(scopes))
	for i, s := range scopes {
		names[i] = s.name
	}
	return names
}

// missingScopes gives what the bot needs and the token does not have, and
// neither more nor less that it has for nothing. Granted is a list with commas,
// as Slack sends it.
func missingScopes(granted string) (missing, unneeded []string) {
	var has []string
	for name := range strings.SplitSeq(granted, ",") {
		if name = strings.TrimSpace(name); name != "" {
			has = append(has, name)
		}
	}
	for _, s := range scopes {
		if !slices.Contains(has, s.name) {
			missing = append(missing, s.name)
		}
	}
	for _, name := range has {
		if !slices.ContainsFunc(scopes, func(s scope) bool { return s.name == name }) {
			unneeded = append(unneeded, name)
		}
	}
	return missing, unneeded
}
