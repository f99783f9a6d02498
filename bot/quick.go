package bot

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// quick answers a question about an amount of a food.
func (c *Conversation) quick(r grammar.Request, text string) string {
	if answer, ok := measures(text); ok {
		return answer
	}
	if all, food, ok := c.severalAsked(r); ok {
		return c.severalOf(all, food)
	}
	if r.Kind == grammar.Figures || r.Kind == grammar.NutrientOf || r.Kind == grammar.Holds {
		if f, food, ok := c.figureBehind(text); ok {
			return c.nutrientOf(f, food)
		}
	}
	switch r.Kind {
	case grammar.GramsOf:
		return c.gramsOf(r)
	case grammar.NutrientOf:
		if f, ok := figureAsked(r.Nutrient, r.Unit); ok {
			return c.nutrientOf(f, r.Amounts[0])
		}
		if answer, ok := c.manyIn(r.Nutrient, r.Amounts[0]); ok && strings.Contains(strings.ToLower(text), "how many") { // "how many carrots in a pound"
			return answer
		}
		if _, ok := allergenAsked(fooddata.Normalise(r.Nutrient)); ok { // "gluten in oats"
			return c.foodSuits(grammar.Request{Kind: grammar.FoodSuits, Food: r.Amounts[0], New: r.Nutrient}, text)
		}
		if a, ok := amountOfNutrient(r.Amounts[0]); ok { // "how many grams of grapes is 15 g carb"
			if l := c.eaten(r.Nutrient); l.Status == engine.Counted {
				return c.howMuchHolds(a, r.Nutrient, l, nil)
			}
		}
		if whole := c.amount(text); whole.Status == engine.Counted && whole.Confidence > 0.7 { // "soy sauce 1 tsp"
			return c.allFigures([]engine.Line{whole}, text)
		}
		return fmt.Sprintf("%q is no nutrient that is known here. Ask like \"sodium in 1 tsp soy sauce\" or \"fibre in 1 cup cooked lentils\".", r.Nutrient)
	case grammar.ChoicesOf:
		return c.choicesOf(r)
	case grammar.Compare:
		return c.compare(r)
	case grammar.Holds:
		return c.holds(r, text)
	case grammar.Convert:
		return c.convert(r)
	case grammar.FoodSuits:
		return c.foodSuits(r, text)
	}
	if f, ok := figureAsked(r.Amounts[0], ""); ok && c.amount(r.Amounts[0]).Food.IsZero() {
		return fmt.Sprintf("%s of what? Ask like \"%s in 1 medium banana\", or paste a recipe.", f.title(), strings.ToLower(f.title()))
	}
	if _, ok := figuresAsked(r.Amounts[0]); ok && !onlyFoods(r.Amounts[0]) {
		return fmt.Sprintf("%s of what? Ask like \"%s in 1 medium banana\", or paste a recipe.", sentence(r.Amounts[0]), r.Amounts[0])
	}
	if f, food, ok := c.figureFirst(r.Amounts[0]); ok {
		return c.nutrientOf(f, food)
	}
	if f, food, ok := figureLast(r.Amounts[0]); ok {
		return c.nutrientOf(f, food)
	}
	if n, food, ok := nutrientLast(r.Amounts[0]); ok {
		return c.nutrientOf(askedFigure{nutrients: []fooddata.Nutrient{n}}, food)
	}
	found := c.amounts(r.Amounts[0])
	if len(found) == 1 && found[0].Reason == engine.NoAmount {
		return c.per100(found[0], r.Amounts[0])
	}
	return c.allFigures(found, r.Amounts[0])
}

// nutrientLast divides "2% milk calcium" into the food and the nutrient. Words
// that name foods too, as in "duck fat", "whey protein" and "brown sugar", do not
// count as nutrients here.
func nutrientLast(text string) (n fooddata.Nutrient, food string, ok bool) {
	words := strings.Fields(strings.TrimRight(text, " ?."))
	for k := min(2, len(words)-1); k > 0; k-- {
		n, ok = fooddata.NutrientNamed(strings.Join(words[len(words)-k:], " "))
		switch n {
		case fooddata.Fat, fooddata.SaturatedFat, fooddata.TransFat, fooddata.Protein, fooddata.Sugars, fooddata.AddedSugars, fooddata.Water, fooddata.Alcohol, fooddata.Starch, fooddata.Ash, fooddata.Fibre:
			ok = ok && k > 1 && words[len(words)-k] != "coconut" && words[len(words)-k] != "of" // "1 cup of sugar"
		}
		if ok && !joins[strings.ToLower(words[len(words)-k])] && words[len(words)-1] != "salt" {
			return n, strings.Join(words[:len(words)-k], " "), true
		}
	}
	return 0, "", false
}

