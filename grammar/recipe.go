package grammar

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
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

// yield reads a line that tells the servings.
func (p *recipeReader) yield(l *Line, lower string) bool {
	if len(lower) > 120 || !yieldPattern.MatchString(lower) {
		return false
	}
	servings, note, ok := readYield(clean(l.Text))
	if some, isFor := forSome(lower); !ok && isFor && (strings.HasPrefix(lower, "for ") || !p.started && p.recipe.Title != "") {
		servings, ok = some, true
	}
	if !ok {
		return false
	}
	l.Kind = Note
	if servings.Low == nil {
		return true
	}
	if servings.Low.Sign() <= 0 {
		l.Fault = &Fault{Line: l.Number, Column: 1, Part: l.Text, Reason: "gives no number of servings", Hint: "write it like \"serves 6\""}
		return true
	}
	p.told(servings, l.Text, note)
	return true
}

// yieldPattern finds the lines worth reading for a yield.
// titleYield is a yield that stands behind a title: "Lentil soup - serves 6".
var titleYield = regexp.MustCompile(`(?i)^(.*[^\s,(–—-])\s*[,(–—-]+\s*(?:serves|makes|feeds|yields?)\b.*$`)

var yieldPattern = regexp.MustCompile(`\b(serv|yield|makes|portion|feeds|people|persons|number of|for )|^(?:this )?(?:cake |recipe |loaf )?(?:cuts|slices) into \S`)

// readYield reads "Serves 4–6", "Yield: 24 muffins", "Makes 1 loaf (12
// slices)", "6 servings", "Servings: 8", "Makes about 3 dozen". What counts
// is servings, portions or slices if they are named, else the first number.
// A line that speaks of them without a number ("serves a crowd") gives a
// quantity whose Low is nil; ok is false if the line does not speak of them.
//
// Of several things with slices each ("2 loaves, 12 slices each") the slices of
// all count; the note then says so.
func readYield(s string) (servings Quantity, note string, ok bool) {
	s = strings.TrimSpace(s)
	s = yieldMarks.Replace(s[bullet(s):])
	if strings.HasPrefix(s, "(") && strings.HasSuffix(s, ")") && strings.Count(s, "(") == 1 {
		s = s[1 : len(s)-1]
	}
	node := parseNode(s)
	y := yieldReader{text: s}
	if node.Lead != nil { // "6 servings"
		y.take(node.Lead, "", nextWord(node.Parts))
		return y.servings, "", y.servings.Low != nil && onlyServings(node.Parts)
	}
	words := yieldWords(node.Parts)
	if words == noYield {
		return Quantity{}, "", false
	}
	y.read(node.Parts)
	switch {
	case y.servings.Low != nil:
		return y.servings, y.note, true
	case words == yieldFor: // "for the sauce"
		return Quantity{}, "", false
	case wholeThings(s, y.first):
		return Quantity{}, "", true
	}
	return y.first, "", true
}

var yieldMarks = strings.NewReplacer("*", " ", "_", " ", ":", " ")

// yieldReader gathers the numbers of a line that tells a yield.
type yieldReader struct {
	text            string
	first, servings Quantity // the first number; the first of servings
	note            string
}

func (y *yieldReader) read(parts []*partNode) {
	before := ""
	for i, part := range parts {
		switch {
		case part.Amount != nil:
			y.take(part.Amount, before, nextWord(parts[i+1:]))
			y.each(part.Amount, strings.ToLower(y.text[part.Amount.Pos.Offset:]))
		case part.Group != nil:
			y.read(part.Group.Parts)
		case isNumberWord(part.Word): // "four to six", "two dozen"
			if node := parseNode(y.text[part.Pos.Offset:]); node.Lead != nil {
				y.take(node.Lead, before, nextWord(node.Parts))
			}
		}
		before = strings.ToLower(part.Word)
	}
}

func isNumberWord(word string) bool {
	_, ok := numberWords[strings.ToLower(word)]
	return ok
}

// take keeps the number of an amount between two words.
func (y *yieldReader) take(n *amountNode, before, after string) {
	a, fault := n.amount()
	if fault != nil {
		return
	}
	t := a.Terms[0]
	name := after
	if t.Measure != nil {
		if t.Measure.Kind != Count && t.Measure.Kind != Container {
			return
		}
		name = t.Measure.Name
	}
	if y.first.Low == nil {
		y.first = t.Quantity
	}
	if y.servings.Low == nil && (servingNames[name] || before == "serves" || before == "servings" || before == "feeds") {
		y.servings = t.Quantity
	}
}

