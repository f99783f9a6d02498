package bot

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"pottle/grammar"
)

// One measure in another, without a food: by the legal definitions of the measures,
// and by the kitchen spoon and cup of US labels where millilitres are spoken of.

// nominalML are the millilitres that a US label counts household measures by;
// nominalRule is where that stands.
var nominalML = map[string]int64{"tsp": 5, "tbsp": 15, "fl oz": 30, "cup": 240}

const nominalRule = "21 CFR 101.9(b)(5)(viii)"

// unitInAsked is "tbsp in 1/4 cup", "how many teaspoons are in a cup": a measure,
// and then the amount. amountToUnit is "1/4 cup in ml".
var (
	unitInAsked  = regexp.MustCompile(`(?i)^(?:(?:how many|how much|what is|number of|convert) )?([a-zµ. ]+?) (?:are |is |make |makes |equals? |does |do |go )?(?:there )?(?:in|into|to|make|makes|are|is|per) (?:an? |one |the )?([^?]+?)$`)
	amountToUnit = regexp.MustCompile(`(?i)^(?:(?:how many|how much|what|convert|change|what about)(?: is| are)? )?(.+?) (?:in|to|into|as) (?:an? )?([a-zµ. ]+?)$`)
	gasMark      = regexp.MustCompile(`(?i)^(?:(?:how hot|what|convert)(?: is)? )?gas(?: mark)? (\d{1,2}|1/4|1/2)(?: (?:in|to|into|as) ?(?:°|º|deg(?:rees?)?\.?)? ?(?:f|c|fahrenheit|celsius|centigrade))?$`)
	unitToUnit   = regexp.MustCompile(`(?i)^(?:convert )?([a-z. ]+?) (?:to|into) ([a-z. ]+?)$`)
	temperature  = regexp.MustCompile(`(?i)^(?:(?:how much|how hot|what|convert|change)(?: is| are)? )?(-?\d{1,4}(?:\.\d+)?) ?(?:°|º|deg(?:rees?)?\.?)? ?(f|c|fahrenheit|celsius|centigrade)(?: (?:in|to|into|as|is what in) ?(?:°|º|deg(?:rees?)?\.?)? ?(f|c|fahrenheit|celsius|centigrade))?$`)
)

// halves writes a half as a number.
var halves = strings.NewReplacer("and a half ", "and a half ", "and half a ", "and half a ", "half a ", "1/2 ", "half an ", "1/2 ", "Half a ", "1/2 ", "a half ", "1/2 ")

// measures answers "how many teaspoons in a cup": one measure in another, both
// of volume or both of weight, or a temperature. ok is false if that is not asked.
func measures(text string) (answer string, ok bool) {
	text = halves.Replace(strings.Join(strings.Fields(strings.Trim(text, " \"'?!.")), " "))
	if m := temperature.FindStringSubmatch(text); m != nil {
		return degrees(m[1], m[2], m[3])
	}
	if m := gasMark.FindStringSubmatch(text); m != nil {
		return gas(m[1])
	}
	if m := unitToUnit.FindStringSubmatch(text); m != nil { // "oz to g"
		_, one := grammar.MeasureNamed(m[1])
		if to, known := grammar.MeasureNamed(m[2]); one && known {
			if amount := bareAmount("1 " + m[1]); amount != nil {
				return inOther(amount, to)
			}
		}
	}
	if m := amountToUnit.FindStringSubmatch(text); m != nil {
		if to, known := grammar.MeasureNamed(m[2]); known {
			if amount := bareAmount(m[1]); amount != nil {
				if answer, ok := inOther(amount, to); ok {
					return answer, true
				}
			}
		}
	}
	if m := unitInAsked.FindStringSubmatch(text); m != nil {
		to, known := grammar.MeasureNamed(m[1])
		if !known {
			to, known = grammar.MeasureNamed(strings.TrimSuffix(m[1], "s"))
		}
		amount := bareAmount(m[2])
		if amount == nil {
			amount = bareAmount("1 " + m[2])
		}
		if known && amount != nil {
			return inOther(amount, to)
		}
	}
	return "", false
}

