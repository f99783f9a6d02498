package engine_test

import (
	"math"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestDiscarded holds what directions throw away. Of a brine it is 10 % of the
// weight of the meat: 4 lb of pork in 146 g salt, 100 g sugar and 3,789 g water.
func TestDiscarded(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		name, text string
		want       map[string]float64 // share kept by what the line begins with
	}{
		{"marinade under a heading", "Chicken\nServes 4\n\nMarinade:\n1/2 cup soy sauce\n2 tbsp honey\nChicken:\n1 lb chicken breasts\n1 cup carrots\n\nDirections\nCover the chicken with the marinade overnight. Remove chicken and discard the marinade. Grill 10 minutes.",
			map[string]float64{"1/2 cup soy": 0.25, "2 tbsp honey": 0.25}},
		{"marinade by the steps", "Chicken\nServes 4\n\n1 lb chicken breasts\n1/2 cup soy sauce\n2 cloves garlic\n1 cup carrots\n\nDirections\nMix soy sauce and garlic. Add the chicken and marinate 2 hours. Remove chicken from marinade. Grill 10 minutes. Serve with carrots.",
			map[string]float64{"1/2 cup soy": 0.25, "2 cloves": 0.25}},
		{"marinade used", "Chicken\nServes 4\n\n1 lb chicken breasts\n1/2 cup soy sauce\n\nDirections\nAdd the chicken to the soy sauce and marinate 2 hours. Drain, reserving the marinade. Grill 10 minutes.", nil},
		{"marinade kept", "Chicken\nServes 4\n\n1 lb chicken breasts\n1/2 cup soy sauce\n\nDirections\nAdd the chicken to the soy sauce and marinate 2 hours. Bake with the marinade 30 minutes.", nil},
		{"fat", "Tacos\nServes 4\n\n1 lb ground beef (80% lean)\n\nDirections\nBrown the beef in a skillet; drain off the fat.",
			map[string]float64{"1 lb ground": 17.36 / 27.00 / (20.00 / 17.17)}},
		{"drain after browning", "Tacos\nServes 4\n\n1 lb ground beef (70% lean)\n\nDirections\nBrown the beef in a skillet. Drain.",
			map[string]float64{"1 lb ground": 17.86 / 25.56 / (30.00 / 14.35)}},
		{"nothing to drain", "Tacos\nServes 4\n\n1 lb ground beef (97% lean)\n\nDirections\nBrown the beef in a skillet. Drain.",
			map[string]float64{"1 lb ground": 1}},
		{"fat stays", "Tacos\nServes 4\n\n1 lb ground beef (80% lean)\n1 (15-oz) can black beans\n\nDirections\nBrown the beef in a skillet. Drain the beans and add.", nil},
		{"salt of the pasta water", "Pasta\nServes 4\n\n1 tbsp salt, for the pasta water\n1 lb spaghetti\n\nDirections\nBoil the spaghetti 10 minutes and drain.",
			map[string]float64{"1 tbsp salt": 1.0 / 6}},
		{"salt put in the pasta water", "Pasta\nServes 4\n\n1 tbsp salt\n1 lb spaghetti\n3 eggs\n\nDirections\nBring a large pot of water to a boil; add the salt. Cook spaghetti; drain, reserving 1 cup of the pasta water. Toss with the eggs.",
			map[string]float64{"1 tbsp salt": 1.0 / 6}},
		{"salt of a stock that is strained", "Stock\nServes 8\n\n3 lb chicken backs\n1 tbsp salt\n3 quarts water\n\nDirections\nSimmer the chicken and salt in the water 2 hours. Strain.", nil},
		{"salt of the dish", "Pasta\nServes 4\n\n1 tsp salt\n1 lb spaghetti\n\nDirections\nBoil the spaghetti 10 minutes and drain. Season with salt.", nil},
		{"brine", "Pork\nServes 8\n\n4 lb pork shoulder\n1/2 cup salt\n1/2 cup sugar\n1 gallon water\n1 tbsp paprika\n1 tsp salt\n\nDirections\nBrine overnight, discard the brine. Rub with paprika. Roast at 325 F for 3 hours.",
			map[string]float64{"1/2 cup salt": 0.045, "1/2 cup sugar": 0.045, "1 gallon": 0.045}},
		{"brine of meat that is dried", "Turkey\nServes 8\n\n12 lb turkey\n1 cup salt\n2 gallons water\n2 cups chicken broth\n\nDirections\nDissolve the salt in the water. Add the turkey and brine overnight. Remove and pat dry. Roast 3 hours. Make a gravy of the broth.",
			map[string]float64{"1 cup salt": 0.0408, "2 gallons": 0.0408}},
		{"brine under a heading", "Chicken\nServes 4\n\nFor the brine:\n1/4 cup salt\n4 cups water\nFor the chicken:\n2 lb chicken thighs\n1 tsp salt\n\nDirections\nBrine 2 hours, drain and roast with the salt 40 minutes.",
			map[string]float64{"1/4 cup": 0.0738, "4 cups": 0.0738}},
		{"brine of a pickle", "Pickles\nServes 16\n\n2 lb cucumbers\n2 cups vinegar\n3 tbsp pickling salt\n\nDirections\nBoil the brine. Drain the cucumbers and pour the brine over.", nil},
		{"brine as an ingredient", "Salad\nServes 4\n\n1 lb potatoes\n4 oz ham\n1 tsp salt\n1/4 cup pickle brine\n\nDirections\nBoil the potatoes. Stir in the brine and the ham, drain.", nil},
		{"poaching liquid", "Salmon\nServes 4\n\n1 1/2 lb salmon fillet\n4 cups water\n2 cups white wine\n2 tbsp salt\n1 tbsp butter\n\nDirections\nPoach the salmon 12 minutes. Discard the poaching liquid. Top with butter.",
			map[string]float64{"4 cups": 0.1, "2 cups": 0.1, "2 tbsp salt": 0.1}},
		{"poaching liquid, out of it", "Chicken\nServes 4\n\n1 lb chicken breasts\n4 cups chicken broth\n1 tbsp lemon juice\n\nDirections\nPoach the chicken in the broth 15 minutes. Remove from the poaching liquid. Whisk a dressing of the lemon juice.",
			map[string]float64{"4 cups": 0.1}},
		{"poaching liquid used", "Salmon\nServes 4\n\n1 1/2 lb salmon fillet\n2 cups white wine\n1 tsp salt\n\nDirections\nPoach the salmon in the wine. Remove from the poaching liquid. Boil the liquid down to a sauce.", nil},
		{"eggs poached", "Hash\nServes 4\n\n4 eggs\n1 lb potatoes\n1 tsp salt\n\nDirections\nFry the potatoes. Poach the eggs and drain on towels.", nil},
		{"no directions", "Pasta\nServes 4\n\n1 tsp salt\n1 lb spaghetti\n", nil},
	} {
		r := recipe(t, c.text)
		a := e.Analyse(r)
		got := e.Discarded(a, r.Method)
		if len(got) != len(c.want) {
			t.Errorf("%s: %+v, want %v", c.name, got, c.want)
		}
		for _, k := range got {
			found := false
			for begin, share := range c.want {
				found = found || strings.HasPrefix(a.Lines[k.Line].Text, begin) && math.Abs(k.Share-share) < 1e-4
			}
			if !found || k.Source == "" {
				t.Errorf("%s: %s: kept %g (%s)", c.name, a.Lines[k.Line].Text, k.Share, k.Source)
			}
		}
	}
}

