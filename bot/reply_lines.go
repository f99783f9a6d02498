package bot

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// What a reply says of single lines: asked about, assumed, not counted.

// ordinals numbers the ingredient lines from 1, as "line 3" counts them.
func ordinals(a *engine.Analysis) []int {
	ns := make([]int, len(a.Lines))
	n, last := 0, -1
	for i := range a.Lines {
		if a.Lines[i].Kind == grammar.Ingredient {
			if a.Lines[i].Number != last {
				n, last = n+1, a.Lines[i].Number
			}
			ns[i] = n
		}
	}
	return ns
}

// asked lists the lines that pottle must ask about.
func asked(a *engine.Analysis) []string {
	ns := ordinals(a)
	var out []string
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Ask {
			out = append(out, fmt.Sprintf("line %d  %s: %s.%s", ns[i], l.Text, l.Why, didYouMean(l)))
		}
	}
	if len(out) == 0 {
		return nil
	}
	say := fmt.Sprintf("Say for instance \"line %s is %s\".", firstNumber(out), example(a))
	if slices.ContainsFunc(a.Lines, func(l engine.Line) bool {
		return l.Status == engine.Ask && l.Reason == engine.AskFood && len(l.Choices) == 0 && l.Item.Amount != nil
	}) {
		say += fmt.Sprintf(" What the table lacks can be added from its label: \"%s\".", addExample)
	}
	return append([]string{"Not in the figures until you say what is meant:"}, append(out, say)...)
}

// addExample shows how a team adds a food that the table lacks.
const addExample = "add food: oat bar, 40 g: 150 kcal, fat 5 g, sodium 95 mg"

func firstNumber(out []string) string { return strings.Fields(out[0])[1] }

// example is an answer that would settle the first line asked about.
func example(a *engine.Analysis) string {
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Ask {
			switch {
			case l.Reason == engine.AskAmount && !l.Food.IsZero():
				return exampleAmount(l.Food)
			case len(l.Choices) > 0 && l.Item.Amount != nil:
				return l.Choices[0].Name()
			}
			return "left out"
		}
	}
	return ""
}

// exampleAmount is an amount that a kitchen would use of a food: a spoonful of
// salt, of a seasoning, or of oil.
func exampleAmount(f fooddata.Food) string {
	switch sodium, _ := f.Per100g(fooddata.Sodium).Value(); {
	case sodium > 3000, f.Group() == "Spices and Herbs":
		return "1/2 tsp"
	case f.Group() == "Fats and Oils":
		return "1 tbsp"
	}
	return "200 g"
}

func didYouMean(l *engine.Line) string {
	if len(l.Choices) == 0 || l.Reason != engine.AskFood {
		return ""
	}
	return " Is it " + orList(l.Choices, 3) + "?"
}

// orList writes up to most names: "a; b; or c". Names hold commas.
func orList(foods []fooddata.Food, most int) string {
	var names []string
	for _, f := range foods[:min(most, len(foods))] {
		names = append(names, f.Name())
	}
	switch n := len(names); n {
	case 1:
		return names[0]
	case 2:
		return names[0] + " or " + names[1]
	default:
		return strings.Join(names[:n-1], "; ") + "; or " + names[n-1]
	}
}

// assumed lists what was assumed, line by line.
func assumed(a *engine.Analysis) []string {
	ns := ordinals(a)
	var out []string
	example, first, of := "", 0.0, 0 // of is the line that weighs first
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Status != engine.Counted || len(l.Assumed) == 0 {
			continue
		}
		s := fmt.Sprintf("line %d  %s: %s, %s", ns[i], itemName(l), l.Food.Name(), grams(l.Grams))
		var said []string
		for _, note := range l.Assumed {
			if note != "taken as "+l.Food.Name() {
				said = append(said, note)
			}
		}
		if len(said) > 0 {
			s += "; " + strings.Join(said, "; ")
		}
		if slices.Contains(l.Assumed, "taken as "+l.Food.Name()) && len(l.Choices) > 0 {
			s += "; or " + orList(l.Choices, 3)
			if example == "" {
				example = fmt.Sprintf("line %d is %s", ns[i], l.Choices[0].Name())
			}
		}
		if first == 0 {
			first, of = l.Grams.Low, ns[i]
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil
	}
	if example == "" && of == 0 {
		return append([]string{"Assumed:"}, out...)
	}
	if example == "" {
		example = fmt.Sprintf("line %d is %s", of, lessThan(first))
	}
	return append([]string{"Assumed:"}, append(out, fmt.Sprintf("To correct one, say \"%s\".", example))...)
}

// lessThan is a weight somewhat below g grams, as an example of a correction that
// does no harm if it is taken as it stands.
func lessThan(g float64) string {
	for step := 1000.0; step >= 1; step /= 10 {
		if whole := math.Floor(g/step*0.999) * step; whole >= step {
			return fmt.Sprintf("%.0f g", whole)
		}
	}
	return "1 g"
}

// itemName is how the line calls its food.
func itemName(l *engine.Line) string {
	if len(l.Item.Words) == 0 {
		return l.Text
	}
	return strings.Join(l.Item.Words, " ")
}

// left lists what is not counted.
func left(a *engine.Analysis) []string {
	var out []string
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.NotCounted {
			out = append(out, fmt.Sprintf("%s (%s)", itemName(l), l.Why))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return []string{"Not counted: " + strings.Join(out, ", ") + "."}
}

// notInFigures lists what stands outside the figures, each with its reason.
func notInFigures(a *engine.Analysis) []string {
	return slices.Concat(asked(a), left(a))
}

// linesReply lists every line with what it was taken for.
func linesReply(a *engine.Analysis) string {
	ns := ordinals(a)
	var out []string
	for i := range a.Lines {
		l := &a.Lines[i]
		switch {
		case l.Kind == grammar.Heading:
			out = append(out, l.Text)
		case l.Kind == grammar.Note:
		case l.Status == engine.Counted:
			kcal, _ := l.Has(fooddata.Energy)
			sodium, _ := l.Has(fooddata.Sodium)
			out = append(out, fmt.Sprintf("%d  %s\n   %s (%s), %s: %s, %s sodium", ns[i], l.Shown(false), l.Food.Name(), l.Food.Source(), grams(l.Grams),
				value(kcal.Low, fooddata.Energy), value(sodium.Low, fooddata.Sodium)))
		case l.Status == engine.NotCounted:
			out = append(out, fmt.Sprintf("%d  %s\n   not counted: %s", ns[i], l.Shown(false), l.Why))
		default:
			out = append(out, fmt.Sprintf("%d  %s\n   asked: %s", ns[i], l.Text, l.Why))
		}
	}
	return "Figures of each line in the whole recipe:\n" + strings.Join(out, "\n")
}
