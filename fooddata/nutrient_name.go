package fooddata

import (
	"strings"
	"sync"
)

// spokenNames lists what people call the nutrients, besides their plain names
// and tagnames. "Fat", "carbs", "sugar" and "folate" mean the totals.
var spokenNames = [NumNutrients]string{
	Energy:             "calories; kcal; cal; cals; kilocalories; energy kcal",
	Protein:            "prot; proteins",
	Fat:                "fat; fats; lipid; total lipid",
	Carbohydrate:       "carbs; carb; carbohydrate; carbohydrates; cho; total carbs; total carb",
	Fibre:              "fiber; dietary fibre; dietary fiber; total fibre; total fiber; roughage",
	Sugars:             "sugar; sugars; total sugar",
	Alcohol:            "ethanol; ethyl alcohol",
	Water:              "moisture",
	Calcium:            "ca",
	Iron:               "fe",
	Magnesium:          "",
	Phosphorus:         "phos; phosphate; phosphates",
	Potassium:          "k",
	Sodium:             "na; salt",
	Zinc:               "zn",
	Copper:             "cu",
	Manganese:          "mn",
	Selenium:           "se",
	VitaminA:           "vit a; vitamin a rae; rae",
	Retinol:            "preformed vitamin a",
	BetaCarotene:       "beta carotene; b carotene",
	VitaminE:           "vit e; tocopherol; alpha tocopherol",
	VitaminD:           "vit d; vitamin d2 and d3",
	VitaminC:           "vit c; ascorbic acid",
	Thiamin:            "thiamine; vitamin b1; vit b1; b1",
	Riboflavin:         "vitamin b2; vit b2; b2",
	Niacin:             "vitamin b3; vit b3; b3; nicotinic acid",
	PantothenicAcid:    "pantothenate; vitamin b5; vit b5; b5",
	VitaminB6:          "vitamin b 6; vit b6; b6; pyridoxine",
	Folate:             "",
	FolateDFE:          "folate; dfe; dietary folate equivalents; vitamin b9; vit b9; b9; folate dfe",
	VitaminB12:         "vitamin b 12; vit b12; b12; cobalamin",
	VitaminK:           "vit k; vitamin k1; phylloquinone",
	Cholesterol:        "chol; cholest",
	TransFat:           "trans; trans fats; trans fatty acids",
	SaturatedFat:       "sat fat; sat fats; sat; saturates; saturated; saturated fats; saturated fatty acids; satfat",
	MonounsaturatedFat: "mono fat; monounsaturates; monounsaturated; monos; mufa",
	PolyunsaturatedFat: "poly fat; polyunsaturates; polyunsaturated; polys; pufa",
	LinoleicAcid:       "",
	ALA:                "alpha linolenic acid",
	EPA:                "eicosapentaenoic acid",
	DHA:                "docosahexaenoic acid",
	Lactose:            "milk sugar",
	AddedSugars:        "added sugar; sugars added; sugar added",
}

// nutrientNames returns the nutrients by the normalised words that name them.
var nutrientNames = sync.OnceValue(func() map[string]Nutrient {
	m := make(map[string]Nutrient)
	add := func(words string, n Nutrient) {
		if key := strings.Join(Normalise(words), " "); key != "" {
			m[key] = n
		}
	}
	for i, spoken := range spokenNames {
		n := Nutrient(i)
		add(n.Name(), n)
		if n != Magnesium { // "mg" is a unit
			add(n.Tag(), n)
		}
		for name := range strings.SplitSeq(spoken, ";") {
			add(name, n)
		}
	}
	return m
})
