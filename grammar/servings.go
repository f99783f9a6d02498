package grammar

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// NoteOfServings says how the number of servings was read where it does not
// stand on a line of its own, in plain words; empty if it does, or if it was
// changed since.
func (r *Recipe) NoteOfServings() string {
	if r.Yield != r.noteFor {
		return ""
	}
	return r.servingsNote
}

// serve sets the servings as the line tells them.
func (r *Recipe) serve(servings Quantity, line, note string) {
	r.Servings, r.Yield = servings, line
	r.servingsNote, r.noteFor = note, line
}

// headed finds a heading of a section with more behind it: "Ingredients (serves
// 6)", "Ingredients for 4", "Method (30 minutes)".
var headed = regexp.MustCompile(`^(ingredients?|ingredient list|shopping list|what you need|what you'll need|you will need|you'll need|directions|method|instructions|preparation)\b[\s:,–—-]*(\(.*\)|for .*|(?:serves|makes|feeds|yields?|servings).*|\d+ (?:servings|portions|people).*)$`)

// heading reads such a heading; the servings may stand in it.
func (p *recipeReader) heading(l *Line, lower string) bool {
	at := headed.FindStringSubmatch(strings.TrimRight(lower, ": "))
	if at == nil || strings.ContainsAny(lower, ".") || len(lower) > 80 {
		return false
	}
	which := sections[at[1]]
	if at[1] == "ingredient" {
		which = sectionIngredients
	}
	if which == sectionNone {
		return false
	}
	more := strings.Trim(at[2], "()[] ")
	if which == sectionIngredients && !strings.HasPrefix(more, "for the ") {
		if servings, _, ok := readYield(more); ok && servings.Low != nil && servings.Low.Sign() > 0 {
			p.told(servings, l.Text, "")
		} else if servings, ok := forSome(more); ok {
			p.told(servings, l.Text, "")
		}
	}
	l.Kind, p.section = Heading, which
	return true
}

// told sets the servings if none are told yet.
func (p *recipeReader) told(servings Quantity, line, note string) {
	switch {
	case p.recipe.Servings.Low == nil || p.weak:
		p.recipe.serve(servings, line, note)
		p.weak = false
	case p.started:
		p.recipe.Twice = true
	}
}

// forPattern is a number of those who eat at the end of a few words: "For 3",
// "Dinner for two", "Soup for 4-6 people".
var forPattern = regexp.MustCompile(`(?i)\bfor ([0-9]{1,2}(?: ?(?:-|–|to|or) ?[0-9]{1,2})?|two|three|four|five|six|seven|eight|nine|ten|twelve|one)(?: (?:people|persons|adults|servings|portions|guests|eaters))?[.!]?$`)

// forSome reads "for 3" and the like; ok is false if s does not end with it.
func forSome(s string) (Quantity, bool) {
	at := forPattern.FindStringSubmatch(strings.TrimSpace(s))
	if at == nil || len(strings.Fields(s)) > 6 {
		return Quantity{}, false
	}
	node := parseNode(at[1])
	if node.Lead == nil {
		return Quantity{}, false
	}
	a, fault := node.Lead.amount()
	if fault != nil || a.Terms[0].Measure != nil || a.Terms[0].Quantity.Low.Sign() <= 0 {
		return Quantity{}, false
	}
	return a.Terms[0].Quantity, true
}

// toldInTalk finds a number of servings told in a sentence, where no line of its
// own tells it: "It feeds 4 hungry people". What says "serves" goes before how
// many there were.
func (p *recipeReader) toldInTalk() {
	if p.recipe.Servings.Low != nil && !p.weak {
		return
	}
	for _, pattern := range []*regexp.Regexp{servesPattern, forPeople} {
		for _, l := range p.recipe.Lines {
			if l.Kind != Note {
				continue
			}
			for _, sentence := range sentences.FindAllString(clean(l.Text), -1) {
				if servings, ok := servesIn(sentence, pattern); ok {
					p.recipe.serve(servings, l.Text, fmt.Sprintf("%s servings, from %q", servings, strings.Trim(sentence, " .")))
					return
				}
			}
		}
	}
}

