package fooddata

// Amount is how much of a nutrient there is, in the unit of that nutrient, or
// that nobody measured it. The zero Amount has no value; it does not mean none.
type Amount struct {
	value float64
	known bool
}

// Known returns the Amount with value a.
func Known(a float64) Amount { return Amount{a, true} }

// Value returns the value of a. It returns 0, false if a has no value.
func (a Amount) Value() (float64, bool) { return a.value, a.known }
