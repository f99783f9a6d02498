package store

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/dgraph-io/badger/v4"
)

// ForgetConversation removes every trace of a conversation.
//
// Deleting keys would leave the old values in badger's files until they are
// compacted, some day. Dropping them by prefix writes what is in memory to a
// table, makes every table that holds the prefix anew without it, and unlinks
// the old files and the log of the memory before it returns. No value of ours
// is large enough for the value log, so nothing waits for its collection.
func (w *workspaceBadger) ForgetConversation(ctx context.Context, id string) error {
	if err := orElse(w.valid(), validID256("a conversation", id)); err != nil {
		return err
	}
	return w.alone(ctx, func() error {
		return w.b.drop([][]byte{
			w.area.conversation(kindState, id),
			w.area.conversation(kindExpiry, id),
			w.area.key(kindPayload, talkOf(id)),
			w.area.key(kindMark, talkOf(id)),
		})
	})
}

// alone runs fn while no other call writes.
func (w *workspaceBadger) alone(ctx context.Context, fn func() error) (err error) {
	if err := w.valid(); err != nil {
		return err
	}
	if err := w.b.enter(ctx); err != nil {
		return err
	}
	defer w.b.leave()
	defer w.b.caught(&err)
	w.b.writes.Lock()
	defer w.b.writes.Unlock()
	if err := w.b.room(); err != nil {
		return err
	}
	return fn()
}

// drop removes all keys with the prefixes from the files. The caller holds
// writes. Badger leaves out prefixes without a live key, so keys that are to be
// dropped must never be deleted before; and it only logs when the newest
// tables could not be made anew, so what is left is looked at.
func (b *Badger) drop(prefixes [][]byte) error {
	if err := b.room(); err != nil {
		return err
	}
	if len(prefixes) == 0 {
		return nil
	}
	for try := range 5 {
		time.Sleep(time.Duration(try) * 20 * time.Millisecond)
		if err := b.db.DropPrefix(prefixes...); err != nil && !errors.Is(err, badger.ErrBlockedWrites) {
			return b.said(err)
		}
		if left := b.left(prefixes); !left {
			return nil
		}
	}
	return fmt.Errorf("store: what is to be forgotten is still there: try again")
}

// left reports whether any key has one of the prefixes.
func (b *Badger) left(prefixes [][]byte) bool {
	txn := b.db.NewTransaction(false)
	defer txn.Discard()
	for _, p := range prefixes {
		if !(&tx{Txn: txn}).none(p) {
			return true
		}
	}
	return false
}

// none reports whether no key has the prefix.
func (t *tx) none(prefix []byte) bool {
	it := t.keys(prefix)
	defer it.Close()
	it.Rewind()
	return !it.Valid()
}
