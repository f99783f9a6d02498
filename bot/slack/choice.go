package slack

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/slack-go/slack"
)

// choice is a button: what it says on it, and what pressing it says.
type choice struct{ label, says, means string }

// Limits of Slack for buttons.
const (
	buttonsInBlock = 25
	labelLimit     = 75 // characters of a button's label and of its name for screen readers
)

var (
	// offer is how a reply offers its numbered suggestions.
	offer = regexp.MustCompile(`"apply 1"`)
	// offersAll is the offer of all of them.
	offersAll = regexp.MustCompile(`"apply all"`)
	// numbered is a suggestion: "1  Use ...", "1. Use ...".
	numbered = regexp.MustCompile(`^ ?(\d{1,2})(?:  |[.)] +)(\S.*)$`)
)

// choices finds the suggestions of a paragraph that offers "apply 1", by the
// lines that they stand on, numbered 1, 2, 3 and on. "apply all" has the line
// that offers it.
func choices(lines []string) map[int]choice {
	at := -1
	for i, line := range lines {
		if offer.MatchString(line) {
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	found := make(map[int]choice)
	var texts []string
	for i, line := range lines[:at] {
		m := numbered.FindStringSubmatch(line)
		if m == nil || m[1] != strconv.Itoa(len(found)+1) {
			continue
		}
		texts = append(texts, m[2])
		found[i] = choice{label: "Apply " + m[1], says: "apply " + m[1] + offerSign + offered(m[2]), means: m[2]}
	}
	if len(found) > 1 && offersAll.MatchString(lines[at]) {
		found[at] = choice{label: "Apply all", says: applyAll + offerSign + offered(texts...), means: "every suggestion"}
	}
	return found
}

// actionSay begins the action id of every button whose value is a text to say
// in the thread that it stands in.
const actionSay = "say_"

// row is a block of buttons. Their ids differ within a post.
func (p *page) row(choices []choice) *slack.ActionBlock {
	var elements []slack.BlockElement
	for _, c := range choices {
		p.buttons++
		b := slack.NewButtonBlockElement(actionSay+strconv.Itoa(p.buttons), c.says, slack.NewTextBlockObject(slack.PlainTextType, c.label, false, false))
		b.AccessibilityLabel = shorten(c.label+": "+c.means, labelLimit)
		elements = append(elements, b)
	}
	return slack.NewActionBlock("", elements...)
}

// shorten cuts s to at most n characters, at a word. The whole stands in the
// text above the button.
func shorten(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	s = string(r[:n-1])
	if i := strings.LastIndexByte(s, ' '); i > 0 {
		s = s[:i]
	}
	return s + "…"
}
