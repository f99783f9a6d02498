package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"time"

	"github.com/dgraph-io/badger/v4"
)

// Badger is a Store in one directory or in memory. Beyond Store it offers what
// an operator needs: Tidy, Check, Backup and Restore.
type Badger struct {
	opt   Options
	dir   string // "" in memory
	db    *badger.DB
	free  func(dir string) (int64, error)
	steps []migration

	arrived atomic.Uint64 // events, to tell apart those of one moment

	// writes is held for reading by every write and for writing by what cannot
	// stand writes beside it: badger refuses them while it drops keys.
	writes sync.RWMutex

	// marking is held by SetMark, one for the names whose hash begins alike, so
	// that many who set one mark wait for each other instead of trying again.
	marking [64]sync.Mutex

	mu     sync.Mutex
	idle   *sync.Cond // signalled when calls falls to 0
	calls  int
	closed bool
	damage error         // found by verify: every call returns it
	quit   chan struct{} // closed to stop housekeeping
	tidy   sync.WaitGroup
}

var _ Store = (*Badger)(nil)

// Open opens the store in a directory and creates both if need be. Only one
// process may have it open: another gets ErrLocked. Returns ErrNewerStore if a
// newer program wrote it, ErrKey if the key does not fit, ErrCorrupt if files
// are damaged, ErrInvalid if the directory holds something else, ErrNoSpace.
func Open(dir string, o Options) (*Badger, error) {
	if dir == "" {
		return nil, fault(ErrInvalid, "no directory for the store")
	}
	if err := foreign(dir); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("create store: %w", err)
	}
	return open(dir, o.withDefaults(), migrations)
}

// OpenMemory opens a store that lives in memory and is gone after Close.
func OpenMemory(o Options) (*Badger, error) {
	return open("", o.withDefaults(), migrations)
}

func open(dir string, o Options, steps []migration) (_ *Badger, err error) {
	b := &Badger{opt: o, dir: dir, free: freeSpace, steps: steps, quit: make(chan struct{})}
	b.idle = sync.NewCond(&b.mu)
	if err := b.room(); err != nil {
		return nil, err
	}
	if dir != "" {
		if err := precheck(dir, o.badger(dir), o.Salvage); err != nil {
			return nil, err
		}
	}
	if b.db, err = openDB(o.badger(dir), dir); err != nil {
		return nil, err
	}
	defer func() {
		if err != nil {
			b.tidy.Wait()
			_ = b.db.Close()
		}
	}()
	if err := b.verify(); err != nil {
		return nil, err
	}
	if err := b.migrate(steps); err != nil {
		return nil, err
	}
	if err := b.finishRemovals(); err != nil {
		return nil, err
	}
	if o.Housekeeping > 0 {
		b.tidy.Go(b.housekeep)
	}
	return b, nil
}

// openDB opens badger and says in our words what went wrong. Badger meets some
// damage with a panic.
func openDB(o badger.Options, dir string) (db *badger.DB, err error) {
	defer func() {
		if p := recover(); p != nil {
			db, err = nil, corrupt(dir, fmt.Errorf("%v", p))
		}
	}()
	db, err = badger.Open(o)
	switch {
	case err == nil:
		return db, nil
	case strings.Contains(err.Error(), "Cannot acquire directory lock"):
		return nil, &Error{Code: ErrLocked.Code, Message: fmt.Sprintf("the store in %q is in use by another process", dir)}
	case errors.Is(err, badger.ErrEncryptionKeyMismatch) && len(o.EncryptionKey) == 0:
		return nil, fault(ErrKey, "the store in %q is encrypted: its key file is needed", dir)
	case errors.Is(err, badger.ErrEncryptionKeyMismatch):
		return nil, fault(ErrKey, "the key does not open the store in %q: it is another store's, or the store is not encrypted", dir)
	case errors.Is(err, syscall.ENOSPC):
		return nil, noSpace(dir, err)
	case errors.Is(err, os.ErrPermission), errors.Is(err, syscall.EROFS):
		return nil, fmt.Errorf("open store: %w", err)
	}
	return nil, corrupt(dir, err)
}

func corrupt(dir string, err error) error {
	return &Error{Code: ErrCorrupt.Code, Message: fmt.Sprintf("the store in %q is damaged: restore a backup into a new directory", dir), Err: err}
}

func noSpace(dir string, err error) error {
	return &Error{Code: ErrNoSpace.Code, Message: fmt.Sprintf("no space left for the store in %q: nothing was written", dir), Err: err}
}

// Close stops housekeeping, waits for calls in progress and closes the store.
func (b *Badger) Close() error {
	b.mu.Lock()
	if b.closed {
		b.mu.Unlock()
		return nil
	}
	b.closed = true
	close(b.quit)
	for b.calls > 0 {
		b.idle.Wait()
	}
	b.mu.Unlock()
	b.tidy.Wait()
	if err := b.db.Close(); err != nil {
		return fmt.Errorf("close store: %w", err)
	}
	return nil
}

// enter counts a call in; leave counts it out.
func (b *Badger) enter(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.closed {
		return fault(ErrClosed, "the store is closed")
	}
	if b.damage != nil {
		return b.damage
	}
	b.calls++
	return nil
}

func (b *Badger) leave() {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.calls--; b.calls == 0 {
		b.idle.Broadcast()
	}
}

// room returns ErrNoSpace if the disk is nearly full.
func (b *Badger) room() error {
	if b.dir == "" {
		return nil
	}
	free, err := b.free(b.dir)
	if err == nil && free < b.opt.MinFree {
		return noSpace(b.dir, fmt.Errorf("%d MiB free, %d MiB needed", free>>20, b.opt.MinFree>>20))
	}
	return nil // a file system that does not tell is no reason to stop
}

// now is the time of a transaction, in UTC, whole microseconds.
func (b *Badger) now() time.Time { return b.opt.Now().UTC().Truncate(time.Microsecond) }

// In gives a workspace.
func (b *Badger) In(workspace string) Workspace {
	return &workspaceBadger{b: b, name: workspace, area: areaOf(workspace)}
}

// Workspaces lists the workspaces that hold anything.
func (b *Badger) Workspaces(ctx context.Context) ([]string, error) {
	var names []string
	err := b.view(ctx, func(t *tx) error {
		it := t.keys([]byte{spaceWorkspace})
		defer it.Close()
		for it.Rewind(); it.Valid(); {
			name, _ := workspaceOf(it.Item().Key())
			names = append(names, name)
			it.Seek(after(areaOf(name)))
		}
		return nil
	})
	slices.Sort(names)
	return names, err
}

// workspaceBadger is a Workspace of a Badger.
type workspaceBadger struct {
	b    *Badger
	name string
	area area
}

var _ Workspace = (*workspaceBadger)(nil)

func (w *workspaceBadger) valid() error {
	if w.name == "" || len(w.name) > maxWorkspace {
		return fault(ErrInvalid, "a workspace's name has 1 to %d bytes, not %d", maxWorkspace, len(w.name))
	}
	return nil
}

func (w *workspaceBadger) view(ctx context.Context, fn func(*tx) error) error {
	if err := w.valid(); err != nil {
		return err
	}
	return w.b.view(ctx, fn)
}

func (w *workspaceBadger) update(ctx context.Context, fn func(*tx) error) error {
	if err := w.valid(); err != nil {
		return err
	}
	return w.b.update(ctx, fn)
}
