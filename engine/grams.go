package engine

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// Range is a closed range in the unit of its field; Low equals High for a
// single figure.
type Range struct {
	Low, High float64
}

func (r Range) times(f float64) Range { return Range{r.Low * f, r.High * f} }
func (r Range) plus(o Range) Range    { return Range{r.Low + o.Low, r.High + o.High} }

// weight is the grams found for an amount, and how.
type weight struct {
	grams   Range
	assumed []string // to show
	sure    float64  // 0 to 1
	why     string   // why there is none, in plain words; empty if there is
	reason  Reason
	exact   bool    // said as a weight
	fromCan bool    // from a can
	net     bool    // the net contents of a can, its liquid with them
	solids  float64 // share of a can's contents that was kept; 0 if all
}

// The confidence that each way to grams earns.
const (
	sureWeight   = 1.0
	sureMeasure  = 1.0
	otherDetail  = 0.9 // the food's own measure, of another preparation
	assumedSize  = 0.85
	likeDensity  = 0.7
	borrowedCan  = 0.7
	anotherPiece = 0.75
)

const maxGrams = 100_000 // of one line: more is no kitchen's amount

// portioner turns amounts of one food into grams.
type portioner struct {
	food fooddata.Food
	// solids is what is left when a can is drained, if the food is with its liquid.
	solids fooddata.Food
	head   string   // what it is by its name in the table; a measure that says so too says no more
	name   []string // the words of the line's name of it
	words  []string // all the words of the line that may fit a portion's detail
	about  []string // words of one amount only
	long   float64  // of a piece, in inches; 0 if not told
	across float64  // how large one is, in inches; 0 if not told
	plural bool     // its name is in the plural
	// imperial tells that a pint is the imperial one.
	imperial bool
}

// weigh finds the grams of an item's amount: a weight if one is given, else
// the amount as written, else the same amount said another way.
func (p portioner) weigh(a *grammar.Amount) weight {
	ways := append([]grammar.Amount{*a}, a.Same...)
	for i, way := range ways {
		if !allWeights(way) {
			continue
		}
		w := p.sum(way)
		if w.why == "" && i > 0 {
			w.assumed = append(w.assumed, p.disagreement(ways[0], way, w)...)
		}
		return w
	}
	for _, way := range ways[1:] {
		if metricVolume(way) { // "1 pint (568 ml)" is an imperial pint
			ways = []grammar.Amount{way}
			break
		}
	}
	var first weight
	for i, way := range ways {
		p.about = fooddata.Normalise(strings.Join(way.Words, " "))
		w := p.sum(way)
		if w.why == "" && w.sure >= otherDetail || len(ways) == 1 {
			return w
		}
		if i == 0 || first.why != "" && w.why == "" || w.why == "" && w.sure > first.sure {
			first = w
		}
	}
	return first
}

func allWeights(a grammar.Amount) bool {
	for _, t := range a.Terms {
		if t.Each != nil {
			t = *t.Each
		}
		if t.Measure == nil || t.Measure.Kind != grammar.Weight {
			return false
		}
	}
	return true
}

func metricVolume(a grammar.Amount) bool {
	for _, t := range a.Terms {
		if t.Each != nil || t.Measure == nil || t.Measure.Kind != grammar.Volume {
			return false
		}
		switch t.Measure.Name {
		case "ml", "l", "dl", "cl":
		default:
			return false
		}
	}
	return true
}

// disagreement compares the written weight with the measure beside it.
func (p portioner) disagreement(measured, _ grammar.Amount, w weight) []string {
	if measured.Terms[0].Measure == nil { // "1 eggplant (about 1 1/4 pounds)"
		return nil
	}
	other := p.sum(measured)
	if other.why != "" || other.sure < otherDetail || other.grams.Low == 0 {
		return nil
	}
	if off := w.grams.Low/other.grams.Low - 1; math.Abs(off) > 0.10 {
		return []string{fmt.Sprintf("the weight is used; %s would be %s g, %.0f %% apart", amountText(measured), show(other.grams.Low), math.Abs(off)*100)}
	}
	return nil
}

// amountText writes an amount with its measure in the plural where it should be.
func amountText(a grammar.Amount) string {
	t := a.Terms[0]
	s := t.String()
	if t.Measure != nil && t.Measure.Kind == grammar.Volume && t.Quantity.Low.Cmp(big.NewRat(1, 1)) > 0 {
		return strings.TrimSuffix(s, t.Measure.Name) + plural(t.Measure.Name)
	}
	return s
}

