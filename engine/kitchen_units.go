package engine

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"pottle/grammar"
)

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

// only returns the one measure that is written if it is one of names.
func (m measuring) only(names ...string) (string, bool) {
	written := slices.Compact(slices.Clone(m.written))
	if len(written) != 1 || !slices.Contains(names, written[0]) {
		return "", false
	}
	return written[0], true
}
