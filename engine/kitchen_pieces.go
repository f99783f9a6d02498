package engine

import (
	"math"
	"math/big"

	"pottle/grammar"
)

// pieceParts are the parts that a thing is cut into, the coarsest first.
var pieceParts = [][]string{{"1"}, {"1/2"}, {"1/3", "1/4"}, {"1/8"}}

// piecesTerm rounds a count of things, a length, or spoonfuls that are heaped:
// to whole ones if that is within 5 %, else to halves, else to thirds or
// quarters, and below one quarter to eighths.
func piecesTerm(t grammar.Term, r Rounding) ([]grammar.Term, float64) {
	low, err1 := piecesOf(t.Quantity.Low, r)
	high, err2 := low, err1
	if t.Quantity.IsRange() {
		high, err2 = piecesOf(t.Quantity.High, r)
	}
	if low.Sign() <= 0 {
		return nil, -1
	}
	t.Quantity = grammar.Quantity{Low: low, High: high}
	return []grammar.Term{t}, worseError(err1, err2)
}

func piecesOf(x *big.Rat, r Rounding) (*big.Rat, float64) {
	if x.Sign() <= 0 {
		return new(big.Rat), -1
	}
	if x.Cmp(big.NewRat(5, 1)) < 0 && (new(big.Rat).Mul(x, big.NewRat(3, 1)).IsInt() || new(big.Rat).Mul(x, big.NewRat(4, 1)).IsInt()) {
		return x, 0
	}
	var best *big.Rat
	for i, parts := range pieceParts {
		if i == 3 && x.Cmp(big.NewRat(1, 4)) >= 0 {
			break
		}
		for _, part := range parts {
			q := toMultiple(x, kitchenRat(part), r)
			if q.Sign() > 0 && (best == nil || math.Abs(errorOf(q, x)) < math.Abs(errorOf(best, x))) {
				best = q
			}
		}
		if best != nil && math.Abs(errorOf(best, x)) <= kitchenError {
			break
		}
	}
	switch {
	case best == nil && r == Nearest:
		best = big.NewRat(1, 8)
	case best == nil:
		return new(big.Rat), -1
	}
	return best, errorOf(best, x)
}
