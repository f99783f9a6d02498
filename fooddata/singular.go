package fooddata

import "strings"

// Singular returns the singular of an English noun in lower case: tomatoes ->
// tomato, leaves -> leaf. A word that is no plural is returned as it is, as far
// as the rules below can tell; they need only treat a name in our list and the
// same name in a recipe alike.
func Singular(w string) string {
	if len(w) < 4 || w[len(w)-1] != 's' && w[len(w)-1] != 'e' && w[len(w)-1] != 'i' {
		return w
	}
	if s, ok := irregular[w]; ok {
		return s
	}
	if w[len(w)-1] != 's' {
		return w
	}
	stem := w[:len(w)-1]
	switch {
	case strings.HasSuffix(w, "ss"), strings.HasSuffix(w, "us"):
		return w
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "leaves"), strings.HasSuffix(w, "loaves"), strings.HasSuffix(w, "halves"):
		return w[:len(w)-3] + "f"
	case strings.HasSuffix(w, "oes") && len(w) > 4,
		strings.HasSuffix(w, "sses"), strings.HasSuffix(w, "xes"), strings.HasSuffix(w, "tzes"),
		strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "shes"):
		return w[:len(w)-2]
	}
	return stem
}

// irregular holds plurals that the rules would get wrong, and words that look
// like plurals and are none.
var irregular = irregularPlurals()

func irregularPlurals() map[string]string {
	m := map[string]string{
		"calves": "calf", "hooves": "hoof", "knives": "knife", "shelves": "shelf",
		"geese": "goose", "mice": "mouse", "cacti": "cactus", "octopi": "octopus", "fungi": "fungus",
		"nopales": "nopal", "cookies": "cookie", "brownies": "brownie", "smoothies": "smoothie",
		"veggies": "veggie", "calories": "calorie", "kilocalories": "kilocalorie", "hoagies": "hoagie",
		"weenies": "weenie", "sweeties": "sweetie", "cuties": "cutie",
		"chilies": "chili", "chillies": "chilli", "brioches": "brioche", "quiches": "quiche",
		"ceviches": "ceviche", "axes": "axe", "shoes": "shoe", "sloes": "sloe", "aloes": "aloe", "canoes": "canoe",
		"octopuses": "octopus", "citruses": "citrus", "menus": "menu", "tofus": "tofu",
		"lenses": "lens", "gases": "gas",
	}
	for w := range strings.FieldsSeq("molasses swiss species series haggis cassis pastis christmas schnapps " +
		"gras lens greens bitters sweets pancreas") {
		m[w] = w
	}
	return m
}
