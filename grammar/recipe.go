package grammar

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The limits of what is read as one recipe.
const (
	MaxRecipe = 64 << 10 // bytes of a recipe
	MaxLines  = 400      // lines of a recipe
	MaxLine   = 600      // bytes of a line; a longer one is kept and not read
)

// LineKind says what a line of a recipe is.
type LineKind uint8

// The kinds of line. A Note is anything that is neither an ingredient nor a
// heading: the title, servings, times, directions.
const (
	Ingredient LineKind = iota
	Heading
	Note
)

// Line is one line of a recipe that is not blank.
type Line struct {
	Number int    // from 1, blank lines counted
	Text   string // as typed, without spaces at the ends
	Kind   LineKind
	Items  []Item // of an ingredient: one, or more as in "1 tsp each salt and pepper"
	Fault  *Fault // what could not be read, or nil
}

// Recipe is a recipe as written.
type Recipe struct {
	Title    string
	Servings Quantity // number of servings; Low is nil if not written
	Yield    string   // the line that told the servings, as typed
	Lines    []Line
	Method   []string // directions, a line each
	Metric   bool     // written with metric weights and volumes throughout
}

// ParseRecipe reads a recipe as pasted: a title, a line of servings, the
// ingredient lines with or without bullets and headings, and directions, in
// any usual order. Every line is kept. The error is a *Fault if the text is
// empty, not text, or over the limits.
func ParseRecipe(text string) (*Recipe, error) {
	if fault := checkText(text); fault != nil {
		return nil, fault
	}
	r := &Recipe{}
	p := recipeReader{recipe: r}
	for i, raw := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		line := Line{Number: i + 1, Text: strings.TrimSpace(raw)}
		if line.Text == "" {
			p.blank = true
			continue
		}
		if len(r.Lines) == MaxLines {
			return nil, &Fault{Line: line.Number, Reason: fmt.Sprintf("has more than %d lines", MaxLines), Hint: "paste one recipe at a time"}
		}
		p.line(&line)
		r.Lines = append(r.Lines, line)
		p.blank = false
	}
	r.Metric = metric(r.Lines)
	return r, nil
}

// checkText says why text cannot be a recipe, or nil.
func checkText(text string) *Fault {
	switch {
	case len(text) > MaxRecipe:
		return &Fault{Reason: fmt.Sprintf("is too long for one recipe: %d kB, where %d kB is the most", (len(text)+1023)>>10, MaxRecipe>>10),
			Part: firstWords(text), Hint: "paste the title, the servings and the ingredients"}
	case strings.TrimSpace(text) == "":
		return &Fault{Reason: "there is no text to read", Hint: "paste a recipe with its ingredients, a line each"}
	case !utf8.ValidString(text) || strings.ContainsRune(text, 0):
		return &Fault{Reason: "this is not plain text", Hint: "save it as a text file (UTF-8) or paste the recipe's words"}
	}
	return nil
}

func firstWords(s string) string {
	const most = 20
	s = strings.ToValidUTF8(strings.TrimSpace(s[:min(len(s), 80)]), "")
	if runes := []rune(s); len(runes) > most {
		s = string(runes[:most]) + "…"
	}
	return s
}

// ParseLine reads one ingredient line.
func ParseLine(text string) Line {
	line := Line{Number: 1, Text: strings.TrimSpace(text)}
	line.read()
	return line
}

// read fills in the items of an ingredient line.
func (l *Line) read() {
	if len(l.Text) > MaxLine {
		l.Fault = &Fault{Line: l.Number, Column: 1, Part: firstWords(l.Text), Reason: "is too long to be one ingredient",
			Hint: "put each ingredient on a line of its own"}
		l.Items = []Item{{Uncounted: "not read"}}
		return
	}
	text := clean(l.Text)
	start := bullet(text)
	items, fault := readItems(strings.TrimSpace(text[start:]), 0)
	l.Items = items
	if fault != nil {
		l.Fault = fault
		l.Fault.Line = l.Number
		l.Fault.Column += utf8.RuneCountInString(text[:start])
	}
}

