package store

import (
	"fmt"
	"time"
)

// migration brings a store from the schema before it to its own. It runs once,
// in one transaction with the new schema number, when the store is opened.
type migration struct {
	what string // for the log
	run  func(*tx) error
}

// migrations in order; the schema is their number. Never change or remove one
// that was released: add one.
var migrations = []migration{
	{what: "first layout", run: func(*tx) error { return nil }},
	// An older program would neither empty nor drop a payload.
	{what: "events with payloads", run: func(*tx) error { return nil }},
	// An older program would forget a conversation without its marks, keep what
	// a workspace that left is to lose, and change the key without its tokens.
	{what: "marks, accesses, workspaces that left", run: func(*tx) error { return nil }},
}

// schema is what the store says about itself.
type schema struct {
	Schema int       `json:"schema"`
	At     time.Time `json:"at"` // of the last migration
}

// migrate brings the store to the latest schema. A store that holds keys but no
// schema is one whose restore was interrupted.
func (b *Badger) migrate(steps []migration) error {
	var s schema
	err := b.view(ctxAlways, func(t *tx) error {
		found, err := t.read(keySchema, &s)
		if err != nil || found {
			return err
		}
		it := t.keys(nil)
		defer it.Close()
		if it.Rewind(); it.Valid() {
			return fault(ErrCorrupt, "a restore into %q was interrupted: restore again into an empty directory", b.dir)
		}
		return nil
	})
	if err != nil {
		return err
	}
	if s.Schema > len(steps) {
		return newer(fmt.Sprintf("the store in %q", b.dir), s.Schema, len(steps))
	}
	for i := s.Schema; i < len(steps); i++ {
		err := b.commit(func(t *tx) error {
			if err := steps[i].run(t); err != nil {
				return err
			}
			return t.write(keySchema, schema{Schema: i + 1, At: t.now})
		})
		if err != nil {
			return fmt.Errorf("migrate store to schema %d (%s): %w", i+1, steps[i].what, err)
		}
	}
	return nil
}

func newer(what string, has, knows int) error {
	return fault(ErrNewerStore, "%s was written by a newer pottle (schema %d, this one knows %d): update the program", what, has, knows)
}
