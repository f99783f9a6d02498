package bot

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// The rules of speech: plain words, short sentences, no colour, emoji or
// symbol that carries meaning by itself. Say the figure, then what it rests
// on, then how to change it. Nothing that is not counted goes unsaid.

// Reminder stands at the end of every reply.
const Reminder = "Estimates from food tables, not a label and not medical advice. The client's own care team decides."

const help = `Paste a recipe, a line for each ingredient, to get what a serving holds. Then:
  servings 6 / line 3 is 2% milk / line 3 is 120 g / lines
  use plain yogurt instead of sour cream / half the sugar / drop the bacon
  add 1/2 cup barley / salt 1/2 tsp / undo / what changed
  compare with the original / what brings the sodium
  suggest / cut sodium / more fibre / apply 1
  what can replace buttermilk / make it vegetarian
  fit 45 g carbohydrate / how much cheese for at most 350 kcal
  scale to 24 / double it / 8x8 to 9x13
  baked / simmered 45 minutes / it weighed 1.4 kg cooked
  can I call it high in fibre / label / warnings
  target carb-45: carbohydrate at most 45 g / check carb-45
What the team keeps:
  save as barley soup / open barley soup / list / history of barley soup
  find recipes under 400 mg sodium / tag soup / delete barley soup
  our milk is skim / always show phosphorus / settings
  add food: oat bar, 40 g: 150 kcal, fat 5 g, sodium 95 mg
  forget everything about this conversation
Or ask about one food:
  how many grams is 1/3 cup packed brown sugar
  sodium in 1/4 tsp salt
  carb choices in 1 cup cooked rice
  1 medium banana
  potassium: banana vs orange`

const noIngredients = "No ingredient line was found. Paste the recipe with a line for each ingredient, such as \"1 cup cooked lentils\"."

// RecipeReply is the reply to a recipe that was worked out, without the
// reminder; more are figures to show beside the usual ones.
func RecipeReply(a *engine.Analysis, more ...fooddata.Nutrient) string {
	counted, of := a.Counted()
	switch {
	case of == 0:
		return noIngredients
	case counted == 0:
		return "Nothing could be counted, so there are no figures.\n\n" + strings.Join(notInFigures(a), "\n")
	}
	parts := []string{head(a), block(a, more...)}
	for _, rest := range [][]string{energy(a), brings(a), asked(a), assumed(a), left(a), open(a), notes(a)} {
		if len(rest) > 0 {
			parts = append(parts, strings.Join(rest, "\n"))
		}
	}
	return strings.Join(parts, "\n\n")
}

// head names the dish and what a serving is.
func head(a *engine.Analysis) string {
	title := a.Title
	if title == "" {
		title = "Recipe"
	}
	weight := gramsOf(a.Grams.Low / a.Servings)
	if !a.Known {
		return fmt.Sprintf("%s\nThe number of servings is not given: these are the figures of the whole recipe, %s g as assembled. How many does it serve? Say \"servings 6\".", title, weight)
	}
	if a.Servings == 1 {
		return fmt.Sprintf("%s\n1 serving, %s g as assembled", title, weight)
	}
	return fmt.Sprintf("%s\n%s, each %s g as assembled", title, servingsText(a.Servings), weight)
}

// portion is what the figures are of: "a serving", or "the whole recipe" where it
// is not known how many it serves.
func portion(a *engine.Analysis) string {
	if a.Known {
		return "a serving"
	}
	return "the whole recipe"
}

// servingsText writes "6 servings", or "about 11 servings" where a change of pan
// leaves no whole number.
func servingsText(n float64) string {
	switch whole := math.Round(n); {
	case n == 1:
		return "1 serving"
	case math.Abs(n-whole) < 1e-9 || n < 3:
		return trimZero(n) + " servings"
	default:
		return fmt.Sprintf("about %.0f servings", whole)
	}
}

func trimZero(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", v), "0"), ".")
}

func energy(a *engine.Analysis) []string {
	c, p, f, alcohol, ok := a.EnergyShares()
	if !ok {
		return nil
	}
	s := fmt.Sprintf("Energy from carbohydrate %.0f %%, protein %.0f %%, fat %.0f %%", c*100, p*100, f*100)
	if alcohol >= 0.005 {
		s += fmt.Sprintf(", alcohol %.0f %%", alcohol*100)
	}
	return []string{s + "."}
}

// worthNaming is the least of a nutrient in a serving, in its unit, for which
// it is said where it comes from.
var worthNaming = []struct {
	nutrient fooddata.Nutrient
	least    float64
}{
	{fooddata.Energy, 1}, {fooddata.Sodium, 20}, {fooddata.AddedSugars, 0.5}, {fooddata.SaturatedFat, 0.3},
}

