// Package bot is the conversation: a text comes in, a reply in plain text goes
// out. It knows no chat platform; the terminal, a test and a chat service all
// drive the same Conversation.
package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// Conversation is one thread: the recipe in hand with its versions, what was
// last suggested, the targets. It is not safe for use by several goroutines at
// once.
type Conversation struct {
	base     *engine.Engine // that of the table
	engine   *engine.Engine // with the team's own foods and words
	versions []version
	before   *version // the recipe that was in hand before this one, or nil
	advice   advice
	targets  map[string]namedTarget

	always settings // of the team
	saved  *savedAs // the recipe of the box that is in hand, or nil
	waits  *pending // a question that waits for a yes, or nil
	which  string   // a change of which it was asked what lines it means, as said; or empty

	memory    *Memory // nil if nothing is kept
	ctx       context.Context
	revision  int // of the kept state
	forgotten bool
}

// NewConversation returns a conversation that has no recipe yet.
func NewConversation(e *engine.Engine) *Conversation {
	return &Conversation{base: e, engine: e, targets: make(map[string]namedTarget)}
}

// Analysis returns the figures of the recipe in hand, or nil.
func (c *Conversation) Analysis() *engine.Analysis {
	if v := c.inHand(); v != nil {
		return v.analysis
	}
	return nil
}

// Reply answers one message. A text of several lines is a recipe; a line is a
// question, or a request about the recipe in hand. The reply ends in the
// standing reminder.
func (c *Conversation) Reply(text string) string {
	var reply string
	if lines(text) > 1 || len(text) > grammar.MaxRequest {
		reply = c.Recipe(text)
	} else {
		reply = c.Request(text)
	}
	if trouble := c.keepState(); trouble != "" {
		reply += "\n\n" + trouble
	}
	return reply + "\n\n" + Reminder
}

func lines(text string) int {
	n := 0
	for line := range strings.Lines(text) {
		if strings.TrimSpace(line) != "" {
			n++
		}
	}
	return n
}

// Recipe works out a pasted recipe and answers with its figures, without the
// reminder.
func (c *Conversation) Recipe(text string) string {
	recipe, err := grammar.ParseRecipe(text)
	if err != nil {
		return fault(err)
	}
	a := c.engine.Analyse(recipe)
	if counted, of := a.Counted(); counted == 0 && c.inHand() != nil {
		if of == 0 {
			return noIngredients + " The recipe in hand is as it was."
		}
		return "Nothing of this could be counted, so the recipe in hand is as it was.\n\n" + strings.Join(notInFigures(a), "\n")
	}
	c.Take(recipe)
	return c.Overview()
}

// Overview gives the figures of the recipe in hand and what would help most.
func (c *Conversation) Overview() string {
	parts := []string{c.recipeReply()}
	v := c.inHand()
	for _, w := range v.analysis.Cautions(v.recipe.Method) {
		if w.Kind == "kidney beans" { // by its directions the dish may make ill
			parts = append(parts, fmt.Sprintf("Mind: %s (%s).", w.Text, w.Source))
		}
	}
	if advice := c.bestAdvice(); advice != nil {
		parts = append(parts, strings.Join(advice, "\n"))
	}
	return strings.Join(parts, "\n\n")
}

// Take makes recipe the one in hand, with no versions but itself.
func (c *Conversation) Take(recipe *grammar.Recipe) {
	c.setAside()
	c.advice, c.saved, c.waits, c.which, c.forgotten = advice{}, nil, nil, "", false
	assumed := c.always.apply(recipe)
	c.versions = []version{{recipe: recipe, analysis: c.workAs(recipe, told{}), said: "as pasted"}}
	c.versions[0].analysis.Notes = append(c.versions[0].analysis.Notes, assumed...)
}

// fault says what was wrong with the text.
func fault(err error) string {
	var f *grammar.Fault
	if errors.As(err, &f) {
		return sentence(f.Error())
	}
	return "That could not be read."
}

