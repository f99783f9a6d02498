package engine_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// amounts are figures of a whole recipe by nutrient.
type amounts = map[fooddata.Nutrient]float64

// claimed returns a recipe that weighs so many grams, makes so many servings
// and holds what is given of each nutrient, and nothing else.
func claimed(servings, grams float64, holds amounts) *engine.Analysis {
	a := &engine.Analysis{Servings: servings, Known: true, Grams: engine.Range{Low: grams, High: grams}}
	for n, v := range holds {
		a.Recipe[n] = engine.Total{Low: v, High: v}
	}
	return a
}

func analyse(t *testing.T, e *engine.Engine, text string) *engine.Analysis {
	t.Helper()
	r, err := grammar.ParseRecipe(text)
	if err != nil {
		t.Fatal(err)
	}
	return e.Analyse(r)
}

// mealLines are 40 g portions of the food groups of 21 CFR 101.13(l): cooked
// rice, carrots and chicken.
func mealLines(t *testing.T, e *engine.Engine) []engine.Line {
	t.Helper()
	return []engine.Line{resolve(t, e, "100 g cooked white rice"), resolve(t, e, "100 g carrots"), resolve(t, e, "100 g cooked chicken breast")}
}

// step is how far from an edge the checks beside it stand, as a share.
const step = 1e-4

// TestLimitClaims holds every claim of little or nothing at, just below and
// just above its threshold, by reference amount, by 50 g of a small one, by a
// serving where the claim is free, and by 100 g of a main dish.
func TestLimitClaims(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		claim   string
		n       fooddata.Nutrient
		edge    float64
		below   bool // must be below the edge
		free    bool // goes by a serving too
		main    float64
		mainTop bool // must be below it
		rule    string
	}{
		{"calorie free", fooddata.Energy, 5, true, true, 0, false, "101.60(b)(1)"},
		{"low calorie", fooddata.Energy, 40, false, false, 120, false, "101.60(b)(2) and (3)"},
		{"sugar free", fooddata.Sugars, 0.5, true, true, 0.5, true, "101.60(c)(1)"},
		{"sodium free", fooddata.Sodium, 5, true, true, 5, true, "101.61(b)(1)"},
		{"very low sodium", fooddata.Sodium, 35, false, false, 35, false, "101.61(b)(2) and (3)"},
		{"low sodium", fooddata.Sodium, 140, false, false, 140, false, "101.61(b)(4) and (5)"},
		{"fat free", fooddata.Fat, 0.5, true, true, 0.5, true, "101.62(b)(1)"},
		{"low fat", fooddata.Fat, 3, false, false, 3, false, "101.62(b)(2) and (3)"},
		{"saturated fat free", fooddata.SaturatedFat, 0.5, true, true, 0.5, true, "101.62(c)(1)"},
		{"saturated fat free", fooddata.TransFat, 0.5, true, true, 0.5, true, "101.62(c)(1)"},
		{"low saturated fat", fooddata.SaturatedFat, 1, false, false, 1, false, "101.62(c)(2) and (3)"},
		{"cholesterol free", fooddata.Cholesterol, 2, true, true, 2, true, "101.62(d)(1)"},
		{"cholesterol free", fooddata.SaturatedFat, 2, false, true, 2, false, "101.62(d)(1)"},
		{"low cholesterol", fooddata.Cholesterol, 20, false, false, 20, false, "101.62(d)(2) and (3)"},
		{"low cholesterol", fooddata.SaturatedFat, 2, false, false, 2, false, "101.62(d)(2) and (3)"},
	} {
		// food has v of the nutrient in grams of weight of it, in one serving of
		// as many grams; the calories are so many that shares of them are small.
		food := func(v, grams, servings, of float64) *engine.Analysis {
			a := claimed(servings, grams, amounts{fooddata.Energy: 1e4})
			if c.n == fooddata.Energy {
				a.Recipe[c.n] = engine.Total{}
			}
			a.Recipe[c.n] = engine.Total{Low: v * grams / of, High: v * grams / of}
			return a
		}
		for _, at := range []struct {
			v    float64
			want bool
		}{
			{0, true}, {c.edge * (1 - step), true}, {c.edge, !c.below}, {c.edge * (1 + step), false}, {c.edge * 10, false},
			{c.edge * (1 - 1e-12), !c.below}, {c.edge * (1 + 1e-12), !c.below}, // noise of float64
		} {
			check := func(what string, a *engine.Analysis, reference string) {
				t.Helper()
				v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: reference})
				if v.Allowed != at.want || !v.Known || v.AtLeast || v.AskReference {
					t.Errorf("%s, %g %s %s: allowed %t, want %t by 21 CFR %s; %q", c.claim, at.v, c.n.Name(), what, v.Allowed, at.want, c.rule, v.Needs)
				}
				if v.Rule != "21 CFR "+c.rule {
					t.Errorf("%s: rule %q, want 21 CFR %s", c.claim, v.Rule, c.rule)
				}
				if !v.Allowed && len(v.Needs) < 3 {
					t.Errorf("%s, %g: %q does not say what is missing", c.claim, at.v, v.Needs)
				}
			}
			// Per reference amount, in a serving that is as large.
			check("in 110 g", food(at.v, 110, 1, 110), "muffins")
			// Twelve servings: the reference amount decides, a serving is smaller.
			check("in 110 g", food(at.v, 600, 12, 110), "muffins")
			// A free claim goes by a serving too.
			if c.free {
				check("in a serving of 220 g", food(at.v, 220, 1, 220), "muffins")
			}
			// A small reference amount: a low claim goes by 50 g.
			if !c.free {
				check("in 50 g", food(at.v, 30, 1, 50), "cookies")
				check("in 50 g", food(at.v, 50, 1, 50), "30 g")
				check("in 31 g", food(at.v, 31, 1, 31), "31 g") // not small
			} else {
				check("in 30 g", food(at.v, 30, 1, 30), "cookies")
			}
		}
		if c.main == 0 {
			a := food(0, 300, 1, 100)
			a.Lines = mealLines(t, e)
			if v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: "main dish"}); v.Allowed {
				t.Errorf("%s of a main dish: allowed, and 21 CFR 101.60(b)(1) does not define it", c.claim)
			}
			continue
		}
		for _, at := range []struct {
			v    float64
			want bool
		}{{0, true}, {c.main * (1 - step), true}, {c.main, !c.mainTop}, {c.main * (1 + step), false}} {
			for _, class := range []string{"main dish", "meal"} {
				a := food(at.v, 300, 1, 100) // low: in 100 g
				if c.free {
					a = food(at.v, 300, 1, 300) // free: in a serving
				}
				a.Lines = mealLines(t, e)
				if v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: class}); v.Allowed != at.want || v.Rule != "21 CFR "+c.rule {
					t.Errorf("%s of a %s, %g: allowed %t, want %t by 21 CFR %s (%s); %q", c.claim, class, at.v, v.Allowed, at.want, c.rule, v.Rule, v.Needs)
				}
			}
		}
	}
}

// TestServingBeyondReference holds that a free claim must hold for a serving
// too, and that a low claim is then followed by what it goes by: 21 CFR
// 101.60 to 101.62, and 101.13(p).
func TestServingBeyondReference(t *testing.T) {
	a := claimed(1, 220, amounts{fooddata.Sodium: 8}) // 4 mg in 110 g
	if v := a.MayClaim(engine.ClaimRequest{Claim: "sodium free", Reference: "muffins"}); v.Allowed {
		t.Errorf("8 mg sodium in a serving is not free: %q", v.Needs)
	}
	a = claimed(1, 220, amounts{fooddata.Sodium: 240}) // 120 mg in 110 g
	v := a.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: "muffins"})
	if !v.Allowed || len(v.Disclosure) != 1 || !strings.Contains(v.Disclosure[0], `"low sodium, no more than 140 mg sodium per 110 g"`) {
		t.Errorf("low sodium by the reference amount alone: %+v", v)
	}
	a = claimed(2, 220, amounts{fooddata.Fibre: 6}) // 6 g in 220 g, 3 g in a serving of 110 g
	a.Servings = 4
	v = a.MayClaim(engine.ClaimRequest{Claim: "good source of fibre", Reference: "muffins"})
	if !v.Allowed || !strings.Contains(strings.Join(v.Disclosure, " "), "per 110 g") {
		t.Errorf("good source by the reference amount alone: %+v", v)
	}
	a.Known = false
	if v := claimed(1, 110, nil).MayClaim(engine.ClaimRequest{Claim: "sodium free", Reference: "muffins"}); !v.Allowed {
		t.Errorf("no sodium: %q", v.Needs)
	}
	none := claimed(1, 110, nil)
	none.Known = false
	if v := none.MayClaim(engine.ClaimRequest{Claim: "sodium free", Reference: "muffins"}); v.Allowed {
		t.Error("a free claim without known servings")
	}
	if v := none.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: "muffins"}); !v.Allowed {
		t.Errorf("a low claim goes by the reference amount, not by servings: %q", v.Needs)
	}
}

