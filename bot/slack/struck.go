package slack

import (
	"regexp"
	"strings"
)

var (
	// struckLine is a line that is struck through as a whole, with its bullet or number.
	struckLine = regexp.MustCompile(`^[ \t]*(?:[-*•◦▪–][ \t]+|\d{1,2}[.)][ \t]+)?~([^\s~](?:[^~]*[^\s~])?)~[ \t]*$`)
	// struckPiece is a part of a line that is struck through: its tildes touch it on
	// the inside and stand apart from words on the outside, which a tilde that
	// says "about" does not.
	struckPiece = regexp.MustCompile(`(^|[\s(])~([^\s~](?:[^~\n]*[^\s~])?)~($|[\s).,;:])`)
)

// withoutStruck takes out what is struck through, and returns it apart: who
// strikes an ingredient out wants it left out. A text of one line that is struck
// through as a whole stays.
func withoutStruck(text string) (kept string, struck []string) {
	if !strings.Contains(text, "~") || !strings.Contains(text, "\n") && struckLine.MatchString(text) {
		return text, nil
	}
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		if m := struckLine.FindStringSubmatch(line); m != nil {
			struck = append(struck, m[1])
			continue
		}
		line = struckPiece.ReplaceAllStringFunc(line, func(piece string) string {
			m := struckPiece.FindStringSubmatch(piece)
			struck = append(struck, m[2])
			if m[1] == "" {
				return strings.TrimLeft(m[3], " ")
			}
			return strings.TrimRight(m[1], " ") + m[3]
		})
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n"), struck
}

// leftOut says what was taken out because it is struck through.
func leftOut(struck []string) string {
	if len(struck) == 0 {
		return ""
	}
	return "Left out, because it is struck through: " + strings.Join(struck, "; ") + "."
}