// figureBehind divides a text that ends in the figure it asks for, behind an amount
// and a food in either order: "2 eggs protein", "cheddar 1 oz calcium". The whole
// must not be a food of the table ("duck fat", "whey protein"), and what stands
// before the figure must be one.
func (c *Conversation) figureBehind(text string) (f askedFigure, food string, ok bool) {
	words := strings.Fields(strings.Trim(halves.Replace(strings.ReplaceAll(text, ":", " ")), " ?.!\"'"))
	first := slices.IndexFunc(words, startsAmount)
	if len(words) > 0 && numberWords[strings.ToLower(words[0])] {
		first = 0
	}
	if first < 0 && len(words) > 1 && len(words) < 8 {
		return c.figureOfFood(words)
	}
	if first < 0 || len(words) < 3 || len(words) > 14 {
		return f, "", false
	}
	for _, w := range words[:first] {
		if notInName[strings.ToLower(w)] {
			return f, "", false
		}
	}
	if _, is := figureAsked(strings.Join(words[:first], " "), ""); is && first > 0 { // "sodium 1 tsp soy sauce"
		return f, "", false
	}
	for k := min(3, len(words)-first-1); k > 0; k-- {
		last := words[len(words)-k:]
		if f, ok = figureNamed(strings.Join(last, " ")); !ok || joins[strings.ToLower(last[0])] || slices.ContainsFunc(last, func(w string) bool { return strings.EqualFold(w, "of") }) {
			continue
		}
		rest := words[first : len(words)-k]
		food = strings.Join(append(slices.Clone(rest), words[:first]...), " ")
		line := grammar.ParseLine(food)
		if line.Fault != nil || len(line.Items) != 1 || line.Items[0].Amount == nil || len(line.Items[0].Words) == 0 {
			continue
		}
		if first == 0 {
			if notInName[strings.ToLower(rest[len(rest)-1])] {
				continue
			}
			if whole := c.amount(strings.Join(words, " ")); !whole.Food.IsZero() && whole.Status == engine.Counted && wordsMet(&whole) {
				return f, "", false
			}
			if kindsOfOwn[strings.ToLower(strings.Join(append(slices.Clone(line.Items[0].Words), last...), " "))] {
				return f, "", false
			}
		} else if left := strings.Join(grammar.ParseLine(strings.Join(rest, " ")).Items[0].Words, " "); left != "" { // more than the amount stands between
			if _, measure := grammar.MeasureNamed(left); !measure {
				continue
			}
		}
		if l := c.amount(food); l.Status == engine.Counted && l.Confidence > 0.7 {
			return f, food, true
		}
	}
	return f, "", false
}

// figureOfFood divides a food without an amount and a figure behind it: "egg protein".
func (c *Conversation) figureOfFood(words []string) (f askedFigure, food string, ok bool) {
	for _, w := range words {
		if notInName[strings.ToLower(w)] {
			return f, "", false
		}
	}
	if whole := c.amount("100 g " + strings.Join(words, " ")); !whole.Food.IsZero() && wordsMet(&whole) || kindsOfOwn[strings.ToLower(strings.Join(words, " "))] {
		return f, "", false
	}
	for k := min(2, len(words)-1); k > 0; k-- {
		if f, ok = figureNamed(strings.Join(words[len(words)-k:], " ")); ok {
			food = strings.Join(words[:len(words)-k], " ")
			if l := c.amount("100 g " + food); l.Status == engine.Counted && l.Confidence > 0.7 && wordsMet(&l) {
				return f, food, true
			}
		}
	}
	return f, "", false
}

