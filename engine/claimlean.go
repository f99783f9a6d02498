package engine

// The judgements of "lean" and "healthy".

// leanRule returns the row of leanRules that is gone by; it has no limits if
// there is none.
func (j *judge) leanRule() leanRule {
	for _, r := range leanRules {
		if r.kind == j.asked.kind && r.of == j.reference.lean && j.chosen {
			return r
		}
	}
	return leanRule{}
}

// lean judges "lean" and "extra lean".
func (j *judge) lean() {
	rule := j.leanRule()
	if rule.limits == nil {
		j.v.Rule = "21 CFR 101.62(e)"
		j.need("%q is for meat, poultry and fish, for meals and main dishes%s.", j.v.Claim, map[claimKind]string{claimLean: ", and for dishes like pizza, quiche and sandwiches"}[j.asked.kind])
		j.v.AskReference = true
		if j.chosen {
			j.need("It is not defined for %s.", j.reference.Name)
		}
		return
	}
	j.v.Rule = rule.rule
	ps := []amountOf{j.referenceAmount(), hundred}
	switch rule.of {
	case leanMixed:
		ps = ps[:1]
	case leanMeal:
		ps = []amountOf{hundred, j.food.serving()}
	}
	j.need("%q is %s %s.", j.v.Claim, limitTexts(rule.limits), j.gone(ps))
	out := j.against(rule.limits, ps...)
	j.v.Open = out == limitUnsure
	if j.v.Allowed = out == limitHolds; !j.v.Allowed {
		return
	}
	for _, l := range rule.limits {
		j.otherReadings(l.nutrient)
	}
}

// healthy judges the limits of "healthy". The food groups that it goes by as
// well are not in the figures, so it is never simply allowed.
func (j *judge) healthy() {
	j.v.Rule = "21 CFR 101.65(d)"
	if !j.chosen || j.reference.healthy == noHealthy {
		j.need("\"healthy\" goes by how much of the food groups is in the food, and by limits on added sugars, sodium and saturated fat that differ by the kind of food.")
		j.v.AskReference = true
		if j.chosen {
			j.need("For a bare weight the kind of food is not known: name it.")
			j.v.References = LikelyReferences(j.food.Title)
		}
		return
	}
	rule := healthyRules[j.reference.healthy]
	ps := []amountOf{j.referenceAmount()}
	if j.meal() {
		ps = []amountOf{j.food.serving()}
	}
	j.need("\"healthy\" is here %s %s.", limitTexts(rule.limits), j.gone(ps))
	out := j.against(rule.limits, ps...)
	if out == limitHolds {
		j.need("These limits are met.")
	}
	if j.v.Open = out != limitFails; j.v.Open {
		j.need("It must also hold %s. The figures do not tell that, so whether it may be said is not settled here.", rule.holds)
	} else {
		j.need("It must also hold %s, which the figures do not tell.", rule.holds)
	}
	j.need("The rule is that of December 2024; labels may follow the older one until 25 February 2028.")
}
