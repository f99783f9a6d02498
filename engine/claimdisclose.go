package engine

import (
	"fmt"
	"math"

	"pottle/fooddata"
)

// What must be said beside a claim.

// disclosureLevels adds the pointer to nutrients of which the food holds much.
func (j *judge) disclosureLevels() {
	var over, unsure, why []string
	for _, d := range disclosureLevels {
		level := d.level[j.reference.Class]
		for _, p := range j.disclosurePortions() {
			h := j.food.holds(d.nutrient, p)
			if withoutNoise(h.most()) > level {
				over = append(over, claimName(d.nutrient))
				why = append(why, fmt.Sprintf("%s has %s", p.of, quantityBeside(d.nutrient, h.most(), level)))
				break
			}
			if len(h.open) > 0 || withoutNoise(h.atMost()) > level {
				unsure = append(unsure, claimName(d.nutrient))
				break
			}
		}
	}
	if len(over) > 0 {
		j.disclose("\"See nutrition information for %s content\": %s (21 CFR 101.13(h)).", andWords(over), andWords(why))
	}
	if len(unsure) > 0 {
		j.condition("Whether it must point to its %s content (21 CFR 101.13(h)) is not known: a figure is missing.", andWords(unsure))
	}
}

func (j *judge) disclosurePortions() []amountOf {
	var out []amountOf
	if j.chosen && j.reference.Class == SingleFood {
		out = append(out, j.referenceAmount())
		if j.reference.Small {
			out = append(out, fifty)
		}
	}
	if j.food.Known {
		out = append(out, j.food.serving())
	}
	return out
}

// alongside adds the amounts that a claim of little obliges to state.
func (j *judge) alongside(kind claimKind, n fooddata.Nutrient) {
	switch n {
	case fooddata.SaturatedFat: // 21 CFR 101.62(c)
		if j.mostIn(fooddata.Cholesterol) >= 2 {
			j.discloseAmount(fooddata.Cholesterol, "21 CFR 101.62(c)")
		}
		switch {
		case kind == claimFree && j.mostIn(fooddata.Fat) >= 0.5,
			kind != claimFree && !j.meal() && j.mostIn(fooddata.Fat) > 3,
			kind != claimFree && j.meal() && !j.lowFat():
			j.discloseAmount(fooddata.Fat, "21 CFR 101.62(c)")
		}
	case fooddata.Cholesterol: // 21 CFR 101.62(d)
		level := disclosureLevels[0].level[j.reference.Class]
		for _, p := range j.disclosurePortions() {
			if withoutNoise(j.food.holds(fooddata.Fat, p).atMost()) > level {
				j.discloseAmount(fooddata.Fat, "21 CFR 101.62(d)")
				j.condition("With more than %s g fat it must also be made so as to hold less cholesterol than the food it stands for (21 CFR 101.62(d)).", figure(level))
				break
			}
		}
	case fooddata.Sugars:
		if kind == claimFree {
			j.notLowCalorie("21 CFR 101.60(c)(1)")
		}
	}
}

// mostIn returns the most of n that can be in what a disclosure goes by: the
// reference amount, or a serving of a meal. It is infinite if a line may add
// any amount.
func (j *judge) mostIn(n fooddata.Nutrient) float64 {
	p := j.food.serving()
	if j.single() {
		p = j.referenceAmount()
	}
	h := j.food.holds(n, p)
	if len(h.open) > 0 {
		return math.Inf(1)
	}
	return withoutNoise(h.atMost())
}

// discloseAmount obliges to state the amount of n beside the claim.
func (j *judge) discloseAmount(n fooddata.Nutrient, rule string) {
	p := j.food.serving()
	if !j.food.Known {
		p = j.referenceAmount()
	}
	h := j.food.holds(n, p)
	if !h.sure() {
		j.disclose("Beside it, the %s in %s; what %s adds to it is not known (%s).", claimName(n), p.of, andWords(uniqueWords(append(h.open, h.bounded...))), rule)
		return
	}
	j.disclose("Beside it, the %s: %s in %s (%s).", claimName(n), Declared(n, h.most()), p.of, rule)
}

// notLowCalorie adds what a claim about sugars must say of the calories.
func (j *judge) notLowCalorie(rule string) {
	if !j.meetsLow(fooddata.Energy) {
		j.disclose("Beside it, \"not a low calorie food\" or \"not a reduced calorie food\" (%s).", rule)
	}
}
