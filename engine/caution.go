package engine

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Caution is one thing that a recipe calls for to be said.
type Caution struct {
	Kind   string // "allergen", "gluten", "temperature": see Cautions
	Text   string // one line, plain; it reads after Kind and a colon
	Source string // what it rests on; "from memory" where no document was read again
	Lines  []int  // indices in Analysis.Lines of the lines that call for it
}

// Cautions returns what this recipe calls for and nothing else, in a fixed
// order. Method is its directions, a line each; nil if they are not known,
// and then what they would tell is not guessed at.
//
// The kinds, in order: allergen (one for each of the nine, then one for lines
// that could not be judged), molluscs, gluten, oats, alcohol, raw egg, raw
// fish or meat, raw flour, kidney beans, honey, raw sprouts, soft cheese,
// unpasteurised, deli meat, mercury, liver, grapefruit, vitamin K, potassium salt,
// liquorice, aspartame, sugar alcohols, temperature (one for each kind of
// food), storage, preserving, garlic in oil.
//
// Optional items and other choices call for a caution as counted ones do. A
// caution that is not there shows nothing: no text says that a food is free
// of something or safe.
func (a *Analysis) Cautions(method []string) []Caution {
	d := a.dish(method)
	var list []Caution
	list = append(list, d.allergenCautions()...)
	for _, c := range []func() (Caution, bool){d.molluscs, d.gluten, d.oats, d.alcohol, d.rawEgg, d.rawFish, d.rawFlour, d.kidneyBeans} {
		if caution, ok := c(); ok {
			list = append(list, caution)
		}
	}
	list = append(list, d.noteCautions(cautionNotes[:afterGrapefruit])...)
	if caution, ok := d.vitaminK(); ok {
		list = append(list, caution)
	}
	list = append(list, d.noteCautions(cautionNotes[afterGrapefruit:])...)
	list = append(list, d.temperatures()...)
	list = append(list, d.storage()...)
	for _, c := range []func() (Caution, bool){d.saltKeepsItSafe, d.garlicInOil} {
		if caution, ok := c(); ok {
			list = append(list, caution)
		}
	}
	return list
}

// dishView is a recipe as the cautions look at it.
type dishView struct {
	analysis *Analysis
	foods    []dishFood
	title    []string   // in the form fooddata.Normalise gives
	head     []string   // of the title, what the dish is: without "with ..." and "in ..."
	steps    [][]string // the directions, a sentence each
	all      []string   // the directions as one, sentences set apart by a bar
	text     string     // the directions as written
}

// dishFood is one food that a line names: its own, a part of it ("salt and
// pepper") or another choice.
type dishFood struct {
	line    int           // index in Analysis.Lines
	name    string        // as a caution calls it
	words   []string      // as written, normalised; what is remarked is set apart by a bar
	food    fooddata.Food // zero if it is not known
	standIn bool          // food is only the nearest like food
	display []string      // the name of the food in the table, normalised; nil for a stand-in
	salt    bool          // a salt that is not common salt
}

// partBar sets parts of a line apart, so that no phrase reaches across.
const partBar = "|"

func (a *Analysis) dish(method []string) *dishView {
	d := &dishView{analysis: a, title: fooddata.Normalise(a.Title), head: titleHead(a.Title), text: strings.Join(method, "\n")}
	for _, line := range method {
		for _, sentence := range sentenceEnd.Split(line, -1) {
			if words := fooddata.Normalise(sentence); len(words) > 0 {
				d.steps = append(d.steps, words)
				d.all = append(append(d.all, words...), partBar)
			}
		}
	}
	var other *Engine // resolves what an Analysis keeps as words only
	resolver := func() *Engine {
		if other == nil {
			if table, err := fooddata.Open(); err == nil {
				other = New(table, Options{CacheSize: 64})
			}
		}
		return other
	}
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.Kind != grammar.Ingredient {
			continue
		}
		d.add(i, l, "", resolver)
		for _, choice := range l.Item.Or {
			o := Line{Kind: grammar.Ingredient, Item: choice, Text: strings.Join(choice.Words, " ")}
			if e := resolver(); e != nil {
				o = e.resolve(e.completeChoice(choice, l.Item), false)
			}
			if o.Food.IsZero() && !namesFood(choice.Words) {
				continue
			}
			d.add(i, &o, " (the other choice)", resolver)
		}
	}
	return d
}

