package bot

import (
	"fmt"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// about answers requests that ask about the recipe in hand as a whole, or make
// a version of all of it.
func (c *Conversation) about(r grammar.Request) string {
	v := c.inHand()
	if v != nil && needsFigures[r.Kind] {
		if counted, _ := v.analysis.Counted(); counted == 0 {
			return "No line of the recipe is counted, so there are no figures. Say \"lines\" to see them."
		}
	}
	switch r.Kind {
	case grammar.Undo:
		return c.undo()
	case grammar.WhatChanged:
		return c.whatChanged()
	case grammar.BackTo:
		return c.backTo(r.Numbers)
	case grammar.Suitable:
		return c.suits(r)
	case grammar.ShowRecipe:
		return c.recipeReply()
	case grammar.KeepShare:
		return c.keepShare(r)
	case grammar.CompareBefore:
		if c.before == nil {
			return "Only one recipe has been pasted here. Paste the other, then say \"compare with the recipe before\"."
		}
		return sideBySide(engine.CompareRecipes(c.before.analysis, v.analysis), c.before.analysis, v.analysis, name(c.before.analysis), name(v.analysis))
	case grammar.CompareRecipe:
		return c.compareVersions(r.Numbers)
	case grammar.Brings:
		return c.bringsAll(r.Nutrient)
	case grammar.Label:
		return labelReply(v.analysis)
	case grammar.Warnings:
		return cautionsReply(v.analysis, v.recipe.Method)
	case grammar.Claim:
		if r.Food == "" {
			return c.claims(r.New)
		}
		return c.claim(r.Food)
	case grammar.Cook:
		return c.cook(r.Food)
	case grammar.ShowCooking:
		if len(v.analysis.Cooking) == 0 {
			return "The directions tell no cooking, so nothing is taken off for it. Say for instance \"baked 30 minutes\"."
		}
		return cookingReply(v.analysis)
	case grammar.CookedWeight:
		return c.cookedWeight(r.Factor)
	case grammar.Fit:
		return c.fit(r)
	case grammar.Scale:
		return c.scale(r)
	case grammar.ScalePan:
		return c.scalePan(r.Amounts[0], r.Amounts[1])
	case grammar.Cut:
		return c.cut(r.Food)
	case grammar.ApplyAdvice:
		return c.apply(r.Numbers)
	case grammar.ReplaceWhat, grammar.SuitDiet:
		return c.replace(r)
	case grammar.SetTarget:
		return c.setTarget(r)
	case grammar.CheckTarget:
		return c.checkTarget(r.Food)
	}
	return "That is not known here. Say \"help\"."
}

// needsFigures are the requests that have no answer where nothing is counted.
var needsFigures = map[grammar.RequestKind]bool{grammar.KeepShare: true, grammar.CompareBefore: true, grammar.CompareRecipe: true, grammar.Brings: true, grammar.Label: true,
	grammar.Claim: true, grammar.Cook: true, grammar.ShowCooking: true, grammar.CookedWeight: true, grammar.Fit: true, grammar.Cut: true, grammar.CheckTarget: true, grammar.Suitable: true, grammar.RecipeFigure: true}

func (c *Conversation) compareVersions(numbers []int) string {
	if len(numbers) == 0 {
		if len(c.versions) == 1 {
			return "Nothing has changed: this is the recipe as pasted."
		}
		return compareTwo(c.versions[0].analysis, c.inHand().analysis, "the original", "this version")
	}
	if len(numbers) == 1 {
		numbers = append(numbers, len(c.versions))
	}
	for _, n := range numbers[:2] {
		if n < 1 || n > len(c.versions) {
			return fmt.Sprintf("There is no version %d: there are %d. Say \"what changed\" to see them.", n, len(c.versions))
		}
	}
	return compareTwo(c.versions[numbers[0]-1].analysis, c.versions[numbers[1]-1].analysis, fmt.Sprintf("version %d", numbers[0]), fmt.Sprintf("version %d", numbers[1]))
}

func compareTwo(before, after *engine.Analysis, from, to string) string {
	return sideBySide(engine.Compare(before, after), before, after, from, to)
}

// bringsAll lists every line's share of a nutrient, the largest first.
func (c *Conversation) bringsAll(words string) string {
	if all, several := figuresAsked(words); several {
		var out []string
		for _, f := range all {
			for _, n := range f.nutrients {
				out = append(out, c.bringsAll(n.Name()))
			}
		}
		return strings.Join(out, "\n\n")
	}
	n, ok := nutrientNamed(words)
	if !ok {
		return fmt.Sprintf("%q is no nutrient that is known here. Ask like \"what brings the sodium\".", words)
	}
	a := c.inHand().analysis
	ns := ordinals(a)
	out := []string{fmt.Sprintf("%s in %s: %s", sentence(n.Name()), portion(a), atLeast(a, n)+value(a.Per(n).Low, n))}
	for _, s := range a.Brings(n) {
		out = append(out, fmt.Sprintf("line %d  %s: %s, %.0f %%", ns[s.Line], a.Lines[s.Line].Food.Name(), value(s.Amount, n), s.Share*100))
	}
	for _, i := range a.Recipe[n].Gaps {
		out = append(out, fmt.Sprintf("line %d  %s: not known", ns[i], a.Lines[i].Food.Name()))
	}
	if len(out) == 1 {
		return fmt.Sprintf("No line brings %s.", n.Name())
	}
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Ask {
			out = append(out, fmt.Sprintf("line %d  %s: asked about, not counted", ns[i], l.Text))
		}
	}
	return strings.Join(out, "\n")
}

