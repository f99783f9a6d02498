package grammar

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// atom is a part of the line, made ready for reading.
type atom struct {
	word     string // lower case; empty for groups, amounts and marks
	comma    bool   // a comma, or a sign that separates as one does
	mark     bool
	group    *groupNode
	amount   *amountNode
	from, to int // byte offsets in the text
}

// reader turns one ingredient's text into items.
type reader struct {
	text  string
	depth int    // of "or" and "and" already followed
	extra []Item // further foods found in brackets
	notes []string
	fault *Fault
}

// maxDepth bounds the choices within choices that are followed.
const maxDepth = 4

// readItems reads the text of one ingredient, cleaned and without its bullet.
// There is at least one item; the fault is nil unless an amount is impossible.
func readItems(text string, depth int) ([]Item, *Fault) {
	text, note := numberedCan(text)
	if depth == 0 && note == "" {
		text, note = splitFraction(text)
	}
	text = fromCube.ReplaceAllString(text, "${1}made from a cube")
	r := &reader{text: strings.ReplaceAll(text, "\ufffd", " "), depth: depth}
	if at := lostSign.FindStringIndex(text); at != nil {
		r.refuse(&Fault{Column: 1, Part: text[:at[1]], Reason: "has a sign that was lost, perhaps a fraction", Hint: amountHint})
	}
	items := append(r.read(), r.extra...)
	if len(items) == 0 {
		items = []Item{{}}
	}
	if note != "" {
		items[0].Notes = append(items[0].Notes, note)
	}
	for _, note := range append(misreadNotes(text), r.notes...) {
		if !slices.Contains(items[0].Notes, note) {
			items[0].Notes = append(items[0].Notes, note)
		}
	}
	return items, r.fault
}

// canNumbers are the net weights in ounces of the can sizes that older recipes
// name, the middle of the published range (Kansas State University Extension
// can-size table: No. 300 14 to 16 oz, No. 303 16 oz, No. 2 20 oz, No. 2 1/2
// 26 to 30 oz, No. 10 6 lb to 7 lb 5 oz).
var canNumbers = map[string]string{"300": "15", "303": "16", "2": "20", "2 1/2": "28", "2½": "28", "10": "106"}

var numberedCanPattern = regexp.MustCompile(`(?i)(?:#|\bno\. ?)(300|303|2 1/2|2½|2|10)[ -]+(cans?|tins?)\b`)

var runTogether = regexp.MustCompile(`^([1-9lI])([1-7lI]) ?/ ?([2348])\b`)

// splitFraction reads "11/2 cups", a mixed number that lost its space, as
// 1 1/2 and says so; a cook writes no eleven halves.
func splitFraction(text string) (string, string) {
	at := runTogether.FindStringSubmatchIndex(text)
	if at == nil {
		return text, ""
	}
	above, below := misreadDigit.Replace(text[at[4]:at[5]]), text[at[6]:at[7]]
	if above >= below {
		return text, ""
	}
	mixed := misreadDigit.Replace(text[at[2]:at[3]]) + " " + above + "/" + below
	return mixed + text[at[1]:], fmt.Sprintf("%q read as %s", text[:at[1]], mixed)
}

// fromCube finds of how many cubes a stock is made up, which is no second amount:
// "200 ml beef stock made from 1 cube".
var fromCube = regexp.MustCompile(`(?i)(\b(?:stock|broth|bouillon)[ ,]*[ (])(?:made )?(?:up )?(?:from|with|using) (?:1|one|a|½|1/2|half a|2|two) (?:[a-z]+ ){0,2}cubes?\b`)

// numberedCan writes "#303 can" as a can of its net weight, with a note.
func numberedCan(text string) (string, string) {
	if !strings.ContainsAny(text, "#.") {
		return text, ""
	}
	at := numberedCanPattern.FindStringSubmatchIndex(text)
	if at == nil {
		return text, ""
	}
	number, can := text[at[2]:at[3]], text[at[4]:at[5]]
	ounces := canNumbers[number]
	return text[:at[0]] + "(" + ounces + " oz) " + can + text[at[1]:], fmt.Sprintf("a No. %s can taken as %s oz", number, ounces)
}

func (r *reader) read() []Item {
	node := parseNode(r.text)
	return r.readFood(node.Lead, r.atoms(node.Parts))
}

// readFood reads a food from its amount, which may be nil, and from all that
// follows; there may be more foods in that.
func (r *reader) readFood(lead *amountNode, atoms []atom) []Item {
	if lead == nil {
		if items := r.partOf(atoms, nil); items != nil {
			return items
		}
	}
	item := Item{}
	if lead == nil {
		atoms = bareMeasure(&item, atoms)
	} else {
		item.Amount = r.amountOf(lead)
		if bare := lead.Sum.First.Bare; bare != nil && bare.dashedCount() && item.Amount != nil {
			t := item.Amount.Terms[0]
			item.Notes = append(item.Notes, fmt.Sprintf("the dash read as %s of %s each", t.Quantity, t.Each))
		}
		atoms = r.fewOf(lead, &item, atoms)
		if items := r.partOf(atoms, item.Amount); items != nil {
			return items
		}
		if each := skipWord(atoms, "each"); len(each) < len(atoms) && item.Amount != nil {
			if items := r.shareAmount(item, each); items != nil {
				return items
			}
		}
	}
	rest := r.fill(&item, atoms)
	if lead != nil && item.Amount != nil && lead.Sum.First.dashedPieces() && slices.ContainsFunc(item.Words, func(w string) bool { return soldByWeight[w] }) {
		item.Amount = nil // "4-6 oz fillets": four of 6 oz, or some of 4 to 6 oz each
		r.refuse(&Fault{Column: lead.Sum.First.Count.Low.Pos.Column, Part: strings.TrimSpace(r.text[lead.Pos.Offset:min(lead.EndPos.Offset, len(r.text))]),
			Reason: moreThanOneReading, Hint: "write it like \"4 (6 oz) fillets\""})
	}
	r.settle(&item)
	if len(item.Tail) > 0 && slices.Contains(item.Words, "eggs") { // "3 eggs, whites only"
		if first := item.Tail[0]; (first[0] == "whites" || first[0] == "yolks") && item.Words[len(item.Words)-1] == "eggs" {
			item.Words = append(slices.Clone(item.Words), strings.TrimSuffix(first[0], "s"))
		}
	}
	if item.Part == Whole && item.Amount != nil {
		if both := juicedAndZested(&item); both != nil {
			return append(both, rest...)
		}
	}
	return append([]Item{item}, rest...)
}

