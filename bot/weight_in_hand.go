package bot

import (
	"fmt"

	"pottle/fooddata"
)

// isServing reports whether the words of an amount are a serving of the recipe in
// hand: "a serving", "one muffin" of blueberry muffins.
func (c *Conversation) isServing(amount string) bool {
	words := withoutOne(amount)
	title := fooddata.Normalise(c.inHand().analysis.Title)
	return isServingWord(amount) || len(words) == 1 && len(title) > 0 && title[len(title)-1] == words[0] && c.inHand().analysis.Servings > 1
}

// isServingWord reports whether an amount is a serving of something not named.
func isServingWord(amount string) bool {
	words := withoutOne(amount)
	return len(words) == 1 && (words[0] == "serving" || words[0] == "portion" || words[0] == "helping")
}

// servingWeight is what a serving weighs, as assembled and, if that was told, as
// cooked.
func (c *Conversation) servingWeight() string {
	v := c.inHand()
	a := v.analysis
	least := ""
	if unread(a) {
		least = "at least "
	}
	out := fmt.Sprintf("%s: %s%s g as assembled", sentence(portion(a)), least, gramsOf(a.Grams.Low/a.Servings))
	if v.cookedGrams > 0 {
		out += fmt.Sprintf(", %s g as cooked", gramsOf(v.cookedGrams/a.Servings))
	} else {
		out += ". Cooking changes the weight: say \"it weighed 1.4 kg cooked\" for that"
	}
	return out + "."
}

// isIt are words for the whole of the recipe in hand.
var isIt = map[string]bool{"it": true, "this": true, "that": true, "the recipe": true, "this recipe": true, "the dish": true, "this dish": true, "the whole recipe": true, "the whole dish": true, "the whole thing": true, "the pot": true, "it all": true, "everything": true, "the soup": true, "the stew": true, "the batch": true, "the whole batch": true}

// recipeWeight is what the whole recipe weighs, and a serving of it.
func (c *Conversation) recipeWeight() string {
	v := c.inHand()
	a := v.analysis
	least := ""
	if unread(a) {
		least = "at least "
	}
	out := fmt.Sprintf("The whole recipe: %s%s g as assembled", least, gramsOf(a.Grams.Low))
	if v.cookedGrams > 0 {
		out += fmt.Sprintf(", %s g as cooked", gramsOf(v.cookedGrams))
	}
	if a.Known && a.Servings != 1 {
		return out + ".\n" + c.servingWeight()
	}
	if v.cookedGrams <= 0 {
		out += ". Cooking changes the weight: say \"it weighed 1.4 kg cooked\" for that"
	}
	return out + "."
}
