package engine

import (
	_ "embed"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"sync"

	"pottle/fooddata"
	"pottle/grammar"
)

// NotSafe is what goes with every option that takes an allergen out.
const NotSafe = "That an allergen no longer shows does not make the dish safe: read every label, and mind traces."

// SwapOption is one food put in the place of another, worked out.
type SwapOption struct {
	Edits         []Edit              // none where there is no recipe
	Lines         []int               // of the recipe, that it changes
	What          string              // "use 1 tbsp lemon juice plus 15 tbsp 1% milk instead of 1 cup buttermilk"
	Dish          string              // what it does to the dish
	Figures       []string            // that move visibly in a serving, or in the amount that What names if there is no recipe
	Brings        []fooddata.Allergen // major allergens that it brings or may bring in
	MayBring      []fooddata.Allergen // those of Brings that it only may bring in, as makers differ
	Gluten        string              // a sentence if it brings in gluten that Brings does not tell of; else ""
	NoLongerShows []fooddata.Allergen // major allergens that the ingredients no longer show; see NotSafe
	Source        string

	still []fooddata.Allergen // of the food, that the option holds too
}

// swapRule is a row of swap_rules.tsv.
type swapRule struct {
	lines          foodSet
	change         ruleChange
	most           *big.Rat // times the exchange; nil for any
	dishes         dishSet
	where          string // the dishes as the table has them
	effect, source string
}

//go:embed swap_rules.tsv
var swapTable string

var swapRules = sync.OnceValue(func() []swapRule {
	var rules []swapRule
	for _, f := range tableRows("swap_rules.tsv", swapTable, 6) {
		r := swapRule{lines: parseFoods(f[0]), change: parseExchange(f[1]), dishes: parseDishes(f[3]), where: f[3], effect: f[4], source: f[5]}
		if f[2] != "-" {
			r.most = parseMost(f[2], r.change.of)
		}
		rules = append(rules, r)
	}
	return rules
})

// parseMost returns how many times an exchange's amount the most is.
func parseMost(column string, of grammar.Item) *big.Rat {
	most, kind, ok := magnitude(*amountItem(column).Amount)
	unit, same, ok2 := magnitude(*of.Amount)
	if !ok || !ok2 || kind != same {
		panic(fmt.Sprintf("engine: cannot read the most %q", column))
	}
	return new(big.Rat).Quo(most, unit)
}

// Swaps returns what can stand for a food ("buttermilk", "maple syrup",
// "eggs", "wheat flour"): on the lines of the recipe that hold it, or for a
// usual amount if r is nil or has none of it. It returns none if the food is
// not known or the table has nothing for it. Work is as for Suggest.
func (e *Engine) Swaps(r *grammar.Recipe, food string, work Work) []SwapOption {
	options := e.swaps(r, food, work)
	if asked := fooddata.Normalise(food); slices.Contains(asked, "wheat") { // not any flour: that of wheat
		options = slices.DeleteFunc(options, func(o SwapOption) bool { return slices.Contains(o.still, fooddata.Wheat) })
	}
	return options
}

func (e *Engine) swaps(r *grammar.Recipe, food string, work Work) []SwapOption {
	wanted := e.Resolve(oneOf(namedItem(strings.ToLower(food)))).Food
	if wanted.IsZero() {
		return nil
	}
	if r != nil {
		b := e.base(r, work)
		all := spots(r, b.assembled)
		if at := e.lookedFor(all, wanted, food); len(at) > 0 {
			var options []SwapOption
			for _, same := range byFood(at) {
				for _, rule := range swapRules() {
					if o, ok := e.swapOption(b, rule, same); ok {
						options = append(options, o)
					}
				}
			}
			return options
		}
	}
	var options []SwapOption
	for _, rule := range swapRules() {
		if rule.lines.match(wanted) {
			if o, ok := e.usualSwap(rule, wanted, food); ok {
				options = append(options, o)
			}
		}
	}
	return options
}

