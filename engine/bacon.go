package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Bacon that is fried loses about two thirds of its fat to the pan (SR28 10123, raw,
// against 10862, fried, by the fat for each gram of protein). Where the directions
// throw the drippings away it is taken off; a spoon of them that is kept stays.

// isBacon reports raw bacon, of which the table has the fried too.
func isBacon(l *Line) bool {
	return browned[l.Food.Number()] != "" && strings.Contains(strings.ToLower(l.Food.Description()), "bacon")
}

// rendered is what directions tell of the drippings of bacon.
type rendered struct {
	lines  []int   // of raw bacon that is cooked
	steps  []int   // that throw the drippings away
	thrown bool    // they are thrown away, but for what is kept
	kept   float64 // grams of drippings that are kept
	said   string  // what is kept: "2 tbsp"
	open   string  // the words by which the bacon is crisped, where nothing is told of the drippings
}

// gramsOfDrippings is a millilitre of bacon fat (common practice, no source: 13 g
// to the tablespoon).
const gramsOfDrippings = 13 / 14.787

// rendersBacon reads what becomes of the drippings.
func (a *Analysis) rendersBacon(steps []cookStep, k *pot) rendered {
	var r rendered
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Kind == grammar.Ingredient && l.Status == Counted && isBacon(l) {
			r.lines = append(r.lines, i)
		}
	}
	if len(r.lines) == 0 {
		return rendered{}
	}
	cooked, mine, told := false, false, false
	for i := range steps {
		s := &steps[i]
		said := saidIn(s)
		bacon, other := slices.Contains(s.words, "bacon"), false
		for _, at := range k.named(s) {
			l := &a.Lines[at]
			bacon = bacon || isBacon(l)
			other = other || l.Status == Counted && !isBacon(l) && marinated(l)
		}
		switch {
		case bacon:
			mine = true
		case other:
			mine = false
		}
		if bacon && s.method != "" {
			cooked = true
			if saidAny(said, "crisp|crispy|brown|rendered|render") {
				r.open = s.said
			}
		}
		if !cooked || !mine {
			continue
		}
		if (bacon || i > 0 && slices.Contains(steps[i-1].words, "bacon")) && r.open == "" && saidAny(said, "drain|paper towels|paper towel|kitchen paper") {
			r.open = s.said
		}
		fat := fatPattern.MatchString(said)
		told = told || fat
		rest := r.said != "" && saidAny(said, "rest|remaining|remainder|excess")
		throws := saidAny(said, pouredOff) && (fat || rest)
		m := reservedAmount.FindStringSubmatch(said)
		switch {
		case fat && m != nil && (throws && saidAny(said, "all but|except|but|leaving") || saidAny(said, "reserve|reserving|reserved|keep|keeping|save|saving|leave|leaving|return")):
			if ml := mlTold(m[1] + " " + m[2]); ml > 0 {
				r.kept, r.said, r.thrown = ml*gramsOfDrippings, m[1]+" "+m[2], true
				r.steps = append(r.steps, i)
			}
		case throws && !saidAny(said, "reserve|reserving|some|half|most"):
			r.thrown = true
			r.steps = append(r.steps, i)
		}
	}
	if !cooked {
		return rendered{}
	}
	if told {
		r.open = ""
	}
	return r
}

// mlTold reads a volume: "2 tbsp". It is 0 for anything else.
func mlTold(amount string) float64 {
	item := grammar.ParseLine(amount + " water").Items[0]
	if item.Amount == nil || item.Amount.Terms[0].Measure == nil || item.Amount.Terms[0].Measure.Kind != grammar.Volume {
		return 0
	}
	return ratio(item.Amount.Terms[0].Quantity.Low) * ratio(item.Amount.Terms[0].Measure.Amount)
}

// baconFat gives what stays of the fat of bacon whose drippings are thrown away.
func (e *Engine) baconFat(a *Analysis, r rendered) []Kept {
	if !r.thrown {
		return nil
	}
	fat := 0.0
	for _, at := range r.lines {
		f, _ := a.Lines[at].Has(fooddata.Fat)
		fat += f.Low
	}
	var kept []Kept
	for _, at := range r.lines {
		share, source := e.fatKept(a.Lines[at].Food)
		if r.kept > 0 && fat > 0 {
			share = min(1, share+r.kept/fat)
			source += "; and the " + r.said + " of drippings that is kept"
		}
		kept = append(kept, Kept{Line: at, Kind: KeptFat, Share: share, Source: source})
	}
	return kept
}

// openBacon says that the fat which crisp bacon leaves in the pan is counted.
func (e *Engine) openBacon(a *Analysis, r rendered) string {
	if r.thrown || r.open == "" || !a.shows(r.lines) {
		return ""
	}
	share, _ := e.fatKept(a.Lines[r.lines[0]].Food)
	return fmt.Sprintf("%q: the bacon is counted raw, with the fat that it leaves in the pan; if that is poured off, say \"keep %.0f%% of the fat\"", r.open, share*100)
}
