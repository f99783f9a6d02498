package grammar

import (
	"regexp"
	"strings"
)

// Wordings that mean a request which the grammar has in another form. Each is
// put into that form before anything is parsed, so that every way of asking has
// one meaning. What follows here is of whole requests; words around a request are
// in request_filler.go.

// unitWords are the measures before which "half a" and "a 1/4" are an amount.
const unitWords = `cups?|tbsps?|tablespoons?|tsps?|teaspoons?|oz|ounces?|lbs?|pounds?|g|grams?|mg|kg|ml|pints?|quarts?|litres?|liters?|gallons?`

// nutrientWords are words that name what the changes of a recipe aim at.
const nutrientWords = `carbs?|carbohydrates?|sodium|salt|sugars?|added sugars?|fat|saturated fat|sat fat|calories|kcal|energy|protein|fib(?:re|er)|potassium|phosphorus|cholesterol|calcium|iron`

// wordings are tried in this order, each on what the ones before have left.
var wordings = []struct {
	said *regexp.Regexp
	is   string
}{
	// an amount
	{regexp.MustCompile(`(?i)\bhalf an? (` + unitWords + `)\b`), "1/2 $1"},
	{regexp.MustCompile(`(?i)\b(?:an?|one) half (` + unitWords + `)\b`), "1/2 $1"},
	{regexp.MustCompile(`(?i)\b(?:an?|the) (\d+(?:/\d+)?|\d+\.\d+|[¼½¾⅓⅔⅛]) ?(` + unitWords + `)\b`), "$1 $2"},
	{regexp.MustCompile(`(?i)^(?:what|how much) (?:is|are) (\d)`), "$1"},
	{regexp.MustCompile(`(?i)\b(small|medium|large)[- ]sized?\b`), "$1"},
	{regexp.MustCompile(`(?i)^(\D+?) (?:per|on) (\d+ ?(?:g|grams?|oz|ml) (?:of )?\D+)$`), "$1 in $2"},

	// what was suggested
	{regexp.MustCompile(`(?i)^(?:do|apply|accept|choose|pick|take|use|make) (?:the )?(?:number|no\.?|suggestion|option|change|idea) #?(\d+)$`), "apply $1"},
	{regexp.MustCompile(`(?i)^(?:do|apply|accept|choose|pick|take) #?(\d+(?:(?: ?, ?| and | & )#?\d+)*)$`), "apply $1"},
	{regexp.MustCompile(`(?i)^(?:do|accept|take|apply) (?:them all|all of (?:them|these|those)|them|everything|both)$`), "apply all"},

	// what is shown
	{regexp.MustCompile(`(?i)^(?:(?:show|convert|give|put)(?: me)?(?: (?:it|this|that|the recipe|them|all|everything))? )?(?:in|to|into) (?:grams?|g|metric|weights?)$`), "lines"},
	{regexp.MustCompile(`(?i)^(?:all )?(?:the )?weights$`), "lines"},
	{regexp.MustCompile(`(?i)^show(?: me)?$`), "show it"},
	{regexp.MustCompile(`(?i)^(?:(?:is|are) there |what are )?(?:any |the )?(?:food )?safety(?: (?:notes?|advice|points?|issues?|problems?|concerns?|risks?|warnings?))?(?: (?:in|with|of|for|about) (?:it|this|the (?:recipe|dish)))?$`), "warnings"},
	{regexp.MustCompile(`(?i)^compare(?: (?:it|them|this))?$`), "compare with the original"},
	{regexp.MustCompile(`(?i)^(?:what|which)(?: claims?)? (?:can|may|could) (?:be (?:claimed|said)|(?:I|we|you) (?:claim|say|make))(?: (?:of|about|for|on) (?:it|this|the (?:recipe|dish|label|menu)))?( as .+)?$`), "claims$1"},

	// how something is reached
	{regexp.MustCompile(`(?i)^(?:how (?:do|can|could|would|should|might) (?:I|we|you|one)|how to|ways to|help me(?: to)?|what can (?:I|we) do to|is there a way to) (cut|reduce|lower|decrease|increase|raise|boost|make|fit|replace|swap|substitute) `), "$1 "},
	{regexp.MustCompile(`(?i)^(?:how (?:do|can|could|would|should|might) (?:I|we|you)|how to|what (?:would|could|will|can)|(?:can|could) (?:I|we|you)|I (?:want|need) to|help me|please) (?:get|bring|make|keep|have|take|cut)(?: (?:it|this|that|the (?:recipe|dish|meal)))?(?: down)?(?: to)? (under|below|less than|at most|over|above|at least|within|no more than|up to) `), "$1 "},
	{regexp.MustCompile(`(?i)^(?:how (?:do|can|could|would|should|might) (?:I|we|you)|how to|what (?:would|could|will|can)|I (?:want|need) to|help me) (?:get|bring|keep|make) (?:the )?(` + nutrientWords + `)(?: down)?(?: to)? (under|below|less than|over|above|at least|at most|within) `), "$1 $2 "},
	{regexp.MustCompile(`(?i)^(\d+(?:[.,]\d+)? ?(?:g|mg|mcg)?(?: of)?) ?(carbs?|carbohydrates?) (?:per|a|each|in a|in each|for a) (?:serving|portion|person|meal)$`), "fit $1 $2"},
	{regexp.MustCompile(`(?i)^(\d+(?:[.,]\d+)? ?(?:g|mg|mcg)?(?: of)?) ?(protein|fib(?:re|er)|calcium|iron) (?:per|a|each|in a|in each|for a) (?:serving|portion|person|meal)$`), "at least $1 $2"},
	{regexp.MustCompile(`(?i)^(\d+(?:[.,]\d+)? ?(?:g|mg|mcg)?(?: of)?) ?(sodium|salt|sugars?|added sugars?|fat|saturated fat|sat fat|calories|kcal|energy|potassium|phosphorus|cholesterol) (?:per|a|each|in a|in each|for a) (?:serving|portion|person|meal)$`), "at most $1 $2"},

	// for how many
	{regexp.MustCompile(`(?i)^(?:(?:(?:I|we) )?(?:make|cook|do|prepare|need|want)(?: (?:it|this|that|the (?:recipe|dish)|enough))? (?:to )?(?:serve|feed|for)|(?:to )?feed|for)(?: an?)?(?: (?:crowd|group|party|family|table) of)? (\d+)(?: (?:people|guests|persons|servings|portions|clients|adults|patients|residents|of us))?(?: instead(?: of \d+(?: (?:people|servings|portions))?)?)?$`), "make it for $1"},

	{regexp.MustCompile(`(?i)^(?:(?:I|we) (?:want|need|would like|'d like) )?(?:to )?(?:get |bring |make |keep |have |take )?(?:it|this|that|the recipe|the dish|a serving|each serving)(?: to be)?(?: down)?(?: to)? (under|below|less than|at most|over|above|at least|within|no more than|up to) (\d)`), "$1 $2"},

	{regexp.MustCompile(`(?i)^make (?:it |this |that )?(\d+)(?: of (?:them|these))?(?: (?:cookies|muffins|cupcakes|rolls|buns|bars|biscuits|scones|pancakes|waffles|brownies|meatballs|patties|burgers|dumplings|pieces|slices))?(?: instead(?: of \d+)?)?$`), "make it for $1"},

	// a change
	{regexp.MustCompile(`(?i)^(?:what|how) about (with|without|no) (.+)$`), "$1 $2"},
	{regexp.MustCompile(`(?i)^(?:cut|reduce|lower|divide) (?:the )?(.+?) in (?:half|two)$`), "halve the $1"},
	{regexp.MustCompile(`(?i)^halve the (it|this|everything)$`), "halve $1"},
	{regexp.MustCompile(`(?i)^(add .+?),? (?:on top|to (?:it|this|that|the (?:recipe|dish|top|pot|mix|mixture))|as well|too|at the end|in)$`), "$1"},
	{regexp.MustCompile(`(?i)^((?:use|try|put|take|switch to|go with) .+?),? instead$`), "$1"},

	// a part of the dish
	{regexp.MustCompile(`(?i)^(.*\S) (?:per|in (?:an?|one|each)|for (?:an?|one|each)) (` + unitWords + `|ladle|bowl)(?: of (?:it|this|the (?:recipe|dish|soup|stew|chili|sauce)))?$`), "$1 in 1 $2"},

	// foods set in order
	{regexp.MustCompile(`(?i)^(.+), (?:which|what)(?: one)? (?:has|have|is|contains) (?:the )?(more|most|less|least|fewer|fewest|higher|highest|lower|lowest)(?: in)? (.+)$`), "$2 $3: $1"},
	{regexp.MustCompile(`(?i)^((?:(?:which|what)(?: one)? (?:has|have|is|contains) )?(?:the )?(?:more|most|less|least|fewer|fewest|higher|highest|lower|lowest|best|better)(?: in| for)? [a-z0-9 -]+): ([^:]+), ([^,:]+)$`), orBetween},

	// what stands in for a food
	{regexp.MustCompile(`(?i)^(?:what(?: is| are)? )?(?:an? |any |the |is there an? |some |good |best )*(?:low(?:er)?|reduced|less)[- ](` + nutrientWords + `) (?:substitutes?|replacements?|alternatives?|swaps?) (?:for|to|of) (?:the )?(.+)$`), "what can replace $2 with less $1"},
	{regexp.MustCompile(`(?i)^(?:what(?: is| are)? )?(?:an? |any |the |is there an? |some |good |best )*(?:high(?:er)?|more)[- ](` + nutrientWords + `) (?:substitutes?|replacements?|alternatives?|swaps?) (?:for|to|of) (?:the )?(.+)$`), "what can replace $2 with more $1"},
	{regexp.MustCompile(`(?i)^(?:what(?: is| are)? )?(?:an? |any |the |is there an? |some |good |best )*(?:[a-z-]+ ){0,2}(?:substitutes?|replacements?|alternatives?|swaps?|substitution) (?:for|to|of) (?:the )?(.+?)(?: (?:in|for|when) (?:baking|cooking|recipes|a recipe|(?:a |the )?(?:cake|cakes|soup|sauce|dressing|dressings|cookies|muffins|bread)))?$`), replaceWhat},
	{regexp.MustCompile(`(?i)^(?:replace|substitute|swap(?: out)?) (?:the )?(.+)$`), replaceWhat},
	{regexp.MustCompile(`(?i)^what (?:can|could|do|should) (?:I|we) (?:use|put)(?: in)? (?:instead|in place) of (?:the )?(.+)$`), replaceWhat},
}

