package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"pottle/grammar"
	"pottle/store"
)

// Recipes in the box are named, tagged, deleted and restored.

// change writes a changed head of a saved recipe.
func (c *Conversation) changeHead(name string, edit func(*store.Recipe)) (store.Recipe, string) {
	if name == "" && c.saved != nil {
		name = c.saved.Name
	}
	if name == "" {
		return store.Recipe{}, "Save the recipe first, such as \"save as barley soup\"."
	}
	kept, err := c.memory.Team.RecipeNamed(c.ctx, name)
	if errors.Is(err, store.ErrNotFound) {
		return store.Recipe{}, c.noSuch(name)
	}
	if err != nil {
		return store.Recipe{}, said(err)
	}
	edit(&kept)
	was := kept.ID
	kept, err = c.memory.Team.SaveRecipe(c.ctx, kept, c.memory.Who)
	if err != nil {
		return store.Recipe{}, said(err)
	}
	if c.saved != nil && c.saved.ID == was {
		c.saved.Name, c.saved.Revision = kept.Name, kept.Revision
	}
	return kept, ""
}

func (c *Conversation) tag(words string) string {
	kept, wrong := c.changeHead("", func(r *store.Recipe) {
		for _, t := range strings.Split(words, ",") {
			if t = strings.ToLower(strings.TrimSpace(t)); t != "" && !slices.Contains(r.Tags, t) {
				r.Tags = append(r.Tags, t)
			}
		}
	})
	if wrong != "" {
		return wrong
	}
	return fmt.Sprintf("%s is tagged %s.", kept.Name, strings.Join(kept.Tags, ", "))
}

func (c *Conversation) rename(from, to string) string {
	old := from
	kept, wrong := c.changeHead(from, func(r *store.Recipe) { old, r.Name = r.Name, nameWithoutPersonal(to) })
	if wrong != "" {
		return wrong
	}
	return fmt.Sprintf("%s is now called %s.", old, kept.Name)
}

// delete asks once, then takes a recipe out of the box.
func (c *Conversation) delete(name string, confirmed bool) string {
	kept, err := c.memory.Team.RecipeNamed(c.ctx, name)
	if errors.Is(err, store.ErrNotFound) {
		return c.noSuch(name)
	}
	if err != nil {
		return said(err)
	}
	if !confirmed {
		c.waits = &pending{grammar.DeleteRecipe, kept.Name}
		return fmt.Sprintf("Delete %s with its %s? Say \"yes\" or \"no\". It can be restored for 30 days.", kept.Name, versionCount(len(kept.Versions)))
	}
	if err := c.memory.Team.DeleteRecipe(c.ctx, kept.ID, kept.Revision, c.memory.Who); err != nil {
		return said(err)
	}
	if c.saved != nil && c.saved.ID == kept.ID {
		c.saved = nil
	}
	return fmt.Sprintf("%s is deleted. Say \"restore %s\" within 30 days to bring it back.", kept.Name, kept.Name)
}

func (c *Conversation) restoreRecipe(name string) string {
	gone, err := c.memory.Team.DeletedRecipes(c.ctx)
	if err != nil {
		return said(err)
	}
	for _, r := range gone {
		if strings.EqualFold(r.Name, name) {
			kept, err := c.memory.Team.RestoreRecipe(c.ctx, r.ID, "", c.memory.Who)
			if errors.Is(err, store.ErrExists) {
				return fmt.Sprintf("There is another recipe %q now. Rename that one first.", name)
			}
			if err != nil {
				return said(err)
			}
			return kept.Name + " is back."
		}
	}
	return fmt.Sprintf("No deleted recipe %q is there to restore.", name)
}
