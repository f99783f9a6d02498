package engine

import (
	"fmt"
	"slices"

	"pottle/fooddata"
)

// The judgements of claims that compare with an original.

// comparison finds the amount in which two foods are compared: the reference
// amount, 100 g of a meal, else a serving if both are known. It returns false
// if there is no original.
func (j *judge) comparison() (amountOf, bool) {
	if j.original == nil {
		j.v.AskOriginal = true
		j.need("It is a comparison. What is the original? Paste it, or compare with an earlier version.")
		return amountOf{}, false
	}
	if j.original.Grams.Low <= 0 {
		j.need("No ingredient of the original is counted, so there is nothing to compare with.")
		return amountOf{}, false
	}
	if (j.food.finished > 0) != (j.other.finished > 0) { // both cooked or both as assembled
		j.food.finished, j.other.finished = 0, 0
		j.condition("Both are compared by the weight of the ingredients as assembled, since only one was weighed finished.")
	}
	switch {
	case j.single():
		return j.referenceAmount(), true
	case j.meal():
		return hundred, true
	}
	j.v.AskReference = true
	return hundred, true
}

// cut returns how much less of n the food holds than the original in p, in per
// cent, at the end of the written amounts where that is least, with a sentence,
// and the lines that make it uncertain. It is negative if it holds more.
func (j *judge) cut(n fooddata.Nutrient, p amountOf, least float64) (percent float64, open []string) {
	mine, theirs := j.food.holds(n, p), j.other.holds(n, p)
	open = mine.open
	if theirs.least() <= 0 {
		j.need("No %s is known in the original.", claimName(n))
		return 0, open
	}
	end := 0
	if mine.upper[1]/theirs.known[1] > mine.upper[0]/theirs.known[0] {
		end = 1
	}
	now, was := mine.known[end], theirs.known[end]
	percent = withoutNoise((1 - mine.upper[end]/was) * 100)
	if percent < least && withoutNoise((1-now/was)*100) >= least { // only what is missing keeps it from that
		percent = withoutNoise((1 - now/was) * 100)
		if open = append(open, mine.bounded...); len(open) == 0 {
			open = j.food.unmeasured()
		}
	}
	change, atLeast := figureBeside(percent, least)+" % less", ""
	switch {
	case percent < 0:
		change = figure(-percent) + " % more"
	case percent == 0:
		change = "no less"
	}
	if len(open) > 0 {
		atLeast = "at least "
	}
	j.need("%s of the original has %s %s, %s of this %s%s %s: %s.", sentenceCase(p.of), figure(was), unitName(n), p.of, atLeast, figure(now), n.Unit(), change)
	return percent, open
}

// uncertain notes lines that keep a comparison from being sure.
func (j *judge) uncertain(open []string) bool {
	if len(open) == 0 {
		return false
	}
	j.v.AtLeast, j.v.Open = true, true
	j.need("What %s adds is not known, so this cannot be said.", andWords(uniqueWords(open)))
	return true
}

// originalLow reports, with the reason, whether the original is low in n
// itself: then a label may not claim a reduction (21 CFR 101.13(j)(3)).
func (j *judge) originalLow(n fooddata.Nutrient) bool {
	c, ok := findLimitClaim(claimLow, n)
	if !ok || !j.chosen {
		return false
	}
	limits, ps := j.amountsOf(c)
	for _, p := range ps {
		if j.other.surelyExceeds(limits, p) {
			return false
		}
	}
	j.need("The original is %s itself, so a reduction may not be claimed (21 CFR 101.13(j)(3)).", asked{kind: claimLow, nutrient: n}.called())
	return true
}

