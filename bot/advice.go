package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/grammar"
)

// mostAdvice is how many suggestions a reply gives; the first reply to a
// recipe gives firstAdvice.
const (
	mostAdvice  = 6
	firstAdvice = 3
)

// advice is what was last suggested. It is kept by where it came from and worked
// out again: the same recipe gives the same suggestions.
type advice struct {
	From  string `json:"from,omitempty"`
	Words string `json:"words,omitempty"`

	list []engine.Suggestion
}

// Where advice comes from.
const (
	fromFirst   = "first reply"
	fromCut     = "cut"
	fromReplace = "replace"
	fromInstead = "instead"
)

// lessOf are the words that ask for less of something.
var lessOf = regexp.MustCompile(`(?i)^(?:(?:less|lower|cut|reduce|fewer|more|increase|raise|use|with|much|a bit|the|in|down|on) )+`)

// cut offers computed suggestions for a goal.
func (c *Conversation) cut(words string) string {
	goal, ok := engine.GoalNamed(words)
	food := lessOf.ReplaceAllString(words, "")
	if n, more, is := wishOf(words); is && !ok && len(c.lines(n.Name())) == 0 {
		return c.noGoal(n, more)
	}
	if named, _ := c.linesNamed(food); !ok && len(named) > 0 {
		if first := strings.Fields(strings.ToLower(words))[0]; first == "more" || first == "increase" || first == "raise" {
			return fmt.Sprintf("How much more? Say for instance \"double the %s\", or an amount.", food)
		}
		return fmt.Sprintf("How much less? Say for instance \"half the %s\", or an amount.", food)
	}
	if food != words && !ok && !c.amount("100 g "+food).Food.IsZero() { // "less cheese"
		_, why := c.lineNamed(food)
		return why
	}
	if !ok {
		return fmt.Sprintf("What to cut is not clear from %q. Say \"cut sodium\", \"less added sugar\", \"lower the saturated fat\", \"fewer calories\", \"more fibre\" or \"suggest\".", words)
	}
	v := c.inHand()
	c.advice = advice{From: fromCut, Words: words, list: c.engine.Suggest(v.recipe, goal, c.serve, c.versions[0].recipe)}
	var out []string
	if len(c.advice.list) > 0 {
		out = c.openFigures()
	}
	for _, k := range c.engine.Kept(v.recipe, goal, c.serve) {
		out = append(out, fmt.Sprintf("Kept: %s. %s", k.What, sentence(k.Why)))
	}
	c.markLeast()
	if len(c.advice.list) == 0 {
		out = append(out, "No change that is known here helps visibly.")
		return strings.Join(append(out, c.unhelped(goal)...), "\n")
	}
	if !v.analysis.Known {
		out = append(out, "In the whole recipe, since it is not said how many it serves:")
	}
	c.advice.list = c.advice.list[:min(mostAdvice, len(c.advice.list))]
	for i, s := range c.advice.list {
		out = append(out, suggestion(i+1, s, true)...)
	}
	out = append(out, c.howToApply())
	return strings.Join(append(out, c.unhelped(goal)...), "\n")
}

// howToApply says how the suggestions are made; all together only if no two of
// them change the same line.
func (c *Conversation) howToApply() string {
	if len(c.advice.list) == 1 {
		return "Say \"apply 1\" to make it."
	}
	edited := make(map[int]int)
	for i, s := range c.advice.list {
		for _, e := range s.Edits {
			if other, ok := edited[e.Line]; ok && other != i && e.Kind != engine.EditAdd {
				return "Say \"apply 1\" to make the first; of two that change one line only one can be made."
			}
			if e.Kind != engine.EditAdd {
				edited[e.Line] = i
			}
		}
	}
	return "Say \"apply 1\", \"apply 1 and 2\" or \"apply all\"."
}

// numbered is the line that offers suggestion n.
func numbered(n int, text string) string { return fmt.Sprintf("%d  %s", n, text) }

// suggestionText is what a suggestion does, in one line.
func suggestionText(s engine.Suggestion) string {
	least := ""
	if s.AtLeast {
		least = "at least "
	}
	return fmt.Sprintf("%s: %s %s%s → %s", sentence(s.What), s.Nutrient.Name(), least, number(s.Before, s.Nutrient), value(s.After, s.Nutrient))
}

