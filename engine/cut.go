package engine

import (
	_ "embed"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"sync"

	"pottle/fooddata"
	"pottle/grammar"
)

// Goal is what a recipe is to have less or more of.
type Goal uint8

// The goals. All stands for every one of them.
const (
	LessSodium Goal = iota
	LessAddedSugar
	LessSaturatedFat
	FewerCalories
	MoreFibre
	All

	numGoals = int(All)
)

type goalRow struct {
	name     string
	nutrient fooddata.Nutrient
	least    float64
	daily    float64
}

// goalTable describes each goal: the name that the table of rules uses, its
// nutrient, the least change of a serving that is worth showing, in the unit of
// the nutrient, and a Daily Value to weigh goals against each other (of energy
// 2,000 kcal, 21 CFR 101.9(c)(9)).
var goalTable = [numGoals]goalRow{
	LessSodium:       {"sodium", fooddata.Sodium, 25, 2300},
	LessAddedSugar:   {"added sugar", fooddata.AddedSugars, 1, 50},
	LessSaturatedFat: {"saturated fat", fooddata.SaturatedFat, 0.5, 20},
	FewerCalories:    {"calories", fooddata.Energy, 10, 2000},
	MoreFibre:        {"fibre", fooddata.Fibre, 0.5, 28},
}

// leastShare is the least share of the serving that a change must move.
const leastShare = 0.05

// String returns the goal in lower case: "less sodium".
func (g Goal) String() string {
	switch g {
	case FewerCalories:
		return "fewer calories"
	case MoreFibre:
		return "more fibre"
	case All:
		return "all goals"
	}
	return "less " + goalTable[g].name
}

// Nutrient returns the nutrient that the goal is about. It panics for All.
func (g Goal) Nutrient() fooddata.Nutrient { return goalTable[g].nutrient }

// gain is how far b is nearer to the goal than a, in the goal's unit.
func (g Goal) gain(a, b float64) float64 {
	if g == MoreFibre {
		return b - a
	}
	return a - b
}

// worth reports whether the way from a to b is visible and in the right
// direction.
func (g Goal) worth(a, b float64) bool {
	gain := g.gain(a, b)
	return gain >= goalTable[g].least && gain >= leastShare*a
}

// Words of a request that tell its goal, which way, and what may stand beside
// them. Any other word makes it another request: "low sodium chicken broth",
// "can I call it low sodium".
var (
	lessWords = wordSet("cut less lower lowering reduce reducing reduced fewer low decrease drop bring trim limit down minimise minimize back")
	moreWords = wordSet("more raise increase boost higher high up add increasing extra")
	allWords  = wordSet("suggest suggestion improve improvement healthier lighter better idea tip")
	goalWords = map[string]Goal{
		"sodium": LessSodium, "salt": LessSodium, "sugar": LessAddedSugar, "fat": LessSaturatedFat, "satfat": LessSaturatedFat,
		"calorie": FewerCalories, "kcal": FewerCalories, "energy": FewerCalories, "fibre": MoreFibre, "fiber": MoreFibre, "roughage": MoreFibre,
	}
	fillWords = normalSet("a an all amount any can change content could dish do for give help how i in it its let lets like make me my on please recipe saturated sat show some something this to us want way we what with would you added")
)

// normalSet is wordSet of the words in the form that names have.
func normalSet(words string) map[string]bool {
	return wordSet(strings.Join(fooddata.Normalise(words), " "))
}

// GoalNamed returns the goal that a request names: "cut sodium", "less added
// sugar", "lower the saturated fat", "fewer calories", "more fibre", "suggest".
// It returns false if it names none or several, wants less fibre or more of the
// rest, or speaks of something else besides. Of all fat there is no goal.
func GoalNamed(words string) (Goal, bool) {
	said := fooddata.Normalise(words)
	less, more, every := false, false, false
	goal := All
	for i, w := range said {
		g, isGoal := goalWords[w]
		switch {
		case w == "fat" && (i == 0 || said[i-1] != "saturated" && said[i-1] != "sat"):
			return All, false
		case isGoal && goal != All && g != goal:
			return All, false
		case isGoal:
			goal = g
		case lessWords[w]:
			less = true
		case moreWords[w]:
			more = true
		case allWords[w]:
			every = true
		case !fillWords[w]:
			return All, false
		}
	}
	switch {
	case less && more:
		return All, false
	case goal == All:
		return All, every && !more
	case less || more:
		return goal, more == (goal == MoreFibre)
	}
	return goal, every
}

