package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// A trifle is a pinch, a dash, a few drops or leaves, up to about a gram: too little
// of anything but salts to move a figure. What the table lacks of it is left
// uncounted with its reason and opens no figure.

// mostTrifle is how many of each measure are a trifle.
var mostTrifle = map[string]float64{"pinch": 4, "dash": 4, "drop": 12, "smidgen": 4, "leaf": 12, "blade": 2, "strand": 30, "thread": 30}

const (
	trifleGrams = 1.0
	trifleML    = 0.7 // an eighth of a teaspoon
)

// noTrifle are words of foods of which a gram shows, in sodium or potassium or in
// what is taken as a medicine, and of leaves that weigh more than a gram.
var noTrifle = wordSet("salt sodium potassium chloride msg monosodium glutamate bouillon stock broth curing cure nitrite nitrate vitamin mineral supplement iodine kelp calcium iron iodide " +
	"banana grape vine lotus taro cabbage collard lettuce corn chard kale nori seaweed pastry phyllo filo gelatin gelatine rice paper palm avocado plantain fig")

// trifle reports whether an item is a trifle.
func trifle(item grammar.Item) bool {
	words := fooddata.Normalise(strings.Join(item.Words, " "))
	if len(words) == 0 || slices.ContainsFunc(words, func(w string) bool { return noTrifle[w] }) {
		return false
	}
	leaf := words[len(words)-1] == "leaf" || words[len(words)-1] == "leave"
	if item.Amount == nil {
		measure, isMeasure := grammar.MeasureNamed(item.Words[0])
		switch {
		case isMeasure && tiny[measure.Name] && len(words) > 1:
			return true
		case leaf && item.Uncounted == "some":
			return true
		}
		return false
	}
	if len(item.Amount.Terms) != 1 {
		return false
	}
	t := item.Amount.Terms[0]
	n := ratio(t.Quantity.High)
	switch {
	case t.Each != nil || n <= 0:
		return false
	case t.Measure == nil:
		return leaf && n <= mostTrifle["leaf"]
	case t.Measure.Kind == grammar.Weight:
		return n*ratio(t.Measure.Amount) <= trifleGrams
	case mostTrifle[t.Measure.Name] > 0:
		return n <= mostTrifle[t.Measure.Name]
	case t.Measure.Kind == grammar.Volume:
		return n*ratio(t.Measure.Amount) <= trifleML
	}
	return false
}

// leaveTrifle leaves a line uncounted whose food or weight is not known, if it is a
// trifle.
func (l *Line) leaveTrifle(why string) bool {
	if !trifle(l.Item) {
		return false
	}
	l.Food, l.Choices = fooddata.Food{}, nil
	l.leave(Vague, why+"; so little moves no figure")
	return true
}

// oneOfIt returns a line whose measure has no number, where the measure is as little
// as a pinch or a drop: one is taken.
func (e *Engine) oneOfIt(item grammar.Item, measure string, metric bool) (Line, bool) {
	m, ok := grammar.MeasureNamed(measure)
	if !ok || !tiny[m.Name] {
		return Line{}, false
	}
	item.Amount = &grammar.Amount{Terms: []grammar.Term{{Quantity: grammar.Exactly(1, 1), Measure: m}}}
	item.Words, item.Uncounted = item.Words[1:], ""
	l := e.resolve(item, metric)
	if l.Status == Ask {
		return Line{}, false
	}
	if l.Status == Counted {
		l.Assumed = append(l.Assumed, fmt.Sprintf("one %s taken", m.Name))
	}
	return l, true
}
