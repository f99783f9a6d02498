package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// Which line of the recipe in hand is spoken of.

// ordinal is the number by which "line 3" calls a line of the recipe.
func (c *Conversation) ordinal(at int) int {
	n := 0
	for _, l := range c.inHand().recipe.Lines[:at+1] {
		if l.Kind == grammar.Ingredient {
			n++
		}
	}
	return n
}

// lineNamed finds the one ingredient line of the recipe in hand that a food
// or "line 3" names. It returns -1 and what to say if there is none, or more, or
// if a line only mentions the food: "egg noodles" are no egg.
func (c *Conversation) lineNamed(food string) (int, string) {
	if n, ok := lineNumber(food); ok {
		return c.ingredient(n)
	}
	named, mention := c.linesNamed(food)
	switch {
	case len(named) == 1:
		return named[0], ""
	case len(named) > 1:
		which := c.lineWords(named)
		return -1, fmt.Sprintf("Which one: %s? Say it again with the line, such as \"%s\".", strings.Join(which, " or "), strings.SplitN(which[0], " (", 2)[0])
	case len(mention) > 0:
		which := c.lineWords(mention)
		return -1, fmt.Sprintf("No line of the recipe holds %q by itself. Is it %s? Say it again with the line, such as \"%s\".", food, strings.Join(which, " or "), strings.SplitN(which[0], " (", 2)[0])
	}
	return -1, fmt.Sprintf("No line of the recipe holds %q. Say \"lines\" to see them.", food)
}

// lineWords writes lines as "line 3 (1 cup milk)", in the numbers of "lines".
func (c *Conversation) lineWords(found []int) []string {
	v := c.inHand()
	ns := ordinals(v.analysis)
	var which []string
	for _, at := range found {
		for i := range v.analysis.Lines {
			if v.analysis.Lines[i].Number == v.recipe.Lines[at].Number {
				which = append(which, fmt.Sprintf("line %d (%s)", ns[i], v.recipe.Lines[at].Text))
				break
			}
		}
	}
	return which
}

func lineNumber(s string) (int, bool) {
	var n int
	if _, err := fmt.Sscanf(strings.ToLower(s), "line %d", &n); err != nil {
		return 0, false
	}
	return n, true
}

// linesNamed returns the ingredient lines that food names, and those that only
// mention it. A line is named by its food in full, or else by what the food is:
// the last word of its name ("oil" for olive oil), the first of the table's
// description ("cheese" for parmesan), or a shorter name of the same food.
// Lines named in full come alone.
func (c *Conversation) linesNamed(food string) (named, mention []int) {
	want := significant(food)
	if len(want) == 0 {
		return nil, nil
	}
	v := c.inHand()
	meant := c.engine.Resolve(grammar.Item{Words: strings.Fields(food), Amount: grammar.ParseLine("100 g salt").Items[0].Amount})
	var full, kind []int
	for at, line := range v.recipe.Lines {
		if line.Kind != grammar.Ingredient {
			continue
		}
		best := unnamed
		for _, item := range line.Items {
			l := c.lineOf(line.Number, item)
			best = max(best, naming(want, item, l, meant.Food))
		}
		switch best {
		case inFull:
			full = append(full, at)
		case byKind:
			kind = append(kind, at)
		case mentioned:
			mention = append(mention, at)
		}
	}
	if len(full) > 0 {
		return full, nil
	}
	return kind, mention
}

// How well words name a line.
const (
	unnamed = iota
	mentioned
	byKind
	inFull
)

// naming says how well want names an item; l is the line it was resolved to, nil
// if it was not, and meant the food that the words mean by themselves.
func naming(want []string, item grammar.Item, l *engine.Line, meant fooddata.Food) int {
	words := has(significant(strings.Join(item.Words, " ")))
	var name, first, described []string
	if l != nil {
		name, described = significant(l.Food.Name()), fooddata.Normalise(l.Food.Description())
		kind, _, _ := strings.Cut(l.Food.Description(), ",")
		first = fooddata.Normalise(kind)
	}
	switch {
	case slices.Equal(words, want), slices.Equal(name, want):
		return inFull
	case endsIn(words, want), endsIn(name, want), slices.Equal(first, want),
		containsAll(words, want) && (len(want) > 1 || l != nil && l.Food == meant):
		return byKind
	case containsAll(words, want), containsAll(has(name), want), containsAll(has(described), want):
		return mentioned
	}
	return unnamed
}

// has drops what a name says that a food does not hold: "no salt added".
func has(words []string) []string {
	var kept []string
	for i, w := range words {
		switch {
		case i > 0 && (words[i-1] == "no" || words[i-1] == "without" || words[i-1] == "low" || words[i-1] == "reduced" || words[i-1] == "less"):
		case i+1 < len(words) && words[i+1] == "free":
		default:
			kept = append(kept, w)
		}
	}
	return kept
}

func endsIn(words, want []string) bool {
	return len(words) > len(want) && slices.Equal(words[len(words)-len(want):], want)
}

// lineOf is the line that an item was resolved to, or nil if it has no food.
func (c *Conversation) lineOf(number int, item grammar.Item) *engine.Line {
	a := c.inHand().analysis
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Number == number && !l.Food.IsZero() && slices.Equal(l.Item.Words, item.Words) {
			return l
		}
	}
	return nil
}

// significant are the words of a food's name that tell it.
func significant(s string) []string {
	var kept []string
	for _, w := range fooddata.Normalise(s) {
		if !grammar.IsPreparation(w) && w != "a" && w != "it" && w != "all" && w != "some" {
			kept = append(kept, w)
		}
	}
	return kept
}

func containsAll(have, want []string) bool {
	for _, w := range want {
		if !slices.Contains(have, w) {
			return false
		}
	}
	return len(want) > 0
}

// optionalLines are the optional lines that a name fits, or all of them for
// "topping", "items" and the like.
func (c *Conversation) optionalLines(name string) []int {
	var all, fit []int
	named, mention := c.linesNamed(name)
	named = append(named, mention...)
	for at, line := range c.inHand().recipe.Lines {
		if line.Kind == grammar.Ingredient && line.Items[0].Optional {
			all = append(all, at)
			if slices.Contains(named, at) {
				fit = append(fit, at)
			}
		}
	}
	if len(fit) > 0 {
		return fit
	}
	switch strings.TrimSuffix(strings.ToLower(name), "s") {
	case "topping", "item", "ingredient", "line", "one", "thing", "garnishe", "garnish":
		return all
	}
	return nil
}

// ingredient returns the index of the nth ingredient line.
func (c *Conversation) ingredient(n int) (int, string) {
	count := 0
	for i, l := range c.inHand().recipe.Lines {
		if l.Kind == grammar.Ingredient {
			if count++; count == n {
				return i, ""
			}
		}
	}
	return -1, fmt.Sprintf("There is no line %d: the recipe has %d ingredient lines. Say \"lines\" to see them with their numbers.", n, count)
}
