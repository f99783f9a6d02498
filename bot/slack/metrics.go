package slack

import (
	"context"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"pottle/engine"
)

// metrics counts for Prometheus. Labels are of few values: no person, channel
// or text is among them.
type metrics struct {
	registry *prometheus.Registry
	messages *prometheus.CounterVec
	latency  *prometheus.HistogramVec
	errors   *prometheus.CounterVec
	retries  prometheus.Counter
	asked    prometheus.Counter
}

// newMetrics makes the metrics of a server that works with e.
func newMetrics(e *engine.Engine) *metrics {
	m := &metrics{
		registry: prometheus.NewRegistry(),
		messages: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "pottle_messages_total", Help: "Messages by the way they came and what became of them."}, []string{"way", "verdict"}),
		latency: prometheus.NewHistogramVec(prometheus.HistogramOpts{
			Name: "pottle_answer_seconds", Help: "From acceptance to the last post of the answer.",
			Buckets: []float64{0.01, 0.03, 0.1, 0.3, 1, 3, 10, 30, 100}}, []string{"way"}),
		errors: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "pottle_errors_total", Help: "Failures by kind."}, []string{"kind"}),
		retries: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "pottle_slack_waits_total", Help: "Calls that Slack asked to make later."}),
		asked: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "pottle_matches_asked_total", Help: "Lines of recipes that were not worked out but asked about."}),
	}
	hits := prometheus.NewCounterFunc(prometheus.CounterOpts{
		Name: "pottle_cache_hits_total", Help: "Names of foods found in the cache; without a team that has its own foods or words."},
		func() float64 { n, _ := e.CacheStats(); return float64(n) })
	misses := prometheus.NewCounterFunc(prometheus.CounterOpts{
		Name: "pottle_cache_misses_total", Help: "Names of foods that had to be matched; without a team that has its own foods or words."},
		func() float64 { _, n := e.CacheStats(); return float64(n) })
	m.registry.MustRegister(m.messages, m.latency, m.errors, m.retries, m.asked, hits, misses)
	return m
}

var verdictNames = map[verdict]string{taken: "taken", repeated: "repeated", ignored: "ignored", busy: "busy", refused: "refused"}

func (m *metrics) accepted(way string, v verdict) {
	m.messages.WithLabelValues(way, verdictNames[v]).Inc()
}
func (m *metrics) answered(way string, took time.Duration) {
	m.latency.WithLabelValues(way).Observe(took.Seconds())
}
func (m *metrics) failed(kind string) { m.errors.WithLabelValues(kind).Inc() }
func (m *metrics) retried()           { m.retries.Inc() }

// worked counts what an analysis asks about; a is nil if there is none.
func (m *metrics) worked(a *engine.Analysis) {
	if a == nil {
		return
	}
	for _, l := range a.Lines {
		if l.Status == engine.Ask {
			m.asked.Inc()
		}
	}
}

// serveMetrics serves /metrics, and nothing else, until ctx ends.
func (s *Server) serveMetrics(ctx context.Context) error {
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", promhttp.HandlerFor(s.metrics.registry, promhttp.HandlerOpts{}))
	return s.serveAt(ctx, s.cfg.Metrics, mux)
}