// each reads the servings that each of the things gives, or how many of them
// make one.
func (y *yieldReader) each(n *amountNode, text string) {
	a, fault := n.amount()
	if fault != nil || y.first.Low == nil || len(a.Terms) != 1 || a.Terms[0].Each != nil {
		return
	}
	q := a.Terms[0].Quantity
	typed := strings.TrimLeft(text[len(numberTyped.FindString(text)):], " ")
	switch {
	case y.note != "" || q.Low.Sign() <= 0:
	case eachPattern.MatchString(typed):
		if all, ok := timesEach(y.first, q); ok {
			y.servings, y.note = all, fmt.Sprintf("%s servings: %s times %s", all, y.first, q)
		}
	case perServing.MatchString(typed) && !y.first.IsRange() && !q.IsRange() && q.Low.Cmp(one) > 0 && y.servings.Low == nil:
		if parts := new(big.Rat).Quo(y.first.Low, q.Low); parts.IsInt() {
			y.servings = Quantity{parts, parts}
			y.note = fmt.Sprintf("%s servings: %s, %s to a serving", y.servings, y.first, q)
		}
	}
}

var numberTyped = regexp.MustCompile(`^[0-9/ ½¼¾.,–-]+`)

var servingNames = set("serving servings portion portions slice people persons adults squares square wedge")

// yieldKind is how a line speaks of a yield, if it does.
type yieldKind uint8

const (
	noYield  yieldKind = iota
	yieldFor           // "for 4 people": a yield only if it names them
	yieldSaid
)

