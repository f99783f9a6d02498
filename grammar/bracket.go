package grammar

import (
	"math/big"
	"slices"
)

// asides reads a bracket that a comma parts, as far as each part is an amount
// beside the food ("15 oz"), what was done to it ("drained"), how many there are
// ("about 40") or words alone; and one of them at least an amount: "1 can (15 oz,
// drained) beans", "1 package (10 oz., about 40) marshmallows". It reports false,
// having read nothing, if it is none such.
func (r *reader) asides(item *Item, inner []atom) bool {
	parts := commaParts(inner)
	if len(parts) < 2 {
		return false
	}
	var amounts []beside
	var prep, remarks []string
	fault := r.fault
	for _, part := range parts {
		b, ok := r.aside(part)
		switch {
		case ok:
			amounts = append(amounts, b)
		case isDone(part):
			prep = append(prep, words(part)...)
		case slices.ContainsFunc(part, func(a atom) bool { return a.group != nil || a.amount != nil && !bareCount(a.amount) }):
			r.fault = fault
			return false
		default:
			remarks = append(remarks, r.slice(part))
		}
	}
	if len(amounts) == 0 || r.fault != fault {
		r.fault = fault
		return false
	}
	for _, b := range amounts {
		r.addAmount(item, b)
	}
	item.Prep = append(item.Prep, prep...)
	item.Aside = append(item.Aside, remarks...)
	return true
}

// commaParts are the parts between commas; a full stop of an abbreviation
// ("10 oz.,") belongs to none.
func commaParts(atoms []atom) [][]atom {
	var parts [][]atom
	var part []atom
	for _, a := range append(slices.Clone(atoms), atom{comma: true}) {
		switch {
		case a.comma && len(part) > 0:
			parts, part = append(parts, part), nil
		case a.comma, a.mark && a.to == a.from+1:
		default:
			part = append(part, a)
		}
	}
	return parts
}

// isDone reports words that tell what was done to a food and nothing else.
func isDone(atoms []atom) bool {
	done := false
	for _, a := range atoms {
		if a.word == "" || !stateWords[a.word] && !IsPreparation(a.word) && a.word != "and" && a.word != "then" {
			return false
		}
		done = done || a.word != "and" && a.word != "then"
	}
	return done
}

// bareCount reports a number without a measure or size: "about 40".
func bareCount(n *amountNode) bool {
	return n.Sum.First.unitless() && n.Sum.First.Size == "" && len(n.Sum.More) == 0
}

// lighter reports whether a weighs less than b, both being weights.
func lighter(a, b Term) bool {
	if !isKind(a.Measure, Weight) || !isKind(b.Measure, Weight) || a.Quantity.High == nil || b.Quantity.Low == nil {
		return false
	}
	return new(big.Rat).Mul(a.Quantity.High, a.Measure.Amount).Cmp(new(big.Rat).Mul(b.Quantity.Low, b.Measure.Amount)) < 0
}

// drainedTo counts what is left of each can when it is drained, as the line
// tells it, in place of what each can holds.
func (r *reader) drainedTo(item *Item, lead Amount, b beside) {
	lead.Terms[0].Each = &b.Terms[0]
	if !slices.Contains(item.Prep, "drained") {
		item.Prep = append(item.Prep, "drained")
		item.Notes = append(item.Notes, "counted drained, because its drained weight is told")
	}
	item.Prep = append(item.Prep, "weight")
	item.Aside = append(item.Aside, b.text)
	item.Amount = &lead
}
