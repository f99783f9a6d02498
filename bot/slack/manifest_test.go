package slack

import (
	"bytes"
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/slack-go/slack"
)

func TestPrintManifest(t *testing.T) {
	for _, c := range []struct {
		name, base string
		socket     bool
		urls       int
	}{
		{"Socket Mode", "", true, 0},
		{"HTTP", "https://pottle.example.org", false, 4},
		{"HTTP with a slash", "https://pottle.example.org/", false, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			if err := PrintManifest(&b, c.base); err != nil {
				t.Fatal(err)
			}
			d := json.NewDecoder(bytes.NewReader(b.Bytes()))
			d.DisallowUnknownFields()
			var m slack.Manifest
			if err := d.Decode(&m); err != nil {
				t.Fatalf("the manifest does not decode: %v\n%s", err, b.Bytes())
			}
			if want := Manifest(ManifestOptions{BaseURL: c.base}); !reflect.DeepEqual(m, want) {
				t.Errorf("the manifest is read back as %+v, want %+v", m, want)
			}
			if m.Settings.SocketModeEnabled != c.socket {
				t.Errorf("socket mode is %v", m.Settings.SocketModeEnabled)
			}
			if n := strings.Count(b.String(), "https://pottle.example.org/slack/"); n != c.urls {
				t.Errorf("%d addresses, want %d:\n%s", n, c.urls, b.Bytes())
			}
			for _, off := range []string{`"messages_tab_read_only_enabled": false`, `"org_deploy_enabled": false`, `"token_rotation_enabled": false`, `"socket_mode_enabled": `} {
				if !strings.Contains(b.String(), off) {
					t.Errorf("the manifest lacks %s", off)
				}
			}
		})
	}
}

// TestManifestLimits checks what Slack's schema of manifests demands.
func TestManifestLimits(t *testing.T) {
	m := Manifest(ManifestOptions{})
	for what, c := range map[string]struct {
		text string
		most int
	}{
		"name":                   {m.Display.Name, 35},
		"description":            {m.Display.Description, 140},
		"display name":           {m.Features.BotUser.DisplayName, 80},
		"shortcut":               {m.Features.Shortcuts[0].Name, 24},
		"shortcut's description": {m.Features.Shortcuts[0].Description, 150},
		"command":                {m.Features.SlashCommands[0].Command, 32},
		"command's description":  {m.Features.SlashCommands[0].Description, 2000},
	} {
		if n := utf8.RuneCountInString(c.text); n == 0 || n > c.most {
			t.Errorf("%s %q has %d characters, at most %d are taken", what, c.text, n, c.most)
		}
	}
	if !slices.IsSorted(m.OAuthConfig.Scopes.Bot) || !slices.IsSorted(m.Settings.EventSubscriptions.BotEvents) {
		t.Error("scopes or events are not in order")
	}
	for _, s := range scopes {
		if s.why == "" || strings.Contains(s.name, "users:") || strings.HasPrefix(s.name, "admin") {
			t.Errorf("scope %q is not justified", s.name)
		}
	}
	// an event can only be had with its scope
	for event, needs := range map[string]string{"app_mention": "app_mentions:read", "message.im": "im:history", "message.channels": "channels:history", "message.groups": "groups:history"} {
		if slices.Contains(botEvents, event) != slices.Contains(m.OAuthConfig.Scopes.Bot, needs) {
			t.Errorf("event %s and scope %s go together", event, needs)
		}
	}
}

func TestPrintManifestRefuses(t *testing.T) {
	for _, base := range []string{"http://pottle.example.org", "pottle.example.org", "https://", "https://a/?b", "https://u:p@a", ":"} {
		if err := PrintManifest(&bytes.Buffer{}, base); err == nil {
			t.Errorf("%q was taken", base)
		}
	}
}