// soldByWeight are pieces that are told by what one of them weighs.
var soldByWeight = set("fillets filets steaks chops breasts thighs blocks bars portions patties loaves links burgers tenderloins tails bricks logs lobsters roasts racks")

// atoms flattens the parts of a node, with the offsets of each in the text.
func (r *reader) atoms(parts []*partNode) []atom {
	atoms := make([]atom, 0, len(parts))
	for _, p := range parts {
		a := atom{from: p.Pos.Offset, to: p.EndPos.Offset, group: p.Group, amount: p.Amount}
		for a.to > a.from && a.to <= len(r.text) && r.text[a.to-1] == ' ' {
			a.to--
		}
		switch {
		case p.Word != "":
			a.word = strings.ToLower(p.Word)
			if word, misread := misreadWord(a.word); misread {
				r.notes = append(r.notes, fmt.Sprintf("%q read as %s", p.Word, word))
				a.word = word
			}
		case p.Comma != "":
			a.comma = true
		case p.Mark == "&":
			a.word = "and"
		case p.Mark == "+" && a.from > 0 && r.text[a.from-1] == ' ':
			a.word = "plus"
		case p.Mark != "":
			a.mark = true
			a.comma = r.separates(p.Mark, a.from)
		}
		atoms = append(atoms, a)
	}
	return atoms
}

// separates reports whether a mark parts the name from what follows, as a
// comma does: a dash between spaces, a colon, the full stop of a sentence.
func (r *reader) separates(mark string, at int) bool {
	end := at + len(mark)
	spaceAfter := end >= len(r.text) || r.text[end] == ' '
	spaceBefore := at > 0 && r.text[at-1] == ' '
	switch mark {
	case "-", "–", "—":
		return spaceAfter && (spaceBefore || mark != "-")
	case ".":
		return spaceAfter && !r.abbreviated(at)
	case ":", "!", "|":
		return spaceAfter
	}
	return false
}

// abbreviated reports whether the full stop at the offset ends a short word
// and not a sentence: "veg. oil".
func (r *reader) abbreviated(at int) bool {
	word := r.text[strings.LastIndexByte(r.text[:at], ' ')+1 : at]
	next, _ := utf8.DecodeRuneInString(strings.TrimLeft(r.text[at+1:], " "))
	return len(word) <= 4 && unicode.IsLower(next)
}

func (r *reader) amountOf(n *amountNode) *Amount {
	a, fault := n.amount()
	if fault != nil {
		if fault.Reason == moreThanOneReading {
			fault.Part = strings.TrimSpace(r.text[n.Pos.Offset:min(n.EndPos.Offset, len(r.text))])
		}
		r.refuse(fault)
		return nil
	}
	return &a
}

// refuse keeps the first fault of the line.
func (r *reader) refuse(fault *Fault) {
	if r.fault == nil {
		r.fault = fault
	}
}

// slice is the text of atoms.
func (r *reader) slice(atoms []atom) string {
	if len(atoms) == 0 {
		return ""
	}
	return strings.TrimSpace(r.text[atoms[0].from:atoms[len(atoms)-1].to])
}

// fewOf handles "a few", "a couple of": an article is no number there.
func (r *reader) fewOf(lead *amountNode, item *Item, atoms []atom) []atom {
	first := lead.Sum.First
	if first.Count == nil || first.Count.Low.One == "" || first.Unit != "" || first.Package != nil || len(atoms) == 0 {
		return atoms
	}
	switch atoms[0].word {
	case "few", "little", "bit", "lot", "touch", "squeeze", "sprinkling", "sprinkle", "dusting", "swirl", "dollop", "grating", "grind", "scraping":
		item.Amount, item.Uncounted = nil, "a "+atoms[0].word
		return skipWord(atoms[1:], "of")
	case "couple", "pair":
		item.Amount = &Amount{Terms: []Term{{Quantity: Exactly(2, 1)}}}
		return skipWord(atoms[1:], "of")
	}
	return atoms
}

// bareMeasure reads a measure without a number: "pinch of salt".
func bareMeasure(item *Item, atoms []atom) []atom {
	if len(atoms) > 2 && sizes[atoms[0].word] != "" && (atoms[1].word == "handful" || atoms[1].word == "bunch" || atoms[1].word == "knob" || atoms[1].word == "pinch") {
		atoms = atoms[1:]
	}
	if len(atoms) < 2 || atoms[0].word == "" {
		return atoms
	}
	m := measureByWord[atoms[0].word]
	if m == nil || m.Name != atoms[0].word || atoms[1].word == "" {
		return atoms
	}
	if m.Kind != Length && len(atoms) > 3 && atoms[1].word == "and" && (atoms[2].word == "a" || atoms[2].word == "one") && partWords[atoms[3].word] {
		item.Amount = &Amount{Terms: []Term{{Quantity: Exactly(1, 1).and(atoms[3].word), Measure: m}}} // "cup and a half of sugar"
		return atoms[4:]
	}
	switch m.Name {
	case "pinch", "dash", "smidgen", "knob", "handful", "splash", "drizzle", "bunch":
	default:
		if m.Kind == Length || m.Kind == Container || atoms[1].word != "of" {
			return atoms
		}
	}
	item.Amount = &Amount{Terms: []Term{{Quantity: Exactly(1, 1), Measure: m}}}
	return atoms[1:]
}

