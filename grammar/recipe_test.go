package grammar_test

import (
	"fmt"
	"strings"
	"testing"

	"pottle/grammar"
)

var kindNames = map[grammar.LineKind]string{grammar.Ingredient: "ingredient", grammar.Heading: "heading", grammar.Note: "note"}

// describeRecipe writes a recipe with its lines, a line each:
//
//	title: Rice
//	serves: 4 to 6, by "Serves 4–6"
//	metric
//	4 ingredient: 1 cup | rice
//	5 note: Boil the rice.
//	method: Boil the rice.
func describeRecipe(r *grammar.Recipe) string {
	var b strings.Builder
	if r.Title != "" {
		fmt.Fprintf(&b, "title: %s\n", r.Title)
	}
	if r.Servings.Low != nil {
		fmt.Fprintf(&b, "serves: %s, by %q\n", r.Servings, r.Yield)
	}
	if r.Metric {
		b.WriteString("metric\n")
	}
	for _, l := range r.Lines {
		text := l.Text
		if l.Kind == grammar.Ingredient {
			text = describe(l.Items)
		}
		fmt.Fprintf(&b, "%d %s: %s\n", l.Number, kindNames[l.Kind], text)
		if l.Fault != nil {
			fmt.Fprintf(&b, "fault: %v\n", l.Fault)
		}
	}
	for _, m := range r.Method {
		fmt.Fprintf(&b, "method: %s\n", m)
	}
	return b.String()
}

var recipeTests = []struct{ name, text, want string }{
	{"title, servings, ingredients, directions without a heading", `
Pancakes
Serves 4–6

1 cup flour
2 eggs

Mix well and fry in a hot pan until golden.
`, `
title: Pancakes
serves: 4 to 6, by "Serves 4–6"
2 note: Pancakes
3 note: Serves 4–6
5 ingredient: 1 cup | flour
6 ingredient: 2 | eggs
8 note: Mix well and fry in a hot pan until golden.
method: Mix well and fry in a hot pan until golden.
`},
	{"headings, bullets, directions and notes", `
Best Muffins
Yield: 24 muffins
Prep time: 10 min

Ingredients:
• 2 cups flour
• 1 cup sugar

Directions:
1. Mix the flour and the sugar.
2. Bake at 350°F for 20 minutes.

Notes:
Keeps 3 days.
`, `
title: Best Muffins
serves: 24, by "Yield: 24 muffins"
2 note: Best Muffins
3 note: Yield: 24 muffins
4 note: Prep time: 10 min
6 heading: Ingredients:
7 ingredient: 2 cup | flour
8 ingredient: 1 cup | sugar
10 heading: Directions:
11 note: 1. Mix the flour and the sugar.
12 note: 2. Bake at 350°F for 20 minutes.
14 heading: Notes:
15 note: Keeps 3 days.
method: 1. Mix the flour and the sugar.
method: 2. Bake at 350°F for 20 minutes.
`},
	{"headings of the parts of a dish", `
Grandma's pie

INGREDIENTS

Crust
1 cup flour

For the filling:
3 apples

TO SERVE
cream

PREPARATION
Make the crust.
Fill it.
`, `
title: Grandma's pie
2 note: Grandma's pie
4 heading: INGREDIENTS
6 heading: Crust
7 ingredient: 1 cup | flour
9 heading: For the filling:
10 ingredient: 3 | apples
12 heading: TO SERVE
13 ingredient: (to serve) | cream
15 heading: PREPARATION
16 note: Make the crust.
17 note: Fill it.
method: Make the crust.
method: Fill it.
`},
	{"ingredients after the directions", `
Salad
Method
Toss it.
Ingredients
1 lettuce
`, `
title: Salad
2 note: Salad
3 heading: Method
4 note: Toss it.
5 heading: Ingredients
6 ingredient: 1 | lettuce
method: Toss it.
`},
	{"marks of mark-up", `
# Carrot cake

**Serves 10**

- 2 cups flour
- [ ] 3 carrots

## Frosting
- 8 oz cream cheese

---
## Method
Beat the lot.
`, `
title: Carrot cake
serves: 10, by "**Serves 10**"
2 note: # Carrot cake
4 note: **Serves 10**
6 ingredient: 2 cup | flour
7 ingredient: 3 | carrots
9 heading: ## Frosting
10 ingredient: 8 oz | cream cheese
12 note: ---
13 heading: ## Method
14 note: Beat the lot.
method: Beat the lot.
`},
	{"no title", `
1 cup rice
2 cups water
`, `
2 ingredient: 1 cup | rice
3 ingredient: 2 cup | water
`},
	{"the title after the servings", `
Serves 2
Rice pudding
1 cup rice
`, `
title: Rice pudding
serves: 2, by "Serves 2"
2 note: Serves 2
3 note: Rice pudding
4 ingredient: 1 cup | rice
`},
	{"the first yield counts", `
Stew
Serves 6
Serves 8
1 lb beef
`, `
title: Stew
serves: 6, by "Serves 6"
2 note: Stew
3 note: Serves 6
4 note: Serves 8
5 ingredient: 1 lb | beef
`},
	{"no servings in the line of servings", `
Stew
Serves 0
Serves a crowd
1 lb beef
`, `
title: Stew
2 note: Stew
3 note: Serves 0
fault: line 3, column 1: "Serves 0" gives no number of servings; write it like "serves 6"
4 note: Serves a crowd
5 ingredient: 1 lb | beef
`},
	{"a faulty line is kept among the others", `
Stew
1 lb beef
  - 1/0 cup sugar
2 onions
`, `
title: Stew
2 note: Stew
3 ingredient: 1 lb | beef
4 ingredient: (no amount) | sugar
fault: line 4, column 3: "1/0" is not an amount a kitchen has; write it like 2, 1/2, 1 1/2 or 0.75
5 ingredient: 2 | onions
`},
	{"metric: spoons and counts do not matter", `
Sponge
225g butter
4 eggs
1 tsp vanilla
1 x 400g tin apricots
`, `
title: Sponge
metric
2 note: Sponge
3 ingredient: 225 g | butter
4 ingredient: 4 | eggs
5 ingredient: 1 tsp | vanilla
6 ingredient: 1 (400 g) tin | apricots
`},
	{"not metric: a cup among grams", `
Sponge
225g butter
1 cup sugar
`, `
title: Sponge
2 note: Sponge
3 ingredient: 225 g | butter
4 ingredient: 1 cup | sugar
`},
	{"tools are no food", `
Kebabs
1 lb beef
8 wooden skewers
`, `
title: Kebabs
2 note: Kebabs
3 ingredient: 1 lb | beef
4 note: 8 wooden skewers
`},
}

