package storetest

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"pottle/store"
)

// fillAll puts one of everything into a workspace.
func fillAll(t *testing.T, w store.Workspace, mark string) store.Recipe {
	t.Helper()
	must[store.Conversation](t)(w.SaveConversation(ctx, store.Conversation{ID: "c", State: json.RawMessage(`"` + mark + `"`)}))
	r := must[store.Recipe](t)(w.SaveRecipe(ctx, with(soup("soup "+mark, "tag"), map[string]float64{"NA": 1}), mark))
	d := must[store.Recipe](t)(w.SaveRecipe(ctx, soup("deleted "+mark), mark))
	ok(t, w.DeleteRecipe(ctx, d.ID, d.Revision, mark))
	must[store.TeamFood](t)(w.Foods().Save(ctx, store.TeamFood{Name: "food", Grams: 1}, mark))
	must[store.TeamWord](t)(w.Words().Save(ctx, store.TeamWord{Words: "word", Meaning: mark}, mark))
	must[store.Target](t)(w.Targets().Save(ctx, store.Target{Name: "target", Limits: []store.Limit{most("NA", 1)}}, mark))
	ok(t, w.SetSetting(ctx, "setting", mark, mark))
	must[store.EventState](t)(w.SeeEvent(ctx, "event"))
	must[store.EventState](t)(w.KeepEvent(ctx, store.Event{ID: "kept", Conversation: "other", Payload: []byte(mark)}))
	ok(t, w.SetMark(ctx, store.Mark{Conversation: "marked", Name: "mark", Value: mark}))
	granted(t, w, store.Access{Token: store.Secret(mark), User: mark})
	return r
}

// onlyOwn checks that a workspace shows its own mark everywhere and no other.
func onlyOwn(t *testing.T, w store.Workspace, mark string) {
	t.Helper()
	equal(t, mark+": state", string(must[store.Conversation](t)(w.Conversation(ctx, "c")).State), `"`+mark+`"`)
	for _, q := range []store.Query{{}, {Words: "soup"}, {Tags: []string{"tag"}}, {Limits: []store.Limit{most("NA", 9)}}} {
		found := must[store.Found](t)(w.FindRecipes(ctx, q))
		if found.Total != 1 || found.Recipes[0].SavedBy != mark {
			t.Errorf("%s: found %+v", mark, found)
		}
	}
	all := must[[]store.Change](t)(w.Changes(ctx, 100))
	if len(all) == 0 {
		t.Errorf("%s: no changes", mark)
	}
	for _, c := range all {
		equal(t, mark+": change", c.Who, mark)
	}
	deleted := must[[]store.RecipeHead](t)(w.DeletedRecipes(ctx))
	if len(deleted) != 1 || deleted[0].SavedBy != mark {
		t.Errorf("%s: deleted %+v", mark, deleted)
	}
	for _, v := range must[[]store.TeamFood](t)(w.Foods().List(ctx)) {
		equal(t, mark+": food", v.Who, mark)
	}
	for _, v := range must[[]store.TeamWord](t)(w.Words().List(ctx)) {
		equal(t, mark+": word", v.Who, mark)
	}
	for _, v := range must[[]store.Target](t)(w.Targets().List(ctx)) {
		equal(t, mark+": target", v.Who, mark)
	}
	equal(t, mark+": unfinished", unfinished(t, w), "kept="+mark)
	equal(t, mark+": mark", marked(t, w, "mark"), "marked="+mark)
	if a, err := w.Access(ctx); !errors.Is(err, store.ErrNotFound) {
		ok(t, err)
		equal(t, mark+": token", string(a.Token), mark)
		equal(t, mark+": bot's user", a.User, mark)
	}
	equal(t, mark+": setting", must[map[string]string](t)(w.Settings(ctx))["setting"], mark)
}

