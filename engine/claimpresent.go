package engine

import (
	"fmt"
	"slices"

	"pottle/fooddata"
)

// The judgements of claims that something is in the food.

// dailyShare returns the share of the Daily Value, in per cent.
func dailyShare(n fooddata.Nutrient, v float64) float64 {
	dv, _ := fooddata.DailyValue(n)
	return withoutNoise(v / dv * 100)
}

// present judges "high" and "good source".
func (j *judge) present() {
	n, share, rule := j.asked.nutrient, float64(highShare), "21 CFR 101.54(b)"
	if j.asked.kind == claimGood {
		share, rule = goodShare, "21 CFR 101.54(c)"
	}
	j.v.Rule = rule
	j.v.Allowed = j.reaches(n, share, j.asked.kind == claimGood)
	if j.v.Allowed {
		j.presentDetails(n)
	}
}

// presentDetails adds what goes with a claim that something is in the food.
func (j *judge) presentDetails(n fooddata.Nutrient) {
	if n == fooddata.Fibre && !j.lowFat() {
		j.discloseAmount(fooddata.Fat, "21 CFR 101.54(d)")
	}
	if heatTakes(n) {
		j.condition("Heat destroys part of %s: the figure is after cooking only if the cooking was counted.", claimName(n))
	}
}

// heatTakes reports whether cooking destroys part of a vitamin (USDA Table of
// Nutrient Retention Factors, Release 6).
func heatTakes(n fooddata.Nutrient) bool {
	switch n {
	case fooddata.VitaminC, fooddata.Thiamin, fooddata.Riboflavin, fooddata.Niacin, fooddata.VitaminB6, fooddata.FolateDFE, fooddata.VitaminB12,
		fooddata.VitaminA, fooddata.Choline, fooddata.PantothenicAcid:
		return true
	}
	return false
}

// reaches states the threshold of a share of the Daily Value and reports
// whether the food reaches it. Good tells that a food that is high is above
// the claim.
func (j *judge) reaches(n fooddata.Nutrient, share float64, good bool) bool {
	dv, _ := fooddata.DailyValue(n)
	if j.meal() {
		return j.mealReaches(n, share, good)
	}
	where := "in the reference amount"
	p := j.food.serving()
	if j.single() {
		p = j.referenceAmount()
		where = j.gone([]amountOf{p})
	}
	threshold := dv * share / 100
	upToShare := ""
	if good {
		upToShare = fmt.Sprintf(" and less than %d %%", highShare)
	}
	j.need("%s is at least %s %%%s of the Daily Value, %s %s, %s.", inQuotes(j.v.Claim), figure(share), upToShare, figure(threshold), unitName(n), where)
	if !j.chosen {
		j.v.AskReference = true
		if !j.food.Known {
			return false
		}
	}
	h := j.food.holds(n, p)
	least, open := h.least(), append(h.open, h.bounded...)
	atLeast := ""
	if len(open) > 0 {
		atLeast = "at least "
	}
	got := dailyShare(n, least)
	j.need("%s has %s%s, %s %% of the Daily Value.", sentenceCase(p.of), atLeast, quantityBeside(n, least, threshold), figureBeside(got, share))
	if j.single() && j.food.Known {
		served := j.food.holds(n, j.food.serving()).least()
		j.need("%s has %s%s, %s %% of the Daily Value.", sentenceCase(j.food.serving().of), atLeast, quantityBeside(n, served, threshold), figureBeside(dailyShare(n, served), share))
	}
	switch {
	case n == fooddata.Protein && got >= share:
		j.need("For protein it goes by the amount corrected for the quality of the protein (21 CFR 101.9(c)(7)), which is not known here.")
		j.v.Open = true
		return false
	case got < share:
		j.need("%s %s is missing in %s.", figure(threshold-least), unitName(n), p.of)
		j.v.AtLeast, j.v.Open = len(open) > 0, len(open) > 0
		if len(open) > 0 {
			j.need("What %s adds is not known.", andWords(uniqueWords(open)))
		}
		if share == highShare && got >= goodShare && j.chosen && n != fooddata.Protein {
			j.need("%s would hold.", inQuotes(asked{kind: claimGood, nutrient: n}.called()))
		}
		return false
	case good && got >= highShare:
		j.need("That is above a good source: the words for it are %s or \"excellent source of %s\".", inQuotes(asked{kind: claimHigh, nutrient: n}.called()), claimName(n))
		return false
	case !j.chosen:
		return false
	}
	if j.food.finished == 0 {
		j.most = j.food.Grams.Low * least / threshold
	}
	if j.food.Known {
		if served := j.food.holds(n, j.food.serving()).least(); dailyShare(n, served) < share {
			j.disclose("A serving (%s g) has only %s %% of the Daily Value: the claim must be followed by what it goes by: \"%s, %s %% of the Daily Value per %s\" (21 CFR 101.13(p)).",
				weighed(j.food.servingGrams()), figureBeside(dailyShare(n, served), share), j.v.Claim, figure(share), j.reference.Says)
		}
	}
	return true
}

