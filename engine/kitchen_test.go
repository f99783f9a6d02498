package engine_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

func ratOf(t testing.TB, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("bad number %q", s)
	}
	return r
}

// kitchenTimes is the amount of a line multiplied by a factor.
func kitchenTimes(t testing.TB, line, factor string) grammar.Amount {
	t.Helper()
	item := grammar.ParseLine(line).Items[0]
	if item.Amount == nil {
		t.Fatalf("%q has no amount", line)
	}
	return *engine.Multiply(item, ratOf(t, factor)).Amount
}

func TestKitchenAmount(t *testing.T) {
	for _, c := range []struct {
		line, factor string
		want         string
		percent      float64
	}{
		// Up and down the spoons and cups.
		{"1 tsp soda", "3", "1 tbsp", 0},
		{"1 tbsp oil", "1/3", "1 tsp", 0},
		{"1 tbsp oil", "1/2", "1 1/2 tsp", 0},
		{"1 tbsp oil", "4", "1/4 cup", 0},
		{"2 tbsp oil", "4", "1/2 cup", 0},
		{"3 tbsp oil", "2", "6 tbsp", 0},
		{"1/4 cup oil", "1/4", "1 tbsp", 0},
		{"1/4 cup oil", "1/2", "2 tbsp", 0},
		{"1 cup flour", "1/16", "1 tbsp", 0},
		{"1/2 tsp salt", "6", "1 tbsp", 0},
		{"1 1/2 tsp salt", "2", "1 tbsp", 0},
		{"2 tsp salt", "2", "4 tsp", 0},
		// No cup that does not exist.
		{"1/3 cup flour", "5/4", "1/3 cup plus 4 tsp", 0}, // 5/12 cup
		{"1/2 cup flour", "5/4", "1/2 cup plus 2 tbsp", 0},
		{"3/4 cup flour", "3/2", "1 cup plus 2 tbsp", 0},
		{"1/2 cup flour", "11/6", "2/3 cup plus 1/4 cup", 0},      // 11/12 cup
		{"1/3 cup flour", "5/2", "3/4 cup plus 1 1/2 tbsp", 1.25}, // 5/6 cup
		{"2 1/4 cups flour", "5/4", "2 3/4 cups", -2.2},
		{"1 cup flour", "50", "12 1/2 quarts", 0},
		// Small spoons.
		{"1/4 tsp pepper", "3/2", "1/4 tsp plus 1/8 tsp", 0},
		{"1/4 tsp pepper", "3/4", "1/8 tsp plus 1 pinch", 0},
		{"1/8 tsp pepper", "1/2", "1 pinch", 0},
		{"1/2 tsp salt", "1/3", "1/8 tsp plus 1 pinch", 12.5},
		{"1/2 tsp soda", "7/16", "1/4 tsp", 14.3},
		{"1 tsp baking powder", "7/16", "1/4 tsp plus 1/8 tsp plus 1 pinch", 0},
		// The fewest fillings within 5 %.
		{"1 tsp salt", "36/25", "1 1/2 tsp", 4.2},
		{"1/2 tsp salt", "36/25", "3/4 tsp", 4.2},
		{"1 cup flour", "36/25", "1 1/2 cups", 4.2},
		{"1/3 cup cocoa", "36/25", "1/2 cup", 4.2},
		{"1/2 cup maple syrup", "3/4", "6 tbsp", 0},
		{"1 cup milk", "45/64", "2/3 cup plus 2 tsp", 0.7}, // 33 3/4 tsp
		{"2/3 lb beef", "1", "10 3/4 oz", 0.8},
		{"2 pinches salt", "3/4", "2 pinches", 33.3},
		{"1 dash bitters", "2", "2 dashes", 0},
		// What the recipe writes stays where it can.
		{"1 pint blueberries", "2", "2 pints", 0},
		{"1 quart broth", "3/2", "1 1/2 quarts", 0},
		{"12 fl oz beer", "3/2", "18 fl oz", 0},
		{"1 cup plus 2 tbsp flour", "2", "2 1/4 cups", 0},
		// Weights.
		{"8 oz pasta", "1/2", "4 oz", 0},
		{"8 oz pasta", "1/3", "2.7 oz", 1.25},
		{"1 lb beef", "3/4", "3/4 lb", 0},
		{"1 lb beef", "11/6", "1 lb plus 13 1/4 oz", -0.3},
		{"1 lb 8 oz beef", "3/4", "1 lb plus 2 oz", 0},
		{"1/4 oz yeast", "1/2", "3.5 g", -1.2},
		{"100 g butter", "1/3", "33 g", -1},
		{"400 g flour", "1/3", "135 g", 1.25},
		{"250 g flour", "11/6", "460 g", 0.4},
		{"1 kg flour", "5/4", "1.25 kg", 0},
		{"7 g yeast", "3/4", "5.3 g", 1},
		{"250 ml milk", "3/4", "190 ml", 1.3},
		{"500 ml milk", "4", "2 l", 0},
		{"2 dl milk", "3/4", "1.5 dl", 0},
		// Whole things.
		{"3 onions", "1/2", "1 1/2", 0},
		{"2 large onions", "1/3", "2/3 large", 0},
		{"7 onions", "1/2", "3 1/2", 0},
		{"10 onions", "31/30", "10", -3.2},
		{"2 cloves garlic", "3/4", "1 1/2 cloves", 0},
		{"1 (15 oz) can beans", "3/2", "1 1/2 (15 oz) cans", 0},
		{"2 x 400 g tins tomatoes", "2", "4 (400 g) tins", 0},
		{"3 carrots (1 cup)", "1/2", "1 1/2 (1/2 cup total)", 0},
		{"1 cup (150 g) onion", "2", "2 cups (300 g)", 0},
		// Ranges.
		{"2 to 3 cups flour", "3/4", "1 1/2 to 2 1/4 cups", 0},
		{"2 to 3 carrots", "2", "4 to 6", 0},
		// Heaped spoons stay heaped.
		{"2 heaped tbsp flour", "3/2", "3 heaped tbsp", 0},
	} {
		_, words, err := engine.KitchenAmount(kitchenTimes(t, c.line, c.factor), false, engine.Nearest)
		if words != c.want || math.Abs(err*100-c.percent) > 0.06 {
			t.Errorf("%s times %s: %q, %+.1f %%; want %q, %+.1f %%", c.line, c.factor, words, err*100, c.want, c.percent)
		}
	}
}