func workspaces(t *testing.T, f *fixture) {
	equal(t, "none", len(must[[]string](t)(f.s.Workspaces(ctx))), 0)
	a, b := f.s.In("A"), f.s.In("B")
	ra := fillAll(t, a, "A")
	for _, err := range []error{
		second(b.Recipe(ctx, ra.ID)), second(b.RecipeNamed(ctx, ra.Name)), second(b.RestoreRecipe(ctx, ra.ID, "", "x")), second(b.RecipeChanges(ctx, ra.ID)),
		second(b.Conversation(ctx, "c")), second(b.Foods().Get(ctx, "food")), b.DeleteRecipe(ctx, ra.ID, 1, "x"), second(b.SaveRecipe(ctx, ra, "x")),
	} {
		wantError(t, err, store.ErrNotFound, "")
	}
	equal(t, "the mark in B", marked(t, b, "mark"), "")
	noAccess(t, b)
	equal(t, "B's changes", len(must[[]store.Change](t)(b.Changes(ctx, 9))), 0)
	equal(t, "the event in B", must[store.EventState](t)(b.SeeEvent(ctx, "event 2")), store.EventNew)
	fillAll(t, b, "B")
	onlyOwn(t, a, "A")
	onlyOwn(t, b, "B")
	ok(t, b.ForgetConversation(ctx, "c"))
	ok(t, b.ForgetConversation(ctx, "marked"))
	ok(t, b.Withdraw(ctx))
	onlyOwn(t, a, "A")
	equal(t, "workspaces", strings.Join(must[[]string](t)(f.s.Workspaces(ctx)), " "), "A B")
	for _, name := range []string{"", strings.Repeat("x", 65)} {
		w := f.s.In(name)
		wantError(t, second(w.FindRecipes(ctx, store.Query{})), store.ErrInvalid, "workspace")
		wantError(t, w.SetSetting(ctx, "a", "b", "c"), store.ErrInvalid, "workspace")
		wantError(t, w.ForgetConversation(ctx, "c"), store.ErrInvalid, "workspace")
	}
}

// hostile uses names that would collide if keys were put together carelessly.
func hostile(t *testing.T, f *fixture) {
	list := []string{"T", "T1", "T1r", "T1S", "\x01", "\x01T", "w", "w\x01T", "T\x00", "T\x00r", "\xff", "\xff\xff", strings.Repeat("x", 64), strings.Repeat("x", 63)}
	for i, name := range list {
		fillAll(t, f.s.In(name), fmt.Sprint("m", i))
	}
	for i, name := range list {
		onlyOwn(t, f.s.In(name), fmt.Sprint("m", i))
	}
	equal(t, "workspaces", len(must[[]string](t)(f.s.Workspaces(ctx))), len(list))
}

func second[T any](_ T, err error) error { return err }

// concurrent runs 50 conversations at once, each with a recipe of its own and
// some things in common; meant for the race detector.
func concurrent(t *testing.T, f *fixture) {
	const conversations, messages = 50, 8
	var fresh atomic.Int64
	var wg sync.WaitGroup
	for i := range conversations {
		wg.Go(func() {
			w, id := f.s.In(fmt.Sprint("T", i%3)), fmt.Sprint("c", i)
			c := store.Conversation{ID: id}
			r := soup("soup " + id)
			for m := range messages {
				var err error
				c.State = json.RawMessage(fmt.Sprintf(`{"m":%d}`, m))
				if c, err = w.SaveConversation(ctx, c); err != nil {
					t.Error(err)
					return
				}
				r.Figures = map[string]store.Figure{"NA": {Value: float64(m)}}
				if m > 0 {
					r.Versions = append(r.Versions, store.RecipeVersion{Text: fmt.Sprint(m)})
				}
				if r, err = w.SaveRecipe(ctx, r, id); err != nil {
					t.Error(err)
					return
				}
				state, err := w.SeeEvent(ctx, fmt.Sprint("e", m))
				if err != nil {
					t.Error(err)
				}
				if state == store.EventNew {
					fresh.Add(1)
				}
				if err := w.SetSetting(ctx, "last", id, id); err != nil {
					t.Error(err)
				}
				if err := w.SetMark(ctx, store.Mark{Conversation: id, Name: "last", Value: id}); err != nil {
					t.Error(err)
				}
				if mark, err := w.Mark(ctx, "last"); err == nil && mark.Value != mark.Conversation || err != nil && !errors.Is(err, store.ErrNotFound) {
					t.Errorf("mark %+v, %v", mark, err)
				}
				if _, err := w.FindRecipes(ctx, store.Query{Limits: []store.Limit{most("NA", 3)}}); err != nil {
					t.Error(err)
				}
				if m == messages/2 && i%10 == 0 {
					if err := w.ForgetConversation(ctx, id); err != nil {
						t.Error(err)
					}
					if err := w.Withdraw(ctx); err != nil {
						t.Error(err)
					}
					c = store.Conversation{ID: id}
				}
			}
		})
	}
	wg.Wait()
	equal(t, "events that were new", fresh.Load(), 3*messages)
	total := 0
	for i := range 3 {
		found := must[store.Found](t)(f.s.In(fmt.Sprint("T", i)).FindRecipes(ctx, store.Query{Limits: []store.Limit{least("NA", messages-1)}, Max: 100}))
		total += found.Total
		for _, r := range found.Recipes {
			equal(t, "versions", r.Count, messages)
		}
	}
	equal(t, "recipes", total, conversations)
}

