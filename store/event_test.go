package store_test

import (
	"bytes"
	"testing"
	"time"

	"pottle/store"
)

// TestPayloadForgotten looks at the raw files: payloads are gone after their
// conversation was forgotten, finished or not, and a while after they were
// finished.
func TestPayloadForgotten(t *testing.T) {
	const text, talk = "Quittenbrot-4711", "thread-of-Mrs-X"
	dir := t.TempDir()
	b := mustOpen(t, dir, store.Options{Housekeeping: -1})
	keep := func(id, conversation, payload string) {
		t.Helper()
		_, err := b.In("T").KeepEvent(ctx, store.Event{ID: id, Conversation: conversation, Payload: []byte(payload)})
		ok(t, err)
	}
	gone := func(when string) {
		t.Helper()
		for _, s := range []string{text, talk} {
			if hits := grep(t, dir, s); len(hits) > 0 {
				t.Errorf("%s: %q is still in %q", when, s, hits)
			}
		}
	}
	keep("E1", talk, text+" 1")
	ok(t, b.In("T").FinishEvent(ctx, "E1"))
	ok(t, b.Close()) // into a table
	b = mustOpen(t, dir, store.Options{Housekeeping: -1})
	keep("E2", talk, text+" 2") // asks to forget
	keep("E3", talk, text+" 3")
	keep("E10", "other", "other")
	if hits := grep(t, dir, text); len(hits) < 2 {
		t.Fatalf("%q should be in a table and in the log before: %q", text, hits)
	}
	ok(t, b.In("T").ForgetConversation(ctx, talk))
	gone("forgotten")
	ok(t, b.In("T").FinishEvent(ctx, "E2"))
	ok(t, b.Close())
	gone("closed")

	b = mustOpen(t, dir, store.Options{Housekeeping: -1})
	keep("E4", "one", text)
	keep("E1"+"0x", "one", "kept")
	ok(t, b.In("T").FinishEvent(ctx, "E4"))
	ok(t, b.Tidy(ctx))
	gone("tidied")
	if list, err := b.In("T").UnfinishedEvents(ctx); err != nil || len(list) != 2 {
		t.Errorf("left unfinished: %v, %v", list, err)
	}
	ok(t, b.In("T").FinishEvent(ctx, "E10"))
	ok(t, b.In("T").FinishEvent(ctx, "E10x"))
	ok(t, b.Tidy(ctx))
	clean(t, b)
	ok(t, b.Close())
	for _, s := range []string{"other", "kept"} {
		if hits := grep(t, dir, s); len(hits) > 0 {
			t.Errorf("all tidied: %q is still in %q", s, hits)
		}
	}
}

// TestPayloadOld: a payload that nobody finishes goes after a day.
func TestPayloadOld(t *testing.T) {
	now, dir := time.Now(), t.TempDir()
	b := mustOpen(t, dir, store.Options{Now: func() time.Time { return now }, Housekeeping: -1})
	_, err := b.In("T").KeepEvent(ctx, store.Event{ID: "E1", Conversation: "c", Payload: []byte("Quittenbrot")})
	ok(t, err)
	now = now.Add(store.KeepEvent)
	ok(t, b.Tidy(ctx))
	if hits := grep(t, dir, "Quittenbrot"); len(hits) > 0 {
		t.Errorf("still in %q", hits)
	}
}

// TestPayloadKept: an encrypted store keeps a payload over a restart and shows
// none of it in its files; a backup has none.
func TestPayloadKept(t *testing.T) {
	key, err := store.NewKey()
	ok(t, err)
	for _, o := range []store.Options{{}, {Key: key}} {
		dir := t.TempDir()
		b := mustOpen(t, dir, o)
		_, err := b.In("T").KeepEvent(ctx, store.Event{ID: "E1", Conversation: "c", Payload: []byte("Quittenbrot")})
		ok(t, err)
		ok(t, b.Close())
		if hits := grep(t, dir, "Quittenbrot"); o.Key != nil && len(hits) > 0 {
			t.Errorf("plain text in %q", hits)
		}
		b = mustOpen(t, dir, o)
		if list, err := b.In("T").UnfinishedEvents(ctx); err != nil || len(list) != 1 || string(list[0].Payload) != "Quittenbrot" {
			t.Errorf("unfinished: %v, %v", list, err)
		}
		clean(t, b)
		saved := backup(t, b)
		if bytes.Contains(saved, []byte("Quittenbrot")) {
			t.Error("the backup holds a payload")
		}
		other := mustOpen(t, "", o)
		ok(t, other.Restore(ctx, bytes.NewReader(saved), nil, nil))
		if state, err := other.In("T").SeeEvent(ctx, "E1"); err != nil || state != store.EventSeen {
			t.Errorf("restored: %v, %v", state, err)
		}
		if list, err := other.In("T").UnfinishedEvents(ctx); err != nil || len(list) != 0 {
			t.Errorf("restored as unfinished: %v, %v", list, err)
		}
		ok(t, other.In("T").FinishEvent(ctx, "E1"))
		clean(t, other)
	}
}
