package engine_test

import (
	"math"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestPortionMeant holds which of a food's measures a line means (grams of SR28
// portions).
func TestPortionMeant(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line  string
		grams float64
	}{
		{"1 small red cabbage", 567}, {"1 medium red cabbage", 839}, {"1 red cabbage", 839}, {"1 large red cabbage", 1134},
		{"1 small cabbage", 714}, {"1 small head cabbage", 714}, {"1 small cauliflower", 265},
		{"1/2 cup walnuts", 50}, {"1 cup walnuts, chopped", 117}, {"1 cup ground walnuts", 80}, {"1 cup walnut halves", 100}, {"1 cup pecans", 99},
		{"1 cup almonds", 143}, {"1 tsp black pepper", 2.3}, {"1 tsp ground cinnamon", 2.6},
		{"1 cup mashed sweet potato", 328}, {"1 cup sweet potato, mashed", 328},
		{"2 cans tuna, drained", 226}, // 4 oz each, from memory
	} {
		if l := resolve(t, e, c.line); math.Abs(l.Grams.Low-c.grams) > 0.5 {
			t.Errorf("%q: %s, %g g, want %g", c.line, l.Food.Name(), l.Grams.Low, c.grams)
		}
	}
}

// TestNothingSaidForNothing holds that a note tells something: no refuse of what
// is bought without it, no word set aside that the food has.
func TestNothingSaidForNothing(t *testing.T) {
	e := newEngine(t)
	for _, line := range []string{"1 lb boneless skinless chicken thighs", "8 oz walnuts", "1 cup long-grain white rice", "1 cup canned black turtle beans", "1 cup cooked brown rice", "1 lb boneless pork shoulder"} {
		if l := resolve(t, e, line); strings.Contains(strings.Join(l.Assumed, ";"), "as bought") || strings.Contains(strings.Join(l.Assumed, ";"), "not taken into account") {
			t.Errorf("%q: %q", line, l.Assumed)
		}
	}
	if l := resolve(t, e, "2 lb lamb shoulder"); !strings.Contains(strings.Join(l.Assumed, ";"), "21 % of it is bone") || strings.Contains(strings.Join(l.Assumed, ";"), "bone 21") {
		t.Errorf("lamb shoulder: %q", l.Assumed)
	}
}

// TestAnotherFoodByKeeping holds that what keeps a food for months makes
// another of it: without a name of its own it is asked about.
func TestAnotherFoodByKeeping(t *testing.T) {
	e := newEngine(t)
	for _, line := range []string{"1 preserved lemon", "1 lemon, preserved", "1 cup pickled red onions", "2 tbsp candied ginger", "1 cup fermented black beans", "2 salted anchovies", "1 cup brined turkey", "1 lb cured salmon"} {
		if l := e.Resolve(grammar.ParseLine(line).Items[0]); l.Status != engine.Ask {
			t.Errorf("%q is %s as %s", line, l.Status, l.Food.Name())
		}
	}
	for line, food := range map[string]string{"2 pickled jalapeños": "pickled", "100 g salted cod": "salt cod", "1 cup salted peanuts": "salted", "2 tbsp strawberry preserves": "preserves"} {
		if l := resolve(t, e, line); !strings.Contains(l.Food.Name(), food) {
			t.Errorf("%q is %s", line, l.Food.Name())
		}
	}
}
