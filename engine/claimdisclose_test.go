package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

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
