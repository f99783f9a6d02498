package engine

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"

	"pottle/grammar"
)

// MaxPanText is the most bytes of the words for a pan.
const MaxPanText = 100

// ParsePan reads a pan as it is said: "8x8", "9 x 13 inch", "9-inch round",
// "23 cm round", "two 8-inch rounds", "loaf pan", "12 muffin cups", "12-cup
// ring pan". What is not said is taken as usual and told in Assumed. Sizes
// without a unit are inches, but from 18 up centimetres unless they are a
// sheet's. The error says in plain words what is missing or absurd.
func ParsePan(words string) (Pan, error) {
	text := strings.Join(strings.Fields(panSigns.Replace(strings.ToLower(words))), " ")
	switch {
	case len(words) > MaxPanText:
		return Pan{}, fmt.Errorf("that is too long for a pan: say it like %q", "9 x 13 inch")
	case text == "":
		return Pan{}, fmt.Errorf("no pan is named: say it like %q or %q", "8x8", "9-inch round")
	case negativeSize.MatchString(text):
		return Pan{}, fmt.Errorf("%q: a pan's size must be above zero", words)
	}
	r := panReader{typed: words, count: 1}
	if err := r.sort(text); err != nil {
		return Pan{}, err
	}
	return r.read()
}

// panSigns puts the signs of sizes in plain ones.
var panSigns = strings.NewReplacer("#", " ", "½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3", "×", "x", "″", "\"", "”", "\"", "“", "\"", "''", "\"", "–", "-", "—", "-", "⁄", "/")

const (
	panNumber = `(?:\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?|\d+/\d+|\.\d+)`
	panUnit   = `(?:inch(?:es)?|in\b\.?|"|centimet(?:re|er)s?|cms?\b|mm\b)`
)

var (
	negativeSize = regexp.MustCompile(`(^|[ x(])-\s?\d`)
	panSizes     = regexp.MustCompile(panNumber + `[\s-]*` + panUnit + `?(?:[\s-]*(?:x|by)[\s-]*` + panNumber + `[\s-]*` + panUnit + `?)*`)
	panSize      = regexp.MustCompile(`(` + panNumber + `)[\s-]*(` + panUnit + `)?`)
)

// sizeGroup are the sizes of one "9 x 13 inch", as numbers of its unit.
type sizeGroup struct {
	sizes []*big.Rat
	unit  string // "inch", "cm", "mm" or ""
}

func readSizes(s string) sizeGroup {
	var g sizeGroup
	for _, m := range panSize.FindAllStringSubmatch(s, -1) {
		size := new(big.Rat)
		for _, part := range strings.FieldsFunc(strings.ReplaceAll(m[1], ",", "."), func(c rune) bool { return c == ' ' || c == '-' }) {
			const digits = 12
			if n, ok := new(big.Rat).SetString(part); ok && len(part) <= digits {
				size.Add(size, n)
			}
		}
		g.sizes = append(g.sizes, size)
		switch {
		case m[2] == "":
		case strings.HasPrefix(m[2], "i") || m[2] == `"`:
			g.unit = "inch"
		case m[2] == "mm":
			g.unit = "mm"
		default:
			g.unit = "cm"
		}
	}
	return g
}

// single reports whether the group is one whole number without a unit.
func (g sizeGroup) single() bool { return len(g.sizes) == 1 && g.unit == "" && g.sizes[0].IsInt() }

// panReader holds what the words for a pan say.
type panReader struct {
	typed string
	words []string // all but the sizes
	count int
	size  sizeGroup // none if not told
	depth sizeGroup // "4 inches deep"
	cups  *big.Rat  // "12-cup ring pan", and the number of muffin cups
	pound *big.Rat  // "2 lb loaf tin"
}

