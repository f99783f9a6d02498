// Package bot is the conversation: a text comes in, a reply in plain text goes
// out. It knows no chat platform; the terminal, a test and a chat service all
// drive the same Conversation.
package bot

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// Conversation is one thread: the recipe last pasted and what was corrected
// since. It is not safe for use by several goroutines at once.
type Conversation struct {
	engine   *engine.Engine
	recipe   *grammar.Recipe
	analysis *engine.Analysis
}

// NewConversation returns a conversation that has no recipe yet.
func NewConversation(e *engine.Engine) *Conversation { return &Conversation{engine: e} }

// Analysis returns the figures of the recipe in hand, or nil.
func (c *Conversation) Analysis() *engine.Analysis { return c.analysis }

// Reply answers one message. A text of several lines is a recipe; a line is a
// question, or a correction of the recipe in hand. The reply ends in the
// standing reminder.
func (c *Conversation) Reply(text string) string {
	var reply string
	if lines(text) > 1 || len(text) > grammar.MaxRequest {
		reply = c.Recipe(text)
	} else {
		reply = c.request(text)
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

// Recipe works out a pasted recipe and answers with its figures.
func (c *Conversation) Recipe(text string) string {
	recipe, err := grammar.ParseRecipe(text)
	if err != nil {
		return fault(err)
	}
	c.set(recipe)
	return RecipeReply(c.analysis)
}

// set makes recipe the one in hand.
func (c *Conversation) set(recipe *grammar.Recipe) {
	c.recipe = recipe
	c.analysis = c.engine.Analyse(recipe)
}

// fault says what was wrong with the text.
func fault(err error) string {
	var f *grammar.Fault
	if errors.As(err, &f) {
		return sentence(f.Error())
	}
	return "That could not be read."
}

func (c *Conversation) request(text string) string {
	r, err := grammar.ParseRequest(text)
	if err != nil {
		return fault(err)
	}
	if r.Fault != nil {
		return fault(r.Fault)
	}
	switch r.Kind {
	case grammar.Help:
		return help
	case grammar.SetServing:
		return c.servings(r)
	case grammar.FixLine:
		return c.fix(r)
	case grammar.ShowLines:
		if c.analysis == nil {
			return noRecipe
		}
		return linesReply(c.analysis)
	}
	return c.quick(r, text)
}

const noRecipe = "There is no recipe here yet. Paste one, a line for each ingredient."

// mostServings is the most servings that a recipe is divided into.
const mostServings = 10_000

func (c *Conversation) servings(r grammar.Request) string {
	if c.recipe == nil {
		return noRecipe
	}
	n, _ := r.Servings.Low.Float64()
	if n <= 0 || n > mostServings {
		return fmt.Sprintf("%s servings cannot be. The recipe is as it was. Say a number such as \"servings 6\".", r.Servings)
	}
	recipe := *c.recipe
	recipe.Servings, recipe.Yield = r.Servings, r.Servings.String()
	c.set(&recipe)
	return RecipeReply(c.analysis)
}

// fix corrects one line: its food, its amount, or both.
func (c *Conversation) fix(r grammar.Request) string {
	if c.recipe == nil {
		return noRecipe
	}
	at, ingredients := -1, 0
	for i, l := range c.recipe.Lines {
		if l.Kind == grammar.Ingredient {
			if ingredients++; ingredients == r.Line {
				at = i
			}
		}
	}
	if at < 0 {
		return fmt.Sprintf("There is no line %d: the recipe has %d ingredient lines. Say \"lines\" to see them with their numbers.", r.Line, ingredients)
	}
	old := c.recipe.Lines[at]
	line := correct(old, grammar.ParseLine(r.Amounts[0]))
	line.Number = old.Number
	trial := c.engine.Resolve(line.Items[0])
	if trial.Status == engine.Ask {
		return fmt.Sprintf("Line %d is as it was, since %s.%s", r.Line, trial.Why, didYouMean(&trial))
	}
	recipe := *c.recipe
	recipe.Lines = slices.Clone(recipe.Lines)
	recipe.Lines[at] = line
	c.set(&recipe)
	return fmt.Sprintf("Line %d is now %s, %s.\n\n%s", r.Line, trial.Food.Name(), grams(trial.Grams), RecipeReply(c.analysis))
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
		item.Prep = append(slices.Clone(was.Prep), item.Prep...)
		line.Text = old.Text + " → " + said.Text
	case item.Amount != nil && len(item.Words) == 0:
		kept := was
		kept.Amount, kept.Uncounted, kept.Optional = item.Amount, "", false
		line.Items[0] = kept
		line.Text = old.Text + " → " + said.Text
	}
	return line
}
