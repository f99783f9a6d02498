package engine

import (
	"math"
	"math/big"
	"slices"

	"pottle/grammar"
)

// dose is one way to measure an amount.
type dose struct {
	terms []grammar.Term
	sum   *big.Rat
	cost  float64 // the trouble of it
}

// with adds q of u to the dose. The costs weigh trouble against error, see
// worth (common practice, no source).
func (d dose) with(u measuredUnit, q *big.Rat, m measuring) dose {
	d.terms = append(slices.Clone(d.terms), grammar.Term{Quantity: grammar.Quantity{Low: q, High: q}, Measure: u.measure})
	d.sum = new(big.Rat).Add(d.sum, new(big.Rat).Mul(q, u.size))
	d.cost += u.trouble(q)
	if len(d.terms) > 1 {
		d.cost += 2
	} else if slices.Contains(m.written, u.name) {
		d.cost -= 0.8
	}
	return d
}

// worth is the trouble of a dose and of its error: a point is 1 % of what is
// weighed, as a scale shows any weight, and 3 % of what is filled.
func (d dose) worth(err float64) float64 {
	if d.terms[0].Measure.Kind == grammar.Weight {
		return d.cost + 100*err
	}
	return d.cost + 35*err
}

// trouble is a fill of a spoon or cup each, up to eight spoons and four of what
// is larger.
func (u measuredUnit) trouble(q *big.Rat) float64 {
	fills := float64(wholeNumber(q))
	cost := 0.0
	if !q.IsInt() {
		fills++
		cost = 0.1
	}
	if u.measure.Kind == grammar.Weight {
		return cost
	}
	most := 4.0
	if u.measure.Amount.Cmp(measureNamed("tbsp").Amount) <= 0 {
		most = 8
	}
	return cost + 0.3*min(fills, most)
}

// doses returns the ways to measure sum in at most depth terms.
func doses(sum *big.Rat, units []measuredUnit, m measuring, depth int) []dose {
	var all []dose
	var further func(sofar dose, units []measuredUnit)
	further = func(sofar dose, units []measuredUnit) {
		left := new(big.Rat).Sub(sum, sofar.sum)
		m := m
		m.after = len(sofar.terms) > 0
		m.cups = m.after && sofar.terms[0].Measure.Amount.Cmp(cupSize) >= 0
		for i, u := range units {
			if !u.follows(sofar) || !u.fits(sum, m) {
				continue
			}
			under, over := u.near(new(big.Rat).Quo(left, u.size), m)
			for _, q := range append(under, over...) {
				next := sofar.with(u, q, m)
				all = append(all, next)
				if len(next.terms) < depth && next.sum.Cmp(sum) < 0 {
					further(next, units[i+1:])
				}
			}
		}
	}
	further(dose{sum: new(big.Rat)}, units)
	return all
}

var cupSize = measureNamed("cup").Amount

// follows reports whether the unit may come next in a dose.
func (u measuredUnit) follows(sofar dose) bool {
	last := ""
	if len(sofar.terms) > 0 {
		last = sofar.terms[len(sofar.terms)-1].Measure.Name
	}
	switch u.when {
	case useInRemainder:
		return last == u.name
	case useAlone:
		return last == ""
	}
	return last != "lb" || sofar.terms[0].Quantity.Low.IsInt() // 1 lb 13 oz
}

// kitchenError is the error that a kitchen amount may have.
const kitchenError = 0.05

// measureOut returns the best way to measure sum by units: the least
// troublesome within 5 %, else the nearest. It returns no terms if nothing is
// small enough.
func measureOut(sum *big.Rat, units []measuredUnit, m measuring, r Rounding) ([]grammar.Term, float64) {
	depths := []int{2, 3}
	if sum.Cmp(eighthTsp) < 0 {
		depths = []int{1}
	}
	var best dose
	var bestErr float64
	for _, depth := range depths {
		best, bestErr = dose{}, math.Inf(1)
		for _, d := range doses(sum, units, m, depth) {
			err := errorOf(d.sum, sum)
			if r == Down && d.sum.Cmp(sum) > 0 || r == Up && d.sum.Cmp(sum) < 0 {
				continue
			}
			if best.terms == nil || d.betterThan(best, err, bestErr) {
				best, bestErr = d, err
			}
		}
		if math.Abs(bestErr) <= kitchenError {
			break
		}
	}
	if best.terms == nil {
		return nil, -1
	}
	return best.terms, bestErr
}

var eighthTsp = big.NewRat(1, 8)

func (d dose) betterThan(o dose, err, oErr float64) bool {
	err, oErr = math.Abs(err), math.Abs(oErr)
	if inside, oInside := err <= kitchenError, oErr <= kitchenError; inside != oInside {
		return inside
	} else if !inside {
		return err < oErr-1e-9 || err < oErr+1e-9 && d.cost < o.cost
	}
	return d.worth(err) < o.worth(oErr)-1e-9
}

// errorOf is the relative error of got for want.
func errorOf(got, want *big.Rat) float64 {
	if want.Sign() == 0 {
		return 0
	}
	return ratio(new(big.Rat).Sub(new(big.Rat).Quo(got, want), wholeOne))
}

// rangeOut rounds both ends of a range in one measure, the largest that comes
// within 5 % at both.
func rangeOut(sum grammar.Quantity, units []measuredUnit, m measuring, r Rounding) ([]grammar.Term, float64) {
	m.ends = true
	var best dose
	bestErr := math.Inf(1)
	for _, u := range units {
		if u.when == useInRemainder || u.when == useAlone || !u.fits(sum.Low, m) && !u.fits(sum.High, m) {
			continue
		}
		low, err1, ok1 := u.nearest(sum.Low, m, r)
		high, err2, ok2 := u.nearest(sum.High, m, r)
		if !ok1 || !ok2 {
			continue
		}
		d := dose{sum: new(big.Rat)}.with(u, low, m)
		d.terms[0].Quantity.High = high
		if err := worseError(err1, err2); best.terms == nil || d.betterThan(best, err, bestErr) {
			best, bestErr = d, err
		}
	}
	if best.terms == nil { // the ends are too far apart for one measure
		return measureOut(sum.Low, units, m, r)
	}
	return best.terms, bestErr
}