// sort sorts the numbers of text by what they tell.
func (r *panReader) sort(text string) error {
	var groups []sizeGroup
	text = panSizes.ReplaceAllStringFunc(text, func(s string) string {
		groups = append(groups, readSizes(s))
		return " # "
	})
	r.words = strings.FieldsFunc(text, func(c rune) bool { return c != '#' && (c < 'a' || c > 'z') })
	for i, w := range r.words {
		if n, ok := panCounts[w]; ok && !(i == 0 && w == "one") {
			r.count = n
		}
		if w != "#" {
			continue
		}
		g, next := groups[0], ""
		groups = groups[1:]
		if i+1 < len(r.words) {
			next = r.words[i+1]
		}
		switch next {
		case "deep", "high", "tall":
			if next == "deep" && r.says("dish") { // "9-inch deep dish"
				r.size = g
			} else {
				r.depth = g
			}
		case "cup", "cups":
			r.cups = g.sizes[0]
		case "lb", "lbs", "pound", "pounds":
			r.pound = g.sizes[0]
		case "g":
			r.pound = new(big.Rat).Quo(g.sizes[0], big.NewRat(450, 1))
		case "quart", "quarts", "qt", "litre", "litres", "liter", "liters", "l", "ml", "oz":
			return fmt.Errorf("%q: how large are its sides? Say it like %q", r.typed, "9 x 13 inch")
		default:
			switch {
			case len(r.size.sizes) == 0:
				r.size = g
			case r.size.single() && r.size.sizes[0].Num().IsInt64(): // "2 9-inch rounds"
				r.count, r.size = int(min(r.size.sizes[0].Num().Int64(), mostPans+1)), g
			default:
				return fmt.Errorf("%q: name one pan, like %q", r.typed, "9 x 13 inch")
			}
		}
	}
	return nil
}

var panCounts = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "pair": 2}

func (r *panReader) says(words ...string) bool { return containsAny(r.words, words) }

// shapeWords are the words that tell a shape, the telling ones first.
var shapeWords = []struct {
	shape PanShape
	words []string
}{
	{PanMuffin, []string{"muffin", "muffins", "cupcake", "cupcakes"}},
	{PanSpringform, []string{"springform", "spring"}},
	{PanRing, []string{"bundt", "fluted", "ring", "kugelhopf", "gugelhupf", "savarin"}},
	{PanTube, []string{"tube", "angel"}},
	{PanLoaf, []string{"loaf", "loaves", "bread"}},
	{PanPie, []string{"pie", "quiche", "tart", "flan"}},
	{PanSheet, []string{"sheet", "jelly", "jellyroll", "swiss", "cookie"}},
	{PanRound, []string{"round", "rounds", "circular", "circle", "sandwich", "layer", "layers"}},
	{PanSquare, []string{"square", "squares"}},
	{PanRectangle, []string{"rectangular", "rectangle", "oblong", "traybake", "lasagna", "lasagne"}},
}

func (r *panReader) shape() (PanShape, bool) {
	for _, row := range shapeWords {
		if r.says(row.words...) {
			return row.shape, true
		}
	}
	return 0, false
}

// The most pans and muffin cups that are read, and the bounds of sizes in cm.
const (
	mostPans    = 24
	mostMuffins = 240
)

var leastSide, mostSide, leastDepth, mostDepth = big.NewRat(4, 1), big.NewRat(100, 1), big.NewRat(1, 1), big.NewRat(30, 1)

func (r *panReader) read() (Pan, error) {
	shape, shaped := r.shape()
	if shaped && shape == PanMuffin {
		return r.muffins()
	}
	if g := r.size; shaped && shape.circular() && len(g.sizes) == 2 && g.sizes[0].IsInt() && g.sizes[0].Cmp(big.NewRat(4, 1)) <= 0 && g.sizes[0].Cmp(g.sizes[1]) < 0 {
		r.count, r.size.sizes = int(g.sizes[0].Num().Int64()), g.sizes[1:] // "2 x 20 cm round"
	}
	if r.count < 1 || r.count > mostPans {
		return Pan{}, fmt.Errorf("%q: the number of pans must be from 1 to %d", r.typed, mostPans)
	}
	sizes := r.size.sizes
	if !shaped {
		switch {
		case len(sizes) == 0 && !r.says("pan", "pans", "tin", "tins", "dish", "#"):
			return Pan{}, fmt.Errorf("%q is no pan that is known here: say it like %q or %q", r.typed, "8x8", "9-inch round")
		case len(sizes) == 0:
			return Pan{}, r.ask("its sides, like \"9 x 13 inch\", or its shape, like \"9-inch round\"")
		case len(sizes) == 1:
			one := strings.TrimSpace(ratWords(sizes[0]) + " " + r.size.unit)
			return Pan{}, fmt.Errorf("%q: is it round or square? Say %q or %q", r.typed, one+" round", one+" square")
		}
		shape = PanRectangle
		if halfSheet(sizes) {
			shape = PanSheet
		}
	}
	if shape == PanRectangle && len(sizes) > 1 && sizes[0].Cmp(sizes[1]) == 0 {
		shape = PanSquare
	}
	p := Pan{Shape: shape, Count: r.count}
	var err error
	switch {
	case len(sizes) > 0:
		err = r.sized(&p)
	default:
		err = r.usual(&p)
	}
	if err != nil {
		return Pan{}, err
	}
	return p, nil
}

