package engine

import (
	"fmt"
	"math"
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
	AskServings   bool        // how many servings it makes decides, and is not known
	Open          bool        // what is known neither bears it nor rules it out; Needs says what is not known
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
		j.glutenFree()
	}
	j.close()
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
		j.v.Open = false
		j.disclosureLevels()
	} else {
		j.v.Disclosure = nil
	}
}
