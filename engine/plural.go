package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// numbered puts the name of whole things in the plural where there are several,
// and in the singular where their number has become one.
func numbered(food []string, wasMany, many bool) []string {
	at := countedWord(food)
	switch {
	case at < 0:
	case many:
		food[at] = pluralWord(food[at])
	case wasMany:
		food[at] = fooddata.Singular(food[at])
	}
	return food
}

// beforeMore are the words before which the name of a thing ends: "piece of
// ginger", "tuna steak in oil".
var beforeMore = wordSet("of in with without for from on")

// countedWord finds the word of a name that says one or several: "legs" of
// "legs of lamb", "wedges" of "lemon wedges". It returns -1 if there is none.
func countedWord(food []string) int {
	if of := slices.IndexFunc(food, func(w string) bool { return beforeMore[w] }); of >= 0 {
		food = food[:of]
	}
	last := len(food) - 1
	for last > 0 && grammar.IsPreparation(food[last]) && !cutThings(food[last-1], food[last]) {
		last--
	}
	if last > 0 && (unchanged[food[last]] || fooddata.Singular(food[0]) != food[0]) { // "piece ginger", "balls mozzarella"
		if m, ok := grammar.MeasureNamed(food[0]); ok && m.Kind == grammar.Count {
			return 0
		}
	}
	return last
}

var aLength = regexp.MustCompile(`^[\d½¼¾⅓⅔⅛][\d ./½¼¾⅓⅔⅛]*-(inch|cm|mm)$`)

// lengthOfPiece finds how long each of some pieces is, said beside them, so that
// it is written where it is read: "2 (2-inch) pieces of ginger". Rest are the tails
// without it.
func lengthOfPiece(item grammar.Item, tails [][]string) (long string, rest [][]string, ok bool) {
	at := countedWord(item.Words)
	if at < 0 {
		return "", tails, false
	}
	if m, isMeasure := grammar.MeasureNamed(item.Words[at]); !isMeasure || m.Kind != grammar.Count {
		return "", tails, false
	}
	for i, tail := range tails {
		if len(tail) == 1 && aLength.MatchString(tail[0]) {
			return tail[0], slices.Delete(slices.Clone(tails), i, i+1), true
		}
	}
	if i := slices.IndexFunc(item.Aside, aLength.MatchString); i >= 0 {
		return item.Aside[i], tails, true
	}
	return "", tails, false
}

func without(list []string, word string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == word })
}

// cutThings reports whether what tells of preparation is what is counted:
// "lemon wedges", and not "onions, wedges".
func cutThings(before, word string) bool {
	return fooddata.Singular(word) != word && fooddata.Singular(before) == before
}

// pluralWord is the plural of a word; of one that is in the plural, or that has
// none, the word itself.
func pluralWord(w string) string {
	if fooddata.Singular(w) != w || grammar.IsPreparation(w) || unchanged[w] {
		return w
	}
	stem := w[:len(w)-1]
	switch {
	case strings.HasSuffix(w, "leaf") || strings.HasSuffix(w, "loaf") || strings.HasSuffix(w, "half"):
		return stem + "ves"
	case strings.HasSuffix(w, "y") && !strings.ContainsAny(stem[max(0, len(stem)-1):], "aeiou"):
		return stem + "ies"
	case strings.HasSuffix(w, "chilli") || strings.HasSuffix(w, "tomato") || strings.HasSuffix(w, "potato") || strings.HasSuffix(w, "mango") ||
		strings.HasSuffix(w, "ch") || strings.HasSuffix(w, "sh") || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "x"):
		return w + "es"
	}
	return w + "s"
}

// unchanged are names that are the same for one and for several.
var unchanged = wordSet(`shrimp fish salmon squid trout cod tuna halibut tilapia garlic lettuce celery broccoli asparagus fennel ginger bread rice anise
	parsley rosemary thyme mint basil dill coriander cilantro sage oregano butter cheese tofu bacon spinach kale chocolate turmeric lemongrass galangal horseradish`)
