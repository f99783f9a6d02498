package engine

import (
	"slices"
	"strings"

	"pottle/fooddata"
)

// The judgements of claims that go by what was put in.

// isSalt reports whether a line is salt or a salt with seasoning in it.
func isSalt(l *Line) bool {
	if !l.Food.IsZero() && l.Status != Ask {
		return l.Food.Group() == "Spices and Herbs" && slices.Contains(fooddata.Normalise(l.Food.Name()), "salt")
	}
	return slices.Contains(l.Item.Words, "salt")
}

// saltyFood is the sodium, in mg in 100 g, from which a food that is not raw
// is taken to hold added salt (common practice, no source).
const saltyFood = 250

// unsalted judges "no salt added".
func (j *judge) unsalted() {
	j.v.Rule = "21 CFR 101.61(c)(2)"
	j.need("%q is that no salt goes in, nor an ingredient with salt in it, where the food normally has salt. It is not a figure.", j.v.Claim)
	var salt, salty, unknown []string
	for i := range j.food.Lines {
		l := &j.food.Lines[i]
		switch {
		case l.Status == None || l.Reason == OptionalItem:
		case isSalt(l):
			salt = append(salt, l.named())
		case l.Status == Ask || l.Food.IsZero() && l.named() != "water":
			unknown = append(unknown, l.named())
		case l.Food.IsZero():
		default:
			name := l.Food.Name()
			v, ok := l.Food.Per100g(fooddata.Sodium).Value()
			switch {
			case !ok:
				unknown = append(unknown, name)
			case v >= saltyFood && l.Food.State() != fooddata.Raw && !strings.Contains(name, "baking soda") && !strings.Contains(name, "baking powder") && !strings.Contains(name, "milk"):
				salty = append(salty, name)
			}
		}
	}
	if len(salt) > 0 {
		j.need("It holds %s.", andWords(uniqueWords(salt)))
	}
	if len(salty) > 0 {
		j.need("By %s sodium, salt has gone into %s: use one without.", claimPlural(len(uniqueWords(salty))), andWords(uniqueWords(salty)))
	}
	if len(unknown) > 0 {
		j.v.AtLeast = true
		j.need("Whether there is salt in %s is not known.", andWords(uniqueWords(unknown)))
	}
	j.v.Open = len(salt)+len(salty) == 0
	if j.v.Allowed = len(salt)+len(salty)+len(unknown) == 0; !j.v.Allowed {
		return
	}
	j.condition("The food that it is like normally has salt.")
	if !j.meetsLimit(claimFree, fooddata.Sodium) {
		j.disclose("With the nutrition information, \"not a sodium free food\" or \"not for control of sodium in the diet\".")
	}
}

func claimPlural(n int) string {
	if n == 1 {
		return "its"
	}
	return "their"
}

// noAddedSugars judges "no added sugars".
func (j *judge) noAddedSugars() {
	j.v.Rule = "21 CFR 101.60(c)(2)"
	j.need("%q is that no sugar, honey, syrup, jam, concentrated juice or other ingredient with added sugars goes in. It is not a figure.", j.v.Claim)
	var sweet, unknown, fruit []string
	for i := range j.food.Lines {
		l := &j.food.Lines[i]
		if l.Status == None || l.Reason == OptionalItem {
			continue
		}
		if l.Status == Ask || l.Food.IsZero() {
			if l.named() != "water" {
				unknown = append(unknown, l.named())
			}
			continue
		}
		name := l.Food.Name()
		words := fooddata.Normalise(name + " " + l.Food.Description())
		concentrate := slices.Contains(words, "juice") && slices.Contains(words, "concentrate")
		v, ok := l.Food.Per100g(fooddata.AddedSugars).Value()
		sugar, sugarKnown := l.Food.Per100g(fooddata.Sugars).Value()
		switch {
		case concentrate || ok && v > 0:
			sweet = append(sweet, name)
		case !ok && !(sugarKnown && sugar == 0):
			unknown = append(unknown, name)
		case l.Food.Group() == "Fruits and Fruit Juices" && (slices.Contains(words, "juice") || slices.Contains(words, "applesauce") || slices.Contains(words, "puree") || l.Food.State() == fooddata.Dried || strings.Contains(name, "dried")) &&
			!slices.Contains(words, "lemon") && !slices.Contains(words, "lime"):
			fruit = append(fruit, name)
		}
	}
	if len(sweet) > 0 {
		j.need("It holds added sugars: %s.", andWords(uniqueWords(sweet)))
	}
	if len(unknown) > 0 {
		j.v.AtLeast = true
		j.need("Whether there are added sugars in %s is not known.", andWords(uniqueWords(unknown)))
	}
	j.v.Open = len(sweet) == 0
	if j.v.Allowed = len(sweet)+len(unknown) == 0; !j.v.Allowed {
		return
	}
	if len(fruit) > 0 {
		j.condition("The %s does not stand in for sugar.", andWords(uniqueWords(fruit)))
	}
	j.condition("The food that it is like normally has added sugars.")
	j.notLowCalorie("21 CFR 101.60(c)(2)")
}

// glutenFree judges "gluten free": no by what bears gluten, never yes.
func (j *judge) glutenFree() {
	j.v.Rule = "21 CFR 101.91"
	j.need("\"Gluten free\" goes by gluten below 20 mg/kg in the food and by no wheat, rye or barley that was not freed of gluten. A recipe's figures cannot show that.")
	bears := j.food.dish(nil).glutenBearing()
	if j.v.Open = len(bears.contains) == 0; !j.v.Open {
		j.need("By its usual make-up gluten is in %s.", cautionNames(bears.contains))
	}
	if len(bears.may) > 0 {
		j.need("It may be in %s: check the label.", cautionNames(bears.may))
	}
}
