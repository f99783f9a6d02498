package engine

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Suggestion is a change that serves a goal, worked out.
type Suggestion struct {
	Goal          Goal
	Edits         []Edit
	Lines         []int               // of the recipe, that it changes; none if it only adds
	What          string              // "use 1/2 tsp salt instead of 1 tsp"
	Nutrient      fooddata.Nutrient   // of the goal
	Before, After float64             // of Nutrient in a serving
	AtLeast       bool                // for the caller to set: an ingredient is not in Before and After
	Also          []string            // other figures that move visibly: "energy 310 → 295 kcal"
	Dish          string              // what it does to the dish
	Limit         string              // beyond which the dish fails; "" if there is none to name
	Source        string              // of the rule
	Allergens     []fooddata.Allergen // that it may bring in
	Gluten        string              // a sentence if it brings in gluten that Allergens does not tell of; else ""
}

// Suggest returns changes for the goal, the most effective for a serving first.
// Each is worked out by making it and analysing again; one that does not move
// its own nutrient by 5 % of the serving and by 25 mg sodium, 1 g added sugars,
// 0.5 g saturated fat, 10 kcal or 0.5 g fibre is left out, and so is one whose
// figures are not known or that passes the limit of its rule. All that are
// returned may be made together: no two change one line.
//
// Work gives the figures of the recipe as it is served; nil, as assembled.
// Original is the recipe as pasted, of which a rule's share is reckoned so that
// "a third less" is not taken twice; nil if r is it.
func (e *Engine) Suggest(r *grammar.Recipe, goal Goal, work Work, original *grammar.Recipe) []Suggestion {
	c := cutter{engine: e, base: e.base(r, work)}
	c.spots = c.withoutPouredOff(spots(r, c.assembled))
	if original != nil && original != r {
		c.pasted = pastedShares(c.assembled, e.Analyse(original))
	}
	for _, rule := range cutRules() {
		for g := range Goal(numGoals) {
			if rule.goals[g] && (goal == All || goal == g) {
				c.try(rule, g, goal == All)
			}
		}
	}
	slices.SortStableFunc(c.found, func(x, y candidate) int {
		switch {
		case x.weight > y.weight:
			return -1
		case x.weight < y.weight:
			return 1
		}
		return 0
	})
	return c.together(goal)
}

// Instead returns the changes for a goal that put another food in the place of one,
// the most useful first. They stand for themselves: several may change one line.
func (e *Engine) Instead(r *grammar.Recipe, goal Goal, work Work) []Suggestion {
	c := cutter{engine: e, base: e.base(r, work)}
	c.spots = c.withoutPouredOff(spots(r, c.assembled))
	for _, rule := range cutRules() {
		if rule.goals[goal] {
			c.try(rule, goal, false)
		}
	}
	slices.SortStableFunc(c.found, func(x, y candidate) int { return cmp.Compare(y.weight, x.weight) })
	var list []Suggestion
	for _, f := range c.found {
		if !f.to.IsZero() && f.to != f.from && !slices.ContainsFunc(list, func(s Suggestion) bool { return s.What == f.What }) {
			list = append(list, f.Suggestion)
		}
	}
	return list
}

// together chooses from the candidates so that all that are chosen may be made
// at once: no two change one line, and the limit of each holds with the others
// made. Of what may be added only the best is suggested unasked.
func (c *cutter) together(goal Goal) []Suggestion {
	var chosen []candidate
	var edits []Edit
	taken := make(map[int]bool)
	added := 0
	for _, f := range c.found {
		onlyAdds := len(f.Lines) == 0
		if slices.ContainsFunc(f.Lines, func(i int) bool { return taken[i] }) ||
			slices.ContainsFunc(chosen, func(o candidate) bool { return o.What == f.What || goal == All && onlyAdds && len(o.Lines) == 0 }) {
			continue
		}
		all := append(slices.Clone(edits), f.Edits...)
		t, ok := c.engine.trial(c.base, all, added+f.added)
		if !ok || slices.ContainsFunc(append(chosen, f), func(o candidate) bool { return !o.holds(t) }) {
			continue
		}
		chosen, edits, added = append(chosen, f), all, added+f.added
		for _, i := range f.Lines {
			taken[i] = true
		}
	}
	var list []Suggestion
	for _, f := range chosen {
		list = append(list, f.Suggestion)
	}
	return list
}

