package storetest

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pottle/store"
)

func recipes(t *testing.T, f *fixture) {
	_, err := f.w.Recipe(ctx, "aaaaaaaaaaaaa")
	wantError(t, err, store.ErrNotFound, "aaaaaaaaaaaaa")
	_, err = f.w.Recipe(ctx, "no id at all")
	wantError(t, err, store.ErrNotFound, "no id at all")
	_, err = f.w.RecipeNamed(ctx, "soup")
	wantError(t, err, store.ErrNotFound, `"soup"`)

	r := soup("Turkey  barley soup", "Winter", "soup", "winter")
	r.Figures = map[string]store.Figure{"NA": {Value: 380}, "VITD": {Value: 0, AtLeast: true}}
	saved := must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	equal(t, "name", saved.Name, "Turkey barley soup")
	equal(t, "tags", strings.Join(saved.Tags, ","), "soup,winter")
	equal(t, "revision", saved.Revision, 1)
	equal(t, "saved by", saved.SavedBy, "Ann")
	equal(t, "saved at", saved.SavedAt, f.clock)
	equal(t, "versions", saved.Count, 1)
	equal(t, "version's who", saved.Versions[0].Who, "Ann")
	equal(t, "version's when", saved.Versions[0].When, f.clock)
	equal(t, "the caller's version", r.Versions[0].Who, "")

	f.pass(time.Hour)
	change := saved
	change.Versions = append(change.Versions, store.RecipeVersion{Text: "2 cups barley", Servings: 6, Said: "twice the barley"})
	change = must[store.Recipe](t)(f.w.SaveRecipe(ctx, change, "Ben"))
	for name, get := range map[string]func() (store.Recipe, error){
		"by id":   func() (store.Recipe, error) { return f.w.Recipe(ctx, saved.ID) },
		"by name": func() (store.Recipe, error) { return f.w.RecipeNamed(ctx, " turkey BARLEY soup ") },
	} {
		got := must[store.Recipe](t)(get())
		equal(t, name+": revision", got.Revision, 2)
		equal(t, name+": saved by", got.SavedBy, "Ann")
		equal(t, name+": changed by", got.ChangedBy, "Ben")
		equal(t, name+": changed at", got.ChangedAt, f.clock)
		equal(t, name+": versions", len(got.Versions), 2)
		equal(t, name+": version 1", got.Versions[0], saved.Versions[0])
		equal(t, name+": version 2", got.Versions[1], change.Versions[1])
		equal(t, name+": said", got.Versions[1].Said, "twice the barley")
		equal(t, name+": who", got.Versions[1].Who, "Ben")
		equal(t, name+": figures", len(got.Figures), 2)
		equal(t, name+": unknown stays unknown", got.Figures["VITD"], store.Figure{AtLeast: true})
	}
}

func recipeNames(t *testing.T, f *fixture) {
	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ann"))
	_, err := f.w.SaveRecipe(ctx, soup("SOUP "), "Ben")
	wantError(t, err, store.ErrExists, "called")
	again := r
	again.Revision, again.Name = 0, "other"
	_, err = f.w.SaveRecipe(ctx, again, "Ben")
	wantError(t, err, store.ErrExists, r.ID)

	r.Name = "Soup" // another spelling of its own name
	r = must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	r.Name = "broth"
	r = must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	_, err = f.w.RecipeNamed(ctx, "soup")
	wantError(t, err, store.ErrNotFound, "soup")
	must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ben")) // the name is free again
	r.Name = "soup"
	_, err = f.w.SaveRecipe(ctx, r, "Ann")
	wantError(t, err, store.ErrExists, "soup")
	equal(t, "name kept", must[store.Recipe](t)(f.w.Recipe(ctx, r.ID)).Name, "broth")
}

