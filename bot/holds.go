package bot

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// How much of a food holds so much of a nutrient, and one measure in another.

// mostHeld is the most of a food, in grams, that is told to hold an amount: more
// is nobody's portion.
const mostHeld = 3000

// nutrientAmount is an amount of a nutrient: "15 g carbohydrate", "200 calories",
// "1 carb choice".
type nutrientAmount struct {
	nutrient fooddata.Nutrient
	amount   float64 // in the unit of the nutrient
	said     string
	words    string // that name the nutrient
}

// amountOfNutrient reads a text that is an amount of a nutrient and nothing else.
func amountOfNutrient(text string) (nutrientAmount, bool) {
	line := grammar.ParseLine(text)
	if line.Fault != nil || len(line.Items) != 1 || line.Items[0].Amount == nil || len(line.Items[0].Amount.Terms) != 1 || len(line.Items[0].Words) == 0 {
		return nutrientAmount{}, false
	}
	t, words := line.Items[0].Amount.Terms[0], slices.Clone(line.Items[0].Words)
	if t.Each != nil || t.Quantity.Low == nil || t.Quantity.IsRange() || t.Quantity.Low.Sign() <= 0 {
		return nutrientAmount{}, false
	}
	v, _ := t.Quantity.Low.Float64()
	unit := ""
	switch {
	case t.Measure != nil && t.Measure.Kind == grammar.Weight:
		grams, _ := new(big.Rat).Mul(t.Quantity.Low, t.Measure.Amount).Float64()
		v, unit = grams*1000, "mg"
	case t.Measure != nil:
		return nutrientAmount{}, false
	default:
		switch first := strings.ToLower(words[0]); first {
		case "µg", "mcg", "ug", "micrograms", "microgram":
			v, unit, words = v/1000, "mg", words[1:]
		case "kj", "kilojoules":
			v, unit, words = v/kJPerKcal, "kcal", append([]string{"energy"}, words[1:]...)
		case "iu":
			unit, words = "IU", words[1:]
		}
	}
	if len(words) > 1 && words[0] == "of" {
		words = words[1:]
	}
	a := nutrientAmount{said: text, words: strings.Join(words, " ")}
	if last := fooddata.Singular(strings.ToLower(words[max(len(words)-1, 0)])); unit == "" && (last == "choice" || last == "exchange") {
		a.nutrient, a.amount = fooddata.Carbohydrate, 15*v
		return a, true
	}
	n, ok := nutrientNamed(a.words)
	a.nutrient = n
	switch {
	case !ok:
		return a, false
	case unit == "mg" && inMg[n.Unit()] > 0:
		a.amount = v / inMg[n.Unit()]
	case unit == "IU" && n == fooddata.VitaminD:
		a.amount = v / iuPerµg
	case unit == "" && (n == fooddata.Energy || n == fooddata.Carbohydrate), unit == "kcal" && n == fooddata.Energy:
		a.amount = v
	default:
		return a, false
	}
	if n == fooddata.Sodium && strings.EqualFold(a.words, "salt") {
		a.amount /= saltOfSodium
	}
	return a, true
}

// alsoFoods are words that name a food as well as a nutrient: an amount of them is
// one of the food where a nutrient of it is asked for.
var alsoFoods = map[string]bool{"salt": true, "sugar": true, "sugars": true, "fat": true, "alcohol": true, "water": true, "lactose": true, "starch": true}

