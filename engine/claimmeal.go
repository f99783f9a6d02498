package engine

// Whether a dish is a meal or main dish in the sense of the regulation.

// isMeal reports whether a serving is a meal or main dish in the sense of the
// regulation, as far as weights and food groups tell; else it says why not.
func (j *judge) isMeal() bool {
	rule := mealRules[j.reference.Class]
	if !j.food.Known {
		j.v.Rule = rule.rule
		if !j.failsByWeight() {
			j.v.AskServings = true
			j.need("How many servings it makes is not known, and a %s is judged by its serving.", j.reference.Name)
		}
		return false
	}
	serving := j.food.servingGrams()
	portions, groups := j.food.mealPortions()
	if withoutNoise(serving) < rule.grams || portions < rule.portions || groups < rule.groups {
		j.v.Rule = rule.rule
		j.need("A %s weighs at least %s g a serving and holds at least %d portions of %d g from at least %d of the four food groups.", j.reference.Name, figure(rule.grams), rule.portions, mealPortion, rule.groups)
		j.need("A serving of this weighs %s g and holds %s from %s. Choose the reference amount of a single food instead.", figureBeside(serving, rule.grams), countOf(portions, "such portion"), countOf(groups, "group"))
		j.v.AskReference, j.v.References = true, LikelyReferences(j.food.Title)
		return false
	}
	j.condition("It is offered as a %s.", j.reference.Name)
	return true
}

// failsByWeight reports, with the reason, whether a meal or main dish holds too
// much in 100 g for the claim, however many it serves.
func (j *judge) failsByWeight() bool {
	var limits []claimLimit
	var rule string
	switch j.asked.kind {
	case claimLow, claimVeryLow:
		c, _ := findLimitClaim(j.asked.kind, j.asked.nutrient)
		limits, rule = c.meal, c.rule
	case claimLean, claimExtraLean:
		r := j.leanRule()
		limits, rule = r.limits, r.rule
	}
	if len(limits) == 0 || j.food.meets(limits, hundred) != limitFails {
		return false
	}
	j.v.Rule = rule
	j.need("%s is %s %s.", inQuotes(j.v.Claim), limitTexts(limits), j.gone([]amountOf{hundred}))
	j.against(limits, hundred)
	return true
}
