package bot_test

import (
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