// partWords are the parts that "and a" may add to an amount.
var partWords = set("half third quarter")

// skipWord drops the words from the front of atoms.
func skipWord(atoms []atom, words ...string) []atom {
	for len(atoms) > 0 && atoms[0].word != "" && slices.Contains(words, atoms[0].word) {
		atoms = atoms[1:]
	}
	return atoms
}

// partOf reads "juice of 1 lemon", "grated zest and juice of 2 limes"; it
// returns nil if the line is not of that form.
func (r *reader) partOf(atoms []atom, lead *Amount) []Item {
	var found []Part
	kind := "" // white or yolk
	for i, a := range atoms {
		switch {
		case a.word == "juice":
			found = append(found, Juice)
		case a.word == "zest" || a.word == "rind" || a.word == "peel":
			found = append(found, Zest)
		case i == 0 && lead == nil && (a.word == "whites" || a.word == "yolks" || a.word == "white" || a.word == "yolk"):
			found = append(found, Whole)
			kind = strings.TrimSuffix(a.word, "s")
		case i == 0 && lead == nil && (a.word == "seeds" || a.word == "leaves" || a.word == "flesh" || a.word == "meat"):
			found = append(found, Whole)
		case a.word == "and" || a.word == "grated" || a.word == "finely" || a.word == "the" || a.word == "fresh" || a.word == "strained" || a.word == "freshly" || a.word == "squeezed":
		case (a.word == "of" || a.word == "from") && len(found) > 0 && i+1 < len(atoms) && r.depth < maxDepth:
			items := r.readRest(r.text[atoms[i+1].from:], atoms[i+1].from)
			var out []Item
			for _, part := range found {
				for _, item := range items {
					item.Part = part
					if kind != "" {
						item.Words = append(slices.Clone(item.Words), kind)
					}
					if lead != nil {
						item.Amount, item.Uncounted = lead, ""
						item.Part = Whole
						item.Words = append(slices.Clone(item.Words), partWord[part])
					}
					out = append(out, item)
				}
			}
			return out
		default:
			return nil
		}
	}
	return nil
}

var partWord = map[Part]string{Juice: "juice", Zest: "zest"}

// juicedAndZested reads "1 lemon, zest and juice" and "2 limes, juiced".
func juicedAndZested(item *Item) []Item {
	has := func(words ...string) bool {
		for i, w := range item.Prep {
			if slices.Contains(words, w) && (i == 0 || item.Prep[i-1] != "with") { // an orange with its peel is whole
				return true
			}
		}
		return false
	}
	juice, zest := has("juice", "juiced", "juice of"), has("zest", "zested", "rind", "peel")
	if item.Amount.Terms[0].Measure != nil || !juice && !zest {
		return nil
	}
	var both []Item
	for part, wanted := range map[Part]bool{Juice: juice, Zest: zest} {
		if wanted {
			one := *item
			one.Part = part
			both = append(both, one)
		}
	}
	slices.SortFunc(both, func(a, b Item) int { return int(a.Part) - int(b.Part) })
	return both
}

// shareAmount reads "1 tsp each salt, cumin and pepper": one item a name.
func (r *reader) shareAmount(item Item, atoms []atom) []Item {
	atoms = skipWord(atoms, "of")
	var names [][]atom
	start := 0
	cut := func(end int) {
		if end > start {
			names = append(names, atoms[start:end])
		}
		start = end + 1
	}
	for i, a := range atoms {
		if a.comma || a.word == "and" || a.word == "plus" {
			cut(i)
		}
	}
	cut(len(atoms))
	var items []Item
	for _, name := range names {
		if !hasFood(name) && len(items) > 0 { // "…, chopped"
			for i := range items {
				items[i].Prep = append(items[i].Prep, words(name)...)
			}
			continue
		}
		one := Item{Amount: item.Amount}
		r.fill(&one, name)
		r.settle(&one)
		items = append(items, one)
	}
	for i := range items[:max(0, len(items)-1)] {
		items[i].Shares = items[len(items)-1].Words
	}
	return items
}

// words returns the words among atoms.
func words(atoms []atom) []string {
	var ws []string
	for _, a := range atoms {
		if a.word != "" {
			ws = append(ws, a.word)
		}
	}
	return ws
}

// hasFood reports whether atoms hold a word that is not preparation.
func hasFood(atoms []atom) bool {
	for _, a := range atoms {
		if a.word != "" && !IsPreparation(a.word) && !stop[a.word] {
			return true
		}
	}
	return false
}

// stop are words that carry nothing by themselves.
var stop = set("and or of the a an to for with in into at from by if on as about each per such like")

// fill reads the food, its preparation and its remarks from atoms into item,
// and returns further items of the same line ("1 egg plus 2 egg whites").
func (r *reader) fill(item *Item, atoms []atom) []Item {
	atoms = skipWord(atoms, "of")
	for start := 0; start <= len(atoms); {
		end := start
		for end < len(atoms) && !atoms[end].comma {
			end++
		}
		if more, done := r.segment(item, atoms[start:end], atoms[end:]); done {
			return more
		}
		start = end + 1
	}
	return nil
}

