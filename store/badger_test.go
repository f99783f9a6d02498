package store_test

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

var ctx = context.Background()

func wantError(t *testing.T, err error, code *store.Error, part string) {
	t.Helper()
	if !errors.Is(err, code) || !strings.Contains(store.Message(err), part) {
		t.Errorf("error %v (code %q), want code %q and %q", err, store.Code(err), code.Code, part)
	}
}

func ok(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func recipe(name string) store.Recipe {
	return store.Recipe{
		RecipeHead: store.RecipeHead{Name: name, Tags: []string{"tag"}, Figures: map[string]store.Figure{"NA": {Value: 1}, "K": {AtLeast: true}}},
		Versions:   []store.RecipeVersion{{Text: "text of " + name, Servings: 2, Said: "pasted"}},
	}
}

func save(t testing.TB, w store.Workspace, name string) store.Recipe {
	t.Helper()
	r, err := w.SaveRecipe(ctx, recipe(name), "Ann")
	ok(t, err)
	return r
}

// clean fails the test if a check of the store finds any fault.
func clean(t *testing.T, b *store.Badger) store.Report {
	t.Helper()
	r, err := b.Check(ctx, nil)
	ok(t, err)
	if len(r.Faults) > 0 {
		t.Errorf("faults: %q", r.Faults)
	}
	return r
}

func TestOpen(t *testing.T) {
	t.Run("OK", func(t *testing.T) {
		dir := filepath.Join(t.TempDir(), "a", "b")
		b := mustOpen(t, dir, store.Options{})
		r := save(t, b.In("T"), "soup")
		ok(t, b.Close())
		b = mustOpen(t, dir, store.Options{})
		got, err := b.In("T").Recipe(ctx, r.ID)
		ok(t, err)
		if got.Versions[0] != r.Versions[0] || !got.SavedAt.Equal(r.SavedAt) {
			t.Errorf("reopened: %+v, want %+v", got, r)
		}
		clean(t, b)
	})
	t.Run("ErrLocked", func(t *testing.T) {
		dir := t.TempDir()
		b := mustOpen(t, dir, store.Options{})
		_, err := store.Open(dir, store.Options{})
		wantError(t, err, store.ErrLocked, "in use by another process")
		ok(t, b.Close())
		mustOpen(t, dir, store.Options{})
	})
	t.Run("ErrInvalid", func(t *testing.T) {
		dir := t.TempDir()
		ok(t, os.WriteFile(filepath.Join(dir, "letter.txt"), nil, 0o600))
		_, err := store.Open(dir, store.Options{})
		wantError(t, err, store.ErrInvalid, "letter.txt")
		_, err = store.Open("", store.Options{})
		wantError(t, err, store.ErrInvalid, "directory")
		if _, err = store.Open(filepath.Join(dir, "letter.txt"), store.Options{}); err == nil {
			t.Error("a file was opened as a store")
		}
		list, _ := os.ReadDir(dir)
		if len(list) != 1 {
			t.Errorf("something was written: %v", list)
		}
	})
	t.Run("ErrNoSpace", func(t *testing.T) {
		_, err := store.Open(t.TempDir(), store.Options{MinFree: 1 << 60})
		wantError(t, err, store.ErrNoSpace, "no space left")
	})
}

func TestKey(t *testing.T) {
	dir, file := t.TempDir(), filepath.Join(t.TempDir(), "key")
	key, err := store.NewKey()
	ok(t, err)
	ok(t, key.WriteFile(file))
	if err := key.WriteFile(file); !errors.Is(err, os.ErrExist) {
		t.Errorf("a key file was overwritten: %v", err)
	}
	if info, _ := os.Stat(file); info.Mode().Perm() != 0o600 {
		t.Errorf("key file has mode %v", info.Mode())
	}
	key, err = store.ReadKey(file)
	ok(t, err)
	other, err := store.NewKey()
	ok(t, err)

	const secret = "Zwiebelkuchen"
	b := mustOpen(t, dir, store.Options{Key: key})
	r := save(t, b.In("T"), secret)
	wantError(t, store.RotateKey(dir, key, other), store.ErrLocked, "in use")
	ok(t, b.Close())
	if hits := grep(t, dir, secret); len(hits) > 0 {
		t.Errorf("plain text in %q", hits)
	}
	_, err = store.Open(dir, store.Options{Key: other})
	wantError(t, err, store.ErrKey, "does not open")
	_, err = store.Open(dir, store.Options{})
	wantError(t, err, store.ErrKey, "key file is needed")

	t.Run("Rotate", func(t *testing.T) {
		wantError(t, store.RotateKey(dir, other, key), store.ErrKey, "old key")
		ok(t, store.RotateKey(dir, key, other))
		_, err = store.Open(dir, store.Options{Key: key})
		wantError(t, err, store.ErrKey, "does not open")
		b := mustOpen(t, dir, store.Options{Key: other})
		if _, err := b.In("T").Recipe(ctx, r.ID); err != nil {
			t.Error(err)
		}
		save(t, b.In("T"), "after")
		ok(t, b.Close())
		clean(t, mustOpen(t, dir, store.Options{Key: other}))
	})
	t.Run("ErrPlainStore", func(t *testing.T) {
		dir := t.TempDir()
		ok(t, mustOpen(t, dir, store.Options{}).Close())
		_, err = store.Open(dir, store.Options{Key: key})
		wantError(t, err, store.ErrKey, "not encrypted")
	})
	t.Run("ErrKeyFile", func(t *testing.T) {
		const line = "AGE-SECRET-KEY-1QQQQ"
		bad := filepath.Join(t.TempDir(), "bad")
		for _, text := range []string{"", "# nothing\n", line, "hunter2", key2(t) + "\n" + key2(t)} {
			ok(t, os.WriteFile(bad, []byte(text), 0o600))
			_, err := store.ReadKey(bad)
			wantError(t, err, store.ErrKey, "holds no key")
			if err != nil && text != "" && strings.Contains(err.Error(), text) {
				t.Errorf("the error tells the key: %v", err)
			}
		}
		if _, err := store.ReadKey(bad + "none"); !errors.Is(err, os.ErrNotExist) {
			t.Errorf("no file: %v", err)
		}
	})
}

// key2 is the text of a fresh key file.
func key2(t *testing.T) string {
	k, err := store.NewKey()
	ok(t, err)
	file := filepath.Join(t.TempDir(), "k")
	ok(t, k.WriteFile(file))
	text, err := os.ReadFile(file)
	ok(t, err)
	return string(text)
}

// grep returns the files of a directory that hold a text.
func grep(t *testing.T, dir, text string) (hits []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	ok(t, err)
	if len(entries) == 0 {
		t.Fatal("no files to look at")
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err == nil && strings.Contains(string(data), text) {
			hits = append(hits, e.Name())
		}
	}
	return hits
}

// TestForget proves by the raw files that nothing is left of a conversation
// that was forgotten, wherever badger had put it.
func TestForget(t *testing.T) {
	const state, id = "Quittenbrot-4711", "thread-of-Mrs-X"
	dir := t.TempDir()
	b := mustOpen(t, dir, store.Options{})
	w := b.In("T")
	c := store.Conversation{ID: id}
	talk := func() {
		t.Helper()
		for range 3 {
			var err error
			// Short and long, so that small and large values are looked at.
			c.State = json.RawMessage(`"` + strings.Repeat(state+" ", 1+c.Revision%2*10000) + `"`)
			c, err = w.SaveConversation(ctx, c)
			ok(t, err)
		}
	}
	filler := json.RawMessage(`"` + strings.Repeat("x", store.MaxConversation-2) + `"`)
	fill := func(name string) { // enough to have the memory written to tables
		t.Helper()
		for i := range 40 {
			o := store.Conversation{ID: name + string(rune('A'+i)), State: filler}
			_, err := w.SaveConversation(ctx, o)
			ok(t, err)
		}
	}
	talk()
	fill("a")
	talk()
	ok(t, b.Close())
	b = mustOpen(t, dir, store.Options{})
	w = b.In("T")
	fill("b")
	talk()

	for _, text := range []string{state, id} {
		if hits := grep(t, dir, text); len(hits) < 2 {
			t.Fatalf("%q should be in tables and in the log before: %q", text, hits)
		}
	}
	ok(t, w.ForgetConversation(ctx, id))
	for _, when := range []string{"open", "closed", "open again"} {
		switch when {
		case "closed":
			ok(t, b.Close())
		case "open again":
			b = mustOpen(t, dir, store.Options{})
		}
		for _, text := range []string{state, id} {
			if hits := grep(t, dir, text); len(hits) > 0 {
				t.Errorf("%s: %q is still in %q", when, text, hits)
			}
		}
	}
	w = b.In("T")
	if _, err := w.Conversation(ctx, id); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("conversation: %v", err)
	}
	if got, err := w.Conversation(ctx, "aA"); err != nil || len(got.State) != len(filler) {
		t.Errorf("another conversation: %v", err)
	}
	clean(t, b)
}

