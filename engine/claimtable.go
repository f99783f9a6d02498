package engine

import "pottle/fooddata"

// claimLimit is one condition of a claim that something is low or absent.
type claimLimit struct {
	nutrient fooddata.Nutrient
	amount   float64 // in the unit of the nutrient, or in per cent
	below    bool    // it must be below the amount; else no more than it
	share    shareOf // what a per cent is of
}

// shareOf says what a limit in per cent is a part of.
type shareOf uint8

const (
	plainAmount shareOf = iota
	ofEnergy            // per cent of the calories, a gram of fat counting 9 kcal
	ofFat               // per cent of the total fat
)

func upTo(n fooddata.Nutrient, amount float64) claimLimit {
	return claimLimit{nutrient: n, amount: amount}
}

func under(n fooddata.Nutrient, amount float64) claimLimit {
	return claimLimit{nutrient: n, amount: amount, below: true}
}

func upToShare(n fooddata.Nutrient, percent float64, of shareOf) claimLimit {
	return claimLimit{nutrient: n, amount: percent, share: of}
}

func underShare(n fooddata.Nutrient, percent float64, of shareOf) claimLimit {
	return claimLimit{nutrient: n, amount: percent, below: true, share: of}
}

// limitClaim is a claim that a food holds little or none of a nutrient.
type limitClaim struct {
	kind     claimKind
	nutrient fooddata.Nutrient
	rule     string
	// food holds for the reference amount. A free claim must hold for a
	// serving too; a low or very low one for 50 g too where the reference
	// amount is small.
	food []claimLimit
	// meal holds for 100 g of a meal or main dish, or for a serving of it where
	// the claim is free; nil if the claim is not defined for them.
	meal []claimLimit
}

// limitClaims are the claims of 21 CFR 101.60 to 101.62 that a nutrient is
// absent or low. Source by row: [A] seen in Appendix A of FDA's Food Labeling
// Guide; [N] seen in a table of the National Academies; [U] seen in a
// university's table; [R] seen in the text of the regulation; [M] from memory,
// to be verified.
var limitClaims = []limitClaim{
	{claimFree, fooddata.Energy, "21 CFR 101.60(b)(1)", // [A]
		[]claimLimit{under(fooddata.Energy, 5)},
		nil},
	{claimLow, fooddata.Energy, "21 CFR 101.60(b)(2) and (3)", // [A]
		[]claimLimit{upTo(fooddata.Energy, 40)},
		[]claimLimit{upTo(fooddata.Energy, 120)}},
	{claimFree, fooddata.Sugars, "21 CFR 101.60(c)(1)", // [M]
		[]claimLimit{under(fooddata.Sugars, 0.5)},
		[]claimLimit{under(fooddata.Sugars, 0.5)}},
	{claimFree, fooddata.Sodium, "21 CFR 101.61(b)(1)", // [R]
		[]claimLimit{under(fooddata.Sodium, 5)},
		[]claimLimit{under(fooddata.Sodium, 5)}},
	{claimVeryLow, fooddata.Sodium, "21 CFR 101.61(b)(2) and (3)", // [N]
		[]claimLimit{upTo(fooddata.Sodium, 35)},
		[]claimLimit{upTo(fooddata.Sodium, 35)}},
	{claimLow, fooddata.Sodium, "21 CFR 101.61(b)(4) and (5)", // [N]
		[]claimLimit{upTo(fooddata.Sodium, 140)},
		[]claimLimit{upTo(fooddata.Sodium, 140)}},
	{claimFree, fooddata.Fat, "21 CFR 101.62(b)(1)", // [U], meal [M]
		[]claimLimit{under(fooddata.Fat, 0.5)},
		[]claimLimit{under(fooddata.Fat, 0.5)}},
	{claimLow, fooddata.Fat, "21 CFR 101.62(b)(2) and (3)", // [U], 30 % [M]
		[]claimLimit{upTo(fooddata.Fat, 3)},
		[]claimLimit{upTo(fooddata.Fat, 3), upToShare(fooddata.Fat, 30, ofEnergy)}},
	{claimFree, fooddata.SaturatedFat, "21 CFR 101.62(c)(1)", // [M]
		[]claimLimit{under(fooddata.SaturatedFat, 0.5), under(fooddata.TransFat, 0.5)},
		[]claimLimit{under(fooddata.SaturatedFat, 0.5), under(fooddata.TransFat, 0.5)}},
	{claimLow, fooddata.SaturatedFat, "21 CFR 101.62(c)(2) and (3)", // [U], meal [M]
		[]claimLimit{upTo(fooddata.SaturatedFat, 1), upToShare(fooddata.SaturatedFat, 15, ofEnergy)},
		[]claimLimit{upTo(fooddata.SaturatedFat, 1), underShare(fooddata.SaturatedFat, 10, ofEnergy)}},
	{claimFree, fooddata.Cholesterol, "21 CFR 101.62(d)(1)", // [M]
		[]claimLimit{under(fooddata.Cholesterol, 2), upTo(fooddata.SaturatedFat, 2)},
		[]claimLimit{under(fooddata.Cholesterol, 2), upTo(fooddata.SaturatedFat, 2)}},
	{claimLow, fooddata.Cholesterol, "21 CFR 101.62(d)(2) and (3)", // [U], saturated fat [M]
		[]claimLimit{upTo(fooddata.Cholesterol, 20), upTo(fooddata.SaturatedFat, 2)},
		[]claimLimit{upTo(fooddata.Cholesterol, 20), upTo(fooddata.SaturatedFat, 2)}},
}

