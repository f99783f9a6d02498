package engine_test

import (
	"slices"
	"strings"
	"testing"

	"pottle/engine"
)

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
	// High only by a food that is: carrots have 93 % of vitamin A in 85 g.
	a := claimed(1, 300, nil)
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