// mostChoiceWords is the most words that another choice has which the table
// does not know; more are an explanation.
const mostChoiceWords = 6

// namesFood reports whether the words of another choice may name a food: not
// "a 1-inch piece" of the first.
func namesFood(words []string) bool {
	return len(words) <= mostChoiceWords && slices.ContainsFunc(fooddata.Normalise(strings.Join(words, " ")), func(w string) bool {
		return !grammar.IsPreparation(w) && !trailing[w] && !bareState[w]
	})
}

var sentenceEnd = regexp.MustCompile(`[.;!?](\s|$)`)

// titleHead returns the words of a title that say what the dish is.
func titleHead(title string) []string {
	var head []string
	for field := range strings.FieldsSeq(strings.ToLower(title)) {
		switch strings.Trim(field, ",()-–") {
		case "with", "in", "on", "for", "from", "over", "and", "&", "using", "by", "recipe", "|":
			if len(head) > 0 {
				return fooddata.Normalise(strings.Join(head, " "))
			}
			continue
		}
		if strings.HasPrefix(field, "(") && len(head) > 0 {
			break
		}
		head = append(head, field)
		if strings.HasSuffix(field, ",") || strings.HasSuffix(field, ":") && len(head) > 1 {
			break
		}
	}
	return fooddata.Normalise(strings.Join(head, " "))
}

// add puts in the foods of one line.
func (d *dishView) add(i int, l *Line, remark string, resolver func() *Engine) {
	if l.Item.Optional {
		remark = " (optional)"
	}
	if l.Food.IsZero() && slices.Contains(l.Item.Words, "and") {
		if e := resolver(); e != nil && e.eachFound(l.Item) {
			for part := range strings.SplitSeq(strings.Join(l.Item.Words, " "), " and ") {
				m := e.match(query{words: fooddata.Normalise(part)})
				one := Line{Item: grammar.Item{Words: strings.Fields(part)}, Food: m.Food, Assumed: m.Assumed}
				d.foods = append(d.foods, newDishFood(i, &one, remark))
			}
			return
		}
	}
	d.foods = append(d.foods, newDishFood(i, l, remark))
}

func newDishFood(i int, l *Line, remark string) dishFood {
	in := dishFood{line: i, food: l.Food, words: fooddata.Normalise(strings.Join(l.Item.Words, " "))}
	for _, a := range l.Assumed {
		in.standIn = in.standIn || strings.Contains(a, "is not in the table; counted as")
	}
	in.salt = l.Status == Ask && strings.Contains(l.Why, "potassium chloride")
	in.name = calledInRecipe(l)
	in.name += remark
	for _, part := range append(l.Item.Aside[:len(l.Item.Aside):len(l.Item.Aside)], strings.Join(l.Item.Prep, " ")) {
		if words := fooddata.Normalise(part); len(words) > 0 {
			in.words = append(append(in.words, partBar), words...)
		}
	}
	if l.Reason == Unread {
		in.words = append(append(in.words, partBar), fooddata.Normalise(l.Text)...)
	}
	if in.sure() {
		in.display = fooddata.Normalise(l.Food.Name())
	}
	return in
}

// calledInRecipe returns what the line calls its food, without words of
// preparation.
func calledInRecipe(l *Line) string {
	var plain []string
	for _, w := range l.Item.Words {
		if !grammar.IsPreparation(w) {
			plain = append(plain, w)
		}
	}
	switch {
	case l.Reason == Unread || len(l.Item.Words) == 0:
		return quoted([]string{l.Text})
	case len(plain) == 0:
		return strings.Join(l.Item.Words, " ")
	}
	return strings.Join(plain, " ")
}

// sure reports whether the food is the one that the line names.
func (in dishFood) sure() bool { return !in.food.IsZero() && !in.standIn }

// says returns what the words of the food tell of a subject: the stronger
// of the line's words and the name in the table, unless that name is a
// look-alike.
func (in dishFood) says(subject string) verdict {
	rules := cautionRules(subject)
	if v := rules.in(in.display); v != notSaid {
		if v == lookAlike {
			return v
		}
		return max(v, rules.in(in.words))
	}
	v := rules.in(in.words)
	if v == notSaid && subject == "potassium salt" && in.salt {
		return mayContain // whatever it is called
	}
	return v
}