func recipeConflict(t *testing.T, f *fixture) {
	first := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ann"))
	ann, ben := first, first
	ann.Versions = append(ann.Versions[:1:1], store.RecipeVersion{Text: "Ann's"})
	ben.Versions = append(ben.Versions[:1:1], store.RecipeVersion{Text: "Ben's"})
	ann = must[store.Recipe](t)(f.w.SaveRecipe(ctx, ann, "Ann"))
	_, err := f.w.SaveRecipe(ctx, ben, "Ben")
	wantError(t, err, store.ErrConflict, "by Ann")
	wantError(t, f.w.DeleteRecipe(ctx, first.ID, first.Revision, "Ben"), store.ErrConflict, "by Ann")

	got := must[store.Recipe](t)(f.w.Recipe(ctx, first.ID)) // Ben reads again and adds his own
	equal(t, "Ann's version", got.Versions[1], ann.Versions[1])
	got.Versions = append(got.Versions, ben.Versions[1])
	got = must[store.Recipe](t)(f.w.SaveRecipe(ctx, got, "Ben"))
	equal(t, "versions", len(got.Versions), 3)

	got.ID, got.Name = "bbbbbbbbbbbba", "never there"
	_, err = f.w.SaveRecipe(ctx, got, "Ben")
	wantError(t, err, store.ErrNotFound, "bbbbbbbbbbbba")
}

func recipeVersions(t *testing.T, f *fixture) {
	r := soup("soup")
	r.Versions = append(r.Versions, store.RecipeVersion{Text: "two"})
	saved := must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	for name, versions := range map[string][]store.RecipeVersion{
		"taken away": saved.Versions[:1],
		"changed":    {saved.Versions[0], {Text: "not two", Who: "Ann", When: f.clock}},
		"other time": {saved.Versions[0], {Text: "two", Who: "Ann", When: f.clock.Add(1)}},
		"swapped":    {saved.Versions[1], saved.Versions[0]},
	} {
		c := saved
		c.Versions = versions
		if _, err := f.w.SaveRecipe(ctx, c, "Ben"); !errors.Is(err, store.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	equal(t, "revision", must[store.Recipe](t)(f.w.Recipe(ctx, saved.ID)).Revision, 1)
}

func recipeLimits(t *testing.T, f *fixture) {
	for name, change := range map[string]func(*store.Recipe){
		"no name":         func(r *store.Recipe) { r.Name = "  " },
		"long name":       func(r *store.Recipe) { r.Name = strings.Repeat("x", store.MaxName+1) },
		"control":         func(r *store.Recipe) { r.Name = "so\x00up" },
		"no version":      func(r *store.Recipe) { r.Versions = nil },
		"no id":           func(r *store.Recipe) { r.Revision = 1 },
		"bad id":          func(r *store.Recipe) { r.ID = "1" },
		"NaN":             func(r *store.Recipe) { r.Figures = map[string]store.Figure{"NA": {Value: math.NaN()}} },
		"infinite":        func(r *store.Recipe) { r.Figures = map[string]store.Figure{"NA": {Value: math.Inf(1)}} },
		"bad tagname":     func(r *store.Recipe) { r.Figures = map[string]store.Figure{"N A": {}} },
		"tagname of NUL":  func(r *store.Recipe) { r.Figures = map[string]store.Figure{"NA\x00": {}} },
		"empty tag":       func(r *store.Recipe) { r.Tags = []string{""} },
		"tag of NUL":      func(r *store.Recipe) { r.Tags = []string{"a\x00b"} },
		"servings":        func(r *store.Recipe) { r.Versions[0].Servings = -1 },
		"servings of NaN": func(r *store.Recipe) { r.Versions[0].Servings = math.NaN() },
	} {
		r := soup("soup")
		change(&r)
		if _, err := f.w.SaveRecipe(ctx, r, "Ann"); !errors.Is(err, store.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err := f.w.SaveRecipe(ctx, soup("soup"), "")
	wantError(t, err, store.ErrInvalid, "who")
	r := soup("soup")
	r.Versions[0].Text = strings.Repeat("x", store.MaxText)
	_, err = f.w.SaveRecipe(ctx, r, "Ann")
	wantError(t, err, store.ErrTooLarge, "bytes")
	r = soup("large") // the largest that goes, in characters that JSON makes long
	r.Versions[0].Text, r.Versions[0].Said = strings.Repeat("\x01", store.MaxText), ""
	saved := must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	got := must[store.Recipe](t)(f.w.Recipe(ctx, saved.ID))
	equal(t, "text", got.Versions[0].Text == r.Versions[0].Text, true)
	for range 8 {
		got.Versions = append(got.Versions, store.RecipeVersion{Text: strings.Repeat("y", store.MaxText-1)})
	}
	_, err = f.w.SaveRecipe(ctx, got, "Ann")
	wantError(t, err, store.ErrTooLarge, "few at a time")
}

func recipeDelete(t *testing.T, f *fixture) {
	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup", "winter"), "Ann"))
	kept := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("broth"), "Ann"))
	ok(t, f.w.DeleteRecipe(ctx, r.ID, r.Revision, "Ben"))
	wantError(t, f.w.DeleteRecipe(ctx, r.ID, r.Revision+1, "Ben"), store.ErrNotFound, "already")
	_, err := f.w.RecipeNamed(ctx, "soup")
	wantError(t, err, store.ErrNotFound, "soup")
	_, err = f.w.SaveRecipe(ctx, r, "Ann")
	wantError(t, err, store.ErrNotFound, "deleted by Ben")
	equal(t, "found", names(must[store.Found](t)(f.w.FindRecipes(ctx, store.Query{}))), "broth")

	f.pass(time.Hour)
	ok(t, f.w.DeleteRecipe(ctx, kept.ID, kept.Revision, "Ben"))
	list := must[[]store.RecipeHead](t)(f.w.DeletedRecipes(ctx))
	if len(list) != 2 || list[0].Name != "broth" || list[1].Name != "soup" {
		t.Errorf("deleted: %v", list)
	}

	must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("Soup"), "Cas"))
	_, err = f.w.RestoreRecipe(ctx, r.ID, "", "Ann")
	wantError(t, err, store.ErrExists, "soup")
	f.pass(store.KeepDeleted - time.Hour - time.Minute)
	back := must[store.Recipe](t)(f.w.RestoreRecipe(ctx, r.ID, "soup of Ann", "Ann"))
	equal(t, "name", back.Name, "soup of Ann")
	equal(t, "deleted at", back.DeletedAt, time.Time{})
	equal(t, "versions", len(back.Versions), 1)
	equal(t, "found by tag", names(must[store.Found](t)(f.w.FindRecipes(ctx, store.Query{Tags: []string{"winter"}}))), "soup of Ann")
	_, err = f.w.RestoreRecipe(ctx, r.ID, "", "Ann")
	wantError(t, err, store.ErrNotFound, r.ID)

	f.pass(time.Hour + time.Minute)
	_, err = f.w.RestoreRecipe(ctx, kept.ID, "", "Ann")
	wantError(t, err, store.ErrNotFound, kept.ID)
	_, err = f.w.Recipe(ctx, kept.ID)
	wantError(t, err, store.ErrNotFound, kept.ID)
	equal(t, "deleted", len(must[[]store.RecipeHead](t)(f.w.DeletedRecipes(ctx))), 0)
}

