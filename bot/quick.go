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
	switch r.Kind {
	case grammar.GramsOf:
		return c.gramsOf(r)
	case grammar.NutrientOf:
		if n, ok := fooddata.NutrientNamed(r.Nutrient); ok {
			return c.nutrientOf(n, r)
		}
		if whole := c.amount(text); whole.Status == engine.Counted && whole.Confidence > 0.7 { // "soy sauce 1 tsp"
			return c.allFigures(whole, text)
		}
		return fmt.Sprintf("%q is no nutrient that is known here. Ask like \"sodium in 1 tsp soy sauce\" or \"fibre in 1 cup cooked lentils\".", r.Nutrient)
	case grammar.ChoicesOf:
		return c.choicesOf(r)
	case grammar.Compare:
		return c.compare(r)
	}
	l := c.amount(r.Amounts[0])
	if l.Status == engine.NotCounted && l.Reason == engine.NoAmount {
		return c.per100(l, r.Amounts[0])
	}
	return c.allFigures(l, r.Amounts[0])
}

// amount resolves the text of one amount.
func (c *Conversation) amount(text string) engine.Line {
	line := grammar.ParseLine(text)
	l := c.engine.Resolve(line.Items[0])
	l.Text = text
	if line.Fault != nil {
		l.Status, l.Why, l.Reason = engine.Ask, line.Fault.Error(), engine.Unread
	}
	return l
}

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
	s := fmt.Sprintf("%s, %s (USDA %s)", sentence(l.Food.Name()), grams(l.Grams), l.Food.Number())
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
	l := c.amount(r.Amounts[0])
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	return fmt.Sprintf("%s is %s.\n%s", r.Amounts[0], grams(l.Grams), basis(&l))
}

func (c *Conversation) nutrientOf(n fooddata.Nutrient, r grammar.Request) string {
	l := c.withAmount(r.Amounts[0], "100 g")
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	have, ok := l.Has(n)
	if !ok {
		return fmt.Sprintf("The table has no figure for %s in %s: unknown, not none.\n%s", n.Name(), l.Food.Name(), basis(&l))
	}
	return fmt.Sprintf("%s in %s: %s\n%s", sentence(n.Name()), l.Text, amountWithDV(have, n), basis(&l))
}

// amountWithDV writes a range of a nutrient with its share of the Daily Value.
func amountWithDV(have engine.Range, n fooddata.Nutrient) string {
	s := value(have.Low, n)
	if have.High > have.Low*1.0001 {
		s = number(have.Low, n) + " to " + value(have.High, n)
	}
	if n == fooddata.Carbohydrate {
		return s + fmt.Sprintf(" (%s choices of 15 g)", choices(engine.Choices(have.Low)))
	}
	if dv := percentDV(have.Low, n); dv != "" {
		s += ", " + strings.TrimSuffix(dv, "%") + " % of the Daily Value"
	}
	return s
}

func (c *Conversation) choicesOf(r grammar.Request) string {
	l := c.amount(r.Amounts[0])
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	have, ok := l.Has(fooddata.Carbohydrate)
	if !ok {
		return "The table has no figure for carbohydrate in " + l.Food.Name() + "."
	}
	return fmt.Sprintf("%s: %s choices (%s total carbohydrate; 15 g a choice)\n%s", r.Amounts[0], choices(engine.Choices(have.Low)), value(have.Low, fooddata.Carbohydrate), basis(&l))
}

// allFigures answers an amount with the whole block.
func (c *Conversation) allFigures(l engine.Line, text string) string {
	if l.Status == engine.NotCounted && l.Reason == engine.OptionalItem {
		l.Status = engine.Counted
	}
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	a := engine.Single(l)
	return fmt.Sprintf("%s\n%s\n\n%s", text, block(a), basis(&l))
}

// per100 answers a bare food with the figures of 100 g.
func (c *Conversation) per100(l engine.Line, text string) string {
	if l.Food.IsZero() {
		return unclear(&l)
	}
	return c.allFigures(c.amount("100 g "+text), "100 g "+text)
}

// compare sets two foods side by side: one nutrient, or all that are shown.
func (c *Conversation) compare(r grammar.Request) string {
	left, right := c.withAmount(r.Amounts[0], "100 g"), c.withAmount(r.Amounts[1], "100 g")
	for _, l := range []*engine.Line{&left, &right} {
		if l.Status != engine.Counted {
			return unclear(l)
		}
	}
	if r.Nutrient == "" {
		return sideBySide(&left, &right)
	}
	n, ok := fooddata.NutrientNamed(r.Nutrient)
	if !ok {
		return fmt.Sprintf("%q is no nutrient that is known here. Ask like \"potassium: banana vs orange\".", r.Nutrient)
	}
	out := []string{versus(&left, &right, n)}
	if bare(r.Amounts[0]) && bare(r.Amounts[1]) {
		one, other := c.amount("1 "+r.Amounts[0]), c.amount("1 "+r.Amounts[1])
		if one.Status == engine.Counted && other.Status == engine.Counted {
			out = append(out, versus(&one, &other, n))
		}
	}
	return strings.Join(append(out, basis(&left), basis(&right)), "\n")
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

// sideBySide writes the figures of two amounts in two columns.
func sideBySide(left, right *engine.Line) string {
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
