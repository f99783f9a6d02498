package store_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

// newKey makes a key by chance.
func newKey(t testing.TB) *store.Key {
	t.Helper()
	key, err := store.NewKey()
	ok(t, err)
	return key
}

// token is the workspace's token, or the code of the error.
func token(t testing.TB, b *store.Badger, workspace string) string {
	t.Helper()
	a, err := b.In(workspace).Access(ctx)
	if err != nil {
		return store.Code(err)
	}
	return string(a.Token)
}

func grant(t testing.TB, b *store.Badger, workspace, token string) {
	t.Helper()
	ok(t, b.In(workspace).Grant(ctx, store.Access{Token: store.Secret(token), User: "U1", Name: "Clinic"}))
}

// TestSecretHidden shows an access in every way that a careless line might.
func TestSecretHidden(t *testing.T) {
	const secret = "xoxb-4711"
	a := store.Access{Token: secret, User: "U1"}
	var all []string
	for _, v := range []any{a, &a, a.Token, &a.Token, []store.Access{a}, map[string]store.Access{"a": a}, struct{ A store.Access }{a}, fmt.Errorf("%v %w", a, errors.New("x"))} {
		for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x", "%X", "%d", "%t", "%10.3f", "%U"} {
			all = append(all, fmt.Sprintf(verb, v))
		}
		all = append(all, fmt.Sprint(v), fmt.Sprintln(v))
		encoded, err := json.Marshal(v)
		ok(t, err)
		all = append(all, string(encoded))
		var log bytes.Buffer
		slog.New(slog.NewTextHandler(&log, nil)).Info("x", "v", v)
		slog.New(slog.NewJSONHandler(&log, nil)).Info("x", "v", v)
		all = append(all, log.String())
	}
	for _, text := range all {
		for _, form := range []string{secret, fmt.Sprintf("%x", secret), fmt.Sprintf("%X", secret), "120 111 120 98"} {
			if strings.Contains(text, form) {
				t.Errorf("the token is shown in %q", text)
			}
		}
	}
	if got := fmt.Sprintf("%v", a); !strings.Contains(got, "(secret) U1") {
		t.Errorf("shown: %s", got)
	}
	if string(a.Token) != secret {
		t.Error("the conversion does not give the token")
	}
}

func TestAccessNeedsKey(t *testing.T) {
	for name, dir := range map[string]string{"Memory": "", "Disk": t.TempDir()} {
		t.Run(name, func(t *testing.T) {
			b := mustOpen(t, dir, store.Options{})
			err := b.In("T").Grant(ctx, store.Access{Token: "xoxb-4711", User: "U1"})
			wantError(t, err, store.ErrKey, "no key")
			if strings.Contains(err.Error(), "4711") {
				t.Errorf("the error tells the token: %v", err)
			}
			if r := clean(t, b); r.Keys != 0 {
				t.Errorf("something was kept: %+v", r)
			}
		})
	}
	b := mustOpen(t, "", store.Options{Key: newKey(t)})
	err := b.In("T").Grant(ctx, store.Access{Token: "xoxb-4711", User: strings.Repeat("U", store.MaxName+1)})
	wantError(t, err, store.ErrInvalid, "user")
	if strings.Contains(err.Error(), "4711") {
		t.Errorf("the error tells the token: %v", err)
	}
}

// TestAccessKept: an access is there after a restart.
func TestAccessKept(t *testing.T) {
	dir, o := t.TempDir(), store.Options{Key: newKey(t)}
	b := mustOpen(t, dir, o)
	grant(t, b, "T", "xoxb-4711")
	ok(t, b.Close())
	b = mustOpen(t, dir, o)
	if got := token(t, b, "T"); got != "xoxb-4711" {
		t.Errorf("token %q", got)
	}
	if r := clean(t, b); r.Accesses != 1 || r.Left != 0 || r.Workspaces != 1 {
		t.Errorf("report %+v", r)
	}
	ok(t, b.In("T").Withdraw(ctx))
	if r := clean(t, b); r.Accesses != 0 || r.Left != 1 || r.Keys != 1 {
		t.Errorf("report after the withdrawal: %+v", r)
	}
}