// segment reads what stands between two commas. Where another food begins it
// reads what is left of the line too; the line is then done.
func (r *reader) segment(item *Item, seg, left []atom) (more []Item, done bool) {
	if len(seg) == 0 {
		return nil, false
	}
	before := len(item.Prep)
	defer func() {
		if len(item.Prep) > before {
			item.Tail = append(item.Tail, slices.Clone(item.Prep[before:]))
		}
	}()
	naming := !named(item.Words) && len(item.Or) == 0
	if beside, ok := r.aside(seg); ok {
		r.addAmount(item, beside)
		return nil, false
	}
	if !naming && seg[0].amount != nil && !isLength(seg[0].amount) && hasFood(seg[1:]) {
		return r.another(item, slices.Concat(seg, left)), true // "2 eggs, 100 g flour"
	}
	for i := 0; i < len(seg); i++ {
		a, rest := seg[i], seg[i+1:]
		switch {
		case a.group != nil:
			r.bracket(item, a)
		case a.amount != nil:
			i += r.innerAmount(item, a, rest, naming)
		case a.word == "":
			if isSlash(r.text, a) && naming && len(item.Words) > 0 && len(rest) > 0 && rest[0].word != "" {
				if rest[0].word == "or" { // and/or
					item.Words, rest = withoutAnd(item.Words), rest[1:]
				}
				r.choice(item, rest)
				return nil, false
			}
		case a.word == "optional":
			item.Optional = true
		case a.word == "divided":
			item.Prep = append(item.Prep, a.word)
		case a.word == "or":
			item.Words = withoutAnd(item.Words)
			if r.orElse(item, rest, naming, i == 0) {
				return nil, false
			}
			item.Prep = append(item.Prep, "or")
		case (a.word == "plus" || a.word == "and" || a.word == "with") && startsWith(rest, "more", "extra", "additional", "some"):
			item.More = r.slice(seg[i:])
			return nil, false
		case a.word == "extra" && startsWith(rest, "for", "to"):
			item.More = r.slice(seg[i:])
			return nil, false
		case (a.word == "and" || a.word == "plus" || a.word == "with" && len(rest) > 0 && withMeasure(rest[0].amount)) && (!naming && i == 0 || naming && (named(item.Words) || len(item.Words) == 0 && item.Amount != nil)) && len(rest) > 0 && rest[0].amount != nil:
			return r.another(item, slices.Concat(rest, left)), true
		case a.word == "such" && startsWith(rest, "as"), a.word == "like" && naming, a.word == "preferably", a.word == "ideally", a.word == "try":
			item.Aside = append(item.Aside, r.slice(seg[i:]))
			return nil, false
		case r.uncounted(item, seg[i:]):
			for _, later := range rest {
				if later.group != nil {
					r.bracket(item, later)
				}
			}
			return nil, false
		case naming && named(item.Words) && mixing[a.word] && startsWith(rest, "with", "in", "into"):
			if with := words(seg[i:]); !slices.Contains(with, "water") && slices.ContainsFunc(rest, func(a atom) bool { return a.amount != nil && !isLength(a.amount) }) {
				item.Notes = append(item.Notes, fmt.Sprintf("not read: %q", r.slice(seg[i:])))
			}
			item.Prep = append(item.Prep, words(seg[i:])...)
			return nil, false
		case naming && named(item.Words) && (a.word == "with" || a.word == "without" || a.word == "in") && len(rest) > 0 && rest[0].amount == nil:
			naming = false // "tomatoes in juice", "thighs without skin"
			item.Prep = append(item.Prep, a.word)
		case naming && named(item.Words) && (a.word == "cut" && startsWith(rest, "into", "in", "to", "up", "on", "from", "crosswise", "lengthwise", "diagonally", "thin", "thick") || a.word == "at" || a.word == "about" || a.word == "each" || a.word == "per"):
			naming = false
			item.Prep = append(item.Prep, a.word)
		case naming:
			item.Words = append(item.Words, a.word)
		default:
			item.Prep = append(item.Prep, a.word)
		}
	}
	return nil, false
}

// mixing are words after which another food may stand that is not counted:
// "cornstarch mixed with 2 tbsp cold water".
var mixing = set("mixed dissolved slaked blended stirred combined whisked soaked")

func isLength(n *amountNode) bool {
	m, ok := MeasureNamed(n.Sum.First.Unit)
	return ok && m.Kind == Length
}

// withMeasure reports an amount with a volume or a weight.
func withMeasure(n *amountNode) bool {
	if n == nil {
		return false
	}
	m, ok := MeasureNamed(n.Sum.First.Unit)
	return ok && isKind(m, Volume, Weight)
}

// withoutAnd drops an "and" from the end of words.
func withoutAnd(words []string) []string {
	if len(words) > 0 && words[len(words)-1] == "and" {
		return words[:len(words)-1]
	}
	return words
}

func startsWith(atoms []atom, words ...string) bool {
	return len(atoms) > 0 && slices.Contains(words, atoms[0].word)
}

func isSlash(text string, a atom) bool { return a.to > a.from && text[a.from] == '/' }

// named reports whether words hold more than what may stand before a name.
func named(words []string) bool {
	for _, w := range words {
		if !leadingPreparation[w] && !IsPreparation(w) && !stop[w] {
			return true
		}
	}
	return false
}

// another reads a second food after "and" or "plus". Where it names none
// ("2 tbsp oil plus 1 tsp for the pan") its amount is added to the first.
func (r *reader) another(item *Item, rest []atom) []Item {
	items := r.readFood(rest[0].amount, rest[1:])
	first := &items[0]
	white := len(first.Words) > 0 && first.Words[0] == "white" // "2 eggs plus 1 white"
	other := white || named(first.Words)
	if other && len(item.Words) > 0 || item.Amount == nil || first.Amount == nil {
		return items
	}
	sum, ok := item.Amount.plus(*first.Amount)
	switch {
	case !ok:
		return items
	case other: // "1 cup (240 ml) plus 2 tbsp flour"
		first.Notes = append(item.Notes, first.Notes...)
		*item = *first
	default:
		item.Prep = append(append(item.Prep, first.Words...), first.Prep...)
		item.Aside = append(item.Aside, first.Aside...)
		if first.More != "" {
			item.More = first.More
		}
	}
	item.Amount = &sum
	return items[1:]
}

