package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// AsBought returns an item that takes the place of another and keeps its amount,
// weighed as the other was: with its bone, in its shell, whole. It returns item as
// it is if it says how it is weighed, or is of a food that has no such thing.
func (e *Engine) AsBought(was, item grammar.Item) grammar.Item {
	as := weighedAs(item, 0)
	if was.Amount == nil || as.cue != "" || as.hasOf(saysMeat) {
		return item
	}
	said := e.weighedWith(was)
	if said == "" {
		return item
	}
	trial := item
	trial.Amount, trial.Uncounted = was.Amount, ""
	plain := e.Resolve(trial)
	trial.Prep = append(slices.Clone(item.Prep), said)
	trial.Tail = append(slices.Clone(item.Tail), []string{said})
	now := e.Resolve(trial)
	if plain.Status != Counted || now.Status != Counted || now.Food != plain.Food || now.Grams.Low >= plain.Grams.Low || kindOfBuy(now.Food) != said {
		return item
	}
	item.Prep, item.Tail = trial.Prep, trial.Tail
	return item
}

// Prepared returns the preparation of an item that another takes the place of,
// without what the other's own words gainsay: the bone of what is now boneless.
func Prepared(was, item grammar.Item) (prep []string, tail [][]string) {
	as := weighedAs(item, 0)
	if !as.hasOf(saysMeat) && !as.has("skinless") {
		return was.Prep, was.Tail
	}
	for _, t := range was.Tail {
		if words := strings.Join(t, " "); boughtWords.MatchString(words) {
			continue
		}
		prep, tail = append(prep, t...), append(tail, t)
	}
	return prep, tail
}

var boughtWords = regexp.MustCompile(`\b(bone|bones|skin|shell|shells|head|unpeeled)\b`)

// saysMeat are the words of a name that tell that nothing of it is thrown away.
var saysMeat = wordSet("boneless boned deboned shucked shelled peeled fillet filet ground minced")

// weighedWith returns the word for what a weighed item is weighed with and is not
// eaten: "bone-in", "in-shell" or "whole"; "" if it is weighed as it is eaten.
func (e *Engine) weighedWith(item grammar.Item) string {
	l := e.Resolve(item)
	if l.Status != Counted || !slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, " % taken off for ") }) {
		return ""
	}
	return kindOfBuy(l.Food)
}

// kindOfBuy is how food of an animal is weighed as bought.
func kindOfBuy(f fooddata.Food) string {
	switch {
	case f.Group() == "Poultry Products" || f.Group() == "Beef Products" || f.Group() == "Pork Products" || f.Group() == "Lamb, Veal, and Game Products":
		return "bone-in"
	case f.Group() == "Finfish and Shellfish Products" && strings.HasPrefix(f.Description(), "Fish, "):
		return "whole"
	case f.Group() == "Finfish and Shellfish Products":
		return "in-shell"
	}
	return ""
}
