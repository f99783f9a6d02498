package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"pottle/store"
)

// storeCommand looks after the store as a whole.
type storeCommand struct {
	Backup  storeBackup  `cmd:"" help:"Write the whole store to a file."`
	Restore storeRestore `cmd:"" help:"Fill a new, empty store from a backup."`
	Check   storeCheck   `cmd:"" help:"Read everything and say whether it fits together."`
	Key     storeKey     `cmd:"" help:"Make a key for a new, encrypted store."`
	Rotate  storeRotate  `cmd:"" help:"Change the key of a store that nobody has open."`
}

type storeBackup struct {
	dataFlags
	File string `arg:"" help:"The file to write."`
}

// Run writes a backup; it is encrypted if the store is.
func (c *storeBackup) Run(p *program) error {
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		return p.write(c.File, func(w io.Writer) error { return s.Backup(ctx, w, p.progress("back up")) })
	})
}

type storeRestore struct {
	dataFlags
	File string `arg:"" help:"The backup to read."`
}

// Run fills an empty store.
func (c *storeRestore) Run(p *program) error {
	f, err := os.Open(c.File)
	if err != nil {
		return fmt.Errorf("restore: %w", err)
	}
	defer f.Close()
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		return s.Restore(ctx, f, nil, p.progress("restore"))
	})
}

type storeCheck struct{ dataFlags }

// Run checks the store; faults make it fail.
func (c *storeCheck) Run(p *program) error {
	return c.withStore(func(ctx context.Context, s *store.Badger) error {
		r, err := s.Check(ctx, p.progress("check"))
		if err != nil {
			return err
		}
		fmt.Fprintf(p.out, "%d recipes with %d versions, %d deleted, %d foods, %d words, %d targets, %d changes; %d keys\n",
			r.Recipes, r.Versions, r.Deleted, r.Foods, r.Words, r.Targets, r.Changes, r.Keys)
		if r.Accesses+r.Left > 0 {
			fmt.Fprintf(p.out, "%d workspaces have installed pottle, %d have left and will be removed\n", r.Accesses, r.Left)
		}
		for _, fault := range r.Faults {
			fmt.Fprintln(p.err, "fault:", fault)
		}
		if len(r.Faults) > 0 {
			return fmt.Errorf("%d faults", len(r.Faults))
		}
		fmt.Fprintln(p.out, "all fits together")
		return nil
	})
}

type storeKey struct {
	File string `arg:"" help:"The file to write the key to."`
}

// Run makes a key file that only its owner may read.
func (c *storeKey) Run(p *program) error {
	key, err := store.NewKey()
	if err != nil {
		return err
	}
	return key.WriteFile(c.File)
}

type storeRotate struct {
	Data string `help:"The directory of the store." env:"POTTLE_DATA" required:"" placeholder:"DIR"`
	Old  string `arg:"" help:"The file with the key it has."`
	New  string `arg:"" help:"The file with the key it gets."`
}

// Run changes the key.
func (c *storeRotate) Run(p *program) error {
	old, err := store.ReadKey(c.Old)
	if err != nil {
		return err
	}
	next, err := store.ReadKey(c.New)
	if err != nil {
		return err
	}
	return store.RotateKey(c.Data, old, next)
}
