package engine

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Status says what became of a line.
type Status uint8

// The statuses of a line. A line that is a heading or a note has none.
const (
	None Status = iota
	Counted
	NotCounted
	Ask
)

// String returns the status as the machine-readable output writes it.
func (s Status) String() string {
	return [...]string{"", "counted", "not counted", "ask"}[s]
}

// Reason says why an item is not counted or must be asked about.
type Reason uint8

// The reasons.
const (
	NoReason     Reason = iota
	Said                // the line says so: "to taste", "for frying"
	NoAmount            // no amount is written
	Vague               // an amount without a weight: "a handful"
	OptionalItem        // left out by convention
	AskFood             // which food is not clear
	AskAmount           // how much is not clear
	Unread              // the line could not be read
)

// Line is what became of one line of a recipe, or of one of its items where a
// line holds several.
type Line struct {
	Number     int // of the line in the text, from 1
	Text       string
	Kind       grammar.LineKind
	Item       grammar.Item
	Status     Status
	Reason     Reason
	Why        string // in plain words, where not counted or asked
	Example    string // what can be counted, where one was made for the asking
	Food       fooddata.Food
	Grams      Range
	Confidence float64
	Assumed    []string        // what was assumed, in plain words
	Choices    []fooddata.Food // other foods it may be, the likeliest first
	drained    *drained
	kept       *shares             // of each nutrient, after cooking or throwing away; nil if all is
	lacks      []fooddata.Nutrient // of which the food's own figures do not hold
}

// Has returns how much of n the line brings at the low and at the high end of
// its range; ok is false if the table has no figure.
func (l *Line) Has(n fooddata.Nutrient) (r Range, ok bool) {
	per100, ok := l.per100(n).Value()
	return l.Grams.times(per100 / 100), ok
}

func (l *Line) per100(n fooddata.Nutrient) fooddata.Amount {
	if slices.Contains(l.lacks, n) {
		return fooddata.Amount{}
	}
	a := l.Food.Per100g(n)
	if l.drained != nil {
		a = l.drained.per100(n)
	}
	if v, ok := a.Value(); ok && l.kept != nil {
		return fooddata.Known(v * l.kept[n])
	}
	return a
}

// Resolve finds the food and the grams of one item that stands by itself.
func (e *Engine) Resolve(item grammar.Item) Line {
	l := e.resolve(item, false)
	e.askDish(&l, true)
	return l
}

// resolve finds the food and the grams of one item. Metric tells that its
// recipe is written in metric measures throughout.
func (e *Engine) resolve(item grammar.Item, metric bool) Line {
	l := Line{Item: item, Kind: grammar.Ingredient}
	q := newQuery(item)
	q.metric = metric
	m := e.match(q)
	if item.Part != grammar.Whole {
		return e.part(l, m, q)
	}
	if !m.Found() && item.Amount != nil {
		if other, ok := e.otherChoice(item, metric); ok {
			return other
		}
	}
	e.settle(&l, m, q)
	return l
}

// otherChoice takes the next choice of a line whose first is not in the table:
// "calamansi juice (or lemon juice)".
func (e *Engine) otherChoice(item grammar.Item, metric bool) (Line, bool) {
	for i, or := range item.Or {
		or.Or = item.Or[i+1:]
		or.Optional = item.Optional
		l := e.resolve(or, metric)
		if l.Status == Counted || l.Reason == OptionalItem {
			l.Assumed = append([]string{quoted(item.Words) + " is not in the table: the other choice, " + l.Food.Name() + ", is counted"}, l.Assumed...)
			l.Confidence = min(l.Confidence, standIn)
			return l, true
		}
	}
	return Line{}, false
}

// numberLost reports whether an item without an amount begins with a measure, as
// one does whose number was lost: "cup sugar", "can black beans".
func (e *Engine) numberLost(item grammar.Item) (measure string, food fooddata.Food, ok bool) {
	if item.Amount != nil || item.Uncounted != "no amount" || len(item.Words) < 2 {
		return "", food, false
	}
	measure = item.Words[0]
	if _, ok := grammar.MeasureNamed(measure); !ok {
		return "", food, false
	}
	if m := e.match(newQuery(item)); m.Confidence == 1 { // the measure is part of a name: "clove powder"
		return "", food, false
	}
	item.Words = item.Words[1:]
	m := e.match(newQuery(item))
	return measure, m.Food, m.Found()
}

