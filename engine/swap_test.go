package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// TestSwaps holds what can stand for a food in general against published
// exchanges: 1 cup buttermilk is 1 tbsp lemon juice and milk to make 1 cup,
// 1 cup whole milk is 1/2 cup evaporated milk and 1/2 cup water (emergency
// substitutions list, item 81; Utah State University Extension), 1 egg is two
// whites or 1/4 cup egg substitute (USDA Family Fare), 1 tbsp butter is 3/4 tbsp
// oil (Extension sheet), 1 tsp baking powder is 1/4 tsp soda and 1/2 tsp cream
// of tartar (Utah State University Extension). The others are common practice.
func TestSwaps(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct{ food, want string }{
		{"buttermilk", "use 1 tbsp lemon juice plus 3/4 cup plus 3 tbsp 1% milk instead of 1 cup buttermilk"},
		{"milk", "use 1/2 cup evaporated milk plus 1/2 cup water instead of 1 cup whole milk"},
		{"eggs", "use 2 egg whites instead of 1 egg"},
		{"egg", "use 1/4 cup liquid egg substitute instead of 1 egg"},
		{"butter", "use 2 1/4 tsp canola oil instead of 1 tbsp butter"},
		{"baking powder", "use 1/4 tsp baking soda plus 1/2 tsp cream of tartar instead of 1 tsp baking powder"},
		{"maple syrup", "use 1 cup honey instead of 1 cup maple syrup"},
		{"wheat flour", "use 3/4 cup rice flour plus 1/4 cup cornstarch instead of 1 cup all-purpose flour"},
		{"cake flour", "use 3/4 cup plus 2 tbsp all-purpose flour plus 2 tbsp cornstarch instead of 1 cup cake flour"},
		{"sour cream", "use 1 cup plain nonfat greek yogurt instead of 1 cup sour cream"},
		{"Honey", "use 1 cup maple syrup instead of 1 cup honey"},
	} {
		options := e.Swaps(nil, c.food, nil)
		if !slices.ContainsFunc(options, func(o engine.SwapOption) bool { return o.What == c.want }) {
			var got []string
			for _, o := range options {
				got = append(got, o.What)
			}
			t.Errorf("%s: no %q in\n\t%s", c.food, c.want, strings.Join(got, "\n\t"))
		}
		for _, o := range options {
			if len(o.Edits) > 0 || o.Dish == "" || o.Source == "" {
				t.Errorf("%s: %+v", c.food, o)
			}
		}
	}
	for _, food := range []string{"", "zzxqy", "water"} {
		if options := e.Swaps(nil, food, nil); len(options) > 0 {
			t.Errorf("%q: %s", food, options[0].What)
		}
	}
}

// TestSwapsInRecipe holds that swaps in a recipe are for its amount, apply and
// suit the dish.
func TestSwapsInRecipe(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe, food string
		want         []string // how they begin
		never        string
	}{
		{muffinRecipe, "buttermilk", []string{"use 1 tbsp lemon juice plus", "use 3/4 cup plain low-fat yogurt plus 1/4 cup 1% milk"}, ""},
		{muffinRecipe, "butter", []string{"use 6 tbsp canola oil instead of 1/2 cup butter"}, "1/2 cup canola"},
		{muffinRecipe, "eggs", []string{"use 4 egg whites instead of 2 eggs", "use 1/2 cup unsweetened applesauce"}, ""},
		{muffinRecipe, "flour", []string{"use 1 1/2 cups rice flour plus 1/2 cup cornstarch"}, "use 1 cup cornstarch"},
		{stroganoff, "sour cream", []string{"use 150 ml plain nonfat greek yogurt"}, ""},
		{stroganoff, "butter", []string{"use 30 g canola oil instead of 30 g butter"}, "3/4"},
		{chiliRecipe, "beef", []string{"use 2 1/4 cups cooked lentils instead of 1 lb ground beef"}, ""},
		{iceCream, "maple syrup", []string{"use 1 cup honey instead of 1 cup maple syrup"}, ""}, // none in it: in general
	} {
		r := recipeOf(t, c.recipe)
		options := e.Swaps(r, c.food, nil)
		var got []string
		for _, o := range options {
			got = append(got, o.What)
			applied(t, e, r, o.Edits)
		}
		for _, want := range c.want {
			if !slices.ContainsFunc(got, func(what string) bool { return strings.HasPrefix(what, want) }) {
				t.Errorf("%s, %s: no %q in\n\t%s", r.Title, c.food, want, strings.Join(got, "\n\t"))
			}
		}
		if c.never != "" && strings.Contains(strings.Join(got, "\n"), c.never) {
			t.Errorf("%s, %s: %q in\n\t%s", r.Title, c.food, c.never, strings.Join(got, "\n\t"))
		}
	}
	for _, o := range e.Swaps(recipeOf(t, "Frittata\nServes 4\n\n6 eggs\n1 cup spinach"), "eggs", nil) {
		if strings.Contains(o.What, "flaxseed") {
			t.Errorf("six eggs bear %s", o.What)
		}
	}
	if options := e.Swaps(recipeOf(t, jamRecipe), "sugar", nil); len(options) > 0 {
		t.Errorf("a jam bears %s", options[0].What)
	}
}