// TestKeep holds the figures after throwing away.
func TestKeep(t *testing.T) {
	e := newEngine(t)
	a := e.Analyse(dish(t, "100 g soy sauce", "100 g ground beef (80% lean)"))
	sodium := func(a *engine.Analysis, line int) float64 { r, _ := a.Lines[line].Has(fooddata.Sodium); return r.Low }

	b, err := a.Keep(engine.Kept{Line: lineOf(t, a, "soy"), Kind: engine.KeptMarinade, Share: 0.1, Source: "told"})
	if err != nil {
		t.Fatal(err)
	}
	soy := lineOf(t, a, "soy")
	if got, want := sodium(b, soy), sodium(a, soy)*0.1; math.Abs(got-want) > 1e-9 {
		t.Errorf("sodium %g, want %g", got, want)
	}
	if math.Abs(b.Grams.Low-110) > 1e-9 {
		t.Errorf("%g g left, want 110", b.Grams.Low)
	}
	if said := strings.Join(b.Lines[soy].Assumed, "; "); !strings.Contains(said, "10 % of this marinade kept, the rest thrown away (told)") {
		t.Errorf("assumed: %s", said)
	}

	// Half of 20 g fat drained: 10 g and 90.2 kcal (9.02 kcal/g) of 254.
	beef := lineOf(t, a, "beef")
	b, err = a.Keep(engine.Kept{Line: beef, Kind: engine.KeptFat, Share: 0.5, Source: "told"})
	if err != nil {
		t.Fatal(err)
	}
	fat, _ := b.Lines[beef].Has(fooddata.Fat)
	energy, _ := b.Lines[beef].Has(fooddata.Energy)
	protein, _ := b.Lines[beef].Has(fooddata.Protein)
	if math.Abs(fat.Low-10) > 1e-9 || math.Abs(energy.Low-(254-90.2)) > 1e-9 || protein.Low != 17.17 {
		t.Errorf("%g g fat, %g kcal, %g g protein", fat.Low, energy.Low, protein.Low)
	}

	// The order of throwing away and cooking does not matter.
	cookedAfter := e.Cooked(b, named(t, "fried"))
	cookedBefore, err := e.Cooked(a, named(t, "fried")).Keep(engine.Kept{Line: beef, Kind: engine.KeptFat, Share: 0.5, Source: "told"})
	if err != nil {
		t.Fatal(err)
	}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		if x, y := cookedAfter.Recipe[n].Low, cookedBefore.Recipe[n].Low; math.Abs(x-y) > 1e-9*(1+x) {
			t.Errorf("%s: %g or %g, by the order", n, x, y)
		}
	}

	for _, k := range []engine.Kept{{Line: -1, Share: 1}, {Line: 99, Share: 1}, {Line: beef, Share: -0.1}, {Line: beef, Share: 1.1}, {Line: beef, Share: math.NaN()}, {Line: 0, Share: 0.5}} {
		if k.Line == 0 && a.Lines[0].Status == engine.Counted {
			continue
		}
		if _, err := a.Keep(k); err == nil {
			t.Errorf("%+v was taken", k)
		}
	}
	if _, err := e.KeptByDefault(a, soy, engine.KeptFat); err == nil {
		t.Error("fat was drained from soy sauce")
	}
}

func lineOf(t *testing.T, a *engine.Analysis, food string) int {
	t.Helper()
	for i := range a.Lines {
		if a.Lines[i].Status == engine.Counted && strings.Contains(a.Lines[i].Food.Name(), food) {
			return i
		}
	}
	t.Fatalf("no line of %s", food)
	return 0
}
