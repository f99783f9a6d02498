package slack

import (
	"encoding/hex"
	"errors"
	"net/http"
	"os/exec"
	"strconv"
	"testing"
	"time"

	"github.com/slack-go/slack"
)

// The example on Slack's page "Verifying requests from Slack". It was written
// down from memory, and the signature fits: no error of memory would.
const (
	exampleSecret    = "8f742231b10e8888abcd99yyyzzz85a5"
	exampleStamp     = "1531420618"
	exampleSignature = "v0=a2114d57b48eac39b9ad189dd8316235a7b4a8d21a10bd27519666489c69b503"
	exampleBody      = "token=xyzz0WbapA4vBCDEFasx0q6G&team_id=T1DC2JH3J&team_domain=testteamnow&channel_id=G8PSS9T3V&channel_name=foobar" +
		"&user_id=U2CERLKJA&user_name=roadrunner&command=%2Fwebhook-collect&text=&response_url=https%3A%2F%2Fhooks.slack.com%2Fcommands" +
		"%2FT1DC2JH3J%2F397700885554%2F96rGlfmibIGlgcZRskXaIFfN&trigger_id=398738663015.47445629121.803a0bc887a14d10d2c447fce8b6703c"
)

func TestVerify(t *testing.T) {
	at := time.Unix(1531420618, 0)
	for _, c := range []struct {
		name, stamp, signature, body, secret string
		now                                  time.Time
		want                                 error
	}{
		{"published example", exampleStamp, exampleSignature, exampleBody, exampleSecret, at, nil},
		{"5 minutes later", exampleStamp, exampleSignature, exampleBody, exampleSecret, at.Add(300 * time.Second), nil},
		{"5 minutes earlier", exampleStamp, exampleSignature, exampleBody, exampleSecret, at.Add(-300 * time.Second), nil},
		{"old", exampleStamp, exampleSignature, exampleBody, exampleSecret, at.Add(301 * time.Second), errOld},
		{"future", exampleStamp, exampleSignature, exampleBody, exampleSecret, at.Add(-301 * time.Second), errOld},
		{"other body", exampleStamp, exampleSignature, exampleBody + "&", exampleSecret, at, errSignature},
		{"other time", "1531420619", exampleSignature, exampleBody, exampleSecret, at, errSignature},
		{"other secret", exampleStamp, exampleSignature, exampleBody, "8f742231b10e8888abcd99yyyzzz85a6", at, errSignature},
		{"no secret", exampleStamp, exampleSignature, exampleBody, "", at, errUnsigned},
		{"no signature", exampleStamp, "", exampleBody, exampleSecret, at, errUnsigned},
		{"no time", "", exampleSignature, exampleBody, exampleSecret, at, errUnsigned},
		{"time no number", "now", exampleSignature, exampleBody, exampleSecret, at, errUnsigned},
		{"time far off", "9223372036854775807", exampleSignature, exampleBody, exampleSecret, at, errOld},
		{"time far back", "-9223372036854775808", exampleSignature, exampleBody, exampleSecret, at, errOld},
		{"no version", exampleStamp, exampleSignature[3:], exampleBody, exampleSecret, at, errSignature},
		{"other version", exampleStamp, "v1" + exampleSignature[2:], exampleBody, exampleSecret, at, errSignature},
		{"half a signature", exampleStamp, exampleSignature[:35], exampleBody, exampleSecret, at, errSignature},
		{"no hex", exampleStamp, "v0=zz", exampleBody, exampleSecret, at, errSignature},
		{"empty signature", exampleStamp, "v0=", exampleBody, exampleSecret, at, errSignature},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := http.Header{}
			h.Set("X-Slack-Request-Timestamp", c.stamp)
			h.Set("X-Slack-Signature", c.signature)
			if err := verify(h, []byte(c.body), Secret(c.secret), c.now); !errors.Is(err, c.want) {
				t.Errorf("got %v, want %v", err, c.want)
			}
		})
	}
}

// TestSignOthers compares our signatures with those of slack-go and, where it
// is installed, of Node's crypto.
func TestSignOthers(t *testing.T) {
	stamp := strconv.FormatInt(time.Now().Unix(), 10)
	for _, body := range []string{"", "text=2+cups+rice", "{\"text\":\"jalape\u00f1o \\u2028\"}\n", "\x00\xff"} {
		ours := hex.EncodeToString(sign(stamp, []byte(body), "s3cret"))
		h := http.Header{}
		h.Set("X-Slack-Request-Timestamp", stamp)
		h.Set("X-Slack-Signature", "v0="+ours)
		v, err := slack.NewSecretsVerifier(h, "s3cret")
		if err != nil {
			t.Fatal(err)
		}
		v.Write([]byte(body))
		if err := v.Ensure(); err != nil {
			t.Errorf("slack-go, body %q: %v", body, err)
		}
		node, err := exec.LookPath("node")
		if err != nil {
			t.Log("node is not installed: its signatures are not compared")
			continue
		}
		const script = `const [stamp, body] = process.argv.slice(1);
const mac = require("crypto").createHmac("sha256", "s3cret");
mac.update("v0:" + stamp + ":"); mac.update(Buffer.from(body, "hex"));
process.stdout.write(mac.digest("hex"));`
		theirs, err := exec.Command(node, "-e", script, stamp, hex.EncodeToString([]byte(body))).Output()
		if err != nil {
			t.Fatal(err)
		}
		if string(theirs) != ours {
			t.Errorf("node, body %q: %s, ours %s", body, theirs, ours)
		}
	}
}
