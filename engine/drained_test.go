package engine_test

import (
	"math"
	"strings"
	"testing"

	"pottle/fooddata"
)

// TestDrainedAlike holds every way to write drained beans to the same food:
// with and without a comma, by a can with its size or without, and by the cup.
//
// Sources: a cup of boiled black beans is 172 g (SR28 16015), of drained and
// rinsed chickpeas 152 g (16359), of drained pinto beans 169 g (16345); 60 % of
// a 15 oz can, 425 g, is 255 g.
func TestDrainedAlike(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line   string
		grams  float64
		kcal   float64 // of 100 g
		sodium float64 // mg in 100 g
	}{
		{"1 (15 oz) can black beans, drained and rinsed", 255, 132, 384 * 0.79},
		{"1 (15 oz) can black beans drained and rinsed", 255, 132, 384 * 0.79},
		{"1 (15 oz) can black beans rinsed and drained", 255, 132, 384 * 0.79},
		{"1 (15 oz) can black beans, rinsed", 255, 132, 384 * 0.79},
		{"1 can black beans, drained and rinsed", 255, 132, 384 * 0.79},
		{"1 can black beans drained", 255, 132, 384 * 0.89},
		{"1 1/2 cups canned black beans, drained and rinsed", 258, 132, 384 * 0.79},
		{"1 1/2 cups canned black beans drained and rinsed", 258, 132, 384 * 0.79},
		{"1 1/2 cups drained canned black beans", 258, 132, 384 * 0.89},
		{"1 cup canned chickpeas, rinsed", 152, 138, 212},
		{"1 cup canned chickpeas drained and rinsed", 152, 138, 212},
		{"1 cup drained canned chickpeas", 152, 139, 246},
		{"1 can chickpeas, drained", 253, 139, 246},
		{"1 (15 oz) can chickpeas, drained and rinsed", 255, 138, 212},
		{"1 cup canned pinto beans, drained", 169, 114, 239},
		// Never eaten with the liquid; the drained weight by the label or SR28.
		{"1 (8 oz) can water chestnuts", 140, 50, 8},
		{"1 (8 oz) can water chestnuts, drained", 140, 50, 8},
		{"1 can water chestnuts", 140, 50, 8},
		{"1 (5 oz) can tuna", 113, 86, 247},
		{"2 (5 oz) cans tuna, drained", 226, 86, 247},
		{"1 (6.5 oz) can minced clams", 85, 142, 112},
		{"1 (6.5 oz) can minced clams, drained", 85, 142, 112},
		{"1 (14.75 oz) can pink salmon, drained", 315, 138, 381},
		{"1 (4 oz) can mushrooms, drained", 113, 25, 425},
		{"1 (6 oz) can black olives, drained", 170, 115, 735},
		// 85 g of clams of 142 kcal and 112 mg in 184 g, the rest liquid of 2 kcal and 215 mg.
		{"1 (6.5 oz) can minced clams, undrained", 184, 66.6, 167.5},
		{"1 can minced clams, undrained", 184, 66.6, 167.5},
		// With the liquid, or without a can.
		{"1 can black beans, undrained", 425, 91, 384},
		{"1 cup canned black beans", 240, 91, 384},
		{"1 cup dried lentils, rinsed and drained", 192, 352, 6},
		{"1 cup black beans, soaked overnight and drained", 194, 341, 5},
		{"1 cup chickpeas, soaked, drained and rinsed", 200, 378, 24},
		{"1 can baked beans, drained", 425, 94, 343},
		{"1 can sliced olives, drained", 170, 115, 735},
		{"1 cup spinach, rinsed and drained", 30, 23, 79},
	} {
		l := resolve(t, e, c.line)
		sodium, _ := l.Has(fooddata.Sodium)
		kcal, _ := l.Has(fooddata.Energy)
		if math.Abs(l.Grams.Low-c.grams) > 1 || math.Abs(kcal.Low/l.Grams.Low*100-c.kcal) > 0.6 || math.Abs(sodium.Low/l.Grams.Low*100-c.sodium) > 0.6 {
			t.Errorf("%q: %s %.0f g, %.1f kcal and %.1f mg sodium in 100 g; want %g g, %g, %g", c.line, l.Food.Name(), l.Grams.Low,
				kcal.Low/l.Grams.Low*100, sodium.Low/l.Grams.Low*100, c.grams, c.kcal, c.sodium)
		}
	}
	if l := resolve(t, e, "1 cup canned chickpeas, rinsed"); !strings.Contains(strings.Join(l.Assumed, "; "), "rinsed") {
		t.Errorf("rinsed is not shown: %q", l.Assumed)
	}
}

// TestDrainedByDirections holds that a can is drained where the directions say so,
// and only the one they name.
func TestDrainedByDirections(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		directions string
		grams      float64 // of the beans
		sodium     float64 // mg in 100 g
	}{
		{"Drain and rinse the beans. Brown the beef.", 255, 384 * 0.79},
		{"Rinse and drain beans. Brown the beef.", 255, 384 * 0.79},
		{"Drain the black beans and add to the beef.", 255, 384 * 0.89},
		{"Brown the beef; drain. Stir in the beans.", 425, 384},
		{"Add the beans; do not drain.", 425, 384},
		{"Drain the corn. Add the beans with their liquid.", 425, 384},
		{"Drain the beans, reserving the liquid. Add both.", 425, 384},
	} {
		a := e.Analyse(recipe(t, "Chili\nServes 4\n\n1 lb ground beef\n1 (15-oz) can black beans\n1 can corn\n\nDirections\n"+c.directions))
		l := &a.Lines[lineOf(t, a, "black beans")]
		sodium, _ := l.Has(fooddata.Sodium)
		if math.Abs(l.Grams.Low-c.grams) > 1 || math.Abs(sodium.Low/l.Grams.Low*100-c.sodium) > 0.6 || (c.grams < 400) != strings.Contains(strings.Join(l.Assumed, "; "), "by the directions") {
			t.Errorf("%s: %.0f g, %.0f mg sodium in 100 g, %q; want %g g, %.0f mg", c.directions, l.Grams.Low, sodium.Low/l.Grams.Low*100, l.Assumed, c.grams, c.sodium)
		}
	}
}