// readRest reads the items of a part of the text, which begins at an offset.
func (r *reader) readRest(part string, from int) []Item {
	items, fault := readItems(part, r.depth+1)
	if fault != nil && r.fault == nil {
		fault.Column += utf8.RuneCountInString(r.text[:from])
		r.fault = fault
	}
	return items
}

// orElse reads what follows "or"; it reports false if that is no other food.
func (r *reader) orElse(item *Item, rest []atom, naming, first bool) bool {
	if len(rest) == 0 || startsWith(rest, "more", "less", "to", "as", "so", "until", "other", "any", "use", "if") && rest[0].word != "use" {
		return len(rest) > 0 && startsWith(rest, "to", "as") && r.uncounted(item, rest) || len(rest) == 0
	}
	if naming && len(item.Words) == 0 { // "or" before any food: read over
		return false
	}
	if !naming && !first {
		return false
	}
	if !hasFood(rest) && rest[0].amount == nil {
		return false
	}
	r.choice(item, rest)
	return true
}

// choice adds the other choice that atoms describe.
func (r *reader) choice(item *Item, atoms []atom) {
	if len(atoms) == 0 || r.depth >= maxDepth {
		return
	}
	atoms = skipWord(atoms, "substitute", "use", "about", "the", "try", "an", "equal", "amount", "of", "with")
	if len(atoms) == 0 {
		return
	}
	for _, other := range r.readRest(r.slice(atoms), atoms[0].from) {
		if len(other.Words) == 0 {
			continue
		}
		if other.Amount == nil {
			said := other.Uncounted
			other.Amount, other.Uncounted = item.Amount, item.Uncounted
			if other.Amount != nil && (strings.HasPrefix(said, "for ") || strings.HasPrefix(said, "to ")) { // "2 cups peanut or vegetable oil for frying"
				other.Prep = append(other.Prep, strings.Fields(said)...)
			}
		}
		if len(item.Or) == 0 {
			item.Shares = other.Words
			if other.Amount != item.Amount && named(item.Words) { // its state is that of its own amount: "1 cup beans or 3 cups home-cooked"
				item.Shares = slices.DeleteFunc(slices.Clone(other.Words), ownState)
			}
		}
		item.Optional = item.Optional || other.Optional
		item.Or = append(item.Or, other)
	}
}

// ownState reports a word that tells the state of the food with whose amount it
// stands.
func ownState(word string) bool {
	return stateWords[word] || strings.HasSuffix(word, "-cooked") || word == "prepared" || word == "leftover"
}

// bracket reads a bracketed remark.
func (r *reader) bracket(item *Item, a atom) {
	inner := r.atoms(a.group.Parts)
	switch {
	case len(inner) == 0:
	case inner[0].word == "optional":
		item.Optional = true
	case inner[0].word == "or" && r.uncounted(item, inner[1:]): // "(or to taste)"
	case onlyPart(inner): // "1 lemon (zest and juice)"
		item.Prep = append(item.Prep, words(inner)...)
	case inner[0].word == "or" && len(inner) > 1:
		var upto int
		for upto = 1; upto < len(inner) && !(inner[upto].mark && inner[upto].comma); upto++ {
		}
		if hasFood(inner[1:upto]) {
			shares := item.Shares
			r.choice(item, inner[1:upto])
			item.Shares = shares // a choice in brackets completes no name before them
		}
	case (inner[0].word == "and" || inner[0].word == "plus") && r.alsoFood(inner):
	default:
		if beside, ok := r.aside(inner); ok {
			r.addAmount(item, beside)
			return
		}
		if r.asides(item, inner) || r.uncounted(item, inner) {
			return
		}
		measured := slices.ContainsFunc(inner, func(a atom) bool { return a.amount != nil })
		for _, w := range words(inner) {
			switch {
			case w == "optional":
				item.Optional = true
			case stateWords[w] && !measured: // but not "(9 cups cooked)"
				item.Prep = append(item.Prep, w)
			}
		}
		if slices.ContainsFunc(inner, func(a atom) bool { return withMeasure(a.amount) }) && !allWeights(item.Amount) && !startsWith(inner, "reserve", "reserved", "reserving", "plus", "keep", "save") {
			item.Notes = append(item.Notes, fmt.Sprintf("not read: %q", r.slice(inner)))
		}
		item.Aside = append(item.Aside, r.slice(inner))
	}
}

// allWeights reports an amount that is told by weight.
func allWeights(a *Amount) bool {
	return a != nil && !slices.ContainsFunc(a.Terms, func(t Term) bool {
		return !isKind(t.Measure, Weight) && (t.Each == nil || !isKind(t.Each.Measure, Weight))
	})
}

// onlyPart reports whether atoms name the juice or the zest and nothing else.
func onlyPart(atoms []atom) bool {
	if slices.ContainsFunc(atoms, func(a atom) bool { return a.amount != nil }) {
		return false
	}
	named := words(atoms)
	return len(named) > 0 && !slices.ContainsFunc(named, func(w string) bool { return !partNames[w] })
}

var partNames = set("juice juiced zest zested rind and grated finely only")

