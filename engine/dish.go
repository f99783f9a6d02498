package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Dish is what kind of dish a recipe, or a part of it, makes. It decides which
// changes a recipe bears.
type Dish uint8

// The kinds of dish. OtherDish is any that no cue names: a roast, a pilaf, a
// sandwich.
const (
	OtherDish Dish = iota
	YeastDough
	QuickBread // muffins, pancakes, cornbread too
	Biscuit    // and scones: fat rubbed in
	Cake
	FoamCake // what stands on beaten egg white: sponge, meringue, soufflé
	Cookie
	Pastry
	Filling // a filling or topping of something baked
	Frosting
	Custard // puddings and cheesecake too
	FrozenDessert
	FruitDessert
	Candy
	Preserve // jam, jelly, chutney and anything put up in jars
	Pickle   // and ferments
	Cure     // and brines
	Soup     // and stews
	Salad
	Sauce // and dressings, dips
	Casserole
	StirFry
	Cereal // porridge, granola
	Drink

	numDishes = int(iota)
)

var dishNames = [numDishes]string{
	"other dish", "yeast dough", "quick bread", "biscuit", "cake", "foam cake", "cookie", "pastry", "filling", "frosting", "custard",
	"frozen dessert", "fruit dessert", "candy", "preserve", "pickle", "cure", "soup", "salad", "sauce", "casserole", "stir-fry",
	"cereal", "drink",
}

// String returns the name of the kind, as the tables of rules write it.
func (d Dish) String() string {
	if int(d) >= numDishes {
		return "unknown dish"
	}
	return dishNames[d]
}

// dishNamed returns the kind with the given name.
func dishNamed(name string) (Dish, bool) {
	i := slices.Index(dishNames[:], name)
	return Dish(max(i, 0)), i >= 0
}

// baked are the kinds that rise or set in an oven by their proportions.
var baked = []Dish{YeastDough, QuickBread, Biscuit, Cake, FoamCake, Cookie, Pastry}

// settled are the kinds whose safety, keeping or texture rests on their
// proportions so much that no change is suggested.
var settled = []Dish{Preserve, Pickle, Cure, Candy}

// titleCues are words of a title or heading and the kind they name. The last
// of them in the title counts ("jam muffins" are muffins), of several that
// end together the longest ("crab cakes", "coffee cake").
var titleCues = []struct {
	dish  Dish
	words string
}{
	{YeastDough, "yeast bread, yeast roll, roll, bun, pizza, pizza dough, focaccia, bagel, pretzel, naan, pita, challah, brioche, ciabatta, baguette, sourdough, flatbread, dough, bread, loaf"},
	{QuickBread, "muffin, quick bread, banana bread, zucchini bread, pumpkin bread, cornbread, corn bread, soda bread, gingerbread, pancake, hotcake, flapjack, waffle, crepe, popover, doughnut, donut, hush puppy, spoonbread, dumpling"},
	{Biscuit, "biscuit, scone, shortcake"},
	{Cake, "cake, cupcake, torte, gateau, bundt, coffee cake, pound cake, fruitcake"},
	{FoamCake, "angel food cake, angel food, sponge cake, chiffon cake, genoise, meringue, pavlova, macaron, souffle"},
	{Cookie, "cookie, brownie, blondie, shortbread, biscotti, snickerdoodle, macaroon, gingersnap, cookie bar, bar"},
	{Pastry, "pie, tart, pastry, turnover, galette, pie crust, crust, tart shell, puff pastry, strudel, empanada, quiche"},
	{Filling, "filling, pie filling, topping, streusel, crumb topping, stuffing mix"},
	{Frosting, "frosting, icing, buttercream, glaze, ganache"},
	{Custard, "custard, pudding, flan, creme brulee, creme caramel, panna cotta, cheesecake, mousse, lemon curd, curd, bread pudding, rice pudding, blancmange, tiramisu"},
	{FrozenDessert, "ice cream, ice cream cake, sorbet, sherbet, gelato, granita, popsicle, ice pop, frozen yogurt, semifreddo"},
	{FruitDessert, "crisp, cobbler, crumble, brown betty, buckle, compote, baked apple, poached pear, applesauce, fruit salad"},
	{Candy, "fudge, caramel, caramel sauce, brittle, toffee, candy, praline, truffle, nougat, divinity, marshmallow, taffy, lollipop, fondant, honeycomb"},
	{Preserve, "jam, freezer jam, jelly, marmalade, preserve, conserve, chutney, fruit butter, apple butter, pear butter, pumpkin butter, peach butter"},
	{Pickle, "pickle, pickled, quick pickle, sauerkraut, kraut, kimchi, relish, chowchow, fermented, ferment, giardiniera, kombucha, kvass"},
	{Cure, "cured, cure, gravlax, gravadlax, jerky, biltong, bresaola, brine, brined, dry brine, salt cod"},
	{Soup, "soup, stew, chili, chowder, bisque, gumbo, broth, stock, minestrone, pho, ramen, borscht, gazpacho, dal, dahl, curry, goulash, ragout, tagine, pozole, bouillabaisse, cioppino, potage, chilli, congee"},
	{Salad, "salad, slaw, coleslaw, tabbouleh, tabouli"},
	{Sauce, "sauce, dressing, salad dressing, vinaigrette, dip, gravy, salsa, pesto, marinade, hummus, spread, guacamole, mayonnaise, aioli, ketchup, chimichurri, tzatziki, tapenade, barbecue sauce, rub, spice rub, seasoning"},
	{Casserole, "casserole, lasagna, lasagne, gratin, au gratin, bake, enchilada, mac cheese, macaroni cheese, moussaka, strata, pot pie, potpie, shepherd pie, shepherds pie, cottage pie, tamale pie, hotdish, manicotti, stuffing, parmigiana, scalloped potato, meatloaf, meat loaf"},
	{StirFry, "stir fry, stir fried, fried rice, lo mein, pad thai, chow mein, saute, sauteed, hash"},
	{Cereal, "oatmeal, porridge, granola, muesli, overnight oat, granola bar"},
	{Drink, "smoothie, smoothie bowl, shake, milkshake, lemonade, limeade, punch, cocoa, hot chocolate, tea, latte, cocktail, drink, juice, cider, eggnog, lassi, horchata, coffee, sangria"},
	// Words that end the name of some other dish.
	{OtherDish, "crab cake, fish cake, salmon cake, potato cake, rice cake, tuna cake, potato pancake, spring roll, egg roll, cabbage roll, lettuce roll, sushi roll, rice, pasta, spaghetti, noodle, taco, burrito, sandwich, burger, wrap, quesadilla, bread crumb, shrimp cocktail, dal makhani, sloppy joe, bowl, hot dog, omelet, omelette, frittata, fritter, kebab, skewer"},
}

