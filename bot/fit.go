package bot

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// limitOf turns the words of a limit into one on a nutrient.
func limitOf(l grammar.Limit) (engine.Limit, string) {
	name := l.Nutrient
	if name == "" && l.Unit == "kcal" {
		name = "kcal"
	}
	if called := calledTogether[strings.Join(fooddata.Normalise(name), " ")]; called == "net carb" {
		return engine.Limit{}, "Labels define no net carbs: set a limit for carbohydrate, for fibre or for both."
	}
	n, ok := nutrientNamed(name)
	if !ok {
		return engine.Limit{}, fmt.Sprintf("%q is no nutrient that is known here.", l.Nutrient)
	}
	if l.Amount == nil {
		return engine.Limit{}, "No amount is given for " + n.Name() + "."
	}
	v, _ := l.Amount.Float64()
	if strings.EqualFold(name, "salt") && l.Unit == "g" { // of a European label
		v /= saltOfSodium
	}
	switch {
	case l.Unit == "" || l.Unit == n.Unit():
	case l.Unit == "g" && n.Unit() == "mg":
		v *= 1000
	case l.Unit == "mg" && n.Unit() == "g":
		v /= 1000
	case l.Unit == "mg" && n.Unit() == "µg":
		v *= 1000
	default:
		return engine.Limit{}, fmt.Sprintf("%s is counted in %s, not in %s.", n.Name(), n.Unit(), l.Unit)
	}
	if v <= 0 {
		return engine.Limit{}, "A limit must be above zero."
	}
	return engine.Limit{Nutrient: n, AtLeast: l.AtLeast, Amount: v}, ""
}

func limitText(l engine.Limit) string {
	if l.AtLeast {
		return "at least " + value(l.Amount, l.Nutrient)
	}
	return "at most " + value(l.Amount, l.Nutrient)
}

// fit solves for amounts, or for the servings, that keep a serving within limits.
func (c *Conversation) fit(r grammar.Request) string {
	var limits []engine.Limit
	for _, l := range r.Limits {
		limit, wrong := limitOf(l)
		if wrong != "" {
			return wrong
		}
		limits = append(limits, limit)
	}
	if !r.BySize && len(r.Foods) == 0 && len(limits) == 1 {
		if _, ok := goalFor(limits[0]); ok {
			return c.within(limits[0])
		}
	}
	if r.BySize || len(r.Foods) == 0 {
		return c.fitServings(limits)
	}
	if !c.inHand().analysis.Known {
		return "A limit goes by a serving, and it is not said how many the recipe serves. Say \"servings 6\" first."
	}
	var lines []int
	for _, food := range r.Foods {
		at, why := c.lineNamed(food)
		if at < 0 {
			return why
		}
		lines = append(lines, at)
	}
	return c.fitLines(lines, limits, r.Fill)
}

