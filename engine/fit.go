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

// Limit is a bound on a nutrient of a serving, in its unit.
type Limit struct {
	Nutrient fooddata.Nutrient
	AtLeast  bool
	Amount   float64
}

// Holds reports whether a serving keeps within the limit. Of a figure that is "at
// least" so much only that it exceeds a limit is sure: sure tells.
func (l Limit) Holds(a *Analysis) (holds, sure bool) {
	v := a.Per(l.Nutrient).Low
	if l.AtLeast {
		holds = v >= l.Amount-tinyAmount
		return holds, holds || a.Complete(l.Nutrient)
	}
	holds = v <= l.Amount+tinyAmount
	return holds, !holds || a.Complete(l.Nutrient)
}

// tinyAmount keeps the noise of float64 out of comparisons.
const tinyAmount = 1e-9

// Fitted is a recipe made to keep within a limit.
type Fitted struct {
	Recipe   *grammar.Recipe
	Analysis *Analysis
	Lines    []FittedLine
	Water    string // the water put in for broth that was taken out, as a line; "" if none
}

// FittedLine is a line whose amount was solved for.
type FittedLine struct {
	Line    int     // index in Recipe.Lines
	Was     string  // its amount before
	Exact   float64 // the factor on it that meets the limit exactly
	Kitchen string  // the amount to measure, on the safe side
}

// FitLines solves for the amount of some lines of r, all by the same factor, so
// that a serving keeps within the limit, and rounds it to a measure on the safe
// side. Figures are linear in amounts, so the factor is solved for and not
// tried out; only where a food's cup and its spoon do not weigh alike is the
// rounded amount solved for again. Work gives the figures of a recipe as it is
// served. The error says in a sentence why it cannot be and how near it gets.
func (e *Engine) FitLines(r *grammar.Recipe, lines []int, limit Limit, work func(*grammar.Recipe) *Analysis) (*Fitted, error) {
	a := work(r)
	n := limit.Nutrient
	total := a.Per(n).Low
	part := 0.0
	for _, line := range lines {
		for i := range a.Lines {
			l := &a.Lines[i]
			if l.Number == r.Lines[line].Number && l.Status == Counted {
				has, ok := l.Has(n)
				if !ok {
					return nil, fmt.Errorf("the table has no figure for %s of %s", n.Name(), l.Food.Name())
				}
				part += has.Low / a.Servings
			}
		}
	}
	rest := total - part
	if part <= 0 {
		return nil, fmt.Errorf("that brings no %s, so its amount cannot change it", n.Name())
	}
	factor := (limit.Amount - rest) / part
	if factor <= 0 && !limit.AtLeast {
		return nil, fmt.Errorf("it cannot be: without any of it a serving still has %s %s %s", plainFigure(rest, n), n.Unit(), n.Name())
	}
	if factor <= 0 {
		factor = 1
	}
	rounding := Down
	if limit.AtLeast {
		rounding = Up
	}
	if factor > mostFactor {
		return nil, anotherDishOf(r, lines, factor, rounding)
	}
	if err := driesOut(r, a, lines, factor); err != nil {
		return nil, err
	}
	for range mostFits {
		f, err := fitted(r, lines, factor, rounding)
		if err == nil {
			err = f.waterFor(r, a, lines, factor)
		}
		if err != nil {
			return nil, err
		}
		f.Analysis = work(f.Recipe)
		if holds, _ := limit.Holds(f.Analysis); holds {
			return f, nil
		}
		got := f.Analysis.Per(n).Low - rest
		if got <= 0 {
			break
		}
		factor *= (limit.Amount - rest) / got * safeSide(limit.AtLeast)
	}
	return nil, fmt.Errorf("no amount that can be measured keeps a serving %s", map[bool]string{true: "up to that", false: "within that"}[limit.AtLeast])
}

// mostFits bounds how often an amount is solved for again.
const mostFits = 6

// safeSide nudges a factor past the noise of rounding.
func safeSide(atLeast bool) float64 {
	if atLeast {
		return 1.005
	}
	return 0.995
}

// mostFactor is the largest factor that an amount is solved for: with more of
// one food it is another dish (common practice, no source).
const mostFactor = 3

// How much less of a liquid is a dish that cooks dry: less than three quarters of
// one that is a fifth of its weight or more (common practice, no source).
const (
	leastLiquid   = 0.75
	liquidInADish = 0.2
)

// What liquid a food is: one that water stands in for, or another.
var (
	brothWords  = wordSet("broth stock bouillon consomme")
	liquidWords = wordSet("milk buttermilk juice wine beer cider kefir")
)

// liquid reports whether a counted line is a liquid, and one that is water but for
// its taste and salt.
func (l *Line) liquid() (liquid, broth bool) {
	water, ok := l.Food.Per100g(fooddata.Water).Value()
	if l.Status != Counted || !ok || water < 80 {
		return false, false
	}
	name := fooddata.Normalise(l.Food.Name())
	is := func(words map[string]bool) bool {
		return slices.ContainsFunc(name, func(w string) bool { return words[w] })
	}
	broth = water >= 90 && is(brothWords)
	return broth || is(liquidWords), broth
}

// lineAt is the line of an analysis that a line of the recipe was resolved to.
func (a *Analysis) lineAt(r *grammar.Recipe, line int) *Line {
	for i := range a.Lines {
		if a.Lines[i].Number == r.Lines[line].Number && a.Lines[i].Status == Counted {
			return &a.Lines[i]
		}
	}
	return nil
}

