package grammar

import "math/big"

// Quantity is a closed range of exact numbers; a plain number has Low equal
// to High. Nil bounds are never produced by the parsers.
//
//	"2"          Low 2    High 2
//	"1 1/2"      Low 3/2  High 3/2
//	"2 to 3"     Low 2    High 3
//	"1/2–3/4"    Low 1/2  High 3/4
//	"half a"     Low 1/2  High 1/2
type Quantity struct {
	Low, High *big.Rat
}

// Exactly returns the plain number n/d.
func Exactly(n, d int64) Quantity {
	r := big.NewRat(n, d)
	return Quantity{r, r}
}

// IsRange reports whether the quantity has two different ends.
func (q Quantity) IsRange() bool { return q.Low.Cmp(q.High) != 0 }

// Times returns q multiplied by r, both ends.
func (q Quantity) Times(r *big.Rat) Quantity {
	return Quantity{new(big.Rat).Mul(q.Low, r), new(big.Rat).Mul(q.High, r)}
}

// String writes the quantity as a cook would and so that it parses back to
// the same numbers: "1 1/2", "2 to 3", "0.35".
func (q Quantity) String() string {
	if q.Low == nil {
		return ""
	}
	if !q.IsRange() {
		return formatRat(q.Low)
	}
	return formatRat(q.Low) + " to " + formatRat(q.High)
}

// formatRat writes r as a whole number, an exact decimal if its denominator
// is none of a kitchen's, or else a mixed number.
func formatRat(r *big.Rat) string {
	if r.IsInt() {
		return r.Num().String()
	}
	if n, exact := r.FloatPrec(); exact && n <= maxDigits && !kitchenDenominator(r.Denom()) {
		return r.FloatString(n)
	}
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	fraction := rest.String() + "/" + r.Denom().String()
	if whole.Sign() == 0 {
		return fraction
	}
	return whole.String() + " " + fraction
}

func kitchenDenominator(d *big.Int) bool {
	switch d.Int64() {
	case 2, 3, 4, 6, 8, 16:
		return d.IsInt64()
	}
	return false
}
