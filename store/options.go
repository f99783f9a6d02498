package store

import (
	"fmt"
	"log/slog"
	"strings"
	"time"

	"github.com/dgraph-io/badger/v4"
	"github.com/dgraph-io/badger/v4/options"
)

// Options of a store. The zero value is a good one.
type Options struct {
	// Key encrypts the store at rest and its backups, and seals the tokens of
	// accesses, in memory too; nil leaves it in plain text and without accesses.
	// A store is encrypted or not from its first day: to change it, back up and
	// restore into a new directory.
	Key *Key

	// Now is the clock, for tests; time.Now if nil.
	Now func() time.Time

	// Keep is how long a conversation is kept after its last use;
	// KeepConversation if 0.
	Keep time.Duration

	// Housekeeping is the time between two runs of Tidy, the first when the
	// store is opened; an hour if 0, none at all if negative.
	Housekeeping time.Duration

	// MinFree is the free space of the disk, in bytes, below which writes are
	// refused with ErrNoSpace; 64 MiB if 0. Badger writes through mapped
	// memory, where a full disk would end the process.
	MinFree int64

	// Salvage opens a store whose log of the last writes is damaged with what
	// stands before the damage, instead of ErrCorrupt. Copy the directory first.
	Salvage bool

	// Logger receives warnings and errors of the store, without any content;
	// none if nil.
	Logger *slog.Logger

	locked bool // the caller holds the lock of the directory
}

func (o Options) withDefaults() Options {
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Keep == 0 {
		o.Keep = KeepConversation
	}
	if o.Housekeeping == 0 {
		o.Housekeeping = time.Hour
	}
	if o.MinFree == 0 {
		o.MinFree = 64 << 20
	}
	if o.Logger == nil {
		o.Logger = slog.New(slog.DiscardHandler)
	}
	return o
}

// badger gives badger's options for a small store: some MiB of memory instead
// of some hundred. dir is "" for a store in memory.
func (o Options) badger(dir string) badger.Options {
	b := badger.DefaultOptions(dir).
		WithSyncWrites(true).
		WithMemTableSize(8 << 20).
		WithNumMemtables(2).
		WithNumLevelZeroTables(2).
		WithNumLevelZeroTablesStall(4).
		WithNumCompactors(2).
		WithNumGoroutines(2).
		WithBaseTableSize(2 << 20).
		WithValueLogFileSize(16 << 20).
		// Above MaxConversation and MaxSave, so that no value ever goes to the
		// value log: what is dropped from the tables is gone, without waiting
		// for the log's collection.
		WithValueThreshold(1 << 20).
		WithBlockCacheSize(4 << 20).
		WithIndexCacheSize(8 << 20).
		WithCompression(options.None).
		WithMetricsEnabled(false).
		WithBypassLockGuard(o.locked).
		WithLogger(logger{o})
	if dir == "" {
		b = b.WithInMemory(true)
	}
	if o.Key != nil && dir != "" {
		b = b.WithEncryptionKey(o.Key.disk())
	}
	return b
}

// logger passes badger's warnings and errors on. Its lesser messages are
// dropped: some name keys, and keys hold names and conversation ids.
type logger struct{ o Options }

func (l logger) Errorf(format string, args ...any) {
	l.o.Logger.Error("store", "text", strings.TrimSpace(fmt.Sprintf(format, args...)))
}

func (l logger) Warningf(format string, args ...any) {
	l.o.Logger.Warn("store", "text", strings.TrimSpace(fmt.Sprintf(format, args...)))
}

func (logger) Infof(string, ...any)  {}
func (logger) Debugf(string, ...any) {}