// lookedFor returns the counted items that are the food; else those of its
// family; else those whose words hold the words asked for.
func (e *Engine) lookedFor(all []spot, wanted fooddata.Food, words string) []spot {
	family := e.table.Family(wanted)
	asked := withoutPreparation(fooddata.Normalise(words))
	for _, is := range []func(spot) bool{
		func(p spot) bool { return p.got.Food == wanted },
		func(p spot) bool { return slices.Contains(family, p.got.Food) },
		func(p spot) bool { return len(asked) > 0 && containsAll(itemWords(p.got.Item), asked) },
	} {
		var found []spot
		for _, p := range all {
			if p.got.Status == Counted && is(p) {
				found = append(found, p)
			}
		}
		if len(found) > 0 {
			return found
		}
	}
	return nil
}

// byFood groups items of the same food in the same kind of dish, in order.
func byFood(all []spot) [][]spot {
	var groups [][]spot
	for _, p := range all {
		i := slices.IndexFunc(groups, func(g []spot) bool { return g[0].got.Food == p.got.Food && g[0].dish == p.dish })
		if i < 0 {
			groups = append(groups, []spot{p})
			continue
		}
		groups[i] = append(groups[i], p)
	}
	return groups
}

// swapOption works a rule out on items of one food.
func (e *Engine) swapOption(b base, rule swapRule, same []spot) (SwapOption, bool) {
	o := SwapOption{Dish: rule.effect, Source: rule.source}
	if !rule.lines.match(same[0].got.Food) || !rule.dishes[same[0].dish] || sameFoods(e, rule, same[0].got.Food) {
		return o, false
	}
	var adds []Edit
	var said []string
	added := 0
	for _, p := range same {
		if times, ok := e.times(p.got, rule.change.of); !ok || rule.most != nil && times.Cmp(rule.most) > 0 {
			return o, false
		}
		s, ok := e.lineChange(b.recipe, p, rule.change, wholeShare)
		if !ok {
			return o, false
		}
		for _, edit := range s.edits {
			if edit.Kind == EditAdd {
				adds = append(adds, edit)
			} else {
				o.Edits = append(o.Edits, edit)
			}
		}
		added += s.added
		o.Lines = append(o.Lines, p.line)
		if !slices.Contains(said, s.what) {
			said = append(said, s.what)
		}
	}
	o.Edits = append(o.Edits, adds...)
	o.What = strings.Join(said, "; ")
	t, ok := e.trial(b, o.Edits, added)
	if !ok || !e.keepsItsPart(rule, same[0].got.Food, t.after) {
		return o, false
	}
	o.figure(b.served, t.after)
	if slices.ContainsFunc(same, func(p spot) bool {
		return partlyEaten(b.served, p.got.Number) && !partlyEaten(t.after, p.got.Number)
	}) {
		o.Dish += "; its figures count all of it: where the directions throw some away they do not name it"
	}
	if o.still = e.still(rule, same[0].got.Food); len(o.still) > 0 {
		var names []string
		for _, a := range o.still {
			names = append(names, plainAllergen(a))
		}
		o.Dish += "; still " + strings.Join(names, " and ")
	}
	return o, true
}

// partlyEaten reports whether some of a line is thrown away, as a marinade or
// cooking water is.
func partlyEaten(a *Analysis, number int) bool {
	return slices.ContainsFunc(a.Lines, func(l Line) bool {
		return l.Number == number && slices.ContainsFunc(l.Assumed, func(s string) bool {
			return strings.Contains(s, "the rest thrown away") || strings.Contains(s, "the rest poured off")
		})
	})
}

// keepsItsPart reports whether a rule that keeps a part of the food, half of
// the flour, leaves as much of it with what the recipe holds already of what
// comes in.
func (e *Engine) keepsItsPart(rule swapRule, food fooddata.Food, after *Analysis) bool {
	kept, brought := 0.0, 0.0
	var others []fooddata.Food
	for _, item := range rule.change.items {
		if l := e.Resolve(item); l.Food == food {
			kept += l.Grams.Low
		} else {
			brought += l.Grams.Low
			others = append(others, l.Food)
		}
	}
	if kept == 0 || brought == 0 {
		return true
	}
	is, of := 0.0, 0.0
	for i := range after.Lines {
		l := &after.Lines[i]
		if l.Status != Counted || l.Food != food && !slices.Contains(others, l.Food) {
			continue
		}
		of += l.Grams.Low
		if l.Food == food {
			is += l.Grams.Low
		}
	}
	return is >= kept/(kept+brought)*of*(1-offMeasure)
}

