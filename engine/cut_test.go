package engine_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// ownRecipes are common dishes, written for these tests.
var ownRecipes = []string{
	breadRecipe, muffinRecipe, chiliRecipe, cookieRecipe, carrotCake, stroganoff, lasagna, pizza, pickleRecipe, jamRecipe, gravlax, iceCream,
}

const (
	breadRecipe = `Honey Sandwich Bread
Makes 16 slices

3 cups bread flour
1 packet active dry yeast
1 1/4 cups warm milk
2 tbsp honey
2 tbsp butter
1 1/2 tsp salt

Directions
Knead 10 minutes. Let rise until doubled. Bake at 375 F for 35 minutes.`

	muffinRecipe = `Blueberry Muffins
Makes 12 muffins

2 cups all-purpose flour
3/4 cup sugar
2 tsp baking powder
1/2 tsp salt
1/2 cup butter, melted
2 eggs
1 cup buttermilk
1 1/2 cups blueberries`

	chiliRecipe = `Beef and Bean Chili
Serves 6

1 lb ground beef
1 onion, chopped
2 (15 oz) cans pinto beans
1 (28 oz) can diced tomatoes
2 cups chicken broth
1 tbsp vegetable oil
2 tbsp chili powder
1 tsp each salt and cumin
1 cup shredded cheddar cheese

Directions
Brown the beef in the oil. Add the rest and simmer 45 minutes. Top with cheese.`

	cookieRecipe = `Chocolate Chip Cookies
Makes 36 cookies

2 1/4 cups all-purpose flour
1 tsp baking soda
1 tsp salt
1 cup (2 sticks) butter, softened
3/4 cup granulated sugar
3/4 cup packed brown sugar
1 tsp vanilla extract
2 large eggs
2 cups semisweet chocolate chips`

	carrotCake = `Carrot Cake
Serves 16

For the cake:
2 cups flour
2 cups sugar
2 tsp baking soda
1 1/4 cups vegetable oil
4 eggs
3 cups grated carrots
For the frosting:
8 oz cream cheese
1/2 cup butter
4 cups powdered sugar`

	stroganoff = `Beef Stroganoff
Serves 4

500 g beef sirloin, sliced
30 g butter
1 onion, sliced
250 g mushrooms
200 ml beef stock
150 ml sour cream
300 g egg noodles
5 g salt`

	lasagna = `Classic Lasagna
Serves 8

1 lb Italian sausage
1 lb ground beef, 90% lean
1 jar (24 oz) pasta sauce
12 oz lasagna noodles
15 oz whole-milk ricotta
2 eggs
1 lb mozzarella cheese, shredded
3/4 cup grated Parmesan
1 tsp salt

Directions
Layer in a baking dish and bake at 375 F for 50 minutes.`

	pizza = `Pepperoni Pizza
Serves 8

Dough:
3 cups flour
1 packet yeast
1 tsp salt
1 tsp sugar
Sauce:
1 can (15 oz) tomato sauce
1/2 tsp salt
Toppings:
2 cups shredded mozzarella
3 oz pepperoni`

	pickleRecipe = `Bread and Butter Pickles
Makes 24 servings

4 lb cucumbers, sliced
1/2 cup salt
3 cups vinegar
3 cups sugar

Directions
Pack into jars leaving 1/2 inch headspace.`

	jamRecipe = `Strawberry Jam
Makes 32 servings

5 cups crushed strawberries
7 cups sugar
1/4 cup lemon juice`

	gravlax = `Gravlax
Serves 12

2 lb salmon
1/2 cup kosher salt
1/2 cup sugar
1 bunch dill

Directions
Cover with salt and sugar and cure in the refrigerator for 2 days.`

	iceCream = `Peach Ice Cream
Serves 8

2 cups heavy cream
1 cup whole milk
3/4 cup sugar
1 (15 oz) can peaches in heavy syrup
4 egg yolks`
)

