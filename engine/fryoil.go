package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// mostUsedUp is the most grams of frying fat or brining salt that are counted
// whole, as if all of it were eaten: about two tablespoons.
const mostUsedUp = 30

// leastForFrying and leastForShallowFrying are the grams of fat from which the
// directions tell that it is for frying in: about a cup for a deep fryer without
// more words, and a little over three tablespoons where what is fried is drained
// on paper. Less is that of a pan, and eaten (common practice, no source).
const (
	leastForFrying        = 100
	leastForShallowFrying = 45
)

// fryingWords find a line that says that its fat is for frying.
var fryingWords = regexp.MustCompile(`\b(for|to) (the )?((deep|shallow|pan)[- ]?)?(fat[- ])?(fry|frying|fryer)\b|\bfor (the )?(deepfrying|panfrying)\b`)

// takenUpWords tell that an amount of frying fat is what is eaten of it.
var takenUpWords = wordSet("absorbed taken eaten")

// discarded says what an ingredient is used for if most of it is thrown away:
// the oil of a fryer, the salt of a brine.
func discarded(l *Line) string {
	if IsTakenUp(l.Item) {
		return ""
	}
	if isFat(l.Food) && fryingWords.MatchString(strings.Join(wordsOfLine(l.Item), " ")) {
		return "frying"
	}
	for i, w := range l.Item.Prep {
		if (w == "brining" || w == "brine") && i > 0 && (l.Item.Prep[i-1] == "for" || l.Item.Prep[i-1] == "the" || l.Item.Prep[i-1] == "a") {
			return "brining"
		}
	}
	return ""
}

// wordsOfLine are all words of an item and of its other choices.
func wordsOfLine(item grammar.Item) []string {
	words := append(slices.Clone(item.Words), item.Prep...)
	for _, aside := range item.Aside {
		words = append(words, strings.Fields(strings.ToLower(aside))...)
	}
	words = append(words, strings.Fields(strings.ToLower(item.More))...)
	for _, or := range item.Or {
		words = append(words, wordsOfLine(or)...)
	}
	return words
}

// isFat reports whether a food is what one fries in.
func isFat(f fooddata.Food) bool {
	fat, ok := f.Per100g(fooddata.Fat).Value()
	return ok && fat >= 78 && (f.Group() == "Fats and Oils" || f.Group() == "Dairy and Egg Products") // butter has 81 g
}

// TakenUp marks the amount of an item as what is eaten of a frying fat or of the
// salt of a brine: "1/2 cup oil, absorbed".
func TakenUp(item grammar.Item) grammar.Item {
	if IsTakenUp(item) {
		return item
	}
	item.Prep = append(slices.Clone(item.Prep), "absorbed")
	item.Tail = append(slices.Clone(item.Tail), []string{"absorbed"})
	return item
}

// IsTakenUp reports whether an item says that its amount is what is eaten of it.
func IsTakenUp(item grammar.Item) bool {
	return slices.ContainsFunc(wordsOfLine(item), func(w string) bool { return takenUpWords[w] })
}

// askTakenUp asks for the amount of a fat or salt that is eaten.
func (l *Line) askTakenUp(use string) {
	l.Grams = Range{}
	l.refuse(AskAmount, "how much of the "+l.Food.Name()+" is taken up in "+use+" is not known")
}

// AsksTakenUp reports whether the line is asked about because most of it is not
// eaten.
func (l *Line) AsksTakenUp() bool {
	return l.Status == Ask && strings.Contains(l.Why, " is taken up in ")
}

