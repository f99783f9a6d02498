package grammar

import (
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/alecthomas/participle/v2/lexer"
)

// The token kinds of a line. Words are sorted into kinds by the tables of
// measure.go and words.go, so that the grammar speaks of measures and sizes
// and not of spellings.
const (
	tokInt       lexer.TokenType = -(iota + 2) // 2, 1,000
	tokDecimal                                 // 1.5, .5, 1,5
	tokFraction                                // 1/2
	tokVulgar                                  // ½
	tokNumber                                  // two, half, dozen
	tokArticle                                 // a, an
	tokVolume                                  // cup, tbsp, ml
	tokWeight                                  // g, oz
	tokLength                                  // inch, cm
	tokCount                                   // clove, slice
	tokContainer                               // can, package
	tokSize                                    // large
	tokHedge                                   // about, heaped
	tokTimes                                   // x, ×
	tokDash                                    // - – —
	tokSlash                                   // /
	tokOpen                                    // ( [
	tokClose                                   // ) ]
	tokComma                                   // , ;
	tokWord                                    // anything with letters
	tokMark                                    // any other sign
)

var tokenNames = map[string]lexer.TokenType{
	"EOF": lexer.EOF, "Int": tokInt, "Decimal": tokDecimal, "Fraction": tokFraction, "Vulgar": tokVulgar,
	"Number": tokNumber, "Article": tokArticle, "Volume": tokVolume, "Weight": tokWeight, "Length": tokLength,
	"Count": tokCount, "Container": tokContainer, "Size": tokSize, "Hedge": tokHedge, "Times": tokTimes,
	"Dash": tokDash, "Slash": tokSlash, "Open": tokOpen, "Close": tokClose, "Comma": tokComma,
	"Word": tokWord, "Mark": tokMark,
}

// lineLexer is the participle definition of the tokens above. It is written
// by hand, not as regular expressions, because the kind of a word is a table
// look-up and because "c", "t" and "x" mean a measure only after a number.
type lineLexer struct{}

func (lineLexer) Symbols() map[string]lexer.TokenType { return tokenNames }

func (d lineLexer) Lex(filename string, r io.Reader) (lexer.Lexer, error) {
	b, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	return d.LexString(filename, string(b))
}

func (lineLexer) LexString(_ string, s string) (lexer.Lexer, error) {
	tokens := scan(s)
	balance(tokens)
	return &tokenList{tokens: tokens, end: len(s)}, nil
}

// tokenList hands out tokens already scanned.
type tokenList struct {
	tokens []lexer.Token
	next   int
	end    int
}

func (l *tokenList) Next() (lexer.Token, error) {
	if l.next >= len(l.tokens) {
		return lexer.EOFToken(lexer.Position{Offset: l.end, Line: 1, Column: l.end + 1}), nil
	}
	t := l.tokens[l.next]
	l.next++
	return t, nil
}

// clean replaces signs that mail programs and word processors write by the
// plain ones, one character for one, so that columns stay true.
func clean(s string) string {
	ascii := true
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf || s[i] < ' ' {
			ascii = false
			break
		}
	}
	if ascii {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch r {
		case '\u00a0', '\u2007', '\u202f', '\u2009', '\u200a', '\u2002', '\u2003', '\u3000', '\t', '\v', '\f':
			return ' '
		case '\u200b', '\u200c', '\u200d', '\u200e', '\u200f', '\ufeff', '\u202a', '\u202b', '\u202c', '\u2060', '\ufe0f':
			return ' '
		case '’', '‘', 'ʼ', '´':
			return '\''
		case '“', '”', '″':
			return '"'
		case '⁄', '∕':
			return '/'
		case '×', '✕':
			return '×'
		}
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
}