// comparedWith adds what goes with every comparison.
func (j *judge) comparedWith(words string, ns ...fooddata.Nutrient) {
	j.condition("The original is a regular food of its kind, such as your own usual recipe, and not one made up for the comparison (21 CFR 101.13(j)(1)).")
	name := "the original"
	if j.original.Title != "" && j.original.Title != j.food.Title {
		name = j.original.Title
	}
	j.disclose("Beside it, by how much and than what: \"%s than %s\" (21 CFR 101.13(j)(2)).", words, name)
	if j.food.Known && j.other.Known {
		var amounts []string
		for _, n := range ns {
			amounts = append(amounts, fmt.Sprintf("%s from %s to %s", claimName(n), Declared(n, j.other.Per(n).Low), Declared(n, j.food.Per(n).Low)))
		}
		j.disclose("Beside it or with the nutrition information, the amounts of a serving: %s.", andWords(amounts))
	}
	for _, n := range ns {
		j.otherReadings(n)
	}
}

// reduced judges "reduced", "less" and "fewer".
func (j *judge) reduced() {
	n := j.asked.nutrient
	rule := reducedClaims[slices.IndexFunc(reducedClaims, func(r reducedRule) bool { return r.nutrient == n })]
	j.v.Rule = rule.rule
	least := max(leastReduction, j.asked.percent)
	where := "in the reference amount"
	if j.chosen {
		where = "in " + j.reference.Says
	}
	if j.meal() {
		where = "in 100 g"
	}
	besides := ""
	if len(rule.besides) > 0 {
		besides = ", with " + limitTexts(rule.besides)
	}
	j.need("%s is at least %s %% less than the original %s%s.", inQuotes(j.v.Claim), figure(least), where, besides)
	p, ok := j.comparison()
	if !ok {
		return
	}
	percent, open := j.cut(n, p, least)
	out := limitHolds
	if len(rule.besides) > 0 {
		out = j.against(rule.besides, p)
	}
	switch {
	case percent < least:
		j.v.AskReference = false // the share is the same of any amount
		if was := j.other.holds(n, p).least(); was > 0 {
			j.need("%s %s more must go from %s.", figure(was*(least-percent)/100), unitName(n), p.of)
		}
		j.v.AtLeast = j.v.AtLeast || len(open) > 0
	case out == limitFails:
	case j.uncertain(open), j.originalLow(n), out != limitHolds, !j.chosen:
	default:
		j.v.Allowed = true
		j.comparedWith(fmt.Sprintf("%s %% less %s", wholePercent(percent), claimName(n)), n)
		j.alongside(claimReduced, n)
	}
}

// wholePercent writes a reduction in whole per cent, never more than it is.
func wholePercent(p float64) string { return figureWith(float64(int(withoutNoise(p))), 0) }

// more judges "more", "added", "fortified".
func (j *judge) more() {
	n := j.asked.nutrient
	dv, _ := fooddata.DailyValue(n)
	j.v.Rule = "21 CFR 101.54(e)"
	where := "in the reference amount"
	if j.meal() {
		where = "in 100 g"
	} else if j.chosen {
		where = "in " + j.reference.Says
	}
	share := float64(moreShare)
	j.need("%s is at least %s %% of the Daily Value more than the original %s, %s %s.", inQuotes(j.v.Claim), figure(share), where, figure(dv*share/100), unitName(n))
	p, ok := j.comparison()
	if !ok {
		return
	}
	mine, theirs := j.food.holds(n, p), j.other.holds(n, p)
	open := append(theirs.open, theirs.bounded...)
	end := 0
	if mine.known[1]-theirs.upper[1] < mine.known[0]-theirs.upper[0] {
		end = 1
	}
	now, was := mine.known[end], theirs.upper[end]
	got := dailyShare(n, now-was)
	change := figureBeside(got, share) + " % of the Daily Value more"
	if got < 0 {
		change = figure(-got) + " % of the Daily Value less"
	}
	j.need("%s of the original has %s %s, %s of this %s %s: %s.", sentenceCase(p.of), figure(was), unitName(n), p.of, figure(now), n.Unit(), change)
	switch {
	case n == fooddata.Protein && got >= share:
		j.v.Open = true
		j.need("For protein it goes by the amount corrected for the quality of the protein (21 CFR 101.9(c)(7)), which is not known here.")
	case got < share:
		j.need("%s %s more is missing in %s.", figure(dv*share/100-(now-was)), unitName(n), p.of)
	case j.asked.percent > 0:
		j.need("A percentage in the claim must be of the Daily Value or of the original, and say which; here it is %s %% of the Daily Value.", wholePercent(got))
	case len(open) > 0:
		j.v.AtLeast, j.v.Open = true, true
		j.need("What %s adds to the original is not known, so this cannot be said.", andWords(uniqueWords(open)))
	case j.chosen:
		j.v.Allowed = true
		j.comparedWith(fmt.Sprintf("%s %% more of the Daily Value for %s", wholePercent(got), claimName(n)), n)
		j.presentDetails(n)
	}
}

