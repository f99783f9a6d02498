package engine

import (
	"strings"
	"testing"

	"pottle/fooddata"
)

// TestCautionTable checks the embedded table and that the subjects which the
// code asks for by a computed name are there; the others are asked for in
// TestCautions.
func TestCautionTable(t *testing.T) {
	rules, err := parseCautions(cautionsTSV)
	if err != nil {
		t.Fatal(err)
	}
	for a := range fooddata.Allergen(fooddata.NumAllergens) {
		if rules[a.String()] == nil {
			t.Errorf("no words for %s", a)
		}
		if rules["denies "+a.String()] == nil {
			t.Errorf("no words that deny %s", a)
		}
	}
	for _, n := range cautionNotes {
		if rules[n.kind] == nil {
			t.Errorf("no words for the note on %s", n.kind)
		}
	}
}

func TestCautionTableFaults(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"columns", "milk\tcontains\tmilk", "line 1: want subject"},
		{"verdict", "# x\nmilk\tperhaps\tmilk\tlaw", "line 2: want subject"},
		{"source", "milk\tcontains\tmilk\t", "line 1: want subject"},
		{"empty words", "milk\tcontains\tmilk; ;butter\tlaw", "has no words"},
		{"twice", "milk\tcontains\tbutter; butters\tlaw", "stands twice"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := parseCautions(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
}

func TestWordRules(t *testing.T) {
	rules, err := parseCautions("x\tcontains\tmilk; nut\tlaw\nx\tnot\tcoconut/oat milk\tlaw\nx\tmay contain\tlow/less sodium + broth; milk chocolate\tlaw\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text string
		want verdict
	}{
		{"whole milk", doesContain},
		{"Coconut Milk", lookAlike},
		{"oat milk and nuts", doesContain}, // a look-alike covers its own words only
		{"milk chocolate", mayContain},     // the longest holds
		{"less sodium chicken broth", mayContain},
		{"chicken broth", notSaid},
		{"coconut", notSaid},
		{"milky", notSaid},
		{"", notSaid},
	} {
		if got := rules["x"].in(fooddata.Normalise(c.text)); got != c.want {
			t.Errorf("%q: verdict %d, want %d", c.text, got, c.want)
		}
	}
}