// TestSharesOfCalories holds the limits in per cent of the calories at their
// edges: 21 CFR 101.62(c)(2) and (3), and (b)(3) for main dishes.
func TestSharesOfCalories(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		claim, reference string
		n                fooddata.Nutrient
		grams            float64 // in 110 g, or in 100 g of a main dish
		kcal             float64
		want             bool
		why              string
	}{
		{"low saturated fat", "muffins", fooddata.SaturatedFat, 1, 60, true, "9 of 60 kcal are 15 %: 101.62(c)(2)"},
		{"low saturated fat", "muffins", fooddata.SaturatedFat, 1, 59.9, false, "above 15 %"},
		{"low saturated fat", "muffins", fooddata.SaturatedFat, 1, 0, false, "no calories"},
		{"low saturated fat", "muffins", fooddata.SaturatedFat, 0, 0, true, "nothing of nothing"},
		{"low saturated fat", "main dish", fooddata.SaturatedFat, 1, 90, false, "10 % must not be reached: 101.62(c)(3)"},
		{"low saturated fat", "main dish", fooddata.SaturatedFat, 1, 90.1, true, "below 10 %"},
		{"low fat", "main dish", fooddata.Fat, 3, 90, true, "27 of 90 kcal are 30 %: 101.62(b)(3)"},
		{"low fat", "main dish", fooddata.Fat, 3, 89.9, false, "above 30 %"},
		{"low fat", "muffins", fooddata.Fat, 3, 30, true, "a single food has no limit by calories: 101.62(b)(2)"},
	} {
		whole := 110.0
		if c.reference == "main dish" {
			whole = 100
		}
		f := 300 / whole
		a := claimed(1, 300, amounts{c.n: c.grams * f, fooddata.Energy: c.kcal * f})
		a.Lines = mealLines(t, e)
		if v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: c.reference}); v.Allowed != c.want {
			t.Errorf("%s of a %s, %g g in %g kcal: allowed %t; %s; %q", c.claim, c.reference, c.grams, c.kcal, v.Allowed, c.why, v.Needs)
		}
	}
}

// TestPresentClaims holds "high" and "good source" at their edges: 21 CFR
// 101.54(b) and (c).
func TestPresentClaims(t *testing.T) {
	for _, n := range []fooddata.Nutrient{
		fooddata.Fibre, fooddata.Calcium, fooddata.Iron, fooddata.Potassium, fooddata.VitaminA, fooddata.VitaminC, fooddata.VitaminD, fooddata.VitaminE,
		fooddata.VitaminK, fooddata.Thiamin, fooddata.Riboflavin, fooddata.Niacin, fooddata.VitaminB6, fooddata.FolateDFE, fooddata.VitaminB12,
		fooddata.PantothenicAcid, fooddata.Phosphorus, fooddata.Magnesium, fooddata.Zinc, fooddata.Selenium, fooddata.Copper, fooddata.Manganese, fooddata.Choline,
	} {
		dv, ok := fooddata.DailyValue(n)
		if !ok {
			t.Fatalf("%s has no Daily Value", n.Name())
		}
		name := n.Name()
		if n == fooddata.FolateDFE {
			name = "folate"
		}
		for _, c := range []struct {
			percent    float64
			high, good bool
		}{
			{0, false, false}, {9.999, false, false}, {10, false, true}, {10.001, false, true}, {15, false, true},
			{19, false, true}, {19.5, false, true}, {19.999, false, true}, {20, true, false}, {20.001, true, false}, {150, true, false},
		} {
			a := claimed(1, 245, amounts{n: dv * c.percent / 100})
			for claim, want := range map[string]bool{"high in " + name: c.high, "an excellent source of " + name: c.high, "a good source of " + name: c.good} {
				v := a.MayClaim(engine.ClaimRequest{Claim: claim, Reference: "soup"})
				rule := "21 CFR 101.54(b)"
				if strings.Contains(claim, "good") {
					rule = "21 CFR 101.54(c)"
				}
				if v.Allowed != want || v.Rule != rule {
					t.Errorf("%s at %g %%: allowed %t by %s, want %t by %s; %q", claim, c.percent, v.Allowed, v.Rule, want, rule, v.Needs)
				}
			}
		}
	}
	v := claimed(1, 245, amounts{fooddata.Fibre: 4}).MayClaim(engine.ClaimRequest{Claim: "high in fibre", Reference: "soup"})
	if want := "1.6 g fibre is missing in 245 g."; v.Allowed || !slices.Contains(v.Needs, want) || !slices.Contains(v.Needs, `"good source of fibre" would hold.`) {
		t.Errorf("4 g fibre: %q, want %q", v.Needs, want)
	}
	v = claimed(1, 245, amounts{fooddata.Fibre: 7}).MayClaim(engine.ClaimRequest{Claim: "good source of fibre", Reference: "soup"})
	if !strings.Contains(strings.Join(v.Needs, " "), `"high in fibre"`) {
		t.Errorf("25 %% is more than a good source: %q", v.Needs)
	}
}

// TestProteinClaims holds that protein is never claimed by weight alone: 21
// CFR 101.9(c)(7).
func TestProteinClaims(t *testing.T) {
	for _, g := range []float64{4, 9.9, 10, 30} {
		for _, claim := range []string{"high in protein", "good source of protein", "more protein"} {
			v := claimed(1, 245, amounts{fooddata.Protein: g}).MayClaim(engine.ClaimRequest{Claim: claim, Reference: "soup", Original: claimed(1, 245, nil)})
			if v.Allowed || !v.Known {
				t.Errorf("%g g, %s: %+v", g, claim, v)
			}
			if g == 30 && claim != "good source of protein" && !strings.Contains(strings.Join(v.Needs, " "), "quality") {
				t.Errorf("%g g, %s: %q does not say why", g, claim, v.Needs)
			}
		}
	}
}

// TestFibreDisclosure holds that fat is disclosed beside a claim of fibre
// unless the food is low in fat: 21 CFR 101.54(d).
func TestFibreDisclosure(t *testing.T) {
	for _, c := range []struct {
		fat  float64
		want bool
	}{{0, false}, {3, false}, {3.001, true}, {12, true}} {
		v := claimed(1, 245, amounts{fooddata.Fibre: 7, fooddata.Fat: c.fat}).MayClaim(engine.ClaimRequest{Claim: "high fibre", Reference: "soup"})
		if got := strings.Contains(strings.Join(v.Disclosure, " "), "101.54(d)"); !v.Allowed || got != c.want {
			t.Errorf("%g g fat: allowed %t, disclosed %t, want %t: %q", c.fat, v.Allowed, got, c.want, v.Disclosure)
		}
	}
}

