package grammar_test

import (
	"testing"

	"pottle/grammar"
)

// TestNoteOfServings are recipes that tell the servings in passing, or as a
// product: how the number was read is told.
func TestNoteOfServings(t *testing.T) {
	for _, test := range []struct{ name, text, title, servings, note string }{
		{"on a line of its own", "Stew\nServes 4\n1 lb beef", "Stew", "4", ""},
		{"in the title", "Dinner for two\n1 lb beef", "Dinner for two", "2", `2 servings, from "Dinner for two"`},
		{"loaves of slices", "Bread\nYield 2 loaves, 12 slices each\n1 kg flour", "Bread", "24", "24 servings: 2 times 12"},
		{"several to a serving", "Cookies\nMakes 24 cookies (2 per serving)\n1 cup flour", "Cookies", "12", "12 servings: 24, 2 to a serving"},
		{"in talk", "Hi Ann!\n\nHere is the bake my mother always made, we had 12 people round and everybody loved it. You need 45 minutes.\n\nYou'll need:\n2 eggplants\n1 tin tomatoes\n\nSlice the eggplants and fry them. Bake for 30 minutes. It feeds 4 hungry people.",
			"", "4", `4 servings, from "It feeds 4 hungry people"`},
		{"in the directions", "Bake\n2 eggplants\n1 tin tomatoes\n\nDirections\nBake it for 30 minutes until golden. Serves six.", "Bake", "6", `6 servings, from "Serves six"`},
		{"people are no servings", "Bake\nWe had 12 people round for this one and they all liked it.\n2 eggplants", "Bake", "", ""},
		{"a sentence is no title", "My sister gave me this when she came back from Spain.\nGazpacho\n1 lb tomatoes", "Gazpacho", "", ""},
		{"in talk, then on a line", "Bake\nThis was enough for 12 people at the last party that we had.\nServes 4\n2 eggplants", "Bake", "4", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			r, err := grammar.ParseRecipe(test.text)
			if err != nil {
				t.Fatal(err)
			}
			if r.Title != test.title || r.Servings.String() != test.servings || r.NoteOfServings() != test.note {
				t.Errorf("got %q, %q, %q\nwant %q, %q, %q", r.Title, r.Servings, r.NoteOfServings(), test.title, test.servings, test.note)
			}
			r.Yield = "serves 3" // as an edit does
			if note := r.NoteOfServings(); note != "" {
				t.Errorf("after a change: %q", note)
			}
		})
	}
}

// TestPassedOver are lines that are no ingredients: figures of nutrition, times,
// ratings, what a web page says around a recipe.
func TestPassedOver(t *testing.T) {
	for _, line := range []string{
		"Prep 20 mins, cook 45 mins", "Prep: 20 | Cook: 45", "Prep 20 min", "20 mins prep", "Cook 1 hr 10 min", "Total time 1 h 5 m", "Takes 45 minutes", "Ready in 30 minutes",
		"Rating 4.5/5", "Rating: 4.5", "4.5/5 stars", "4.8 out of 5", "120 reviews", "4.8 (120 reviews)",
		"Per serving: 410 kcal, 12 g fat, 3 g saturates", "Per serving: 410 kcal", "Per portion 410 kcal", "Nutrition per serving: 410 calories",
		"Calories 410 | Sodium 720 mg", "Calories: 410", "410 kcal", "410 calories per serving", "410 kcal per serving", "1700 kJ / 410 kcal", "Energy 1700kJ/410kcal",
		"Total Fat 12g 15%", "Saturated Fat 3 g", "Protein 20g", "Protein: 20 g", "Carbohydrates: 30 g; fiber 4 g", "Sodium 720 mg", "Sodium: 720mg (31% DV)", "12 g fat, 20 g protein, 30 g carbs",
		"Cholesterol 30mg", "Vitamin D 2mcg 10%", "Added sugars 4 g", "Amount per serving", "% Daily Value*", "Servings per container 4",
		"Jump to recipe", "Print", "1x 2x 3x", "Cuisine: Italian", "US Customary – Metric", "Nutrition facts",
	} {
		r, err := grammar.ParseRecipe("Dish\nServes 2\n1 cup rice\n" + line + "\n1 egg")
		if err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		if got := r.Lines[3]; got.Kind == grammar.Ingredient {
			t.Errorf("%q is taken for an ingredient: %s", line, describe(got.Items))
		}
		if got := r.Lines[4]; got.Kind != grammar.Ingredient {
			t.Errorf("the egg after %q is taken for a %s", line, kindNames[got.Kind])
		}
	}
	// What follows a line of figures is one too, though an ingredient may bear its name.
	r, err := grammar.ParseRecipe("Dish\n1 cup rice\nCalories 410\nFat 12 g\nSugar 4 g\nSalt 1.2 g\n2 tbsp sugar\nsalt 1 g")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []grammar.LineKind{grammar.Note, grammar.Ingredient, grammar.Note, grammar.Note, grammar.Note, grammar.Note, grammar.Ingredient, grammar.Ingredient} {
		if got := r.Lines[i]; got.Kind != want {
			t.Errorf("%q is taken for a %s", got.Text, kindNames[got.Kind])
		}
	}
}
