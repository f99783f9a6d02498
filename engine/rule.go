package engine

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// The tables of rules for cutting and swapping are text that a dietitian can
// read and check. This file reads their columns and turns a rule into edits.

// tableRows returns the rows of a table: fields between tabs, without comments
// and blank lines. It panics on a row that has not as many fields as columns,
// which a test would have found.
func tableRows(name, text string, columns int) [][]string {
	var rows [][]string
	number := 0
	for line := range strings.Lines(text) {
		number++
		line = strings.TrimRight(line, "\r\n")
		if strings.TrimSpace(line) == "" || strings.HasPrefix(line, "#") {
			continue
		}
		fields := strings.Split(line, "\t")
		if len(fields) != columns {
			panic(fmt.Sprintf("engine: %s, line %d: %d columns, want %d", name, number, len(fields), columns))
		}
		for i := range fields {
			fields[i] = strings.TrimSpace(fields[i])
		}
		rows = append(rows, fields)
	}
	return rows
}

// role is a part that foods play in a dish.
type role string

const (
	roleSweetener role = "sweetener" // sugars, syrups, honey
	roleFat       role = "fat"       // butter, margarine, shortening, oil
	roleFlour     role = "flour"     // what gives a batter or dough its body
)

// plays reports whether f plays the role.
func plays(f fooddata.Food, as role) bool {
	d := strings.ToLower(f.Description())
	switch as {
	case roleSweetener:
		added, ok := f.Per100g(fooddata.AddedSugars).Value()
		return ok && added >= 20 && startsWithAny(d, "sugar", "honey", "syrup", "molasses", "sweetener, syrup")
	case roleFat:
		fat, ok := f.Per100g(fooddata.Fat).Value()
		return ok && fat >= 35 && (startsWithAny(d, "butter,", "butter oil") || f.Group() == "Fats and Oils" && !strings.Contains(d, "dressing") && !strings.Contains(d, "mayonnaise"))
	case roleFlour:
		return f.Group() == "Cereal Grains and Pasta" && (strings.Contains(d, "flour") || startsWithAny(d, "cornmeal", "oats")) ||
			f.Group() == "Breakfast Cereals" && strings.HasPrefix(d, "cereals, oats")
	}
	return false
}

func startsWithAny(s string, starts ...string) bool {
	for _, start := range starts {
		if strings.HasPrefix(s, start) {
			return true
		}
	}
	return false
}

// foodPattern is one way of naming foods in a table.
type foodPattern struct {
	name       string // a display name, whole
	as         role
	group      string // how the food group starts
	words, not []string
}

// foodSet is a column that says which foods a rule is for: alternatives between
// semicolons, each "=display name", "role:fat", or words that the food's name
// or description holds, "-word" that it does not, "@Group" its food group.
type foodSet []foodPattern

func parseFoods(column string) foodSet {
	var list foodSet
	for alternative := range strings.SplitSeq(column, ";") {
		alternative = strings.TrimSpace(alternative)
		if name, ok := strings.CutPrefix(alternative, "="); ok {
			list = append(list, foodPattern{name: name})
			continue
		}
		var p foodPattern
		for _, w := range strings.Fields(alternative) {
			switch {
			case strings.HasPrefix(w, "role:"):
				p.as = role(w[len("role:"):])
			case strings.HasPrefix(w, "@"):
				p.group = w[1:]
			case strings.HasPrefix(w, "-"):
				p.not = append(p.not, fooddata.Normalise(w[1:])...)
			default:
				p.words = append(p.words, fooddata.Normalise(w)...)
			}
		}
		list = append(list, p)
	}
	return list
}

// match reports whether the column names f.
func (list foodSet) match(f fooddata.Food) bool {
	if f.IsZero() {
		return false
	}
	var words []string
	for _, p := range list {
		if p.name != "" {
			if f.Name() == p.name {
				return true
			}
			continue
		}
		if p.as != "" && !plays(f, p.as) || !strings.HasPrefix(f.Group(), p.group) {
			continue
		}
		if words == nil {
			words = fooddata.Normalise(f.Name() + " " + f.Description())
		}
		if containsAll(words, p.words) && !containsAny(words, p.not) {
			return true
		}
	}
	return false
}

// dishSet is a column that says in which kinds of dish a rule holds: "any",
// "any but soup, salad", or a list. "any" leaves out the kinds that no change
// is suggested for; "baked" stands for all doughs and batters.
type dishSet [numDishes]bool