func TestParseRecipe(t *testing.T) {
	for _, test := range recipeTests {
		t.Run(test.name, func(t *testing.T) {
			for _, end := range []struct{ name, sign string }{{"LF", "\n"}, {"CRLF", "\r\n"}, {"CR", "\r"}, {"line separator", "\u2028"}} {
				text := strings.ReplaceAll(test.text, "\n", end.sign)
				r, err := grammar.ParseRecipe(text)
				if err != nil {
					t.Fatalf("%s: %v", end.name, err)
				}
				if got := "\n" + describeRecipe(r); got != test.want {
					t.Errorf("%s:\n got %s\nwant %s", end.name, got, test.want)
				}
				checkKept(t, text, r)
			}
		})
	}
}

// checkKept reports lines of text that are not in r as typed, in order and
// with their numbers.
func checkKept(t *testing.T, text string, r *grammar.Recipe) {
	t.Helper()
	next := 0
	for i, raw := range strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n").Replace(text), "\n") {
		typed := strings.TrimSpace(raw)
		if typed == "" {
			continue
		}
		if next == len(r.Lines) {
			t.Fatalf("line %d, %q, is lost", i+1, typed)
		}
		if l := r.Lines[next]; l.Number != i+1 || l.Text != typed {
			t.Fatalf("line %d, %q, is kept as line %d, %q", i+1, typed, l.Number, l.Text)
		}
		next++
	}
	if next != len(r.Lines) {
		t.Fatalf("%d lines were typed, %d kept", next, len(r.Lines))
	}
}