// third is a third in per cent, as withoutNoise leaves it.
var third = withoutNoise(100.0 / 3)

// light judges "light" without more.
func (j *judge) light() {
	if j.meal() {
		j.lightMeal()
		return
	}
	j.v.Rule = "21 CFR 101.56(b)"
	j.need("\"light\" is half the fat of the original; or, if less than half of the calories come from fat, a third fewer calories will do.")
	p, ok := j.comparison()
	if !ok {
		return
	}
	if j.lightByTwo(p) {
		return
	}
	mine, theirs := j.food.percent(fooddata.Fat, ofEnergy), j.other.percent(fooddata.Fat, ofEnergy)
	// Whether the half is meant of this food or of the original the wording
	// leaves open; the stricter reading counts. So does an unknown original.
	fatty := withoutNoise(max(mine.atMost(), theirs.atMost())) >= 50 || len(theirs.open) > 0
	j.need("%s %% of the calories of the original come from fat, of this %s %%.", figureBeside(theirs.most(), 50), figureBeside(mine.most(), 50))
	fat, open := j.cut(fooddata.Fat, p, 50)
	if fat >= 50 {
		j.lightIf(open, fmt.Sprintf("%s %% less fat", wholePercent(fat)), fooddata.Fat)
		return
	}
	kcal, openKcal := j.cut(fooddata.Energy, p, third)
	if kcal >= third && !fatty {
		j.lightIf(append(openKcal, open...), fmt.Sprintf("%s %% fewer calories", wholePercent(kcal)), fooddata.Energy, fooddata.Fat)
		return
	}
	if fatty {
		j.need("With half of the calories or more from fat, only half the fat will do.")
	}
	j.need("Neither is reached.")
	j.v.AtLeast = len(open)+len(openKcal) > 0
}

func (j *judge) lightIf(open []string, words string, ns ...fooddata.Nutrient) {
	if j.uncertain(open) || !j.chosen {
		return
	}
	j.v.Allowed = true
	j.condition("The original stands for its kind, such as an average of several recipes or a figure from a table (21 CFR 101.13(j)(1)).")
	j.comparedWith(words, ns...)
}

// lightByTwo judges "light" where the original is low in calories and in fat,
// when only half the sodium will do (21 CFR 101.56(c)(1)). It reports whether
// that was the case.
func (j *judge) lightByTwo(p amountOf) bool {
	if !j.chosen {
		return false
	}
	for _, n := range []fooddata.Nutrient{fooddata.Energy, fooddata.Fat} {
		c, _ := findLimitClaim(claimLow, n)
		limits, ps := j.amountsOf(c)
		for _, at := range ps {
			if j.other.surelyExceeds(limits, at) {
				return false
			}
		}
	}
	j.v.Rule = "21 CFR 101.56(c)(1)"
	j.need("The original is low in calories and in fat itself: then \"light\" is half the sodium.")
	percent, open := j.cut(fooddata.Sodium, p, 50)
	switch {
	case !j.meetsLow(fooddata.Energy) || !j.meetsLow(fooddata.Fat):
		j.need("This is not known to be low in calories and in fat.")
	case percent < 50:
		j.need("That is not half.")
	case !j.originalLow(fooddata.Sodium):
		j.lightIf(open, fmt.Sprintf("%s %% less sodium", wholePercent(percent)), fooddata.Sodium)
	}
	return true
}

