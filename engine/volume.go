package engine

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// milliLitres of the volume measures that portions use.
func millilitres(measure string) float64 {
	if m, ok := grammar.MeasureNamed(strings.ReplaceAll(measure, " ", "")); ok && m.Kind == grammar.Volume {
		return ratio(m.Amount)
	}
	if m, ok := grammar.MeasureNamed(measure); ok && m.Kind == grammar.Volume {
		return ratio(m.Amount)
	}
	return 0
}

// cups is the food whose cup counts: beans without their liquid fill one as
// boiled beans do.
func (p portioner) cups() fooddata.Food {
	if p.solids.IsZero() {
		return p.food
	}
	return p.solids
}

// asSold scores a portion by whether the food is in it as it is sold, if the
// line tells no other: a cup of walnuts is not one of walnut meal, nor of
// walnuts in their shells, and rather one of halves than of pieces.
func (p portioner) asSold(portion fooddata.Portion) int {
	if p.food.Group() == "Spices and Herbs" { // a spoon of pepper is ground
		return 0
	}
	name := fooddata.Normalise(p.food.Name())
	said, entire, nut := false, true, p.food.Group() == "Nut and Seed Products"
	other, inShell := false, strings.Contains(portion.Detail, "in shell")
	for _, w := range fooddata.Normalise(portion.Detail) {
		said = said || p.said(w)
		other = other || milled[w] && !p.said(w) && !slices.Contains(name, w)
		entire = entire && (isNumber(w) || filler[w] || wholeNut[w])
	}
	switch {
	case other, inShell && !p.said("shell"):
		return -100
	case nut && entire && !said:
		return 15
	}
	return 0
}

// milled are details of a food that is ground.
var milled = wordSet("ground meal flour powder powdered")

// wholeNut are details of a nut that is not cut.
var wholeNut = wordSet("whole half halve shelled kernel nut")

// volume gives the grams of one m of the food.
func (p portioner) volume(m *grammar.Measure) weight {
	ml := ratio(m.Amount)
	best, bestScore := fooddata.Portion{}, math.MinInt
	for portion := range p.cups().Portions() {
		size := millilitres(portion.Measure)
		if size == 0 || tiny[portion.Measure] && portion.Measure != m.Name {
			continue
		}
		score := 10*p.fit(portion) + p.asSold(portion)
		switch {
		case portion.Measure == m.Name && !usual[m.Name]:
			score += 50 // a pint of berries is not two cups of sliced ones
		case portion.Measure == m.Name:
			score += 5
		case spoon(portion.Measure) != spoon(m.Name), usual[m.Name] && !usual[portion.Measure] && portion.Measure != "fl oz":
			score -= 12 // a cup rather sliced than as sixteen rounded spoons or half a pint
		default:
			score += 2
		}
		if score > bestScore {
			best, bestScore = portion, score
		}
	}
	if bestScore > math.MinInt {
		g := float64(best.Grams) * (ml / millilitres(best.Measure) / best.Amount)
		w := weight{grams: Range{g, g}, sure: sureMeasure}
		if extra := p.unasked(best); extra != "" {
			w.sure = otherDetail
			w.assumed = []string{fmt.Sprintf("measured as %s %s", plural(best.Measure), extra)}
		}
		return w
	}
	if density, like, ok := p.food.Density(); ok {
		return weight{grams: Range{ml * density, ml * density}, sure: likeDensity,
			assumed: []string{fmt.Sprintf("weighs %s g a cup, %s", show(density*ratio(cup)), like)}}
	}
	return weight{why: fmt.Sprintf("no weight is known for a %s of %s", m.Name, p.food.Name()), reason: AskAmount}
}

var cup = func() *big.Rat {
	m, _ := grammar.MeasureNamed("cup")
	return m.Amount
}()

// tiny are measures without a standard: none is scaled up to a spoon.
var tiny = wordSet("dash pinch drop smidgen")

// usual are the measures whose portions compete by preparation.
var usual = wordSet("cup tbsp tsp ml l")

func spoon(measure string) bool { return measure == "tsp" || measure == "tbsp" }
