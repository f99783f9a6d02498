package engine

import (
	"regexp"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	"pottle/fooddata"
)

// completed reads "red" in "red or green bell pepper" as "red bell pepper".
func (e *Engine) completed(q query) (Match, bool) {
	for k := 1; k < len(q.shares); k++ {
		whole := append(slices.Clone(q.words), q.shares[k:]...)
		if m, ok := e.named(query{words: whole, state: q.state, canned: q.canned}); ok {
			m.Confidence = min(m.Confidence, sharedName)
			return m, true
		}
	}
	return Match{}, false
}

// maxDropped bounds how many describing words may be set aside.
const maxDropped = 3

// fewerWords sets describing words aside, as few as will do, and says so.
// A word that is a food itself ("coconut flour", "cauliflower rice") or that
// makes another food of it ("vegan butter") is never set aside.
func (e *Engine) fewerWords(q query) (Match, bool) {
	words := withoutPreparation(q.words)
	if len(words) < 2 || len(words) > 8 {
		return Match{}, false
	}
	for drop := 1; drop <= min(maxDropped, len(words)-1); drop++ {
		var best Match
		subsets(len(words), drop, func(keep []int) bool {
			kept, dropped := split(words, keep)
			if !e.mayDrop(dropped) || ofAnything[kept[len(kept)-1]] && len(kept) == 1 && !allIn(dropped, onlyDescribe) || !slices.Contains(keep, len(words)-1) && !trailing[words[len(words)-1]] {
				return true
			}
			m, ok := e.named(query{words: kept, state: q.state, canned: q.canned})
			if !ok || !ofItsOwn(m.Food, dropped) {
				return true
			}
			if own := fooddata.Normalise(m.Food.Name() + " " + m.Food.Description()); !slices.ContainsFunc(dropped, func(w string) bool { return !slices.Contains(own, w) }) {
				best = m // its own words, in another order
				best.Confidence = min(m.Confidence, plainName)
				return false
			}
			m.Confidence = min(m.Confidence, droppedWord) - 0.05*float64(drop-1)
			m.Assumed = standInOnly(m.Assumed)
			if !containsAny(ofLength, dropped) || len(dropped) > 1 { // a piece of ginger is ginger
				set := quoted(dropped) + " not taken into account: counted as " + m.Food.Name()
				if slices.ContainsFunc(dropped, e.unknownWord) {
					set += "; " + makersDiffer
				}
				m.Assumed = append([]string{set}, m.Assumed...)
			}
			if m.Confidence > best.Confidence {
				best = m
			}
			return true
		})
		if best.Found() && best.Confidence >= bar {
			return best, true
		}
	}
	return Match{}, false
}

// standInOnly keeps the assumptions that name what is missing from the table.
func standInOnly(assumed []string) []string {
	var kept []string
	for _, a := range assumed {
		if !strings.HasPrefix(a, "taken as ") {
			kept = append(kept, a)
		}
	}
	return kept
}

// ofItsOwn reports whether the parts of a plant among the words are the food's
// own: the leaves of spinach are spinach, those of a lime tree are no lime. A sweet
// sauce or wine has sugar that the plain one has not.
func ofItsOwn(f fooddata.Food, words []string) bool {
	for _, w := range words {
		if plants := plantParts[w]; plants != nil && !plants.MatchString(f.Name()) || w == "sweet" && !naturallySweet[f.Group()] {
			return false
		}
	}
	return true
}

// naturallySweet are the groups in which "sweet" tells no more than a kind.
var naturallySweet = setOf("Vegetables and Vegetable Products", "Fruits and Fruit Juices", "Spices and Herbs", "Sausages and Luncheon Meats", "Pork Products", "Nut and Seed Products", "Cereal Grains and Pasta")

