package engine

import (
	"math"
	"math/big"
	"slices"

	"pottle/grammar"
)

// Rounding says to which side an exact amount is rounded.
type Rounding int

// The roundings. Down is the safe side of a limit, Up that of a least amount.
const (
	Nearest Rounding = iota
	Down             // never more than the exact amount
	Up               // never less than the exact amount
)

// KitchenAmount returns the amount as a cook can measure it, how it reads, and
// its relative error: 0.02 is 2 % more than a. Kitchen and words parse back to
// the same amount. Figures belong to a, not to what is returned.
//
// Spoons and cups become the fewest fillings of the spoons and cups there are,
// within 5 % of a. Grams and millilitres go by what a scale and a jug show,
// within 5 % from 1 g and 1 ml up. Whole things are halved or cut in three or
// four, or eight if there is less than one. Metric tells that the recipe is
// metric: spoons then do not become cups. Of a range both ends are rounded and
// the larger error is returned.
//
// Below 5/8 tsp there are too few spoons for 5 %: to the nearest, a pinch being
// the smallest, the error is up to 1/32 tsp: 12.5 % at 1/4 tsp, 20 % between 1/8
// and 3/16. With Down, an amount
// smaller than any measure gives an Amount without terms, "nothing" and -1.
func KitchenAmount(a grammar.Amount, metric bool, r Rounding) (kitchen grammar.Amount, words string, err float64) {
	kitchen = a
	kitchen.Terms, err = kitchenTerms(a.Terms, metric, r)
	if len(kitchen.Terms) == 0 {
		return grammar.Amount{}, "nothing", -1
	}
	kitchen.Same = nil
	for _, same := range a.Same {
		if s, _, _ := KitchenAmount(same, metric, r); len(s.Terms) > 0 {
			s.Total = same.Total || ofSeveral(kitchen.Terms)
			kitchen.Same = append(kitchen.Same, s)
		}
	}
	return kitchen, amountWords(kitchen), err
}

// ofSeveral reports whether an amount said again in brackets would be read as
// that of one piece if it were not said to be of all.
func ofSeveral(terms []grammar.Term) bool {
	t := terms[0]
	if len(terms) != 1 || t.Each != nil || t.Quantity.Low.Cmp(wholeOne) == 0 && !t.Quantity.IsRange() {
		return false
	}
	return t.Measure == nil || t.Measure.Kind == grammar.Count || t.Measure.Kind == grammar.Container
}

var wholeOne = big.NewRat(1, 1)

// kitchenTerms rounds a sum of terms. Terms that do not add up ("1 can plus
// 2 tbsp") are rounded each by itself.
func kitchenTerms(terms []grammar.Term, metric bool, r Rounding) ([]grammar.Term, float64) {
	for _, family := range kitchenFamilies {
		if sum, written, ok := family.sum(terms); ok {
			return family.round(sum, measuring{written: written, metric: metric}, r)
		}
	}
	if len(terms) == 1 {
		return piecesTerm(terms[0], r)
	}
	var all []grammar.Term
	worst := 0.0
	for _, t := range terms {
		one, err := kitchenTerms([]grammar.Term{t}, metric, r)
		all = append(all, one...)
		worst = worseError(worst, err)
	}
	return all, worst
}

// worseError returns the error that is farther from zero.
func worseError(a, b float64) float64 {
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
}

// kitchenFamily is a set of measures that are reckoned in one of them.
type kitchenFamily struct {
	measures []string
	unit     *grammar.Measure
	round    func(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64)
}

var kitchenFamilies = []kitchenFamily{
	{[]string{"tsp", "tbsp", "cup", "fl oz", "pint", "quart", "gallon", "dash", "pinch", "smidgen", "jigger"}, measureNamed("tsp"), spoonTerms},
	{[]string{"oz", "lb", "stone"}, measureNamed("oz"), ounceTerms},
	{[]string{"ml", "cl", "dl", "l"}, measureNamed("ml"), millilitreTerms},
	{[]string{"g", "kg", "mg"}, measureNamed("g"), gramTerms},
}

// measureNamed returns a measure of the grammar's table.
func measureNamed(name string) *grammar.Measure {
	m, ok := grammar.MeasureNamed(name)
	if !ok {
		panic("engine: no measure " + name)
	}
	return m
}

// sum adds up terms of the family, in its unit, and tells which measures were
// written. It returns false if one is not of the family, or is heaped.
func (f kitchenFamily) sum(terms []grammar.Term) (sum grammar.Quantity, written []string, ok bool) {
	sum = grammar.Quantity{Low: new(big.Rat), High: new(big.Rat)}
	for _, t := range terms {
		if t.Measure == nil || t.Each != nil || t.Heaped || !slices.Contains(f.measures, t.Measure.Name) {
			return sum, nil, false
		}
		q := t.Quantity.Times(new(big.Rat).Quo(t.Measure.Amount, f.unit.Amount))
		sum.Low.Add(sum.Low, q.Low)
		sum.High.Add(sum.High, q.High)
		written = append(written, t.Measure.Name)
	}
	return sum, written, len(terms) > 0
}
