package grammar

import (
	"math/big"
	"strings"
)

// uncounted finds a phrase such as "to taste" or "for frying" at the front of
// atoms. With an amount written the phrase changes nothing and is kept as
// preparation.
func (r *reader) uncounted(item *Item, atoms []atom) bool {
	if len(atoms) < 2 || atoms[0].word == "" || !phraseStart[atoms[0].word] {
		return false
	}
	said := strings.Join(words(atoms), " ")
	for _, phrase := range notCounted {
		if said == phrase || strings.HasPrefix(said, phrase+" ") || strings.HasSuffix(phrase, " the pan") && strings.HasPrefix(said, "for the ") {
			if item.Amount == nil {
				item.Uncounted = phrase
			} else {
				item.Prep = append(item.Prep, words(atoms)...)
			}
			return true
		}
	}
	return false
}

var phraseStart = func() map[string]bool {
	s := make(map[string]bool)
	for _, p := range notCounted {
		s[strings.Fields(p)[0]] = true
	}
	return s
}()

// settle gives a reason to an item without an amount, tidies the words, and
// gives the amount to the choices that have none of their own.
func (r *reader) settle(item *Item) {
	if item.Amount == nil {
		if item.Uncounted == "" {
			item.Uncounted = "no amount"
			if len(item.Words) > 0 && (item.Words[0] == "some" || item.Words[0] == "several" || item.Words[0] == "few") {
				item.Uncounted, item.Words = item.Words[0], item.Words[1:]
			}
		}
	} else {
		r.settleAmount(item)
	}
	item.lend()
}

// lend gives the amount, or the reason for none, to the choices without one.
func (i *Item) lend() {
	for k := range i.Or {
		or := &i.Or[k]
		if or.Amount == nil && (or.Uncounted == "" || or.Uncounted == "no amount") {
			or.Amount, or.Uncounted = i.Amount, i.Uncounted
		}
		or.lend()
	}
}

func (r *reader) settleAmount(item *Item) {
	t := &item.Amount.Terms[0]
	if n := len(item.Words); n > 3 && item.Words[n-3] == "and" && item.Words[n-2] == "a" && partWords[item.Words[n-1]] && len(item.Amount.Terms) == 1 { // "1 onion and a half"
		t.Quantity, item.Words = t.Quantity.and(item.Words[n-1]), item.Words[:n-3]
	}
	if t.Heaped {
		item.Notes = append(item.Notes, "a heaped measure read as level")
	}
	if len(item.Words) == 0 && t.Measure != nil && t.Measure.Kind == Count && t.Each == nil {
		item.Words = []string{t.Measure.Name} // "4 cloves": the food bears the measure's name
		t.Measure = nil
	}
	if len(item.Words) > 1 && isKind(measureByWord[item.Words[0]], Container) && measureByWord[item.Words[0]].Name == item.Words[0] && len(item.Amount.Same) == 0 {
		if holds, ok := inOne(item.Amount.Terms); ok { // "1 lb 4 oz can pineapple"
			item.Amount = &Amount{Terms: []Term{{Quantity: Exactly(1, 1), Measure: measureByWord[item.Words[0]], Each: &holds}}}
			item.Words = item.Words[1:]
			t = &item.Amount.Terms[0]
		}
	}
	if m := t.Measure; m != nil && m.Kind == Length { // "1-inch piece ginger"
		item.Prep = append(item.Prep, t.Quantity.String()+"-"+m.Name)
		if len(item.Words) > 0 && (item.Words[0] == "piece" || item.Words[0] == "knob" || item.Words[0] == "stick" || item.Words[0] == "length" || item.Words[0] == "cube") {
			item.Words = trimOf(item.Words[1:])
		}
	}
	item.Words = trimOf(item.Words)
}

// inOne adds weights up to one term, in the measure of the last.
func inOne(terms []Term) (Term, bool) {
	sum := Term{Quantity: Exactly(0, 1), Measure: terms[len(terms)-1].Measure}
	for _, t := range terms {
		if !isKind(t.Measure, Weight) || t.Each != nil || t.Quantity.IsRange() {
			return Term{}, false
		}
		q := t.Quantity.Times(new(big.Rat).Quo(t.Measure.Amount, sum.Measure.Amount))
		total := new(big.Rat).Add(sum.Quantity.Low, q.Low)
		if !readable(total) {
			return Term{}, false
		}
		sum.Quantity = Quantity{total, total}
	}
	return sum, true
}

func trimOf(words []string) []string {
	for len(words) > 0 && (words[0] == "of" || words[0] == "the") {
		words = words[1:]
	}
	return words
}
