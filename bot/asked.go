package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

const noInsulin = "pottle gives no insulin doses, nor any rule for them: a dose is for the client's own prescriber. What can be had here is the carbohydrate, such as \"carbs in 1 cup cooked rice\", or that of a serving of a recipe."

const noClearance = "pottle clears no dish for anybody: that is for the client's own care team, with the labels in hand."

// asksOf are the words by which people ask for an allergen, and what the caution
// that tells of it is called.
var asksOf = []struct {
	words  []string
	called []string
}{
	{[]string{"peanut", "peanuts"}, []string{"peanuts"}},
	{[]string{"nut", "nuts"}, []string{"tree nuts", "peanuts"}},
	{[]string{"dairy", "milk", "lactose"}, []string{"milk"}},
	{[]string{"egg", "eggs"}, []string{"eggs", "raw egg"}},
	{[]string{"shellfish", "shrimp", "crab"}, []string{"crustacean shellfish", "molluscs"}},
	{[]string{"fish"}, []string{"fish"}},
	{[]string{"soy", "soya", "soybean", "soybeans"}, []string{"soybeans"}},
	{[]string{"wheat"}, []string{"wheat"}},
	{[]string{"gluten", "celiac", "coeliac"}, []string{"wheat", "gluten", "oats"}},
	{[]string{"sesame"}, []string{"sesame"}},
	{[]string{"alcohol"}, []string{"alcohol"}},
	{[]string{"grapefruit"}, []string{"grapefruit"}},
}

// suits answers whether the dish suits somebody or is free of something: with
// what the ingredients tell, never with a yes.
func (c *Conversation) suits(r grammar.Request) string {
	v := c.inHand()
	words := fooddata.Normalise(r.Food)
	for _, diet := range []string{"vegetarian", "vegan"} {
		if slices.Contains(words, diet) {
			return noClearance + "\n" + c.replace(grammar.Request{Kind: grammar.SuitDiet, Food: diet})
		}
	}
	cautions := v.analysis.Cautions(v.recipe.Method)
	for _, ask := range asksOf {
		if !slices.ContainsFunc(ask.words, func(w string) bool { return slices.Contains(words, fooddata.Singular(w)) }) {
			continue
		}
		out := []string{noClearance}
		for _, w := range cautions {
			if slices.ContainsFunc(ask.called, func(name string) bool { return w.Kind == name || strings.Contains(w.Text, name) }) || strings.HasPrefix(w.Text, "not known") {
				out = append(out, fmt.Sprintf("%s: %s (%s)", sentence(w.Kind), w.Text, w.Source))
			}
		}
		if len(out) == 1 {
			out = append(out, fmt.Sprintf("No line that was read shows %s by its usual make-up. Check each label: that clears nothing.", strings.Join(ask.called, " or ")))
		}
		return strings.Join(out, "\n")
	}
	if verdict := v.analysis.MayClaim(engine.ClaimRequest{Claim: r.Food, Original: c.versions[0].analysis}); verdict.Known && verdict.Refused == "" {
		return c.claim(r.Food)
	}
	out := []string{noClearance, sentence(portion(v.analysis)) + " has " + keyFigures(v.analysis) + "."}
	for _, w := range cautions {
		out = append(out, fmt.Sprintf("%s: %s (%s)", sentence(w.Kind), w.Text, w.Source))
	}
	return strings.Join(out, "\n")
}

// keyFigures are those that a diet is most often asked about.
func keyFigures(a *engine.Analysis) string {
	parts := []string{figureWords(a, fooddata.Carbohydrate, 1) + " (" + choiceWords(a.Choices()) + ")"}
	for _, n := range []fooddata.Nutrient{fooddata.Fibre, fooddata.AddedSugars, fooddata.SaturatedFat, fooddata.Sodium, fooddata.Potassium} {
		parts = append(parts, figureWords(a, n, 1))
	}
	return strings.Join(parts, ", ")
}

// figureWords writes a figure of some servings: "at least 45 g carbohydrate".
func figureWords(a *engine.Analysis, n fooddata.Nutrient, servings float64) string {
	if a.Unknown(n) {
		return "no figure for " + n.Name()
	}
	return atLeast(a, n) + named(a.Per(n).Low*servings, n)
}

// atLeast is "at least " before a figure that some ingredient is not in.
func atLeast(a *engine.Analysis, n fooddata.Nutrient) string {
	if a.Complete(n) && !unread(a) {
		return ""
	}
	return "at least "
}

// figure answers a question about one figure of the recipe in hand.
func (c *Conversation) figure(r grammar.Request, text string) string {
	a := c.inHand().analysis
	words := strings.ToLower(r.Nutrient)
	if words == "servings" || words == "portions" {
		return head(a)
	}
	choicesAsked := strings.Contains(words, "choice") || strings.Contains(words, "exchange")
	n, ok := fooddata.NutrientNamed(words)
	switch {
	case choicesAsked:
		n = fooddata.Carbohydrate
	case strings.TrimSpace(words) == "salt":
		n = fooddata.Sodium
	case !ok && r.Else != nil:
		return c.quick(*r.Else, text)
	case !ok:
		return fmt.Sprintf("%q is no figure that is known here. Ask like \"how much sodium per serving\", or say \"lines\" for each line's.", r.Nutrient)
	}
	servings, of := 1.0, portion(a)
	switch {
	case !a.Known:
	case r.Whole:
		servings, of = a.Servings, "the whole recipe"
	case r.Servings.Low != nil:
		if servings, _ = r.Servings.Low.Float64(); servings != 1 {
			of = trimZero(servings) + " servings"
		}
	}
	if servings <= 0 || servings > mostServings {
		return fmt.Sprintf("%s servings cannot be. Say a number above zero.", trimZero(servings))
	}
	out := fmt.Sprintf("%s: %s", sentence(of), figureWords(a, n, servings))
	if n == fooddata.Carbohydrate && !a.Unknown(n) {
		out += fmt.Sprintf(", %s of 15 g", choiceWords(engine.Choices(a.Per(n).Low*servings)))
	}
	if dv := percentDV(a.Per(n).Low*servings, n); dv != "" && !a.Unknown(n) {
		out += fmt.Sprintf(", %s of the Daily Value", dv)
	}
	out += "."
	if !a.Complete(n) {
		out += " The table has no figure for some ingredient."
	}
	if unread(a) {
		out += " Some line is asked about and not counted: say \"lines\"."
	}
	return out
}

// backTo makes an earlier version the one in hand again, as a new version, so
// that nothing is lost.
func (c *Conversation) backTo(numbers []int) string {
	n := 1
	if len(numbers) > 0 {
		n = numbers[0]
	}
	if n < 1 || n > len(c.versions) {
		return fmt.Sprintf("There is no version %d: there are %d. Say \"what changed\" to see them.", n, len(c.versions))
	}
	if n == len(c.versions) {
		return "That is the version in hand."
	}
	old := c.versions[n-1]
	said := fmt.Sprintf("back to version %d", n)
	if n == 1 {
		said = "back to the original"
	}
	before, after := c.push(version{recipe: old.recipe, told: old.told, analysis: old.analysis, said: said, cookedGrams: old.cookedGrams})
	return c.changed(before, after)
}
