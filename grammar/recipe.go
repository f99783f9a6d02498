package grammar

import (
	"fmt"
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
	British  bool     // read as British: metric throughout, or with words that only British recipes have
	Twice    bool     // servings are told anew after the ingredients began: two recipes in one

	servingsNote, noteFor string // see NoteOfServings
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
	for i, raw := range strings.Split(lineEnds.Replace(text), "\n") {
		line := Line{Number: i + 1, Text: strings.TrimSpace(raw)}
		if line.Text == "" {
			continue
		}
		if len(r.Lines) == MaxLines {
			return nil, &Fault{Line: line.Number, Reason: fmt.Sprintf("has more than %d lines", MaxLines), Hint: "paste one recipe at a time"}
		}
		p.line(&line)
		r.Lines = append(r.Lines, line)
	}
	p.toldInTalk()
	p.settleYield()
	r.Title = titleYield.ReplaceAllString(r.Title, "$1")
	r.Metric = metric(r.Lines)
	r.British = r.Metric || british(r.Lines)
	return r, nil
}

// lineEnds makes one of all the line ends that programs write.
var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n")

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
func (l *Line) read() { l.readFrom(l.Text) }

// readFrom reads the items from the part of the line that is the ingredient.
func (l *Line) readFrom(typed string) {
	if len(l.Text) > MaxLine {
		l.Fault = &Fault{Line: l.Number, Column: 1, Part: firstWords(l.Text), Reason: "is too long to be one ingredient",
			Hint: "put each ingredient on a line of its own"}
		l.Items = []Item{{Uncounted: "not read"}}
		return
	}
	text := clean(l.Text)
	start := max(0, strings.LastIndex(text, clean(typed)))
	start += bullet(text[start:])
	ingredient := strings.TrimLeft(text[start:], " ")
	items, fault := readItems(strings.TrimSpace(ingredient), 0)
	l.Items = items
	if fault != nil {
		l.Fault = fault
		l.Fault.Line = l.Number
		l.Fault.Column += utf8.RuneCountInString(text[:len(text)-len(ingredient)])
		l.Fault.Column = min(l.Fault.Column, utf8.RuneCountInString(text)) // "#303 can" is read longer than it is
	}
}