// Request answers a message of one line, without the reminder.
func (c *Conversation) Request(text string) string {
	if reply, ok := c.whichAnswered(text); ok {
		return reply
	}
	if answer, ok := measures(text); ok {
		return answer
	}
	r, reply, ok := c.chosen(text)
	if reply != "" {
		return reply
	}
	var err error
	if !ok {
		r, err = grammar.ParseRequest(text)
	}
	if err != nil {
		return fault(err)
	}
	if r.Fault != nil {
		return fault(r.Fault)
	}
	if r.Kind != grammar.Yes && r.Kind != grammar.No {
		c.waits = nil
	}
	if c.inHand() == nil && (r.Kind == grammar.GramsOf && (isServingWord(r.Amounts[0]) || isIt[strings.ToLower(r.Amounts[0])]) || r.Kind == grammar.CheckTarget && isNumbers(r.Food) && len(c.targets) == 0) {
		return noRecipe
	}
	if c.inHand() != nil {
		is, reply := c.ofRecipe(r)
		if reply != "" {
			return reply
		}
		r = is
	}
	switch {
	case r.Kind == grammar.Help:
		return help
	case r.Kind == grammar.Thanks:
		return c.greeted(text)
	case r.Kind == grammar.Insulin:
		return noInsulin
	case r.Kind == grammar.MakePage:
		return noPage
	case r.Kind == grammar.ShowLines && c.inHand() != nil:
		return linesReply(c.inHand().analysis)
	case r.Kind == grammar.SetServing && c.inHand() != nil:
		return c.servings(r)
	case r.Kind == grammar.FixLine && c.inHand() != nil:
		return c.fix(r)
	case r.Kind >= grammar.SaveRecipe:
		return c.keep(r)
	case r.Kind == grammar.Scale && r.Food != "":
		return c.scale(r)
	case r.Kind == grammar.ServingOf && c.inHand() != nil:
		return c.servingOf(r.New)
	case r.Kind == grammar.ReplaceWhat, r.Kind == grammar.SetTarget, r.Kind == grammar.CheckTarget:
		return c.about(r)
	case r.Kind < grammar.UseInstead && !aboutRecipe(r.Kind):
		answer := c.quick(r, text)
		if c.inHand() != nil && !answered(answer) && grammar.IsDirection(text) {
			return directionsAlone
		}
		return answer
	case c.inHand() == nil:
		if answer, ok := c.asQuestion(r, text); ok {
			return answer
		}
		return noRecipe
	case r.Kind <= grammar.Include:
		if len(c.couldMean(r)) > 1 {
			c.which = text
		}
		reply, ok := c.change(r)
		if !ok {
			if answer, ok := c.asQuestion(r, text); ok {
				return answer
			}
		}
		return reply
	case r.Kind == grammar.RecipeFigure:
		return c.figure(r, text)
	}
	return c.about(r)
}

// asQuestion answers a request for a change that reads as a quick question too,
// such as "pecans 3/4 cup", if the table has an answer.
func (c *Conversation) asQuestion(r grammar.Request, text string) (string, bool) {
	inverse := r.Kind == grammar.Fit && r.Else != nil && r.Else.Kind == grammar.Holds
	if r.Else == nil || r.Kind != grammar.SetAmount && r.Kind != grammar.MultiplyFood && !inverse {
		return "", false
	}
	if c.inHand() != nil && !inverse && saysChange(r, text) { // never a figure in place of a change
		return "", false
	}
	answer := c.quick(*r.Else, text)
	return answer, inverse || answered(answer)
}

// aboutRecipe reports the plain requests that need a recipe in hand.
func aboutRecipe(k grammar.RequestKind) bool {
	return k == grammar.SetServing || k == grammar.FixLine || k == grammar.ShowLines
}

const directionsAlone = "That reads as directions. Paste them in one message with the ingredients: then what is drained, thrown away and cooked is taken into account."

const noRecipe = "There is no recipe here yet. Paste one, a line for each ingredient."

// mostServings is the most servings that a recipe is divided into.
const mostServings = 10_000

