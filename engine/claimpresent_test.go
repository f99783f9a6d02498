package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

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