// conflictConcurrent has many change one recipe at once: each change is kept or
// its maker told.
func conflictConcurrent(t *testing.T, f *fixture) {
	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ann"))
	var kept atomic.Int64
	var wg sync.WaitGroup
	for i := range 16 {
		wg.Go(func() {
			mine := r
			mine.Versions = append(mine.Versions[:1:1], store.RecipeVersion{Text: fmt.Sprint(i)})
			for {
				_, err := f.w.SaveRecipe(ctx, mine, fmt.Sprint("p", i))
				if err == nil {
					kept.Add(1)
					return
				}
				if !errors.Is(err, store.ErrConflict) {
					t.Error(err)
					return
				}
				now, err := f.w.Recipe(ctx, r.ID)
				if err != nil {
					t.Error(err)
					return
				}
				now.Versions = append(now.Versions, store.RecipeVersion{Text: fmt.Sprint(i)})
				mine = now
			}
		})
	}
	wg.Wait()
	got := must[store.Recipe](t)(f.w.Recipe(ctx, r.ID))
	equal(t, "kept", kept.Load(), 16)
	equal(t, "versions", len(got.Versions), 17)
	seen := map[string]bool{}
	for _, v := range got.Versions {
		seen[v.Text] = true
	}
	equal(t, "different versions", len(seen), 17)
}

func closed(t *testing.T, f *fixture) {
	stopped, cancel := context.WithCancel(ctx)
	cancel()
	equal(t, "error of a cancelled call", errors.Is(second(f.w.SaveRecipe(stopped, soup("soup"), "Ann")), context.Canceled), true)
	wantError(t, second(f.w.RecipeNamed(ctx, "soup")), store.ErrNotFound, "soup")
	ok(t, f.s.Close())
	ok(t, f.s.Close())
	wantError(t, second(f.w.SaveRecipe(ctx, soup("soup"), "Ann")), store.ErrClosed, "closed")
	wantError(t, second(f.w.RecipeNamed(ctx, "soup")), store.ErrClosed, "closed")
	wantError(t, f.w.ForgetConversation(ctx, "c"), store.ErrClosed, "closed")
	wantError(t, f.w.Withdraw(ctx), store.ErrClosed, "closed")
	wantError(t, f.w.Stay(ctx), store.ErrClosed, "closed")
	wantError(t, second(f.w.Access(ctx)), store.ErrClosed, "closed")
	wantError(t, f.w.SetMark(ctx, store.Mark{Conversation: "c", Name: "n"}), store.ErrClosed, "closed")
	wantError(t, second(f.s.Workspaces(ctx)), store.ErrClosed, "closed")
}
