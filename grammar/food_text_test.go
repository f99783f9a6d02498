package grammar

import (
	"reflect"
	"strings"
	"testing"
)

func TestParseFood(t *testing.T) {
	tests := []struct {
		text string
		want FoodText
	}{
		{"oat bar, 40 g: 150 kcal, fat 5 g, added sugars 7 g, sodium 95 mg", FoodText{"oat bar", "", 40, []FigureText{{"", 150, "kcal"}, {"fat", 5, "g"}, {"added sugars", 7, "g"}, {"sodium", 95, "mg"}}}},
		{"rye crackers, 2 crackers (25 g): energy 380 kJ; 1.5 g of fat; salt: 0,4 g", FoodText{"rye crackers", "2 crackers", 25, []FigureText{{"energy", 380, "kj"}, {"fat", 1.5, "g"}, {"salt", 0.4, "g"}}}},
		{"soup base: sodium 120 mg", FoodText{"soup base", "", 0, []FigureText{{"sodium", 120, "mg"}}}},
		{"thickener, 1 scoop, 12.5 grams: 45 calories", FoodText{"thickener", "1 scoop", 12.5, []FigureText{{"", 45, "calories"}}}},
		{"oat bar", FoodText{Name: "oat bar"}},
	}
	for _, tc := range tests {
		got, err := ParseFood(tc.text)
		if err != nil || !reflect.DeepEqual(got, tc.want) {
			t.Errorf("ParseFood(%q) = %+v, %v; want %+v", tc.text, got, err, tc.want)
		}
	}
}

func TestParseFoodFaults(t *testing.T) {
	for text, part := range map[string]string{
		": 150 kcal":                           "needs a name",
		"oat bar, 40 g: fat <1 g":              "\"fat <1 g\"",
		"oat bar, 40 g: fat lots":              "\"fat lots\"",
		"oat bar, 40 g: fat -5 g":              "\"fat -5 g\"",
		"oat bar, 40 g: fat 5 g, 7, protein 3": "\"7\"",
	} {
		if _, err := ParseFood(text); err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("ParseFood(%q): %v, want it to say %q", text, err, part)
		}
	}
}