// holds answers "how many grapes is 15 g carb", "how many cups is 500 g flour".
// What is asked for is a measure, a food, a measure of a food or a nutrient.
func (c *Conversation) holds(r grammar.Request, text string) string {
	amount, isNutrient := amountOfNutrient(r.Amounts[0])
	what := grammar.ParseLine("1 " + r.Food)
	var measure *grammar.Measure
	food := r.Food
	if len(what.Items) == 1 && what.Items[0].Amount != nil && what.Fault == nil {
		measure, food = what.Items[0].Amount.Terms[0].Measure, strings.Join(what.Items[0].Words, " ")
		if food != "" {
			food = strings.TrimPrefix(strings.TrimSpace(withoutMeasure(r.Food, measure)), "of ")
		}
	}
	if m, ok := grammar.MeasureNamed(r.Food); ok {
		measure, food = m, ""
	}
	if amount, of, found := strings.Cut(r.Amounts[0], " of "); found && measure != nil && food == "" { // "how many teaspoons in 1500 mg sodium of salt"
		if a, ok := amountOfNutrient(amount); ok {
			if l := c.eaten(of); l.Status == engine.Counted {
				return c.howMuchHolds(a, of, l, measure)
			}
		}
	}
	f, isFigure := figureAsked(r.Food, "")
	switch {
	case isNutrient && strings.EqualFold(r.Food, "salt") && amount.nutrient == fooddata.Sodium && !alsoFoods[strings.ToLower(amount.words)]:
		return c.saltOf(amount)
	case isFigure && (!isNutrient || alsoFoods[strings.ToLower(amount.words)]):
		return c.nutrientOf(f, r.Amounts[0])
	case isNutrient && food != "":
		if l := c.eaten(food); l.Status == engine.Counted {
			return c.howMuchHolds(amount, food, l, measure)
		} else if r.Else == nil {
			return unclear(&l)
		}
	case measure != nil && food == "":
		return c.inMeasure(r.Amounts[0], measure)
	case !isNutrient && food != "" && r.Else == nil:
		return c.inPieces(r.Amounts[0], food, measure)
	}
	if r.Else != nil {
		return c.quick(*r.Else, text)
	}
	return fmt.Sprintf("That is not understood. Ask like %q, %q or %q.", "how many grapes is 15 g carbohydrate", "how many cups is 500 g flour", "sodium in 1 tsp soy sauce")
}

// withoutMeasure drops the measure at the head of "teaspoons of salt".
func withoutMeasure(text string, m *grammar.Measure) string {
	if m == nil {
		return text
	}
	if _, rest, found := strings.Cut(text, " "); found {
		return rest
	}
	return text
}

// eaten resolves a food as it is eaten, a grain cooked; the amount is of no matter.
func (c *Conversation) eaten(food string) engine.Line {
	item := grammar.ParseLine(food)
	if len(item.Items) == 1 && item.Items[0].Amount == nil {
		if l := c.amount("1 cup " + food); l.Status == engine.Counted && strings.Contains(strings.Join(l.Assumed, " "), "taken as cooked") {
			return l
		}
		return c.amount("100 g " + food)
	}
	return c.amount(food)
}

// howMuchHolds solves for the amount of a food that holds so much of a nutrient,
// in grams and, where there is a portion, in pieces or cups, or in the measure
// that was asked for.
func (c *Conversation) howMuchHolds(a nutrientAmount, food string, l engine.Line, measure *grammar.Measure) string {
	have, ok := l.Has(a.nutrient)
	if !ok {
		return fmt.Sprintf("The table has no figure for %s in %s: unknown, not none.\n%s", a.nutrient.Name(), l.Food.Name(), basis(&l))
	}
	if have.Low <= 0 {
		return fmt.Sprintf("%s brings no %s by the table, so no amount of it holds that.\n%s", sentence(l.Food.Name()), a.nutrient.Name(), basis(&l))
	}
	weight := a.amount / (have.Low / l.Grams.Low)
	per100 := value(have.Low/l.Grams.Low*100, a.nutrient)
	rests := fmt.Sprintf("%s, %s in 100 g (%s)%s.", sentence(l.Food.Name()), withName(per100, a.nutrient), l.Food.Source(), assumedNotes(&l))
	if weight > mostHeld {
		return fmt.Sprintf("It would take %s kg of %s: not an amount that is eaten.\n%s", trimZero(weight/1000), food, rests)
	}
	out := fmt.Sprintf("%s of %s: %s g", sentence(named(a.amount, a.nutrient)), food, gramsOf(weight))
	if ways := c.otherWays(food, l.Food, weight, measure); len(ways) > 0 {
		out += ", " + strings.Join(ways, " or ")
	}
	return out + ".\n" + rests
}

func withName(v string, n fooddata.Nutrient) string {
	if n == fooddata.Energy {
		return v
	}
	return v + " " + n.Name()
}

// assumedNotes are what a line assumed of its food, not of its amount.
func assumedNotes(l *engine.Line) string {
	var notes []string
	for _, note := range l.Assumed {
		switch {
		case note == "taken as "+l.Food.Name():
			note = "taken as the usual kind"
			if len(l.Choices) > 0 {
				note += "; other kinds: " + orList(l.Choices, 4)
			}
		case strings.HasPrefix(note, "measured as"), strings.HasPrefix(note, "weighs"):
			continue
		}
		notes = append(notes, note)
	}
	if len(notes) == 0 {
		return ""
	}
	return "; " + strings.Join(notes, "; ")
}

