package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// TestFitHasALimit holds that an amount which makes another dish of it is not
// proposed, and that the error tells it.
func TestFitHasALimit(t *testing.T) {
	e := newEngine(t)
	r := recipe(t, "Pilaf\nServes 6\n\n1 lb boneless skinless chicken thighs\n1 1/2 cups basmati rice\n3 cups chicken broth\n")
	line := -1
	for i := range r.Lines {
		if strings.Contains(r.Lines[i].Text, "rice") {
			line = i
		}
	}
	work := func(r *grammar.Recipe) *engine.Analysis { return e.Analyse(r) }
	_, err := e.FitLines(r, []int{line}, engine.Limit{Nutrient: fooddata.Fibre, AtLeast: true, Amount: 6}, work)
	if err == nil || !strings.Contains(err.Error(), "times as much") || !strings.Contains(err.Error(), "cups of basmati rice") {
		t.Errorf("6 g fibre by rice: %v", err)
	}
	f, err := e.FitLines(r, []int{line}, engine.Limit{Nutrient: fooddata.Fibre, AtLeast: true, Amount: 1}, work)
	if err != nil || f.Analysis.Per(fooddata.Fibre).Low < 1 {
		t.Errorf("1 g fibre by rice: %v", err)
	}
}

// TestFitKeepsTheLiquid holds that broth which is taken out is made up with water,
// and that milk a dish is made with is not taken out.
func TestFitKeepsTheLiquid(t *testing.T) {
	e := newEngine(t)
	work := func(r *grammar.Recipe) *engine.Analysis { return e.Analyse(r) }
	for _, c := range []struct {
		name, recipe string
		limit        engine.Limit
		water, err   string
	}{
		{"broth", "Soup\nServes 6\n\n6 cups chicken broth\n1 lb carrots", engine.Limit{Nutrient: fooddata.Sodium, Amount: 500}, "cups", ""},
		{"metric broth", "Soup\nServes 6\n\n1500 ml chicken broth\n500 g carrots", engine.Limit{Nutrient: fooddata.Sodium, Amount: 500}, "ml", ""},
		{"more broth", "Soup\nServes 6\n\n2 cups chicken broth\n1 lb carrots", engine.Limit{Nutrient: fooddata.Sodium, AtLeast: true, Amount: 400}, "", ""},
		{"milk", "Chowder\nServes 4\n\n4 cups whole milk\n1 lb potatoes", engine.Limit{Nutrient: fooddata.SaturatedFat, Amount: 1}, "", "come out dry"},
		{"a little milk", "Mash\nServes 4\n\n1/4 cup whole milk\n2 lb potatoes", engine.Limit{Nutrient: fooddata.SaturatedFat, Amount: 0.2}, "", ""},
		{"a cube is no liquid", "Soup\nServes 6\n\n6 chicken bouillon cubes\n6 cups water\n1 lb carrots", engine.Limit{Nutrient: fooddata.Sodium, Amount: 500}, "", ""},
	} {
		r := recipe(t, c.recipe)
		first := 0
		for r.Lines[first].Kind != grammar.Ingredient {
			first++
		}
		f, err := e.FitLines(r, []int{first}, c.limit, work)
		switch {
		case c.err != "":
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("%s: %v, want %q", c.name, err, c.err)
			}
		case err != nil:
			t.Errorf("%s: %v", c.name, err)
		case (c.water == "") != (f.Water == "") || !strings.Contains(f.Water, c.water):
			t.Errorf("%s: water %q, want %q", c.name, f.Water, c.water)
		case c.water != "":
			if before, after := work(r).Grams.Low, f.Analysis.Grams.Low; after < 0.97*before || after > 1.03*before {
				t.Errorf("%s: %.0f g became %.0f g", c.name, before, after)
			}
		}
	}
}
