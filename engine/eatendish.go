package engine

import (
	"fmt"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// askDish asks which is meant where a counted food is named as a dish that is eaten
// on a bun, "a hamburger", and was taken for what is on it. Alone tells that no
// recipe is around it: hot dogs in a recipe are the sausages.
func (e *Engine) askDish(l *Line, alone bool) {
	a := l.Item.Amount
	words := fooddata.Normalise(strings.Join(l.Item.Words, " "))
	burger := l.Reason == AskFood && slices.Equal(words, []string{"burger"})
	if l.Status != Counted && !burger || a == nil || !l.Food.IsZero() && l.Food.Team() {
		return
	}
	if alone && l.Status == Counted && slices.Equal(words, []string{"hamburger"}) && allWeights(*a) {
		l.Assumed = append(l.Assumed, "the meat alone; with its bun say \"hamburger on a bun\"")
		return
	}
	if len(a.Same) > 0 || len(a.Terms) != 1 || a.Terms[0].Measure != nil || a.Terms[0].Each != nil {
		return
	}
	if len(words) == 0 || containsAny(words, []string{"beef", "patty", "meat", "raw", "bun", "lean", "mini"}) {
		return
	}
	var names []string
	why := ""
	switch last := words[len(words)-1]; {
	case burger, (last == "hamburger" || last == "burger") && strings.HasPrefix(l.Food.Description(), "Beef, ground"):
		names = []string{"hamburger on a bun, plain", "hamburger on a bun, with condiments", "cooked hamburger patty"}
		why = "is mostly eaten on a bun; whether that or the patty alone is meant is not said"
	case alone && (last == "hotdog" || last == "dog" && len(words) > 1 && words[len(words)-2] == "hot") && l.Food.Number() == "07022":
		names = []string{"hot dog on a bun", "beef hot dog"}
		why = "may be the sausage alone or on its bun; which is not said"
	default:
		return
	}
	var choices []fooddata.Food
	for _, name := range names {
		if entry, ok := e.lookUp(name); ok && !slices.Contains(choices, entry.Food) {
			choices = append(choices, entry.Food)
		}
	}
	if slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, makersDiffer) }) {
		why += "; the table's are of no one maker, and makers differ"
	}
	l.Choices = choices
	l.refuse(AskFood, fmt.Sprintf("%s %s", quoted(l.Item.Words), why))
}

// makersDiffer is said of a word that is set aside and is known nowhere: the name of
// a maker or a restaurant, perhaps.
const makersDiffer = "makers differ"

// unknownWord reports a word that no food of the table has and that is not one that
// only describes.
func (e *Engine) unknownWord(w string) bool {
	return !onlyDescribe[w] && !describes[w] && !trailing[w] && !chatter[w] && !grammar.IsPreparation(w) && len(w) > 2 && len(e.table.Search([]string{w}, 1)) == 0
}
