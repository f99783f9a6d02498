package engine_test

import (
	"math"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestImperial holds the pints and fluid ounces of British recipes. An imperial pint
// is 568 ml, SR28's 01079 is 244 g and its 01053 238 g in a cup of 236.6 ml.
func TestImperial(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe string
		grams  float64 // of the last line
		said   string  // among its assumptions; "" for nothing of ounces and pints
	}{
		{"2 tbsp caster sugar\n1 pint semi-skimmed milk", 586, "imperial pint"},
		{"1 pint milk\n1/2 pint double cream", 286, "American one"},
		{"4 oz plain flour\n8 fl oz single cream", 231, "imperial fluid ounces"},
		{"1 courgette\n1 tin chickpeas\n1 pint milk", 586, "imperial pint"},
		{"1 cup all-purpose flour\n1 pint milk", 488, ""},
		{"4 oz butter\n1 pint milk", 488, ""},
		{"8 oz heavy cream\n2 tbsp caster sugar\n1 pint milk", 488, ""},
		{"1 cup sugar\n8 fl oz heavy cream", 238, ""},
		{"2 tbsp caster sugar\n1 vegetable stock cube", 10, "British cube"},
		{"1 tin tomatoes\n2 beef stock cubes", 20, "British cube"},
		{"1 cup rice\n1 chicken bouillon cube", 4.8, "British cubes weigh about 10 g"},
	} {
		r, err := grammar.ParseRecipe("Test\nServes 4\n\n" + c.recipe)
		if err != nil {
			t.Fatal(err)
		}
		a := e.Analyse(r)
		l := a.Lines[len(a.Lines)-1]
		assumed := strings.Join(l.Assumed, "; ")
		if math.Abs(l.Grams.Low-c.grams) > 0.02*c.grams {
			t.Errorf("%q: %.1f g, want %.1f (%s)", c.recipe, l.Grams.Low, c.grams, assumed)
		}
		if !strings.Contains(assumed, c.said) || c.said == "" && strings.Contains(assumed, "imperial") {
			t.Errorf("%q: assumed %q, want %q", c.recipe, assumed, c.said)
		}
	}
}

// TestSaltDrawn holds what becomes of salt that draws water from vegetables, or that
// its line says is for the water.
func TestSaltDrawn(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe string
		open   bool    // said to be counted in full
		share  float64 // of the salt that is counted
	}{
		{"2 aubergines, sliced\n1 tbsp salt\n\nDirections\nSprinkle the aubergine slices with the salt and leave for 30 minutes. Rinse and pat dry. Fry.", true, 1},
		{"1 cucumber\n1 tbsp salt\n\nDirections\nToss the cucumber with the salt, let stand 30 minutes, then squeeze out the liquid.", true, 1},
		{"1 lb cabbage, shredded\n1 tbsp salt\n\nDirections\nSprinkle cabbage with salt and let stand 1 hour. Drain well.", true, 1},
		{"1 lb cabbage, shredded\n1 tbsp salt\n\nDirections\nMix the cabbage with the salt and serve.", false, 1},
		{"1 lb cabbage, shredded\n1 tbsp salt\n\nDirections\nSprinkle cabbage with salt. Fry 10 minutes. Drain on paper towels.", false, 1},
		{"3 cups flour\n1 tbsp salt\n\nDirections\nMix the flour and the salt. Let stand 1 hour. Pat the dough flat.", false, 1},
		{"3 tomatoes\n1 tbsp salt\n1 lemon\n\nDirections\nToss the tomatoes with the salt. Let stand 5 minutes. Serve. Squeeze the lemon over.", false, 1},
		{"3 tomatoes\n1 tbsp salt\n1 can white beans\n\nDirections\nSprinkle the tomatoes with the salt. Let stand 5 minutes. Serve on plates. Drain the white beans and toss.", false, 1},
		{"1 lb spaghetti\n1 tbsp salt (for pasta water)", false, 1.0 / 6},
		{"1 lb spaghetti\n1 tbsp salt for the pasta water", false, 1.0 / 6},
		{"1 lb spaghetti\n1 tbsp salt, for the water", false, 1.0 / 6},
		{"1 cup polenta\n1 tbsp salt, for the water\n\nDirections\nCook until the water is absorbed.", false, 1},
		{"2 cups flour\n1 tbsp salt dissolved in 1 cup boiling water", false, 1},
	} {
		r, err := grammar.ParseRecipe("Test\nServes 2\n\n" + c.recipe)
		if err != nil {
			t.Fatal(err)
		}
		raw := e.Analyse(r)
		a := e.Served(r, raw, engine.Told{})
		for i := range raw.Lines {
			if raw.Lines[i].Food.IsZero() || raw.Lines[i].Food.Number() != "02047" {
				continue
			}
			if share := a.Lines[i].Grams.Low / raw.Lines[i].Grams.Low; math.Abs(share-c.share) > 0.01 {
				t.Errorf("%q: %.2f of the salt is counted, want %.2f", c.recipe, share, c.share)
			}
		}
		if open := strings.Contains(strings.Join(a.Notes, "\n"), "keep 25% of the water"); open != c.open {
			t.Errorf("%q: notes %q", c.recipe, a.Notes)
		}
	}
}

// TestTrifle leaves what is too little to move a figure.
func TestTrifle(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line   string
		status engine.Status
	}{
		{"a pinch of hing", engine.NotCounted},
		{"10 curry leaves", engine.NotCounted},
		{"a few curry leaves", engine.NotCounted},
		{"drop vanilla extract", engine.NotCounted},
		{"1 dash angostura", engine.NotCounted},
		{"pinch cayenne", engine.Counted},
		{"2 banana leaves", engine.Ask},
		{"1 cup curry leaves", engine.Ask},
		{"1 tbsp hing", engine.Ask},
		{"a pinch of salt substitute", engine.Ask},
		{"cup sugar", engine.Ask},
	} {
		if l := resolved(t, e, c.line); l.Status != c.status || l.Status == engine.NotCounted && l.Why == "" {
			t.Errorf("%q: %s, want %s (%s)", c.line, l.Status, c.status, l.Why)
		}
	}
}

// TestDishOnABun asks whether what is eaten on a bun is meant with it.
func TestDishOnABun(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line   string
		status engine.Status
		choice string
	}{
		{"1 hamburger", engine.Ask, "21107"},
		{"1 grillhouse hamburger", engine.Ask, "21107"},
		{"1 burger", engine.Ask, "21107"},
		{"1 hot dog", engine.Ask, "21118"},
		{"1 hotdog", engine.Ask, "21118"},
		{"1 lb hamburger", engine.Counted, ""},
		{"4 hamburger patties", engine.Counted, ""},
		{"1 hamburger on a bun", engine.Counted, ""},
		{"1 nutritional yeast", engine.Ask, ""},
	} {
		l := resolved(t, e, c.line)
		if l.Status != c.status || c.choice != "" && (len(l.Choices) == 0 || l.Choices[0].Number() != c.choice) {
			t.Errorf("%q: %s %s, choices %v", c.line, l.Status, l.Food, l.Choices)
		}
	}
	l := resolved(t, e, "1 burgermat cheeseburger")
	if !strings.Contains(strings.Join(l.Assumed, "; "), "makers differ") {
		t.Errorf("a maker is dropped: %q", l.Assumed)
	}
}