// still returns the allergens that the food is known to hold and that what a
// rule brings holds too: it is no way round them.
func (e *Engine) still(rule swapRule, food fooddata.Food) []fooddata.Allergen {
	had, _ := food.Allergens()
	var list []fooddata.Allergen
	for _, a := range had {
		if slices.ContainsFunc(rule.change.items, func(item grammar.Item) bool {
			has, _ := e.Resolve(item).Food.Allergens()
			return slices.Contains(has, a)
		}) {
			list = append(list, a)
		}
	}
	return list
}

// plainAllergen is the allergen as a food that holds it is spoken of: "egg".
func plainAllergen(a fooddata.Allergen) string {
	switch a {
	case fooddata.Eggs:
		return "egg"
	case fooddata.Soybeans:
		return "soy"
	}
	return a.String()
}

// figure fills in what moves.
func (o *SwapOption) figure(before, after *Analysis) {
	o.Figures = movedFigures(before, after, fooddata.Nutrient(fooddata.NumNutrients))
	moves := AllergenMoves(before, after)
	o.Brings, o.MayBring, o.NoLongerShows, o.Gluten = moves.all(), moves.MayBring, moves.NoLongerShows, moves.Gluten
}

// sameFoods reports whether the rule would put a food in its own place.
func sameFoods(e *Engine, rule swapRule, f fooddata.Food) bool {
	return len(rule.change.items) == 1 && e.Resolve(rule.change.items[0]).Food == f
}

// usualSwap works a rule out for the amount that the rule itself names.
func (e *Engine) usualSwap(rule swapRule, wanted fooddata.Food, food string) (SwapOption, bool) {
	item := rule.change.of
	if e.Resolve(item).Food != wanted {
		item.Words, item.Prep, item.Tail = strings.Fields(strings.ToLower(food)), nil, nil
	}
	r := &grammar.Recipe{Servings: grammar.Exactly(1, 1), Lines: []grammar.Line{{Number: 1, Kind: grammar.Ingredient, Text: item.String(), Items: []grammar.Item{item}}}}
	b := e.base(r, nil)
	same := spots(r, b.assembled)
	if b.assembled.Lines[0].Status != Counted {
		return SwapOption{}, false
	}
	for d := range rule.dishes { // whatever dish it is for
		if rule.dishes[d] {
			same[0].dish = Dish(d)
			break
		}
	}
	o, ok := e.swapOption(b, rule, same)
	o.Edits, o.Lines = nil, nil
	where := strings.ReplaceAll(rule.where, "baked", "doughs and batters")
	if rest, but := strings.CutPrefix(where, "any but "); but {
		o.Dish += " (not in " + rest + ")"
	} else if where != "any" {
		o.Dish = "in " + where + ": " + o.Dish
	}
	return o, ok
}

// diet is a way of eating that some foods do not fit. It judges by the kind of
// food only: the label tells.
type diet struct {
	name       string
	words      string // what it is called, alternatives between commas
	allergens  []fooddata.Allergen
	avoid, may foodSet
}

const (
	// Cheeses that are made with animal rennet by tradition are among the may.
	meatFoods = "@Beef; @Pork; @Poultry; @Lamb; @Sausages; @Finfish; @Soups chicken; @Soups beef; @Soups ham; @Soups fish; @Soups clam; @Soups pork; " +
		"@Soups bacon; @Soups turkey; =fish sauce; =oyster sauce; =worcestershire sauce; gelatin @Sweets -pudding; =lard; =lard and vegetable shortening; =beef tallow; " +
		"=meat drippings; =chicken fat; =duck fat; =goose fat; =turkey fat; =mutton tallow; =bacon fat; =cod liver oil; =pork and beans, canned; =marshmallows; =marshmallow creme; " +
		"=baked beans, canned, pork, sweet sauce; =baked beans with frankfurters, canned; =caesar dressing; =beef gravy; =chicken gravy; =turkey gravy; =au jus"
	perhapsMeat = "=grated parmesan; =shredded parmesan; =block parmesan; =romano cheese; =refried beans, canned; =refrigerated pesto; =jarred pesto; =kimchi; @Soups onion; =chili with beans, canned"
	// Oats are milled with wheat; corn flakes are flavoured with malt by most makers.
	glutenFoods   = "barley; rye; malt; malted; triticale; beer; spelt; khorasan; gluten -free; bulgur; couscous; semolina; farina; graham"
	perhapsGluten = "oat -milk; corn flake; =tamari; @Soups; @Sausages; =miso"
)