// settle decides the status of a line with its match.
func (e *Engine) settle(l *Line, m Match, q query) {
	item := l.Item
	l.Food, l.Confidence, l.Choices = m.Food, m.Confidence, m.Choices
	l.Assumed = append(l.Assumed, item.Notes...)
	if measure, food, ok := e.numberLost(item); ok {
		if one, ok := e.oneOfIt(item, measure, q.metric); ok {
			*l = one
			return
		}
		l.Food, l.Choices = food, nil
		l.refuse(AskAmount, fmt.Sprintf("there is no number before %q", measure))
		return
	}
	switch {
	case item.Amount == nil && !m.Found() && item.Uncounted == "no amount" && e.twoFoods(q) && !q.oneProduct() && !e.eachFound(item):
		e.askBoth(l)
		return
	case item.Amount == nil && !m.Found() && (item.Uncounted == "no amount" || item.Uncounted == "some") && !e.eachFound(item):
		if l.leaveTrifle(e.notKnown(item, m)) {
			return
		}
		l.refuse(AskFood, e.notKnown(item, m))
		return
	case item.Amount == nil:
		reason := Said
		if item.Uncounted == "no amount" {
			reason = NoAmount
		}
		l.leave(reason, item.Uncounted)
		return
	case len(item.Words) == 0:
		l.refuse(AskFood, "no food is named")
		return
	case !m.Found() && e.twoFoods(q) && !q.oneProduct():
		e.askBoth(l)
		return
	case !m.Found():
		if l.leaveTrifle(e.notKnown(item, m)) {
			return
		}
		l.refuse(AskFood, e.notKnown(item, m))
		return
	}
	if m.Confidence <= openName && leftToReader(item) {
		l.Choices = append([]fooddata.Food{m.Food}, m.Choices...)
		l.refuse(AskFood, "which "+strings.Join(withoutChoice(item.Words), " ")+" is left to the reader")
		return
	}
	open, ask := unheard(q, m)
	if ask {
		l.Choices = append([]fooddata.Food{m.Food}, m.Choices...)
		if slices.ContainsFunc(open, func(w string) bool { return noSuchThing[w] }) {
			l.Choices = nil
		}
		why := fmt.Sprintf("no such kind of %s is known for sure: %s", strings.Join(item.Words, " "), strings.Join(open, " "))
		if isSalt(l) {
			l.Choices = nil
			why = ofNoCommonSalt(strings.Join(append(open, item.Words...), " "))
		}
		l.refuse(AskFood, why)
		return
	}
	if e.dryOrReady(l, q) {
		return
	}
	asides := e.unmet(q, m)
	if head := q.words[len(q.words)-1]; ofAnything[head] || head == "pasta" || sameWord[head] == "pasta" {
		for _, aside := range asides {
			if !slices.ContainsFunc(aside, func(w string) bool { return !e.isFood(w) }) { // pasta of chickpeas
				l.refuse(AskFood, fmt.Sprintf("no %s of %s is in the table", strings.Join(item.Words, " "), strings.Join(aside, " ")))
				return
			}
		}
	}
	if digits := unreadNumber(item, q.words, m); digits != "" {
		l.Choices = append([]fooddata.Food{m.Food}, m.Choices...)
		l.refuse(AskAmount, fmt.Sprintf("what %q means there is not clear", digits))
		return
	}
	l.Assumed = append(l.Assumed, m.Assumed...)
	if len(open) > 0 {
		l.Assumed = append(l.Assumed, quoted(open)+" not taken into account")
	}
	for _, aside := range asides {
		l.Assumed = append(l.Assumed, quoted(aside)+" not taken into account")
	}
	if q.weighed && slices.Contains(item.Prep, "cooked") && !slices.Contains(q.words, "cooked") && m.Food.State() != fooddata.Cooked {
		l.Assumed = append(l.Assumed, beforeCooking)
	}
	if second := e.besides(q, m); second != "" {
		e.askBeside(l, strings.Join(withoutJoin(item.Words), " "), second, "with")
		return
	}
	for _, tail := range q.tails {
		if tail[0] == "with" && len(tail) > 1 && !ownPart(tail, m.Food) && !allHeard(tail[1:], m.heard) && !grammar.IsPreparation(tail[1]) {
			l.Assumed = append(l.Assumed, quoted(tail)+" not taken into account")
		}
	}
	l.noteCookedIn(q)
	l.noteFood(q)
	item, fluid := fluidOunces(l.Food, item, q.metric)
	w := e.weigh(l, item, q)
	if fluid && w.why == "" {
		w.assumed = append([]string{ounceOfDrink}, w.assumed...)
	}
	if w.why != "" {
		if w.reason == Vague {
			l.leave(Vague, w.why)
			return
		}
		l.Grams = Range{}
		if l.leaveTrifle(w.why) {
			return
		}
		l.refuse(AskAmount, w.why)
		return
	}
	if l.Food.Group() == "Spices and Herbs" && w.grams.Low > mostSpice {
		l.refuse(AskAmount, fmt.Sprintf("%s kg of %s is more than a kitchen uses: check the amount", show(w.grams.Low/1000), l.Food.Name()))
		return
	}
	l.Grams = w.grams
	l.Confidence *= w.sure
	if use := discarded(l); use != "" && w.grams.Low > mostUsedUp {
		l.askTakenUp(use)
		return
	}
	l.Assumed = append(l.Assumed, w.assumed...)
	if isSalt(l) && w.grams.Low > mostUsedUp {
		l.Assumed = append(l.Assumed, allOfSalt)
	}
	if item.Optional {
		l.leave(OptionalItem, "optional")
		return
	}
	l.Status = Counted
}