// TestReducedClaims holds every claim of a reduction at 25 %, and the rule that
// the original must not be low itself: 21 CFR 101.60 to 101.62, 101.13(j).
func TestReducedClaims(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		claim string
		n     fooddata.Nutrient
		low   float64 // the original's amount in 110 g up to which it is low itself; 0 for none
		main  float64 // the same in 100 g of a main dish
		rule  string
	}{
		{"reduced calories", fooddata.Energy, 40, 120, "101.60(b)(4) and (5)"},
		{"fewer calories", fooddata.Energy, 40, 120, "101.60(b)(4) and (5)"},
		{"reduced sugar", fooddata.Sugars, 0, 0, "101.60(c)(5) and (6)"},
		{"reduced sodium than the original", fooddata.Sodium, 140, 140, "101.61(b)(6) and (7)"},
		{"less fat", fooddata.Fat, 3, 3, "101.62(b)(4) and (5)"},
		{"reduced saturated fat", fooddata.SaturatedFat, 1, 1, "101.62(c)(4) and (5)"},
		{"lower cholesterol", fooddata.Cholesterol, 20, 20, "101.62(d)(4) and (5)"},
	} {
		for _, class := range []struct {
			reference string
			of, low   float64
		}{{"muffins", 110, c.low}, {"main dish", 100, c.main}} {
			food := func(v float64) *engine.Analysis {
				a := claimed(1, 300, amounts{fooddata.Energy: 3000})
				a.Recipe[c.n] = engine.Total{Low: v * 300 / class.of, High: v * 300 / class.of}
				a.Lines = mealLines(t, e)
				return a
			}
			was := max(class.low*2, 10)
			for _, at := range []struct {
				was, now float64
				want     bool
			}{
				{was, was * 0.75, true}, {was, was * 0.75 * (1 + 1e-12), true}, {was, was * 0.7501, false}, {was, was, false}, {was, was * 2, false}, {was, 0, true},
				{class.low, class.low * 0.5, class.low == 0 && false}, // low itself, or nothing at all
				{class.low * 1.001, class.low * 0.5, class.low > 0},
			} {
				v := food(at.now).MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: class.reference, Original: food(at.was)})
				if v.Allowed != at.want || v.Rule != "21 CFR "+c.rule {
					t.Errorf("%s of a %s, %g to %g: allowed %t, want %t by 21 CFR %s (%s); %q", c.claim, class.reference, at.was, at.now, v.Allowed, at.want, c.rule, v.Rule, v.Needs)
				}
				if said := strings.Join(v.Disclosure, " "); v.Allowed && (!strings.Contains(said, "% less") && !strings.Contains(said, " % less") || !strings.Contains(said, "than the original")) {
					t.Errorf("%s: the disclosure %q does not name the reduction and the original", c.claim, v.Disclosure)
				}
			}
		}
		v := claimed(1, 110, nil).MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: "muffins"})
		if v.Allowed || !v.AskOriginal {
			t.Errorf("%s without an original: %+v", c.claim, v)
		}
	}
	// A reduction of cholesterol has a limit of saturated fat: 101.62(d)(4).
	for fat, want := range map[float64]bool{2: true, 2.001: false} {
		a := claimed(1, 110, amounts{fooddata.Cholesterol: 30, fooddata.SaturatedFat: fat})
		if v := a.MayClaim(engine.ClaimRequest{Claim: "reduced cholesterol", Reference: "muffins", Original: claimed(1, 110, amounts{fooddata.Cholesterol: 60})}); v.Allowed != want {
			t.Errorf("reduced cholesterol with %g g saturated fat: allowed %t; %q", fat, v.Allowed, v.Needs)
		}
	}
	// What is said must be reached.
	original := claimed(1, 110, amounts{fooddata.Sodium: 400})
	for claim, want := range map[string]bool{"25% less sodium": true, "40% less sodium": true, "41% less sodium": false, "50 % less sodium": false, "10% less sodium": true} {
		if v := claimed(1, 110, amounts{fooddata.Sodium: 240}).MayClaim(engine.ClaimRequest{Claim: claim, Reference: "muffins", Original: original}); v.Allowed != want {
			t.Errorf("%s at 40 %%: allowed %t; %q", claim, v.Allowed, v.Needs)
		}
	}
	// Compared by weight, not by serving: half the serving is no reduction.
	if v := claimed(2, 110, amounts{fooddata.Sodium: 400}).MayClaim(engine.ClaimRequest{Claim: "reduced sodium", Reference: "muffins", Original: original}); v.Allowed {
		t.Errorf("smaller servings are no reduction: %q", v.Needs)
	}
}

// TestMoreClaims holds "more" at 10 % of the Daily Value above the original,
// not 10 % above: 21 CFR 101.54(e).
func TestMoreClaims(t *testing.T) {
	for _, c := range []struct {
		was, now float64 // per cent of the Daily Value
		want     bool
	}{{0, 10, true}, {0, 9.99, false}, {5, 15, true}, {5, 14.99, false}, {30, 40, true}, {30, 33.3, false}, {10, 5, false}} {
		a, o := claimed(1, 110, amounts{fooddata.Fibre: 0.28 * c.now}), claimed(1, 110, amounts{fooddata.Fibre: 0.28 * c.was})
		for _, claim := range []string{"more fibre", "added fibre", "fortified with fibre", "enriched with fibre", "extra fibre", "higher in fibre than the original"} {
			v := a.MayClaim(engine.ClaimRequest{Claim: claim, Reference: "muffins", Original: o})
			if v.Allowed != c.want || v.Rule != "21 CFR 101.54(e)" {
				t.Errorf("%s, %g to %g %%: allowed %t by %s; %q", claim, c.was, c.now, v.Allowed, v.Rule, v.Needs)
			}
		}
	}
	if v := claimed(1, 110, amounts{fooddata.Fibre: 9}).MayClaim(engine.ClaimRequest{Claim: "more fibre", Reference: "muffins"}); v.Allowed || !v.AskOriginal {
		t.Errorf("without an original: %+v", v)
	}
}

// TestLight holds "light" at its edges: 21 CFR 101.56.
func TestLight(t *testing.T) {
	e := newEngine(t)
	food := func(kcal, fat, sodium float64) *engine.Analysis {
		a := claimed(1, 300, amounts{fooddata.Energy: kcal * 3, fooddata.Fat: fat * 3, fooddata.Sodium: sodium * 3}) // in 100 g
		a.Lines = mealLines(t, e)
		return a
	}
	for _, c := range []struct {
		claim, reference string
		now, was         *engine.Analysis
		want             bool
		rule, why        string
	}{
		{"light", "100 g", food(160, 9, 0), food(180, 18, 0), true, "101.56(b)", "more than half from fat, fat halved"},
		{"light", "100 g", food(100, 9.01, 0), food(180, 18, 0), false, "101.56(b)", "more than half from fat, fat not halved, though a third of the calories is gone"},
		{"light", "100 g", food(120, 5, 0), food(180, 5, 0), true, "101.56(b)", "a quarter from fat, a third fewer calories"},
		{"light", "100 g", food(120.1, 5, 0), food(180, 5, 0), false, "101.56(b)", "just not a third"},
		{"light", "100 g", food(180, 3.5, 0), food(180, 7, 0), true, "101.56(b)", "fat halved"},
		{"light", "100 g", food(180, 3.6, 0), food(180, 7, 0), false, "101.56(b)", "fat not quite halved"},
		{"lite", "100 g", food(120, 6.67, 0), food(180, 6.67, 0), false, "101.56(b)", "half of its own calories from fat"},
		{"light", "100 g", food(40, 1, 70), food(40, 3, 160), true, "101.56(c)(1)", "the original low in calories and fat, sodium more than halved"},
		{"light", "100 g", food(40, 1, 80), food(40, 3, 160), true, "101.56(c)(1)", "sodium halved"},
		{"light", "100 g", food(40, 1, 80.1), food(40, 3, 160), false, "101.56(c)(1)", "not halved"},
		{"light", "100 g", food(20, 1, 160), food(40, 3, 160), false, "101.56(c)(1)", "half the calories do not count then"},
		{"light", "main dish", food(120, 9, 0), nil, true, "101.56(d)", "low in calories"},
		{"light", "main dish", food(200, 3, 0), nil, true, "101.56(d)", "low in fat"},
		{"light", "meal", food(120.1, 9, 0), nil, false, "101.56(d)", "neither"},
		{"light in sodium", "100 g", food(100, 1, 200), food(100, 1, 400), true, "101.56(c)(2)", "half"},
		{"light in sodium", "100 g", food(100, 1, 200.1), food(100, 1, 400), false, "101.56(c)(2)", "not half"},
		{"light in sodium", "100 g", food(100, 1, 50), food(100, 1, 140), false, "101.56(c)(2)", "the original is low in sodium: 101.13(j)(3)"},
		{"light in sodium", "main dish", food(100, 1, 140), nil, true, "101.56(c)(2)", "low sodium"},
		{"light in sodium", "main dish", food(100, 1, 140.1), nil, false, "101.56(c)(2)", "not low sodium"},
	} {
		v := c.now.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: c.reference, Original: c.was})
		if v.Allowed != c.want || v.Rule != "21 CFR "+c.rule {
			t.Errorf("%s (%s): allowed %t by %s, want %t by 21 CFR %s; %q", c.claim, c.why, v.Allowed, v.Rule, c.want, c.rule, v.Needs)
		}
	}
	for _, claim := range []string{"light", "light in sodium", "lightly salted"} {
		if v := food(100, 1, 1).MayClaim(engine.ClaimRequest{Claim: claim, Reference: "100 g"}); v.Allowed || !v.AskOriginal {
			t.Errorf("%s without an original: %+v", claim, v)
		}
	}
}

