package bot

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// change answers the requests that make a new version of the recipe in hand.
// ok is false if the request names no line of it and reads as a question too.
func (c *Conversation) change(r grammar.Request) (reply string, ok bool) {
	v := c.inHand()
	var edits []engine.Edit
	var notes []string
	said := ""
	switch r.Kind {
	case grammar.Add:
		line := grammar.ParseLine(r.Food)
		for _, item := range line.Items {
			l := c.engine.Resolve(item)
			if l.Status != engine.Counted {
				return "Nothing was added. " + unclear(&l), true
			}
			edits = append(edits, engine.Edit{Kind: engine.EditAdd, Item: item, Text: r.Food})
		}
		said = "added " + r.Food
	case grammar.Include:
		lines := c.optionalLines(r.Food)
		if len(lines) == 0 {
			return fmt.Sprintf("No optional line holds %q. Say \"lines\" to see them.", r.Food), true
		}
		for _, at := range lines {
			edits = append(edits, engine.Edit{Kind: engine.EditInclude, Line: at, Text: v.recipe.Lines[at].Text})
		}
		said = "with the optional " + r.Food
	default:
		if food, all := everyOf(r.Food); all {
			if named, _ := c.linesNamed(food); len(named) > 1 {
				return c.changeEach(r, named), true
			}
			r.Food = food
		}
		at, why := c.lineNamed(r.Food)
		if at < 0 {
			if named, _ := c.linesNamed(r.Food); len(named) > 1 {
				why += " For every one of them say \"all\"."
			}
			return why, r.Else == nil
		}
		edit, did, wrong := c.edit(r, at)
		if wrong != "" {
			return wrong, true
		}
		edits, said = []engine.Edit{edit}, did
		if notes, wrong = c.keptHere(at, edit); wrong != "" {
			return wrong, true
		}
	}
	recipe, err := engine.Apply(v.recipe, edits...)
	if err != nil {
		return "The recipe is as it was: " + err.Error() + ".", true
	}
	before, after := c.add(recipe, said)
	return c.changed(before, after, append(notes, c.newAssumptions(before, after)...)...), true
}

// keptHere says why the dish rests on the line that an edit changes. Where the
// line keeps the food safe it refuses less of it: salt in a pickle, a cure or a
// preserve is never cut here.
func (c *Conversation) keptHere(at int, e engine.Edit) (notes []string, refused string) {
	recipe := c.inHand().recipe
	for _, k := range c.engine.Kept(recipe, engine.All, c.serve) {
		if k.Line != at {
			continue
		}
		if k.Safety && c.lessens(e, recipe.Lines[at].Items[0]) {
			return nil, fmt.Sprintf("The recipe is as it was: %s stays. %s (%s). If the line was read wrong, correct it with \"line %d is ...\".", k.What, sentence(k.Why), k.Source, c.ordinal(at))
		}
		notes = append(notes, fmt.Sprintf("Mind: %s (%s).", k.Why, k.Source))
	}
	return notes, ""
}

// lessens reports whether an edit leaves less of what a line holds, or another
// food.
func (c *Conversation) lessens(e engine.Edit, was grammar.Item) bool {
	switch e.Kind {
	case engine.EditMultiply:
		return e.Factor.Cmp(big.NewRat(1, 1)) < 0
	case engine.EditAmount:
		now := was
		now.Amount = e.Item.Amount
		return c.engine.Resolve(now).Grams.Low < c.engine.Resolve(was).Grams.Low
	}
	return true
}

// edit makes the edit of one line that a request asks for.
func (c *Conversation) edit(r grammar.Request, at int) (edit engine.Edit, did, wrong string) {
	line := c.inHand().recipe.Lines[at]
	item := line.Items[0]
	name := strings.Join(item.Words, " ")
	switch r.Kind {
	case grammar.Drop:
		return engine.Edit{Kind: engine.EditDrop, Line: at}, "left out " + line.Text, ""
	case grammar.MultiplyFood:
		if r.Factor == nil || r.Factor.Sign() <= 0 {
			return edit, "", fmt.Sprintf("That would leave none of the %s. To leave it out, say \"drop %s\".", name, r.Food)
		}
		if item.Amount == nil {
			return edit, "", fmt.Sprintf("%q has no amount to change. Say how much, such as \"%s 1/2 tsp\".", line.Text, name)
		}
		if r.Factor.Cmp(mostTimes) > 0 {
			return edit, "", "That is more than a thousand times as much. The recipe is as it was."
		}
		many := make([]grammar.Item, len(line.Items))
		for i := range line.Items {
			many[i] = engine.Multiply(line.Items[i], r.Factor)
		}
		_, words, _ := engine.KitchenAmount(*many[0].Amount, c.inHand().recipe.Metric, engine.Nearest)
		return engine.Edit{Kind: engine.EditMultiply, Line: at, Factor: r.Factor, Text: engine.LineText(many, line.Items)}, fmt.Sprintf("%s %s → %s", name, c.amountWords(*item.Amount), words), ""
	case grammar.SetAmount:
		said := grammar.ParseLine(r.New)
		if r.Fault != nil || said.Fault != nil || said.Items[0].Amount == nil {
			return edit, "", fmt.Sprintf("%q is no amount. Say for instance \"%s 1/2 cup\".", r.New, r.Food)
		}
		if now := said.Items[0].Amount; item.Amount != nil && len(now.Terms) == 1 && len(item.Amount.Terms) == 1 && now.Terms[0].Measure != nil && item.Amount.Terms[0].Each != nil { // one can of two (15 oz) cans
			said.Items[0].Amount = sameKind(item.Amount, now)
		}
		changed := engine.SetAmount(item, said.Items[0].Amount)
		if l := c.engine.Resolve(changed); l.Status != engine.Counted {
			return edit, "", "The recipe is as it was. " + unclear(&l)
		}
		before := "no amount"
		if item.Amount != nil {
			before = c.amountWords(*item.Amount)
		}
		items := slices.Clone(line.Items)
		items[0] = changed
		return engine.Edit{Kind: engine.EditAmount, Line: at, Item: said.Items[0], Text: engine.LineText(items, line.Items)},
			fmt.Sprintf("%s %s → %s", name, before, r.New), ""
	case grammar.UseInstead:
		return c.useInstead(r, at)
	}
	return edit, "", "That change is not known."
}

