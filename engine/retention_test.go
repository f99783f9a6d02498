package engine_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

func recipe(t *testing.T, text string) *grammar.Recipe {
	t.Helper()
	r, err := grammar.ParseRecipe(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// dish is a recipe of these lines for one.
func dish(t *testing.T, lines ...string) *grammar.Recipe {
	t.Helper()
	return recipe(t, "Dish\nServes 1\n\nIngredients\n"+strings.Join(lines, "\n")+"\n")
}

func named(t *testing.T, words string) engine.Cooking {
	t.Helper()
	c, ok := engine.CookingNamed(words)
	if !ok {
		t.Fatalf("%q is not understood", words)
	}
	return c
}

func cells(t *testing.T, file string) [][]string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			rows = append(rows, strings.Split(line, "\t"))
		}
	}
	return rows
}

// TestRetentionTable holds the table to what it must be: each row once, every
// method one that can be told, factors in per cent.
func TestRetentionTable(t *testing.T) {
	rows := cells(t, "retention.tsv")
	if len(rows) != 68 {
		t.Errorf("%d rows, want 68", len(rows))
	}
	seen, used := make(map[string]bool), make(map[string]bool)
	for _, r := range rows {
		if seen[r[3]] {
			t.Errorf("%s stands twice", r[3])
		}
		seen[r[3]] = true
		for method := range strings.SplitSeq(r[1], "; ") {
			if key := r[0] + method + r[2]; used[key] {
				t.Errorf("%s: two rows for %s", r[0], method)
			} else {
				used[key] = true
			}
			for one := range strings.SplitSeq(method, " + ") {
				if c, ok := engine.CookingNamed(one); one != "boiled in shell" && (!ok || c.Method != one) {
					t.Errorf("%s: no such method: %q", r[3], one)
				}
			}
		}
		for _, cell := range r[4:] {
			var percent int
			if n, _ := fmt.Sscan(cell, &percent); cell != "-" && (n != 1 || percent < 5 || percent > 100) {
				t.Errorf("%s: factor %q", r[3], cell)
			}
		}
	}
}