// allRecipes are the published recipes and our own.
func allRecipes(t *testing.T) []*grammar.Recipe {
	t.Helper()
	var all []*grammar.Recipe
	for _, p := range readPublished(t) {
		all = append(all, p.recipe)
	}
	for _, text := range ownRecipes {
		all = append(all, recipeOf(t, text))
	}
	return all
}

var allGoals = []engine.Goal{engine.LessSodium, engine.LessAddedSugar, engine.LessSaturatedFat, engine.FewerCalories, engine.MoreFibre, engine.All}

// least is what a suggestion must move of each goal, as Suggest promises.
var least = map[engine.Goal]float64{engine.LessSodium: 25, engine.LessAddedSugar: 1, engine.LessSaturatedFat: 0.5, engine.FewerCalories: 10, engine.MoreFibre: 0.5}

// TestSuggestHelps makes every suggestion for every recipe and goal: it must
// apply, count all that it brings, and move its own nutrient by what is
// promised in the direction of the goal. All of a goal together help too.
func TestSuggestHelps(t *testing.T) {
	e := newEngine(t)
	total := 0
	for _, r := range allRecipes(t) {
		before := e.Analyse(r)
		for _, goal := range allGoals {
			var every []engine.Edit
			changed := make(map[int]bool)
			last := math.Inf(1)
			for _, s := range e.Suggest(r, goal, nil, nil) {
				total++
				where := fmt.Sprintf("%s, %s: %s", r.Title, goal, s.What)
				if s.Goal != goal && goal != engine.All || s.Nutrient != s.Goal.Nutrient() {
					t.Errorf("%s: for %s", where, s.Goal)
				}
				after := applied(t, e, r, s.Edits)
				gain := s.Before - s.After
				if s.Goal == engine.MoreFibre {
					gain = -gain
				}
				if gain < least[s.Goal] || gain < 0.05*s.Before {
					t.Errorf("%s: %.2f to %.2f is too little", where, s.Before, s.After)
				}
				if got := after.Per(s.Nutrient).Low; math.Abs(got-s.After) > 1e-9 || math.Abs(before.Per(s.Nutrient).Low-s.Before) > 1e-9 {
					t.Errorf("%s: says %.2f, is %.2f", where, s.After, got)
				}
				if goal != engine.All && gain > last+1e-9 {
					t.Errorf("%s: ranks behind one that helps less", where)
				}
				last = gain
				for _, line := range s.Lines {
					if changed[line] {
						t.Errorf("%s: changes a line that another changes", where)
					}
					changed[line] = true
				}
				if s.What == "" || s.Dish == "" || s.Source == "" {
					t.Errorf("%s: says too little: %+v", where, s)
				}
				every = append(every, s.Edits...)
			}
			if goal == engine.All || len(every) == 0 {
				continue
			}
			after := applied(t, e, r, every)
			a, b := before.Per(goal.Nutrient()).Low, after.Per(goal.Nutrient()).Low
			if goal == engine.MoreFibre {
				a, b = b, a
			}
			if b >= a {
				t.Errorf("%s, %s: all together %.2f to %.2f", r.Title, goal, a, b)
			}
		}
	}
	if total < 150 {
		t.Errorf("only %d suggestions for all recipes", total)
	}
}

// applied makes edits and analyses; every line that was counted must still be,
// and every line that is added too.
func applied(t *testing.T, e *engine.Engine, r *grammar.Recipe, edits []engine.Edit) *engine.Analysis {
	t.Helper()
	changed, err := engine.Apply(r, edits...)
	if err != nil {
		t.Fatalf("%s: %v", r.Title, err)
	}
	after := e.Analyse(changed)
	_, items := after.Counted()
	had, was := e.Analyse(r).Counted()
	if has, _ := after.Counted(); has-had != items-was {
		t.Errorf("%s: %d of %d lines counted, %d of %d before", r.Title, has, items, had, was)
	}
	return after
}