// bullet returns the length of what precedes the ingredient proper: list
// marks, boxes, emoji, "1." and "2)".
func bullet(s string) int {
	i := 0
	for i < len(s) {
		r, width := utf8.DecodeRuneInString(s[i:])
		if unicode.IsLetter(r) || isDigit(r) || vulgar[r] != [2]int64{} || r == '(' || r == '.' || r == '~' || r == '"' || r == '\'' {
			break
		}
		i += width
	}
	j := i
	for j < len(s) && isDigit(rune(s[j])) {
		j++
	}
	if j > i && j-i <= 2 && j+1 < len(s) && (s[j] == '.' || s[j] == ')') && s[j+1] == ' ' {
		return j + 2
	}
	return i
}

// recipeReader sorts the lines of a recipe as they come.
type recipeReader struct {
	recipe  *Recipe
	method  bool // directions have begun
	started bool // an ingredient has been seen
	blank   bool // the line before was blank
}

func (p *recipeReader) line(l *Line) {
	r := p.recipe
	plain := strings.TrimSpace(clean(l.Text))
	plain = plain[bullet(plain):]
	lower := strings.ToLower(strings.TrimSpace(strings.Trim(plain, "*_# ")))
	bare := strings.TrimRight(lower, ": ")
	switch {
	case len(l.Text) > MaxLine && p.method, bare == "":
		l.Kind = Note
		if p.method {
			r.Method = append(r.Method, l.Text)
		}
	case sections[bare] == sectionIngredients:
		l.Kind, p.method = Heading, false
	case sections[bare] == sectionMethod:
		l.Kind, p.method = Heading, true
	case sections[bare] == sectionOther:
		l.Kind, p.method = Heading, true
	case p.yield(l, lower):
	case p.method || isNote(lower):
		l.Kind = Note
		if p.method {
			r.Method = append(r.Method, l.Text)
		}
	case r.Title == "" && !p.started && !startsWithAmount(plain) && !strings.HasSuffix(lower, ":") && len(r.Lines) == p.leading():
		r.Title, l.Kind = strings.TrimSpace(strings.Trim(l.Text, "*_#\" ")), Note
	case isDirection(lower):
		l.Kind = Note
		r.Method = append(r.Method, l.Text)
	case isHeading(plain, lower):
		l.Kind = Heading
	default:
		l.Kind, p.started = Ingredient, true
		l.read()
	}
}

// leading counts the notes and headings at the front, which may precede a title.
func (p *recipeReader) leading() int {
	n := 0
	for _, l := range p.recipe.Lines {
		if l.Kind == Ingredient {
			break
		}
		n++
	}
	return n
}

type section uint8

const (
	sectionNone section = iota
	sectionIngredients
	sectionMethod
	sectionOther
)

// sections are the usual headings of the parts of a recipe.
var sections = func() map[string]section {
	m := make(map[string]section)
	for _, w := range []string{"ingredients", "ingredient list", "you will need", "you'll need", "what you need", "shopping list", "ingredients list"} {
		m[w] = sectionIngredients
	}
	for _, w := range []string{"directions", "method", "instructions", "preparation", "steps", "procedure", "how to make it", "to make",
		"what to do", "directions and notes", "cooking instructions"} {
		m[w] = sectionMethod
	}
	for _, w := range []string{"notes", "note", "nutrition", "nutrition facts", "nutrition information", "tips", "tip", "storage", "variations", "cook's notes", "source"} {
		m[w] = sectionOther
	}
	return m
}()

// yield reads a line that tells the servings.
func (p *recipeReader) yield(l *Line, lower string) bool {
	if len(lower) > 120 || !yieldPattern.MatchString(lower) {
		return false
	}
	servings, ok := readYield(clean(l.Text))
	if !ok {
		return false
	}
	l.Kind = Note
	if servings.Low.Sign() <= 0 {
		l.Fault = &Fault{Line: l.Number, Column: 1, Part: l.Text, Reason: "gives no number of servings", Hint: "write it like \"serves 6\""}
		return true
	}
	if p.recipe.Servings.Low == nil {
		p.recipe.Servings, p.recipe.Yield = servings, l.Text
	}
	return true
}

