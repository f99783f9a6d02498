package main

import "pottle/fooddata"

// addAllergens gives each food the major allergens it contains and may contain.
// The list's columns are allergen, group, pattern, verdict, source. For each
// allergen the last rule that speaks of a food wins; the verdict "no" takes back
// an earlier one.
func addAllergens(kept, all []*food, path string, faults *faults) {
	rules := make([][]*rule, fooddata.NumAllergens)
	for _, r := range readList(path, 5, faults) {
		a, ok := fooddata.AllergenNamed(r.cells[0])
		if !ok {
			faults.add("%s: %q is no major allergen", r.at, r.cells[0])
			continue
		}
		rl := newRule(r, r.cells[1:], faults)
		if rl == nil {
			continue
		}
		switch rl.rest[0] {
		case "contains", "may contain", "no":
			rules[a] = append(rules[a], rl)
		default:
			faults.add("%s: verdict %q", r.at, rl.rest[0])
		}
	}
	for a, list := range rules {
		for _, f := range kept {
			switch r := last(list, f); {
			case r == nil:
			case r.rest[0] == "contains":
				f.contains |= 1 << a
			case r.rest[0] == "may contain":
				f.may |= 1 << a
			}
		}
		unused(list, all, faults)
	}
}
