package engine

import (
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// metricPart returns the amount of a rule's item, which unit was resolved from
// and which is to be taken so many times, in measures of a metric recipe: in
// grams where the line that it stands for is, in spoons where that is or where it
// comes to little, else what pours in millilitres and the rest in grams. Like is
// the amount of the line, or none. A number of things that stands for no weight is
// left as it is.
func metricPart(amount grammar.Amount, times *big.Rat, unit Line, like grammar.Amount) grammar.Amount {
	grams := new(big.Rat).SetFloat64(unit.Grams.Low)
	scale := len(like.Terms) > 0 && allWeights(like)
	jug := len(like.Terms) > 0 && metricVolume(like)
	ml, kind, ok := magnitude(amount)
	switch {
	case scale && kind != "volume":
		return exactAmount(grams, "g")
	case ok && kind == "weight":
		return exactAmount(weighedOut(grams, times), "g")
	case kind != "volume":
		return amount
	}
	few := new(big.Rat).Mul(ml, times).Cmp(fourTablespoons) <= 0
	switch {
	case scale && few && amount.Terms[0].Measure.Name == "tsp": // baking powder beside flour
		return amount
	case scale:
		return exactAmount(grams, "g")
	case inSpoons(like), few && !jug:
		return exactAmount(new(big.Rat).Quo(ml, measureNamed("tbsp").Amount), "tbsp")
	case pours(unit.Food), jug && isSoft(unit.Food):
		return exactAmount(ml, "ml")
	}
	return exactAmount(weighedOut(grams, times), "g")
}

// fourTablespoons is the most, in millilitres, that is filled by the spoon where
// cups are not used (common practice, no source).
var fourTablespoons = new(big.Rat).Mul(big.NewRat(4, 1), measureNamed("tbsp").Amount)

// weighedOut returns grams so that so many times them is a weight as recipes have
// it: from 50 g on in steps of 5 g, from 200 g on of 10 g.
func weighedOut(grams, times *big.Rat) *big.Rat {
	all, step := new(big.Rat).Mul(grams, times), big.NewRat(5, 1)
	switch {
	case all.Cmp(big.NewRat(50, 1)) < 0:
		return grams // for scaled to round
	case all.Cmp(big.NewRat(200, 1)) >= 0:
		step = big.NewRat(10, 1)
	}
	return new(big.Rat).Quo(toMultiple(all, step, Nearest), times)
}

// inSpoons reports whether an amount is measured in spoons.
func inSpoons(a grammar.Amount) bool {
	return len(a.Terms) > 0 && !slices.ContainsFunc(a.Terms, func(t grammar.Term) bool {
		return t.Each != nil || t.Measure == nil || t.Measure.Name != "tsp" && t.Measure.Name != "tbsp"
	})
}

// Words by which the name of a food that pours ends, those of one that is dry all
// the same, and those of one that takes the shape of a jug.
var (
	pouringWords = wordSet("water milk oil broth stock juice buttermilk kefir half-and-half wine vinegar substitute")
	dryWords     = normalSet("dry dried powder powdered instant")
	softWords    = normalSet("yogurt cream applesauce honey syrup molasses mayonnaise sauce puree")
)

// pours reports whether a food is measured in a jug.
func pours(f fooddata.Food) bool {
	words := fooddata.Normalise(strings.TrimSuffix(f.Name(), ", canned"))
	return len(words) > 0 && pouringWords[words[len(words)-1]] && !slices.ContainsFunc(words, func(w string) bool { return dryWords[w] })
}

// isSoft reports whether a food may stand for a liquid by its volume.
func isSoft(f fooddata.Food) bool {
	words := fooddata.Normalise(f.Name())
	return slices.ContainsFunc(words, func(w string) bool { return softWords[w] }) && !slices.Contains(words, "cheese")
}
