package engine

import (
	"math"
	"strconv"
	"strings"

	"pottle/fooddata"
)

// band is one row of a rounding rule: how amounts up to its end are declared.
type band struct {
	to        float64 // the end of the band, in the unit of the nutrient
	including bool    // whether the end itself belongs to it
	step      float64 // declared to the nearest of these; 0 means as zero
	text      string  // declared in words instead: "less than 5"
}

// The rounding rules of 21 CFR 101.9(c), as shown in Appendix H of FDA's Food
// Labeling Guide. Zero and "less than" are permissions of the regulation,
// which are used here; the steps are duties.
var (
	caloriesRule    = []band{{to: 5}, {to: 50, including: true, step: 5}, {to: math.Inf(1), step: 10}}           // (c)(1)
	fatRule         = []band{{to: 0.5}, {to: 5, step: 0.5}, {to: math.Inf(1), step: 1}}                          // (c)(2)
	cholesterolRule = []band{{to: 2}, {to: 5, including: true, text: "less than 5"}, {to: math.Inf(1), step: 5}} // (c)(3)
	sodiumRule      = []band{{to: 5}, {to: 140, including: true, step: 5}, {to: math.Inf(1), step: 10}}          // (c)(4)
	gramRule        = []band{{to: 0.5}, {to: 1, text: "less than 1"}, {to: math.Inf(1), step: 1}}                // (c)(6), (c)(7)
)

// labelRules are the rules of the nutrients that are declared, vitamins and
// minerals apart.
var labelRules = map[fooddata.Nutrient][]band{
	fooddata.Energy: caloriesRule,
	fooddata.Fat:    fatRule, fooddata.SaturatedFat: fatRule, fooddata.TransFat: fatRule,
	fooddata.MonounsaturatedFat: fatRule, fooddata.PolyunsaturatedFat: fatRule,
	fooddata.Cholesterol: cholesterolRule, fooddata.Sodium: sodiumRule,
	fooddata.Carbohydrate: gramRule, fooddata.Fibre: gramRule, fooddata.Sugars: gramRule, fooddata.AddedSugars: gramRule,
	fooddata.Protein: gramRule,
}

// percentSteps are the rounding of the share of the Daily Value of vitamins
// and minerals, potassium among them, in per cent: 21 CFR 101.9(c)(8)(iii).
var percentSteps = []band{{to: 2}, {to: 10, including: true, step: 2}, {to: 50, including: true, step: 5}, {to: math.Inf(1), step: 10}}

// microStep returns the step to which the amount of a vitamin or mineral with
// the given Reference Daily Intake is declared. 21 CFR 101.9(c)(8)(iii) asks
// for the units and the significance of the table of intakes; the steps are
// those of FDA's guidance on it (the two upper ones from memory). A hundredth
// is allowed where a tenth is more than 2 % of the intake.
func microStep(intake float64) float64 {
	switch {
	case intake < 5:
		return 0.01
	case intake < 25:
		return 0.1
	case intake < 250:
		return 1
	case intake < 500:
		return 5
	}
	return 10
}

