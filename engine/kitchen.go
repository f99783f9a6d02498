package engine

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"pottle/grammar"
)

// Rounding says to which side an exact amount is rounded.
type Rounding int

// The roundings. Down is the safe side of a limit, Up that of a least amount.
const (
	Nearest Rounding = iota
	Down             // never more than the exact amount
	Up               // never less than the exact amount
)

// KitchenAmount returns the amount as a cook can measure it, how it reads, and
// its relative error: 0.02 is 2 % more than a. Kitchen and words parse back to
// the same amount. Figures belong to a, not to what is returned.
//
// Spoons and cups become the fewest fillings of the spoons and cups there are,
// within 5 % of a. Grams and millilitres go by what a scale and a jug show,
// within 5 % from 1 g and 1 ml up. Whole things are halved or cut in three or
// four, or eight if there is less than one. Metric tells that the recipe is
// metric: spoons then do not become cups. Of a range both ends are rounded and
// the larger error is returned.
//
// Below 5/8 tsp there are too few spoons for 5 %: to the nearest, a pinch being
// the smallest, the error is up to 1/32 tsp: 12.5 % at 1/4 tsp, 20 % between 1/8
// and 3/16. With Down, an amount
// smaller than any measure gives an Amount without terms, "nothing" and -1.
func KitchenAmount(a grammar.Amount, metric bool, r Rounding) (kitchen grammar.Amount, words string, err float64) {
	kitchen = a
	kitchen.Terms, err = kitchenTerms(a.Terms, metric, r)
	if len(kitchen.Terms) == 0 {
		return grammar.Amount{}, "nothing", -1
	}
	kitchen.Same = nil
	for _, same := range a.Same {
		if s, _, _ := KitchenAmount(same, metric, r); len(s.Terms) > 0 {
			s.Total = same.Total || ofSeveral(kitchen.Terms)
			kitchen.Same = append(kitchen.Same, s)
		}
	}
	return kitchen, amountWords(kitchen), err
}

// ofSeveral reports whether an amount said again in brackets would be read as
// that of one piece if it were not said to be of all.
func ofSeveral(terms []grammar.Term) bool {
	t := terms[0]
	if len(terms) != 1 || t.Each != nil || t.Quantity.Low.Cmp(wholeOne) == 0 && !t.Quantity.IsRange() {
		return false
	}
	return t.Measure == nil || t.Measure.Kind == grammar.Count || t.Measure.Kind == grammar.Container
}

var wholeOne = big.NewRat(1, 1)

// kitchenTerms rounds a sum of terms. Terms that do not add up ("1 can plus
// 2 tbsp") are rounded each by itself.
func kitchenTerms(terms []grammar.Term, metric bool, r Rounding) ([]grammar.Term, float64) {
	for _, family := range kitchenFamilies {
		if sum, written, ok := family.sum(terms); ok {
			return family.round(sum, measuring{written: written, metric: metric}, r)
		}
	}
	if len(terms) == 1 {
		return piecesTerm(terms[0], r)
	}
	var all []grammar.Term
	worst := 0.0
	for _, t := range terms {
		one, err := kitchenTerms([]grammar.Term{t}, metric, r)
		all = append(all, one...)
		worst = worseError(worst, err)
	}
	return all, worst
}

// worseError returns the error that is farther from zero.
func worseError(a, b float64) float64 {
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
}

// kitchenFamily is a set of measures that are reckoned in one of them.
type kitchenFamily struct {
	measures []string
	unit     *grammar.Measure
	round    func(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64)
}

var kitchenFamilies = []kitchenFamily{
	{[]string{"tsp", "tbsp", "cup", "fl oz", "pint", "quart", "gallon", "dash", "pinch", "smidgen", "jigger"}, measureNamed("tsp"), spoonTerms},
	{[]string{"oz", "lb", "stone"}, measureNamed("oz"), ounceTerms},
	{[]string{"ml", "cl", "dl", "l"}, measureNamed("ml"), millilitreTerms},
	{[]string{"g", "kg", "mg"}, measureNamed("g"), gramTerms},
}

// measureNamed returns a measure of the grammar's table.
func measureNamed(name string) *grammar.Measure {
	m, ok := grammar.MeasureNamed(name)
	if !ok {
		panic("engine: no measure " + name)
	}
	return m
}

