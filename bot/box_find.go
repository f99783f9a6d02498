package bot

import (
	"errors"
	"fmt"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
	"pottle/store"
)

// Recipes are found in the box.

// boxWords drops the words that only say that recipes are meant.
func boxWords(s string) string {
	var kept []string
	for _, w := range strings.Fields(strings.ToLower(s)) {
		switch w {
		case "recipes", "recipe", "all", "with", "the", "our", "saved", "everything", "of":
		default:
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

// noSuch says that there is no such recipe, and names some that begin alike.
func (c *Conversation) noSuch(name string) string {
	words := strings.Fields(boxWords(name))
	if len(words) > 0 {
		if found, err := c.memory.Team.FindRecipes(c.ctx, store.Query{Words: words[0], Max: 5}); err == nil && len(found.Recipes) > 0 {
			var names []string
			for _, r := range found.Recipes {
				names = append(names, r.Name)
			}
			return fmt.Sprintf("There is no recipe %q. Is it %s?", name, strings.Join(names, ", or "))
		}
	}
	return fmt.Sprintf("There is no recipe %q. Say \"list\" to see the box.", name)
}

// mostListed is how many recipes a reply lists.
const mostListed = 25

func (c *Conversation) findBy(r grammar.Request) string {
	q := store.Query{Words: boxWords(r.Food)}
	for _, l := range r.Limits {
		limit, wrong := limitOf(l)
		if wrong != "" {
			return wrong
		}
		q.Limits = append(q.Limits, storeLimit(limit))
	}
	return c.find(q)
}

func (c *Conversation) find(q store.Query) string {
	q.Max = mostListed
	found, err := c.memory.Team.FindRecipes(c.ctx, q)
	if err != nil {
		return said(err)
	}
	if len(found.Recipes) == 0 && q.Words != "" && len(q.Limits) == 0 { // the words may be a tag
		q.Tags, q.Words = []string{strings.TrimSuffix(q.Words, "s")}, ""
		if tagged, err := c.memory.Team.FindRecipes(c.ctx, q); err == nil {
			found = tagged
		}
	}
	if len(found.Recipes) == 0 {
		return "No saved recipe fits. Say \"list\" for all."
	}
	var out []string
	for _, r := range found.Recipes {
		out = append(out, boxLine(r))
	}
	if found.Total > len(found.Recipes) {
		out = append(out, fmt.Sprintf("The first %d of %d.", len(found.Recipes), found.Total))
	}
	if found.Maybe > 0 {
		out = append(out, fmt.Sprintf("%d more may fit: their figure is only \"at least\".", found.Maybe))
	}
	return strings.Join(out, "\n")
}

// boxLine is one recipe in a list.
func boxLine(r store.RecipeHead) string {
	s := fmt.Sprintf("%s (%s)", r.Name, versionCount(r.Count))
	if kcal, ok := r.Figures[fooddata.Energy.Tag()]; ok {
		s += ": " + value(kcal.Value, fooddata.Energy)
		for _, n := range []fooddata.Nutrient{fooddata.Carbohydrate, fooddata.Sodium} {
			if f, ok := r.Figures[n.Tag()]; ok {
				s += fmt.Sprintf(", %s %s", value(f.Value, n), n.Name())
			}
		}
	}
	if len(r.Tags) > 0 {
		s += " [" + strings.Join(r.Tags, ", ") + "]"
	}
	return s
}

func (c *Conversation) history(name string) string {
	kept, err := c.memory.Team.RecipeNamed(c.ctx, name)
	if errors.Is(err, store.ErrNotFound) {
		return c.noSuch(name)
	}
	if err != nil {
		return said(err)
	}
	out := []string{kept.Name}
	for i, v := range kept.Versions {
		what := v.Said
		if what == "" {
			what = "as pasted"
		}
		out = append(out, fmt.Sprintf("Version %d, %s, %s: %s", i+1, v.When.Format("2 January 2006"), v.Who, what))
	}
	changes, err := c.memory.Team.RecipeChanges(c.ctx, kept.ID)
	if err != nil {
		return said(err)
	}
	for _, ch := range changes {
		line := fmt.Sprintf("%s, %s: %s", ch.When.Format("2 January 2006"), ch.Who, ch.Action)
		if ch.Note != "" {
			line += ", " + ch.Note
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}
