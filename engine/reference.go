package engine

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
)

// DishClass says by what measure a food is judged.
type DishClass uint8

// The classes: a single food is judged by its reference amount, a main dish
// and a meal by 100 g (21 CFR 101.13(l) and (m)).
const (
	SingleFood DishClass = iota
	MainDish
	Meal
)

// Reference is a reference amount: how much of a kind of food people
// customarily eat at a time, by which label law judges a claim.
type Reference struct {
	Name    string  // "muffins"
	Grams   float64 // 0 of a meal and a main dish
	Says    string  // as the regulation has it: "110 g", "1 cup"
	Small   bool    // 30 g or less, or 2 tablespoons or less: some claims must then hold for 50 g too
	Assumed string  // where the grams of a volume come from; "" if the regulation says grams
	Class   DishClass
	also    string      // other names; one with = must be all that is said
	healthy healthyKind // how "healthy" is judged
	lean    leanKind    // how "lean" is judged
}

// references are the reference amounts of 21 CFR 101.12(b), table 2, as
// amended on 27 May 2016 (81 FR 34000). All from memory: verify a row before
// relying on it. Where the regulation has a volume, the grams are those of a
// like food: "SR28 of NNNNN", or common practice, no source.
var references = []Reference{
	{Name: "meal", Class: Meal, also: "meal product; whole meal; dinner", healthy: healthyMeal, lean: leanMeal},
	{Name: "main dish", Class: MainDish, also: "main dish product; main course; entree; entrée", healthy: healthyMainDish, lean: leanMeal},

	// Mixed dishes.
	{Name: "casseroles and stews", Says: "1 cup", Grams: 240, Assumed: "a cup taken as 240 g (common practice, no source)", healthy: healthyMixed,
		also: "casserole; stew; chili; chilli; curry; macaroni and cheese; macaroni cheese; mac and cheese; mac n cheese; mac cheese; cauliflower cheese; baked ziti; baked pasta; pasta bake; tetrazzini; stroganoff; goulash; jambalaya; paella; spaghetti with sauce; pot pie; hash; stir-fry; stir fry; fried rice; risotto; pilaf; shepherd pie; cottage pie; tamale pie; gratin; mixed dish"},
	{Name: "pizza, quiche, sandwiches", Says: "140 g", Grams: 140, healthy: healthyMixed, lean: leanMixed,
		also: "pizza; quiche; sandwich; burger; burrito; wrap; enchilada; taco; quesadilla; lasagna; lasagne; burritos"},
	{Name: "appetizers", Says: "85 g", Grams: 85, also: "appetiser; egg roll; dumpling; wonton; potsticker; hors d'oeuvre", healthy: healthyMixed},
	{Name: "soups", Says: "245 g", Grams: 245, also: "soup; chowder; bisque; gazpacho", healthy: healthyMixed},
	{Name: "pasta and potato salads", Says: "140 g", Grams: 140, also: "pasta salad; potato salad; macaroni salad", healthy: healthyMixed},
	{Name: "salads", Says: "100 g", Grams: 100, also: "salad; bean salad; fruit salad; egg salad; tuna salad; chicken salad; coleslaw; slaw", healthy: healthyMixed},

	// Baked goods.
	{Name: "breads and rolls", Says: "50 g", Grams: 50, also: "bread; bun; dinner roll; bread roll; crescent roll; yeast roll; yeast bread; focaccia; naan; pita; =roll; =loaf", healthy: healthyGrain},
	{Name: "muffins and bagels", Says: "110 g", Grams: 110, also: "muffin; bagel", healthy: healthyGrain},
	{Name: "biscuits, scones, corn bread, tortillas", Says: "55 g", Grams: 55, also: "scone; biscuit; cornbread; corn bread; tortilla; english muffin; croissant; soft pretzel", healthy: healthyGrain},
	{Name: "quick breads, coffee cakes, doughnuts, sweet rolls", Says: "55 g", Grams: 55, healthy: healthyGrain,
		also: "quick bread; banana bread; tea bread; zucchini bread; pumpkin bread; coffee cake; crumb cake; doughnut; donut; danish; sweet roll; cinnamon roll"},
	{Name: "pancakes, crepes, French toast", Says: "110 g", Grams: 110, also: "pancake; crepe; french toast", healthy: healthyGrain},
	{Name: "waffles", Says: "85 g", Grams: 85, also: "waffle", healthy: healthyGrain},
	{Name: "brownies", Says: "40 g", Grams: 40, also: "brownie; blondie", healthy: healthyGrain},
	{Name: "cookies", Says: "30 g", Grams: 30, Small: true, also: "cookie; shortbread", healthy: healthyGrain},
	{Name: "crackers for a snack", Says: "30 g", Grams: 30, Small: true, also: "cracker; crispbread", healthy: healthyGrain},
	{Name: "grain bars", Says: "40 g", Grams: 40, also: "granola bar; cereal bar; energy bar; flapjack; =bar", healthy: healthyGrain},
	{Name: "cakes, heavy (cheesecake; a third or more fruit, nuts or vegetables)", Says: "125 g", Grams: 125, also: "cheesecake; fruit cake; fruitcake; upside-down cake; heavy cake", healthy: healthyGrain},
	{Name: "cakes, medium (with baking powder or soda, cupcakes)", Says: "80 g", Grams: 80, also: "cake; cupcake; layer cake; carrot cake; bundt cake; eclair; cream puff", healthy: healthyGrain},
	{Name: "cakes, light (angel food, chiffon, sponge, not iced)", Says: "55 g", Grams: 55, also: "sponge cake; angel food cake; chiffon cake; light cake", healthy: healthyGrain},
	{Name: "pies, cobblers, crisps", Says: "125 g", Grams: 125, also: "pie; cobbler; crisp; crumble; turnover; pastry; tart; strudel", healthy: healthyGrain},

	// Cereals and grains.
	{Name: "hot cereals", Says: "1 cup", Grams: 240, Assumed: "a cup taken as 240 g (common practice, no source)", also: "hot cereal; oatmeal; porridge; grits", healthy: healthyGrain},
	{Name: "granola and heavy ready-to-eat cereals", Says: "60 g", Grams: 60, also: "granola; muesli", healthy: healthyGrain},
	{Name: "cooked rice, pasta and other grains", Says: "140 g", Grams: 140, also: "=rice; =pasta; =grain; =noodle; cooked rice; cooked pasta; plain rice; plain pasta; brown rice; =barley; =quinoa; =couscous", healthy: healthyGrain},
	{Name: "stuffing", Says: "100 g", Grams: 100, also: "dressing for poultry; bread stuffing", healthy: healthyGrain},

	// Meat, fish, eggs, beans, nuts.
	{Name: "meat, poultry or fish without sauce", Says: "85 g", Grams: 85, healthy: healthyAnimal, lean: leanMeat,
		also: "=meat; =poultry; =fish; =chicken; =beef; =pork; =lamb; =turkey; =seafood; =salmon; meatball; meatloaf; steak; chop; fish cake; crab cake; salmon cake; tuna cake; roast chicken; roast beef; pot roast; roast pork; roast turkey; fish fillet"},
	{Name: "meat, poultry or fish with sauce", Says: "140 g", Grams: 140, also: "meat with sauce; fish with sauce; chicken with sauce; meat in sauce; fish in sauce; chicken in sauce", healthy: healthyAnimal, lean: leanMeat},
	{Name: "omelets and other egg dishes", Says: "110 g", Grams: 110, also: "omelet; omelette; scrambled egg; frittata; egg dish", healthy: healthyAnimal},
	{Name: "eggs", Says: "50 g", Grams: 50, also: "=egg; boiled egg; hard-boiled egg", healthy: healthyAnimal},
	{Name: "beans in sauce or liquid", Says: "130 g", Grams: 130, also: "baked bean; refried bean; dal; bean in sauce", healthy: healthyPlant},
	{Name: "beans, plain", Says: "90 g", Grams: 90, also: "=bean; =lentil; plain bean; =chickpea; cooked bean; cooked lentil", healthy: healthyPlant},
	{Name: "tofu and tempeh", Says: "85 g", Grams: 85, also: "=tofu; =tempeh", healthy: healthyPlant},
	{Name: "nuts and seeds", Says: "30 g", Grams: 30, Small: true, also: "=nut; =seed; trail mix; spiced nut; roasted nut", healthy: healthyPlant},
	{Name: "nut and seed butters", Says: "2 tbsp", Grams: 32, Small: true, Assumed: "2 tbsp taken as 32 g (SR28 of 16098)", also: "nut butter; peanut butter; tahini; almond butter", healthy: healthyPlant},

	// Vegetables, fruit, potatoes.
	{Name: "vegetables without sauce", Says: "85 g", Grams: 85, also: "=vegetable; side vegetable; =greens; roasted vegetable; green bean; steamed vegetable; grilled vegetable", healthy: healthyProduce},
	{Name: "vegetables with sauce", Says: "110 g", Grams: 110, also: "vegetable in sauce; creamed spinach; vegetable with sauce; creamed vegetable", healthy: healthyMixed},
	{Name: "potatoes, plain", Says: "110 g", Grams: 110, also: "=potato; baked potato; boiled potato; roast potato; roasted potato; =sweet potato", healthy: healthyProduce},
	{Name: "potatoes mashed, stuffed or with sauce", Says: "140 g", Grams: 140, also: "mashed potato; scalloped potato; stuffed potato; candied sweet potato; potato with sauce", healthy: healthyMixed},
	{Name: "fries and hash browns", Says: "70 g", Grams: 70, also: "fries; french fries; hash brown; potato pancake; oven fries; =fry", healthy: healthyMixed},
	{Name: "pickles", Says: "30 g", Grams: 30, Small: true, also: "pickle; pickled vegetable; kimchi; sauerkraut", healthy: healthyProduce},
	{Name: "fruit", Says: "140 g", Grams: 140, also: "=fruit; stewed fruit; applesauce; baked apple; compote", healthy: healthyProduce},

	// Milk products and desserts.
	{Name: "yogurt", Says: "170 g", Grams: 170, also: "yoghurt; parfait", healthy: healthyDairy},
	{Name: "cheese", Says: "30 g", Grams: 30, Small: true, also: "=cheese; cheese spread; cheese ball", healthy: healthyDairy},
	{Name: "cottage cheese", Says: "110 g", Grams: 110, also: "cottage cheese", healthy: healthyDairy},
	{Name: "milk drinks and shakes", Says: "240 mL", Grams: 244, Assumed: "240 mL taken as 244 g (SR28 of 01106)", also: "=milk; shake; milkshake; smoothie; hot chocolate; milk drink; cocoa; lassi", healthy: healthyDairy},
	{Name: "ice cream and frozen desserts", Says: "2/3 cup", Grams: 88, Assumed: "2/3 cup taken as 88 g (SR28 of 19095)", also: "ice cream; frozen yogurt; sorbet; sherbet; frozen dessert", healthy: healthyMixed},
	{Name: "puddings and custards", Says: "1/2 cup", Grams: 147, Assumed: "1/2 cup taken as 147 g (SR28 of 19185)", also: "pudding; custard; mousse; gelatin; rice pudding; panna cotta", healthy: healthyMixed},

	// Sauces, dips, spreads, snacks.
	{Name: "pasta and other main sauces", Says: "125 g", Grams: 125, also: "pasta sauce; spaghetti sauce; marinara; tomato sauce for pasta; curry sauce; bolognese", healthy: healthyMixed},
	{Name: "gravies, cheese sauce, pesto", Says: "1/4 cup", Grams: 60, Assumed: "1/4 cup taken as 60 g (common practice, no source)", also: "gravy; pesto; cheese sauce; white sauce; alfredo; pizza sauce", healthy: healthyMixed},
	{Name: "dips, salsa and barbecue sauce", Says: "2 tbsp", Grams: 36, Small: true, Assumed: "2 tbsp taken as 36 g (SR28 of 06164)", also: "dip; salsa; hummus; guacamole; barbecue sauce; tartar sauce; hollandaise; bean dip", healthy: healthyMixed},
	{Name: "ketchup, soy sauce and marinades", Says: "1 tbsp", Grams: 17, Small: true, Assumed: "1 tbsp taken as 17 g (common practice, no source)", also: "ketchup; catsup; marinade; teriyaki; steak sauce; soy sauce; =vinegar", healthy: healthyMixed},
	{Name: "salad dressings", Says: "30 g", Grams: 30, Small: true, also: "salad dressing; dressing; vinaigrette", healthy: healthySpread},
	{Name: "mayonnaise", Says: "15 g", Grams: 15, Small: true, also: "mayonnaise; aioli; mayo; sandwich spread", healthy: healthySpread},
	{Name: "butter, margarine and oil", Says: "1 tbsp", Grams: 14, Small: true, Assumed: "1 tbsp taken as 14 g (common practice, no source)", also: "=butter; =margarine; =oil; =spread", healthy: healthySpread},
	{Name: "jams, honey and fruit butters", Says: "1 tbsp", Grams: 20, Small: true, Assumed: "1 tbsp taken as 20 g (SR28 of 19297)", also: "jam; jelly; preserve; =honey; fruit butter; chutney; marmalade; molasses", healthy: healthyMixed},
	{Name: "syrups and dessert toppings", Says: "2 tbsp", Grams: 40, Small: true, Assumed: "2 tbsp taken as 40 g (common practice, no source)", also: "syrup; frosting; icing; dessert topping; caramel sauce; chocolate sauce", healthy: healthyMixed},
	{Name: "candy", Says: "30 g", Grams: 30, Small: true, also: "candy; fudge; truffle; caramel; =sweet", healthy: healthyMixed},
	{Name: "snacks (chips, popcorn, pretzels)", Says: "30 g", Grams: 30, Small: true, also: "snack; chip; popcorn; pretzel; snack mix", healthy: healthyGrain},
	{Name: "drinks", Says: "360 mL", Grams: 370, Assumed: "360 mL taken as 370 g (common practice, no source)", also: "drink; beverage; lemonade; iced tea; punch", healthy: healthyMixed},
}

