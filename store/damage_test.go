package store_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pottle/store"
)

// TestDamage alters files of a store that was closed. Each kind must be told
// at Open: a damaged table that is read around looks like lost recipes.
func TestDamage(t *testing.T) {
	for _, c := range []struct {
		name, pattern string
		alter         func(data []byte) []byte
	}{
		{"ManifestBytes", "MANIFEST", flip(20)},
		{"ManifestMagic", "MANIFEST", flip(0)},
		{"ManifestEmpty", "MANIFEST", func([]byte) []byte { return nil }},
		{"ManifestCut", "MANIFEST", func(d []byte) []byte { return d[:8] }},
		{"TableStart", "*.sst", flip(3)},
		{"TableMiddle", "*.sst", func(d []byte) []byte { return flip(len(d) / 2)(d) }},
		{"TableEnd", "*.sst", func(d []byte) []byte { return flip(len(d) - 3)(d) }},
		{"TableCut", "*.sst", func(d []byte) []byte { return d[:len(d)/2] }},
		{"TableEmpty", "*.sst", func([]byte) []byte { return nil }},
		{"KeyRegistry", "KEYREGISTRY", flip(18)},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			b := mustOpen(t, dir, store.Options{})
			for i := range 50 {
				save(t, b.In("T"), fmt.Sprint("soup ", i))
			}
			ok(t, b.Close()) // writes the memory to a table
			files, err := filepath.Glob(filepath.Join(dir, c.pattern))
			ok(t, err)
			if len(files) == 0 {
				t.Fatalf("no file %s", c.pattern)
			}
			data, err := os.ReadFile(files[0])
			ok(t, err)
			ok(t, os.WriteFile(files[0], c.alter(data), 0o600))
			b, err = store.Open(dir, store.Options{})
			if err == nil {
				_ = b.Close()
			}
			if !errors.Is(err, store.ErrCorrupt) && !errors.Is(err, store.ErrKey) {
				t.Fatalf("opened with %v", err)
			}
			if m := store.Message(err); !strings.Contains(m, dir) {
				t.Errorf("message: %q", m)
			}
		})
	}
	for _, pattern := range []string{"MANIFEST", "*.sst"} {
		t.Run("Lost "+pattern, func(t *testing.T) {
			dir := t.TempDir()
			b := mustOpen(t, dir, store.Options{})
			save(t, b.In("T"), "soup")
			ok(t, b.Close())
			files, _ := filepath.Glob(filepath.Join(dir, pattern))
			for _, f := range files {
				ok(t, os.Remove(f))
			}
			b, err := store.Open(dir, store.Options{})
			if err == nil {
				_ = b.Close()
			}
			wantError(t, err, store.ErrCorrupt, "restore a backup")
		})
	}
}

func flip(i int) func([]byte) []byte {
	return func(d []byte) []byte {
		d[i] ^= 0xff
		return d
	}
}
