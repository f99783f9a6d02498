package engine_test

import (
	"math"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestCookingWater holds what becomes of the salt and the water that food is boiled
// in. Dry pasta takes up 1.42 times its weight (SR28 20120, 20121); 12 oz are 340 g,
// 4 quarts 3,785 g, a pound 454 g.
func TestCookingWater(t *testing.T) {
	e := newEngine(t)
	const pasta, potato = "12 oz spaghetti\n4 quarts water\n2 tbsp salt\n1 jar (24 oz) marinara sauce\n", "2 lb potatoes\n1 tbsp salt\nwater to cover\n2 tbsp unsalted butter\n"
	for _, c := range []struct {
		ingredients, directions string
		share                   float64 // of the largest line of salt, eaten
		note                    string  // what is left open; "" if nothing
	}{
		{pasta, "Bring salted water to a boil; cook pasta and drain. Toss with the sauce.", 0.1276, ""},
		{pasta, "Bring a large pot of salted water to a boil. Meanwhile, heat the sauce in a skillet. Cook the pasta in the boiling water; drain.", 0.1276, ""},
		{pasta, "Salt the water. Boil the spaghetti 10 minutes and drain well. Add the sauce.", 0.1276, ""},
		{pasta, "Cook the spaghetti in boiling salted water. Drain.", 0.1276, ""},
		{pasta, "Bring water and salt to a boil. Cook spaghetti 9 minutes. Reserve 1 cup pasta water; drain. Stir in the sauce and the pasta water.", 0.1276 + 236.6/3785, ""},
		{"12 oz spaghetti\n2 tbsp salt\n", "Boil the spaghetti in salted water and drain.", 1.0 / 6, ""},
		{"12 oz spaghetti\n2 tbsp salt\n", "Boil the spaghetti in 3 quarts of salted water and drain.", 1.42 * 340.2 / 2839, ""},
		{"12 oz spaghetti\n2 tbsp salt\n1/2 tsp salt\n", "Boil the spaghetti in salted water and drain. Season with salt.", 1.0 / 6, ""},
		{"12 oz spaghetti\n2 tbsp salt\n", "Boil the spaghetti in salted water and drain. Season with salt.", 1, "keep 20% of the water"},
		{"12 oz spaghetti\n2 tbsp salt\n", "Boil the spaghetti and drain. Toss with the sauce.", 1, "keep 20% of the water"},
		{"12 oz spaghetti\n1/2 tsp salt\n", "Boil the spaghetti and drain.", 1, ""},
		{"12 oz spaghetti\n1 tbsp salt\n", "Bring a pot of water to the boil with a tablespoon of salt. Add the pasta and cook until al dente. Drain and toss.", 1.0 / 6, ""},
		{"12 oz spaghetti\n1 tbsp salt\n", "Fill a pot with water and add the salt. Bring to a rolling boil and add spaghetti. Cook 10 minutes, then drain.", 1.0 / 6, ""},
		{"12 oz spaghetti\n2 tbsp salt\n", "Cook the spaghetti in boiling water; drain. Salt to taste.", 1, "keep 20% of the water"},
		{potato, "Boil in the salted water. Drain.", 1.0 / 6, ""},
		{potato, "Put the potatoes and salt in a pot and cover with water. Boil 20 minutes; drain. Mash with the butter.", 1.0 / 6, ""},
		{potato, "Cover the potatoes with water, add the salt and bring to a boil. Simmer 15 minutes. Drain and mash.", 1.0 / 6, ""},
		{potato, "Cook the potatoes in salted water until tender, drain and mash with the butter.", 1.0 / 6, ""},
		{potato, "Boil the potatoes. Drain. Mash with the butter and the salt.", 1, ""},
		{"1 lb green beans\n1 tbsp salt\n", "Blanch the beans in salted water.", 1.0 / 6, ""},
		{"12 oz spaghetti\n2 tbsp salt\n", "Cook the spaghetti in salted water until al dente. Toss with the sauce.", 1.0 / 6, ""},
		{"6 ears corn\n1 tbsp salt\n", "Boil the corn in salted water 6 minutes.", 1, "do not say that the water is poured off"},
		{"1 cup rice\n1 tbsp salt\n", "Boil the rice in salted water until the water is absorbed.", 1, ""},
		{"1 cup rice\n2 cups water\n1 tsp salt\n", "Bring the water and salt to a boil; add the rice, cover and simmer 20 minutes.", 1, ""},
		{"1 lb lentils\n2 quarts water\n1 tbsp salt\n", "Simmer the lentils in the water with the salt 45 minutes.", 1, ""},
	} {
		r := recipe(t, "Dish\nServes 4\n\n"+c.ingredients+"\nDirections\n"+c.directions)
		plain := e.Analyse(r)
		a := e.Served(r, plain, engine.Told{})
		most := -1
		for i := range plain.Lines {
			l := &plain.Lines[i]
			if l.Status == engine.Counted && strings.HasPrefix(l.Food.Name(), "salt") && (most < 0 || l.Grams.Low > plain.Lines[most].Grams.Low) {
				most = i
			}
			// Much water is in no weight.
			if l.Status == engine.Counted && l.Food.Name() == "water" && l.Grams.Low > 3000 && a.Lines[i].Grams.Low != 0 {
				t.Errorf("%s\n\t%g g of the water are in the weight", c.directions, a.Lines[i].Grams.Low)
			}
		}
		if share := a.Lines[most].Grams.Low / plain.Lines[most].Grams.Low; math.Abs(share-c.share) > 0.001 {
			t.Errorf("%s%s\n\tshare of the salt %.4f, want %.4f", c.ingredients, c.directions, share, c.share)
		}
		if notes := strings.Join(a.Notes, "; "); c.note == "" && strings.Contains(notes, "counted") || !strings.Contains(notes, c.note) {
			t.Errorf("%s\n\tnotes %q, want %q", c.directions, notes, c.note)
		}
		if said := strings.Join(a.Lines[most].Assumed, "; "); c.share < 1 && (!strings.Contains(said, "keep 10% of the water") || strings.Contains(said, "all of this salt is counted")) {
			t.Errorf("%s\n\tassumed %q", c.directions, said)
		}
		// What is poured off is nothing to advise on.
		for _, s := range e.Suggest(r, engine.All, func(r *grammar.Recipe, a *engine.Analysis) *engine.Analysis { return e.Served(r, a, engine.Told{}) }, nil) {
			if c.share < 1 && strings.Contains(s.What, " salt") && strings.Contains(s.What, "instead of 2 tbsp") {
				t.Errorf("%s\n\tsuggested: %s", c.directions, s.What)
			}
		}
	}
}

// TestCookingWaterTold holds a share of the water that is told, also where the
// directions leave open what becomes of the salt.
func TestCookingWaterTold(t *testing.T) {
	e := newEngine(t)
	for _, directions := range []string{"Boil the pasta in salted water; drain.", "Boil the pasta and drain."} {
		r := recipe(t, "Dish\nServes 4\n\n12 oz spaghetti\n4 quarts water\n2 tbsp salt\n\nDirections\n"+directions)
		plain := e.Analyse(r)
		a := e.Served(r, plain, engine.Told{Kept: map[engine.KeptKind]float64{engine.KeptWater: 0.1}})
		salt, water := lineOf(t, plain, "salt"), lineOf(t, plain, "water")
		if share := a.Lines[salt].Grams.Low / plain.Lines[salt].Grams.Low; math.Abs(share-0.1) > 1e-9 || a.Lines[water].Grams.Low != 0 {
			t.Errorf("%s: share %g, %g g of water", directions, share, a.Lines[water].Grams.Low)
		}
	}
}

// TestWaterOfTheDish holds that water which stays in the dish stays in its weight.
func TestWaterOfTheDish(t *testing.T) {
	e := newEngine(t)
	for directions, stays := range map[string]bool{
		"Simmer the chicken in the water 1 hour. Cook the noodles in another pot of boiling water; drain and add.":  true,
		"Bring the water to a boil, add the chicken and simmer 1 hour. Cook noodles by the package; drain and add.": true,
		"Bring the water to a boil. Cook the noodles 8 minutes and drain. Fry the chicken.":                         false,
		"Boil the noodles and drain. Fry the chicken.":                                                              false,
		"Simmer all together 30 minutes.":                                                                           true,
	} {
		r := recipe(t, "Dish\nServes 4\n\n3 quarts water\n1 lb egg noodles\n1 lb boneless chicken thighs\n\nDirections\n"+directions)
		plain := e.Analyse(r)
		if water := e.Served(r, plain, engine.Told{}).Lines[lineOf(t, plain, "water")].Grams.Low; (water > 0) != stays {
			t.Errorf("%s: %g g of water", directions, water)
		}
	}
}