// TestLightlySalted holds "lightly salted" by the salt that goes in: 21 CFR
// 101.56(g).
func TestLightlySalted(t *testing.T) {
	e := newEngine(t)
	soup := func(salt string) *engine.Analysis {
		return analyse(t, e, "Carrot soup\nServes 4\n\n1 kg carrots\n1 kg water\n"+salt+"\n")
	}
	for _, c := range []struct {
		now, was string
		want     bool
	}{
		{"3 g salt", "6.1 g salt", true}, {"1/2 tsp salt", "1 tsp salt", true}, {"4 g salt", "6 g salt", false},
		{"salt to taste", "6 g salt", false}, {"3 g salt", "salt to taste", false}, {"1 tbsp oil", "1 tbsp oil", false},
	} {
		v := soup(c.now).MayClaim(engine.ClaimRequest{Claim: "lightly salted", Reference: "soup", Original: soup(c.was)})
		if v.Allowed != c.want || v.Rule != "21 CFR 101.56(g)" {
			t.Errorf("%s for %s: allowed %t; %q", c.now, c.was, v.Allowed, v.Needs)
		}
	}
}

// TestDisclosureLevels holds the pointer to nutrients beside any claim at its
// levels: 21 CFR 101.13(h).
func TestDisclosureLevels(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		n                  fooddata.Nutrient
		single, main, meal float64
	}{
		{fooddata.Fat, 13, 19.5, 26},
		{fooddata.SaturatedFat, 4, 6, 8},
		{fooddata.Cholesterol, 60, 90, 120},
		{fooddata.Sodium, 480, 720, 960},
	} {
		for reference, level := range map[string]float64{"300 g": c.single, "main dish": c.main, "meal": c.meal} {
			for _, v := range []struct {
				amount float64
				want   bool
			}{{level, false}, {level * (1 + step), true}, {level * 3, true}} {
				a := claimed(1, 300, amounts{fooddata.Energy: 300, c.n: v.amount})
				a.Lines = mealLines(t, e)
				got := a.MayClaim(engine.ClaimRequest{Claim: "low calorie", Reference: reference})
				if reference == "300 g" {
					a.Recipe[fooddata.Fibre] = engine.Total{Low: 9, High: 9}
					got = a.MayClaim(engine.ClaimRequest{Claim: "high fibre", Reference: reference})
				}
				said := strings.Contains(strings.Join(got.Disclosure, " "), "See nutrition information for ")
				if !got.Allowed || said != v.want {
					t.Errorf("%g %s, %s: allowed %t, said %t, want %t: %q", v.amount, c.n.Name(), reference, got.Allowed, said, v.want, got.Disclosure)
				}
			}
		}
		// By 50 g of a small reference amount, and by a serving.
		small := claimed(1, 30, amounts{fooddata.Fibre: 9, c.n: c.single * 0.6 * (1 + step)})
		if v := small.MayClaim(engine.ClaimRequest{Claim: "high fibre", Reference: "cookies"}); !strings.Contains(strings.Join(v.Disclosure, " "), "See nutrition information") {
			t.Errorf("%s by 50 g of a small reference amount: %q", c.n.Name(), v.Disclosure)
		}
		serving := claimed(1, 200, amounts{fooddata.Fibre: 20, c.n: c.single * (1 + step)})
		if v := serving.MayClaim(engine.ClaimRequest{Claim: "high fibre", Reference: "100 g"}); !strings.Contains(strings.Join(v.Disclosure, " "), "See nutrition information") {
			t.Errorf("%s by a serving: %q", c.n.Name(), v.Disclosure)
		}
	}
}

// TestFatAndCholesterolBeside holds what must stand beside claims of saturated
// fat and cholesterol: 21 CFR 101.62(c) and (d).
func TestFatAndCholesterolBeside(t *testing.T) {
	for _, c := range []struct {
		claim string
		holds amounts
		want  []string // parts that must be disclosed
		not   []string
	}{
		{"low saturated fat", amounts{fooddata.Fat: 3, fooddata.Cholesterol: 1.9}, nil, []string{"the fat", "the cholesterol"}},
		{"low saturated fat", amounts{fooddata.Fat: 3.01, fooddata.Cholesterol: 1.9}, []string{"the fat"}, []string{"the cholesterol"}},
		{"low saturated fat", amounts{fooddata.Fat: 3, fooddata.Cholesterol: 2}, []string{"the cholesterol"}, []string{"the fat"}},
		{"saturated fat free", amounts{fooddata.Fat: 0.49}, nil, []string{"the fat"}},
		{"saturated fat free", amounts{fooddata.Fat: 0.5}, []string{"the fat"}, nil},
		{"cholesterol free", amounts{fooddata.Fat: 13}, nil, []string{"101.62(d)"}},
		{"cholesterol free", amounts{fooddata.Fat: 13.01}, []string{"the fat", "101.62(d)"}, nil},
		{"low cholesterol", amounts{fooddata.Fat: 13.01}, []string{"101.62(d)"}, nil},
	} {
		c.holds[fooddata.Energy] = 300
		v := claimed(1, 110, c.holds).MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: "muffins"})
		said := strings.Join(v.Disclosure, " ")
		if !v.Allowed {
			t.Errorf("%s %v: %q", c.claim, c.holds, v.Needs)
		}
		for _, part := range c.want {
			if !strings.Contains(said, part) {
				t.Errorf("%s %v: %q lacks %q", c.claim, c.holds, v.Disclosure, part)
			}
		}
		for _, part := range c.not {
			if strings.Contains(said, part) {
				t.Errorf("%s %v: %q has %q", c.claim, c.holds, v.Disclosure, part)
			}
		}
	}
}