// TestRetentionSource compares every factor with the source, where it is at
// hand.
func TestRetentionSource(t *testing.T) {
	const source = "../../shared/data/retention.csv"
	f, err := os.Open(source)
	if errors.Is(err, fs.ErrNotExist) {
		t.Skipf("%s (rows of the USDA Table of Nutrient Retention Factors, Release 6) is not here", source)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	ours := make(map[string][]string)
	for _, r := range cells(t, "retention.tsv") {
		ours[r[3]] = r[4:]
	}
	for _, r := range want[1:] {
		factors := slices.Clone(r[3:])
		for i := range factors {
			if factors[i] == "" {
				factors[i] = "-"
			}
		}
		if !slices.Equal(ours[r[2]], factors) {
			t.Errorf("%s: %v, want %v", r[2], ours[r[2]], factors)
		}
	}
	if len(ours) != len(want)-1 {
		t.Errorf("%d rows, the source has %d", len(ours), len(want)-1)
	}
}

// TestRetentionFoods holds that every beginning in the table of classes finds
// a food, and every class has a row.
func TestRetentionFoods(t *testing.T) {
	e := newEngine(t)
	classes := make(map[string]bool)
	for _, r := range cells(t, "retention.tsv") {
		classes[strings.TrimSuffix(strings.TrimSuffix(r[0], ", under 5 % fat"), ", over 5 % fat")] = true
	}
	for _, r := range cells(t, "retention_food.tsv") {
		if !classes[r[0]] {
			t.Errorf("class %q has no row", r[0])
		}
		for begin := range strings.SplitSeq(r[2], ";") {
			begin = strings.TrimSpace(begin)
			found := false
			for f := range e.Table().All() {
				found = found || f.Group() == r[1] && strings.HasPrefix(f.Description(), begin)
			}
			if !found {
				t.Errorf("%s: no food begins with %q", r[0], begin)
			}
		}
	}
}

// TestRetentionByHand holds worked examples: the food's figure in SR28 times
// the factor of the row, both written out.
//
// Source of the factors: USDA Table of Nutrient Retention Factors, Release 6
// (2007), by the row named.
func TestRetentionByHand(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line, cooking string
		nutrient      fooddata.Nutrient
		want          float64
		row           string
	}{
		{"100 g spinach", "boiled", fooddata.VitaminC, 28.1 * 0.70, "VEG,GREENS,BOILED,WATER USED"},
		{"100 g spinach", "boiled", fooddata.Folate, 194 * 0.75, "VEG,GREENS,BOILED,WATER USED"},
		{"100 g spinach", "boiled and drained", fooddata.VitaminC, 28.1 * 0.55, "VEG,GREENS,BOILED,WATER COVER DRAIN"},
		{"100 g spinach", "boiled in little water and drained", fooddata.Calcium, 99 * 0.95, "VEG,GREENS,BOILD,LITTLE WATER DRAIN"},
		{"100 g spinach", "stir-fried", fooddata.Folate, 194 * 0.85, "VEG,GREENS,STIR FRY"},
		{"100 g onion", "sautéed", fooddata.VitaminC, 7.4 * 0.75, "VEG,ROOTS,ETC,SAUTEED"},
		{"100 g broccoli", "baked", fooddata.VitaminC, 89.2 * 0.85, "VEG,OTHER,BAKED"},
		{"100 g broccoli", "stir-fried", fooddata.FolateDFE, 63 * 0.80, "VEG,OTHER,STIR FRY"},
		{"100 g dried navy beans", "simmered 1 hour", fooddata.Potassium, 1185 * 0.75, "LEGUMES,CKD 45/75MIN,BLD,WATER USED"},
		{"100 g dried navy beans", "boiled then baked", fooddata.Folate, 364 * 0.45, "LEGUMES,CKD 45/75MIN,BOILED+BAKED"},
		{"100 g pasta", "boiled and drained", fooddata.Potassium, 223 * 0.30, "PASTA,BOILED,DRAINED"},
		{"100 g pasta", "boiled and drained, then baked", fooddata.Thiamin, 0.891 * 0.55, "PASTA,BOILED,DRAINED,BAKED"},
		{"100 g ground beef (80% lean)", "simmered", fooddata.Thiamin, 0.043 * 0.60, "BEEF,ROAST,SIMMERED,W/DRIP"},
		{"100 g ground beef (80% lean)", "fried", fooddata.VitaminB12, 2.14 * 0.80, "BEEF,FRIED,W/O COATING"},
		{"100 g ground beef (80% lean)", "grilled", fooddata.Niacin, 4.227 * 0.80, "BEEF,BROILED CUT"},
		{"100 g boneless skinless chicken breast", "roasted", fooddata.Niacin, 9.6 * 0.80, "CHICKEN,ROASTED"},
		{"100 g boneless skinless chicken breast", "simmered", fooddata.VitaminB6, 0.811 * 0.65, "CHICKEN,SIMMERED,W/DRIPPINGS"},
		{"100 g cod", "baked", fooddata.VitaminB12, 0.91 * 0.95, "FINFISH,<5%FAT,BAKED W/DRIPPINGS"},
		{"2 large eggs", "baked", fooddata.VitaminB12, 0.89 * 0.80, "EGGS,BAKED"},
		{"2 large eggs", "fried", fooddata.Folate, 47 * 0.75, "EGGS,FRIED,SCRAMBLED"},
		{"100 g whole milk", "heated 10 minutes", fooddata.VitaminB12, 0.45 * 0.80, "MILK,HEATED APPROX 10MIN"},
		{"100 g whole milk", "heated 30 minutes", fooddata.VitaminB12, 0.45 * 0.55, "MILK,HEATED APPROX 30MIN"},
		{"100 g walnuts", "toasted", fooddata.Folate, 98 * 0.80, "NUTS,ROASTED"},
		{"100 g apples", "stewed", fooddata.VitaminC, 4.6 * 0.70, "FRUITS,FRESH(NOT CITRUS),STEWED"},
		{"100 g apples", "baked", fooddata.VitaminC, 4.6 * 0.80, "FRUITS,FRESH(NOT CITRUS),BAKED"},

		// What has no factor stays.
		{"100 g spinach", "boiled and drained", fooddata.Potassium, 558, ""},
		{"100 g spinach", "steamed", fooddata.VitaminC, 28.1, ""},
		{"100 g spinach", "microwaved", fooddata.VitaminC, 28.1, ""},
		{"100 g pasta", "boiled", fooddata.Thiamin, 0.891, ""},
		{"100 g dried navy beans", "simmered 20 minutes", fooddata.Folate, 364, ""},
		{"100 g whole milk", "heated", fooddata.VitaminB12, 0.45, ""},
	} {
		a := e.Analyse(dish(t, c.line))
		b := e.Cooked(a, named(t, c.cooking))
		if got := b.Recipe[c.nutrient].Low; math.Abs(got-c.want) > 1e-6*c.want {
			t.Errorf("%s in %s, %s: %g, want %g", c.nutrient, c.line, c.cooking, got, c.want)
		}
		said := "no factor is known"
		if c.row != "" {
			said = fmt.Sprintf("row %q", c.row)
		}
		if !strings.Contains(strings.Join(b.Cooking, "\n"), said) {
			t.Errorf("%s, %s: notes %q do not say %s", c.line, c.cooking, b.Cooking, said)
		}
	}
}