// bullet returns the length of what precedes the ingredient proper: list
// marks, boxes, emoji, "1." and "2)".
func bullet(s string) int {
	i := 0
	for i < len(s) {
		r, width := utf8.DecodeRuneInString(s[i:])
		if unicode.IsLetter(r) || isDigit(r) || vulgar[r] != [2]int64{} || r == '(' || r == '.' || r == '~' || r == '"' || r == '\'' || r == '/' || lostSign.MatchString(s[i:]) || numberedCanPattern.MatchString(s[i:]) && (r == '#') ||
			r == '|' && strings.HasPrefix(strings.TrimLeft(s[i+width:], " "), "/") {
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
	section section // of the last heading that begins one
	steps   bool    // numbered directions have begun
	started bool    // an ingredient has been seen
	weak    bool    // the servings were told in passing only
	facts   bool    // the line before told figures of nutrition
	beside  string  // the heading of what is put on the dish or beside it, in lower case
	bare    []int   // lines of a number of foods alone: made, or needed
}

func (p *recipeReader) line(l *Line) {
	r := p.recipe
	plain := strings.TrimSpace(clean(l.Text))
	plain = plain[bullet(plain):]
	lower := strings.ToLower(strings.TrimSpace(strings.Trim(plain, "*_# ")))
	bare := strings.TrimRight(lower, ": ")
	lead, led := afterLead(plain) // "To serve: 4 naans"
	if led {
		plain, lower = lead, strings.ToLower(lead)
	}
	if p.section == sectionOther && (startsWithAmount(plain) || strings.HasSuffix(lower, ":") && len(lower) < 40) && !strings.HasSuffix(lower, ".") {
		p.section = sectionNone // the notes are over
	}
	past := p.section == sectionMethod || p.section == sectionOther
	facts := p.facts
	p.facts = false
	untitled := r.Title == "" && !p.started && !startsWithAmount(plain) && !strings.HasSuffix(lower, ":")
	switch section := sections[bare]; {
	case section != sectionNone:
		l.Kind, p.section = Heading, section
	case p.heading(l, lower):
	case p.yield(l, lower), !led && p.maybeYield(l, plain, past):
	case nutritionFacts(lower, facts):
		l.Kind, p.facts = Note, true
	case isClutter(lower):
		l.Kind = Note
		if p.started && cookFor.MatchString(lower) {
			r.Method = append(r.Method, l.Text)
		}
	case !past && (untitled || isNote(lower) || isDirection(lower) || isHeading(plain, lower)) && holdsMeasure(plain) && !isSentence(lower),
		!past && len(plain) < len(l.Text) && startsWithAmount(plain):
		l.Kind, p.started = Ingredient, true
		l.readFrom(plain)
	case !p.started && strings.HasPrefix(lower, "subject:"): // of an e-mail
		r.Title, l.Kind = strings.TrimSpace(plain[len("subject:"):]), Note
	case past || bare == "" || isNote(lower):
		l.Kind = Note
		if p.section == sectionMethod || !past && p.started && isDirection(lower) && isSentence(lower) && !timesNote.MatchString(lower) { // "Drain on kitchen paper."
			r.Method = append(r.Method, l.Text)
		}
	case untitled && isProse(plain):
		l.Kind = Note
	case untitled:
		r.Title, l.Kind = strings.TrimSpace(strings.Trim(l.Text, "*_#\" ")), Note
	case p.started && p.toppings(l, plain):
	case isDirection(lower), p.steps && numbered(l.Text) && !holdsMeasure(plain), p.started && directs(plain, lower):
		l.Kind = Note
		r.Method = append(r.Method, l.Text)
		p.steps = p.steps || p.started && numbered(l.Text)
	case isHeading(plain, lower):
		l.Kind = Heading
	default:
		l.Kind, p.started = Ingredient, true
		l.read()
	}
	if l.Kind == Note && !past && !p.started {
		p.servingsIn(l)
	}
	switch l.Kind {
	case Heading:
		p.beside = ""
		if putOn.MatchString(bare) {
			p.beside = strings.TrimSpace(strings.TrimSuffix(bare, "(optional)"))
		}
	case Note:
		if len(r.Method) > 0 {
			p.beside = ""
		}
	case Ingredient:
		for i := range l.Items {
			if p.beside != "" && l.Items[i].Amount == nil && l.Items[i].Uncounted == "no amount" {
				l.Items[i].Uncounted = p.beside
			}
		}
	}
}

// numbered reports a line that begins with a number of its own: "2. Stir".
func numbered(text string) bool {
	return len(text) > 2 && isDigit(rune(text[0])) && (text[1] == '.' || text[1] == ')' || isDigit(rune(text[1])) && (text[2] == '.' || text[2] == ')'))
}

// servingsIn finds the servings told in passing before the ingredients: in the
// title ("Muffins (makes 12)"), beside the times, in talk.
func (p *recipeReader) servingsIn(l *Line) {
	if p.recipe.Servings.Low != nil {
		return
	}
	text := clean(l.Text)
	at := servingsPattern.FindStringSubmatchIndex(text)
	if at == nil {
		before, _, _ := strings.Cut(text, ":")
		if some, ok := forSome(before); ok && l.Text == p.recipe.Title {
			p.recipe.serve(some, l.Text, fmt.Sprintf("%s servings, from %q", some, l.Text))
		}
		return
	}
	if at[4] >= 0 && isProse(text) && strings.HasSuffix(text[:at[1]], "people") && !strings.HasSuffix(strings.ToLower(text[:at[4]]), "for ") {
		return // "we had 12 people round"
	}
	told := at[2]
	if told < 0 {
		told = at[4]
	}
	node := parseNode(text[told:min(len(text), told+MaxLine)])
	if node.Lead == nil {
		return
	}
	a, fault := node.Lead.amount()
	if fault != nil || a.Terms[0].Quantity.Low.Sign() <= 0 {
		return
	}
	if strings.Contains(strings.ToLower(text[at[0]:told]), "makes") && wholeThings(firstSentence(text[told:], 0), a.Terms[0].Quantity) {
		return // "Makes 2 loaves"
	}
	// "makes 6 cups" tells a yield and no servings, "good for 3 days" neither;
	// the inches of "serves 4 in 30 minutes" are none.
	switch m := a.Terms[0].Measure; {
	case m != nil && m.Kind != Count && m.Kind != Length:
		return
	case m == nil && len(node.Parts) > 0 && timeWords[strings.ToLower(node.Parts[0].Word)]:
		return
	}
	note := ""
	if isProse(text) {
		note = fmt.Sprintf("%s servings, from %q", a.Terms[0].Quantity, firstSentence(text, at[0]))
	}
	p.recipe.serve(a.Terms[0].Quantity, l.Text, note)
	p.weak = note != ""
}

// servingsPattern finds where a number of servings may be told.
var servingsPattern = regexp.MustCompile(`(?i)\b(?:serves|feeds|good for|enough for|makes|servings per recipe|servings)[:\s]+(?:about |approx\.? |approximately )?(\d{1,3})\b|\b(\d{1,3}(?:(?: ?[-–] ?| to | or )\d{1,3})?) (?:servings|portions|people)\b`)

var timeWords = set("day days week weeks month months hour hours hr hrs minute minutes min mins")

// afterLead drops what may stand before an ingredient on its line: "For the
// pan: 1 tbsp butter". The second result is false if the line is none such.
func afterLead(plain string) (string, bool) {
	before, after, found := strings.Cut(plain, ":")
	after = strings.TrimSpace(after)
	if !found || after == "" || !startsWithAmount(after) {
		return "", false
	}
	lower := strings.ToLower(before)
	words := strings.Fields(lower)
	return after, len(words) > 0 && len(words) <= 4 && (words[0] == "for" || words[0] == "to" || headingWords[words[len(words)-1]] || strings.HasPrefix(lower, "ingredient"))
}

// holdsMeasure reports whether the line holds an amount with a measure, which
// makes it an ingredient whatever word it begins with: "Brown sugar 1 cup".
func holdsMeasure(plain string) bool {
	if !strings.ContainsAny(plain, "0123456789½¼¾⅓⅔⅛") {
		return false
	}
	node := parseNode(plain[:min(len(plain), MaxLine)])
	hasUnit := func(n *amountNode) bool {
		return n != nil && (!n.Sum.First.unitless() && n.Sum.First.Unit == "" || kitchenUnit(n.Sum.First.Unit))
	}
	if hasUnit(node.Lead) {
		return true
	}
	for _, p := range node.Parts {
		if hasUnit(p.Amount) {
			return true
		}
	}
	return false
}

func kitchenUnit(unit string) bool {
	m, ok := MeasureNamed(unit)
	return ok && m.Kind != Length && m.Name != "serving" && m.Name != "recipe" || strings.HasPrefix(strings.ToLower(unit), "fl")
}

// isSentence reports a line that tells what to do, measures or not: "Add 2
// cups of water and stir." Words that are foods as well do not begin one.
func isSentence(lower string) bool {
	fields := strings.Fields(lower)
	if len(fields) < 3 {
		return false
	}
	first := strings.Trim(fields[0], ",.:;")
	switch {
	case strings.HasSuffix(lower, ".") && len(fields) >= 6 && !startsWithAmount(lower):
		return true
	case strings.ContainsAny(lower, "°"), strings.Contains(lower, " minutes"), strings.Contains(lower, " until "), isNote(lower):
		return true
	}
	return verbs[first] && !foodVerbs[first]
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
				case "cup", "oz", "lb", "fl oz", "quart", "gallon":
					return false
				case "g", "kg", "ml", "l", "dl", "cl":
					found = true
				}
			}
		}
	}
	return found
}
