package grammar

import (
	"fmt"
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

var one = rat("1")

// count gives the item an amount; a phrase such as "for the pan" is then
// preparation.
func (i *Item) count(a *Amount) {
	i.Amount = a
	i.Prep = append(i.Prep, strings.Fields(i.Uncounted)...)
	i.Uncounted = ""
}

func isOne(q Quantity) bool { return !q.IsRange() && q.Low.Cmp(one) == 0 }

func isKind(m *Measure, kinds ...Kind) bool { return m != nil && slices.Contains(kinds, m.Kind) }

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

// largeWeight reports a measure that few single things are sold by.
func largeWeight(m *Measure) bool { return m.Name == "kg" || m.Name == "lb" }
