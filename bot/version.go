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

// version is a state of the recipe in hand. The first is the recipe as pasted.
type version struct {
	recipe   *grammar.Recipe
	told     told
	analysis *engine.Analysis
	said     string // the change that made it, as said
	// cookedGrams is what all of it weighed cooked, in grams; 0 if not told.
	cookedGrams float64
}

// mostVersions bounds how many versions a conversation keeps; the oldest but
// the original is forgotten first.
const mostVersions = 40

// inHand returns the version that is spoken of, or nil.
func (c *Conversation) inHand() *version {
	if len(c.versions) == 0 {
		return nil
	}
	return &c.versions[len(c.versions)-1]
}

// setAside keeps the recipe in hand to compare the next one with.
func (c *Conversation) setAside() {
	if v := c.inHand(); v != nil {
		aside := *v
		c.before = &aside
	}
}

// add makes a version of a changed recipe and returns it with the one before.
func (c *Conversation) add(recipe *grammar.Recipe, said string) (before, after *version) {
	return c.push(version{recipe: recipe, told: c.inHand().told, analysis: c.work(recipe), said: said})
}

// addTold makes a version of the recipe in hand by what is told of its cooking.
func (c *Conversation) addTold(t told, said string) (before, after *version) {
	v := c.inHand()
	return c.push(version{recipe: v.recipe, told: t, analysis: c.workAs(v.recipe, t), said: said, cookedGrams: v.cookedGrams})
}

func (c *Conversation) push(v version) (before, after *version) {
	if len(c.versions) == mostVersions {
		c.versions = slices.Delete(c.versions, 1, 2)
	}
	c.versions = append(c.versions, v)
	c.advice = advice{}
	n := len(c.versions)
	return &c.versions[n-2], &c.versions[n-1]
}

// work gives the figures of a recipe as it is served: cooked as its directions
// tell, or as the one in hand was told to be.
func (c *Conversation) work(recipe *grammar.Recipe) *engine.Analysis {
	if v := c.inHand(); v != nil {
		return c.workAs(recipe, v.told)
	}
	return c.workAs(recipe, told{})
}

// serve is work for figures as assembled that are known.
func (c *Conversation) serve(recipe *grammar.Recipe, assembled *engine.Analysis) *engine.Analysis {
	var t told
	if v := c.inHand(); v != nil {
		t = v.told
	}
	return c.engine.Served(recipe, assembled, t.Told)
}

func (c *Conversation) workAs(recipe *grammar.Recipe, t told) *engine.Analysis {
	return c.engine.Served(recipe, c.engine.Analyse(recipe), t.Told)
}

// undo goes back one version.
func (c *Conversation) undo() string {
	if len(c.versions) < 2 {
		return "There is nothing to undo: this is the recipe as pasted."
	}
	gone := c.versions[len(c.versions)-1]
	before := c.versions[len(c.versions)-2]
	c.versions = c.versions[:len(c.versions)-1]
	c.advice = advice{}
	return fmt.Sprintf("Undone: %s.\n\n%s", gone.said, moved(gone.analysis, before.analysis))
}

// whatChanged lists the versions with what each did to a serving.
func (c *Conversation) whatChanged() string {
	if len(c.versions) == 1 {
		return "Nothing has changed: this is the recipe as pasted."
	}
	out := []string{"Version 1: as pasted"}
	for i := 1; i < len(c.versions); i++ {
		out = append(out, fmt.Sprintf("Version %d: %s", i+1, c.versions[i].said))
	}
	first, last := c.versions[0].analysis, c.versions[len(c.versions)-1].analysis
	return strings.Join(out, "\n") + "\n\nOf " + portion(c.inHand().analysis) + ", from the original to now:\n" + moved(first, last)
}

// changed is the reply to a change: what was done, and only what moved.
func (c *Conversation) changed(before, after *version, notes ...string) string {
	out := fmt.Sprintf("Version %d: %s.", len(c.versions), after.said)
	if before.analysis.Servings != after.analysis.Servings {
		out += fmt.Sprintf(" A serving is now 1 of %s.", trimZero(after.analysis.Servings))
	}
	if len(notes) > 0 {
		out += "\n" + strings.Join(notes, "\n")
	}
	out += "\n\n" + moved(before.analysis, after.analysis)
	return strings.Join(append([]string{out}, engine.AllergenMoves(before.analysis, after.analysis).Sentences()...), "\n")
}