func labelReply(a *engine.Analysis) string {
	out := []string{fmt.Sprintf("Rounded as for a declaration (21 CFR 101.9(c)), for %s:", portion(a))}
	for _, l := range a.Label() {
		name := strings.Repeat("  ", l.Indent) + l.Name
		if l.AtLeast && l.Amount != "not known" {
			name += ", at least"
		}
		line := pad(name, max(valueEnd-width(l.Amount), width(name)+1)) + l.Amount
		if l.Percent != "" {
			line = pad(line, max(blockWidth-width(l.Percent), width(line)+1)) + l.Percent
		}
		out = append(out, line)
	}
	return strings.Join(append(out, "Calculated from tables: a label on a package needs more than this."), "\n") + transFatNote([]fooddata.Nutrient{fooddata.TransFat}, a.Lines)
}

func cautionsReply(a *engine.Analysis, method []string) string {
	list := a.Cautions(method)
	if len(list) == 0 {
		return "The ingredients that were read call for no caution that is known here. That clears nothing: check each label."
	}
	return strings.Join(tellCautions(list), "\n")
}

// claim answers whether something may be said of the dish on a label.
func (c *Conversation) claim(words string) string {
	v := c.inHand()
	said, reference, _ := strings.Cut(words, " as a ")
	if reference == "" {
		said, reference, _ = strings.Cut(words, " as ")
	}
	verdict := v.analysis.MayClaim(engine.ClaimRequest{Claim: said, Reference: reference, Original: c.versions[0].analysis, CookedGrams: v.cookedGrams})
	switch {
	case verdict.Refused != "":
		return verdict.Refused
	case !verdict.Known:
		return strings.Join(append([]string{fmt.Sprintf("%q is no claim that is known here. Ask like \"can I call it high in fibre\", \"low sodium\" or \"a good source of calcium\".", said)}, verdict.Needs...), "\n")
	}
	out := []string{fmt.Sprintf("%s: no, not as it stands.", sentence(said))}
	switch {
	case verdict.Allowed:
		out[0] = fmt.Sprintf("%s: yes, by the figures, under what follows.", sentence(said))
	case verdict.AskReference && verdict.ReferenceUsed == "":
		out[0] = fmt.Sprintf("%s: that is open until the reference amount is said.", sentence(said))
	case verdict.AskServings:
		out[0] = fmt.Sprintf("%s: that is open until it is said how many it serves.", sentence(said))
	case verdict.Open:
		out[0] = fmt.Sprintf("%s: that is open: what is known does not settle it.", sentence(said))
	}
	out = append(out, verdict.Needs...)
	for _, condition := range verdict.Conditions {
		out = append(out, "Only if: "+condition)
	}
	for _, d := range verdict.Disclosure {
		out = append(out, sentence(d))
	}
	if verdict.AskReference {
		example := "soup"
		switch {
		case len(verdict.References) > 0:
			example = verdict.References[0].Name
		case v.analysis.Known && v.analysis.Grams.Low/v.analysis.Servings >= mainDishGrams:
			example = "main dish"
		}
		out = append(out, fmt.Sprintf("Say it with the claim: \"can I call it %s as %s\".", said, example))
	}
	if verdict.AskServings {
		out = append(out, "How many does it serve? Say \"servings 6\", then ask again.")
	}
	if verdict.AskOriginal {
		out = append(out, "That compares with an original: change the recipe in hand first, then ask.")
	}
	if verdict.Rule != "" {
		out = append(out, "Rule: "+verdict.Rule+".")
	}
	return strings.Join(append(out, engine.ClaimScope), "\n")
}

// mainDishGrams is the least that a main dish weighs: 6 ounces (21 CFR 101.13(m)).
const mainDishGrams = 170

// name is the title of a recipe, for a sentence.
func name(a *engine.Analysis) string {
	if a.Title == "" {
		return "the untitled recipe"
	}
	return a.Title
}

// cookingReply says how each food was taken as cooked.
func cookingReply(a *engine.Analysis) string {
	var out []string
	for _, n := range a.Cooking {
		out = append(out, sentence(n)+".")
	}
	return strings.Join(out, "\n")
}

// movedMore is moved with the vitamins that cooking changes.
func movedMore(before, after *engine.Analysis) string {
	all := engine.Compare(before, after)
	open := unread(before) || unread(after)
	var rows []string
	for _, n := range []fooddata.Nutrient{fooddata.Energy, fooddata.VitaminC, fooddata.Folate, fooddata.Thiamin, fooddata.Riboflavin, fooddata.Niacin, fooddata.VitaminB6, fooddata.VitaminB12,
		fooddata.VitaminA, fooddata.Calcium, fooddata.Iron, fooddata.Potassium, fooddata.Sodium, fooddata.Alcohol} {
		if d := all[n]; number(d.Before, n) != number(d.After, n) {
			d.Complete = d.Complete && !open
			rows = append(rows, twoValues(sentence(n.Name()), d, n))
		}
	}
	if len(rows) == 0 {
		return nothingMoved
	}
	return strings.Join(rows, "\n")
}
