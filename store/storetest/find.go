package storetest

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pottle/store"
)

func findByName(t *testing.T, f *fixture) {
	for _, r := range []store.Recipe{
		soup("Turkey barley soup", "winter", "low salt"), soup("Barley salad", "summer"), soup("Carrot soup", "winter"), soup("crème brûlée"),
	} {
		must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	}
	for _, c := range []struct {
		q     store.Query
		want  string
		total int
	}{
		{store.Query{}, "Barley salad, Carrot soup, crème brûlée, Turkey barley soup", 4},
		{store.Query{Words: "barley"}, "Barley salad, Turkey barley soup", 2},
		{store.Query{Words: "barl so"}, "Turkey barley soup", 1},
		{store.Query{Words: "SOUPS"}, "Carrot soup, Turkey barley soup", 2},
		{store.Query{Words: "arley"}, "", 0},
		{store.Query{Words: "crè"}, "crème brûlée", 1},
		{store.Query{Tags: []string{"Winter"}}, "Carrot soup, Turkey barley soup", 2},
		{store.Query{Tags: []string{"win"}}, "", 0},
		{store.Query{Tags: []string{"low"}}, "", 0},
		{store.Query{Tags: []string{"winter", "low salt"}}, "Turkey barley soup", 1},
		{store.Query{Words: "carrot", Tags: []string{"winter"}}, "Carrot soup", 1},
		{store.Query{Max: 1}, "Barley salad", 4},
		{store.Query{Max: 2, Skip: 1}, "Carrot soup, crème brûlée", 4},
		{store.Query{Skip: 9}, "", 4},
	} {
		got := must[store.Found](t)(f.w.FindRecipes(ctx, c.q))
		equal(t, fmt.Sprintf("%+v", c.q), names(got), c.want)
		equal(t, fmt.Sprintf("%+v total", c.q), got.Total, c.total)
	}
	for _, q := range []store.Query{
		{Skip: -1}, {Max: -1}, {Max: store.MaxFound + 1}, {Limits: []store.Limit{{Tag: "NA", Bound: "about", Value: 1}}}, {Limits: []store.Limit{{Bound: store.AtMost}}},
	} {
		if _, err := f.w.FindRecipes(ctx, q); store.Code(err) != store.ErrInvalid.Code {
			t.Errorf("%+v: %v", q, err)
		}
	}
}

func most(tag string, v float64) store.Limit {
	return store.Limit{Tag: tag, Bound: store.AtMost, Value: v}
}
func least(tag string, v float64) store.Limit {
	return store.Limit{Tag: tag, Bound: store.AtLeast, Value: v}
}

func findByFigures(t *testing.T, f *fixture) {
	for name, figures := range map[string]map[string]store.Figure{
		"a": {"NA": {Value: 400}, "K": {Value: 100}},
		"b": {"NA": {Value: 399.9}, "K": {Value: 700}},
		"c": {"NA": {Value: 400.1}, "K": {Value: 300}},
		"d": {"NA": {Value: 0}, "K": {Value: 650, AtLeast: true}},
		"e": {"NA": {Value: 100, AtLeast: true}, "K": {Value: 200}},
		"f": {"NA": {Value: 900, AtLeast: true}, "K": {Value: 0, AtLeast: true}},
		"g": {"NAX": {Value: 1}},
		"h": {"NA": {Value: -1}, "K": {Value: 1e9}},
	} {
		r := soup(name)
		if name < "c" {
			r.Tags = []string{"ab"}
		}
		r.Figures = figures
		must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	}
	for _, c := range []struct {
		q            store.Query
		want         string
		total, maybe int
	}{
		{store.Query{Limits: []store.Limit{most("NA", 400)}}, "h, d, b, a", 4, 1},
		{store.Query{Limits: []store.Limit{most("NA", 0)}}, "h, d", 2, 0},
		{store.Query{Limits: []store.Limit{most("NA", -1)}}, "h", 1, 0},
		{store.Query{Limits: []store.Limit{most("NA", -2)}}, "", 0, 0},
		{store.Query{Limits: []store.Limit{least("NA", 400)}}, "f, c, a", 3, 1},
		{store.Query{Limits: []store.Limit{least("K", 650)}}, "h, b, d", 3, 1},
		{store.Query{Limits: []store.Limit{least("NA", 100), most("NA", 400)}}, "a, b", 2, 1},
		{store.Query{Limits: []store.Limit{most("NA", 400), most("K", 600)}}, "a", 1, 1},
		{store.Query{Limits: []store.Limit{most("K", 600), most("NA", 400)}}, "a", 1, 1},
		{store.Query{Limits: []store.Limit{most("NA", 400)}, Tags: []string{"ab"}}, "b, a", 2, 0},
		{store.Query{Limits: []store.Limit{most("NA", 400)}, Max: 2}, "h, d", 4, 1},
		{store.Query{Limits: []store.Limit{most("NA", 400)}, Skip: 2, Max: 1}, "b", 4, 1},
		{store.Query{Limits: []store.Limit{most("NA", 400)}, Words: "e"}, "", 0, 1},
		{store.Query{Limits: []store.Limit{most("N", 400)}}, "", 0, 0},
	} {
		got := must[store.Found](t)(f.w.FindRecipes(ctx, c.q))
		equal(t, fmt.Sprintf("%+v", c.q), names(got), c.want)
		equal(t, fmt.Sprintf("%+v total", c.q), got.Total, c.total)
		equal(t, fmt.Sprintf("%+v maybe", c.q), got.Maybe, c.maybe)
	}
}