func allergenList(list []fooddata.Allergen) string {
	var names []string
	for _, a := range list {
		names = append(names, a.String())
	}
	return strings.Join(names, ", ")
}

const nothingMoved = "No figure moves visibly."

// moved writes the figures of a serving that differ visibly, before → after,
// at most blockWidth columns wide.
func moved(before, after *engine.Analysis) string {
	var rows []string
	all := engine.Compare(before, after)
	open := unread(before) || unread(after)
	for _, r := range shown {
		d := all[r.nutrient]
		d.Complete = d.Complete && !open
		if number(d.Before, r.nutrient) == number(d.After, r.nutrient) {
			continue
		}
		label := strings.TrimSpace(r.label)
		if label == "added" {
			label = "Added sugars"
		}
		rows = append(rows, twoValues(label, d, r.nutrient))
		if r.nutrient == fooddata.Carbohydrate && engine.Choices(d.Before) != engine.Choices(d.After) {
			rows = append(rows, arrow("  Choices of 15 g", choices(engine.Choices(d.Before)), choices(engine.Choices(d.After)), ""))
		}
	}
	if len(rows) == 0 {
		return nothingMoved
	}
	return strings.Join(rows, "\n")
}

func twoValues(label string, d engine.Difference, n fooddata.Nutrient) string {
	if !d.Complete {
		label += ", at least"
	}
	return arrow(label, number(d.Before, n), number(d.After, n), n.Unit())
}

// arrow writes "label  before → after unit", the unit ending the line.
func arrow(label, before, after, unit string) string {
	right := strings.TrimRight(before+" → "+after+" "+unit, " ")
	return pad(label, max(blockWidth-width(right), width(label)+1)) + right
}

// changeIn writes a relative change, empty where it rounds to nothing.
func changeIn(share float64) string {
	p := math.Round(share * 100)
	switch {
	case p == 0:
		return ""
	case p > 999:
		return ">999%"
	}
	return fmt.Sprintf("%+.0f%%", p)
}

// sideBySide writes all figures of two analyses with the difference, and the
// lines that make the largest differences.
func sideBySide(all [fooddata.NumNutrients]engine.Difference, before, after *engine.Analysis, from, to string) string {
	var rows, lacking []string
	for _, r := range shown {
		d := all[r.nutrient]
		if before.Unknown(r.nutrient) || after.Unknown(r.nutrient) {
			lacking = append(lacking, "no figure for "+r.nutrient.Name())
			continue
		}
		if !d.Complete {
			lacking = append(lacking, r.nutrient.Name()+" is at least that")
		}
		label := strings.TrimSpace(r.label)
		if label == "added" {
			label = "Added sugars"
		}
		share := ""
		if d.Before > 0 && math.Abs(d.Change()) > 1e-9 {
			share = changeIn(d.Change() / d.Before)
		}
		value := pad("", 7-width(number(d.Before, r.nutrient))) + number(d.Before, r.nutrient)
		value += pad("", 7-width(number(d.After, r.nutrient))) + number(d.After, r.nutrient)
		value += pad("", 6-width(share)) + share
		label += " " + r.nutrient.Unit()
		rows = append(rows, strings.TrimRight(pad(label, max(blockWidth-width(value), width(label)+1))+value, " "))
	}
	of := "of"
	if portion(before) != portion(after) {
		of = portion(after) + " of"
	}
	out := fmt.Sprintf("%s of %s, then %s %s:\n%s", sentence(portion(before)), from, of, to, strings.Join(rows, "\n"))
	if len(lacking) > 0 {
		out += "\nThe table lacks a figure for some ingredient: " + strings.Join(lacking, "; ") + "."
	}
	if unread(before) || unread(after) {
		out += "\nSome line is asked about and in no figure, so each is at least that: say \"lines\"."
	}
	for _, n := range []fooddata.Nutrient{fooddata.Energy, fooddata.Sodium, fooddata.AddedSugars, fooddata.SaturatedFat, fooddata.Fibre} {
		d := all[n]
		if number(d.Before, n) == number(d.After, n) || len(d.Lines) == 0 {
			continue
		}
		var parts []string
		for _, l := range d.Lines[:min(3, len(d.Lines))] {
			parts = append(parts, fmt.Sprintf("%s %s", l.Name, signed(l.Change, n)))
		}
		out += fmt.Sprintf("\n%s: %s", sentence(n.Name()), strings.Join(parts, "; "))
	}
	return out
}