// TestLean holds "lean" and "extra lean" at their edges: 21 CFR 101.62(e).
func TestLean(t *testing.T) {
	e := newEngine(t)
	good := amounts{}
	for _, c := range []struct {
		claim, reference    string
		fat, saturated, mg  float64
		saturatedBelow      bool
		rule                string
		hundred, mayServing bool
	}{
		{"lean", "beef", 10, 4.5, 95, false, "101.62(e)(1)", true, false},
		{"lean", "burrito", 8, 3.5, 80, false, "101.62(e)(2)", false, false},
		{"lean", "main dish", 10, 4.5, 95, false, "101.62(e)(3)", true, true},
		{"extra lean", "chicken", 5, 2, 95, true, "101.62(e)(4)", true, false},
		{"extra lean", "meal", 5, 2, 95, true, "101.62(e)(5)", true, true},
	} {
		// The whole is one serving of 300 g; what counts most is the larger of
		// the amounts that the claim goes by.
		of := map[string]float64{"beef": 100, "chicken": 100, "burrito": 140, "main dish": 300, "meal": 300}[c.reference]
		check := func(n fooddata.Nutrient, v float64, want bool) {
			t.Helper()
			a := claimed(1, 300, good)
			a.Recipe[n] = engine.Total{Low: v * 300 / of, High: v * 300 / of}
			a.Lines = mealLines(t, e)
			if got := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: c.reference}); got.Allowed != want || got.Rule != "21 CFR "+c.rule {
				t.Errorf("%s %s, %g %s: allowed %t by %s, want %t by 21 CFR %s; %q", c.claim, c.reference, v, n.Name(), got.Allowed, got.Rule, want, c.rule, got.Needs)
			}
		}
		check(fooddata.Fat, c.fat*(1-step), true)
		check(fooddata.Fat, c.fat, false)
		check(fooddata.SaturatedFat, c.saturated*(1-step), true)
		check(fooddata.SaturatedFat, c.saturated, !c.saturatedBelow)
		check(fooddata.SaturatedFat, c.saturated*(1+step), false)
		check(fooddata.Cholesterol, c.mg*(1-step), true)
		check(fooddata.Cholesterol, c.mg, false)
	}
	for _, c := range [][2]string{{"lean", "soup"}, {"lean", ""}, {"extra lean", "pizza"}, {"lean", "100 g"}} {
		if v := claimed(1, 300, nil).MayClaim(engine.ClaimRequest{Claim: c[0], Reference: c[1]}); v.Allowed || !v.AskReference {
			t.Errorf("%s of %q: %+v", c[0], c[1], v)
		}
	}
}

// TestHealthy holds the limits of "healthy", which is never simply allowed,
// since its food groups are not in the figures: 21 CFR 101.65(d).
func TestHealthy(t *testing.T) {
	e := newEngine(t)
	for reference, limits := range map[string][3]float64{ // added sugars g, sodium mg, saturated fat g
		"muffins": {5, 230, 1}, "yogurt": {2.5, 230, 2}, "vegetables": {1, 230, 1}, "fish": {1, 230, 2}, "beans": {1, 230, 1},
		"soup": {5, 345, 2}, "main dish": {7.5, 460, 3}, "meal": {10, 690, 4},
	} {
		ref, ok := engine.ReferenceNamed(reference)
		if !ok {
			t.Fatalf("no reference amount %q", reference)
		}
		of := ref.Grams
		if of == 0 {
			of = 300
		}
		for i, n := range []fooddata.Nutrient{fooddata.AddedSugars, fooddata.Sodium, fooddata.SaturatedFat} {
			for v, want := range map[float64]bool{limits[i]: true, limits[i] * (1 + step): false} {
				a := claimed(1, 300, amounts{n: v * 300 / of})
				a.Lines = mealLines(t, e)
				got := a.MayClaim(engine.ClaimRequest{Claim: "healthy", Reference: reference})
				if got.Allowed || slices.Contains(got.Needs, "These limits are met.") != want {
					t.Errorf("%s, %g %s: %+v, want met %t (21 CFR 101.65(d))", reference, v, n.Name(), got.Needs, want)
				}
				if !strings.Contains(strings.Join(got.Needs, " "), "must also hold") {
					t.Errorf("%s: %q says nothing of the food groups", reference, got.Needs)
				}
			}
		}
	}
	// Oils and dressings: saturated fat up to 20 % of the fat.
	for saturated, want := range map[float64]bool{2: true, 2.01: false} {
		a := claimed(1, 30, amounts{fooddata.Fat: 10, fooddata.SaturatedFat: saturated})
		if v := a.MayClaim(engine.ClaimRequest{Claim: "healthy", Reference: "salad dressing"}); slices.Contains(v.Needs, "These limits are met.") != want {
			t.Errorf("a dressing with %g of 10 g fat saturated: %q", saturated, v.Needs)
		}
	}
	if v := claimed(1, 30, nil).MayClaim(engine.ClaimRequest{Claim: "healthy"}); v.Allowed || !v.AskReference {
		t.Errorf("healthy without a kind of food: %+v", v)
	}
}

// TestPotencyAndAntioxidant holds 21 CFR 101.54(f) and (g).
func TestPotencyAndAntioxidant(t *testing.T) {
	for _, c := range []struct {
		claim   string
		n       fooddata.Nutrient
		percent float64
		want    bool
	}{
		{"high potency vitamin C", fooddata.VitaminC, 100, true},
		{"high potency vitamin C", fooddata.VitaminC, 99.99, false},
		{"high potency fibre", fooddata.Fibre, 200, false},
		{"high in antioxidant vitamin C", fooddata.VitaminC, 20, true},
		{"high in antioxidant vitamin C", fooddata.VitaminC, 19.99, false},
		{"good source of antioxidant vitamin E", fooddata.VitaminE, 10, true},
		{"good source of antioxidant vitamin E", fooddata.VitaminE, 9.99, false},
		{"antioxidants", fooddata.VitaminC, 100, false},
		{"high in antioxidant iron", fooddata.Iron, 100, false},
		{"high in antioxidant polyphenols", fooddata.VitaminC, 100, false},
	} {
		dv, _ := fooddata.DailyValue(c.n)
		if v := claimed(1, 245, amounts{c.n: dv * c.percent / 100}).MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: "soup"}); v.Allowed != c.want {
			t.Errorf("%s at %g %%: allowed %t; %q", c.claim, c.percent, v.Allowed, v.Needs)
		}
	}
}

// TestPercentFatFree holds 21 CFR 101.62(b)(6).
func TestPercentFatFree(t *testing.T) {
	for _, c := range []struct {
		claim string
		fat   float64 // in 100 g, the reference amount
		want  bool
	}{
		{"97% fat free", 3, true}, {"97% fat free", 3.001, false}, {"98% fat free", 2, true}, {"98% fat free", 2.001, false},
		{"95% fat free", 5, false}, // not low in fat
		{"100% fat free", 0.49, true}, {"100% fat free", 0.5, false}, {"120% fat free", 0, false},
	} {
		if v := claimed(1, 100, amounts{fooddata.Fat: c.fat}).MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: "100 g"}); v.Allowed != c.want {
			t.Errorf("%s with %g g: allowed %t; %q", c.claim, c.fat, v.Allowed, v.Needs)
		}
	}
}

// TestAddedClaims holds the claims that go by ingredients: 21 CFR
// 101.60(c)(2) and 101.61(c)(2).
func TestAddedClaims(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		claim, lines string
		want         bool
	}{
		{"no added sugars", "4 apples\n1 tsp cinnamon", true},
		{"no sugar added", "4 apples\n1 cup water", true},
		{"without added sugar", "4 apples\n1 tbsp sugar", false},
		{"no added sugars", "4 apples\n1 tbsp honey", false},
		{"no added sugars", "4 apples\nsugar to taste", false},
		{"no added sugars", "4 apples\n2 tbsp strawberry jam", false},
		{"no added sugars", "4 apples\n1 cup glorp", false},
		{"no salt added", "1 lb carrots\n1 tbsp olive oil", true},
		{"unsalted", "1 lb carrots\n1 tbsp unsalted butter", true},
		{"no salt added", "1 lb carrots\n1/4 tsp salt", false},
		{"no salt added", "1 lb carrots\nsalt to taste", false},
		{"unsalted", "1 lb carrots\n1 tbsp butter", false},
		{"no added salt", "1 lb carrots\n1 tbsp soy sauce", false},
		{"without added salt", "1 lb carrots\n1 cup glorp", false},
	} {
		a := analyse(t, e, "Dish\nServes 4\n\n"+c.lines+"\n")
		v := a.MayClaim(engine.ClaimRequest{Claim: c.claim})
		if v.Allowed != c.want || !v.Known {
			t.Errorf("%s of %q: allowed %t; %q", c.claim, c.lines, v.Allowed, v.Needs)
		}
		if v.Allowed && len(v.Conditions) == 0 {
			t.Errorf("%s of %q without the condition that it is usual", c.claim, c.lines)
		}
	}
}

