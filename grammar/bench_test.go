package grammar_test

import (
	"regexp"
	"strings"
	"testing"

	"pottle/grammar"
)

// benchLines are one line of each kind, from the plainest to the fullest.
var benchLines = []struct{ name, line string }{
	{"Plain", "2 cups flour"},
	{"Mixed", "1 1/2 cups all-purpose flour, sifted"},
	{"Package", "2 (14.5-ounce) cans diced tomatoes, drained"},
	{"Twice", "225g/8oz golden caster sugar"},
	{"Choice", "1 red or green bell pepper, chopped"},
	{"Sum", "1 cup plus 2 tablespoons sugar, divided, plus more for dusting"},
	{"NoAmount", "Salt and freshly ground black pepper, to taste"},
	{"Long", "1 cup carrots, rinsed, peeled, and cut into thin strips (about 4 ounces; or use baby carrots, sliced in half)"},
}

const benchRecipe = `Lentil soup
Serves 6

2 tablespoons olive oil
1 medium onion, chopped
2 carrots, peeled and diced
2 ribs celery, diced
3 cloves garlic, minced
1 1/2 cups dried brown lentils, rinsed
1 (14.5-ounce) can diced tomatoes
6 cups low-sodium vegetable broth
1 teaspoon ground cumin
1/2 teaspoon salt, or to taste
2 cups packed baby spinach
Juice of 1/2 lemon
`

const benchRequest = "how much sodium is in 1 tsp soy sauce?"

// plain is the baseline: a line split into number, unit and rest by one
// regular expression, without a thought for what they mean.
var plain = regexp.MustCompile(`^\W*((?:\d+[ -])?\d+(?:[./]\d+)?|[½⅓¼¾⅔])?\s*((?i:cups?|tablespoons?|teaspoons?|tbsp|tsp|ounces?|oz|g|kg|ml|cans?|cloves?|ribs?)\b\.?)?\s*(.*)$`)

func BenchmarkParseLine(b *testing.B) {
	for _, bench := range benchLines {
		b.Run(bench.name+"/pottle", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if line := grammar.ParseLine(bench.line); line.Fault != nil {
					b.Fatal(line.Fault)
				}
			}
		})
		b.Run(bench.name+"/regexp", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if plain.FindStringSubmatch(bench.line) == nil {
					b.Fatal("no match")
				}
			}
		})
	}
}

func BenchmarkParseRecipe(b *testing.B) {
	b.Run("pottle", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := grammar.ParseRecipe(benchRecipe); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("regexp", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			for line := range strings.Lines(benchRecipe) {
				if plain.FindStringSubmatch(strings.TrimSpace(line)) == nil {
					b.Fatal("no match")
				}
			}
		}
	})
}

func BenchmarkParseRequest(b *testing.B) {
	b.Run("pottle", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := grammar.ParseRequest(benchRequest); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("regexp", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if plain.FindStringSubmatch(benchRequest) == nil {
				b.Fatal("no match")
			}
		}
	})
}
