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

// said turns an error of the store into a sentence.
func said(err error) string { return sentence(err.Error()) + "." }

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
		if len(recipe.Versions) > 0 && recipe.Versions[len(recipe.Versions)-1].Text == withoutPersonal(added[0].recipe.String()) {
			return fmt.Sprintf("%s is saved already, with %s.", name, versionCount(len(recipe.Versions)))
		}
	}
	for _, v := range added {
		recipe.Versions = append(recipe.Versions, store.RecipeVersion{Text: withoutPersonal(v.recipe.String()), Servings: knownServings(v.analysis), Cooking: strings.Join(v.told.words, "; "), Said: withoutPersonal(v.said)})
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
		t := toldBy(strings.Split(v.Cooking, "; "))
		versions = append(versions, version{recipe: recipe, told: t, analysis: c.workAs(recipe, t), said: v.Said})
	}
	c.setAside()
	c.versions = versions
	c.saved = &savedAs{kept.ID, kept.Name, kept.Revision, upto}
	if upto < len(kept.Versions) {
		c.saved = nil // an older version is changed under a name of its own
	}
	head := fmt.Sprintf("%s, version %d of %d, saved by %s.", kept.Name, upto, len(kept.Versions), kept.ChangedBy)
	return head + "\n\n" + c.Overview()
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
