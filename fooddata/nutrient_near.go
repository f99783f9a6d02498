package fooddata

import (
	"slices"
	"strings"
)

// NutrientNear returns the nutrient that words may be a typing error for: one
// letter changed, missing, too many or two exchanged in a name of five letters
// or more, two such in one of eight or more. It returns false where two
// nutrients are as near.
func NutrientNear(words string) (Nutrient, bool) {
	said := strings.Join(Normalise(words), " ")
	if len(said) < 5 {
		return 0, false
	}
	written := strings.ToLower(strings.Join(strings.Fields(words), " "))
	var found []Nutrient
	least := 3
	for name, n := range nutrientNames() {
		most := 1
		if len(name) >= 8 && len(said) >= 7 {
			most = 2
		}
		if len(name) < 5 || len(name)-len(said) > most || len(said)-len(name) > most || numbered(name) != numbered(said) {
			continue
		}
		switch d := min(typingErrors(said, name), typingErrors(written, name+"s")); {
		case d > most || d > least:
		case d < least:
			least, found = d, []Nutrient{n}
		case !slices.Contains(found, n):
			found = append(found, n)
		}
	}
	if len(found) != 1 {
		return 0, false
	}
	return found[0], true
}

// numbered returns the digits of a name and the single letters in it: of
// vitamins they tell which, and none is another's typing error.
func numbered(name string) string {
	var b strings.Builder
	for word := range strings.FieldsSeq(name) {
		if len(word) == 1 {
			b.WriteString(word)
			continue
		}
		for _, r := range word {
			if '0' <= r && r <= '9' {
				b.WriteString(word)
				break
			}
		}
	}
	return b.String()
}

// typingErrors counts the letters that are changed, missing, too many, or
// exchanged with the next, from a to b.
func typingErrors(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last := make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row := make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			changed := 1
			if x[i-1] == y[j-1] {
				changed = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+changed)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(y)]
}