func parseDishes(column string) dishSet {
	var set dishSet
	list, but := column, false
	if rest, ok := strings.CutPrefix(column, "any"); ok {
		for d := range set {
			set[d] = !slices.Contains(settled, Dish(d))
		}
		list, but = strings.TrimPrefix(strings.TrimSpace(rest), "but "), true
	}
	for name := range strings.SplitSeq(list, ",") {
		name = strings.TrimSpace(name)
		switch d, ok := dishNamed(name); {
		case name == "":
		case name == "baked":
			for _, d := range baked {
				set[d] = !but
			}
		case ok:
			set[d] = !but
		default:
			panic(fmt.Sprintf("engine: no kind of dish %q", name))
		}
	}
	return set
}

// changeKind says what a rule does.
type changeKind uint8

const (
	doKeep  changeKind = iota // the line stays as it is, with the reason
	doTake                    // a share of the amount
	doUse                     // another food, the same amount
	doSwap                    // other foods by a rule of exchange, for all or a share
	doAdd                     // so much more for a serving
	doRinse                   // drain and rinse
)

// ruleChange is the column that says what a rule changes:
//
//	keep
//	take 1/2, 2/3                                     use that share, the first that a kitchen can measure
//	use reduced-sodium soy sauce                      the same amount of another food
//	swap 1/2, 1/3: 1 cup butter = 3/4 cup canola oil  that share of the line by this exchange
//	swap all: 1 egg = 2 egg whites
//	add 1/4 cup cooked lentils per serving
//	drain and rinse
type ruleChange struct {
	kind   changeKind
	shares []*big.Rat
	items  []grammar.Item // what comes in; of use and add one
	of     grammar.Item   // what it stands for, of swap
}

func parseChange(column string) ruleChange {
	if column == "keep" {
		return ruleChange{kind: doKeep}
	}
	if column == "drain and rinse" {
		return ruleChange{kind: doRinse}
	}
	verb, rest, _ := strings.Cut(column, " ")
	switch verb {
	case "take":
		return ruleChange{kind: doTake, shares: parseShares(rest)}
	case "use":
		return ruleChange{kind: doUse, items: []grammar.Item{namedItem(rest)}}
	case "add":
		if amount, ok := strings.CutSuffix(rest, " per serving"); ok {
			return ruleChange{kind: doAdd, items: []grammar.Item{amountItem(amount)}}
		}
	case "swap":
		if share, exchange, ok := strings.Cut(rest, ":"); ok {
			c := parseExchange(exchange)
			c.shares = parseShares(share)
			return c
		}
	}
	panic(fmt.Sprintf("engine: cannot read the change %q", column))
}

// parseExchange reads "1 cup butter = 3/4 cup canola oil + 1 tbsp water".
func parseExchange(text string) ruleChange {
	of, parts, ok := strings.Cut(text, "=")
	if !ok {
		panic(fmt.Sprintf("engine: no exchange %q", text))
	}
	c := ruleChange{kind: doSwap, of: amountItem(of), shares: []*big.Rat{big.NewRat(1, 1)}}
	for part := range strings.SplitSeq(parts, " + ") {
		c.items = append(c.items, amountItem(part))
	}
	return c
}

func parseShares(text string) []*big.Rat {
	var shares []*big.Rat
	for s := range strings.SplitSeq(text, ",") {
		s = strings.TrimSpace(s)
		if s == "all" {
			s = "1"
		}
		share, ok := new(big.Rat).SetString(s)
		if !ok || share.Sign() <= 0 || share.Cmp(wholeShare) > 0 {
			panic(fmt.Sprintf("engine: no share %q", s))
		}
		shares = append(shares, share)
	}
	return shares
}

var wholeShare = big.NewRat(1, 1)

// namedItem is an item of a food named as a cook would, its amount to come.
func namedItem(name string) grammar.Item {
	return grammar.Item{Words: strings.Fields(name)}
}

func amountItem(text string) grammar.Item {
	item := grammar.ParseLine(strings.TrimSpace(text)).Items[0]
	if item.Amount == nil {
		panic(fmt.Sprintf("engine: no amount in %q", text))
	}
	return item
}

// spot is one item of a recipe with what it was taken to be.
type spot struct {
	line, item int // in Recipe.Lines and its Items
	dish       Dish
	section    int // lines under one heading share it
	got        *Line
}