// otherWays says a weight of a food in pieces and in cups, where a portion of the
// same food is known.
func (c *Conversation) otherWays(food string, is fooddata.Food, weight float64, measure *grammar.Measure) []string {
	if measure != nil {
		if one := c.oneOf(food, measure); one.Status == engine.Counted && one.Food == is && one.Grams.Low > 0 {
			return []string{exactly(weight/one.Grams.Low, measure)}
		}
		return nil
	}
	var ways []string
	one := c.amount("1 " + food)
	if slices.Contains(fooddata.Normalise(is.Name()), "juice") { // that of one fruit is no piece
		one = engine.Line{}
	}
	if one.Status == engine.Counted && one.Food == is && one.Item.Amount != nil && one.Item.Amount.Terms[0].Measure == nil {
		if n := weight / one.Grams.Low; n >= 0.2 {
			ways = append(ways, fmt.Sprintf("about %s at %s g each", pieces(n), gramsOf(one.Grams.Low)))
		}
	}
	for _, name := range []string{"cup", "tbsp", "tsp"} {
		m, _ := grammar.MeasureNamed(name)
		if way, ok := c.way(food, is, weight, m); ok {
			return append(ways, way)
		}
	}
	if len(ways) == 0 && weight >= 20 {
		oz, _ := grammar.MeasureNamed("oz")
		per, _ := oz.Amount.Float64()
		ways = append(ways, exactly(weight/per, oz))
	}
	return ways
}

// way is a weight of a food in a measure; ok is false if none is known or it is
// less than the smallest part of it that is used.
func (c *Conversation) way(food string, is fooddata.Food, weight float64, m *grammar.Measure) (string, bool) {
	one := c.oneOf(food, m)
	if one.Status != engine.Counted || one.Food != is || one.Grams.Low <= 0 {
		return "", false
	}
	n := weight / one.Grams.Low
	if m.Name == "cup" && n < 0.24 || m.Name == "tbsp" && n < 0.9 {
		return "", false
	}
	return measured(n, m), true
}

// oneOf resolves one measure of a food.
func (c *Conversation) oneOf(food string, m *grammar.Measure) engine.Line {
	return c.amount("1 " + m.Name + " " + food)
}

// measured writes n of a measure as a kitchen has it: "about 3/4 cup".
func measured(n float64, m *grammar.Measure) string {
	q := new(big.Rat).SetFloat64(n)
	switch m.Name {
	case "cup", "tbsp", "tsp":
		amount := grammar.Amount{Terms: []grammar.Term{{Quantity: grammar.Quantity{Low: q, High: q}, Measure: m}}}
		_, words, off := engine.KitchenAmount(amount, false, engine.Nearest)
		if off > 0.005 || off < -0.005 {
			words = "about " + words
		}
		return words
	}
	if m.Kind == grammar.Volume || m.Kind == grammar.Weight {
		return exactly(n, m)
	}
	return "about " + pieces(n) + " " + manyOf(m.Name, n)
}

// exactly writes n of a measure, in that measure: "5 1/3 tbsp", "59 ml".
func exactly(n float64, m *grammar.Measure) string {
	for _, part := range []int64{1, 2, 3, 4, 8} {
		whole := math.Round(n * float64(part))
		if n < 20 && whole > 0 && math.Abs(n*float64(part)-whole) < 0.005*n*float64(part) {
			q := grammar.Exactly(int64(whole), part)
			return q.String() + " " + manyOf(m.Name, n)
		}
	}
	return decimals(n) + " " + manyOf(m.Name, n)
}

// manyOf is a measure's name for n of it.
func manyOf(name string, n float64) string {
	switch name {
	case "cup", "pint", "quart", "gallon", "metric cup", "imperial pint", "slice", "can", "stick", "clove", "piece", "jar", "tin", "bottle", "package", "head", "stalk", "rasher", "fillet", "scoop", "serving", "portion", "link", "ear":
		if n > 1.05 {
			return name + "s"
		}
	}
	return name
}

// decimals writes a number with about three figures.
func decimals(n float64) string {
	switch {
	case n >= 100:
		return engine.WithCommas(fmt.Sprintf("%.0f", n))
	case n >= 10:
		return trimZero(float64(int(n*10+0.5)) / 10)
	}
	return trimZero(n)
}

