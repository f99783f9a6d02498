package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// useWhere finds the line that a food is to stand in for: the one of the same kind.
func (c *Conversation) useWhere(r grammar.Request) (is grammar.Request, reply string) {
	said := grammar.ParseLine(r.New)
	if said.Fault != nil || len(said.Items) != 1 || len(said.Items[0].Words) == 0 {
		return r, fmt.Sprintf("Say what it stands in for: \"use %s instead of ...\".", r.New)
	}
	words := said.Items[0].Words
	for k := range words {
		kind, before := strings.Join(words[k:], " "), words[:k]
		named, _ := c.linesNamed(kind)
		if other := sameThing[strings.ToLower(words[len(words)-1])]; len(named) == 0 && other != "" { // stock for broth
			kind = strings.Join(append(slices.Clone(words[k:len(words)-1]), other), " ")
			named, _ = c.linesNamed(kind)
			before = words[:len(words)-1]
		}
		if said := slices.DeleteFunc(slices.Clone(named), func(at int) bool { // cheddar cheese rather than ricotta
			return !endsIn(append([]string{""}, significant(strings.Join(c.inHand().recipe.Lines[at].Items[0].Words, " "))...), significant(kind))
		}); len(said) == 1 {
			named = said
		}
		switch {
		case len(named) == 1:
			at := named[0]
			if k == 0 && c.sameFood(at, said.Items[0]) {
				return r, fmt.Sprintf("Line %d is that already: %s.", c.ordinal(at), c.inHand().recipe.Lines[at].Text)
			}
			r.Food = fmt.Sprintf("line %d", c.ordinal(at))
			if onlyFormMissing(c.inHand().recipe.Lines[at].Items[0].Words, words) {
				return r, fmt.Sprintf("Line %d is that already: %s.", c.ordinal(at), c.inHand().recipe.Lines[at].Text) // lean beef of lean ground beef
			}
			r.New = c.kindOf(at, before, r.New)
			if nearest := c.nearestKind(at, before, r.New); nearest != "" {
				return r, nearest
			}
			return r, c.notThatKind(at, r.New)
		case len(named) > 1:
			which := c.lineWords(named)
			return r, fmt.Sprintf("Which one: %s? Say for instance \"use %s instead of %s\".", strings.Join(which, " or "), r.New, strings.SplitN(which[0], " (", 2)[0])
		}
	}
	if at, kept := c.uncounted(words[len(words)-1]); kept {
		return r, at
	}
	return r, fmt.Sprintf("No line is of that kind. Say \"use %s instead of %s\", or \"add 1/2 cup %s\".", r.New, c.nearestTo(said.Items[0]), strings.Join(words, " "))
}

// onlyFormMissing reports whether the words of a line are those said and how it is
// cut: "lean ground beef" of "lean beef".
func onlyFormMissing(has, said []string) bool {
	have, want := fooddata.Normalise(strings.Join(has, " ")), fooddata.Normalise(strings.Join(said, " "))
	if len(want) < 2 || !containsAll(have, want) {
		return false
	}
	for _, w := range have {
		switch w {
		case "ground", "minced", "mince", "diced", "cubed", "sliced", "shredded", "grated":
		default:
			if !slices.Contains(want, w) {
				return false
			}
		}
	}
	return true
}

// nearestKind names the kinds of a line's food where the one that is said of it is
// not in the table: low-sodium beef broth. It is empty where the food is there.
func (c *Conversation) nearestKind(at int, kind []string, said string) string {
	was := c.inHand().recipe.Lines[at].Items[0]
	item := grammar.ParseLine(said).Items[0]
	if item.Amount != nil || was.Amount == nil || len(kind) == 0 {
		return ""
	}
	item.Amount = was.Amount
	if c.engine.Resolve(item).Status == engine.Counted {
		return ""
	}
	full := was
	full.Words = append(slices.Clone(kind), was.Words...)
	l := c.engine.Resolve(full)
	if l.Status != engine.Ask || len(l.Choices) == 0 {
		return ""
	}
	n := c.ordinal(at)
	return fmt.Sprintf("The recipe is as it was: %s.%s Say for instance \"line %d is %s\".", l.Why, didYouMean(&l), n, l.Choices[0].Name())
}

// sameThing are words that recipes use for one thing.
var sameThing = map[string]string{"stock": "broth", "broth": "stock", "stocks": "broth", "scallions": "green onions", "cilantro": "coriander", "coriander": "cilantro", "garbanzos": "chickpeas", "prawns": "shrimp", "shrimp": "prawns", "yoghurt": "yogurt"}