// TestRotateTokens: the tokens are opened by whichever key opens the store.
func TestRotateTokens(t *testing.T) {
	dir, old, next := t.TempDir(), newKey(t), newKey(t)
	b := mustOpen(t, dir, store.Options{Key: old})
	for i := range 3 {
		grant(t, b, fmt.Sprint("T", i), fmt.Sprint("xoxb-", i))
	}
	ok(t, b.In("T2").Withdraw(ctx))
	save(t, b.In("T3"), "soup") // without an access
	ok(t, b.Close())

	wantError(t, store.RotateKey(dir, next, old), store.ErrKey, "old key")
	for _, keys := range [][2]*store.Key{{old, next}, {next, old}, {old, newKey(t)}} {
		ok(t, store.RotateKey(dir, keys[0], keys[1]))
		_, err := store.Open(dir, store.Options{Key: keys[0]})
		wantError(t, err, store.ErrKey, "does not open")
		b := mustOpen(t, dir, store.Options{Key: keys[1]})
		for i, want := range []string{"xoxb-0", "xoxb-1", "not found", "not found"} {
			if got := token(t, b, fmt.Sprint("T", i)); got != want {
				t.Errorf("token of T%d is %q, want %q", i, got, want)
			}
		}
		if r := clean(t, b); r.Accesses != 2 || r.Left != 1 || r.Recipes != 1 {
			t.Errorf("report %+v", r)
		}
		ok(t, b.Close())
	}
}

func TestAccessBackup(t *testing.T) {
	key, other := newKey(t), newKey(t)
	from := filled(t, store.Options{Key: key})
	grant(t, from, "T1", "xoxb-4711")
	ok(t, from.In("T2").SetMark(ctx, store.Mark{Conversation: "c", Name: "n", Value: "v"}))
	ok(t, from.In("T2").Withdraw(ctx))
	sealed := backup(t, from)
	if bytes.Contains(sealed, []byte("xoxb")) || bytes.Contains(sealed, []byte("Clinic")) {
		t.Error("the backup is in plain text")
	}
	for name, c := range map[string]struct {
		key  *store.Key
		want string
	}{
		"SameKey": {key, "xoxb-4711"}, "ErrKey": {other, "key"}, "NoKey": {nil, "not found"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			to := mustOpen(t, dir, store.Options{Key: c.key, Housekeeping: -1})
			ok(t, to.Restore(ctx, bytes.NewReader(sealed), key, nil))
			if got := token(t, to, "T1"); got != c.want {
				t.Errorf("token %q, want %q", got, c.want)
			}
			if c.key == other {
				_, err := to.In("T1").Access(ctx)
				wantError(t, err, store.ErrKey, "install again")
			}
			r := clean(t, to)
			if want := map[bool]int{true: 0, false: 1}[c.key == nil]; r.Recipes != 38 || r.Marks != 1 || r.Left != 1 || r.Accesses != want {
				t.Errorf("restored %+v", r)
			}
			if left, err := to.In("T2").Left(ctx); err != nil || left.IsZero() {
				t.Errorf("left %v, %v", left, err)
			}
			if m, err := to.In("T2").Mark(ctx, "n"); err != nil || m.Value != "v" {
				t.Errorf("mark %v, %v", m, err)
			}
			if c.key == nil { // neither its files nor its backups may hold an access
				ok(t, to.Close())
				if hits := grep(t, dir, "Clinic"); len(hits) > 0 {
					t.Errorf("an access without a key in %q", hits)
				}
				to = mustOpen(t, dir, store.Options{Housekeeping: -1})
				if bytes.Contains(backup(t, to), []byte("Clinic")) {
					t.Error("an access in a backup without a key")
				}
				return
			}
			ok(t, to.Close())
			// One that it does not open is no hindrance to a change of the key.
			third := newKey(t)
			ok(t, store.RotateKey(dir, c.key, third))
			to = mustOpen(t, dir, store.Options{Key: third, Housekeeping: -1})
			if got := token(t, to, "T1"); got != c.want {
				t.Errorf("token after the change of the key %q, want %q", got, c.want)
			}
			clean(t, to)
			grant(t, to, "T1", "xoxb-new")
			if got := token(t, to, "T1"); got != "xoxb-new" {
				t.Errorf("token after a new installation %q", got)
			}
			ok(t, to.In("T1").Withdraw(ctx))
			clean(t, to)
		})
	}
}