// orBetween puts an "or" before the last of several foods, if there is none.
const orBetween = "$1: $2 or $3"

var hasOr = regexp.MustCompile(`(?i)\b(?:or|and|vs|versus)\b`)

const replaceWhat = "what can replace $1"

// ofServings is an amount of servings, which would be taken for how many there are.
var ofServings = regexp.MustCompile(`(?i)\b(?:servings?|portions?|people|persons?)\b`)

// calledSubstitute are changes and foods in which "substitute" is no question.
var calledSubstitute = regexp.MustCompile(`(?i)^(?:use|put|try|add|with|make|set) |\b(?:salt|egg|sugar|coffee|meat|cheese) substitutes?\b`)

// sayWithWhat are requests to replace a food that say with what: those are changes.
var sayWithWhat = regexp.MustCompile(`(?i)^(?:replace|substitute|swap) .+ (?:with|for|by|to) `)

// oneFood matches "buttermilk substitute", but not the foods that are called so.
var oneFood = regexp.MustCompile(`(?i)^(?:an? |any )?([a-z][a-z -]*?) (?:substitutes?|replacements?|alternatives?)$`)

// substituteFoods are what stands before "substitute" in the name of a food.
var substituteFoods = set("salt egg sugar coffee meat cheese milk butter cream")