// sum adds up terms of the family, in its unit, and tells which measures were
// written. It returns false if one is not of the family, or is heaped.
func (f kitchenFamily) sum(terms []grammar.Term) (sum grammar.Quantity, written []string, ok bool) {
	sum = grammar.Quantity{Low: new(big.Rat), High: new(big.Rat)}
	for _, t := range terms {
		if t.Measure == nil || t.Each != nil || t.Heaped || !slices.Contains(f.measures, t.Measure.Name) {
			return sum, nil, false
		}
		q := t.Quantity.Times(new(big.Rat).Quo(t.Measure.Amount, f.unit.Amount))
		sum.Low.Add(sum.Low, q.Low)
		sum.High.Add(sum.High, q.High)
		written = append(written, t.Measure.Name)
	}
	return sum, written, len(terms) > 0
}

// kitchenUnit is a measure as a kitchen has it.
type kitchenUnit struct {
	name  string
	parts string // the parts of it that can be measured; whole numbers of it can
	most  int64  // the most whole ones; 0 means its parts alone, -1 any number
	// It is used for amounts from and below these, in the unit of its table,
	// where they are given, and always where the recipe itself writes it.
	from, below string
	when        unitUse
}

type unitUse uint8

const (
	useAlways      unitUse = iota
	useNotMetric           // unless the recipe writes it
	useIfWritten           // only where the recipe writes it
	useOnce                // one of it, unless the recipe writes it
	useInRemainder         // its parts after whole ones: "2/3 cup plus 1/4 cup"
	useAlone               // only as the one measure
)

// The spoons and cups of a kitchen in the United States, from and below in
// teaspoons (common practice, no source). A pinch is 1/16 tsp; a smidgen, 1/32,
// is only said of what is less than a pinch.
var spoonUnits = kitchenTable("tsp", []kitchenUnit{
	{"gallon", "1/2", -1, "768", "", useNotMetric},
	{"quart", "1/2", -1, "768", "", useNotMetric},
	{"pint", "1/4 1/2 3/4", -1, "", "", useIfWritten},
	{"cup", "1/4 1/3 1/2 2/3 3/4", 32, "12", "", useNotMetric},
	{"cup", "1/4", 0, "12", "", useInRemainder},
	{"fl oz", "1/4 1/2 3/4", 64, "", "", useIfWritten},
	{"jigger", "1/2", 16, "", "", useIfWritten},
	{"tbsp", "1/2", 8, "", "", useAlways},
	{"tsp", "1/8 1/4 1/2 3/4", 4, "", "", useAlways},
	{"tsp", "1/8", 0, "", "", useInRemainder},
	{"pinch", "", 4, "", "5/4", useOnce},
	{"smidgen", "", 4, "", "3/64", useAlone},
})

// The pounds and ounces of a scale, in ounces.
var ounceUnits = kitchenTable("oz", []kitchenUnit{
	{"lb", "1/4 1/2 3/4", -1, "4", "", useAlways},
	{"oz", "1/4 1/2 3/4", 47, "", "", useAlways},
	{"oz", "1/10 1/5 3/10 2/5 3/5 7/10 4/5 9/10", 2, "", "5/2", useAlone},
})

// measuredUnit is a kitchenUnit with its figures worked out.
type measuredUnit struct {
	kitchenUnit
	measure     *grammar.Measure
	size        *big.Rat   // in the unit of its table
	steps       []*big.Rat // 0 and its parts
	from, below *big.Rat   // nil for none
}

func kitchenTable(unit string, rows []kitchenUnit) []measuredUnit {
	var table []measuredUnit
	for _, row := range rows {
		u := measuredUnit{kitchenUnit: row, measure: measureNamed(strings.ReplaceAll(row.name, " ", ""))}
		u.size = new(big.Rat).Quo(u.measure.Amount, measureNamed(unit).Amount)
		for _, part := range append([]string{"0"}, strings.Fields(row.parts)...) {
			u.steps = append(u.steps, kitchenRat(part))
		}
		if row.from != "" {
			u.from = kitchenRat(row.from)
		}
		if row.below != "" {
			u.below = kitchenRat(row.below)
		}
		table = append(table, u)
	}
	return table
}

func kitchenRat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("engine: bad number in a table: " + s)
	}
	return r
}

// fits reports whether the unit is used for the amount sum.
func (u measuredUnit) fits(sum *big.Rat, m measuring) bool {
	if slices.Contains(m.written, u.name) {
		return true
	}
	return u.when != useIfWritten && !(m.metric && (u.when == useNotMetric || u.name == "cup")) &&
		(u.from == nil || sum.Cmp(u.from) >= 0) && (u.below == nil || sum.Cmp(u.below) < 0)
}

