package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestClaimOfUnknownServings: what only the number of servings can settle is
// open, and what fails whatever it is, is a no.
func TestClaimOfUnknownServings(t *testing.T) {
	lines := mealLines(t, newEngine(t))
	for _, c := range []struct {
		claim, reference string
		in300            amounts // in 300 g
		allowed, open    bool
		needs            string
	}{
		{"low sodium", "meal", nil, false, true, "judged by its serving"},
		{"low sodium", "main dish", amounts{fooddata.Sodium: 420}, false, true, "judged by its serving"},
		{"low sodium", "main dish", amounts{fooddata.Sodium: 423}, false, false, "too much in 100 g"},
		{"very low sodium", "meal", amounts{fooddata.Sodium: 420}, false, false, "too much in 100 g"},
		{"lean", "main dish", amounts{fooddata.Fat: 20}, false, true, "judged by its serving"},
		{"lean", "main dish", amounts{fooddata.Fat: 31}, false, false, "too much in 100 g"},
		{"extra lean", "meal", amounts{fooddata.Cholesterol: 286}, false, false, "too much in 100 g"},
		{"sodium free", "meal", amounts{fooddata.Sodium: 900}, false, true, "judged by its serving"}, // it goes by a serving alone
		{"high in fibre", "main dish", amounts{fooddata.Fibre: 90}, false, true, "judged by its serving"},
		{"healthy", "meal", nil, false, true, "judged by its serving"},
		{"carb free", "meal", nil, false, false, "defines no claim"},

		{"sodium free", "muffins", nil, false, true, "must hold for a serving too"},
		{"sodium free", "muffins", amounts{fooddata.Sodium: 60}, false, false, "too much in 110 g"},
		{"100% fat free", "muffins", nil, false, true, "must hold for a serving too"},
		{"100% fat free", "muffins", amounts{fooddata.Fat: 6}, false, false, "too much in 100 g"},
		{"low sodium", "muffins", nil, true, false, "no more than 140 mg"},
		{"97% fat free", "muffins", nil, true, false, "no more than 3 g"},
	} {
		a := claimed(1, 300, c.in300)
		a.Known, a.Lines = false, lines
		v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: c.reference})
		if v.Allowed != c.allowed || v.AskServings != c.open || v.Rule == "" || !strings.Contains(strings.Join(v.Needs, " "), c.needs) {
			t.Errorf("%s of %s with %v: allowed %t, open %t; %s %q", c.claim, c.reference, c.in300, v.Allowed, v.AskServings, v.Rule, v.Needs)
		}
		if !c.open && strings.Contains(strings.Join(v.Needs, " "), "servings") {
			t.Errorf("%s of %s: servings do not decide it: %q", c.claim, c.reference, v.Needs)
		}
		a.Known = true
		if v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: c.reference}); v.AskServings {
			t.Errorf("%s of %s: servings are asked for and known", c.claim, c.reference)
		}
	}
	// A gap leaves it unsure whatever the servings are.
	e := newEngine(t)
	a := analyse(t, e, "1 cup dragonscale\n500 g carrots")
	if v := a.MayClaim(engine.ClaimRequest{Claim: "fat free", Reference: "soup"}); v.AskServings || v.Allowed {
		t.Errorf("with a line asked about: %+v", v)
	}
}

// TestClaimOpen: what is not known is neither a yes nor a no, and what fails by
// what is known is a no.
func TestClaimOpen(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		claim, reference, lines string
		open                    bool
	}{
		{"fat free", "soup", "1 cup dragonscale\n900 g water\n100 g carrots", true},
		{"fat free", "soup", "1 cup dragonscale\n500 g carrots\n50 g butter", false},
		{"100% fat free", "soup", "1 cup dragonscale\n900 g water\n100 g carrots", true},
		{"lean", "main dish", "1 cup dragonscale\n500 g carrots\n200 g 95% lean ground beef", true},
		{"lean", "main dish", "1 cup dragonscale\n500 g carrots\n500 g lean beef\n200 g butter", false},
		{"high in fibre", "soup", "1 cup dragonscale\n900 g water\n100 g carrots", true},
		{"high in fibre", "soup", "900 g water\n100 g carrots", false},
		{"high in protein", "soup", "500 g chicken breast\n500 g water", true}, // its quality is not known
		{"high in protein", "soup", "10 g chicken breast\n900 g water", false},
		{"healthy", "soup", "900 g water\n100 g carrots", true}, // what food groups it holds is not known
		{"healthy", "soup", "900 g water\n100 g carrots\n30 g salt", false},
		{"gluten free", "soup", "900 g water\n100 g carrots", true},
		{"gluten free", "soup", "900 g water\n100 g pearl barley", false},
		{"gluten free", "soup", "900 g water\n10 g flour", false},
		{"no salt added", "soup", "1 cup dragonscale\n500 g carrots", true},
		{"no salt added", "soup", "1 cup dragonscale\n500 g carrots\n1 tsp salt", false},
		{"no added sugars", "soup", "1 cup dragonscale\n500 g carrots", true},
		{"no added sugars", "soup", "1 cup dragonscale\n500 g carrots\n1 tbsp sugar", false},
	} {
		a := analyse(t, e, "Dish\nServes 2\n"+c.lines)
		v := a.MayClaim(engine.ClaimRequest{Claim: c.claim, Reference: c.reference})
		if v.Allowed || v.Open != c.open || v.AskServings || v.AskReference {
			t.Errorf("%s of %q: %+v", c.claim, c.lines, v)
		}
	}
	a, original := analyse(t, e, "Dish\nServes 2\n500 g carrots\n1 cup dragonscale"), analyse(t, e, "Dish\nServes 2\n500 g carrots\n2 tsp salt")
	if v := a.MayClaim(engine.ClaimRequest{Claim: "reduced sodium", Reference: "soup", Original: original}); v.Allowed || !v.Open {
		t.Errorf("less sodium with a line asked about: %+v", v)
	}
	if v := original.MayClaim(engine.ClaimRequest{Claim: "reduced sodium", Reference: "soup", Original: original}); v.Allowed || v.Open {
		t.Errorf("no less sodium: %+v", v)
	}
}
