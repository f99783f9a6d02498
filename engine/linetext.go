package engine

import (
	"slices"
	"strings"

	"pottle/grammar"
)

// piece is an item's amount in words: what stands before the food and what
// after it.
type piece struct {
	lead, beside, tail string // before the food, right after it, and after all
	many               bool   // more than one of it
	err                float64
}

// LineText writes the items of a line with their amounts exactly as they are, in
// the plural where there is more than one of a thing. Was are the items before a
// change: what has become one is put in the singular.
func LineText(items, was []grammar.Item) string {
	text, _ := lineText(items, was, exactPiece)
	return text
}

func exactPiece(item grammar.Item) piece { return saidPiece(*item.Amount) }

// saidPiece is an amount in words. Of whole things, what one of them weighs and
// what all come to stand after the name: "2 fillets (6 oz each)".
func saidPiece(a grammar.Amount) piece {
	p := piece{lead: amountWords(a), many: severalOf(a)}
	if t := a.Terms[0]; len(a.Terms) == 1 && t.Measure == nil {
		p.beside = sameWords(a)
		if t.Each != nil {
			p.beside = " (" + termWords(*t.Each) + " each)" + p.beside
			t.Each = nil
		}
		p.lead = termWords(t)
	}
	return p
}

// severalOf reports whether an amount of whole things is of more than one.
func severalOf(a grammar.Amount) bool { return a.Terms[0].Quantity.High.Cmp(wholeOne) > 0 }

// lineText writes a whole line with its amounts in other words. Was are the
// items before they were scaled. The error is the largest of its amounts.
func lineText(items, was []grammar.Item, words func(grammar.Item) piece) (string, float64) {
	if zestAndJuice(items) {
		text, err := itemText(items[0], was[0], words)
		return strings.Replace(text, partOf[items[0].Part], "zest and juice of ", 1), err
	}
	var all []string
	worst, and := 0.0, " and "
	for i, item := range items {
		part := item.Part
		if len(items) > 1 && part != grammar.Whole { // "zest of" would be read as that of all that follows
			item.Part, and = grammar.Whole, ", and "
			item.Tail = withoutTail(item.Tail, func(w string) bool { return partWords[w] })
		}
		text, err := itemText(item, was[i], words)
		if item.Part != part {
			text += ", " + strings.TrimSuffix(partOf[part], " of ") + " only"
		}
		all = append(all, text)
		worst = worseError(worst, err)
	}
	if slices.ContainsFunc(all, func(s string) bool { return strings.ContainsAny(s, ";:") }) {
		return strings.Join(all, "; and "), worst
	}
	return strings.Join(all, and), worst
}

func itemText(item, was grammar.Item, words func(grammar.Item) piece) (string, float64) {
	var p piece
	food := slices.Clone(item.Words)
	tails := item.Tail
	if len(tails) == 0 && len(item.Prep) > 0 {
		tails = [][]string{item.Prep}
	}
	if item.Amount != nil {
		p = words(item)
		t := item.Amount.Terms[0]
		switch {
		case t.Measure != nil && t.Measure.Kind == grammar.Length:
			number := strings.TrimSuffix(strings.TrimSuffix(p.lead, manyOf(t.Measure.Name)), t.Measure.Name)
			p.lead = strings.TrimSpace(number) + "-" + t.Measure.Name + " piece"
			tails = withoutTail(tails, func(w string) bool { return strings.HasSuffix(w, "-"+t.Measure.Name) })
		case t.Measure == nil:
			if long, rest, ok := lengthOfPiece(item, tails); ok {
				p.lead, tails, item.Aside = p.lead+" ("+long+")", rest, without(item.Aside, long)
			}
			food = numbered(food, was.Amount != nil && severalOf(*was.Amount), p.many)
		}
	}
	if item.Part != grammar.Whole {
		tails = withoutTail(tails, func(w string) bool { return partWords[w] })
		p.lead = partOf[item.Part] + p.lead
	}
	ors, plain := "", p.tail == ""
	for i, or := range item.Or {
		or.Optional = or.Optional && !item.Optional // said once
		if i < len(was.Or) && item.Amount != nil && or.Amount != nil && or.Amount.String() == item.Amount.String() {
			or.Amount = nil // said once
			if item.Amount.Terms[0].Measure == nil {
				or.Words = numbered(slices.Clone(or.Words), was.Amount != nil && severalOf(*was.Amount), p.many)
			}
		}
		other, err := itemText(or, was.Or[i], words)
		ors += " or " + other
		p.err = worseError(p.err, err)
		plain = plain && len(or.Prep)+len(or.Tail)+len(or.Aside)+len(or.More) == 0
	}
	s := strings.TrimSpace(p.lead+" "+strings.Join(food, " ")) + p.beside
	if plain { // "butter or margarine, melted", as it is read
		s, ors = s+ors, ""
	}
	for _, tail := range tails {
		s += ", " + strings.Join(tail, " ")
	}
	s += p.tail + ors
	for _, aside := range item.Aside {
		if strings.HasPrefix(aside, "such as") || strings.HasPrefix(aside, "preferably") {
			s += ", " + aside
		} else {
			s += " (" + aside + ")"
		}
	}
	if item.More != "" {
		s += ", " + item.More
	}
	if item.Amount == nil && item.Uncounted != "" && item.Uncounted != "no amount" {
		s += ", " + item.Uncounted
	}
	if item.Optional {
		s += " (optional)"
	}
	return s, p.err
}

// zestAndJuice reports whether the items of a line are the zest and the juice of
// the same fruit, which only one name for both reads as.
func zestAndJuice(items []grammar.Item) bool {
	return len(items) == 2 && items[0].Part != items[1].Part && partOf[items[0].Part] != "" && partOf[items[1].Part] != "" &&
		items[0].Amount != nil && items[1].Amount != nil && items[0].Amount.String() == items[1].Amount.String() && slices.Equal(items[0].Words, items[1].Words)
}

// withoutTail leaves out what stands between two commas if all its words are
// among those said elsewhere.
func withoutTail(tails [][]string, said func(string) bool) [][]string {
	return slices.DeleteFunc(slices.Clone(tails), func(tail []string) bool {
		return !slices.ContainsFunc(tail, func(w string) bool { return !said(w) })
	})
}
