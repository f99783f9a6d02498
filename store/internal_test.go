package store

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestMigrate(t *testing.T) {
	dir := t.TempDir()
	o := Options{Housekeeping: -1}.withDefaults()
	runs := 0
	steps := append(slices.Clone(migrations), migration{what: "test", run: func(t *tx) error {
		runs++
		return t.Set(areaOf("T").key(kindSetting, "a"), []byte(`{"value":"b"}`))
	}})
	reopen := func(steps []migration) error {
		t.Helper()
		b, err := open(dir, o, steps)
		if err != nil {
			return err
		}
		return b.Close()
	}
	ok := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	ok(reopen(migrations))
	failing := append(slices.Clone(steps), migration{what: "failing", run: func(t *tx) error {
		_ = t.Set(areaOf("T").key(kindSetting, "x"), []byte(`{}`))
		return errors.New("no")
	}})
	if err := reopen(failing); err == nil || !strings.Contains(err.Error(), "migrate store to schema 5 (failing): ") {
		t.Errorf("failing: %v", err)
	}
	ok(reopen(steps)) // the second step is done, the third left nothing
	ok(reopen(steps))
	if runs != 1 {
		t.Errorf("the migration ran %d times", runs)
	}
	b, err := open(dir, o, steps)
	ok(err)
	got, err := b.In("T").Settings(ctxAlways)
	ok(err)
	if len(got) != 1 || got["a"] != "b" {
		t.Errorf("settings: %v", got)
	}
	ok(b.Close())
	if err := reopen(migrations); !errors.Is(err, ErrNewerStore) || !strings.Contains(Message(err), "schema 4, this one knows 3") {
		t.Errorf("newer store: %v", err)
	}
	ok(reopen(steps)) // the refusal changed nothing
}

