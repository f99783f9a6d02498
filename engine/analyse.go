package engine

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Analysis is what a recipe holds.
type Analysis struct {
	Title    string
	Servings float64 // the servings counted with; 1 if none is known
	Known    bool    // whether the number of servings is known
	Range    grammar.Quantity
	Lines    []Line
	Recipe   [fooddata.NumNutrients]Total
	Grams    Range // of all that is counted, as assembled
	Notes    []string
	Cooking  []string // how it was taken as cooked, in short first, then food by food
	Lessened Lessened // by retention factors
	Changes  []Change // what is left open and what it would change
}

// Lessened names the foods to which a retention factor was applied.
type Lessened struct {
	Vitamins []string // and minerals
	Alcohol  []string
}

// Change is what the other reading of a line would change in a serving.
type Change struct {
	Line  int    // index in Lines
	What  string // "with the optional sesame oil", "with 3 carrots"
	Delta [fooddata.NumNutrients]float64
	Known bool // false if it could not be worked out
}

// Per returns the total of n for one serving.
func (a *Analysis) Per(n fooddata.Nutrient) Total { return a.Recipe[n].times(1 / a.Servings) }

// Complete reports whether no figure for n is missing that would show.
func (a *Analysis) Complete(n fooddata.Nutrient) bool { return a.Recipe[n].Complete(a.Servings) }

// Unknown reports whether no counted line has a figure for n.
func (a *Analysis) Unknown(n fooddata.Nutrient) bool {
	counted := 0
	for i := range a.Lines {
		if a.Lines[i].Status == Counted && a.Lines[i].Grams.High > 0 {
			counted++
		}
	}
	return len(a.Recipe[n].Gaps) == counted
}

// Choices returns the carbohydrate choices of one serving.
func (a *Analysis) Choices() float64 { return Choices(a.Per(fooddata.Carbohydrate).Low) }

// Analyse works out a recipe. It never fails on a line: a line that cannot be
// counted says why. Servings are the recipe's own; of a range the smaller
// number, since published figures go by it least often, is not guessed at but
// stated in a note.
func (e *Engine) Analyse(r *grammar.Recipe) *Analysis {
	a := e.figures(r, nil)
	if r.Twice {
		a.note("the text seems to hold two recipes: the figures are of both together; paste one at a time")
	}
	e.open(a, r.British)
	a.saltToTaste()
	return a
}

// again gives the figures of a recipe that was changed from another, whose
// analysis is had, and resolves only the lines that differ. What is left open
// is not worked out. Trying many changes of one recipe takes a third of the
// time so (BenchmarkSuggest).
func (e *Engine) again(r, was *grammar.Recipe, had *Analysis) *Analysis {
	known := make(map[*grammar.Item][]Line, len(was.Lines))
	at := 0
	for i := range was.Lines {
		from := at
		for at < len(had.Lines) && had.Lines[at].Number == was.Lines[i].Number {
			at++
		}
		if len(was.Lines[i].Items) > 0 {
			known[&was.Lines[i].Items[0]] = had.Lines[from:at]
		}
	}
	return e.figures(r, known)
}

// figures resolves the lines, but for those that are known by their first item,
// and adds up.
func (e *Engine) figures(r *grammar.Recipe, known map[*grammar.Item][]Line) *Analysis {
	a := &Analysis{Title: r.Title, Servings: 1, Range: r.Servings}
	if r.Servings.Low != nil && r.Servings.Low.Sign() > 0 {
		a.Servings, a.Known = ratio(r.Servings.Low), true
		if r.Servings.IsRange() {
			a.note("%q: worked out for %s servings; for %s each figure is smaller", r.Yield, short(r.Servings.Low), short(r.Servings.High))
		}
	}
	if note := r.NoteOfServings(); note != "" {
		a.note("%s; if that is not so, say for instance \"servings 6\"", note)
	}
	for _, line := range r.Lines {
		if len(line.Items) > 0 {
			if lines, ok := known[&line.Items[0]]; ok {
				a.Lines = append(a.Lines, lines...)
				continue
			}
		}
		a.Lines = append(a.Lines, e.lines(line, r.British)...)
	}
	a.askFryingFat(r.Method)
	e.drainCans(a, r.Method, r.British)
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		a.Recipe[n] = total(a.Lines, n)
	}
	for i := range a.Lines {
		if a.Lines[i].Status == Counted {
			a.Grams = a.Grams.plus(a.Lines[i].Grams)
		}
	}
	return a
}

func short(r *big.Rat) string {
	if r == nil {
		return ""
	}
	return grammar.Quantity{Low: r, High: r}.String()
}

func (a *Analysis) note(format string, args ...any) {
	a.Notes = append(a.Notes, fmt.Sprintf(format, args...))
}

// lines resolves a written line, one result for each of its items.
func (e *Engine) lines(line grammar.Line, metric bool) []Line {
	if line.Kind != grammar.Ingredient {
		l := Line{Number: line.Number, Text: line.Text, Kind: line.Kind}
		if line.Fault != nil {
			l.Why = line.Fault.Said()
		}
		return []Line{l}
	}
	var out []Line
	for _, item := range line.Items {
		l := e.resolve(item, metric)
		e.askDish(&l, false)
		l.Number, l.Text = line.Number, line.Text
		if line.Fault != nil {
			l.refuse(Unread, line.Fault.Said())
		}
		if l.Reason == AskFood && item.Amount == nil && len(item.Words) >= fewestOfChatter {
			l = Line{Number: line.Number, Text: line.Text, Kind: grammar.Note} // talk, no ingredient
		}
		out = append(out, l)
	}
	return out
}

