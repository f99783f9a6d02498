package bot

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// told is what was said of a recipe's cooking beside its directions.
type told struct {
	engine.Told
	words []string // the requests that say it, by which it is kept
}

var keptNamed = map[string]engine.KeptKind{"marinade": engine.KeptMarinade, "brine": engine.KeptMarinade, "water": engine.KeptWater, "fat": engine.KeptFat}

// cooked is t with another way of cooking. It fails for words that name none.
func (t told) cooked(words string) (told, bool) {
	cooking, ok := engine.CookingNamed(words)
	if !ok {
		return t, false
	}
	return told{engine.Told{Cooking: &cooking, Kept: t.Kept}, t.without(grammar.Cook, "", words)}, true
}

// keeping is t with another share, 0 to 1, of what is thrown away.
func (t told) keeping(share float64, what string) (told, bool) {
	kind, ok := keptNamed[what]
	if !ok || share < 0 || share > 1 {
		return t, false
	}
	kept := maps.Clone(t.Kept)
	if kept == nil {
		kept = make(map[engine.KeptKind]float64)
	}
	kept[kind] = share
	return told{engine.Told{Cooking: t.Cooking, Kept: kept}, t.without(grammar.KeepShare, what, fmt.Sprintf("keep %g%% of the %s", share*100, what))}, true
}

// without are the words of t but those of the same kind, with added at the end.
func (t told) without(kind grammar.RequestKind, food, added string) []string {
	var words []string
	for _, w := range t.words {
		if r, err := grammar.ParseRequest(w); err != nil || r.Kind != kind || food != "" && r.Food != food {
			words = append(words, w)
		}
	}
	return append(words, added)
}

// toldBy reads kept words again; what is not understood any more is left out.
func toldBy(words []string) told {
	var t told
	for _, w := range words {
		r, err := grammar.ParseRequest(w)
		switch {
		case err != nil:
		case r.Kind == grammar.Cook:
			t, _ = t.cooked(r.Food)
		case r.Kind == grammar.KeepShare:
			share, _ := r.Factor.Float64()
			t, _ = t.keeping(share, r.Food)
		}
	}
	return t
}

// weighed are the words that say what all of it weighed cooked, in grams.
func weighed(grams float64) string {
	return "it weighed " + strconv.FormatFloat(grams, 'f', -1, 64) + " g cooked"
}

// weighedBy reads kept words again for a cooked weight in grams; 0 if they tell
// none.
func weighedBy(words []string) (grams float64) {
	for _, w := range words {
		if r, err := grammar.ParseRequest(w); err == nil && r.Kind == grammar.CookedWeight && r.Factor != nil {
			grams, _ = r.Factor.Float64()
		}
	}
	return grams
}

// cookedWords are the requests that say all that was told of a version's cooking,
// by which it is kept in the box.
func (v version) cookedWords() []string {
	if v.cookedGrams <= 0 {
		return v.told.words
	}
	return append(slices.Clone(v.told.words), weighed(v.cookedGrams))
}

// cookedWeight takes what all of it weighed cooked, as a version of the same
// recipe, and gives the figures of 100 g.
func (c *Conversation) cookedWeight(g *big.Rat) string {
	weight, _ := g.Float64()
	v := *c.inHand()
	per100, yield, err := v.analysis.CookedWeight(weight)
	if err != nil {
		return sentence(err.Error()) + "."
	}
	var rows []string
	for _, r := range shown {
		rows = append(rows, strings.TrimRight(columns(r.label, value(per100(r.nutrient).Low, r.nutrient), ""), "\n"))
	}
	figures := fmt.Sprintf("100 g as cooked (%s g in all, %.0f %% of the weight as assembled):\n%s", gramsOf(weight), yield, strings.Join(rows, "\n"))
	if v.cookedGrams == weight {
		return figures
	}
	offered := c.advice
	v.cookedGrams, v.said = weight, "it weighed "+gramsOf(weight)+" g cooked"
	c.push(v)
	c.advice = offered // the recipe is the same
	return fmt.Sprintf("Version %d: %s.\n\n%s", len(c.versions), v.said, figures)
}

// cook applies a method of cooking that is told.
func (c *Conversation) cook(words string) string {
	t, ok := c.inHand().told.cooked(words)
	if !ok {
		return fmt.Sprintf("%q is no way of cooking that is known here. Say for instance \"baked\", \"simmered 45 minutes\" or \"raw\".", words)
	}
	before, after := c.addTold(t, words)
	out := []string{fmt.Sprintf("Version %d: taken as %s.", len(c.versions), words), movedMore(before.analysis, after.analysis)}
	if how := cookingReply(after.analysis); how != "" {
		out = append(out, how)
	}
	return strings.Join(out, "\n\n")
}

// keepShare sets which share of what is thrown away is eaten after all.
func (c *Conversation) keepShare(r grammar.Request) string {
	share, _ := r.Factor.Float64()
	t, ok := c.inHand().told.keeping(share, r.Food)
	if !ok {
		return "A share is from 0 to 100 %. The recipe is as it was."
	}
	before, after := c.addTold(t, fmt.Sprintf("%.0f %% of the %s kept", share*100, r.Food))
	return fmt.Sprintf("Version %d: %s.\n\n%s", len(c.versions), after.said, moved(before.analysis, after.analysis))
}