// candidate is a suggestion with what it is worth: the share of a Daily Value that
// it moves.
type candidate struct {
	Suggestion
	weight   float64
	added    int // items that it brings beside its lines
	floor    ruleFloor
	section  int
	from, to fooddata.Food
}

// holds reports whether the limit of its rule holds in a changed recipe.
func (f candidate) holds(t trialRun) bool {
	return f.floor == (ruleFloor{}) || f.floor.holds(spots(t.recipe, t.after), t.after, f.section, f.from, f.to)
}

// cutter looks for suggestions for one recipe.
type cutter struct {
	base
	engine *Engine
	spots  []spot // with the lines as assembled, before any is thrown away
	pasted map[int]float64
	found  []candidate
}

// try looks for what the rule can do for the goal: for each food that it fits,
// the first of its shares that helps, on all lines that hold the food.
func (c *cutter) try(rule cutRule, goal Goal, all bool) {
	switch rule.change.kind {
	case doKeep:
		return
	case doAdd:
		c.add(rule, goal, all)
		return
	}
	for i, p := range c.spots {
		if !c.fits(rule, goal, p) || slices.ContainsFunc(c.spots[:i], func(q spot) bool { return q.got.Food == p.got.Food && c.fits(rule, goal, q) }) {
			continue
		}
		var same []spot
		for _, q := range c.spots[i:] {
			if q.got.Food == p.got.Food && c.fits(rule, goal, q) {
				same = append(same, q)
			}
		}
		shares := rule.change.shares
		if len(shares) == 0 {
			shares = []*big.Rat{wholeShare}
		}
		for _, share := range shares {
			share, ok := c.ofPasted(rule, p, share)
			if !ok {
				continue
			}
			if c.propose(rule, goal, same, share, all) {
				break
			}
		}
	}
}

// fits reports whether the rule may change the item for the goal.
func (c *cutter) fits(rule cutRule, goal Goal, p spot) bool {
	return p.got.Status == Counted && p.got.Item.Amount != nil && p.got.Item.Part == grammar.Whole && rule.dishes[p.dish] && rule.lines.match(p.got.Food) &&
		!keeps(goal, p) && (rule.change.kind != doRinse || c.canBeRinsed(p))
}

// propose makes the change on all of the items and keeps it if it helps.
func (c *cutter) propose(rule cutRule, goal Goal, items []spot, share *big.Rat, all bool) bool {
	var edits, adds []Edit
	var said []string
	var lines []int
	added := 0
	for _, p := range items {
		s, ok := c.engine.lineChange(c.recipe, p, rule.change, share)
		if !ok {
			return false
		}
		for _, e := range s.edits {
			if e.Kind == EditAdd {
				adds = append(adds, e)
			} else {
				edits = append(edits, e)
			}
		}
		added += s.added
		lines = append(lines, p.line)
		if !slices.Contains(said, s.what) {
			said = append(said, s.what)
		}
	}
	what := strings.Join(said, "; ")
	if len(items) > len(said) {
		what += fmt.Sprintf(" (on %d lines)", len(items))
	}
	return c.judge(rule, goal, Suggestion{Edits: append(edits, adds...), Lines: lines, What: what}, items[0], added, all)
}

// add proposes what a rule adds, if the recipe has something it goes with and
// has none of it.
func (c *cutter) add(rule cutRule, goal Goal, all bool) {
	if !c.served.Known {
		return
	}
	item := rule.change.items[0]
	comes := c.engine.Resolve(item)
	at := -1
	for i, p := range c.spots {
		if p.got.Food == comes.Food {
			return
		}
		if at < 0 && p.got.Status == Counted && rule.dishes[p.dish] && rule.lines.match(p.got.Food) {
			at = i
		}
	}
	if at < 0 {
		return
	}
	item, ok := c.engine.portion(item, c.recipe.Servings.Low, grammar.Amount{}, c.recipe.Metric)
	if !ok {
		return
	}
	s := Suggestion{Edits: []Edit{{Kind: EditAdd, Item: item}}, What: fmt.Sprintf("add %s %s", amountWords(*item.Amount), ruleItemWords(item))}
	c.judge(rule, goal, s, c.spots[at], 1, all)
}

