package slack

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestReadTokens(t *testing.T) {
	file := filepath.Join(t.TempDir(), "token")
	if err := os.WriteFile(file, []byte("xapp-9\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	env := map[string]string{"SLACK_BOT_TOKEN": " xoxb-1 ", "SLACK_APP_TOKEN_FILE": file}
	var c Config
	if err := c.ReadTokens(func(name string) string { return env[name] }); err != nil {
		t.Fatal(err)
	}
	if c.BotToken != "xoxb-1" || c.AppToken != "xapp-9" || c.SigningSecret != "" {
		t.Errorf("read %q %q %q", string(c.BotToken), string(c.AppToken), string(c.SigningSecret))
	}
	env = map[string]string{"SLACK_BOT_TOKEN": "xoxb-1", "SLACK_BOT_TOKEN_FILE": file, "SLACK_SIGNING_SECRET_FILE": file + "x"}
	err := c.ReadTokens(func(name string) string { return env[name] })
	if err == nil || !strings.Contains(err.Error(), "both SLACK_BOT_TOKEN") || !strings.Contains(err.Error(), "read SLACK_SIGNING_SECRET_FILE") {
		t.Errorf("got %v", err)
	}
}

func TestCheck(t *testing.T) {
	for name, c := range map[string]Config{
		"xoxb- xapp-":          {},
		"xapp-":                {BotToken: "xoxb-1", AppToken: "xoxp-1"},
		"SIGNING POTTLE_LISTE": {BotToken: "xoxb-1", HTTP: true},
		"SLACK_BOT_TOKEN SLACK_CLIENT_SECRET POTTLE_HTTP POTTLE_URL": {BotToken: "xoxb-1", ClientID: "1.2"},
		"POTTLE_URL": {ClientID: "1.2", ClientSecret: "x", SigningSecret: "x", HTTP: true, Listen: ":0", URL: "http://pottle.example.org"},
	} {
		err := c.check()
		for want := range strings.FieldsSeq(name) {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%q is not in %v", want, err)
			}
		}
	}
}

func TestSecret(t *testing.T) {
	c := Config{BotToken: "xoxb-1", SigningSecret: "s3cret"}
	var b strings.Builder
	slog.New(slog.NewJSONHandler(&b, nil)).Info("x", "config", c, "token", c.BotToken)
	slog.New(slog.NewTextHandler(&b, nil)).Info("x", "config", c, "token", c.BotToken)
	j, err := json.Marshal(struct{ S Secret }{c.BotToken})
	if err != nil {
		t.Fatal(err)
	}
	for _, out := range []string{b.String(), string(j), fmt.Sprintf("%v %+v %#v %s %q", c, c, c, c.BotToken, c.BotToken)} {
		if strings.Contains(out, "xoxb") || strings.Contains(out, "s3cret") {
			t.Errorf("a secret is printed: %s", out)
		}
	}
}
