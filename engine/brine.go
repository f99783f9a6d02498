package engine

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/grammar"
)

// How much brine goes into what lies in it.
//
// Meat, fish and poultry take up brine to about 8 to 10 % of their own weight, and
// with it the salt and sugar that are in so much of the brine (common practice, no
// source); it depends on the cut and the time. 10 % errs on the side of more
// sodium. A brine whose water is not told is taken to be 6 % salt (common
// practice, no source: a quarter cup of salt to the quart).
const (
	brineTakenUp = 0.10
	usualBrine   = 0.06
)

// brineShare returns the share of the lines of a brine that goes into the meat,
// and what it rests on; ok is false if no meat is weighed.
func (a *Analysis) brineShare(lines []int, steps []cookStep) (share float64, source string, ok bool) {
	meat, salt := 0.0, 0.0
	water := false
	for i := range a.Lines {
		l := &a.Lines[i]
		switch {
		case l.Status != Counted:
		case slices.Contains(lines, i):
			water = water || l.Food.Group() == "Beverages" || l.Food.Group() == "Dairy and Egg Products" || soluble(l) && !isSalt(l) && l.Grams.Low > brineLiquid
			if plainSalt(l) {
				salt += l.Grams.Low
			}
		case marinated(l):
			meat += l.Grams.Low
		}
	}
	brine := a.gramsOf(lines)
	if meat == 0 || brine == 0 {
		return 0, "", false
	}
	source = fmt.Sprintf("an estimate: %.0f %% of the meat's weight in brine, common practice, no source", brineTakenUp*100)
	if !water {
		if told := waterTold(steps); told > 0 {
			brine += told
		} else if salt > 0 {
			brine = max(brine, salt/usualBrine)
			source += fmt.Sprintf("; how much water is not told, taken as %.0f %% salt", usualBrine*100)
		}
	}
	return min(1, brineTakenUp*meat/brine), source, true
}

// brineLiquid is the weight in grams from which a line of a brine is its liquid
// and no seasoning.
const brineLiquid = 400

var waterPattern = regexp.MustCompile(`(?i)((?:\d+ )?\d+(?:[/.]\d+)?|[¼½¾⅓⅔⅛]|a|one|two) (cups?|quarts?|pints?|gallons?|l|litres?|liters?|ml) (?:of )?(?:[a-z]+ )?water`)

// waterTold is the water, in grams, that the directions tell the amount of: "in 2
// quarts of water". It is 0 if they tell none.
func waterTold(steps []cookStep) float64 {
	sum := 0.0
	for i := range steps {
		for _, m := range waterPattern.FindAllStringSubmatch(steps[i].said, -1) {
			item := grammar.ParseLine(m[1] + " " + m[2] + " water").Items[0]
			if item.Amount == nil || item.Amount.Terms[0].Measure == nil || item.Amount.Terms[0].Measure.Kind != grammar.Volume {
				continue
			}
			sum += ratio(item.Amount.Terms[0].Quantity.Low) * ratio(item.Amount.Terms[0].Measure.Amount)
		}
	}
	return sum
}

// brineThrownAway returns how many steps there are up to the one that throws a
// brine away; 0 if none does. Meat is not eaten with its brine: there "drain" or
// "pat dry" is enough, which for a pickle is not.
func (a *Analysis) brineThrownAway(steps []cookStep) int {
	meat := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Ingredient && slices.Contains(l.Item.Words, "brine") { // "1/4 cup pickle brine" is an ingredient
			return 0
		}
		meat = meat || l.Status == Counted && marinated(l)
	}
	brined, end := false, 0
	for i := range steps {
		said := saidIn(&steps[i])
		has := saidAny(said, "brine|brining|brined") && !saidAny(said, "dry brine|dry brining|dry brined")
		switch {
		case has && saidAny(said, "reserve|reserving|reserved|save|keep"):
			return 0
		case end > 0 && has && !saidAny(said, "discard|discarding"): // used after all
			return 0
		}
		brined = brined || has
		if end == 0 && brined && (has && saidAny(said, "discard|discarding|drain|from brine|from the brine|out of the brine|rinse|pour off") ||
			meat && saidAny(said, "discard|drain|rinse|pat dry|pat it dry|pat them dry|dry")) {
			end = i + 1
		}
	}
	return end
}

// brine returns the lines of the brine, which the step before end throws away:
// those under a heading that names it, or else the salt, sugar and liquids that
// no later step names.
func (a *Analysis) brine(steps []cookStep, end int) []int {
	var under []int
	in := false
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind == grammar.Heading {
			in = saidAny(" "+strings.Join(plainWords(l.Text), " ")+" ", "brine|brining")
		} else if in && l.Status == Counted && !marinated(l) {
			under = append(under, i)
		}
	}
	if len(under) > 0 {
		return under
	}
	return a.liquidOf(steps, end, "brine")
}