// TestSuggestions holds what is suggested for common dishes.
func TestSuggestions(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe string
		goal   engine.Goal
		want   []string // how they begin, in any order, among others
		never  []string // no suggestion holds these words
	}{
		{chiliRecipe, engine.LessSodium, []string{
			"use 1/2 tsp salt instead of 1 tsp",
			"use 2 cups canned low-sodium chicken broth instead of chicken broth",
			"use 1 (28 oz) can no-salt-added canned tomatoes instead of diced tomatoes",
		}, []string{"cumin", "potassium"}},
		{chiliRecipe, engine.LessSaturatedFat, []string{"use 1 lb 95% lean ground beef instead of ground beef"}, []string{"salt"}},
		{"Bean Soup\nServes 4\n\n2 (15 oz) cans navy beans\n3 cups water", engine.LessSodium, []string{"drain and rinse the navy beans"}, nil},
		{"Bean Soup\nServes 4\n\n2 (15 oz) cans navy beans, drained\n3 cups water", engine.LessSodium, nil, []string{"rinse"}},
		{"Bean Soup\nServes 4\n\n2 (15 oz) cans navy beans\n3 cups water\n\nDirections\nDrain the beans. Simmer.", engine.LessSodium, nil, []string{"rinse"}},
		{"Bean Soup\nServes 4\n\n2 (15 oz) cans navy beans with their liquid\n3 cups water", engine.LessSodium, nil, []string{"rinse"}},
		{muffinRecipe, engine.LessAddedSugar, []string{"use 1/2 cup sugar instead of 3/4 cup"}, nil},
		{muffinRecipe, engine.LessSaturatedFat, []string{"use 6 tbsp canola oil instead of 1/2 cup butter"}, nil},
		{muffinRecipe, engine.MoreFibre, []string{"use 1 cup all-purpose flour plus 1 cup whole wheat flour instead of 2 cups all-purpose flour"}, nil},
		{muffinRecipe, engine.LessSodium, []string{"use 1/4 tsp salt instead of 1/2 tsp"}, []string{"baking powder"}},
		{iceCream, engine.LessAddedSugar, []string{"use 1 (15 oz) can peaches, canned in juice instead of peaches"}, nil},
		{stroganoff, engine.LessSaturatedFat, []string{"use 150 ml plain nonfat yogurt instead of sour cream"}, nil},
		{stroganoff, engine.LessSodium, []string{"use 2.5 g salt instead of 5 g"}, nil},
		{"Fish\nServes 4\n\nFor the fish:\n1 lb cod\n1/4 tsp salt\nFor the salad:\n1 head lettuce\n1/4 tsp salt", engine.LessSodium, []string{"use 1/8 tsp salt instead of 1/4 tsp (on 2 lines)"}, nil},
		{"Stir-Fry\nServes 4\n\n1 lb chicken breast\n4 tbsp soy sauce", engine.LessSodium, []string{"use 2 tbsp soy sauce instead of 4 tbsp"}, nil},
		{"Rice\nServes 4\n\n1 cup white rice\n1 tbsp oil", engine.MoreFibre, []string{"use 1 cup brown rice instead of white rice"}, nil},
		{"Rice\nServes 4\n\n1 cup white rice\n2 tbsp butter (optional)", engine.LessSaturatedFat, nil, []string{"butter"}},
		{"Oatmeal\nServes 2\n\n1 cup oats\n2 cups milk", engine.MoreFibre, []string{"add 2 tbsp oat bran"}, nil},
		{"Oatmeal\n\n1 cup oats\n2 cups milk", engine.MoreFibre, nil, []string{"add"}}, // servings not known
	} {
		r := recipeOf(t, c.recipe)
		var got []string
		for _, s := range e.Suggest(r, c.goal, nil, nil) {
			got = append(got, s.What)
		}
		for _, want := range c.want {
			if !slices.ContainsFunc(got, func(what string) bool { return strings.HasPrefix(what, want) }) {
				t.Errorf("%s, %s: no %q in\n\t%s", r.Title, c.goal, want, strings.Join(got, "\n\t"))
			}
		}
		for _, never := range c.never {
			if strings.Contains(strings.Join(got, "\n"), never) {
				t.Errorf("%s, %s: %q in\n\t%s", r.Title, c.goal, never, strings.Join(got, "\n\t"))
			}
		}
	}
}

