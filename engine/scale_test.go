package engine_test

import (
	"math"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

func scaledFrom(t testing.TB, text string) *grammar.Recipe {
	t.Helper()
	r, err := grammar.ParseRecipe(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

const scaleRecipe = `Corn muffins
Serves 12

1 cup cornmeal
1 1/4 cups all-purpose flour, sifted
1/3 cup sugar
1 tbsp baking powder
1/2 tsp salt, plus more to taste
1/4 tsp cayenne pepper (optional)
2 large eggs, beaten
1 cup low-fat milk or buttermilk
1/4 cup (1/2 stick) butter, melted
2 tbsp fresh chives (or 2 tsp dried)
2 to 3 scallions, sliced
1 (15 oz) can corn, drained
1 tsp each cumin and paprika
zest and juice of 1 lime
nonstick cooking spray

Directions
Heat the oven to 400 F. Bake 18 to 20 minutes.
`

// TestScaleRoundTrip scales by a and then by 1/a: the recipe is the same, to
// the last digit, but for how its lines are written.
func TestScaleRoundTrip(t *testing.T) {
	recipes := []*grammar.Recipe{scaledFrom(t, scaleRecipe)}
	for _, p := range readPublished(t) {
		recipes = append(recipes, p.recipe)
	}
	for _, r := range recipes {
		before := exactText(r)
		for _, text := range []string{"1/3", "7/11", "3", "2.75", "999", "1/1000"} {
			a := ratOf(t, text)
			there := scaleBy(t, r, a).Recipe
			back := scaleBy(t, there, new(big.Rat).Inv(a)).Recipe
			if got := exactText(back); got != before {
				t.Fatalf("%s by %s and back:\n%s\nwas:\n%s", r.Title, text, got, before)
			}
		}
		if exactText(r) != before {
			t.Errorf("%s was changed itself", r.Title)
		}
	}
}

func scaleBy(t testing.TB, r *grammar.Recipe, factor *big.Rat) *engine.Scaled {
	t.Helper()
	s, err := engine.Scale(r, factor)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// exactText writes all that a recipe holds with exact numbers.
func exactText(r *grammar.Recipe) string {
	var b strings.Builder
	quantity := func(q grammar.Quantity) {
		if q.Low != nil {
			b.WriteString(q.Low.RatString() + "–" + q.High.RatString() + " ")
		}
	}
	var amount func(a *grammar.Amount)
	amount = func(a *grammar.Amount) {
		if a == nil {
			b.WriteString("none ")
			return
		}
		for _, term := range a.Terms {
			quantity(term.Quantity)
			if term.Measure != nil {
				b.WriteString(term.Measure.Name)
			}
			b.WriteString(" " + term.Size + " ")
			if term.Each != nil {
				b.WriteString("each " + term.Each.String())
			}
		}
		for i := range a.Same {
			b.WriteString("= ")
			amount(&a.Same[i])
		}
	}
	var item func(grammar.Item)
	item = func(i grammar.Item) {
		amount(i.Amount)
		b.WriteString(strings.Join(slices.Concat(i.Words, []string{"|"}, i.Prep, []string{"|"}, i.Aside, []string{"|"}, i.Shares, i.Notes, []string{i.Uncounted, i.More}), " "))
		if i.Optional {
			b.WriteString(" optional")
		}
		for _, or := range i.Or {
			b.WriteString(" or ")
			item(or)
		}
	}
	b.WriteString(r.Title + "\n")
	quantity(r.Servings)
	b.WriteString("\n" + strings.Join(r.Method, "\n"))
	for _, l := range r.Lines {
		b.WriteString("\n")
		if l.Kind != grammar.Ingredient {
			b.WriteString(l.Text)
		}
		for _, i := range l.Items {
			item(i)
			b.WriteString("; ")
		}
	}
	return b.String()
}

// TestScaleFigures holds that figures are linear in the amounts, and that a
// serving's figures stay what they were.
func TestScaleFigures(t *testing.T) {
	e := newEngine(t)
	for _, p := range readPublished(t) {
		was := e.Analyse(p.recipe)
		for _, text := range []string{"1/3", "2", "3.7"} {
			factor := ratOf(t, text)
			f, _ := factor.Float64()
			now := e.Analyse(scaleBy(t, p.recipe, factor).Recipe)
			if len(now.Lines) != len(was.Lines) {
				t.Fatalf("%s: %d lines, were %d", p.name, len(now.Lines), len(was.Lines))
			}
			for i := range now.Lines {
				if now.Lines[i].Status != was.Lines[i].Status || now.Lines[i].Food != was.Lines[i].Food || !sameFigure(now.Lines[i].Grams.Low, f*was.Lines[i].Grams.Low) {
					t.Errorf("%s by %s: %s: %s %.3f g, was %s %.3f g", p.name, text, was.Lines[i].Text, now.Lines[i].Status, now.Lines[i].Grams.Low, was.Lines[i].Status, was.Lines[i].Grams.Low)
				}
			}
			for n := range fooddata.Nutrient(fooddata.NumNutrients) {
				if !sameFigure(now.Recipe[n].Low, f*was.Recipe[n].Low) || !sameFigure(now.Recipe[n].High, f*was.Recipe[n].High) {
					t.Errorf("%s by %s: %s of the recipe %g, was %g", p.name, text, n.Name(), now.Recipe[n].Low, was.Recipe[n].Low)
				}
				if was.Known && (!sameFigure(now.Per(n).Low, was.Per(n).Low) || now.Complete(n) != was.Complete(n)) {
					t.Errorf("%s by %s: %s of a serving %g, was %g", p.name, text, n.Name(), now.Per(n).Low, was.Per(n).Low)
				}
			}
		}
	}
}

func sameFigure(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(b)) }

func TestScaleLines(t *testing.T) {
	for _, c := range []struct {
		line, factor   string
		exact, kitchen string
	}{
		{"1/3 cup sugar", "5/4", "5/12 cup sugar", "1/3 cup plus 4 tsp sugar"},
		{"1 1/4 cups all-purpose flour, sifted", "3/2", "1 7/8 cups all-purpose flour, sifted", "1 3/4 cups plus 2 tbsp all-purpose flour, sifted"},
		{"½ cup sugar", "2", "1 cup sugar", "1 cup sugar"},
		{"250 g flour", "1/3", "83 1/3 g flour", "83 g flour"},
		{"salt to taste", "2", "salt to taste", "salt to taste"},
		{"1/2 tsp salt, plus more to taste", "3", "1 1/2 tsp salt, plus more to taste", "1 1/2 tsp salt, plus more to taste"},
		{"1/4 cup nuts (optional)", "2", "1/2 cup nuts (optional)", "1/2 cup nuts (optional)"},
		{"2 tbsp fresh chives (or 2 tsp dried)", "1/2", "1 tbsp fresh chives or 1 tsp dried", "1 tbsp fresh chives or 1 tsp dried"},
		{"1 cup butter or margarine", "1/2", "1/2 cup butter or margarine", "1/2 cup butter or margarine"},
		{"1 tsp each cumin and salt", "2", "2 tsp cumin and 2 tsp salt", "2 tsp cumin and 2 tsp salt"},
		{"zest and juice of 2 limes", "1/2", "zest and juice of 1 lime", "zest and juice of 1 lime"},
		{"1-inch piece ginger, grated", "3/2", "1 1/2-inch piece ginger, grated", "1 1/2-inch piece ginger, grated"},
		// One and several.
		{"1 medium onion, chopped", "2", "2 medium onions, chopped", "2 medium onions, chopped"},
		{"2 tomatoes", "1/2", "1 tomato", "1 tomato"},
		{"1 potato", "3", "3 potatoes", "3 potatoes"},
		{"1 bay leaf", "2", "2 bay leaves", "2 bay leaves"},
		{"3 carrots (1 cup)", "2", "6 carrots (2 cups total)", "6 carrots (2 cups total)"},
		{"4 salmon fillets (6 oz each)", "1/2", "2 salmon fillets (6 oz each)", "2 salmon fillets (6 oz each)"},
		// Things that come whole.
		{"1 (15 oz) can corn, drained", "3/2", "1 1/2 (15 oz) cans corn, drained", "1 1/2 (15 oz) cans corn, drained, 22 1/2 oz in all"},
		{"1 packet dry yeast", "1/2", "1/2 packet dry yeast", "1/2 packet dry yeast, about 1 1/8 tsp or 3.5 g"},
		{"1 stick butter", "1/2", "1/2 stick butter", "1/2 stick butter"},
		{"1 stick butter", "3/4", "3/4 stick butter", "6 tbsp butter"},
		{"1 stick celery", "3/4", "3/4 stick celery", "3/4 stick celery"},
	} {
		r := scaledFrom(t, "Dish\nserves 2\n\n"+c.line)
		s := scaleBy(t, r, ratOf(t, c.factor))
		if len(s.Lines) != 1 {
			t.Errorf("%s: %d lines", c.line, len(s.Lines))
			continue
		}
		if l := s.Lines[0]; l.Was != c.line || l.Exact != c.exact || l.Kitchen != c.kitchen || s.Recipe.Lines[l.Line].Text != c.exact {
			t.Errorf("%s by %s: was %q, exact %q, kitchen %q; want %q, %q", c.line, c.factor, l.Was, l.Exact, l.Kitchen, c.exact, c.kitchen)
		}
	}
}

// TestScaleEggs holds the words for eggs that are not whole. A large egg is
// 50 g and 9.9 tsp (SR28 01123: 243 g and 4.86 eggs a cup).
func TestScaleEggs(t *testing.T) {
	for _, c := range []struct{ line, factor, want string }{
		{"2 eggs", "1/2", "1 egg"},
		{"1 egg", "2", "2 eggs"},
		{"1 egg", "1/2", "1 egg: beat it and use half, about 1 tbsp plus 2 tsp (25 g)"},
		{"3 large eggs", "1/2", "1 large egg; beat 1 more and use half, about 1 tbsp plus 2 tsp (25 g)"},
		{"1 egg", "4/3", "1 egg; beat 1 more and use a third, about 1 tbsp plus 1/4 tsp (16.5 g), or 1 yolk more"},
		{"2 eggs", "5/6", "1 egg; beat 1 more and use two thirds, about 2 tbsp plus 1/2 tsp (33 g), or 1 white more"},
		{"1 jumbo egg", "1/2", "1 jumbo egg: beat it and use half, about 2 tbsp (31.5 g)"},
		{"3 egg whites", "1/2", "1 egg white; stir 1 more and use half, about 1 tbsp plus 1/4 tsp (16.5 g)"},
		{"1 egg yolk", "1/2", "1 egg yolk: stir it and use half, about 1 3/4 tsp (8.5 g)"},
		{"8 eggs", "31/32", "8 eggs"},
		{"1 egg", "1/10", "1 egg: beat it and use a quarter, about 2 1/2 tsp (12.5 g)"},
		{"2 to 3 eggs", "3/2", "3 to 5 eggs"},
		{"1 egg, separated", "3/2", "1 1/2 eggs, separated: of the last egg, half of the white and of the yolk"},
		{"3 hard-boiled eggs", "1/2", "1 1/2 hard-boiled eggs"},
		{"1 eggplant", "1/2", "1/2 eggplant"},
		{"1 egg plus 2 egg whites", "1/2", "1 egg: beat it and use half, about 1 tbsp plus 2 tsp (25 g); and 1 egg white"},
	} {
		s := scaleBy(t, scaledFrom(t, "Dish\nserves 2\n\n"+c.line), ratOf(t, c.factor))
		if got := s.Lines[0].Kitchen; got != c.want {
			t.Errorf("%s by %s: %q, want %q", c.line, c.factor, got, c.want)
		}
	}
}

func TestKitchenItem(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"1 1/2 eggs", "1 egg; beat 1 more and use half, about 1 tbsp plus 2 tsp (25 g)"},
		{"5/12 cup oats", "1/3 cup plus 4 tsp oats"},
		{"0 cups sugar", "0 cup sugar"},
	} {
		if got, _ := engine.KitchenItem(grammar.ParseLine(c.line).Items[0], false); got != c.want {
			t.Errorf("%s: %q, want %q", c.line, got, c.want)
		}
	}
}

// TestScaleError holds that the error told is that of the kitchen amount.
func TestScaleError(t *testing.T) {
	for _, c := range []struct {
		line, factor string
		percent      float64
	}{
		{"1/2 tsp salt", "1/3", 12.5}, {"1 cup flour", "1/2", 0}, {"3 eggs", "4/9", 0}, {"1 egg", "5/12", -20}, {"6 eggs", "1/7", -12.5},
	} {
		s := scaleBy(t, scaledFrom(t, "Dish\nserves 2\n\n"+c.line), ratOf(t, c.factor))
		if got := 100 * s.Lines[0].Error; math.Abs(got-c.percent) > 0.1 {
			t.Errorf("%s by %s: %q, %+.2f %% off, want %+.2f", c.line, c.factor, s.Lines[0].Kitchen, got, c.percent)
		}
	}
}

func TestScaleServings(t *testing.T) {
	for _, c := range []struct {
		yield, factor    string
		servings, yield2 string
	}{
		{"Serves 4", "2", "8", "Serves 8"},
		{"Serves 4-6", "2", "8 to 12", "Serves 8-12"},
		{"Makes 24 muffins", "1/2", "12", "Makes 12 muffins"},
		{"Serves 4", "3/8", "1 1/2", "Serves 1 1/2"},
		{"Makes 1 loaf (12 slices)", "2", "24", "serves 24"},
		{"Makes 1 loaf (12 slices)", "1", "12", "Makes 1 loaf (12 slices)"},
	} {
		s := scaleBy(t, scaledFrom(t, "Dish\n"+c.yield+"\n\n1 cup flour"), ratOf(t, c.factor))
		if s.Recipe.Servings.String() != c.servings || s.Recipe.Yield != c.yield2 {
			t.Errorf("%s by %s: %s, %q; want %s, %q", c.yield, c.factor, s.Recipe.Servings, s.Recipe.Yield, c.servings, c.yield2)
		}
		if !slices.ContainsFunc(s.Recipe.Lines, func(l grammar.Line) bool { return l.Text == c.yield2 }) {
			t.Errorf("%s: no line tells the new servings", c.yield)
		}
	}
	s, err := engine.ScaleToServings(scaledFrom(t, "Dish\nServes 4-6\n\n1 cup flour"), ratOf(t, "10"))
	if err != nil || s.Recipe.Servings.String() != "10" || s.Lines[0].Kitchen != "2 1/2 cups flour" || len(s.Notes) == 0 {
		t.Errorf("4-6 to 10 servings: %v, %+v", err, s)
	}
}

func TestScaleNotes(t *testing.T) {
	for _, c := range []struct {
		recipe, factor string
		want           string // words of the notes, in order; a note ends with ";"
	}{
		{scaleRecipe, "3/2", ""},
		{scaleRecipe, "2", "time; pan;"},
		{scaleRecipe, "3", "time; pan; baking powder;"},
		{scaleRecipe, "1/3", "time; pan; baking powder;"},
		{"Fruit salad\nserves 2\n\n1 cup grapes\n1 apple", "4", ""},
		{"Lentil soup\nserves 4\n\n1 cup lentils\n4 cups water\n1 tsp salt\n\nDirections\nSimmer 40 minutes.", "3", "time; salt and spice; liquid;"},
		{"Lentil soup\nserves 4\n\n1 cup lentils\n4 cups water\n1 tsp salt\n\nDirections\nSimmer 40 minutes.", "1/4", "time; salt and spice; liquid;"},
		{"Bread\nserves 10\n\n500 g flour\n7 g yeast\n10 g salt\n300 ml water\n\nDirections\nLet rise 1 hour. Bake 40 minutes.", "3", "time; pan; yeast; salt stays;"},
		{"Strawberry jam\nmakes 40 servings\n\n4 cups strawberries\n3 cups sugar\n1 package pectin", "3", "jam;"},
		{"Dip\n\n1 cup yogurt", "2", "the recipe does not say how many it serves;"},
		{"Dip\nserves 2\n\n1 tbsp sesame seeds (reserve 1 tsp for garnish)", "2", "kept as written;"},
		{"Dip\nserves 2\n\n1 cup yogurt\n\nDirections\nStir in 1/2 cup of the yogurt.", "2", "amounts named in the directions;"},
		{"Dip\nserves 2\n\n1 cup yogurt\n1/0 cup milk", "2", "\"1/0 cup milk\" could not be read;"},
	} {
		s := scaleBy(t, scaledFrom(t, c.recipe), ratOf(t, c.factor))
		wants := strings.Split(strings.TrimSuffix(c.want, ";"), "; ")
		if c.want == "" {
			wants = nil
		}
		ok := len(wants) == len(s.Notes)
		for i := 0; ok && i < len(wants); i++ {
			ok = strings.HasPrefix(s.Notes[i], wants[i])
		}
		if !ok {
			t.Errorf("%s by %s: notes\n%s\nwant %q", strings.SplitN(c.recipe, "\n", 2)[0], c.factor, strings.Join(s.Notes, "\n"), wants)
		}
	}
}

func TestScaleBadInput(t *testing.T) {
	r := scaledFrom(t, scaleRecipe)
	before := exactText(r)
	for _, c := range []struct{ factor, want string }{
		{"0", "a recipe cannot be scaled by 0: the factor must be above zero"},
		{"-2", "a recipe cannot be scaled by -2: the factor must be above zero"},
		{"1000000", "1000000 times the recipe is more than pottle scales: 1000 times is the most"},
		{"1001", "1001 times the recipe is more than pottle scales: 1000 times is the most"},
		{"1/1001", "less than 1/1000 of the recipe is smaller than pottle scales"},
		{"123456789012345678901/123456789012345678900", "the factor has too many digits: give a shorter one such as 1 1/2 or 0.75"},
	} {
		if s, err := engine.Scale(r, ratOf(t, c.factor)); err == nil || err.Error() != c.want || s != nil {
			t.Errorf("by %s: %v, want %q", c.factor, err, c.want)
		}
	}
	if _, err := engine.Scale(r, nil); err == nil {
		t.Error("no factor: no error")
	}
	for _, c := range []struct {
		recipe   *grammar.Recipe
		servings *big.Rat
		want     string
	}{
		{r, ratOf(t, "0"), "a recipe cannot be made for 0 servings: the number must be above zero"},
		{r, ratOf(t, "-9"), "a recipe cannot be made for -9 servings: the number must be above zero"},
		{r, nil, "a recipe cannot be made for no servings: the number must be above zero"},
		{r, ratOf(t, "1000000"), "from 12 servings to 1000000: 83333 1/3 times the recipe is more than pottle scales: 1000 times is the most"},
		{scaledFrom(t, "Dip\n\n1 cup yogurt"), ratOf(t, "4"), "the recipe does not say how many it serves: give that first, or give a factor such as 1 1/2"},
	} {
		if _, err := engine.ScaleToServings(c.recipe, c.servings); err == nil || err.Error() != c.want {
			t.Errorf("to %v servings: %v, want %q", c.servings, err, c.want)
		}
	}
	if exactText(r) != before {
		t.Error("the recipe was changed")
	}
}

// TestScaleByOne leaves every line as it was typed.
func TestScaleByOne(t *testing.T) {
	r := scaledFrom(t, scaleRecipe)
	s := scaleBy(t, r, big.NewRat(1, 1))
	for _, l := range s.Lines {
		if l.Was != l.Kitchen || l.Was != l.Exact || s.Recipe.Lines[l.Line].Text != l.Was {
			t.Errorf("%q became %q, %q", l.Was, l.Exact, l.Kitchen)
		}
	}
	if len(s.Lines) != 15 || len(s.Notes) != 0 {
		t.Errorf("%d lines, notes %q", len(s.Lines), s.Notes)
	}
}

func BenchmarkScale(b *testing.B) {
	r := scaledFrom(b, scaleRecipe)
	for b.Loop() {
		if _, err := engine.Scale(r, big.NewRat(11, 6)); err != nil {
			b.Fatal(err)
		}
	}
}