// servings divides the recipe into other servings, the amounts unchanged.
func (c *Conversation) servings(r grammar.Request) string {
	n, _ := r.Servings.Low.Float64()
	if n <= 0 || n > mostServings {
		return fmt.Sprintf("%s servings cannot be. The recipe is as it was. Say a number such as \"servings 6\".", r.Servings)
	}
	recipe := *c.inHand().recipe
	if r.OrScale && c.inHand().analysis.Known { // more food is meant as often
		if c.inHand().analysis.Servings == n {
			return fmt.Sprintf("It is %s already. The recipe is as it was.", servingsText(n))
		}
		is := trimZero(c.inHand().analysis.Servings)
		if recipe.Servings.Low != nil { // "4 to 6"
			is = recipe.Servings.String()
		}
		return fmt.Sprintf("The recipe is for %s. Scale the amounts: say \"scale to %s\". Or divide the same pot: say \"servings %s\".", is, r.Servings, r.Servings)
	}
	first := recipe.Servings.Low == nil
	recipe.Servings, recipe.Yield = r.Servings, r.Servings.String()
	before, after := c.add(&recipe, "servings "+r.Servings.String())
	after.cookedGrams = before.cookedGrams
	if first {
		c.versions = []version{{recipe: &recipe, told: after.told, analysis: after.analysis, said: "as pasted", cookedGrams: after.cookedGrams}}
	}
	return c.recipeReply()
}

// recipeReply gives the figures of the recipe in hand, with those that the team
// always wants to see.
func (c *Conversation) recipeReply() string {
	return RecipeReply(c.inHand().analysis, c.always.figures...)
}

// leftOut are the words of a correction that take a line out.
var leftOut = map[string]bool{"left out": true, "out": true, "omitted": true, "removed": true, "none": true, "nothing": true, "dropped": true, "gone": true, "0": true, "0 g": true, "zero": true}

// fix corrects one line: its food, its amount, or both. A correction says what
// the recipe was meant to be; the original is corrected with it.
func (c *Conversation) fix(r grammar.Request) string {
	at, why := c.ingredient(r.Line)
	if at < 0 {
		return why
	}
	old := c.inHand().recipe.Lines[at]
	if leftOut[strings.ToLower(strings.Trim(r.Amounts[0], " ."))] {
		recipe, err := engine.Apply(c.inHand().recipe, engine.Edit{Kind: engine.EditDrop, Line: at})
		if err != nil {
			return "The recipe is as it was: " + err.Error() + "."
		}
		before, after := c.add(recipe, "left out "+old.Text)
		return c.changed(before, after)
	}
	said := grammar.ParseLine(r.Amounts[0])
	if len(said.Items) == 1 && said.Items[0].Amount == nil && len(said.Items[0].Words) > 0 {
		said.Items[0] = c.inState(said.Items[0], old)
	}
	line := correct(old, said)
	line.Number = old.Number
	if len(said.Items) == 1 && len(said.Items[0].Words) == 0 {
		line = c.keepFood(old, line)
	}
	whole := ""
	if len(said.Items) == 1 && said.Items[0].Amount == nil {
		if line.Items[0], whole = c.keepWhole(old.Items[0], line.Items[0]); whole != "" {
			line.Text = engine.LineText(line.Items, old.Items)
		}
	}
	if len(said.Items) == 1 && said.Items[0].Amount != nil && c.asksTakenUp(old) { // what is told is what is eaten
		line.Items = slices.Clone(line.Items)
		line.Items[0] = engine.TakenUp(line.Items[0])
		line.Text = engine.LineText(line.Items, old.Items)
	}
	for _, item := range line.Items {
		if trial := c.engine.Resolve(item); trial.Status == engine.Ask {
			return fmt.Sprintf("Line %d is as it was: %s.%s", r.Line, trial.Why, didYouMean(&trial))
		}
	}
	recipe := *c.inHand().recipe
	recipe.Lines = slices.Clone(recipe.Lines)
	recipe.Lines[at] = line
	trial := c.engine.Resolve(line.Items[0])
	before, after := c.add(&recipe, fmt.Sprintf("line %d is %s", r.Line, r.Amounts[0]))
	for _, l := range after.analysis.Lines {
		if l.Number == line.Number && l.AsksTakenUp() { // by the directions
			trial = l
		}
	}
	note := fmt.Sprintf("Line %d is now %s", r.Line, trial.Food.Name())
	if trial.Status == engine.Counted {
		note += ", " + grams(trial.Grams) + "."
	} else {
		note += ", not counted: " + trial.Why + "."
	}
	notes := []string{note}
	if whole != "" {
		notes = append(notes, fmt.Sprintf("Taken as %s. If you weighed it, say \"line %d is 800 g\".", whole, r.Line))
	}
	for _, a := range c.newAssumptions(before, after) {
		if a != fmt.Sprintf("Assumed: %s, %s", trial.Food.Name(), grams(trial.Grams)) { // said already
			notes = append(notes, a)
		}
	}
	if was := c.engine.Resolve(old.Items[0]); c.memory != nil && trial.Status == engine.Counted && trial.Food != was.Food && len(old.Items[0].Words) > 0 {
		notes = append(notes, fmt.Sprintf("To have it so for the whole team, say \"our %s is %s\".", strings.Join(old.Items[0].Words, " "), trial.Food.Name()))
	}
	return c.changed(before, after, notes...)
}