// fitLines changes the lines for one limit after the other; all must hold in the
// end, else nothing is changed. With fill there may be more of them than now.
func (c *Conversation) fitLines(lines []int, limits []engine.Limit, fill bool) string {
	v := c.inHand()
	if !fill && len(limits) == 1 {
		if holds, sure := limits[0].Holds(v.analysis); holds && sure {
			return fmt.Sprintf("A serving keeps within that as it is: %s (%s asked).", figureWords(v.analysis, limits[0].Nutrient, 1), limitText(limits[0]))
		}
	}
	water := ""
	recipe, fitted := v.recipe, make(map[int]string) // the kitchen amount of each line, by its index in v.recipe
	for _, limit := range limits {
		if holds, _ := limit.Holds(c.work(recipe)); holds && len(limits) > 1 {
			continue
		}
		var at []int
		for _, line := range lines {
			if i := slices.IndexFunc(recipe.Lines, func(l grammar.Line) bool { return l.Number == v.recipe.Lines[line].Number }); i >= 0 {
				at = append(at, i)
			}
		}
		f, err := c.engine.FitLines(recipe, at, limit, c.work)
		if err != nil {
			return sentence(err.Error()) + ". The recipe is as it was."
		}
		for _, l := range f.Lines {
			number := recipe.Lines[l.Line].Number
			fitted[slices.IndexFunc(v.recipe.Lines, func(was grammar.Line) bool { return was.Number == number })] = l.Kitchen
		}
		recipe = f.Recipe
		if f.Water != "" && water != "" {
			water += " and "
		}
		water += f.Water
	}
	after := c.work(recipe)
	var then []string
	for _, limit := range limits {
		got := fmt.Sprintf("%s (%s asked)", figureWords(after, limit.Nutrient, 1), limitText(limit))
		if holds, _ := limit.Holds(after); !holds {
			return fmt.Sprintf("One amount does not meet all of that: with the other limits kept, a serving has %s. The recipe is as it was.", got)
		}
		then = append(then, got)
	}
	if len(fitted) == 0 {
		return fmt.Sprintf("A serving keeps within that as it is: %s.", strings.Join(then, ", "))
	}
	var did []string
	for _, line := range lines {
		if kitchen, ok := fitted[line]; ok {
			item := v.recipe.Lines[line].Items[0]
			did = append(did, fmt.Sprintf("%s %s → %s", strings.Join(item.Words, " "), c.amountWords(*item.Amount), kitchen))
		}
	}
	notes := []string{fmt.Sprintf("%s then has %s.", sentence(portion(after)), strings.Join(then, ", "))}
	if water != "" {
		did = append(did, "with "+water)
		notes[0] += " Water stands in for the broth that is less, so that the dish does not cook dry; a low-sodium kind keeps more of the taste."
	}
	for line, kitchen := range fitted {
		kept, refused := c.keptHere(line, engine.Edit{Kind: engine.EditAmount, Line: line, Item: grammar.ParseLine(kitchen + " salt").Items[0]})
		if refused != "" {
			return refused
		}
		notes = append(notes, kept...)
	}
	slices.Sort(notes[1:])
	was, now := c.add(recipe, strings.Join(did, ", "))
	return c.changed(was, now, notes...)
}

// fitServings proposes into how many servings to divide the recipe.
func (c *Conversation) fitServings(limits []engine.Limit) string {
	a := c.inHand().analysis
	n := 0
	for _, limit := range limits {
		of, err := engine.FitServings(a, limit)
		switch {
		case err != nil:
			return sentence(err.Error()) + "."
		case n == 0 || !limit.AtLeast && of > n:
			n = of
		}
	}
	var each []string
	for _, limit := range limits {
		per := a.Recipe[limit.Nutrient].Low / float64(n)
		if limit.AtLeast && per < limit.Amount-1e-9 {
			return fmt.Sprintf("It cannot be: %d servings keep within the rest, and each then has only %s (%s asked).", n, named(per, limit.Nutrient), limitText(limit))
		}
		each = append(each, fmt.Sprintf("%s (%s asked)", named(per, limit.Nutrient), limitText(limit)))
	}
	out := fmt.Sprintf("Divide the recipe into %s: each then has %s and weighs %s g as assembled. Say \"servings %d\" to take it.",
		servingsText(float64(n)), strings.Join(each, ", "), gramsOf(a.Grams.Low/float64(n)), n)
	if share := shareWithin(a, limits); a.Known && share < 1 {
		out += fmt.Sprintf("\nOr keep the %s and eat %.0f %% of one, %s g.", servingsText(a.Servings), math.Floor(share*100), gramsOf(a.Grams.Low/a.Servings*share))
	}
	for _, limit := range limits {
		if !limit.AtLeast && (!a.Complete(limit.Nutrient) || unread(a)) {
			out += fmt.Sprintf("\n%s is \"at least\" that: some ingredient is not in the figure, so the true amount may be higher.", sentence(limit.Nutrient.Name()))
		}
	}
	return out
}

// shareWithin is the share of a serving, at most 1, that keeps within the limits;
// 1 if one of them asks for at least so much.
func shareWithin(a *engine.Analysis, limits []engine.Limit) float64 {
	share := 1.0
	for _, limit := range limits {
		if limit.AtLeast {
			return 1
		}
		share = min(share, limit.Amount/a.Per(limit.Nutrient).Low)
	}
	return share
}