// yieldPattern finds the lines worth reading for a yield.
var yieldPattern = regexp.MustCompile(`\b(serv|yield|makes|portion|feeds|people|persons|number of|for )`)

// readYield reads "Serves 4–6", "Yield: 24 muffins", "Makes 1 loaf (12
// slices)", "6 servings", "Servings: 8", "Makes about 3 dozen". What counts
// is servings, portions or slices if they are named, else the first number.
func readYield(s string) (Quantity, bool) {
	s = strings.TrimSpace(s)
	s = s[bullet(s):]
	tokens := parseNode(strings.NewReplacer("*", " ", "_", " ", ":", " ").Replace(s))
	r := &reader{text: s}
	var found []Quantity
	var servings *Quantity
	keyword := false
	take := func(n *amountNode, next string) {
		a := r.amountOf(n)
		if a == nil || len(a.Terms) == 0 {
			return
		}
		t := a.Terms[0]
		if t.Measure != nil && t.Measure.Kind != Count && t.Measure.Kind != Container {
			return
		}
		q := t.Quantity
		found = append(found, q)
		name := next
		if t.Measure != nil {
			name = t.Measure.Name
		}
		switch strings.ToLower(name) {
		case "serving", "servings", "portion", "portions", "slice", "people", "persons", "adults", "squares", "square", "wedge":
			if servings == nil {
				servings = &q
			}
		}
	}
	parts := tokens.Parts
	if tokens.Lead != nil {
		take(tokens.Lead, nextWord(parts))
		if servings == nil || !onlyServings(parts) {
			return Quantity{}, false
		}
		return *servings, true
	} else {
		if len(parts) == 0 {
			return Quantity{}, false
		}
		switch first, second := strings.ToLower(parts[0].Word), nextWord(parts[min(1, len(parts)):]); {
		case first == "serves" || first == "servings" || first == "serving" && second != "size" || first == "yield" || first == "yields" || first == "makes" || first == "portions" || first == "feeds":
			keyword = true
		case first == "number" && second == "of", first == "recipe" && (second == "serves" || second == "makes" || second == "yields" || second == "yield"), first == "for" && len(parts) <= 4:
			keyword = true
		}
	}
	if !keyword {
		return Quantity{}, false
	}
	isFor := len(parts) > 0 && strings.EqualFold(parts[0].Word, "for")
	for i, part := range parts {
		if part.Amount != nil {
			take(part.Amount, nextWord(parts[i+1:]))
		}
		if part.Group != nil {
			for j, inner := range part.Group.Parts {
				if inner.Amount != nil {
					take(inner.Amount, nextWord(part.Group.Parts[j+1:]))
				}
			}
		}
		if n, ok := numberWords[strings.ToLower(part.Word)]; ok {
			q := Quantity{big.NewRat(n[0], n[1]), big.NewRat(n[0], n[1])}
			if len(found) > 0 && strings.EqualFold(part.Word, "dozen") {
				continue
			}
			found = append(found, q)
			if w := nextWord(parts[i+1:]); w == "servings" || w == "people" || w == "portions" {
				servings = &q
			}
		}
	}
	switch {
	case servings != nil:
		return *servings, true
	case len(found) > 0 && !isFor:
		return found[0], true
	}
	return Quantity{}, false
}

// onlyServings reports whether nothing but the name of servings follows, so
// that "2 slices bacon" is no yield.
func onlyServings(parts []*partNode) bool {
	for _, p := range parts {
		switch strings.ToLower(p.Word) {
		case "serving", "servings", "portions", "people", "generous", "main-course", "main", "side", "per", "recipe", "total", "or", "more", "adults", "persons":
		default:
			return false
		}
	}
	return true
}

