package grammar_test

import (
	"testing"

	"pottle/grammar"
)

// TestBareYield are lines that hold a number of things and nothing else: what the
// recipe makes, or what it needs.
func TestBareYield(t *testing.T) {
	const batter = "1 cup flour\n1 cup sugar\n2 eggs"
	for _, test := range []struct{ text, line, servings, note string }{
		{"Fudge brownies\n16 brownies\n\n" + batter, "16 brownies", "16", `16 servings, from "16 brownies"`},
		{"Fudge brownies with walnuts\n" + batter + "\n16 brownies", "16 brownies", "16", `16 servings, from "16 brownies"`},
		{"Fudge brownies\n" + batter + "\n\nMethod\nMix and bake.\n16 brownies", "16 brownies", "16", `16 servings, from "16 brownies"`},
		{"Grandma's best\n\n16 brownies\n\n" + batter, "16 brownies", "16", `16 servings, from "16 brownies"`},
		{"Blueberry muffins\n\nAbout 12 large muffins\n" + batter, "About 12 large muffins", "12", `12 servings, from "About 12 large muffins"`},
		{"Chocolate chip cookies\n2 dozen cookies\n" + batter, "2 dozen cookies", "24", `24 servings, from "2 dozen cookies"`},
		{"Buttermilk pancakes\n8 pancakes\n" + batter, "8 pancakes", "8", `8 servings, from "8 pancakes"`},
		{"Cheeseburgers\n4 burgers\n1 lb ground beef\n1 onion", "4 burgers", "4", `4 servings, from "4 burgers"`},
		{"Banana bread\n8 slices\n" + batter, "8 slices", "8", `8 servings, from "8 slices"`},
		{"Banana bread\n8 to 10 thick slices\n" + batter, "8 to 10 thick slices", "8 to 10", `8 to 10 servings, from "8 to 10 thick slices"`},
		{"Traybake\n" + batter + "\n24 squares", "24 squares", "24", `24 servings, from "24 squares"`},
		{"Fudge brownies\nServes 8\n16 brownies\n" + batter, "16 brownies", "8", ""},
		{"Tea loaf\nCuts into 10 slices\n" + batter, "Cuts into 10 slices", "10", ""},
		{"Tea cake\nCuts into 8 squares\n" + batter, "Cuts into 8 squares", "8", ""},
		{"Tea cake\nSlices into 12\n" + batter, "Slices into 12", "12", ""},
		{"Bread\nMakes 2 loaves\n" + batter, "Makes 2 loaves", "", ""},
		{"Pie\nMakes one 9-inch pie\n" + batter, "Makes one 9-inch pie", "", ""},
		{"Cake\nMakes 1 cake\n" + batter, "Makes 1 cake", "", ""},
		{"Cake\nYield: one 9x13 pan\n" + batter, "Yield: one 9x13 pan", "", ""},
		{"Cake\nMakes 1 9-inch cake\n" + batter, "Makes 1 9-inch cake", "", ""},
		{"Bread\nMakes 2 (8x4-inch) loaves\n" + batter, "Makes 2 (8x4-inch) loaves", "", ""},
		{"Cake\nMakes one 8-inch cake, serves 10\n" + batter, "Makes one 8-inch cake, serves 10", "10", ""},
		{"Pizza\nMakes 2 pizzas\n" + batter, "Makes 2 pizzas", "", ""},
		{"Cupcakes\nMakes 3 cupcakes\n" + batter, "Makes 3 cupcakes", "3", ""},
		{"Bread\nMakes 2 mini loaves\n" + batter, "Makes 2 mini loaves", "2", ""},
		{"Rolls\nMakes 1 dozen rolls\n" + batter, "Makes 1 dozen rolls", "12", ""},
		{"Fish cakes\nMakes 3 fish cakes\n" + batter, "Makes 3 fish cakes", "3", ""},
		{"Pies\nMakes 6 pies\n" + batter, "Makes 6 pies", "6", ""},
	} {
		r, err := grammar.ParseRecipe(test.text)
		if err != nil {
			t.Fatalf("%q: %v", test.text, err)
		}
		if r.Servings.String() != test.servings || r.NoteOfServings() != test.note || r.Twice {
			t.Errorf("%q: got %q, %q\nwant %q, %q", test.text, r.Servings, r.NoteOfServings(), test.servings, test.note)
		}
		if kind := kindOf(r, test.line); kind != grammar.Note {
			t.Errorf("%q: %q is taken for a %s", test.text, test.line, kindNames[kind])
		}
	}
	for _, test := range []struct{ text, line string }{
		{"Chicken enchiladas\n12 tortillas\n2 cups chicken\n1 tbsp flour", "12 tortillas"},
		{"Pork tacos\n\n12 tortillas\n\n1 lb pork\n1 tbsp flour", "12 tortillas"},
		{"Cookie cake\n\n24 cookies\n\n2 cups cream\n1 cup sugar", "24 cookies"},
		{"Brownie trifle\n\n16 brownies\n\n2 cups cream\n200 g chocolate", "16 brownies"},
		{"Trifle\nFor the base:\n\n16 brownies\n\n2 cups cream\n1 tbsp flour", "16 brownies"},
		{"Meatball sub\n12 meatballs\n4 rolls\n1 cup sauce", "12 meatballs"},
		{"12 corn tortillas\nshredded lettuce\n1 cup salsa", "12 corn tortillas"},
		{"Sandwich\n2 bread slices\n1 tbsp butter", "2 bread slices"},
		{"Kebabs\n1 lb beef\n8 bamboo kebabs\n1 onion", "8 bamboo kebabs"},
		{"Pancakes\n8 pancakes\n1 cup blueberries\n1/2 cup cream", "8 pancakes"},
	} {
		r, err := grammar.ParseRecipe(test.text)
		if err != nil {
			t.Fatalf("%q: %v", test.text, err)
		}
		if kind := kindOf(r, test.line); kind != grammar.Ingredient || r.Servings.Low != nil {
			t.Errorf("%q: %q is taken for a %s, servings %s", test.text, test.line, kindNames[kind], r.Servings)
		}
	}
}

// kindOf is the kind of the line of that text.
func kindOf(r *grammar.Recipe, text string) grammar.LineKind {
	for _, l := range r.Lines {
		if l.Text == text {
			return l.Kind
		}
	}
	return 99
}