// Offered returns what "apply 1", "apply 2" and on would make now: for each
// suggestion on offer the text that stood after its number in the reply, on one
// line. It is empty if nothing is on offer. After Remember the suggestions are
// worked out again, so that the text differs from the one shown if the change
// that is made would.
func (c *Conversation) Offered() []string {
	if c.inHand() == nil {
		return nil
	}
	c.again()
	var texts []string
	for _, s := range c.advice.list {
		if c.advice.From == fromReplace {
			texts = append(texts, sentence(s.What))
		} else {
			texts = append(texts, suggestionText(s))
		}
	}
	return texts
}

// suggestion writes one suggestion; full adds its limit and source.
func suggestion(n int, s engine.Suggestion, full bool) []string {
	out := []string{numbered(n, suggestionText(s))}
	if !full {
		return out
	}
	if len(s.Also) > 0 {
		out = append(out, "   also "+strings.Join(s.Also, ", "))
	}
	detail := s.Dish
	if s.Limit != "" {
		detail += ". Limit: " + s.Limit
	}
	if detail != "" {
		out = append(out, "   "+sentence(detail)+" ("+s.Source+").")
	}
	if len(s.Allergens) > 0 {
		out = append(out, "   may bring in "+allergenList(s.Allergens))
	}
	if s.Gluten != "" {
		out = append(out, "   "+s.Gluten)
	}
	return out
}

// bestAdvice are the most useful suggestions of all goals, for the first reply.
func (c *Conversation) bestAdvice() []string {
	v := c.inHand()
	if _, of := v.analysis.Counted(); of == 0 || !v.analysis.Known {
		return nil
	}
	c.advice = advice{From: fromFirst, list: c.engine.Suggest(v.recipe, engine.All, c.serve, c.versions[0].recipe)}
	c.markLeast()
	if len(c.advice.list) == 0 {
		return nil
	}
	c.advice.list = c.advice.list[:min(firstAdvice, len(c.advice.list))]
	out := []string{"What would help, for " + portion(v.analysis) + ":"}
	for i, s := range c.advice.list {
		out = append(out, suggestion(i+1, s, false)...)
	}
	return append(out, "Say \"apply 1\", or \"suggest\" for more.")
}

// again works out what was last suggested, where only its source was kept.
func (c *Conversation) again() {
	if len(c.advice.list) > 0 {
		return
	}
	switch c.advice.From {
	case fromCut:
		c.cut(c.advice.Words)
	case fromReplace, fromInstead:
		c.replace(grammar.Request{Kind: grammar.ReplaceWhat, Food: c.advice.Words})
	case fromFirst:
		c.bestAdvice()
	}
}

// apply makes suggested changes.
func (c *Conversation) apply(numbers []int) string {
	c.again()
	if len(c.advice.list) == 0 {
		return "Nothing has been suggested for this version. Say \"suggest\" first."
	}
	if len(numbers) == 0 {
		for i := range c.advice.list {
			numbers = append(numbers, i+1)
		}
	}
	var edits []engine.Edit
	var did []string
	edited := make(map[int]int) // by which suggestion a line is edited
	slices.Sort(numbers)
	for _, n := range slices.Compact(numbers) {
		if n < 1 || n > len(c.advice.list) {
			return fmt.Sprintf("There is no suggestion %d: there are %d.", n, len(c.advice.list))
		}
		for _, e := range c.advice.list[n-1].Edits {
			if e.Kind == engine.EditAdd {
				continue
			}
			if other := edited[e.Line]; other != 0 && other != n {
				return fmt.Sprintf("%d and %d change the same line, so only one of them can be made. Say \"apply %d\" or \"apply %d\". The recipe is as it was.", other, n, other, n)
			}
			edited[e.Line] = n
		}
		edits = append(edits, c.advice.list[n-1].Edits...)
		did = append(did, c.advice.list[n-1].What)
	}
	recipe, err := engine.Apply(c.inHand().recipe, lastDrops(edits)...)
	if err != nil {
		return "The recipe is as it was: " + err.Error() + "."
	}
	before, after := c.add(recipe, strings.Join(did, "; "))
	return c.changed(before, after)
}