// fewestOfChatter is the fewest words of a line without an amount and without a
// food that is taken for talk around the recipe.
const fewestOfChatter = 4

// open works out what is left open: the other end of ranges, other choices,
// optional items.
func (e *Engine) open(a *Analysis, metric bool) {
	for i := range a.Lines {
		l := &a.Lines[i]
		switch {
		case l.Status == NotCounted && l.Reason == OptionalItem:
			a.change(i, "with the optional "+l.Food.Name(), nil, l, false)
		case l.Status == Counted && l.Grams.High > l.Grams.Low:
			a.change(i, "with the larger amount of "+l.Food.Name(), l, l, true)
		}
		if l.Status != Counted {
			continue
		}
		for _, other := range l.Item.Or {
			o := e.resolve(e.completeChoice(other, l.Item), metric)
			if o.Status == Counted && (o.Food != l.Food || o.Grams != l.Grams) {
				what := fmt.Sprintf("with %s instead of %s", o.Food.Name(), l.Food.Name())
				if o.Food == l.Food {
					what = "with " + amountAnd(o.Item)
				}
				a.change(i, what, l, &o, false)
			}
		}
	}
}

// completeChoice gives a choice that names only a state the food of the first:
// "fresh oregano (or 1 tsp dried)", or only the last word of a like name:
// "ground beef or turkey".
func (e *Engine) completeChoice(other, first grammar.Item) grammar.Item {
	if len(other.Words) == 1 && len(first.Words) > 1 { // "ground beef or turkey"
		alike := append(slices.Clone(first.Words[:len(first.Words)-1]), other.Words[0])
		if _, ok := e.named(query{words: fooddata.Normalise(strings.Join(alike, " "))}); ok {
			other.Words = alike
			return other
		}
	}
	for _, w := range other.Words {
		if !bareState[w] {
			return other
		}
	}
	var food []string
	for _, w := range first.Words {
		if w != "fresh" && !bareState[w] {
			food = append(food, w)
		}
	}
	other.Words = append(slices.Clone(other.Words), food...)
	return other
}

var bareState = wordSet("dried ground frozen canned fresh tinned powdered cooked raw dry low-fat nonfat fat-free skim whole reduced-fat light low-sodium unsalted")

func (a *Analysis) change(i int, what string, from, to *Line, ends bool) {
	c := Change{Line: i, What: what, Known: true}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		r, _ := to.Has(n)
		c.Delta[n] = r.Low
		if ends {
			c.Delta[n] = r.High
		}
		if from != nil {
			r, _ := from.Has(n)
			c.Delta[n] -= r.Low
		}
		c.Delta[n] /= a.Servings
	}
	a.Changes = append(a.Changes, c)
}

// saltPerQuarterTsp is the sodium of a quarter teaspoon of table salt in mg:
// 1.5 g of SR28 number 02047 (38,758 mg per 100 g).
const saltPerQuarterTsp = 1.5 * 387.58

// saltToTaste notes what salt that is not counted would add.
func (a *Analysis) saltToTaste() {
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Status == NotCounted && l.Reason != OptionalItem && slices.Contains(l.Item.Words, "salt") && !strings.Contains(strings.Join(l.Item.Words, " "), "unsalted") {
			a.note("salt is not counted: each 1/4 tsp in the dish adds %s mg sodium to a serving", show(saltPerQuarterTsp/a.Servings))
			return
		}
	}
}

// Share is one line's part in a total.
type Share struct {
	Line   int // index in Lines
	Amount float64
	Share  float64 // of the total, 0 to 1
}

// Brings returns the lines that bring n, the largest first, for one serving.
func (a *Analysis) Brings(n fooddata.Nutrient) []Share {
	var shares []Share
	sum := a.Recipe[n].Low
	for i := range a.Lines {
		if a.Lines[i].Status != Counted {
			continue
		}
		if r, ok := a.Lines[i].Has(n); ok && r.Low > 0 {
			shares = append(shares, Share{Line: i, Amount: r.Low / a.Servings, Share: r.Low / sum})
		}
	}
	slices.SortStableFunc(shares, func(x, y Share) int {
		switch {
		case x.Amount > y.Amount:
			return -1
		case x.Amount < y.Amount:
			return 1
		}
		return 0
	})
	return shares
}

// EnergyShares returns the share of energy, 0 to 1, that carbohydrate,
// protein, fat and alcohol bring by the general factors 4, 4, 9 and 7 kcal/g,
// of their sum. ok is false if there is none.
func (a *Analysis) EnergyShares() (carbohydrate, protein, fat, alcohol float64, ok bool) {
	c, p, f, alc := 4*a.Recipe[fooddata.Carbohydrate].Low, 4*a.Recipe[fooddata.Protein].Low, 9*a.Recipe[fooddata.Fat].Low, 7*a.Recipe[fooddata.Alcohol].Low
	sum := c + p + f + alc
	if sum == 0 {
		return 0, 0, 0, 0, false
	}
	return c / sum, p / sum, f / sum, alc / sum, true
}

// Counted returns how many ingredient items are counted, and of how many.
func (a *Analysis) Counted() (counted, of int) {
	for i := range a.Lines {
		if a.Lines[i].Kind != grammar.Ingredient {
			continue
		}
		of++
		if a.Lines[i].Status == Counted {
			counted++
		}
	}
	return counted, of
}

// Single returns the analysis of amounts alone, as of a single serving.
func Single(lines ...Line) *Analysis {
	a := &Analysis{Servings: 1, Known: true, Lines: lines}
	for i := range lines {
		a.Grams = a.Grams.plus(lines[i].Grams)
	}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		a.Recipe[n] = total(a.Lines, n)
	}
	return a
}