// ask is the error for a size that is missing.
func (r *panReader) ask(what string) error {
	return fmt.Errorf("%q: how large is it? Say %s", r.typed, what)
}

// muffins reads "12 muffin cups", "two 6-cup jumbo muffin tins", "muffin pan".
func (r *panReader) muffins() (Pan, error) {
	kind := ""
	switch {
	case r.says("mini", "miniature"):
		kind = "mini"
	case r.says("jumbo", "giant", "large"):
		kind = "jumbo"
	}
	cups := r.cups
	switch {
	case cups == nil && r.size.single():
		cups = r.size.sizes[0]
	case cups == nil && len(r.size.sizes) > 0:
		return Pan{}, fmt.Errorf("%q: say how many muffin cups, like %q", r.typed, "12 muffin cups")
	case r.size.single() && r.size.sizes[0].Num().IsInt64(): // "2 12-cup muffin tins"
		r.count = int(min(r.size.sizes[0].Num().Int64(), mostPans+1))
	}
	p := Pan{Shape: PanMuffin}
	if cups == nil {
		cups = big.NewRat(12, 1)
		p.Assumed = append(p.Assumed, "a muffin pan is taken to have 12 cups")
	}
	if n := new(big.Rat).Mul(cups, big.NewRat(int64(r.count), 1)); n.IsInt() && n.Sign() > 0 && n.Cmp(big.NewRat(mostMuffins, 1)) <= 0 {
		p.Count = int(n.Num().Int64())
	} else {
		return Pan{}, fmt.Errorf("%q: the number of muffin cups must be a whole one from 1 to %d", r.typed, mostMuffins)
	}
	p.take(muffinCups[kind])
	return p, nil
}

// take gives the pan the sizes of a row.
func (p *Pan) take(row publishedPan) {
	of := func(s string) *big.Rat { return new(big.Rat).Mul(kitchenRat(s), inch) }
	p.Length, p.Width, p.Depth = of(row.length), of(row.width), of(row.depth)
	p.Cups, p.Source = kitchenRat(row.cups), row.source
}

// usual gives a pan whose size is not told the usual one.
func (r *panReader) usual(p *Pan) error {
	switch {
	case r.pound != nil:
		return r.poundLoaf(p)
	case r.cups != nil:
		for _, row := range publishedPans {
			if row.shape == p.Shape && kitchenRat(row.cups).Cmp(r.cups) == 0 {
				p.take(row)
				p.Assumed = append(p.Assumed, fmt.Sprintf("%s: the usual size is taken", p.described()))
				return nil
			}
		}
		if p.Shape != PanRing && p.Shape != PanTube || r.cups.Sign() <= 0 || r.cups.Cmp(big.NewRat(40, 1)) > 0 {
			return r.ask("its sides, like \"9 x 5 inch loaf\"")
		}
		r.firstOf(p, p.Shape)
		p.Cups, p.Source = r.cups, "as told"
		p.Assumed = append(p.Assumed, "taken to be as deep as a 10 inch one")
		return nil
	}
	switch p.Shape {
	case PanSquare:
		return r.ask("it like \"8 x 8 inch\"")
	case PanRectangle:
		return r.ask("it like \"9 x 13 inch\"")
	case PanRound:
		return r.ask("it like \"9-inch round\"")
	case PanSheet:
		row := publishedPan{PanSheet, "18", "13", "1", "", ""}
		switch {
		case r.says("jelly", "jellyroll"):
			r.firstOf(p, PanSheet)
		case r.says("swiss", "quarter"):
			row.length, row.width = "13", "9"
		}
		if p.Length == nil {
			of := func(s string) *big.Rat { return new(big.Rat).Mul(kitchenRat(s), inch) }
			p.Length, p.Width, p.Depth = of(row.length), of(row.width), of(row.depth)
		}
	default:
		r.firstOf(p, p.Shape)
	}
	p.Assumed = append(p.Assumed, fmt.Sprintf("%s: the usual size is taken", p.described()))
	if p.Shape == PanLoaf {
		p.Assumed = append(p.Assumed, "loaf pans of 8 1/2 x 4 1/2 inches hold a quarter less")
	}
	return nil
}

