package bot

import (
	"fmt"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// amountLimit reads a nutrient that is to be set to an amount: "the sodium to 400 mg".
func amountLimit(r grammar.Request) (engine.Limit, bool) {
	n, ok := nutrientNamed(r.Food)
	line := grammar.ParseLine(r.New)
	if !ok || alsoFoods[strings.ToLower(r.Food)] || line.Fault != nil || len(line.Items) != 1 || line.Items[0].Amount == nil || len(line.Items[0].Amount.Terms) != 1 {
		return engine.Limit{}, false
	}
	t := line.Items[0].Amount.Terms[0]
	unit := ""
	if t.Measure != nil {
		unit = t.Measure.Name
	}
	more := n == fooddata.Fibre || n == fooddata.Protein
	limit, wrong := limitOf(grammar.Limit{Nutrient: n.Name(), AtLeast: more, Amount: t.Quantity.Low, Unit: unit})
	return limit, wrong == ""
}

// shareLimit is the limit that a part of a nutrient comes to: "cut sodium by half".
func (c *Conversation) shareLimit(r grammar.Request) (engine.Limit, bool) {
	n, ok := nutrientNamed(r.Food)
	if !ok || c.inHand().analysis.Unknown(n) {
		return engine.Limit{}, false
	}
	factor, _ := r.Factor.Float64()
	if factor <= 0 {
		return engine.Limit{}, false
	}
	return engine.Limit{Nutrient: n, AtLeast: factor > 1, Amount: c.inHand().analysis.Per(n).Low * factor}, true
}

// goalFor is the goal that brings a serving nearer to a limit.
func goalFor(l engine.Limit) (engine.Goal, bool) {
	for _, g := range []engine.Goal{engine.LessSodium, engine.LessAddedSugar, engine.LessSaturatedFat, engine.FewerCalories, engine.MoreFibre} {
		if g.Nutrient() == l.Nutrient {
			return g, (g == engine.MoreFibre) == l.AtLeast
		}
	}
	return engine.All, false
}

// within answers a limit of which nothing says how to keep it: what a serving has,
// the changes that help and how far all of them go, and the size that keeps it.
func (c *Conversation) within(limit engine.Limit) string {
	v := c.inHand()
	n := limit.Nutrient
	if !v.analysis.Known {
		return "A limit goes by a serving, and it is not said how many the recipe serves. Say \"servings 6\" first."
	}
	has := fmt.Sprintf("%s has %s; %s is asked.", sentence(portion(v.analysis)), figureWords(v.analysis, n, 1), limitText(limit))
	holds, sure := limit.Holds(v.analysis)
	switch {
	case v.analysis.Unknown(n):
		return has
	case holds && (!sure || unread(v.analysis) && !limit.AtLeast):
		return has + " Whether it keeps within that is not known: some ingredient is not in the figure. Say \"lines\"."
	case holds:
		return has + " It keeps within that as it is."
	}
	out := []string{has}
	goal, ok := goalFor(limit)
	if ok {
		out = append(out, c.cut(goal.String()))
	}
	if ok && len(c.advice.list) > 0 {
		var edits []engine.Edit
		for _, s := range c.advice.list {
			edits = append(edits, s.Edits...)
		}
		if recipe, err := engine.Apply(v.recipe, lastDrops(edits)...); err == nil {
			after := c.work(recipe)
			met := "still not within it"
			if now, _ := limit.Holds(after); now {
				met = "within it"
			}
			out = append(out, fmt.Sprintf("All of them together: %s, %s.", figureWords(after, n, 1), met))
		}
	}
	if line, share, has := c.mostFrom(n); has && share >= 0.1 {
		out = append(out, fmt.Sprintf("Or by amounts: \"%s %s by %s\".", n.Name(), limitText(limit), line))
	}
	if !limit.AtLeast && v.analysis.Known {
		out = append(out, "Or by size: "+c.fitServings([]engine.Limit{limit}))
	}
	return strings.Join(out, "\n")
}

// mostFrom is the line that brings most of a nutrient, and its share.
func (c *Conversation) mostFrom(n fooddata.Nutrient) (name string, share float64, ok bool) {
	a := c.inHand().analysis
	for _, s := range a.Brings(n) {
		return itemName(&a.Lines[s.Line]), s.Share, true
	}
	return "", 0, false
}

// cutLead takes a word off the head of a text, in any case.
func cutLead(s, lead string) (string, bool) {
	if len(s) > len(lead) && strings.EqualFold(s[:len(lead)], lead) {
		return strings.TrimSpace(s[len(lead):]), true
	}
	return s, false
}