// lastDrops puts edits that leave lines out, or add some, where they do not
// move the lines that others speak of.
func lastDrops(edits []engine.Edit) []engine.Edit {
	var first, drops, adds []engine.Edit
	for _, e := range edits {
		switch e.Kind {
		case engine.EditDrop:
			drops = append(drops, e)
		case engine.EditAdd:
			adds = append(adds, e)
		default:
			first = append(first, e)
		}
	}
	slices.SortFunc(drops, func(a, b engine.Edit) int { return b.Line - a.Line })
	return slices.Concat(first, drops, adds)
}

// replace answers what can stand in for a food, or what suits a diet.
func (c *Conversation) replace(r grammar.Request) string {
	if r.Kind == grammar.SuitDiet {
		if answer, ok := friendlyTo(r.Food); ok {
			return answer
		}
	}
	if answer, ok := c.replaceFor(r.Food); ok && r.Kind == grammar.ReplaceWhat {
		return answer
	}
	if line := grammar.ParseLine(r.Food); len(line.Items) == 1 && line.Items[0].Amount != nil && len(line.Items[0].Words) > 0 { // "1 cup of sour cream"
		r.Food = strings.Join(line.Items[0].Words, " ")
	}
	var recipe *grammar.Recipe
	if v := c.inHand(); v != nil {
		recipe = v.recipe
	}
	if recipe != nil {
		if options, without, ok := c.engine.SwapFor(recipe, r.Food, c.serve); ok {
			return c.offer(options, without, r.Food)
		}
	}
	options := c.engine.Swaps(recipe, r.Food, c.serve)
	if len(options) == 0 {
		return fmt.Sprintf("No replacement for %q is known here.", r.Food)
	}
	return c.offer(options, nil, r.Food)
}

// friendlyTo answers a wish to suit a disease: it is not for pottle to say that a
// dish does, only what can be changed and looked at.
func friendlyTo(words string) (string, bool) {
	lower := strings.ToLower(words)
	for _, w := range []struct{ of, say string }{
		{"diabet", "\"less added sugar\", \"fit 45 g carbohydrate\", \"more fibre\" or \"carb choices\""},
		{"kidney", "\"cut sodium\", \"what brings the potassium\", \"phosphorus\" or \"protein\""},
		{"renal", "\"cut sodium\", \"what brings the potassium\", \"phosphorus\" or \"protein\""},
		{"heart", "\"cut sodium\", \"lower the saturated fat\" or \"more fibre\""},
		{"cardiac", "\"cut sodium\", \"lower the saturated fat\" or \"more fibre\""},
		{"dash", "\"cut sodium\", \"lower the saturated fat\", \"potassium\" or \"more fibre\""},
		{"healthy", "\"suggest\", \"cut sodium\", \"less added sugar\", \"lower the saturated fat\" or \"more fibre\""},
	} {
		if strings.Contains(lower, w.of) {
			return noClearance + " What can be changed or looked at here: say " + w.say + ".", true
		}
	}
	return "", false
}

func (c *Conversation) offer(options []engine.SwapOption, without []string, what string) string {
	var out []string
	if len(options) > 0 {
		out = c.openFigures()
	}
	c.advice = advice{From: fromReplace, Words: what}
	for i, o := range options {
		out = append(out, numbered(i+1, sentence(o.What)))
		if len(o.Figures) > 0 {
			out = append(out, "   "+strings.Join(o.Figures, ", "))
		}
		if o.Dish != "" {
			out = append(out, "   "+sentence(o.Dish)+" ("+o.Source+").")
		}
		move := engine.AllergenMove{MayBring: o.MayBring, NoLongerShows: o.NoLongerShows, Gluten: o.Gluten}
		for _, a := range o.Brings {
			if !slices.Contains(o.MayBring, a) {
				move.Brings = append(move.Brings, a)
			}
		}
		if notes := move.Sentences(); len(notes) > 0 {
			out = append(out, "   "+strings.Join(notes, " "))
		}
		if len(o.Edits) > 0 {
			c.advice.list = append(c.advice.list, engine.Suggestion{Edits: o.Edits, What: o.What})
		}
	}
	for _, w := range without {
		out = append(out, "No good replacement: "+w)
	}
	if len(out) == 0 {
		return fmt.Sprintf("No line needs a change for %q by its ingredients. Check each label: this is no clearance.", what)
	}
	if len(c.advice.list) == len(options) && len(options) > 0 {
		out = append(out, c.howToApply())
	} else {
		c.advice = advice{}
	}
	return strings.Join(out, "\n")
}
