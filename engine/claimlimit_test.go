package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

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