type titleCue struct {
	dish  Dish
	words []string
}

// cuesByLast holds the title cues by their last word.
var cuesByLast = func() map[string][]titleCue {
	m := make(map[string][]titleCue)
	for _, row := range titleCues {
		for phrase := range strings.SplitSeq(row.words, ", ") {
			words := fooddata.Normalise(phrase)
			last := words[len(words)-1]
			m[last] = append(m[last], titleCue{row.dish, words})
		}
	}
	return m
}()

// aside are the words after which a title no longer names the dish itself:
// "salmon with dill sauce".
var aside = regexp.MustCompile(`(?i)\s(with|in|on|over|from|for|topped|served)\s|[(,:;]`)

// headOnly are the kinds that a title names only with its last word; the
// others are named by a word anywhere ("pickled beets").
var headOnly = [numDishes]bool{Soup: true, Salad: true, Sauce: true, Casserole: true, Cereal: true, Drink: true, Filling: true, FruitDessert: true}

// afterName are words that may follow the name of a dish.
var afterName = wordSet("recipe deluxe supreme i ii iii 1 2 3 new old version easy quick")

// titled returns the kind that a title or heading names.
func titled(title string) (Dish, []string, bool) {
	title = strings.TrimSpace(title)
	if i := aside.FindStringIndex(title); i != nil && i[0] > 0 {
		title = title[:i[0]]
	}
	words := fooddata.Normalise(title)
	for len(words) > 1 && afterName[words[len(words)-1]] {
		words = words[:len(words)-1]
	}
	for end := len(words) - 1; end >= 0; end-- {
		best, found := titleCue{}, false
		for _, cue := range cuesByLast[words[end]] {
			start := end + 1 - len(cue.words)
			if headOnly[cue.dish] && end < len(words)-1 {
				continue // "pesto chicken" is no sauce
			}
			if start >= 0 && slices.Equal(words[start:end+1], cue.words) && (!found || len(cue.words) > len(best.words)) {
				best, found = cue, true
			}
		}
		if found {
			return best.dish, best.words, true
		}
	}
	return OtherDish, nil, false
}

