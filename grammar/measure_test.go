package grammar

import (
	"math"
	"math/big"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	units "github.com/bcicen/go-units"
)

// defined returns the measures worked out from their definitions, and from
// nothing in measure.go: millilitres, grams and millimetres.
func defined() map[string]*big.Rat {
	of := func(n, d int64, unit *big.Rat) *big.Rat { return new(big.Rat).Mul(big.NewRat(n, d), unit) }
	one := big.NewRat(1, 1)

	// The inch is 25.4 mm and the US gallon 231 cubic inches of 16.387064 mL;
	// 4 quarts, 8 pints, 16 cups, 128 fluid ounces make a gallon, 2
	// tablespoons or 6 teaspoons a fluid ounce (NIST Handbook 44, appendix C).
	inch := big.NewRat(254, 10)
	cubicInch := new(big.Rat).Mul(inch, new(big.Rat).Mul(inch, inch))
	gallon := of(231, 1000, cubicInch)
	fluidOunce := of(1, 128, gallon)
	teaspoon := of(1, 6, fluidOunce)

	// The pound is 453.59237 g and the ounce a sixteenth of it (NIST Handbook
	// 44, appendix C); the stone is 14 pounds (UK Weights and Measures Act
	// 1985, schedule 1).
	pound := big.NewRat(45359237, 100000)

	// The imperial gallon is 4.54609 L and the pint an eighth of it (UK
	// Weights and Measures Act 1985, schedule 1).
	imperialGallon := big.NewRat(454609, 100)

	return map[string]*big.Rat{
		"inch":          inch,
		"gallon":        gallon,
		"quart":         of(1, 4, gallon),
		"pint":          of(1, 8, gallon),
		"cup":           of(1, 16, gallon),
		"fl oz":         fluidOunce,
		"tbsp":          of(1, 2, fluidOunce),
		"tsp":           teaspoon,
		"lb":            pound,
		"oz":            of(1, 16, pound),
		"stone":         of(14, 1, pound),
		"imperial pint": of(1, 8, imperialGallon),

		// Metric measures and their prefixes (SI brochure, 9th edition).
		"ml": one, "cl": of(10, 1, one), "dl": of(100, 1, one), "l": of(1000, 1, one),
		"mg": of(1, 1000, one), "g": one, "kg": of(1000, 1, one),
		"mm": one, "cm": of(10, 1, one),

		// Without a legal definition: customary sizes (common practice, no
		// source), the same as in /shared/standards/kitchen.csv.
		"metric cup":   of(250, 1, one),
		"dessertspoon": of(10, 1, one),
		"dash":         of(1, 8, teaspoon),
		"pinch":        of(1, 16, teaspoon),
		"smidgen":      of(1, 32, teaspoon),
		"jigger":       of(3, 2, fluidOunce),
	}
}

// TestDefinitions compares every measure that has a size with its definition,
// exactly.
func TestDefinitions(t *testing.T) {
	want := defined()
	seen := 0
	for _, row := range measures {
		m, ok := MeasureNamed(strings.Split(row.names, "|")[0])
		if !ok {
			t.Errorf("%q does not name itself", row.names)
			continue
		}
		sized := m.Kind == Volume || m.Kind == Weight || m.Kind == Length
		switch definition := want[m.Name]; {
		case sized != (m.Amount != nil):
			t.Errorf("%s: kind %d with amount %v", m.Name, m.Kind, m.Amount)
		case sized && definition == nil:
			t.Errorf("%s has no definition in this test", m.Name)
		case sized && m.Amount.Cmp(definition) != 0:
			t.Errorf("%s is %s, by definition %s", m.Name, m.Amount.FloatString(12), definition.FloatString(12))
		case sized:
			seen++
		}
	}
	if seen != len(want) {
		t.Errorf("%d measures checked of %d defined", seen, len(want))
	}
}

// TestAgainstGoUnits compares with github.com/bcicen/go-units, which knows no
// cup, spoon, dash, pinch, smidgen or jigger and no metric cup.
func TestAgainstGoUnits(t *testing.T) {
	for _, test := range []struct {
		name   string
		theirs units.Unit
		in     units.Unit
	}{
		{"gallon", units.FluidGallon, units.MilliLiter},
		{"quart", units.FluidQuart, units.MilliLiter},
		{"pint", units.FluidPint, units.MilliLiter},
		{"fl oz", units.CustomaryFluidOunce, units.MilliLiter},
		{"imperial pint", units.Pint, units.MilliLiter},
		{"l", units.Liter, units.MilliLiter},
		{"dl", units.DeciLiter, units.MilliLiter},
		{"cl", units.CentiLiter, units.MilliLiter},
		{"mg", units.MilliGram, units.Gram},
		{"kg", units.KiloGram, units.Gram},
		{"oz", units.Ounce, units.Gram},
		{"lb", units.Pound, units.Gram},
		{"stone", units.Stone, units.Gram},
		{"inch", units.Inch, units.MilliMeter},
		{"cm", units.CentiMeter, units.MilliMeter},
	} {
		theirs, err := units.ConvertFloat(1, test.theirs, test.in)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		compare(t, test.name, theirs.Float())
	}
}