// plantParts are the parts that are the same food only of plants grown for them.
var plantParts = func() map[string]*regexp.Regexp {
	leafy := regexp.MustCompile(`lettuce|spinach|cabbage|kale|chard|collard|arugula|rocket|endive|radicchio|cress|bok choy|greens|chicory|sorrel|brussels|leaves|leaf|tea|lasagna|pasta|phyllo|gelatin|` +
		`basil|mint|parsley|cilantro|coriander|dill|thyme|sage|oregano|rosemary|marjoram|tarragon|chervil|savory|bay|chive|scallion|celery|fennel|leek`)
	rooted := regexp.MustCompile(`root|ginger|turmeric|horseradish|celeriac|beet|carrot|parsnip|radish|turnip|rutabaga|galangal|taro|cassava|jicama`)
	return map[string]*regexp.Regexp{"leaf": leafy, "root": rooted, "leave": leafy, "frond": leafy,
		"flower": regexp.MustCompile(`flower`), "blossom": regexp.MustCompile(`blossom|flower`), "shoot": regexp.MustCompile(`shoot|bamboo`), "sprout": regexp.MustCompile(`sprout`)}
}()

// trailing are last words that do not name the food.
var trailing = wordSet("piece cube chunk cutlet fillet filet steak portion half strip cap stem tip leaf kernel flake floret spear head bulb root mix blend crumble sprig stalk bunch wedge round ring part section meat flesh segment")

// ofAnything are foods that are made of many things and named for what they are
// of: "hemp milk". A word before them is set aside only if it is one of
// onlyDescribe.
var (
	ofAnything = wordSet("milk butter oil flour cream salt cheese noodle yogurt yoghurt sauce dressing bread spread syrup seasoning spice sugar sweetener chip crisp cereal cracker soup broth stock gravy jelly jam " +
		"tea coffee juice drink soda water bar sausage pudding vinegar paste rice")
	onlyDescribe = wordSet("pouring runny farm farmhouse organic local artisan artisanal cultured creamery dairy premium quality good best pasteurized pasteurised homogenized homogenised vitamin d a european irish french english amish country pure regular plain standard cold warm hot lukewarm scalded unbleached bleached enriched presifted sifted extra virgin refined unrefined cooking frying light thick thin rich high heat neutral expeller pressed cold-pressed additional favorite favourite " +
		"use add smooth pair mug loaf glug block piece cube ball slice stick sprinkle shake long short grain elbow shell fusilli rotini spiral wide dusting container bowl plate glass strong weak crusty day old stale dark " +
		"table sea kosher flaky flake flaked mature sharp young block tangy filtered tap spring sparkling freshly ground home handful knob crushed leftover")
)

func allIn(words []string, set map[string]bool) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !set[w] })
}

// mayDrop reports whether all words only describe.
func (e *Engine) mayDrop(words []string) bool {
	for _, w := range words {
		if changers[w] {
			return false
		}
		if _, ok := e.lookUp(w); ok && !describes[w] {
			return false
		}
		if !describes[w] && e.isFoodWord(w) {
			return false
		}
	}
	return true
}

// isFoodWord reports whether a curated food is called by this one word,
// whatever its state.
func (e *Engine) isFoodWord(w string) bool {
	for _, state := range []string{"raw", "canned", "cooked", "dried", "ground"} {
		if _, ok := e.lookUp(state + " " + w); ok {
			return true
		}
	}
	return false
}

// describes are words that are foods elsewhere but describe here.
var describes = wordSet("orecchiette cavatelli bucatini gemelli radiatori cavatappi conchiglie tagliatelle pappardelle campanelle ditalini mostaccioli capellini fusilli rotini linguini linguine farfalle penne spaghetti macaroni rigatoni fettuccine orzo ziti shell bowtie bow tie elbow spiral red white green yellow orange brown black purple golden baby sweet hot mild italian spanish french greek turkish indian thai mexican english irish")