// TestSuggestLeavesRecipe holds that asking changes nothing.
func TestSuggestLeavesRecipe(t *testing.T) {
	e := newEngine(t)
	for _, text := range ownRecipes {
		r := recipeOf(t, text)
		for _, goal := range allGoals {
			e.Suggest(r, goal, nil, nil)
		}
		want := recipeOf(t, text)
		for i := range want.Lines {
			if fmt.Sprint(r.Lines[i].Text, r.Lines[i].Items) != fmt.Sprint(want.Lines[i].Text, want.Lines[i].Items) {
				t.Errorf("%s: line %d changed", r.Title, i+1)
			}
		}
	}
}

// TestSplitLine holds that a line of two foods keeps the other as it was.
func TestSplitLine(t *testing.T) {
	e := newEngine(t)
	r := recipeOf(t, "Stew\nServes 4\n\n1 lb beef stew meat\n1 tsp each salt and paprika")
	for _, s := range e.Suggest(r, engine.LessSodium, nil, nil) {
		if s.What != "use 1/2 tsp salt instead of 1 tsp" {
			continue
		}
		after := applied(t, e, r, s.Edits)
		got := make(map[string]float64)
		for _, l := range after.Lines {
			if l.Status == engine.Counted {
				got[l.Food.Name()] = l.Grams.Low
			}
		}
		if math.Abs(got["salt"]-3) > 0.01 || math.Abs(got["paprika"]-2.3) > 0.1 {
			t.Errorf("grams after: %v", got)
		}
		return
	}
	t.Error("nothing is suggested for the salt")
}

// TestSuggestBadInput holds recipes of which there is nothing to say.
func TestSuggestBadInput(t *testing.T) {
	e := newEngine(t)
	for _, text := range []string{"Nothing\nServes 4", "Salt to taste\n\nsalt to taste\nbutter for frying", "Unknown\nServes 2\n\n1 cup zzxqy\n2 lb blorp"} {
		r := recipeOf(t, text)
		for _, goal := range allGoals {
			if list := e.Suggest(r, goal, nil, nil); len(list) > 0 {
				t.Errorf("%q, %s: %s", text, goal, list[0].What)
			}
		}
	}
	if list := e.Suggest(&grammar.Recipe{}, engine.All, nil, nil); len(list) > 0 {
		t.Errorf("an empty recipe: %v", list)
	}
}

func BenchmarkSuggest(b *testing.B) {
	e := newEngine(b)
	r := recipeOf(b, chiliRecipe)
	for b.Loop() {
		e.Suggest(r, engine.All, nil, nil)
	}
}

// servedAs gives figures as a conversation gives them, of the recipe as served.
func servedAs(e *engine.Engine) engine.Work {
	return func(r *grammar.Recipe, a *engine.Analysis) *engine.Analysis { return e.Served(r, a, engine.Told{}) }
}

// TestSuggestServed holds that suggestions start from the figures of what is
// served: of 127.5 g soy sauce in a marinade 25 % counts, and half of it takes
// off 127.5 x 25 % x 5,493 mg / 100 g / 4 / 2 = 219 mg sodium.
func TestSuggestServed(t *testing.T) {
	e := newEngine(t)
	r := recipeOf(t, "Soy-marinated chicken\nServes 4\n\n1 1/2 lb boneless skinless chicken thighs\n1/2 cup soy sauce\n2 tbsp honey\n\nMarinate the chicken overnight in the soy sauce and honey. Discard the marinade. Grill 12 minutes.")
	work := servedAs(e)
	list := e.Suggest(r, engine.LessSodium, work, nil)
	if len(list) == 0 {
		t.Fatal("nothing is suggested")
	}
	for _, s := range list {
		changed, err := engine.Apply(r, s.Edits...)
		if err != nil {
			t.Fatal(err)
		}
		if before := work(r, e.Analyse(r)).Per(s.Nutrient).Low; s.Before != before {
			t.Errorf("%s: before %g, want %g", s.What, s.Before, before)
		}
		if after := work(changed, e.Analyse(changed)).Per(s.Nutrient).Low; s.After != after {
			t.Errorf("%s: after %g, want %g", s.What, s.After, after)
		}
	}
	if moved := list[0].Before - list[0].After; math.Abs(moved-219) > 1 {
		t.Errorf("%s: %.0f mg less sodium, want 219", list[0].What, moved)
	}
}

