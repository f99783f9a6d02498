package engine

import (
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// inchesOff is how far the size of a portion in inches is from the size that
// the line says: 0 if the line says none, and a size off if only the portion
// does not.
func (p portioner) inchesOff(portion fooddata.Portion) float64 {
	if p.across == 0 {
		return 0
	}
	if has, ok := portionSize(portion); ok {
		return offSize(p.across, has)
	}
	return 2
}

// ofLength are words for a piece whose length is told.
var ofLength = []string{"piece", "knob", "length", "chunk", "stick"}

// pieceLength is how long the piece is that an item asks for, in inches: "a 2-inch
// piece of ginger". It is 0 if no length is told.
func pieceLength(item grammar.Item, name []string) float64 {
	if !containsAny(name, ofLength) {
		return 0
	}
	for _, said := range slices.Concat(item.Prep, item.Aside) {
		if !strings.Contains(said, "inch") && !strings.Contains(said, "cm") {
			continue
		}
		a := grammar.ParseLine(said + " piece").Items[0].Amount
		if a != nil && a.Terms[0].Measure != nil && a.Terms[0].Measure.Kind == grammar.Length {
			return ratio(a.Terms[0].Quantity.Low) * ratio(a.Terms[0].Measure.Amount) / mmPerInch
		}
	}
	return 0
}

// thinCut reports whether an item says that it is at most half an inch thick:
// "pork chops, 1/2-inch thick".
func thinCut(item grammar.Item) bool {
	for i, said := range slices.Concat(item.Prep, item.Aside) {
		before, thick := strings.CutSuffix(said, "thick")
		if thick && before == "" && i > 0 && i < len(item.Prep) {
			before = item.Prep[i-1]
		}
		if !thick || before == "" {
			continue
		}
		items := grammar.ParseLine(strings.TrimRight(before, "- ") + " piece").Items
		if len(items) == 0 {
			continue
		}
		if a := items[0].Amount; a != nil && a.Terms[0].Measure != nil && a.Terms[0].Measure.Kind == grammar.Length {
			return ratio(a.Terms[0].Quantity.High)*ratio(a.Terms[0].Measure.Amount) <= thin
		}
	}
	return false
}

// thin is how thick a thin chop is at most, in millimetres: half an inch.
const thin = mmPerInch / 2

const mmPerInch = 25.4
