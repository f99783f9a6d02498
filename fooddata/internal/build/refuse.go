package main

import "strconv"

// correctRefuse puts our own shares thrown away in place of the source's.
func correctRefuse(path string, byNumber map[string]*food, faults *faults) {
	for _, r := range readList(path, 4, faults) {
		f := byNumber[r.cells[0]]
		percent, err := strconv.Atoi(r.cells[1])
		switch {
		case f == nil:
			faults.add("%s: unknown number %q", r.at, r.cells[0])
		case err != nil || percent < 0 || percent > 99:
			faults.add("%s: %q is no share in per cent", r.at, r.cells[1])
		case r.cells[3] == "":
			faults.add("%s: no source", r.at)
		default:
			f.refuse, f.refuseWhat = percent, r.cells[2]
		}
	}
}
