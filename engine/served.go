package engine

import (
	"slices"

	"pottle/grammar"
)

// Told is what was told of the cooking, over what the directions say.
type Told struct {
	Cooking *Cooking             // nil to go by the directions
	Kept    map[KeptKind]float64 // share, 0 to 1, of what is thrown away that stays
}

// Served returns the analysis of a recipe as it is served: without what is
// thrown away (a marinade, drained fat) and cooked, as its directions tell or as
// was told. What they throw away and is counted all the same is in Notes. It is a
// itself if neither tells anything.
func (e *Engine) Served(r *grammar.Recipe, a *Analysis, told Told) *Analysis {
	d := a.follow(r.Method)
	kept := e.thrownAway(a, d, told)
	open := e.leftOpen(d, kept)
	if len(kept) > 0 {
		if less, err := a.Keep(kept...); err == nil {
			a = less
		}
	}
	if len(open) > 0 {
		noted := *a
		noted.Notes = append(slices.Clone(a.Notes), open...)
		a = &noted
	}
	if told.Cooking != nil {
		return e.Cooked(a, *told.Cooking)
	}
	if c, ok := cookingOf(d.steps); ok {
		return e.Cooked(a, c)
	}
	return a
}

// thrownAway gathers what the directions throw away, with the shares that were
// told. Fat that was told to drain is that of all raw ground meat; a marinade that
// was told to stay in part is that of the directions, whatever they say of it.
func (e *Engine) thrownAway(a *Analysis, d *thrown, told Told) []Kept {
	kept := e.discarded(d)
	for kind, share := range told.Kept {
		found := false
		for i := range kept {
			if kept[i].Kind == kind {
				if kind == KeptWater && kept[i].Share == 0 && share < 1 { // the water itself
					continue
				}
				kept[i].Share, kept[i].Source, found = share, "told", true
			}
		}
		if found {
			continue
		}
		var lines []int
		switch kind {
		case KeptFat:
			for i := range a.Lines {
				lines = append(lines, i)
			}
		case KeptMarinade:
			lines = d.marinade.lines
		case KeptWater:
			lines = d.water.maybe
		}
		for _, i := range lines {
			if k, err := e.KeptByDefault(a, i, kind); err == nil {
				k.Share, k.Source = share, "told"
				kept = append(kept, k)
			}
		}
	}
	return kept
}
