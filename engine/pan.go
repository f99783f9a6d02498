package engine

import (
	"fmt"
	"math"
	"math/big"

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
