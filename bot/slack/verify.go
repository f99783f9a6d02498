package slack

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"net/http"
	"strconv"
	"strings"
	"time"
)

// signatureWindow is how far the time of a request may be from ours, either way.
const signatureWindow = 5 * time.Minute

var (
	errUnsigned  = errors.New("the request has no signature or time")
	errOld       = errors.New("the request's time is more than 5 minutes off; is the clock right?")
	errSignature = errors.New("the signature does not fit; is SLACK_SIGNING_SECRET the app's?")
)

// verify checks that a request with this header and body was signed with
// secret, at about now. That it comes once only is not its affair.
func verify(header http.Header, body []byte, secret Secret, now time.Time) error {
	stamp, signature := header.Get("X-Slack-Request-Timestamp"), header.Get("X-Slack-Signature")
	if stamp == "" || signature == "" || secret == "" {
		return errUnsigned
	}
	at, err := strconv.ParseInt(stamp, 10, 64)
	if err != nil {
		return errUnsigned
	}
	if off := now.Unix() - at; off > int64(signatureWindow/time.Second) || off < -int64(signatureWindow/time.Second) {
		return errOld
	}
	given, ok := strings.CutPrefix(signature, "v0=")
	sum, err := hex.DecodeString(given)
	if !ok || err != nil {
		return errSignature
	}
	if !hmac.Equal(sum, sign(stamp, body, secret)) {
		return errSignature
	}
	return nil
}

func sign(stamp string, body []byte, secret Secret) []byte {
	mac := hmac.New(sha256.New, []byte(secret))
	mac.Write([]byte("v0:" + stamp + ":"))
	mac.Write(body)
	return mac.Sum(nil)
}