// TestMissingNeverPasses holds that what is not known never makes a claim of
// little.
func TestMissingNeverPasses(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		claim, lines  string
		allow, unsure bool
	}{
		{"low sodium", "1 lb carrots\n2 cups water", true, false},
		{"low sodium", "1 lb carrots\nsalt to taste", false, true},
		{"low sodium", "1 lb carrots\nsalt and pepper to taste", false, true},
		{"low sodium", "1 lb carrots\nsalt", false, true},
		{"low sodium", "1 lb carrots\npepper to taste", true, false}, // half a gram has no sodium to speak of
		{"low sodium", "1 lb carrots\nsoy sauce for serving", false, true},
		{"low sodium", "1 lb carrots\n1 cup glorp", false, true},
		{"low sodium", "1 lb carrots\n1 packet glorp sauce", false, true},
		{"low sodium", "1 lb carrots\n1 tbsp olives (optional)", true, false},
		{"low fat", "1 lb carrots\noil for frying", false, true},
		{"low fat", "1 lb carrots\nsalt to taste", true, false},
		{"low fat", "1 lb carrots\n1/2 cup olive oil\nsalt to taste", false, false}, // too much anyway
		{"very low sodium", "1 lb carrots\n1 tsp salt\n1 cup glorp", false, false},
		{"high in vitamin A", "1 lb carrots\n1 cup glorp", true, false}, // more of it does no harm
	} {
		a := analyse(t, e, "Dish\nServes 4\n\n"+c.lines+"\n")
		v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: "vegetables"})
		if v.Allowed != c.allow || v.AtLeast != c.unsure {
			t.Errorf("%s of %q: allowed %t, at least %t; %q %q", c.claim, c.lines, v.Allowed, v.AtLeast, v.Needs, v.Conditions)
		}
	}
	for _, claim := range []string{"low sodium", "sodium free", "very low sodium", "reduced sodium", "light in sodium"} {
		for _, total := range []engine.Total{{Gaps: []int{0}, Bound: -1}, {Low: 1, High: 1, Gaps: []int{0}, Bound: -1}} {
			a := claimed(1, 110, nil)
			a.Lines = []engine.Line{resolve(t, e, "1 tbsp olive oil")}
			a.Recipe[fooddata.Sodium] = total
			v := a.MayClaim(engine.ClaimRequest{Claim: claim, Reference: "muffins", Original: claimed(1, 110, amounts{fooddata.Sodium: 900})})
			if v.Allowed || !v.AtLeast {
				t.Errorf("%s with a gap: %+v", claim, v)
			}
		}
	}
	// A gap that cannot matter does not: trans fat is within the fat.
	for bound, want := range map[float64]bool{0.4: true, 0.6: false} {
		a := claimed(1, 110, nil)
		a.Lines = []engine.Line{resolve(t, e, "1 tbsp olive oil")}
		a.Recipe[fooddata.TransFat] = engine.Total{Gaps: []int{0}, Bound: bound}
		v := a.MayClaim(engine.ClaimRequest{Claim: "saturated fat free", Reference: "muffins"})
		if v.Allowed != want || v.AtLeast == want {
			t.Errorf("trans fat of at most %g g: %+v", bound, v)
		}
	}
	// A gap in the original makes "more" uncertain.
	o := claimed(1, 110, nil)
	o.Lines = []engine.Line{resolve(t, e, "1 tbsp olive oil")}
	o.Recipe[fooddata.Fibre] = engine.Total{Gaps: []int{0}, Bound: -1}
	if v := claimed(1, 110, amounts{fooddata.Fibre: 9}).MayClaim(engine.ClaimRequest{Claim: "more fibre", Reference: "muffins", Original: o}); v.Allowed || !v.AtLeast {
		t.Errorf("more than an unknown amount: %+v", v)
	}
}

// TestRanges holds that a claim of little goes by the larger end of what is
// written, and one of something by the smaller.
func TestRanges(t *testing.T) {
	a := claimed(1, 110, nil)
	a.Recipe[fooddata.Sodium] = engine.Total{Low: 130, High: 150}
	a.Recipe[fooddata.Iron] = engine.Total{Low: 1.7, High: 1.9}
	if v := a.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: "muffins"}); v.Allowed {
		t.Errorf("130 to 150 mg: %q", v.Needs)
	}
	if v := a.MayClaim(engine.ClaimRequest{Claim: "good source of iron", Reference: "muffins"}); v.Allowed {
		t.Errorf("1.7 to 1.9 mg: %q", v.Needs)
	}
	// The same range in the original is no increase and no reduction.
	b := claimed(1, 110, nil)
	b.Recipe[fooddata.Sodium] = engine.Total{Low: 200, High: 400}
	o := claimed(1, 110, nil)
	o.Recipe[fooddata.Sodium] = engine.Total{Low: 300, High: 600}
	if v := b.MayClaim(engine.ClaimRequest{Claim: "reduced sodium", Reference: "muffins", Original: o}); !v.Allowed {
		t.Errorf("a third less at either end: %q", v.Needs)
	}
}

// TestFinishedWeight holds that a figure by weight goes by the weight as
// eaten once it is told, and names the weight that it bears until then.
func TestFinishedWeight(t *testing.T) {
	a := claimed(12, 1320, amounts{fooddata.Sodium: 12 * 135}) // 135 mg in 110 g as assembled
	v := a.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: "muffins"})
	if !v.Allowed || !strings.Contains(strings.Join(v.Conditions, " "), "at least 1,273 g") { // 1620/140*110
		t.Errorf("as assembled: %+v", v)
	}
	for grams, want := range map[float64]bool{1273: true, 1272: false, 1188: false, 1500: true} {
		v := a.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: "muffins", CookedGrams: grams})
		if v.Allowed != want || strings.Contains(strings.Join(v.Conditions, " "), "assembled") {
			t.Errorf("%g g cooked: allowed %t; %q %q", grams, v.Allowed, v.Needs, v.Conditions)
		}
	}
	b := claimed(4, 980, amounts{fooddata.Fibre: 4 * 6})
	v = b.MayClaim(engine.ClaimRequest{Claim: "high in fibre", Reference: "soup"})
	if !v.Allowed || !strings.Contains(strings.Join(v.Conditions, " "), "no more than 1,050 g") {
		t.Errorf("as assembled: %+v", v)
	}
	if v := b.MayClaim(engine.ClaimRequest{Claim: "high in fibre", Reference: "soup", CookedGrams: 1051}); v.Allowed {
		t.Errorf("1051 g cooked: %q", v.Needs)
	}
}

// TestAskReference holds that no claim by amount passes without a reference
// amount, and that the title's are offered.
func TestAskReference(t *testing.T) {
	a := claimed(12, 1320, amounts{fooddata.Fibre: 300})
	a.Title = "Pecan and pumpkin muffins"
	for _, claim := range []string{"low sodium", "sodium free", "high in fibre", "reduced sodium", "light", "healthy", "97% fat free", "lean", "more fibre"} {
		for _, reference := range []string{"", "flurble"} {
			v := a.MayClaim(engine.ClaimRequest{Claim: claim, Reference: reference, Original: claimed(12, 1320, amounts{fooddata.Sodium: 9000, fooddata.Energy: 2000, fooddata.Fat: 50})})
			if v.Allowed || !v.AskReference || len(v.References) == 0 || v.References[0].Name != "muffins and bagels" {
				t.Errorf("%s without a reference amount: allowed %t, ask %t, offered %v", claim, v.Allowed, v.AskReference, v.References)
			}
			if reference != "" && !strings.Contains(strings.Join(v.Needs, " "), reference) {
				t.Errorf("%s: %q does not say that %q is not known", claim, v.Needs, reference)
			}
		}
	}
}