func (p portioner) sum(a grammar.Amount) weight {
	total := weight{sure: 1, exact: true}
	for _, t := range a.Terms {
		w := p.term(t)
		if w.why != "" {
			return w
		}
		total.grams = total.grams.plus(w.grams)
		total.assumed = append(total.assumed, w.assumed...)
		total.sure = min(total.sure, w.sure)
		total.exact = total.exact && w.exact
		total.fromCan = total.fromCan || w.fromCan
		total.net = total.net || w.net
	}
	if total.grams.High > maxGrams {
		return weight{why: fmt.Sprintf("%s kg is more than a kitchen uses: check the amount", show(total.grams.High/1000)), reason: AskAmount}
	}
	return total
}

// quantity returns the ends of q; ok is false unless both are above zero.
func quantity(q grammar.Quantity) (Range, bool) {
	low, _ := q.Low.Float64()
	high, _ := q.High.Float64()
	return Range{low, high}, q.Low.Sign() > 0
}

func ratio(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}

func (p portioner) term(t grammar.Term) weight {
	n, ok := quantity(t.Quantity)
	if !ok {
		return weight{why: "the amount is zero or less", reason: AskAmount}
	}
	if t.Each != nil {
		each := p.term(*t.Each)
		if each.why != "" {
			return each
		}
		each.grams = Range{n.Low * each.grams.Low, n.High * each.grams.High}
		each.fromCan = t.Measure != nil && t.Measure.Kind == grammar.Container
		each.net = each.fromCan && each.exact
		if each.net {
			p.solidsOf(t, &each)
		}
		return each
	}
	var w weight
	switch {
	case t.Measure == nil:
		w = p.whole(t)
	case t.Measure.Kind == grammar.Length:
		perInch := ratio(t.Measure.Amount) / mmPerInch
		g, ok := p.perInch(perInch)
		if !ok {
			return p.sized(n.times(perInch), t.Quantity.String()+"-"+t.Measure.Name)
		}
		w = weight{grams: Range{g, g}, sure: sureMeasure}
	case t.Measure.Kind == grammar.Weight:
		return weight{grams: n.times(ratio(t.Measure.Amount)), sure: sureWeight, exact: true}
	case t.Measure.Kind == grammar.Volume:
		w = p.volume(t.Measure)
		if p.imperial && w.why == "" {
			w = p.imperialVolume(t.Measure, w)
		}
		if t.Measure.Note != "" && w.why == "" {
			w.assumed = append(w.assumed, t.Measure.Note)
		}
	default:
		w = p.count(t)
	}
	w.grams = Range{n.Low * w.grams.Low, n.High * w.grams.High}
	return w
}

// milliLitres of the volume measures that portions use.
func millilitres(measure string) float64 {
	if m, ok := grammar.MeasureNamed(strings.ReplaceAll(measure, " ", "")); ok && m.Kind == grammar.Volume {
		return ratio(m.Amount)
	}
	if m, ok := grammar.MeasureNamed(measure); ok && m.Kind == grammar.Volume {
		return ratio(m.Amount)
	}
	return 0
}

// cups is the food whose cup counts: beans without their liquid fill one as
// boiled beans do.
func (p portioner) cups() fooddata.Food {
	if p.solids.IsZero() {
		return p.food
	}
	return p.solids
}

// asSold scores a portion by whether the food is in it as it is sold, if the
// line tells no other: a cup of walnuts is not one of walnut meal, nor of
// walnuts in their shells, and rather one of halves than of pieces.
func (p portioner) asSold(portion fooddata.Portion) int {
	if p.food.Group() == "Spices and Herbs" { // a spoon of pepper is ground
		return 0
	}
	name := fooddata.Normalise(p.food.Name())
	said, entire, nut := false, true, p.food.Group() == "Nut and Seed Products"
	other, inShell := false, strings.Contains(portion.Detail, "in shell")
	for _, w := range fooddata.Normalise(portion.Detail) {
		said = said || p.said(w)
		other = other || milled[w] && !p.said(w) && !slices.Contains(name, w)
		entire = entire && (isNumber(w) || filler[w] || wholeNut[w])
	}
	switch {
	case other, inShell && !p.said("shell"):
		return -100
	case nut && entire && !said:
		return 15
	}
	return 0
}

// milled are details of a food that is ground.
var milled = wordSet("ground meal flour powder powdered")

// wholeNut are details of a nut that is not cut.
var wholeNut = wordSet("whole half halve shelled kernel nut")

