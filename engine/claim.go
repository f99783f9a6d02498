package engine

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
)

// ClaimScope is what to say with every verdict: what label law looks at.
const ClaimScope = "These are the terms for food labels. Label law goes by the reference amount of the food, not by the serving alone, and does not cover what is said in conversation; a figure worked out from a recipe is an estimate and makes no label."

// ClaimRequest asks whether something may be said of a recipe.
type ClaimRequest struct {
	Claim     string    // as said: "high in fibre", "a good source of calcium", "reduced sodium than the original"
	Reference string    // a reference amount, as ReferenceNamed reads it, or "" if none is chosen
	Original  *Analysis // what "reduced", "light" and "more" compare with, or nil
	// CookedGrams is what the whole recipe weighs as eaten, and
	// OriginalCookedGrams what the original does; 0 if they were not weighed.
	// Then the weight of the ingredients as assembled counts.
	CookedGrams, OriginalCookedGrams float64
}

// maxClaim is the most bytes of a claim, and of the name of a reference amount.
const maxClaim = 200

// Verdict is the answer to a ClaimRequest. All texts are whole sentences.
type Verdict struct {
	Known   bool   // whether it was understood as a claim
	Claim   string // the claim in our own words: "low sodium"
	Allowed bool   // whether the figures bear it, under the Conditions
	// Needs says what the threshold is, what the recipe reaches and what is
	// missing.
	Needs []string
	// Conditions are what must be so as well and the figures do not show. A yes
	// must never be given without them.
	Conditions []string
	// Disclosure is what must be said beside the claim; of a claim that is
	// refused it is empty.
	Disclosure    []string
	Rule          string      // the section of the regulation
	Refused       string      // for words about disease, the body or allergy: the firm no with its reason
	AskReference  bool        // a reference amount must be chosen
	References    []Reference // where one must be chosen: those that the title speaks for
	AskOriginal   bool        // the original to compare with must be given
	AtLeast       bool        // a gap makes a figure that decides uncertain
	ReferenceUsed string      // the reference amount that was gone by: "110 g, muffins and bagels"
}

// MayClaim judges whether a claim may be made of the recipe on a food label in
// the United States. Claims of little or nothing hold at the larger end of
// every written amount and never pass over a figure that is missing; claims
// that something is in the food hold at the smaller end.
func (a *Analysis) MayClaim(r ClaimRequest) Verdict {
	if len(r.Claim) > maxClaim || len(r.Reference) > maxClaim {
		return Verdict{Needs: []string{"That is too long for a claim. Ask about one at a time, such as \"low sodium\"."}}
	}
	if no, rule, instead := refusal(r.Claim); no != "" {
		v := Verdict{Known: true, Claim: r.Claim, Refused: no, Rule: rule}
		if instead != "" {
			v.Needs = []string{"What can be checked instead: " + instead + "."}
		}
		return v
	}
	j := judge{food: claimedFood{a, 0}, asked: readClaim(r.Claim), original: r.Original}
	j.v.Known = j.asked.kind != claimUnknown
	j.v.Claim = j.asked.called()
	if !j.v.Known {
		j.need("%q is no claim that is known here, or more than one. Ask about one at a time, such as \"low sodium\", \"high in fibre\", \"reduced fat\" or \"light\".", j.asked.words)
		return j.v
	}
	if r.CookedGrams > 0 && !math.IsInf(r.CookedGrams, 1) {
		j.food.finished = r.CookedGrams
	}
	if r.Original != nil {
		j.other = claimedFood{r.Original, 0}
		if r.OriginalCookedGrams > 0 && !math.IsInf(r.OriginalCookedGrams, 1) {
			j.other.finished = r.OriginalCookedGrams
		}
	}
	if r.Reference != "" {
		if j.reference, j.chosen = ReferenceNamed(r.Reference); !j.chosen {
			j.notKnown = r.Reference
		}
	}
	j.judge()
	return j.v
}

// judge works out one verdict.
type judge struct {
	food      claimedFood
	other     claimedFood // the original
	original  *Analysis   // nil if there is none
	asked     asked
	reference Reference
	chosen    bool
	notKnown  string // what was asked for as a reference amount and is none
	v         Verdict
	// The finished weight, in grams, that the figures by weight bear: no less
	// than least, no more than most; 0 if they set no such bound.
	least, most float64
}

func (j *judge) need(format string, args ...any) {
	j.v.Needs = append(j.v.Needs, fmt.Sprintf(format, args...))
}

func (j *judge) condition(format string, args ...any) {
	j.v.Conditions = append(j.v.Conditions, fmt.Sprintf(format, args...))
}

func (j *judge) disclose(format string, args ...any) {
	j.v.Disclosure = append(j.v.Disclosure, fmt.Sprintf(format, args...))
}