// measuring is what bears on the choice of measures.
type measuring struct {
	written []string // the measures that the recipe writes
	metric  bool
	ends    bool // of a range: both ends are in one measure, so more is allowed
	after   bool // after a larger measure
	cups    bool // after cups or a larger measure
}

// allows reports whether q of the unit is an amount that cooks measure.
func (u measuredUnit) allows(q *big.Rat, m measuring) bool {
	n, most := wholeNumber(q), u.most
	switch {
	case u.name == "tbsp" && m.metric:
		most = 16
	case u.name == "cup" && m.metric && most > 0: // no quarts
		most = -1
	case u.name == "oz" && (slices.Contains(m.written, "lb") || !slices.Contains(m.written, "oz")):
		most = min(most, 15)
	}
	switch {
	case q.Sign() <= 0, most >= 0 && n > most:
		return false
	case most > 0 && n == most && !q.IsInt() && u.name != "oz":
		return false
	case u.name == "tbsp" && n == 0: // 1/2 tbsp is 1 1/2 tsp
		return m.ends
	case u.name == "tbsp" && m.after: // 4 tbsp is 1/4 cup
		return n < 4
	case u.name == "tsp" && m.cups && !q.IsInt(): // no more exact than a cup is filled
		return false
	case u.name == "tsp" && n >= 3: // 1 tbsp or more; but 4 tsp is usual
		return m.ends || n == 4
	case u.when == useOnce && !slices.Contains(m.written, u.name):
		return n <= 1
	}
	return true
}

// wholeNumber is the whole number in q.
func wholeNumber(q *big.Rat) int64 { return new(big.Int).Quo(q.Num(), q.Denom()).Int64() }

// near returns the amounts of the unit next to x: two not above it and one
// above it, where there are such.
func (u measuredUnit) near(x *big.Rat, m measuring) (under, over []*big.Rat) {
	n := wholeNumber(x)
	for base := max(0, n-1); base <= n+1; base++ {
		for _, part := range u.steps {
			q := new(big.Rat).Add(big.NewRat(base, 1), part)
			switch {
			case !u.allows(q, m):
			case q.Cmp(x) <= 0:
				under = append(under, q)
			case len(over) == 0:
				over = append(over, q)
			}
		}
	}
	nearest := under[max(0, len(under)-2):]
	if u.name == "lb" && n > 0 { // whole pounds, for ounces to follow
		nearest = append([]*big.Rat{big.NewRat(n, 1)}, nearest...)
	}
	return nearest, over
}

// dose is one way to measure an amount.
type dose struct {
	terms []grammar.Term
	sum   *big.Rat
	cost  float64 // the trouble of it
}

// with adds q of u to the dose. The costs weigh trouble against error, see
// worth (common practice, no source).
func (d dose) with(u measuredUnit, q *big.Rat, m measuring) dose {
	d.terms = append(slices.Clone(d.terms), grammar.Term{Quantity: grammar.Quantity{Low: q, High: q}, Measure: u.measure})
	d.sum = new(big.Rat).Add(d.sum, new(big.Rat).Mul(q, u.size))
	d.cost += u.trouble(q)
	if len(d.terms) > 1 {
		d.cost += 2
	} else if slices.Contains(m.written, u.name) {
		d.cost -= 0.8
	}
	return d
}

// worth is the trouble of a dose and of its error: a point is 1 % of what is
// weighed, as a scale shows any weight, and 3 % of what is filled.
func (d dose) worth(err float64) float64 {
	if d.terms[0].Measure.Kind == grammar.Weight {
		return d.cost + 100*err
	}
	return d.cost + 35*err
}

// trouble is a fill of a spoon or cup each, up to eight spoons and four of what
// is larger.
func (u measuredUnit) trouble(q *big.Rat) float64 {
	fills := float64(wholeNumber(q))
	cost := 0.0
	if !q.IsInt() {
		fills++
		cost = 0.1
	}
	if u.measure.Kind == grammar.Weight {
		return cost
	}
	most := 4.0
	if u.measure.Amount.Cmp(measureNamed("tbsp").Amount) <= 0 {
		most = 8
	}
	return cost + 0.3*min(fills, most)
}

