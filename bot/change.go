package bot

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// change answers the requests that make a new version of the recipe in hand.
// ok is false if the request names no line of it and reads as a question too.
func (c *Conversation) change(r grammar.Request) (reply string, ok bool) {
	v := c.inHand()
	var edits []engine.Edit
	var notes []string
	said := ""
	switch r.Kind {
	case grammar.Add:
		line := grammar.ParseLine(r.Food)
		for _, item := range line.Items {
			l := c.engine.Resolve(item)
			if l.Status != engine.Counted {
				return "Nothing was added. " + unclear(&l), true
			}
			edits = append(edits, engine.Edit{Kind: engine.EditAdd, Item: item, Text: r.Food})
		}
		said = "added " + r.Food
	case grammar.Include:
		lines := c.optionalLines(r.Food)
		if len(lines) == 0 {
			return fmt.Sprintf("No optional line holds %q. Say \"lines\" to see them.", r.Food), true
		}
		for _, at := range lines {
			edits = append(edits, engine.Edit{Kind: engine.EditInclude, Line: at, Text: v.recipe.Lines[at].Text})
		}
		said = "with the optional " + r.Food
	default:
		at, why := c.lineNamed(r.Food)
		if at < 0 {
			return why, r.Else == nil
		}
		edit, did, wrong := c.edit(r, at)
		if wrong != "" {
			return wrong, true
		}
		edits, said = []engine.Edit{edit}, did
		if notes, wrong = c.keptHere(at, edit); wrong != "" {
			return wrong, true
		}
	}
	recipe, err := engine.Apply(v.recipe, edits...)
	if err != nil {
		return "The recipe is as it was: " + err.Error() + ".", true
	}
	before, after := c.add(recipe, said)
	return c.changed(before, after, append(notes, c.newAssumptions(before, after)...)...), true
}

// keptHere says why the dish rests on the line that an edit changes. Where the
// line keeps the food safe it refuses less of it: salt in a pickle, a cure or a
// preserve is never cut here.
func (c *Conversation) keptHere(at int, e engine.Edit) (notes []string, refused string) {
	recipe := c.inHand().recipe
	for _, k := range c.engine.Kept(recipe, engine.All, c.work) {
		if k.Line != at {
			continue
		}
		if k.Safety && c.lessens(e, recipe.Lines[at].Items[0]) {
			return nil, fmt.Sprintf("The recipe is as it was: %s stays. %s (%s). If the line was read wrong, correct it with \"line %d is ...\".", k.What, sentence(k.Why), k.Source, c.ordinal(at))
		}
		notes = append(notes, fmt.Sprintf("Mind: %s (%s).", k.Why, k.Source))
	}
	return notes, ""
}

// lessens reports whether an edit leaves less of what a line holds, or another
// food.
func (c *Conversation) lessens(e engine.Edit, was grammar.Item) bool {
	switch e.Kind {
	case engine.EditMultiply:
		return e.Factor.Cmp(big.NewRat(1, 1)) < 0
	case engine.EditAmount:
		now := was
		now.Amount = e.Item.Amount
		return c.engine.Resolve(now).Grams.Low < c.engine.Resolve(was).Grams.Low
	}
	return true
}

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

// edit makes the edit of one line that a request asks for.
func (c *Conversation) edit(r grammar.Request, at int) (edit engine.Edit, did, wrong string) {
	line := c.inHand().recipe.Lines[at]
	item := line.Items[0]
	name := strings.Join(item.Words, " ")
	switch r.Kind {
	case grammar.Drop:
		return engine.Edit{Kind: engine.EditDrop, Line: at}, "left out " + line.Text, ""
	case grammar.MultiplyFood:
		if r.Factor == nil || r.Factor.Sign() <= 0 {
			return edit, "", fmt.Sprintf("That would leave none of the %s. To leave it out, say \"drop %s\".", name, r.Food)
		}
		if item.Amount == nil {
			return edit, "", fmt.Sprintf("%q has no amount to change. Say how much, such as \"%s 1/2 tsp\".", line.Text, name)
		}
		if r.Factor.Cmp(mostTimes) > 0 {
			return edit, "", "That is more than a thousand times as much. The recipe is as it was."
		}
		many := engine.Multiply(item, r.Factor)
		_, words, _ := engine.KitchenAmount(*many.Amount, c.inHand().recipe.Metric, engine.Nearest)
		text := words + " " + strings.Join(append(slices.Clone(item.Words), item.Prep...), " ")
		return engine.Edit{Kind: engine.EditMultiply, Line: at, Factor: r.Factor, Text: text}, fmt.Sprintf("%s %s → %s", name, c.amountWords(*item.Amount), words), ""
	case grammar.SetAmount:
		said := grammar.ParseLine(r.New)
		if r.Fault != nil || said.Fault != nil || said.Items[0].Amount == nil {
			return edit, "", fmt.Sprintf("%q is no amount. Say for instance \"%s 1/2 cup\".", r.New, r.Food)
		}
		changed := item
		changed.Amount, changed.Uncounted, changed.Optional = said.Items[0].Amount, "", false
		if l := c.engine.Resolve(changed); l.Status != engine.Counted {
			return edit, "", "The recipe is as it was. " + unclear(&l)
		}
		before := "no amount"
		if item.Amount != nil {
			before = c.amountWords(*item.Amount)
		}
		return engine.Edit{Kind: engine.EditAmount, Line: at, Item: said.Items[0], Text: r.New + " " + strings.Join(append(slices.Clone(item.Words), item.Prep...), " ")},
			fmt.Sprintf("%s %s → %s", name, before, r.New), ""
	case grammar.UseInstead:
		return c.useInstead(r, at)
	}
	return edit, "", "That change is not known."
}

