package bot

import (
	"fmt"
	"slices"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// unhelpedShare is the least share of a nutrient that a line brings for it to be
// named where no change of it is known.
const unhelpedShare = 0.25

// kindWithLess is what to ask for in place of a food, by the goal.
var kindWithLess = map[engine.Goal]string{
	engine.LessSodium:       "a kind with less sodium (\"low-sodium\", \"no salt added\"), or one made without salt",
	engine.LessAddedSugar:   "an unsweetened kind, or less of it",
	engine.LessSaturatedFat: "a kind with less saturated fat, or less of it",
	engine.FewerCalories:    "a lighter kind, or less of it",
}

// worthAsking is how much of the nutrient of a goal a line must bring to a serving,
// in its unit, for it to be named.
var worthAsking = map[engine.Goal]float64{engine.LessSodium: 100, engine.LessAddedSugar: 3, engine.LessSaturatedFat: 1.5, engine.FewerCalories: 75}

// plainFood reports whether a food is bought in one kind: there is no salt with less
// sodium, nor oil with less fat.
func plainFood(f fooddata.Food) bool {
	sodium, _ := f.Per100g(fooddata.Sodium).Value()
	sugar, _ := f.Per100g(fooddata.Sugars).Value()
	switch f.Group() {
	case "Fats and Oils":
		return true
	case "Vegetables and Vegetable Products", "Fruits and Fruit Juices", "Legumes and Legume Products", "Nut and Seed Products", "Cereal Grains and Pasta":
		return f.State() == fooddata.Raw || f.State() == fooddata.Dried
	}
	return sodium > 20_000 || sugar > 60
}

// unhelped names the line that brings most of what there is to be less of, if none
// of the suggestions changes it and the dish does not rest on it.
func (c *Conversation) unhelped(goal engine.Goal) []string {
	ask, ok := kindWithLess[goal]
	if !ok {
		return nil
	}
	v := c.inHand()
	n := goal.Nutrient()
	for _, s := range v.analysis.Brings(n) {
		l := &v.analysis.Lines[s.Line]
		at := slices.IndexFunc(v.recipe.Lines, func(line grammar.Line) bool { return line.Number == l.Number })
		switch {
		case s.Share < unhelpedShare, s.Amount < worthAsking[goal]:
			return nil
		case slices.ContainsFunc(c.advice.list, func(s engine.Suggestion) bool { return slices.Contains(s.Lines, at) }):
			continue
		case slices.ContainsFunc(c.engine.Kept(v.recipe, goal, c.serve), func(k engine.KeptLine) bool { return k.Line == at }):
			continue
		}
		if plainFood(l.Food) {
			return []string{fmt.Sprintf("%.0f %% of the %s is from line %d, %s, of which no less is proposed here, by what it does in the dish. To see what less would do, say \"half the %s\".",
				s.Share*100, n.Name(), ordinals(v.analysis)[s.Line], itemName(l), itemName(l))}
		}
		return []string{fmt.Sprintf("%.0f %% of the %s is from line %d, %s, for which no change is known here. Ask for %s; with its label in hand say \"add food: ...\", then \"line %d is ...\".",
			s.Share*100, n.Name(), ordinals(v.analysis)[s.Line], itemName(l), ask, ordinals(v.analysis)[s.Line])}
	}
	return nil
}

// openFigures says that the figures which follow lack a line that is asked about.
func (c *Conversation) openFigures() []string {
	if v := c.inHand(); v != nil && unread(v.analysis) {
		return []string{"Some line is asked about and not counted, so each figure is at least that:"}
	}
	return nil
}

// markLeast marks the suggestions whose figures an ingredient is not in.
func (c *Conversation) markLeast() {
	a := c.inHand().analysis
	for i := range c.advice.list {
		s := &c.advice.list[i]
		s.AtLeast = !a.Complete(s.Nutrient) || unread(a)
	}
}