// TestAgainstGNUUnits compares with the units program where it is installed;
// it knows no dash and no smidgen, and its pinch is none of a kitchen.
func TestAgainstGNUUnits(t *testing.T) {
	program, err := exec.LookPath("units")
	if err != nil {
		t.Skip("GNU units is not installed (apt-get install units)")
	}
	for _, test := range []struct{ name, theirs, in string }{
		{"tsp", "usteaspoon", "ml"},
		{"tbsp", "ustablespoon", "ml"},
		{"fl oz", "usfluidounce", "ml"},
		{"cup", "uscup", "ml"},
		{"pint", "uspint", "ml"},
		{"quart", "usquart", "ml"},
		{"gallon", "usgallon", "ml"},
		{"jigger", "jigger", "ml"},
		{"metric cup", "metriccup", "ml"},
		{"imperial pint", "brpint", "ml"},
		{"dessertspoon", "dessertspoon", "ml"},
		{"oz", "ounce", "g"},
		{"lb", "pound", "g"},
		{"stone", "stone", "g"},
		{"inch", "inch", "mm"},
	} {
		out, err := exec.Command(program, "--terse", "--one-line", "--output-format", "%.15g", test.theirs, test.in).Output()
		if err != nil {
			t.Errorf("units %s: %v", test.theirs, err)
			continue
		}
		theirs, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			t.Errorf("units %s: %v", test.theirs, err)
			continue
		}
		compare(t, test.name, theirs)
	}
}

// compare reports a measure that is not theirs, but for rounding.
func compare(t *testing.T, name string, theirs float64) {
	t.Helper()
	m, ok := MeasureNamed(name)
	if !ok {
		t.Errorf("%s is no measure", name)
		return
	}
	if ours, _ := m.Amount.Float64(); math.Abs(ours/theirs-1) > 1e-12 {
		t.Errorf("%s is %v, theirs %v", name, ours, theirs)
	}
}

// TestMeasureNamed shows what case and full stops mean.
func TestMeasureNamed(t *testing.T) {
	for _, test := range []struct{ word, want string }{
		{"T", "tbsp"}, {"t", "tsp"}, {"T.", "tbsp"}, {"t.", "tsp"}, {"c", "cup"}, {"C.", "cup"},
		{"TBSP", "tbsp"}, {"Tsp.", "tsp"}, {"OZ", "oz"}, {"#", "lb"}, {`"`, "inch"}, {"L", "l"}, {"G", "g"},
		{"cup", "cup"}, {"cups", "cup"}, {"fl oz", "fl oz"}, {"leaves", "leaf"}, {"loaves", "loaf"},
		{"", ""}, {".", ""}, {"x", ""}, {"cuppa", ""}, {"tablespoon ", ""}, {"\x00", ""}, {"½", ""},
	} {
		m, ok := MeasureNamed(test.word)
		if ok != (test.want != "") || ok && m.Name != test.want {
			t.Errorf("%q: %v %v, want %q", test.word, m, ok, test.want)
		}
	}
}

// TestSpellings reads every spelling of the table after a number, as written,
// in capitals and with a full stop.
func TestSpellings(t *testing.T) {
	for _, row := range measures {
		names := strings.Split(row.names, "|")
		for _, spelling := range names {
			sign := spelling == "#" || spelling == `"`
			joined := names[0] != spelling && (names[0] == "metric cup" || names[0] == "imperial pint") // for MeasureNamed only
			for _, written := range []string{spelling, strings.ToUpper(spelling), spelling + "."} {
				if written == "T" || written == "T." || sign && written != spelling || joined {
					continue
				}
				line := "2 " + written + " kohlrabi"
				if sign {
					line = "2" + written + " kohlrabi"
				}
				item := ParseLine(line).Items[0]
				if item.Amount == nil || len(item.Amount.Terms) != 1 || item.Amount.Terms[0].Measure == nil || item.Amount.Terms[0].Measure.Name != names[0] {
					t.Errorf("%q: %+v, want 2 of %s", line, item.Amount, names[0])
				} else if len(item.Words) != 1 || item.Words[0] != "kohlrabi" {
					t.Errorf("%q leaves the words %q", line, item.Words)
				}
			}
		}
	}
}