// with returns the ingredients that contain or may contain subject.
func (d *dishView) with(subject string) (sure, perhaps []dishFood) {
	for _, in := range d.foods {
		switch in.says(subject) {
		case doesContain:
			sure = append(sure, in)
		case mayContain:
			perhaps = append(perhaps, in)
		}
	}
	return sure, perhaps
}

// has reports whether an ingredient contains subject.
func (d *dishView) has(subject string) bool {
	sure, _ := d.with(subject)
	return len(sure) > 0
}

// titled and told report whether the title or the directions hold words of
// subject.
func (d *dishView) titled(subject string) bool {
	return cautionRules(subject).in(d.title) == doesContain
}
func (d *dishView) told(subject string) bool { return cautionRules(subject).in(d.all) == doesContain }

// is returns the words of the title's head that say that the dish is one of
// subject, unless an ingredient bears the same words and so was bought as
// such: potato salad with pickles is no pickle. With last, the words must end
// the head: fudge cake is no fudge.
func (d *dishView) is(subject string, last bool) bool {
	for _, h := range cautionRules(subject).hits(d.head) {
		if h.verdict != doesContain || last && h.to != len(d.head) {
			continue
		}
		if !slices.ContainsFunc(d.foods, func(in dishFood) bool { return hasPhrase(in.words, d.head[h.from:h.to]) }) {
			return true
		}
	}
	return false
}

// cautionNames lists what the ingredients are called, each once.
func cautionNames(ins ...[]dishFood) string {
	var list []string
	for _, in := range slices.Concat(ins...) {
		if !slices.Contains(list, in.name) {
			list = append(list, in.name)
		}
	}
	return strings.Join(list, ", ")
}

// cautionLines returns the lines of the ingredients, each once, in order.
func cautionLines(ins ...[]dishFood) []int {
	var lines []int
	for _, in := range slices.Concat(ins...) {
		lines = append(lines, in.line)
	}
	slices.Sort(lines)
	return slices.Compact(lines)
}

// cautionNote is a caution that the words of an ingredient call for. The names
// of the ingredients go before the text; before may if they only may contain
// it, which calls for no caution where may is empty.
type cautionNote struct {
	kind, text, may, source string
}

// afterGrapefruit is the place in cautionNotes where vitamin K comes between.
const afterGrapefruit = 8

var cautionNotes = []cautionNote{
	{"honey", "never for infants under 12 months, cooked or not", "", fromHoney},
	{"raw sprouts", "cook until steaming hot for " + higherRisk, "", fromHigherRisk},
	{"soft cheese", "check that the label says pasteurised milk, for " + higherRisk, "", fromHigherRisk},
	{"unpasteurised", "not for " + higherRisk, "", fromHigherRisk},
	{"deli meat", "heat to 165 °F (74 °C) or until steaming hot for " + higherRisk, "", fromDeliMeat},
	{"mercury", "high in mercury: not for pregnancy, breastfeeding or young children", "", fromFishAdvice},
	{"liver", "very high in retinol (vitamin A): to be limited in pregnancy", "", fromRetinol},
	{"grapefruit", "interacts with more than 85 medicines: ask about medicines first",
		"may contain Seville orange or a grapefruit cross, which interact with medicines as grapefruit does; check each label", fromGrapefruit},
	{"potassium salt", "potassium chloride can be a danger in kidney disease and with ACE inhibitors, ARBs or potassium-sparing diuretics",
		"may contain potassium chloride, a danger in kidney disease and with ACE inhibitors, ARBs or potassium-sparing diuretics; check each label", fromPotassium},
	{"liquorice", "can raise blood pressure and lower potassium: ask about hypertension and heart medicines", "", fromOtherFlags},
	{"aspartame", "not for phenylketonuria (PKU)", "", fromOtherFlags},
	{"sugar alcohols", "more than 10 to 15 g at a time can be laxative", "", fromOtherFlags},
}

