package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// scale multiplies the recipe and its servings.
func (c *Conversation) scale(r grammar.Request) string {
	v := c.inHand()
	if r.Fault != nil {
		return fault(r.Fault)
	}
	opened := ""
	if r.Food != "" && !c.isInHand(r.Food) {
		if opened, v = c.openNamed(r.Food); v == nil {
			return opened
		}
		opened += "\n\n"
	}
	var scaled *engine.Scaled
	var err error
	said := ""
	if r.Servings.Low != nil {
		scaled, err = engine.ScaleToServings(v.recipe, r.Servings.Low)
		said = "scaled to " + r.Servings.String() + " servings"
	} else {
		scaled, err = engine.Scale(v.recipe, r.Factor)
		said = "scaled by " + (grammar.Quantity{Low: r.Factor, High: r.Factor}).String()
	}
	if err != nil {
		return sentence(err.Error()) + ". The recipe is as it was."
	}
	return opened + c.scaled(scaled, said)
}

// isInHand reports whether a recipe's name is that of the one in hand.
func (c *Conversation) isInHand(name string) bool {
	v := c.inHand()
	return v != nil && (strings.EqualFold(v.recipe.Title, name) || c.saved != nil && strings.EqualFold(c.saved.Name, name))
}

// openNamed takes a recipe of the box in hand, and returns the head of what there
// is to say, and nil with the reason if there is no such recipe.
func (c *Conversation) openNamed(name string) (string, *version) {
	if c.memory == nil {
		return noMemory, nil
	}
	was := c.inHand()
	reply := c.open(grammar.Request{Kind: grammar.OpenRecipe, Food: name})
	if v := c.inHand(); v != was {
		head, _, _ := strings.Cut(reply, "\n")
		return head, v
	}
	return reply, nil
}

// scaled shows a scaled recipe in kitchen measures and keeps it.
func (c *Conversation) scaled(s *engine.Scaled, said string) string {
	_, after := c.add(s.Recipe, said)
	out := []string{fmt.Sprintf("Version %d: %s.", len(c.versions), said)}
	for _, l := range s.Lines {
		out = append(out, l.Kitchen)
	}
	for _, n := range s.Notes {
		out = append(out, sentence(n))
	}
	if after.analysis.Known {
		out = append(out, fmt.Sprintf("%s; the figures of a serving stay what they were.", servingsText(after.analysis.Servings)))
	}
	return strings.Join(out, "\n")
}

// scalePan scales the recipe from one pan to another, by volume.
func (c *Conversation) scalePan(from, to string) string {
	a, err := engine.ParsePan(from)
	if err != nil {
		return sentence(err.Error()) + "."
	}
	b, err := engine.ParsePan(to)
	if err != nil {
		return sentence(err.Error()) + "."
	}
	fit, err := engine.FitPan(a, b)
	if err != nil {
		return sentence(err.Error()) + "."
	}
	scaled, err := engine.Scale(c.inHand().recipe, fit.Factor())
	if err != nil {
		return sentence(err.Error()) + ". The recipe is as it was."
	}
	scaled.Notes = slices.DeleteFunc(scaled.Notes, func(n string) bool { return strings.HasPrefix(n, "pan:") }) // FitPan tells of the pans
	out := c.scaled(scaled, fmt.Sprintf("from %s to %s", from, to))
	for _, n := range fit.Notes {
		out += "\n" + sentence(n)
	}
	return out
}
