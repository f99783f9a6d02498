package engine

import "slices"

// corrected reads a word with one typing error as the word of a name that it
// must be: "brocolli". It is tried for one word at a time and only where the
// corrected words are a name; the reading is shown as an assumption.
func (e *Engine) corrected(q query) (Match, bool) {
	for _, words := range [][]string{q.words, withoutPreparation(q.words)} {
		for i, w := range words {
			for _, near := range e.table.Near(w) {
				fixed := slices.Clone(words)
				fixed[i] = near
				q := query{words: fixed, state: q.state, canned: q.canned}
				m, ok := e.named(q)
				if !ok {
					m, ok = e.fewerWords(q)
				}
				if ok && m.Confidence >= droppedWord {
					m.Confidence = min(m.Confidence, plainName) - 0.1
					m.Assumed = append([]string{quoted([]string{w}) + " read as " + near}, m.Assumed...)
					return m, true
				}
			}
		}
	}
	return Match{}, false
}