// Cues in the directions. Jars that are filled, sealed and boiled make a
// preserve whatever the dish is called; a water bath alone is a custard's.
var (
	cannedCue  = regexp.MustCompile(`\bcanner\b|\bhead ?space\b|canning jar|\bsteril\w+ .*\bjars?\b|\bjars?\b.*\bsteril|\bprocess (the )?(filled )?(jars|pints|quarts|half-pints)|\bjars?\b.*(boiling[- ]water bath|\bprocess (for )?\d+ min)`)
	curedCue   = regexp.MustCompile(`\b(cure|curing)\b.*\b(days?|hours?|overnight|weeks?)\b|\b(days?|hours?|overnight|weeks?)\b.*\b(to cure|curing)\b`)
	fermentCue = regexp.MustCompile(`\bferment(s|ing|ed|ation)?\b|\bpickling\b`)
	riseCue    = regexp.MustCompile(`\b(let|leave|until)\b.*\b(rise|risen|doubled|double in)\b|\bknead\b.*\brise\b`)
	cookieCue  = regexp.MustCompile(`cookie sheet|drop by|drop (rounded )?(tea|table)spoon|cookies`)
	breadCue   = regexp.MustCompile(`muffin|loaf pan|griddle`)
	rubCue     = regexp.MustCompile(`cut in (the )?(butter|shortening|margarine|lard|fat)|rub (in )?the (butter|fat)|biscuit cutter`)
	pastryCue  = regexp.MustCompile(`\broll (it |the dough |dough |out|pastry)`)
	simmerCue  = regexp.MustCompile(`\bsimmer|bring .*to (a|the) boil`)
	wokCue     = regexp.MustCompile(`\bwok\b|stir-fry|stir fry`)
	bakeCue    = regexp.MustCompile(`(casserole|baking) dish`)
	tossCue    = regexp.MustCompile(`\btoss\b`)
	freezeCue  = regexp.MustCompile(`ice cream (maker|machine)|freeze until|churn`)
)

// dishPart is what classification looks at: a recipe, or the lines under one
// of its headings.
type dishPart struct {
	title    string
	items    []grammar.Item
	method   string // in lower case
	servings float64
}

// has reports whether an ingredient holds all the words.
func (p dishPart) has(words ...string) bool {
	return p.hasWithout(words, nil)
}

func (p dishPart) hasWithout(words, without []string) bool {
	for _, item := range p.items {
		have := itemWords(item)
		if containsAll(have, words) && !containsAny(have, without) {
			return true
		}
	}
	return false
}

// itemWords are the words of an item's food and preparation as names compare.
func itemWords(item grammar.Item) []string {
	return fooddata.Normalise(strings.Join(item.Words, " ") + " " + strings.Join(item.Prep, " "))
}

func containsAll(have, words []string) bool {
	for _, w := range words {
		if !slices.Contains(have, w) {
			return false
		}
	}
	return true
}

func containsAny(have, words []string) bool {
	for _, w := range words {
		if slices.Contains(have, w) {
			return true
		}
	}
	return false
}

func (p dishPart) floured() bool {
	return p.has("flour") || p.has("cornmeal") || p.hasWithout([]string{"oat"}, []string{"milk"})
}

func (p dishPart) yeasted() bool {
	return p.floured() && (p.hasWithout([]string{"yeast"}, []string{"nutritional", "extract", "brewer", "spread"}) ||
		p.has("sourdough", "starter") || p.has("flour") && !p.raised() && riseCue.MatchString(p.method))
}

func (p dishPart) raised() bool {
	return p.has("baking", "powder") || p.has("baking", "soda") || p.has("bicarbonate") || p.has("rising", "flour")
}

// brinedSalt is the salt a serving, in grams, from which a recipe is taken for
// a cure or a brine and not for a seasoned dish (common practice, no source),
// and leastBrine the least salt of one.
const (
	brinedSalt = 4.0
	leastBrine = 50.0
)

// brine reports whether there is as much salt as a cure or brine takes.
func (p dishPart) brine() bool {
	grams := 0.0
	for _, item := range p.items {
		words := itemWords(item)
		if !slices.Contains(words, "salt") || containsAny(words, []string{"no", "unsalted", "added", "free", "low"}) || item.Amount == nil {
			continue
		}
		for _, t := range item.Amount.Terms {
			switch {
			case t.Measure == nil:
			case t.Measure.Kind == grammar.Volume:
				grams += ratio(t.Quantity.Low) * ratio(t.Measure.Amount) * gramsPerMLOfSalt
			case t.Measure.Kind == grammar.Weight:
				grams += ratio(t.Quantity.Low) * ratio(t.Measure.Amount)
			}
		}
	}
	servings := p.servings
	if servings <= 0 {
		servings = 8
	}
	return grams >= leastBrine && grams/servings >= brinedSalt
}

// gramsPerMLOfSalt is 6.0 g a teaspoon.
const gramsPerMLOfSalt = 6.0 / 4.92892159375

