package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
)

// TestReadCooking reads directions as recipes have them.
func TestReadCooking(t *testing.T) {
	for _, c := range []struct {
		directions string // lines divided by "|"
		method     string // "" if none is told
		minutes    int
	}{
		{"Simmer 45 minutes.", "simmered", 45},
		{"Bake 1 hour 10 min", "baked", 70},
		{"Preheat oven to 350°F. Bake for 1 1/2 hours.", "baked", 90},
		{"Bake at 375 degrees F for 25-30 minutes or until golden brown.", "baked", 25},
		{"Bake, uncovered, 1½ hours", "baked", 90},
		{"Bake for an hour and a half.", "baked", 90},
		{"Simmer for half an hour, then stir in parsley.", "simmered", 30},
		{"Simmer 1 to 1 1/2 hours", "simmered", 60},
		{"Roast the chicken for 1 hour and 20 minutes. Let rest 15 minutes.", "roasted", 80},
		{"Bring to a boil, reduce heat and simmer 20 minutes.", "simmered", 20},
		{"Heat oil in a large skillet over medium heat. Add onion; cook 5 minutes.", "sautéed", 5},
		{"Sauté the onions for 5 minutes. Add the stock and simmer for 45 minutes.", "simmered", 45},
		{"Boil the potatoes for 20 minutes; drain and mash.", "boiled and drained", 20},
		{"Cook pasta according to package directions.", "boiled and drained", 0},
		{"Cook the beans in a slow cooker on low for 8 hours.", "simmered", 480},
		{"Place everything in a slow cooker.|Cover and cook on high 4 hours.", "simmered", 240},
		{"Steam the broccoli until tender, 4 to 5 minutes.", "steamed", 4},
		{"Stir-fry the beef for 3 minutes.", "stir-fried", 3},
		{"Grill over medium heat, 5 to 6 minutes per side.", "grilled", 10},
		{"Place under the broiler until browned, 2 minutes.", "broiled", 2},
		{"Microwave on high for 90 seconds.", "microwaved", 1},
		{"Put the dish in the oven until bubbly.", "baked", 0},
		{"Pour over the brandy and carefully flame.", "flamed", 0},
		{"Bake 15 minutes at 425. Reduce heat to 350 and bake 30 minutes more.", "baked", 45},
		{"Brown the beef 10 minutes, add wine and braise for 2 1/2 hours.", "simmered", 150},
		{"Dredge the fish in flour. Heat oil in a skillet and fry the fish 4 minutes.", "fried in a coating", 4},
		{"Cover and refrigerate overnight.", "stored overnight", 0},
		{"Simmer, stirring every 10 minutes, until thick.", "simmered", 0},
		{"Cook 3 minutes; bake for 20 minutes.", "baked", 20},

		// No method.
		{"", "", 0},
		{"Toss the lettuce with the dressing and serve.", "", 0},
		{"Preheat oven to 350°F. Grease a baking dish.", "", 0},
		{"Mix flour, baking powder, baking soda and brown sugar.", "", 0},
		{"Do not boil.", "", 0},
		{"Cook until done.", "", 0},
		{"Chill for 2 hours.", "", 0},
		{"Top with the roasted peppers and toasted almonds.", "", 0},
		{"Slice the roast beef and serve on toast.", "", 0},
		{"Heat the grill.", "", 0},
		{"\x00\xff ∞ ,,, .. 1/0 minutes", "", 0},
	} {
		got, ok := engine.ReadCooking(strings.Split(c.directions, "|"))
		if ok != (c.method != "") || got.Method != c.method || got.Minutes != c.minutes {
			t.Errorf("%q: %q %d %t from %q, want %q %d", c.directions, got.Method, got.Minutes, ok, got.Said, c.method, c.minutes)
		}
		if ok && !strings.Contains(c.directions, got.Said) {
			t.Errorf("%q: read from %q, which it does not say", c.directions, got.Said)
		}
	}
}

// TestCookingNamed reads methods that are told.
func TestCookingNamed(t *testing.T) {
	for _, c := range []struct {
		words   string
		method  string // "" if not understood
		minutes int
	}{
		{"baked", "baked", 0},
		{"Baked 1 hour 10 min", "baked", 70},
		{"boiled 20 minutes", "boiled", 20},
		{"boiled and drained", "boiled and drained", 0},
		{"boiled, drained", "boiled and drained", 0},
		{"boiled 10 min and drained", "boiled and drained", 10},
		{"boiled, not drained", "boiled", 0},
		{"boiled in little water and drained", "boiled in little water and drained", 0},
		{"simmered 45 min", "simmered", 45},
		{"it was simmered for 2 hours", "simmered", 120},
		{"stewed for 1½ hours", "simmered", 90},
		{"stir-fried", "stir-fried", 0},
		{"stir fried 5 minutes", "stir-fried", 5},
		{"sauteed", "sautéed", 0},
		{"sautéed for 5 minutes", "sautéed", 5},
		{"pan-fried", "fried", 0},
		{"deep fried", "fried", 0},
		{"baked at 350 F for 45 minutes", "baked", 45},
		{"baked at 350°F for 45 minutes", "baked", 45},
		{"slow cooked on low for 8 hours", "simmered", 480},
		{"flambéed", "flamed", 0},
		{"raw", "no heat", 0},
		{"not cooked", "no heat", 0},
		{"no heat", "no heat", 0},
		{"no heat, stored overnight", "stored overnight", 0},
		{"off the heat", "off the heat", 0},
		{"boiled then baked", "baked", 0},
		{"baked 25 minutes, not stirred in", "baked", 25},
		{"simmered 1 hour, then flamed", "simmered", 60},
		{"sautéed 5 minutes, then simmered 45 minutes", "simmered", 45},

		{"", "", 0},
		{"cooked", "", 0},
		{"20 minutes", "", 0},
		{"not baked", "", 0},
		{"baked beans", "", 0},
		{"baked 45", "", 0},
		{"baked -5 minutes", "", 0},
		{"baked 0 minutes", "", 0},
		{"boiled 120", "", 0},
		{"purple", "", 0},
		{"baked 10 minutes 20 minutes", "", 0},
		{"\xff\x00", "", 0},
		{"baked 99999999999999999999 hours", "", 0},
	} {
		got, ok := engine.CookingNamed(c.words)
		if ok != (c.method != "") || got.Method != c.method || got.Minutes != c.minutes {
			t.Errorf("%q: %q %d %t, want %q %d", c.words, got.Method, got.Minutes, ok, c.method, c.minutes)
		}
		if ok && got.Said != "told" {
			t.Errorf("%q: said %q", c.words, got.Said)
		}
	}
}

func FuzzReadCooking(f *testing.F) {
	f.Add("Simmer 45 minutes, then bake 1 hour 10 min; drain.")
	f.Add("boiled, drained ½ h 1/0 min and a half")
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func() (engine.Cooking, bool){
			func() (engine.Cooking, bool) { return engine.ReadCooking(strings.Split(text, "\n")) },
			func() (engine.Cooking, bool) { return engine.CookingNamed(text) },
		} {
			if c, ok := read(); ok && (c.Method == "" || c.Minutes < 0 || c.Said == "") {
				t.Errorf("%q: %+v", text, c)
			}
		}
	})
}
