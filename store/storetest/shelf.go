package storetest

import (
	"math"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

func foods(t *testing.T, f *fixture) {
	s := f.w.Foods()
	_, err := s.Get(ctx, "oat bar")
	wantError(t, err, store.ErrNotFound, `"oat bar"`)
	figures := map[string]float64{"ENERC_KCAL": 150, "NA": 95}
	bar := must[store.TeamFood](t)(s.Save(ctx, store.TeamFood{Name: "Oat  bar", Grams: 40, Figures: figures}, "Ann"))
	figures["NA"] = 1 // the caller's own
	equal(t, "who", bar.Who, "Ann")
	equal(t, "when", bar.When, f.clock)
	equal(t, "revision", bar.Revision, 1)
	got := must[store.TeamFood](t)(s.Get(ctx, "OAT BAR"))
	equal(t, "name", got.Name, "Oat bar")
	equal(t, "sodium", got.Figures["NA"], 95)

	_, err = s.Save(ctx, store.TeamFood{Name: "oat bar", Grams: 40}, "Ben")
	wantError(t, err, store.ErrExists, "Oat bar")
	got.Figures["NA"] = 100
	ben := must[store.TeamFood](t)(s.Save(ctx, got, "Ben"))
	_, err = s.Save(ctx, bar, "Ann")
	wantError(t, err, store.ErrConflict, "by Ben")
	wantError(t, s.Remove(ctx, "oat bar", bar.Revision, "Ann"), store.ErrConflict, "by Ben")
	must[store.TeamFood](t)(s.Save(ctx, store.TeamFood{Name: "a bar", Grams: 1}, "Ann"))
	list := must[[]store.TeamFood](t)(s.List(ctx))
	if len(list) != 2 || list[0].Name != "a bar" || list[1].Figures["NA"] != 100 {
		t.Errorf("list: %v", list)
	}
	ok(t, s.Remove(ctx, "oat bar", ben.Revision, "Ann"))
	wantError(t, s.Remove(ctx, "oat bar", ben.Revision, "Ann"), store.ErrNotFound, "oat bar")
	_, err = s.Save(ctx, ben, "Ben")
	wantError(t, err, store.ErrNotFound, "Oat bar")

	for _, bad := range []store.TeamFood{
		{Grams: 1}, {Name: "x"}, {Name: "x", Grams: -1}, {Name: "x", Grams: math.Inf(1)},
		{Name: "x", Grams: 1, Figures: map[string]float64{"NA": -1}}, {Name: "x", Grams: 1, Figures: map[string]float64{"": 1}},
	} {
		_, err := s.Save(ctx, bad, "Ann")
		wantError(t, err, store.ErrInvalid, "")
	}
	_, err = s.Save(ctx, store.TeamFood{Name: "x", Grams: 1}, "")
	wantError(t, err, store.ErrInvalid, "who")
}

func words(t *testing.T, f *fixture) {
	s := f.w.Words()
	milk := must[store.TeamWord](t)(s.Save(ctx, store.TeamWord{Words: "milk", Meaning: "skim milk"}, "Ann"))
	equal(t, "meaning", must[store.TeamWord](t)(s.Get(ctx, "Milk")).Meaning, "skim milk")
	milk.Meaning = "whole milk"
	milk = must[store.TeamWord](t)(s.Save(ctx, milk, "Ben"))
	equal(t, "revision", milk.Revision, 2)
	_, err := f.w.Foods().Get(ctx, "milk")
	wantError(t, err, store.ErrNotFound, "milk") // kinds are apart
	ok(t, s.Remove(ctx, "milk", 2, "Ann"))
	equal(t, "list", len(must[[]store.TeamWord](t)(s.List(ctx))), 0)
	_, err = s.Save(ctx, store.TeamWord{Words: "milk"}, "Ann")
	wantError(t, err, store.ErrInvalid, "meaning")
	_, err = s.Save(ctx, store.TeamWord{Words: "milk", Meaning: strings.Repeat("x", store.MaxShelf)}, "Ann")
	wantError(t, err, store.ErrTooLarge, "milk")
}

func targets(t *testing.T, f *fixture) {
	s := f.w.Targets()
	limits := []store.Limit{most("NA", 500), least("FIBTG", 5)}
	must[store.Target](t)(s.Save(ctx, store.Target{Name: "renal-lunch", Limits: limits}, "Ann"))
	got := must[store.Target](t)(s.Get(ctx, "renal-lunch"))
	equal(t, "limits", len(got.Limits), 2)
	equal(t, "limit", got.Limits[1], limits[1])
	_, err := s.Save(ctx, store.Target{Name: "x"}, "Ann")
	wantError(t, err, store.ErrInvalid, "limit")
	_, err = s.Save(ctx, store.Target{Name: "x", Limits: []store.Limit{{Tag: "NA", Value: 1}}}, "Ann")
	wantError(t, err, store.ErrInvalid, "bound")
}

func settings(t *testing.T, f *fixture) {
	equal(t, "at first", len(must[map[string]string](t)(f.w.Settings(ctx))), 0)
	ok(t, f.w.SetSetting(ctx, "measures", "uk", "Ann"))
	ok(t, f.w.SetSetting(ctx, "servings", "4", "Ann"))
	ok(t, f.w.SetSetting(ctx, "measures", "us", "Ben"))
	got := must[map[string]string](t)(f.w.Settings(ctx))
	equal(t, "settings", len(got), 2)
	equal(t, "measures", got["measures"], "us")
	ok(t, f.w.SetSetting(ctx, "measures", "", "Ann"))
	equal(t, "settings", len(must[map[string]string](t)(f.w.Settings(ctx))), 1)
	wantError(t, f.w.SetSetting(ctx, "", "x", "Ann"), store.ErrInvalid, "name")
	wantError(t, f.w.SetSetting(ctx, "x", "x", ""), store.ErrInvalid, "who")
	wantError(t, f.w.SetSetting(ctx, "x", strings.Repeat("x", store.MaxShelf+1), "Ann"), store.ErrTooLarge, "x")
}

func changes(t *testing.T, f *fixture) {
	must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ann"))
	f.pass(time.Second)
	must[store.TeamFood](t)(f.w.Foods().Save(ctx, store.TeamFood{Name: "bar", Grams: 1}, "Ben"))
	f.pass(time.Second)
	ok(t, f.w.Foods().Remove(ctx, "bar", 1, "Cas"))
	f.pass(time.Second)
	ok(t, f.w.SetSetting(ctx, "measures", "uk", "Dee"))
	_, _ = f.w.SaveRecipe(ctx, soup("soup"), "Eve") // did not happen
	var got []string
	for _, c := range must[[]store.Change](t)(f.w.Changes(ctx, 3)) {
		got = append(got, strings.Join([]string{c.When.Format("05"), c.Who, c.Action, c.Kind, c.Name}, " "))
	}
	equal(t, "changes", strings.Join(got, "; "), "03 Dee changed setting measures; 02 Cas removed food bar; 01 Ben saved food bar")
	equal(t, "all", len(must[[]store.Change](t)(f.w.Changes(ctx, 100))), 4)
	equal(t, "none", len(must[[]store.Change](t)(f.w.Changes(ctx, 0))), 0)
}

func events(t *testing.T, f *fixture) {
	see := func() store.EventState { t.Helper(); return must[store.EventState](t)(f.w.SeeEvent(ctx, "e")) }
	wantError(t, f.w.FinishEvent(ctx, "e"), store.ErrNotFound, "event")
	equal(t, "first", see(), store.EventNew)
	equal(t, "again", see(), store.EventSeen)
	ok(t, f.w.FinishEvent(ctx, "e"))
	equal(t, "done", see(), store.EventDone)
	equal(t, "another", must[store.EventState](t)(f.w.SeeEvent(ctx, "e2")), store.EventNew)
	f.pass(store.KeepEvent - time.Second)
	equal(t, "nearly a day later", see(), store.EventDone)
	f.pass(time.Second)
	equal(t, "a day later", see(), store.EventNew)
	_, err := f.w.SeeEvent(ctx, "")
	wantError(t, err, store.ErrInvalid, "id of an event")
}

// unfinished gives the unfinished events as "ID=PAYLOAD ID=PAYLOAD".
func unfinished(t *testing.T, w store.Workspace) string {
	t.Helper()
	var all []string
	for _, e := range must[[]store.UnfinishedEvent](t)(w.UnfinishedEvents(ctx)) {
		all = append(all, e.ID+"="+string(e.Payload))
	}
	return strings.Join(all, " ")
}

func payloads(t *testing.T, f *fixture) {
	keep := func(id, talk, payload string) store.EventState {
		t.Helper()
		return must[store.EventState](t)(f.w.KeepEvent(ctx, store.Event{ID: id, Conversation: talk, Payload: []byte(payload)}))
	}
	equal(t, "none", unfinished(t, f.w), "")
	start := f.clock
	equal(t, "new", keep("z", "a", "1"), store.EventNew)
	equal(t, "in the same moment", keep("y", "b", "2"), store.EventNew)
	f.pass(time.Second)
	equal(t, "later", keep("za", "a", "3"), store.EventNew) // begins as another id does
	equal(t, "without a payload", must[store.EventState](t)(f.w.SeeEvent(ctx, "x")), store.EventNew)
	equal(t, "by arrival", unfinished(t, f.w), "z=1 y=2 za=3")
	equal(t, "of another workspace", unfinished(t, f.s.In("T2")), "")
	if e := must[[]store.UnfinishedEvent](t)(f.w.UnfinishedEvents(ctx))[0]; !e.When.Equal(start) {
		t.Errorf("arrived at %v, not %v", e.When, start)
	}
	equal(t, "again", keep("z", "b", "4"), store.EventSeen)
	equal(t, "seen only", keep("x", "b", "5"), store.EventSeen)
	equal(t, "seen", must[store.EventState](t)(f.w.SeeEvent(ctx, "y")), store.EventSeen)
	equal(t, "in its place", unfinished(t, f.w), "z=4 y=2 za=3 x=5")

	ok(t, f.w.FinishEvent(ctx, "z"))
	equal(t, "done", keep("z", "a", "6"), store.EventDone)
	equal(t, "after the first", unfinished(t, f.w), "y=2 za=3 x=5")
	ok(t, f.w.ForgetConversation(ctx, "b"))
	equal(t, "after forgetting", unfinished(t, f.w), "za=3")
	equal(t, "forgotten", must[store.EventState](t)(f.w.SeeEvent(ctx, "y")), store.EventSeen)
	equal(t, "kept after forgetting", keep("y", "b", "2"), store.EventSeen)
	equal(t, "still forgotten", unfinished(t, f.w), "za=3")
	ok(t, f.w.FinishEvent(ctx, "y"))
	equal(t, "forgotten and done", must[store.EventState](t)(f.w.SeeEvent(ctx, "y")), store.EventDone)

	f.clock = start.Add(time.Second + store.KeepEvent - 1)
	equal(t, "nearly a day later", unfinished(t, f.w), "za=3")
	f.pass(1)
	equal(t, "a day later", unfinished(t, f.w), "")
	equal(t, "anew", keep("za", "a", "7"), store.EventNew)
	equal(t, "payload anew", unfinished(t, f.w), "za=7")

	for part, e := range map[string]store.Event{
		"id of an event":       {Conversation: "c", Payload: []byte("1")},
		"id of a conversation": {ID: "e", Payload: []byte("1")},
		"payload":              {ID: "e", Conversation: "c"},
	} {
		wantError(t, second(f.w.KeepEvent(ctx, e)), store.ErrInvalid, part)
	}
	wantError(t, second(f.w.KeepEvent(ctx, store.Event{ID: "e", Conversation: "c", Payload: make([]byte, store.MaxPayload+1)})), store.ErrTooLarge, "payload")
	wantError(t, second(f.s.In("").UnfinishedEvents(ctx)), store.ErrInvalid, "workspace")
	equal(t, "refused", must[store.EventState](t)(f.w.SeeEvent(ctx, "e")), store.EventNew)
}
