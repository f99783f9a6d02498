package engine_test

import (
	"math"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// resolve works out one amount.
func resolve(t *testing.T, e *engine.Engine, text string) engine.Line {
	t.Helper()
	l := e.Resolve(grammar.ParseLine(text).Items[0])
	if l.Status != engine.Counted {
		t.Fatalf("%q is %s: %s", text, l.Status, l.Why)
	}
	return l
}

// TestHandbookWeights holds household measures against weights published
// independently of SR28.
//
// Sources: HERR 41 is USDA-ARS Home Economics Research Report 41; "mill" is a
// flour mill's table of baking measures; "legal" follows from the definitions
// of the measures. A wider band than 8 % names its reason.
func TestHandbookWeights(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		amount string
		grams  float64
		band   float64
		source string
	}{
		{"1 cup all-purpose flour", 126, 0.08, "HERR 41, unsifted, spooned"},
		{"1 cup cake flour", 111, 0.25, "HERR 41, unsifted, spooned; SR28 has 137 g, a dipped cup"},
		{"1 cup bread flour", 123, 0.12, "HERR 41, unsifted, spooned; SR28 has 137 g, a dipped cup"},
		{"1 cup yellow cornmeal", 151, 0.08, "HERR 41, degerminated"},
		{"1 cup cornstarch", 125, 0.08, "HERR 41"},
		{"1 cup packed brown sugar", 211, 0.08, "HERR 41"},
		{"1 cup granulated sugar", 196, 0.08, "HERR 41"},
		{"1 cup confectioners' sugar", 113, 0.08, "HERR 41, unsifted"},
		{"1 cup molasses", 309, 0.10, "HERR 41; SR28 has 337 g, other tables 328 to 337"},
		{"1 cup stick margarine", 225, 0.08, "HERR 41"},
		{"1 cup shortening", 187, 0.12, "HERR 41; SR28 has 205 g as other tables do"},
		{"1 cup vegetable oil", 209, 0.08, "HERR 41"},
		{"1 cup honey", 332, 0.08, "mill"},
		{"1 cup rolled oats", 80, 0.08, "mill, spooned"},
		{"1 cup unsweetened cocoa powder", 85, 0.08, "mill, spooned"},
		{"1 cup butter", 226.8, 0.01, "legal: 2 sticks of 1/4 lb"},
		{"1 stick butter", 113.4, 0.01, "legal: 1/4 lb (USDA Family Fare)"},
		{"1 cup whole milk", 243.7, 0.01, "236.588 mL at 1.03 g/mL (density from memory)"},
		{"1 large egg", 50, 0.01, "USDA AMS size classes: 24 oz a dozen in shell; edible 50 g from memory"},
		{"1 tsp salt", 6, 0.01, "common tables: 6.0 g"},
	} {
		l := resolve(t, e, c.amount)
		if off := math.Abs(l.Grams.Low/c.grams - 1); off > c.band {
			t.Errorf("%s: %.1f g, %.1f g by %s: %.0f %% off", c.amount, l.Grams.Low, c.grams, c.source, off*100)
		}
	}
}

// TestPublishedFacts holds figures of amounts against published facts.
func TestPublishedFacts(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		amount   string
		nutrient fooddata.Nutrient
		want     float64
		band     float64
		source   string
	}{
		{"1/4 tsp salt", fooddata.Sodium, 575, 0.02, "American Heart Association, Salt: 575 mg"},
		{"1/2 tsp salt", fooddata.Sodium, 1150, 0.02, "American Heart Association, Salt: 1,150 mg"},
		{"1 tsp salt", fooddata.Sodium, 2300, 0.02, "American Heart Association, Salt: 2,300 mg"},
		{"100 g salt", fooddata.Sodium, 39340, 0.02, "atomic weights: Na is 39.34 % of NaCl"},
		{"100 g baking soda", fooddata.Sodium, 27370, 0.01, "atomic weights: Na is 27.37 % of NaHCO3"},
		{"1 cup cooked pasta", fooddata.Carbohydrate, 45, 0.10, "patient handout: 1/3 cup is 15 g"},
		{"12 fl oz beer", fooddata.Alcohol, 14, 0.05, "NIAAA standard drink, 14 g (memory)"},
		{"5 fl oz red wine", fooddata.Alcohol, 14, 0.15, "NIAAA standard drink, 14 g at 12 % (memory); SR28 wine is stronger"},
		{"1.5 fl oz vodka", fooddata.Alcohol, 14, 0.05, "NIAAA standard drink, 14 g at 40 % (memory)"},
		{"1 cup granulated sugar", fooddata.AddedSugars, 200, 0.01, "all of sugar is added: 21 CFR 101.9(c)(6)(iii)"},
		{"1 tbsp honey", fooddata.AddedSugars, 17, 0.05, "all sugars of honey are added: 21 CFR 101.9(c)(6)(iii)"},
		{"1 cup whole milk", fooddata.AddedSugars, 0, 0, "milk sugar is not added: 21 CFR 101.9(c)(6)(iii)"},
	} {
		l := resolve(t, e, c.amount)
		got, ok := l.Has(c.nutrient)
		if !ok {
			t.Errorf("%s: no figure for %s", c.amount, c.nutrient.Name())
			continue
		}
		if math.Abs(got.Low-c.want) > c.band*c.want {
			t.Errorf("%s in %s: %.1f, %.1f by %s", c.nutrient.Name(), c.amount, got.Low, c.want, c.source)
		}
	}
}