// spots pairs the items of a recipe with the lines of its analysis, which has
// one for each item.
func spots(r *grammar.Recipe, a *Analysis) []spot {
	var list []spot
	dishes := partDishes(r)
	next, section := 0, 0
	for i, line := range r.Lines {
		if line.Kind != grammar.Ingredient {
			if line.Kind == grammar.Heading {
				section++
			}
			next++
			continue
		}
		for k := range line.Items {
			list = append(list, spot{line: i, item: k, dish: dishes[i], section: section, got: &a.Lines[next]})
			next++
		}
	}
	return list
}

// lineStep is the edits that a change makes on one line, and how it is said.
type lineStep struct {
	edits []Edit // of the line, then what is added
	what  string
	added int // how many items it brings beside the line's own
}

// lineChange returns the edits of a change on a line with one of its shares. ok is
// false where no amount comes out that a kitchen can measure.
func (e *Engine) lineChange(r *grammar.Recipe, p spot, c ruleChange, share *big.Rat) (lineStep, bool) {
	old := r.Lines[p.line].Items[p.item]
	switch c.kind {
	case doTake:
		amount, left, ok := scaled(*old.Amount, share, r.Metric)
		if !ok {
			return lineStep{}, false
		}
		item := Multiply(old, left)
		item.Amount = &amount
		item = inNumber(item)
		return lineStep{edits: lineEdits(r, p, item), what: fmt.Sprintf("use %s %s instead of %s", amountWords(amount), foodWords(item), oldAmount(old, r.Metric))}, true
	case doUse:
		item, ok := e.inPlaceOf(old, c.items[0])
		if !ok {
			return lineStep{}, false
		}
		what := fmt.Sprintf("use %s %s instead of %s", oldAmount(old, r.Metric), foodWords(c.items[0]), foodWords(old))
		if amount, less := e.withoutBone(p.got, old, item, r.Metric); less {
			item.Amount = &amount
			what = fmt.Sprintf("use %s %s instead of %s %s", amountWords(amount), foodWords(c.items[0]), oldAmount(old, r.Metric), foodWords(old))
		}
		if old.Amount.Terms[0].Measure == nil { // "12 lasagna noodles"
			what = fmt.Sprintf("use %s instead of the %s", foodWords(c.items[0]), amountAnd(old))
		}
		return lineStep{edits: lineEdits(r, p, item), what: what}, true
	case doRinse:
		item, how := old, []string{"drained", "and", "rinsed"}
		item.Prep = append(slices.Clone(old.Prep), how...)
		item.Tail = append(slices.Clone(old.Tail), how)
		return lineStep{edits: lineEdits(r, p, item), what: fmt.Sprintf("drain and rinse the %s", foodWords(old))}, true
	case doSwap:
		return e.exchange(r, p, c, share)
	}
	return lineStep{}, false
}

// withoutBone returns the amount of a food that takes the place of one that was
// weighed with its bone or shell and is itself weighed without: as much as is eaten
// of the old one.
func (e *Engine) withoutBone(got *Line, old, item grammar.Item, metric bool) (grammar.Amount, bool) {
	now := e.Resolve(item)
	if got.Status != Counted || now.Status != Counted || got.Grams.Low >= 0.95*now.Grams.Low || e.weighedWith(old) == "" {
		return grammar.Amount{}, false
	}
	amount, left, ok := scaled(*old.Amount, new(big.Rat).SetFloat64(got.Grams.Low/now.Grams.Low), metric)
	return amount, ok && left.Cmp(wholeShare) < 0
}

// inPlaceOf returns an item with the food of a rule in the amount of another.
// What is done to the other is kept where it is still the food of the rule:
// "shredded" of cheese; but no-salt-added tomatoes, crushed, would be a purée.
func (e *Engine) inPlaceOf(old, by grammar.Item) (grammar.Item, bool) {
	meant := e.Resolve(oneOf(by)).Food
	lead := leadingPreparation(old.Words)
	prep, tail := keptPreparation(old)
	for _, keep := range []struct{ lead, prep bool }{{true, true}, {false, true}, {true, false}, {false, false}} {
		item := by
		item.Amount = old.Amount
		if keep.lead {
			item.Words = append(slices.Clone(lead), item.Words...)
		}
		if keep.prep {
			item.Prep, item.Tail = prep, tail
		}
		if l := e.Resolve(item); l.Food == meant && l.Status == Counted {
			return item, true
		}
	}
	return by, false
}

