package fooddata_test

import (
	"testing"

	"pottle/fooddata"
)

// TestNutrientsAreAskable holds every nutrient of the table to the names that
// dietitians use for it.
func TestNutrientsAreAskable(t *testing.T) {
	for words, want := range map[string]fooddata.Nutrient{
		"vitamin A": fooddata.VitaminA, "vit. A": fooddata.VitaminA, "vitamin a": fooddata.VitaminA, "retinol": fooddata.Retinol, "beta-carotene": fooddata.BetaCarotene,
		"vitamin C": fooddata.VitaminC, "Vitamin D": fooddata.VitaminD, "vitamin E": fooddata.VitaminE, "vitamin K": fooddata.VitaminK,
		"vitamin B1": fooddata.Thiamin, "thiamin": fooddata.Thiamin, "thiamine": fooddata.Thiamin, "riboflavin": fooddata.Riboflavin, "B2": fooddata.Riboflavin,
		"niacin": fooddata.Niacin, "vitamin B3": fooddata.Niacin, "pantothenic acid": fooddata.PantothenicAcid, "vitamin B6": fooddata.VitaminB6, "vitamin B-6": fooddata.VitaminB6,
		"vitamin B12": fooddata.VitaminB12, "B12": fooddata.VitaminB12, "folate": fooddata.FolateDFE, "folic acid": fooddata.FolicAcid, "vitamin B9": fooddata.FolateDFE,
		"choline": fooddata.Choline, "phosphorus": fooddata.Phosphorus, "phosphate": fooddata.Phosphorus, "magnesium": fooddata.Magnesium, "zinc": fooddata.Zinc, "copper": fooddata.Copper, "manganese": fooddata.Manganese,
		"selenium": fooddata.Selenium, "caffeine": fooddata.Caffeine, "alcohol": fooddata.Alcohol, "water": fooddata.Water, "lactose": fooddata.Lactose, "starch": fooddata.Starch, "ash": fooddata.Ash,
		"trans fat": fooddata.TransFat, "monounsaturated fat": fooddata.MonounsaturatedFat, "polyunsaturated fats": fooddata.PolyunsaturatedFat, "EPA": fooddata.EPA, "DHA": fooddata.DHA, "ALA": fooddata.ALA,
		"linoleic acid": fooddata.LinoleicAcid, "cholesterol": fooddata.Cholesterol, "calories": fooddata.Energy, "added sugars": fooddata.AddedSugars,
	} {
		if got, ok := fooddata.NutrientNamed(words); !ok || got != want {
			t.Errorf("%q is %v (%v), want %v", words, got, ok, want)
		}
	}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		if got, ok := fooddata.NutrientNamed(n.Name()); !ok || got != n {
			t.Errorf("%q does not name itself", n.Name())
		}
	}
}

func TestNutrientNear(t *testing.T) {
	for _, c := range []struct {
		words string
		want  fooddata.Nutrient
		ok    bool
	}{
		{"protien", fooddata.Protein, true}, {"potasium", fooddata.Potassium, true}, {"potassum", fooddata.Potassium, true}, {"calroies", fooddata.Energy, true},
		{"cholestrol", fooddata.Cholesterol, true}, {"colesterol", fooddata.Cholesterol, true}, {"carbohydrats", fooddata.Carbohydrate, true}, {"carbohidrate", fooddata.Carbohydrate, true},
		{"soduim", fooddata.Sodium, true}, {"phosphorous", fooddata.Phosphorus, true}, {"saturated fta", fooddata.SaturatedFat, true}, {"magnesum", fooddata.Magnesium, true}, {"fibber", fooddata.Fibre, true},
		{"vitamen d", fooddata.VitaminD, true}, {"vitamn b12", fooddata.VitaminB12, true},
		{"iodine", 0, false}, {"vitamin f", 0, false}, {"vitamin b7", 0, false}, {"biotin", 0, false}, {"grapes", 0, false}, {"cups", 0, false}, {"flour", 0, false}, {"potatoes", 0, false}, {"", 0, false},
	} {
		if got, ok := fooddata.NutrientNear(c.words); ok != c.ok || got != c.want {
			t.Errorf("%q is near %v (%v), want %v (%v)", c.words, got, ok, c.want, c.ok)
		}
	}
}
