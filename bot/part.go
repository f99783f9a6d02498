package bot

import (
	"fmt"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// A part of the dish by its weight or volume: "sodium in 1 cup", "serving size 1
// cup". The weight of a dish is the sum of its lines; its volume no ingredient
// tells.

// ofPart answers a figure of a weight or a volume of the dish. asked is "1 cup".
func (c *Conversation) ofPart(f askedFigure, asked string, part *grammar.Term) string {
	v := c.inHand()
	size, _ := part.Quantity.Low.Float64()
	per, _ := part.Measure.Amount.Float64()
	share := func(servings float64) *engine.Analysis {
		a := *v.analysis
		a.Servings, a.Known = servings, true
		return &a
	}
	if part.Measure.Kind == grammar.Weight {
		if v.analysis.Grams.Low <= 0 {
			return "Nothing with a weight is counted."
		}
		out := fmt.Sprintf("%s as assembled: %s", sentence(asked), tellFigure(share(v.analysis.Grams.Low/(size*per)), f, 1))
		if v.cookedGrams > 0 {
			return out + fmt.Sprintf("\n%s as cooked: %s", sentence(asked), tellFigure(share(v.cookedGrams/(size*per)), f, 1))
		}
		return out + "\nCooking changes the weight: say \"it weighed 1.4 kg cooked\" for the figure as cooked."
	}
	if made := yieldVolume(v.recipe.Yield); made > 0 {
		return fmt.Sprintf("%s, of what it makes (%s): %s", sentence(asked), v.recipe.Yield, tellFigure(share(made/(size*per)), f, 1))
	}
	whole := *v.analysis
	whole.Servings = 1
	return fmt.Sprintf("That needs the volume of the dish as cooked, which its ingredients do not tell. Measure it: if it makes 8 cups, say \"servings 8\", and a serving is a cup.\nThe whole recipe: %s", tellFigure(&whole, f, 1))
}

// yieldVolume is the millilitres that a line such as "Makes 1.5 litres" tells, or 0.
func yieldVolume(yield string) float64 {
	words := strings.Fields(strings.ToLower(yield))
	for len(words) > 0 {
		switch strings.Trim(words[0], ":") {
		case "makes", "yield", "yields", "about", "approximately", "serves", "is":
			words = words[1:]
			continue
		}
		break
	}
	t := bareAmount(strings.Join(words, " "))
	if t == nil || t.Measure.Kind != grammar.Volume {
		return 0
	}
	size, _ := t.Quantity.Low.Float64()
	per, _ := t.Measure.Amount.Float64()
	return size * per
}

// servingOf answers "serving size 1 cup": how many servings that makes, where it
// can be told.
func (c *Conversation) servingOf(size string) string {
	v := c.inHand()
	t := bareAmount(size)
	if t == nil {
		return fmt.Sprintf("%q is no size of a serving. Say \"servings 6\", or a weight, such as \"serving size 250 g\".", size)
	}
	n, _ := t.Quantity.Low.Float64()
	per, _ := t.Measure.Amount.Float64()
	if n <= 0 {
		return "A serving must be more than nothing. The recipe is as it was."
	}
	if t.Measure.Kind == grammar.Volume {
		if made := yieldVolume(v.recipe.Yield); made > 0 {
			return servingsOf(made/(n*per), size, "of what it makes, "+v.recipe.Yield+",")
		}
		return fmt.Sprintf("How many servings of %s it makes depends on the volume of the dish as cooked, which its ingredients do not tell. Measure it: if it comes to 9 of them, say \"servings 9\". The recipe is as it was.", size)
	}
	weight, how := v.analysis.Grams.Low, "of the "+gramsOf(v.analysis.Grams.Low)+" g as assembled"
	if v.cookedGrams > 0 {
		weight, how = v.cookedGrams, "of the "+gramsOf(v.cookedGrams)+" g as cooked"
	}
	out := servingsOf(weight/(n*per), size, how)
	if v.cookedGrams <= 0 {
		out += " Cooking changes the weight: say \"it weighed 1.4 kg cooked\" first, if you have that."
	}
	return out
}

func servingsOf(n float64, size, of string) string {
	if n < 1 {
		return fmt.Sprintf("The whole recipe is less than %s, %s.", size, of)
	}
	return fmt.Sprintf("%s makes %s servings %s. Say \"servings %.0f\" to divide it so.", sentence(size), trimZero(float64(int(n*10+0.5))/10), of, n)
}