// alsoFood reads another food in brackets with an amount of its own: "1 lemon,
// zested (and squeezed for 2 tbsp lemon juice)". It reports false if there is
// none.
func (r *reader) alsoFood(inner []atom) bool {
	for i, a := range inner {
		if a.amount == nil || a.amount.Sum.First.Unit == "" || !hasFood(inner[i+1:]) || r.depth >= maxDepth {
			continue
		}
		items := r.readRest(r.slice(inner[i:]), inner[i].from)
		if len(items[0].Words) == 0 {
			return false
		}
		r.extra = append(r.extra, items...)
		return true
	}
	return false
}

// stateWords are the remarks in brackets that bear on the food's figures.
var stateWords = set("drained undrained rinsed cooked raw uncooked canned tinned frozen thawed dried dry fresh packed peeled",
	"unpeeled boneless skinless bone-in sifted chopped sliced diced grated shredded melted juiced")

// beside is an amount that stands beside the food, and what is said of it.
type beside struct {
	Amount
	text  string
	label bool // told as the drained weight
	about bool // an estimate, or what it makes
	each  bool // said to be of one piece
	all   bool // said to be of all of them
	joint bool // written as an adjective: "6-ounce"
}

// aside reads a segment or bracket that holds an amount and little else:
// "about 1 lb", "3 oz each", "1 1/2 cups sliced".
func (r *reader) aside(atoms []atom) (beside, bool) {
	var amount *Amount
	var b beside
	var prep []string
	for i := 0; i < len(atoms); i++ {
		a := atoms[i]
		switch {
		case a.amount != nil && amount == nil:
			first := a.amount.Sum.First
			if first.unitless() && first.Size == "" {
				return beside{}, false
			}
			if amount = r.amountOf(a.amount); amount == nil {
				return beside{}, false
			}
			if m := amount.Terms[0].Measure; m != nil && m.Kind == Length {
				return beside{}, false
			}
		case hedges[a.word]:
			b.about = true
		case a.word == "or":
		case a.word == "total" || a.word == "altogether" || amount != nil && a.word == "all":
			b.all = true
		case amount == nil && (a.word == "to" && startsWith(atoms[i+1:], "make") || a.word == "make" || a.word == "makes" || a.word == "weighing" || a.word == "yields"):
			b.about = true
		case amount == nil && (a.word == "drained" || a.word == "net") && startsWith(atoms[i+1:], "weight"), amount == nil && a.word == "weight" && i > 0:
			if a.word == "drained" {
				prep = append(prep, a.word)
			}
		case amount == nil && a.word == "drained" && i+1 < len(atoms) && atoms[i+1].amount != nil: // "drained 240 g"
			prep, b.label = append(prep, a.word), true
		case amount != nil && (a.word == "each" || a.word == "apiece"):
			b.each = true
		case amount != nil && (a.word == "in" || a.word == "weight" || a.word == "net" || a.word == "size" || a.word == "piece" || a.word == "pieces" || a.word == "whole"):
		case amount != nil && a.word != "" && IsPreparation(a.word):
			prep = append(prep, a.word)
		default:
			return beside{}, false
		}
	}
	if amount == nil {
		return beside{}, false
	}
	b.Amount, b.Words = *amount, prep
	b.text, b.joint = r.slice(atoms), hyphened(r.text, atoms)
	return b, true
}

var one = rat("1")

// hyphened reports whether the amount is written as an adjective: "6-ounce".
func hyphened(text string, atoms []atom) bool {
	s := text[atoms[0].from:atoms[len(atoms)-1].to]
	for i := 1; i+1 < len(s); i++ {
		if s[i] == '-' && isDigit(rune(s[i-1])) && s[i+1] >= 'a' {
			return true
		}
	}
	return false
}

// addAmount joins an amount found beside the food to what is known: what one
// package holds, what one piece weighs, the same amount said otherwise, or,
// where the line began without one, the amount itself.
//
// Where the line does not say whose the amount is, a container's is that of
// one, and so is one written as an adjective or between the count and the
// name ("4 (6-ounce) fillets", "4 (6 oz) fillets"); else it is that of all.
func (r *reader) addAmount(item *Item, b beside) {
	weight := isKind(b.Terms[0].Measure, Weight)
	if item.Amount == nil {
		if b.each && weight { // of how many is not said
			item.Aside = append(item.Aside, b.text)
			return
		}
		item.Prep = append(item.Prep, b.Words...)
		b.Words = nil
		item.count(&b.Amount)
		return
	}
	lead := *item.Amount
	lead.Terms, lead.Same = slices.Clone(lead.Terms), slices.Clone(lead.Same)
	t := &lead.Terms[0]
	container := isKind(t.Measure, Container)
	countable := (t.Measure == nil || t.Measure.Kind == Count || container) && len(lead.Terms) == 1 && t.Each == nil
	several := t.Quantity.High.Cmp(one) > 0
	before := t.Measure == nil && t.Size == "" && len(item.Words) == 0 && weight && !isOne(t.Quantity)
	declared := container && weight && !b.about && (b.label || strings.Contains(strings.ToLower(b.text), "weight")) // on the label: "drained weight 112 g"
	if container && weight && !b.about && slices.Contains(b.Words, "drained") {
		if t.Each != nil && lighter(b.Terms[0], *t.Each) { // "(400 g, 240 g drained)", "(400 g) (drained weight 240 g)"
			r.drainedTo(item, lead, b)
			return
		}
		if len(b.Same) == 1 && len(b.Terms) == 1 && t.Each == nil && len(b.Same[0].Terms) == 1 && lighter(b.Same[0].Terms[0], b.Terms[0]) { // "(400 g, 240 g drained)", "(400g/240g drained)"
			b.Amount = b.Same[0]
			r.drainedTo(item, lead, b)
			return
		}
		if !declared && t.Each == nil && !slices.Contains(item.Prep, "drained") {
			item.Prep = append(item.Prep, "drained") // "1 can (15 oz drained)"
		}
	}
	ofOne := b.each || !b.all && (container && (!prepared(b.Amount) || declared) || !b.about && (b.joint || before))
	if declared && t.Each != nil && slices.Contains(b.Words, "drained") && !slices.Contains(item.Prep, "drained") {
		item.Prep = append(item.Prep, "drained")
		item.Notes = append(item.Notes, "counted drained, because its drained weight is told")
	}
	doubtful := several && weight && !b.each && !b.all && !b.about && !b.joint && (!container || prepared(b.Amount))
	switch {
	case ofOne && countable && (weight || isKind(b.Terms[0].Measure, Volume)) && len(b.Terms) == 1:
		t.Each = &b.Terms[0]
		if slices.Contains(b.Words, "drained") { // "(112 g drained weight each)"
			item.Aside = append(item.Aside, b.text)
		}
		if doubtful {
			item.Notes = append(item.Notes, "("+b.text+") read as the weight of each")
		}
	case declared && t.Each != nil && t.Each.String() == b.Terms[0].String(): // told already: "2 (112 g) tins tuna (drained weight 112 g)"
		item.Aside = append(item.Aside, b.text)
		return
	case b.each || b.joint: // of one portion: "12 oz fish, cut into 4 portions (3 oz each)"
		item.Aside = append(item.Aside, b.text)
		return
	default:
		lead.sayAgain(b.Amount)
		if doubtful && countable {
			item.Notes = append(item.Notes, "("+b.text+") read as the weight of all together")
		}
	}
	item.Amount = &lead
}

