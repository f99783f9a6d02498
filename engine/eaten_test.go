package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// TestAsEaten takes what is asked about as it is eaten. The foods were found by
// reading SR28.
func TestAsEaten(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct{ text, want, note string }{
		{"3 oz tilapia", "15262", "taken as cooked"},
		{"3 oz beef liver", "13326", "taken as cooked"},
		{"3 oz ground beef", "23573", "taken as cooked"},
		{"3 oz shrimp", "15151", "taken as cooked"},
		{"1/2 cup lentils", "16070", "taken as cooked"},
		{"1 cup brown rice", "20037", "taken as cooked"},
		{"1 cup chicken noodle soup", "06419", "made up with water"},
		{"3 oz bacon", "10862", "taken as cooked"},
		{"1 chicken breast", "05062", "raw food"},
		{"100 g rice", "20045", "taken as cooked"},
		{"2 oz spaghetti", "20121", "taken as cooked"},
		{"100 g lentils", "16070", "taken as cooked"},
		{"1/4 cup oats", "08120", "counted dry"},
		{"40 g oats", "08120", "counted dry"},
		{"100 g oatmeal", "08121", "taken as cooked"},
		{"6 oz ribeye", "23197", "taken as cooked"},
		{"6 oz yellowfin tuna", "15221", "taken as cooked"},
		{"100 g pork belly", "10005", "no cooked one"},
		{"4 oz ground beef, cooked", "23575", ""},
		{"4 oz chicken breast, cooked", "05064", ""},
		// These say what they are, or are eaten as they are.
		{"3 oz raw tilapia", "", ""},
		{"1/2 cup dry lentils", "", ""},
		{"1 cup corn flakes", "", ""},
		{"1 cup condensed chicken noodle soup", "", ""},
		{"1 can chicken noodle soup", "", ""},
		{"1 tbsp flour", "", ""},
		{"2 eggs", "", ""},
		{"3 oz canned tuna", "", ""},
	} {
		l := resolved(t, e, c.text)
		got, ok := e.AsEaten(&l)
		switch {
		case ok != (c.want != ""):
			t.Errorf("%q: taken as eaten %v: %s %s", c.text, ok, got.Food, got.Assumed)
		case ok && (got.Food.Number() != c.want || c.note != "" && !slices.ContainsFunc(got.Assumed, func(s string) bool { return strings.Contains(s, c.note) })):
			t.Errorf("%q: %s %s %q, want %s and %q", c.text, got.Food.Number(), got.Food, got.Assumed, c.want, c.note)
		}
	}
}

// TestFluidOunces reads ounces of drinks as fluid ones, and no others.
func TestFluidOunces(t *testing.T) {
	e := newEngine(t)
	for text, grams := range map[string]float64{
		"12 oz beer": 356, "8 oz milk": 244, "12 oz cola": 368, "2 (12 oz) cans beer": 713, // SR28: 29.7, 30.5 and 30.7 g a fl oz
		"8 oz cheddar": 226.8, "4 oz pasta": 113.4, "12 oz (340 g) beer": 340, "1 oz milk powder": 28.35, "14.5 oz canned tomatoes": 411,
	} {
		l := resolved(t, e, text)
		if off := l.Grams.Low - grams; l.Status != engine.Counted || off > 2 || off < -2 {
			t.Errorf("%q: %s %.0f g %q, want %.0f", text, l.Status, l.Grams.Low, l.Assumed, grams)
		}
	}
}

// TestNotHeld has no figure of a nutrient that the words take away or add.
func TestNotHeld(t *testing.T) {
	e := newEngine(t)
	free, plain := resolved(t, e, "1 cup lactose-free milk"), resolved(t, e, "1 cup whole milk")
	if _, ok := free.Has(fooddata.Lactose); ok {
		t.Error("lactose-free milk has lactose")
	}
	if _, ok := free.Has(fooddata.Sugars); !ok {
		t.Error("lactose-free milk has no figure for sugars")
	}
	if _, ok := plain.Has(fooddata.Lactose); !ok {
		t.Error("whole milk has no figure for lactose")
	}
	for _, text := range []string{"100 g leached potatoes", "100 g potatoes, leached", "100 g double-boiled potatoes"} {
		l := resolved(t, e, text)
		if _, ok := l.Has(fooddata.Potassium); ok || l.Status != engine.Counted {
			t.Errorf("%q: %s, and its potassium is known", text, l.Status)
		}
		if _, ok := l.Has(fooddata.Carbohydrate); !ok {
			t.Errorf("%q has no figure for carbohydrate", text)
		}
	}
	juice := resolved(t, e, "1 cup fortified orange juice")
	if d, ok := juice.Has(fooddata.VitaminD); !ok || d.Low < 2 { // SR28 of 09210: 1.0 µg in 100 g
		t.Errorf("fortified orange juice has %v µg vitamin D", d)
	}
}

