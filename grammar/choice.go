package grammar

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// named reports whether words hold more than what may stand before a name.
func named(words []string) bool {
	for _, w := range words {
		if !leadingPreparation[w] && !IsPreparation(w) && !stop[w] {
			return true
		}
	}
	return false
}

// another reads a second food after "and" or "plus". Where it names none
// ("2 tbsp oil plus 1 tsp for the pan") its amount is added to the first.
func (r *reader) another(item *Item, rest []atom) []Item {
	items := r.readFood(rest[0].amount, rest[1:])
	first := &items[0]
	white := len(first.Words) > 0 && first.Words[0] == "white" // "2 eggs plus 1 white"
	other := white || named(first.Words)
	if other && len(item.Words) > 0 || item.Amount == nil || first.Amount == nil {
		return items
	}
	sum, ok := item.Amount.plus(*first.Amount)
	switch {
	case !ok:
		return items
	case other: // "1 cup (240 ml) plus 2 tbsp flour"
		first.Notes = append(item.Notes, first.Notes...)
		*item = *first
	default:
		item.Prep = append(append(item.Prep, first.Words...), first.Prep...)
		item.Aside = append(item.Aside, first.Aside...)
		if first.More != "" {
			item.More = first.More
		}
	}
	item.Amount = &sum
	return items[1:]
}

// readRest reads the items of a part of the text, which begins at an offset.
func (r *reader) readRest(part string, from int) []Item {
	items, fault := readItems(part, r.depth+1)
	if fault != nil && r.fault == nil {
		fault.Column += utf8.RuneCountInString(r.text[:from])
		r.fault = fault
	}
	return items
}

// orElse reads what follows "or"; it reports false if that is no other food.
func (r *reader) orElse(item *Item, rest []atom, naming, first bool) bool {
	if len(rest) == 0 || startsWith(rest, "more", "less", "to", "as", "so", "until", "other", "any", "use", "if") && rest[0].word != "use" {
		return len(rest) > 0 && startsWith(rest, "to", "as") && r.uncounted(item, rest) || len(rest) == 0
	}
	if naming && len(item.Words) == 0 { // "or" before any food: read over
		return false
	}
	if !naming && !first {
		return false
	}
	if !hasFood(rest) && rest[0].amount == nil {
		return false
	}
	r.choice(item, rest)
	return true
}

// choice adds the other choice that atoms describe.
func (r *reader) choice(item *Item, atoms []atom) {
	if len(atoms) == 0 || r.depth >= maxDepth {
		return
	}
	atoms = skipWord(atoms, "substitute", "use", "about", "the", "try", "an", "equal", "amount", "of", "with")
	if len(atoms) == 0 {
		return
	}
	for _, other := range r.readRest(r.slice(atoms), atoms[0].from) {
		if len(other.Words) == 0 {
			continue
		}
		if other.Amount == nil {
			said := other.Uncounted
			other.Amount, other.Uncounted = item.Amount, item.Uncounted
			if other.Amount != nil && (strings.HasPrefix(said, "for ") || strings.HasPrefix(said, "to ")) { // "2 cups peanut or vegetable oil for frying"
				other.Prep = append(other.Prep, strings.Fields(said)...)
			}
		}
		if len(item.Or) == 0 {
			item.Shares = other.Words
			if other.Amount != item.Amount && named(item.Words) { // its state is that of its own amount: "1 cup beans or 3 cups home-cooked"
				item.Shares = slices.DeleteFunc(slices.Clone(other.Words), ownState)
			}
		}
		item.Optional = item.Optional || other.Optional
		item.Or = append(item.Or, other)
	}
}

// ownState reports a word that tells the state of the food with whose amount it
// stands.
func ownState(word string) bool {
	return stateWords[word] || strings.HasSuffix(word, "-cooked") || word == "prepared" || word == "leftover"
}
