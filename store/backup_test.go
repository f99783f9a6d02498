package store_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"pottle/store"
)

// filled is a store with something of everything in two workspaces.
func filled(t testing.TB, o store.Options) *store.Badger {
	t.Helper()
	b := mustOpen(t, t.TempDir(), o)
	for _, name := range []string{"T1", "T2"} {
		w := b.In(name)
		for i := range 20 {
			r := save(t, w, fmt.Sprint("soup ", i, " of ", name))
			r.Versions = append(r.Versions, store.RecipeVersion{Text: "second"})
			r, err := w.SaveRecipe(ctx, r, "Ben")
			ok(t, err)
			if i == 0 {
				ok(t, w.DeleteRecipe(ctx, r.ID, r.Revision, "Ann"))
			}
		}
		_, err := w.SaveConversation(ctx, store.Conversation{ID: "c", State: json.RawMessage(`{"of":"` + name + `"}`)})
		ok(t, err)
		_, err = w.Foods().Save(ctx, store.TeamFood{Name: "bar", Grams: 40, Figures: map[string]float64{"NA": 95}}, "Ann")
		ok(t, err)
	}
	return b
}

func backup(t testing.TB, b *store.Badger) []byte {
	t.Helper()
	var buf bytes.Buffer
	ok(t, b.Backup(ctx, &buf, nil))
	return buf.Bytes()
}

func TestBackup(t *testing.T) {
	key, err := store.NewKey()
	ok(t, err)
	for name, c := range map[string]struct{ from, to *store.Key }{
		"Plain": {}, "Encrypted": {key, key}, "PlainToEncrypted": {nil, key},
	} {
		t.Run(name, func(t *testing.T) {
			from := filled(t, store.Options{Key: c.from})
			var done []int64
			var buf bytes.Buffer
			ok(t, from.Backup(ctx, &buf, func(n int64) { done = append(done, n) }))
			if c.from != nil && strings.Contains(buf.String(), "soup") {
				t.Error("the backup is in plain text")
			}
			to := mustOpen(t, t.TempDir(), store.Options{Key: c.to})
			ok(t, to.Restore(ctx, bytes.NewReader(buf.Bytes()), nil, nil))
			want, got := clean(t, from), clean(t, to)
			if fmt.Sprint(want) != fmt.Sprint(got) || done[len(done)-1] != want.Keys {
				t.Errorf("restored %+v, want %+v, progress %v", got, want, done)
			}
			r, err := to.In("T2").RecipeNamed(ctx, "soup 3 of T2")
			ok(t, err)
			if len(r.Versions) != 2 || r.Versions[1].Who != "Ben" {
				t.Errorf("recipe %+v", r)
			}
			if !bytes.Equal(plainBackup(t, c.to, from), plainBackup(t, c.to, to)) {
				t.Error("a backup of what was restored differs")
			}
			_, err = to.In("T1").SaveRecipe(ctx, r, "Ann") // another's recipe stays unknown
			wantError(t, err, store.ErrNotFound, r.ID)
			save(t, to.In("T1"), "after")
		})
	}
}

// plainBackup is a backup without its first two lines and its checksum.
func plainBackup(t *testing.T, key *store.Key, b *store.Badger) []byte {
	t.Helper()
	if key != nil {
		return nil // age's chance makes them differ
	}
	parts := bytes.SplitN(backup(t, b), []byte("\n"), 3)
	return parts[2][:len(parts[2])-32]
}