// inOther writes an amount in another measure of the same kind. Ounces of volume
// are what is meant by "ounces in a cup". ok is false if the kinds differ.
func inOther(amount *grammar.Term, to *grammar.Measure) (string, bool) {
	from := amount.Measure
	weighs := ""
	if fluid, known := grammar.MeasureNamed("fl oz"); known {
		switch {
		case to.Name == "oz" && from.Kind == grammar.Volume:
			to, weighs = fluid, " By weight it depends on the food: ask like \"how many oz is 1 cup flour\"."
		case from.Name == "oz" && to.Kind == grammar.Volume && to.Name != "oz":
			from, weighs = fluid, " Of ounces by weight it depends on the food: ask like \"4 oz flour in cups\"."
		}
	}
	if to.Kind != from.Kind || to.Amount == nil || from.Amount == nil || to.Kind != grammar.Volume && to.Kind != grammar.Weight {
		return "", false
	}
	n := new(big.Rat).Mul(amount.Quantity.Low, new(big.Rat).Quo(from.Amount, to.Amount))
	v, _ := n.Float64()
	said := amount.Quantity.String() + " " + from.Name
	if size, _ := amount.Quantity.Low.Float64(); size > 1 {
		said = amount.Quantity.String() + " " + manyOf(from.Name, size)
	}
	exact := exactly(v, to)
	if to.Name == "g" && v < 1000 && !n.IsInt() {
		exact = trimZero(v) + " g"
	} else if (isMetric(to) || to.Name == "kg") && !n.IsInt() {
		exact = decimals(v) + " " + to.Name
	}
	if of := nominalML[to.Name]; of > 0 && isMetric(from) { // "5 ml in tsp"
		nominal, _ := new(big.Rat).Mul(amount.Quantity.Low, new(big.Rat).Quo(from.Amount, big.NewRat(of, 1))).Float64()
		switch words := exactly(nominal, to); {
		case !isEven(nominal):
		case trimZero(nominal) == trimZero(v):
			return fmt.Sprintf("%s is %s.", said, words), true
		default:
			return fmt.Sprintf("%s is %s, at the %d ml of a kitchen %s (%s); by the US measure it is %s %s.", said, words, of, to.Name, nominalRule, trimZero(v), manyOf(to.Name, v)), true
		}
	}
	if of := nominalML[from.Name]; of > 0 && isMetric(to) { // "ml in a cup"
		nominal, _ := new(big.Rat).Mul(amount.Quantity.Low, new(big.Rat).Quo(big.NewRat(of, 1), to.Amount)).Float64()
		if words := exactly(nominal, to); words != exact {
			return fmt.Sprintf("%s is %s; US labels count it as %s (%s).", said, exact, words, nominalRule), true
		}
	}
	return fmt.Sprintf("%s is %s.%s", said, exact, weighs), true
}

// isMetric reports a volume of the metric system.
func isMetric(m *grammar.Measure) bool {
	switch m.Name {
	case "ml", "cl", "dl", "l":
		return true
	}
	return false
}

// isEven reports a number of spoons or cups that a kitchen has a measure for.
func isEven(n float64) bool {
	for _, part := range []float64{1, 2, 3, 4, 8} {
		if at := n * part; at > 0.5 && math.Abs(at-math.Round(at)) < 1e-6 {
			return true
		}
	}
	return false
}

// gas writes a mark of a British gas oven in degrees: mark 1 is 275 °F, each more
// 25 °F.
func gas(mark string) (string, bool) {
	f := map[string]float64{"1/4": 225, "1/2": 250}[mark]
	if n, err := strconv.Atoi(mark); err == nil && n >= 1 && n <= 10 {
		f = 250 + 25*float64(n)
	}
	if f == 0 {
		return "", false
	}
	return fmt.Sprintf("Gas mark %s is %.0f °F, about %.0f °C.", mark, f, math.Round((f-32)/1.8/10)*10), true
}

// degrees writes a temperature in the other scale, to a whole degree and, of an
// oven, to what its dial has.
func degrees(number, from, to string) (string, bool) {
	v, err := strconv.ParseFloat(number, 64)
	scale := strings.ToUpper(from[:1])
	if err != nil || to != "" && strings.EqualFold(to[:1], scale) || to == "" && v < 100 { // "2 c" are cups
		return "", false
	}
	other, dial, is := "C", 10.0, (v-32)/1.8
	if scale == "C" {
		other, dial, is = "F", 25.0, v*1.8+32
	}
	is = math.Round(is)
	if is == 0 {
		is = 0 // not "-0"
	}
	out := fmt.Sprintf("%s °%s is %.0f °%s", trimZero(v), scale, is, other)
	hot := scale == "F" && v >= 225 || scale == "C" && v >= 110
	if near := math.Round(is/dial) * dial; hot && near != is && math.Abs(near-is) <= dial/2 {
		out += fmt.Sprintf(", on an oven's dial %.0f", near)
	}
	return out + ".", true
}

// bareAmount reads an amount that names a measure of volume or weight and no food.
func bareAmount(text string) *grammar.Term {
	line := grammar.ParseLine(text)
	if line.Fault != nil || len(line.Items) != 1 || line.Items[0].Amount == nil || len(line.Items[0].Words) > 0 || len(line.Items[0].Amount.Terms) != 1 {
		return nil
	}
	t := line.Items[0].Amount.Terms[0]
	if t.Measure == nil || t.Measure.Amount == nil || t.Quantity.Low == nil || t.Each != nil {
		return nil
	}
	return &t
}