// withoutNoise takes the noise of float64 off a figure, so that what stands on a
// threshold or half way between two steps is seen to stand there.
func withoutNoise(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// toStep rounds v to the nearest multiple of step, half way up.
func toStep(v, step float64) float64 { return withoutNoise(math.Round(withoutNoise(v/step)) * step) }

// roundBy returns the rounded figure by the first band that v falls into, or
// the words that stand for it.
func roundBy(bands []band, v float64) (rounded float64, text string) {
	v = withoutNoise(v)
	for _, b := range bands {
		if v > b.to || v == b.to && !b.including {
			continue
		}
		if b.text != "" || b.step == 0 {
			return 0, b.text
		}
		return toStep(v, b.step), ""
	}
	return v, ""
}

// Declared returns how an amount of n, in the unit of n, is declared by 21 CFR
// 101.9(c): "250 kcal", "4.5 g", "less than 5 mg". Vitamins and minerals are
// declared by their amount even below 2 % of the Daily Value, where a zero
// would be allowed too. It returns "" for a nutrient that a declaration does
// not have and for an amount that is no amount.
func Declared(n fooddata.Nutrient, amount float64) string {
	rule := labelRule(n)
	if rule == nil || !isAmount(amount) {
		return ""
	}
	v, text := roundBy(rule, amount)
	if text == "" {
		text = WithCommas(strconv.FormatFloat(v, 'f', -1, 64))
	}
	return text + " " + n.Unit()
}

// labelRule returns the rounding rule for n, or nil.
func labelRule(n fooddata.Nutrient) []band {
	if rule, ok := labelRules[n]; ok {
		return rule
	}
	if intake, ok := fooddata.DailyValue(n); ok {
		return []band{{to: math.Inf(1), step: microStep(intake)}}
	}
	return nil
}

func isAmount(v float64) bool { return v >= 0 && !math.IsInf(v, 1) }

// DeclaredPercent returns the share of the Daily Value that is declared for an
// amount of n, in per cent: to the nearest 1 % where 21 CFR 101.9(c)(9) sets
// the Daily Value (d)(7)(ii), in steps of 2, 5 and 10 % for vitamins and
// minerals (c)(8)(iii). It is worked out from the actual amount, which the
// regulation allows as well as from the declared one; but what is declared as
// zero has 0 %. ok is false where there is no Daily Value, and for protein,
// whose share goes by its quality (c)(7), which is not known here.
func DeclaredPercent(n fooddata.Nutrient, amount float64) (percent int, ok bool) {
	dv, ok := fooddata.DailyValue(n)
	if !ok || n == fooddata.Protein || !isAmount(amount) {
		return 0, false
	}
	share := amount / dv * 100
	rule, reference := labelRules[n]
	if !reference {
		v, _ := roundBy(percentSteps, share)
		return int(v), true
	}
	if v, text := roundBy(rule, amount); v == 0 && text == "" {
		return 0, true
	}
	return int(toStep(share, 1)), true
}

// LabelLine is one line of a declaration.
type LabelLine struct {
	Name    string // "Fibre"
	Amount  string // as declared: "less than 5 mg"; "not known" where there is no figure
	Percent string // of the Daily Value, "12%"; "" where none is declared
	Indent  int    // 0 for a whole, 1 for its part, 2 for a part of that
	AtLeast bool   // something that may show is not in the amount
}

// declaration is what a Nutrition Facts declaration has to hold (21 CFR
// 101.9(c)), in our own order and words.
var declaration = []struct {
	nutrient fooddata.Nutrient
	name     string
	indent   int
}{
	{fooddata.Energy, "Calories", 0},
	{fooddata.Carbohydrate, "Carbohydrate", 0},
	{fooddata.Fibre, "Fibre", 1},
	{fooddata.Sugars, "Sugars", 1},
	{fooddata.AddedSugars, "added", 2},
	{fooddata.Protein, "Protein", 0},
	{fooddata.Fat, "Fat", 0},
	{fooddata.SaturatedFat, "Saturated", 1},
	{fooddata.TransFat, "Trans", 1},
	{fooddata.Cholesterol, "Cholesterol", 0},
	{fooddata.Sodium, "Sodium", 0},
	{fooddata.Potassium, "Potassium", 0},
	{fooddata.Calcium, "Calcium", 0},
	{fooddata.Iron, "Iron", 0},
	{fooddata.VitaminD, "Vitamin D", 0},
}

// Label returns the figures of one serving rounded as for a Nutrition Facts
// declaration: the servings, the weight of one, then the nutrients. It is a
// reckoning from a recipe, not a label that complies with the law.
func (a *Analysis) Label() []LabelLine {
	open := !a.allWeighed()
	lines := []LabelLine{
		{Name: "Servings", Amount: "not known"},
		{Name: "One serving", Amount: "not known"},
	}
	if a.Known {
		lines[0].Amount = declaredServings(a.Servings)
		if a.Grams.Low > 0 {
			lines[1].Amount, lines[1].AtLeast = declaredGrams(a.Grams.Low/a.Servings), open
		}
	} else {
		lines[1] = LabelLine{Name: "The whole recipe", Amount: declaredGrams(a.Grams.Low), AtLeast: open}
	}
	for _, d := range declaration {
		lines = append(lines, a.labelLine(d.nutrient, d.name, d.indent))
	}
	return lines
}

func (a *Analysis) labelLine(n fooddata.Nutrient, name string, indent int) LabelLine {
	l := LabelLine{Name: name, Indent: indent}
	low := a.Per(n).Low
	l.Amount = Declared(n, low)
	// What is missing is marked unless the figure is the same with all of it.
	m := a.missing(n)
	l.AtLeast = len(m.open) > 0 || Declared(n, low+m.bound/a.Servings) != l.Amount
	if l.AtLeast {
		if v, _ := roundBy(labelRule(n), low); v == 0 { // "at least less than 1 g" says nothing
			l.Amount = "not known"
			return l
		}
	}
	if p, ok := DeclaredPercent(n, low); ok {
		l.Percent = strconv.Itoa(p) + "%"
	}
	return l
}

// declaredServings writes the number of servings by 21 CFR 101.9(b)(8): whole,
// between 2 and 5 in halves, "about" where rounded (from memory).
func declaredServings(servings float64) string {
	step := 1.0
	if servings > 2 && servings < 5 {
		step = 0.5
	}
	v := toStep(servings, step)
	s := WithCommas(strconv.FormatFloat(v, 'f', -1, 64))
	if v != withoutNoise(servings) {
		s = "about " + s
	}
	return s
}

// declaredGrams writes the weight of a serving by 21 CFR 101.9(b)(7): whole
// grams, halves from 2 to 5 g, tenths below 2 g (from memory).
func declaredGrams(g float64) string {
	step := 1.0
	switch g = withoutNoise(g); {
	case g < 2:
		step = 0.1
	case g <= 5:
		step = 0.5
	}
	return WithCommas(strconv.FormatFloat(toStep(g, step), 'f', -1, 64)) + " g"
}

// WithCommas sets commas in a written number of four digits or more.
func WithCommas(s string) string {
	whole, rest, found := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0 && whole[i-1] != '-'; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if found {
		return whole + "." + rest
	}
	return whole
}