// kind returns what kind of dish the part is, the kinds that must not be
// changed first.
func (p dishPart) kind() (Dish, bool) {
	named, words, titled := titled(p.title)
	put := cannedCue.MatchString(p.method) || p.has("pectin") || p.has("canning", "salt")
	switch {
	case put && titled && slices.Contains(settled, named):
		return named, true
	case put:
		return Preserve, true
	case p.has("curing", "salt"), p.has("prague", "powder"), p.has("saltpeter"), p.has("saltpetre"), curedCue.MatchString(p.method):
		return Cure, true
	case p.has("pickling", "salt"), p.has("pickling", "spice"), fermentCue.MatchString(p.method) && !p.floured():
		return Pickle, true
	case titled && (named == Pickle || named == Cure || named == Preserve) && p.has(words...):
		titled = false // "pork chops and sauerkraut", with sauerkraut bought
	}
	if titled && slices.Contains([]Dish{Preserve, Pickle, Cure}, named) {
		return named, true
	}
	if p.brine() {
		return Cure, true
	}
	if p.yeasted() {
		return YeastDough, true
	}
	if titled {
		switch {
		case named == YeastDough && p.floured() && p.raised():
			return QuickBread, true
		case named == YeastDough:
			return OtherDish, true // bread or dough that is bought
		}
		return named, true
	}
	return p.madeOf()
}

// madeOf tells the kind from ingredients and directions alone.
func (p dishPart) madeOf() (Dish, bool) {
	fat := p.has("butter") || p.has("shortening") || p.has("lard") || p.has("margarine")
	switch {
	case p.has("flour") && p.raised() && rubCue.MatchString(p.method):
		return Biscuit, true
	case p.has("flour") && p.raised() && cookieCue.MatchString(p.method):
		return Cookie, true
	case p.has("flour") && p.raised() && breadCue.MatchString(p.method):
		return QuickBread, true
	case p.has("flour") && p.raised() && p.has("sugar"):
		return Cake, true // the strictest of what it may be
	case p.has("flour") && p.raised():
		return QuickBread, true
	case p.has("flour") && fat && pastryCue.MatchString(p.method):
		return Pastry, true
	case freezeCue.MatchString(p.method):
		return FrozenDessert, true
	case wokCue.MatchString(p.method):
		return StirFry, true
	case bakeCue.MatchString(p.method):
		return Casserole, true
	case simmerCue.MatchString(p.method) && (p.has("broth") || p.has("stock") || p.has("bouillon")):
		return Soup, true
	case tossCue.MatchString(p.method) && (p.has("lettuce") || p.has("vinegar") || p.has("dressing") || p.has("green")):
		return Salad, true
	}
	return OtherDish, false
}

// DishOf returns what kind of dish the recipe makes, by its title, its
// ingredients and its directions. In doubt it is the kind that bears the least
// change.
func DishOf(r *grammar.Recipe) Dish {
	d, _ := wholeDish(r).kind()
	return d
}

func wholeDish(r *grammar.Recipe) dishPart {
	p := dishPart{title: r.Title, method: strings.ToLower(strings.Join(r.Method, "\n"))}
	if r.Servings.Low != nil {
		p.servings = ratio(r.Servings.Low)
	}
	for _, l := range r.Lines {
		p.items = append(p.items, l.Items...)
	}
	return p
}

// partDishes returns for each line of the recipe what kind of dish the part
// under its heading is: the frosting of a cake is no cake. Where the recipe is
// of a kind that must not change, every part is.
func partDishes(r *grammar.Recipe) []Dish {
	whole := wholeDish(r)
	dish, _ := whole.kind()
	dishes := make([]Dish, len(r.Lines))
	for i := range dishes {
		dishes[i] = dish
	}
	if slices.Contains(settled, dish) {
		return dishes
	}
	for start := 0; start < len(r.Lines); start++ {
		if r.Lines[start].Kind != grammar.Heading {
			continue
		}
		part := dishPart{title: strings.TrimPrefix(strings.ToLower(strings.Trim(r.Lines[start].Text, "*_#: ")), "for "), servings: whole.servings}
		end := start + 1
		for end < len(r.Lines) && r.Lines[end].Kind != grammar.Heading {
			part.items = append(part.items, r.Lines[end].Items...)
			end++
		}
		if own, ok := part.own(dish); ok {
			for i := start; i < end; i++ {
				dishes[i] = own
			}
		}
	}
	return dishes
}

// own returns the kind of a part where it differs from the whole. "Dry
// ingredients" and other headings that name no dish leave it as it is.
func (p dishPart) own(whole Dish) (Dish, bool) {
	if len(p.items) == 0 {
		return OtherDish, false
	}
	if p.yeasted() || p.has("curing", "salt") || p.has("pectin") || p.brine() {
		return p.kind()
	}
	named, _, ok := titled(p.title)
	if !ok || named == YeastDough || named == OtherDish {
		return OtherDish, false
	}
	if slices.Contains(baked, whole) && slices.Contains(baked, named) && !p.floured() {
		return OtherDish, false // "for the cake: wet ingredients"
	}
	return named, true
}