// amountWords writes an amount in measures of a kitchen where that is exact.
func (c *Conversation) amountWords(a grammar.Amount) string {
	if _, words, off := engine.KitchenAmount(a, c.inHand().recipe.Metric, engine.Nearest); off == 0 {
		return words
	}
	return a.String()
}

var mostTimes = grammar.Exactly(1000, 1).Low

// useInstead puts another food in a line, with its own amount if one is said.
func (c *Conversation) useInstead(r grammar.Request, at int) (edit engine.Edit, did, wrong string) {
	line := c.inHand().recipe.Lines[at]
	said := grammar.ParseLine(r.New)
	item := said.Items[0]
	kind := engine.EditLine
	if item.Amount == nil {
		kind = engine.EditFood
		item = c.inState(said.Items[0], line)
		item.Amount, item.Uncounted = line.Items[0].Amount, line.Items[0].Uncounted
	}
	if item.Amount == nil {
		return edit, "", fmt.Sprintf("%q has no amount. Say how much of the %s.", line.Text, r.New)
	}
	if l := c.engine.Resolve(item); l.Status != engine.Counted {
		return edit, "", "The recipe is as it was. " + unclear(&l)
	}
	return engine.Edit{Kind: kind, Line: at, Item: item, Text: item.String()}, fmt.Sprintf("%s instead of %s", r.New, strings.Join(line.Items[0].Words, " ")), ""
}

// inState puts the state of a line's food, cooked or canned, before a food that
// stands in for it and says no state: brown rice for cooked rice is cooked. What
// was done to the old food is done to the new one.
func (c *Conversation) inState(item grammar.Item, line grammar.Line) grammar.Item {
	was := line.Items[0]
	if len(item.Prep) == 0 {
		item.Prep, item.Tail = was.Prep, was.Tail
	}
	if was.Amount == nil {
		return item
	}
	old := c.engine.Resolve(was)
	if old.Status != engine.Counted {
		return item
	}
	now := item
	now.Amount, now.Uncounted = was.Amount, ""
	as := c.engine.Resolve(now)
	word := stateWord[old.Food.State()]
	if word == "" || as.Status != engine.Counted || as.Food.State() == old.Food.State() || saysState(item.Words) {
		return item
	}
	now.Words = append([]string{word}, item.Words...)
	if alike := c.engine.Resolve(now); alike.Status == engine.Counted && alike.Food.State() == old.Food.State() {
		item.Words = now.Words
	}
	return item
}

var stateWord = map[fooddata.State]string{fooddata.Cooked: "cooked", fooddata.Canned: "canned"}

// saysState reports whether a name says in what state the food is.
func saysState(words []string) bool {
	for _, w := range words {
		switch w {
		case "raw", "cooked", "uncooked", "dry", "dried", "canned", "fresh", "frozen", "tinned":
			return true
		}
	}
	return false
}

// newAssumptions says what a changed line was taken for, if that is assumed.
func (c *Conversation) newAssumptions(before, after *version) []string {
	had := make(map[string]bool)
	for i := range before.analysis.Lines {
		had[assumption(&before.analysis.Lines[i])] = true
	}
	var notes []string
	for i := range after.analysis.Lines {
		l := &after.analysis.Lines[i]
		if s := assumption(l); s != "" && !had[s] {
			notes = append(notes, "Assumed: "+s)
		}
	}
	return notes
}

func assumption(l *engine.Line) string {
	if l.Status != engine.Counted || len(l.Assumed) == 0 {
		return ""
	}
	said := []string{fmt.Sprintf("%s, %s", l.Food.Name(), grams(l.Grams))}
	for _, note := range l.Assumed {
		if note != "taken as "+l.Food.Name() {
			said = append(said, note)
		}
	}
	return strings.Join(said, "; ")
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