// doses returns the ways to measure sum in at most depth terms.
func doses(sum *big.Rat, units []measuredUnit, m measuring, depth int) []dose {
	var all []dose
	var further func(sofar dose, units []measuredUnit)
	further = func(sofar dose, units []measuredUnit) {
		left := new(big.Rat).Sub(sum, sofar.sum)
		m := m
		m.after = len(sofar.terms) > 0
		m.cups = m.after && sofar.terms[0].Measure.Amount.Cmp(cupSize) >= 0
		for i, u := range units {
			if !u.follows(sofar) || !u.fits(sum, m) {
				continue
			}
			under, over := u.near(new(big.Rat).Quo(left, u.size), m)
			for _, q := range append(under, over...) {
				next := sofar.with(u, q, m)
				all = append(all, next)
				if len(next.terms) < depth && next.sum.Cmp(sum) < 0 {
					further(next, units[i+1:])
				}
			}
		}
	}
	further(dose{sum: new(big.Rat)}, units)
	return all
}

var cupSize = measureNamed("cup").Amount

// follows reports whether the unit may come next in a dose.
func (u measuredUnit) follows(sofar dose) bool {
	last := ""
	if len(sofar.terms) > 0 {
		last = sofar.terms[len(sofar.terms)-1].Measure.Name
	}
	switch u.when {
	case useInRemainder:
		return last == u.name
	case useAlone:
		return last == ""
	}
	return last != "lb" || sofar.terms[0].Quantity.Low.IsInt() // 1 lb 13 oz
}

// kitchenError is the error that a kitchen amount may have.
const kitchenError = 0.05

// measureOut returns the best way to measure sum by units: the least
// troublesome within 5 %, else the nearest. It returns no terms if nothing is
// small enough.
func measureOut(sum *big.Rat, units []measuredUnit, m measuring, r Rounding) ([]grammar.Term, float64) {
	depths := []int{2, 3}
	if sum.Cmp(eighthTsp) < 0 {
		depths = []int{1}
	}
	var best dose
	var bestErr float64
	for _, depth := range depths {
		best, bestErr = dose{}, math.Inf(1)
		for _, d := range doses(sum, units, m, depth) {
			err := errorOf(d.sum, sum)
			if r == Down && d.sum.Cmp(sum) > 0 || r == Up && d.sum.Cmp(sum) < 0 {
				continue
			}
			if best.terms == nil || d.betterThan(best, err, bestErr) {
				best, bestErr = d, err
			}
		}
		if math.Abs(bestErr) <= kitchenError {
			break
		}
	}
	if best.terms == nil {
		return nil, -1
	}
	return best.terms, bestErr
}

var eighthTsp = big.NewRat(1, 8)

func (d dose) betterThan(o dose, err, oErr float64) bool {
	err, oErr = math.Abs(err), math.Abs(oErr)
	if inside, oInside := err <= kitchenError, oErr <= kitchenError; inside != oInside {
		return inside
	} else if !inside {
		return err < oErr-1e-9 || err < oErr+1e-9 && d.cost < o.cost
	}
	return d.worth(err) < o.worth(oErr)-1e-9
}

// errorOf is the relative error of got for want.
func errorOf(got, want *big.Rat) float64 {
	if want.Sign() == 0 {
		return 0
	}
	return ratio(new(big.Rat).Sub(new(big.Rat).Quo(got, want), wholeOne))
}

// rangeOut rounds both ends of a range in one measure, the largest that comes
// within 5 % at both.
func rangeOut(sum grammar.Quantity, units []measuredUnit, m measuring, r Rounding) ([]grammar.Term, float64) {
	m.ends = true
	var best dose
	bestErr := math.Inf(1)
	for _, u := range units {
		if u.when == useInRemainder || u.when == useAlone || !u.fits(sum.Low, m) && !u.fits(sum.High, m) {
			continue
		}
		low, err1, ok1 := u.nearest(sum.Low, m, r)
		high, err2, ok2 := u.nearest(sum.High, m, r)
		if !ok1 || !ok2 {
			continue
		}
		d := dose{sum: new(big.Rat)}.with(u, low, m)
		d.terms[0].Quantity.High = high
		if err := worseError(err1, err2); best.terms == nil || d.betterThan(best, err, bestErr) {
			best, bestErr = d, err
		}
	}
	if best.terms == nil { // the ends are too far apart for one measure
		return measureOut(sum.Low, units, m, r)
	}
	return best.terms, bestErr
}

