package fooddata

import "testing"

func TestNutrient(t *testing.T) {
	seen := make(map[string]bool)
	for n := range Nutrient(NumNutrients) {
		if n.Tag() == "" || n.Name() == "" || n.Decimals() < 0 || n.Decimals() > 3 {
			t.Errorf("nutrient %d: %q, %q, %d decimals", n, n.Tag(), n.Name(), n.Decimals())
		}
		switch n.Unit() {
		case "kcal", "g", "mg", "µg":
		default:
			t.Errorf("%s: unit %q", n, n.Unit())
		}
		if seen[n.Tag()] || seen[n.Name()] {
			t.Errorf("%s: its tag or name stands twice", n)
		}
		seen[n.Tag()], seen[n.Name()] = true, true
		if got, ok := NutrientByTag(n.Tag()); !ok || got != n {
			t.Errorf("NutrientByTag(%q) = %v, %t", n.Tag(), got, ok)
		}
		if got, ok := NutrientNamed(n.Name()); !ok || got != n {
			t.Errorf("NutrientNamed(%q) = %v, %t", n.Name(), got, ok)
		}
	}
	if n, ok := NutrientByTag("na"); ok {
		t.Errorf("NutrientByTag(na) = %v: tagnames are in capitals", n)
	}
}

func TestNutrientNamed(t *testing.T) {
	for words, want := range map[string]Nutrient{
		"fiber": Fibre, "fibre": Fibre, "Dietary Fiber": Fibre,
		"carbs": Carbohydrate, "carb": Carbohydrate, "carbohydrates": Carbohydrate,
		"sodium": Sodium, "salt": Sodium, "Na": Sodium,
		"sat fat": SaturatedFat, "saturates": SaturatedFat, "saturated fat": SaturatedFat,
		"calories": Energy, "kcal": Energy, "calorie": Energy,
		"cholesterol": Cholesterol, "added sugar": AddedSugars, "added sugars": AddedSugars,
		"vit c": VitaminC, "Vitamin C": VitaminC, "vitamin b-6": VitaminB6, "b12": VitaminB12,
		"sugar": Sugars, "sugars": Sugars, "fat": Fat, "total fat": Fat, "trans fat": TransFat,
		"potassium": Potassium, "folate": FolateDFE, "folic acid": FolicAcid, "SUGAR_ADDED": AddedSugars,
	} {
		if got, ok := NutrientNamed(words); !ok || got != want {
			t.Errorf("NutrientNamed(%q) = %v, %t, want %v", words, got, ok, want)
		}
	}
	for _, words := range []string{"", "a", "mg", "g", "butter", "net carbs", "vitamin", "sugar free", "the"} {
		if got, ok := NutrientNamed(words); ok {
			t.Errorf("NutrientNamed(%q) = %v, want nothing", words, got)
		}
	}
}

// TestDailyValue holds the table against 21 CFR 101.9(c)(9) and (c)(8)(iv),
// as written in ../shared/standards/daily_values.csv, by tagname.
func TestDailyValue(t *testing.T) {
	want := map[string]float64{
		"FAT": 78, "FASAT": 20, "CHOLE": 300, "CHOCDF": 275, "NA": 2300, "FIBTG": 28, "PROCNT": 50, "SUGAR_ADDED": 50,
		"VITA_RAE": 900, "VITC": 90, "CA": 1300, "FE": 18, "VITD": 20, "TOCPHA": 15, "VITK1": 120, "THIA": 1.2,
		"RIBF": 1.3, "NIA": 16, "VITB6A": 1.7, "FOLDFE": 400, "VITB12": 2.4, "PANTAC": 5, "P": 1250, "MG": 420,
		"ZN": 11, "SE": 55, "CU": 0.9, "MN": 2.3, "K": 4700, "CHOLN": 550,
	}
	for n := range Nutrient(NumNutrients) {
		got, ok := DailyValue(n)
		if w, has := want[n.Tag()]; ok != has || got != w {
			t.Errorf("DailyValue(%s) = %v, %t, want %v, %t", n, got, ok, w, has)
		}
	}
}