// servesIn reads the number that the pattern finds in a sentence.
func servesIn(sentence string, pattern *regexp.Regexp) (Quantity, bool) {
	at := pattern.FindStringSubmatchIndex(sentence)
	if at == nil {
		return Quantity{}, false
	}
	from := at[2]
	if from < 0 {
		from = at[4]
	}
	node := parseNode(sentence[from:min(len(sentence), from+MaxLine)])
	if node.Lead == nil {
		return Quantity{}, false
	}
	a, fault := node.Lead.amount()
	if fault != nil || a.Terms[0].Measure != nil && a.Terms[0].Measure.Kind != Count || a.Terms[0].Quantity.Low.Sign() <= 0 {
		return Quantity{}, false
	}
	return a.Terms[0].Quantity, true
}

var sentences = regexp.MustCompile(`[^.!?]+[.!?]*`)

// servesPattern finds what can be nothing but a number of servings, forPeople
// how many it was made for.
var (
	servesPattern = regexp.MustCompile(`(?i)\b(?:serves|feeds|enough for)[:\s]+(?:about |approx\.? |approximately |around )?(\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve)\b|\b(?:makes|yields?|gives|into) (?:about |approx\.? |around )?(\d{1,3}(?:(?: ?[-–] ?| to | or )\d{1,3})? (?:servings|portions|people))\b`)
	forPeople     = regexp.MustCompile(`(?i)\bfor (?:about )?(\d{1,3}(?:(?: ?[-–] ?| to | or )\d{1,3})? (?:servings|portions|people))\b`)
)

// eachPattern is how many servings each of several things gives: "2 loaves, 12
// slices each", "2 pies (8 slices per pie)".
var eachPattern = regexp.MustCompile(`^(?:about |approximately )?(?:slices?|servings?|portions?|pieces?|squares?|wedges?) (?:each|apiece|per [a-z]+)\b`)

// perServing finds how many of the things make a serving: "24 cookies, 2 per
// serving".
var perServing = regexp.MustCompile(`^(?:[a-z]+ )?(?:per|a|to a|=|in a) (?:serving|portion|person)\b`)

// timesEach multiplies the things that a recipe makes by the servings of each.
func timesEach(things, each Quantity) (Quantity, bool) {
	if things.Low == nil || things.IsRange() || each.IsRange() || !things.Low.IsInt() || things.Low.Cmp(one) <= 0 {
		return Quantity{}, false
	}
	product := new(big.Rat).Mul(things.Low, each.Low)
	return Quantity{product, product}, readable(product)
}

// isProse reports talk, which is no title: a sentence of several words, or very
// many.
func isProse(s string) bool {
	n := len(strings.Fields(s))
	return n >= 16 || n >= 6 && strings.HasSuffix(s, ".") || n >= 9 && strings.ContainsAny(s, ".!?")
}

// firstSentence is the sentence of s that holds the offset.
func firstSentence(s string, at int) string {
	for _, span := range sentences.FindAllStringIndex(s, -1) {
		if span[0] <= at && at < span[1] {
			return strings.Trim(s[span[0]:span[1]], " .")
		}
	}
	return s
}

// wholeNames finds things that are cut or shared out, so that their number tells
// no servings; smallThings those of one eater each.
var (
	wholeNames  = regexp.MustCompile(`(?i)\b(?:loaf|loaves|cakes?|cheesecakes?|pies?|tarts?|quiches?|pizzas?|crusts?|casseroles?|pans?|dish|dishes|bundts?|roasts?|batch|batches|traybakes?|jars?|trays?|round|rounds|logs?|layers?|tortes?|puddings?|braids?|boules?|baguettes?|focaccias?)\b`)
	smallThings = regexp.MustCompile(`(?i)\b(?:mini|individual|small|personal|crab|fish|cup|rice|pot|hand|single|little|tiny|potato|fairy|whoopie|cupcakes?|pan[- ]?cakes?|dough|spring)\b`)
	madeInPan   = regexp.MustCompile(`(?i)\d[ -]?(?:inch|in\b|cm|x ?\d)|\d ?["″”]`)
)

// wholeThings reports a yield of a few whole things: "Makes 2 loaves", "Makes one
// 9-inch pie".
func wholeThings(line string, n Quantity) bool {
	if n.Low != nil && n.High.Cmp(rat("3")) > 0 {
		return false
	}
	return (wholeNames.MatchString(line) || madeInPan.MatchString(line)) && !smallThings.MatchString(line)
}
