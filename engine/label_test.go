package engine_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

// TestDeclared holds rounding against 21 CFR 101.9(c) at and around every edge
// of every rule. "App. H" is Appendix H of FDA's Food Labeling Guide;
// "published" are examples of a published sheet of the rules
// (scribd.com/document/435581673); "(memory)" is not seen in print.
func TestDeclared(t *testing.T) {
	for _, c := range []struct {
		n      fooddata.Nutrient
		amount float64
		want   string
		source string
	}{
		{fooddata.Energy, 0, "0 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 4.9, "0 kcal", "101.9(c)(1), App. H"},
		{fooddata.Energy, 4.999, "0 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 5, "5 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 7.49, "5 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 7.5, "10 kcal", "101.9(c)(1), half up"},
		{fooddata.Energy, 42, "40 kcal", "101.9(c)(1), published"},
		{fooddata.Energy, 47.5, "50 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 50, "50 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 50.01, "50 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 52, "50 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 52.5, "50 kcal", "101.9(c)(1): above 50 by tens"},
		{fooddata.Energy, 54.99, "50 kcal", "101.9(c)(1)"},
		{fooddata.Energy, 55, "60 kcal", "101.9(c)(1), half up"},
		{fooddata.Energy, 106, "110 kcal", "101.9(c)(1), published"},
		{fooddata.Energy, 245, "250 kcal", "101.9(c)(1), half up"},
		{fooddata.Energy, 1246, "1,250 kcal", "101.9(c)(1)"},

		{fooddata.Fat, 0.48, "0 g", "101.9(c)(2), published"},
		{fooddata.Fat, 0.499, "0 g", "101.9(c)(2)"},
		{fooddata.Fat, 0.5, "0.5 g", "101.9(c)(2)"},
		{fooddata.Fat, 0.74, "0.5 g", "101.9(c)(2)"},
		{fooddata.Fat, 0.75, "1 g", "101.9(c)(2), half up"},
		{fooddata.Fat, 4.38, "4.5 g", "101.9(c)(2), published"},
		{fooddata.Fat, 4.74, "4.5 g", "101.9(c)(2)"},
		{fooddata.Fat, 4.75, "5 g", "101.9(c)(2), half up"},
		{fooddata.Fat, 4.999, "5 g", "101.9(c)(2)"},
		{fooddata.Fat, 5, "5 g", "101.9(c)(2)"},
		{fooddata.Fat, 5.49, "5 g", "101.9(c)(2): from 5 g whole"},
		{fooddata.Fat, 5.5, "6 g", "101.9(c)(2), half up"},
		{fooddata.Fat, 78.73, "79 g", "101.9(c)(2), published"},
		{fooddata.SaturatedFat, 0.49, "0 g", "101.9(c)(2)(i)"},
		{fooddata.SaturatedFat, 1.3, "1.5 g", "101.9(c)(2)(i)"},
		{fooddata.TransFat, 0.5, "0.5 g", "101.9(c)(2)(ii)"},
		{fooddata.PolyunsaturatedFat, 2.2, "2 g", "101.9(c)(2)(iii)"},
		{fooddata.MonounsaturatedFat, 2.25, "2.5 g", "101.9(c)(2)(iv), half up"},

		{fooddata.Cholesterol, 1.9, "0 mg", "101.9(c)(3), App. H"},
		{fooddata.Cholesterol, 2, "less than 5 mg", "101.9(c)(3)"},
		{fooddata.Cholesterol, 4, "less than 5 mg", "101.9(c)(3)"},
		{fooddata.Cholesterol, 5, "less than 5 mg", "101.9(c)(3): 2 to 5"},
		{fooddata.Cholesterol, 5.1, "5 mg", "101.9(c)(3)"},
		{fooddata.Cholesterol, 7.49, "5 mg", "101.9(c)(3)"},
		{fooddata.Cholesterol, 7.5, "10 mg", "101.9(c)(3), half up"},
		{fooddata.Cholesterol, 62, "60 mg", "101.9(c)(3)"},

		{fooddata.Sodium, 4.9, "0 mg", "101.9(c)(4), App. H"},
		{fooddata.Sodium, 5, "5 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 7.49, "5 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 7.5, "10 mg", "101.9(c)(4), half up"},
		{fooddata.Sodium, 66, "65 mg", "101.9(c)(4), published"},
		{fooddata.Sodium, 137.4, "135 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 137.5, "140 mg", "101.9(c)(4), half up"},
		{fooddata.Sodium, 138, "140 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 140, "140 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 140.1, "140 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 142, "140 mg", "101.9(c)(4)"},
		{fooddata.Sodium, 142.6, "140 mg", "101.9(c)(4): above 140 by tens"},
		{fooddata.Sodium, 145, "150 mg", "101.9(c)(4), half up"},
		{fooddata.Sodium, 154, "150 mg", "101.9(c)(4), published"},
		{fooddata.Sodium, 1244, "1,240 mg", "101.9(c)(4)"},

		{fooddata.Carbohydrate, 0.4, "0 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 0.499, "0 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 0.5, "less than 1 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 0.7, "less than 1 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 0.999, "less than 1 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 1, "1 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 1.49, "1 g", "101.9(c)(6)"},
		{fooddata.Carbohydrate, 1.5, "2 g", "101.9(c)(6), half up"},
		{fooddata.Carbohydrate, 21.25, "21 g", "101.9(c)(6), published"},
		{fooddata.Fibre, 0.7, "less than 1 g", "101.9(c)(6)(i)"},
		{fooddata.Fibre, 2.5, "3 g", "101.9(c)(6)(i), half up"},
		{fooddata.Sugars, 0.49, "0 g", "101.9(c)(6)(ii)"},
		{fooddata.AddedSugars, 0.5, "less than 1 g", "101.9(c)(6)(iii)"},
		{fooddata.AddedSugars, 12.4, "12 g", "101.9(c)(6)(iii)"},
		{fooddata.Protein, 0.4, "0 g", "101.9(c)(7)"},
		{fooddata.Protein, 0.7, "less than 1 g", "101.9(c)(7)"},
		{fooddata.Protein, 6.5, "7 g", "101.9(c)(7), half up"},

		{fooddata.VitaminD, 0.25, "0.3 µg", "101.9(c)(8)(iii), FDA's guidance: tenths below an RDI of 25, half up"},
		{fooddata.VitaminD, 2.04, "2 µg", "101.9(c)(8)(iii)"},
		{fooddata.Iron, 1.35, "1.4 mg", "101.9(c)(8)(iii), half up: 1.35/0.1 is 13.499… in float64"},
		{fooddata.Iron, 0.35, "0.4 mg", "101.9(c)(8)(iii), half up: 0.35/0.1 is 3.499… in float64"},
		{fooddata.Thiamin, 0.034, "0.03 mg", "101.9(c)(8)(iii): hundredths, since 2 % of 1.2 mg is 0.024"},
		{fooddata.Riboflavin, 0.285, "0.29 mg", "101.9(c)(8)(iii), half up"},
		{fooddata.VitaminB12, 0.06, "0.06 µg", "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, 8.5, "9 mg", "101.9(c)(8)(iii): whole from an RDI of 25"},
		{fooddata.Selenium, 5.4, "5 µg", "101.9(c)(8)(iii)"},
		{fooddata.Magnesium, 42.5, "45 mg", "101.9(c)(8)(iii) (memory): fives from an RDI of 250"},
		{fooddata.FolateDFE, 42.4, "40 µg", "101.9(c)(8)(iii) (memory)"},
		{fooddata.Calcium, 124, "120 mg", "101.9(c)(8)(iii) (memory): tens from an RDI of 500"},
		{fooddata.Calcium, 125, "130 mg", "101.9(c)(8)(iii) (memory), half up"},
		{fooddata.Potassium, 4, "0 mg", "101.9(c)(8)(iii) (memory): no longer by the rule of sodium"},
		{fooddata.Potassium, 137, "140 mg", "101.9(c)(8)(iii) (memory)"},
		{fooddata.VitaminA, 95, "100 µg", "101.9(c)(8)(iii) (memory), half up"},

		{fooddata.Caffeine, 10, "", "not declared"},
		{fooddata.Alcohol, 10, "", "not declared"},
		{fooddata.Starch, 10, "", "not declared"},
		{fooddata.Retinol, 10, "", "not declared: vitamin A is"},
		{fooddata.Sodium, -1, "", "no amount"},
		{fooddata.Sodium, math.NaN(), "", "no amount"},
		{fooddata.Sodium, math.Inf(1), "", "no amount"},
	} {
		if got := engine.Declared(c.n, c.amount); got != c.want {
			t.Errorf("%s %g: %q, want %q by %s", c.n.Name(), c.amount, got, c.want, c.source)
		}
	}
}

// TestDeclaredNoise adds amounts up so that they stand beside an edge by the
// error of float64 alone: they must be taken as standing on it.
func TestDeclaredNoise(t *testing.T) {
	sum := func(v float64, times int) (s float64) {
		for range times {
			s += v
		}
		return s
	}
	for _, c := range []struct {
		n      fooddata.Nutrient
		amount float64
		want   string
	}{
		{fooddata.Fat, sum(0.05, 10), "0.5 g"},
		{fooddata.Fat, 0.1 + 0.2 + 0.2, "0.5 g"},
		{fooddata.Fat, sum(0.095, 50), "5 g"}, // 4.75
		{fooddata.Sodium, sum(0.1, 50), "5 mg"},
		{fooddata.Sodium, sum(1.4, 100), "140 mg"},
		{fooddata.Sodium, sum(14.5, 10), "150 mg"},
		{fooddata.Cholesterol, sum(0.1, 20), "less than 5 mg"},
		{fooddata.Cholesterol, sum(0.1, 50), "less than 5 mg"},
		{fooddata.Carbohydrate, sum(0.1, 10), "1 g"},
		{fooddata.Energy, sum(0.1, 50), "5 kcal"},
	} {
		if got := engine.Declared(c.n, c.amount); got != c.want {
			t.Errorf("%s %.17g: %q, want %q", c.n.Name(), c.amount, got, c.want)
		}
	}
}

// TestDeclaredSweep compares every hundredth up to 300 with the rules of 21
// CFR 101.9(c) worked out again in whole numbers.
func TestDeclaredSweep(t *testing.T) {
	halfUp := func(hundredths, step int) int { return (2*hundredths + step) / (2 * step) * step }
	rules := map[fooddata.Nutrient]func(v int) (int, string){
		fooddata.Energy: func(v int) (int, string) {
			switch {
			case v < 500:
				return 0, ""
			case v <= 5000:
				return halfUp(v, 500), ""
			}
			return halfUp(v, 1000), ""
		},
		fooddata.Fat: func(v int) (int, string) {
			switch {
			case v < 50:
				return 0, ""
			case v < 500:
				return halfUp(v, 50), ""
			}
			return halfUp(v, 100), ""
		},
		fooddata.Cholesterol: func(v int) (int, string) {
			switch {
			case v < 200:
				return 0, ""
			case v <= 500:
				return 0, "less than 5 mg"
			}
			return halfUp(v, 500), ""
		},
		fooddata.Sodium: func(v int) (int, string) {
			switch {
			case v < 500:
				return 0, ""
			case v <= 14000:
				return halfUp(v, 500), ""
			}
			return halfUp(v, 1000), ""
		},
		fooddata.Fibre: func(v int) (int, string) {
			switch {
			case v < 50:
				return 0, ""
			case v < 100:
				return 0, "less than 1 g"
			}
			return halfUp(v, 100), ""
		},
	}
	for n, rule := range rules {
		for v := range 30000 {
			rounded, want := rule(v)
			if want == "" {
				want = strings.TrimSuffix(fmt.Sprintf("%d.%d", rounded/100, rounded%100/10), ".0") + " " + n.Unit()
			}
			if got := engine.Declared(n, float64(v)/100); got != want {
				t.Fatalf("%s %d.%02d: %q, want %q", n.Name(), v/100, v%100, got, want)
			}
		}
	}
}

// TestDeclaredPercent holds the share of the Daily Value against 21 CFR
// 101.9(d)(7)(ii) and (c)(8)(iii).
func TestDeclaredPercent(t *testing.T) {
	share := func(n fooddata.Nutrient, percent float64) float64 {
		dv, _ := fooddata.DailyValue(n)
		return dv * percent / 100
	}
	for _, c := range []struct {
		n      fooddata.Nutrient
		amount float64
		want   int
		source string
	}{
		{fooddata.AddedSugars, 12, 24, "12/50, derived"},
		{fooddata.Sodium, 850, 37, "FDA's teaching example (memory)"},
		{fooddata.Potassium, 470, 10, "470/4700, derived"},
		{fooddata.Fat, share(fooddata.Fat, 9.49), 9, "101.9(d)(7)(ii)"},
		{fooddata.Fat, share(fooddata.Fat, 9.5), 10, "101.9(d)(7)(ii), half up"},
		{fooddata.Fat, share(fooddata.Fat, 11), 11, "101.9(d)(7)(ii): no steps of 5"},
		{fooddata.Carbohydrate, share(fooddata.Carbohydrate, 12.5), 13, "101.9(d)(7)(ii), half up"},
		{fooddata.Fibre, 0.7, 3, "101.9(d)(7)(ii): of the actual amount"},
		{fooddata.SaturatedFat, 0.49, 0, "declared as zero, so 0 %"},
		{fooddata.Sodium, 4.9, 0, "declared as zero"},
		{fooddata.Cholesterol, 1.9, 0, "declared as zero"},
		{fooddata.Cholesterol, 4, 1, "101.9(d)(7)(ii): less than 5 mg is not zero"},
		{fooddata.Iron, share(fooddata.Iron, 1.9), 0, "101.9(c)(8)(iii): may be 0"},
		{fooddata.Iron, share(fooddata.Iron, 1.99), 0, "101.9(c)(8)(iii)"},
		{fooddata.Iron, share(fooddata.Iron, 2), 2, "101.9(c)(8)(iii)"},
		{fooddata.Iron, share(fooddata.Iron, 2.99), 2, "101.9(c)(8)(iii)"},
		{fooddata.Iron, share(fooddata.Iron, 3), 4, "101.9(c)(8)(iii), half up"},
		{fooddata.Calcium, share(fooddata.Calcium, 3.1), 4, "101.9(c)(8)(iii)"},
		{fooddata.Calcium, share(fooddata.Calcium, 5), 6, "101.9(c)(8)(iii), half up"},
		{fooddata.Calcium, share(fooddata.Calcium, 7), 8, "101.9(c)(8)(iii), half up"},
		{fooddata.Calcium, share(fooddata.Calcium, 8.99), 8, "101.9(c)(8)(iii)"},
		{fooddata.Calcium, share(fooddata.Calcium, 9), 10, "101.9(c)(8)(iii), half up"},
		{fooddata.Calcium, share(fooddata.Calcium, 9.2), 10, "101.9(c)(8)(iii)"},
		{fooddata.Calcium, share(fooddata.Calcium, 10), 10, "101.9(c)(8)(iii)"},
		{fooddata.Calcium, share(fooddata.Calcium, 10.01), 10, "101.9(c)(8)(iii): above 10 by fives"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 11), 10, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 12.4), 10, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 12.5), 15, "101.9(c)(8)(iii), half up"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 12.6), 15, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 48), 50, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 50), 50, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 51), 50, "101.9(c)(8)(iii): above 50 by tens"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 54.9), 50, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 55), 60, "101.9(c)(8)(iii), half up"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 56), 60, "101.9(c)(8)(iii)"},
		{fooddata.VitaminC, share(fooddata.VitaminC, 234), 230, "101.9(c)(8)(iii)"},
		{fooddata.Potassium, share(fooddata.Potassium, 3), 4, "101.9(c)(8)(iii): potassium goes by the steps of minerals"},
	} {
		if got, ok := engine.DeclaredPercent(c.n, c.amount); !ok || got != c.want {
			t.Errorf("%s %g: %d %%, %t, want %d %% by %s", c.n.Name(), c.amount, got, ok, c.want, c.source)
		}
	}
	for _, n := range []fooddata.Nutrient{fooddata.Energy, fooddata.Sugars, fooddata.TransFat, fooddata.Protein, fooddata.Caffeine} {
		if p, ok := engine.DeclaredPercent(n, 10); ok {
			t.Errorf("%s: %d %%, want none (21 CFR 101.9(c))", n.Name(), p)
		}
	}
	if _, ok := engine.DeclaredPercent(fooddata.Sodium, math.NaN()); ok {
		t.Error("a share of no amount")
	}
}