// volume gives the grams of one m of the food.
func (p portioner) volume(m *grammar.Measure) weight {
	ml := ratio(m.Amount)
	best, bestScore := fooddata.Portion{}, math.MinInt
	for portion := range p.cups().Portions() {
		size := millilitres(portion.Measure)
		if size == 0 || tiny[portion.Measure] && portion.Measure != m.Name {
			continue
		}
		score := 10*p.fit(portion) + p.asSold(portion)
		switch {
		case portion.Measure == m.Name && !usual[m.Name]:
			score += 50 // a pint of berries is not two cups of sliced ones
		case portion.Measure == m.Name:
			score += 5
		case spoon(portion.Measure) != spoon(m.Name), usual[m.Name] && !usual[portion.Measure] && portion.Measure != "fl oz":
			score -= 12 // a cup rather sliced than as sixteen rounded spoons or half a pint
		default:
			score += 2
		}
		if score > bestScore {
			best, bestScore = portion, score
		}
	}
	if bestScore > math.MinInt {
		g := float64(best.Grams) * (ml / millilitres(best.Measure) / best.Amount)
		w := weight{grams: Range{g, g}, sure: sureMeasure}
		if extra := p.unasked(best); extra != "" {
			w.sure = otherDetail
			w.assumed = []string{fmt.Sprintf("measured as %s %s", plural(best.Measure), extra)}
		}
		return w
	}
	if density, like, ok := p.food.Density(); ok {
		return weight{grams: Range{ml * density, ml * density}, sure: likeDensity,
			assumed: []string{fmt.Sprintf("weighs %s g a cup, %s", show(density*ratio(cup)), like)}}
	}
	return weight{why: fmt.Sprintf("no weight is known for a %s of %s", m.Name, p.food.Name()), reason: AskAmount}
}

var cup = func() *big.Rat {
	m, _ := grammar.MeasureNamed("cup")
	return m.Amount
}()

// tiny are measures without a standard: none is scaled up to a spoon.
var tiny = wordSet("dash pinch drop smidgen")

// usual are the measures whose portions compete by preparation.
var usual = wordSet("cup tbsp tsp ml l")

func spoon(measure string) bool { return measure == "tsp" || measure == "tbsp" }

// fit scores how a portion's detail answers the words of the line.
func (p portioner) fit(portion fooddata.Portion) int {
	score := 0
	for _, w := range fooddata.Normalise(portion.Detail) {
		switch {
		case isNumber(w) || filler[w] || w == "drained" || w == p.head: // of a small can or a large one
		case p.said(w):
			score += 2
		default:
			score--
		}
	}
	return score
}

var filler = wordSet("leaf package purchased as dia long thick x cup approx about inch to oz in with only or yield each per a g fl")

func isNumber(w string) bool { return w != "" && (w[0] >= '0' && w[0] <= '9') }

// said reports whether the line holds the word, or one that comes to the same.
func (p portioner) said(w string) bool {
	if w == "packed" && (slices.Contains(p.words, "loosely") || slices.Contains(p.words, "lightly")) {
		return false
	}
	if slices.Contains(p.about, w) || slices.Contains(p.words, w) {
		return true
	}
	for _, like := range alike[w] {
		if slices.Contains(p.words, like) || slices.Contains(p.about, like) {
			return true
		}
	}
	return false
}

// alike are preparations that fill a cup alike (common practice, no source).
var alike = map[string][]string{
	"chopped": {"diced", "cubed", "minced", "dice"}, "diced": {"chopped", "cubed", "minced"},
	"sliced": {"slice", "slices", "ringed"}, "slice": {"sliced"}, "shredded": {"grated", "shaved"}, "grated": {"shredded", "shaved"},
	"cubed": {"diced", "chopped", "cube", "chunk"}, "cube": {"diced", "cubed", "chunk"}, "minced": {"chopped", "crushed"}, "mashed": {"pureed"}, "pureed": {"mashed"},
	"halve": {"halved", "half"}, "half": {"halved", "halve"}, "halves": {"halved"}, "whole": {"unchopped"}, "crumbled": {"crumble"}, "piece": {"chopped", "broken"},
	"torn": {"chopped"}, "strip": {"sliced", "julienne"},
}

// unasked is the part of a portion's detail that the line does not say and
// that bears on the weight; empty if all is said.
func (p portioner) unasked(portion fooddata.Portion) string {
	var extra []string
	for _, part := range strings.FieldsFunc(portion.Detail, func(r rune) bool { return r == ';' || r == ',' || r == '(' || r == ')' }) {
		for _, w := range fooddata.Normalise(part) {
			if !isNumber(w) && !filler[w] && !p.said(w) && !idle[w] {
				extra = append(extra, strings.TrimSpace(part))
				break
			}
		}
	}
	return strings.Join(extra, ", ")
}

// idle are details that do not change what a measure holds.
var idle = wordSet("whole unpacked unsifted spooned level solid liquid drained seed seedless pitted shelled kernel meat only uncooked raw dry cooked boneless skinless fruit leaf large egg")

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