func recipeHistory(t *testing.T, f *fixture) {
	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("soup"), "Ann"))
	f.pass(time.Minute)
	r.Versions = append(r.Versions, store.RecipeVersion{Text: "two"})
	r = must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ben"))
	f.pass(time.Minute)
	r.Name = "broth"
	r = must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Cas"))
	f.pass(time.Minute)
	ok(t, f.w.DeleteRecipe(ctx, r.ID, r.Revision, "Dee"))
	f.pass(time.Minute)
	must[store.Recipe](t)(f.w.RestoreRecipe(ctx, r.ID, "", "Eve"))
	must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("other"), "Ann"))
	var got []string
	for _, c := range must[[]store.Change](t)(f.w.RecipeChanges(ctx, r.ID)) {
		got = append(got, c.Who+" "+c.Action+" "+c.Name+" ("+c.Note+")")
	}
	equal(t, "history", strings.Join(got, "; "),
		"Ann saved soup (); Ben changed soup (version 2); Cas renamed broth (was soup); Dee deleted broth (); Eve restored broth ()")
	_, err := f.w.RecipeChanges(ctx, "aaaaaaaaaaaaa")
	wantError(t, err, store.ErrNotFound, "aaaaaaaaaaaaa")
}

func eachRecipe(t *testing.T, f *fixture) {
	for _, n := range []string{"c", "B", "a"} {
		must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup(n), "Ann"))
	}
	var got []string
	ok(t, f.w.EachRecipe(ctx, func(r store.Recipe) error {
		got = append(got, r.Name)
		if r.Name == "a" { // a change meanwhile is not seen
			must[store.Recipe](t)(f.w.SaveRecipe(ctx, soup("d"), "Ann"))
		}
		equal(t, "versions", len(r.Versions), 1)
		return nil
	}))
	equal(t, "recipes", strings.Join(got, " "), "a B c")
	stop := errors.New("stop")
	n := 0
	err := f.w.EachRecipe(ctx, func(store.Recipe) error { n++; return stop })
	equal(t, "error passed on", err, stop)
	equal(t, "calls", n, 1)
}