// asksTakenUp reports whether it is asked, or was told, how much of a line is
// eaten: of frying oil, of the salt of a brine.
func (c *Conversation) asksTakenUp(line grammar.Line) bool {
	return engine.IsTakenUp(line.Items[0]) || slices.ContainsFunc(c.inHand().analysis.Lines, func(l engine.Line) bool { return l.Number == line.Number && l.AsksTakenUp() })
}

// keepFood has a line whose amount alone was corrected stay the food it was: 500 g
// in place of two cans are canned still.
func (c *Conversation) keepFood(old, line grammar.Line) grammar.Line {
	was := c.engine.Resolve(old.Items[0])
	same := func(l grammar.Line) bool { return c.engine.Resolve(l.Items[0]).Food == was.Food }
	if was.Food.IsZero() || same(line) {
		return line
	}
	for _, words := range [][]string{append([]string{"canned"}, line.Items[0].Words...), strings.Fields(was.Food.Name())} {
		kept := line
		kept.Items = slices.Clone(line.Items)
		kept.Items[0].Words = words
		kept.Text = engine.LineText(kept.Items, old.Items)
		if same(kept) {
			return kept
		}
	}
	return line
}

// sameKind gives a corrected amount what it leaves unsaid: of "1 large onion" a
// bare "3" is large ones too, and of "2 (14 oz) cans" one can is one of these.
func sameKind(was, is *grammar.Amount) *grammar.Amount {
	if was == nil || len(was.Terms) != 1 || len(is.Terms) != 1 {
		return is
	}
	old, term := was.Terms[0], is.Terms[0]
	bare := term.Measure == nil && term.Size == "" && term.Each == nil
	sameMeasure := term.Measure != nil && old.Measure != nil && term.Measure.Name == old.Measure.Name // a kept recipe has measures of its own
	if !bare && (!sameMeasure || term.Size != "" || term.Each != nil) {
		return is
	}
	old.Quantity = term.Quantity
	kept := *is
	kept.Terms = []grammar.Term{old}
	return &kept
}

// correct puts what a correction says in place of what a line says: a food
// without an amount keeps the amount, an amount without a food the food.
func correct(old, said grammar.Line) grammar.Line {
	line := said
	line.Items = slices.Clone(said.Items)
	item := &line.Items[0]
	was := old.Items[0]
	switch {
	case len(line.Items) > 1:
	case item.Amount == nil && len(item.Words) > 0 && was.Amount != nil:
		item.Amount, item.Uncounted = was.Amount, ""
		line.Text = engine.LineText(line.Items, old.Items)
	case item.Amount != nil && len(item.Words) == 0:
		kept := was
		kept.Amount, kept.Uncounted, kept.Optional = sameKind(was.Amount, item.Amount), "", false
		line.Items[0] = kept
		line.Text = engine.LineText(line.Items, old.Items)
	}
	return line
}