var diets = []diet{
	{name: "dairy-free", words: "dairy free, no dairy, milk free, without milk, without dairy, no milk, non dairy", allergens: []fooddata.Allergen{fooddata.Milk}},
	{name: "egg-free", words: "egg free, eggfree, no egg, without egg, eggless", allergens: []fooddata.Allergen{fooddata.Eggs}},
	{name: "gluten-free", words: "gluten free, no gluten, without gluten, celiac, coeliac", allergens: []fooddata.Allergen{fooddata.Wheat},
		avoid: parseFoods(glutenFoods), may: parseFoods(perhapsGluten)},
	{name: "wheat-free", words: "wheat free, no wheat, without wheat", allergens: []fooddata.Allergen{fooddata.Wheat}},
	{name: "vegetarian", words: "vegetarian, veggie, meatless, meat free, without meat, no meat", avoid: parseFoods(meatFoods), may: parseFoods(perhapsMeat)},
	{name: "vegan", words: "vegan, plant based", allergens: []fooddata.Allergen{fooddata.Milk, fooddata.Eggs}, avoid: parseFoods(meatFoods + "; honey; @Dairy"), may: parseFoods(perhapsMeat)},
	{name: "nut-free", words: "nut free, no nut, without nut, tree nut free", allergens: []fooddata.Allergen{fooddata.TreeNuts, fooddata.Peanuts}},
	{name: "peanut-free", words: "peanut free, no peanut, without peanut", allergens: []fooddata.Allergen{fooddata.Peanuts}},
	{name: "soy-free", words: "soy free, no soy, without soy, soya free", allergens: []fooddata.Allergen{fooddata.Soybeans}},
	{name: "sesame-free", words: "sesame free, no sesame, without sesame", allergens: []fooddata.Allergen{fooddata.Sesame}},
	{name: "fish-free", words: "fish free, no fish, without fish", allergens: []fooddata.Allergen{fooddata.Fish}},
	{name: "shellfish-free", words: "shellfish free, no shellfish, without shellfish", allergens: []fooddata.Allergen{fooddata.Shellfish}},
}

// dietNamed returns the diet that words name. The longest name in them counts,
// so that "peanut free" is not "nut free".
func dietNamed(words string) (diet, bool) {
	said := " " + strings.Join(fooddata.Normalise(words), " ") + " "
	best, longest := diet{}, 0
	for _, d := range diets {
		for name := range strings.SplitSeq(d.words, ", ") {
			plain := " " + strings.Join(fooddata.Normalise(name), " ") + " "
			if strings.Contains(said, plain) && len(plain) > longest {
				best, longest = d, len(plain)
			}
		}
	}
	return best, longest > 0
}

// judge reports whether f does not fit the diet by its nature or usual recipe,
// and whether it may not fit, as makers differ.
func (d diet) judge(f fooddata.Food) (not, perhaps bool) {
	if f.IsZero() {
		return false, false
	}
	contains, may := f.Allergens()
	for _, a := range d.allergens {
		not = not || slices.Contains(contains, a)
		perhaps = perhaps || slices.Contains(may, a)
	}
	return not || d.avoid.match(f), perhaps || d.may.match(f) || f.Team() // whose make-up is not told
}

// judgeLine is judge of a line. A food that only stands in for the one named
// does not decide: vegetable broth that is counted as chicken broth is judged
// by its own words.
func (d diet) judgeLine(l *Line) (not, perhaps bool) {
	not, perhaps = d.judge(l.Food)
	in := newDishFood(0, l, "")
	if l.Food.IsZero() || !in.standIn {
		return not, perhaps
	}
	not = false
	for _, a := range d.allergens {
		v := in.allergen(a)
		not = not || v == doesContain
		perhaps = perhaps || v == mayContain
	}
	animal := d.avoid.match(l.Food) && !meatless(in.words)
	return not || animal, perhaps
}

// meatless reports whether the words of a food say that it is of plants:
// "vegan chicken"; but of chicken and vegetable soup the meat counts.
func meatless(words []string) bool {
	return containsAny(words, surelyMeatless) || containsAny(words, ofPlants) && !containsAny(words, ofAnimals)
}

