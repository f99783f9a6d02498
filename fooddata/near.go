package fooddata

import (
	"slices"

	"github.com/agnivade/levenshtein"
)

// Near returns the words of the table's names and descriptions that word may be
// a typing error for: one letter changed, missing or too many in a word of six
// letters or more, two in one of eight or more. Both begin with the same letter.
// The nearest come first. It returns nothing for a word that the table has.
func (t *Table) Near(word string) []string {
	if _, known := t.file.WordIndex(word); known || len(word) < 6 {
		return nil
	}
	var near [3][]string
	for i := range t.file.NumWords() {
		w := t.file.Text(t.file.Word(i).Text)
		if len(w) < 4 || w[0] != word[0] || len(w)-len(word) > 2 || len(word)-len(w) > 2 {
			continue
		}
		d := levenshtein.ComputeDistance(word, w)
		if d == 1 || d == 2 && len(word) >= 8 && w[len(w)-2:] == word[len(word)-2:] {
			near[d] = append(near[d], w)
		}
	}
	return slices.Concat(near[1], near[2])
}
