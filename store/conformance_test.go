package store_test

import (
	"testing"
	"time"

	"pottle/store"
	"pottle/store/storetest"
)

func TestConformance(t *testing.T) {
	key, err := store.NewKey()
	if err != nil {
		t.Fatal(err)
	}
	t.Run("Memory", func(t *testing.T) {
		storetest.Run(t, func(t *testing.T, now func() time.Time) store.Store {
			return mustOpen(t, "", store.Options{Housekeeping: -1, Now: now})
		})
	})
	t.Run("MemoryWithKey", func(t *testing.T) {
		storetest.Run(t, func(t *testing.T, now func() time.Time) store.Store {
			return mustOpen(t, "", store.Options{Housekeeping: -1, Now: now, Key: key})
		})
	})
	t.Run("Disk", func(t *testing.T) {
		storetest.Run(t, func(t *testing.T, now func() time.Time) store.Store {
			return mustOpen(t, t.TempDir(), store.Options{Housekeeping: -1, Now: now})
		})
	})
	t.Run("Encrypted", func(t *testing.T) {
		storetest.Run(t, func(t *testing.T, now func() time.Time) store.Store {
			return mustOpen(t, t.TempDir(), store.Options{Housekeeping: -1, Now: now, Key: key})
		})
	})
}

// mustOpen opens a store in a directory, or in memory if dir is "".
func mustOpen(t testing.TB, dir string, o store.Options) *store.Badger {
	t.Helper()
	var b *store.Badger
	var err error
	if dir == "" {
		b, err = store.OpenMemory(o)
	} else {
		b, err = store.Open(dir, o)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	return b
}
