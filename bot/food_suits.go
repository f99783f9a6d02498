package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

const noFoodClearance = "pottle clears no food for anybody: makers differ, so read the label; the client's own care team decides."

// foodSuits answers whether a food suits somebody or is free of something: by what
// it is usually made of, never with a yes.
func (c *Conversation) foodSuits(r grammar.Request, text string) string {
	words := fooddata.Normalise(r.New)
	if len(words) > 0 && (words[0] == "more" || words[0] == "less" || words[0] == "fewer") {
		if what, other, found := strings.Cut(r.New, " than "); found && len(strings.Fields(what)) > 1 { // "does a banana have more potassium than a potato"
			return c.compare(grammar.Request{Kind: grammar.Compare, Nutrient: strings.Join(strings.Fields(what)[1:], " "), Amounts: []string{r.Food, other}})
		}
		if one, other, found := strings.Cut(r.Food, " or "); found { // "does chicken or salmon have more protein"
			return c.compare(grammar.Request{Kind: grammar.Compare, Nutrient: strings.Join(strings.Fields(r.New)[1:], " "), Amounts: []string{one, other}})
		}
	}
	ask, asked := allergenAsked(words)
	f, isFigure := figureAsked(r.New, "")
	if isFigure && !asked {
		return c.nutrientOf(f, r.Food)
	}
	if c.inHand() != nil { // "is the broth gluten free"
		if at, _ := c.lineNamed(strings.TrimPrefix(r.Food, "the ")); at >= 0 {
			r.Food = strings.Join(c.inHand().recipe.Lines[at].Items[0].Words, " ")
		}
	}
	l := c.amount(r.Food)
	if l.Reason == engine.NoAmount {
		l = c.amount("100 g " + r.Food)
	}
	if l.Reason == engine.Unread || len(l.Item.Words) == 0 {
		return unclear(&l)
	}
	if l.Food.IsZero() && !asked && !strings.Contains(r.New, "veg") {
		return noFoodClearance + "\n" + unclear(&l)
	}
	l.Kind = grammar.Ingredient
	cautions := engine.Single(l).Cautions(nil)
	var tell []engine.Caution
	told := func(w engine.Caution) {
		w.Text = strings.Replace(w.Text, " put in for a serving", " in "+gramsOf(l.Grams.Low)+" g", 1)
		tell = append(tell, w)
	}
	called := strings.Join(l.Item.Words, " ")
	out := []string{noFoodClearance}
	if asked {
		for _, w := range cautions {
			if ask.tells(w) {
				told(w)
			}
		}
		out = append(out, tellCautions(tell)...)
		if len(out) == 1 {
			out = append(out, fmt.Sprintf("%s shows no %s by its usual make-up. That clears nothing: read the label.", sentence(called), strings.Join(ask.called, " or ")))
		}
		if isFigure && l.Status == engine.Counted {
			out = append(out, c.nutrientOf(f, r.Food))
		}
		return strings.Join(out, "\n")
	}
	for _, diet := range []string{"vegan", "vegetarian"} {
		if slices.Contains(words, diet) {
			for _, w := range cautions {
				if w.Kind == "allergen" && againstDiet(w.Text, diet) || w.Kind == "molluscs" {
					told(w)
				}
			}
			out = append(out, tellCautions(tell)...)
			return strings.Join(append(out, c.foodOfDiet(called, diet)...), "\n")
		}
	}
	if l.Status == engine.Counted {
		out = append(out, fmt.Sprintf("%s has %s.", sentence(l.Text), keyFigures(engine.Single(l))))
	}
	for _, w := range cautions {
		if w.Kind != "storage" {
			told(w)
		}
	}
	out = append(out, tellCautions(tell)...)
	if l.Status == engine.Counted {
		out = append(out, basis(&l))
	}
	return strings.Join(out, "\n")
}

// againstDiet reports whether a caution tells of a food of animals that a diet
// leaves out.
func againstDiet(text, diet string) bool {
	for _, a := range []fooddata.Allergen{fooddata.Fish, fooddata.Shellfish, fooddata.Milk, fooddata.Eggs} {
		if strings.Contains(text, "contain "+a.String()) || strings.Contains(text, "contains "+a.String()) {
			return diet == "vegan" || a == fooddata.Fish || a == fooddata.Shellfish
		}
	}
	return false
}

// foodOfDiet says what of a food is against a diet.
func (c *Conversation) foodOfDiet(called, diet string) []string {
	recipe, err := grammar.ParseRecipe("Serves 1\n\n100 g " + called)
	if err != nil {
		return []string{fault(err)}
	}
	options, without, _ := c.engine.SwapFor(recipe, diet, nil)
	var out []string
	for _, w := range without {
		out = append(out, sentence(w)+".")
	}
	for _, o := range options {
		out = append(out, fmt.Sprintf("%s is not %s by its usual make-up. Instead: %s.", sentence(called), diet, o.What))
	}
	if len(out) == 0 {
		out = []string{fmt.Sprintf("Nothing in the usual make-up of %s is against %s. That clears nothing: read the label.", called, diet)}
	}
	return out
}
