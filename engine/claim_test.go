package engine_test

import (
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
		if v.Allowed && (!v.Known || v.Refused != "" || v.AskReference || v.AskOriginal || v.AskServings || v.Open || v.AtLeast || v.Rule == "") {
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
