package engine

import "pottle/fooddata"

// The judgements of claims that there is little or nothing of a nutrient. Like
// those in claimpresent.go, claimcompare.go, claimlean.go and claimmade.go, each
// states the threshold, what the food reaches and what is missing, and sets
// Allowed.

// limited judges a claim that there is little or nothing of a nutrient.
func (j *judge) limited(c limitClaim) {
	j.v.Rule = c.rule
	limits, ps := j.amountsOf(c)
	if limits == nil {
		j.need("%q is not defined for a %s.", j.v.Claim, j.reference.Name)
		return
	}
	if !j.chosen {
		where := "in the reference amount"
		if c.kind == claimFree {
			where += " and in a serving"
		}
		j.need("%s is %s %s.", inQuotes(j.v.Claim), limitTexts(limits), where)
		out := j.against(limits, ps...)
		// A serving that holds too much is a no, whatever the reference amount.
		j.v.AskReference = !(c.kind == claimFree && j.food.Known && out == limitFails)
		return
	}
	j.need("%s is %s %s.", inQuotes(j.v.Claim), limitTexts(limits), j.gone(ps))
	out := j.against(limits, ps...)
	if c.kind == claimFree && j.servingOpen(out) {
		return
	}
	j.v.Allowed, j.v.Open = out == limitHolds, out == limitUnsure
	if !j.v.Allowed {
		j.nextBest(c)
		return
	}
	if c.kind != claimFree && j.single() {
		j.servingToo(limits)
	}
	if c.kind == claimFree {
		j.asterisks(c.nutrient)
	}
	j.otherReadings(c.nutrient)
	j.alongside(c.kind, c.nutrient)
}

// servingOpen reports whether a claim that must hold for a serving too, and that
// the reference amount does not settle by failing, waits for the number of
// servings.
func (j *judge) servingOpen(out outcome) bool {
	if j.food.Known || out == limitFails {
		return false
	}
	j.need("It must hold for a serving too, and how many servings it makes is not known.")
	j.v.AskServings, j.v.Open = out == limitHolds, out == limitUnsure
	return true
}

// nextBest says which weaker claim of the same kind holds.
func (j *judge) nextBest(c limitClaim) {
	for _, kind := range []claimKind{claimVeryLow, claimLow} {
		if kind != c.kind && c.kind != claimLow && j.meetsLimit(kind, c.nutrient) {
			j.need("%s would hold.", inQuotes(asked{kind: kind, nutrient: c.nutrient}.called()))
			return
		}
	}
}

// servingToo tells what must be added where the reference amount meets the
// claim and a serving does not: 21 CFR 101.13(p) and 101.12(g), from memory.
func (j *judge) servingToo(limits []claimLimit) {
	if !j.food.Known {
		return
	}
	p := j.food.serving()
	for _, l := range limits {
		if found := j.food.against(l, p); found.outcome == limitFails && l.share == plainAmount {
			j.disclose("%s has %s, over the limit: the claim must be followed by what it goes by: \"%s, %s per %s\" (21 CFR 101.13(p)).",
				sentenceCase(p.of), found.reaches, j.v.Claim, l.text(), j.reference.Says)
		}
	}
}

// asterisks tells which ingredients of a food that is free of something must
// be marked, since people know them to hold it: 20 g fat, 10 g sugars, 400 mg
// sodium or 20 mg cholesterol in 100 g (the figures are common practice, no
// source).
func (j *judge) asterisks(n fooddata.Nutrient) {
	least := map[fooddata.Nutrient]float64{fooddata.Fat: 20, fooddata.SaturatedFat: 20, fooddata.Sugars: 10, fooddata.Sodium: 400, fooddata.Cholesterol: 20}[n]
	if least == 0 {
		return
	}
	var names []string
	for i := range j.food.Lines {
		l := &j.food.Lines[i]
		if l.Food.IsZero() || l.Status == Ask || l.Reason == OptionalItem {
			continue
		}
		if v, ok := l.Food.Per100g(n).Value(); ok && v >= least {
			names = append(names, l.Food.Name())
		}
	}
	if len(names) > 0 {
		j.disclose("In the list of ingredients, mark %s with a star that leads to \"adds a trivial amount of %s\".", andWords(uniqueWords(names)), claimName(n))
	}
}

// percentFatFree judges "97% fat free".
func (j *judge) percentFatFree() {
	j.v.Rule = "21 CFR 101.62(b)(6)"
	said := j.asked.percent
	c, _ := findLimitClaim(claimLow, fooddata.Fat)
	if said >= 100 {
		c, _ = findLimitClaim(claimFree, fooddata.Fat)
	}
	limits, ps := j.amountsOf(c)
	where := "in the reference amount"
	if j.chosen {
		where = j.gone(ps)
	} else {
		j.v.AskReference = true
	}
	perHundred := upTo(fooddata.Fat, 100-said)
	if said >= 100 {
		perHundred = under(fooddata.Fat, 0.5)
	}
	j.need("%q goes by %s %s, and by %s in 100 g.", j.v.Claim, limitTexts(limits), where, perHundred.text())
	out := max(j.against(limits, ps...), j.against([]claimLimit{perHundred}, hundred))
	if said > 100 {
		j.need("More than 100 %% is not possible.")
		return
	}
	if said >= 100 && j.single() && j.servingOpen(out) {
		return
	}
	j.v.Open = out == limitUnsure
	if j.v.Allowed = out == limitHolds && j.chosen; !j.v.Allowed {
		return
	}
	if said >= 100 {
		j.condition("No fat is added.")
	}
	j.otherReadings(fooddata.Fat)
}
