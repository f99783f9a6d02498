package fooddata

import (
	"fmt"
	"iter"

	"pottle/fooddata/internal/layout"
)

// Food is a food of a table. Two are equal if they are the same food of the
// same table. The zero Food is none, and its methods panic; IsZero tells.
type Food struct {
	table *Table
	index uint16
}

// IsZero reports whether f is no food.
func (f Food) IsZero() bool { return f.table == nil }

func (f Food) record() layout.Food { return f.table.file.Food(int(f.index)) }

func (f Food) text(id uint32) string { return f.table.file.Text(id) }

// Number returns the USDA number, five digits: "01001".
func (f Food) Number() string { return fmt.Sprintf("%05d", f.record().Number) }

// Name returns our plain display name: "black beans, canned".
func (f Food) Name() string { return f.text(f.record().Name) }

// Description returns the description in the source, or the display name where
// the source names a brand.
func (f Food) Description() string { return f.text(f.record().Description) }

// String returns the display name.
func (f Food) String() string {
	if f.IsZero() {
		return "no food"
	}
	return f.Name()
}

// Group returns the food group in the source: "Dairy and Egg Products".
func (f Food) Group() string { return f.table.file.Group(int(f.record().Group)) }

// State returns the state that the figures are for.
func (f Food) State() State { return State(f.record().State) }

// Curated reports whether the names of f were chosen by hand. The display name
// of other foods is made from the description by rule.
func (f Food) Curated() bool { return f.record().Flags&layout.Curated != 0 }

// Per100g returns how much of n is in 100 g of edible portion, in the unit of
// n. The Amount has no value where the source has none, and for AddedSugars
// where [Food.AddedSugarBasis] is not known. The cholesterol of a plain plant food
// is 0 where the source has none.
func (f Food) Per100g(n Nutrient) Amount {
	v, decimals, ok := f.table.file.Value(int(n), int(f.index))
	if !ok && n == Cholesterol && f.noCholesterol() {
		return Known(0)
	}
	if !ok {
		return Amount{}
	}
	return Known(float64(v) / powersOf10[decimals])
}

var powersOf10 = [...]float64{1, 10, 100, 1e3, 1e4, 1e5, 1e6}

// AddedSugarBasis returns, in a few plain words, what the figure for
// AddedSugars rests on: "none added", "all added", "60 % of its sugars", "its
// sugars less those of plain yogurt, whole milk" or "not known".
func (f Food) AddedSugarBasis() string { return f.text(f.record().AddedBasis) }

// Refuse returns the share of the food as bought that is not eaten, in per cent
// of its weight, and what that is: 24, "core and stem". It returns 0, "" if all
// is eaten or the source does not say.
func (f Food) Refuse() (percent float64, what string) {
	r := f.record()
	return float64(r.Refuse), f.text(r.RefuseWhat)
}

// Allergens returns the major allergens that f contains and those that it may
// contain, judged by what kind of food it is. No list of this kind shows that a
// food is free of an allergen: the label does.
func (f Food) Allergens() (contains, may []Allergen) {
	r := f.record()
	return allergens(r.Contains), allergens(r.May)
}

// Density returns a density in grams per millilitre to fall back on for a food
// that has no portion by volume, and what food it is borrowed from: "like other
// chopped raw vegetables". It returns false if there is none.
func (f Food) Density() (gPerML float64, like string, ok bool) {
	r := f.record()
	if r.Density == 0 {
		return 0, "", false
	}
	return float64(r.Density) / 1000, f.text(r.DensityLike), true
}

// CannedLiquid reports whether f is canned and its figures are for the solids
// and the liquid they are packed in, undrained.
func (f Food) CannedLiquid() bool { return f.record().Flags&layout.CannedLiquid != 0 }

// Portions returns the household measures of f: first those that we added, then
// those of the source.
func (f Food) Portions() iter.Seq[Portion] {
	return func(yield func(Portion) bool) {
		file := f.table.file
		first, end := file.PortionsOf(int(f.index))
		for i := first; i < end; i++ {
			p := file.Portion(i)
			if !yield(Portion{
				Amount:  float64(p.Amount) / 1000,
				Measure: file.Text(uint32(p.Measure)),
				Size:    file.Text(uint32(p.Size)),
				Detail:  file.Text(uint32(p.Detail)),
				Grams:   Grams(float64(p.Grams) / 1000),
				Source:  file.Text(uint32(p.Source)),
			}) {
				return
			}
		}
	}
}

// State is how a food has been treated before its figures were taken.
type State uint8

// The states. A food that has several, such as frozen and cooked, has the
// one that matters most to its figures.
const (
	Unstated State = iota
	Raw
	Cooked
	Dried
	Canned
	Frozen
)

var stateNames = [...]string{"unstated", "raw", "cooked", "dried", "canned", "frozen"}

// String returns the state in lower case.
func (s State) String() string {
	if int(s) >= len(stateNames) {
		return "unknown state"
	}
	return stateNames[s]
}