// askFryingFat asks for the amount that is eaten of a fat that, by the
// directions, food is fried in. It is the largest one, unless a line says itself
// which it is.
func (a *Analysis) askFryingFat(method []string) {
	if len(method) == 0 {
		return
	}
	at := -1
	for i := range a.Lines {
		l := &a.Lines[i]
		switch {
		case l.Kind != grammar.Ingredient:
		case l.AsksTakenUp(), l.Status == NotCounted && fryingWords.MatchString(l.Item.Uncounted), l.Status == Counted && isFat(l.Food) && IsTakenUp(l.Item):
			return
		case l.Status == Counted && isFat(l.Food) && discarded(l) != "": // two tablespoons for frying
			return
		case l.Status == Counted && isFat(l.Food) && l.Food.Group() == "Fats and Oils" && (at < 0 || l.Grams.Low > a.Lines[at].Grams.Low):
			at = i
		}
	}
	if at < 0 || a.Lines[at].Grams.Low < leastForShallowFrying {
		return
	}
	l := &a.Lines[at]
	told := fryingTold(method, wordsNaming(l))
	if told.bath && l.Grams.Low >= 2*leastForFrying {
		l.askTakenUp("cooking")
		return
	}
	if told.deep || !told.mixed && (told.paper || l.Grams.Low >= leastForFrying && told.hot || l.Grams.Low >= 2*leastForFrying) && told.fried {
		l.askTakenUp("frying")
	}
}

var (
	deepFrying  = regexp.MustCompile(`\b(deep[- ]?(fat )?(fry|fries|fried|frying|fryer)|shallow[- ]?(fry|fried|frying)|fryer|inch(es)? of (the )?(hot )?oil|inches deep|fry(ing)? thermometer|deep-?fry(ing)? thermometer|candy thermometer|the oil (reaches|registers|is at))\b`)
	inFat       = regexp.MustCompile(`\bconfit\b|\bout of the ([a-z]+ )?(fat|oil|lard)\b|\b(cover|covered|submerge|submerged|immerse|immersed) (completely )?(with|in|by) (the )?([a-z]+ )?(fat|oil|lard)\b|\bpoach(ed)? [^.;]{0,30}\bin (the )?([a-z]+ )?(fat|oil)\b`)
	hotOil      = regexp.MustCompile(`\bin batches\b|\bin(to)? (the )?hot (oil|fat)\b`)
	oilHeated   = regexp.MustCompile(`\b(oil|fat|shortening|lard)\b[^.;]{0,60}?\b(to|at|of|reaches|registers) (about )?(3[2-9]\d|1[6-9]\d) ?(°|º|f\b|c\b|degrees)`)
	onPaper     = regexp.MustCompile(`\b(drain|transfer|remove|lift|place|put|move)\b[^.;]{0,60}\b(paper|kitchen) ?(towel|towels|paper|roll|bags?)\b|\bdrain\b[^.;]{0,40}\b(wire )?rack\b|\babsorbent\b|\bpaper towel`)
	friedIn     = regexp.MustCompile(`\b(fry|fries|frying|fried)\b`)
	stirFried   = regexp.MustCompile(`\bstir[- ]?(fry|fried|frying)\b`)
	mixesIn     = regexp.MustCompile(`\b(whisk|mix|combine|beat|knead|toss|drizzle|brush|blend|dough|batter|dressing|marinade|marinate|cream|emulsify)\b`)
	roastedOven = regexp.MustCompile(`\boven\b`)
)

// frying is what directions tell of frying.
type frying struct {
	fried bool
	deep  bool // in deep fat
	paper bool // and drained on paper
	hot   bool // in hot fat, in batches
	mixed bool // the fat is mixed into something
	bath  bool // food lies in it: a confit
}

// fryingTold reads what directions tell of frying in a fat that is named by words.
func fryingTold(method []string, words map[string]bool) frying {
	var f frying
	for _, line := range method {
		for sentence := range strings.FieldsFuncSeq(strings.ToLower(line), func(r rune) bool { return r == '.' || r == ';' || r == '!' }) {
			plain := stirFried.ReplaceAllString(sentence, "")
			hot := oilHeated.MatchString(sentence) && !roastedOven.MatchString(sentence)
			deep := deepFrying.MatchString(plain) || hot
			fries := friedIn.MatchString(plain) || deep
			f.deep, f.fried = f.deep || deep, f.fried || fries
			f.paper = f.paper || onPaper.MatchString(sentence)
			f.bath = f.bath || inFat.MatchString(sentence)
			f.hot = f.hot || hotOil.MatchString(sentence)
			f.mixed = f.mixed || mixesIn.MatchString(sentence) && !fries &&
				slices.ContainsFunc(fooddata.Normalise(sentence), func(w string) bool { return words[w] && !vagueName[w] && w != "vegetable" })
		}
	}
	return f
}
