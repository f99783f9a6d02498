package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// A change that names several lines, or none, and what is said of it.

// couldMean are the lines that a change could mean where it names several and was not
// made for that.
func (c *Conversation) couldMean(r grammar.Request) []int {
	switch r.Kind {
	case grammar.MultiplyFood, grammar.SetAmount, grammar.Drop, grammar.UseInstead:
	default:
		return nil
	}
	if _, all := everyOf(r.Food); all || r.Food == "" {
		return nil
	}
	if at, _ := c.lineNamed(r.Food); at >= 0 {
		return nil
	}
	named, _ := c.linesNamed(r.Food)
	return named
}

// whichAnswered makes a change once it is said which of the lines it means: "both",
// "line 4", "the parmesan". ok is false if the message is something else.
func (c *Conversation) whichAnswered(text string) (reply string, ok bool) {
	asked := c.which
	c.which = ""
	if asked == "" || c.inHand() == nil {
		return "", false
	}
	r, err := grammar.ParseRequest(asked)
	lines := c.couldMean(r)
	if err != nil || len(lines) < 2 {
		return "", false
	}
	said := strings.Trim(strings.ToLower(strings.Join(strings.Fields(text), " ")), "\"'“”‘’.!? ")
	for _, lead := range []string{"the ", "only ", "just "} {
		said = strings.TrimPrefix(said, lead)
	}
	switch said {
	case "both", "all", "each", "both of them", "all of them", "each of them", "both lines", "all lines", "all three", "every one", "everything":
		return c.changeEach(r, lines), true
	}
	at := -1
	if n, err := strconv.Atoi(strings.TrimPrefix(said, "line ")); err == nil {
		at, _ = c.ingredient(n)
	} else if m := placeOnly.FindStringSubmatch(said); m != nil {
		if n := int(places[m[1]][0] - '1'); n < len(lines) {
			at = lines[n]
		}
	} else if named, _ := c.linesNamed(said); len(named) == 1 && len(strings.Fields(said)) <= 4 {
		at = named[0]
	}
	if !slices.Contains(lines, at) {
		if strings.HasPrefix(said, "line ") {
			c.which = asked
			return fmt.Sprintf("That is none of them. Which one: %s? Or say \"all\". The recipe is as it was.", strings.Join(c.lineWords(lines), " or ")), true
		}
		return "", false
	}
	r.Food = fmt.Sprintf("line %d", c.ordinal(at))
	reply, _ = c.change(r)
	return reply, true
}

// everyOf takes "both" or "all" off a food: "both cheeses".
func everyOf(food string) (of string, all bool) {
	lower := strings.ToLower(food)
	for _, lead := range []string{"both of the ", "all of the ", "both the ", "all the ", "both ", "all ", "every ", "each "} {
		if strings.HasPrefix(lower, lead) {
			return strings.TrimSpace(food[len(lead):]), true
		}
	}
	return food, false
}

// changeEach makes one change of several lines, all or none.
func (c *Conversation) changeEach(r grammar.Request, lines []int) string {
	var edits []engine.Edit
	var dids, notes []string
	for _, at := range lines {
		edit, did, wrong := c.edit(r, at)
		if wrong != "" {
			return wrong
		}
		more, wrong := c.keptHere(at, edit)
		if wrong != "" {
			return wrong
		}
		edits, dids, notes = append(edits, edit), append(dids, did), append(notes, more...)
	}
	recipe, err := engine.Apply(c.inHand().recipe, lastDrops(edits)...)
	if err != nil {
		return "The recipe is as it was: " + err.Error() + "."
	}
	before, after := c.add(recipe, strings.Join(dids, "; "))
	return c.changed(before, after, append(notes, c.newAssumptions(before, after)...)...)
}

// changeWords tell that an amount is one of the recipe, not a question.
var changeWords = map[string]bool{"only": true, "just": true, "use": true, "make": true, "set": true, "reduce": true, "cut": true, "lower": true, "increase": true, "raise": true, "change": true, "bring": true,
	"less": true, "fewer": true, "more": true, "halve": true, "without": true, "add": true, "drop": true}

