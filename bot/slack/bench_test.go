package slack

import (
	"context"
	"encoding/hex"
	"fmt"
	"io"
	"net"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"pottle/bot/slack/slackfake"
	"pottle/store"
)

// BenchmarkCommand measures how soon /pottle is acknowledged over HTTP, its
// event on record on the disk, beside a handler that only checks the signature.
// The work is done meanwhile and answered to a fake on the same machine.
func BenchmarkCommand(b *testing.B) {
	for _, clients := range []int{1, 8, 64} {
		b.Run(fmt.Sprintf("bare/clients=%d", clients), func(b *testing.B) {
			server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostBody))
				if err != nil || verify(r.Header, body, testSecret, time.Now()) != nil {
					http.Error(w, "no", http.StatusUnauthorized)
				}
			})}
			listener, err := net.Listen("tcp", "127.0.0.1:0")
			if err != nil {
				b.Fatal(err)
			}
			go server.Serve(listener)
			defer server.Close()
			commands(b, clients, listener.Addr().String(), "http://127.0.0.1:1/respond/1")
		})
		b.Run(fmt.Sprintf("pottle/clients=%d", clients), func(b *testing.B) {
			fake := slackfake.New()
			defer fake.Close()
			go func() {
				for range fake.Calls {
				}
			}()
			kept, err := store.Open(b.TempDir(), store.Options{})
			if err != nil {
				b.Fatal(err)
			}
			defer kept.Close()
			srv, err := New(Config{BotToken: "xoxb-1", SigningSecret: testSecret, HTTP: true, Listen: "127.0.0.1:0", APIURL: fake.APIURL(),
				Queue: 1_000_000, PerUser: 1_000_000, PerTeam: 1_000_000, Drain: time.Nanosecond}, theEngine(), kept)
			if err != nil {
				b.Fatal(err)
			}
			ctx, stop := context.WithCancel(b.Context())
			done := make(chan error, 1)
			go func() { done <- srv.Run(ctx) }()
			defer func() { stop(); <-done }()
			address := <-srv.listening
			<-srv.signedIn
			commands(b, clients, address, fake.ResponseURL("1"))
		})
	}
}

var triggers atomic.Int64

// commands sends b.N commands from so many clients at once.
func commands(b *testing.B, clients int, address, responseURL string) {
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: clients}}
	defer client.CloseIdleConnections()
	var left atomic.Int64
	left.Store(int64(b.N))
	took := make([][]time.Duration, clients)
	var all sync.WaitGroup
	b.ResetTimer()
	for n := range clients {
		all.Go(func() {
			for left.Add(-1) >= 0 {
				id := strconv.FormatInt(triggers.Add(1), 10)
				body := slackfake.Command(slackfake.Team, "C"+id, "U"+id, "sodium in 1 tsp salt", id, responseURL).Encode()
				stamp := strconv.FormatInt(time.Now().Unix(), 10)
				began := time.Now()
				req, err := http.NewRequest("POST", "http://"+address+"/slack/commands", strings.NewReader(body))
				if err != nil {
					b.Error(err)
					return
				}
				req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
				req.Header.Set("X-Slack-Request-Timestamp", stamp)
				req.Header.Set("X-Slack-Signature", "v0="+hex.EncodeToString(sign(stamp, []byte(body), testSecret)))
				resp, err := client.Do(req)
				if err != nil {
					b.Error(err)
					return
				}
				io.Copy(io.Discard, resp.Body)
				resp.Body.Close()
				if resp.StatusCode != http.StatusOK {
					b.Errorf("status %d", resp.StatusCode)
					return
				}
				took[n] = append(took[n], time.Since(began))
			}
		})
	}
	all.Wait()
	b.StopTimer()
	times := slices.Concat(took...)
	slices.Sort(times)
	b.ReportMetric(float64(len(times))/b.Elapsed().Seconds(), "req/s")
	b.ReportMetric(float64(times[len(times)/2].Microseconds()), "p50-µs")
	b.ReportMetric(float64(times[len(times)*99/100].Microseconds()), "p99-µs")
}
