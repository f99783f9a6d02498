package engine

import (
	"math"
	"math/big"
	"slices"

	"pottle/grammar"
)

// spoonTerms measures a sum of teaspoons.
func spoonTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	if sum.Low.Sign() <= 0 {
		return nil, -1
	}
	tsp := measureNamed("tsp").Amount
	if m.metric && sum.Low.Cmp(big.NewRat(48, 1)) > 0 && !slices.Contains(m.written, "cup") {
		return millilitreTerms(sum.Times(tsp), measuring{}, r)
	}
	if name, ok := m.only("pinch", "dash", "smidgen"); ok {
		one := new(big.Rat).Quo(measureNamed(name).Amount, tsp)
		n := sum.Times(new(big.Rat).Inv(one))
		if n.Low.Cmp(wholeOne) >= 0 && n.High.Cmp(big.NewRat(4, 1)) <= 0 { // a pinch is not cut in parts
			low, high := toMultiple(n.Low, wholeOne, r), toMultiple(n.High, wholeOne, r)
			t := grammar.Term{Quantity: grammar.Quantity{Low: low, High: high}, Measure: measureNamed(name)}
			return []grammar.Term{t}, worseError(errorOf(low, n.Low), errorOf(high, n.High))
		}
		m.written = nil
	}
	if sum.IsRange() {
		return rangeOut(sum, spoonUnits, m, r)
	}
	terms, err := measureOut(sum.Low, spoonUnits, m, r)
	if terms == nil && r != Down { // less than half of any spoon
		smidgen := grammar.Term{Quantity: grammar.Exactly(1, 1), Measure: measureNamed("smidgen")}
		return []grammar.Term{smidgen}, errorOf(new(big.Rat).Quo(smidgen.Measure.Amount, tsp), sum.Low)
	}
	return terms, err
}

// ounceTerms weighs a sum of ounces. Less than half an ounce that a scale in
// ounces cannot show is given in grams.
func ounceTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	if sum.Low.Sign() <= 0 {
		return nil, -1
	}
	if sum.IsRange() {
		return rangeOut(sum, ounceUnits, m, r)
	}
	terms, err := measureOut(sum.Low, ounceUnits, m, r)
	if sum.Low.Cmp(big.NewRat(1, 2)) < 0 && (terms == nil || math.Abs(err) > kitchenError) {
		return gramTerms(sum.Times(measureNamed("oz").Amount), measuring{}, r)
	}
	return terms, err
}
