package engine_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
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

// plain is the baseline: a line split into number, unit and rest, and the
// last word looked up in a map.
var plain = regexp.MustCompile(`^\s*([\d./ ]+)\s*(\S+)\s+(.*)$`)

func BenchmarkBaselineSplitAndMap(b *testing.B) {
	lines := strings.Split(strings.TrimSpace(twelveLines), "\n")[3:]
	grams := map[string]float64{"oil": 13.5, "onion": 150, "garlic": 3, "carrots": 61, "tomatoes": 411, "beans": 425, "barley": 150}
	b.ReportAllocs()
	for b.Loop() {
		total := 0.0
		for _, line := range lines {
			if m := plain.FindStringSubmatch(line); m != nil {
				words := strings.Fields(m[3])
				total += grams[strings.Trim(words[len(words)-1], ",")]
			}
		}
		if total == 0 {
			b.Fatal("nothing found")
		}
	}
}

func BenchmarkResolveCold(b *testing.B) {
	table, err := fooddata.Open()
	if err != nil {
		b.Fatal(err)
	}
	item := grammar.ParseLine("1 1/2 lbs. boneless, skinless chicken thighs, cut into 1-inch pieces").Items[0]
	b.ReportAllocs()
	for b.Loop() {
		e := engine.New(table, engine.Options{CacheSize: 1})
		if e.Resolve(item).Status != engine.Counted {
			b.Fatal("not counted")
		}
	}
}

func BenchmarkResolveCached(b *testing.B) {
	e := newEngine(b)
	item := grammar.ParseLine("1 1/2 lbs. boneless, skinless chicken thighs, cut into 1-inch pieces").Items[0]
	b.ReportAllocs()
	for b.Loop() {
		if e.Resolve(item).Status != engine.Counted {
			b.Fatal("not counted")
		}
	}
}

func BenchmarkAnalyse(b *testing.B) {
	e := newEngine(b)
	recipe, err := grammar.ParseRecipe(twelveLines)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if counted, _ := e.Analyse(recipe).Counted(); counted != 12 {
			b.Fatal("not all counted")
		}
	}
}

// BenchmarkPublished reads and works out every published recipe.
func BenchmarkPublished(b *testing.B) {
	e := newEngine(b)
	var texts []string
	entries, err := os.ReadDir("testdata/published")
	if err != nil {
		b.Fatal(err)
	}
	for _, entry := range entries {
		text, err := os.ReadFile("testdata/published/" + entry.Name())
		if err != nil {
			b.Fatal(err)
		}
		_, body, _ := strings.Cut(string(text), "\n\n")
		texts = append(texts, body)
	}
	for b.Loop() {
		for _, text := range texts {
			recipe, err := grammar.ParseRecipe(text)
			if err != nil {
				b.Fatal(err)
			}
			e.Analyse(recipe)
		}
	}
	b.ReportMetric(float64(len(texts)), "recipes/op")
}