func findLimitClaim(kind claimKind, n fooddata.Nutrient) (limitClaim, bool) {
	for _, c := range limitClaims {
		if c.kind == kind && c.nutrient == n {
			return c, true
		}
	}
	return limitClaim{}, false
}

// reducedRule is a row of reducedClaims.
type reducedRule struct {
	nutrient fooddata.Nutrient
	rule     string
	besides  []claimLimit
}

// leastReduction is the least reduction of every "reduced", "less" or "fewer"
// claim, in per cent.
const leastReduction = 25

// reducedClaims are the claims of 21 CFR 101.60 to 101.62 of a reduction from
// a food that is not low in the nutrient itself, and what the food must meet
// besides, in the reference amount or in 100 g of a meal or main dish. Sources
// as of limitClaims.
var reducedClaims = []reducedRule{
	{fooddata.Energy, "21 CFR 101.60(b)(4) and (5)", nil},                                               // [A]
	{fooddata.Sugars, "21 CFR 101.60(c)(5) and (6)", nil},                                               // [R]
	{fooddata.Sodium, "21 CFR 101.61(b)(6) and (7)", nil},                                               // [N]
	{fooddata.Fat, "21 CFR 101.62(b)(4) and (5)", nil},                                                  // [A], [M]
	{fooddata.SaturatedFat, "21 CFR 101.62(c)(4) and (5)", nil},                                         // [M]
	{fooddata.Cholesterol, "21 CFR 101.62(d)(4) and (5)", []claimLimit{upTo(fooddata.SaturatedFat, 2)}}, // [M]
}

// The least share of the Daily Value, in per cent, of the claims that
// something is in a food: 21 CFR 101.54(b) and (c), seen in its text, (e) and
// (f), from memory.
const (
	highShare    = 20
	goodShare    = 10 // up to, not including, highShare
	moreShare    = 10 // of the Daily Value more; not 10 % more
	potencyShare = 100
)

// claimable reports whether n may be claimed as high, as a good source, or as
// more. 21 CFR 101.54 has no such claim for total carbohydrate; what is to be
// limited is left out as well, since no one means to praise it.
func claimable(n fooddata.Nutrient) bool {
	switch n {
	case fooddata.Carbohydrate, fooddata.Fat, fooddata.SaturatedFat, fooddata.Cholesterol, fooddata.Sodium, fooddata.AddedSugars:
		return false
	}
	_, ok := fooddata.DailyValue(n)
	return ok
}

// antioxidants are the nutrients with a Daily Value that act as antioxidants
// (21 CFR 101.54(g)); beta-carotene counts by vitamin A [M].
var antioxidants = []fooddata.Nutrient{fooddata.VitaminC, fooddata.VitaminE, fooddata.VitaminA, fooddata.Selenium}

