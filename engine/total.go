package engine

import "pottle/fooddata"

// Total is the sum of one nutrient over the counted lines.
type Total struct {
	Low, High float64 // at the low and high ends of the written ranges; Low is the headline
	// Gaps are the indices of the lines that have no figure for it.
	Gaps []int
	// Bound is the most that the gaps can add where that can be known (sugars
	// are no more than the carbohydrate of the same line), else negative.
	Bound float64
}

// within names the nutrient that a part cannot exceed.
var within = map[fooddata.Nutrient]fooddata.Nutrient{
	fooddata.Sugars: fooddata.Carbohydrate, fooddata.Fibre: fooddata.Carbohydrate, fooddata.AddedSugars: fooddata.Carbohydrate,
	fooddata.Starch: fooddata.Carbohydrate, fooddata.SaturatedFat: fooddata.Fat, fooddata.TransFat: fooddata.Fat,
	fooddata.MonounsaturatedFat: fooddata.Fat, fooddata.PolyunsaturatedFat: fooddata.Fat,
}

// total adds up n over lines. A line that weighs nothing leaves no gap.
func total(lines []Line, n fooddata.Nutrient) Total {
	var t Total
	for i := range lines {
		l := &lines[i]
		if l.Status != Counted || l.Grams.High == 0 {
			continue
		}
		r, ok := l.Has(n)
		if ok {
			t.Low += r.Low
			t.High += r.High
			continue
		}
		if n == fooddata.AddedSugars {
			if s, known := l.Has(fooddata.Sugars); known && s.High == 0 {
				continue // no sugars at all, so none added
			}
		}
		t.Gaps = append(t.Gaps, i)
		t.addBound(l, n)
	}
	return t
}

func (t *Total) addBound(l *Line, n fooddata.Nutrient) {
	whole, ok := within[n]
	if !ok || t.Bound < 0 {
		t.Bound = -1
		return
	}
	r, known := l.Has(whole)
	if n == fooddata.AddedSugars {
		if s, ok := l.Has(fooddata.Sugars); ok {
			r, known = s, true
		}
	}
	if !known {
		t.Bound = -1
		return
	}
	t.Bound += r.High
}

// negligible is the most, in grams, that gaps may add to a serving without
// the total being called "at least": too little to show.
const negligible = 0.05

// Complete reports whether nothing that would show is missing, when the total
// is divided among servings.
func (t Total) Complete(servings float64) bool {
	return len(t.Gaps) == 0 || t.Bound >= 0 && t.Bound/servings < negligible
}

// times scales the figures, as for one serving of several.
func (t Total) times(f float64) Total {
	t.Low *= f
	t.High *= f
	if t.Bound > 0 {
		t.Bound *= f
	}
	return t
}
