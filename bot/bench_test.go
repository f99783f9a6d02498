package bot_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"pottle/bot"
	"pottle/grammar"
)

const twelveLines = `Bean and barley stew
Serves 6

2 tablespoons olive oil
1 large onion, chopped
3 cloves garlic, minced
2 medium carrots, peeled and sliced
1 (14.5-ounce) can diced tomatoes, undrained
2 (15-oz.) cans black beans, drained and rinsed
3/4 cup pearl barley
6 cups low-sodium chicken broth
1 tsp ground cumin
1/2 teaspoon salt
1 1/2 lbs. boneless, skinless chicken thighs, cut into 1-inch pieces
1/4 cup chopped fresh cilantro
`

// BenchmarkRecipeToFigures is the main job on a recipe of twelve lines, warm:
// from text to the figures, without suggestions.
func BenchmarkRecipeToFigures(b *testing.B) {
	e := newEngine(b)
	b.ReportAllocs()
	for b.Loop() {
		recipe, err := grammar.ParseRecipe(twelveLines)
		if err != nil {
			b.Fatal(err)
		}
		if !strings.Contains(bot.RecipeReply(e.Analyse(recipe)), "6 servings") {
			b.Fatal("no figures")
		}
	}
}

// BenchmarkRecipeToReply is the same with suggestions, each worked out.
func BenchmarkRecipeToReply(b *testing.B) {
	talk := bot.NewConversation(newEngine(b))
	b.ReportAllocs()
	for b.Loop() {
		if !strings.Contains(talk.Reply(twelveLines), "6 servings") {
			b.Fatal("no figures")
		}
	}
}

// BenchmarkBaselineSplit is the baseline of the same run: the same lines
// split by one regular expression.
func BenchmarkBaselineSplit(b *testing.B) {
	plain := regexp.MustCompile(`^\s*([\d./ ]+)\s*(\S+)\s+(.*)$`)
	b.ReportAllocs()
	for b.Loop() {
		for line := range strings.Lines(twelveLines) {
			plain.FindStringSubmatch(line)
		}
	}
}

// BenchmarkTeamReply is a recipe of twelve lines, or a question, said in a
// conversation of a team, taken up from the store: of a team with nothing of its
// own, of one with foods and words, and of the same one asked for the first time,
// as it was for every message before its engine was kept. Compare them within one
// run.
func BenchmarkTeamReply(b *testing.B) {
	for _, say := range []struct{ name, text, has string }{{"Recipe", twelveLines, "6 servings"}, {"Question", "how many grams is 1 cup milk", "1 cup milk: 24"}} {
		for _, v := range []struct {
			name       string
			own, first bool
		}{{"Nothing", false, false}, {"Own", true, false}, {"OwnFirst", true, true}} {
			b.Run(say.name+"/"+v.name, func(b *testing.B) {
				team := memoryStore(b).In("clinic")
				e := newEngine(b)
				reply := func(id, text string) string {
					talk := bot.NewConversation(e)
					if err := talk.Remember(b.Context(), bot.Memory{Team: team, ID: id, Who: "Rowan"}); err != nil {
						b.Fatal(err)
					}
					return talk.Reply(text)
				}
				if v.own {
					for i, food := range []string{"oat bar", "house bread", "clinic shake", "ward soup", "rye crisp"} {
						reply("set", fmt.Sprintf("add food: %s, 40 g: 150 kcal, fat 5 g, carbohydrate 20 g, protein 6 g, sodium 9%d mg", food, i))
					}
					for _, word := range []string{"milk is skim milk", "broth is low-sodium chicken broth", "yogurt is plain yogurt", "rice is brown rice", "butter is unsalted butter"} {
						reply("set", "our "+word)
					}
				}
				if foods, err := team.Foods().List(b.Context()); err != nil || v.own && len(foods) != 5 {
					b.Fatal("the team has not its foods: ", len(foods), err)
				}
				b.ReportAllocs()
				for n := 0; b.Loop(); n++ {
					if v.first {
						e = newEngine(b)
					}
					if !strings.Contains(reply(fmt.Sprint("thread ", n), say.text), say.has) {
						b.Fatal("no figures")
					}
				}
			})
		}
	}
}