// figureFirst divides "calories butter" into the figure and the food, where the
// whole is no food ("iron-fortified milk", "sodium bicarbonate") and the rest is one.
func (c *Conversation) figureFirst(text string) (f askedFigure, food string, ok bool) {
	words := strings.Fields(strings.Trim(text, " ?.!"))
	for k := min(3, len(words)-1); k > 0; k-- {
		f, ok = figureNamed(strings.Join(words[:k], " "))
		if !ok || notInName[strings.ToLower(words[k])] || notFirst[strings.ToLower(words[k])] {
			continue
		}
		food = strings.Join(words[k:], " ")
		if l := c.withAmount(food, "100 g"); l.Status != engine.Counted || l.Confidence <= 0.5 || !wordsMet(&l) {
			continue
		}
		if whole := c.withAmount(text, "100 g"); whole.Status == engine.Counted && wordsMet(&whole) && (alsoFoods[strings.ToLower(words[0])] || namesFigure(whole.Food.Name(), words[:k])) {
			return f, "", false
		}
		return f, food, true
	}
	return f, "", false
}

// notFirst are words behind the name of a nutrient that make one name with it.
var notFirst = map[string]bool{"free": true, "rich": true, "fortified": true, "reduced": true, "low": true, "bar": true, "powder": true, "shake": true, "drink": true, "supplement": true, "water": true, "content": true, "foods": true, "food": true}

// namesFigure reports whether the name of a food has a word of a figure's name.
func namesFigure(name string, figure []string) bool {
	has := fooddata.Normalise(name)
	return slices.ContainsFunc(fooddata.Normalise(strings.Join(figure, " ")), func(w string) bool { return slices.Contains(has, w) })
}

// figureNamed is figureAsked without guessing at a misspelt name.
func figureNamed(words string) (askedFigure, bool) {
	if strings.EqualFold(words, "salt") || strings.EqualFold(words, "water") || strings.EqualFold(words, "alcohol") {
		return askedFigure{}, false
	}
	f, ok := figureAsked(words, "")
	return f, ok && f.read == ""
}

// wordsMet reports whether a line was found by all of its words.
func wordsMet(l *engine.Line) bool {
	return !slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, "not taken into account") })
}

// notInName are words that stand before no amount in "FOOD AMOUNT NUTRIENT", and
// end no food in "AMOUNT FOOD NUTRIENT".
var notInName = map[string]bool{"how": true, "what": true, "which": true, "is": true, "are": true, "in": true, "of": true, "for": true, "has": true, "have": true, "from": true, "with": true, "without": true,
	"and": true, "or": true, "vs": true, "than": true, "per": true, "at": true, "under": true, "over": true, "below": true, "fit": true, "by": true, "to": true, "much": true, "many": true, "less": true, "more": true,
	"g": true, "mg": true, "add": true, "use": true, "drop": true, "set": true, "only": true, "make": true, "least": true, "most": true, "can": true, "does": true, "do": true, "added": true, "total": true, "saturated": true, "trans": true, "dietary": true, "as": true, "worth": true}

// joins are words that begin no name of a nutrient, though one is found behind them.
var joins = map[string]bool{"and": true, "or": true, "with": true, "in": true, "of": true, "for": true, "plus": true, "&": true, "without": true}

// kindsOfOwn are products that the table lacks and that no figure of the food stands
// for.
var kindsOfOwn = map[string]bool{"soy protein": true, "pea protein": true, "rice protein": true, "hemp protein": true, "whey protein": true, "wheat protein": true, "collagen protein": true,
	"oat fiber": true, "oat fibre": true, "wheat fiber": true, "wheat fibre": true, "psyllium fiber": true, "psyllium fibre": true, "corn fiber": true, "corn fibre": true, "apple fiber": true, "apple fibre": true, "beet sugar": true, "date sugar": true, "grape sugar": true, "fruit sugar": true, "palm sugar": true, "beef fat": true, "goose fat": true, "pork fat": true, "lamb fat": true}

// numberWords begin an amount where they begin the text.
var numberWords = map[string]bool{"a": true, "an": true, "one": true, "two": true, "three": true, "four": true, "five": true, "six": true}

// startsAmount reports whether a word begins an amount.
func startsAmount(w string) bool {
	r, _ := utf8.DecodeRuneInString(w)
	return r >= '0' && r <= '9' || strings.ContainsRune("¼½¾⅓⅔⅛⅜⅝⅞", r)
}

