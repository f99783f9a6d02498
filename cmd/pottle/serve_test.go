package main

import (
	"bufio"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
)

// TestServe runs "pottle serve" whole, over HTTP against a fake of Slack: a
// command is answered, SIGTERM ends it in peace, and the log holds neither a
// token nor what was said.
func TestServe(t *testing.T) {
	fake := slackfake.New()
	defer fake.Close()
	const secret = "0123456789abcdef0123456789abcdef"
	for name, value := range map[string]string{
		"SLACK_BOT_TOKEN": "xoxb-1", "SLACK_SIGNING_SECRET": secret, "SLACK_APP_TOKEN": "", "SLACK_CLIENT_ID": "", "POTTLE_KEY": "",
		"POTTLE_DATA": filepath.Join(t.TempDir(), "data"), "POTTLE_LISTEN": "127.0.0.1:0", "POTTLE_SLACK_API_URL": fake.APIURL(),
	} {
		t.Setenv(name, value)
	}
	logs, writer := io.Pipe()
	lines := make(chan map[string]any, 1000)
	var all strings.Builder
	read := make(chan struct{})
	go func() {
		defer close(read)
		for s := bufio.NewScanner(logs); s.Scan(); {
			all.WriteString(s.Text() + "\n")
			var line map[string]any
			if err := json.Unmarshal(s.Bytes(), &line); err != nil {
				t.Errorf("the log is no JSON: %s", s.Text())
			}
			lines <- line
		}
	}()
	status := make(chan int, 1)
	go func() {
		status <- (&program{in: strings.NewReader(""), out: io.Discard, err: writer}).run([]string{"serve"})
		writer.Close()
	}()
	seen := make(map[any]map[string]any) // lines come in any order
	wait := func(msg string) map[string]any {
		t.Helper()
		for seen[msg] == nil {
			select {
			case line := <-lines:
				seen[line["msg"]] = line
			case s := <-status:
				t.Fatalf("serve ended with %d", s)
			case <-time.After(20 * time.Second):
				t.Fatalf("the log does not say %q", msg)
			}
		}
		return seen[msg]
	}
	address := wait("listening")["address"].(string)
	wait("signed in")

	body := slackfake.Command(slackfake.Team, "C1", "U1", "sodium in 1 tsp miso", "t1", fake.ResponseURL("r1")).Encode()
	stamp := strconv.FormatInt(time.Now().Unix(), 10)
	mac := hmac.New(sha256.New, []byte(secret))
	io.WriteString(mac, "v0:"+stamp+":"+body)
	req, err := http.NewRequest("POST", "http://"+address+"/slack/commands", strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	req.Header.Set("X-Slack-Request-Timestamp", stamp)
	req.Header.Set("X-Slack-Signature", "v0="+hex.EncodeToString(mac.Sum(nil)))
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		t.Fatalf("status %d", resp.StatusCode)
	}
	select {
	case call := <-fake.Calls:
		if call.ID != "r1" || !strings.Contains(call.Text, "miso") || !strings.Contains(call.Text, "care team") {
			t.Errorf("answered %q", call.Text)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("no answer")
	}
	if err := syscall.Kill(os.Getpid(), syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	select {
	case s := <-status:
		if s != 0 {
			t.Errorf("serve ended with %d", s)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("serve does not end")
	}
	<-read
	if log := all.String(); strings.Contains(log, "miso") || strings.Contains(log, "xoxb") || strings.Contains(log, secret) {
		t.Errorf("the log holds what was said, or a secret:\n%s", log)
	}
}
