package storetest

import (
	"strings"
	"testing"
	"time"

	"pottle/store"
)

// marked gives a mark as "CONVERSATION=VALUE", or "" if there is none.
func marked(t *testing.T, w store.Workspace, name string) string {
	t.Helper()
	m, err := w.Mark(ctx, name)
	if err != nil {
		wantError(t, err, store.ErrNotFound, "no such mark")
		equal(t, "mark beside an error", m, store.Mark{})
		return ""
	}
	equal(t, "name", m.Name, name)
	return m.Conversation + "=" + m.Value
}

func marks(t *testing.T, f *fixture) {
	set := func(talk, name, value string) {
		t.Helper()
		ok(t, f.w.SetMark(ctx, store.Mark{Conversation: talk, Name: name, Value: value}))
	}
	equal(t, "none", marked(t, f.w, "last"), "")
	set("a", "last", "1")
	set("a", "first", "")
	set("ab", "last\x00", "2")
	equal(t, "first of another workspace", marked(t, f.s.In("T10"), "last"), "")
	equal(t, "set", marked(t, f.w, "last"), "a=1")
	equal(t, "empty", marked(t, f.w, "first"), "a=")
	equal(t, "begins as another", marked(t, f.w, "last\x00"), "ab=2")
	set("a", "last", "3")
	equal(t, "replaced", marked(t, f.w, "last"), "a=3")
	set("b", "last", "4")
	equal(t, "of another conversation", marked(t, f.w, "last"), "b=4")
	set("a", "last", "5")
	equal(t, "and back", marked(t, f.w, "last"), "a=5")
	set("b", "last", "6")

	ok(t, f.w.ForgetConversation(ctx, "a"))
	equal(t, "not of the conversation that was forgotten", marked(t, f.w, "last"), "b=6")
	equal(t, "of it", marked(t, f.w, "first"), "")
	equal(t, "of one that begins as it does", marked(t, f.w, "last\x00"), "ab=2")
	ok(t, f.w.ForgetConversation(ctx, "b"))
	equal(t, "forgotten", marked(t, f.w, "last"), "")
	set("c", "last", "7")
	equal(t, "anew", marked(t, f.w, "last"), "c=7")

	f.pass(store.KeepMark - time.Second)
	set("c", "young", "8")
	equal(t, "nearly too old", marked(t, f.w, "last"), "c=7")
	f.pass(time.Second)
	equal(t, "too old", marked(t, f.w, "last"), "")
	equal(t, "not too old", marked(t, f.w, "young"), "c=8")
	set("c", "last", "9")
	equal(t, "set again", marked(t, f.w, "last"), "c=9")
}

func markLimits(t *testing.T, f *fixture) {
	long := strings.Repeat("x", store.MaxID)
	m := store.Mark{Conversation: long, Name: long, Value: strings.Repeat("y", store.MaxMark)}
	ok(t, f.w.SetMark(ctx, m))
	equal(t, "the longest", must[store.Mark](t)(f.w.Mark(ctx, long)), m)
	for part, m := range map[string]store.Mark{
		"id of a conversation": {Name: "n"},
		"name of a mark":       {Conversation: "c"},
		"conversation":         {Conversation: long + "x", Name: "n"},
		"name":                 {Conversation: "c", Name: long + "x"},
	} {
		wantError(t, f.w.SetMark(ctx, m), store.ErrInvalid, part)
	}
	wantError(t, f.w.SetMark(ctx, store.Mark{Conversation: "c", Name: "n", Value: m.Value + "y"}), store.ErrTooLarge, "mark")
	equal(t, "refused", marked(t, f.w, "n"), "")
	for _, name := range []string{"", long + "x"} {
		wantError(t, second(f.w.Mark(ctx, name)), store.ErrInvalid, "name of a mark")
	}
	wantError(t, f.s.In("").SetMark(ctx, m), store.ErrInvalid, "workspace")
	wantError(t, second(f.s.In("").Mark(ctx, "n")), store.ErrInvalid, "workspace")
}