// count gives the item an amount; a phrase such as "for the pan" is then
// preparation.
func (i *Item) count(a *Amount) {
	i.Amount = a
	i.Prep = append(i.Prep, strings.Fields(i.Uncounted)...)
	i.Uncounted = ""
}

// prepared reports whether the amount is of the food prepared, not of the
// package ("1 can (about 2 cups drained)").
func prepared(a Amount) bool { return len(a.Words) > 0 || isKind(a.Terms[0].Measure, Volume) }

func isOne(q Quantity) bool { return !q.IsRange() && q.Low.Cmp(one) == 0 }

func isKind(m *Measure, kinds ...Kind) bool { return m != nil && slices.Contains(kinds, m.Kind) }

// innerAmount reads an amount that stands inside a segment. It returns how
// many of the atoms that follow it are used up.
func (r *reader) innerAmount(item *Item, a atom, rest []atom, naming bool) int {
	first := a.amount.Sum.First
	unitless := first.unitless() && len(a.amount.Sum.More) == 0
	text := strings.ToLower(r.slice([]atom{a}))
	amount := r.amountOf(a.amount)
	if amount == nil {
		return 0
	}
	length := amount.Terms[0].Measure != nil && amount.Terms[0].Measure.Kind == Length
	switch {
	case r.strokeBefore(a) && len(item.Words) == 0 && (item.Amount == nil || item.Amount.Terms[0].Measure == nil): // "/2 cup", "1 // 2 cup": half a fraction
		item.Amount = nil
		r.refuse(&Fault{Column: 1, Part: strings.TrimSpace(r.text[:a.to]), Reason: moreThanOneReading, Hint: amountHint})
	case !unitless && item.Amount != nil && len(item.Words) == 0 && doubled(item.Amount, a.amount, amount): // "1, 5 cups", "1..5 cups"
		item.Amount = nil
		r.refuse(&Fault{Column: 1, Part: strings.TrimSpace(r.text[:a.to]), Reason: moreThanOneReading, Hint: amountHint})
	case length:
		item.Prep = append(item.Prep, strings.ReplaceAll(text, " ", "-"))
	case item.Amount == nil && (!unitless || len(rest) == 0):
		item.count(amount) // "plain flour 200 g", "eggs x 6"
		if startsWith(rest, "each") {
			return 1
		}
	case unitless && naming:
		item.Words = append(item.Words, strings.Fields(strings.TrimRight(text, "-"))...) // "5 spice", "00 flour"
	case !unitless && naming && !named(item.Words) && item.Amount != nil:
		r.addAmount(item, beside{Amount: *amount, text: text, each: true}) // "1 can 14 oz tomatoes"
	case !unitless && item.Amount != nil && len(rest) == 0 && isKind(amount.Terms[0].Measure, Weight, Volume) && !beforeNumber[lastWord(item)]:
		r.addAmount(item, beside{Amount: *amount, text: text}) // "2 cups flour 250 g"
	default:
		r.leftOver(item, a, rest)
		item.Prep = append(item.Prep, strings.Fields(text)...)
	}
	return 0
}

// leftOver tells of a number that the reading makes nothing of, unless it tells
// into how many pieces the food is cut, or how long or how hot something takes.
func (r *reader) leftOver(item *Item, a atom, rest []atom) {
	if beforeNumber[lastWord(item)] || len(rest) > 0 && (afterNumber[rest[0].word] || strings.HasPrefix(r.text[a.to:], "°") || strings.HasPrefix(r.text[a.to:], " °")) {
		return
	}
	upto := 0
	for upto < len(rest) && upto < 2 && rest[upto].word != "" {
		upto++
	}
	item.Notes = append(item.Notes, fmt.Sprintf("not read: %q", r.slice(append([]atom{a}, rest[:upto]...))))
}

// lastWord is the word that was read last.
func lastWord(item *Item) string {
	switch {
	case len(item.Prep) > 0:
		return item.Prep[len(item.Prep)-1]
	case len(item.Words) > 0:
		return item.Words[len(item.Words)-1]
	}
	return ""
}