// bears says what a food of a diet must not be known to hold.
var bears = map[string][]fooddata.Allergen{
	"dairy-free": {fooddata.Milk}, "egg-free": {fooddata.Eggs}, "gluten-free": {fooddata.Wheat}, "vegan": {fooddata.Milk, fooddata.Eggs},
	"nut-free": {fooddata.TreeNuts, fooddata.Peanuts}, "soy-free": {fooddata.Soybeans},
}

var meatGroups = []string{"Beef Products", "Pork Products", "Poultry Products", "Lamb, Veal, and Game Products", "Finfish and Shellfish Products", "Sausages and Luncheon Meats"}

// TestSwapFor makes all options of every diet for every recipe at once. What
// then still does not fit must be named among what has no swap, no option may
// change a line that another changes, and no word may say that it is safe.
func TestSwapFor(t *testing.T) {
	e := newEngine(t)
	found := 0
	for _, r := range allRecipes(t) {
		for _, name := range []string{"dairy-free", "egg-free", "gluten-free", "vegan", "vegetarian", "nut-free", "soy-free"} {
			options, without, ok := e.SwapFor(r, name, nil)
			if !ok {
				t.Fatalf("%s is not known", name)
			}
			found += len(options)
			var edits []engine.Edit
			changed := make(map[int]bool)
			said := strings.Join(without, "\n")
			for _, o := range options {
				edits = append(edits, o.Edits...)
				for _, line := range o.Lines {
					if changed[line] {
						t.Errorf("%s, %s: %s changes a line twice", r.Title, name, o.What)
					}
					changed[line] = true
				}
				said += "\n" + o.What + "\n" + o.Dish
			}
			if strings.Contains(said, "safe") {
				t.Errorf("%s, %s: calls something safe:\n%s", r.Title, name, said)
			}
			after := applied(t, e, r, edits)
			for i := range after.Lines {
				l := &after.Lines[i]
				if l.Status != engine.Counted {
					continue
				}
				contains, _ := l.Food.Allergens()
				meat := (name == "vegetarian" || name == "vegan") && slices.Contains(meatGroups, l.Food.Group())
				for _, a := range bears[name] {
					meat = meat || slices.Contains(contains, a)
				}
				if meat && !strings.Contains(strings.Join(without, "\n"), l.Food.Name()) {
					t.Errorf("%s, %s: %s is left and not named in\n\t%s", r.Title, name, l.Food.Name(), strings.Join(without, "\n\t"))
				}
			}
		}
	}
	if found < 60 {
		t.Errorf("only %d options for all recipes", found)
	}
}

// TestSwapForWords holds what is said for one recipe and how diets are named.
func TestSwapForWords(t *testing.T) {
	e := newEngine(t)
	r := recipeOf(t, "Breakfast\nServes 2\n\n2 eggs\nsalt and pepper to taste\n2 slices bacon\n1 cup milk\n1/2 cup grated parmesan\n1 cup baked custard\nbutter for frying")
	options, without, ok := e.SwapFor(r, "make it vegan", nil)
	if !ok || len(options) < 3 {
		t.Errorf("vegan: %v, %d options", ok, len(options))
	}
	for _, want := range []string{"grated parmesan: no good swap", "butter: not vegan; no amount of it is counted"} {
		if !strings.Contains(strings.Join(without, "\n"), want) {
			t.Errorf("no %q in\n\t%s", want, strings.Join(without, "\n\t"))
		}
	}
	if strings.Contains(strings.Join(without, "\n"), "pepper") {
		t.Errorf("salt and pepper do not fit: %v", without)
	}
	for _, o := range options {
		if strings.Contains(o.What, "1 cup milk") && (!slices.Contains(o.Brings, fooddata.Soybeans) || !strings.Contains(o.What, "unsweetened soy milk")) {
			t.Errorf("milk: %+v", o)
		}
	}
	for words, ok := range map[string]bool{
		"swap for dairy-free": true, "make it vegetarian": true, "Vegan": true, "gluten free": true, "egg-free": true, "without milk": true, "plant-based": true,
		"peanut free": true, "keto": false, "": false, "healthy": false, "lactose-free": false,
	} {
		if _, _, got := e.SwapFor(r, words, nil); got != ok {
			t.Errorf("%q: %v", words, got)
		}
	}
	if options, _, ok := e.SwapFor(nil, "vegan", nil); !ok || len(options) > 0 {
		t.Error("no recipe, but options")
	}
	if options, without, _ := e.SwapFor(&grammar.Recipe{}, "vegan", nil); len(options)+len(without) > 0 {
		t.Error("an empty recipe, but options")
	}
	if !strings.Contains(engine.NotSafe, "does not make the dish safe") {
		t.Error(engine.NotSafe)
	}
}