func nextWord(parts []*partNode) string {
	for _, p := range parts {
		if p.Word != "" {
			return strings.ToLower(p.Word)
		}
	}
	return ""
}

func startsWithAmount(s string) bool {
	first, _ := utf8.DecodeRuneInString(s)
	if unicode.IsLetter(first) {
		word := strings.ToLower(s[:scanWord(s, 0)])
		if _, ok := numberWords[word]; !ok && word != "a" && word != "an" && !hedges[word] {
			return false
		}
	}
	node := parseNode(s[:min(len(s), MaxLine)])
	return node.Lead != nil && (node.Lead.Sum.First.Count == nil || node.Lead.Sum.First.Count.Low.One == "" || node.Lead.Sum.First.Unit != "")
}

// isNote reports lines of times, sources and serving sizes.
func isNote(lower string) bool {
	for _, start := range []string{"prep time", "cook time", "total time", "cooking time", "preparation time", "ready in", "serving size", "time:", "active time",
		"difficulty", "source:", "from:", "adapted from", "recipe by", "author", "photo", "oven:", "oven temperature", "prep:", "cook:", "http://", "https://",
		"from ", "note:", "notes:", "tip:", "variation:", "you will also need", "you'll also need", "nb:", "nb ", "n.b.", "special equipment", "equipment", "subject:", "to:", "date:", "sent:", "hi ", "hello", "dear ", "thanks", "thank you", "regards"} {
		if strings.HasPrefix(lower, start) {
			return true
		}
	}
	if strings.HasPrefix(lower, "(") && strings.HasSuffix(lower, ")") && strings.Count(lower, "(") == 1 && !strings.ContainsAny(lower, "0123456789") {
		return true
	}
	if strings.Contains(lower, " per serving") && !startsWithAmount(lower) {
		return true
	}
	named, _, _ := strings.Cut(lower, ",")
	for _, w := range strings.FieldsFunc(named, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if equipment[w] {
			return true
		}
	}
	return strings.Contains(lower, "kitchen roll") || strings.Contains(lower, "kitchen paper") || strings.Contains(lower, "cling film") || strings.Contains(lower, "cocktail sticks")
}

// isDirection reports sentences that tell what to do.
func isDirection(lower string) bool {
	fields := strings.Fields(lower)
	if len(fields) < 3 {
		return false
	}
	first := strings.Trim(fields[0], ",.:;")
	if verbs[first] && !strings.HasSuffix(lower, "for serving") && !strings.HasSuffix(lower, "to serve") {
		return len(fields) >= 5 || strings.HasSuffix(lower, ".") || strings.ContainsAny(lower, "°")
	}
	return len(fields) >= 8 && strings.HasSuffix(lower, ".") && !startsWithAmount(lower)
}

// isHeading reports a line that names a part of the dish.
func isHeading(plain, lower string) bool {
	words := strings.Fields(strings.Trim(lower, "*_#- "))
	looks := strings.HasSuffix(lower, ":") ||
		strings.HasPrefix(lower, "for the ") && len(words) <= 6 ||
		strings.HasPrefix(lower, "to ") && len(words) <= 3 ||
		len(words) > 0 && len(words) <= 3 && headingWords[words[len(words)-1]] && !strings.ContainsAny(lower, ",(")
	return looks && !startsWithAmount(plain)
}

// metric reports whether the amounts are in metric measures only, apart from
// spoons and counts.
func metric(lines []Line) bool {
	found := false
	for _, l := range lines {
		for _, item := range l.Items {
			if item.Amount == nil {
				continue
			}
			for _, t := range item.Amount.Terms {
				if t.Each != nil {
					t = *t.Each
				}
				if t.Measure == nil {
					continue
				}
				switch t.Measure.Name {
				case "cup", "oz", "lb", "fl oz", "pint", "quart", "gallon", "stick":
					return false
				case "g", "kg", "ml", "l", "dl", "cl":
					found = true
				}
			}
		}
	}
	return found
}
