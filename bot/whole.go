package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// keepWhole keeps a whole thing whole where another food takes the place of it in a
// line that counts things: one chicken that is a rotisserie chicken is no breast.
// The item gets the weight of a whole one, in the state of the new food if that is
// known. It returns the item as it was, and no note, where no part is taken for the
// whole.
func (c *Conversation) keepWhole(old, now grammar.Item) (grammar.Item, string) {
	if old.Amount == nil || len(old.Amount.Terms) != 1 || old.Amount.Terms[0].Measure != nil || old.Amount.Terms[0].Each != nil {
		return now, ""
	}
	was, is := c.engine.Resolve(old), c.engine.Resolve(now)
	if was.Status != engine.Counted || is.Status != engine.Counted || !partTaken(&is) || partTaken(&was) {
		return now, ""
	}
	if head, _ := grammar.MeasureNamed("head"); head != nil { // "1 iceberg lettuce" is a head, no leaf
		amount := *old.Amount
		amount.Terms = []grammar.Term{{Quantity: old.Amount.Terms[0].Quantity, Size: old.Amount.Terms[0].Size, Measure: head}}
		whole := now
		whole.Amount = &amount
		if l := c.engine.Resolve(whole); l.Status == engine.Counted && l.Food == is.Food && l.Grams.Low > is.Grams.Low {
			return whole, fmt.Sprintf("the whole of it, %s g", gramsOf(l.Grams.Low))
		}
	}
	if word := stateWord[is.Food.State()]; word != "" && was.Food.State() != is.Food.State() {
		name := strings.Fields(strings.ReplaceAll(was.Food.Name(), ",", ""))
		for _, words := range [][]string{old.Words, name} {
			like := old
			like.Words = append([]string{word}, words...)
			if l := c.engine.Resolve(like); l.Status == engine.Counted && l.Food.State() == is.Food.State() && !partTaken(&l) {
				was = l
				break
			}
		}
	}
	weight := grammar.ParseLine(fmt.Sprintf("%.0f g salt", was.Grams.Low))
	now.Amount, now.Uncounted = weight.Items[0].Amount, ""
	return now, fmt.Sprintf("the whole of it, in the weight of %s: %s g", was.Food.Name(), gramsOf(was.Grams.Low))
}

// parts are what a whole thing is cut or broken into.
var parts = map[string]bool{"breast": true, "thigh": true, "wing": true, "drumstick": true, "leg": true, "leaf": true, "slice": true, "wedge": true, "fillet": true, "floret": true, "stalk": true,
	"clove": true, "strip": true, "ring": true, "half": true, "quarter": true, "segment": true, "section": true, "spear": true, "piece": true, "chop": true, "rasher": true, "patty": true}

// partTaken reports whether a part that the line does not name was taken for one of
// the food: "one breast, 343 g".
func partTaken(l *engine.Line) bool {
	return slices.ContainsFunc(l.Assumed, func(note string) bool {
		rest, ok := strings.CutPrefix(note, "one ")
		name, _, found := strings.Cut(rest, ", ")
		part := name[strings.LastIndex(name, " ")+1:]
		return ok && found && parts[part] && !slices.Contains(l.Item.Words, part)
	})
}
