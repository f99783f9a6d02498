package bot

import (
	"fmt"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
	"pottle/store"
)

// namedTarget is a set of limits that the team gave a name.
type namedTarget struct {
	name     string
	limits   []engine.Limit
	revision int // in the store
}

func targetKey(name string) string { return strings.Join(strings.Fields(strings.ToLower(name)), " ") }

// setTarget names limits for this team to check recipes against.
func (c *Conversation) setTarget(r grammar.Request) string {
	t := namedTarget{name: r.Food, revision: c.targets[targetKey(r.Food)].revision}
	for _, l := range r.Limits {
		limit, wrong := limitOf(l)
		if wrong != "" {
			return wrong + " The target was not set."
		}
		t.limits = append(t.limits, limit)
	}
	if c.memory != nil {
		record := store.Target{Name: t.name, Revision: t.revision}
		for _, l := range t.limits {
			record.Limits = append(record.Limits, storeLimit(l))
		}
		kept, err := c.memory.Team.Targets().Save(c.ctx, record, c.memory.Who)
		if err != nil {
			return said(err) + " The target was not set."
		}
		t.revision = kept.Revision
	}
	c.targets[targetKey(t.name)] = t
	return fmt.Sprintf("Target %s. Say \"check %s\" with a recipe in hand.", t, t.name)
}

// String writes the target in a line.
func (t namedTarget) String() string {
	var parts []string
	for _, l := range t.limits {
		parts = append(parts, l.Nutrient.Name()+" "+limitText(l))
	}
	return t.name + ": " + strings.Join(parts, ", ")
}

func (c *Conversation) listTargets() string {
	if len(c.targets) == 0 {
		return "There is no target yet. Set one, such as \"target carb-45: carbohydrate at most 45 g, fibre at least 5 g\"."
	}
	var out []string
	for _, t := range c.targets {
		out = append(out, t.String())
	}
	slices.Sort(out)
	return strings.Join(out, "\n")
}

func (c *Conversation) checkTarget(name string) string {
	t, ok := c.targets[targetKey(name)]
	if !ok {
		return fmt.Sprintf("There is no target %q. Set one, such as \"target %s: carbohydrate at most 45 g, fibre at least 5 g\".", name, name)
	}
	v := c.inHand()
	if v == nil {
		return noRecipe
	}
	out := []string{fmt.Sprintf("%s against %s:", sentence(portion(v.analysis)), t.name)}
	for _, l := range t.limits {
		holds, sure := l.Holds(v.analysis)
		verdict := "met"
		switch {
		case !sure, holds != l.AtLeast && unread(v.analysis):
			verdict = "not known: some ingredient is not in the figure"
		case !holds:
			verdict = "not met"
		}
		got := "no figure"
		if !v.analysis.Unknown(l.Nutrient) {
			got = atLeast(v.analysis, l.Nutrient) + value(v.analysis.Per(l.Nutrient).Low, l.Nutrient)
		}
		out = append(out, fmt.Sprintf("%s %s, %s: %s", sentence(l.Nutrient.Name()), got, limitText(l), verdict))
	}
	return strings.Join(out, "\n")
}

func storeLimit(l engine.Limit) store.Limit {
	bound := store.AtMost
	if l.AtLeast {
		bound = store.AtLeast
	}
	return store.Limit{Tag: l.Nutrient.Tag(), Bound: bound, Value: l.Amount}
}

// engineLimits reads kept limits; one on a figure that is not known any more is
// left out.
func engineLimits(kept []store.Limit) []engine.Limit {
	var limits []engine.Limit
	for _, l := range kept {
		if n, ok := fooddata.NutrientByTag(l.Tag); ok {
			limits = append(limits, engine.Limit{Nutrient: n, AtLeast: l.Bound == store.AtLeast, Amount: l.Value})
		}
	}
	return limits
}
