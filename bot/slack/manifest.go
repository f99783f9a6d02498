package slack

import (
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"strings"

	"github.com/slack-go/slack"
)

// Paths of the HTTP server, as the manifest names them to Slack.
const (
	eventsPath        = "/slack/events"
	commandsPath      = "/slack/commands"
	interactivityPath = "/slack/interactivity"
)

// ManifestOptions say how Slack reaches the bot.
type ManifestOptions struct {
	// BaseURL is the public address of the HTTP server, such as
	// "https://pottle.example.org". Empty is Socket Mode, which needs none.
	BaseURL string
}

// Manifest describes the app to Slack: what it is called, where it is reached
// and what it may do. The scopes are the least with which all of it works.
func Manifest(o ManifestOptions) slack.Manifest {
	base := strings.TrimRight(o.BaseURL, "/")
	at := func(path string) string {
		if base == "" {
			return ""
		}
		return base + path
	}
	var redirects []string
	if base != "" {
		redirects = []string{at(installedPath)}
	}
	return slack.Manifest{
		Metadata: slack.ManifestMetadata{MajorVersion: 1, MinorVersion: 1},
		Display: slack.Display{
			Name:            "pottle",
			Description:     "What a serving of a recipe holds, and quick answers about foods.",
			BackgroundColor: "#2c3e50",
		},
		Features: slack.Features{
			AppHome: slack.AppHome{HomeTabEnabled: true, MessagesTabEnabled: true},
			BotUser: slack.BotUser{DisplayName: "pottle", AlwaysOnline: true},
			Shortcuts: []slack.Shortcut{{
				Name: "Work out this recipe", CallbackID: useMessage, Type: slack.MessageShortcut,
				Description: "Work out what a serving of the recipe in this message holds.",
			}},
			SlashCommands: []slack.ManifestSlashCommand{{
				Command: "/pottle", Description: "Ask pottle; only you see the answer until you share it.",
				UsageHint: "sodium in 1 tsp soy sauce", Url: at(commandsPath),
			}},
		},
		OAuthConfig: slack.OAuthConfig{RedirectUrls: redirects, Scopes: slack.OAuthScopes{Bot: scopeNames()}},
		Settings: slack.Settings{
			EventSubscriptions: &slack.EventSubscriptions{RequestUrl: at(eventsPath), BotEvents: botEvents},
			Interactivity:      &slack.Interactivity{IsEnabled: true, RequestUrl: at(interactivityPath)},
			SocketModeEnabled:  base == "",
		},
	}
}

// PrintManifest writes the manifest as JSON, to be pasted where Slack asks for
// an app manifest. BaseURL is as in ManifestOptions; it must begin with
// https://.
func PrintManifest(w io.Writer, baseURL string) error {
	if baseURL != "" {
		if err := publicAddress(baseURL); err != nil {
			return err
		}
	}
	text, err := manifestJSON(Manifest(ManifestOptions{BaseURL: baseURL}))
	if err != nil {
		return fmt.Errorf("manifest: %w", err)
	}
	_, err = w.Write(text)
	return err
}

// publicAddress returns an error if Slack cannot be told an address as ours.
func publicAddress(address string) error {
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "https" || u.Host == "" || u.RawQuery != "" || u.Fragment != "" || u.User != nil {
		return fmt.Errorf("%q is no public address: it must look like https://pottle.example.org", address)
	}
	return nil
}

// manifestJSON writes m with the switches that are off written out, because
// what Slack takes an absent one for is not ours to rely on. slack.Manifest
// leaves them out.
func manifestJSON(m slack.Manifest) ([]byte, error) {
	b, err := json.Marshal(m)
	if err != nil {
		return nil, err
	}
	var all map[string]any
	if err := json.Unmarshal(b, &all); err != nil {
		return nil, err
	}
	home := all["features"].(map[string]any)["app_home"].(map[string]any)
	home["home_tab_enabled"] = m.Features.AppHome.HomeTabEnabled
	home["messages_tab_read_only_enabled"] = m.Features.AppHome.MessagesTabReadOnlyEnabled
	settings := all["settings"].(map[string]any)
	settings["org_deploy_enabled"] = m.Settings.OrgDeployEnabled
	settings["socket_mode_enabled"] = m.Settings.SocketModeEnabled
	settings["token_rotation_enabled"] = m.Settings.TokenRotationEnabled
	text, err := json.MarshalIndent(all, "", "  ")
	return append(text, '\n'), err
}
