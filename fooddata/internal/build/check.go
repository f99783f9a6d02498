package main

import (
	"fmt"
	"io"

	"pottle/fooddata"
)

// The least that a kitchen's table holds; fewer means that a list was lost.
const (
	minFoods   = 3000
	minCurated = 700
)

// check finds what the lists could get wrong in the table as a whole.
func check(kept []*food, faults *faults) {
	families := make(map[string]int)
	byKey := make(map[string]*food)
	curated := 0
	for _, f := range kept {
		if f.curated {
			curated++
		}
		if f.family != "" {
			families[f.family]++
		}
		if f.name == "" {
			faults.add("%s: no display name", f.number)
		}
		if other := byKey[key(f.name)]; other != nil {
			faults.add("%s and %s share the display name %q", other.number, f.number, f.name)
		}
		byKey[key(f.name)] = f
		checkFigures(f, faults)
	}
	for _, f := range kept {
		if families[f.family] == 1 {
			faults.add("%s: family %q has one food", f.number, f.family)
		}
	}
	if len(kept) < minFoods || curated < minCurated {
		faults.add("%d foods, %d with names: want %d and %d at least", len(kept), curated, minFoods, minCurated)
	}
}

// checkFigures makes sure that a food's figures can be: no more than 100 g in
// 100 g, no part greater than its whole.
func checkFigures(f *food, faults *faults) {
	const slack = 2.0 // g; the parts are measured apart from each other
	if _, ok := f.value(fooddata.Energy); !ok {
		faults.add("%s: no energy", f.number)
	}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		if v, ok := f.value(n); ok && n != fooddata.AddedSugars && n.Unit() == "g" && v > 100.5 {
			faults.add("%s: %v g of %s in 100 g", f.number, v, n)
		}
	}
	for _, pair := range [][2]fooddata.Nutrient{
		{fooddata.Sugars, fooddata.Carbohydrate}, {fooddata.Fibre, fooddata.Carbohydrate},
		{fooddata.SaturatedFat, fooddata.Fat},
	} {
		part, ok1 := f.value(pair[0])
		whole, ok2 := f.value(pair[1])
		if ok1 && ok2 && part > whole+slack {
			faults.add("%s %s: %s %v g of %v g %s", f.number, f.description, pair[0], part, whole, pair[1])
		}
	}
	for _, p := range f.portions {
		if p.amount <= 0 || p.grams <= 0 || p.measure == "" {
			faults.add("%s: portion %+v", f.number, p)
		}
	}
}

// summary writes what the table holds.
func summary(w io.Writer, kept []*food, size int) {
	curated, names, portions, known, unknown := 0, 0, 0, 0, 0
	for _, f := range kept {
		if f.curated {
			curated++
		}
		names += len(f.names)
		portions += len(f.portions)
		if f.figures[fooddata.AddedSugars].ok {
			known++
		} else {
			unknown++
		}
	}
	fmt.Fprintf(w, "%d foods, %d of them curated with %d names; %d portions; added sugars known of %d, not of %d; %d bytes\n",
		len(kept), curated, names, portions, known, unknown, size)
}