// beforeNumber and afterNumber are words beside a number that is no amount.
var (
	beforeNumber = set("cut into in to the about of for at by from or approx another last first until each per no no. number size step page than weighing makes make yield yields")
	afterNumber  = set("minute minutes min mins hour hours hr hrs day days night nights second seconds pieces piece wedges parts part degrees slices chunks cubes strips portions halves quarters rounds",
		"times time f c percent each servings serving people person layers sections lengths spears long wide thick")
)

// strokeBefore reports whether an amount follows the stroke of a fraction.
func (r *reader) strokeBefore(a atom) bool {
	return strings.HasSuffix(strings.TrimRight(r.text[:a.from], " "), "/")
}

// doubled reports whether a bare number is followed by a plain volume, or by
// kilograms or pounds: not how much each of them holds, but one number in two
// pieces.
func doubled(lead *Amount, n *amountNode, amount *Amount) bool {
	t, next := lead.Terms[0], amount.Terms[0].Measure
	if len(lead.Terms) > 1 || t.Measure != nil || t.Size != "" || t.Each != nil || n.Sum.First.Package != nil || n.Sum.First.Bare != nil {
		return false
	}
	return next != nil && (next.Kind == Volume || largeWeight(next))
}

// largeWeight reports a measure that few single things are sold by.
func largeWeight(m *Measure) bool { return m.Name == "kg" || m.Name == "lb" }

// uncounted finds a phrase such as "to taste" or "for frying" at the front of
// atoms. With an amount written the phrase changes nothing and is kept as
// preparation.
func (r *reader) uncounted(item *Item, atoms []atom) bool {
	if len(atoms) < 2 || atoms[0].word == "" || !phraseStart[atoms[0].word] {
		return false
	}
	said := strings.Join(words(atoms), " ")
	for _, phrase := range notCounted {
		if said == phrase || strings.HasPrefix(said, phrase+" ") || strings.HasSuffix(phrase, " the pan") && strings.HasPrefix(said, "for the ") {
			if item.Amount == nil {
				item.Uncounted = phrase
			} else {
				item.Prep = append(item.Prep, words(atoms)...)
			}
			return true
		}
	}
	return false
}

var phraseStart = func() map[string]bool {
	s := make(map[string]bool)
	for _, p := range notCounted {
		s[strings.Fields(p)[0]] = true
	}
	return s
}()

// settle gives a reason to an item without an amount, tidies the words, and
// gives the amount to the choices that have none of their own.
func (r *reader) settle(item *Item) {
	if item.Amount == nil {
		if item.Uncounted == "" {
			item.Uncounted = "no amount"
			if len(item.Words) > 0 && (item.Words[0] == "some" || item.Words[0] == "several" || item.Words[0] == "few") {
				item.Uncounted, item.Words = item.Words[0], item.Words[1:]
			}
		}
	} else {
		r.settleAmount(item)
	}
	item.lend()
}

// lend gives the amount, or the reason for none, to the choices without one.
func (i *Item) lend() {
	for k := range i.Or {
		or := &i.Or[k]
		if or.Amount == nil && (or.Uncounted == "" || or.Uncounted == "no amount") {
			or.Amount, or.Uncounted = i.Amount, i.Uncounted
		}
		or.lend()
	}
}

func (r *reader) settleAmount(item *Item) {
	t := &item.Amount.Terms[0]
	if n := len(item.Words); n > 3 && item.Words[n-3] == "and" && item.Words[n-2] == "a" && partWords[item.Words[n-1]] && len(item.Amount.Terms) == 1 { // "1 onion and a half"
		t.Quantity, item.Words = t.Quantity.and(item.Words[n-1]), item.Words[:n-3]
	}
	if t.Heaped {
		item.Notes = append(item.Notes, "a heaped measure read as level")
	}
	if len(item.Words) == 0 && t.Measure != nil && t.Measure.Kind == Count && t.Each == nil {
		item.Words = []string{t.Measure.Name} // "4 cloves": the food bears the measure's name
		t.Measure = nil
	}
	if len(item.Words) > 1 && isKind(measureByWord[item.Words[0]], Container) && measureByWord[item.Words[0]].Name == item.Words[0] && len(item.Amount.Same) == 0 {
		if holds, ok := inOne(item.Amount.Terms); ok { // "1 lb 4 oz can pineapple"
			item.Amount = &Amount{Terms: []Term{{Quantity: Exactly(1, 1), Measure: measureByWord[item.Words[0]], Each: &holds}}}
			item.Words = item.Words[1:]
			t = &item.Amount.Terms[0]
		}
	}
	if m := t.Measure; m != nil && m.Kind == Length { // "1-inch piece ginger"
		item.Prep = append(item.Prep, t.Quantity.String()+"-"+m.Name)
		if len(item.Words) > 0 && (item.Words[0] == "piece" || item.Words[0] == "knob" || item.Words[0] == "stick" || item.Words[0] == "length" || item.Words[0] == "cube") {
			item.Words = trimOf(item.Words[1:])
		}
	}
	item.Words = trimOf(item.Words)
}

// inOne adds weights up to one term, in the measure of the last.
func inOne(terms []Term) (Term, bool) {
	sum := Term{Quantity: Exactly(0, 1), Measure: terms[len(terms)-1].Measure}
	for _, t := range terms {
		if !isKind(t.Measure, Weight) || t.Each != nil || t.Quantity.IsRange() {
			return Term{}, false
		}
		q := t.Quantity.Times(new(big.Rat).Quo(t.Measure.Amount, sum.Measure.Amount))
		total := new(big.Rat).Add(sum.Quantity.Low, q.Low)
		if !readable(total) {
			return Term{}, false
		}
		sum.Quantity = Quantity{total, total}
	}
	return sum, true
}

func trimOf(words []string) []string {
	for len(words) > 0 && (words[0] == "of" || words[0] == "the") {
		words = words[1:]
	}
	return words
}