// TestMealRules holds what makes a meal and a main dish: 21 CFR 101.13(l), (m).
func TestMealRules(t *testing.T) {
	e := newEngine(t)
	line := func(text string) engine.Line { return resolve(t, e, text) }
	for _, c := range []struct {
		reference string
		grams     float64
		lines     []engine.Line
		want      bool
	}{
		{"main dish", 170, []engine.Line{line("40 g cooked white rice"), line("40 g carrots")}, true},
		{"main dish", 169.9, []engine.Line{line("40 g cooked white rice"), line("40 g carrots")}, false},
		{"main dish", 170, []engine.Line{line("40 g cooked white rice"), line("39 g carrots")}, false},
		{"main dish", 170, []engine.Line{line("200 g cooked white rice")}, false},
		{"main dish", 170, []engine.Line{line("40 g carrots"), line("100 g butter")}, false},
		{"meal", 283, []engine.Line{line("80 g cooked white rice"), line("40 g carrots")}, true},
		{"meal", 282.9, []engine.Line{line("80 g cooked white rice"), line("40 g carrots")}, false},
		{"meal", 283, []engine.Line{line("79 g cooked white rice"), line("40 g carrots")}, false},
		{"meal", 283, []engine.Line{line("40 g cheddar cheese"), line("50 g egg"), line("40 g carrots")}, true},
	} {
		a := claimed(1, c.grams, nil)
		a.Lines = c.lines
		if v := a.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: c.reference}); v.Allowed != c.want {
			t.Errorf("%s of %g g, %d lines: allowed %t; %q", c.reference, c.grams, len(c.lines), v.Allowed, v.Needs)
		}
	}
	a := claimed(1, 300, nil)
	a.Known, a.Lines = false, mealLines(t, e)
	if v := a.MayClaim(engine.ClaimRequest{Claim: "low sodium", Reference: "meal"}); v.Allowed {
		t.Error("a meal without known servings")
	}
	// High only by a food that is: carrots have 93 % of vitamin A in 85 g.
	a = claimed(1, 300, nil)
	a.Lines = mealLines(t, e)
	v := a.MayClaim(engine.ClaimRequest{Claim: "high in vitamin A", Reference: "meal"})
	if !v.Allowed || !strings.Contains(strings.Join(v.Needs, " "), "carrot") || !slices.Contains(v.Disclosure, "Name the food in the claim.") {
		t.Errorf("a meal with carrots: %+v", v)
	}
	if v := a.MayClaim(engine.ClaimRequest{Claim: "high in calcium", Reference: "meal"}); v.Allowed {
		t.Errorf("no food in it is high in calcium: %q", v.Needs)
	}
	a.Lines[1] = line("5 g carrots")
	a.Lines = append(a.Lines, line("100 g zucchini"))
	if v := a.MayClaim(engine.ClaimRequest{Claim: "high in vitamin A", Reference: "meal"}); v.Allowed {
		t.Errorf("a little carrot is no food of the meal: %q", v.Needs)
	}
}

// TestClaimWords holds what is understood of the words.
func TestClaimWords(t *testing.T) {
	a := claimed(1, 110, amounts{fooddata.Energy: 100})
	for words, want := range map[string]string{
		"high in fibre": "high in fibre", "High fiber!": "high in fibre", "high-fibre": "high in fibre", "rich in iron": "high in iron", "fibre-rich": "high in fibre",
		"an excellent source of vitamin C": "high in vitamin C", "packed with protein": "high in protein", "high protein": "high in protein",
		"a good source of calcium": "good source of calcium", "source of iron": "good source of iron", "contains vitamin D": "good source of vitamin D", "provides potassium": "good source of potassium",
		"good source of dietary fibre": "good source of fibre", "good source of folic acid": "good source of folate",
		"low sodium": "low sodium", "low in sodium": "low sodium", "low-sodium": "low sodium", "a low sodium food": "low sodium", "low salt": "low sodium", "“low sodium”": "low sodium",
		"very low sodium": "very low sodium", "very low in sodium": "very low sodium", "sodium free": "sodium free", "sodium-free": "sodium free", "free of sodium": "sodium free", "no sodium": "sodium free", "salt free": "sodium free",
		"low calorie": "low calorie", "low in calories": "low calorie", "low-cal": "low calorie", "calorie free": "calorie free", "zero calories": "calorie free",
		"low fat": "low fat", "fat free": "fat free", "nonfat": "fat free", "non-fat": "fat free", "low in saturated fat": "low saturated fat", "low sat fat": "low saturated fat",
		"saturated fat free": "saturated fat free", "low cholesterol": "low cholesterol", "cholesterol-free": "cholesterol free", "sugar free": "sugar free", "sugarless": "sugar free", "low sugar": "low sugar",
		"reduced sodium": "reduced sodium", "reduced sodium than the original": "reduced sodium", "lower in sodium than before": "reduced sodium", "less salt": "reduced sodium", "25% less sodium": "reduced sodium", "sodium less than the original": "reduced sodium",
		"fewer calories": "reduced calorie", "reduced-fat": "reduced fat", "lower in cholesterol": "reduced cholesterol", "reduced sugar": "reduced sugar",
		"more fibre": "more fibre", "added calcium": "more calcium", "fortified with iron": "more iron", "higher in fibre than the original": "more fibre",
		"light": "light", "Lite": "light", "light in fat": "light", "light in sodium": "light in sodium", "lightly salted": "lightly salted",
		"unsalted": "no salt added", "no salt added": "no salt added", "no added salt": "no salt added", "without added salt": "no salt added",
		"no added sugar": "no added sugars", "no sugar added": "no added sugars", "without added sugars": "no added sugars", "zero added sugar": "no added sugars",
		"lean": "lean", "extra lean": "extra lean", "healthy": "healthy", "healthier than the original": "healthy",
	} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: words}); !v.Known || v.Claim != want || v.Refused != "" {
			t.Errorf("%q: %q, known %t, want %q %s", words, v.Claim, v.Known, want, v.Refused)
		}
	}
	for _, words := range []string{"", " ", "tasty", "low", "high in", "low sodium and high fibre", "low in fat and sugar", "good", "source", "the best muffins in town", "low bananas", "50% low sodium", "25% high in iron", "%", "25%", "\x00", strings.Repeat("low ", 200)} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: words}); v.Known || v.Allowed || len(v.Needs) == 0 {
			t.Errorf("%q: %+v, want it not known, and said", words, v)
		}
	}
}

// TestUndefinedClaims holds that words the regulation does not define are
// never allowed: claims.csv, 21 CFR 101.13(b) and 101.60(c).
func TestUndefinedClaims(t *testing.T) {
	a := claimed(1, 110, nil)
	for _, words := range []string{
		"low sugar", "low in added sugars", "very low fat", "very low calorie", "low carb", "carb free", "reduced carbs", "high carbohydrate", "low protein", "trans fat free", "low trans fat",
		"high in omega-3", "rich in ALA", "high in sodium", "high in fat", "good source of cholesterol", "high energy", "low GI", "keto", "natural", "organic", "vegan", "low potassium", "reduced potassium",
		"light in sugar", "no added fat", "gluten free", "unsweetened", "superfood", "whole grain",
	} {
		v := a.MayClaim(engine.ClaimRequest{Claim: words, Reference: "muffins", Original: claimed(1, 110, amounts{fooddata.Carbohydrate: 50, fooddata.Potassium: 900})})
		if v.Allowed || !v.Known || len(v.Needs) == 0 {
			t.Errorf("%q: %+v, want a reasoned no", words, v)
		}
	}
	v := a.MayClaim(engine.ClaimRequest{Claim: "low sugar"})
	if said := strings.Join(v.Needs, " "); !strings.Contains(said, `"sugar free"`) || !strings.Contains(said, `"reduced sugar"`) || !strings.Contains(said, `"no added sugars"`) {
		t.Errorf("low sugar: %q does not say what is defined", v.Needs)
	}
}

