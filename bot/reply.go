package bot

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
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
  sodium under 400 mg / potassium / protein per 100 g
  scale to 24 / double it / 8x8 to 9x13
  baked / simmered 45 minutes / it weighed 1.4 kg cooked
  can I call it high in fibre / what can I claim / label / warnings
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
  potassium: banana vs orange
  how many grapes is 15 g carb / how many cups is 500 g flour
  is soy sauce gluten free`

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
	if unread(a) {
		s += ", of what is counted"
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
		for _, s := range byFood(a, w.nutrient) {
			if len(names) == 3 || covered > 0.85 && len(names) > 0 || s.share < 0.03 {
				break
			}
			covered += s.share
			names = append(names, fmt.Sprintf("%s %.0f %%", s.name, s.share*100))
		}
		most := "most"
		if unread(a) {
			most = "of what is counted most"
		}
		out = append(out, fmt.Sprintf("%s: %s from %s", sentence(w.nutrient.Name()), most, strings.Join(names, "; ")))
	}
	return append(out, oversalted(a)...)
}

// oversalted doubts the sodium of a serving that is more than two days' worth: an
// amount or a food was most likely misread.
func oversalted(a *engine.Analysis) []string {
	sodium := a.Per(fooddata.Sodium).Low
	daily, _ := fooddata.DailyValue(fooddata.Sodium)
	most := byFood(a, fooddata.Sodium)
	if !a.Known || sodium <= 2*daily || len(most) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Check the amount of %s: %s sodium in a serving is more than two Daily Values.", most[0].name, value(sodium, fooddata.Sodium))}
}

// foodShare is the share of a nutrient that all lines of one food bring together.
type foodShare struct {
	name  string
	share float64
}

// byFood adds up what the lines bring by their food, the most first.
func byFood(a *engine.Analysis, n fooddata.Nutrient) []foodShare {
	var shares []foodShare
	for _, s := range a.Brings(n) {
		name := a.Lines[s.Line].Food.Name()
		if at := slices.IndexFunc(shares, func(f foodShare) bool { return f.name == name }); at >= 0 {
			shares[at].share += s.Share
			continue
		}
		shares = append(shares, foodShare{name, s.Share})
	}
	slices.SortStableFunc(shares, func(a, b foodShare) int { return cmp.Compare(b.share, a.share) })
	return shares
}

// sentence begins s with a capital letter.
func sentence(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
