package main

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"pottle/fooddata"
)

// The band within which energy by the general factors agrees with the table: 20
// kcal per 100 g or 15 per cent of the table's figure, whichever is more.
const (
	bandKcal  = 20.0
	bandShare = 0.15
)

var generalFactors = []struct {
	nutrient fooddata.Nutrient
	kcal     float64 // per gram
}{{fooddata.Protein, 4}, {fooddata.Fat, 9}, {fooddata.Carbohydrate, 4}, {fooddata.Alcohol, 7}}

// energyOutliers lists the foods whose energy is outside the band around 4 kcal
// per gram of protein and carbohydrate, 9 of fat and 7 of alcohol, with a likely
// reason.
func energyOutliers(kept []*food) []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Foods whose kcal per 100 g differ from 4-9-4-7 by more than %v kcal and %v %%.\n", bandKcal, bandShare*100)
	out.WriteString("# Made by go generate. Columns: number, description, table kcal, general kcal, reason.\n")
	for _, f := range kept {
		kcal, _ := f.value(fooddata.Energy)
		general := 0.0
		for _, g := range generalFactors {
			v, _ := f.value(g.nutrient)
			general += v * g.kcal
		}
		general = math.Round(general)
		if math.Abs(general-kcal) > max(bandKcal, bandShare*kcal) {
			fmt.Fprintf(&out, "%s\t%s\t%.0f\t%.0f\t%s\n", f.number, f.description, kcal, general, outlierReason(f, general-kcal))
		}
	}
	return out.Bytes()
}

// outlierReason says why the general factors miss, as far as the figures tell;
// over is by how many kcal they are too high.
func outlierReason(f *food, over float64) string {
	d := strings.ToLower(f.description)
	carbohydrate, _ := f.value(fooddata.Carbohydrate)
	fibre, _ := f.value(fooddata.Fibre)
	alcohol, knownAlcohol := f.value(fooddata.Alcohol)
	switch {
	case strings.Contains(d, "sugar free") || strings.Contains(d, "sugar-free") || strings.Contains(d, "no sugar added") || strings.Contains(d, "dietetic"):
		return "polyols or low-energy sweetener in the carbohydrate"
	case strings.Contains(d, "vinegar") || strings.Contains(d, "cream of tartar") || strings.Contains(d, "lemon") || strings.Contains(d, "lime"):
		return "acids counted as carbohydrate"
	case strings.Contains(d, "baking powder") || strings.Contains(d, "stevia") || strings.Contains(d, "baking soda") || strings.Contains(d, "tea,"):
		return "carbohydrate by difference that gives no energy"
	case alcohol > 0 || !knownAlcohol && strings.Contains(d, "alcohol"):
		return "alcohol"
	case over > 0 && fibre*4 >= over*0.6:
		return "fibre"
	case f.factors != [3]string{"", "", ""}:
		return "specific factors " + strings.Join(f.factors[:], " ")
	case over > 0 && fibre > 0.1*carbohydrate:
		return "fibre and specific factors"
	}
	return "not known: the source's own figures disagree"
}
