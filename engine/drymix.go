package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
)

// A dry mix weighs and holds something else than what is made of it: a cup of it
// has the salt of four cups of sauce. It never stands for the ready one.

// madeFromMix are the groups that hold dry mixes beside what is made of them.
var madeFromMix = setOf("Soups, Sauces, and Gravies", "Beverages", "Sweets", "Baked Products", "Dairy and Egg Products")

// isDryMix finds a description of a mix or powder; ofNoMix one that has those
// words for something else.
var (
	isDryMix = regexp.MustCompile(`\b(dry|mix|powder|powdered)\b`)
	ofNoMix  = regexp.MustCompile(`^Cocoa|prepared|dry heat|dry[- ]roasted|wine|crumbs|yeast|Leavening|trail mix|made from|reconstituted`)
)

// drySaid are words by which a line asks for the dry form.
var drySaid = wordSet("mix dry dried powder powdered packet envelope sachet instant granule cube bouillon dehydrated crystal seasoning base premix starter")

// forDryMix reports whether f is a dry mix that the words do not ask for.
func (q query) forDryMix(f fooddata.Food) bool {
	if !madeFromMix[f.Group()] || !isDryMix.MatchString(strings.ToLower(f.Description())) || ofNoMix.MatchString(f.Description()) || q.boxed {
		return false
	}
	said := func(words []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return drySaid[w] })
	}
	return !said(q.words) && !said(q.state) && !slices.ContainsFunc(q.tails, said) && !slices.ContainsFunc(q.aside, said)
}

// forMadeUp reports whether f is made up from a mix that the words ask for dry.
func (q query) forMadeUp(f fooddata.Food) bool {
	if !madeFromMix[f.Group()] || !strings.Contains(f.Description(), "prepared") || strings.Contains(f.Description(), "unprepared") || slices.Contains(q.words, "prepared") {
		return false
	}
	return containsAny(slices.Concat(append([][]string{q.words, q.state}, q.tails...)...), []string{"dry", "dried", "powder", "powdered", "mix", "unprepared"})
}

// alsoDrink describes powders whose name is also that of what is made of them.
var alsoDrink = regexp.MustCompile(`^(Gelatin desserts|Beverages, (Malted drink|Cocoa mix))`)

// dryBroth describes bouillon that is not made up yet. Nobody measures that by the
// cup: 2 cups would have 46 g of sodium.
var dryBroth = regexp.MustCompile(`^Soup, .*\b(broth|bouillon)\b.*\bdry$`)

// dryOrReady asks whether a powder or what is made of it is meant, where the name
// is that of both and it is measured by more than the spoon: "1 cup malted milk".
func (e *Engine) dryOrReady(l *Line, q query) bool {
	if !inVolume(l.Item.Amount) || spoon(l.Item.Amount.Terms[0].Measure.Name) {
		return false
	}
	d := l.Food.Description()
	if dryBroth.MatchString(d) {
		l.Choices = nil
		for _, made := range []string{"chicken broth made from bouillon", "beef broth made from bouillon"} {
			if entry, ok := e.lookUp(made); ok {
				l.Choices = append(l.Choices, entry.Food)
			}
		}
		if strings.Contains(d, "beef") {
			slices.Reverse(l.Choices)
		}
		l.refuse(AskFood, "whether it is made up with water is not said; dry bouillon is told in cubes, spoons or grams")
		return true
	}
	if !alsoDrink.MatchString(d) || !q.forDryMix(l.Food) {
		return false
	}
	l.Choices = append([]fooddata.Food{l.Food}, e.others(l.Food)...)
	l.refuse(AskFood, "whether "+strings.Join(l.Item.Words, " ")+" is the powder or ready made is not said")
	return true
}
