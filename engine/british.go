package engine

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pottle/grammar"
)

var imperialPint = func() *grammar.Measure {
	m, _ := grammar.MeasureNamed("imperial pint")
	return m
}()

// imperialFluidOunce is a twentieth of an imperial pint.
var imperialFluidOunce = func() *grammar.Measure {
	m := *fluidOunce
	m.Amount = new(big.Rat).Quo(imperialPint.Amount, big.NewRat(20, 1))
	return &m
}()

// imperialVolume is the weight of a pint or a fluid ounce of a British recipe, with
// the American one beside it; of another measure it is w.
func (p portioner) imperialVolume(m *grammar.Measure, w weight) weight {
	var of weight
	switch m.Name {
	case "pint":
		of = p.volume(imperialPint)
		of.assumed = append(of.assumed, fmt.Sprintf("an imperial pint, 568 ml; an American one, 473 ml, is %s g", show(w.grams.Low)))
	case "fl oz":
		// a portion of a fluid ounce is an American one
		of = w
		f := ratio(imperialFluidOunce.Amount) / ratio(m.Amount)
		of.grams = w.grams.times(f)
		of.assumed = append(slices.Clone(w.assumed), "imperial fluid ounces, 28.4 ml each; American ones have 29.6 ml")
	default:
		return w
	}
	return of
}

// britishCube is the weight in grams of a stock cube sold in the United Kingdom, for
// about 450 ml (common practice, no source).
const britishCube = 10

// stockCube weighs stock cubes, which are about twice as heavy in the United Kingdom
// as in the United States; ok is false for all else. The weight is always shown.
func (p portioner) stockCube(t grammar.Term) (weight, bool) {
	if t.Measure.Name != "cube" || t.Size != "" || p.sizeSaid() != "" || !strings.Contains(p.food.Description(), "cube") {
		return weight{}, false
	}
	grams := 0.0
	for portion := range p.food.Portions() {
		if portion.Measure == "cube" && portion.Size == "" && portion.Source == ofUSDA {
			grams = float64(portion.Grams) / portion.Amount
		}
	}
	if grams == 0 || p.food.Group() != "Soups, Sauces, and Gravies" {
		return weight{}, false
	}
	other := fmt.Sprintf("one cube is %s g, as in the United States; British cubes weigh about %d g", show(grams), britishCube)
	if p.imperial {
		other = fmt.Sprintf("one British cube taken as %d g (common practice, no source); an American one is %s g: correct it by the weight on the packet", britishCube, show(grams))
		grams = britishCube
	}
	return weight{grams: Range{grams, grams}, sure: assumedSize, assumed: []string{other}}, true
}
