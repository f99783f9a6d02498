package store_test

import (
	"bytes"
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

// TestDamageLog alters the log of a store that was never closed, as after a
// kill. Every byte of it may be hit; what is behind must never be lost unsaid.
func TestDamageLog(t *testing.T) {
	key, err := store.NewKey()
	ok(t, err)
	for name, o := range map[string]store.Options{"Plain": {Housekeeping: -1}, "Encrypted": {Housekeeping: -1, Key: key}} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			b := mustOpen(t, dir, o)
			for i := range 10 {
				save(t, b.In("T"), fmt.Sprint("soup ", i))
			}
			killed := func() (string, string, []byte) { // a copy as a kill leaves it
				c := t.TempDir()
				ok(t, os.CopyFS(filepath.Join(c, "c"), os.DirFS(dir)))
				c = filepath.Join(c, "c")
				logs, _ := filepath.Glob(filepath.Join(c, "*.mem"))
				data, err := os.ReadFile(logs[len(logs)-1])
				ok(t, err)
				return c, logs[len(logs)-1], data
			}
			recipes := func(dir string, o store.Options) (int, error) {
				b, err := store.Open(dir, o)
				if err != nil {
					return 0, err
				}
				defer b.Close()
				r, err := b.Check(ctx, nil)
				return r.Recipes, err
			}
			_, _, data := killed()
			used := len(bytes.TrimRight(data, "\x00"))
			told := 0
			for i := range 12 {
				at := 20 + (used-21)*i/12
				c, log, data := killed()
				ok(t, os.WriteFile(log, flip(at)(data), 0o600))
				if n, err := recipes(c, o); err == nil && n != 10 && at < used-used/10 {
					t.Errorf("byte %d of %d: %d recipes and no word", at, used, n)
				} else if errors.Is(err, store.ErrCorrupt) {
					told++
				}
				s := o
				s.Salvage = true
				if n, err := recipes(c, s); err != nil || n > 10 {
					t.Errorf("salvage of byte %d: %d recipes, %v", at, n, err)
				}
			}
			if told < 9 {
				t.Errorf("told %d of 12", told)
			}
			// What a kill in the middle of a write leaves is no damage.
			for i := range 4 {
				c, log, data := killed()
				clear(data[used-1-i*80:])
				ok(t, os.WriteFile(log, data, 0o600))
				if n, err := recipes(c, o); err != nil || n < 9 {
					t.Errorf("cut by %d: %d recipes, %v", 1+i*80, n, err)
				}
			}
		})
	}
}
