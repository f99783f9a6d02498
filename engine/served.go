package engine

import "pottle/grammar"

// Told is what was told of the cooking, over what the directions say.
type Told struct {
	Cooking *Cooking             // nil to go by the directions
	Kept    map[KeptKind]float64 // share, 0 to 1, of what is thrown away that stays
}

// Served returns the analysis of a recipe as it is served: without what is
// thrown away (a marinade, drained fat) and cooked, as its directions tell or as
// was told. It is a itself if neither tells anything.
func (e *Engine) Served(r *grammar.Recipe, a *Analysis, told Told) *Analysis {
	if kept := e.thrownAway(r, a, told); len(kept) > 0 {
		if less, err := a.Keep(kept...); err == nil {
			a = less
		}
	}
	if told.Cooking != nil {
		return e.Cooked(a, *told.Cooking)
	}
	if c, ok := ReadCooking(r.Method); ok {
		return e.Cooked(a, c)
	}
	return a
}

// thrownAway gathers what the directions throw away, with the shares that were
// told. Fat that was told to drain is that of all raw ground meat.
func (e *Engine) thrownAway(r *grammar.Recipe, a *Analysis, told Told) []Kept {
	kept := e.Discarded(a, r.Method)
	for kind, share := range told.Kept {
		found := false
		for i := range kept {
			if kept[i].Kind == kind {
				kept[i].Share, kept[i].Source, found = share, "told", true
			}
		}
		if found || kind != KeptFat {
			continue
		}
		for i := range a.Lines {
			if k, err := e.KeptByDefault(a, i, KeptFat); err == nil {
				k.Share, k.Source = share, "told"
				kept = append(kept, k)
			}
		}
	}
	return kept
}
