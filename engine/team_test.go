package engine_test

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

func teamFoods(t testing.TB, foods ...fooddata.CustomFood) *fooddata.Table {
	t.Helper()
	table, err := fooddata.NewTable("team test", foods)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

type figures = map[fooddata.Nutrient]float64

// teamOats are the foods of the examples. The broth has the name of a food of
// the table.
func teamOats(t testing.TB) *fooddata.Table {
	return teamFoods(t,
		fooddata.CustomFood{Name: "oat bar", Others: []string{"house bar"}, ServingGrams: 40, ServingName: "bar", PerServing: figures{
			fooddata.Energy: 150, fooddata.Fat: 5, fooddata.SaturatedFat: 1, fooddata.Carbohydrate: 25, fooddata.Fibre: 3, fooddata.Sugars: 8, fooddata.AddedSugars: 7,
			fooddata.Protein: 3, fooddata.Sodium: 95}},
		fooddata.CustomFood{Name: "chicken broth", ServingGrams: 240, ServingName: "cup", PerServing: figures{
			fooddata.Protein: 4, fooddata.Fat: 0, fooddata.Carbohydrate: 1, fooddata.Sodium: 40}},
		fooddata.CustomFood{Name: "zoo milk", ServingGrams: 240, ServingName: "1 cup", PerServing: figures{fooddata.Energy: 100}},
	)
}

func resolved(t testing.TB, e *engine.Engine, line string) engine.Line {
	t.Helper()
	items := grammar.ParseLine(line).Items
	if len(items) == 0 {
		t.Fatalf("%q has no item", line)
	}
	return e.Resolve(items[0])
}

func TestTeamFoods(t *testing.T) {
	e := newEngine(t).With(engine.Team{Foods: teamOats(t)})
	for _, c := range []struct {
		line, food string
		grams      float64
		assumed    string // all of it, joined
	}{
		{"1 oat bar", "oat bar", 40, ""},
		{"2 oat bars", "oat bar", 80, ""},
		{"2 large oat bars, crumbled", "oat bar", 80, "one bar is 40 g"},
		{"2 house bars", "oat bar", 80, ""},
		{"1 serving oat bar", "oat bar", 40, ""},
		{"100 g bar, oat", "oat bar", 100, ""},
		{"100 g Oat Bar (chilled)", "oat bar", 100, ""},
		{"2 tbsp chicken broth", "chicken broth", 30, "the team's own chicken broth, not regular chicken broth; energy of chicken broth worked out from its protein, fat and carbohydrate"},
		{"1 cup low sodium chicken broth", "canned low-sodium chicken broth", 240, "taken as canned low-sodium chicken broth"},
		{"100 g chicken broth, condensed", "condensed chicken broth", 100, "not the team's own chicken broth, since the line says more"},
		{"1 cup milk", "whole milk", 244, "taken as whole milk"},
		{"100 g zoo milk", "zoo milk", 100, ""},
		{"100 g coconut milk", "coconut milk, canned", 100, "taken as coconut milk, canned"},
	} {
		t.Run(c.line, func(t *testing.T) {
			l := resolved(t, e, c.line)
			if l.Status != engine.Counted || l.Food.Name() != c.food || math.Abs(l.Grams.Low-c.grams) > 0.05 || strings.Join(l.Assumed, "; ") != c.assumed {
				t.Errorf("%s, %s, %.3f g, %q: %s", l.Status, l.Food, l.Grams.Low, l.Assumed, l.Why)
			}
		})
	}
}

func TestTeamFoodsAsk(t *testing.T) {
	e := newEngine(t).With(engine.Team{Foods: teamOats(t)})
	l := resolved(t, e, "1 house")
	if l.Status != engine.Ask || len(l.Choices) == 0 || l.Choices[0].Name() != "oat bar" {
		t.Errorf("%s %s, choices %v", l.Status, l.Food, l.Choices)
	}
	l = resolved(t, e, "1 zoo milk")
	if l.Status != engine.Ask || l.Reason != engine.AskAmount {
		t.Errorf("%s %s %v", l.Status, l.Why, l.Grams)
	}
}

// TestTeamNamesComeBack says every name of a team's foods as a line would: names
// that the reading takes apart too must be taken for their own food.
func TestTeamNamesComeBack(t *testing.T) {
	var foods []fooddata.CustomFood
	for _, name := range []string{"milk", "protein shake powder", "2% oat drink", "Nan's broth and herbs", "ready-to-eat lentils", "chopped salad, fresh", "drained chickpeas",
		"thickened water", "7 grain bar", "soup (no salt)", "cooked rice", "fat-free milk", "tomato puree", "crème brûlée", "mashed potatoes, smooth", "chicken, minced and moist"} {
		foods = append(foods, fooddata.CustomFood{Name: name, ServingGrams: 100, PerServing: figures{fooddata.Energy: 50}})
	}
	e := newEngine(t).With(engine.Team{Foods: teamFoods(t, foods...)})
	for _, f := range foods {
		for _, amount := range []string{"1 serving ", "100 g ", "2 servings of "} {
			if l := resolved(t, e, amount+f.Name); l.Food.IsZero() || !l.Food.Team() || l.Food.Name() != f.Name || l.Status != engine.Counted {
				t.Errorf("%s%s: %s %s %q %s", amount, f.Name, l.Status, l.Food, l.Assumed, l.Why)
			}
		}
	}
	if l := resolved(t, e, "100 g ready-to-eat lentils"); !slices.Contains(l.Assumed, "the team's own ready-to-eat lentils, not lentils, cooked") {
		t.Errorf("%q", l.Assumed)
	}
}

// TestTeamSaysMore: where the line says more than the name of the team's food,
// the table's fuller name counts, and the reader is told.
func TestTeamSaysMore(t *testing.T) {
	e := newEngine(t).With(engine.Team{Foods: teamFoods(t, fooddata.CustomFood{Name: "tomatoes", ServingGrams: 100})})
	l := resolved(t, e, "1 can (15 oz) tomatoes")
	if l.Food.Team() || !slices.Contains(l.Assumed, "not the team's own tomatoes, since the line says more") {
		t.Errorf("%s %q", l.Food, l.Assumed)
	}
	if l = resolved(t, e, "100 g tomatoes"); !l.Food.Team() {
		t.Errorf("%s %q", l.Food, l.Assumed)
	}
	e = e.With(engine.Team{Foods: teamFoods(t, fooddata.CustomFood{Name: "milk", ServingGrams: 240}, fooddata.CustomFood{Name: "beef", ServingGrams: 100})})
	for _, line := range []string{"1 cup milk (whole)", "1 cup milk, fresh whole", "1 cup milk, dried", "1 cup milk, 2%"} {
		if l = resolved(t, e, line); l.Food.Team() || !slices.Contains(l.Assumed, "not the team's own milk, since the line says more") {
			t.Errorf("%s: %s %q", line, l.Food, l.Assumed)
		}
	}
	if l = resolved(t, e, "1 lb ground beef"); l.Food.Team() || l.Status != engine.Counted {
		t.Errorf("%s %q", l.Food, l.Assumed)
	}
}

func TestTeamWords(t *testing.T) {
	words := map[string]string{"Milk": "skim milk", "bars": "oat bar", "beans": "black beans, canned", "tomato puree": "crushed tomatoes", "cheese": "moon cheese", "tomatoes": "canned tomatoes"}
	e := newEngine(t).With(engine.Team{Foods: teamOats(t), Words: words})
	base := newEngine(t)
	for _, c := range []struct {
		line, food, assumed string // no food: as without the team
	}{
		{"1 cup milk", "skim milk", "milk is skim milk, as the team has it"},
		{"1 cup cold milk", "skim milk", "milk is skim milk, as the team has it"},
		{"1 cup milk, warmed", "skim milk", "milk is skim milk, as the team has it"},
		{"2 bars", "oat bar", "bars are oat bar, as the team has it"},
		{"100 g bar", "oat bar", "bars are oat bar, as the team has it"},
		{"1 can (15 oz) beans", "black beans, canned", "beans are black beans, canned, as the team has it"},
		{"100 g cheese", "", ""},
		{"1 cup coconut milk", "", ""},
		{"1 cup whole milk", "", ""},
		{"1 cup milk, 2%", "", ""},
		{"1 cup milk (whole)", "", ""},
		{"1 cup milk powder", "", ""},
		{"1 cup dried milk", "", ""},
		{"1 cup condensed milk", "", ""},
		{"1 cup evaporated milk", "", ""},
		{"1 cup almond milk", "", ""},
		{"1 cup hemp milk", "", ""},
		{"1 cup milk, whole", "", ""},
		{"1 cup milk, fresh whole", "whole milk", ""},
		{"1 cup milk (whole)", "", ""},
		{"1 cup milk (any kind)", "skim milk", "milk is skim milk, as the team has it"},
		{"1 cup milk (not skim)", "skim milk", "milk is skim milk, as the team has it"},
		{"1 cup fresh milk", "skim milk", "milk is skim milk, as the team has it"},
		{"1 cup fresh whole milk", "", ""},
		{"2 tomatoes, sliced", "tomatoes, canned", "tomatoes are tomatoes, canned, as the team has it"},
		{"2 tomatoes, fresh", "", ""},
		{"1 lb fresh ripe tomatoes", "", ""},
		{"100 g cooked beans", "", ""},
		{"1 cup milk or cream", "skim milk", "milk is skim milk, as the team has it"},
		{"1 cup buttermilk", "", ""},
		{"50 g milk chocolate", "", ""},
		{"100 g green beans", "", ""},
	} {
		t.Run(c.line, func(t *testing.T) {
			l, plain := resolved(t, e, c.line), resolved(t, base, c.line)
			if c.food == "" {
				if l.Food != plain.Food || l.Status != plain.Status || slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, "as the team has it") }) {
					t.Errorf("%s %s %q; without the team %s %s", l.Status, l.Food, l.Assumed, plain.Status, plain.Food)
				}
				return
			}
			first := ""
			if len(l.Assumed) > 0 {
				first = l.Assumed[0]
			}
			if l.Status != engine.Counted || l.Food.Name() != c.food || first != c.assumed {
				t.Errorf("%s %s %q: %s", l.Status, l.Food, l.Assumed, l.Why)
			}
		})
	}
	t.Run("choices", func(t *testing.T) {
		l := resolved(t, e, "1 cup milk")
		if len(l.Choices) < 3 || slices.Contains(l.Choices, l.Food) {
			t.Errorf("choices %v", l.Choices)
		}
	})
	t.Run("no such food", func(t *testing.T) {
		l := resolved(t, e, "100 g cheese")
		if !slices.Contains(l.Assumed, "the team has cheese as moon cheese, which is not in the table") {
			t.Errorf("%s %q", l.Food, l.Assumed)
		}
	})
	t.Run("british", func(t *testing.T) {
		r, err := grammar.ParseRecipe("Sauce\nServes 2\n100 g tomato puree\n100 g flour\n")
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range e.Analyse(r).Lines {
			if l.Item.String() != "" && slices.Contains(l.Item.Words, "puree") && (l.Food.Name() != "crushed tomatoes, canned" && l.Food.Name() != "crushed tomatoes") {
				t.Errorf("%s %q", l.Food, l.Assumed)
			}
		}
	})
}