// brings says which lines bring most of what is watched.
func brings(a *engine.Analysis) []string {
	var out []string
	for _, w := range worthNaming {
		if a.Per(w.nutrient).Low < w.least {
			continue
		}
		var names []string
		covered := 0.0
		for _, s := range a.Brings(w.nutrient) {
			if len(names) == 3 || covered > 0.85 && len(names) > 0 || s.Share < 0.03 {
				break
			}
			covered += s.Share
			names = append(names, fmt.Sprintf("%s %.0f %%", a.Lines[s.Line].Food.Name(), s.Share*100))
		}
		out = append(out, fmt.Sprintf("%s: most from %s", sentence(w.nutrient.Name()), strings.Join(names, "; ")))
	}
	return out
}

// ordinals numbers the ingredient lines from 1, as "line 3" counts them.
func ordinals(a *engine.Analysis) []int {
	ns := make([]int, len(a.Lines))
	n, last := 0, -1
	for i := range a.Lines {
		if a.Lines[i].Kind == grammar.Ingredient {
			if a.Lines[i].Number != last {
				n, last = n+1, a.Lines[i].Number
			}
			ns[i] = n
		}
	}
	return ns
}

// asked lists the lines that pottle must ask about.
func asked(a *engine.Analysis) []string {
	ns := ordinals(a)
	var out []string
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Ask {
			out = append(out, fmt.Sprintf("line %d  %s: %s.%s", ns[i], l.Text, l.Why, didYouMean(l)))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return append([]string{"Not in the figures until you say what is meant:"}, append(out,
		fmt.Sprintf("Say for instance \"line %s is %s\".", firstNumber(out), example(a)))...)
}

func firstNumber(out []string) string { return strings.Fields(out[0])[1] }

// example is an answer that would settle the first line asked about.
func example(a *engine.Analysis) string {
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Ask {
			switch {
			case l.Reason == engine.AskAmount && !l.Food.IsZero():
				return exampleAmount(l.Food)
			case len(l.Choices) > 0 && l.Item.Amount != nil:
				return l.Choices[0].Name()
			}
			return "left out"
		}
	}
	return ""
}

// exampleAmount is an amount that a kitchen would use of a food: a spoonful of
// salt, of a seasoning, or of oil.
func exampleAmount(f fooddata.Food) string {
	switch sodium, _ := f.Per100g(fooddata.Sodium).Value(); {
	case sodium > 3000, f.Group() == "Spices and Herbs":
		return "1/2 tsp"
	case f.Group() == "Fats and Oils":
		return "1 tbsp"
	}
	return "200 g"
}

func didYouMean(l *engine.Line) string {
	if len(l.Choices) == 0 || l.Reason != engine.AskFood {
		return ""
	}
	return " Is it " + orList(l.Choices, 3) + "?"
}

// orList writes up to most names: "a; b; or c". Names hold commas.
func orList(foods []fooddata.Food, most int) string {
	var names []string
	for _, f := range foods[:min(most, len(foods))] {
		names = append(names, f.Name())
	}
	switch n := len(names); n {
	case 1:
		return names[0]
	case 2:
		return names[0] + " or " + names[1]
	default:
		return strings.Join(names[:n-1], "; ") + "; or " + names[n-1]
	}
}

// assumed lists what was assumed, line by line.
func assumed(a *engine.Analysis) []string {
	ns := ordinals(a)
	var out []string
	example := ""
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Status != engine.Counted || len(l.Assumed) == 0 {
			continue
		}
		s := fmt.Sprintf("line %d  %s: %s, %s", ns[i], itemName(l), l.Food.Name(), grams(l.Grams))
		var said []string
		for _, note := range l.Assumed {
			if note != "taken as "+l.Food.Name() {
				said = append(said, note)
			}
		}
		if len(said) > 0 {
			s += "; " + strings.Join(said, "; ")
		}
		if slices.Contains(l.Assumed, "taken as "+l.Food.Name()) && len(l.Choices) > 0 {
			s += "; or " + orList(l.Choices, 3)
			if example == "" {
				example = fmt.Sprintf("line %d is %s", ns[i], l.Choices[0].Name())
			}
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil
	}
	if example == "" {
		example = fmt.Sprintf("line %s is 120 g", strings.Fields(out[0])[1])
	}
	return append([]string{"Assumed:"}, append(out, fmt.Sprintf("To correct one, say \"%s\".", example))...)
}

// itemName is how the line calls its food.
func itemName(l *engine.Line) string {
	if len(l.Item.Words) == 0 {
		return l.Text
	}
	return strings.Join(l.Item.Words, " ")
}