func labelLine(t *testing.T, a *engine.Analysis, name string) engine.LabelLine {
	t.Helper()
	for _, l := range a.Label() {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("no line %q", name)
	return engine.LabelLine{}
}

// TestLabel holds that a declaration has all that 21 CFR 101.9(c) asks for.
func TestLabel(t *testing.T) {
	a := claimed(4, 1000, map[fooddata.Nutrient]float64{fooddata.Energy: 980, fooddata.Sodium: 580, fooddata.Cholesterol: 18, fooddata.Fibre: 2.8, fooddata.Iron: 7.2})
	for _, want := range []engine.LabelLine{
		{Name: "Servings", Amount: "4"},
		{Name: "One serving", Amount: "250 g"},
		{Name: "Calories", Amount: "250 kcal"},
		{Name: "Carbohydrate", Amount: "0 g", Percent: "0%"},
		{Name: "Fibre", Amount: "less than 1 g", Percent: "3%", Indent: 1},
		{Name: "Sugars", Amount: "0 g", Indent: 1},
		{Name: "added", Amount: "0 g", Percent: "0%", Indent: 2},
		{Name: "Protein", Amount: "0 g"},
		{Name: "Fat", Amount: "0 g", Percent: "0%"},
		{Name: "Saturated", Amount: "0 g", Percent: "0%", Indent: 1},
		{Name: "Trans", Amount: "0 g", Indent: 1},
		{Name: "Cholesterol", Amount: "less than 5 mg", Percent: "2%"},
		{Name: "Sodium", Amount: "150 mg", Percent: "6%"},
		{Name: "Potassium", Amount: "0 mg", Percent: "0%"},
		{Name: "Calcium", Amount: "0 mg", Percent: "0%"},
		{Name: "Iron", Amount: "1.8 mg", Percent: "10%"},
		{Name: "Vitamin D", Amount: "0 µg", Percent: "0%"},
	} {
		if got := labelLine(t, a, want.Name); got != want {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	if got := len(a.Label()); got != 17 {
		t.Errorf("%d lines, want 17", got)
	}
}

// TestLabelServings holds servings and the weight of one against 21 CFR
// 101.9(b)(8) and (b)(7) (memory).
func TestLabelServings(t *testing.T) {
	for _, c := range []struct {
		servings, grams float64
		wantServings    string
		wantGrams       string
	}{
		{6, 600, "6", "100 g"},
		{2.4, 240, "about 2.5", "100 g"},
		{4.75, 475, "about 5", "100 g"},
		{2.5, 250, "2.5", "100 g"},
		{7.5, 750, "about 8", "100 g"},
		{1.6, 160, "about 2", "100 g"},
		{10, 14, "10", "1.4 g"},
		{10, 33, "10", "3.5 g"},
		{10, 55, "10", "6 g"},
	} {
		a := claimed(c.servings, c.grams, nil)
		if got := labelLine(t, a, "Servings").Amount; got != c.wantServings {
			t.Errorf("%g servings: %q, want %q", c.servings, got, c.wantServings)
		}
		if got := labelLine(t, a, "One serving").Amount; got != c.wantGrams {
			t.Errorf("%g g: %q, want %q", c.grams/c.servings, got, c.wantGrams)
		}
	}
}

// TestLabelGaps holds that what is not known is never declared as zero.
func TestLabelGaps(t *testing.T) {
	e := newEngine(t)
	a := analyse(t, e, "Toast\nServes 1\n\n2 slices whole wheat bread\n1 tbsp butter\nsalt to taste\n")
	if l := labelLine(t, a, "Sodium"); !l.AtLeast {
		t.Errorf("salt to taste: sodium is %+v, want at least", l)
	}
	if l := labelLine(t, a, "Calories"); l.AtLeast {
		t.Errorf("salt to taste: calories are %+v", l)
	}
	a = analyse(t, e, "Toast\nServes 1\n\n2 slices whole wheat bread\n1 cup glorp\n")
	for _, l := range a.Label()[1:] {
		if !l.AtLeast {
			t.Errorf("a food that is not known: %+v, want at least", l)
		}
	}
	gap := claimed(1, 100, map[fooddata.Nutrient]float64{fooddata.Sodium: 100})
	gap.Lines = []engine.Line{resolve(t, e, "1 tbsp olive oil")}
	gap.Recipe[fooddata.VitaminD] = engine.Total{Gaps: []int{0}, Bound: -1}
	gap.Recipe[fooddata.Calcium] = engine.Total{Low: 130, High: 130, Gaps: []int{0}, Bound: -1}
	gap.Recipe[fooddata.Fibre] = engine.Total{Low: 0.7, High: 0.7, Gaps: []int{0}, Bound: -1}
	gap.Recipe[fooddata.TransFat] = engine.Total{Gaps: []int{0}, Bound: 0.4}
	gap.Recipe[fooddata.SaturatedFat] = engine.Total{Low: 1, High: 1, Gaps: []int{0}, Bound: 0.4}
	for _, want := range []engine.LabelLine{
		{Name: "Vitamin D", Amount: "not known", AtLeast: true},
		{Name: "Calcium", Amount: "130 mg", Percent: "10%", AtLeast: true},
		{Name: "Fibre", Amount: "not known", Indent: 1, AtLeast: true},
		{Name: "Trans", Amount: "0 g", Indent: 1}, // below 0.5 g with all that is missing
		{Name: "Saturated", Amount: "1 g", Percent: "5%", Indent: 1, AtLeast: true},
		{Name: "Sodium", Amount: "100 mg", Percent: "4%"},
	} {
		if got := labelLine(t, gap, want.Name); got != want {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	gap.Known = false
	if got := gap.Label()[1]; got.Name != "The whole recipe" || got.Amount != "100 g" {
		t.Errorf("servings not known: %+v", got)
	}
}
