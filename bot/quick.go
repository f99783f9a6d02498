package bot

import (
	"fmt"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// quick answers a question about an amount of a food.
func (c *Conversation) quick(r grammar.Request, text string) string {
	if answer, ok := measures(text); ok {
		return answer
	}
	switch r.Kind {
	case grammar.GramsOf:
		return c.gramsOf(r)
	case grammar.NutrientOf:
		if f, ok := figureAsked(r.Nutrient, r.Unit); ok {
			return c.nutrientOf(f, r.Amounts[0])
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
		if ok && words[len(words)-1] != "salt" {
			return n, strings.Join(words[:len(words)-k], " "), true
		}
	}
	return 0, "", false
}

// amounts resolves the text of an amount, or of several ("2 eggs and 1 cup
// milk"), as they are eaten, since that is the question; the reply says so.
func (c *Conversation) amounts(text string) []engine.Line {
	line := grammar.ParseLine(text)
	var found []engine.Line
	for _, item := range line.Items {
		l := c.engine.Resolve(item)
		if eaten, ok := c.asEaten(&l); ok {
			l = eaten
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
	return fmt.Sprintf("%s in %s: %s\n%s%s", f.title(), found[0].Text, f.figures(of, none), strings.Join(rests, "\n"), f.after())
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
	f, ok := figureAsked(r.Nutrient, "")
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
		if one.Status == engine.Counted && other.Status == engine.Counted {
			for _, n := range parts {
				out = append(out, versus(&one, &other, n))
			}
		}
	}
	return strings.Join(append(out, basis(&left), basis(&right)), "\n") + f.after()
}

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
