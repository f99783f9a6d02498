package engine_test

import (
	"math"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestPrepared holds that words of preparation choose a measure, or the fresh
// herb, and never another food.
//
// Sources: SR28's own measures of the foods; a smaller raw pork chop of 151 g with
// bone (10048) less the refuse of 10040, 31 %; broccoli 39 % refuse, 19 % as spears
// (USDA Food Buying Guide, from memory).
func TestPrepared(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line, number string
		grams        float64
	}{
		{"2 tsp minced garlic", "11215", 5.6},
		{"1/4 cup minced onion", "11282", 40},
		{"1 lb minced beef", "23572", 453.6},
		{"1 tbsp chopped fresh thyme", "02049", 2.4},
		{"1 tsp thyme", "02042", 1},
		{"1 tbsp rosemary, chopped", "02063", 1.7},
		{"1 tsp dried rosemary, crushed", "02036", 1.2},
		{"2 tbsp chopped coriander", "11165", 2},
		{"1 cup cream, whipped", "01053", 238},
		{"1 Tbsp trans-fat-free margarine", "04610", 14},
		{"1 cup peanuts, no salt added", "16390", 146},
		{"1 lb ground beef, extra lean", "23557", 453.6},
		{"1 cup blueberries, fresh or frozen", "09050", 148},
		{"1 cup blueberries, frozen or fresh", "09054", 155},
		{"1 cup corn, fresh, frozen, or canned", "11167", 145},
		{"1 cup lentils, canned", "16070", 198},
		{"1 (15 oz) can lentils", "16070", 255},
		{"6 lean center-cut pork chops, ½-inch thick", "10040", 624},
		{"6 lean center-cut pork chops, 1 inch thick", "10040", 1068},
		{"1 lb broccoli, cut into florets", "11090", 277},
		{"1 lb broccoli, cut into spears", "11090", 367},
		{"1 lb broccoli florets", "11090", 453.6},
		{"1 cup strawberries", "09316", 144},
		{"1 cup sliced strawberries", "09316", 166},
		{"1 pint strawberries", "09316", 357},
		{"1 cup tomatoes", "11529", 180},
		{"1 cup cheddar", "01009", 113},
		{"1 pint sour cream", "01056", 460},
		{"2 tbsp frozen apple juice concentrate", "09017", 35},
	} {
		l := resolve(t, e, c.line)
		if l.Food.IsZero() || l.Food.Number() != c.number || math.Abs(l.Grams.Low/c.grams-1) > 0.02 {
			t.Errorf("%q: %v %.1f g, want USDA %s, %g g", c.line, l.Food, l.Grams.Low, c.number, c.grams)
		}
	}
	for _, line := range []string{"4 oz feta, fat-free", "1 cup milk, canned"} {
		if l := e.Resolve(grammar.ParseLine(line).Items[0]); l.Status != engine.Ask {
			t.Errorf("%q is counted as %v", line, l.Food)
		}
	}
}