// TestTeamWordsBare: words of a team for bare names leave every display name of
// the table alone that is not one of them.
func TestTeamWordsBare(t *testing.T) {
	base := newEngine(t)
	words := make(map[string]string)
	for _, name := range strings.Fields("milk beans cheese rice flour oil sugar salt butter chicken beef pork fish bread pasta broth yogurt cream tuna potato nuts") {
		words[name] = "tofu"
	}
	e := base.With(engine.Team{Words: words})
	for f := range base.Table().All() {
		if _, own := words[f.Name()]; own || !f.Curated() {
			continue
		}
		item := grammar.ParseLine("100 g " + f.Name()).Items[0]
		if a, b := base.Resolve(item), e.Resolve(item); a.Food != b.Food || a.Status != b.Status || !slices.Equal(a.Assumed, b.Assumed) {
			t.Errorf("%s is %s %q", f.Name(), b.Food, b.Assumed)
		}
	}
	if l := resolved(t, e, "100 g milk"); !strings.Contains(l.Food.Name(), "tofu") {
		t.Errorf("milk is %s", l.Food)
	}
}

// TestTeamFigures: what is declared for a serving comes back, what is not is a
// gap.
func TestTeamFigures(t *testing.T) {
	e := newEngine(t).With(engine.Team{Foods: teamOats(t)})
	r, err := grammar.ParseRecipe("Snack\nServes 4\n4 oat bars\n400 g apples\n")
	if err != nil {
		t.Fatal(err)
	}
	both := e.Analyse(r)
	if r, err = grammar.ParseRecipe("Snack\nServes 4\n400 g apples\n"); err != nil {
		t.Fatal(err)
	}
	apples := e.Analyse(r)
	for n, want := range (figures{fooddata.Energy: 150, fooddata.Carbohydrate: 25, fooddata.AddedSugars: 7, fooddata.Sodium: 95}) {
		if got := both.Per(n).Low - apples.Per(n).Low; math.Abs(got-want) > 1e-6 || !both.Complete(n) {
			t.Errorf("%s %v, want %v; complete %v", n, got, want, both.Complete(n))
		}
	}
	for _, n := range []fooddata.Nutrient{fooddata.Potassium, fooddata.Cholesterol, fooddata.TransFat, fooddata.Water} {
		if len(both.Recipe[n].Gaps) != 1 || len(apples.Recipe[n].Gaps) > 1 || both.Complete(n) {
			t.Errorf("%s: gaps %v, complete %v", n, both.Recipe[n].Gaps, both.Complete(n))
		}
	}
}

