package engine

import "math"

// GramsPerChoice is the total carbohydrate of one carbohydrate choice
// (teaching convention, common practice).
const GramsPerChoice = 15

// Choices returns the carbohydrate choices of so many grams of total
// carbohydrate, in halves, by the usual handout table: 0 to 5 g none, 6 to
// 10 g a half, 11 to 20 g one, 21 to 25 g one and a half, and so on (common
// practice). Fibre is not subtracted.
func Choices(grams float64) float64 {
	g := int(math.Round(grams))
	n := (g + 4) / GramsPerChoice
	if g-GramsPerChoice*n > 5 {
		return float64(n) + 0.5
	}
	return float64(n)
}
