package main

// addDensities gives each food that has no portion by volume the density that
// the list falls back on: group, pattern, grams per millilitre, like what,
// source.
func addDensities(kept, all []*food, path string, faults *faults) {
	rules := readRules(path, 5, faults)
	for _, f := range kept {
		r := last(rules, f)
		if r == nil || hasVolume(f) || r.rest[0] == "-" {
			continue
		}
		d, err := scaled(r.rest[0], 3)
		if err != nil || d == 0 || d > 3000 {
			faults.add("%s: density %q", r.at, r.rest[0])
			continue
		}
		f.density, f.densityLike = d, r.rest[1]
	}
	unused(rules, all, faults)
}

func hasVolume(f *food) bool {
	for _, p := range f.portions {
		if isVolume(p.measure) {
			return true
		}
	}
	return false
}