// pieces writes a number of pieces: whole ones from five on, else halves.
func pieces(n float64) string {
	if n >= 4.75 {
		return fmt.Sprintf("%.0f", n)
	}
	if n < 0.375 {
		return "1/4"
	}
	return choices(float64(int(n*2+0.5)) / 2)
}

// saltOf answers how much salt holds so much sodium, by the table and by a
// European label.
func (c *Conversation) saltOf(a nutrientAmount) string {
	l := c.amount("100 g salt")
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	have, _ := l.Has(fooddata.Sodium)
	weight := a.amount / have.Low * 100
	out := fmt.Sprintf("%s sodium: %s table salt", sentence(value(a.amount, fooddata.Sodium)), grams1(weight))
	tsp, _ := grammar.MeasureNamed("tsp")
	if one := c.oneOf("salt", tsp); one.Status == engine.Counted && weight/one.Grams.Low >= 0.06 {
		out += ", " + measured(weight/one.Grams.Low, tsp)
	}
	return fmt.Sprintf("%s; %s salt %s.\nSalt, %s sodium in 100 g (%s).", out, grams1(a.amount*saltOfSodium/1000), saltRule, value(have.Low, fooddata.Sodium), l.Food.Source())
}

// convert answers "1/4 cup in ml", "500 g flour in cups".
func (c *Conversation) convert(r grammar.Request) string {
	m, ok := grammar.MeasureNamed(r.Unit)
	if !ok {
		return fmt.Sprintf("%q is no measure that is known here.", r.Unit)
	}
	if a, isNutrient := amountOfNutrient(r.Amounts[0]); isNutrient && m.Kind == grammar.Weight && inMg[a.nutrient.Unit()] > 0 && !alsoFoods[strings.ToLower(a.words)] { // "1500 mg sodium in g"
		milligrams, _ := new(big.Rat).Mul(m.Amount, big.NewRat(1000, 1)).Float64()
		return fmt.Sprintf("%s is %s %s %s.", r.Amounts[0], decimals(a.amount*inMg[a.nutrient.Unit()]/milligrams), m.Name, a.nutrient.Name())
	}
	return c.inMeasure(r.Amounts[0], m)
}

// inMeasure writes an amount, of a food or of nothing, in another measure.
func (c *Conversation) inMeasure(text string, m *grammar.Measure) string {
	if bare := bareAmount(text); bare != nil {
		if bare.Measure.Kind == m.Kind && m.Amount != nil {
			n := new(big.Rat).Mul(bare.Quantity.Low, new(big.Rat).Quo(bare.Measure.Amount, m.Amount))
			v, _ := n.Float64()
			return fmt.Sprintf("%s is %s.", text, exactly(v, m))
		}
		return fmt.Sprintf("That depends on the food: ask like \"how many %s is %s flour\".", manyOf(m.Name, 2), text)
	}
	line := grammar.ParseLine(text)
	if of := ofStick(line, m); of != "" {
		return fmt.Sprintf("%s is %s: a US stick is marked as 1/2 cup, 8 tbsp.", sentence(text), of)
	}
	l := c.engine.Resolve(line.Items[0]) // as written: no cooking is read into a weight
	l.Text = text
	if l.Status != engine.Counted {
		return unclear(&l)
	}
	if m.Kind == grammar.Weight {
		per, _ := m.Amount.Float64()
		return fmt.Sprintf("%s is %s.\n%s", text, exactly(l.Grams.Low/per, m), basis(&l))
	}
	one := line.Items[0]
	amount := *grammar.ParseLine("1 cup salt").Items[0].Amount
	amount.Terms = []grammar.Term{{Quantity: grammar.Exactly(1, 1), Measure: m}}
	one.Amount = &amount
	of := c.engine.Resolve(one)
	of.Text = "1 " + m.Name
	if of.Status != engine.Counted {
		return unclear(&of)
	}
	said := exactly(l.Grams.Low/of.Grams.Low, m)
	if m.Kind != grammar.Volume {
		said = measured(l.Grams.Low/of.Grams.Low, m)
	}
	return fmt.Sprintf("%s is %s.\n%s\nOne %s: %s g.", text, said, basis(&l), m.Name, gramsOf(of.Grams.Low))
}

