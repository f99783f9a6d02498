package fooddata

import "strings"

// Nutrient is one thing the table has figures for. The zero Nutrient is Energy.
type Nutrient uint8

// The nutrients, in the order of the source; AddedSugars, which the source does
// not have, comes last.
const (
	Energy Nutrient = iota
	Protein
	Fat
	Carbohydrate // by difference, so fibre is in it
	Fibre
	Sugars
	Starch
	Alcohol
	Water
	Ash
	Caffeine
	Calcium
	Iron
	Magnesium
	Phosphorus
	Potassium
	Sodium
	Zinc
	Copper
	Manganese
	Selenium
	VitaminA // retinol activity equivalents
	Retinol
	BetaCarotene
	VitaminE // alpha-tocopherol
	VitaminD // D2 and D3
	VitaminC
	Thiamin
	Riboflavin
	Niacin // preformed; not niacin equivalents
	PantothenicAcid
	VitaminB6
	Folate // as weighed, whatever its form
	FolicAcid
	FolateDFE // dietary folate equivalents
	VitaminB12
	Choline
	VitaminK // phylloquinone
	Cholesterol
	TransFat
	SaturatedFat
	MonounsaturatedFat
	PolyunsaturatedFat
	LinoleicAcid  // 18:2, undifferentiated
	LinolenicAcid // 18:3, undifferentiated
	ALA           // 18:3 n-3
	EPA           // 20:5 n-3
	DHA           // 22:6 n-3
	Lactose
	AddedSugars // ours: see Food.AddedSugarBasis

	NumNutrients = int(iota)
)

// nutrients describes each nutrient: INFOODS tagname, unit, plain name, and the
// number of decimals the source gives. SUGAR_ADDED is our own tagname.
var nutrients = [NumNutrients]struct {
	tag, unit, name string
	decimals        int
}{
	Energy:             {"ENERC_KCAL", "kcal", "energy", 0},
	Protein:            {"PROCNT", "g", "protein", 2},
	Fat:                {"FAT", "g", "total fat", 2},
	Carbohydrate:       {"CHOCDF", "g", "total carbohydrate", 2},
	Fibre:              {"FIBTG", "g", "fibre", 1},
	Sugars:             {"SUGAR", "g", "total sugars", 2},
	Starch:             {"STARCH", "g", "starch", 2},
	Alcohol:            {"ALC", "g", "alcohol", 1},
	Water:              {"WATER", "g", "water", 2},
	Ash:                {"ASH", "g", "ash", 2},
	Caffeine:           {"CAFFN", "mg", "caffeine", 0},
	Calcium:            {"CA", "mg", "calcium", 0},
	Iron:               {"FE", "mg", "iron", 2},
	Magnesium:          {"MG", "mg", "magnesium", 0},
	Phosphorus:         {"P", "mg", "phosphorus", 0},
	Potassium:          {"K", "mg", "potassium", 0},
	Sodium:             {"NA", "mg", "sodium", 0},
	Zinc:               {"ZN", "mg", "zinc", 2},
	Copper:             {"CU", "mg", "copper", 3},
	Manganese:          {"MN", "mg", "manganese", 3},
	Selenium:           {"SE", "µg", "selenium", 1},
	VitaminA:           {"VITA_RAE", "µg", "vitamin A", 0},
	Retinol:            {"RETOL", "µg", "retinol", 0},
	BetaCarotene:       {"CARTB", "µg", "beta-carotene", 0},
	VitaminE:           {"TOCPHA", "mg", "vitamin E", 2},
	VitaminD:           {"VITD", "µg", "vitamin D", 1},
	VitaminC:           {"VITC", "mg", "vitamin C", 1},
	Thiamin:            {"THIA", "mg", "thiamin", 3},
	Riboflavin:         {"RIBF", "mg", "riboflavin", 3},
	Niacin:             {"NIA", "mg", "niacin", 3},
	PantothenicAcid:    {"PANTAC", "mg", "pantothenic acid", 3},
	VitaminB6:          {"VITB6A", "mg", "vitamin B6", 3},
	Folate:             {"FOL", "µg", "total folate", 0},
	FolicAcid:          {"FOLAC", "µg", "folic acid", 0},
	FolateDFE:          {"FOLDFE", "µg", "folate (DFE)", 0},
	VitaminB12:         {"VITB12", "µg", "vitamin B12", 2},
	Choline:            {"CHOLN", "mg", "choline", 1},
	VitaminK:           {"VITK1", "µg", "vitamin K", 1},
	Cholesterol:        {"CHOLE", "mg", "cholesterol", 0},
	TransFat:           {"FATRN", "g", "trans fat", 3},
	SaturatedFat:       {"FASAT", "g", "saturated fat", 3},
	MonounsaturatedFat: {"FAMS", "g", "monounsaturated fat", 3},
	PolyunsaturatedFat: {"FAPU", "g", "polyunsaturated fat", 3},
	LinoleicAcid:       {"F18D2", "g", "linoleic acid", 3},
	LinolenicAcid:      {"F18D3", "g", "linolenic acid", 3},
	ALA:                {"F18D3CN3", "g", "ALA", 3},
	EPA:                {"F20D5", "g", "EPA", 3},
	DHA:                {"F22D6", "g", "DHA", 3},
	Lactose:            {"LACS", "g", "lactose", 2},
	AddedSugars:        {"SUGAR_ADDED", "g", "added sugars", 2},
}

// Tag returns the INFOODS tagname of n, such as "NA" for sodium, or
// "SUGAR_ADDED" for added sugars.
func (n Nutrient) Tag() string { return nutrients[n].tag }

// Unit returns the unit of every figure for n: "kcal", "g", "mg" or "µg".
func (n Nutrient) Unit() string { return nutrients[n].unit }

// Name returns the plain name of n, such as "total carbohydrate".
func (n Nutrient) Name() string { return nutrients[n].name }

// String returns the plain name of n.
func (n Nutrient) String() string { return n.Name() }

// Decimals returns how many decimals the source gives for n. It says nothing
// about how many are worth showing.
func (n Nutrient) Decimals() int { return nutrients[n].decimals }

// NutrientByTag returns the nutrient with the given tagname, written as
// [Nutrient.Tag] writes it.
func NutrientByTag(tag string) (Nutrient, bool) {
	for i := range nutrients {
		if nutrients[i].tag == tag {
			return Nutrient(i), true
		}
	}
	return 0, false
}

// NutrientNamed returns the nutrient that people call by the given words:
// "carbs", "sat fat", "vit c", "added sugar". Case, plurals, accents and
// punctuation do not matter.
func NutrientNamed(words string) (Nutrient, bool) {
	n, ok := nutrientNames()[strings.Join(Normalise(words), " ")]
	return n, ok
}
