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

// readOwn takes up the team's own foods and words: from now on the conversation
// works with them.
func (c *Conversation) readOwn() error {
	foods, err := c.memory.Team.Foods().List(c.ctx)
	if err != nil {
		return fmt.Errorf("read the team's foods: %w", err)
	}
	words, err := c.memory.Team.Words().List(c.ctx)
	if err != nil {
		return fmt.Errorf("read the team's words: %w", err)
	}
	c.engine = c.base
	if len(foods) == 0 && len(words) == 0 {
		return nil
	}
	means := make(map[string]string, len(words))
	for _, w := range words {
		means[w.Words] = w.Meaning
	}
	var own []fooddata.CustomFood
	for _, f := range foods {
		own = append(own, customFood(f))
	}
	if c.engine, err = c.base.ForTeam(own, means); err != nil {
		c.engine = c.base
		return fmt.Errorf("read the team's foods: %w", err)
	}
	return nil
}

// workAgain works out all versions anew, after the team's foods or words changed,
// and returns the figures that the recipe in hand had, nil if there is none.
func (c *Conversation) workAgain() (before *engine.Analysis) {
	if v := c.inHand(); v != nil {
		before = v.analysis
	}
	for i := range c.versions {
		v := &c.versions[i]
		v.analysis = c.workAs(v.recipe, v.told)
	}
	if c.before != nil {
		c.before.analysis = c.workAs(c.before.recipe, c.before.told)
	}
	c.advice = advice{}
	return before
}

// ownChanged takes up a change of the team's foods or words and says what it did
// to the recipe in hand.
func (c *Conversation) ownChanged(reply string) string {
	if err := c.readOwn(); err != nil {
		return reply + "\n" + sentence(err.Error()) + "."
	}
	if before := c.workAgain(); before != nil {
		if m := moved(before, c.inHand().analysis); m != nothingMoved {
			reply += "\n\n" + sentence(portion(before)) + " of the recipe in hand:\n" + m
		}
	}
	return reply
}

// own answers the requests about the team's own foods and words.
func (c *Conversation) own(r grammar.Request) string {
	switch r.Kind {
	case grammar.TeamWord:
		return c.setWord(r.Food, r.New)
	case grammar.ForgetWord:
		return c.forgetWord(r.Food)
	case grammar.ShowFood:
		return c.showFood(r.Food)
	case grammar.RemoveFood:
		return c.removeFood(r.Food)
	}
	return c.addFood(r.Food, r.Kind == grammar.ChangeFood, false)
}

// setWord keeps what the team means by a bare name: "milk", "skim milk".
func (c *Conversation) setWord(words, means string) string {
	l, meaning := c.meant(words, means)
	if meaning == "" {
		return fmt.Sprintf("%q is not in the table, so nothing was set. Say it in full, such as \"our milk is skim milk\".", means)
	}
	record := store.TeamWord{Words: strings.ToLower(words), Meaning: meaning}
	shelf := c.memory.Team.Words()
	if was, err := shelf.Get(c.ctx, words); err == nil {
		record.Revision = was.Revision
	} else if !errors.Is(err, store.ErrNotFound) {
		return said(err)
	}
	if _, err := shelf.Save(c.ctx, record, c.memory.Who); err != nil {
		return said(err) + " Nothing was set."
	}
	reply := fmt.Sprintf("From now on the team's %s is %s (%s), where a line does not say more. \"forget our %s\" takes it back.", words, l.Food.Name(), l.Food.Source(), words)
	for _, note := range l.Assumed {
		if !strings.HasPrefix(note, "taken as") {
			reply += "\n" + sentence(note) + "."
		}
	}
	return c.ownChanged(reply)
}

// meant finds the food that a team means: "skim" of milk is skim milk.
func (c *Conversation) meant(words, means string) (l engine.Line, meaning string) {
	amount := grammar.ParseLine("100 g salt").Items[0].Amount
	for i, try := range []string{means + " " + words, means} {
		l = c.base.Resolve(grammar.Item{Words: strings.Fields(try), Amount: amount})
		if c.memory != nil && c.engine != c.base { // its own foods count too, its words do not
			if own := c.engine.Resolve(grammar.Item{Words: strings.Fields(try), Amount: amount}); own.Status == engine.Counted && own.Food.Team() {
				l = own
			}
		}
		if l.Status == engine.Counted && (i == 1 || l.Confidence >= 0.9 && !slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.HasPrefix(s, "taken as") })) {
			return l, try
		}
	}
	return engine.Line{}, ""
}