// TestAlcoholRetained holds the alcohol left against the rows in
// standards/check_values.csv ("alcohol retained", USDA Release 6), for 100 g of
// wine: 10.6 g alcohol, 85 kcal (SR28 14096).
func TestAlcoholRetained(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		cooking string
		left    float64 // per cent
	}{
		{"off the heat", 85},
		{"flamed", 75},
		{"no heat, stored overnight", 70},
		{"baked 25 minutes, not stirred in", 45},
		{"baked 15 minutes", 40}, {"simmered 15 minutes", 40},
		{"simmered 30 minutes", 35},
		{"baked 1 hour", 25}, {"simmered 1 hour", 25},
		{"simmered 1.5 hours", 20},
		{"simmered 2 hours", 10},
		{"baked 2 1/2 hours", 5},

		// Between the rows: the shorter time, so as not to say too little.
		{"simmered 5 minutes", 85}, {"simmered 29 minutes", 40}, {"simmered 45 min", 35}, {"simmered 59 minutes", 35},
		{"simmered 8 hours", 5},
		{"flamed, then simmered 1 hour", 25},

		// Not known, so all of it.
		{"raw", 100}, {"simmered", 100}, {"baked", 100}, {"steamed 20 minutes", 100}, {"baked 20 minutes, not stirred in", 100},
	} {
		a := e.Analyse(dish(t, "100 g red wine"))
		b := e.Cooked(a, named(t, c.cooking))
		if got, want := b.Recipe[fooddata.Alcohol].Low, 10.6*c.left/100; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g g alcohol left, want %g", c.cooking, got, want)
		}
		if got, want := b.Recipe[fooddata.Energy].Low, 85-6.93*10.6*(1-c.left/100); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g kcal, want %g", c.cooking, got, want)
		}
		if got := b.Recipe[fooddata.Carbohydrate].Low; got != a.Recipe[fooddata.Carbohydrate].Low {
			t.Errorf("%s: carbohydrate changed to %g", c.cooking, got)
		}
		if said := strings.Join(b.Cooking, "\n"); c.left < 100 && !strings.Contains(said, fmt.Sprintf("%.0f %% of the alcohol left", c.left)) ||
			c.left == 100 && !strings.Contains(said, "all of the alcohol is counted") {
			t.Errorf("%s: notes %q", c.cooking, b.Cooking)
		}
	}
}