// noteCautions returns the cautions of the notes given that an ingredient's
// words call for.
func (d *dishView) noteCautions(notes []cautionNote) []Caution {
	var list []Caution
	for _, n := range notes {
		sure, perhaps := d.with(n.kind)
		if n.kind == "raw sprouts" || n.kind == "deli meat" { // raw or cold; canned and cooked are neither
			sure = slices.DeleteFunc(sure, func(in dishFood) bool {
				return in.sure() && (in.food.State() == fooddata.Canned || n.kind == "raw sprouts" && in.food.State() == fooddata.Cooked)
			})
		}
		switch {
		case len(sure) > 0:
			text := n.text
			if named := cautionNames(sure); named != n.kind {
				text = named + ": " + text
			}
			list = append(list, Caution{n.kind, text, n.source, cautionLines(sure)})
		case len(perhaps) > 0 && n.may != "":
			list = append(list, Caution{n.kind, cautionNames(perhaps) + ": " + n.may, n.source, cautionLines(perhaps)})
		}
	}
	return list
}

// The least that a serving must hold for a caution.
const (
	muchVitaminK  = 50.0 // µg: a bit under half the Daily Value of 120 µg
	someAlcohol   = 0.5  // g, where only extracts bring it
	alcoholicFood = 1.0  // g in 100 g
)

// portion says what the figures for a serving are for.
func (a *Analysis) portion() string {
	if a.Known {
		return "a serving"
	}
	return "the whole recipe"
}

// vitaminK states the vitamin K of a serving where it is much.
func (d *dishView) vitaminK() (Caution, bool) {
	a := d.analysis
	amount := a.Per(fooddata.VitaminK).Low
	if amount < muchVitaminK {
		return Caution{}, false
	}
	about := "about"
	if !a.Complete(fooddata.VitaminK) {
		about = "at least"
	}
	var from []dishFood
	for _, s := range a.Brings(fooddata.VitaminK) {
		if s.Share >= 0.2 {
			from = append(from, newDishFood(s.Line, &a.Lines[s.Line], ""))
		}
	}
	text := fmt.Sprintf("%s %.0f µg in %s, most from %s: with warfarin keep the intake consistent, no sudden change", about, amount, a.portion(), cautionNames(from))
	return Caution{"vitamin K", text, fromVitaminK, cautionLines(from)}, true
}

// alcohol states the alcohol that goes in, and that cooking leaves some.
func (d *dishView) alcohol() (Caution, bool) {
	a := d.analysis
	var drinks, extracts []dishFood
	for _, in := range d.foods {
		strong, weak := false, false
		if !in.food.IsZero() {
			per100, known := in.food.Per100g(fooddata.Alcohol).Value()
			strong = known && per100 >= alcoholicFood
			weak = known && per100 < alcoholicFood && !in.standIn
		}
		said := in.says("alcohol")
		switch {
		case weak, in.says("denies alcohol") == doesContain:
		case said == doesContain:
			drinks = append(drinks, in)
		case strong && in.says("extract") == doesContain:
			extracts = append(extracts, in)
		case strong && !in.standIn && said != lookAlike:
			drinks = append(drinks, in)
		}
	}
	put, left := 0.0, 0.0 // g for a serving; left after cooking, where the analysis took it off
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == Counted {
			per100, _ := l.Food.Per100g(fooddata.Alcohol).Value()
			put += l.Grams.Low * per100 / 100 / a.Servings
			r, _ := l.Has(fooddata.Alcohol)
			left += r.Low / a.Servings
		}
	}
	from := drinks
	if len(drinks) == 0 {
		if put < someAlcohol {
			return Caution{}, false
		}
		from = extracts
	}
	if len(from) == 0 {
		return Caution{}, false
	}
	text := cautionNames(from)
	if put >= 0.05 {
		text += fmt.Sprintf(", %.1f g put in for %s", put, a.portion())
	}
	switch {
	case left < 0.99*put:
		text += fmt.Sprintf("; %.1f g left after cooking", left)
	case len(d.steps) > 0 && !d.told("heat"):
		text += "; the directions do not cook it off"
	default:
		text += "; cooking leaves 85 % off the heat, 40 % after 15 minutes' simmering, 5 % after 2.5 hours"
	}
	return Caution{"alcohol", text + "; ask in pregnancy and with metronidazole or disulfiram", fromRetention, cautionLines(from)}, true
}
