package engine_test

import (
	"math/big"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestSuggestAgain applies all suggestions and asks again until there are none:
// that must end, and the limits of the published sheets must hold: 1 tbsp sugar
// and 2 tbsp fat for each cup of flour in a quick bread, 1/2 cup sugar and
// 2 tbsp fat in cakes and cookies (Reducing sugar, reducing fat, Extension
// sheet).
func TestSuggestAgain(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe     string
		sugar, fat float64 // grams for each cup of flour
		until      string  // the lines before this heading
	}{
		{muffinRecipe, 12.5, 27, ""},
		{cookieRecipe, 100, 27, ""},
		{carrotCake, 100, 27, "For the frosting:"},
	} {
		for _, goal := range allGoals {
			r := recipeOf(t, c.recipe)
			rounds := 0
			for ; rounds < 20; rounds++ {
				var every []engine.Edit
				for _, s := range e.Suggest(r, goal, nil, nil) {
					every = append(every, s.Edits...)
				}
				if len(every) == 0 {
					break
				}
				var err error
				if r, err = engine.Apply(r, every...); err != nil {
					t.Fatal(err)
				}
			}
			if rounds == 20 {
				t.Errorf("%s, %s: suggestions never end", r.Title, goal)
			}
			var flour, sugar, fat float64
			frosting := false
			for _, l := range e.Analyse(r).Lines {
				frosting = frosting || c.until != "" && l.Text == c.until
				if l.Status != engine.Counted {
					continue
				}
				name := l.Food.Name()
				s, _ := l.Has(fooddata.Sugars)
				f, _ := l.Has(fooddata.Fat)
				switch {
				case strings.Contains(name, "flour") || name == "oat bran":
					flour += l.Grams.Low / 125
				case frosting:
				case strings.Contains(name, "sugar") && name != "powdered sugar":
					sugar += s.Low
				case strings.Contains(name, "butter") || strings.Contains(name, "oil") || strings.Contains(name, "margarine"):
					fat += f.Low
				}
			}
			if sugar < c.sugar*flour*0.93 {
				t.Errorf("%s, %s: %.0f g sugar left for %.1f cups of flour", r.Title, goal, sugar, flour)
			}
			if fat < c.fat*flour*0.93 {
				t.Errorf("%s, %s: %.0f g fat left for %.1f cups of flour", r.Title, goal, fat, flour)
			}
		}
	}
	for _, r := range allRecipes(t) { // the rest must end too
		for rounds := 0; ; rounds++ {
			list := e.Suggest(r, engine.All, nil, nil)
			if len(list) == 0 {
				break
			}
			if rounds == 25 {
				t.Errorf("%s: suggestions never end: %s", r.Title, list[0].What)
				break
			}
			var err error
			if r, err = engine.Apply(r, list[0].Edits...); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// TestSuggestPasted holds that a rule's share is of the recipe as pasted, also
// when it was scaled meanwhile: a third less is not taken twice.
func TestSuggestPasted(t *testing.T) {
	e := newEngine(t)
	r := recipeOf(t, "Ginger loaf\nMakes 12 slices\n\n2 cups all-purpose flour\n1 cup granulated sugar\n1/2 cup vegetable oil\n2 large eggs\n1/2 cup milk\n1 tsp baking soda\n1/2 tsp salt")
	list := e.Suggest(r, engine.LessAddedSugar, nil, r)
	if len(list) == 0 || list[0].What != "use 2/3 cup granulated sugar instead of 1 cup" {
		t.Fatalf("suggested: %+v", list)
	}
	cut, err := engine.Apply(r, list[0].Edits...)
	if err != nil {
		t.Fatal(err)
	}
	if list := e.Suggest(cut, engine.LessAddedSugar, nil, r); len(list) > 0 {
		t.Errorf("a third was taken, and then: %s", list[0].What)
	}
	var double []engine.Edit
	for i := range cut.Lines {
		if len(cut.Lines[i].Items) > 0 {
			double = append(double, engine.Edit{Kind: engine.EditMultiply, Line: i, Factor: big.NewRat(2, 1)})
		}
	}
	twice, err := engine.Apply(cut, double...)
	if err != nil {
		t.Fatal(err)
	}
	if list := e.Suggest(twice, engine.LessAddedSugar, nil, r); len(list) > 0 {
		t.Errorf("of twice as much: %s", list[0].What)
	}
	part, err := engine.Apply(r, engine.Edit{Kind: engine.EditMultiply, Line: lineWith(t, r, "sugar"), Factor: big.NewRat(5, 6)})
	if err != nil {
		t.Fatal(err)
	}
	if list := e.Suggest(part, engine.LessAddedSugar, nil, r); len(list) == 0 || !strings.HasPrefix(list[0].What, "use 2/3 cup granulated sugar") {
		t.Errorf("of 5/6 cup: %+v", list)
	}
}