// TestCookedByDirections holds which cooking each line of a recipe gets.
func TestCookedByDirections(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		name, text string
		notes      []string // each must stand in a note
		never      []string // none may
	}{
		{"chili", `Chili
Serves 6

1 lb ground beef (80% lean)
1 large onion, chopped
1 red bell pepper, chopped
1 (15-oz) can kidney beans, drained and rinsed
1 cup beer
1/4 cup chopped cilantro
4 oz cheddar cheese, shredded

Directions
Brown the beef in a large skillet over medium-high heat, 5 to 7 minutes. Drain.
Add onion and pepper and sauté until soft, about 5 minutes.
Stir in the beans and beer. Bring to a boil, reduce heat and simmer, uncovered, for 1 hour 10 min.
Serve topped with cheese and cilantro.`,
			[]string{`cooking, from "simmer, uncovered, for 1 hour 10 min": simmered 1 h 10 min`, `ground beef, 80% lean: simmered 1 h 10 min, row "BEEF,ROAST,SIMMERED,W/DRIP"`,
				`onion: simmered 1 h 10 min, row "VEG,ROOTS`, `red bell pepper: simmered 1 h 10 min, row "VEG,OTHER`, "not cooked again: kidney beans, canned",
				"beer: 25 % of the alcohol left", "not heated, as far as the directions say: cheddar"}, nil},
		{"baked pasta", `Baked ziti
Serves 8

1 lb penne pasta
3 cups broccoli florets
2 cups whole milk
1/4 cup dry white wine
2 cups shredded mozzarella
1/2 cup chopped fresh parsley

Method
Preheat oven to 350°F. Cook the pasta in a large pot of boiling water until al dente, about 9 minutes; drain.
Heat the milk and wine gently for 10 minutes.
Combine pasta, broccoli, sauce and the mozzarella in a baking dish. Bake 30-35 minutes. Sprinkle with parsley.`,
			[]string{`boiled and drained, then baked, row "PASTA,BOILED,DRAINED,BAKED"`, `broccoli: baked 30 minutes, row "VEG,OTHER,BAKED"`, `row "MILK,HEATED APPROX 30MIN"`,
				"white wine: 35 % of the alcohol left, heated for 40 minutes", `row "CHEESE,BAKED"`, "not heated, as far as the directions say: parsley"}, nil},
		{"pasta salad", `Pasta salad
Serves 4

8 oz rotini
2 cups cherry tomatoes
2 cups spinach

Directions
Cook pasta according to package directions. Drain and rinse under cold water.
Toss with the tomatoes and spinach. Chill 2 hours.`,
			[]string{`row "PASTA,BOILED,DRAINED"`, "not heated, as far as the directions say: tomato; spinach"}, []string{"VEG,"}},
		{"off the heat", `Fondue
Serves 4

8 oz gruyere cheese, grated
1 cup white wine
1 tbsp brandy
2 apples, sliced

Directions
Bring wine to a simmer. Add cheese and cook over low heat, stirring, 20 minutes. Remove from heat; stir in the brandy. Serve with apples.`,
			[]string{"white wine: 40 % of the alcohol left", "spirits, 80 proof: 85 % of the alcohol left, added off the heat", "say: apple", `row "CHEESE,COOKED W/LIQUID"`}, nil},
		{"brushed on after baking", `Rum cake
Serves 12

2 cups flour
3 eggs
1/2 cup rum

Directions
Beat eggs and flour. Bake for 1 hour. Cool, then brush with rum.`,
			[]string{"rum: all of the alcohol is counted", `egg: baked 1 h, row "EGGS,BAKED"`, "no factor is known for all-purpose flour, baked"}, nil},
		{"broth is no chicken", `Chicken and rice
Serves 4

1 lb boneless skinless chicken thighs
1 cup white rice
2 cups chicken broth
1 cup spinach

Directions
Brown the chicken thighs 6 minutes.
Add rice and chicken broth, bring to a boil and simmer 20 minutes. Stir in the spinach before serving.`,
			[]string{`simmered 20 minutes, row "CHICKEN,SIMMERED,W/DRIPPINGS"`, `simmered 20 minutes, row "RICE,WHITE/BROWN,COOKED,WATER USED"`, "say: spinach"}, nil},
		{"not named", `Stew
Serves 4

1 lb beef chuck roast
2 carrots
1 onion

Directions
Sear the beef. Cover and simmer 2 hours.`,
			[]string{`onion: simmered 2 h, row "VEG,ROOTS,ETC,BOILED,WATER USED"; taken as cooked with the rest, the directions do not name it`}, nil},
		{"coated", `Cutlets
Serves 4

1 lb boneless skinless chicken breasts
1 cup flour

Directions
Dredge the chicken in flour. Heat oil in a skillet and fry the chicken 4 minutes per side.`,
			[]string{"no factor is known for chicken breast, boneless, skinless, fried in a coating"}, []string{"CHICKEN,"}},
	} {
		r := recipe(t, c.text)
		cooking, ok := engine.ReadCooking(r.Method)
		if !ok {
			t.Errorf("%s: no method read", c.name)
			continue
		}
		notes := e.Cooked(e.Analyse(r), cooking).Cooking
		for _, want := range c.notes {
			if !slices.ContainsFunc(notes, func(n string) bool { return strings.Contains(n, want) }) {
				t.Errorf("%s: no note says %q:\n%s", c.name, want, strings.Join(notes, "\n"))
			}
		}
		for _, not := range c.never {
			if strings.Contains(strings.Join(notes, "\n"), not) {
				t.Errorf("%s: a note says %q:\n%s", c.name, not, strings.Join(notes, "\n"))
			}
		}
	}
}

