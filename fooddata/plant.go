package fooddata

import "regexp"

// Plants hold no cholesterol to speak of (common practice; 21 CFR 101.25 deals with
// the cholesterol of foods of animal origin alone). Where the source has no figure
// for a plain plant food, it is none and not unknown.

// ofPlants are the groups of plain plant foods.
var ofPlants = map[string]bool{"Vegetables and Vegetable Products": true, "Fruits and Fruit Juices": true, "Legumes and Legume Products": true,
	"Nut and Seed Products": true, "Spices and Herbs": true, "Cereal Grains and Pasta": true}

var (
	// alsoPlants describes plant foods of other groups.
	alsoPlants = regexp.MustCompile(`^(Oil, (avocado|mustard)|Sugar, |Sweeteners, |Sauce, hot chile|Beverages, (water|Cranberry juice))`)
	// mayHoldAnimal describes what may hold something of an animal, or be fried in its fat.
	mayHoldAnimal = regexp.MustCompile(`(?i)au gratin|scalloped|mashed|cream|cheese|butter,|butter sauce|\begg|milk|meat|pork|beef|bacon|ham\b|lard|chicken|souffl|pudding|dry mix|fried|sauteed|restaurant|frijoles|omega-3|candied|salad|homemade|home-prepared|prepared from recipe|fresh-refrigerated|seasoning mix`)
)

// noCholesterol reports whether f, for whose cholesterol the source has no figure,
// is a plain plant food.
func (f Food) noCholesterol() bool {
	description := f.Description()
	return (ofPlants[f.Group()] || alsoPlants.MatchString(description)) && !mayHoldAnimal.MatchString(description)
}
