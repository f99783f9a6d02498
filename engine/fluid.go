package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// ounceOfDrink is said where ounces are read as fluid ones.
const ounceOfDrink = "ounces of a drink taken as fluid ounces"

var fluidOunce = func() *grammar.Measure {
	m, _ := grammar.MeasureNamed("fl oz")
	return m
}()

// fluidOunces returns the item with its ounces as fluid ounces, if its food is a
// drink: "12 oz cola" is 12 fl oz by usage, and so is what is printed on its can
// (common practice, no source). An amount that is said in grams too is left.
func fluidOunces(f fooddata.Food, item grammar.Item, metric bool) (grammar.Item, bool) {
	if item.Amount == nil || metric || !inOunces(*item.Amount) || !isDrink(f) {
		return item, false
	}
	for _, same := range item.Amount.Same {
		if !inOunces(same) {
			return item, false
		}
	}
	a := *item.Amount
	a.Same = nil
	a.Terms = slices.Clone(a.Terms)
	for i := range a.Terms {
		if each := a.Terms[i].Each; each != nil {
			of := *each
			of.Measure = fluidOunce
			a.Terms[i].Each = &of
		} else {
			a.Terms[i].Measure = fluidOunce
		}
	}
	item.Amount = &a
	return item, true
}

// inOunces reports an amount in ounces of weight throughout.
func inOunces(a grammar.Amount) bool {
	return !slices.ContainsFunc(a.Terms, func(t grammar.Term) bool {
		if t.Each != nil {
			t = *t.Each
		}
		return t.Measure == nil || t.Measure.Name != "oz"
	})
}

// notPoured are words of a description of what is no drink yet.
var notPoured = regexp.MustCompile(`powder|dry|dried|mix|instant|concentrate, undiluted|undiluted|ground|syrup|condensed|frozen|whitener`)

// isDrink reports whether the food is drunk as it is: milk, juice, wine, a soft
// drink.
func isDrink(f fooddata.Food) bool {
	d, drink := strings.ToLower(f.Description()), false
	switch f.Group() {
	case "Beverages":
		drink = true
	case "Dairy and Egg Products":
		drink = strings.HasPrefix(d, "milk, ") || strings.HasPrefix(d, "eggnog") || strings.HasPrefix(d, "kefir")
	case "Fruits and Fruit Juices", "Vegetables and Vegetable Products":
		head, _, _ := strings.Cut(d, ",")
		drink = strings.HasSuffix(head, "juice")
	case "Legumes and Legume Products":
		drink = strings.HasPrefix(d, "soymilk") || strings.HasPrefix(d, "soy milk")
	}
	return drink && !notPoured.MatchString(d)
}