// TestRefused holds the firm no to words about disease, the body and allergy:
// 21 CFR 101.14, and section 201(g)(1) of the Act.
func TestRefused(t *testing.T) {
	a := claimed(1, 245, amounts{fooddata.Fibre: 9, fooddata.Potassium: 4000})
	for _, words := range []string{
		"lowers blood pressure", "good for diabetes", "prevents cancer", "heart healthy", "heart-healthy", "diabetic friendly", "diabetic-friendly", "for diabetics", "suitable for people with diabetes",
		"controls blood sugar", "lowers cholesterol", "helps lower cholesterol", "cholesterol-lowering", "reduces the risk of stroke", "fights inflammation", "anti-inflammatory",
		"boosts immunity", "immune boosting", "supports gut health", "good for your kidneys", "kidney friendly", "renal diet", "builds strong bones", "prevents osteoporosis", "good for the heart",
		"cures anemia", "treats celiac disease", "celiac safe", "weight loss", "helps you lose weight", "burns fat", "detox", "good for you", "good for children", "improves memory", "safe for pregnancy",
		"low sodium for high blood pressure", "high in fibre so it prevents constipation", "high in potassium to lower blood pressure", "relieves gout", "medicinal", "heals the gut",
		"nut free", "dairy-free", "allergen free", "lactose free", "egg free", "hypoallergenic",
	} {
		for _, reference := range []string{"", "soup"} {
			v := a.MayClaim(engine.ClaimRequest{Claim: words, Reference: reference})
			if v.Refused == "" || v.Allowed || !v.Known || v.Rule == "" || !strings.HasPrefix(v.Refused, "No: ") {
				t.Errorf("%q: %+v, want a firm no", words, v)
			}
		}
	}
	for _, words := range []string{"low sodium", "low cholesterol", "reduced cholesterol", "lower in cholesterol", "healthy", "light", "high in iron", "no added sugars", "cholesterol free", "lean"} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: words}); v.Refused != "" {
			t.Errorf("%q is no word about disease: %s", words, v.Refused)
		}
	}
	if v := a.MayClaim(engine.ClaimRequest{Claim: "lowers blood pressure"}); !strings.Contains(strings.Join(v.Needs, " "), `"low sodium"`) {
		t.Errorf("what can be checked instead is not said: %q", v.Needs)
	}
}

// TestNothingCounted holds that an empty recipe bears no claim.
func TestNothingCounted(t *testing.T) {
	a := &engine.Analysis{Servings: 1}
	for _, claim := range []string{"low sodium", "high in fibre", "fat free", "no added sugars", "unsalted", "light", "healthy"} {
		if v := a.MayClaim(engine.ClaimRequest{Claim: claim, Reference: "soup", Original: a}); v.Allowed || len(v.Needs) == 0 {
			t.Errorf("%s of nothing: %+v", claim, v)
		}
	}
	if v := claimed(1, 245, amounts{fooddata.Sodium: 100}).MayClaim(engine.ClaimRequest{Claim: "reduced sodium", Reference: "soup", Original: a}); v.Allowed {
		t.Errorf("less than nothing: %+v", v)
	}
}

// TestReferences holds the list of reference amounts together.
func TestReferences(t *testing.T) {
	seen := make(map[string]bool)
	for _, r := range engine.References() {
		if seen[r.Name] {
			t.Errorf("%s is there twice", r.Name)
		}
		seen[r.Name] = true
		if got, ok := engine.ReferenceNamed(r.Name); !ok || got.Name != r.Name {
			t.Errorf("%q names %q, %t", r.Name, got.Name, ok)
		}
		if r.Class != engine.SingleFood {
			continue
		}
		grams := fmt.Sprintf("%g g", r.Grams)
		if (r.Says == grams) != (r.Assumed == "") {
			t.Errorf("%s: %s is %s, assumed %q", r.Name, r.Says, grams, r.Assumed)
		}
		small := r.Says == "2 tbsp" || r.Says == "1 tbsp" || r.Says == grams && r.Grams <= 30
		if r.Small != small {
			t.Errorf("%s, %s: small is %t", r.Name, r.Says, r.Small)
		}
	}
	for words, want := range map[string]string{
		"muffins": "110 g", "muffin": "110 g", "Bran Muffins": "110 g", "soup": "245 g", "lentil soup": "245 g", "bread": "50 g", "banana bread": "55 g", "corn bread": "55 g", "potato salad": "140 g",
		"green salad": "100 g", "salad dressing": "30 g", "chocolate chip cookies": "30 g", "carrot cake": "80 g", "cheesecake": "125 g", "apple pie": "125 g", "beef stew": "1 cup", "hummus": "2 tbsp",
		"55 g": "55 g", "85g": "85 g", "245 grams": "245 g", "sweet potato soup": "245 g", "potato soup with cheese": "245 g", "rice": "140 g", "fried rice": "1 cup", "shepherd's pie": "1 cup", "crab cakes": "85 g",
		"green beans": "85 g", "fish with sauce": "140 g", "chicken pot pie": "1 cup", "honey": "1 tbsp", "ice cream": "2/3 cup", "pancakes": "110 g", "scrambled eggs": "110 g", "yogurt": "170 g",
	} {
		if got, ok := engine.ReferenceNamed(words); !ok || got.Says != want {
			t.Errorf("%q: %s (%s), %t, want %s", words, got.Says, got.Name, ok, want)
		}
	}
	for _, words := range []string{"", "flurble", "0 g", "-5 g", "g", "1e9 g", "NaN g", "Inf g", "chicken and rice", "with"} {
		if got, ok := engine.ReferenceNamed(words); ok {
			t.Errorf("%q: %s, want none", words, got.Name)
		}
	}
	if got := engine.LikelyReferences("Grandma's Lentil Soup"); len(got) == 0 || got[0].Name != "soups" {
		t.Errorf("lentil soup: %v", got)
	}
}

// TestClaimMonotone holds, for every claim of little, that less of its
// nutrient never takes the claim away, and for "high" that more does not.
func TestClaimMonotone(t *testing.T) {
	for claim, n := range map[string]fooddata.Nutrient{"low sodium": fooddata.Sodium, "sodium free": fooddata.Sodium, "low fat": fooddata.Fat, "low calorie": fooddata.Energy, "low cholesterol": fooddata.Cholesterol, "sugar free": fooddata.Sugars} {
		lost := false
		for i := range 2000 {
			ok := claimed(3, 250, amounts{n: float64(i)}).MayClaim(engine.ClaimRequest{Claim: claim, Reference: "cookies"}).Allowed
			if ok && lost {
				t.Fatalf("%s: allowed again at %d", claim, i)
			}
			lost = lost || !ok
		}
		if !lost {
			t.Errorf("%s is never lost", claim)
		}
	}
	won := false
	for i := range 400 {
		ok := claimed(3, 250, amounts{fooddata.Fibre: float64(i) / 10}).MayClaim(engine.ClaimRequest{Claim: "high fibre", Reference: "soup"}).Allowed
		if won && !ok {
			t.Fatalf("high fibre: lost again at %g", float64(i)/10)
		}
		won = won || ok
	}
	if !won {
		t.Error("high fibre is never reached")
	}
}

// FuzzMayClaim holds that no words make a claim pass that must not: a refusal,
// an open question and an allowance exclude one another.
func FuzzMayClaim(f *testing.F) {
	for _, words := range []string{"low sodium", "25% less sodium than the original", "97% fat free", "high in antioxidant vitamin C", "lowers blood pressure", "no added sugars", "vitamin a", "%d", "a a a"} {
		f.Add(words, "soup")
		f.Add(words, "")
	}
	f.Fuzz(func(t *testing.T, words, reference string) {
		a := claimed(2, 490, amounts{fooddata.Fibre: 20, fooddata.Energy: 100})
		v := a.MayClaim(engine.ClaimRequest{Claim: words, Reference: reference, Original: claimed(2, 490, amounts{fooddata.Energy: 900, fooddata.Sodium: 900})})
		if v.Allowed && (!v.Known || v.Refused != "" || v.AskReference || v.AskOriginal || v.AtLeast || v.Rule == "") {
			t.Errorf("%q of %q: %+v", words, reference, v)
		}
		if !v.Allowed && v.Refused == "" && len(v.Needs) == 0 {
			t.Errorf("%q of %q: no reason", words, reference)
		}
		for _, s := range append(append(v.Needs, v.Conditions...), v.Disclosure...) {
			for _, broken := range []string{"%!", "NaN", "Inf"} {
				if strings.Contains(s, broken) && !strings.Contains(words+reference, broken) {
					t.Errorf("%q of %q: %q", words, reference, s)
				}
			}
		}
	})
}