// exchange swaps a share of a line for other foods.
func (e *Engine) exchange(r *grammar.Recipe, p spot, c ruleChange, share *big.Rat) (lineStep, bool) {
	old := r.Lines[p.line].Items[p.item]
	times, ok := e.times(p.got, c.of)
	if !ok {
		return lineStep{}, false
	}
	var rest *grammar.Item
	if share.Cmp(wholeShare) < 0 {
		amount, left, ok := scaled(*old.Amount, new(big.Rat).Sub(wholeShare, share), r.Metric)
		if !ok || left.Cmp(wholeShare) >= 0 {
			return lineStep{}, false
		}
		item := Multiply(old, left)
		item.Amount = &amount
		item = inNumber(item)
		rest = &item
		share = new(big.Rat).Sub(wholeShare, left)
	}
	var parts []grammar.Item
	for _, part := range c.items {
		item, ok := e.portion(part, new(big.Rat).Mul(times, share), *old.Amount, r.Metric)
		if !ok {
			return lineStep{}, false
		}
		parts = append(parts, item)
	}
	var said []string
	for _, part := range parts {
		said = append(said, shownAmount(*part.Amount, r.Metric)+" "+ruleItemWords(part))
	}
	s := lineStep{}
	if rest != nil {
		said = append([]string{shownAmount(*rest.Amount, r.Metric) + " " + foodWords(*rest)}, said...)
		s.edits = lineEdits(r, p, *rest)
	} else {
		s.edits = lineEdits(r, p, parts[0])
		parts = parts[1:]
	}
	for _, part := range parts {
		s.edits = append(s.edits, Edit{Kind: EditAdd, Item: part})
	}
	s.added = len(parts)
	s.what = fmt.Sprintf("use %s instead of %s %s", strings.Join(said, " plus "), oldAmount(old, r.Metric), foodWords(old))
	return s, true
}

// lineEdits puts an item in the place of another. The other items of the same
// line ("1/2 tsp each salt and pepper") become lines of their own.
func lineEdits(r *grammar.Recipe, p spot, item grammar.Item) []Edit {
	edits := []Edit{{Kind: EditLine, Line: p.line, Item: item}}
	for k, other := range r.Lines[p.line].Items {
		if k != p.item {
			edits = append(edits, Edit{Kind: EditAdd, Item: other})
		}
	}
	return edits
}

// times returns how many times the amount of an exchange a line holds: exactly
// where both are volumes, weights or counts, else by their grams.
func (e *Engine) times(l *Line, of grammar.Item) (*big.Rat, bool) {
	if l.Item.Amount == nil {
		return nil, false
	}
	if a, kind, ok := magnitude(*l.Item.Amount); ok {
		if b, same, ok := magnitude(*of.Amount); ok && kind == same {
			return new(big.Rat).Quo(a, b), true
		}
	}
	unit := e.Resolve(of)
	if unit.Status != Counted || unit.Grams.Low <= 0 || l.Grams.Low <= 0 {
		return nil, false
	}
	return new(big.Rat).SetFloat64(l.Grams.Low / unit.Grams.Low), true
}

// magnitude returns the sum of an amount's terms in millilitres, grams or
// pieces, and which; ok is false if they are of several kinds or if the same
// amount is said by weight too.
func magnitude(a grammar.Amount) (sum *big.Rat, kind string, ok bool) {
	if len(a.Same) > 0 {
		return nil, "", false
	}
	sum = new(big.Rat)
	for _, t := range a.Terms {
		name, size := "piece", wholeShare
		switch {
		case t.Each != nil || t.Size != "" && t.Size != "large":
			return nil, "", false
		case t.Measure == nil:
		case t.Measure.Kind == grammar.Volume:
			name, size = "volume", t.Measure.Amount
		case t.Measure.Kind == grammar.Weight:
			name, size = "weight", t.Measure.Amount
		default:
			name = t.Measure.Name
		}
		if kind != "" && kind != name {
			return nil, "", false
		}
		kind = name
		sum.Add(sum, new(big.Rat).Mul(t.Quantity.Low, size))
	}
	return sum, kind, sum.Sign() > 0
}

// portion returns so many times an item of a rule, measured like the line that
// it stands for: in a metric recipe by grams or millilitres, or by spoons, see
// metricPart; else in kitchen measures.
func (e *Engine) portion(item grammar.Item, times *big.Rat, like grammar.Amount, metric bool) (grammar.Item, bool) {
	unit := e.Resolve(item)
	if unit.Status != Counted {
		return item, false
	}
	amount := *item.Amount
	if metric && !isEgg(unit.Food) {
		amount = metricPart(amount, times, unit, like)
	}
	amount, _, ok := scaled(amount, times, metric)
	item.Amount = &amount
	return inNumber(item), ok
}

