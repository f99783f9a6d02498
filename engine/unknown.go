package engine

import (
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// What a serving may hold at most of an item that is not counted, "to taste"
// or "for garnish", in grams: of a spice the amount that 21 CFR 101.12(b) takes
// as customary (from memory), of anything else a tablespoon (common practice,
// no source).
const (
	generousSpice = 0.5
	generous      = 15
)

// missing is what a total of the recipe may lack.
type missing struct {
	bound   float64  // the most that gaps can add, where that is bounded
	bounded []string // the lines that leave those gaps
	trace   float64  // the most that items without an amount can add, where it is too little to be declared
	open    []string // the lines that may add any amount
}

// missing returns what the total of n for the recipe may lack.
func (a *Analysis) missing(n fooddata.Nutrient) missing {
	var m missing
	switch t := a.Recipe[n]; {
	case len(t.Gaps) == 0:
	case t.Bound >= 0:
		m.bound, m.bounded = t.Bound, a.names(t.Gaps)
	default:
		m.open = a.names(t.Gaps)
	}
	for i := range a.Lines {
		l := &a.Lines[i]
		add, known := l.couldAdd(n)
		if !known {
			m.open = append(m.open, l.named())
		}
		m.trace += add * a.Servings
	}
	return m
}

// couldAdd returns how much of n an ingredient that is not counted may add to
// a serving, if that is known to be too little to be declared. It is known and
// zero for a counted line, and for an optional one, which the recipe is worked
// out without.
func (l *Line) couldAdd(n fooddata.Nutrient) (amount float64, known bool) {
	switch {
	case l.Kind != grammar.Ingredient, l.Status == Counted, l.Status == None, l.Reason == OptionalItem:
		return 0, true
	case l.Status == Ask:
		return 0, false
	case len(l.Item.Words) == 1 && (l.Item.Words[0] == "water" || l.Item.Words[0] == "ice"):
		return 0, true
	case l.Food.IsZero():
		return 0, false
	}
	per100, ok := l.Food.Per100g(n).Value()
	if !ok {
		return 0, false
	}
	grams := float64(generous)
	if l.Food.Group() == "Spices and Herbs" {
		grams = generousSpice
	}
	amount = per100 * grams / 100
	return amount, insignificant(n, amount)
}

// insignificant reports whether an amount of n is too little to be declared:
// one that is declared as zero, or less than 2 % of the Daily Value of a
// vitamin or mineral (21 CFR 101.9(c)).
func insignificant(n fooddata.Nutrient, v float64) bool {
	if rule, ok := labelRules[n]; ok {
		rounded, text := roundBy(rule, v)
		return rounded == 0 && text == ""
	}
	dv, ok := fooddata.DailyValue(n)
	return ok && withoutNoise(v/dv*100) < 2
}

// allWeighed reports whether every ingredient that has an amount is counted.
func (a *Analysis) allWeighed() bool {
	for i := range a.Lines {
		if a.Lines[i].Status == Ask {
			return false
		}
	}
	return true
}

// named returns what to call the line: its food, else its words.
func (l *Line) named() string {
	switch {
	case l.Status != Ask && !l.Food.IsZero():
		return l.Food.Name()
	case len(l.Item.Words) > 0:
		return strings.Join(l.Item.Words, " ")
	}
	return l.Text
}

func (a *Analysis) names(lines []int) []string {
	out := make([]string, 0, len(lines))
	for _, i := range lines {
		out = append(out, a.Lines[i].named())
	}
	return out
}