// left lists what is not counted.
func left(a *engine.Analysis) []string {
	var out []string
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.NotCounted {
			out = append(out, fmt.Sprintf("%s (%s)", itemName(l), l.Why))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return []string{"Not counted: " + strings.Join(out, ", ") + "."}
}

// notInFigures lists what stands outside the figures, each with its reason.
func notInFigures(a *engine.Analysis) []string {
	return slices.Concat(asked(a), left(a))
}

// mostChanges is how many open readings are worked out in a reply.
const mostChanges = 5

// open says what the readings left open would change in a serving.
func open(a *engine.Analysis) []string {
	var out []string
	for _, c := range a.Changes {
		if len(out) == mostChanges {
			break
		}
		if d := delta(c); d != nothing {
			out = append(out, fmt.Sprintf("%s: %s", sentence(c.What), d))
		}
	}
	return out
}

// delta writes what changes: always energy, the others where it shows.
func delta(c engine.Change) string {
	parts := []string{signed(c.Delta[fooddata.Energy], fooddata.Energy)}
	for _, w := range []struct {
		n     fooddata.Nutrient
		least float64
		name  string
	}{{fooddata.Carbohydrate, 0.5, "carbohydrate"}, {fooddata.AddedSugars, 0.5, "added sugars"}, {fooddata.Fat, 0.5, "fat"}, {fooddata.SaturatedFat, 0.3, "saturated fat"},
		{fooddata.Sodium, 10, "sodium"}, {fooddata.Potassium, 50, "potassium"}} {
		if d := c.Delta[w.n]; d >= w.least || d <= -w.least {
			parts = append(parts, signed(d, w.n)+" "+w.name)
		}
	}
	return strings.Join(parts, ", ")
}

// nothing is a change that does not show.
var nothing = "+" + value(0, fooddata.Energy)

func signed(v float64, n fooddata.Nutrient) string {
	if v < 0 && number(-v, n) != number(0, n) {
		return "-" + value(-v, n)
	}
	return "+" + value(max(v, 0), n)
}

func notes(a *engine.Analysis) []string {
	var out []string
	for _, n := range a.Notes {
		out = append(out, sentence(n)+".")
	}
	if len(a.Cooking) > 0 {
		how, _, _ := strings.Cut(a.Cooking[0], ";")
		out = append(out, sentence(how)+". Vitamins, minerals and alcohol are less for it by USDA retention factors; say \"cooking\" for each food.")
	}
	if gaps := gapNames(a); gaps != "" {
		out = append(out, "\"At least\": the table has no figure for "+gaps+".")
	}
	return out
}

// gapNames says which foods lack which of the figures shown.
func gapNames(a *engine.Analysis) string {
	var parts []string
	for _, r := range shown {
		if a.Complete(r.nutrient) {
			continue
		}
		var foods []string
		for _, i := range a.Recipe[r.nutrient].Gaps {
			if name := a.Lines[i].Food.Name(); !slices.Contains(foods, name) {
				foods = append(foods, name)
			}
		}
		more := ""
		if len(foods) > 3 {
			more = fmt.Sprintf(" and %d more", len(foods)-3)
			foods = foods[:3]
		}
		parts = append(parts, fmt.Sprintf("%s of %s%s", r.nutrient.Name(), strings.Join(foods, ", "), more))
	}
	return strings.Join(parts, "; ")
}

// linesReply lists every line with what it was taken for.
func linesReply(a *engine.Analysis) string {
	ns := ordinals(a)
	var out []string
	for i := range a.Lines {
		l := &a.Lines[i]
		switch {
		case l.Kind == grammar.Heading:
			out = append(out, l.Text)
		case l.Kind == grammar.Note:
		case l.Status == engine.Counted:
			kcal, _ := l.Has(fooddata.Energy)
			sodium, _ := l.Has(fooddata.Sodium)
			out = append(out, fmt.Sprintf("%d  %s\n   %s (%s), %s: %s, %s sodium", ns[i], l.Text, l.Food.Name(), l.Food.Source(), grams(l.Grams),
				value(kcal.Low, fooddata.Energy), value(sodium.Low, fooddata.Sodium)))
		case l.Status == engine.NotCounted:
			out = append(out, fmt.Sprintf("%d  %s\n   not counted: %s", ns[i], l.Text, l.Why))
		default:
			out = append(out, fmt.Sprintf("%d  %s\n   asked: %s", ns[i], l.Text, l.Why))
		}
	}
	return "Figures of each line in the whole recipe:\n" + strings.Join(out, "\n")
}

// sentence begins s with a capital letter.
func sentence(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