// Suggestion is a change that serves a goal, worked out.
type Suggestion struct {
	Goal          Goal
	Edits         []Edit
	Lines         []int               // of the recipe, that it changes; none if it only adds
	What          string              // "use 1/2 tsp salt instead of 1 tsp"
	Nutrient      fooddata.Nutrient   // of the goal
	Before, After float64             // of Nutrient in a serving
	Also          []string            // other figures that move visibly: "energy 310 → 295 kcal"
	Dish          string              // what it does to the dish
	Limit         string              // beyond which the dish fails; "" if there is none to name
	Source        string              // of the rule
	Allergens     []fooddata.Allergen // that it may bring in
	Gluten        string              // a sentence if it brings in gluten that Allergens does not tell of; else ""
}

// cutRule is a row of cut_rules.tsv.
type cutRule struct {
	goals                 [numGoals]bool
	lines                 foodSet
	dishes                dishSet
	change                ruleChange
	floor                 ruleFloor
	effect, limit, source string
}

//go:embed cut_rules.tsv
var cutTable string

var cutRules = sync.OnceValue(func() []cutRule {
	var rules []cutRule
	for _, f := range tableRows("cut_rules.tsv", cutTable, 8) {
		r := cutRule{lines: parseFoods(f[1]), dishes: parseDishes(f[2]), change: parseChange(f[3]), floor: parseFloor(f[4]), effect: f[5], limit: f[6], source: f[7]}
		for name := range strings.SplitSeq(f[0], ", ") {
			i := slices.IndexFunc(goalTable[:], func(g goalRow) bool { return g.name == name })
			if i < 0 {
				panic(fmt.Sprintf("engine: cut_rules.tsv: no goal %q", name))
			}
			r.goals[i] = true
		}
		rules = append(rules, r)
	}
	return rules
})

// ruleFloor is a limit that is reckoned. The zero ruleFloor is none.
type ruleFloor struct {
	of    role    // of what is counted for each cup of flour; or empty
	least float64 // grams of it a cup of flour, or of the line
	per   string  // "cup flour", "serving", "recipe"
	most  float64 // the share that what comes in may have of itself and what it stands for
}

// parseFloor reads
//
//	-
//	sweetener 12.5 g per cup flour   at least so much must stay; "fat" too
//	line 14 g per serving            at least so much of the line's food
//	line 0.7 g per recipe
//	new 1/2                          what comes in is at most this share
func parseFloor(column string) ruleFloor {
	if column == "-" {
		return ruleFloor{}
	}
	w := strings.Fields(column)
	if len(w) == 2 && w[0] == "new" {
		if share, ok := new(big.Rat).SetString(w[1]); ok {
			return ruleFloor{most: ratio(share)}
		}
	}
	if len(w) >= 5 && w[2] == "g" && w[3] == "per" {
		grams, ok := new(big.Rat).SetString(w[1])
		f := ruleFloor{per: strings.Join(w[4:], " ")}
		if ok && (w[0] == "line" && (f.per == "serving" || f.per == "recipe") || f.per == "cup flour" && (w[0] == "sweetener" || w[0] == "fat")) {
			f.least = ratio(grams)
			if w[0] != "line" {
				f.of = role(w[0])
			}
			return f
		}
	}
	panic(fmt.Sprintf("engine: cannot read the limit %q", column))
}

// gramsPerCupFlour is SR28's cup of all-purpose flour (20081).
const gramsPerCupFlour = 125

// holds reports whether the changed recipe is within the limit. Sweetener and
// fat count in the part of the dish that the line is in, a frosting's not for
// the cake; flour counts wherever it stands, since what is added goes to the end.
func (f ruleFloor) holds(changed []spot, a *Analysis, section int, from, to fooddata.Food) bool {
	var flour, kept, line, brought float64
	for _, p := range changed {
		if p.got.Status != Counted {
			continue
		}
		grams := p.got.Grams.Low
		if p.got.Food == from {
			line += grams
		}
		if p.got.Food == to {
			brought += grams
		}
		if plays(p.got.Food, roleFlour) {
			flour += grams
		}
		if p.section != section {
			continue
		}
		if f.of != "" && plays(p.got.Food, f.of) {
			kept += partThatCounts(p.got, f.of)
		}
	}
	switch {
	case f.of != "":
		return flour > 0 && kept >= f.least*flour/gramsPerCupFlour*(1-offMeasure)
	case f.per == "serving":
		return line >= f.least*a.Servings*(1-offMeasure)
	case f.per == "recipe":
		return line >= f.least
	case f.most > 0:
		return brought <= f.most*(1+offMeasure)*(line+brought)
	}
	return true
}

