package engine

import (
	"math/big"
	"slices"
	"strings"

	"pottle/grammar"
)

// amountWords writes an amount as it is said: decimals for metric measures,
// fractions for others, measures in the plural.
func amountWords(a grammar.Amount) string {
	var terms []string
	for _, t := range a.Terms {
		terms = append(terms, termWords(t))
	}
	return strings.Join(terms, " plus ") + sameWords(a)
}

// sameWords is an amount said again, in brackets.
func sameWords(a grammar.Amount) string {
	s := ""
	for _, same := range a.Same {
		s += " (" + strings.Join(append([]string{amountWords(same)}, same.Words...), " ")
		if same.Total || ofSeveral(a.Terms) {
			s += " total"
		}
		s += ")"
	}
	return s
}

func termWords(t grammar.Term) string {
	words := []string{quantityWords(t)}
	container := t.Measure != nil && t.Measure.Kind == grammar.Container
	if t.Each != nil && container {
		words = append(words, "("+termWords(*t.Each)+")")
	}
	if t.Heaped {
		words = append(words, "heaped")
	}
	switch t.Size {
	case "":
	case "thumb":
		words = append(words, "thumb-sized")
	default:
		words = append(words, t.Size)
	}
	if t.Measure != nil {
		name := t.Measure.Name
		if t.Quantity.High.Cmp(wholeOne) > 0 {
			name = manyOf(name)
		}
		words = append(words, name)
	}
	if t.Each != nil && !container {
		words = append(words, "("+termWords(*t.Each)+" each)")
	}
	return strings.Join(words, " ")
}

func quantityWords(t grammar.Term) string {
	if t.Measure == nil || !pointed[t.Measure.Name] {
		return t.Quantity.String()
	}
	low, high := decimalWords(t.Quantity.Low), decimalWords(t.Quantity.High)
	if low == high {
		return low
	}
	return low + " to " + high
}

// pointed are the measures whose amounts are written with a point.
var pointed = wordSet("mg g kg ml cl dl l")

// decimalWords writes r with a point if that is exact, else as a fraction.
func decimalWords(r *big.Rat) string {
	if n, exact := r.FloatPrec(); exact && n <= 3 {
		return r.FloatString(n)
	}
	return grammar.Quantity{Low: r, High: r}.String()
}

// manyOf is the plural of a measure that the grammar reads.
func manyOf(measure string) string {
	switch measure {
	case "tsp", "tbsp", "fl oz", "oz", "lb", "mg", "g", "kg", "ml", "cl", "dl", "l", "cm", "mm", "stone", "thumb", "recipe":
		return measure
	case "leaf":
		return "leaves"
	case "loaf":
		return "loaves"
	}
	if strings.HasSuffix(measure, "ch") || strings.HasSuffix(measure, "sh") || strings.HasSuffix(measure, "ss") || strings.HasSuffix(measure, "x") {
		return measure + "es"
	}
	return measure + "s"
}

// Shown writes the line as a reader can follow it: as it stands, or in kitchen
// measures where scaling left a fraction that nobody measures, "5680/13221 cup".
func (l *Line) Shown(metric bool) string {
	if l.Item.Amount == nil || !unmeasurable(*l.Item.Amount) {
		return l.Text
	}
	text, _ := KitchenItem(l.Item, metric)
	return text
}

// shownAmount writes an amount in words, in kitchen measures where it is a
// fraction that nobody measures.
func shownAmount(a grammar.Amount, metric bool) string {
	if unmeasurable(a) {
		if kitchen, words, _ := KitchenAmount(a, metric, Nearest); len(kitchen.Terms) > 0 {
			return words
		}
	}
	return amountWords(a)
}

// unmeasurable reports an amount with a fraction that is none of a kitchen's and
// no short decimal.
func unmeasurable(a grammar.Amount) bool {
	odd := func(r *big.Rat) bool {
		if n, exact := r.FloatPrec(); exact && n <= 4 {
			return false
		}
		return !r.IsInt() && r.Denom().Cmp(big.NewInt(3)) != 0 && r.Denom().Cmp(big.NewInt(6)) != 0
	}
	return slices.ContainsFunc(a.Terms, func(t grammar.Term) bool {
		return odd(t.Quantity.Low) || odd(t.Quantity.High) || t.Each != nil && (odd(t.Each.Quantity.Low) || odd(t.Each.Quantity.High))
	}) || slices.ContainsFunc(a.Same, unmeasurable)
}
