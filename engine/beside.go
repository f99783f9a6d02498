package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// "Coffee with sugar" and "toast and butter" name two foods and an amount of one at
// most. The figures of the first alone would be a wrong answer, so how much of the
// second there is must be asked.

// ownParts are what is told of a food with "with" that is a part of it or comes
// with it, and no other food.
var ownParts = wordSet("skin peel shell bone rind fat seed stem leaf top green tail head pulp juice liquid brine core husk crust root it water yolk white membrane pit stone " +
	"marrow giblet roe claw foot flavor flavour culture vitamin calcium fibre fiber iron protein lid handle care hand fork knife spoon")

// anyOf are words that name a food without saying which.
var anyOf = wordSet("sauce gravy topping filling frosting icing dressing meatball veggie vegetable fruit nut cheese meat salad jelly jam spread cream dip butter syrup sugar bean sprinkle cereal noodle soup " +
	"cracker cookie cake bread chip fries sausage chicken beef pork fish shrimp tuna ham bacon turkey pepperoni")

// isSecond reports whether words name a food, or say that there is one.
func (e *Engine) isSecond(words []string) bool {
	plain := withoutPreparation(words)
	if len(plain) == 0 {
		return false
	}
	head := plain[len(plain)-1]
	if anyOf[head] || e.isFood(head) {
		return true
	}
	_, ok := e.named(query{words: plain})
	return ok
}

// besides returns the food that an item tells without an amount beside the one
// that was found: "sugar" of "coffee with sugar". It is empty if there is none.
// What only flavours a food as it is sold, or is a spice, is none; it is noted.
func (e *Engine) besides(q query, m Match) string {
	has := fooddata.Normalise(m.Food.Name() + " " + m.Food.Description())
	for _, tail := range q.tails {
		at := slices.Index(tail, "with")
		if at < 0 || at+1 >= len(tail) || at > 0 && !joinsWith[tail[at-1]] {
			continue
		}
		second := tail[at+1:]
		last := second[len(second)-1]
		if last == "salt" && at > 0 { // of the cooking water
			continue
		}
		if ownParts[last] || ownParts[second[0]] || (last == "syrup" || last == "oil") && slices.Contains(has, "canned") || len(second) == 1 && onlyFlavours[last] || slices.Contains(has, last) || allHeard(second, m.heard) || q.canned || q.boxed || grammar.IsPreparation(second[0]) && len(second) == 1 || !e.isSecond(second) {
			continue
		}
		if other, ok := e.named(query{words: withoutPreparation(second)}); ok && other.Food.Group() == "Spices and Herbs" && !isSaltFood(other.Food) {
			continue
		}
		return asWritten(second, q.written)
	}
	return ""
}

// asWritten are the words as the line writes them.
func asWritten(words []string, tails [][]string) string {
	for _, tail := range tails {
		if at := slices.Index(tail, "with"); at >= 0 && slices.Equal(fooddata.Normalise(strings.Join(tail[at+1:], " ")), words) {
			return strings.Join(tail[at+1:], " ")
		}
	}
	return strings.Join(words, " ")
}

// joinsWith are words before "with" that tell of what is put on a food.
var joinsWith = wordSet("topped served spread smothered covered loaded filled stuffed sprinkled drizzled mixed dressed dipped made cooked prepared eaten")

// withoutJoin drops the word that joins with "with" from the end of a name: "pancakes
// topped".
func withoutJoin(words []string) []string {
	if last := len(words) - 1; last > 0 && joinsWith[words[last]] {
		return words[:last]
	}
	return words
}

func isSaltFood(f fooddata.Food) bool { return f.Number() == "02047" }

// ownPart reports whether what a tail tells with "with" is in the food's figures:
// an apple has its skin.
func ownPart(tail []string, f fooddata.Food) bool {
	has := fooddata.Normalise(f.Name() + " " + f.Description())
	at := slices.Index(has, tail[len(tail)-1])
	return at >= 0 && (at == 0 || has[at-1] != "without" && has[at-1] != "no")
}

// halves parts the words of an item at "and".
func halves(words []string) (first, second []string) {
	for i, w := range words {
		if i > 0 && i+1 < len(words) && (w == "and" || w == "&" || w == "plus" || w == "n") {
			return words[:i], words[i+1:]
		}
	}
	return nil, nil
}

// bothOf are the two sides of "and" in the form that matching needs.
func bothOf(words []string) [][]string {
	first, second := halves(words)
	if first == nil {
		return nil
	}
	return [][]string{fooddata.Normalise(strings.Join(first, " ")), fooddata.Normalise(strings.Join(second, " "))}
}

// askBoth asks how much of two foods joined by "and" there is.
func (e *Engine) askBoth(l *Line) {
	first, second := halves(l.Item.Words)
	e.askBeside(l, strings.Join(first, " "), strings.Join(second, " "), "beside")
	l.Food = fooddata.Food{}
}

// twoFoods reports whether the words are two foods joined by "and".
func (e *Engine) twoFoods(q query) bool {
	return len(q.both) == 2 && len(q.both[0]) > 0 && len(q.both[1]) > 0 && e.isSecond(q.both[0]) && e.isSecond(q.both[1])
}

// oneProduct reports words that name one thing of two flavours and not two foods:
// "sour cream and onion dip".
func (q query) oneProduct() bool {
	return len(q.both) == 2 && len(q.both[1]) > 1 && productHeads[q.both[1][len(q.both[1])-1]]
}

