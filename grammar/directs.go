package grammar

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// isNote reports lines of times, sources and serving sizes.
func isNote(lower string) bool {
	for _, start := range []string{"prep time", "cook time", "total time", "cooking time", "preparation time", "ready in", "serving size", "time:", "active time",
		"difficulty", "source:", "from:", "adapted from", "recipe by", "author", "photo", "oven:", "oven temperature", "prep:", "cook:", "http://", "https://",
		"from ", "note:", "notes:", "tip:", "variation:", "you will also need", "you'll also need", "nb:", "nb ", "n.b.", "special equipment", "equipment", "subject:", "to:", "sent:", "cc:", "hi,", "hello,", "dear all", "hey", "date:", "sent:", "hi ", "hello", "dear ", "thanks", "thank you", "regards"} {
		if strings.HasPrefix(lower, start) {
			return true
		}
	}
	if strings.HasPrefix(lower, "(") && strings.HasSuffix(lower, ")") && strings.Count(lower, "(") == 1 && !strings.ContainsAny(lower, "0123456789") {
		return true
	}
	if strings.Contains(lower, " per serving") && !startsWithAmount(lower) {
		return true
	}
	named, _, _ := strings.Cut(lower, ",")
	for _, w := range strings.FieldsFunc(named, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if equipment[w] {
			return true
		}
	}
	return strings.Contains(lower, "kitchen roll") || strings.Contains(lower, "kitchen paper") || strings.Contains(lower, "cling film") || strings.Contains(lower, "cocktail sticks")
}

// timesNote finds the beginning of a note of times or of a setting.
var timesNote = regexp.MustCompile(`^[a-z]+( time)?:|^[a-z]+ time\b`)

// isDirection reports sentences that tell what to do.
func isDirection(lower string) bool {
	fields := strings.Fields(lower)
	if len(fields) < 3 {
		return false
	}
	first := strings.Trim(fields[0], ",.:;")
	if verbs[first] && !strings.HasSuffix(lower, "for serving") && !strings.HasSuffix(lower, "to serve") {
		return len(fields) >= 5 || strings.HasSuffix(lower, ".") || strings.ContainsAny(lower, "°")
	}
	return len(fields) >= 8 && strings.HasSuffix(lower, ".") && !startsWithAmount(lower)
}

// IsDirection reports whether a text of one line tells what to do with the food:
// "Fry the onions for 8 minutes. Stir in the spices."
func IsDirection(text string) bool {
	plain := strings.TrimSpace(clean(text))
	lower := strings.ToLower(plain)
	return isDirection(lower) && strings.HasSuffix(lower, ".")
}

// directs reports a line after the ingredients that tells what to do in few
// words: "Refrigerate overnight.", "Flour the chicken.", "Enjoy!". It begins with
// a verb of the kitchen and has no amount of an ingredient.
func directs(plain, lower string) bool {
	if ovenLine.MatchString(lower) {
		return true
	}
	if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(lower, "*_# (")); !unicode.IsLetter(first) { // most ingredients, and they need no parsing for it
		return false
	}
	if startsWithAmount(plain) || holdsMeasure(plain) || strings.HasSuffix(lower, ":") {
		return false
	}
	if strings.HasSuffix(lower, "!") { // "Yum!"
		return true
	}
	words := strings.FieldsFunc(lower, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' })
	if len(words) == 0 {
		return false
	}
	for _, name := range notCounted { // "steam rice, to serve"
		if strings.HasSuffix(strings.Trim(lower, "() ."), name) {
			return false
		}
	}
	first, rest := words[0], words[1:]
	if fryWays[first] && len(rest) > 0 && (rest[0] == "fry" || rest[0] == "saute" || rest[0] == "sauté" || rest[0] == "sear") { // "deep fry"
		first, rest = "fry", rest[1:]
	}
	if (first == "slow" || first == "pressure") && len(rest) > 0 && rest[0] == "cook" {
		first, rest = "cook", rest[1:]
	}
	ends := strings.HasSuffix(lower, ".") || strings.HasSuffix(lower, "!")
	switch {
	case speaks[first] && (len(rest) > 1 || len(rest) == 1 && ends):
		return true
	case len(rest) == 0:
		return bareVerbs[first] || ends && verbs[first] && !foodVerbs[first]
	case rest[0] == "of", rest[0] == "seasoning": // "drizzle of oil"
		return false
	case rest[0] == "the" || rest[0] == "your" || rest[0] == "both" || rest[0] == "all":
		return verbs[first] || actsOn[first]
	case ownAct[strings.Join(words[:2], " ")]:
		return true
	case !verbs[first] && first != "microwave":
		return false
	case first == "microwave" || foodVerbs[first]:
		return slices.ContainsFunc(rest, func(w string) bool { return timeWords[w] || tellsHow[w] })
	}
	return ends || tellsHow[rest[0]] || vessels[rest[len(rest)-1]] || slices.ContainsFunc(rest, func(w string) bool { return timeWords[w] || w == "overnight" || w == "until" })
}

// ovenLine finds a heat and a time alone: "350 for 1 hour".
var ovenLine = regexp.MustCompile(`^(?:oven )?(?:at |@ ?)?[2-5]\d\d ?(?:°|degrees|deg)? ?[fc]?,? (?:for |about )*\d+(?: ?(?:-|–|to) ?\d+)? ?(?:mins?|minutes?|hours?|hrs?)\.?$`)

// toppings reads "Toppings: cheese, sour cream", which names what is put on without
// amounts: none of it is counted, and each is said.
func (p *recipeReader) toppings(l *Line, plain string) bool {
	before, after, found := strings.Cut(plain, ":")
	before, after = strings.ToLower(strings.TrimSpace(before)), strings.TrimSpace(after)
	if !found || after == "" || len(plain) > MaxLine || !putOn.MatchString(before) || strings.ContainsAny(after, "0123456789½¼¾⅓⅔⅛") {
		return false
	}
	before = strings.TrimSpace(strings.TrimSuffix(before, "(optional)"))
	l.Kind, p.started = Ingredient, true
	for piece := range strings.SplitSeq(strings.TrimRight(after, ". "), ",") {
		piece = strings.TrimSpace(piece)
		for _, lead := range []string{"and ", "or "} {
			piece, _ = strings.CutPrefix(piece, lead)
		}
		if piece == "" {
			continue
		}
		items, _ := readItems(piece, 0)
		for _, item := range items {
			if item.Amount == nil {
				item.Uncounted = before
			}
			l.Items = append(l.Items, item)
		}
	}
	return len(l.Items) > 0
}

// putOn finds what names things that are put on a dish or beside it.
var putOn = regexp.MustCompile(`^(optional |suggested |your favou?rite |favou?rite )?(toppings?|garnish(es)?|accompaniments?|to serve|for serving|serve with|to garnish|to top|add-ons?|fixings)( \(?optional\)?)?$`)

// isHeading reports a line that names a part of the dish.
func isHeading(plain, lower string) bool {
	words := strings.Fields(strings.Trim(lower, "*_#- "))
	shouted := plain == strings.ToUpper(plain)
	if shouted && len(words) == 1 && shoutedHeading[words[0]] {
		return true
	}
	looks := strings.HasSuffix(lower, ":") ||
		strings.HasPrefix(lower, "for the ") && len(words) <= 6 ||
		strings.HasPrefix(lower, "to ") && len(words) <= 3 ||
		len(words) > 0 && (len(words) == 1 || shouted && len(words) <= 3) && headingWords[words[len(words)-1]] && !strings.ContainsAny(lower, ",(")
	return looks && !startsWithAmount(plain)
}