func findFollows(t *testing.T, f *fixture) {
	find := func(q store.Query) string { return names(must[store.Found](t)(f.w.FindRecipes(ctx, q))) }
	low := store.Query{Limits: []store.Limit{most("NA", 400)}}
	r := must[store.Recipe](t)(f.w.SaveRecipe(ctx, with(soup("soup", "old"), map[string]float64{"NA": 300}), "Ann"))
	equal(t, "at first", find(low), "soup")
	r.Name, r.Tags = "broth", []string{"new"}
	r = must[store.Recipe](t)(f.w.SaveRecipe(ctx, with(r, map[string]float64{"NA": 500, "K": 1}), "Ann"))
	equal(t, "with more sodium", find(low), "")
	equal(t, "by a figure added", find(store.Query{Limits: []store.Limit{most("K", 1)}}), "broth")
	equal(t, "by its old word", find(store.Query{Words: "soup"}), "")
	equal(t, "by its old tag", find(store.Query{Tags: []string{"old"}}), "")
	equal(t, "by its new word", find(store.Query{Words: "broth"}), "broth")
	equal(t, "by its new tag", find(store.Query{Tags: []string{"new"}}), "broth")
	r.Figures = map[string]store.Figure{"NA": {Value: 300, AtLeast: true}}
	r = must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann"))
	equal(t, "with a gap", find(low), "")
	equal(t, "by a figure taken away", find(store.Query{Limits: []store.Limit{most("K", 1)}}), "")
	ok(t, f.w.DeleteRecipe(ctx, r.ID, r.Revision, "Ann"))
	equal(t, "maybe when deleted", must[store.Found](t)(f.w.FindRecipes(ctx, low)).Maybe, 0)
	must[store.Recipe](t)(f.w.RestoreRecipe(ctx, r.ID, "", "Ann"))
	equal(t, "maybe when restored", must[store.Found](t)(f.w.FindRecipes(ctx, low)).Maybe, 1)
}

// findLikeScan compares the search with a plain look at every recipe.
func findLikeScan(t *testing.T, f *fixture) {
	random := rand.New(rand.NewPCG(1, 2))
	var all []store.Recipe
	for i := range 120 {
		r := soup(fmt.Sprintf("soup %03d", i))
		r.Figures = map[string]store.Figure{}
		for _, tag := range []string{"NA", "K", "FIBTG"} {
			if random.IntN(10) > 0 {
				r.Figures[tag] = store.Figure{Value: float64(random.IntN(40)) / 4, AtLeast: random.IntN(4) == 0}
			}
		}
		all = append(all, must[store.Recipe](t)(f.w.SaveRecipe(ctx, r, "Ann")))
	}
	for range 200 {
		var q store.Query
		q.Max = store.MaxFound
		for range 1 + random.IntN(3) {
			l := most([]string{"NA", "K", "FIBTG"}[random.IntN(3)], float64(random.IntN(44)-2)/4)
			if random.IntN(2) == 0 {
				l.Bound = store.AtLeast
			}
			q.Limits = append(q.Limits, l)
		}
		want, maybe := scan(all, q.Limits)
		got := must[store.Found](t)(f.w.FindRecipes(ctx, q))
		var have []string
		last := 0.0
		for i, r := range got.Recipes {
			have = append(have, r.Name)
			v := r.Figures[q.Limits[0].Tag].Value
			if i > 0 && (q.Limits[0].Bound == store.AtMost && v < last || q.Limits[0].Bound == store.AtLeast && v > last) {
				t.Errorf("%+v: %v after %v", q.Limits, v, last)
			}
			last = v
		}
		slices.Sort(have)
		equal(t, fmt.Sprintf("%+v", q.Limits), strings.Join(have, ","), strings.Join(want, ","))
		equal(t, fmt.Sprintf("%+v maybe", q.Limits), got.Maybe, maybe)
	}
}

func scan(all []store.Recipe, limits []store.Limit) (sure []string, maybe int) {
	for _, r := range all {
		yes, perhaps := true, true
		for _, l := range limits {
			fig, has := r.Figures[l.Tag]
			c := cmp.Compare(fig.Value, l.Value)
			within := l.Bound == store.AtMost && c <= 0 && !fig.AtLeast || l.Bound == store.AtLeast && c >= 0
			might := within || fig.AtLeast && (l.Bound == store.AtLeast || c <= 0)
			yes, perhaps = yes && has && within, perhaps && has && might
		}
		if yes {
			sure = append(sure, r.Name)
		} else if perhaps {
			maybe++
		}
	}
	slices.Sort(sure)
	return sure, maybe
}
