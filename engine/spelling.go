package engine

import "slices"

// corrected reads a word with a typing error as the word of a name that it must
// be: "brocolli". One word at a time is corrected, and only where the words are
// then a name; the reading is shown as an assumption.
func (e *Engine) corrected(q query) (Match, bool) {
	for _, words := range [][]string{q.words, withoutPreparation(q.words)} {
		for i, w := range words {
			for _, near := range e.table.Near(w) {
				fixed := slices.Clone(words)
				fixed[i] = near
				if m, ok := e.named(query{words: fixed, state: q.state, canned: q.canned}); ok {
					m.Confidence = min(m.Confidence, plainName) - 0.1
					m.Assumed = append([]string{quoted([]string{w}) + " read as " + near}, m.Assumed...)
					return m, true
				}
			}
		}
	}
	return Match{}, false
}