// amounts resolves the text of an amount, or of several ("2 eggs and 1 cup
// milk"), as they are eaten, since that is the question; the reply says so.
func (c *Conversation) amounts(text string) []engine.Line {
	text = shortWith.Replace(text)
	line := grammar.ParseLine(text)
	var found []engine.Line
	for _, item := range line.Items {
		l := c.engine.Resolve(item)
		if len(line.Items) == 1 {
			if one, ok := c.oneMeant(text, item); ok {
				l = one
			}
		}
		if eaten, ok := c.asEaten(&l); ok {
			l = eaten
		}
		if soaked := slices.Contains(item.Prep, "soaked") || slices.Contains(item.Words, "soaked"); soaked && !l.Food.IsZero() && l.Food.Group() == "Vegetables and Vegetable Products" {
			l.Assumed = append(l.Assumed, "soaking not taken into account: the table has no figures for it")
		}
		l.Text = text
		if line.Fault != nil {
			l.Status, l.Why, l.Reason = engine.Ask, line.Fault.Said(), engine.Unread
		}
		found = append(found, l)
	}
	return found
}

// amount resolves the text of one amount; of several, the first.
func (c *Conversation) amount(text string) engine.Line { return c.amounts(text)[0] }

// asEaten takes a line as it is eaten: a grain, meat or fish as cooked, a condensed
// soup as made up.
func (c *Conversation) asEaten(l *engine.Line) (engine.Line, bool) { return c.engine.AsEaten(l) }

// withAmount resolves text; a food without an amount counts as so much of it.
func (c *Conversation) withAmount(text, amount string) engine.Line {
	l := c.amount(text)
	if l.Status == engine.NotCounted && l.Reason == engine.NoAmount {
		l = c.amount(amount + " " + text)
	}
	return l
}

// unclear says why an amount cannot be answered.
func unclear(l *engine.Line) string {
	switch {
	case l.Example != "":
		return sentence(l.Why) + ". Ask with both, such as \"" + l.Example + "\"."
	case l.Reason == engine.AskFood && len(l.Choices) > 0:
		return fmt.Sprintf("%s.%s Ask again with one of these names.", sentence(l.Why), didYouMean(l))
	case l.Reason == engine.AskFood && strings.Contains(l.Why, "potassium chloride"):
		return sentence(l.Why) + "."
	case l.Reason == engine.AskFood && l.Item.Amount != nil && len(l.Item.Words) > 0 && len(l.Item.Words) <= 4:
		return sentence(l.Why) + ". Try another name, add it from its label, such as \"" + addExample + "\", or say \"help\"."
	case l.Reason == engine.AskFood:
		return sentence(l.Why) + ". Ask like \"sodium in 1 tsp soy sauce\", or say \"help\"."
	case l.Reason == engine.AskAmount || l.Reason == engine.Vague:
		return sentence(l.Why) + ". Ask with a weight, such as \"100 g " + itemName(l) + "\"."
	case l.Reason == engine.NoAmount:
		return "How much " + itemName(l) + "? Ask with an amount, such as \"1 cup\" or \"100 g\"."
	}
	return sentence(l.Why) + "."
}

// basis says what the answer rests on.
func basis(l *engine.Line) string {
	s := fmt.Sprintf("%s, %s (%s)", sentence(l.Food.Name()), grams(l.Grams), l.Food.Source())
	var said []string
	open := false
	for _, note := range l.Assumed {
		if note == "taken as "+l.Food.Name() {
			open = true
			continue
		}
		said = append(said, note)
	}
	if len(said) > 0 {
		s += "; " + strings.Join(said, "; ")
	}
	if open {
		s += "; taken as the usual kind"
		if len(l.Choices) > 0 {
			s += "; other kinds: " + orList(l.Choices, 4)
		}
	}
	return s + "."
}

func (c *Conversation) gramsOf(r grammar.Request) string {
	line := grammar.ParseLine(r.Amounts[0])
	l := c.engine.Resolve(line.Items[0]) // as written: no cooking is read into a weight
	l.Text = r.Amounts[0]
	if line.Fault != nil {
		l = c.amount(r.Amounts[0])
	}
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	return fmt.Sprintf("%s: %s.\n%s", sentence(r.Amounts[0]), grams(l.Grams), basis(&l))
}