// References returns the reference amounts that MayClaim knows, meals and main
// dishes first, for a list to choose from.
func References() []Reference { return slices.Clone(references) }

// ReferenceNamed returns the reference amount that words name: a category
// ("muffins", "potato salad", "main dish"), or a weight ("55 g") for one that
// is not in the list. It returns false if they name none or several.
func ReferenceNamed(words string) (Reference, bool) {
	if r, ok := referenceOfGrams(words); ok {
		return r, true
	}
	found := likely(words)
	if len(found) == 0 || len(found) > 1 && found[1].words == found[0].words && found[1].end == found[0].end {
		return Reference{}, false
	}
	return found[0].reference, true
}

// LikelyReferences returns the reference amounts that the title of a recipe
// speaks for, the likeliest first; it may be none.
func LikelyReferences(title string) []Reference {
	var out []Reference
	for _, f := range likely(title) {
		out = append(out, f.reference)
	}
	return out
}

// likeness is how well words name a reference amount: by how many words, and
// how near the end of the title, where English names a dish ("potato soup").
type likeness struct {
	reference Reference
	words     int
	end       int
}

func likely(title string) []likeness {
	words := fooddata.Normalise(title)
	dish := words // without what it comes with: "chicken with rice"
	for i, w := range words {
		if i > 0 && joinsSide[w] {
			dish = words[:i]
			break
		}
	}
	var found []likeness
	for _, r := range references {
		best := likeness{reference: r}
		for name := range strings.SplitSeq(r.Name+"; "+r.also, ";") {
			part := fooddata.Normalise(name)
			alone := strings.Contains(name, "=") || slices.Contains(strings.Split(r.also, "; "), "="+strings.Join(part, " ")) // mac and cheese is no cheese
			if slices.Equal(part, words) {
				return []likeness{{r, len(part), len(words)}}
			}
			if alone {
				continue
			}
			in := dish
			if slices.ContainsFunc(part, func(w string) bool { return joinsSide[w] }) {
				in = words
			}
			if end := endOf(in, part); end > best.end || end == best.end && end > 0 && len(part) > best.words {
				best.words, best.end = len(part), end
			}
		}
		if best.words > 0 {
			found = append(found, best)
		}
	}
	slices.SortStableFunc(found, func(x, y likeness) int {
		return cmp.Or(cmp.Compare(y.end, x.end), cmp.Compare(y.words, x.words))
	})
	return found
}

// joinsSide are the words that join to a dish what it comes with.
var joinsSide = wordSet("with in on over from topped for served")

// endOf returns the index after the last run of part in words, or 0.
func endOf(words, part []string) int {
	for i := len(words) - len(part); i >= 0 && len(part) > 0; i-- {
		if slices.Equal(words[i:i+len(part)], part) {
			return i + len(part)
		}
	}
	return 0
}

// referenceOfGrams reads a reference amount given as a weight: "55 g".
func referenceOfGrams(words string) (Reference, bool) {
	s := strings.ToLower(strings.TrimSpace(words))
	number, ok := strings.CutSuffix(s, "grams")
	if !ok {
		number, ok = strings.CutSuffix(s, "g")
	}
	g, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !ok || err != nil || !(g > 0 && g <= 2000) {
		return Reference{}, false
	}
	says := figure(g) + " g"
	return Reference{Name: says, Says: says, Grams: g, Small: g <= smallReference}, true
}

// smallReference is the most grams of a reference amount for which a claim
// must hold for 50 g too (21 CFR 101.60 to 101.62).
const smallReference = 30