// changers make another food of what they stand beside.
var changers = wordSet("nutritional buttered battered frosted konjac konnyaku konyaku shirataki zero replacer sweetener plant based plantbased calcium fibre fiber lactose diabetic dietetic decaf decaffeinated caffeine alcoholic nonalcoholic " +
	"sprouted potassium chloride neck cheek foot feet trotter tail gizzard brain blood marrow collagen hydrolyzed hydrolysed malted chocolate vanilla honey maple sugared nitrite curing preserved brined candied crystallized crystallised confit wheat grain rye oat corn bran germ spelt barley whole brown wholemeal wholewheat wholegrain multigrain vegan vegetarian meatless imitation mock free free-from diet light lite low lower reduced less no non nonfat not without sugar sodium salt salted unsalted fat lowfat skim skimmed fortified enriched flavored flavoured flavor flavour mix substitute alternative alternate replacement instant powder powdered soup sauce juice oil butter milk cream cheese flour bread cake candy chip cracker cookie pudding pie jam jelly syrup drink beverage bar cereal salad dip paste puree extract essence concentrate condensed evaporated dried dry dehydrated canned tinned frozen cooked raw smoked cured pickled fried breaded stuffed marinated sweetened unsweetened seasoned glazed candied artificial gluten keto protein crescent fermented nut seed bean fish soup salad old ready tea baby-food infant formula toddler noodle pasta rice leg wing thigh breast skin liver heart kidney tongue tripe bone egg yolk roll wrap crust dough seed kernel burger sausage patty wine vinegar beer liqueur liquor")

// split parts words into those at keep and the rest.
func split(words []string, keep []int) (kept, dropped []string) {
	for i, w := range words {
		if slices.Contains(keep, i) {
			kept = append(kept, w)
		} else {
			dropped = append(dropped, w)
		}
	}
	return kept, dropped
}

// subsets calls f with the indices that remain when drop of n are left out,
// the earliest left out first, until f returns false.
func subsets(n, drop int, f func(keep []int) bool) {
	out := make([]bool, n)
	var walk func(from, left int) bool
	walk = func(from, left int) bool {
		if left == 0 {
			var keep []int
			for i := range n {
				if !out[i] {
					keep = append(keep, i)
				}
			}
			return f(keep)
		}
		for i := from; i <= n-left; i++ {
			out[i] = true
			if !walk(i+1, left-1) {
				return false
			}
			out[i] = false
		}
		return true
	}
	walk(0, drop)
}

// insteadOf are last words that say nothing of what the food is: a substitute of
// salt is none of cheese.
var insteadOf = wordSet("substitute replacement alternative replacer")

// genericHead are last words that many unlike foods have: a curry paste is not
// to be asked about as almond paste.
var genericHead = wordSet("paste leaf base powder seasoning mix drink pot sauce oil butter milk spread bar cheese seed nut cube cereal chip crisp noodle soup dressing syrup juice dip snack blend " +
	"cream spice cake cookie pie bread salt sugar water tea extract jelly root flake crumb sausage roll pudding candy cracker")

// noSuchThing are words that make of a food another that is not to be asked about
// as the first.
var noSuchThing = wordSet("nutritional konjac konnyaku konyaku shirataki zero vegan plant based imitation substitute replacer replacement alternative gluten dairy powder powdered extract leaf")

// isFood reports whether the word is by itself the name of a food.
func (e *Engine) isFood(w string) bool {
	_, ok := e.lookUp(w)
	return ok && !describes[w] || e.isFoodWord(w)
}

// hasAll reports whether the food's own name or description has the words, other
// than those with a typing error and those that name nothing. The other names
// of a food may be of foods that it only stands in for.
func hasAll(words []string, f fooddata.Food) bool {
	has := fooddata.Normalise(f.Name() + " " + f.Description())
	for _, w := range words {
		near := func(other string) bool { // misspelt
			return other == w || len(w) >= 5 && other[0] == w[0] && levenshtein.ComputeDistance(w, other) <= 2
		}
		if !slices.ContainsFunc(has, near) && !trailing[w] && !onlyDescribe[w] {
			return false
		}
	}
	return true
}

// isSaltOfAKind reports words that name a salt which is not the table's: a salt
// replacer is often potassium chloride, whatever it is called.
func isSaltOfAKind(words []string) bool {
	if slices.Contains(words, "potassium") && slices.Contains(words, "chloride") {
		return true
	}
	at := slices.Index(words, "salt")
	if at < 0 || len(words) < 2 {
		return false
	}
	return at == len(words)-1 && !slices.ContainsFunc(words[:at], func(w string) bool { return flavoursOfSalt[w] }) || at == len(words)-2 && insteadOf[words[len(words)-1]]
}

// flavoursOfSalt are what is mixed with common salt, or smoked or cured with it.
var flavoursOfSalt = wordSet("garlic onion celery seasoned seasoning herb vegetable lemon chili chilli truffle smoked curing nitrite vanilla rosemary lime")
