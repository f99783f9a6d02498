package fooddata

// dailyValues are the Daily Values for adults and children aged 4 years and
// older: the Reference Daily Intakes of 21 CFR 101.9(c)(8)(iv) and the Daily
// Reference Values of 21 CFR 101.9(c)(9), as amended on 27 May 2016 (81 FR
// 33742). Each is in the unit of its nutrient. Biotin, iodine, chromium,
// molybdenum and chloride have Daily Values too, but the table has no figures
// for them.
//
// Three differ in kind from what the table holds, and the nutrient chosen is
// the nearest: niacin's is in niacin equivalents while the table has preformed
// niacin; vitamin K's covers all forms while the table has phylloquinone; and
// folate's is in dietary folate equivalents, so it belongs to FolateDFE alone.
var dailyValues = [NumNutrients]float64{
	// 21 CFR 101.9(c)(9), Daily Reference Values.
	Fat:          78,
	SaturatedFat: 20,
	Cholesterol:  300,
	Carbohydrate: 275,
	Sodium:       2300,
	Fibre:        28,
	Protein:      50,
	AddedSugars:  50,

	// 21 CFR 101.9(c)(8)(iv), Reference Daily Intakes.
	VitaminA:        900,
	VitaminC:        90,
	Calcium:         1300,
	Iron:            18,
	VitaminD:        20,
	VitaminE:        15,
	VitaminK:        120,
	Thiamin:         1.2,
	Riboflavin:      1.3,
	Niacin:          16,
	VitaminB6:       1.7,
	FolateDFE:       400,
	VitaminB12:      2.4,
	PantothenicAcid: 5,
	Phosphorus:      1250,
	Magnesium:       420,
	Zinc:            11,
	Selenium:        55,
	Copper:          0.9,
	Manganese:       2.3,
	Potassium:       4700,
	Choline:         550,
}

// DailyValue returns the Daily Value of n for adults and children aged 4 years
// and older, in the unit of n. It returns false if n has none: total sugars,
// trans fat and energy have none.
func DailyValue(n Nutrient) (float64, bool) {
	v := dailyValues[n]
	return v, v > 0
}