// judge works the change out and keeps it if it is worth showing.
func (c *cutter) judge(rule cutRule, goal Goal, s Suggestion, p spot, added int, all bool) bool {
	t, ok := c.engine.trial(c.base, s.Edits, added)
	if !ok {
		return false
	}
	n := goalTable[goal].nutrient
	s.Goal, s.Nutrient = goal, n
	s.Before, s.After = c.served.Per(n).Low, t.after.Per(n).Low
	if !goal.worth(s.Before, s.After) || !c.alike(t.after, n, goal == MoreFibre) {
		return false
	}
	gain := goal.gain(s.Before, s.After) / goalTable[goal].daily
	harm := 0.0
	if all {
		if harm = c.harm(goal, t.after); mostHarm*gain < harm {
			return false
		}
	}
	var to fooddata.Food
	if len(rule.change.items) > 0 {
		to = c.engine.Resolve(oneOf(rule.change.items[0])).Food
	}
	f := candidate{added: added, floor: rule.floor, section: p.section, from: p.got.Food, to: to}
	if !f.holds(t) {
		return false
	}
	s.Also = movedFigures(c.served, t.after, n)
	moves := AllergenMoves(c.served, t.after)
	s.Allergens, s.Gluten = moves.all(), moves.Gluten
	s.Dish, s.Limit, s.Source = rule.effect, strings.TrimPrefix(rule.limit, "-"), rule.source
	f.Suggestion, f.weight = s, gain-harm
	c.found = append(c.found, f)
	return true
}

// oneOf gives an item of a rule that has no amount one to be resolved with.
func oneOf(item grammar.Item) grammar.Item {
	if item.Amount == nil {
		grams := exactAmount(big.NewRat(100, 1), "g")
		item.Amount = &grams
	}
	return item
}

// alike reports whether the figures before and after may be compared: what has
// no figure for n afterwards had none before, and for a gain the reverse too.
func (c *cutter) alike(after *Analysis, n fooddata.Nutrient, both bool) bool {
	was, is := gapFoods(c.served, n), gapFoods(after, n)
	for f := range is {
		if !was[f] {
			return false
		}
	}
	return !both || len(was) == len(is)
}

func gapFoods(a *Analysis, n fooddata.Nutrient) map[fooddata.Food]bool {
	foods := make(map[fooddata.Food]bool)
	for _, i := range a.Recipe[n].Gaps {
		foods[a.Lines[i].Food] = true
	}
	return foods
}

// muchEnergy is the share of a serving's energy that a suggestion asked for
// by no goal may add.
const muchEnergy = 0.10

// mostHarm is how much of what a suggestion asked for by no goal gains it may
// cost elsewhere, both in shares of a Daily Value: 46 % less sodium is worth 2 %
// more energy, a cheese that saves 3 % of saturated fat is not worth 5 % of
// sodium (common practice, no source).
const mostHarm = 0.25

// harm is what a change that serves one goal visibly sets back sodium, added
// sugars, saturated fat and energy, in shares of a Daily Value. Energy counts
// from a tenth of the serving's.
func (c *cutter) harm(goal Goal, after *Analysis) float64 {
	sum := 0.0
	for _, other := range []Goal{LessSodium, LessAddedSugar, LessSaturatedFat, FewerCalories} {
		n := goalTable[other].nutrient
		was, is := c.served.Per(n).Low, after.Per(n).Low
		if other != goal && other.worth(is, was) && (other != FewerCalories || is > (1+muchEnergy)*was) {
			sum += (is - was) / goalTable[other].daily
		}
	}
	return sum
}