// scan splits one cleaned line into tokens. Positions hold the byte offset in
// s and the column in characters.
func scan(s string) []lexer.Token {
	tokens := make([]lexer.Token, 0, len(s)/4+2)
	column, counted := 1, 0
	add := func(kind lexer.TokenType, from, to int) {
		column += utf8.RuneCountInString(s[counted:from])
		counted = from
		tokens = append(tokens, lexer.Token{Type: kind, Value: s[from:to],
			Pos: lexer.Position{Offset: from, Line: 1, Column: column}})
	}
	afterNumber := func() bool {
		if len(tokens) == 0 {
			return false
		}
		t := tokens[len(tokens)-1]
		if n := len(tokens) - 2; n >= 0 && t.Type == tokDash && tokens[n].Pos.Offset+len(tokens[n].Value) == t.Pos.Offset {
			t = tokens[n] // "400-g can"
		}
		switch t.Type {
		case tokInt, tokDecimal, tokFraction, tokVulgar, tokNumber, tokArticle, tokHedge, tokSize:
			return true
		}
		return false
	}
	for i := 0; i < len(s); {
		if end, kind := scanMisread(s, i); end > 0 {
			add(kind, i, end)
			i = end
			continue
		}
		r, width := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == ' ':
			i += width
		case isDigit(r) || r == '.' && i+1 < len(s) && isDigit(rune(s[i+1])):
			end, kind := scanNumber(s, i)
			add(kind, i, end)
			i = end
		case r == '+' && i > 0 && isDigit(rune(s[i-1])) && i+1 < len(s) && s[i+1] == ' ': // "5+ lb": read over
			i += width
		case vulgar[r] != [2]int64{}:
			add(tokVulgar, i, i+width)
			i += width
		case (r == 'x' || r == 'X') && afterNumber() && i+1 < len(s) && isDigit(rune(s[i+1])): // "1x400g"
			add(tokTimes, i, i+width)
			i += width
		case unicode.IsLetter(r):
			end := scanWord(s, i)
			kind, end := sortWord(s, i, end, afterNumber())
			if n := len(tokens); kind == tokArticle && n > 0 && isVitamin(tokens[n-1].Value) { // "vitamin A"
				kind = tokWord
			}
			add(kind, i, end)
			i = end
		case r == '#' && afterNumber() && (i+1 == len(s) || !isDigit(rune(s[i+1]))): // "1# pork": pounds
			add(tokWeight, i, i+width)
			i += width
		case r == '"' && afterNumber() && s[i-1] != ' ' && !strings.Contains(s[:i], `"`): // 1" piece: inches, but not "00" flour
			add(tokLength, i, i+width)
			i += width
		default:
			add(sortMark(r), i, i+width)
			i += width
		}
	}
	return tokens
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// scanNumber returns the end and the kind of the number at s[i:]. A number
// followed at once by % is a word ("2% milk").
func scanNumber(s string, i int) (int, lexer.TokenType) {
	digits := func(j int) int {
		for j < len(s) && isDigit(rune(s[j])) {
			j++
		}
		return j
	}
	kind := tokInt
	end := digits(i)
	switch {
	case end < len(s) && s[end] == '/' && digits(end+1) > end+1:
		end, kind = digits(end+1), tokFraction
	case end < len(s) && s[end] == ',' && digits(end+1) == end+4 && end-i <= 3 && end > i && s[i] != '0':
		for end < len(s) && s[end] == ',' && digits(end+1) == end+4 {
			end = digits(end + 1) // 1,000
		}
	case end < len(s) && (s[end] == '.' || s[end] == ',') && digits(end+1) > end+1:
		end, kind = digits(end+1), tokDecimal
	}
	switch {
	case end < len(s) && s[end] == '%':
		return end + 1, tokWord
	case kind == tokFraction && leanRatio(s[i:end]):
		return end, tokWord
	}
	return end, kind
}

// leanRatio reports whether a fraction names lean and fat meat: "80/20".
func leanRatio(s string) bool {
	lean, fat, _ := strings.Cut(s, "/")
	l, err1 := strconv.Atoi(lean)
	f, err2 := strconv.Atoi(fat)
	return err1 == nil && err2 == nil && l+f == 100
}

// scanWord returns the end of the word at s[i:]: letters, then letters,
// digits, marks, inner hyphens, apostrophes and ampersands.
func scanWord(s string, i int) int {
	from := i
	for i < len(s) {
		r, width := utf8.DecodeRuneInString(s[i:])
		switch {
		case unicode.IsLetter(r) || unicode.IsMark(r):
		case isDigit(r):
		case r == '-' || r == '\'' || r == '&':
			next, _ := utf8.DecodeRuneInString(s[i+width:])
			if !unicode.IsLetter(next) && !(r == '-' && isDigit(next) && isNumbered(s[from:i])) {
				return i
			}
		default:
			return i
		}
		i += width
	}
	return i
}

// isVitamin reports whether a single letter that follows names a vitamin.
func isVitamin(word string) bool {
	return strings.EqualFold(word, "vitamin") || strings.EqualFold(word, "vit")
}

// isNumbered reports whether a hyphen and a number that follow belong to the
// word: "omega-3", "vitamin B-12".
func isNumbered(word string) bool {
	return strings.EqualFold(word, "omega") || strings.EqualFold(word, "n") || strings.EqualFold(word, "b")
}