func (c *Conversation) forgetWord(words string) string {
	shelf := c.memory.Team.Words()
	was, err := shelf.Get(c.ctx, words)
	if errors.Is(err, store.ErrNotFound) {
		return fmt.Sprintf("The team has no word %q of its own.%s", words, c.ownWords())
	}
	if err != nil {
		return said(err)
	}
	if err := shelf.Remove(c.ctx, words, was.Revision, c.memory.Who); err != nil {
		return said(err)
	}
	return c.ownChanged(fmt.Sprintf("Forgotten: %q was %s. It is read by the table again.", was.Words, was.Meaning))
}

// ownWords lists the team's words, for a sentence at the end.
func (c *Conversation) ownWords() string {
	words, err := c.memory.Team.Words().List(c.ctx)
	if err != nil || len(words) == 0 {
		return ""
	}
	var list []string
	for _, w := range words {
		list = append(list, w.Words+" is "+w.Meaning)
	}
	return " It has: " + strings.Join(list, "; ") + "."
}

// addFood adds a food from its label, or changes one. What does not agree with
// itself is pointed out first and kept once that is confirmed.
func (c *Conversation) addFood(text string, change, confirmed bool) string {
	f, err := grammar.ParseFood(text)
	if err != nil {
		return fault(err)
	}
	shelf := c.memory.Team.Foods()
	was, err := shelf.Get(c.ctx, f.Name)
	switch {
	case err != nil && !errors.Is(err, store.ErrNotFound):
		return said(err)
	case change && err != nil:
		return fmt.Sprintf("The team has no food %q of its own.%s", f.Name, c.ownFoods())
	case !change && err == nil:
		return fmt.Sprintf("The team has a food %q already. Say \"show food %s\", or \"change food %s: sodium 95 mg\".", was.Name, was.Name, was.Name)
	case !change:
		was = store.TeamFood{Name: f.Name, Figures: make(map[string]float64)}
	}
	if f.Grams > 0 {
		was.Grams = f.Grams
	}
	if f.Serving != "" {
		was.Serving = f.Serving
	}
	if was.Grams <= 0 {
		return fmt.Sprintf("How many grams is a serving of %s? Say it before the colon, such as \"add food: %s, 40 g: 150 kcal, fat 5 g\".", f.Name, f.Name)
	}
	notes, wrong := figuresTold(f.Figures, was.Figures)
	if wrong != "" {
		return wrong + " Nothing was kept."
	}
	if len(was.Figures) == 0 {
		return fmt.Sprintf("No figure is given for %s. Say for instance \"add food: %s, 40 g: 150 kcal, fat 5 g, sodium 95 mg\".", f.Name, f.Name)
	}
	if found := personalIn(f.Name); len(found) > 0 {
		return fmt.Sprintf("This looks like somebody's identity: %s. Give the food another name. Nothing was kept.", strings.Join(found, ", "))
	}
	custom := customFood(was)
	if _, err := fooddata.NewTable("team", []fooddata.CustomFood{custom}); err != nil {
		return sentence(err.Error()) + ". Nothing was kept."
	}
	notes = append(notes, custom.Check()...)
	if len(notes) > 0 && !confirmed {
		kind := grammar.AddFood
		if change {
			kind = grammar.ChangeFood
		}
		c.waits = &pending{kind, text}
		return strings.Join(notes, "\n") + "\nNothing is kept yet. Say \"yes\" to keep it as it is, \"no\", or say it again with other figures."
	}
	kept, err := shelf.Save(c.ctx, was, c.memory.Who)
	if err != nil {
		return said(err) + " Nothing was kept."
	}
	return c.ownChanged(fmt.Sprintf("Kept, for the whole team.\n%s\nIts allergens are not known here: check the label.", foodText(kept)))
}