func yieldWords(parts []*partNode) yieldKind {
	if len(parts) == 0 {
		return noYield
	}
	second := nextWord(parts[1:])
	switch strings.ToLower(parts[0].Word) {
	case "serves", "servings", "yield", "yields", "makes", "portions", "feeds":
		return yieldSaid
	case "serving":
		if second != "size" {
			return yieldSaid
		}
	case "cuts", "slices": // "Cuts into 10 slices"
		if second == "into" {
			return yieldSaid
		}
	case "number":
		if second == "of" {
			return yieldSaid
		}
	case "recipe":
		if second == "serves" || second == "makes" || second == "yields" || second == "yield" {
			return yieldSaid
		}
	case "for":
		if len(parts) <= 4 {
			return yieldFor
		}
	}
	return noYield
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
		"from ", "note:", "notes:", "tip:", "variation:", "you will also need", "you'll also need", "nb:", "nb ", "n.b.", "special equipment", "equipment", "subject:", "to:", "sent:", "cc:", "hi,", "hello,", "dear all", "hey", "date:", "sent:", "hi ", "hello", "dear ", "thanks", "thank you", "regards"} {
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

// timesNote finds the beginning of a note of times or of a setting.
var timesNote = regexp.MustCompile(`^[a-z]+( time)?:|^[a-z]+ time\b`)

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

// IsDirection reports whether a text of one line tells what to do with the food:
// "Fry the onions for 8 minutes. Stir in the spices."
func IsDirection(text string) bool {
	plain := strings.TrimSpace(clean(text))
	lower := strings.ToLower(plain)
	return isDirection(lower) && strings.HasSuffix(lower, ".")
}

// directs reports a line after the ingredients that tells what to do in few
// words: "Refrigerate overnight.", "Flour the chicken.", "Enjoy!". It begins with
// a verb of the kitchen and has no amount of an ingredient.
func directs(plain, lower string) bool {
	if ovenLine.MatchString(lower) {
		return true
	}
	if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(lower, "*_# (")); !unicode.IsLetter(first) { // most ingredients, and they need no parsing for it
		return false
	}
	if startsWithAmount(plain) || holdsMeasure(plain) || strings.HasSuffix(lower, ":") {
		return false
	}
	if strings.HasSuffix(lower, "!") { // "Yum!"
		return true
	}
	words := strings.FieldsFunc(lower, func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' })
	if len(words) == 0 {
		return false
	}
	for _, name := range notCounted { // "steam rice, to serve"
		if strings.HasSuffix(strings.Trim(lower, "() ."), name) {
			return false
		}
	}
	first, rest := words[0], words[1:]
	if fryWays[first] && len(rest) > 0 && (rest[0] == "fry" || rest[0] == "saute" || rest[0] == "sauté" || rest[0] == "sear") { // "deep fry"
		first, rest = "fry", rest[1:]
	}
	if (first == "slow" || first == "pressure") && len(rest) > 0 && rest[0] == "cook" {
		first, rest = "cook", rest[1:]
	}
	ends := strings.HasSuffix(lower, ".") || strings.HasSuffix(lower, "!")
	switch {
	case speaks[first] && (len(rest) > 1 || len(rest) == 1 && ends):
		return true
	case len(rest) == 0:
		return bareVerbs[first] || ends && verbs[first] && !foodVerbs[first]
	case rest[0] == "of", rest[0] == "seasoning": // "drizzle of oil"
		return false
	case rest[0] == "the" || rest[0] == "your" || rest[0] == "both" || rest[0] == "all":
		return verbs[first] || actsOn[first]
	case ownAct[strings.Join(words[:2], " ")]:
		return true
	case !verbs[first] && first != "microwave":
		return false
	case first == "microwave" || foodVerbs[first]:
		return slices.ContainsFunc(rest, func(w string) bool { return timeWords[w] || tellsHow[w] })
	}
	return ends || tellsHow[rest[0]] || vessels[rest[len(rest)-1]] || slices.ContainsFunc(rest, func(w string) bool { return timeWords[w] || w == "overnight" || w == "until" })
}

// ovenLine finds a heat and a time alone: "350 for 1 hour".
var ovenLine = regexp.MustCompile(`^(?:oven )?(?:at |@ ?)?[2-5]\d\d ?(?:°|degrees|deg)? ?[fc]?,? (?:for |about )*\d+(?: ?(?:-|–|to) ?\d+)? ?(?:mins?|minutes?|hours?|hrs?)\.?$`)

// toppings reads "Toppings: cheese, sour cream", which names what is put on without
// amounts: none of it is counted, and each is said.
func (p *recipeReader) toppings(l *Line, plain string) bool {
	before, after, found := strings.Cut(plain, ":")
	before, after = strings.ToLower(strings.TrimSpace(before)), strings.TrimSpace(after)
	if !found || after == "" || len(plain) > MaxLine || !putOn.MatchString(before) || strings.ContainsAny(after, "0123456789½¼¾⅓⅔⅛") {
		return false
	}
	before = strings.TrimSpace(strings.TrimSuffix(before, "(optional)"))
	l.Kind, p.started = Ingredient, true
	for piece := range strings.SplitSeq(strings.TrimRight(after, ". "), ",") {
		piece = strings.TrimSpace(piece)
		for _, lead := range []string{"and ", "or "} {
			piece, _ = strings.CutPrefix(piece, lead)
		}
		if piece == "" {
			continue
		}
		items, _ := readItems(piece, 0)
		for _, item := range items {
			if item.Amount == nil {
				item.Uncounted = before
			}
			l.Items = append(l.Items, item)
		}
	}
	return len(l.Items) > 0
}

// putOn finds what names things that are put on a dish or beside it.
var putOn = regexp.MustCompile(`^(optional |suggested |your favou?rite |favou?rite )?(toppings?|garnish(es)?|accompaniments?|to serve|for serving|serve with|to garnish|to top|add-ons?|fixings)( \(?optional\)?)?$`)

// isHeading reports a line that names a part of the dish.
func isHeading(plain, lower string) bool {
	words := strings.Fields(strings.Trim(lower, "*_#- "))
	shouted := plain == strings.ToUpper(plain)
	if shouted && len(words) == 1 && shoutedHeading[words[0]] {
		return true
	}
	looks := strings.HasSuffix(lower, ":") ||
		strings.HasPrefix(lower, "for the ") && len(words) <= 6 ||
		strings.HasPrefix(lower, "to ") && len(words) <= 3 ||
		len(words) > 0 && (len(words) == 1 || shouted && len(words) <= 3) && headingWords[words[len(words)-1]] && !strings.ContainsAny(lower, ",(")
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