// TestYield reads one line of servings each; an empty want means that the
// line tells none.
func TestYield(t *testing.T) {
	for _, test := range []struct{ line, want string }{
		{"Serves 4", "4"},
		{"Serves 4–6", "4 to 6"},
		{"Serves: 6", "6"},
		{"Serves four", "4"},
		{"Serves four to six", "4 to 6"},
		{"Serves 4-6 as a main course", "4 to 6"},
		{"Serves: 4 | Prep: 10 min | Cook: 20 min", "4"},
		{"Serves 4 (makes 8 cups)", "4"},
		{"Serves 6; makes 12 muffins", "6"},
		{"Makes 12 muffins, serves 6", "6"},
		{"Recipe serves 4 to 6 people.", "4 to 6"},
		{"SERVES 8", "8"},
		{"• Serves 8", "8"},
		{"Feeds 10", "10"},
		{"6 servings", "6"},
		{"4 generous servings", "4"},
		{"Servings: 8", "8"},
		{"Number of servings: 8", "8"},
		{"For 4 people", "4"},
		{"For four people", "4"},
		{"Yield: 24 muffins", "24"},
		{"Yield: about 3 dozen cookies", "36"},
		{"Yield: 2 1/2 dozen", "30"},
		{"Yield: 1 9x13 pan, 12 servings", "12"},
		{"Yield 6 (1-cup) servings", "6"},
		{"Yields 16 squares", "16"},
		{"Makes 1 loaf (12 slices)", "12"},
		{"Makes one 9-inch pie (8 slices)", "8"},
		{"Makes 2 loaves, 12 slices each", "24"},
		{"Yield 2 loaves, 12 slices each", "24"},
		{"Makes 2 loaves (12 slices each)", "24"},
		{"Makes two 9-inch pies, 8 slices per pie", "16"},
		{"Makes 24 cookies, 2 per serving", "12"},
		{"Makes 24 cookies (2 cookies per serving)", "12"},
		{"Makes 1 loaf, 12 slices each 40 g", "12"},
		{"Serves: 8 (2 tacos each)", "8"},
		{"Serves: 4 people", "4"},
		{"Ingredients (serves 6)", "6"},
		{"Ingredients (for 4 people)", "4"},
		{"Ingredients for 4", "4"},
		{"INGREDIENTS - SERVES 4", "4"},
		{"Ingredients: serves 4 to 6", "4 to 6"},
		{"What you need (makes 12 muffins)", "12"},
		{"Ingredients for the cake", ""},
		{"For 3", "3"},
		{"For four", "4"},
		{"For 6-8 people", "6 to 8"},
		{"Dinner for two", "2"},
		{"Good for 3 days", ""},
		{"Makes 1 pot (about 6 servings)", "6"},
		{"Makes about 3 dozen", "36"},
		{"Makes 1.5 litres", ""},
		{"Makes 6-8 cups", ""},
		{"Yield: 6 cups", ""},
		{"Makes 1.5 litres, serves 6", "6"},
		{"This soup serves 5 or 6 of us.", "5 to 6"},
		{"Hi, ready in no time, serves 4 in 30 minutes", "4"},
		{"Ready in 30 min, 4-6 servings", "4 to 6"},
		{"Makes two to three dozen", "24 to 36"},
		{"Makes a dozen muffins", "12"},
		{"Makes two dozen muffins", "24"},
		{"Makes half a dozen", "6"},
		{"Makes 18 to 24 cookies", "18 to 24"},
		{"Makes 2 cups", ""},
		{"Serves a crowd", ""},
		{"Serving size: 1 cup", ""},
		{"Serving suggestion: rice", ""},
		{"For the sauce", ""},
		{"Nutrition per serving: 200 calories", ""},
	} {
		r, err := grammar.ParseRecipe("Dish\n" + test.line + "\n1 cup rice\n")
		if err != nil {
			t.Fatalf("%q: %v", test.line, err)
		}
		if got := r.Servings.String(); got != test.want {
			t.Errorf("%q: serves %q, want %q", test.line, got, test.want)
		}
		if r.Servings.Low != nil && r.Yield != test.line {
			t.Errorf("%q: the yield is kept as %q", test.line, r.Yield)
		}
		if kind := r.Lines[1].Kind; kind == grammar.Ingredient {
			t.Errorf("%q is taken for an ingredient: %s", test.line, describe(r.Lines[1].Items))
		}
	}
}

