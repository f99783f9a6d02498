package engine

import (
	"fmt"
	"strings"

	"pottle/fooddata"
)

// claimedFood is a recipe of which something is claimed, with the weight of
// the finished whole in grams, or 0 if it was not weighed.
type claimedFood struct {
	*Analysis
	finished float64
}

// amountOf is what a limit is for: a serving, or a weight of the finished dish.
type amountOf struct {
	grams float64 // 0 for a serving
	of    string  // "A serving (93 g)", "110 g"
}

var (
	fifty   = amountOf{50, "50 g"}
	hundred = amountOf{100, "100 g"}
)

func (f claimedFood) serving() amountOf {
	return amountOf{0, "a serving (" + weighed(f.servingGrams()) + " g)"}
}

func (f claimedFood) servingGrams() float64 {
	if f.finished > 0 {
		return f.finished / f.Servings
	}
	return f.Grams.Low / f.Servings
}

// held is how much of a nutrient is in an amount of the food, at the low and
// at the high ends of the written amounts.
type held struct {
	known   [2]float64
	upper   [2]float64 // with what bounded gaps and items without an amount can add
	bounded []string   // the lines that leave bounded gaps
	open    []string   // the lines that may add any amount
}

// least returns the least that is known to be there.
func (h held) least() float64 { return min(h.known[0], h.known[1]) }

// most returns the most that is known to be there.
func (h held) most() float64 { return max(h.known[0], h.known[1]) }

// atMost returns the most that can be there, open lines apart.
func (h held) atMost() float64 { return max(h.upper[0], h.upper[1]) }

// sure reports whether all of it is known.
func (h held) sure() bool { return len(h.open) == 0 && len(h.bounded) == 0 }

// holds returns how much of n is in p. The larger written amounts weigh more
// as well, unless the finished weight is known.
func (f claimedFood) holds(n fooddata.Nutrient, p amountOf) held {
	m := f.missing(n)
	h := held{bounded: m.bounded, open: m.open}
	grams := [2]float64{f.Grams.Low, f.Grams.High}
	for i, v := range [2]float64{f.Recipe[n].Low, f.Recipe[n].High} {
		factor := 1 / f.Servings
		if p.grams > 0 && f.finished > 0 {
			factor = p.grams / f.finished
		} else if p.grams > 0 {
			factor = p.grams / grams[i]
		}
		h.known[i], h.upper[i] = v*factor, (v+m.bound+m.trace)*factor
	}
	return h
}

// percent returns what share of the calories, or of the fat, n is, in per
// cent. A gap in the calories or the fat makes the share too large, which is
// the safe side.
func (f claimedFood) percent(n fooddata.Nutrient, of shareOf) held {
	m := f.missing(n)
	h := held{bounded: m.bounded, open: m.open}
	whole, factor := f.Recipe[fooddata.Energy], 900.0
	if of == ofFat {
		whole, factor = f.Recipe[fooddata.Fat], 100
	}
	wholes := [2]float64{whole.Low, whole.High}
	ratio := func(part, whole float64) float64 {
		switch {
		case part == 0:
			return 0
		case whole == 0:
			return 100
		}
		return factor * part / whole
	}
	for i, v := range [2]float64{f.Recipe[n].Low, f.Recipe[n].High} {
		h.known[i], h.upper[i] = ratio(v, wholes[i]), ratio(v+m.bound+m.trace, wholes[i])
	}
	return h
}

// outcome is how a limit turns out.
type outcome uint8

const (
	limitHolds  outcome = iota
	limitUnsure         // it holds for what is known, and something is not known
	limitFails
)

// finding is how an amount of the food stands against a limit.
type finding struct {
	outcome outcome
	reaches string   // in words: "at least 152 mg sodium"
	over    float64  // by how much it is over
	low     bool     // it would hold at the smaller end of the written amounts
	open    []string // the lines that keep it from being sure
}