// TestTeamsApart: neither another team nor the engine they come from sees what
// one has, whoever asks first.
func TestTeamsApart(t *testing.T) {
	base := newEngine(t)
	words := map[string]string{"milk": "skim milk"}
	one := base.With(engine.Team{Foods: teamOats(t), Words: words})
	two := one.With(engine.Team{Words: map[string]string{"milk": "1% milk"}})
	words["milk"] = "2% milk" // too late
	for range 2 {
		for _, c := range []struct {
			e    *engine.Engine
			milk string
			bar  bool
		}{{one, "skim milk", true}, {base, "whole milk", false}, {two, "1% milk", false}} {
			if l := resolved(t, c.e, "1 cup milk"); l.Food.Name() != c.milk {
				t.Errorf("milk is %s, want %s", l.Food, c.milk)
			}
			if l := resolved(t, c.e, "1 oat bar"); (l.Status == engine.Counted) != c.bar || slices.ContainsFunc(l.Choices, fooddata.Food.Team) {
				t.Errorf("oat bar: %s %s %v", l.Status, l.Food, l.Choices)
			}
		}
	}
	for _, e := range []*engine.Engine{base, one, two} {
		if hits, misses := e.CacheStats(); hits != 2 || misses != 2 {
			t.Errorf("%d hits, %d misses", hits, misses)
		}
		if e.Table() != base.Table() {
			t.Error("another table")
		}
	}
}

