package engine

import (
	"fmt"

	"pottle/fooddata"
	"pottle/grammar"
)

// trialRun is a changed recipe with its analysis.
type trialRun struct {
	recipe *grammar.Recipe
	after  *Analysis
}

// Work gives the figures of a recipe as it is served, from those as assembled, as
// Served does.
type Work = func(r *grammar.Recipe, assembled *Analysis) *Analysis

// base is a recipe that changes are tried on, with its figures.
type base struct {
	recipe            *grammar.Recipe
	served, assembled *Analysis
	work              Work
}

// base works a recipe out as assembled and as served; with no work that is the
// same.
func (e *Engine) base(r *grammar.Recipe, work Work) base {
	if work == nil {
		work = func(_ *grammar.Recipe, assembled *Analysis) *Analysis { return assembled }
	}
	assembled := e.Analyse(r)
	return base{r, work(r, assembled), assembled, work}
}

// trial makes edits and works the recipe out again. ok is false if a line that
// was counted no longer is, or one that is added is not.
func (e *Engine) trial(b base, edits []Edit, added int) (trialRun, bool) {
	changed, err := Apply(b.recipe, edits...)
	if err != nil {
		return trialRun{}, false
	}
	after := b.work(changed, e.again(changed, b.recipe, b.assembled))
	had, _ := b.served.Counted()
	has, _ := after.Counted()
	return trialRun{changed, after}, has == had+added
}

// visibleMoves is the least change of a serving that is said beside the goal's own.
var visibleMoves = []struct {
	nutrient fooddata.Nutrient
	least    float64
}{
	{fooddata.Energy, 10}, {fooddata.Carbohydrate, 1}, {fooddata.Protein, 1}, {fooddata.Fat, 1}, {fooddata.SaturatedFat, 0.5},
	{fooddata.Fibre, 0.5}, {fooddata.AddedSugars, 1}, {fooddata.Sodium, 25}, {fooddata.Potassium, 50},
}

// movedFigures says which figures of a serving move visibly, all but one nutrient. A
// figure that is not known in the same way before and after is left out.
func movedFigures(before, after *Analysis, but fooddata.Nutrient) []string {
	var said []string
	for _, v := range visibleMoves {
		a, b := before.Per(v.nutrient).Low, after.Per(v.nutrient).Low
		d := max(a-b, b-a)
		if v.nutrient == but || d < v.least || d < leastShare*a || len(before.Recipe[v.nutrient].Gaps) != len(after.Recipe[v.nutrient].Gaps) {
			continue
		}
		said = append(said, fmt.Sprintf("%s %s → %s %s", v.nutrient.Name(), figureWords(a), figureWords(b), v.nutrient.Unit()))
	}
	return said
}

// figureWords writes a figure of a serving.
func figureWords(v float64) string {
	if v < 0.005 {
		return "0"
	}
	return WithCommas(show(v))
}