// TestLeft lets a workspace leave and looks at the raw files: all of it is gone
// when it had its time, what was deleted in it and its name too, and nothing of
// another.
func TestLeft(t *testing.T) {
	const name, text = "TEAM-OF-MRS-X", "Quittenbrot-4711"
	now := time.Now()
	dir := t.TempDir()
	o := store.Options{Now: func() time.Time { return now }, Housekeeping: -1}
	b := mustOpen(t, dir, o)
	fill := func() {
		t.Helper()
		w := b.In(name)
		ok(t, w.SetSetting(ctx, text, text, "Ann"))
		ok(t, w.SetSetting(ctx, text, "", "Ann")) // a key without a live one of its kind
		r, err := w.RecipeNamed(ctx, "soup")
		if err != nil {
			r = recipe("soup")
		}
		r.Versions = append(r.Versions, store.RecipeVersion{Text: text})
		r.Tags = []string{text}
		r, err = w.SaveRecipe(ctx, r, "Ann")
		ok(t, err)
		r.Tags = nil
		_, err = w.SaveRecipe(ctx, r, "Ann")
		ok(t, err)
		c, _ := w.Conversation(ctx, "c")
		c.ID, c.State = "c", json.RawMessage(`"`+text+`"`)
		_, err = w.SaveConversation(ctx, c)
		ok(t, err)
		ok(t, w.SetMark(ctx, store.Mark{Conversation: text, Name: "n", Value: text}))
		_, err = w.KeepEvent(ctx, store.Event{ID: text, Conversation: "c", Payload: []byte(text)})
		ok(t, err)
	}
	fill()
	for _, other := range []string{"TEAM", name + "2"} {
		save(t, b.In(other), "soup of "+other)
	}
	ok(t, b.Close()) // into a table
	b = mustOpen(t, dir, o)
	fill()
	ok(t, b.In(name).Withdraw(ctx))
	ok(t, b.In(name+"2").Withdraw(ctx))
	for _, s := range []string{name, text} {
		if hits := grep(t, dir, s); len(hits) < 2 {
			t.Fatalf("%q should be in a table and in the log before: %q", s, hits)
		}
	}
	listed := func(want ...string) {
		t.Helper()
		names, err := b.Workspaces(ctx)
		ok(t, err)
		if fmt.Sprint(names) != fmt.Sprint(want) {
			t.Errorf("workspaces %q, want %q", names, want)
		}
	}
	now = now.Add(store.KeepLeft - time.Second)
	ok(t, b.Tidy(ctx))
	listed("TEAM", name, name+"2")
	if _, err := b.In(name).RecipeNamed(ctx, "soup"); err != nil {
		t.Errorf("before its time: %v", err)
	}
	ok(t, b.In(name+"2").Stay(ctx)) // just in time
	now = now.Add(2 * time.Second)
	ok(t, b.Tidy(ctx))
	listed("TEAM", name+"2")
	clean(t, b)
	look := func(when string) {
		t.Helper()
		for _, s := range []string{text, name + "s", name + "r", name + "L", name + "K"} {
			if hits := grep(t, dir, s); len(hits) > 0 {
				t.Errorf("%s: %q is still in %q", when, s, hits)
			}
		}
	}
	look("removed")
	for _, other := range []string{"TEAM", name + "2"} {
		if _, err := b.In(other).RecipeNamed(ctx, "soup of "+other); err != nil {
			t.Errorf("recipe of %s: %v", other, err)
		}
	}
	ok(t, b.In(name+"2").Withdraw(ctx))
	now = now.Add(store.KeepLeft)
	ok(t, b.Tidy(ctx))
	listed("TEAM")
	for _, when := range []string{"open", "closed", "open again"} {
		switch when {
		case "closed":
			ok(t, b.Close())
		case "open again":
			b = mustOpen(t, dir, o)
		}
		look(when)
		if hits := grep(t, dir, name); len(hits) > 0 { // of either
			t.Errorf("%s: the name is still in %q", when, hits)
		}
	}
	fill() // as a new one
	listed("TEAM", name)
	clean(t, b)
}

// TestLeftGrant: an installation one moment before saves the workspace, also
// while the housekeeping runs.
func TestLeftGrant(t *testing.T) {
	now := time.Now()
	b := mustOpen(t, filepath.Join(t.TempDir(), "s"), store.Options{Now: func() time.Time { return now }, Housekeeping: -1, Key: newKey(t)})
	save(t, b.In("T"), "soup")
	ok(t, b.In("T").Withdraw(ctx))
	now = now.Add(store.KeepLeft + time.Hour) // due, and nobody has tidied
	grant(t, b, "T", "xoxb-4711")
	ok(t, b.Tidy(ctx))
	if _, err := b.In("T").RecipeNamed(ctx, "soup"); err != nil || token(t, b, "T") != "xoxb-4711" {
		t.Errorf("after the installation: %v, token %q", err, token(t, b, "T"))
	}
	for range 20 {
		ok(t, b.In("T").Withdraw(ctx))
		now = now.Add(store.KeepLeft)
		done := make(chan error)
		go func() { done <- b.Tidy(ctx) }()
		grant(t, b, "T", "xoxb-4711")
		ok(t, <-done)
		if got := token(t, b, "T"); got != "xoxb-4711" { // removed before or not at all
			t.Fatalf("token %q", got)
		}
		clean(t, b)
	}
}