// inchesOff is how far the size of a portion in inches is from the size that
// the line says: 0 if the line says none, and a size off if only the portion
// does not.
func (p portioner) inchesOff(portion fooddata.Portion) float64 {
	if p.across == 0 {
		return 0
	}
	if has, ok := portionSize(portion); ok {
		return offSize(p.across, has)
	}
	return 2
}

// ofLength are words for a piece whose length is told.
var ofLength = []string{"piece", "knob", "length", "chunk", "stick"}

// pieceLength is how long the piece is that an item asks for, in inches: "a 2-inch
// piece of ginger". It is 0 if no length is told.
func pieceLength(item grammar.Item, name []string) float64 {
	if !containsAny(name, ofLength) {
		return 0
	}
	for _, said := range slices.Concat(item.Prep, item.Aside) {
		if !strings.Contains(said, "inch") && !strings.Contains(said, "cm") {
			continue
		}
		a := grammar.ParseLine(said + " piece").Items[0].Amount
		if a != nil && a.Terms[0].Measure != nil && a.Terms[0].Measure.Kind == grammar.Length {
			return ratio(a.Terms[0].Quantity.Low) * ratio(a.Terms[0].Measure.Amount) / mmPerInch
		}
	}
	return 0
}

// thinCut reports whether an item says that it is at most half an inch thick:
// "pork chops, 1/2-inch thick".
func thinCut(item grammar.Item) bool {
	for i, said := range slices.Concat(item.Prep, item.Aside) {
		before, thick := strings.CutSuffix(said, "thick")
		if thick && before == "" && i > 0 && i < len(item.Prep) {
			before = item.Prep[i-1]
		}
		if !thick || before == "" {
			continue
		}
		items := grammar.ParseLine(strings.TrimRight(before, "- ") + " piece").Items
		if len(items) == 0 {
			continue
		}
		if a := items[0].Amount; a != nil && a.Terms[0].Measure != nil && a.Terms[0].Measure.Kind == grammar.Length {
			return ratio(a.Terms[0].Quantity.High)*ratio(a.Terms[0].Measure.Amount) <= thin
		}
	}
	return false
}

// thin is how thick a thin chop is at most, in millimetres: half an inch.
const thin = mmPerInch / 2

const mmPerInch = 25.4

func isEgg(f fooddata.Food) bool { return strings.HasPrefix(f.Description(), "Egg, ") }

// usualSize is the size a bare count means.
func (p portioner) usualSize() string {
	if isEgg(p.food) {
		return "large"
	}
	return "medium"
}

// measureInWords finds a count measure standing among the words of the food:
// "4 parsley sprigs", "3 garlic cloves".
func (p portioner) measureInWords(t grammar.Term) (weight, bool) {
	for i := len(p.name) - 1; i >= 0; i-- {
		m, ok := grammar.MeasureNamed(p.name[i])
		if !ok || m.Kind != grammar.Count {
			continue
		}
		t.Measure = m
		if w := p.count(t); w.why == "" {
			return w, true
		}
	}
	return weight{}, false
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

// customary are measures whose weight is only a custom: it is always shown.
var customary = wordSet("handful knob bunch head bulb rack splash drizzle thumb crown glass scoop")

// usualCan assumes the common size of a can whose size is not written: the
// No. 300 can of about 15 oz in the United States, the 400 g tin elsewhere
// (Kansas State University Extension can-size table; the tin: common
// practice, no source). Only plain fruit, vegetables and legumes come so.
func (p portioner) usualCan(m *grammar.Measure) weight {
	switch p.food.Group() {
	case "Vegetables and Vegetable Products", "Legumes and Legume Products", "Fruits and Fruit Juices":
		switch m.Name {
		case "can":
			g := 15 * 28.349523125
			return weight{grams: Range{g, g}, sure: borrowedCan, fromCan: true, net: true, assumed: []string{"a can taken as 15 oz (425 g)"}}
		case "tin":
			return weight{grams: Range{400, 400}, sure: borrowedCan, fromCan: true, net: true, assumed: []string{"a tin taken as 400 g"}}
		}
	}
	return weight{why: fmt.Sprintf("how much is in the %s is not said", m.Name), reason: AskAmount}
}

// show writes a figure for a sentence: no decimals from ten up, one below.
func show(v float64) string {
	switch {
	case v == 0:
		return "0"
	case v >= 9.95:
		return fmt.Sprintf("%.0f", v)
	case v >= 0.995:
		return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
	}
	return strings.TrimRight(fmt.Sprintf("%.2f", v), "0")
}

func plural(measure string) string {
	switch measure {
	case "tsp", "tbsp", "fl oz", "ml", "l":
		return measure
	}
	return measure + "s"
}