// TestFoodNotes says what may be far from the figures of a line.
func TestFoodNotes(t *testing.T) {
	e := newEngine(t)
	for text, note := range map[string]string{
		"1 tsp kosher salt": "flaked kosher salt", "1 cup panko": "less sodium", "1 tbsp dijon mustard": "saltier", "100 g paneer": "unsalted",
		"8 oz mascarpone": "430 kcal", "4 oz pancetta": "1,500 mg", "1 tsp flaked kosher salt": "", "10 g kosher salt": "", "1 tbsp mustard": "",
	} {
		l := resolved(t, e, text)
		said := strings.Join(l.Assumed, "; ")
		if note == "" && strings.Contains(said, "mg sodium in 100 g") || note == "" && strings.Contains(said, "a teaspoon; kinds") || !strings.Contains(said, note) {
			t.Errorf("%q: assumed %q, want %q", text, said, note)
		}
	}
	uk, err := grammar.ParseRecipe("Scones\nMakes 8\n\n225 g self-raising flour\n50 g butter\n150 ml milk")
	if err != nil {
		t.Fatal(err)
	}
	british := func(l engine.Line) bool {
		return strings.Contains(strings.Join(l.Assumed, "; "), "British self-raising flour")
	}
	if !slices.ContainsFunc(e.Analyse(uk).Lines, british) {
		t.Error("nothing is said of self-raising flour in a metric recipe")
	}
	us, err := grammar.ParseRecipe("Biscuits\nMakes 8\n\n2 cups self-rising flour\n4 tbsp butter\n3/4 cup milk")
	if err != nil {
		t.Fatal(err)
	}
	if slices.ContainsFunc(e.Analyse(us).Lines, british) {
		t.Error("self-rising flour of an American recipe is said to be British")
	}
}

// TestSaltReplacer asks about every salt that is not common salt, whatever it is
// called, and offers none in its place.
func TestSaltReplacer(t *testing.T) {
	e := newEngine(t)
	for _, text := range []string{"1/4 tsp nu-salt", "1 tsp lo salt", "1 tsp half salt", "1 tsp lite salt", "1 tsp no salt", "1 tsp salt (lite)", "1 tsp salt, reduced sodium",
		"1 tsp salt substitute", "1 tsp salt replacer", "1 tsp potassium chloride", "1 tsp low-sodium salt"} {
		l := resolved(t, e, text)
		if l.Status != engine.Ask || !strings.Contains(l.Why, "potassium chloride") || !strings.Contains(l.Why, "kidney") || len(l.Choices) > 0 {
			t.Errorf("%q: %s %s, %q, choices %v", text, l.Status, l.Food, l.Why, l.Choices)
		}
		r, err := grammar.ParseRecipe("Soup\nServes 4\n\n1 cup water\n1 cup chicken broth\n" + text)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(e.Analyse(r).Cautions(nil), func(c engine.Caution) bool { return c.Kind == "potassium salt" }) {
			t.Errorf("%q: no caution", text)
		}
	}
	for _, text := range []string{"1 tsp salt", "1 tsp sea salt", "1 tsp kosher salt", "1 tsp fine sea salt", "1 tsp flaky salt", "1 tsp himalayan pink salt", "1 tsp salt, divided"} {
		if l := resolved(t, e, text); l.Status != engine.Counted || l.Food.Number() != "02047" {
			t.Errorf("%q: %s %s", text, l.Status, l.Food)
		}
	}
}

// TestAskedOfItsKind offers nothing that is another thing than what is asked
// about.
func TestAskedOfItsKind(t *testing.T) {
	e := newEngine(t)
	for _, text := range []string{"1 tbsp curry paste", "2 tbsp achiote paste", "1 tbsp ginger-garlic paste", "30 kaffir lime leaves", "1 cup vegan mozzarella", "1 cup spaghetti (shirataki)",
		"7 oz konjac rice", "1 tsp chicken base", "1 cup cheddar, vegan", "8 oz pasta (chickpea)", "1 tbsp beef broth concentrate", "1 tbsp peanut butter powder"} {
		l := resolved(t, e, text)
		if l.Status != engine.Ask || slices.ContainsFunc(l.Choices, func(f fooddata.Food) bool { return !strings.Contains(f.Name(), "substitute") }) {
			t.Errorf("%q: %s %s, choices %v", text, l.Status, l.Food, l.Choices)
		}
	}
}