// driesOut refuses to take out a liquid that the dish cooks in and that water
// cannot stand in for.
func driesOut(r *grammar.Recipe, a *Analysis, lines []int, factor float64) error {
	if factor >= leastLiquid {
		return nil
	}
	for _, line := range lines {
		l := a.lineAt(r, line)
		if l == nil {
			continue
		}
		if liquid, broth := l.liquid(); liquid && !broth && l.Grams.Low >= liquidInADish*a.Grams.Low {
			left := fmt.Sprintf("%.0f %%", factor*100)
			if f, err := fitted(r, []int{line}, factor, Down); err == nil {
				left = fmt.Sprintf("%s, %s", f.Lines[0].Kitchen, left)
			}
			return fmt.Errorf("it would leave %s of the %s that the dish is made with, so it would come out dry; put another kind of it in its place, or fit another line", left, l.named())
		}
	}
	return nil
}

// waterFor puts in as much water as there is less broth.
func (f *Fitted) waterFor(r *grammar.Recipe, a *Analysis, lines []int, factor float64) error {
	if factor >= 1 {
		return nil
	}
	less := 0.0
	for _, line := range lines {
		if l := a.lineAt(r, line); l != nil {
			if _, broth := l.liquid(); broth {
				less += l.Grams.Low * (1 - factor)
			}
		}
	}
	unit, per := "cup", ratio(cup)
	if r.Metric {
		unit, per = "ml", 1
	}
	if less < ratio(cup)/8 {
		return nil
	}
	measure, _ := grammar.MeasureNamed(unit)
	q := new(big.Rat).SetFloat64(less / per)
	_, words, _ := KitchenAmount(grammar.Amount{Terms: []grammar.Term{{Quantity: grammar.Quantity{Low: q, High: q}, Measure: measure}}}, r.Metric, Nearest)
	f.Water = words + " water"
	item := grammar.ParseLine(f.Water).Items[0]
	changed, err := Apply(f.Recipe, Edit{Kind: EditAdd, Item: item, Text: f.Water})
	if err != nil {
		return err
	}
	f.Recipe = changed
	return nil
}

// anotherDishOf tells which amounts a factor beyond mostFactor comes to.
func anotherDishOf(r *grammar.Recipe, lines []int, factor float64, rounding Rounding) error {
	f, err := fitted(r, lines, factor, rounding)
	if err != nil || factor > mostFactor*100 {
		return fmt.Errorf("it would take %s times as much: it would be another dish", show(factor))
	}
	var amounts []string
	for _, l := range f.Lines {
		amounts = append(amounts, l.Kitchen+" of "+strings.Join(r.Lines[l.Line].Items[0].Words, " "))
	}
	return fmt.Errorf("it would take %s, %s times as much: it would be another dish", strings.Join(amounts, ", "), show(factor))
}

// fitted changes the lines by the factor, in measures on the safe side.
func fitted(r *grammar.Recipe, lines []int, factor float64, rounding Rounding) (*Fitted, error) {
	exact := new(big.Rat).SetFloat64(factor)
	f := &Fitted{}
	var edits []Edit
	for _, line := range lines {
		item := r.Lines[line].Items[0]
		if item.Amount == nil {
			return nil, fmt.Errorf("line %q has no amount to change", r.Lines[line].Text)
		}
		kitchen, words, _ := KitchenAmount(*Multiply(item, exact).Amount, r.Metric, rounding)
		f.Lines = append(f.Lines, FittedLine{Line: line, Was: item.Amount.String(), Exact: factor, Kitchen: words})
		if len(kitchen.Terms) == 0 {
			edits = append(edits, Edit{Kind: EditDrop, Line: line})
			continue
		}
		item.Amount = &kitchen
		edits = append(edits, Edit{Kind: EditAmount, Line: line, Item: item})
	}
	changed, err := Apply(r, inOrder(edits)...)
	if err != nil {
		return nil, err
	}
	f.Recipe = changed
	return f, nil
}

// inOrder puts the edits that leave lines out last, from the end, so that the
// indices of the others stay true.
func inOrder(edits []Edit) []Edit {
	var kept, drops []Edit
	for _, e := range edits {
		if e.Kind == EditDrop {
			drops = append([]Edit{e}, drops...)
		} else {
			kept = append(kept, e)
		}
	}
	return append(kept, drops...)
}

// FitServings returns the whole number of servings into which the recipe must
// be divided for a serving to keep within the limit, at least one.
func FitServings(a *Analysis, limit Limit) (int, error) {
	whole := a.Recipe[limit.Nutrient].Low
	switch {
	case limit.Amount <= 0:
		return 0, fmt.Errorf("a limit must be above zero")
	case limit.AtLeast:
		n := int(math.Floor(whole/limit.Amount + tinyAmount))
		if n < 1 {
			return 0, fmt.Errorf("it cannot be: the whole recipe has only %s %s %s", plainFigure(whole, limit.Nutrient), limit.Nutrient.Unit(), limit.Nutrient.Name())
		}
		return n, nil
	}
	n := int(math.Ceil(whole/limit.Amount - tinyAmount))
	return max(n, 1), nil
}

// figure writes an amount for a sentence.
func plainFigure(v float64, n fooddata.Nutrient) string {
	if n.Unit() == "g" && v < 9.95 {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}
