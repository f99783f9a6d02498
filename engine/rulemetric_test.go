package engine

import (
	"math"
	"math/big"
	"regexp"
	"strings"
	"testing"

	"pottle/fooddata"
	"pottle/grammar"
)

func TestMetricPart(t *testing.T) {
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	e := New(table, Options{})
	for _, c := range []struct{ rule, times, line, want string }{
		{"1/4 cup lentils, cooked", "6", "", "300 g"},
		{"1/4 cup frozen green peas", "4", "", "135 g"},
		{"1/2 cup broccoli florets", "4", "", "140 g"},
		{"1 tbsp ground flaxseed", "4", "", "4 tbsp"},
		{"1 tbsp oat bran", "8", "", "47 g"},
		{"1 cup 1% milk", "1/4", "", "4 tbsp"}, // never a quarter of a cup
		{"1 cup 1% milk", "1", "1 egg", "235 ml"},
		{"1/4 cup unsweetened applesauce", "2", "2 eggs", "120 g"},
		{"1/4 cup liquid egg substitute", "4", "4 eggs", "235 ml"},
		{"3/4 tbsp canola oil", "4", "4 tbsp butter", "3 tbsp"},
		{"1 cup plain nonfat yogurt", "3/8", "6 tbsp mayonnaise", "6 tbsp"},
		{"1 cup fat-free evaporated milk", "5/4", "300 ml double cream", "295 ml"},
		{"1/3 cup salted butter", "5/4", "300 ml double cream", "95 g"},
		{"1 cup plain nonfat yogurt", "5/4", "300 ml mayonnaise", "295 ml"},
		{"3/4 tbsp canola oil", "16", "225 g butter", "168 g"},
		{"1 1/2 tsp baking powder", "2", "250 g self-raising flour", "1 tbsp"},
		{"1 cup all-purpose flour", "9/5", "225 g self-raising flour", "225 g"},
		{"8 oz dried rice noodles", "3/2", "12 lasagne sheets", "340 g"},
		{"2 egg whites", "4", "4 eggs", "8"},
	} {
		like := grammar.Amount{}
		if c.line != "" {
			like = *amountItem(c.line).Amount
		}
		times, ok := new(big.Rat).SetString(c.times)
		if !ok {
			t.Fatal(c.times)
		}
		rule := amountItem(c.rule)
		item, ok := e.portion(rule, times, like, true)
		if got := amountWords(*item.Amount); !ok || got != c.want {
			t.Errorf("%s times %s for %q: %s, %t; want %s", c.times, c.rule, c.line, got, ok, c.want)
		}
		rule.Amount = new(grammar.Amount)
		*rule.Amount = multiplyAmount(*amountItem(c.rule).Amount, times)
		is, want := e.Resolve(item), e.Resolve(rule)
		if is.Food != want.Food || math.Abs(is.Grams.Low/want.Grams.Low-1) > offMeasure {
			t.Errorf("%s times %s for %q: %.1f g of %s; want about %.1f g of %s", c.times, c.rule, c.line, is.Grams.Low, is.Food, want.Grams.Low, want.Food)
		}
		if kitchen, _ := e.portion(amountItem(c.rule), times, like, false); strings.HasSuffix(amountWords(*kitchen.Amount), "g") && !allWeights(like) {
			t.Errorf("%s in a recipe with cups: %s", c.rule, amountWords(*kitchen.Amount))
		}
	}
}

var inCups = regexp.MustCompile(`\d (cups?|oz|fl oz|lb)\b`)

// TestMetricSuggestions: what is suggested for a recipe that is metric throughout
// has no cup and no ounce in it.
func TestMetricSuggestions(t *testing.T) {
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	e := New(table, Options{})
	adds := 0
	for _, text := range []string{
		"Vegetable and rice soup\nServes 4\n300 g carrots\n200 g white rice\n1 litre vegetable stock\n1 onion\n100 g bacon",
		"Beef lasagne\nserves 6\n500 g beef mince\n400 g chopped tomatoes\n300 ml double cream\n200 g cheddar, grated\n12 lasagne sheets\n2 tbsp olive oil\n6 tbsp mayonnaise\n1 tsp salt",
		"Sponge\nserves 8\n225 g self-raising flour\n225 g butter\n225 g caster sugar\n4 eggs\n2 tbsp milk",
		"Pasta bake\nserves 5\n400 g pasta\n300 g broccoli\n500 ml milk\n60 g butter\n60 g plain flour\n250 g cheddar",
		"Porridge\nserves 2\n100 g rolled oats\n400 ml whole milk\n2 tbsp honey",
		"Chicken salad\nserves 4\n500 g cooked chicken breast\n200 g lettuce\n100 ml mayonnaise\n50 ml olive oil",
	} {
		r, err := grammar.ParseRecipe(text)
		if err != nil || !r.Metric {
			t.Fatalf("%q: %v, metric %t", text, err, r.Metric)
		}
		var said []string
		for goal := range All + 1 {
			for _, s := range e.Suggest(r, goal, nil, nil) {
				said = append(said, s.What)
				if strings.HasPrefix(s.What, "add ") {
					adds++
				}
			}
		}
		for _, diet := range []string{"dairy free", "gluten free", "vegetarian", "eggs", "double cream", "butter", "mayonnaise", "milk", "honey"} {
			for _, o := range e.Swaps(r, diet, nil) {
				if len(o.Edits) > 0 {
					said = append(said, o.What)
				}
			}
			if options, _, ok := e.SwapFor(r, diet, nil); ok {
				for _, o := range options {
					said = append(said, o.What)
				}
			}
		}
		if len(said) == 0 {
			t.Errorf("%s: nothing is suggested", r.Title)
		}
		for _, s := range said {
			if inCups.MatchString(s) {
				t.Errorf("%s: %s", r.Title, s)
			}
		}
	}
	if adds == 0 {
		t.Error("nothing was to be added")
	}
}
