package engine

import (
	"math"
	"slices"

	"pottle/fooddata"
)

// Difference is how a nutrient of a serving differs between two analyses, in
// its unit.
type Difference struct {
	Nutrient      fooddata.Nutrient
	Before, After float64
	Complete      bool // neither figure is "at least"
	Lines         []LineDifference
}

// Change returns how much more there is after than before; negative is less.
func (d Difference) Change() float64 { return d.After - d.Before }

// LineDifference is the part of a difference that one line makes.
type LineDifference struct {
	Name   string // the food, or both if it was changed
	Change float64
}

// Compare sets two analyses side by side for a serving, nutrient by nutrient.
// Lines are paired by their number; the lines that make most of a difference
// come first.
func Compare(before, after *Analysis) [fooddata.NumNutrients]Difference {
	return compare(before, after, pairLines(before, after))
}

// CompareRecipes is Compare of recipes that do not come from one another: lines
// are paired by their food.
func CompareRecipes(before, after *Analysis) [fooddata.NumNutrients]Difference {
	return compare(before, after, pairFoods(before, after))
}

func compare(before, after *Analysis, pairs []linePair) [fooddata.NumNutrients]Difference {
	var all [fooddata.NumNutrients]Difference
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		d := Difference{Nutrient: n, Before: before.Per(n).Low, After: after.Per(n).Low, Complete: before.Complete(n) && after.Complete(n)}
		for _, p := range pairs {
			if c := p.after.gives(n, after.Servings) - p.before.gives(n, before.Servings); math.Abs(c) > 1e-9 {
				d.Lines = append(d.Lines, LineDifference{p.name(), c})
			}
		}
		slices.SortStableFunc(d.Lines, func(x, y LineDifference) int {
			switch ax, ay := math.Abs(x.Change), math.Abs(y.Change); {
			case ax > ay:
				return -1
			case ax < ay:
				return 1
			}
			return 0
		})
		all[n] = d
	}
	return all
}

// side is a line of one of the two analyses, or none.
type side struct{ line *Line }

// gives returns what the line brings to a serving; nothing if it is not counted
// or has no figure.
func (s side) gives(n fooddata.Nutrient, servings float64) float64 {
	if s.line == nil || s.line.Status != Counted {
		return 0
	}
	r, _ := s.line.Has(n)
	return r.Low / servings
}

type linePair struct{ before, after side }

func (p linePair) name() string {
	switch {
	case p.before.line == nil || p.before.line.Food.IsZero():
		return p.after.line.Food.Name()
	case p.after.line == nil || p.after.line.Food.IsZero() || p.after.line.Food == p.before.line.Food:
		return p.before.line.Food.Name()
	}
	return p.before.line.Food.Name() + " → " + p.after.line.Food.Name()
}

// pairFoods pairs the counted lines of two analyses that hold the same food, in
// their order; the others stand alone.
func pairFoods(before, after *Analysis) []linePair {
	var pairs []linePair
	for i := range before.Lines {
		if l := &before.Lines[i]; l.Status == Counted {
			pairs = append(pairs, linePair{before: side{l}})
		}
	}
	for i := range after.Lines {
		l := &after.Lines[i]
		if l.Status != Counted {
			continue
		}
		if at := slices.IndexFunc(pairs, func(p linePair) bool {
			return p.after.line == nil && p.before.line != nil && p.before.line.Food == l.Food
		}); at >= 0 {
			pairs[at].after = side{l}
		} else {
			pairs = append(pairs, linePair{after: side{l}})
		}
	}
	return pairs
}

// pairLines pairs the lines of two analyses by number and place in the line.
func pairLines(before, after *Analysis) []linePair {
	type key struct{ number, item int }
	place := make(map[key]int)
	var pairs []linePair
	index := func(a *Analysis, put func(k key, l *Line)) {
		last, item := -1, 0
		for i := range a.Lines {
			l := &a.Lines[i]
			if l.Status == None {
				continue
			}
			if l.Number != last {
				last, item = l.Number, 0
			} else {
				item++
			}
			put(key{l.Number, item}, l)
		}
	}
	index(before, func(k key, l *Line) {
		place[k] = len(pairs)
		pairs = append(pairs, linePair{before: side{l}})
	})
	index(after, func(k key, l *Line) {
		if i, ok := place[k]; ok {
			pairs[i].after = side{l}
		} else {
			pairs = append(pairs, linePair{after: side{l}})
		}
	})
	return pairs
}