// TestKitchenMetric holds that metric recipes stay metric: no cups.
func TestKitchenMetric(t *testing.T) {
	for _, c := range []struct{ line, factor, want string }{
		{"2 tbsp oil", "4", "8 tbsp"},
		{"1 tbsp oil", "12", "12 tbsp"},
		{"1 tbsp oil", "20", "295 ml"},
		{"1 tsp salt", "3", "1 tbsp"},
		{"500 g flour", "1/2", "250 g"},
		{"300 ml milk", "1/4", "75 ml"},
	} {
		if _, words, _ := engine.KitchenAmount(kitchenTimes(t, c.line, c.factor), true, engine.Nearest); words != c.want {
			t.Errorf("%s times %s: %q, want %q", c.line, c.factor, words, c.want)
		}
	}
}

func TestKitchenRounding(t *testing.T) {
	for _, c := range []struct {
		line, factor string
		r            engine.Rounding
		want         string
	}{
		{"1 tsp salt", "11/6", engine.Down, "1 3/4 tsp"},
		{"1 tsp salt", "11/6", engine.Up, "1 3/4 tsp plus 1/8 tsp"},
		{"1 cup cheese", "3/5", engine.Down, "1/2 cup plus 1 1/2 tbsp"},
		{"1 cup cheese", "3/5", engine.Up, "1/2 cup plus 2 tbsp"},
		{"100 g butter", "1/3", engine.Down, "33 g"},
		{"100 g butter", "1/3", engine.Up, "34 g"},
		{"4 eggs", "1/3", engine.Down, "1 1/3"},
		{"10 olives", "13/20", engine.Down, "6 1/2"},
		{"1 tsp salt", "1/100", engine.Down, "nothing"},
		{"1 tsp salt", "1/100", engine.Nearest, "1 smidgen"},
		{"1 onion", "1/100", engine.Down, "nothing"},
		{"1 onion", "1/100", engine.Up, "1/8"},
	} {
		if _, words, _ := engine.KitchenAmount(kitchenTimes(t, c.line, c.factor), false, c.r); words != c.want {
			t.Errorf("%s times %s, rounding %d: %q, want %q", c.line, c.factor, c.r, words, c.want)
		}
	}
}

