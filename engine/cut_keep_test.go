package engine_test

import (
	"slices"
	"testing"

	"pottle/engine"
)

// TestKept holds that yeast doughs, pickles, cures and preserves keep their
// salt and sugar, with the reason (Illinois Extension: do not eliminate salt in
// yeast breads, pickling and curing).
func TestKept(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe, line string
		goal         engine.Goal
	}{
		{breadRecipe, "1 1/2 tsp salt", engine.LessSodium},
		{breadRecipe, "2 tbsp honey", engine.LessAddedSugar},
		{pizza, "1 tsp salt", engine.LessSodium},
		{pickleRecipe, "1/2 cup salt", engine.LessSodium},
		{pickleRecipe, "3 cups sugar", engine.LessAddedSugar},
		{gravlax, "1/2 cup kosher salt", engine.LessSodium},
		{gravlax, "1/2 cup sugar", engine.LessAddedSugar},
		{jamRecipe, "7 cups sugar", engine.LessAddedSugar},
		{jamRecipe, "7 cups sugar", engine.FewerCalories},
		{muffinRecipe, "2 tsp baking powder", engine.LessSodium},
		{carrotCake, "4 cups powdered sugar", engine.LessAddedSugar},
	} {
		r := recipeOf(t, c.recipe)
		kept := e.Kept(r, c.goal, nil)
		i := slices.IndexFunc(kept, func(k engine.KeptLine) bool { return k.What == c.line })
		if i < 0 {
			t.Errorf("%s, %s: %s is not kept: %v", r.Title, c.goal, c.line, kept)
			continue
		}
		if kept[i].Why == "" || kept[i].Source == "" || r.Lines[kept[i].Line].Text != c.line {
			t.Errorf("%s: kept without a reason: %+v", c.line, kept[i])
		}
		for _, goal := range allGoals {
			for _, s := range e.Suggest(r, goal, nil, nil) {
				if slices.Contains(s.Lines, kept[i].Line) {
					t.Errorf("%s, %s: %s changes what is kept", r.Title, goal, s.What)
				}
			}
		}
	}
	for _, text := range []string{pickleRecipe, gravlax, jamRecipe} {
		if list := e.Suggest(recipeOf(t, text), engine.All, nil, nil); len(list) > 0 {
			t.Errorf("%s: %s", list[0].What, list[0].Dish)
		}
	}
	if kept := e.Kept(recipeOf(t, chiliRecipe), engine.All, nil); len(kept) > 0 {
		t.Errorf("a chili keeps %v", kept)
	}
}
