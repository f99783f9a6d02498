package main

import (
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// recipeJSON is the machine-readable form of an analysis. It is a contract
// with other tools: fields are only ever added.
type recipeJSON struct {
	Title               string                `json:"title"`
	Servings            float64               `json:"servings"`
	Lines               []lineJSON            `json:"lines"`
	PerServing          map[string]figureJSON `json:"per_serving"`
	PerRecipe           map[string]figureJSON `json:"per_recipe"`
	GramsPerServing     float64               `json:"grams_per_serving"`
	CarbohydrateChoices float64               `json:"carbohydrate_choices"`
	Notes               []string              `json:"notes"`
}

type lineJSON struct {
	Text        string     `json:"text"`
	Kind        string     `json:"kind"`
	Status      string     `json:"status"`
	Food        *foodJSON  `json:"food"`
	Quantity    *rangeJSON `json:"quantity"`
	Measure     string     `json:"measure"`
	Grams       *rangeJSON `json:"grams"`
	Confidence  float64    `json:"confidence"`
	Assumptions []string   `json:"assumptions"`
}

type foodJSON struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

type rangeJSON struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// figureJSON is one nutrient. Complete is false if the value is "at least".
type figureJSON struct {
	Value    float64 `json:"value"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	Complete bool    `json:"complete"`
}

var kindName = map[grammar.LineKind]string{grammar.Ingredient: "ingredient", grammar.Heading: "heading", grammar.Note: "note"}

func newRecipeJSON(a *engine.Analysis) recipeJSON {
	out := recipeJSON{Title: a.Title, Servings: a.Servings, Lines: []lineJSON{}, Notes: append(append([]string{}, a.Notes...), a.Cooking...),
		PerServing: make(map[string]figureJSON), PerRecipe: make(map[string]figureJSON),
		GramsPerServing: a.Grams.Low / a.Servings, CarbohydrateChoices: a.Choices()}
	if !a.Known {
		out.Notes = append(out.Notes, "the number of servings is not given: per_serving is the whole recipe")
	}
	for i := range a.Lines {
		out.Lines = append(out.Lines, newLineJSON(&a.Lines[i]))
	}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		complete := a.Complete(n)
		whole, part := a.Recipe[n], a.Per(n)
		if whole.Low == 0 && !complete && whole.High == 0 && len(whole.Gaps) > 0 && allGaps(a, whole) {
			continue // no line has a figure: unknown, not zero
		}
		out.PerRecipe[n.Tag()] = figureJSON{whole.Low, whole.Low, whole.High, complete}
		out.PerServing[n.Tag()] = figureJSON{part.Low, part.Low, part.High, complete}
	}
	return out
}

// allGaps reports whether every counted line lacks the figure.
func allGaps(a *engine.Analysis, t engine.Total) bool {
	counted, _ := a.Counted()
	return len(t.Gaps) == counted
}

func newLineJSON(l *engine.Line) lineJSON {
	out := lineJSON{Text: l.Text, Kind: kindName[l.Kind], Status: l.Status.String(), Confidence: l.Confidence, Assumptions: append([]string{}, l.Assumed...)}
	if l.Why != "" {
		out.Assumptions = append(out.Assumptions, l.Status.String()+": "+l.Why)
	}
	if !l.Food.IsZero() {
		out.Food = &foodJSON{strings.TrimPrefix(l.Food.Source(), "USDA "), l.Food.Name()}
	}
	if l.Item.Amount != nil {
		t := l.Item.Amount.Terms[0]
		low, _ := t.Quantity.Low.Float64()
		high, _ := t.Quantity.High.Float64()
		out.Quantity = &rangeJSON{low, high}
		if t.Measure != nil {
			out.Measure = t.Measure.Name
		} else {
			out.Measure = t.Size
		}
	}
	if l.Grams.High > 0 {
		out.Grams = &rangeJSON{l.Grams.Low, l.Grams.High}
	}
	return out
}