// amountWords writes an amount in measures of a kitchen where that is exact, or
// where nobody wrote it as it is: scaling leaves "2.28515625 cup".
func (c *Conversation) amountWords(a grammar.Amount) string {
	if _, words, off := engine.KitchenAmount(a, c.inHand().recipe.Metric, engine.Nearest); off == 0 || words != "" && off > -1 && workedOut(a) {
		return words
	}
	return a.String()
}

// workedOut reports an amount with a fraction that no recipe is written with.
func workedOut(a grammar.Amount) bool {
	most := big.NewInt(100)
	return slices.ContainsFunc(a.Terms, func(t grammar.Term) bool {
		return t.Quantity.Low != nil && t.Quantity.Low.Denom().Cmp(most) > 0 || t.Quantity.High != nil && t.Quantity.High.Denom().Cmp(most) > 0
	})
}

var mostTimes = grammar.Exactly(1000, 1).Low

// useInstead puts another food in a line, with its own amount if one is said.
func (c *Conversation) useInstead(r grammar.Request, at int) (edit engine.Edit, did, wrong string) {
	line := c.inHand().recipe.Lines[at]
	said := grammar.ParseLine(r.New)
	item := said.Items[0]
	kind := engine.EditLine
	if item.Amount == nil {
		kind = engine.EditFood
		item = c.inState(said.Items[0], line)
		item.Amount, item.Uncounted = line.Items[0].Amount, line.Items[0].Uncounted
	}
	if item.Amount == nil {
		return edit, "", fmt.Sprintf("%q has no amount. Say how much of the %s.", line.Text, r.New)
	}
	if l := c.engine.Resolve(item); l.Status != engine.Counted {
		return edit, "", "The recipe is as it was. " + unclear(&l)
	}
	if kind == engine.EditFood {
		if whole, note := c.keepWhole(line.Items[0], item); note != "" {
			kind, item, r.New = engine.EditLine, whole, r.New+", "+note+","
		}
	}
	return engine.Edit{Kind: kind, Line: at, Item: item, Text: item.String()}, fmt.Sprintf("%s instead of %s", r.New, strings.Join(line.Items[0].Words, " ")), ""
}

// inState puts the state of a line's food, cooked or canned, before a food that
// stands in for it and says no state: brown rice for cooked rice is cooked. What
// was done to the old food is done to the new one, and what was weighed with its
// bone or shell still is.
func (c *Conversation) inState(item grammar.Item, line grammar.Line) grammar.Item {
	was := line.Items[0]
	if len(item.Prep) == 0 {
		item.Prep, item.Tail = engine.Prepared(was, item)
	}
	if was.Amount == nil {
		return item
	}
	item = c.engine.AsBought(was, item)
	old := c.engine.Resolve(was)
	if old.Status != engine.Counted {
		return item
	}
	now := item
	now.Amount, now.Uncounted = was.Amount, ""
	as := c.engine.Resolve(now)
	word := stateWord[old.Food.State()]
	if word == "" || as.Status != engine.Counted || as.Food.State() == old.Food.State() || saysState(item.Words) {
		return item
	}
	now.Words = append([]string{word}, item.Words...)
	if alike := c.engine.Resolve(now); alike.Status == engine.Counted && alike.Food.State() == old.Food.State() {
		item.Words = now.Words
	}
	return item
}

var stateWord = map[fooddata.State]string{fooddata.Cooked: "cooked", fooddata.Canned: "canned"}

// saysState reports whether a name says in what state the food is.
func saysState(words []string) bool {
	for _, w := range words {
		switch w {
		case "raw", "cooked", "uncooked", "dry", "dried", "canned", "fresh", "frozen", "tinned":
			return true
		}
	}
	return false
}

// newAssumptions says what a changed line was taken for, if that is assumed.
func (c *Conversation) newAssumptions(before, after *version) []string {
	had := make(map[string]bool)
	for i := range before.analysis.Lines {
		had[assumption(&before.analysis.Lines[i])] = true
	}
	var notes []string
	for i := range after.analysis.Lines {
		l := &after.analysis.Lines[i]
		if s := assumption(l); s != "" && !had[s] {
			notes = append(notes, "Assumed: "+s)
		}
	}
	return notes
}

func assumption(l *engine.Line) string {
	if l.Status != engine.Counted || len(l.Assumed) == 0 {
		return ""
	}
	said := []string{fmt.Sprintf("%s, %s", l.Food.Name(), grams(l.Grams))}
	for _, note := range l.Assumed {
		if note != "taken as "+l.Food.Name() {
			said = append(said, note)
		}
	}
	return strings.Join(said, "; ")
}
