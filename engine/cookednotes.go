package engine

import (
	"fmt"
	"slices"
	"strings"
)

// cookingReport gathers what is said of the cooking, foods grouped.
type cookingReport struct {
	servings float64
	lines    []reportLine
	alcoholy []string // whose alcohol a factor lessens
}

type reportLine struct {
	foods []string
	text  string // what comes after the foods
	order int
}

// The order in which the parts of the report stand.
const (
	reportRow = iota
	reportAlcohol
	reportPart
	reportNone
	reportAlready
	reportCold
)

func (r *cookingReport) say(order int, l *Line, format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	name := l.Food.Name()
	for i := range r.lines {
		if r.lines[i].text == text && r.lines[i].order == order {
			if !slices.Contains(r.lines[i].foods, name) {
				r.lines[i].foods = append(r.lines[i].foods, name)
			}
			return
		}
	}
	r.lines = append(r.lines, reportLine{foods: []string{name}, text: text, order: order})
}

// of cooks one line and says how.
func (r *cookingReport) of(l *Line, f fate) {
	r.alcohol(l, f)
	var heats []heat // without flaming, which cooks nothing through
	for _, h := range f.heats {
		if h.method != byFlamed {
			heats = append(heats, h)
		}
	}
	h, ok := mainHeat(heats)
	switch {
	case alreadyCooked(l):
		if canLose(l, r.servings) {
			r.say(reportAlready, l, "")
		}
		return
	case !ok:
		if canLose(l, r.servings) {
			r.say(reportCold, l, "")
		}
		return
	}
	row, method, found := rowFor(l, heats, h)
	if !found {
		if canLose(l, r.servings) {
			r.say(reportNone, l, "%s", h.method)
		}
		return
	}
	row.apply(l)
	unnamed := ""
	if f.unnamed {
		unnamed = "; taken as cooked with the rest, the directions do not name it"
	}
	r.say(reportRow, l, "%s, row %q%s", method, row.usda, unnamed)
	if missing := row.notKnown(l); len(missing) > 0 {
		r.say(reportPart, l, "no factor is known for %s when %s: left as uncooked", andList(missing), method)
	}
}

// rowFor chooses the row for a line: one for two cookings after each other if
// there is one, else that of the main cooking, else that of another one. It
// also returns the cooking in words, with its minutes.
func rowFor(l *Line, heats []heat, main heat) (retentionRow, string, bool) {
	class := retentionClassOf(l.Food)
	if class == "" {
		return retentionRow{}, "", false
	}
	for i := range heats {
		for j := i + 1; j < len(heats); j++ {
			if row, ok := retention(class, heats[i].method+" + "+heats[j].method, 0); ok {
				return row, heats[i].method + ", then " + heats[j].method, true
			}
		}
	}
	for i := len(heats); i >= 0; i-- {
		h := main
		if i < len(heats) {
			h = heats[i]
		}
		method := h.method
		if class == "shellfish" && (method == byBoiled || method == byBoiledAndDrained || method == bySimmered) && inShell(l) {
			method = byBoiledInShell
		}
		if row, ok := retention(class, method, h.minutes); ok {
			return row, h.words(), true
		}
	}
	return retentionRow{}, "", false
}

func inShell(l *Line) bool {
	said := " " + strings.Join(append(slices.Clone(l.Item.Words), l.Item.Prep...), " ") + " " + strings.ToLower(strings.Join(l.Item.Aside, " ")) + " "
	return strings.Contains(strings.ReplaceAll(said, "-", " "), " shell ") || strings.Contains(said, "shell-on")
}

// words returns the cooking in words: "simmered 45 minutes".
func (h heat) words() string {
	if h.minutes == 0 {
		return h.method
	}
	return h.method + " " + minutesInWords(h.minutes)
}

func minutesInWords(m int) string {
	hours, rest := m/60, m%60
	switch {
	case m == 1:
		return "1 minute"
	case hours == 0:
		return fmt.Sprintf("%d minutes", rest)
	case rest == 0:
		return fmt.Sprintf("%d h", hours)
	}
	return fmt.Sprintf("%d h %d min", hours, rest)
}

// notes returns the report in plain words.
func (r *cookingReport) notes(c Cooking) []string {
	from := "as told"
	if c.Said != "told" && c.Said != "" {
		from = fmt.Sprintf("from %q", c.Said)
	}
	main := heat{method: c.Method, minutes: c.Minutes}
	notes := []string{fmt.Sprintf("cooking, %s: %s", from, main.words())}
	slices.SortStableFunc(r.lines, func(a, b reportLine) int { return a.order - b.order })
	lossy, rows := false, false
	for _, l := range r.lines {
		foods := strings.Join(l.foods, "; ")
		lossy = lossy || l.order == reportRow
		rows = rows || l.order == reportRow || l.order == reportAlcohol
		switch l.order {
		case reportNone:
			notes = append(notes, fmt.Sprintf("no factor is known for %s, %s: left as uncooked", foods, l.text))
		case reportAlready:
			notes = append(notes, fmt.Sprintf("cooked, canned or smoked in the table already, not cooked again: %s", foods))
		case reportCold:
			if c.Method != byNoHeat && c.Method != byStoredOvernight { // else it is said already
				notes = append(notes, "not heated, as far as the directions say: "+foods)
			}
		default:
			notes = append(notes, foods+": "+l.text)
		}
	}
	if rows {
		notes[0] += "; factors of the USDA Table of Nutrient Retention Factors, Release 6 (2007)"
	}
	if lossy {
		notes = append(notes, noFactorAtAll)
	}
	return notes
}

// lessened returns the foods to which a factor was applied.
func (r *cookingReport) lessened() Lessened {
	some := Lessened{Alcohol: r.alcoholy}
	for _, l := range r.lines {
		for _, food := range l.foods {
			if l.order == reportRow && !slices.Contains(some.Vitamins, food) {
				some.Vitamins = append(some.Vitamins, food)
			}
		}
	}
	return some
}

// andList joins words: "a, b and c".
func andList(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}
