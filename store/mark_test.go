package store_test

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"pottle/store"
)

func setMark(t testing.TB, b *store.Badger, conversation, name, value string) {
	t.Helper()
	ok(t, b.In("T").SetMark(ctx, store.Mark{Conversation: conversation, Name: name, Value: value}))
}

// TestMarkForgotten looks at the raw files: nothing is left of the marks of a
// conversation that was forgotten, neither of their names nor of what they said
// before.
func TestMarkForgotten(t *testing.T) {
	const text, talk, channel = "Quittenbrot-4711", "thread-of-Mrs-X", "channel-of-Mrs-Y"
	dir := t.TempDir()
	b := mustOpen(t, dir, store.Options{Housekeeping: -1})
	marks := func() {
		t.Helper()
		setMark(t, b, talk, "answer/"+talk, text)
		setMark(t, b, talk, "last/"+channel, text)
		setMark(t, b, "other", "last/"+channel, "kept") // takes its place
		setMark(t, b, "other", "other", "other")
	}
	marks()
	ok(t, b.Close()) // into a table
	b = mustOpen(t, dir, store.Options{Housekeeping: -1})
	marks()
	for _, s := range []string{text, talk} {
		if hits := grep(t, dir, s); len(hits) < 2 {
			t.Fatalf("%q should be in a table and in the log before: %q", s, hits)
		}
	}
	if hits := grep(t, dir, channel); len(hits) > 0 {
		t.Errorf("the name of a mark is in %q", hits)
	}
	ok(t, b.In("T").ForgetConversation(ctx, talk))
	for _, when := range []string{"open", "tidied", "closed", "open again"} {
		switch when {
		case "tidied":
			ok(t, b.Tidy(ctx))
		case "closed":
			ok(t, b.Close())
		case "open again":
			b = mustOpen(t, dir, store.Options{Housekeeping: -1})
		}
		for _, s := range []string{text, talk, channel} {
			if hits := grep(t, dir, s); len(hits) > 0 {
				t.Errorf("%s: %q is still in %q", when, s, hits)
			}
		}
	}
	if m, err := b.In("T").Mark(ctx, "last/"+channel); err != nil || m.Value != "kept" || m.Conversation != "other" {
		t.Errorf("the mark of another conversation: %+v, %v", m, err)
	}
	if _, err := b.In("T").Mark(ctx, "answer/"+talk); !errors.Is(err, store.ErrNotFound) {
		t.Errorf("the mark of the conversation: %v", err)
	}
	if r := clean(t, b); r.Marks != 2 || r.Keys != 4 {
		t.Errorf("report %+v", r)
	}
}

// TestMarkTidy: what took its place elsewhere and what is old goes from the files.
func TestMarkTidy(t *testing.T) {
	now, dir := time.Now(), t.TempDir()
	b := mustOpen(t, dir, store.Options{Now: func() time.Time { return now }, Housekeeping: -1})
	gone := func(text string, want bool) {
		t.Helper()
		if hits := grep(t, dir, text); len(hits) == 0 != want {
			t.Errorf("%q is in %q", text, hits)
		}
	}
	setMark(t, b, "none", "last", "Pflaumenmus")
	ok(t, b.In("T").ForgetConversation(ctx, "none"))
	setMark(t, b, "one", "last", "Quittenbrot")
	if r := clean(t, b); r.Keys != 2 { // no empty one of the conversation that was forgotten
		t.Errorf("report %+v", r)
	}
	setMark(t, b, "two", "last", "Birnenbrot")
	setMark(t, b, "one", "old", "Pflaumenmus")
	ok(t, b.Tidy(ctx))
	gone("Quittenbrot", true)
	gone("Birnenbrot", false)
	now = now.Add(store.KeepMark - 2*time.Second)
	setMark(t, b, "two", "last", "Birnenbrot") // renewed
	ok(t, b.Tidy(ctx))
	gone("Pflaumenmus", false)
	now = now.Add(2 * time.Second)
	ok(t, b.Tidy(ctx))
	gone("Pflaumenmus", true)
	gone("Birnenbrot", false)
	ok(t, b.Tidy(ctx)) // and the name of what is gone
	if r := clean(t, b); r.Marks != 1 || r.Keys != 2 {
		t.Errorf("report %+v", r)
	}
	now = now.Add(store.KeepMark)
	ok(t, b.Tidy(ctx))
	ok(t, b.Tidy(ctx))
	gone("Birnenbrot", true)
	if names, err := b.Workspaces(ctx); err != nil || len(names) > 0 {
		t.Errorf("workspaces %q, %v", names, err)
	}
}

// TestMarkTidyMany: more marks than one run removes go in several, and do not
// keep others from being removed.
func TestMarkTidyMany(t *testing.T) {
	const many = 600
	now := time.Now()
	b := mustOpen(t, "", store.Options{Now: func() time.Time { return now }, Housekeeping: -1})
	for i := range many {
		setMark(t, b, fmt.Sprint("c", i%7), fmt.Sprint("m", i), "v")
	}
	_, err := b.In("U").SaveConversation(ctx, store.Conversation{ID: "c", State: []byte("1")})
	ok(t, err)
	now = now.Add(store.KeepConversation + time.Second)
	setMark(t, b, "c0", "young", "v")
	ok(t, b.Tidy(ctx))
	if r := clean(t, b); r.Conversations != 0 || r.Marks >= many || r.Marks < 2 {
		t.Errorf("after one run: %+v", r)
	}
	for range 5 {
		ok(t, b.Tidy(ctx))
		clean(t, b)
	}
	if r := clean(t, b); r.Marks != 1 || r.Keys != 2 {
		t.Errorf("after all: %+v", r)
	}
}