// andHalf finds a half that is more than a whole: "one and a half cups". The line
// reads those by itself.
var andHalf = regexp.MustCompile(`(?i)\band (?:an? |one )?half\b`)

// worded puts a request into the form that the grammar has for it.
func worded(s string) string {
	s = unquoted(s)
	for _, w := range wordings {
		if strings.HasPrefix(w.is, "1/2 ") && andHalf.MatchString(s) {
			continue
		}
		if w.is == replaceWhat && (sayWithWhat.MatchString(s) || calledSubstitute.MatchString(s)) || w.is == "$1" && ofServings.MatchString(s) {
			continue
		}
		if w.is == orBetween && hasOr.MatchString(s) {
			continue
		}
		s = strings.TrimSpace(w.said.ReplaceAllString(s, w.is))
	}
	if m := oneFood.FindStringSubmatch(s); m != nil {
		if words := strings.Fields(strings.ToLower(m[1])); !substituteFoods[words[len(words)-1]] {
			return "what can replace " + m[1]
		}
	}
	return s
}

// unquoted drops quotation marks around a whole request and the full stop at its
// end: replies show what to say in quotation marks.
func unquoted(s string) string {
	for again := true; again; {
		was := s
		s = strings.TrimSpace(s)
		for _, pair := range []string{`""`, "''", "``", "“”", "‘’", "„“", "«»", "**"} {
			r := []rune(pair)
			if len(s) > len(string(r)) && strings.HasPrefix(s, string(r[0])) && strings.HasSuffix(s, string(r[1])) {
				s = strings.TrimSuffix(strings.TrimPrefix(s, string(r[0])), string(r[1]))
			}
		}
		if t := strings.TrimRight(s, ".!"); t != "" && !strings.HasSuffix(t, "..") {
			s = t
		}
		again = s != was
	}
	return s
}

// thanks reports a message that only thanks or greets; a bare "ok" is a yes.
func thanks(s string) bool {
	return thanked.MatchString(s) && !strings.EqualFold(s, "ok") && !strings.EqualFold(s, "okay")
}

var thanked = regexp.MustCompile(`(?i)^(?:(?:ok|okay|great|perfect|super|good|lovely|cool|nice|wonderful|excellent|awesome|many|and|hi|hello|hey|good (?:morning|afternoon|evening)|thanks|thank you|thx|ty|cheers|a lot|so much|very much|again|that is all|that's all|that helps|pottle|bye|goodbye)[,.! ]*)+$`)
