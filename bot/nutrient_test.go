package bot_test

import (
	"strings"
	"testing"

	"pottle/bot"
	"pottle/fooddata"
)

// TestEveryNutrientCanBeAsked asks for each nutrient of the table by its name, in
// the wordings that people have, of a food and of a recipe.
func TestEveryNutrientCanBeAsked(t *testing.T) {
	e := newEngine(t)
	quick, recipe := bot.NewConversation(e), bot.NewConversation(e)
	recipe.Reply("Omelet\nServes 2\n\n4 eggs\n1/4 cup milk\n1 tsp butter")
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		name := strings.NewReplacer("(", "", ")", "").Replace(n.Name())
		answer := strings.ToUpper(n.Name()[:1]) + n.Name()[1:] + " in "
		for _, text := range []string{name + " in 100 g egg", "how much " + name + " is in 100 g egg", "how much " + name + " does 100 g egg have", name + ": 100 g egg"} {
			reply := quick.Reply(text)
			if !strings.HasPrefix(reply, answer) && !strings.HasPrefix(reply, "The table has no figure for "+n.Name()+" in egg") {
				t.Errorf("%q: %s", text, reply)
			}
		}
		for _, text := range []string{name, "how much " + name + " per serving", "what is the " + name} {
			reply := recipe.Reply(text)
			if !strings.HasPrefix(reply, "A serving: ") {
				t.Errorf("%q of the recipe: %s", text, reply)
			}
		}
	}
}