// lineWith is the index of the line that holds a word.
func lineWith(t *testing.T, r *grammar.Recipe, word string) int {
	t.Helper()
	i := slices.IndexFunc(r.Lines, func(l grammar.Line) bool { return strings.Contains(l.Text, word) })
	if i < 0 {
		t.Fatalf("no line holds %q", word)
	}
	return i
}

// TestSuggestLevers holds that the largest lever is among what is suggested
// unasked, and that leaner cuts are.
func TestSuggestLevers(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe string
		goal   engine.Goal
		want   string
	}{
		{"Chicken noodle soup\nServes 8\n\n2 cups diced carrots\n10 cups chicken broth\n3 cups cooked shredded chicken breast\n6 oz egg noodles\n1 tsp salt", engine.All, "use 10 cups canned low-sodium chicken broth"},
		{"Lamb tagine\nServes 6\n\n2 lb lamb shoulder, cubed\n2 onions\n1 tsp salt", engine.LessSaturatedFat, "use 2 lb lean leg of lamb instead of lamb shoulder"},
		{"Pork stew\nServes 6\n\n2 lb pork shoulder, cubed\n2 onions", engine.LessSaturatedFat, "use 2 lb lean boneless pork loin instead of pork shoulder"},
		{"Chicken stew\nServes 6\n\n2 lb chicken pieces\n2 onions", engine.LessSaturatedFat, "use 1 lb chicken meat, without skin instead of 2 lb chicken pieces"},
		{"Turkey\nServes 6\n\n2 lb turkey thighs\n2 onions", engine.LessSaturatedFat, "use 2 lb skinless turkey thighs instead of turkey thighs"},
		{"Fried rice\nServes 2\n\n1 cup rice\n2 large eggs\n1 tbsp oil", engine.LessSaturatedFat, "use 1 large egg plus 2 egg whites instead of 2 large eggs"},
	} {
		list := e.Suggest(recipeOf(t, c.recipe), c.goal, nil, nil)
		if len(list) == 0 || !strings.HasPrefix(list[0].What, c.want) {
			t.Errorf("%s: not first of all %q: %+v", c.recipe[:12], c.want, list)
		}
	}
}

// TestSuggestedFood holds that a line that changes its food is then the food of
// the rule: no-salt-added tomatoes (USDA 11885), crushed, are no purée.
func TestSuggestedFood(t *testing.T) {
	e := newEngine(t)
	for _, line := range []string{"1 can (28 oz) crushed tomatoes", "1 can (28 oz) tomatoes, crushed", "2 cups crushed tomatoes"} {
		r := recipeOf(t, "Chili\nServes 4\n\n1 lb lean ground beef\n"+line)
		found := false
		for _, s := range e.Suggest(r, engine.LessSodium, nil, nil) {
			if !strings.Contains(s.What, "no-salt-added canned tomatoes") {
				continue
			}
			found = true
			lines := applied(t, e, r, s.Edits).Lines
			if got := lines[len(lines)-1].Food.Number(); got != "11885" {
				t.Errorf("%s: %s is %s", line, s.What, got)
			}
		}
		if !found {
			t.Errorf("%s: no tomatoes without salt", line)
		}
	}
}

func BenchmarkSuggestServed(b *testing.B) {
	e := newEngine(b)
	r := recipeOf(b, chiliRecipe)
	work := servedAs(e)
	for b.Loop() {
		e.Suggest(r, engine.All, work, r)
	}
}