// TestKitchenError holds, for amounts of every size, that the error is within
// bounds and on the side asked for, that it is the true error, and that the
// amount parses back, written either way.
func TestKitchenError(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	unit := func(name string) *grammar.Measure {
		m, ok := grammar.MeasureNamed(name)
		if !ok {
			t.Fatal(name)
		}
		return m
	}
	for _, c := range []struct {
		measure  string
		from, to float64 // in the measure
		most     float64 // error to the nearest
		most2    float64 // error up or down
	}{
		{"tsp", 1.0 / 8, 1.0 / 4, 0.2, 0.5},
		{"tsp", 1.0 / 4, 5.0 / 8, 0.125, 0.25},
		{"tsp", 5.0 / 8, 1, 0.05, 0.1},
		{"tsp", 1, 48, 0.05, 0.09},
		{"tbsp", 5.0 / 24, 30, 0.05, 0.1},
		{"cup", 1.0 / 24, 40, 0.05, 0.1}, // from 2 tsp
		{"quart", 0.1, 20, 0.05, 0.1},
		{"oz", 1, 48, 0.05, 0.1},
		{"lb", 0.1, 10, 0.05, 0.1},
		{"g", 1, 5000, 0.05, 0.1},
		{"kg", 0.01, 10, 0.05, 0.1},
		{"ml", 1, 5000, 0.05, 0.1},
	} {
		for range 60 {
			f := c.from * math.Pow(c.to/c.from, rng.Float64())
			x, _ := new(big.Rat).SetString(big.NewFloat(f).Text('f', 5))
			exact := grammar.Amount{Terms: []grammar.Term{{Quantity: grammar.Quantity{Low: x, High: x}, Measure: unit(c.measure)}}}
			for _, metric := range []bool{false, true} {
				for _, r := range []engine.Rounding{engine.Nearest, engine.Down, engine.Up} {
					kitchen, words, err := engine.KitchenAmount(exact, metric, r)
					most := c.most
					if r != engine.Nearest {
						most = c.most2
					}
					if math.Abs(err) > most+1e-9 || r == engine.Down && err > 0 || r == engine.Up && err < 0 {
						t.Errorf("%g %s, metric %t, rounding %d: %s is %+.2f %% off", f, c.measure, metric, r, words, err*100)
					}
					if true, want := amountOf(kitchen)/amountOf(exact)-1, err; math.Abs(true-want) > 1e-9 {
						t.Errorf("%g %s: %s is said to be %+.4f off, is %+.4f", f, c.measure, words, want, true)
					}
					parsesBack(t, kitchen, words)
				}
			}
		}
	}
}

// amountOf is the sum of terms in millilitres or grams.
func amountOf(a grammar.Amount) float64 {
	sum := new(big.Rat)
	for _, term := range a.Terms {
		sum.Add(sum, new(big.Rat).Mul(term.Quantity.Low, term.Measure.Amount))
	}
	f, _ := sum.Float64()
	return f
}

// parsesBack holds that an amount before a food's name reads as the same.
func parsesBack(t *testing.T, a grammar.Amount, words string) {
	t.Helper()
	for _, text := range []string{words, a.String()} {
		line := grammar.ParseLine(text + " flour")
		if line.Fault != nil || len(line.Items) != 1 || line.Items[0].Amount == nil || line.Items[0].Amount.String() != a.String() ||
			strings.Join(line.Items[0].Words, " ") != "flour" {
			t.Errorf("%q does not parse back to %s: %+v", text+" flour", a, line.Items)
		}
	}
}

// TestKitchenMeasures holds that no cup or spoon comes out that no kitchen has.
func TestKitchenMeasures(t *testing.T) {
	allowed := map[string]string{"cup": "0 1/4 1/3 1/2 2/3 3/4", "tbsp": "0 1/2", "tsp": "0 1/8 1/4 1/2 3/4", "pinch": "0", "smidgen": "0", "quart": "0 1/2", "gallon": "0 1/2"}
	for n := int64(1); n < 3000; n++ {
		a := kitchenTimes(t, "1 cup flour", big.NewRat(n, 360).RatString())
		kitchen, words, _ := engine.KitchenAmount(a, false, engine.Nearest)
		for _, term := range kitchen.Terms {
			q := term.Quantity.Low
			whole := new(big.Rat).SetInt(new(big.Int).Quo(q.Num(), q.Denom()))
			part := new(big.Rat).Sub(q, whole).RatString()
			if !strings.Contains(" "+allowed[term.Measure.Name]+" ", " "+part+" ") {
				t.Errorf("%d/360 cup: %s", n, words)
			}
		}
		if len(kitchen.Terms) > 3 {
			t.Errorf("%d/360 cup: %s", n, words)
		}
	}
}

// TestKitchenWordsParse holds that amounts of every kind parse back.
func TestKitchenWordsParse(t *testing.T) {
	for _, line := range []string{"2 to 3 cups flour", "3 flour", "1 large flour", "2 cloves flour", "1 (15 oz) can flour", "2 x 400 g tins flour", "1 box flour",
		"3 leaves flour", "2 bunches flour", "1 lb to 2 lb flour", "1 stick flour", "1 heaped tbsp flour", "1 jigger flour", "1 metric cup flour", "1 dash flour", "1 cup (150 g) flour"} {
		for _, factor := range []string{"1/2", "1/3", "2", "11/6", "5/2", "7"} {
			kitchen, words, _ := engine.KitchenAmount(kitchenTimes(t, line, factor), false, engine.Nearest)
			parsesBack(t, kitchen, words)
		}
	}
}

func BenchmarkKitchenAmount(b *testing.B) {
	a := kitchenTimes(b, "2 1/4 cups flour", "11/6")
	for b.Loop() {
		engine.KitchenAmount(a, false, engine.Nearest)
	}
}