// TestTidy lets time pass until things are removed, and looks at the raw files.
func TestTidy(t *testing.T) {
	now := time.Now()
	dir := t.TempDir()
	b := mustOpen(t, dir, store.Options{Now: func() time.Time { return now }, Housekeeping: -1})
	w := b.In("T")
	const text = "Quittenbrot-4711"
	_, err := w.SaveConversation(ctx, store.Conversation{ID: "old", State: json.RawMessage(`"` + text + `"`)})
	ok(t, err)
	dead, live := recipe("dead"), save(t, w, "live")
	dead.Versions[0].Text = text
	dead, err = w.SaveRecipe(ctx, dead, "Ann")
	ok(t, err)
	ok(t, w.DeleteRecipe(ctx, dead.ID, dead.Revision, "Ann"))
	_, err = w.SeeEvent(ctx, "event")
	ok(t, err)

	now = now.Add(store.KeepDeleted - time.Minute)
	ok(t, b.Tidy(ctx))
	if r := clean(t, b); r.Deleted != 1 || r.Conversations != 1 {
		t.Errorf("too early: %+v", r)
	}
	now = now.Add(2 * time.Minute)
	// Known to the store still, but out of reach: it must not be put on top.
	again := dead
	again.Revision = 0
	_, err = w.SaveRecipe(ctx, again, "Ann")
	wantError(t, err, store.ErrExists, dead.ID)
	ok(t, b.Tidy(ctx))
	if r := clean(t, b); r.Deleted != 0 || r.Conversations != 1 || r.Recipes != 1 {
		t.Errorf("after 30 days: %+v", r)
	}
	now = now.Add(store.KeepConversation)
	ok(t, b.Tidy(ctx))
	r := clean(t, b)
	if r.Conversations != 0 || r.Recipes != 1 || r.Versions != 1 {
		t.Errorf("after 90 days: %+v", r)
	}
	if hits := grep(t, dir, text); len(hits) > 0 {
		t.Errorf("still in %q", hits)
	}
	if _, err := w.Recipe(ctx, live.ID); err != nil {
		t.Error(err)
	}
}

// TestHousekeeping sees to it that Tidy runs by itself and stops at Close.
func TestHousekeeping(t *testing.T) {
	b := mustOpen(t, t.TempDir(), store.Options{Housekeeping: time.Millisecond, Keep: time.Nanosecond})
	_, err := b.In("T").SaveConversation(ctx, store.Conversation{ID: "c", State: json.RawMessage(`1`)})
	ok(t, err)
	for range 200 {
		time.Sleep(5 * time.Millisecond)
		r, err := b.Check(ctx, nil)
		ok(t, err)
		if r.Conversations == 0 {
			ok(t, b.Close())
			return
		}
	}
	t.Error("an expired conversation is still there")
}