// nutrientOf answers how much of what is asked for amounts of foods hold.
func (c *Conversation) nutrientOf(f askedFigure, amounts string) string {
	found := c.amounts(amounts)
	if len(found) == 1 && found[0].Reason == engine.NoAmount {
		found = c.amounts("100 g " + amounts)
	}
	have, unknown := make(map[fooddata.Nutrient]engine.Range), make(map[fooddata.Nutrient]bool)
	var rests []string
	for i := range found {
		l := &found[i]
		if l.Status != engine.Counted {
			return unclear(l)
		}
		for _, n := range f.nutrients {
			r, ok := l.Has(n)
			if !ok && len(f.nutrients) == 1 {
				return fmt.Sprintf("The table has no figure for %s in %s: unknown, not none.\n%s", n.Name(), l.Food.Name(), basis(l))
			}
			unknown[n] = unknown[n] || !ok
			have[n] = engine.Range{Low: have[n].Low + r.Low, High: have[n].High + r.High}
		}
		rests = append(rests, basis(l))
	}
	of := func(n fooddata.Nutrient) (engine.Range, bool) { return have[n], !unknown[n] }
	none := func(fooddata.Nutrient) string { return "" }
	return fmt.Sprintf("%s in %s: %s\n%s%s", f.title(), found[0].Text, f.figures(of, none), strings.Join(rests, "\n"), f.after()+transFatNote(f.nutrients, found))
}

// amountWithDV writes a range of a nutrient with its share of the Daily Value.
func amountWithDV(have engine.Range, n fooddata.Nutrient) string {
	s := value(have.Low, n)
	if have.High > have.Low*1.0001 {
		s = number(have.Low, n) + " to " + value(have.High, n)
	}
	if n == fooddata.Carbohydrate {
		return s + fmt.Sprintf(" (%s of 15 g)", choiceWords(engine.Choices(have.Low)))
	}
	if dv := percentDV(have.Low, n); dv != "" {
		s += ", " + strings.TrimSuffix(dv, "%") + " % of the Daily Value"
	}
	return s
}

func (c *Conversation) choicesOf(r grammar.Request) string {
	if a, ok := amountOfNutrient(r.Amounts[0]); ok && a.nutrient == fooddata.Carbohydrate {
		return fmt.Sprintf("%s: %s of 15 g.", r.Amounts[0], choiceWords(engine.Choices(a.amount)))
	}
	l := c.amount(r.Amounts[0])
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	have, ok := l.Has(fooddata.Carbohydrate)
	if !ok {
		return "The table has no figure for carbohydrate in " + l.Food.Name() + "."
	}
	return fmt.Sprintf("%s: %s (%s total carbohydrate; 15 g a choice)\n%s", r.Amounts[0], choiceWords(engine.Choices(have.Low)), value(have.Low, fooddata.Carbohydrate), basis(&l))
}

// allFigures answers amounts with the whole block, of all together.
func (c *Conversation) allFigures(found []engine.Line, text string) string {
	var rests []string
	for i := range found {
		l := &found[i]
		if l.Status == engine.NotCounted && l.Reason == engine.OptionalItem {
			l.Status = engine.Counted
		}
		if l.Status != engine.Counted {
			return unclear(l)
		}
		rests = append(rests, basis(l))
	}
	return fmt.Sprintf("%s\n%s\n\n%s", text, block(engine.Single(found...)), strings.Join(rests, "\n"))
}

// answered reports whether a reply of quick has figures.
func answered(reply string) bool {
	return strings.Contains(reply, "(USDA ") || strings.Contains(reply, "(team)")
}

// per100 answers a bare food with the figures of 100 g.
func (c *Conversation) per100(l engine.Line, text string) string {
	if l.Food.IsZero() {
		return unclear(&l)
	}
	return c.allFigures(c.amounts("100 g "+text), "100 g "+text)
}