// saysChange reports whether a text that would read as a question about a food too
// is in the words of a change of the recipe: "half the cheese", but not "half a
// banana", "pecans 3/4 cup" or "double cream".
func saysChange(r grammar.Request, text string) bool {
	words := strings.Fields(strings.ToLower(text))
	if slices.ContainsFunc(words, func(w string) bool { return changeWords[w] }) {
		return true
	}
	if r.Kind != grammar.MultiplyFood {
		return false
	}
	if slices.Contains(words, "the") || slices.Contains(words, "both") {
		return true
	}
	first, _, _ := strings.Cut(strings.ToLower(r.Food), " ")
	if first == "a" || first == "an" || first == "and" {
		return false
	}
	if _, measure := grammar.MeasureNamed(first); measure {
		return false
	}
	return len(words) == 0 || len(grammar.ParseLine(text).Items) != 1 || grammar.ParseLine(text).Items[0].Amount != nil
}

// greeted answers thanks and greetings.
func (c *Conversation) greeted(text string) string {
	lower := strings.ToLower(text)
	words := strings.FieldsFunc(lower, func(r rune) bool { return r < 'a' || r > 'z' })
	greets := func(w string) bool {
		return w == "hi" || w == "hello" || w == "hey" || w == "morning" || w == "afternoon" || w == "evening"
	}
	switch {
	case slices.Contains(words, "bye"), slices.Contains(words, "goodbye"):
		return "Goodbye."
	case !slices.ContainsFunc(words, greets), strings.Contains(lower, "thank"):
		return "You are welcome."
	}
	if c.inHand() != nil {
		return "Hello. The recipe in hand is " + name(c.inHand().analysis) + ". Say \"help\" for what can be asked of it."
	}
	return "Hello. Paste a recipe, a line for each ingredient, or ask about one food, such as \"sodium in 1 tsp soy sauce\". Say \"help\" for more."
}

// noGoal answers a wish for less or more of a nutrient for which no changes of a
// recipe are known: what can be cut and raised, and what brings it.
func (c *Conversation) noGoal(n fooddata.Nutrient, more bool) string {
	v := c.inHand()
	how := "less"
	if more {
		how = "more"
	}
	out := fmt.Sprintf("For %s %s no changes are known here: what can be cut is sodium, added sugar, saturated fat and calories, and what can be raised is fibre.", how, n.Name())
	switch {
	case n == fooddata.Fat && !more:
		out = "Of all fat there is no goal here: say \"cut saturated fat\" or \"fewer calories\"; sodium and added sugar can be cut too, and fibre raised."
	case n == fooddata.Carbohydrate && !more:
		out = "Of all carbohydrate there is no goal here: say \"less added sugar\", or \"fit 45 g carbohydrate\" for servings of that size; sodium, saturated fat and calories can be cut too, and fibre raised."
	}
	if v.analysis.Unknown(n) {
		return out
	}
	out += fmt.Sprintf("\n%s has %s", sentence(portion(v.analysis)), figureWords(v.analysis, n, 1))
	if shares := byFood(v.analysis, n); len(shares) > 0 {
		var names []string
		for _, s := range shares[:min(3, len(shares))] {
			if s.share >= 0.03 {
				names = append(names, fmt.Sprintf("%s %.0f %%", s.name, s.share*100))
			}
		}
		if len(names) > 0 {
			out += ", most from " + strings.Join(names, "; ")
		}
		line, _, _ := c.mostFrom(n)
		example := "half the " + line
		if more {
			example = "double the " + line
		}
		return out + fmt.Sprintf(". To see what a change does, say \"%s\".", example)
	}
	return out + "."
}

// withWish is the end of "what can replace soy sauce with less sodium".
var withWish = regexp.MustCompile(`(?i)^(.+?) (?:with|that has|that is|having) ((?:less|lower|fewer|more|higher)(?: in)? .+)$`)

