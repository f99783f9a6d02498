package engine_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// The recipes in testdata/published were worked out by others: the United
// States National Heart, Lung, and Blood Institute and the USDA Food and
// Nutrition Service (public domain; each file names its source). A file has
// headers, then a blank line, then the recipe. A header named by a tagname is
// the published figure of a serving. "cause TAG" explains a figure that is
// farther off than the tolerance; "doubtful" names a published figure that
// contradicts the recipe's own; such a recipe is left out of the medians that
// must hold.
type published struct {
	name, source string
	doubtful     string
	figures      map[fooddata.Nutrient]float64
	rounded      map[fooddata.Nutrient]float64 // how far the published figure may be from the unrounded one
	causes       map[fooddata.Nutrient]string
	recipe       *grammar.Recipe
}

// tolerance is how far a figure may be off without a cause: a share of the
// published figure, or the absolute amount where that is more. The published
// figures are whole numbers from another release of the table, other brands
// and other weights of a piece.
var tolerance = []struct {
	nutrient fooddata.Nutrient
	share    float64
	absolute float64
}{
	{fooddata.Energy, 0.15, 5},
	{fooddata.Carbohydrate, 0.20, 2},
	{fooddata.Protein, 0.20, 1.5},
	{fooddata.Fat, 0.20, 1.5},
	{fooddata.SaturatedFat, 0.30, 1},
	{fooddata.Fibre, 0.30, 1.5},
	{fooddata.Sodium, 0.20, 30},
	{fooddata.Potassium, 0.25, 50},
}

func readPublished(t *testing.T) []published {
	t.Helper()
	files, err := filepath.Glob("testdata/published/*.txt")
	if err != nil || len(files) < 12 {
		t.Fatalf("found %d published recipes (%v); there must be at least 12", len(files), err)
	}
	var all []published
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		head, body, found := strings.Cut(string(text), "\n\n")
		if !found {
			t.Fatalf("%s: no blank line after the headers", file)
		}
		p := published{name: strings.TrimSuffix(filepath.Base(file), ".txt"), figures: map[fooddata.Nutrient]float64{}, rounded: map[fooddata.Nutrient]float64{}, causes: map[fooddata.Nutrient]string{}}
		for line := range strings.Lines(head) {
			key, value, _ := strings.Cut(strings.TrimSpace(line), ": ")
			p.header(t, file, key, value)
		}
		if p.source == "" {
			t.Errorf("%s names no source", file)
		}
		if p.recipe, err = grammar.ParseRecipe(body); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		all = append(all, p)
	}
	return all
}

func (p *published) header(t *testing.T, file, key, value string) {
	t.Helper()
	if tag, isCause := strings.CutPrefix(key, "cause "); isCause {
		for _, one := range strings.Fields(tag) {
			n, ok := fooddata.NutrientByTag(one)
			if !ok {
				t.Fatalf("%s: cause for unknown %q", file, one)
			}
			p.causes[n] = value
		}
		return
	}
	switch key {
	case "source":
		p.source = value
	case "doubtful":
		p.doubtful = value
	case "serving", "method":
	default:
		n, ok := fooddata.NutrientByTag(key)
		if !ok {
			t.Fatalf("%s: unknown header %q", file, key)
		}
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			t.Fatalf("%s: %s: %v", file, key, err)
		}
		p.figures[n] = v
		_, decimals, _ := strings.Cut(value, ".")
		p.rounded[n] = math.Pow(10, -float64(len(decimals))) / 2
	}
}

// TestPublished works out each recipe and compares the figures of a serving
// with the published ones. With -v it prints the errors and their medians.
func TestPublished(t *testing.T) {
	e := newEngine(t)
	// The differences over all, over those whose figures are sound, and of these
	// beyond what the rounding of the published figure leaves open.
	off, sound, beyond := make(map[fooddata.Nutrient][]float64), make(map[fooddata.Nutrient][]float64), make(map[fooddata.Nutrient][]float64)
	lines, counted, asked := 0, 0, 0
	for _, p := range readPublished(t) {
		a := e.Analyse(p.recipe)
		for i := range a.Lines {
			switch l := &a.Lines[i]; {
			case l.Reason == engine.Unread:
				t.Errorf("%s: line not read: %s", p.name, l.Text)
			case l.Status == engine.Counted:
				counted++
				lines++
			case l.Status == engine.Ask:
				asked++
				lines++
				t.Logf("%s: asked: %s: %s", p.name, l.Text, l.Why)
			}
		}
		if len(p.figures) == 0 {
			continue
		}
		row := []string{fmt.Sprintf("%-10s", p.name)}
		for _, tol := range tolerance {
			want, given := p.figures[tol.nutrient]
			if !given {
				continue
			}
			got := a.Per(tol.nutrient).Low
			diff := got - want
			cell := "    -"
			if want > 0 {
				off[tol.nutrient] = append(off[tol.nutrient], math.Abs(diff/want))
				if p.doubtful == "" {
					sound[tol.nutrient] = append(sound[tol.nutrient], math.Abs(diff/want))
					beyond[tol.nutrient] = append(beyond[tol.nutrient], max(0, math.Abs(diff)-p.rounded[tol.nutrient])/want)
				}
				cell = fmt.Sprintf("%+4.0f%%", diff/want*100)
			}
			row = append(row, fmt.Sprintf("%s %s", tol.nutrient.Tag(), cell))
			if math.Abs(diff) > max(tol.share*want, tol.absolute) && p.causes[tol.nutrient] == "" {
				t.Errorf("%s: %s %.1f, published %.1f, and no cause is named", p.name, tol.nutrient.Name(), got, want)
			}
		}
		t.Log(strings.Join(row, "  "))
	}
	for _, tol := range tolerance {
		t.Logf("%-18s median absolute difference %.1f %% over %d recipes; %.1f %% over the %d whose published figures are sound, %.1f %% beyond their rounding", tol.nutrient.Name(),
			100*median(off[tol.nutrient]), len(off[tol.nutrient]), 100*median(sound[tol.nutrient]), len(sound[tol.nutrient]), 100*median(beyond[tol.nutrient]))
	}
	t.Logf("%d of %d lines that carry an amount counted (%.1f %%), %d asked about", counted, lines, 100*float64(counted)/float64(lines), asked)
	for _, limit := range []struct {
		n    fooddata.Nutrient
		most float64
	}{{fooddata.Energy, 0.06}, {fooddata.Carbohydrate, 0.10}, {fooddata.Protein, 0.10}, {fooddata.Fat, 0.12}, {fooddata.Sodium, 0.15}} {
		if m := median(sound[limit.n]); m > limit.most {
			t.Errorf("%s: median absolute difference %.1f %%, more than %.0f %%", limit.n.Name(), m*100, limit.most*100)
		}
	}
	if share := float64(counted) / float64(lines); share < 0.95 {
		t.Errorf("%.1f %% of the lines counted, less than 95 %%", share*100)
	}
}

func median(v []float64) float64 {
	v = slices.Sorted(slices.Values(v))
	switch n := len(v); {
	case n == 0:
		return 0
	case n%2 == 1:
		return v[n/2]
	default:
		return (v[n/2-1] + v[n/2]) / 2
	}
}

func newEngine(t testing.TB) *engine.Engine {
	t.Helper()
	table, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	return engine.New(table, engine.Options{})
}