// TestIngredientLines are lines that could be taken for something else.
func TestIngredientLines(t *testing.T) {
	for _, line := range []string{
		"2 slices bacon", "8 slices bread, cubed", "1 serving rice", "salt", "1 cup salad dressing", "Cream of tartar, 1 tsp",
		"sugar 12 g", "fat 20 g", "salt 1 g", "12 g fat", "2 scoops protein powder", "protein powder 30 g", "sodium bicarbonate 1 tsp", "1 tsp iron-rich molasses", "calcium chloride 1/4 tsp",
		"5 star anise", "rated cheese 1 cup", "cook's yeast 1 tsp", "1 energy bar", "fiber cereal 1 cup",
		"1 tablespoon butter, to grease the pan", "2 cups broth, plus more for serving",
	} {
		r, err := grammar.ParseRecipe("Dish\nServes 2\n1 cup rice\n" + line)
		if err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		if got := r.Lines[3]; got.Kind != grammar.Ingredient {
			t.Errorf("%q is taken for a %s", line, kindNames[got.Kind])
		}
	}
}

// TestDirectionsWithoutHeading holds short lines after the ingredients that tell
// what to do, and those that name a food.
func TestDirectionsWithoutHeading(t *testing.T) {
	for line, direction := range map[string]bool{
		"Refrigerate overnight.": true, "Microwave 2 minutes.": true, "Enjoy!": true, "Flour the chicken.": true, "Salt the water.": true,
		"Deep fry in batches until golden.": true, "Chill well.": true, "Butter the pan": true, "Top with cheese": true, "Serve hot": true,
		"Boil potatoes.": true, "Place in oven": true, "Set aside.": true, "Toast the bread": true, "Grease pan": true, "Air fry until crisp.": true,
		"Yum!": true, "Do not overmix.": true, "Don't drain.": true, "Slow cook on low 8 hours": true, "Pressure cook 10 minutes": true, "Oven 350 for 20 minutes": true, "Can be frozen.": true, "350 for 1 hour": true, "350 g chicken": false, "can black beans, drained": false,
		"Microwave popcorn": false, "Salt": false, "Salt and pepper.": false, "Top sirloin": false, "Cream cheese": false, "Roast chicken": false,
		"Butter for the pan": false, "Drizzle of olive oil": false, "Squeeze of lemon": false, "Cooking spray": false, "Grill seasoning": false,
		"Half the milk": false, "Egg wash": false, "Warm tortillas": false, "Toast": false, "Whipped cream, for serving": false,
		"Toppings: cheese, sour cream": false, "2 cups fry sauce": false,
	} {
		r, err := grammar.ParseRecipe("Dish\nServes 4\n\n1 cup flour\n" + line + "\n")
		if err != nil {
			t.Fatal(err)
		}
		last := r.Lines[len(r.Lines)-1]
		if got := len(r.Method) == 1 && last.Kind == grammar.Note; got != direction || !direction && last.Kind != grammar.Ingredient {
			t.Errorf("%q: kind %v, directions %q", line, last.Kind, r.Method)
		}
	}
	r, _ := grammar.ParseRecipe("Dish\nServes 4\n\n1 cup flour\nTo serve (optional)\nmango chutney or lime pickle\n1 lime\nFor the sauce:\nsalt\n")
	for line, want := range map[int]string{5: "to serve", 6: "", 8: "no amount"} {
		for _, l := range r.Lines {
			if l.Number-1 == line && (len(l.Items) == 0 || l.Items[0].Uncounted != want) {
				t.Errorf("%q: %+v", l.Text, l.Items)
			}
		}
	}
	r, _ = grammar.ParseRecipe("Dish\nServes 4\n\n1 cup flour\nToppings: cheese, sour cream, and chives\n")
	items := r.Lines[len(r.Lines)-1].Items
	if len(items) != 3 || items[0].Uncounted != "toppings" || items[2].Words[0] != "chives" {
		t.Errorf("toppings: %+v", items)
	}
}
