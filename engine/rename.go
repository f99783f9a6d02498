package engine

import (
	"regexp"
	"slices"
	"strings"

	"pottle/grammar"
)

// renamed returns directions that speak of the food that now stands in a line,
// where they spoke of the one before: which food is marinated, boiled or drained
// is read from them. A name that another line has too is left as it is.
func renamed(method []string, lines []grammar.Line, at int, is grammar.Item) []string {
	was := lines[at].Items[0].Words
	now := strings.Join(is.Words, " ")
	for n := len(was); n > 0 && now != ""; n-- {
		name := was[len(was)-n:]
		if slices.ContainsFunc(lines, func(l grammar.Line) bool { return l.Number != lines[at].Number && names(l, name) }) {
			return method
		}
		said := regexp.MustCompile(`(?i)\b` + regexp.QuoteMeta(strings.Join(name, " ")) + `\b`)
		if !slices.ContainsFunc(method, said.MatchString) {
			continue
		}
		changed := make([]string, len(method))
		for i, m := range method {
			changed[i] = said.ReplaceAllLiteralString(m, now)
		}
		return changed
	}
	return method
}

// names reports whether a line's food has all the words of a name.
func names(l grammar.Line, name []string) bool {
	return slices.ContainsFunc(l.Items, func(item grammar.Item) bool {
		for _, w := range name {
			if !slices.ContainsFunc(item.Words, func(have string) bool { return strings.EqualFold(have, w) }) {
				return false
			}
		}
		return true
	})
}