// disclosureLevels are those of 21 CFR 101.13(h), by DishClass [M]: a food
// that holds more must point to the nutrient beside any claim.
var disclosureLevels = []struct {
	nutrient fooddata.Nutrient
	level    [3]float64 // single food, main dish, meal
}{
	{fooddata.Fat, [3]float64{13, 19.5, 26}},
	{fooddata.SaturatedFat, [3]float64{4, 6, 8}},
	{fooddata.Cholesterol, [3]float64{60, 90, 120}},
	{fooddata.Sodium, [3]float64{480, 720, 960}},
}

// mealRules are the least weight of a serving of a main dish and of a meal, in
// grams, and what it must be made of: portions of 40 g from so many of the
// four food groups (21 CFR 101.13(l) and (m)) [M].
var mealRules = [...]struct {
	grams            float64
	portions, groups int
	rule             string
}{
	MainDish: {170, 2, 2, "21 CFR 101.13(m)"}, // 6 oz
	Meal:     {283, 3, 2, "21 CFR 101.13(l)"}, // 10 oz
}

const mealPortion = 40 // grams

// mealGroups are the four food groups of 21 CFR 101.13(l) by food group of
// SR28 [M]. Sauces, sweets and fats are in none.
var mealGroups = map[string]string{
	"Cereal Grains and Pasta": "grain", "Breakfast Cereals": "grain", "Baked Products": "grain",
	"Fruits and Fruit Juices": "fruit and vegetables", "Vegetables and Vegetable Products": "fruit and vegetables",
	"Beef Products": "meat", "Pork Products": "meat", "Poultry Products": "meat", "Lamb, Veal, and Game Products": "meat",
	"Finfish and Shellfish Products": "meat", "Sausages and Luncheon Meats": "meat", "Legumes and Legume Products": "meat",
	"Nut and Seed Products":  "meat",
	"Dairy and Egg Products": "milk",
}

// ingredientReferences are the reference amounts, in grams, of plain foods by
// food group of SR28 (21 CFR 101.12(b), from memory), for the rule that a meal
// is high in what a food in it is high in.
var ingredientReferences = map[string]float64{
	"Vegetables and Vegetable Products": 85, "Fruits and Fruit Juices": 140, "Legumes and Legume Products": 35, // dry
	"Beef Products": 85, "Pork Products": 85, "Poultry Products": 85, "Lamb, Veal, and Game Products": 85,
	"Finfish and Shellfish Products": 85, "Nut and Seed Products": 30,
}

// ingredientReference returns the reference amount of a food as an ingredient,
// in grams, or 0 if it is not known here.
func ingredientReference(f fooddata.Food) float64 {
	group := f.Group()
	cooked := f.State() == fooddata.Cooked || f.State() == fooddata.Canned
	switch {
	case group == "Legumes and Legume Products" && cooked:
		return 90
	case group != "Legumes and Legume Products" && f.State() == fooddata.Dried:
		return 0
	}
	for _, w := range fooddata.Normalise(f.Description()) {
		switch w {
		case "juice", "paste", "puree", "powder", "powdered", "flake", "flour", "concentrate", "dehydrated", "dried", "sauce", "butter":
			return 0
		}
	}
	return ingredientReferences[group]
}

// leanKind says how "lean" is judged.
type leanKind uint8

const (
	noLean leanKind = iota
	leanMeat
	leanMixed
	leanMeal
)

// leanRule is a row of the limits of "lean" and "extra lean".
type leanRule struct {
	kind   claimKind
	of     leanKind
	rule   string
	limits []claimLimit
}