var productHeads = wordSet("dip chip seasoning spread paste dressing granola sausage mix salad soup oatmeal cracker cookie bar sauce casserole pie cake muffin roll wrap sandwich burger pizza ravioli")

// onlyFlavours are what is added in so small an amount that no figure moves.
var onlyFlavours = wordSet("chive parsley cilantro coriander dill basil mint oregano thyme rosemary sage tarragon herb spice lemon lime garlic ice pepper cinnamon nutmeg vinegar stevia")

// ofBoth reports whether a name is that of both foods together.
func ofBoth(name string) bool {
	return strings.Contains(name, " and ") || strings.Contains(name, "&") || strings.Contains(name, " with ") || strings.Contains(name, "-and-")
}

// askBeside asks how much of the second food there is, with an example that can be
// answered.
func (e *Engine) askBeside(l *Line, first, second, joint string) {
	l.Choices = nil
	l.refuse(AskAmount, fmt.Sprintf("the amount of %s %s the %s is not said", second, joint, first))
	texts := []string{e.withAmount(firstAmounts(l.Item.Amount, first), first)}
	for _, part := range strings.Split(strings.ReplaceAll(second, " & ", " and "), " and ") {
		if kind := exampleOf[part]; kind != "" {
			part = kind
		}
		amounts := []string{"2 tbsp", "1 slice", "1", "3 oz"}
		if pluralName(strings.Fields(part)) {
			amounts = []string{"2 tbsp", "2", "1/2 cup", "3 oz"}
		}
		if usual := usualBeside[part]; usual != "" {
			amounts = []string{usual}
		}
		texts = append(texts, e.withAmount(amounts, part))
	}
	l.Example = strings.Join(texts, " and ")
}

// exampleOf are kinds that stand for a food that leaves its kind open, in an
// example; usualBeside is how much of some foods people add.
var (
	exampleOf   = map[string]string{"sauce": "marinara sauce", "gravy": "beef gravy", "dressing": "italian dressing", "syrup": "maple syrup", "cheese": "cheddar", "beans": "pinto beans", "chips": "french fries"}
	usualBeside = map[string]string{"sugar": "2 tsp", "brown sugar": "2 tsp", "salt": "1/4 tsp", "butter": "1 tbsp", "margarine": "1 tbsp", "cheddar": "1 oz", "pinto beans": "1/2 cup", "marinara sauce": "1/2 cup", "milk": "1/2 cup",
		"rice": "1 cup", "french fries": "3 oz", "granola": "1/2 cup", "ice cream": "1/2 cup"}
)

// firstAmounts are amounts to try for the first food, as it was said first.
func firstAmounts(a *grammar.Amount, food string) []string {
	amounts := []string{"1 slice", "1", "1 cup", "3 oz"}
	if pluralName(strings.Fields(food)) {
		amounts = []string{"2", "1 cup", "3 oz"}
	}
	if a == nil || a.String() == "100 g" {
		return amounts
	}
	said := a.String()
	if t := a.Terms[0]; len(a.Terms) == 1 && t.Each == nil && t.Measure != nil && t.Measure.Kind == grammar.Count && ratio(t.Quantity.High) > 1 {
		said += "s"
	}
	return append([]string{said}, amounts...)
}

var joining = wordSet("and & plus n with w/ topped")

// oddAmounts are amounts by which nobody measures the foods of a group.
var oddAmounts = map[string]map[string]bool{
	"Cereal Grains and Pasta": setOf("1", "2"), "Baked Products": setOf("2 tbsp", "1 cup", "1/2 cup"),
	"Poultry Products": setOf("1", "1 cup", "2 tbsp"), "Beef Products": setOf("1", "1 cup", "2 tbsp"), "Pork Products": setOf("1", "1 cup", "2 tbsp"), "Finfish and Shellfish Products": setOf("1", "1 cup", "1 slice", "2 tbsp"),
}

// withAmount writes a food with the first of the amounts that can be worked out.
func (e *Engine) withAmount(amounts []string, food string) string {
	if slices.ContainsFunc(strings.Fields(food), func(w string) bool { return joining[w] }) { // no question within the question
		return amounts[0] + " " + food
	}
	for _, amount := range amounts {
		items := grammar.ParseLine(amount + " " + food).Items
		if len(items) != 1 {
			continue
		}
		if l := e.resolve(items[0], false); l.Status == Counted && !oddAmounts[l.Food.Group()][amount] {
			return amount + " " + food
		}
	}
	return amounts[0] + " " + food
}

// noteCookedIn says where a food is told to be cooked in another that its figures do
// not hold: "rice cooked in butter".
func (l *Line) noteCookedIn(q query) {
	has := fooddata.Normalise(l.Food.Name() + " " + l.Food.Description())
	for _, tail := range q.written {
		for i := 0; i+1 < len(tail); i++ {
			how := slices.ContainsFunc(l.Item.Words, func(w string) bool { return cookedIn[w] })
			if i > 0 {
				how = cookedIn[tail[i-1]]
			}
			if tail[i] == "in" && how && fatOrMilk[tail[len(tail)-1]] && !slices.Contains(has, tail[len(tail)-1]) {
				l.Assumed = append(l.Assumed, quoted(tail[i:])+" not taken into account")
				break
			}
		}
	}
}

var (
	cookedIn  = wordSet("cooked fried sauteed sautéed boiled simmered made prepared browned roasted toasted scrambled poached soaked popped")
	fatOrMilk = wordSet("butter oil milk cream lard margarine ghee shortening syrup gravy sauce fat drippings")
)