// TestEggsInCustard holds that a custard has no egg-free swap: the eggs set it.
func TestEggsInCustard(t *testing.T) {
	e := newEngine(t)
	r := recipeOf(t, "Baked Custard\nServes 4\n\n3 eggs\n2 cups milk\n1/3 cup sugar")
	options, without, _ := e.SwapFor(r, "egg-free", nil)
	if len(options) > 0 || len(without) != 1 || !strings.HasPrefix(without[0], "egg: no good swap") {
		t.Errorf("%v, %v", options, without)
	}
}

// TestSwapIsAnother holds that what replaces wheat flour is no wheat, and that
// what replaces an egg and is egg says so.
func TestSwapIsAnother(t *testing.T) {
	e := newEngine(t)
	corn := recipeOf(t, "Skillet cornbread\nServes 8\n\n1 cup yellow cornmeal\n1 cup all-purpose flour\n2 tsp baking powder\n1 cup buttermilk\n2 large eggs")
	for _, r := range []*grammar.Recipe{nil, corn} {
		rice := false
		for _, o := range e.Swaps(r, "wheat flour", nil) {
			rice = rice || strings.Contains(o.What, "rice flour")
			if strings.Contains(o.What, "whole wheat flour") {
				t.Errorf("for wheat flour: %s", o.What)
			}
		}
		if !rice {
			t.Error("no rice flour for wheat flour")
		}
		for _, o := range e.Swaps(r, "eggs", nil) {
			egg := strings.Contains(o.What, "egg white") || strings.Contains(o.What, "egg substitute")
			if said := strings.Contains(o.Dish, "still egg"); egg != said {
				t.Errorf("for eggs: %s: %s", o.What, o.Dish)
			}
		}
	}
	half := recipeOf(t, "Ginger loaf\nMakes 12 slices\n\n1 cup all-purpose flour\n1 cup whole wheat flour\n2/3 cup sugar\n2 large eggs\n1 tsp baking soda")
	for _, o := range e.Swaps(half, "all-purpose flour", nil) {
		if strings.Contains(o.What, "whole wheat flour instead") {
			t.Errorf("half is whole wheat already: %s", o.What)
		}
	}
}

// TestStandInDiet holds that a food that is counted as another is judged by its
// own words.
func TestStandInDiet(t *testing.T) {
	e := newEngine(t)
	for line, swapped := range map[string]bool{
		"4 cups low-sodium vegetable broth": false, "4 cups mushroom broth": false, "4 cups vegetable stock": false,
		"4 cups chicken broth": true, "4 cups low-sodium chicken broth": true, "4 cups veal stock": true, "4 cups lamb stock": true,
	} {
		options, without, ok := e.SwapFor(recipeOf(t, "Soup\nServes 4\n\n"+line+"\n2 cups carrots"), "vegetarian", nil)
		if !ok || (len(options)+len(without) > 0) != swapped {
			t.Errorf("%s: %+v, %q", line, options, without)
		}
	}
}

// TestSwapMarinade holds that a swap in a marinade that is thrown away stays in
// it: the directions speak of the new food then.
func TestSwapMarinade(t *testing.T) {
	e := newEngine(t)
	r := recipeOf(t, "Soy-marinated chicken\nServes 4\n\n1 1/2 lb chicken thighs\n1/2 cup soy sauce\n2 tbsp honey\n\nMarinate the chicken overnight in the soy sauce and honey. Discard the marinade. Grill 12 minutes.")
	work := servedAs(e)
	for food, n := range map[string]fooddata.Nutrient{"soy sauce": fooddata.Sodium, "honey": fooddata.Sugars} {
		options := e.Swaps(r, food, work)
		if len(options) == 0 {
			t.Errorf("%s: no swap", food)
		}
		for _, o := range options {
			changed, err := engine.Apply(r, o.Edits...)
			if err != nil {
				t.Fatal(err)
			}
			served, all := work(changed, e.Analyse(changed)).Per(n).Low, e.Analyse(changed).Per(n).Low
			if strings.Contains(o.Dish, "count all of it") || served > 0.6*all {
				t.Errorf("%s: %s: %.0f %s of %.0f count; %s", food, o.What, served, n.Unit(), all, o.Dish)
			}
		}
	}
}
