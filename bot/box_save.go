package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
	"pottle/store"
)

// Recipes go into the box.

// save puts the recipe in hand in the box: under a new name, or its new versions
// under the name it has. What looks like somebody's identity is pointed out
// first; it is saved without it once that is confirmed.
func (c *Conversation) save(name string, confirmed bool) string {
	v := c.inHand()
	if v == nil {
		return noRecipe
	}
	if name == "" && c.saved != nil {
		name = c.saved.Name
	}
	if name == "" {
		name = v.recipe.Title
	}
	if name == "" {
		return "Under which name? Say \"save as barley soup\"."
	}
	if found := c.personal(name); len(found) > 0 && !confirmed {
		c.waits = &pending{grammar.SaveRecipe, name}
		return fmt.Sprintf("This looks like somebody's identity: %s. Nothing is saved yet. Say \"yes\" to save it without that, or \"no\".", strings.Join(found, ", "))
	}
	if name = nameWithoutPersonal(name); name == "" {
		return "Under which name? Say \"save as barley soup\"."
	}
	recipe := store.Recipe{RecipeHead: store.RecipeHead{Name: name}}
	if c.saved != nil && strings.EqualFold(c.saved.Name, name) {
		was, err := c.memory.Team.Recipe(c.ctx, c.saved.ID)
		if err != nil {
			return said(err)
		}
		if was.Revision != c.saved.Revision {
			return c.conflict(name)
		}
		recipe = was
	}
	from := len(recipe.Versions)
	if from > len(c.versions) {
		from = len(c.versions) // after an undo the version in hand is new again
	}
	added := c.versions[from:]
	if len(added) == 0 {
		added = c.versions[len(c.versions)-1:]
		if n := len(recipe.Versions); n > 0 {
			if last, now := recipe.Versions[n-1], boxVersion(added[0]); last.Text == now.Text && last.Cooking == now.Cooking {
				return fmt.Sprintf("%s is saved already, with %s.", name, versionCount(n))
			}
		}
	}
	for _, v := range added {
		recipe.Versions = append(recipe.Versions, boxVersion(v))
	}
	recipe.Figures = figuresOf(v.analysis)
	kept, err := c.memory.Team.SaveRecipe(c.ctx, recipe, c.memory.Who)
	switch {
	case errors.Is(err, store.ErrConflict):
		return c.conflict(name)
	case errors.Is(err, store.ErrExists):
		return fmt.Sprintf("There is a recipe %q already. Open it to change it, or save this under another name.", name)
	case err != nil:
		return said(err)
	}
	c.saved = &savedAs{kept.ID, kept.Name, kept.Revision, len(kept.Versions)}
	return fmt.Sprintf("Saved as %s, with %s.", kept.Name, versionCount(len(kept.Versions)))
}

// boxVersion is a version as the box keeps it.
func boxVersion(v version) store.RecipeVersion {
	return store.RecipeVersion{Text: withoutPersonal(v.recipe.String()), Servings: knownServings(v.analysis), Cooking: strings.Join(v.cookedWords(), "; "), Said: withoutPersonal(v.said)}
}

func (c *Conversation) conflict(name string) string {
	return fmt.Sprintf("Somebody else changed %s since it was opened here. Nothing was overwritten: open it to see theirs, or save this under another name.", name)
}

func versionCount(n int) string {
	if n == 1 {
		return "1 version"
	}
	return fmt.Sprintf("%d versions", n)
}

func knownServings(a *engine.Analysis) float64 {
	if !a.Known {
		return 0
	}
	return a.Servings
}

// figuresOf are the figures of a serving by which the box is searched. A figure
// without any value is left out; one with gaps is "at least".
func figuresOf(a *engine.Analysis) map[string]store.Figure {
	if !a.Known {
		return nil
	}
	figures := make(map[string]store.Figure)
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		if !a.Unknown(n) {
			figures[n.Tag()] = store.Figure{Value: a.Per(n).Low, AtLeast: !a.Complete(n) || unread(a)}
		}
	}
	return figures
}

// unread reports whether a line is asked about: no figure is then whole.
func unread(a *engine.Analysis) bool {
	return slices.ContainsFunc(a.Lines, func(l engine.Line) bool { return l.Status == engine.Ask })
}