// leanRules are those of 21 CFR 101.62(e) [M]: of fish and game meat in the
// reference amount and in 100 g (meat and poultry by the same figures in 9 CFR
// 317.362 and 381.462), of a dish not measured by the cup in the reference
// amount, of a meal or main dish in 100 g and in a serving.
var leanRules = []leanRule{
	{claimLean, leanMeat, "21 CFR 101.62(e)(1)", []claimLimit{under(fooddata.Fat, 10), upTo(fooddata.SaturatedFat, 4.5), under(fooddata.Cholesterol, 95)}},
	{claimLean, leanMixed, "21 CFR 101.62(e)(2)", []claimLimit{under(fooddata.Fat, 8), upTo(fooddata.SaturatedFat, 3.5), under(fooddata.Cholesterol, 80)}},
	{claimLean, leanMeal, "21 CFR 101.62(e)(3)", []claimLimit{under(fooddata.Fat, 10), upTo(fooddata.SaturatedFat, 4.5), under(fooddata.Cholesterol, 95)}},
	{claimExtraLean, leanMeat, "21 CFR 101.62(e)(4)", []claimLimit{under(fooddata.Fat, 5), under(fooddata.SaturatedFat, 2), under(fooddata.Cholesterol, 95)}},
	{claimExtraLean, leanMeal, "21 CFR 101.62(e)(5)", []claimLimit{under(fooddata.Fat, 5), under(fooddata.SaturatedFat, 2), under(fooddata.Cholesterol, 95)}},
}

// healthyKind says by which row "healthy" is judged.
type healthyKind uint8

const (
	noHealthy healthyKind = iota
	healthyGrain
	healthyDairy
	healthyProduce
	healthyAnimal
	healthyPlant
	healthySpread
	healthyMixed
	healthyMainDish
	healthyMeal
)

// healthyRules are those of 21 CFR 101.65(d), as amended on 27 December 2024
// (89 FR 106064): limits of the reference amount, or of a serving of a meal or
// main dish, and what it must hold of the food groups, which the figures do
// not tell. The limits are shares of the Daily Value there. The grain row and
// the group amounts of dairy, vegetables and fruit are seen in published
// summaries, the rest is [M].
var healthyRules = map[healthyKind]struct {
	holds  string
	limits []claimLimit
}{
	healthyGrain: {"at least 3/4 oz equivalent of whole grain (12 g)",
		[]claimLimit{upTo(fooddata.AddedSugars, 5), upTo(fooddata.Sodium, 230), upTo(fooddata.SaturatedFat, 1)}},
	healthyDairy: {"at least 2/3 cup equivalent of dairy",
		[]claimLimit{upTo(fooddata.AddedSugars, 2.5), upTo(fooddata.Sodium, 230), upTo(fooddata.SaturatedFat, 2)}},
	healthyProduce: {"at least 1/2 cup equivalent of vegetables or fruit",
		[]claimLimit{upTo(fooddata.AddedSugars, 1), upTo(fooddata.Sodium, 230), upTo(fooddata.SaturatedFat, 1)}},
	healthyAnimal: {"at least 1 oz equivalent of seafood, or one egg, or 1 1/2 oz equivalent of game meat (other meat and poultry is under USDA's rules)",
		[]claimLimit{upTo(fooddata.AddedSugars, 1), upTo(fooddata.Sodium, 230), upTo(fooddata.SaturatedFat, 2)}},
	healthyPlant: {"at least 1 oz equivalent of beans, nuts, seeds or soy, whose own saturated fat does not count",
		[]claimLimit{upTo(fooddata.AddedSugars, 1), upTo(fooddata.Sodium, 230), upTo(fooddata.SaturatedFat, 1)}},
	healthySpread: {"oil as its base",
		[]claimLimit{upTo(fooddata.AddedSugars, 1), upTo(fooddata.Sodium, 115), upToShare(fooddata.SaturatedFat, 20, ofFat)}},
	healthyMixed: {"at least one food group equivalent, with a quarter of one from each of two groups",
		[]claimLimit{upTo(fooddata.AddedSugars, 5), upTo(fooddata.Sodium, 345), upTo(fooddata.SaturatedFat, 2)}},
	healthyMainDish: {"at least two food group equivalents, with half of one from each of two groups",
		[]claimLimit{upTo(fooddata.AddedSugars, 7.5), upTo(fooddata.Sodium, 460), upTo(fooddata.SaturatedFat, 3)}},
	healthyMeal: {"at least three food group equivalents, with half of one from each of three groups",
		[]claimLimit{upTo(fooddata.AddedSugars, 10), upTo(fooddata.Sodium, 690), upTo(fooddata.SaturatedFat, 4)}},
}