// lightMeal judges "light" of a meal or main dish (21 CFR 101.56(d)).
func (j *judge) lightMeal() {
	j.v.Rule = "21 CFR 101.56(d)"
	var met []string
	for _, n := range []fooddata.Nutrient{fooddata.Energy, fooddata.Fat} {
		c, _ := findLimitClaim(claimLow, n)
		words := asked{kind: claimLow, nutrient: n}.called()
		j.need("A light %s is low in calories or in fat: %q is %s in 100 g.", j.reference.Name, words, limitTexts(c.meal))
		if j.against(c.meal, hundred) == limitHolds {
			met = append(met, words)
			j.otherReadings(n)
		}
	}
	if j.v.Allowed = len(met) > 0; j.v.Allowed {
		j.v.AtLeast = false
		j.disclose("Say which it is: \"light, a %s %s\".", met[0], j.reference.Name)
	}
}

// lightInSodium judges "light in sodium".
func (j *judge) lightInSodium() {
	j.v.Rule = "21 CFR 101.56(c)(2)"
	if j.meal() {
		c, _ := findLimitClaim(claimLow, fooddata.Sodium)
		j.need("A %s that is light in sodium is low in sodium: %s in 100 g.", j.reference.Name, limitTexts(c.meal))
		j.v.Allowed = j.against(c.meal, hundred) == limitHolds
		return
	}
	j.need("\"light in sodium\" is at least 50 %% less sodium than the original.")
	p, ok := j.comparison()
	if !ok {
		return
	}
	percent, open := j.cut(fooddata.Sodium, p, 50)
	switch {
	case percent < 50:
		j.need("That is not half.")
		j.v.AtLeast = len(open) > 0
	case j.uncertain(open), j.originalLow(fooddata.Sodium), !j.chosen:
	default:
		j.v.Allowed = true
		j.comparedWith(fmt.Sprintf("%s %% less sodium", wholePercent(percent)), fooddata.Sodium)
	}
}

// lightlySalted judges "lightly salted": half the sodium that is added.
func (j *judge) lightlySalted() {
	j.v.Rule = "21 CFR 101.56(g)"
	j.need("\"lightly salted\" is at least 50 %% less sodium added than is usual in the original.")
	if _, ok := j.comparison(); !ok {
		return
	}
	now, known := saltSodium(j.food)
	was, wasKnown := saltSodium(j.other)
	switch {
	case !known || !wasKnown:
		j.v.AtLeast, j.v.Open = true, true
		j.need("How much salt goes in is not known: give the amount.")
		return
	case was == 0:
		j.need("No salt is added to the original.")
		return
	}
	percent := withoutNoise((1 - now/was) * 100)
	j.need("For the same weight the salt of the original brings %s mg sodium in 100 g, here %s mg: %s %% less.", figure(was*100), figure(now*100), figureBeside(percent, 50))
	if percent < 50 {
		j.need("That is not half.")
		return
	}
	if j.v.Allowed = j.chosen; !j.v.Allowed {
		return
	}
	j.condition("No other sodium, such as soy sauce or baking soda, was added in place of the salt.")
	j.comparedWith(fmt.Sprintf("%s %% less sodium added", wholePercent(percent)), fooddata.Sodium)
	if !j.meetsLow(fooddata.Sodium) {
		j.disclose("Beside it, \"not a low sodium food\" (21 CFR 101.56(g)).")
	}
}

// saltSodium returns the sodium, in mg for each gram of the rest of the food,
// that salt brings, and whether all salt is counted.
func saltSodium(f claimedFood) (perGram float64, known bool) {
	rest := f.Grams.Low
	if f.finished > 0 {
		rest = f.finished
	}
	known = true
	sodium := 0.0
	for i := range f.Lines {
		l := &f.Lines[i]
		switch {
		case l.Status == Ask:
			known = false
		case !isSalt(l) || l.Reason == OptionalItem:
		case l.Status != Counted:
			known = false
		default:
			r, ok := l.Has(fooddata.Sodium)
			sodium += r.Low
			rest -= l.Grams.Low
			known = known && ok && r.High == r.Low
		}
	}
	return sodium / max(rest, 1), known
}