// nearest returns the amount of the unit nearest to sum on the side of r.
func (u measuredUnit) nearest(sum *big.Rat, m measuring, r Rounding) (*big.Rat, float64, bool) {
	x := new(big.Rat).Quo(sum, u.size)
	under, over := u.near(x, m)
	switch r {
	case Down:
		over = nil
	case Up:
		under = slices.DeleteFunc(under, func(q *big.Rat) bool { return q.Cmp(x) < 0 })
	}
	var best *big.Rat
	for _, q := range append(under, over...) {
		if best == nil || math.Abs(errorOf(q, x)) < math.Abs(errorOf(best, x)) {
			best = q
		}
	}
	if best == nil {
		return nil, 0, false
	}
	return best, errorOf(best, x), true
}

// spoonTerms measures a sum of teaspoons.
func spoonTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	if sum.Low.Sign() <= 0 {
		return nil, -1
	}
	tsp := measureNamed("tsp").Amount
	if m.metric && sum.Low.Cmp(big.NewRat(48, 1)) > 0 && !slices.Contains(m.written, "cup") {
		return millilitreTerms(sum.Times(tsp), measuring{}, r)
	}
	if name, ok := m.only("pinch", "dash", "smidgen"); ok {
		one := new(big.Rat).Quo(measureNamed(name).Amount, tsp)
		n := sum.Times(new(big.Rat).Inv(one))
		if n.Low.Cmp(wholeOne) >= 0 && n.High.Cmp(big.NewRat(4, 1)) <= 0 { // a pinch is not cut in parts
			low, high := toMultiple(n.Low, wholeOne, r), toMultiple(n.High, wholeOne, r)
			t := grammar.Term{Quantity: grammar.Quantity{Low: low, High: high}, Measure: measureNamed(name)}
			return []grammar.Term{t}, worseError(errorOf(low, n.Low), errorOf(high, n.High))
		}
		m.written = nil
	}
	if sum.IsRange() {
		return rangeOut(sum, spoonUnits, m, r)
	}
	terms, err := measureOut(sum.Low, spoonUnits, m, r)
	if terms == nil && r != Down { // less than half of any spoon
		smidgen := grammar.Term{Quantity: grammar.Exactly(1, 1), Measure: measureNamed("smidgen")}
		return []grammar.Term{smidgen}, errorOf(new(big.Rat).Quo(smidgen.Measure.Amount, tsp), sum.Low)
	}
	return terms, err
}

// only returns the one measure that is written if it is one of names.
func (m measuring) only(names ...string) (string, bool) {
	written := slices.Compact(slices.Clone(m.written))
	if len(written) != 1 || !slices.Contains(names, written[0]) {
		return "", false
	}
	return written[0], true
}

// ounceTerms weighs a sum of ounces. Less than half an ounce that a scale in
// ounces cannot show is given in grams.
func ounceTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	if sum.Low.Sign() <= 0 {
		return nil, -1
	}
	if sum.IsRange() {
		return rangeOut(sum, ounceUnits, m, r)
	}
	terms, err := measureOut(sum.Low, ounceUnits, m, r)
	if sum.Low.Cmp(big.NewRat(1, 2)) < 0 && (terms == nil || math.Abs(err) > kitchenError) {
		return gramTerms(sum.Times(measureNamed("oz").Amount), measuring{}, r)
	}
	return terms, err
}

// metricStep is the step in which amounts below a figure are shown. Amounts
// that are multiples of keep already are left as they are.
type metricStep struct{ below, step, keep string }

// What a kitchen scale shows, in grams (common practice, no source).
var gramSteps = []metricStep{
	{"1", "0.05", "0.05"}, {"10", "0.1", "0.1"}, {"25", "0.5", "0.5"}, {"100", "1", "0.5"}, {"1000", "5", "1"}, {"", "10", "5"},
}

// What a measuring jug shows, and a syringe below it, in millilitres (common
// practice, no source).
var millilitreSteps = []metricStep{
	{"2.5", "0.1", "0.1"}, {"5", "0.25", "0.25"}, {"10", "0.5", "0.5"}, {"50", "1", "1"}, {"500", "5", "5"}, {"1000", "10", "5"}, {"", "50", "25"},
}

func gramTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	if _, ok := m.only("mg"); ok {
		return piecesTerm(grammar.Term{Quantity: sum.Times(big.NewRat(1000, 1)), Measure: measureNamed("mg")}, r)
	}
	return metricTerms(sum, gramSteps, "g", "kg", "", r)
}