// unreadNumber is a number among the words of a name that the match set aside:
// it may be a part of the amount. Empty if there is none.
func unreadNumber(item grammar.Item, words []string, m Match) string {
	if slices.ContainsFunc(item.Words, func(w string) bool { return leanAndFat.MatchString(w) }) {
		return ""
	}
	for _, w := range words {
		if !mayBeAmount(w) {
			continue
		}
		for _, a := range m.Assumed {
			if set, rest, ok := strings.Cut(strings.TrimPrefix(a, `"`), `"`); ok && strings.HasPrefix(rest, " not taken") && slices.Contains(strings.Fields(set), w) {
				return w
			}
		}
	}
	return ""
}

// leanAndFat is "80/20" of minced meat.
var leanAndFat = regexp.MustCompile(`^\d\d/\d\d$`)

// mayBeAmount reports whether a word begins with a digit or holds one beside a
// measure: "400", "tin400g". A per cent is a kind.
func mayBeAmount(w string) bool {
	if !strings.ContainsAny(w, "0123456789") || strings.HasSuffix(w, "%") {
		return false
	}
	isDigit := func(r rune) bool { return r >= '0' && r <= '9' }
	return isDigit(rune(w[0])) || slices.ContainsFunc(strings.FieldsFunc(w, isDigit), func(part string) bool { _, ok := grammar.MeasureNamed(part); return ok })
}

// mostSpice is the most grams of salt, a spice or a herb that a line may hold.
const mostSpice = 1000

// allOfSalt is said of much salt: it may be that of a brine or a crust.
const allOfSalt = "all of this salt is counted, also that of a brine that is not eaten"

// leftToReader reports whether the line leaves the kind open in so many words:
// "milk of your choice".
func leftToReader(item grammar.Item) bool {
	return slices.Contains(item.Words, "choice") || slices.Contains(item.Prep, "choice") || item.Uncounted == "your choice"
}

func withoutChoice(words []string) []string {
	var kept []string
	for _, w := range words {
		if w != "of" && w != "your" && w != "choice" {
			kept = append(kept, w)
		}
	}
	return kept
}

// eachFound reports whether words joined by "and" are a food each: "salt and
// pepper".
func (e *Engine) eachFound(item grammar.Item) bool {
	found := false
	for _, part := range strings.Split(strings.ReplaceAll(strings.Join(item.Words, " "), " & ", " and "), " and ") {
		if _, ok := e.named(query{words: fooddata.Normalise(part)}); !ok {
			return false
		}
		found = true
	}
	return found && slices.Contains(item.Words, "and")
}

// leave marks the line as not counted.
func (l *Line) leave(reason Reason, why string) {
	l.Status, l.Reason, l.Why = NotCounted, reason, why
}

// refuse marks the line as one to ask about.
func (l *Line) refuse(reason Reason, why string) {
	l.Status, l.Reason, l.Why = Ask, reason, why
	l.Confidence = min(l.Confidence, bar-0.01)
	if reason == AskFood {
		l.Food = fooddata.Food{}
	}
}

// ofNoCommonSalt says why a salt that is not the table's is not counted.
func ofNoCommonSalt(words string) string {
	return fmt.Sprintf("%q is not in the table and is not counted as common salt: salt replacers are often potassium chloride, a danger in kidney disease and with ACE inhibitors, ARBs or potassium-sparing diuretics; read its label for sodium and potassium", words)
}

func (e *Engine) notKnown(item grammar.Item, m Match) string {
	what := quoted(item.Words)
	if isSaltOfAKind(withoutPreparation(fooddata.Normalise(strings.Join(item.Words, " ")))) {
		return ofNoCommonSalt(strings.Join(item.Words, " "))
	}
	if len(m.Choices) > 0 {
		return what + " is not known for sure"
	}
	return what + " is not in the table"
}

