package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
)

// How a food stands against the limits of a claim, in which amounts.

func (j *judge) referenceAmount() amountOf {
	return amountOf{j.reference.Grams, figure(j.reference.Grams) + " g"}
}

// single reports whether a reference amount of a single food is chosen.
func (j *judge) single() bool { return j.chosen && j.reference.Class == SingleFood }

// meal reports whether it is judged as a meal or main dish.
func (j *judge) meal() bool { return j.chosen && j.reference.Class != SingleFood }

// gone says by which amounts the claim goes: "in 110 g, the reference amount
// of muffins and bagels, and in 50 g".
func (j *judge) gone(ps []amountOf) string {
	var out []string
	for _, p := range ps {
		switch {
		case j.single() && p == j.referenceAmount():
			says := p.of
			if j.reference.Says != p.of {
				says = j.reference.Says + " (" + p.of + ")"
			}
			of := ""
			if j.reference.Name != j.reference.Says {
				of = " of " + j.reference.Name
			}
			out = append(out, "in "+says+", the reference amount"+of)
		case p.grams == 0:
			out = append(out, "in a serving")
		default:
			out = append(out, "in "+p.of)
		}
	}
	return strings.Join(out, ", and ")
}

// against reports how the food turns out against limits in each amount, with
// a sentence for each amount, and what is too much or not known.
func (j *judge) against(limits []claimLimit, ps ...amountOf) outcome {
	worst := limitHolds
	var missing []string
	open := make([]string, 0)
	for i, p := range ps {
		var has []string
		for _, l := range limits {
			if l.share != plainAmount && i > 0 {
				continue // the same in every amount
			}
			found := j.food.against(l, p)
			worst = max(worst, found.outcome)
			has = append(has, found.reaches)
			switch {
			case found.outcome == limitFails:
				missing = append(missing, tooMuch(l, found.over, p))
				if found.low {
					missing = append(missing, "At the smaller end of the written amounts it would hold; it must hold at the larger too.")
				}
			case found.outcome == limitUnsure:
				open = append(open, found.open...)
			case p.grams > 0 && l.share == plainAmount && l.amount > 0 && j.food.finished == 0:
				j.least = max(j.least, j.food.Grams.Low*j.food.holds(l.nutrient, p).atMost()/l.amount)
			}
		}
		j.need("%s has %s.", sentenceCase(p.of), andWords(has))
	}
	if !slices.ContainsFunc(ps, func(p amountOf) bool { return p.grams == 0 }) {
		j.servingHas(limits)
	}
	j.v.Needs = append(j.v.Needs, uniqueWords(missing)...)
	if len(open) > 0 {
		j.v.AtLeast = true
		j.need("What %s adds is not known, so this cannot be said.", andWords(uniqueWords(open)))
	}
	return worst
}

// servingHas says what a serving has, where the claim does not go by it.
func (j *judge) servingHas(limits []claimLimit) {
	if !j.food.Known {
		return
	}
	p := j.food.serving()
	var has []string
	for _, l := range limits {
		if l.share == plainAmount {
			has = append(has, j.food.against(l, p).reaches)
		}
	}
	if s := fmt.Sprintf("%s has %s.", sentenceCase(p.of), andWords(has)); len(has) > 0 && !slices.Contains(j.v.Needs, s) {
		j.need("%s", s)
	}
}

func tooMuch(l claimLimit, over float64, p amountOf) string {
	switch {
	case over == 0 && l.share == plainAmount:
		return fmt.Sprintf("It must be less than %s %s.", figure(l.amount), unitName(l.nutrient))
	case l.share != plainAmount:
		return fmt.Sprintf("It must be %s.", l.text())
	}
	return fmt.Sprintf("That is %s %s too much in %s.", figure(over), unitName(l.nutrient), p.of)
}

// amountsOf returns the limits of a claim of little and the amounts that they
// are for. It returns none if the claim is not defined for a meal, or if it
// goes by a serving and the servings are not known.
func (j *judge) amountsOf(c limitClaim) (limits []claimLimit, ps []amountOf) {
	switch {
	case j.meal() && c.meal == nil:
		return nil, nil
	case j.meal() && c.kind == claimFree:
		return c.meal, []amountOf{j.food.serving()}
	case j.meal():
		return c.meal, []amountOf{hundred}
	case !j.chosen:
		if j.food.Known {
			ps = append(ps, j.food.serving())
		}
		return c.food, ps
	}
	ps = append(ps, j.referenceAmount())
	switch {
	case c.kind != claimFree && j.reference.Small:
		ps = append(ps, fifty)
	case c.kind == claimFree && j.food.Known:
		ps = append(ps, j.food.serving())
	}
	return c.food, ps
}

// otherReadings tells what optional items and other choices would add.
func (j *judge) otherReadings(n fooddata.Nutrient) {
	for _, c := range j.food.Changes {
		if strings.HasPrefix(c.What, "with the larger amount") {
			continue
		}
		switch d := c.Delta[n]; {
		case !c.Known:
			j.condition("It goes for the recipe as counted; what it is %s is not known.", c.What)
		case d > 0 && !insignificant(n, d):
			j.condition("It goes for the recipe as counted; %s a serving has %s %s more.", c.What, figure(d), unitName(n))
		}
	}
}

// lowFat reports whether the food is low in fat by what is known for sure.
func (j *judge) lowFat() bool { return j.meetsLow(fooddata.Fat) }

func (j *judge) meetsLow(n fooddata.Nutrient) bool { return j.meetsLimit(claimLow, n) }

// meetsLimit reports whether the food surely meets a claim of little. Without
// a reference amount that is not known.
func (j *judge) meetsLimit(kind claimKind, n fooddata.Nutrient) bool {
	c, ok := findLimitClaim(kind, n)
	if !ok || !j.chosen {
		return false
	}
	limits, ps := j.amountsOf(c)
	return len(ps) > 0 && j.food.meets(limits, ps...) == limitHolds
}