func (j *judge) judge() {
	if undefined := j.undefined(); undefined != "" {
		j.v.Rule = "21 CFR 101.13(b)"
		j.need("%s", undefined)
		return
	}
	if j.food.Grams.Low <= 0 {
		j.need("No ingredient is counted yet, so there is nothing to judge.")
		return
	}
	if j.chosen {
		j.v.ReferenceUsed = j.reference.Says
		if j.reference.Name != j.reference.Says {
			j.v.ReferenceUsed += ", " + j.reference.Name
		}
		if j.reference.Class == SingleFood && j.reference.Assumed != "" {
			j.condition("The reference amount is a measure: %s. Weigh it to be sure.", j.reference.Assumed)
		}
		if j.reference.lean == leanMeat {
			j.condition("Meat and poultry are under USDA, whose terms are the same in most figures (9 CFR parts 317 and 381, from memory).")
		}
		if j.reference.Class != SingleFood {
			j.v.ReferenceUsed = j.reference.Name
			if !j.isMeal() {
				return
			}
		}
	}
	switch j.asked.kind {
	case claimFree, claimLow, claimVeryLow:
		c, _ := findLimitClaim(j.asked.kind, j.asked.nutrient)
		j.limited(c)
	case claimHigh, claimGood:
		j.present()
	case claimAntioxidant:
		j.antioxidant()
	case claimHighPotency:
		j.potency()
	case claimMore:
		j.more()
	case claimReduced:
		j.reduced()
	case claimLight:
		j.light()
	case claimLightSodium:
		j.lightInSodium()
	case claimLightlySalted:
		j.lightlySalted()
	case claimUnsalted:
		j.unsalted()
	case claimNoAddedSugars:
		j.noAddedSugars()
	case claimPercentFatFree:
		j.percentFatFree()
	case claimLean, claimExtraLean:
		j.lean()
	case claimHealthy:
		j.healthy()
	case claimGlutenFree:
		j.v.Rule = "21 CFR 101.91"
		j.need("\"Gluten free\" goes by gluten below 20 mg/kg in the food and by no wheat, rye or barley that was not freed of gluten. A recipe's figures cannot show that.")
	}
	j.close()
}

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

// isMeal reports whether a serving is a meal or main dish in the sense of the
// regulation, as far as weights and food groups tell; else it says why not.
func (j *judge) isMeal() bool {
	rule := mealRules[j.reference.Class]
	if !j.food.Known {
		j.v.Rule = rule.rule
		j.need("How many servings it makes is not known, and a %s is judged by its serving.", j.reference.Name)
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

// close adds what goes for every claim: the ask for a reference amount, the
// finished weight, what is left open, and the disclosures.
func (j *judge) close() {
	if j.v.AskReference && !j.chosen {
		if j.notKnown != "" {
			j.need("%q is not one of the reference amounts that are known here, or could be several.", j.notKnown)
		}
		j.need("Which reference amount goes with it? Name the kind of food, such as \"muffins\", \"soup\" or \"main dish\", or a weight.")
		j.v.References = LikelyReferences(j.food.Title)
	}
	if j.asked.salt && j.v.Known && j.asked.kind != claimUnsalted {
		j.condition("Say \"sodium\": label law does not take \"salt\" for it (21 CFR 101.61(c)(1), from memory).")
	}
	if j.food.finished == 0 {
		switch assembled := weighed(j.food.Grams.Low) + " g"; {
		case j.least > 0 && j.most > 0:
			j.condition("It goes by the weight of the ingredients as assembled, %s, and holds while the finished dish weighs from %s to %s g.", assembled, weighed(math.Ceil(j.least)), weighed(math.Floor(j.most)))
		case j.least > 0:
			j.condition("It goes by the weight of the ingredients as assembled, %s, and holds while the finished dish weighs at least %s g.", assembled, weighed(math.Ceil(j.least)))
		case j.most > 0:
			j.condition("It goes by the weight of the ingredients as assembled, %s, and holds while the finished dish weighs no more than %s g.", assembled, weighed(math.Floor(j.most)))
		}
	}
	if !j.v.Allowed {
		j.v.Conditions = nil
	}
	if j.v.Allowed {
		j.disclosureLevels()
	} else {
		j.v.Disclosure = nil
	}
}

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

// orWords and andWords join words.
func orWords(w []string) string  { return joinWords(w, " or ") }
func andWords(w []string) string { return joinWords(w, " and ") }

func joinWords(w []string, last string) string {
	if n := len(w); n > 1 {
		return strings.Join(w[:n-1], ", ") + last + w[n-1]
	}
	return strings.Join(w, "")
}

func countOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

func sentenceCase(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// figure writes an amount for reading: whole from ten on, one decimal from one
// on, else two.
func figure(v float64) string { return figureWith(v, decimalsFor(v)) }

func decimalsFor(v float64) int {
	switch {
	case v >= 9.95:
		return 0
	case v >= 0.995:
		return 1
	}
	return 2
}

func figureWith(v float64, decimals int) string {
	p := math.Pow(10, float64(decimals))
	return WithCommas(strconv.FormatFloat(math.Round(v*p)/p, 'f', -1, 64))
}

// figureBeside writes an amount with as many decimals as it takes to see how
// far it is from the limit.
func figureBeside(v, limit float64) string {
	v = withoutNoise(v)
	d := decimalsFor(v)
	for apart := math.Abs(v - limit); d < 6 && apart > 0 && math.Pow(10, float64(-d)) > apart/2; d++ {
	}
	return figureWith(v, d)
}

func quantityBeside(n fooddata.Nutrient, v, limit float64) string {
	return figureBeside(v, limit) + " " + unitName(n)
}

// unitName is a unit with the name of its nutrient: "mg sodium", "kcal".
func unitName(n fooddata.Nutrient) string {
	if n == fooddata.Energy {
		return "kcal"
	}
	return n.Unit() + " " + claimName(n)
}

// weighed writes grams in whole numbers.
func weighed(g float64) string { return figureWith(g, 0) }