func millilitreTerms(sum grammar.Quantity, m measuring, r Rounding) ([]grammar.Term, float64) {
	keep, _ := m.only("dl", "cl")
	return metricTerms(sum, millilitreSteps, "ml", "l", keep, r)
}

// metricTerms rounds both ends of sum by steps. Thousands are shown in the
// large unit, or all in the unit to keep, if one is given.
func metricTerms(sum grammar.Quantity, steps []metricStep, small, large, keep string, r Rounding) ([]grammar.Term, float64) {
	low, high := byStep(sum.Low, steps, r), byStep(sum.High, steps, r)
	if low.Sign() <= 0 {
		return nil, -1
	}
	q := grammar.Quantity{Low: low, High: high}
	err := worseError(errorOf(low, sum.Low), errorOf(high, sum.High))
	unit := measureNamed(small)
	switch {
	case keep != "":
		unit = measureNamed(keep)
	case low.Cmp(big.NewRat(1000, 1)) >= 0:
		unit = measureNamed(large)
	}
	q = q.Times(new(big.Rat).Quo(measureNamed(small).Amount, unit.Amount))
	return []grammar.Term{{Quantity: q, Measure: unit}}, err
}

func byStep(x *big.Rat, steps []metricStep, r Rounding) *big.Rat {
	for _, s := range steps {
		if s.below != "" && x.Cmp(kitchenRat(s.below)) >= 0 {
			continue
		}
		if new(big.Rat).Quo(x, kitchenRat(s.keep)).IsInt() {
			return x
		}
		got := toMultiple(x, kitchenRat(s.step), r)
		if got.Sign() == 0 && r == Nearest {
			return kitchenRat(s.step)
		}
		return got
	}
	return x
}

// toMultiple rounds x to a multiple of step; a half goes up.
func toMultiple(x, step *big.Rat, r Rounding) *big.Rat {
	n := new(big.Rat).Quo(x, step)
	if r == Nearest {
		n.Add(n, big.NewRat(1, 2))
	}
	rest := new(big.Int)
	count := new(big.Int)
	count.DivMod(n.Num(), n.Denom(), rest)
	if r == Up && rest.Sign() > 0 {
		count.Add(count, big.NewInt(1))
	}
	return new(big.Rat).Mul(new(big.Rat).SetInt(count), step)
}

// pieceParts are the parts that a thing is cut into, the coarsest first.
var pieceParts = [][]string{{"1"}, {"1/2"}, {"1/3", "1/4"}, {"1/8"}}

// piecesTerm rounds a count of things, a length, or spoonfuls that are heaped:
// to whole ones if that is within 5 %, else to halves, else to thirds or
// quarters, and below one quarter to eighths.
func piecesTerm(t grammar.Term, r Rounding) ([]grammar.Term, float64) {
	low, err1 := piecesOf(t.Quantity.Low, r)
	high, err2 := low, err1
	if t.Quantity.IsRange() {
		high, err2 = piecesOf(t.Quantity.High, r)
	}
	if low.Sign() <= 0 {
		return nil, -1
	}
	t.Quantity = grammar.Quantity{Low: low, High: high}
	return []grammar.Term{t}, worseError(err1, err2)
}

func piecesOf(x *big.Rat, r Rounding) (*big.Rat, float64) {
	if x.Sign() <= 0 {
		return new(big.Rat), -1
	}
	if x.Cmp(big.NewRat(5, 1)) < 0 && (new(big.Rat).Mul(x, big.NewRat(3, 1)).IsInt() || new(big.Rat).Mul(x, big.NewRat(4, 1)).IsInt()) {
		return x, 0
	}
	var best *big.Rat
	for i, parts := range pieceParts {
		if i == 3 && x.Cmp(big.NewRat(1, 4)) >= 0 {
			break
		}
		for _, part := range parts {
			q := toMultiple(x, kitchenRat(part), r)
			if q.Sign() > 0 && (best == nil || math.Abs(errorOf(q, x)) < math.Abs(errorOf(best, x))) {
				best = q
			}
		}
		if best != nil && math.Abs(errorOf(best, x)) <= kitchenError {
			break
		}
	}
	switch {
	case best == nil && r == Nearest:
		best = big.NewRat(1, 8)
	case best == nil:
		return new(big.Rat), -1
	}
	return best, errorOf(best, x)
}
