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

func (r Range) plus(o Range) Range { return Range{r.Low + o.Low, r.High + o.High} }

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