// figuresTold puts what was told into figures, by tagname in the unit of each,
// and says what was worked out.
func figuresTold(told []grammar.FigureText, figures map[string]float64) (notes []string, wrong string) {
	for _, t := range told {
		name, unit, v := t.Nutrient, t.Unit, t.Amount
		switch unit {
		case "gram", "grams":
			unit = "g"
		case "mcg", "ug":
			unit = "µg"
		case "cal", "cals", "calorie", "calories":
			unit = "kcal"
		case "kj":
			if _, kcal := figures[fooddata.Energy.Tag()]; kcal {
				continue // said in kcal as well
			}
			unit, v = "kcal", v/4.184
			notes = append(notes, fmt.Sprintf("%s kJ is %.0f kcal, at 4.184 kJ for a kcal.", trimZero(t.Amount), v))
		}
		if unit == "kcal" && name == "" {
			name = "energy"
		}
		n, ok := fooddata.NutrientNamed(name)
		if strings.EqualFold(name, "salt") {
			n, ok = fooddata.Sodium, true
			if unit == "" || unit == "g" {
				v *= 1000
			}
			unit, v = "mg", v/2.5
			notes = append(notes, fmt.Sprintf("Salt %s %s is %.0f mg sodium: a European label's salt is 2.5 times the sodium (Regulation (EU) 1169/2011, Annex I). There carbohydrate leaves the fibre out; here it holds the fibre, so add it.", trimZero(t.Amount), t.Unit, v))
		}
		if !ok {
			return nil, fmt.Sprintf("%q is no figure that is known here.", name)
		}
		switch {
		case unit == "" || unit == n.Unit():
		case unit == "g" && n.Unit() == "mg", unit == "mg" && n.Unit() == "µg":
			v *= 1000
		case unit == "mg" && n.Unit() == "g", unit == "µg" && n.Unit() == "mg":
			v /= 1000
		default:
			return nil, fmt.Sprintf("%s is counted in %s, not in %s.", sentence(n.Name()), n.Unit(), unit)
		}
		figures[n.Tag()] = v
	}
	return notes, ""
}

// customFood is a kept food as the table takes it.
func customFood(f store.TeamFood) fooddata.CustomFood {
	custom := fooddata.CustomFood{Name: f.Name, ServingGrams: f.Grams, ServingName: f.Serving, PerServing: make(map[fooddata.Nutrient]float64)}
	for tag, v := range f.Figures {
		if n, ok := fooddata.NutrientByTag(tag); ok {
			custom.PerServing[n] = v
		}
	}
	return custom
}

// foodText writes a team food as it can be told again.
func foodText(f store.TeamFood) string {
	serving := trimZero(f.Grams) + " g"
	if f.Serving != "" {
		serving = f.Serving + " (" + serving + ")"
	}
	var figures []string
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		if v, ok := f.Figures[n.Tag()]; ok {
			figures = append(figures, n.Name()+" "+trimZero(v)+" "+n.Unit())
		}
	}
	return f.Name + ", " + serving + ": " + strings.Join(figures, ", ")
}

func (c *Conversation) showFood(name string) string {
	f, err := c.memory.Team.Foods().Get(c.ctx, name)
	if errors.Is(err, store.ErrNotFound) {
		return fmt.Sprintf("The team has no food %q of its own.%s", name, c.ownFoods())
	}
	if err != nil {
		return said(err)
	}
	return fmt.Sprintf("%s\nKept by %s, %s. What is not in it is not known, and never counted as zero.", foodText(f), f.Who, f.When.Format("2 January 2006"))
}

// ownFoods lists the team's foods, for a sentence at the end.
func (c *Conversation) ownFoods() string {
	foods, err := c.memory.Team.Foods().List(c.ctx)
	if err != nil || len(foods) == 0 {
		return ""
	}
	var names []string
	for _, f := range foods {
		names = append(names, f.Name)
	}
	return " It has: " + strings.Join(names, "; ") + "."
}

func (c *Conversation) removeFood(name string) string {
	shelf := c.memory.Team.Foods()
	was, err := shelf.Get(c.ctx, name)
	if errors.Is(err, store.ErrNotFound) {
		return fmt.Sprintf("The team has no food %q of its own.%s", name, c.ownFoods())
	}
	if err != nil {
		return said(err)
	}
	if err := shelf.Remove(c.ctx, name, was.Revision, c.memory.Who); err != nil {
		return said(err)
	}
	return c.ownChanged(fmt.Sprintf("Removed: %s. To have it again, say \"add food: %s\".", was.Name, foodText(was)))
}
