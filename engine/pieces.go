package engine

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// whole gives the grams of one item of the food, by its size.
func (p portioner) whole(t grammar.Term) weight {
	want := t.Size
	if want == "" || want == "thumb" {
		want = p.sizeSaid()
	}
	if p.long > 0 {
		for portion := range p.food.Portions() {
			if strings.Contains(portion.Measure, "inch") {
				g := float64(portion.Grams) / portion.Amount * p.long
				return weight{grams: Range{g, g}, sure: sureMeasure}
			}
		}
	}
	if w, ok := p.measureInWords(t); ok {
		return w
	}
	if part := p.partNamed(); part != "" {
		return weight{why: fmt.Sprintf("no weight is known for a %s of %s", part, p.food.Name()), reason: AskAmount}
	}
	var each []fooddata.Portion
	for portion := range p.food.Portions() {
		if portion.Measure == "each" {
			each = append(each, portion)
		}
	}
	each = p.rightSize(each)
	if kind, ok := p.kindSaid(); ok {
		g := float64(kind.Grams) / kind.Amount
		return weight{grams: Range{g, g}, sure: sureMeasure, assumed: []string{fmt.Sprintf("%s g each", show(g))}}
	}
	if len(each) == 0 {
		return p.anyPiece(t)
	}
	best, bestScore := each[0], math.MinInt
	hasUsual := slices.ContainsFunc(each, func(portion fooddata.Portion) bool {
		return portion.Size == p.usualSize() && !strings.Contains(portion.Source, derived)
	})
	for _, portion := range each {
		score := 2*p.fit(portion) - int(100*p.inchesOff(portion))
		switch {
		case want == "" && strings.Contains(portion.Source, derived):
			score -= 20
		case want == "" && portion.Size == "" && portion.Source == ofUSDA && hasUsual && p.across == 0:
			score += 9 // the table's medium muffin rather than its toaster one
		case portion.Size == want && (want != "" || p.unasked(portion) == ""):
			score += 20
		case want == "" && portion.Size == p.usualSize() && p.across == 0:
			score += 10
		case want != "" && portion.Size == "":
			score += 5
		}
		if score > bestScore {
			best, bestScore = portion, score
		}
	}
	g := float64(best.Grams) / best.Amount
	w := weight{grams: Range{g, g}, sure: sureMeasure}
	size, sized := portionSize(best)
	switch {
	case p.across > 0 && sized && offSize(p.across, size) > nearSize(p.across):
		w.sure = anotherPiece
		w.assumed = []string{fmt.Sprintf("no weight for one of %s inches; %s g each", show(p.across), show(g))}
	case p.across > 0 && sized:
	case want == best.Size && want != "", want == "" && isEgg(p.food) && best.Size == "large":
	case want == "" && best.Size != "":
		w.sure = assumedSize
		w.assumed = []string{fmt.Sprintf("%s, %s g each", best.Size, show(g))}
	case want != "" && best.Size != want:
		w.sure = anotherPiece
		w.assumed = []string{fmt.Sprintf("no weight for %s; %s g each", want, show(g))}
	default:
		w.assumed = []string{fmt.Sprintf("%s g each", show(g))}
	}
	if strings.Contains(best.Source, derived) {
		w.sure = anotherPiece
		w.assumed = []string{fmt.Sprintf("%s, %s g each, derived: %s", best.Size, show(g), best.Source)}
	}
	return w
}

// derived marks the source of a size that was worked out by proportion. It is only
// for a line that says the size, and is shown as such.
const derived = "scaled by"

// ofUSDA is the source of a portion that is the table's and not of our lists.
const ofUSDA = "SR28"

// sizeSaid is a size among the words of the line.
func (p portioner) sizeSaid() string {
	for i, w := range p.words {
		switch w {
		case "extra":
			if i+1 < len(p.words) && p.words[i+1] == "large" {
				return "extra large"
			}
		case "small", "medium", "large", "jumbo", "mini":
			return w
		}
	}
	return ""
}

