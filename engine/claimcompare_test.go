package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

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