// TestOlderEvent reads an event that was recorded before events had payloads.
func TestOlderEvent(t *testing.T) {
	dir := t.TempDir()
	o := Options{Housekeeping: -1}.withDefaults()
	old, err := open(dir, o, migrations[:1])
	if err != nil {
		t.Fatal(err)
	}
	for id, done := range map[string]bool{"seen": false, "seen 2": false, "done": true} {
		err := old.update(ctxAlways, func(t *tx) error {
			return t.Set(areaOf("T").key(kindEvent, id), eventValue(t.now, done))
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := old.Close(); err != nil {
		t.Fatal(err)
	}
	b, err := Open(dir, o)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	w := b.In("T")
	for id, want := range map[string]EventState{"seen": EventSeen, "seen 2": EventSeen, "done": EventDone, "none": EventNew} {
		if got, err := w.SeeEvent(ctxAlways, id); err != nil || got != want {
			t.Errorf("%s: %v, %v; want %v", id, got, err, want)
		}
	}
	if list, err := w.UnfinishedEvents(ctxAlways); err != nil || len(list) != 0 {
		t.Errorf("unfinished: %v, %v", list, err)
	}
	if got, err := w.KeepEvent(ctxAlways, Event{ID: "seen", Conversation: "c", Payload: []byte("1")}); err != nil || got != EventSeen {
		t.Errorf("kept: %v, %v", got, err)
	}
	if list, err := w.UnfinishedEvents(ctxAlways); err != nil || len(list) != 1 {
		t.Errorf("unfinished: %v, %v", list, err)
	}
	for _, id := range []string{"seen", "seen 2"} {
		if err := w.FinishEvent(ctxAlways, id); err != nil {
			t.Error(err)
		}
	}
	if r, err := b.Check(ctxAlways, nil); err != nil || r.Schema != 3 || len(r.Faults) > 0 {
		t.Errorf("check: %+v, %v", r, err)
	}
}

func TestDiskFull(t *testing.T) {
	b, err := Open(t.TempDir(), Options{Housekeeping: -1})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	w := b.In("T")
	free := int64(1 << 20)
	b.free = func(string) (int64, error) { return free, nil }
	if err := w.SetSetting(ctxAlways, "a", "b", "Ann"); !errors.Is(err, ErrNoSpace) || !strings.Contains(Message(err), "nothing was written") {
		t.Errorf("set: %v", err)
	}
	if err := w.ForgetConversation(ctxAlways, "c"); !errors.Is(err, ErrNoSpace) {
		t.Errorf("forget: %v", err)
	}
	if s, err := w.Settings(ctxAlways); err != nil || len(s) != 0 {
		t.Errorf("reading on a full disk: %v %v", s, err)
	}
	free = 1 << 40
	if err := w.SetSetting(ctxAlways, "a", "b", "Ann"); err != nil {
		t.Errorf("with room again: %v", err)
	}
}

func TestOrdered(t *testing.T) {
	list := []float64{math.Inf(-1), -1e300, -2, -1.5, -1e-300, 0, 1e-300, 0.1, 0.2, 1, 1.5, 400, 400.1, 1e300, math.Inf(1)}
	for i := 1; i < len(list); i++ {
		if ordered(list[i-1]) >= ordered(list[i]) {
			t.Errorf("%v and %v are in the wrong order", list[i-1], list[i])
		}
	}
	if ordered(math.Copysign(0, -1)) != ordered(0) {
		t.Error("-0 is not 0")
	}
}

func TestKeys(t *testing.T) {
	names := []string{"", "a", "ab", "a\x00", "\x01a", "b"}
	for _, x := range names {
		for _, y := range names {
			if x == y {
				continue
			}
			if strings.HasPrefix(string(areaOf(x)), string(areaOf(y))) {
				t.Errorf("the area of %q begins with that of %q", x, y)
			}
			a := areaOf("T")
			if strings.HasPrefix(string(a.conversation(kindState, x)), string(a.conversation(kindState, y))) {
				t.Errorf("the key of conversation %q begins with that of %q", x, y)
			}
		}
		if got, ok := workspaceOf(areaOf(x).key('r', "abc")); !ok || got != x {
			t.Errorf("workspaceOf: %q, want %q", got, x)
		}
	}
	if got := string(after([]byte("a\xff\xff"))); got != "b" {
		t.Errorf("after: %q", got)
	}
	for range 100 {
		if id := newID(); !validID(id) {
			t.Errorf("id %q", id)
		}
	}
}

// TestCheckFindsFaults breaks a store in every way that Check knows.
func TestCheckFindsFaults(t *testing.T) {
	a := areaOf("T")
	for name, c := range map[string]struct {
		do   func(*tx, Recipe) error
		want string
	}{
		"version lost": {func(t *tx, r Recipe) error { return t.Delete(a.key(kindVersion, r.ID, uint32(1))) }, "version 1 of recipe"},
		"head lost":    {func(t *tx, r Recipe) error { return t.Delete(a.key(kindRecipe, r.ID)) }, "version without recipe"},
		"name lost":    {func(t *tx, r Recipe) error { return t.Delete(a.key(kindName, "soup")) }, "lacks an index key of kind 'N'"},
		"stray figure": {func(t *tx, r Recipe) error { return t.Set(append(a.figure("K", false), a.floatID(1, r.ID)...), nil) }, "kind 'F' leads to"},
		"stray tag":    {func(t *tx, r Recipe) error { return t.Set(a.key(kindTag, "x", byte(0), newID()), nil) }, "kind 'T' leads to"},
		"no expiry":    {func(t *tx, r Recipe) error { return t.Delete(a.conversation(kindExpiry, "c")) }, "without expiry"},
		"no state":     {func(t *tx, r Recipe) error { return t.Delete(a.conversation(kindState, "c")) }, "without conversation"},
		"bad head":     {func(t *tx, r Recipe) error { return t.Set(a.key(kindRecipe, r.ID), []byte("{")) }, "is damaged"},
		"bad food":     {func(t *tx, r Recipe) error { return t.Set(a.key(kindFood, "x"), []byte("{")) }, "record of kind 'f'"},
		"strange key":  {func(t *tx, r Recipe) error { return t.Set(a.key('?', "x"), nil) }, "unknown kind"},
		"not in 'D'": {func(t *tx, r Recipe) error {
			r.DeletedAt = time.Unix(1, 0)
			return t.write(a.key(kindRecipe, r.ID), r.RecipeHead)
		}, "not listed"},
		"bad mark": {func(t *tx, r Recipe) error {
			return t.Set(a.key(kindMark, talkOf("other"), nameOf("mark")), append(make([]byte, 9), "\x01c"...))
		}, "a mark of a conversation is damaged"},
		"cut off mark":  {func(t *tx, r Recipe) error { return t.Set(a.key(kindMark, talkOf("c"), nameOf("mark")), []byte("x")) }, "a mark of a conversation is damaged"},
		"no mark name":  {func(t *tx, r Recipe) error { return t.Delete(a.key(kindMarkName, nameOf("mark"))) }, "a mark without name"},
		"bad mark name": {func(t *tx, r Recipe) error { return t.Set(a.key(kindMarkName, nameOf("x")), nil) }, "name of a mark"},
		"bad access":    {func(t *tx, r Recipe) error { return t.Set(a.key(kindAccess), []byte("{")) }, "access to a workspace"},
		"no seal":       {func(t *tx, r Recipe) error { return t.Set(a.key(kindAccess), []byte("{}")) }, "access to a workspace"},
		"bad leaving":   {func(t *tx, r Recipe) error { return t.Set(a.key(kindLeft), []byte("x")) }, "when a workspace left"},
		"cut off state": {func(t *tx, r Recipe) error { return t.Set(a.conversation(kindState, "c"), []byte("x")) }, "state of a conversation"},
	} {
		t.Run(name, func(t *testing.T) {
			b, err := OpenMemory(Options{})
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			w := b.In("T")
			r, err := w.SaveRecipe(ctxAlways, Recipe{RecipeHead: RecipeHead{Name: "soup", Tags: []string{"tag"}, Figures: map[string]Figure{"NA": {Value: 1}}},
				Versions: []RecipeVersion{{Text: "x"}}}, "Ann")
			if err != nil {
				t.Fatal(err)
			}
			if _, err := w.SaveConversation(ctxAlways, Conversation{ID: "c", State: []byte("1")}); err != nil {
				t.Fatal(err)
			}
			if err := w.SetMark(ctxAlways, Mark{Conversation: "c", Name: "mark", Value: "x"}); err != nil {
				t.Fatal(err)
			}
			if rep, err := b.Check(ctxAlways, nil); err != nil || len(rep.Faults) > 0 || rep.Recipes != 1 || rep.Marks != 1 {
				t.Fatalf("before: %+v %v", rep, err)
			}
			if err := b.update(ctxAlways, func(t *tx) error { return c.do(t, r) }); err != nil {
				t.Fatal(err)
			}
			rep, err := b.Check(ctxAlways, nil)
			if err != nil || !strings.Contains(strings.Join(rep.Faults, "; "), c.want) {
				t.Errorf("faults %q, %v; want %q", rep.Faults, err, c.want)
			}
		})
	}
}

// TestDamageLarge has the checksums looked at beside the first calls. Whatever
// those meet, no answer may be given once the damage is known, and none that is
// a panic before.
func TestDamageLarge(t *testing.T) {
	defer func(n int64) { verifyUpTo = n }(verifyUpTo)
	verifyUpTo = 0
	for at := 1; at < 10; at++ {
		dir := t.TempDir()
		b, err := Open(dir, Options{Housekeeping: -1})
		if err != nil {
			t.Fatal(err)
		}
		if err := fill(b, "T", 500); err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		tables, _ := filepath.Glob(filepath.Join(dir, "*.sst"))
		data, err := os.ReadFile(tables[0])
		if err != nil {
			t.Fatal(err)
		}
		data[len(data)/10*at] ^= 0xff
		if err := os.WriteFile(tables[0], data, 0o600); err != nil {
			t.Fatal(err)
		}
		b, err = Open(dir, Options{Housekeeping: -1})
		// Before it is known, a recipe may seem never to have been there.
		for i := 0; b != nil && !errors.Is(err, ErrCorrupt) && i < 1000; i++ {
			if _, err = b.In("T").FindRecipes(ctxAlways, Query{Words: "soup"}); err == nil {
				time.Sleep(time.Millisecond)
			}
		}
		if !errors.Is(err, ErrCorrupt) {
			t.Errorf("the damage was not told: %v", err)
		}
		if b != nil {
			_ = b.Close()
		}
	}
}

// TestPanic sees to it that a caller's panic is passed on as it is.
func TestPanic(t *testing.T) {
	b, err := Open(t.TempDir(), Options{Housekeeping: -1})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	w := b.In("T")
	if _, err := w.SaveRecipe(ctxAlways, benchRecipe(1, rand.New(rand.NewPCG(1, 1))), "Ann"); err != nil {
		t.Fatal(err)
	}
	defer func() {
		if p := recover(); p != "mine" {
			t.Errorf("recovered %v", p)
		}
		if _, err := w.FindRecipes(ctxAlways, Query{}); err != nil {
			t.Error(err)
		}
	}()
	_ = w.EachRecipe(ctxAlways, func(Recipe) error { panic("mine") })
}

// TestOptions holds what promises rest on and no test can see.
func TestOptions(t *testing.T) {
	o := Options{}.badger("x")
	if !o.SyncWrites {
		t.Error("writes are not on the disk when they return")
	}
	if !o.DetectConflicts {
		t.Error("two writers of one key are not told")
	}
	if largest := int64(6 * MaxText); o.ValueThreshold <= MaxConversation+8 || o.ValueThreshold <= largest {
		t.Errorf("values above %d go to the value log, where forgetting does not reach", o.ValueThreshold)
	}
}

// TestTidyLeavesTheLiving gives a recipe that is not deleted the mark of one.
func TestTidyLeavesTheLiving(t *testing.T) {
	b, err := OpenMemory(Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	w := b.In("T")
	r, err := w.SaveRecipe(ctxAlways, benchRecipe(1, rand.New(rand.NewPCG(1, 1))), "Ann")
	if err != nil {
		t.Fatal(err)
	}
	mark := areaOf("T").key(kindDeleted, time.Unix(1, 0), r.ID)
	if err := b.update(ctxAlways, func(t *tx) error { return t.Set(mark, nil) }); err != nil {
		t.Fatal(err)
	}
	if err := b.Tidy(ctxAlways); err != nil {
		t.Fatal(err)
	}
	if _, err := w.Recipe(ctxAlways, r.ID); err != nil {
		t.Error(err)
	}
	if list, err := w.DeletedRecipes(ctxAlways); err != nil || len(list) > 0 {
		t.Errorf("deleted: %v %v", list, err)
	}
}

// TestRestoreInterrupted opens a store whose restore never came to its end.
func TestRestoreInterrupted(t *testing.T) {
	dir := t.TempDir()
	b, err := Open(dir, Options{Housekeeping: -1})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.In("T").SetSetting(ctxAlways, "a", "b", "Ann"); err != nil {
		t.Fatal(err)
	}
	if err := b.update(ctxAlways, func(t *tx) error { return t.Delete(keySchema) }); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(dir, Options{}); !errors.Is(err, ErrCorrupt) || !strings.Contains(Message(err), "restore into") {
		t.Errorf("opened with %v", err)
	}
}
