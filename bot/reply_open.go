package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
)

// What a reply says of readings that are left open, and its notes.

// mostChanges is how many open readings are worked out in a reply.
const mostChanges = 5

// open says what the readings left open would change in a serving.
func open(a *engine.Analysis) []string {
	var out []string
	for _, c := range a.Changes {
		if len(out) == mostChanges {
			break
		}
		if d := delta(c); d != nothing {
			out = append(out, fmt.Sprintf("%s: %s", sentence(c.What), d))
		}
	}
	return out
}

// delta writes what changes: always energy, the others where it shows.
func delta(c engine.Change) string {
	parts := []string{signed(c.Delta[fooddata.Energy], fooddata.Energy)}
	for _, w := range []struct {
		n     fooddata.Nutrient
		least float64
		name  string
	}{{fooddata.Carbohydrate, 0.5, "carbohydrate"}, {fooddata.AddedSugars, 0.5, "added sugars"}, {fooddata.Fat, 0.5, "fat"}, {fooddata.SaturatedFat, 0.3, "saturated fat"},
		{fooddata.Sodium, 10, "sodium"}, {fooddata.Potassium, 50, "potassium"}} {
		if d := c.Delta[w.n]; d >= w.least || d <= -w.least {
			parts = append(parts, signed(d, w.n)+" "+w.name)
		}
	}
	return strings.Join(parts, ", ")
}

// nothing is a change that does not show.
var nothing = "+" + value(0, fooddata.Energy)

func signed(v float64, n fooddata.Nutrient) string {
	if v < 0 && number(-v, n) != number(0, n) {
		return "-" + value(-v, n)
	}
	return "+" + value(max(v, 0), n)
}

func notes(a *engine.Analysis) []string {
	var out []string
	for _, n := range a.Notes {
		out = append(out, sentence(n)+".")
	}
	if len(a.Cooking) > 0 {
		how, _, _ := strings.Cut(a.Cooking[0], ";")
		out = append(out, sentence(how)+". "+lessened(a.Lessened)+"; say \"cooking\" for each food.")
	}
	if gaps := gapNames(a); gaps != "" {
		out = append(out, "\"At least\": the table has no figure for "+gaps+".")
	}
	return out
}

// gapNames says which foods lack which of the figures shown.
func gapNames(a *engine.Analysis) string {
	var parts []string
	for _, r := range shown {
		if a.Complete(r.nutrient) {
			continue
		}
		var foods []string
		for _, i := range a.Recipe[r.nutrient].Gaps {
			if name := a.Lines[i].Food.Name(); !slices.Contains(foods, name) {
				foods = append(foods, name)
			}
		}
		more := ""
		if len(foods) > 3 {
			more = fmt.Sprintf(" and %d more", len(foods)-3)
			foods = foods[:3]
		}
		parts = append(parts, fmt.Sprintf("%s of %s%s", r.nutrient.Name(), strings.Join(foods, ", "), more))
	}
	return strings.Join(parts, "; ")
}

// lessened says to which foods retention factors were applied.
func lessened(l engine.Lessened) string {
	var said []string
	if len(l.Vitamins) > 0 {
		said = append(said, "vitamins and minerals of "+shortList(l.Vitamins))
	}
	if len(l.Alcohol) > 0 {
		said = append(said, "the alcohol of "+shortList(l.Alcohol))
	}
	if len(said) == 0 {
		return "No USDA retention factor applies: vitamins, minerals and alcohol are counted as uncooked"
	}
	are := " are"
	if len(l.Vitamins) == 0 {
		are = " is"
	}
	return sentence(strings.Join(said, " and ")) + are + " less for it by USDA retention factors"
}

// shortList joins names, of more than three the first three and how many more.
func shortList(names []string) string {
	if n := len(names); n > 3 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:3], "; "), n-3)
	}
	return strings.Join(names, "; ")
}
