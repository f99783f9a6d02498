package grammar_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The least that the corpus must hold: with less, loading is likely broken.
const (
	leastLines   = 400
	leastRecipes = 25
)

// corpusLines returns the ingredient lines of the engine's labelled sets.
func corpusLines(tb testing.TB) []string {
	tb.Helper()
	var lines []string
	for _, text := range corpusFiles(tb, "../engine/testdata/labelled_*.tsv") {
		for row := range strings.Lines(text) {
			if strings.HasPrefix(row, "#") || strings.TrimSpace(row) == "" {
				continue
			}
			line, _, tabbed := strings.Cut(row, "\t")
			if !tabbed {
				tb.Fatalf("a labelled row without columns: %q", row)
			}
			lines = append(lines, line)
		}
	}
	if len(lines) < leastLines {
		tb.Fatalf("only %d labelled lines, there must be %d", len(lines), leastLines)
	}
	return lines
}

// corpusRecipes returns the texts of the engine's published recipes, without
// their headers.
func corpusRecipes(tb testing.TB) []string {
	tb.Helper()
	var recipes []string
	for _, text := range corpusFiles(tb, "../engine/testdata/published/*.txt") {
		_, recipe, found := strings.Cut(text, "\n\n")
		if !found {
			tb.Fatalf("a published recipe without headers: %.40q", text)
		}
		recipes = append(recipes, recipe)
	}
	if len(recipes) < leastRecipes {
		tb.Fatalf("only %d published recipes, there must be %d", len(recipes), leastRecipes)
	}
	return recipes
}

func corpusFiles(tb testing.TB, pattern string) []string {
	tb.Helper()
	names, err := filepath.Glob(pattern)
	if err != nil {
		tb.Fatal(err)
	}
	var texts []string
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			tb.Fatal(err)
		}
		texts = append(texts, string(b))
	}
	return texts
}
