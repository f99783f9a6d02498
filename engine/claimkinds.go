package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/fooddata"
)

// The judgements of each kind of claim. Each states the threshold, what the
// food reaches and what is missing, and sets Allowed.

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

func uniqueWords(w []string) []string {
	var out []string
	for _, s := range w {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
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
	if c.kind == claimFree && !j.food.Known {
		j.need("It must hold for a serving too, and how many servings it makes is not known.")
		return
	}
	j.v.Allowed = out == limitHolds
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

// notLowCalorie adds what a claim about sugars must say of the calories.
func (j *judge) notLowCalorie(rule string) {
	if !j.meetsLow(fooddata.Energy) {
		j.disclose("Beside it, \"not a low calorie food\" or \"not a reduced calorie food\" (%s).", rule)
	}
}

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
		return false
	case got < share:
		j.need("%s %s is missing in %s.", figure(threshold-least), unitName(n), p.of)
		j.v.AtLeast = len(open) > 0
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
	if said >= 100 && j.chosen && j.reference.Class == SingleFood && !j.food.Known {
		j.need("It must hold for a serving too, and how many servings it makes is not known.")
		return
	}
	if j.v.Allowed = out == limitHolds && j.chosen; !j.v.Allowed {
		return
	}
	if said >= 100 {
		j.condition("No fat is added.")
	}
	j.otherReadings(fooddata.Fat)
}

// lean judges "lean" and "extra lean".
func (j *judge) lean() {
	var rule leanRule
	for _, r := range leanRules {
		if r.kind == j.asked.kind && r.of == j.reference.lean && j.chosen {
			rule = r
		}
	}
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
	if j.v.Allowed = j.against(rule.limits, ps...) == limitHolds; !j.v.Allowed {
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
	if j.against(rule.limits, ps...) == limitHolds {
		j.need("These limits are met.")
	}
	j.need("It must also hold %s. The figures do not tell that, so whether it may be said is not settled here.", rule.holds)
	j.need("The rule is that of December 2024; labels may follow the older one until 25 February 2028.")
}

func inQuotes(s string) string { return `"` + s + `"` }