// TestTeamOfNothing: a team without foods and words changes no answer.
func TestTeamOfNothing(t *testing.T) {
	base := newEngine(t)
	for _, own := range []engine.Team{{}, {Foods: teamFoods(t)}, {Words: map[string]string{"": "milk", "milk": ""}}} {
		e := base.With(own)
		for _, l := range readLabels(t, "testdata/labelled_us.tsv", "testdata/labelled_uk.tsv") {
			for _, item := range grammar.ParseLine(l.line).Items {
				a, b := base.Resolve(item), e.Resolve(item)
				if a.Food != b.Food || a.Status != b.Status || a.Grams != b.Grams || !slices.Equal(a.Assumed, b.Assumed) || !slices.Equal(a.Choices, b.Choices) {
					t.Fatalf("%s: %s %s %q; %s %s %q", l.line, a.Status, a.Food, a.Assumed, b.Status, b.Food, b.Assumed)
				}
			}
		}
	}
}

// TestTeamAtOnce is for the race detector.
func TestTeamAtOnce(t *testing.T) {
	base := newEngine(t)
	foods := teamOats(t)
	one := base.With(engine.Team{Foods: foods, Words: map[string]string{"milk": "skim milk"}})
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for _, e := range []*engine.Engine{one, base, one.With(engine.Team{Foods: foods})} {
				for _, line := range []string{"1 cup milk", "2 oat bars", "1 cup chicken broth", "1 house"} {
					resolved(t, e, line)
				}
			}
		})
	}
	wait.Wait()
}