// ofStick is what sticks of butter or margarine are in a measure of volume: half a
// cup each, by the marks of the wrapper.
func ofStick(line grammar.Line, m *grammar.Measure) string {
	a := line.Items[0].Amount
	if line.Fault != nil || len(line.Items) != 1 || a == nil || len(a.Terms) != 1 || a.Terms[0].Measure == nil || a.Terms[0].Measure.Name != "stick" || m.Kind != grammar.Volume {
		return ""
	}
	words := line.Items[0].Words
	if last := len(words) - 1; last < 0 || words[last] != "butter" && words[last] != "margarine" {
		return ""
	}
	cup, _ := grammar.MeasureNamed("cup")
	n, _ := new(big.Rat).Mul(a.Terms[0].Quantity.Low, new(big.Rat).Quo(new(big.Rat).Mul(cup.Amount, big.NewRat(1, 2)), m.Amount)).Float64()
	return exactly(n, m)
}

// inPieces answers "how many eggs is 100 g", "how many slices of bread is 90 g".
func (c *Conversation) inPieces(amount, food string, measure *grammar.Measure) string {
	text := amount
	if bareAmount(amount) != nil {
		text += " " + food
	}
	one := "1 " + food
	if measure != nil {
		one = "1 " + measure.Name + " " + food
	}
	return c.piecesIn(text, one, measure, isBought(amount))
}

// boughtGrams is the weight from which a question how many are in it is about what
// is bought, raw and whole: half a pound.
const boughtGrams = 226

// isBought reports whether a weight alone is one that is bought.
func isBought(amount string) bool {
	t := bareAmount(amount)
	if t == nil || t.Measure.Kind != grammar.Weight {
		return false
	}
	v, _ := new(big.Rat).Mul(t.Quantity.Low, t.Measure.Amount).Float64()
	return v >= boughtGrams
}

// asBought resolves an amount as it is bought: raw, and with what is thrown away
// taken off its weight where that is much.
func (c *Conversation) asBought(text string) engine.Line {
	line := grammar.ParseLine(text)
	if line.Fault != nil || len(line.Items) != 1 {
		return c.amount(text)
	}
	l := c.engine.Resolve(line.Items[0])
	if slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.HasPrefix(s, "weight taken as edible; as bought") }) {
		if whole := c.engine.Resolve(grammar.ParseLine(text + ", as bought").Items[0]); whole.Status == engine.Counted && whole.Food == l.Food {
			l = whole
		}
	}
	l.Text = text
	return l
}

// manyIn answers "how many carrots in a pound", "how many eggs in a dozen"; ok is
// false where the amount is none of weight, volume or dozens.
func (c *Conversation) manyIn(food, amount string) (answer string, ok bool) {
	if m := dozens.FindStringSubmatch(strings.TrimSpace(amount)); m != nil {
		n := grammar.ParseLine(m[1] + " salt")
		if len(n.Items) != 1 || n.Fault != nil || n.Items[0].Amount == nil || n.Items[0].Amount.Terms[0].Quantity.Low == nil {
			return "", false
		}
		of := new(big.Rat).Mul(n.Items[0].Amount.Terms[0].Quantity.Low, big.NewRat(12, 1))
		return fmt.Sprintf("%s is %s.", sentence(strings.TrimSpace(amount)), grammar.Quantity{Low: of, High: of}), true
	}
	one := c.amount("1 " + food)
	if bareAmount(amount) == nil || one.Status != engine.Counted {
		return "", false
	}
	return c.inPieces(amount, food, nil), true
}

// dozens is "a dozen", "2 dozen".
var dozens = regexp.MustCompile(`(?i)^(an?|one|two|three|half an?|\d+(?:[./]\d+)?|[½]) dozens?$`)

// piecesIn says how many of one piece or measure are in all.
func (c *Conversation) piecesIn(text, single string, measure *grammar.Measure, bought bool) string {
	one, all := c.amount(single), c.amount(text)
	if bought {
		one, all = c.asBought(single), c.asBought(text)
	}
	for _, l := range []*engine.Line{&one, &all} {
		if l.Status != engine.Counted {
			return unclear(l)
		}
	}
	if one.Food != all.Food {
		return fmt.Sprintf("%s and %s are not the same food.", sentence(one.Food.Name()), all.Food.Name())
	}
	if measure != nil {
		return fmt.Sprintf("%s is %s.\n%s", text, measured(all.Grams.Low/one.Grams.Low, measure), basis(&one))
	}
	told := basis(&one)
	if bought {
		told = basis(&all)
	}
	return fmt.Sprintf("%s is about %s at %s g each.\n%s", text, pieces(all.Grams.Low/one.Grams.Low), gramsOf(one.Grams.Low), told)
}