// kindSaid finds a measure named for a kind of the food that the line names:
// "6 cherry tomatoes" by the tomato's measure "cherry".
func (p portioner) kindSaid() (fooddata.Portion, bool) {
	best, found, bestScore := fooddata.Portion{}, false, 0.0
	for portion := range p.food.Portions() {
		if _, isMeasure := grammar.MeasureNamed(portion.Measure); isMeasure || portion.Measure == "each" || !slices.Contains(p.words, portion.Measure) ||
			slices.Contains(fooddata.Normalise(p.food.Name()), portion.Measure) {
			continue
		}
		score := float64(p.fit(portion)) - 3*p.inchesOff(portion)
		if !found || score > bestScore {
			best, found, bestScore = portion, true, score
		}
	}
	return best, found
}

func isEgg(f fooddata.Food) bool { return strings.HasPrefix(f.Description(), "Egg, ") }

// usualSize is the size a bare count means.
func (p portioner) usualSize() string {
	if isEgg(p.food) {
		return "large"
	}
	return "medium"
}

// partNamed is a word of a name that is a part or a small cut which the food's own
// name does not have and for which no piece of it may stand: a leaf is no stalk. It
// is empty if there is none.
func (p portioner) partNamed() string {
	at := slices.IndexFunc(p.name, func(w string) bool { return smallParts[w] })
	if at < 0 || len(p.name) < 2 || slices.Contains(fooddata.Normalise(p.food.Name()), p.name[at]) {
		return ""
	}
	for portion := range p.food.Portions() {
		if portion.Measure == p.name[at] {
			return ""
		}
	}
	return p.name[at]
}

// smallParts are parts of a plant of which a piece holds several.
var smallParts = wordSet("leaf frond sprig floret petal blossom grating shaving")

// anyPiece weighs an item by a portion that names a piece of the food, such
// as a fillet, a breast or a link.
func (p portioner) anyPiece(t grammar.Term) weight {
	portion, found := p.piece(t)
	if !found {
		return weight{why: "no weight is known for one " + p.food.Name(), reason: AskAmount}
	}
	g := float64(portion.Grams) / portion.Amount
	w := weight{grams: Range{g, g}, sure: anotherPiece, assumed: []string{fmt.Sprintf("%s g each", show(g))}}
	if p.said(portion.Measure) {
		w.sure = assumedSize
	} else {
		w.assumed = []string{fmt.Sprintf("one %s, %s g", strings.TrimSpace(portion.Size+" "+portion.Measure), show(g))}
	}
	return w
}

// piece chooses the portion of one piece: the first, of the size that is said,
// or else the medium one.
func (p portioner) piece(t grammar.Term) (fooddata.Portion, bool) {
	want := t.Size
	if want == "" || want == "thumb" {
		want = p.sizeSaid()
	}
	var best fooddata.Portion
	found, bestScore := false, 0
	for portion := range p.food.Portions() {
		if !pieces[portion.Measure] || !p.said(portion.Measure) && portion.Amount != 1 || found && portion.Measure != best.Measure {
			continue
		}
		score := 0
		switch {
		case want != "" && portion.Size == want:
			score = 20
		case portion.Size == "medium":
			score = 10
		}
		for _, w := range fooddata.Normalise(portion.Detail) {
			switch {
			case !cuts[w]:
			case p.said(w):
				score += 5
			default: // a thin chop, where none is asked for
				score -= 5
			}
		}
		if !found || score > bestScore {
			best, found, bestScore = portion, true, score
		}
	}
	return best, found
}

// cuts are details of a piece that the line must ask for.
var cuts = wordSet("thin thick")