// described is the pan with its size and depth in inches.
func (p Pan) described() string {
	q := p
	q.Metric = false
	s := q.String()
	if p.Shape == PanRing || p.Shape == PanTube {
		s += ", " + q.length(p.Length) + " inches across"
	}
	return s + ", " + q.length(p.Depth) + " deep"
}

func fractionWords(s string) string {
	r := kitchenRat(s)
	return grammar.Quantity{Low: r, High: r}.String()
}

// firstOf takes the first row of a shape, the usual pan.
func (r *panReader) firstOf(p *Pan, shape PanShape) {
	for _, row := range publishedPans {
		if row.shape == shape {
			p.take(row)
			return
		}
	}
}

// poundLoaf reads the loaf tins that go by the weight of the loaf in the
// United Kingdom (from memory).
func (r *panReader) poundLoaf(p *Pan) error {
	if p.Shape == PanLoaf && r.pound.Cmp(big.NewRat(2, 1)) == 0 {
		r.firstOf(p, PanLoaf)
		p.Assumed = append(p.Assumed, "a 2 lb loaf tin is taken as 9 x 5 inches (23 x 13 cm)")
		return nil
	}
	return r.ask("its sides, like \"9 x 5 inch loaf\"")
}

// sized gives the pan the sizes that are told.
func (r *panReader) sized(p *Pan) error {
	sizes := r.size.sizes
	inches := r.inches(p.Shape)
	p.Metric = !inches
	cm := func(n *big.Rat) *big.Rat {
		switch {
		case inches:
			return new(big.Rat).Mul(n, inch)
		case r.size.unit == "mm":
			return new(big.Rat).Quo(n, big.NewRat(10, 1))
		}
		return n
	}
	if !inches && r.size.unit == "" {
		p.Assumed = append(p.Assumed, "sizes taken as centimetres")
	}
	sides := 2
	if p.Shape.circular() {
		sides = 1
	}
	switch {
	case len(sizes) > sides+1:
		return fmt.Errorf("%q: too many sizes for a %s pan; several pans are said like %q", r.typed, p.Shape, "two 9x5 loaf pans")
	case sides == 2 && len(sizes) == 1 && p.Shape == PanSquare:
		sizes = []*big.Rat{sizes[0], sizes[0]}
	case sides == 2 && len(sizes) == 1 && p.Shape != PanLoaf:
		return r.ask("both sides, like \"9 x 13 inch\"")
	case sides == 2 && len(sizes) == 3 && sizes[0].Cmp(sizes[1]) < 0 && sizes[0].Cmp(sizes[2]) < 0:
		return fmt.Errorf("%q: say the depth last, like %q, or the number in words, like %q", r.typed, "9 x 13 x 2", "two 9x5 loaf pans")
	case sides == 1 && len(sizes) == 2 && sizes[1].Cmp(sizes[0]) > 0:
		return fmt.Errorf("%q: a %s pan has one size and a depth, like %q", r.typed, p.Shape, "9-inch round")
	}
	p.Length = cm(sizes[0])
	p.Width = p.Length
	if sides == 2 && len(sizes) > 1 {
		p.Width = cm(sizes[1])
	}
	if p.Width.Cmp(p.Length) > 0 {
		p.Length, p.Width = p.Width, p.Length
	}
	if p.Shape == PanSquare && p.Width.Cmp(p.Length) != 0 {
		p.Shape = PanRectangle
	}
	switch {
	case len(sizes) > sides:
		p.Depth = cm(sizes[len(sizes)-1])
	case len(r.depth.sizes) > 0:
		p.Depth = cm(r.depth.sizes[0])
		switch {
		case r.depth.unit == "inch" && !inches:
			p.Depth = new(big.Rat).Mul(r.depth.sizes[0], inch)
		case r.depth.unit == "cm" && inches:
			p.Depth = r.depth.sizes[0]
		}
	}
	if err := r.bounds(p); err != nil {
		return err
	}
	return r.complete(p, len(sizes) == 1 && p.Shape == PanLoaf)
}

// bounds refuses sizes that no pan has.
func (r *panReader) bounds(p *Pan) error {
	for _, side := range []*big.Rat{p.Length, p.Width} {
		switch {
		case side.Sign() <= 0:
			return fmt.Errorf("%q: a pan's size must be above zero", r.typed)
		case side.Cmp(leastSide) < 0 || side.Cmp(mostSide) > 0:
			return fmt.Errorf("%q: a pan of %s cm is none that is baked in here: 4 to 100 cm (1 1/2 to 39 inches) is", r.typed, show(ratio(side)))
		}
	}
	if p.Depth != nil && (p.Depth.Cmp(leastDepth) < 0 || p.Depth.Cmp(mostDepth) > 0) {
		return fmt.Errorf("%q: a pan %s cm deep is none that is baked in here: 1 to 30 cm (1/2 to 12 inches) is", r.typed, show(ratio(p.Depth)))
	}
	return nil
}

// complete looks the pan up in the published tables for what it holds and,
// where it was not told, its depth; of a loaf pan also its width.
func (r *panReader) complete(p *Pan, anyWidth bool) error {
	if p.Shape == PanPie && p.Depth == nil && r.says("deep") {
		p.deep("2")
	}
	for _, row := range publishedPans {
		var of Pan
		of.take(row)
		same := row.shape == p.Shape || row.shape == PanSheet && p.Shape == PanRectangle
		if !same || !withinShare(p.Length, of.Length, 0.03) || !anyWidth && !withinShare(p.Width, of.Width, 0.03) || p.Depth != nil && !withinShare(p.Depth, of.Depth, 0.1) {
			continue
		}
		p.Cups, p.Source = of.Cups, of.Source
		if anyWidth {
			p.Width = of.Width
			p.Assumed = append(p.Assumed, fmt.Sprintf("taken as %s inches wide", fractionWords(row.width)))
		}
		if p.Depth == nil {
			p.deep(row.depth)
		}
		return nil
	}
	if anyWidth {
		return r.ask("both sides, like \"9 x 5 inch loaf\"")
	}
	if p.Depth == nil {
		p.deep(usualDepth[p.Shape])
	}
	if p.Shape == PanRing || p.Shape == PanTube { // as the 10 inch one, by its size
		var of Pan
		r.firstOf(&of, p.Shape)
		p.Cups = new(big.Rat).Mul(of.Cups, new(big.Rat).Quo(new(big.Rat).Mul(p.Length, p.Length), new(big.Rat).Mul(of.Length, of.Length)))
		p.Cups.Mul(p.Cups, new(big.Rat).Quo(p.Depth, of.Depth))
		p.Source = "by its size from the 10 inch one, " + of.Source
		p.Assumed = append(p.Assumed, fmt.Sprintf("taken to hold about %s cups, by its size", show(ratio(p.Cups))))
	}
	return nil
}

// deep gives the pan a depth in inches that was not told.
func (p *Pan) deep(inches string) {
	p.Depth = new(big.Rat).Mul(kitchenRat(inches), inch)
	unit := "inches"
	if kitchenRat(inches).Cmp(wholeOne) <= 0 {
		unit = "inch"
	}
	p.Assumed = append(p.Assumed, fmt.Sprintf("%s: taken as %s %s (%s cm) deep", p, fractionWords(inches), unit, show(ratio(p.Depth))))
}

// withinShare reports whether a is within a share of b.
func withinShare(a, b *big.Rat, share float64) bool { return math.Abs(ratio(a)/ratio(b)-1) <= share }

// inches reports whether the sizes are in inches.
func (r *panReader) inches(shape PanShape) bool {
	if r.size.unit != "" {
		return r.size.unit == "inch"
	}
	const firstCM, firstSheetCM = 18, 27
	least := big.NewRat(firstCM, 1)
	if shape == PanSheet || halfSheet(r.size.sizes) {
		least = big.NewRat(firstSheetCM, 1)
	}
	for _, n := range r.size.sizes {
		if n.Cmp(least) >= 0 {
			return false
		}
	}
	return true
}

// halfSheet reports whether sides are those of a half sheet in inches.
func halfSheet(sizes []*big.Rat) bool {
	if len(sizes) != 2 {
		return false
	}
	a, b := ratWords(sizes[0]), ratWords(sizes[1])
	return (a == "18" && (b == "13" || b == "12")) || (b == "18" && (a == "13" || a == "12"))
}
