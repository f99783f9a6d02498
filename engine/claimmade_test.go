package engine_test

import (
	"testing"

	"pottle/engine"
)

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
