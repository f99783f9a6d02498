package engine_test

import (
	"math"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestBaconDrippings holds what stays of the fat of bacon. A third does where the
// drippings are thrown away: 35.09 g fat to 33.92 g protein in SR28 10862, fried,
// 39.69 to 12.62 in 10123, raw; a pound of bacon has 180 g, a tablespoon of
// drippings 13 g (common practice, no source).
func TestBaconDrippings(t *testing.T) {
	e := newEngine(t)
	const third, spoon = 35.09 / 33.92 / (39.69 / 12.62), 13 / 180.03
	for directions, want := range map[string]float64{
		"Cook bacon until crisp; reserve 2 tbsp drippings and discard the rest. Fry the potatoes in the drippings.": third + 2*spoon,
		"Cook bacon until crisp. Discard all but 1 tbsp of the drippings. Add the potatoes.":                        third + spoon,
		"Fry the bacon; pour off all but 1 tablespoon fat.":                                                         third + spoon,
		"Cook the bacon in a skillet until crisp. Remove, reserving 1 tbsp of the fat in the pan.":                  third + spoon,
		"Fry the bacon until crisp; drain off the fat.":                                                             third,
		"Bake the bacon until crisp. Discard the drippings.":                                                        third,
		"Cook the bacon until crisp; drain on paper towels, and discard the bacon grease.":                          third,
		"Cook the bacon until crisp. Reserve the drippings. Fry the potatoes in the drippings.":                     1,
		"Fry the bacon until crisp. Do not drain the fat. Add the potatoes.":                                        1,
		"Fry the bacon until crisp. Add the potatoes.":                                                              1,
		"Wrap the potatoes in the bacon.":                                                                           1,
	} {
		r := recipe(t, "Dish\nServes 4\n\n1 lb bacon\n1 lb potatoes\n\nDirections\n"+directions)
		plain := e.Analyse(r)
		at := lineOf(t, plain, "bacon")
		all, _ := plain.Lines[at].Has(fooddata.Fat)
		fat, _ := e.Served(r, plain, engine.Told{}).Lines[at].Has(fooddata.Fat)
		if share := fat.Low / all.Low; math.Abs(share-want) > 0.002 {
			t.Errorf("%s: %.3f of the fat, want %.3f", directions, share, want)
		}
	}
	// Each meat's own.
	r := recipe(t, "Dish\nServes 4\n\n1 lb bacon\n1 lb ground beef\n\nDirections\nFry the bacon until crisp; pour off the fat. Brown the beef in a skillet and add the bacon.")
	plain := e.Analyse(r)
	at := lineOf(t, plain, "ground beef")
	all, _ := plain.Lines[at].Has(fooddata.Fat)
	if fat, _ := e.Served(r, plain, engine.Told{}).Lines[at].Has(fooddata.Fat); fat != all {
		t.Errorf("the beef lost the bacon's fat: %g of %g g", fat.Low, all.Low)
	}
}
