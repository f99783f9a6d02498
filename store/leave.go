package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"time"
)

// Withdraw marks the workspace as left and removes the access from the files.
//
// The mark and the access's end are one transaction, so that nobody sees one
// without the other; the access is made empty rather than deleted, because drop
// only finds keys that live. If it is interrupted after that, Tidy drops what
// is left.
func (w *workspaceBadger) Withdraw(ctx context.Context) error {
	return w.alone(ctx, w.withdraw)
}

// withdraw is Withdraw for a caller that holds writes.
func (w *workspaceBadger) withdraw() error {
	had := false
	err := w.b.commit(func(t *tx) error {
		if t.none(w.area) {
			return nil
		}
		_, left, err := t.get(w.area.key(kindLeft))
		if err != nil {
			return err
		}
		if !left {
			if err := t.Set(w.area.key(kindLeft), binary.BigEndian.AppendUint64(nil, uint64(t.now.Unix()))); err != nil {
				return err
			}
		}
		if _, had, err = t.get(w.area.key(kindAccess)); err != nil || !had {
			return err
		}
		return t.Set(w.area.key(kindAccess), nil)
	})
	if err != nil || !had {
		return err
	}
	return w.b.drop([][]byte{w.area.key(kindAccess)})
}

// Stay ends a withdrawal.
func (w *workspaceBadger) Stay(ctx context.Context) error {
	return w.stay(ctx, func(*tx) error { return nil })
}

// stay ends a withdrawal and does fn in the same transaction. A workspace whose
// removal has begun is removed to the end first: half of it is of no use.
func (w *workspaceBadger) stay(ctx context.Context, fn func(*tx) error) error {
	return w.alone(ctx, func() error {
		if err := w.b.finishRemovals(); err != nil {
			return err
		}
		return w.b.commit(func(t *tx) error {
			_, left, err := t.get(w.area.key(kindLeft))
			if err != nil {
				return err
			}
			if left {
				if err := t.Delete(w.area.key(kindLeft)); err != nil {
					return err
				}
			}
			return fn(t)
		})
	})
}

// Left returns when the workspace left.
func (w *workspaceBadger) Left(ctx context.Context) (time.Time, error) {
	var left time.Time
	err := w.view(ctx, func(t *tx) (err error) {
		left, err = t.left(w.area)
		return err
	})
	return left, err
}

// left returns when a workspace left; zero if it did not.
func (t *tx) left(a area) (time.Time, error) {
	value, _, err := t.get(a.key(kindLeft))
	return seconds(value), err
}

// tidyLeft removes the workspaces that left KeepLeft ago.
func (b *Badger) tidyLeft(ctx context.Context) error {
	over, err := b.leftOver(ctx)
	if err != nil {
		return err
	}
	if begun, err := b.removals(); err != nil || len(over)+len(begun) == 0 {
		return err
	}
	b.writes.Lock()
	defer b.writes.Unlock()
	if err := b.finishRemovals(); err != nil {
		return err
	}
	if over, err = b.leftOver(ctx); err != nil { // again: some may have come back meanwhile
		return err
	}
	for _, a := range over {
		if err := b.remove(a); err != nil {
			return err
		}
	}
	return nil
}

// leftOver returns the workspaces that are to be removed.
func (b *Badger) leftOver(ctx context.Context) (over []area, err error) {
	names, err := b.Workspaces(ctx)
	if err != nil {
		return nil, err
	}
	err = b.view(ctx, func(t *tx) error {
		for _, name := range names {
			a := areaOf(name)
			left, err := t.left(a)
			if err != nil {
				return err
			}
			if !left.IsZero() && t.now.Sub(left) >= KeepLeft {
				over = append(over, a)
			}
		}
		return ctx.Err()
	})
	return over, err
}

// remove drops all of a workspace from the files. The caller holds writes.
//
// Badger drops table by table: if it is interrupted, part of the workspace is
// gone, maybe the mark that it left too. A note outside the workspace has
// finishRemovals go on. The mark, which is set anew if it is gone, makes sure
// that a key of the workspace lives: else drop would leave out what is dead.
func (b *Badger) remove(a area) error {
	if err := b.room(); err != nil {
		return err
	}
	note := append(bytes.Clone(keyRemoval), a...)
	err := b.commit(func(t *tx) error {
		left, err := t.left(a)
		if err != nil {
			return err
		}
		if left.IsZero() {
			if err := t.Set(a.key(kindLeft), make([]byte, 8)); err != nil {
				return err
			}
		}
		return t.Set(note, nil)
	})
	if err != nil {
		return err
	}
	if err := b.drop([][]byte{a}); err != nil {
		return err
	}
	return b.drop([][]byte{note})
}

// finishRemovals removes to the end what remove had begun. The caller holds writes.
func (b *Badger) finishRemovals() error {
	begun, err := b.removals()
	if err != nil {
		return err
	}
	for _, a := range begun {
		if err := b.remove(a); err != nil {
			return err
		}
	}
	return nil
}

// removals returns the workspaces whose removal has begun.
func (b *Badger) removals() (begun []area, err error) {
	err = b.view(ctxAlways, func(t *tx) error {
		return t.each(keyRemoval, false, func(key, _ []byte) (bool, error) {
			begun = append(begun, bytes.Clone(key[len(keyRemoval):]))
			return true, nil
		})
	})
	return begun, err
}
