package engine

import (
	"math/big"

	"pottle/grammar"
)

// metricStep is the step in which amounts below a figure are shown. Amounts
// that are multiples of keep already are left as they are.
type metricStep struct{ below, step, keep string }

// What a kitchen scale shows, in grams (common practice, no source).
var gramSteps = []metricStep{
	{"1", "0.05", "0.05"}, {"10", "0.1", "0.1"}, {"25", "0.5", "0.5"}, {"100", "1", "0.5"}, {"1000", "5", "1"}, {"", "10", "5"},
}

// What a measuring jug shows, and a syringe below it, in millilitres (common
// practice, no source).
var millilitreSteps = []metricStep{
	{"2.5", "0.1", "0.1"}, {"5", "0.25", "0.25"}, {"10", "0.5", "0.5"}, {"50", "1", "1"}, {"500", "5", "5"}, {"1000", "10", "5"}, {"", "50", "25"},
}

func gramTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	if _, ok := m.only("mg"); ok {
		return piecesTerm(grammar.Term{Quantity: sum.Times(big.NewRat(1000, 1)), Measure: measureNamed("mg")}, r)
	}
	return metricTerms(sum, gramSteps, "g", "kg", "", r)
}

func millilitreTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	keep, _ := m.only("dl", "cl")
	return metricTerms(sum, millilitreSteps, "ml", "l", keep, r)
}

// metricTerms rounds both ends of sum by steps. Thousands are shown in the
// large unit, or all in the unit to keep, if one is given.
func metricTerms(sum grammar.Quantity, steps []metricStep, small, large, keep string, r Rounding) ([]grammar.Term, float64) {
	low, high := byStep(sum.Low, steps, r), byStep(sum.High, steps, r)
	if low.Sign() <= 0 {
		return nil, -1
	}
	q := grammar.Quantity{Low: low, High: high}
	err := worseError(errorOf(low, sum.Low), errorOf(high, sum.High))
	unit := measureNamed(small)
	switch {
	case keep != "":
		unit = measureNamed(keep)
	case low.Cmp(big.NewRat(1000, 1)) >= 0:
		unit = measureNamed(large)
	}
	q = q.Times(new(big.Rat).Quo(measureNamed(small).Amount, unit.Amount))
	return []grammar.Term{{Quantity: q, Measure: unit}}, err
}

func byStep(x *big.Rat, steps []metricStep, r Rounding) *big.Rat {
	for _, s := range steps {
		if s.below != "" && x.Cmp(kitchenRat(s.below)) >= 0 {
			continue
		}
		if new(big.Rat).Quo(x, kitchenRat(s.keep)).IsInt() {
			return x
		}
		got := toMultiple(x, kitchenRat(s.step), r)
		if got.Sign() == 0 && r == Nearest {
			return kitchenRat(s.step)
		}
		return got
	}
	return x
}

// toMultiple rounds x to a multiple of step; a half goes up.
func toMultiple(x, step *big.Rat, r Rounding) *big.Rat {
	n := new(big.Rat).Quo(x, step)
	if r == Nearest {
		n.Add(n, big.NewRat(1, 2))
	}
	rest := new(big.Int)
	count := new(big.Int)
	count.DivMod(n.Num(), n.Denom(), rest)
	if r == Up && rest.Sign() > 0 {
		count.Add(count, big.NewInt(1))
	}
	return new(big.Rat).Mul(new(big.Rat).SetInt(count), step)
}
