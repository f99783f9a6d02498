package bot

import (
	"errors"
	"fmt"
	"strings"

	"pottle/grammar"
	"pottle/store"
)

const noMemory = "Nothing is kept here: this conversation lives in memory only. Start \"pottle chat --data DIR\" to keep recipes."

// keep answers the requests about what the team keeps.
func (c *Conversation) keep(r grammar.Request) string {
	switch r.Kind {
	case grammar.ForgetAll:
		return c.forgetAll()
	case grammar.Yes, grammar.No:
		return c.answer(r.Kind == grammar.Yes)
	case grammar.ListTargets:
		return c.listTargets()
	case grammar.ShowSettings:
		return c.always.String()
	}
	if c.memory == nil {
		return noMemory
	}
	switch r.Kind {
	case grammar.SaveRecipe:
		return c.save(strings.TrimSpace(r.Food), false)
	case grammar.OpenRecipe:
		return c.open(r)
	case grammar.ListRecipes:
		return c.find(store.Query{Words: boxWords(r.Food)})
	case grammar.FindRecipes:
		return c.findBy(r)
	case grammar.TagRecipe:
		return c.tag(r.Food)
	case grammar.RenameRecipe:
		return c.rename(r.Food, r.New)
	case grammar.DeleteRecipe:
		return c.delete(r.Food, false)
	case grammar.RestoreRecipe:
		return c.restoreRecipe(r.Food)
	case grammar.RecipeHistory:
		return c.history(r.Food)
	case grammar.SetAlways:
		return c.setAlways(r.Food)
	}
	return c.own(r)
}

// answer settles a question that waits for a yes or a no.
func (c *Conversation) answer(yes bool) string {
	w := c.waits
	c.waits = nil
	switch {
	case w == nil:
		return "There is no question here to answer. Say \"help\"."
	case !yes:
		return "Then nothing was done."
	case w.Kind == grammar.DeleteRecipe:
		return c.delete(w.Name, true)
	case w.Kind == grammar.AddFood, w.Kind == grammar.ChangeFood:
		return c.addFood(w.Name, w.Kind == grammar.ChangeFood, true)
	}
	return c.save(w.Name, true)
}

// said turns an error of the store into a sentence.
func said(err error) string { return sentence(err.Error()) + "." }

// open takes a recipe of the box in hand, with all its versions or up to one.
func (c *Conversation) open(r grammar.Request) string {
	kept, err := c.memory.Team.RecipeNamed(c.ctx, r.Food)
	if errors.Is(err, store.ErrNotFound) {
		return c.noSuch(r.Food)
	}
	if err != nil {
		return said(err)
	}
	upto := len(kept.Versions)
	if len(r.Numbers) == 1 {
		if upto = r.Numbers[0]; upto < 1 || upto > len(kept.Versions) {
			return fmt.Sprintf("%s has %s. Say \"history of %s\" to see them.", kept.Name, versionCount(len(kept.Versions)), kept.Name)
		}
	}
	var versions []version
	c.advice = advice{}
	for _, v := range kept.Versions[:upto] {
		recipe, err := grammar.ParseRecipe(v.Text)
		if err != nil {
			return said(err)
		}
		words := strings.Split(v.Cooking, "; ")
		t := toldBy(words)
		versions = append(versions, version{recipe: recipe, told: t, analysis: c.workAs(recipe, t), said: v.Said, cookedGrams: weighedBy(words)})
	}
	c.setAside()
	c.versions = versions
	c.saved = &savedAs{kept.ID, kept.Name, kept.Revision, upto}
	if upto < len(kept.Versions) {
		c.saved = nil // an older version is changed under a name of its own
	}
	head := fmt.Sprintf("%s, version %d of %d, saved by %s.", kept.Name, upto, len(kept.Versions), kept.ChangedBy)
	if v := c.inHand(); v != nil && v.cookedGrams > 0 {
		head += fmt.Sprintf(" It weighed %s g cooked.", gramsOf(v.cookedGrams))
	}
	return head + "\n\n" + c.Overview()
}