// weigh finds the grams, then what refuse and draining take off.
func (e *Engine) weigh(l *Line, item grammar.Item, q query) weight {
	p := portioner{food: l.Food, head: headOf(l.Food), imperial: q.metric, name: fooddata.Normalise(strings.Join(item.Words, " "))}
	p.long, p.across = pieceLength(item, p.name), pieceSize(item)
	p.plural = pluralName(item.Words)
	p.words = slices.Clone(p.name)
	for _, w := range fooddata.Normalise(strings.Join(item.Prep, " ")) {
		if w != "sifted" && w != "whipped" { // done after measuring
			p.words = append(p.words, w)
		}
	}
	for _, aside := range item.Aside {
		p.words = append(p.words, fooddata.Normalise(aside)...)
	}
	if slices.Contains(p.name, "chop") && thinCut(item) {
		p.words = append(p.words, "thin")
	}
	drains, rinsed := slices.Contains(q.state, "drained"), slices.Contains(q.state, "rinsed")
	undrained := slices.Contains(q.words, "undrained") || slices.Contains(q.state, "undrained")
	if undrained {
		drains, rinsed = false, false
	}
	if drains || rinsed {
		p.solids = e.solids(l.Food)
	}
	w := p.weigh(item.Amount)
	if w.why != "" {
		return w
	}
	if !w.exact && !w.fromCan && unweighedFish(l.Food, item) {
		return weight{why: fmt.Sprintf("how much a %s weighs is not said", strings.Join(item.Words, " ")), reason: AskAmount}
	}
	if w.exact || w.fromCan {
		if share, note := e.edible(l.Food, item, w); share == 0 {
			return weight{why: note, reason: AskAmount}
		} else if note != "" {
			w.grams = w.grams.times(share)
			w.assumed = append(w.assumed, note)
		}
	}
	switch {
	case drains || rinsed:
		e.drain(l, &w, p.solids, rinsed, !drains)
	case undrained:
		e.withLiquid(l, p, &w)
	}
	return w
}

// headOf is the word of a food's name that says what it is: "tomato" of "cherry
// tomatoes, canned".
func headOf(f fooddata.Food) string {
	kind, _, _ := strings.Cut(f.Name(), ",")
	words := fooddata.Normalise(kind)
	if len(words) == 0 {
		return ""
	}
	return words[len(words)-1]
}

// part resolves "juice of 1 lemon" and "zest of 1 orange".
func (e *Engine) part(l Line, _ Match, q query) Line {
	name := map[grammar.Part]string{grammar.Juice: "juice", grammar.Zest: "zest"}[l.Item.Part]
	fruit := withoutPreparation(q.words)
	if len(fruit) == 0 {
		l.refuse(AskFood, "no fruit is named")
		return l
	}
	head := fruit[len(fruit)-1]
	var m Match
	for _, words := range [][]string{append(slices.Clone(fruit), name), {head, name}, {head, "peel"}} {
		if found, ok := e.named(query{words: words}); ok && (name == "zest" || words[len(words)-1] == name) {
			m = found
			break
		}
	}
	if !m.Found() {
		l.refuse(AskFood, fmt.Sprintf("the %s of %s is not in the table", name, strings.Join(fruit, " ")))
		return l
	}
	l.Item.Words = []string{head, name}
	item := l.Item
	item.Words = []string{head, name}
	before := l.Item.Amount
	e.settle(&l, m, q)
	if l.Status == Ask && l.Reason == AskAmount && before != nil {
		if grams, note, ok := e.partOf(before, head, name); ok {
			l.Status, l.Reason, l.Why = Counted, NoReason, ""
			l.Grams, l.Confidence = grams, assumedSize
			l.Assumed = append(l.Assumed, note)
		}
	}
	return l
}

// yields of one fruit in grams (common practice, no source: a lemon gives
// about 3 tablespoons of juice, a lime 2, an orange a third of a cup; zest is
// about a tablespoon for a lemon or orange).
var yields = map[string]map[string]float64{
	"juice": {"lemon": 46, "lime": 30, "orange": 86, "grapefruit": 190},
	"zest":  {"lemon": 6, "lime": 4, "orange": 6, "grapefruit": 10},
}

func (e *Engine) partOf(a *grammar.Amount, fruit, part string) (Range, string, bool) {
	g, ok := yields[part][fruit]
	if !ok || len(a.Terms) != 1 || a.Terms[0].Measure != nil {
		return Range{}, "", false
	}
	n, ok := quantity(a.Terms[0].Quantity)
	return n.times(g), fmt.Sprintf("one %s gives about %s g of %s", fruit, show(g), part), ok
}
