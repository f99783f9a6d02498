package fooddata

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Normalise returns the words of s in the form in which names are compared:
//
//   - lower case, accents folded (crème -> creme, jalapeño -> jalapeno);
//   - apostrophes dropped, so baker's is one word; every other mark divides
//     words, as a hyphen does (half-and-half is three);
//   - a per cent sign joined to its number (2 % -> 2%), a point kept in one (1.5%);
//   - each word in the singular, see [Singular];
//   - without "and" (or "&"), "of" and "the".
//
// It returns no words for a text without letters or digits.
func Normalise(s string) []string {
	folded := fold(s)
	count := 0
	for range strings.FieldsSeq(folded) {
		count++
	}
	words := make([]string, 0, count)
	for w := range strings.FieldsSeq(folded) {
		switch w = Singular(w); w {
		case "and", "of", "the":
		default:
			words = append(words, w)
		}
	}
	return words
}

// fold returns s with letters in lower case and without accents, and with a
// space for each mark that divides words.
func fold(s string) string {
	buf := make([]byte, 0, len(s)+8)
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			switch {
			case 'a' <= c && c <= 'z', '0' <= c && c <= '9':
				buf = append(buf, c)
			case 'A' <= c && c <= 'Z':
				buf = append(buf, c+'a'-'A')
			case c == '\'' || c == '`':
			case c == '%':
				buf = appendPercent(buf)
			case c == '.' && isDigit(s, i-1) && isDigit(s, i+1):
				buf = append(buf, c)
			default:
				buf = append(buf, ' ')
			}
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		i += size
		buf = appendFolded(buf, r)
	}
	return string(buf)
}

// appendFolded appends a rune outside ASCII.
func appendFolded(buf []byte, r rune) []byte {
	r = unicode.ToLower(r)
	if plain, ok := plainLetters[r]; ok {
		return append(buf, plain...)
	}
	switch {
	case r == '’' || r == '‘' || r == 'ʼ' || r == '′' || r == '\u00ad':
		return buf
	case unicode.Is(unicode.Mn, r): // an accent on its own, after its letter
		return buf
	case unicode.IsLetter(r) || unicode.IsDigit(r):
		return utf8.AppendRune(buf, r)
	}
	return append(buf, ' ')
}

// appendPercent joins a per cent sign to the number before it, if there is one,
// with or without a space between.
func appendPercent(buf []byte) []byte {
	end := len(buf)
	if end > 0 && buf[end-1] == ' ' {
		end--
	}
	if end > 0 && '0' <= buf[end-1] && buf[end-1] <= '9' {
		return append(buf[:end], '%', ' ')
	}
	return append(buf, ' ')
}

func isDigit(s string, i int) bool {
	return 0 <= i && i < len(s) && '0' <= s[i] && s[i] <= '9'
}

// plainLetters holds the letters with accents that occur in the names of foods
// in European languages, and what they fold to.
var plainLetters = foldTable(
	"a", "áàâäãåāăą",
	"ae", "æ",
	"c", "çćčċ",
	"d", "ďđð",
	"e", "éèêëēėęě",
	"g", "ğģ",
	"i", "íìîïīįı",
	"k", "ķ",
	"l", "łļľĺ",
	"n", "ñńňņ",
	"o", "óòôöõøōő",
	"oe", "œ",
	"r", "řŕ",
	"s", "śšşș",
	"ss", "ß",
	"t", "ťţț",
	"th", "þ",
	"u", "úùûüūůűų",
	"w", "ŵ",
	"y", "ýÿŷ",
	"z", "źżž",
)

func foldTable(pairs ...string) map[rune]string {
	m := make(map[rune]string)
	for i := 0; i < len(pairs); i += 2 {
		for _, r := range pairs[i+1] {
			m[r] = pairs[i]
		}
	}
	return m
}
