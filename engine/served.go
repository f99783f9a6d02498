package engine

import "pottle/grammar"

// Served returns the analysis of a recipe as its directions have it served:
// without what they throw away (a marinade, drained fat) and cooked as they
// tell. It is a itself if they tell nothing of it.
func (e *Engine) Served(r *grammar.Recipe, a *Analysis) *Analysis {
	if kept := e.Discarded(a, r.Method); len(kept) > 0 {
		if less, err := a.Keep(kept...); err == nil {
			a = less
		}
	}
	if c, ok := ReadCooking(r.Method); ok {
		return e.Cooked(a, c)
	}
	return a
}
