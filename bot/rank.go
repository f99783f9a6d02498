package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// rank sets three foods or more in order by one nutrient. Foods without an amount
// are taken as 100 g, and by one piece or cup as well where each has that.
func (c *Conversation) rank(r grammar.Request) string {
	f, ok := figureAsked(r.Nutrient, "")
	if words, food, first := nutrientFirst(r.Nutrient); !ok && first { // "the most fibre apple, pear or orange"
		f, ok = figureAsked(words, "")
		r.Amounts = append([]string{food}, r.Amounts...)
	}
	if !ok || len(f.nutrients) != 1 {
		return fmt.Sprintf("%q is no nutrient that foods can be set in order by here. Ask like \"most fibre: apple, pear or orange\".", r.Nutrient)
	}
	if len(r.Amounts) > mostRanked {
		return fmt.Sprintf("That are %d foods: ask about at most %d at a time.", len(r.Amounts), mostRanked)
	}
	var hundred, one []engine.Line
	each := true
	for _, text := range r.Amounts {
		text = strings.TrimSpace(text)
		l := c.withAmount(text, "100 g")
		if l.Status != engine.Counted {
			return unclear(&l)
		}
		hundred = append(hundred, l)
		if bare(text) {
			l = c.amount("1 " + text)
		}
		each = each && bare(text) && l.Status == engine.Counted && l.Grams.Low <= onePortion
		one = append(one, l)
	}
	of := "100 g"
	if !slices.ContainsFunc(r.Amounts, bare) {
		of = "the amounts asked"
	}
	out := []string{fmt.Sprintf("%s, in %s: %s", f.title(), of, ranked(hundred, f, r.Least))}
	if each {
		out = append(out, fmt.Sprintf("In one each: %s", ranked(one, f, r.Least)))
	}
	for i := range hundred {
		out = append(out, basis(&hundred[i]))
	}
	return strings.Join(out, "\n") + f.after()
}

// mostRanked is the most foods that one question sets in order.
const mostRanked = 12

// ranked writes the foods in order, the most first, those without a figure last.
func ranked(lines []engine.Line, f askedFigure, least bool) string {
	n := f.nutrients[0]
	order := make([]int, len(lines))
	for i := range order {
		order[i] = i
	}
	have := func(i int) (float64, bool) {
		r, ok := lines[i].Has(n)
		return r.Low, ok
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, known := have(a)
		y, also := have(b)
		switch {
		case known != also && known:
			return -1
		case known != also:
			return 1
		case x == y:
			return 0
		case (x < y) == least:
			return -1
		}
		return 1
	})
	var out []string
	for _, i := range order {
		v, ok := have(i)
		if !ok {
			out = append(out, itemName(&lines[i])+" no figure")
			continue
		}
		out = append(out, fmt.Sprintf("%s (%s) %s", itemName(&lines[i]), grams(lines[i].Grams), value(v, n)))
	}
	return strings.Join(out, "; ") + "."
}