func TestRestore(t *testing.T) {
	key, err := store.NewKey()
	ok(t, err)
	other, err := store.NewKey()
	ok(t, err)
	plain, sealed := backup(t, filled(t, store.Options{})), backup(t, filled(t, store.Options{Key: key}))
	alter := func(b []byte, i int) []byte {
		c := bytes.Clone(b)
		c[i] ^= 1
		return c
	}
	header := []byte("pottle backup 1\n{\"schema\":99}\n")
	for _, c := range []struct {
		name string
		data []byte
		key  *store.Key
		code *store.Error
		part string
	}{
		{"ErrEmpty", nil, nil, store.ErrCorrupt, "no backup"},
		{"ErrOther", []byte("a letter to grandmother"), nil, store.ErrCorrupt, "no backup"},
		{"ErrNewerFormat", []byte("pottle backup 2\n"), nil, store.ErrNewerStore, "newer"},
		{"ErrNewerSchema", header, nil, store.ErrNewerStore, "schema 99"},
		{"ErrCutHeader", plain[:20], nil, store.ErrCorrupt, "cut off"},
		{"ErrCutMiddle", plain[:len(plain)/2], nil, store.ErrCorrupt, "cut off"},
		{"ErrCutEnd", plain[:len(plain)-1], nil, store.ErrCorrupt, "cut off"},
		{"ErrLonger", append(bytes.Clone(plain), 0), nil, store.ErrCorrupt, "damaged"},
		{"ErrByte", alter(plain, len(plain)/2), nil, store.ErrCorrupt, "damaged"},
		{"ErrLength", alter(plain, bytes.Index(plain, []byte("}\n"))+2), nil, store.ErrCorrupt, "damaged"},
		{"ErrChecksum", alter(plain, len(plain)-1), nil, store.ErrCorrupt, "damaged"},
		{"ErrNoKey", sealed, nil, store.ErrKey, "key file is needed"},
		{"ErrWrongKey", sealed, other, store.ErrKey, "does not open the backup"},
		{"ErrSealedCut", sealed[:len(sealed)-5], key, store.ErrCorrupt, "cut off"},
		{"ErrSealedCutEarly", sealed[:60], key, store.ErrCorrupt, "cut off"},
		{"ErrSealedByte", alter(sealed, len(sealed)/2), key, store.ErrCorrupt, "damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := mustOpen(t, "", store.Options{})
			wantError(t, b.Restore(ctx, bytes.NewReader(c.data), c.key, nil), c.code, c.part)
			if r := clean(t, b); r.Keys != 0 || r.Schema != 3 {
				t.Errorf("something is left: %+v", r)
			}
			ok(t, b.Restore(ctx, bytes.NewReader(plain), nil, nil)) // still of use
			clean(t, b)
		})
	}
	t.Run("ErrCutLarge", func(t *testing.T) { // when much is written already
		from := mustOpen(t, "", store.Options{})
		for i := range 20 {
			state := json.RawMessage(`"` + strings.Repeat("x", store.MaxConversation-2) + `"`)
			_, err := from.In("T").SaveConversation(ctx, store.Conversation{ID: fmt.Sprint(i), State: state})
			ok(t, err)
		}
		large := backup(t, from)
		b := mustOpen(t, t.TempDir(), store.Options{})
		wantError(t, b.Restore(ctx, bytes.NewReader(large[:len(large)-1]), nil, nil), store.ErrCorrupt, "cut off")
		if r := clean(t, b); r.Keys != 0 || r.Schema != 3 {
			t.Errorf("something is left: %+v", r)
		}
		ok(t, b.Restore(ctx, bytes.NewReader(large), nil, nil))
		if r := clean(t, b); r.Conversations != 20 {
			t.Errorf("restored %+v", r)
		}
	})
	t.Run("ErrNotEmpty", func(t *testing.T) {
		b := filled(t, store.Options{})
		before := clean(t, b)
		wantError(t, b.Restore(ctx, bytes.NewReader(plain), nil, nil), store.ErrExists, "not empty")
		if after := clean(t, b); after.Keys != before.Keys {
			t.Errorf("%+v, before %+v", after, before)
		}
	})
	t.Run("ErrReader", func(t *testing.T) {
		b := mustOpen(t, "", store.Options{})
		stopped, cancel := context.WithCancel(ctx)
		cancel()
		if err := b.Restore(stopped, bytes.NewReader(plain), nil, nil); !errors.Is(err, context.Canceled) {
			t.Errorf("cancelled: %v", err)
		}
	})
	t.Run("ErrWriter", func(t *testing.T) {
		full := errors.New("disk full")
		if err := filled(t, store.Options{}).Backup(ctx, failing{full}, nil); !errors.Is(err, full) {
			t.Errorf("writer's error: %v", err)
		}
	})
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }
