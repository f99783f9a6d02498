package engine

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strings"

	"pottle/grammar"
)

// PanShape is the shape of a baking pan.
type PanShape uint8

// The shapes. A PanRing is a fluted ring, a PanTube a plain one with a high
// centre tube, as for angel food cake.
const (
	PanSquare PanShape = iota
	PanRectangle
	PanRound
	PanSpringform
	PanSheet
	PanLoaf
	PanPie
	PanRing
	PanTube
	PanMuffin
)

var panNames = [...]string{"square", "rectangular", "round", "springform", "sheet", "loaf", "pie", "fluted ring", "tube", "muffin"}

// String names the shape.
func (s PanShape) String() string {
	if int(s) >= len(panNames) {
		return "unknown shape"
	}
	return panNames[s]
}

// straight reports whether the sides stand upright, so that plain geometry
// gives what the pan holds.
func (s PanShape) straight() bool { return s <= PanSheet }

// circular reports whether the pan, or each of its cups, is round at the top.
func (s PanShape) circular() bool {
	return s == PanRound || s == PanSpringform || s == PanPie || s == PanRing || s == PanTube || s == PanMuffin
}

// Pan is one baking pan or several of a kind, or the cups of a muffin pan.
// Sizes are exact, inside, at the top, in centimetres.
type Pan struct {
	Shape  PanShape
	Count  int      // of pans, or of muffin cups
	Length *big.Rat // the longer side, or the diameter
	Width  *big.Rat // the shorter side, or the diameter
	Depth  *big.Rat
	Metric bool // told in centimetres, and shown so
	// Cups is what one of them holds by a published table, in US cups, and
	// Source that table; nil and empty if no table lists it.
	Cups    *big.Rat
	Source  string
	Assumed []string // what was not said, in plain words
}

var inch = big.NewRat(254, 100) // cm

// cupsToML is n US cups in mL.
func cupsToML(n *big.Rat) *big.Rat { return new(big.Rat).Mul(n, cup) }

// publishedPan is a row of a published table of pans, in inches and US cups.
type publishedPan struct {
	shape                PanShape
	length, width, depth string
	cups                 string
	source               string
}

// Where the published capacities come from (kitchen.csv of our standards). All
// are to the brim or just below it, and rounded.
const (
	panSubstitutions = "https://studylib.net/doc/18320804/easy-pan-substitutions"
	panVolumes       = "https://www.news-journalonline.com/story/lifestyle/food/2016/09/27/know-volume-of-your-baking-pans/25310243007/"
	panHandbooks     = "from memory: handbook and extension charts"
	panCommon        = "common practice, no source"
)

// publishedPans hold the usual depth of a size first.
var publishedPans = []publishedPan{
	{PanSquare, "8", "8", "2", "8", panHandbooks},
	{PanSquare, "8", "8", "3/2", "6", panSubstitutions},
	{PanSquare, "9", "9", "2", "10", panHandbooks},
	{PanSquare, "9", "9", "3/2", "8", panSubstitutions},
	{PanRectangle, "11", "7", "2", "8", panHandbooks}, // 6 in panVolumes, little more than half of its 10.7 by geometry
	{PanRectangle, "13", "9", "2", "14", panSubstitutions},
	{PanRound, "8", "8", "2", "6", panVolumes},
	{PanRound, "8", "8", "3/2", "4", panVolumes}, // 5.2 by geometry
	{PanRound, "9", "9", "2", "8", panHandbooks},
	{PanRound, "9", "9", "3/2", "6", panVolumes},
	{PanSpringform, "9", "9", "5/2", "10", panHandbooks},
	{PanSheet, "15", "10", "1", "10", panHandbooks},
	{PanLoaf, "9", "5", "3", "8", panSubstitutions},
	{PanLoaf, "17/2", "9/2", "5/2", "6", panSubstitutions},
	{PanLoaf, "8", "4", "5/2", "4", panVolumes},
	{PanPie, "9", "9", "5/4", "4", panSubstitutions},
	{PanPie, "9", "9", "3/2", "5", panVolumes},
	{PanRing, "10", "10", "7/2", "12", panHandbooks},
	{PanRing, "9", "9", "3", "9", panHandbooks},
	{PanTube, "10", "10", "4", "16", panHandbooks},
}

// muffinCups are one cup of a muffin pan, in inches and US cups.
var muffinCups = map[string]publishedPan{
	"":      {PanMuffin, "11/4", "11/4", "3/2", "1/2", panSubstitutions},
	"mini":  {PanMuffin, "7/4", "7/4", "3/4", "1/8", panCommon},
	"jumbo": {PanMuffin, "7/2", "7/2", "7/4", "1", panCommon},
}

// usualDepth in inches, for sizes that no table lists (common practice, no
// source).
var usualDepth = map[PanShape]string{
	PanSquare: "2", PanRectangle: "2", PanRound: "2", PanSpringform: "5/2", PanSheet: "1", PanLoaf: "5/2", PanPie: "5/4", PanRing: "7/2", PanTube: "4",
}

// Area returns the area of the top of all of them in cm². That of a ring or a
// tube pan is what it holds by the published table divided by its depth, since
// its middle is open and its sides are fluted.
func (p Pan) Area() float64 {
	area, pi := p.area()
	return panFloat(area, pi)
}

// Volume returns what all of them hold to the brim in mL: by geometry with
// upright sides, but for rings, tubes and muffin cups, which go by the
// published table. Loaf and pie pans, whose sides slope, hold less than that:
// see Capacity.
func (p Pan) Volume() float64 {
	volume, pi := p.volume()
	return panFloat(volume, pi)
}

// Capacity returns what all of them hold by a published table in mL, and the
// table; ok is false if none lists the pan. Tables stop below the brim and
// round: they stand about a tenth below geometry for upright sides.
func (p Pan) Capacity() (ml float64, source string, ok bool) {
	if p.Cups == nil {
		return 0, "", false
	}
	return ratio(cupsToML(p.Cups)) * float64(p.Count), p.Source, true
}

func panFloat(r *big.Rat, pi bool) float64 {
	if pi {
		return ratio(r) * math.Pi
	}
	return ratio(r)
}

// area is exact: the area is the first result, times pi if the second is true.
func (p Pan) area() (*big.Rat, bool) {
	count := big.NewRat(int64(p.Count), 1)
	switch {
	case p.Shape == PanRing || p.Shape == PanTube:
		a := new(big.Rat).Quo(cupsToML(p.Cups), p.Depth)
		return a.Mul(a, count), false
	case p.Shape.circular():
		a := new(big.Rat).Mul(p.Length, p.Length)
		a.Quo(a, big.NewRat(4, 1))
		return a.Mul(a, count), true
	}
	a := new(big.Rat).Mul(p.Length, p.Width)
	return a.Mul(a, count), false
}

func (p Pan) volume() (*big.Rat, bool) {
	if p.Shape == PanRing || p.Shape == PanTube || p.Shape == PanMuffin {
		return p.published(), false
	}
	area, pi := p.area()
	return area.Mul(area, p.Depth), pi
}

func (p Pan) published() *big.Rat {
	v := cupsToML(p.Cups)
	return v.Mul(v, big.NewRat(int64(p.Count), 1))
}

// brim is the share of the volume by geometry that tables give: the median of
// their rows above, or of the few there are.
func (s PanShape) brim() *big.Rat {
	switch s {
	case PanPie:
		return big.NewRat(3, 4)
	case PanLoaf:
		return big.NewRat(17, 20)
	}
	return big.NewRat(9, 10)
}

// holds is what the pan holds by the published table, or by geometry less the
// usual share.
func (p Pan) holds() (*big.Rat, bool) {
	if p.Cups != nil {
		return p.published(), false
	}
	v, pi := p.volume()
	return v.Mul(v, p.Shape.brim()), pi
}

// piRat stands for pi where a round pan is compared with one that is not: 355/113,
// 1 part in 10 million too large.
var piRat = big.NewRat(355, 113)

// panRatio is to / from. Pi cancels out between round pans.
func panRatio(to *big.Rat, toPi bool, from *big.Rat, fromPi bool) *big.Rat {
	r := new(big.Rat).Quo(to, from)
	switch {
	case toPi && !fromPi:
		r.Mul(r, piRat)
	case fromPi && !toPi:
		r.Quo(r, piRat)
	}
	return r
}

// String describes the pan: "9 x 13 inch rectangular pan", "12 muffin cups".
func (p Pan) String() string {
	if p.Length == nil {
		return "no pan"
	}
	if p.Shape == PanMuffin {
		size := ""
		switch {
		case p.Cups.Cmp(big.NewRat(1, 8)) == 0:
			size = "mini "
		case p.Cups.Cmp(wholeOne) == 0:
			size = "jumbo "
		}
		return fmt.Sprintf("%d %smuffin cup%s", p.Count, size, endingS(p.Count))
	}
	if p.Shape == PanRing || p.Shape == PanTube {
		s := fmt.Sprintf("%s-cup %s pan", show(ratio(p.Cups)), p.Shape)
		return p.several(s)
	}
	size := p.length(p.Length)
	switch {
	case p.Shape == PanLoaf:
		size += " x " + p.length(p.Width)
	case !p.Shape.circular():
		size = p.length(p.Width) + " x " + size
	}
	unit := "inch"
	if p.Metric {
		unit = "cm"
	}
	return p.several(fmt.Sprintf("%s %s %s pan", size, unit, p.Shape))
}

// several puts the number of pans before s.
func (p Pan) several(s string) string {
	if p.Count <= 1 {
		return s
	}
	for word, n := range panCounts {
		if n == p.Count && word != "pair" {
			return word + " " + s + "s"
		}
	}
	return fmt.Sprintf("%d %ss", p.Count, s)
}

func endingS(n int) string {
	if n == 1 {
		return ""
	}
	return "s"
}

// length writes a size in the unit of the pan, without the unit.
func (p Pan) length(cm *big.Rat) string {
	if p.Metric {
		return decimalWords(cm)
	}
	return grammar.Quantity{Low: new(big.Rat).Quo(cm, inch), High: new(big.Rat).Quo(cm, inch)}.String()
}

// known reports whether the pan has all its sizes, as one of ParsePan has.
func (p Pan) known() bool {
	open := p.Shape == PanRing || p.Shape == PanTube || p.Shape == PanMuffin
	return p.Count > 0 && p.Length != nil && p.Width != nil && p.Depth != nil && (p.Cups != nil || !open)
}

// PanFit is how a recipe for one pan goes into another.
type PanFit struct {
	From, To Pan
	// ByVolume is the factor that fills To as full as From, ByArea the one by
	// which the mixture stands as deep in it.
	ByVolume, ByArea *big.Rat
	// Exact is false if pi or a published capacity came into ByVolume or ByArea.
	Exact bool
	// Deeper is by how much, in per cent, the mixture stands deeper if the
	// recipe is not changed; below zero it stands shallower. DeeperByVolume is
	// the same for a recipe scaled ByVolume.
	Deeper, DeeperByVolume float64
	Notes                  []string
}

// Factor is the one of ByArea and ByVolume to scale by: for pans with upright
// sides the one by which the mixture stands no deeper and the pan is no fuller,
// so that time and temperature hold as nearly as may be; for all others
// ByVolume.
func (f PanFit) Factor() *big.Rat {
	if f.From.Shape.straight() && f.To.Shape.straight() && f.ByArea.Cmp(f.ByVolume) < 0 {
		return f.ByArea
	}
	return f.ByVolume
}

// FitPan compares two pans. Between pans with upright sides both factors are
// by geometry; where a loaf, pie, ring, tube or muffin pan comes in, ByVolume
// is by published capacities, of a pan that no table lists by geometry less
// the usual share. For muffin cups ByArea tells little. It returns an error if
// a pan is not given.
func FitPan(from, to Pan) (PanFit, error) {
	if !from.known() || !to.known() {
		return PanFit{}, errors.New("two pans are needed, such as 8x8 and 9x13")
	}
	f := PanFit{From: from, To: to}
	fromArea, fromPi := from.area()
	toArea, toPi := to.area()
	f.ByArea = panRatio(toArea, toPi, fromArea, fromPi)
	f.Exact = fromPi == toPi && from.Shape != PanRing && from.Shape != PanTube && to.Shape != PanRing && to.Shape != PanTube
	alike := from.Shape == to.Shape && (from.Cups == nil || to.Cups == nil)
	if from.Shape.straight() && to.Shape.straight() || alike {
		fromVolume, fromPi := from.volume()
		toVolume, toPi := to.volume()
		f.ByVolume = panRatio(toVolume, toPi, fromVolume, fromPi)
	} else {
		fromVolume, fromPi := from.holds()
		toVolume, toPi := to.holds()
		f.ByVolume = panRatio(toVolume, toPi, fromVolume, fromPi)
		f.Exact = false
	}
	f.Deeper = 100 * (1/ratio(f.ByArea) - 1)
	f.DeeperByVolume = 100 * (ratio(f.ByVolume)/ratio(f.ByArea) - 1)
	f.warn()
	return f, nil
}

// The notes on time and temperature are common practice, no source.

// sameDepth is the change of depth, in per cent, below which a recipe bakes as
// written.
const sameDepth = 10

func (f *PanFit) warn() {
	note := func(format string, args ...any) { f.Notes = append(f.Notes, fmt.Sprintf(format, args...)) }
	for _, p := range []Pan{f.From, f.To} {
		f.Notes = append(f.Notes, p.Assumed...)
	}
	if f.To.Shape == PanMuffin {
		if one, pi := f.To.holds(); f.From.Shape != PanMuffin {
			one.Quo(one, big.NewRat(int64(f.To.Count), 1))
			all, fromPi := f.From.holds()
			n := ratio(panRatio(all, fromPi, one, pi))
			note("unchanged, the recipe fills %.0f to %.0f such muffin cups, by how full the old pan was", math.Round(0.75*n), math.Round(n))
			note("muffin cups bake fast: look from 15 minutes on, usually done in 18 to 25 (mini ones in 10 to 15)")
		}
		return
	}
	unchanged := f.Deeper
	note("unchanged, %s", depthNote(unchanged))
	if fuller := 100 * (1/ratio(f.ByVolume) - 1); fuller > 15 {
		note("unchanged, it fills the new pan %.0f %% more than the old: fill no pan above two thirds and bake the rest in another", fuller)
	}
	if scaled := f.scaledDepth(); math.Abs(scaled-unchanged) >= 1 && (math.Abs(unchanged) >= sameDepth || math.Abs(scaled) >= sameDepth) {
		note("scaled, %s", depthNote(scaled))
	}
	if f.From.Shape == PanMuffin {
		note("what is baked in muffin cups takes two to three times as long in one pan; test the middle")
	}
	if f.To.Shape == PanLoaf || f.To.Shape == PanPie {
		note("its sides slope, so the mixture stands a little deeper than reckoned here")
	}
}

// scaledDepth is how much deeper, in per cent, the mixture stands in To if the
// recipe is scaled by Factor.
func (f PanFit) scaledDepth() float64 { return 100 * (ratio(f.Factor())/ratio(f.ByArea) - 1) }

// depthNote says what a change of depth in per cent does.
func depthNote(percent float64) string {
	size := math.Round(math.Abs(percent))
	switch {
	case size < sameDepth:
		return "the mixture stands about as deep: time and temperature as written, look a few minutes early"
	case percent > 50:
		return fmt.Sprintf("the mixture stands %.0f %% deeper: it may take twice as long; 25 °F (15 °C) cooler keeps the outside from browning before the middle is done", size)
	case percent > 0:
		return fmt.Sprintf("the mixture stands %.0f %% deeper: it takes longer, up to half as long again; look at the time written, then every 5 minutes; from a quarter deeper 25 °F (15 °C) cooler helps", size)
	case percent < -35:
		return fmt.Sprintf("the mixture stands %.0f %% shallower: look after about half of the time; it browns and dries sooner", size)
	}
	return fmt.Sprintf("the mixture stands %.0f %% shallower: look after about two thirds of the time; it dries sooner", size)
}

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