var (
	surelyMeatless = fooddata.Normalise("vegetarian veggie vegan meatless meat-free plant-based")
	ofPlants       = fooddata.Normalise("vegetable mushroom")
	ofAnimals      = fooddata.Normalise("meat beef veal pork ham bacon lamb mutton chicken turkey duck goose poultry sausage bone fish tuna salmon anchovy shrimp prawn crab lobster clam oyster seafood gelatin lard")
)

// calledAs is what a line is called: by its own words where the food counted is
// another.
func calledAs(l *Line) string {
	if newDishFood(0, l, "").standIn {
		return calledInRecipe(l)
	}
	return l.Food.Name()
}

// SwapFor returns one option for each line that does not fit a diet
// ("dairy-free", "vegetarian", "vegan", "gluten-free", "egg-free"), and in
// words what has no good swap or depends on its label. ok is false if the diet
// is not known. Options change different lines and may all be made. That
// nothing is left to swap does not make the dish safe: see NotSafe. Work is as
// for Suggest.
func (e *Engine) SwapFor(r *grammar.Recipe, dietName string, work Work) (options []SwapOption, without []string, ok bool) {
	d, ok := dietNamed(dietName)
	if !ok || r == nil {
		return nil, nil, ok
	}
	b := e.base(r, work)
	var bad []spot
	for _, p := range spots(r, b.assembled) {
		not, perhaps := d.judgeLine(p.got)
		switch {
		case p.got.Food.IsZero() && e.eachFits(p.got.Item, d):
		case p.got.Item.String() == "": // talk, no ingredient
		case p.got.Food.IsZero():
			without = append(without, fmt.Sprintf("%s: not known, so it may not fit; read its label", p.got.Item.String()))
		case not && p.got.Status == Counted:
			bad = append(bad, p)
		case not:
			without = append(without, fmt.Sprintf("%s: not %s; no amount of it is counted to swap", p.got.Food.Name(), d.name))
		case perhaps:
			without = append(without, fmt.Sprintf("%s may not be %s, as makers differ: choose it by its label", calledAs(p.got), d.name))
		}
	}
	taken := make(map[int]bool)
	for _, same := range byFood(bad) {
		name := same[0].got.Food.Name()
		option, found := e.swapForDiet(b, d, same)
		switch {
		case !found:
			without = append(without, fmt.Sprintf("%s: no good swap in the table (%s)", name, same[0].dish))
		case slices.ContainsFunc(option.Lines, func(i int) bool { return taken[i] }):
			without = append(without, name+": stands on a line that changes already; ask again after that")
		default:
			for _, i := range option.Lines {
				taken[i] = true
			}
			options = append(options, option)
		}
	}
	return options, without, true
}

// eachFits reports whether an item is several foods that all fit the diet:
// "salt and pepper".
func (e *Engine) eachFits(item grammar.Item, d diet) bool {
	for part := range strings.SplitSeq(strings.ReplaceAll(strings.Join(item.Words, " "), " & ", " and "), " and ") {
		m, ok := e.named(query{words: fooddata.Normalise(part)})
		if not, perhaps := d.judge(m.Food); !ok || not || perhaps {
			return false
		}
	}
	return true
}

// swapForDiet returns the first rule that fits the diet; one whose foods may
// not fit only where there is no other, and with that said.
func (e *Engine) swapForDiet(b base, d diet, same []spot) (SwapOption, bool) {
	var second SwapOption
	found := false
	for _, rule := range swapRules() {
		fits, doubt := e.suits(rule, d)
		if !fits || found && doubt != "" {
			continue
		}
		o, ok := e.swapOption(b, rule, same)
		switch {
		case !ok:
		case doubt == "":
			return o, true
		default:
			o.Dish += "; " + doubt + " may not be " + d.name + ": read the label"
			second, found = o, true
		}
	}
	return second, found
}

// suits reports whether all that a rule brings fits the diet, and names what
// only may.
func (e *Engine) suits(rule swapRule, d diet) (fits bool, doubt string) {
	for _, item := range rule.change.items {
		f := e.Resolve(item).Food
		not, perhaps := d.judge(f)
		if not {
			return false, ""
		}
		if perhaps {
			doubt = f.Name()
		}
	}
	return true, doubt
}