// mayChange are the figures that cooking may change.
var mayChange = map[fooddata.Nutrient]bool{
	fooddata.Energy: true, fooddata.Alcohol: true, fooddata.Calcium: true, fooddata.Iron: true, fooddata.Magnesium: true, fooddata.Phosphorus: true,
	fooddata.Potassium: true, fooddata.Sodium: true, fooddata.Zinc: true, fooddata.Copper: true, fooddata.VitaminC: true, fooddata.Thiamin: true,
	fooddata.Riboflavin: true, fooddata.Niacin: true, fooddata.VitaminB6: true, fooddata.Folate: true, fooddata.FolicAcid: true, fooddata.FolateDFE: true,
	fooddata.VitaminB12: true, fooddata.VitaminA: true, fooddata.Retinol: true, fooddata.BetaCarotene: true,
}

// TestCookedProperties holds, over the published recipes and every method: no
// figure rises, the macronutrients stay, energy falls by the alcohol's share
// alone, gaps stay gaps, and what was given is untouched.
func TestCookedProperties(t *testing.T) {
	e := newEngine(t)
	for _, p := range readPublished(t) {
		a := e.Analyse(p.recipe)
		before := *a
		before.Notes = slices.Clone(a.Notes)
		for _, method := range []string{"baked 1 hour", "boiled and drained", "simmered 45 min", "fried", "sautéed 5 minutes then simmered 30 minutes", "steamed", "grilled", "raw", "flamed"} {
			b := e.Cooked(a, named(t, method))
			for n := range fooddata.Nutrient(fooddata.NumNutrients) {
				was, is := a.Recipe[n], b.Recipe[n]
				if is.Low > was.Low*(1+1e-12) || is.High > was.High*(1+1e-12) || is.Low < 0 {
					t.Errorf("%s, %s: %s %g to %g", p.name, method, n, was.Low, is.Low)
				}
				if !mayChange[n] && (is.Low != was.Low || is.High != was.High) {
					t.Errorf("%s, %s: %s changed from %g to %g", p.name, method, n, was.Low, is.Low)
				}
				if !slices.Equal(was.Gaps, is.Gaps) {
					t.Errorf("%s, %s: the gaps of %s changed", p.name, method, n)
				}
			}
			lost := a.Recipe[fooddata.Alcohol].Low - b.Recipe[fooddata.Alcohol].Low
			if got, want := a.Recipe[fooddata.Energy].Low-b.Recipe[fooddata.Energy].Low, 6.93*lost; math.Abs(got-want) > 1e-6 {
				t.Errorf("%s, %s: %g kcal lost with %g g alcohol", p.name, method, got, lost)
			}
			if b.Grams != a.Grams {
				t.Errorf("%s, %s: grams changed", p.name, method)
			}
		}
		if !slices.EqualFunc(a.Recipe[:], before.Recipe[:], func(x, y engine.Total) bool { return x.Low == y.Low && x.High == y.High }) || !slices.Equal(a.Notes, before.Notes) {
			t.Errorf("%s: the analysis given was changed", p.name)
		}
	}
}

// TestCookedChanges holds that what is left open is cooked as well.
func TestCookedChanges(t *testing.T) {
	e := newEngine(t)
	a := e.Analyse(dish(t, "100 to 200 g spinach", "100 g broccoli (optional)"))
	b := e.Cooked(a, named(t, "boiled"))
	if len(b.Changes) != 2 {
		t.Fatalf("changes: %+v", b.Changes)
	}
	for i, want := range []float64{28.1 * 0.70, 89.2 * 0.85} {
		if got := b.Changes[i].Delta[fooddata.VitaminC]; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: vitamin C %g, want %g", b.Changes[i].What, got, want)
		}
	}
}

// TestCookedWeight holds yield and figures of 100 g: 1,000 g of beef that
// weighs 700 g cooked has a yield of 70 %.
func TestCookedWeight(t *testing.T) {
	e := newEngine(t)
	a := e.Analyse(dish(t, "1 kg ground beef (80% lean)"))
	per100, yield, err := a.CookedWeight(700)
	if err != nil || math.Abs(yield-70) > 1e-9 {
		t.Errorf("yield %g, %v", yield, err)
	}
	if got, want := per100(fooddata.Fat).Low, 20.0*1000/700; math.Abs(got-want) > 1e-9 {
		t.Errorf("fat %g g in 100 g, want %g", got, want)
	}
	for _, grams := range []float64{0, -1, math.NaN(), math.Inf(1), 1, 1e9} {
		if _, _, err := a.CookedWeight(grams); err == nil {
			t.Errorf("%g g taken as a cooked weight", grams)
		}
	}
	if _, _, err := e.Analyse(dish(t, "salt to taste")).CookedWeight(100); err == nil {
		t.Error("a dish of nothing was weighed")
	}
}
