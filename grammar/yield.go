package grammar

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

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
