package main

import (
	"path/filepath"
	"strings"

	"pottle/fooddata"
)

// name is a curated name of a food.
type name struct {
	key           string // in normal form
	text          string
	open, standIn bool
}

// readNames reads the names lists into the foods: number, name, other names,
// family.
func readNames(dir string, byNumber map[string]*food, faults *faults) {
	claims := make(map[string]*food) // by key
	for _, r := range readLists(filepath.Join(dir, "names_*.tsv"), 4, faults) {
		f := byNumber[r.cells[0]]
		switch {
		case f == nil:
			faults.add("%s: unknown number %q", r.at, r.cells[0])
			continue
		case f.curated:
			faults.add("%s: %s has its row already", r.at, f.number)
			continue
		}
		f.curated, f.name = true, r.cells[1]
		if r.cells[3] != "-" {
			f.family = r.cells[3]
		}
		if f.name == "" || len(f.name) > 40 || strings.ContainsAny(f.name, "*~;") {
			faults.add("%s: display name %q", r.at, f.name)
		}
		texts := append([]string{f.name}, strings.Split(r.cells[2], ";")...)
		for _, t := range texts {
			n, ok := readName(t)
			if !ok {
				continue
			}
			if n.key == "" {
				faults.add("%s: name %q has no words", r.at, t)
				continue
			}
			if n.open && f.family == "" {
				faults.add("%s: %q leaves open which food, but there is no family", r.at, t)
			}
			switch other := claims[n.key]; {
			case other == nil:
				claims[n.key] = f
				f.names = append(f.names, n)
			case other == f:
				f.mark(n)
			default:
				faults.add("%s: name %q is claimed by %s (%s) too", r.at, n.text, other.number, other.name)
			}
		}
	}
}

func readName(text string) (n name, ok bool) {
	text = strings.TrimSpace(text)
	if text == "" || text == "-" {
		return name{}, false
	}
	for strings.HasSuffix(text, "*") || strings.HasSuffix(text, "~") {
		n.open = n.open || strings.HasSuffix(text, "*")
		n.standIn = n.standIn || strings.HasSuffix(text, "~")
		text = strings.TrimSpace(text[:len(text)-1])
	}
	n.text = text
	n.key = strings.Join(fooddata.Normalise(text), " ")
	return n, true
}

// mark gives the marks of n to the name with the same key.
func (f *food) mark(n name) {
	for i := range f.names {
		if f.names[i].key == n.key {
			f.names[i].open = f.names[i].open || n.open
			f.names[i].standIn = f.names[i].standIn || n.standIn
		}
	}
}

// readOwnPortions reads the measures that we add: number, amount, measure,
// grams, source. They go before those of the source.
func readOwnPortions(dir string, byNumber map[string]*food, faults *faults) {
	own := make(map[*food][]portion)
	for _, r := range readLists(filepath.Join(dir, "portions_*.tsv"), 5, faults) {
		f := byNumber[r.cells[0]]
		if f == nil {
			faults.add("%s: unknown number %q", r.at, r.cells[0])
			continue
		}
		amount, err := scaled(r.cells[1], 3)
		if err != nil || amount == 0 {
			faults.add("%s: amount %q", r.at, r.cells[1])
			continue
		}
		grams, err := scaled(r.cells[3], 3)
		if err != nil || grams == 0 {
			faults.add("%s: grams %q", r.at, r.cells[3])
			continue
		}
		if r.cells[4] == "" {
			faults.add("%s: no source", r.at)
		}
		portions := readMeasure(f.description, r.cells[2], amount, grams)
		if len(portions) == 0 {
			faults.add("%s: measure %q", r.at, r.cells[2])
		}
		for _, p := range portions {
			p.source = r.cells[4]
			own[f] = append(own[f], p)
		}
	}
	for f, list := range own {
		f.portions = append(list, f.portions...)
	}
}
