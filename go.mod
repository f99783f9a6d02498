module pottle

go 1.26.0

require (
	filippo.io/age v1.3.2
	github.com/agnivade/levenshtein v1.2.1
	github.com/alecthomas/kong v1.17.0
	github.com/alecthomas/participle/v2 v2.1.4
	github.com/bcicen/go-units v1.0.5
	github.com/dgraph-io/badger/v4 v4.9.6
	github.com/gorilla/websocket v1.5.3
	github.com/hashicorp/golang-lru/v2 v2.0.7
	github.com/prometheus/client_golang v1.25.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/slack-go/slack v0.35.0
	golang.org/x/term v0.48.0
	golang.org/x/time v0.16.0
	google.golang.org/protobuf v1.36.12
)

require (
	filippo.io/hpke v0.4.0 // indirect
	github.com/Knetic/govaluate v3.0.0+incompatible // indirect
	github.com/bcicen/bfstree v1.0.0 // indirect
	github.com/beorn7/perks v1.0.1 // indirect
	github.com/cespare/xxhash/v2 v2.3.0 // indirect
	github.com/dgraph-io/ristretto/v2 v2.2.0 // indirect
	github.com/dustin/go-humanize v1.0.1 // indirect
	github.com/go-logr/logr v1.4.3 // indirect
	github.com/go-logr/stdr v1.2.2 // indirect
	github.com/google/flatbuffers v25.2.10+incompatible // indirect
	github.com/klauspost/compress v1.20.1 // indirect
	github.com/munnerz/goautoneg v0.0.0-20191010083416-a7dc8b61c822 // indirect
	github.com/prometheus/client_model v0.6.3 // indirect
	github.com/prometheus/common v0.72.0 // indirect
	github.com/prometheus/procfs v0.22.0 // indirect
	go.opentelemetry.io/auto/sdk v1.2.1 // indirect
	go.opentelemetry.io/otel v1.41.0 // indirect
	go.opentelemetry.io/otel/metric v1.41.0 // indirect
	go.opentelemetry.io/otel/trace v1.41.0 // indirect
	golang.org/x/crypto v0.55.0 // indirect
	golang.org/x/sys v0.50.0 // indirect
	golang.org/x/tools v0.49.0 // indirect
)