// sortWord finds the kind of the word s[from:to] and may lengthen it: by the
// full stop of an abbreviation, or by the second word of "fl oz".
func sortWord(s string, from, to int, afterNumber bool) (lexer.TokenType, int) {
	word := s[from:to]
	dot := to
	if to < len(s) && s[to] == '.' {
		dot = to + 1
	}
	lower := strings.ToLower(word)
	if len(word) == 1 {
		return sortLetter(word, to, dot, afterNumber, s)
	}
	if second, ok := pairs[lower]; ok {
		if end := followedBy(s, dot, second.words); end > 0 {
			return second.kind, end
		}
	}
	if afterNumber {
		if unit, can, found := strings.Cut(lower, "-"); found && isKind(measureByWord[unit], Weight, Volume) && isKind(measureByWord[can], Container) {
			return sortWord(s, from, from+len(unit), true) // "15-oz-can"
		}
	}
	if number, unit, found := strings.Cut(lower, "-"); found && numberWords[number][1] > 0 && isKind(measureByWord[unit], Volume, Weight) {
		return tokNumber, from + len(number) // "half-cup"
	}
	if _, ok := numberWords[lower]; ok {
		if andHalf := " and half"; lower == "half" && len(s) >= to+len(andHalf) && strings.EqualFold(s[to:to+len(andHalf)], andHalf) {
			return tokWord, to + len(andHalf) // half and half: the cream
		}
		return tokNumber, to
	}
	if _, ok := sizes[lower]; ok {
		return tokSize, dotIfAbbreviated(lower, to, dot)
	}
	if hedges[lower] {
		return tokHedge, dotIfAbbreviated(lower, to, dot)
	}
	if m, ok := measureByWord[lower]; ok {
		switch lower {
		case "in": // a measure only as in "1 in piece" or "2 in."
			if !afterNumber {
				return tokWord, to
			}
		case "gr", "tb", "ts", "cc", "pk", "pc":
			if !afterNumber {
				return tokWord, to
			}
		}
		return kindToken[m.Kind], dot
	}
	if lower == "an" {
		return tokArticle, to
	}
	return tokWord, to
}

// sortLetter sorts a word of one letter.
func sortLetter(letter string, to, dot int, afterNumber bool, s string) (lexer.TokenType, int) {
	switch letter {
	case "x", "X":
		return tokTimes, to
	case "a", "A":
		return tokArticle, to
	}
	if !afterNumber {
		return tokWord, to
	}
	switch letter {
	case "c", "C", "t", "T", "l", "L":
		return tokVolume, dot
	case "g", "G":
		return tokWeight, dot
	}
	return tokWord, to
}

var kindToken = map[Kind]lexer.TokenType{
	Volume: tokVolume, Weight: tokWeight, Length: tokLength, Count: tokCount, Container: tokContainer,
}

// pairs are the two-word measures and sizes, by their first word.
var pairs = map[string]struct {
	words []string
	kind  lexer.TokenType
}{
	"fl":       {[]string{"oz", "ozs", "ounce", "ounces"}, tokVolume},
	"fluid":    {[]string{"oz", "ounce", "ounces"}, tokVolume},
	"metric":   {[]string{"cup", "cups"}, tokVolume},
	"imperial": {[]string{"pint", "pints"}, tokVolume},
	"extra":    {[]string{"large"}, tokSize},
}

// followedBy returns the end of one of words standing next in s[from:], with
// its full stop, or 0.
func followedBy(s string, from int, words []string) int {
	for from < len(s) && (s[from] == ' ' || s[from] == '.' || s[from] == '-') {
		from++
	}
	end := scanWord(s, from)
	for _, w := range words {
		if strings.EqualFold(s[from:end], w) {
			if end < len(s) && s[end] == '.' {
				end++
			}
			return end
		}
	}
	return 0
}

// dotIfAbbreviated swallows the full stop after an abbreviation only, so that
// a sentence may still end with "large."
func dotIfAbbreviated(lower string, to, dot int) int {
	switch lower {
	case "sm", "med", "lg", "lge", "approx", "ca", "nos":
		return dot
	}
	return to
}

func sortMark(r rune) lexer.TokenType {
	switch r {
	case '#':
		return tokMark
	case '-', '–', '—', '‐', '‑', '‒', '―':
		return tokDash
	case '/':
		return tokSlash
	case '(', '[', '{', '（':
		return tokOpen
	case ')', ']', '}', '）':
		return tokClose
	case ',', ';', '،', '，':
		return tokComma
	case '×', '*':
		return tokTimes
	}
	return tokMark
}
