package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// row is a row of a list kept by hand.
type row struct {
	at    string // file and line, for faults
	cells []string
}

// readList returns the rows of a list: tab-separated, # comments and empty lines
// left out. A row with another number of columns is a fault, and so is one whose
// last column is empty where that column is the source.
func readList(path string, columns int, faults *faults) []row {
	data, err := os.ReadFile(path)
	if err != nil {
		faults.add("%v", err)
		return nil
	}
	var rows []row
	number := 0
	for line := range strings.Lines(string(data)) {
		number++
		line = strings.TrimRight(line, "\r\n")
		if strings.TrimSpace(line) == "" || strings.HasPrefix(line, "#") {
			continue
		}
		r := row{fmt.Sprintf("%s:%d", filepath.Base(path), number), strings.Split(line, "\t")}
		if len(r.cells) != columns {
			faults.add("%s: %d columns, want %d", r.at, len(r.cells), columns)
			continue
		}
		for i := range r.cells {
			r.cells[i] = strings.TrimSpace(r.cells[i])
		}
		rows = append(rows, r)
	}
	return rows
}

// readLists returns the rows of all lists that match a pattern, file by file.
func readLists(pattern string, columns int, faults *faults) []row {
	paths, err := filepath.Glob(pattern)
	if err != nil || len(paths) == 0 {
		faults.add("%s: no such list", filepath.Base(pattern))
	}
	slices.Sort(paths)
	var rows []row
	for _, p := range paths {
		rows = append(rows, readList(p, columns, faults)...)
	}
	return rows
}

// rule is a row that speaks of all foods of a group whose description matches.
type rule struct {
	row
	group   string // "*" is every group
	pattern *regexp.Regexp
	rest    []string // the cells after the pattern, the last being the source
	used    bool
}

// readRules reads a list of rules: group, pattern, then the rest. A rule
// without a source is a fault.
func readRules(path string, columns int, faults *faults) []*rule {
	var rules []*rule
	for _, r := range readList(path, columns, faults) {
		if rl := newRule(r, r.cells, faults); rl != nil {
			rules = append(rules, rl)
		}
	}
	return rules
}

func newRule(r row, cells []string, faults *faults) *rule {
	re, err := regexp.Compile("(?i)" + cells[1])
	if err != nil {
		faults.add("%s: %v", r.at, err)
		return nil
	}
	if cells[len(cells)-1] == "" {
		faults.add("%s: no source", r.at)
	}
	return &rule{row: r, group: cells[0], pattern: re, rest: cells[2:]}
}

// matches reports whether the rule speaks of f.
func (r *rule) matches(f *food) bool {
	return (r.group == "*" || r.group == f.group) && r.pattern.MatchString(f.description)
}

// last returns the last rule that speaks of f, or nil, and marks all that do as
// used.
func last(rules []*rule, f *food) *rule {
	var found *rule
	for _, r := range rules {
		if r.matches(f) {
			r.used = true
			found = r
		}
	}
	return found
}

// unused makes each rule that speaks of no food of the release a fault: it is a
// slip of the pen.
func unused(rules []*rule, all []*food, faults *faults) {
	for _, r := range rules {
		if !r.used && !slices.ContainsFunc(all, r.matches) {
			faults.add("%s: no food matches %q in %s", r.at, r.pattern, r.group)
		}
	}
}
