package slack

import (
	"regexp"
	"slices"
	"unicode/utf8"
)

// widest is the most columns of a line of figures: the block is at most 34
// wide, but for a long name of a nutrient.
const widest = 40

var (
	// set is a line that is set in columns: a name that begins with a letter, two
	// spaces or more, and the figures; or the heading of a column, far to the
	// right.
	set = regexp.MustCompile(`^ {0,6}\pL.*\S {2,}\S|^ {8,}\S`)
	// notSet is a numbered choice, "line 3  butter: ..." or "Sodium: ...".
	notSet = regexp.MustCompile(`^ *(?:line )?\d+[.)]? |: `)
	// figure ends a line of figures: a number, a unit after one, or a word that
	// stands for one.
	figure = regexp.MustCompile(`(?:\d|\d ?%|\d \pL{1,4}|known|figure|DV)$`)
	// wide is a gap that no sentence has.
	wide = regexp.MustCompile(`\S {3,}\S`)
)

// aligned reports which lines of a paragraph are set in columns and need a
// type of fixed width: lines in a row, of at most widest columns, that end in a
// figure with a gap of two spaces or more before it. Three make a block; fewer
// do if each has a gap of three spaces or more. A line whose figures leave no
// such gap belongs to the block if it ends in the same column as another.
func aligned(lines []string) []bool {
	is := make([]bool, len(lines))
	for i := 0; i < len(lines); {
		j := i
		for j < len(lines) && maybeSet(lines[j]) {
			j++
		}
		if i == j {
			i++
			continue
		}
		mark(lines[i:j], is[i:j])
		i = j
	}
	return is
}

func maybeSet(line string) bool {
	return utf8.RuneCountInString(line) <= widest && !notSet.MatchString(line) && figure.MatchString(line)
}

// fewest is the least lines with narrow gaps that make a block.
const fewest = 3

// mark marks the lines of a run that are set in columns.
func mark(run []string, is []bool) {
	var ends []int
	for _, line := range run {
		if set.MatchString(line) {
			ends = append(ends, utf8.RuneCountInString(line))
		}
	}
	n, narrow := 0, 0
	for i, line := range run {
		if is[i] = set.MatchString(line) || slices.Contains(ends, utf8.RuneCountInString(line)); is[i] {
			n++
			if !wide.MatchString(line) {
				narrow++
			}
		}
	}
	if n < fewest && narrow > 0 || len(ends)*2 < n {
		clear(is)
	}
}
