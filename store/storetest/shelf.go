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
