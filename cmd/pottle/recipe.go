package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/big"
	"os"
	"strings"

	"pottle/bot"
	"pottle/grammar"
)

type recipeCommand struct {
	File     string   `arg:"" help:"The recipe's file, or - for standard input."`
	JSON     bool     `name:"json" help:"Print one JSON object instead of the reply."`
	Servings *string  `help:"The number of servings, whatever the recipe says." placeholder:"N"`
	Then     []string `help:"A request to answer next, such as \"half the sugar\"; may be given several times." placeholder:"REQUEST" sep:"none"`
}

// Run works out the recipe and prints the reply or the JSON object. Beside the
// object the replies to the requests go to standard error, so that one that was
// not done is seen.
func (c *recipeCommand) Run(p *program) error {
	servings, err := c.servings()
	if err != nil {
		return err
	}
	text, err := p.read(c.File)
	if err != nil {
		return err
	}
	recipe, err := grammar.ParseRecipe(text)
	if err != nil {
		return err
	}
	if servings != nil {
		recipe.Servings = grammar.Quantity{Low: servings, High: servings}
	}
	e, err := newEngine()
	if err != nil {
		return err
	}
	talk := bot.NewConversation(e)
	talk.Take(recipe)
	replies := []string{talk.Overview()}
	for _, request := range c.Then {
		replies = append(replies, "> "+request+"\n"+talk.Request(request))
	}
	a := talk.Analysis()
	if c.JSON {
		encoder := json.NewEncoder(p.out)
		encoder.SetEscapeHTML(false)
		encoder.SetIndent("", " ")
		if err := encoder.Encode(newRecipeJSON(a)); err != nil {
			return fmt.Errorf("write JSON: %w", err)
		}
		if len(c.Then) > 0 {
			fmt.Fprintln(p.err, strings.Join(replies[1:], "\n\n"))
		}
	} else {
		if _, err := fmt.Fprintln(p.out, strings.Join(append(replies, bot.Reminder), "\n\n")); err != nil {
			return fmt.Errorf("write the reply: %w", err)
		}
	}
	if counted, _ := a.Counted(); counted == 0 {
		return errors.New("nothing could be counted: no ingredient line with a known food and an amount was found")
	}
	return nil
}

const mostServings = 10_000

func (c *recipeCommand) servings() (*big.Rat, error) {
	if c.Servings == nil {
		return nil, nil
	}
	n, ok := new(big.Rat).SetString(*c.Servings)
	if !ok || n.Sign() <= 0 || n.Cmp(big.NewRat(mostServings, 1)) > 0 {
		return nil, usageError{fmt.Errorf("--servings %q is not a number of servings; give one from 1 to %d", *c.Servings, mostServings)}
	}
	return n, nil
}

// read reads a file, or standard input for "-", up to what a recipe may be.
func (p *program) read(name string) (string, error) {
	in := p.in
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return "", fmt.Errorf("read recipe: %w", err)
		}
		defer f.Close()
		in = f
	}
	text, err := io.ReadAll(io.LimitReader(in, 16*grammar.MaxRecipe))
	if err != nil {
		return "", fmt.Errorf("read recipe: %w", err)
	}
	return string(text), nil
}