// pieces are portion measures that stand for one piece as a cook counts it.
var pieces = wordSet("head bulb fillet filet breast thigh drumstick wing leg link patty piece slice chop steak roll tortilla muffin cookie cracker biscuit frank frankfurter sausage olive pepper spear stalk leaf sheet bun bagel pita waffle square bar cube pod shrimp scallop oyster clam mussel sardine anchovy stick")

// sameCount are count measures that mean one another.
var sameCount = map[string][]string{
	"rib": {"stalk", "stick"}, "stalk": {"rib", "stick"}, "rasher": {"slice", "strip"}, "strip": {"slice", "rasher"}, "bulb": {"head"}, "head": {"bulb"},
	"packet": {"package", "envelope", "sachet", "pkg"}, "envelope": {"packet", "package"}, "package": {"packet", "envelope"}, "tin": {"can"}, "can": {"tin"},
	"stick": {"stalk", "rib"}, "fillet": {"piece"}, "thumb": {"inch piece"}, "shot": {"jigger"}, "piece": {"each", "slice", "fillet"}, "round": {"slice"}, "sheet": {"slice"},
	"crown": {"head"}, "leaf": {"each"}, "square": {"piece"}, "glass": {"serving"}, "ball": {"each"}, "loaf": {"each"}, "ear": {"each"}, "link": {"each"}, "block": {"package", "each"}, "floret": {"flower"}, "spear": {"each"},
}

// count gives the grams of one clove, slice, can and the like.
func (p portioner) count(t grammar.Term) weight {
	if w, ok := p.stockCube(t); ok {
		return w
	}
	names := append([]string{t.Measure.Name}, sameCount[t.Measure.Name]...)
	for _, name := range names {
		best, bestScore := fooddata.Portion{}, math.MinInt
		for portion := range p.food.Portions() {
			if portion.Measure != name && !(portion.Measure == "each" && portion.Detail == name) || p.ofPart(portion) { // "each, bulb"
				continue
			}
			score := 2 * p.fit(portion)
			switch {
			case portion.Size == t.Size:
				score += 20
			case t.Size == "" && portion.Size == "medium":
				score += 10
			}
			if score > bestScore {
				best, bestScore = portion, score
			}
		}
		if bestScore == math.MinInt {
			continue
		}
		g := float64(best.Grams) / best.Amount
		w := weight{grams: Range{g, g}, sure: sureMeasure, fromCan: t.Measure.Kind == grammar.Container}
		w.net = w.fromCan && !strings.Contains(strings.ToLower(p.food.Description()+best.Detail+best.Source), "drained")
		if name != t.Measure.Name || best.Size != t.Size || t.Measure.Kind == grammar.Container || customary[t.Measure.Name] {
			w.sure = assumedSize
			w.assumed = []string{fmt.Sprintf("one %s is %s g", t.Measure.Name, show(g))}
		}
		return w
	}
	if t.Measure.Kind == grammar.Container {
		w := p.usualCan(t.Measure)
		if w.net {
			p.solidsOf(grammar.Term{Quantity: grammar.Exactly(1, 1), Measure: t.Measure}, &w)
		}
		return w
	}
	switch t.Measure.Name {
	case "handful", "splash", "drizzle", "knob", "drop", "thumb":
		return weight{why: "a " + t.Measure.Name + " has no set weight", reason: Vague}
	}
	return weight{why: fmt.Sprintf("no weight is known for a %s of %s", t.Measure.Name, p.food.Name()), reason: AskAmount}
}

// ofPart reports whether a portion is of a part of the food that another portion
// leaves out: of "package, without flavor packet" and "packet", the packet holds
// the seasoning alone.
func (p portioner) ofPart(portion fooddata.Portion) bool {
	if portion.Source != ofUSDA || portion.Detail != "" {
		return false
	}
	for other := range p.food.Portions() {
		if at := strings.Index(other.Detail, "without "); at >= 0 && slices.Contains(strings.Fields(other.Detail[at:]), portion.Measure) {
			return true
		}
	}
	return false
}
