package fooddata

// Grams is a mass in grams.
type Grams float64