// notThatKind asks for another name where the table has no such kind and would take
// the food without the words that tell it. It is empty where it has.
func (c *Conversation) notThatKind(at int, said string) string {
	item := grammar.ParseLine(said).Items[0]
	if item.Amount == nil {
		item.Amount = c.inHand().recipe.Lines[at].Items[0].Amount
	}
	l := c.engine.Resolve(item)
	if l.Status != engine.Counted || !slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, "not taken into account") }) {
		return ""
	}
	out := fmt.Sprintf("The recipe is as it was: %q is no kind that is known here.", said)
	for i := range c.inHand().analysis.Lines {
		if was := &c.inHand().analysis.Lines[i]; was.Number == c.inHand().recipe.Lines[at].Number && len(was.Choices) > 0 {
			out += " Kinds of it: " + orList(was.Choices, 4) + "."
		}
	}
	return out + fmt.Sprintf(" Say \"line %d is ...\".", c.ordinal(at))
}

// sameFood reports whether an item is the food that a line already has.
func (c *Conversation) sameFood(at int, item grammar.Item) bool {
	was := c.inHand().recipe.Lines[at].Items[0]
	if item.Amount != nil || was.Amount == nil {
		return false
	}
	item.Amount = was.Amount
	now, old := c.engine.Resolve(item), c.engine.Resolve(was)
	return now.Status == engine.Counted && now.Food == old.Food
}

// kindOf is the food of a line in the kind that words before its name tell:
// "low-sodium" of chicken broth. It is said as it was where the table has no such
// food.
func (c *Conversation) kindOf(at int, kind []string, said string) string {
	was := c.inHand().recipe.Lines[at].Items[0]
	if len(kind) == 0 || was.Amount == nil {
		return said
	}
	old := c.engine.Resolve(was)
	full := was
	full.Words = append(slices.Clone(kind), was.Words...)
	l := c.engine.Resolve(full)
	sure := l.Status == engine.Counted && l.Food != old.Food && l.Confidence >= 0.85 &&
		!slices.ContainsFunc(l.Assumed, func(s string) bool {
			return strings.Contains(s, "not taken into account") || strings.Contains(s, "not in the table")
		})
	if !sure {
		alone := grammar.ParseLine(said).Items[0]
		alone.Amount = was.Amount
		if l.Status != engine.Counted || l.Food == old.Food || c.engine.Resolve(alone).Status == engine.Counted {
			return said
		}
	}
	return strings.Join(full.Words, " ")
}

// nearestTo is a line of the recipe that a food may stand in for: one of its group.
func (c *Conversation) nearestTo(item grammar.Item) string {
	item.Amount = grammar.ParseLine("100 g salt").Items[0].Amount
	group := ""
	if meant := c.engine.Resolve(item); !meant.Food.IsZero() {
		group = meant.Food.Group()
	}
	a := c.inHand().analysis
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Counted && (group == "" || l.Food.Group() == group) {
			return itemName(l)
		}
	}
	for i := range a.Lines { // another meat or fish
		if l := &a.Lines[i]; l.Status == engine.Counted && isMeat[group] && isMeat[l.Food.Group()] {
			return itemName(l)
		}
	}
	return "line 1"
}

// isMeat are the food groups of meat and fish, which stand in for each other.
var isMeat = map[string]bool{"Beef Products": true, "Pork Products": true, "Poultry Products": true, "Lamb, Veal, and Game Products": true, "Sausages and Luncheon Meats": true, "Finfish and Shellfish Products": true}

// withFood answers "with the walnuts" where no optional line is meant: they are in
// it already, or stand in for a line of their kind.
func (c *Conversation) withFood(r grammar.Request) (is grammar.Request, reply string) {
	item := grammar.ParseLine(r.New).Items[0]
	if named, _ := c.linesNamed(strings.Join(item.Words, " ")); len(named) == 1 && item.Amount == nil {
		v := c.inHand()
		for i := range v.analysis.Lines {
			l := &v.analysis.Lines[i]
			switch {
			case l.Number != v.recipe.Lines[named[0]].Number:
			case l.Status == engine.Counted:
				return r, fmt.Sprintf("Line %d, %s, is counted already.", c.ordinal(named[0]), l.Text)
			default:
				return r, fmt.Sprintf("Line %d, %s, is not counted: %s. Say how much, such as \"line %d is 1/2 cup\".", c.ordinal(named[0]), l.Text, l.Why, c.ordinal(named[0]))
			}
		}
	}
	if item.Amount != nil {
		return grammar.Request{Kind: grammar.Add, Food: r.New}, ""
	}
	use, reply := c.useWhere(grammar.Request{Kind: grammar.UseInstead, New: r.New})
	return use, reply
}