// replaceFor answers what can stand in for a food for the sake of a nutrient: by the
// rules for having less of it, not by those for any exchange, which may bring more.
// ok is false if no goal is named.
func (c *Conversation) replaceFor(food string) (reply string, ok bool) {
	m := withWish.FindStringSubmatch(food)
	if m == nil {
		return "", false
	}
	goal, ok := engine.GoalNamed(m[2])
	if !ok {
		n, more, is := wishOf(m[2])
		switch {
		case is && n == fooddata.Fat && !more:
			goal = engine.LessSaturatedFat
		case is && n == fooddata.Sugars && !more:
			goal = engine.LessAddedSugar
		default:
			return fmt.Sprintf("By %s no exchange is known here. What can stand in for it at all:\n%s", wordsOfWish(m[2]), c.replace(grammar.Request{Kind: grammar.ReplaceWhat, Food: m[1]})), true
		}
	}
	if at := c.inHandLines(m[1]); len(at) > 0 {
		var list []engine.Suggestion
		for _, s := range c.engine.Instead(c.inHand().recipe, goal, c.serve) {
			if slices.ContainsFunc(s.Lines, func(i int) bool { return slices.Contains(at, i) }) {
				list = append(list, s)
			}
		}
		if len(list) == 0 {
			return fmt.Sprintf("No food with %s in place of %s is known here. Say \"%s\" for what else helps.", m[2], m[1], goal), true
		}
		c.advice = advice{From: fromInstead, Words: food, list: list[:min(mostAdvice, len(list))]}
		c.markLeast()
		out := c.openFigures()
		for i, s := range c.advice.list {
			out = append(out, suggestion(i+1, s, true)...)
		}
		return strings.Join(append(out, c.howToApply()), "\n"), true
	}
	amount := "1 cup "
	if l := c.amount(amount + m[1]); l.Status != engine.Counted || len(grammar.ParseLine(m[1]).Items) == 1 && grammar.ParseLine(m[1]).Items[0].Amount != nil {
		amount = ""
	}
	recipe, err := grammar.ParseRecipe("Serves 1\n\n" + amount + m[1])
	if err != nil {
		return fault(err), true
	}
	var out []string
	for i, s := range c.engine.Instead(recipe, goal, nil) {
		out = append(out, suggestion(i+1, s, true)...)
	}
	if len(out) == 0 {
		return fmt.Sprintf("No food with %s in place of %s is known here. Ask what can replace it at all: \"what can replace %s\".", m[2], m[1], m[1]), true
	}
	return fmt.Sprintf("Of %s%s:\n%s", amount, m[1], strings.Join(out, "\n")), true
}

// wordsOfWish are the words of a wish without "less" and "more".
func wordsOfWish(s string) string {
	_, rest, _ := strings.Cut(s, " ")
	return strings.TrimPrefix(rest, "in ")
}

// inHandLines are the lines of the recipe in hand that a food names.
func (c *Conversation) inHandLines(food string) []int {
	if c.inHand() == nil {
		return nil
	}
	named, _ := c.linesNamed(food)
	return named
}

// wishOf divides "less fat" into the nutrient and whether more of it is wished.
func wishOf(words string) (n fooddata.Nutrient, more, ok bool) {
	fields := strings.Fields(strings.ToLower(words))
	said := false
	for len(fields) > 1 {
		switch fields[0] {
		case "more", "higher", "increase", "raise", "boost":
			more, said = true, true
		case "less", "lower", "fewer", "reduce", "cut", "decrease":
			said = true
		case "the", "in", "of", "down", "on", "up", "total", "a", "bit", "much":
		default:
			if !said {
				return 0, false, false
			}
			f, ok := figureNamed(strings.Join(fields, " "))
			if !ok || !f.plain() {
				return 0, false, false
			}
			return f.nutrients[0], more, true
		}
		fields = fields[1:]
	}
	f, ok := figureNamed(strings.Join(fields, " "))
	if !ok || !f.plain() || !said {
		return 0, false, false
	}
	return f.nutrients[0], more, true
}
