package store

import (
	"context"
	"errors"
	"slices"
	"time"

	"github.com/dgraph-io/badger/v4"
)

// maxTidy is how many things of a kind one run of Tidy removes.
const maxTidy = 256

// housekeep runs Tidy at once, for programs that never run for long, and from
// time to time until Close.
func (b *Badger) housekeep() {
	tick := time.NewTicker(b.opt.Housekeeping)
	defer tick.Stop()
	for {
		if err := b.Tidy(ctxAlways); err != nil && Code(err) != ErrClosed.Code {
			b.opt.Logger.Warn("store", "text", "housekeeping failed", "error", Message(err))
		}
		select {
		case <-b.quit:
			return
		case <-tick.C:
		}
	}
}

// Tidy removes for good what has had its time: workspaces that left KeepLeft
// ago, expired conversations, recipes deleted KeepDeleted ago, payloads of
// events that were dealt with or are old, old event ids, marks set KeepMark ago
// or replaced by one elsewhere; then it collects the value log. The store does
// so by itself when it is opened and once an hour.
func (b *Badger) Tidy(ctx context.Context) error {
	if err := b.enter(ctx); err != nil {
		return err
	}
	defer b.leave()
	if err := b.tidyLeft(ctx); err != nil {
		return err
	}
	if err := b.tidyDropped(ctx); err != nil {
		return err
	}
	if err := b.tidyEvents(ctx); err != nil {
		return err
	}
	return b.collect()
}

// tidyDropped drops conversations and recipes past their time from the files.
func (b *Badger) tidyDropped(ctx context.Context) error {
	if over, later, err := b.over(ctx); err != nil || len(over)+len(later) == 0 {
		return err
	}
	b.writes.Lock()
	defer b.writes.Unlock()
	over, later, err := b.over(ctx) // again: some may have been used meanwhile
	if err != nil || len(over)+len(later) == 0 {
		return err
	}
	if err := b.drop(over); err != nil {
		return err
	}
	for keys := range slices.Chunk(later, 4*maxTidy) { // as many as a transaction can take
		if err := b.commit(func(t *tx) error { return t.deleteAll(keys) }); err != nil {
			return err
		}
	}
	return nil
}

// over returns prefixes to be dropped, and keys that are to be deleted after
// that: those that list deleted recipes, and names of marks that are gone.
func (b *Badger) over(ctx context.Context) (prefixes, later [][]byte, err error) {
	names, err := b.Workspaces(ctx)
	if err != nil {
		return nil, nil, err
	}
	err = b.view(ctx, func(t *tx) error {
		for _, name := range names {
			a := areaOf(name)
			expiry := a.key(kindExpiry)
			err := t.each(expiry, false, func(key, value []byte) (bool, error) {
				if !t.now.Before(seconds(value)) {
					id := string(key[len(expiry):]) // with its length
					prefixes = append(prefixes, a.key(kindExpiry, id), a.key(kindState, id))
				}
				return len(prefixes) < maxTidy, nil
			})
			if err != nil {
				return err
			}
			deleted := a.key(kindDeleted)
			err = t.each(deleted, false, func(key, _ []byte) (bool, error) {
				if t.now.Sub(seconds(key[len(deleted):])) < KeepDeleted {
					return false, nil
				}
				id := string(key[len(key)-idLen:])
				later = append(later, append([]byte(nil), key...))
				var h RecipeHead
				_, err := t.read(a.key(kindRecipe, id), &h)
				if h.ID == "" || !h.DeletedAt.IsZero() { // never one that lives
					prefixes = append(prefixes, a.key(kindRecipe, id), a.key(kindVersion, id), a.key(kindHistory, id))
				}
				return len(prefixes) < 2*maxTidy, err
			})
			if err != nil {
				return err
			}
		}
		for _, name := range names { // after the others, so that many of these leave room for them
			a := areaOf(name)
			payloads, err := t.payloadsOver(a)
			if err != nil {
				return err
			}
			marks, index, err := t.marksOver(a)
			if err != nil {
				return err
			}
			access, err := t.accessOver(a)
			if err != nil {
				return err
			}
			prefixes = append(append(append(prefixes, payloads...), marks...), access...)
			later = append(later, index...)
		}
		return nil
	})
	return prefixes, later, err
}

func (b *Badger) tidyEvents(ctx context.Context) error {
	names, err := b.Workspaces(ctx)
	if err != nil {
		return err
	}
	for _, name := range names {
		err := b.update(ctx, func(t *tx) error {
			var old [][]byte
			err := t.each(areaOf(name).key(kindEvent), false, func(key, value []byte) (bool, error) {
				if eventOver(t.now, value) {
					old = append(old, append([]byte(nil), key...))
				}
				return len(old) < 4*maxTidy, nil
			})
			if err != nil {
				return err
			}
			return t.deleteAll(old)
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// collect runs badger's collection of the value log until it finds nothing.
func (b *Badger) collect() error {
	if b.dir == "" {
		return nil
	}
	for {
		switch err := b.db.RunValueLogGC(0.5); {
		case errors.Is(err, badger.ErrNoRewrite), errors.Is(err, badger.ErrRejected):
			return nil
		case err != nil:
			return b.said(err)
		}
	}
}