// TestCannedBeansDrained holds the sodium left in drained beans against the
// three legumes of SR28 that were analysed whole, drained and rinsed, within
// 4 points, and against the studies of whole cans (Jones and Mount 2009: 36 %
// less drained, 41 % less rinsed), which no can may fall short of.
func TestCannedBeansDrained(t *testing.T) {
	e := newEngine(t)
	sodium := func(number string) float64 {
		f, ok := e.Table().Food(number)
		if !ok {
			t.Fatalf("no food %s", number)
		}
		v, _ := f.Per100g(fooddata.Sodium).Value()
		return v
	}
	whole := resolve(t, e, "1 (15-oz) can black beans")
	for _, c := range []struct {
		line   string
		solids [3]string // kidney beans, pinto beans, chickpeas
		study  float64
	}{
		{"1 (15-oz) can black beans, drained", [3]string{"16145", "16146", "16358"}, 0.64},
		{"1 (15-oz) can black beans, drained and rinsed", [3]string{"16335", "16345", "16359"}, 0.59},
	} {
		l := resolve(t, e, c.line)
		all := func(l engine.Line) float64 {
			r, _ := l.Has(fooddata.Sodium)
			return r.Low
		}
		left := all(l) / l.Grams.Low / (all(whole) / whole.Grams.Low)
		for i, contents := range [3]string{"16034", "16044", "16058"} {
			if want := sodium(c.solids[i]) / sodium(contents); math.Abs(left-want) > 0.04 {
				t.Errorf("%s: %.2f of the sodium of equal weight left; SR28 %s has %.2f", c.line, left, c.solids[i], want)
			}
		}
		if got := all(l) / all(whole); got > c.study {
			t.Errorf("%s: %.2f of the can's sodium left, more than the %.2f of the study", c.line, got, c.study)
		}
		if got := l.Grams.Low / whole.Grams.Low; math.Abs(got-0.60) > 0.001 {
			t.Errorf("%s: %.2f of the can's weight, want 0.60", c.line, got)
		}
	}
}

// TestChoices holds carbohydrate choices against the usual handout table
// (common practice): the ends of every band, and the worked example of 35 g.
func TestChoices(t *testing.T) {
	for _, c := range []struct{ grams, want float64 }{
		{0, 0}, {5, 0}, {6, 0.5}, {10, 0.5}, {11, 1}, {20, 1}, {21, 1.5}, {25, 1.5}, {26, 2}, {35, 2}, {36, 2.5}, {40, 2.5},
		{41, 3}, {45, 3}, {50, 3}, {51, 3.5}, {55, 3.5}, {56, 4}, {60, 4}, {65, 4}, {5.4, 0}, {5.5, 0.5},
	} {
		if got := engine.Choices(c.grams); got != c.want {
			t.Errorf("%g g: %g choices, want %g", c.grams, got, c.want)
		}
	}
}

// TestDailyValues holds the share of the Daily Value against worked examples:
// 850 mg sodium is 37 % (FDA's own teaching example), 470 mg potassium 10 %
// and 12 g added sugars 24 % (21 CFR 101.9(c)(8)(iv) and (c)(9)).
func TestDailyValues(t *testing.T) {
	for _, c := range []struct {
		n       fooddata.Nutrient
		amount  float64
		percent float64
	}{{fooddata.Sodium, 850, 37}, {fooddata.Potassium, 470, 10}, {fooddata.AddedSugars, 12, 24}} {
		dv, ok := fooddata.DailyValue(c.n)
		if !ok || math.Round(c.amount/dv*100) != c.percent {
			t.Errorf("%g of %s: %.1f %% of %g, want %g", c.amount, c.n.Name(), c.amount/dv*100, dv, c.percent)
		}
	}
}
