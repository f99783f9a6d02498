package slack

import (
	"regexp"
	"strings"
)

// Clean turns the text of a message as Slack sends it into what the person
// typed: links and channels by their label, no mentions of users or groups, no
// marks of bold, italic and code, plain quotes and spaces, and &, < and >
// unescaped once. An asterisk that is a bullet or a sign, and a tilde that says
// "about", stay.
//
// On text that holds neither & nor < a second Clean changes nothing.
func Clean(text string) string {
	text = tidy(text)
	text = angled.ReplaceAllStringFunc(text, label)
	text = unmark(text)
	return trim(unescaper.Replace(text))
}

// unescaper undoes Slack's escaping, in one pass so that "&amp;lt;" is "&lt;".
var unescaper = strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">")

// tidier puts plain characters for the ones that keyboards and web pages set
// in their place, takes out what has no width, and undoes escape's look-alikes.
var tidier = strings.NewReplacer(
	"\r\n", "\n", "\r", "\n", "\v", "\n", "\f", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n", "\x00", "",
	"‘", "'", "’", "'", "‚", "'", "‛", "'", "′", "'", "“", `"`, "”", `"`, "„", `"`, "‟", `"`, "″", `"`, "«", `"`, "»", `"`,
	"\u00a0", " ", "\u1680", " ", "\u2000", " ", "\u2001", " ", "\u2002", " ", "\u2003", " ", "\u2004", " ", "\u2005", " ",
	"\u2006", " ", "\u2007", " ", "\u2008", " ", "\u2009", " ", "\u200a", " ", "\u202f", " ", "\u205f", " ", "\u3000", " ",
	"\u00ad", "", "\u180e", "", "\u200b", "", "\u200c", "", "\u200d", "", "\u200e", "", "\u200f", "", "\u2060", "", "\ufeff", "", "\ufe0f", "",
	"\u202a", "", "\u202b", "", "\u202c", "", "\u202d", "", "\u202e", "", "\u2066", "", "\u2067", "", "\u2068", "", "\u2069", "",
	likeBacktick, "`", likeAsterisk, "*", likeUnderscore, "_", likeTilde, "~",
)

// tidy applies tidier; bytes that are no UTF-8 become U+FFFD.
func tidy(text string) string {
	return tidier.Replace(strings.ToValidUTF8(text, "\ufffd"))
}

// angled is what Slack sets in angle brackets, with a space after it; a < that
// was typed arrives as &lt;.
var angled = regexp.MustCompile(`<[^<>\n]*> ?`)

// label gives what stands for <...> in the text, and the space after it if
// anything does.
func label(s string) string {
	bracketed := strings.TrimSuffix(s, " ")
	said := labelled(bracketed)
	if said == "" {
		return ""
	}
	return said + s[len(bracketed):]
}

func labelled(s string) string {
	inner, name, named := strings.Cut(s[1:len(s)-1], "|")
	switch {
	case strings.HasPrefix(inner, "@"), strings.HasPrefix(inner, "!subteam"):
		return ""
	case strings.HasPrefix(inner, "#"):
		if !named || name == "" {
			return ""
		}
		return "#" + name
	case strings.HasPrefix(inner, "!"):
		return name // a date's fallback; nothing for "here" and its like
	case named && name != "":
		return name
	case strings.HasPrefix(inner, "http://"), strings.HasPrefix(inner, "https://"):
		return inner
	case strings.HasPrefix(inner, "mailto:"), strings.HasPrefix(inner, "tel:"):
		_, address, _ := strings.Cut(inner, ":")
		return address
	}
	return s
}

var (
	// fence begins or ends a code block.
	fence = regexp.MustCompile("[ \t]*`{3,}[ \t]*")
	// marked is text between marks of format that touch it on the inside and
	// stand apart from words on the outside.
	marked = map[byte]*regexp.Regexp{
		'*': regexp.MustCompile(`(^|[\s("'_~` + "`" + `])\*([^\s*](?:[^*\n]*[^\s*])?)\*($|[\s)"'_~.,:;!?` + "`" + `])`),
		'_': regexp.MustCompile(`(^|[\s("'*~` + "`" + `])_([^\s_](?:[^_\n]*[^\s_])?)_($|[\s)"'*~.,:;!?` + "`" + `])`),
		'`': regexp.MustCompile("(^|[\\s(\"'*_~])`([^\\s`](?:[^`\n]*[^\\s`])?)`($|[\\s)\"'*_~.,:;!?])"),
	}
	// struck is a whole line that is struck through.
	struck = regexp.MustCompile(`^~([^\s~](?:[^~]*[^\s~])?)~$`)
)

// deepest is how many marks are taken off that stand one inside another.
const deepest = 8

// unmark takes the marks of format off each line.
func unmark(text string) string {
	text = fence.ReplaceAllString(text, "\n")
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		for range deepest {
			before := line
			for _, c := range []byte("`*_") {
				line = marked[c].ReplaceAllString(line, "$1$2$3")
			}
			line = struck.ReplaceAllString(line, "$1")
			if line == before {
				break
			}
		}
		lines[i] = line
	}
	return strings.Join(lines, "\n")
}

// trim takes off the space at both ends of text and at the end of each line,
// and blank lines beyond one.
func trim(text string) string {
	var out []string
	blank := false
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.TrimRight(line, " \t")
		if line == "" {
			blank = true
			continue
		}
		if blank && len(out) > 0 {
			out = append(out, "")
		}
		blank = false
		out = append(out, line)
	}
	return strings.Trim(strings.Join(out, "\n"), " \t")
}
