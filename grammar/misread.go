package grammar

import (
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"
)

// Numbers as scanners and hurried hands write them: a fraction with blanks
// around its stroke ("1/ 4"), and letters that look like digits ("l/4 tsp",
// "1O oz", "l egg"). Blanks change nothing; a letter read as a digit is told
// by a note of the item.

// misreadDigit turns the letters that look like digits into those.
var misreadDigit = strings.NewReplacer("l", "1", "I", "1", "|", "1", "O", "0", "o", "0", " ", "")

var (
	brokenFraction = regexp.MustCompile(`^([0-9lI|]{1,2} ?/ ?)([0-9lIOo]{1,2})`)
	misreadNumber  = regexp.MustCompile(`^[0-9lI|O][0-9lIOo]*(?:[.,][0-9lIOo]+)?`)
)

// scanMisread returns the end and the kind of such a number at s[i:]; the end
// is 0 if there is none.
func scanMisread(s string, i int) (end int, kind lexer.TokenType) {
	switch c := s[i]; {
	case !isDigit(rune(c)) && c != 'l' && c != 'I' && c != '|' && c != 'O':
		return 0, 0
	case i > 0 && isAlphanumeric(s[i-1]), i > 1 && (s[i-1] == '/' || s[i-1] == '.' || s[i-1] == ',') && isDigit(rune(s[i-2])):
		return 0, 0
	}
	if i > 0 && i+1 < len(s) && strings.EqualFold(s[i:i+2], "0z") && !unitLetters(s, i+2) {
		return i + 2, tokWeight // "8 0z"
	}
	if at := brokenFraction.FindStringSubmatchIndex(s[i:]); at != nil {
		if end := i + at[1]; kitchenFraction(s[i:i+at[3]], s[i+at[4]:end]) && endsNumber(s, end) {
			return end, tokFraction
		}
	}
	run := misreadNumber.FindString(s[i:])
	if run == "" {
		return lostSpace(s, i)
	}
	kind = tokInt
	if strings.ContainsAny(run, ".,") {
		kind = tokDecimal
	}
	if litres := strings.TrimSuffix(run, "l"); litres != run && litres != "" && !measureFollows(s, i+len(run)) {
		run = litres // "1l milk"
	}
	end = i + len(run)
	digits, letters := strings.ContainsAny(run, "0123456789"), strings.ContainsAny(run, "lIOo|")
	switch {
	case !letters:
	case digits && (endsNumber(s, end) && !unitLetters(s, end) || measureFollows(s, end)):
		return end, kind
	case digits:
	case len(run) > 1 && run[0] != 'O' && strings.Contains(run, "O") && measureFollows(s, end),
		len(run) > 1 && run[0] != 'O' && end < len(s) && s[end] == ' ' && measureFollows(s, end):
		return end, kind
	case len(run) == 1 && loneDigit(s, i):
		return end, kind
	default:
		return lostSpace(s, i)
	}
	return 0, 0
}

// kitchenFraction reports a proper fraction in lowest terms, as a kitchen has
// it, that is not written "1/2".
func kitchenFraction(above, below string) bool {
	if strings.Trim(above, "0123456789/") == "" && strings.Trim(below, "0123456789") == "" || !strings.ContainsAny(above+below, "0123456789") {
		return false
	}
	r, ok := parseDigits(above + below)
	if !ok || r.Cmp(one) >= 0 || r.Sign() <= 0 {
		return false
	}
	switch r.Denom().Int64() {
	case 2, 3, 4, 5, 6, 8, 16:
		return r.Denom().String() == misreadDigit.Replace(below)
	}
	return false
}

// endsNumber reports whether a number may end at s[end:].
func endsNumber(s string, end int) bool {
	return end >= len(s) || s[end] != '/' && s[end] != '%' && !isDigit(rune(s[end])) && (s[end] != '.' && s[end] != ',' || end+1 >= len(s) || !isDigit(rune(s[end+1])))
}

// unitLetters reports letters that follow at once.
func unitLetters(s string, end int) bool {
	return end < len(s) && (isAlphanumeric(s[end]) || s[end] >= utf8.RuneSelf || s[end] == '\'')
}

