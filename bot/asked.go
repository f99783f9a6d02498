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
var asksOf = []askedAllergen{
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

type askedAllergen struct {
	words  []string
	called []string
}

// allergenAsked finds the allergen that words ask for.
func allergenAsked(words []string) (askedAllergen, bool) {
	for _, ask := range asksOf {
		if slices.ContainsFunc(ask.words, func(w string) bool { return slices.Contains(words, fooddata.Singular(w)) }) {
			return ask, true
		}
	}
	return askedAllergen{}, false
}

// tells reports whether a caution tells of the allergen, or of a food of which
// nothing is known.
func (ask askedAllergen) tells(w engine.Caution) bool {
	return slices.ContainsFunc(ask.called, func(name string) bool { return w.Kind == name || strings.Contains(w.Text, name) }) || strings.HasPrefix(w.Text, "not known")
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
	if ask, ok := allergenAsked(words); ok {
		out := append([]string{noClearance}, tellCautions(slices.DeleteFunc(slices.Clone(cautions), func(w engine.Caution) bool { return !ask.tells(w) }))...)
		if len(out) == 1 {
			out = append(out, fmt.Sprintf("No line that was read shows %s by its usual make-up. Check each label: that clears nothing.", strings.Join(ask.called, " or ")))
		}
		return strings.Join(out, "\n")
	}
	if verdict := v.analysis.MayClaim(engine.ClaimRequest{Claim: r.Food, Original: c.versions[0].analysis}); verdict.Known && verdict.Refused == "" {
		return c.claim(r.Food)
	}
	out := []string{noClearance, sentence(portion(v.analysis)) + " has " + keyFigures(v.analysis) + "."}
	return strings.Join(append(out, tellCautions(cautions)...), "\n")
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
	if reply, ok := c.severalHere(r, text); ok {
		return reply
	}
	if r.Hundred {
		if a.Grams.Low <= 0 {
			return "Nothing with a weight is counted, so there are no figures of 100 g."
		}
		return c.hundred(words)
	}
	if servingSize[words] {
		return c.servingWeight()
	}
	choicesAsked := strings.Contains(words, "choice") || strings.Contains(words, "exchange")
	f, ok := figureAsked(words, r.Unit)
	switch {
	case choicesAsked:
		f = askedFigure{nutrients: []fooddata.Nutrient{fooddata.Carbohydrate}}
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
	return sentence(of) + ": " + tellFigure(a, f, servings)
}

// servingSize are the words that ask what a serving weighs.
var servingSize = map[string]bool{"serving size": true, "portion size": true, "serving weight": true, "portion weight": true, "weight": true, "size": true, "grams": true, "serving": true, "portion": true,
	"grams per serving": true, "how much is a serving": true, "how big is a serving": true, "grams a serving": true, "weight per serving": true, "weight of a serving": true}

// tellFigure writes a figure of some servings, with what it lacks.
func tellFigure(a *engine.Analysis, f askedFigure, servings float64) string {
	out := ""
	if n := f.nutrients[0]; f.plain() {
		out = figureWords(a, n, servings)
		if n == fooddata.Carbohydrate && !a.Unknown(n) {
			out += fmt.Sprintf(", %s of 15 g", choiceWords(engine.Choices(a.Per(n).Low*servings)))
		}
		if dv := percentDV(a.Per(n).Low*servings, n); dv != "" && !a.Unknown(n) {
			out += fmt.Sprintf(", %s of the Daily Value", dv)
		}
	} else {
		out = f.figures(func(n fooddata.Nutrient) (engine.Range, bool) {
			v := a.Per(n).Low * servings
			return engine.Range{Low: v, High: v}, !a.Unknown(n)
		}, func(n fooddata.Nutrient) string { return atLeast(a, n) })
	}
	out += "."
	if slices.ContainsFunc(f.nutrients, func(n fooddata.Nutrient) bool { return !a.Complete(n) }) {
		out += " The table has no figure for some ingredient."
	}
	if unread(a) {
		out += " Some line is asked about and not counted: say \"lines\"."
	}
	return out + f.after() + transFatNote(f.nutrients, a.Lines)
}

// hundred gives the figures of 100 g, or one of them: as assembled, and as cooked
// where that weight was told.
func (c *Conversation) hundred(words string) string {
	v := c.inHand()
	of := func(grams float64) *engine.Analysis {
		a := *v.analysis
		a.Servings, a.Known = grams/100, true
		return &a
	}
	weights := []struct {
		grams float64
		how   string
	}{{v.analysis.Grams.Low, "as assembled"}, {v.cookedGrams, "as cooked"}}
	f, ok := figureAsked(words, "")
	if words != "" && !ok {
		return fmt.Sprintf("%q is no figure that is known here. Ask like \"protein per 100 g\".", words)
	}
	var out []string
	for _, w := range weights {
		switch {
		case w.grams <= 0:
		case words == "":
			out = append(out, fmt.Sprintf("100 g %s\n%s", w.how, block(of(w.grams))))
		default:
			out = append(out, fmt.Sprintf("100 g %s: %s", w.how, tellFigure(of(w.grams), f, 1)))
		}
	}
	if v.cookedGrams <= 0 {
		out = append(out, "Cooking changes the weight: say \"it weighed 1.4 kg cooked\" for figures of 100 g as cooked.")
	}
	if words == "" {
		return strings.Join(out, "\n\n")
	}
	return strings.Join(out, "\n")
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
