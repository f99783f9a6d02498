package store

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"syscall"
	"time"

	"github.com/dgraph-io/badger/v4"
)

// tx is a transaction with its time, which stays the same throughout.
type tx struct {
	*badger.Txn
	now time.Time
}

// retries is how often a transaction that met another one is tried again.
const retries = 20

// view runs fn on a snapshot.
func (b *Badger) view(ctx context.Context, fn func(*tx) error) (err error) {
	if err := b.enter(ctx); err != nil {
		return err
	}
	defer b.leave()
	defer b.caught(&err)
	txn := b.db.NewTransaction(false)
	defer txn.Discard()
	return b.said(fn(&tx{Txn: txn, now: b.now()}))
}

// update runs fn and commits what it did, or nothing if it returns an error.
// When it returns nil the change is on the disk. fn may run several times.
func (b *Badger) update(ctx context.Context, fn func(*tx) error) (err error) {
	if err := b.enter(ctx); err != nil {
		return err
	}
	defer b.leave()
	defer b.caught(&err)
	b.writes.RLock()
	defer b.writes.RUnlock()
	if err := b.room(); err != nil {
		return err
	}
	return b.commit(fn)
}

// commit is update for a caller that holds writes already.
func (b *Badger) commit(fn func(*tx) error) error {
	var err error
	for range retries {
		if err = b.once(fn); !errors.Is(err, badger.ErrConflict) {
			return b.said(err)
		}
	}
	return &Error{Code: ErrConflict.Code, Message: "the store is busy: try again", Err: err}
}

func (b *Badger) once(fn func(*tx) error) error {
	txn := b.db.NewTransaction(true)
	defer txn.Discard()
	if err := fn(&tx{Txn: txn, now: b.now()}); err != nil {
		return err
	}
	return txn.Commit()
}

// said puts badger's errors into our words.
func (b *Badger) said(err error) error {
	var e *Error
	switch {
	case err == nil, errors.As(err, &e), errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.Is(err, badger.ErrTxnTooBig):
		return &Error{Code: ErrTooLarge.Code, Message: "too much to keep in one step", Err: err}
	case errors.Is(err, syscall.ENOSPC):
		return noSpace(b.dir, err)
	}
	return fmt.Errorf("store: %w", err)
}

// get returns a copy of a value; ok is false if there is none.
func (t *tx) get(key []byte) (value []byte, ok bool, err error) {
	item, err := t.Get(key)
	if errors.Is(err, badger.ErrKeyNotFound) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, err
	}
	value, err = item.ValueCopy(nil)
	return value, err == nil, err
}

// read decodes the JSON of a key into v.
func (t *tx) read(key []byte, v any) (ok bool, err error) {
	value, ok, err := t.get(key)
	if !ok {
		return false, err
	}
	if err := json.Unmarshal(value, v); err != nil {
		return false, &Error{Code: ErrCorrupt.Code, Message: "a record of the store is damaged", Err: err}
	}
	return true, nil
}

// write keeps v as JSON.
func (t *tx) write(key []byte, v any) error {
	value, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return t.Set(key, value)
}

// deleteAll deletes keys, as many as a transaction can take.
func (t *tx) deleteAll(keys [][]byte) error {
	for _, k := range keys {
		if err := t.Delete(k); err != nil {
			return err
		}
	}
	return nil
}

// keys iterates over the keys with a prefix, without their values. The caller
// closes it.
func (t *tx) keys(prefix []byte) *badger.Iterator {
	o := badger.DefaultIteratorOptions
	o.PrefetchValues = false
	o.Prefix = prefix
	return t.NewIterator(o)
}

// each calls fn with the keys and values of a prefix, in order or backwards,
// until it returns false. Both are valid during the call only.
func (t *tx) each(prefix []byte, backwards bool, fn func(key, value []byte) (bool, error)) error {
	o := badger.DefaultIteratorOptions
	o.PrefetchValues = false // they stand beside their keys: see Options.badger
	o.Prefix = prefix
	o.Reverse = backwards
	it := t.NewIterator(o)
	defer it.Close()
	start := prefix
	if backwards {
		start = append(slices.Clip(slices.Clone(prefix)), 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff)
	}
	for it.Seek(start); it.Valid(); it.Next() {
		more := false
		err := it.Item().Value(func(value []byte) (err error) {
			more, err = fn(it.Item().Key(), value)
			return err
		})
		if err != nil || !more {
			return err
		}
	}
	return nil
}