// inNumber returns a counted item with its food in the singular where there is
// one: "1 large egg", not "1 large eggs".
func inNumber(item grammar.Item) grammar.Item {
	a := item.Amount
	if a == nil || len(a.Terms) != 1 || a.Terms[0].Measure != nil || a.Terms[0].Quantity.High.Cmp(wholeShare) > 0 || len(item.Words) == 0 {
		return item
	}
	item.Words = slices.Clone(item.Words)
	last := &item.Words[len(item.Words)-1]
	*last = fooddata.Singular(*last)
	return item
}

// oldAmount writes the amount of a line that changes. An amount that was
// reckoned and that no cup holds is said as one that can be measured: 6 tbsp for
// 3/8 cup.
func oldAmount(old grammar.Item, metric bool) string {
	if kitchen, words, off := KitchenAmount(*old.Amount, metric, Nearest); len(kitchen.Terms) > 0 && math.Abs(off) < 1e-9 && oddCup(*old.Amount) {
		return words
	}
	return shownAmount(*old.Amount, metric)
}

// oddCup reports whether an amount is in parts of a cup that no cup has.
func oddCup(a grammar.Amount) bool {
	for _, t := range a.Terms {
		if d := t.Quantity.Low.Denom().Int64(); t.Measure != nil && t.Measure.Name == "cup" && d > 4 {
			return true
		}
	}
	return false
}

func exactAmount(n *big.Rat, measure string) grammar.Amount {
	m, _ := grammar.MeasureNamed(measure)
	return grammar.Amount{Terms: []grammar.Term{{Quantity: grammar.Quantity{Low: n, High: n}, Measure: m}}}
}

// offMeasure is how far the amount that a kitchen can measure may be from the
// share that a rule asks for.
const offMeasure = 0.06

// scaled returns so many times an amount as a kitchen can measure it, and how
// many times that is. ok is false if no measure comes near, or if it would
// part a whole thing or a can.
func scaled(a grammar.Amount, times *big.Rat, metric bool) (amount grammar.Amount, exact *big.Rat, ok bool) {
	amount, _, off := KitchenAmount(multiplyAmount(a, times), metric, Nearest)
	if len(amount.Terms) == 0 || math.Abs(off) > offMeasure {
		return amount, nil, false
	}
	for _, t := range amount.Terms {
		whole := t.Quantity.Low.IsInt() && t.Quantity.High.IsInt()
		switch {
		case t.Measure == nil || t.Measure.Kind == grammar.Container:
			if !whole {
				return amount, nil, false
			}
		case t.Measure.Kind == grammar.Count && !whole && t.Quantity.Low.Denom().Int64() != 2:
			return amount, nil, false
		}
	}
	exact = new(big.Rat).Add(wholeShare, new(big.Rat).SetFloat64(off))
	return amount, exact.Mul(exact, times), true
}

// foodWords are the words of a recipe's item for a sentence.
func foodWords(item grammar.Item) string { return strings.Join(item.Words, " ") }

// ruleItemWords are the words of an item of a rule, as the rule has them.
func ruleItemWords(item grammar.Item) string {
	parts := []string{foodWords(item)}
	for _, tail := range item.Tail {
		parts = append(parts, strings.Join(tail, " "))
	}
	return strings.Join(parts, ", ")
}

// leadingPreparation returns the words of preparation that stand before a
// food's name: "shredded" of "shredded cheddar cheese".
func leadingPreparation(words []string) []string {
	var kept []string
	for _, w := range words {
		if !grammar.IsPreparation(w) || w == "large" || w == "medium" || w == "small" {
			break
		}
		kept = append(kept, w)
	}
	return kept
}

// keptPreparation returns the preparation of an item without what tells of
// the food that is replaced.
func keptPreparation(item grammar.Item) (prep []string, tails [][]string) {
	for _, tail := range item.Tail {
		if kept := onlyPreparation(tail); len(kept) > 0 {
			tails = append(tails, kept)
		}
	}
	return onlyPreparation(item.Prep), tails
}

func onlyPreparation(words []string) []string {
	var kept []string
	for _, w := range words {
		if grammar.IsPreparation(w) || w == "and" && len(kept) > 0 {
			kept = append(kept, w)
		}
	}
	if len(kept) > 0 && kept[len(kept)-1] == "and" {
		kept = kept[:len(kept)-1]
	}
	return kept
}
