package main

import (
	"cmp"
	"path/filepath"
	"slices"
)

// apply puts what the lists say into the foods and returns those that are kept,
// by number.
func apply(foods []*food, dir string, faults *faults) []*food {
	byNumber := make(map[string]*food, len(foods))
	for _, f := range foods {
		byNumber[f.number] = f
	}
	readNames(dir, byNumber, faults)
	readOwnPortions(dir, byNumber, faults)
	correctRefuse(filepath.Join(dir, "refuse.tsv"), byNumber, faults)

	kept := selectFoods(foods, filepath.Join(dir, "select.tsv"), faults)
	for _, f := range kept {
		f.state = stateOf(f)
		f.cannedLiquid = hasCannedLiquid(f)
	}
	nameByRule(kept)
	addSugars(kept, foods, byNumber, filepath.Join(dir, "added_sugar.tsv"), faults)
	addAllergens(kept, foods, filepath.Join(dir, "allergens.tsv"), faults)
	addDensities(kept, foods, filepath.Join(dir, "density.tsv"), faults)
	return kept
}

// selectFoods returns the curated foods and those that the list keeps.
func selectFoods(foods []*food, path string, faults *faults) []*food {
	rules := readRules(path, 4, faults)
	for _, r := range rules {
		if r.rest[0] != "keep" && r.rest[0] != "drop" {
			faults.add("%s: %q is neither keep nor drop", r.at, r.rest[0])
		}
	}
	var kept []*food
	for _, f := range foods {
		r := last(rules, f)
		if f.curated || r != nil && r.rest[0] == "keep" {
			kept = append(kept, f)
		}
	}
	unused(rules, foods, faults)
	slices.SortFunc(kept, func(a, b *food) int { return cmp.Compare(a.number, b.number) })
	return kept
}