func isAlphanumeric(c byte) bool {
	return isDigit(rune(c)) || 'a' <= c|0x20 && c|0x20 <= 'z' || c >= utf8.RuneSelf
}

// measureFollows reports whether a volume or a weight is written at s[from:],
// at once or after a blank or a dash.
func measureFollows(s string, from int) bool {
	return kindFollows(s, from, Volume, Weight)
}

func kindFollows(s string, from int, kinds ...Kind) bool {
	if from < len(s) && (s[from] == ' ' || s[from] == '-') {
		from++
	}
	m, ok := MeasureNamed(s[from:scanWord(s, from)])
	return ok && isKind(m, kinds...)
}

// loneDigit reports whether the letter at s[i:] stands for the number that a
// line begins with: "l egg", "I cup sugar", but not "I like it with cream".
func loneDigit(s string, i int) bool {
	if before := strings.TrimSpace(s[:i]); before != "" && !hedges[strings.ToLower(before)] || s[i] == '|' || s[i] == 'O' {
		return false
	}
	rest := s[i+1:]
	if loneDigitRange.MatchString(rest) {
		return true
	}
	if len(rest) < 2 || rest[0] != ' ' {
		return false
	}
	if s[i] == 'l' || kindFollows(s, i+1, Volume, Weight, Count) {
		return true
	}
	words := strings.Fields(strings.ToLower(rest))
	return len(words) > 0 && len(words) <= 8 && !strings.HasSuffix(rest, ".") && !afterI[words[0]]
}

var loneDigitRange = regexp.MustCompile(`^(?: ?[-–] ?| to | or |\s)[0-9½¼¾⅓⅔⅛(]`)

// afterI are words that follow "I" in a sentence.
var afterI = set("like love use used add added make made have had always usually never often also am was will would can could think thought found find just really prefer",
	"got get served serve tried try did do don't didn't know want wanted cook cooked bake baked put substitute substituted sometimes recommend buy bought suggest skip",
	"skipped omit omitted keep kept eat ate cut hope should may might must doubled double halved need needed start started learned learnt grew took take")

// lostSpace reads "ltsp salt": the letter for the digit ran into the measure.
func lostSpace(s string, i int) (end int, kind lexer.TokenType) {
	if i > 0 || s[0] != 'l' && s[0] != 'I' {
		return 0, 0
	}
	word := s[1:scanWord(s, 0)]
	if m, ok := MeasureNamed(word); ok && len(word) >= 3 && (m.Kind == Volume || m.Kind == Weight) {
		return 1, tokInt
	}
	return 0, 0
}

// lostSign finds a sign that a program could not keep, beside a number: the ½ of
// "1½ cups" come as "1? cups".
var lostSign = regexp.MustCompile(`^[0-9]+ ?\x{FFFD}|^[0-9]+\? [a-zA-Z]|^\x{FFFD} ?(?:cups?|tsp|tbsp|teaspoons?|tablespoons?|oz|ounces?|pounds?|lbs?|pints?|quarts?)\b`)

// misreadNotes tells each number of s that holds a letter, and how it was read.
func misreadNotes(s string) []string {
	var notes []string
	for i := 0; i < len(s); i++ {
		end, _ := scanMisread(s, i)
		if end == 0 {
			continue
		}
		if strings.EqualFold(s[i:end], "0z") {
			notes = append(notes, `"0z" read as oz`)
		} else if typed := s[i:end]; strings.ContainsAny(typed, "lIOo|") {
			notes = append(notes, `"`+typed+`" read as `+misreadDigit.Replace(typed))
		}
		i = end - 1
	}
	return notes
}

// misreadWord reads a word with a 1 or a 0 among its letters, "f1our", as the
// word with the letters that look like those.
func misreadWord(word string) (string, bool) {
	if !digitInWord.MatchString(word) {
		return word, false
	}
	return strings.NewReplacer("1", "l", "0", "o").Replace(word), true
}

var digitInWord = regexp.MustCompile(`^[a-z]+(?:[01][a-z]+)+$`)
