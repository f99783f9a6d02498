package grammar

import (
	"math/big"
	"strings"
)

// Kind says what a measure measures.
type Kind uint8

// The kinds of measure. A Volume has an Amount in millilitres, a Weight in
// grams, a Length in millimetres; a Count ("clove", "slice") and a Container
// ("can", "package") mean nothing without the food.
const (
	Count Kind = iota
	Container
	Volume
	Weight
	Length
)

// Measure is a kitchen measure. Amount is exact: millilitres of a Volume,
// grams of a Weight, millimetres of a Length, nil otherwise.
type Measure struct {
	Name   string // singular, as pottle writes it: "cup", "tbsp", "clove"
	Kind   Kind
	Amount *big.Rat
	Note   string // what is assumed when the measure has no legal definition
}

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("grammar: bad number in the measure table: " + s)
	}
	return r
}

// measures is the table of measures: the first word is the measure's name,
// the rest are its other spellings, all in lower case without full stops.
//
// US customary volumes follow from the gallon of 231 cubic inches and the
// inch of 25.4 mm (NIST Handbook 44, appendix C); the pound is 453.59237 g.
// Metric and imperial spoons and cups stand at their customary sizes (from
// memory). Dash and pinch have no standard: a dash is taken as 1/8 teaspoon
// and a pinch as 1/16 (common practice, no source).
var measures = []struct {
	names  string
	kind   Kind
	amount string
	note   string
}{
	{"tsp|teaspoon|teaspoons|tsps|teasp|tspn|ts|teaspoonful|teaspoonfuls", Volume, "4.92892159375", ""},
	{"tbsp|tablespoon|tablespoons|tbsps|tbs|tb|tbl|tblsp|tbls|tblspn|tablesp|tablespoonful|tablespoonfuls", Volume, "14.78676478125", ""},
	{"dessertspoon|dessertspoons|dsp|dstsp|dessertspoonful", Volume, "10", ""},
	{"fl oz|floz|fluidounce|fl-oz|fluid-ounce|fluid-ounces", Volume, "29.5735295625", ""},
	{"cup|cups|cupful|cupfuls", Volume, "236.5882365", ""},
	{"pint|pints|pt|pts", Volume, "473.176473", ""},
	{"quart|quarts|qt|qts", Volume, "946.352946", ""},
	{"gallon|gallons|gal|gals", Volume, "3785.411784", ""},
	{"metric cup|metriccup", Volume, "250", ""},
	{"imperial pint|imperialpint", Volume, "568.26125", ""},
	{"ml|millilitre|millilitres|milliliter|milliliters|mls|cc", Volume, "1", ""},
	{"cl|centilitre|centilitres|centiliter|centiliters", Volume, "10", ""},
	{"dl|decilitre|decilitres|deciliter|deciliters", Volume, "100", ""},
	{"l|litre|litres|liter|liters|ltr|ltrs", Volume, "1000", ""},
	{"dash|dashes", Volume, "0.61611519921875", "a dash taken as 1/8 teaspoon"},
	{"pinch|pinches", Volume, "0.308057599609375", "a pinch taken as 1/16 teaspoon"},
	{"smidgen|smidgens", Volume, "0.1540287998046875", "a smidgen taken as 1/32 teaspoon"},
	{"jigger|jiggers", Volume, "44.36029434375", "a jigger taken as 1 1/2 fl oz"},

	{"mg|milligram|milligrams", Weight, "0.001", ""},
	{"g|gram|grams|gramme|grammes|gm|gms|gr|grms", Weight, "1", ""},
	{"kg|kilogram|kilograms|kilo|kilos|kgs|kilogramme|kilogrammes", Weight, "1000", ""},
	{"oz|ounce|ounces|ozs|0z", Weight, "28.349523125", ""},
	{"lb|pound|pounds|lbs|#", Weight, "453.59237", ""},
	{"stone", Weight, "6350.29318", ""},

	{"inch|inches|in|\"", Length, "25.4", ""},
	{"cm|centimetre|centimetres|centimeter|centimeters", Length, "10", ""},
	{"mm|millimetre|millimetres|millimeter|millimeters", Length, "1", ""},

	{"can|cans", Container, "", ""},
	{"tin|tins", Container, "", ""},
	{"jar|jars", Container, "", ""},
	{"package|packages|pkg|pkgs|pack|packs|pkt|pk", Container, "", ""},
	{"packet|packets|sachet|sachets", Container, "", ""},
	{"envelope|envelopes|env", Container, "", ""},
	{"bag|bags", Container, "", ""},
	{"box|boxes", Container, "", ""},
	{"carton|cartons", Container, "", ""},
	{"container|containers", Container, "", ""},
	{"bottle|bottles", Container, "", ""},
	{"tub|tubs", Container, "", ""},
	{"pot|pots", Container, "", ""},
	{"punnet|punnets", Container, "", ""},
	{"tube|tubes", Container, "", ""},
	{"sleeve|sleeves", Container, "", ""},
	{"pouch|pouches", Container, "", ""},

	{"clove|cloves", Count, "", ""},
	{"slice|slices", Count, "", ""},
	{"stick|sticks", Count, "", ""},
	{"stalk|stalks", Count, "", ""},
	{"rib|ribs", Count, "", ""},
	{"sprig|sprigs", Count, "", ""},
	{"bunch|bunches", Count, "", ""},
	{"head|heads", Count, "", ""},
	{"ear|ears", Count, "", ""},
	{"leaf|leaves|lvs", Count, "", ""},
	{"piece|pieces|pc|pcs", Count, "", ""},
	{"fillet|fillets|filet|filets", Count, "", ""},
	{"rasher|rashers", Count, "", ""},
	{"sheet|sheets", Count, "", ""},
	{"cube|cubes", Count, "", ""},
	{"block|blocks", Count, "", ""},
	{"bulb|bulbs", Count, "", ""},
	{"knob|knobs", Count, "", ""},
	{"handful|handfuls", Count, "", ""},
	{"strip|strips", Count, "", ""},
	{"wedge|wedges", Count, "", ""},
	{"loaf|loaves", Count, "", ""},
	{"link|links", Count, "", ""},
	{"floret|florets", Count, "", ""},
	{"spear|spears", Count, "", ""},
	{"square|squares|sq", Count, "", ""},
	{"round|rounds", Count, "", ""},
	{"scoop|scoops", Count, "", ""},
	{"shot|shots", Count, "", ""},
	{"glass|glasses", Count, "", ""},
	{"splash|splashes", Count, "", ""},
	{"drizzle|drizzles", Count, "", ""},
	{"drop|drops", Count, "", ""},
	{"nest|nests", Count, "", ""},
	{"thumb", Count, "", ""},
	{"serving|servings|portion|portions", Count, "", ""},
	{"recipe|batch", Count, "", ""},
	{"pat|pats", Count, "", ""},
	{"crown|crowns", Count, "", ""},
	{"segment|segments", Count, "", ""},
	{"rack|racks", Count, "", ""},
	{"side|sides", Count, "", ""},
	{"bar|bars", Count, "", ""},
	{"ball|balls", Count, "", ""},
}

var measureByWord = func() map[string]*Measure {
	byWord := make(map[string]*Measure)
	for _, row := range measures {
		names := strings.Split(row.names, "|")
		m := &Measure{Name: names[0], Kind: row.kind, Note: row.note}
		if row.amount != "" {
			m.Amount = rat(row.amount)
		}
		for _, name := range names {
			if byWord[name] != nil {
				panic("grammar: measure claimed twice: " + name)
			}
			byWord[name] = m
		}
	}
	return byWord
}()

// MeasureNamed returns the measure written as word, in any case and with or
// without a full stop. A lone T is a tablespoon and a lone t a teaspoon; a
// lone c is a cup. The second result is false if word is no measure.
func MeasureNamed(word string) (*Measure, bool) {
	word = strings.TrimSuffix(word, ".")
	switch word {
	case "T":
		word = "tbsp"
	case "t":
		word = "tsp"
	case "c", "C":
		word = "cup"
	}
	m, ok := measureByWord[strings.ToLower(word)]
	return m, ok
}
