package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// TestFitHasALimit holds that an amount which makes another dish of it is not
// proposed, and that the error tells it.
func TestFitHasALimit(t *testing.T) {
	e := newEngine(t)
	r := recipe(t, "Pilaf\nServes 6\n\n1 lb boneless skinless chicken thighs\n1 1/2 cups basmati rice\n3 cups chicken broth\n")
	line := -1
	for i := range r.Lines {
		if strings.Contains(r.Lines[i].Text, "rice") {
			line = i
		}
	}
	work := func(r *grammar.Recipe) *engine.Analysis { return e.Analyse(r) }
	_, err := e.FitLines(r, []int{line}, engine.Limit{Nutrient: fooddata.Fibre, AtLeast: true, Amount: 6}, work)
	if err == nil || !strings.Contains(err.Error(), "times as much") || !strings.Contains(err.Error(), "cups of basmati rice") {
		t.Errorf("6 g fibre by rice: %v", err)
	}
	f, err := e.FitLines(r, []int{line}, engine.Limit{Nutrient: fooddata.Fibre, AtLeast: true, Amount: 1}, work)
	if err != nil || f.Analysis.Per(fooddata.Fibre).Low < 1 {
		t.Errorf("1 g fibre by rice: %v", err)
	}
}
