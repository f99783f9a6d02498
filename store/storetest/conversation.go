package storetest

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

func conversations(t *testing.T, f *fixture) {
	_, err := f.w.Conversation(ctx, "c1")
	wantError(t, err, store.ErrNotFound, "conversation")

	state := json.RawMessage(`{"recipe": "a < b",  "n": 1}`)
	c := must[store.Conversation](t)(f.w.SaveConversation(ctx, store.Conversation{ID: "c1", State: state}))
	equal(t, "revision", c.Revision, 1)
	state[2] = 'X' // the caller's own

	got := must[store.Conversation](t)(f.w.Conversation(ctx, "c1"))
	equal(t, "state", string(got.State), `{"recipe": "a < b",  "n": 1}`)
	equal(t, "revision", got.Revision, 1)
	equal(t, "expires", got.Expires, c.Expires)
	got.State[0] = 'X'
	again := must[store.Conversation](t)(f.w.Conversation(ctx, "c1"))
	equal(t, "state after the copy was changed", string(again.State), `{"recipe": "a < b",  "n": 1}`)

	_, err = f.w.SaveConversation(ctx, store.Conversation{ID: "c1", State: json.RawMessage(`1`)})
	wantError(t, err, store.ErrConflict, "meanwhile")
	_, err = f.w.SaveConversation(ctx, store.Conversation{ID: "c2", Revision: 1, State: json.RawMessage(`1`)})
	wantError(t, err, store.ErrConflict, "meanwhile")
	c.State = json.RawMessage(`2`)
	c = must[store.Conversation](t)(f.w.SaveConversation(ctx, c))
	equal(t, "revision", c.Revision, 2)
}

func conversationExpiry(t *testing.T, f *fixture) {
	c := must[store.Conversation](t)(f.w.SaveConversation(ctx, store.Conversation{ID: "c", State: json.RawMessage(`1`)}))
	keep := c.Expires.Sub(f.clock)
	f.pass(keep - time.Minute)
	read := must[store.Conversation](t)(f.w.Conversation(ctx, "c")) // renews
	equal(t, "expiry after reading", read.Expires, f.clock.Add(keep))
	f.pass(keep - time.Minute)
	read = must[store.Conversation](t)(f.w.SaveConversation(ctx, read)) // renews
	equal(t, "expiry after saving", read.Expires, f.clock.Add(keep))
	f.pass(keep)
	_, err := f.w.Conversation(ctx, "c")
	wantError(t, err, store.ErrNotFound, "conversation")
	c = must[store.Conversation](t)(f.w.SaveConversation(ctx, store.Conversation{ID: "c", State: json.RawMessage(`2`)}))
	equal(t, "revision of one begun anew", c.Revision, 1)
}

func conversationLimits(t *testing.T, f *fixture) {
	one := json.RawMessage(`1`)
	for _, id := range []string{"", strings.Repeat("x", store.MaxID+1)} {
		_, err := f.w.SaveConversation(ctx, store.Conversation{ID: id, State: one})
		wantError(t, err, store.ErrInvalid, "id of a conversation")
		_, err = f.w.Conversation(ctx, id)
		wantError(t, err, store.ErrInvalid, "id of a conversation")
	}
	for _, state := range []string{"", "{", "\x00"} {
		_, err := f.w.SaveConversation(ctx, store.Conversation{ID: "c", State: json.RawMessage(state)})
		wantError(t, err, store.ErrInvalid, "not JSON")
	}
	large := json.RawMessage(`"` + strings.Repeat("x", store.MaxConversation-2) + `"`)
	c := must[store.Conversation](t)(f.w.SaveConversation(ctx, store.Conversation{ID: "c", State: large}))
	c.State = append(c.State, ' ')
	_, err := f.w.SaveConversation(ctx, c)
	wantError(t, err, store.ErrTooLarge, "bytes")
	equal(t, "state", len(must[store.Conversation](t)(f.w.Conversation(ctx, "c")).State), len(large))
}

func forget(t *testing.T, f *fixture) {
	ids := []string{"a", "ab", "a\x00", "\x00a", "abc"}
	other := f.s.In("T10")
	for _, id := range ids {
		for _, w := range []store.Workspace{f.w, other} {
			must[store.Conversation](t)(w.SaveConversation(ctx, store.Conversation{ID: id, State: json.RawMessage(`1`)}))
		}
	}
	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("a"), "Ann"))
	ok(t, f.w.ForgetConversation(ctx, "a"))
	ok(t, f.w.ForgetConversation(ctx, "a")) // may be repeated
	ok(t, f.w.ForgetConversation(ctx, "never there"))
	_, err := f.w.Conversation(ctx, "a")
	wantError(t, err, store.ErrNotFound, "conversation")
	for _, id := range ids {
		must[store.Conversation](t)(other.Conversation(ctx, id))
		if id != "a" {
			must[store.Conversation](t)(f.w.Conversation(ctx, id))
		}
	}
	must[store.Recipe](t)(f.w.Recipe(ctx, r.ID))
	c := must[store.Conversation](t)(f.w.SaveConversation(ctx, store.Conversation{ID: "a", State: json.RawMessage(`2`)}))
	equal(t, "revision of one begun anew", c.Revision, 1)
	wantError(t, f.w.ForgetConversation(ctx, ""), store.ErrInvalid, "id of a conversation")
}