// partThatCounts is the grams of sugars or of fat that a line brings in its
// role.
func partThatCounts(l *Line, as role) float64 {
	n := fooddata.Fat
	if as == roleSweetener {
		n = fooddata.Sugars
	}
	r, _ := l.Has(n)
	return r.Low
}

// Suggest returns changes for the goal, the most effective for a serving first.
// Each is worked out by making it and analysing again; one that does not move
// its own nutrient by 5 % of the serving and by 25 mg sodium, 1 g added sugars,
// 0.5 g saturated fat, 10 kcal or 0.5 g fibre is left out, and so is one whose
// figures are not known or that passes the limit of its rule. All that are
// returned may be made together: no two change one line.
//
// Work gives the figures of a recipe as it is served; nil stands for Analyse.
// Original is the recipe as pasted, of which a rule's share is reckoned so that
// "a third less" is not taken twice; nil if r is it.
func (e *Engine) Suggest(r *grammar.Recipe, goal Goal, work Work, original *grammar.Recipe) []Suggestion {
	c := cutter{engine: e, recipe: r, work: work}
	var plain *Analysis
	c.before, plain = e.served(r, work)
	c.spots = spots(r, plain)
	if original != nil && original != r {
		c.pasted = pastedShares(plain, e.Analyse(original))
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
		t, ok := c.engine.trial(c.recipe, c.before, all, added+f.added, c.work)
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
	engine *Engine
	recipe *grammar.Recipe
	work   Work
	before *Analysis // as served
	spots  []spot    // with the lines as assembled, before any is thrown away
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

// pastedShares returns for each line of the recipe as pasted how much of it is
// left, by its number: 2/3 of a line that was cut by a third. What was done to
// all of the recipe alike, as by scaling, is taken out: what most lines share is 1.
func pastedShares(now, original *Analysis) map[int]float64 {
	was := make(map[int]*Line)
	for i := range original.Lines {
		l := &original.Lines[i]
		if _, twice := was[l.Number]; twice {
			was[l.Number] = nil // several foods on a line
			continue
		}
		was[l.Number] = l
	}
	left := make(map[int]float64)
	var all []float64
	for i := range now.Lines {
		l := &now.Lines[i]
		if o := was[l.Number]; o != nil && o.Food == l.Food && o.Status == Counted && l.Status == Counted && o.Grams.Low > 0 {
			left[l.Number] = l.Grams.Low / o.Grams.Low
			all = append(all, left[l.Number])
		}
	}
	scale, most := 1.0, 0
	for _, share := range all {
		alike := 0
		for _, other := range all {
			if other >= share*(1-offMeasure) && other <= share*(1+offMeasure) {
				alike++
			}
		}
		if alike > most || alike == most && share > scale {
			scale, most = share, alike
		}
	}
	for n := range left {
		left[n] /= scale
	}
	return left
}

// ofPasted turns a share of the line as pasted into one of the line as it is.
// Where a rule's limit is not reckoned in grams of the line, the share is the
// limit. ok is false if so much is done already.
func (c *cutter) ofPasted(rule cutRule, p spot, share *big.Rat) (*big.Rat, bool) {
	left, known := c.pasted[p.got.Number]
	if !known || left >= 1-offMeasure || left <= 0 || share.Cmp(wholeShare) == 0 || rule.floor.per == "serving" || rule.floor.per == "recipe" {
		return share, true
	}
	part := ratio(share)
	switch rule.change.kind {
	case doTake:
		part /= left
		if part > 1-offMeasure {
			return nil, false
		}
	case doSwap:
		part = 1 - (1-part)/left
		if part < offMeasure {
			return nil, false
		}
	}
	return new(big.Rat).SetFloat64(part), true
}

// fits reports whether the rule may change the item for the goal.
func (c *cutter) fits(rule cutRule, goal Goal, p spot) bool {
	return p.got.Status == Counted && p.got.Item.Amount != nil && p.got.Item.Part == grammar.Whole && rule.dishes[p.dish] && rule.lines.match(p.got.Food) &&
		!keeps(goal, p) && (rule.change.kind != doRinse || c.canBeRinsed(p))
}

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
	if !c.before.Known {
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
	amount, _, ok := scaled(*item.Amount, c.recipe.Servings.Low, c.recipe.Metric)
	if !ok {
		return
	}
	item.Amount = &amount
	s := Suggestion{Edits: []Edit{{Kind: EditAdd, Item: item}}, What: fmt.Sprintf("add %s %s", amountWords(amount), ruleItemWords(item))}
	c.judge(rule, goal, s, c.spots[at], 1, all)
}

// judge works the change out and keeps it if it is worth showing.
func (c *cutter) judge(rule cutRule, goal Goal, s Suggestion, p spot, added int, all bool) bool {
	t, ok := c.engine.trial(c.recipe, c.before, s.Edits, added, c.work)
	if !ok {
		return false
	}
	n := goalTable[goal].nutrient
	s.Goal, s.Nutrient = goal, n
	s.Before, s.After = c.before.Per(n).Low, t.after.Per(n).Low
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
	s.Also = movedFigures(c.before, t.after, n)
	moves := AllergenMoves(c.before, t.after)
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
	was, is := gapFoods(c.before, n), gapFoods(after, n)
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
		was, is := c.before.Per(n).Low, after.Per(n).Low
		if other != goal && other.worth(is, was) && (other != FewerCalories || is > (1+muchEnergy)*was) {
			sum += (is - was) / goalTable[other].daily
		}
	}
	return sum
}

// trialRun is a changed recipe with its analysis.
type trialRun struct {
	recipe *grammar.Recipe
	after  *Analysis
}

// Work gives the figures of a recipe as it is served, as Served does.
type Work = func(*grammar.Recipe) *Analysis

// served returns the analysis of r as served and as assembled.
func (e *Engine) served(r *grammar.Recipe, work Work) (served, assembled *Analysis) {
	assembled = e.Analyse(r)
	if work == nil {
		return assembled, assembled
	}
	return work(r), assembled
}

// trial makes edits and works the recipe out again. ok is false if a line that
// was counted no longer is, or one that is added is not.
func (e *Engine) trial(r *grammar.Recipe, before *Analysis, edits []Edit, added int, work Work) (trialRun, bool) {
	changed, err := Apply(r, edits...)
	if err != nil {
		return trialRun{}, false
	}
	var after *Analysis
	if work != nil {
		after = work(changed)
	} else {
		after = e.again(changed, r, before)
	}
	had, _ := before.Counted()
	has, _ := after.Counted()
	return trialRun{changed, after}, has == had+added
}

// visibleMoves is the least change of a serving that is said beside the goal's own.
var visibleMoves = []struct {
	nutrient fooddata.Nutrient
	least    float64
}{
	{fooddata.Energy, 10}, {fooddata.Carbohydrate, 1}, {fooddata.Protein, 1}, {fooddata.Fat, 1}, {fooddata.SaturatedFat, 0.5},
	{fooddata.Fibre, 0.5}, {fooddata.AddedSugars, 1}, {fooddata.Sodium, 25}, {fooddata.Potassium, 50},
}

// movedFigures says which figures of a serving move visibly, all but one nutrient. A
// figure that is not known in the same way before and after is left out.
func movedFigures(before, after *Analysis, but fooddata.Nutrient) []string {
	var said []string
	for _, v := range visibleMoves {
		a, b := before.Per(v.nutrient).Low, after.Per(v.nutrient).Low
		d := max(a-b, b-a)
		if v.nutrient == but || d < v.least || d < leastShare*a || len(before.Recipe[v.nutrient].Gaps) != len(after.Recipe[v.nutrient].Gaps) {
			continue
		}
		said = append(said, fmt.Sprintf("%s %s → %s %s", v.nutrient.Name(), figureWords(a), figureWords(b), v.nutrient.Unit()))
	}
	return said
}

// figureWords writes a figure of a serving.
func figureWords(v float64) string {
	if v < 0.005 {
		return "0"
	}
	return WithCommas(show(v))
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
	a, _ := e.served(r, work)
	for _, p := range spots(r, a) {
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
	return amountWords(*item.Amount) + " " + foodWords(item)
}