// mealReaches judges a meal or main dish: it must hold a food that bears the
// claim by itself, and the label must name that food.
func (j *judge) mealReaches(n fooddata.Nutrient, share float64, good bool) bool {
	dv, _ := fooddata.DailyValue(n)
	threshold := dv * share / 100
	j.need("A %s bears %s only if a food in it does, with at least %s %% of the Daily Value, %s %s, in its own reference amount, and if the label names that food.",
		j.reference.Name, inQuotes(j.v.Claim), figure(share), figure(threshold), unitName(n))
	if n == fooddata.Protein {
		j.need("For protein it goes by the amount corrected for the quality of the protein (21 CFR 101.9(c)(7)), which is not known here.")
		j.v.Open = true
		return false
	}
	var found []string
	for i := range j.food.Lines {
		l := &j.food.Lines[i]
		if l.Status != Counted || l.Food.IsZero() {
			continue
		}
		grams := ingredientReference(l.Food)
		if withoutNoise(l.Grams.Low/j.food.Servings) < min(grams, mealPortion) {
			continue
		}
		v, ok := l.per100(n).Value()
		got := dailyShare(n, v*grams/100)
		if ok && grams > 0 && got >= share && !(good && got >= highShare) {
			found = append(found, fmt.Sprintf("%s (%s %% in %s g)", l.Food.Name(), figureBeside(got, share), figure(grams)))
		}
	}
	if found = uniqueWords(found); len(found) == 0 {
		j.need("No food in it is known to.")
		return false
	}
	j.need("These do: %s.", andWords(found))
	j.disclose("Name the food in the claim.")
	return true
}

// antioxidant judges "antioxidant" with a named nutrient.
func (j *judge) antioxidant() {
	j.v.Rule = "21 CFR 101.54(g)"
	names := make([]string, 0, len(antioxidants))
	for _, n := range antioxidants {
		names = append(names, claimName(n))
	}
	n := j.asked.nutrient
	if !j.asked.named || !slices.Contains(antioxidants, n) {
		j.need("The claim must name the nutrient, and it must be one with a Daily Value that acts as an antioxidant: %s. Ask like \"high in antioxidant vitamin C\".", orWords(names))
		return
	}
	share := float64(goodShare)
	if j.asked.level == claimHigh {
		share = highShare
	}
	if j.v.Allowed = j.reaches(n, share, false); j.v.Allowed {
		j.disclose("Name the nutrient in the claim.")
		j.presentDetails(n)
	}
}

// potency judges "high potency".
func (j *judge) potency() {
	j.v.Rule = "21 CFR 101.54(f)"
	if _, declared := labelRules[j.asked.nutrient]; declared || !claimable(j.asked.nutrient) {
		j.need("\"High potency\" is for a named vitamin or mineral.")
		return
	}
	if j.meal() {
		j.need("\"High potency\" is not defined for a %s here.", j.reference.Name)
		return
	}
	if j.v.Allowed = j.reaches(j.asked.nutrient, potencyShare, false); j.v.Allowed {
		j.presentDetails(j.asked.nutrient)
	}
}
