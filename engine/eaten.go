package engine

import (
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// AsEaten returns a counted line as its food is eaten, which is what a question
// between clients is about: meat, fish, grain and pulses of which neither raw nor
// cooked is said are taken as cooked, and a condensed soup as made up. It returns
// false where the line is that already or says what it is. A recipe is not read
// so: there the bare name is what goes in.
func (e *Engine) AsEaten(l *Line) (Line, bool) {
	if l.Status == Counted && slices.Contains(l.Assumed, beforeCooking) {
		return e.toldCooked(l), true
	}
	if l.Status != Counted || saysState(l.Item) || l.Food.Team() {
		return Line{}, false
	}
	for _, how := range []func(*Line) (Line, bool){e.cookedGrain, e.cookedMeat, e.madeUp} {
		if eaten, ok := how(l); ok {
			return eaten, true
		}
	}
	return Line{}, false
}

// beforeCooking is said of a recipe's line such as "1 lb spaghetti, cooked".
const beforeCooking = "weighed before cooking"

// toldCooked takes a food that is told to be cooked, by weight, as weighed so: in a
// question "4 oz chicken breast, cooked" is what is on the plate.
func (e *Engine) toldCooked(l *Line) Line {
	item := l.Item
	item.Words = append([]string{"cooked"}, item.Words...)
	isCooked := func(w string) bool { return w == "cooked" }
	item.Prep = slices.DeleteFunc(slices.Clone(item.Prep), isCooked)
	item.Tail = nil
	for _, tail := range l.Item.Tail {
		if tail = slices.DeleteFunc(slices.Clone(tail), isCooked); len(tail) > 0 {
			item.Tail = append(item.Tail, tail)
		}
	}
	cooked := e.Resolve(item)
	if cooked.Status == Counted && cooked.Food.State() != fooddata.Cooked {
		if food, ok := e.cookedForm(cooked.Food); ok {
			cooked.Food = food
		} else {
			cooked.refuse(AskFood, strings.Join(l.Item.Words, " ")+", cooked, is not in the table, and the figures are not those of the same weight raw or dry")
		}
	}
	cooked.Item = l.Item
	return cooked
}

// statesSaid are words that say which form is meant.
var statesSaid = wordSet("dry uncooked raw dried flour bran starch cornmeal germ meal condensed undiluted prepared cooked canned tinned frozen smoked cured pickled " +
	"roasted grilled fried baked boiled braised stewed broiled poached steamed sashimi sushi tartare carpaccio mix powder flake sprout sprouted")

// saysState reports whether the item says whether it is raw or cooked.
func saysState(item grammar.Item) bool {
	for _, w := range fooddata.Normalise(strings.Join(slices.Concat(item.Words, item.Prep, item.Aside), " ")) {
		if statesSaid[w] {
			return true
		}
	}
	return false
}

// cookedGrain takes a dry grain, pasta or pulse as cooked, by the cup as by weight.
// Oats are dry, however they are measured: cooked they are called oatmeal.
func (e *Engine) cookedGrain(l *Line) (Line, bool) {
	item := l.Item
	if l.Food.State() == fooddata.Cooked || item.Amount == nil || !inVolume(item.Amount) && !allWeights(*item.Amount) {
		return Line{}, false
	}
	if words := fooddata.Normalise(strings.Join(item.Words, " ")); slices.Contains(words, "oat") {
		if name := l.Food.Name(); !strings.Contains(name, "oats") && !strings.Contains(name, "oat groats") {
			return Line{}, false
		}
		return asEaten(l, *l, "counted dry; say \"oatmeal, cooked\" for cooked"), true
	}
	switch l.Food.Group() {
	case "Cereal Grains and Pasta", "Breakfast Cereals":
	case "Legumes and Legume Products":
		if !strings.Contains(l.Food.Name(), "dried") {
			return Line{}, false
		}
	default:
		return Line{}, false
	}
	item.Words = append([]string{"cooked"}, item.Words...)
	cooked := e.Resolve(item)
	if cooked.Status != Counted || cooked.Food.State() != fooddata.Cooked || !e.sameKind(l.Food, cooked.Food) {
		return Line{}, false
	}
	return asEaten(l, cooked, "taken as cooked; say \"dry\" for "+l.Food.Name()), true
}

// sameKind reports whether two foods are the same thing in other states: of one
// family, or described by the same first words. Corn flakes are no cooked corn.
func (e *Engine) sameKind(a, b fooddata.Food) bool {
	if slices.Contains(e.table.Family(a), b) {
		return true
	}
	first := func(f fooddata.Food) string {
		head, _, _ := strings.Cut(strings.ToLower(f.Description()), ",")
		return head
	}
	return first(a) == first(b) && a.Group() == b.Group()
}

// asEaten is the line l with the food of another, and a note.
func asEaten(l *Line, as Line, note string) Line {
	as.Item = l.Item
	as.Assumed = append(slices.Clone(as.Assumed), note)
	return as
}

// cookedMeat takes raw meat and fish that is weighed as cooked.
func (e *Engine) cookedMeat(l *Line) (Line, bool) {
	switch l.Food.Group() {
	case "Finfish and Shellfish Products", "Poultry Products", "Beef Products", "Pork Products", "Lamb, Veal, and Game Products":
	case "Sausages and Luncheon Meats":
		return e.cookedBacon(l)
	default:
		return Line{}, false
	}
	if l.Food.State() == fooddata.Cooked || l.Item.Amount == nil {
		return Line{}, false
	}
	if gramsSaid(l.Item.Amount) > largestPortion && slices.ContainsFunc(l.Assumed, func(note string) bool { return strings.Contains(note, " % taken off for ") }) {
		return asEaten(l, *l, "figures of the raw food, weighed as bought"), true // no plate holds 2 lb of mussels
	}
	cooked, ok := e.cookedForm(l.Food)
	if !ok || !allWeights(*l.Item.Amount) {
		if m, ok := e.cookedBacon(l); ok || l.Food.State() != fooddata.Raw || strings.Contains(l.Food.Name(), "raw") {
			return m, ok
		}
		if allWeights(*l.Item.Amount) {
			return asEaten(l, *l, "figures and weight of the raw food: the table has no cooked one like it"), true
		}
		return asEaten(l, *l, "figures and weight of the raw food; for the cooked, ask by weight, such as \"3 oz cooked "+strings.Join(l.Item.Words, " ")+"\""), true
	}
	as := *l
	as.Food = cooked
	as.Assumed = slices.DeleteFunc(slices.Clone(l.Assumed), func(note string) bool {
		return strings.HasPrefix(note, "taken as ") || strings.HasPrefix(note, "weight taken as edible") || strings.Contains(note, " % taken off for ")
	})
	as.Choices = nil
	if words := fooddata.Normalise(strings.Join(slices.Concat(l.Item.Words, l.Item.Prep, l.Item.Aside), " ")); !containsAny(words, []string{"bone", "whole", "shell"}) {
		as.Grams = portioner{food: cooked}.weigh(l.Item.Amount).grams // what is eaten has no bone
	}
	return asEaten(l, as, "taken as cooked; say \"raw\" for the raw weight"), true
}

// cookedBacon takes bacon and raw sausage, by weight or by the slice or link, as
// cooked: the table calls it so.
func (e *Engine) cookedBacon(l *Line) (Line, bool) {
	if said := l.Food.Name() + " " + l.Food.Description(); !strings.Contains(said, "bacon") && !strings.Contains(said, "sausage") || !strings.Contains(said, "raw") && !strings.Contains(said, "unprepared") {
		return Line{}, false
	}
	item := l.Item
	item.Words = append([]string{"cooked"}, item.Words...)
	cooked := e.Resolve(item)
	if cooked.Status != Counted || !strings.Contains(cooked.Food.Description(), "cooked") || cooked.Confidence < droppedWord {
		return Line{}, false
	}
	return asEaten(l, cooked, "taken as cooked; say \"raw\" for the raw weight"), true
}

// heats are the ways of cooking by which a cooked form is chosen, the plainest
// first.
var heats = []string{"cooked, dry heat", "cooked, roasted", "cooked, broiled", "cooked, grilled", "cooked, braised", "pan-broiled", "cooked, moist heat", "simmered", "roasted", "broiled", "grilled", "braised", "stewed", "pan-fried", "patty, cooked", "patties, broiled", "crumbles, cooked", "cooked"}

// cookedOf are the cooked foods of raw ones whose descriptions part in more than
// the cooking (SR28: "rib eye steak/roast, raw" and "rib eye steak, cooked").
var cookedOf = map[string]string{
	"23201": "23197", "23192": "23188", "13904": "13369", "23000": "23131", "23102": "23099",
	"10028": "10030", "10044": "10046", "10052": "10054", "10210": "10212", "17435": "17277", "17330": "17331",
	"05314": "05749", "05157": "43282", "05153": "43283",
	"15123": "15220", "15127": "15221", "15003": "15187", "15038": "15196",
}

// cookedForm returns the food whose description is that of f but for how it is
// cooked.
func (e *Engine) cookedForm(f fooddata.Food) (fooddata.Food, bool) {
	if number := cookedOf[f.Number()]; number != "" {
		return e.table.Food(number)
	}
	stem, after, ok := strings.Cut(f.Description(), ", raw")
	if !ok || after != "" && after[0] != ' ' {
		return fooddata.Food{}, false
	}
	var best fooddata.Food
	rank := len(heats)
	for other := range e.table.All() {
		rest, ok := strings.CutPrefix(other.Description(), stem+", ")
		if !ok || other.State() != fooddata.Cooked || strings.Contains(rest, "breaded") || strings.Contains(rest, "flour") || strings.Contains(rest, "batter") {
			continue
		}
		if after != "" && !strings.HasSuffix(rest, after) { // "(may contain additives to retain moisture)"
			continue
		}
		if i := slices.IndexFunc(heats, func(how string) bool { return strings.HasPrefix(rest, how) }); i >= 0 && i < rank {
			best, rank = other, i
		}
	}
	return best, !best.IsZero()
}

// madeUp takes a condensed soup measured by the cup as made up with water.
func (e *Engine) madeUp(l *Line) (Line, bool) {
	stem, ok := strings.CutSuffix(l.Food.Description(), ", condensed")
	if !ok || l.Food.Group() != "Soups, Sauces, and Gravies" || l.Item.Amount == nil || slices.ContainsFunc(l.Item.Amount.Terms, func(t grammar.Term) bool {
		return t.Measure != nil && t.Measure.Kind == grammar.Container
	}) {
		return Line{}, false
	}
	for other := range e.table.All() {
		if rest, ok := strings.CutPrefix(other.Description(), stem+", prepared with equal volume water"); ok && (rest == "" || rest[0] == ',') {
			as := *l
			as.Food, as.Choices = other, nil
			w := e.weigh(&as, l.Item, newQuery(l.Item))
			if w.why != "" {
				return Line{}, false
			}
			as.Grams = w.grams
			as.Assumed = slices.DeleteFunc(slices.Clone(l.Assumed), func(note string) bool { return strings.HasPrefix(note, "taken as ") })
			return asEaten(l, as, "taken as made up with water; say \"condensed\" for the soup in the can"), true
		}
	}
	return Line{}, false
}