// against holds p of the food against a limit.
func (f claimedFood) against(l claimLimit, p amountOf) finding {
	var h held
	if l.share == plainAmount {
		h = f.holds(l.nutrient, p)
	} else {
		h = f.percent(l.nutrient, l.share)
	}
	exceeds := func(v float64) bool {
		v = withoutNoise(v)
		return v > l.amount || v == l.amount && l.below
	}
	var found finding
	switch {
	case exceeds(h.most()):
		found = finding{outcome: limitFails, over: withoutNoise(h.most()) - l.amount, low: !exceeds(h.least())}
	case len(h.open) > 0:
		found = finding{outcome: limitUnsure, open: append(h.open, h.bounded...)}
	case exceeds(h.atMost()):
		found = finding{outcome: limitUnsure, open: h.bounded}
		if len(h.bounded) == 0 { // what has no amount decides
			found.open = f.unmeasured()
		}
	}
	if l.share == plainAmount {
		found.reaches = quantityBeside(l.nutrient, h.most(), l.amount)
	} else {
		found.reaches = figureBeside(h.most(), l.amount) + " % of its " + shareName(l)
	}
	if len(h.open) > 0 || found.outcome != limitHolds && len(h.bounded) > 0 {
		found.reaches = "at least " + found.reaches
		if h.most() == 0 {
			found.reaches = "an amount of " + claimName(l.nutrient) + " that is not known"
		}
	}
	return found
}

// unmeasured names the items without an amount.
func (f claimedFood) unmeasured() []string {
	var out []string
	for i := range f.Lines {
		if l := &f.Lines[i]; l.Status == NotCounted && l.Reason != OptionalItem {
			out = append(out, l.named())
		}
	}
	return out
}

// meets reports how the food turns out against all limits in p.
func (f claimedFood) meets(limits []claimLimit, ps ...amountOf) outcome {
	worst := limitHolds
	for _, p := range ps {
		for _, l := range limits {
			worst = max(worst, f.against(l, p).outcome)
		}
	}
	return worst
}

// surelyExceeds reports whether what is known of the food is over one of the
// limits in p, whatever is missing.
func (f claimedFood) surelyExceeds(limits []claimLimit, p amountOf) bool {
	exceeds := func(v float64, l claimLimit) bool {
		v = withoutNoise(v)
		return v > l.amount || v == l.amount && l.below
	}
	for _, l := range limits {
		if l.share == plainAmount {
			if exceeds(f.holds(l.nutrient, p).least(), l) {
				return true
			}
			continue
		}
		energy := f.missing(fooddata.Energy)
		if len(energy.open) == 0 && len(energy.bounded) == 0 && exceeds(f.percent(l.nutrient, l.share).least(), l) {
			return true
		}
	}
	return false
}

func shareName(l claimLimit) string {
	if l.share == ofFat {
		return "fat as " + claimName(l.nutrient)
	}
	return "calories from " + claimName(l.nutrient)
}

// text writes the limit: "no more than 140 mg sodium".
func (l claimLimit) text() string {
	s := "no more than "
	if l.below {
		s = "less than "
	}
	if l.share != plainAmount {
		return fmt.Sprintf("%s%s %% of its %s", s, figure(l.amount), shareName(l))
	}
	return s + figure(l.amount) + " " + unitName(l.nutrient)
}

func limitTexts(limits []claimLimit) string {
	out := make([]string, 0, len(limits))
	for _, l := range limits {
		out = append(out, l.text())
	}
	return andWords(out)
}

// mealPortions counts the portions of 40 g of the four food groups of 21 CFR
// 101.13(l) in a serving, by the weights of the ingredients, and the groups
// that they come from.
func (f claimedFood) mealPortions() (portions, groups int) {
	grams := make(map[string]float64)
	for i := range f.Lines {
		l := &f.Lines[i]
		if l.Status != Counted || l.Food.IsZero() {
			continue
		}
		group := mealGroups[l.Food.Group()]
		if group == "milk" {
			group = dairyGroup(l.Food)
		}
		if group != "" {
			grams[group] += l.Grams.Low / f.Servings
		}
	}
	for _, g := range grams {
		if n := int(withoutNoise(g / mealPortion)); n > 0 {
			portions += n
			groups++
		}
	}
	return portions, groups
}

// dairyGroup is the food group of a food among dairy products and eggs: eggs
// stand with meat; butter and cream in none.
func dairyGroup(food fooddata.Food) string {
	d := strings.ToLower(food.Description())
	switch {
	case strings.HasPrefix(d, "egg") && !strings.HasPrefix(d, "eggnog"):
		return "meat"
	case strings.HasPrefix(d, "milk"), strings.HasPrefix(d, "yogurt"), strings.HasPrefix(d, "cheese"):
		return "milk"
	}
	return ""
}
