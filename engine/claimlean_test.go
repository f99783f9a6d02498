package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

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
