package grammar

import (
	"fmt"
	"slices"
	"strings"
)

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

// prepared reports whether the amount is of the food prepared, not of the
// package ("1 can (about 2 cups drained)").
func prepared(a Amount) bool { return len(a.Words) > 0 || isKind(a.Terms[0].Measure, Volume) }

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
