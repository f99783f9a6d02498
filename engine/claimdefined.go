package engine

import (
	"fmt"
	"slices"
	"strconv"

	"pottle/fooddata"
)

// What the regulation has no claim for.

// undefined returns why the regulation has no such claim, or "".
func (j *judge) undefined() string {
	c := j.asked
	switch c.kind {
	case claimFree, claimLow, claimVeryLow:
		if _, ok := findLimitClaim(c.kind, c.nutrient); ok {
			return ""
		}
	case claimHigh, claimGood, claimMore:
		switch {
		case claimable(c.nutrient):
			return ""
		case c.nutrient == fooddata.Carbohydrate:
			return "The regulation defines no claim about the amount of carbohydrate, so a label may not make one. It can only state the grams."
		}
		if _, ok := fooddata.DailyValue(c.nutrient); !ok {
			return fmt.Sprintf("%s has no Daily Value, so a label cannot call a food %q.", sentenceCase(claimName(c.nutrient)), c.called())
		}
		return fmt.Sprintf("%q is not used as a claim: %s is to be limited.", c.called(), claimName(c.nutrient))
	case claimReduced:
		if slices.ContainsFunc(reducedClaims, func(r reducedRule) bool { return r.nutrient == c.nutrient }) {
			return ""
		}
	case claimUndefined:
		if !c.named {
			return fmt.Sprintf("%q is not among the nutrient content claims: it is not about an amount that the regulation defines, and other rules may apply to it.", c.words)
		}
	default:
		return ""
	}
	if c.nutrient == fooddata.Carbohydrate {
		return "The regulation defines no claim about the amount of carbohydrate, so a label may not make one. It can only state the grams."
	}
	text := fmt.Sprintf("The regulation does not define %q, so a label may not say it.", c.called())
	if others := definedFor(c.nutrient); others != "" {
		text += " What is defined: " + others + "."
	}
	return text
}

// definedFor lists the claims of little that are defined for n.
func definedFor(n fooddata.Nutrient) string {
	var out []string
	for _, c := range limitClaims {
		if c.nutrient == n {
			out = append(out, strconv.Quote(asked{kind: c.kind, nutrient: n}.called()))
		}
	}
	for _, c := range reducedClaims {
		if c.nutrient == n {
			out = append(out, strconv.Quote(asked{kind: claimReduced, nutrient: n}.called()))
		}
	}
	if n == fooddata.Sugars || n == fooddata.AddedSugars {
		out = append(out, `"no added sugars"`)
	}
	return orWords(out)
}