// compare sets two foods side by side: one nutrient, or all that are shown. A
// food without an amount is compared by as much as the other.
func (c *Conversation) compare(r grammar.Request) string {
	if len(r.Amounts) > 2 {
		return c.rankBySeveral(r)
	}
	if _, ok := figureOrSeveral(r.Nutrient); r.Nutrient != "" && !ok { // "the most fibre apple, pear or orange"
		if words, food, first := nutrientFirst(r.Nutrient); first {
			return c.rank(grammar.Request{Kind: grammar.Compare, Nutrient: words, Amounts: append([]string{food}, r.Amounts...), Least: r.Least})
		}
	}
	if r.Nutrient == "" { // "which has more protein, ..." without a sign between
		if words, food, ok := nutrientFirst(r.Amounts[0]); ok {
			r.Nutrient, r.Amounts = words, []string{food, r.Amounts[1]}
		}
	}
	left, right := c.withAmount(r.Amounts[0], "100 g"), c.withAmount(r.Amounts[1], "100 g")
	switch {
	case bare(r.Amounts[0]) && !bare(r.Amounts[1]):
		left = c.asMuchAs(&right, r.Amounts[0], left)
	case bare(r.Amounts[1]) && !bare(r.Amounts[0]):
		right = c.asMuchAs(&left, r.Amounts[1], right)
	}
	for _, l := range []*engine.Line{&left, &right} {
		if l.Status != engine.Counted {
			return unclear(l)
		}
	}
	if r.Nutrient == "" {
		return twoFoods(&left, &right)
	}
	f, ok := figureOrSeveral(r.Nutrient)
	if !ok {
		return fmt.Sprintf("%q is no nutrient that is known here. Ask like \"potassium: banana vs orange\".", r.Nutrient)
	}
	var out []string
	parts := f.partsOf(&left, &right)
	for _, n := range parts {
		out = append(out, versus(&left, &right, n))
	}
	if bare(r.Amounts[0]) && bare(r.Amounts[1]) {
		one, other := c.amount("1 "+r.Amounts[0]), c.amount("1 "+r.Amounts[1])
		if one.Status == engine.Counted && other.Status == engine.Counted && max(one.Grams.Low, other.Grams.Low) <= onePortion {
			for _, n := range parts {
				out = append(out, versus(&one, &other, n))
			}
		}
	}
	return strings.Join(append(out, basis(&left), basis(&right)), "\n") + f.after() + transFatNote(f.nutrients, []engine.Line{left, right})
}

// onePortion is the most grams of one piece that foods are compared by: nobody is
// served a whole turkey.
const onePortion = 600

// asMuchAs resolves a food in the amount of another: in the same measure and the
// same state where it has those, else by the same weight. With neither it is as it
// was.
func (c *Conversation) asMuchAs(other *engine.Line, text string, was engine.Line) engine.Line {
	line := grammar.ParseLine(text)
	if other.Status != engine.Counted || len(line.Items) != 1 || other.Item.Amount == nil {
		return was
	}
	item := c.inState(line.Items[0], grammar.Line{Kind: grammar.Ingredient, Items: []grammar.Item{other.Item}})
	item.Amount, item.Uncounted = other.Item.Amount, ""
	l := c.engine.Resolve(item)
	if eaten, ok := c.asEaten(&l); ok {
		l = eaten
	}
	if l.Status == engine.Counted {
		l.Text = text
		l.Assumed = append(l.Assumed, "in the amount of the other, "+other.Item.Amount.String())
		return l
	}
	l = c.amount(fmt.Sprintf("%.1f g %s", other.Grams.Low, text))
	if l.Status == engine.Counted {
		l.Assumed = append(l.Assumed, "by the weight of the other")
	}
	return l
}

// nutrientFirst divides "protein chicken" into the words of the nutrient and the
// food.
func nutrientFirst(text string) (nutrient, food string, ok bool) {
	words := strings.Fields(text)
	for k := min(3, len(words)-1); k > 0; k-- {
		if _, ok := figureAsked(strings.Join(words[:k], " "), ""); ok {
			return strings.Join(words[:k], " "), strings.Join(words[k:], " "), true
		}
	}
	return "", "", false
}

func bare(text string) bool { return grammar.ParseLine(text).Items[0].Amount == nil }

// versus compares one nutrient of two amounts.
func versus(left, right *engine.Line, n fooddata.Nutrient) string {
	say := func(l *engine.Line) string {
		if have, ok := l.Has(n); ok {
			return fmt.Sprintf("%s (%s) %s", itemName(l), grams(l.Grams), value(have.Low, n))
		}
		return fmt.Sprintf("%s (%s) no figure", itemName(l), grams(l.Grams))
	}
	return fmt.Sprintf("%s: %s; %s", sentence(n.Name()), say(left), say(right))
}

// twoFoods writes the figures of two amounts in two columns.
func twoFoods(left, right *engine.Line) string {
	var b strings.Builder
	for _, r := range shown {
		cell := func(l *engine.Line) string {
			if have, ok := l.Has(r.nutrient); ok {
				return number(have.Low, r.nutrient)
			}
			return "no figure"
		}
		label := r.label + ", " + r.nutrient.Unit()
		line := pad(label, 24-width(cell(left))) + cell(left)
		line = pad(line, blockWidth-width(cell(right))) + cell(right)
		b.WriteString(line + "\n")
	}
	return fmt.Sprintf("First %s, then %s:\n%s%s\n%s", itemName(left), itemName(right), b.String(), basis(left), basis(right))
}
