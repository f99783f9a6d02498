package bot

import (
	"fmt"
	"math/big"
	"regexp"

	"pottle/grammar"
)

var measuresAsked = regexp.MustCompile(`(?i)^how many ([a-z. ]+?)s? (?:are |is |make |does |do |go )?(?:there )?(?:in|into|to|make|makes) (?:an? )?([^?]+?)\s*\??$`)

// measures answers "how many teaspoons in a cup": one measure in another, both
// of volume or both of weight. ok is false if that is not asked.
func measures(text string) (answer string, ok bool) {
	m := measuresAsked.FindStringSubmatch(text)
	if m == nil {
		return "", false
	}
	small, known := grammar.MeasureNamed(m[1])
	large := bareAmount(m[2])
	if large == nil {
		large = bareAmount("1 " + m[2])
	}
	if !known || large == nil || small.Kind != large.Measure.Kind || small.Kind != grammar.Volume && small.Kind != grammar.Weight {
		return "", false
	}
	n := new(big.Rat).Mul(large.Quantity.Low, new(big.Rat).Quo(large.Measure.Amount, small.Amount))
	is := grammar.Amount{Terms: []grammar.Term{{Quantity: grammar.Quantity{Low: n, High: n}, Measure: small}}}.String()
	if !n.IsInt() {
		v, _ := n.Float64()
		is = fmt.Sprintf("about %s %s", trimZero(v), small.Name)
	}
	switch small.Name {
	case "cup", "pint", "quart", "gallon":
		if n.Cmp(big.NewRat(1, 1)) > 0 {
			is += "s"
		}
	}
	return fmt.Sprintf("%s is %s.", grammar.Amount{Terms: []grammar.Term{*large}}, is), true
}

// bareAmount reads an amount that names a measure of volume or weight and no food.
func bareAmount(text string) *grammar.Term {
	line := grammar.ParseLine(text)
	if len(line.Items) != 1 || line.Items[0].Amount == nil || len(line.Items[0].Words) > 0 || len(line.Items[0].Amount.Terms) != 1 {
		return nil
	}
	t := line.Items[0].Amount.Terms[0]
	if t.Measure == nil || t.Measure.Amount == nil || t.Quantity.Low == nil {
		return nil
	}
	return &t
}
