package engine

import (
	"fmt"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// keeps reports whether a rule of the goal keeps the item as it is.
func keeps(goal Goal, p spot) bool {
	_, kept := keeper(goal, p)
	return kept
}

func keeper(goal Goal, p spot) (cutRule, bool) {
	for _, rule := range cutRules() {
		if rule.change.kind == doKeep && rule.goals[goal] && rule.dishes[p.dish] && rule.lines.match(p.got.Food) {
			return rule, true
		}
	}
	return cutRule{}, false
}

// canBeRinsed reports whether a canned food still has its liquid, and the dish
// does not want it.
func (c *cutter) canBeRinsed(p spot) bool {
	if !p.got.Food.CannedLiquid() || p.got.drained != nil {
		return false
	}
	said := strings.ToLower(c.recipe.Lines[p.line].Text)
	for _, w := range []string{"drain", "rinse", "liquid", "juice"} {
		if strings.Contains(said, w) {
			return false
		}
	}
	words := fooddata.Normalise(strings.Join(p.got.Item.Words, " "))
	for _, line := range c.recipe.Method {
		for sentence := range strings.SplitSeq(strings.ToLower(line), ". ") {
			if (strings.Contains(sentence, "drain") || strings.Contains(sentence, "liquid")) && containsAny(fooddata.Normalise(sentence), append(words, "can")) {
				return false
			}
		}
	}
	return true
}

// KeptLine is a line that stays as it is because the dish rests on it.
type KeptLine struct {
	Line        int    // in the lines of the recipe
	What        string // "1 tsp salt"
	Why, Source string
	Safety      bool // it keeps the food safe, as in pickles, cures and preserves
}

// Kept returns the lines that a goal would change if the dish did not rest on
// them, with the reason: the salt and sugar of a yeast dough, of pickles,
// cures and preserves, the leavening of a batter.
func (e *Engine) Kept(r *grammar.Recipe, goal Goal, work Work) []KeptLine {
	var list []KeptLine
	for _, p := range spots(r, e.base(r, work).served) {
		if p.got.Food.IsZero() {
			continue
		}
		for g := range Goal(numGoals) {
			if goal != All && goal != g {
				continue
			}
			if rule, ok := keeper(g, p); ok {
				list = append(list, KeptLine{Line: p.line, What: amountAnd(p.got.Item), Why: fmt.Sprintf("%s: %s", p.dish, rule.effect), Source: rule.source, Safety: p.dish == Pickle || p.dish == Cure || p.dish == Preserve})
				break
			}
		}
	}
	return list
}

// amountAnd writes an item with its amount: "1 1/2 tsp salt".
func amountAnd(item grammar.Item) string {
	if item.Amount == nil {
		return foodWords(item)
	}
	return shownAmount(*item.Amount, false) + " " + foodWords(item)
}
